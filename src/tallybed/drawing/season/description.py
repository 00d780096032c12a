"""What a season strip shows, in words: for those who hear it, and for the names of its links."""

from __future__ import annotations

from datetime import date

from tallybed.drawing.bedmap.description import counted
from tallybed.garden.days import Span, in_full, short
from tallybed.garden.squares import Bed, Square, in_words
from tallybed.reckoning.calendar.strips import Strand


def letters_of(strand: Strand) -> str:
    """Return the letters a strip shows for a planting; one without gets the first two of its name."""
    return strand.letters or strand.name[:2].capitalize() or "?"


def told(strand: Strand) -> str:
    """Return a planting in words: ``spinach Bloomsdale (SP1), A1:B2, 21 Mar to 15 May, lost``."""
    words = f"{strand.name} {strand.variety}".strip()
    if strand.tag:
        words += f" ({strand.tag})"
    alike: dict[tuple[date, date, bool], list[Square]] = {}
    for spell in strand.spells:
        alike.setdefault((spell.first, spell.last, spell.lost), []).append(spell.square)
    parts = [
        f"{in_words(squares, with_bed=False)}, {short(first)} to {short(last)}{', lost' if lost else ''}"
        for (first, last, lost), squares in alike.items()
    ]
    return f"{words}, {'; '.join(parts)}"


def described(bed: Bed, span: Span, strands: tuple[Strand, ...], today: date | None) -> str:
    """Return how to read the strip, and how much is on it."""
    number = sum(bool(each.spells) for each in strands)
    if today is None or today < span.first:
        until = "All of it is planned."
    elif today < span.last:
        until = f"Recorded to {in_full(today)}; later days are planned."
    else:
        until = "The season is over."
    return (
        f"{counted(len(bed.squares), 'square')}, one to a line from {bed.squares[0].label}, and "
        f"{counted(number, 'planting')}, each a bar from its first day to its last. {until} "
        "The table says the same."
    )
