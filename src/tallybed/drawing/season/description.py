"""What a season strip shows, in words: for those who hear it, and for the names of its links."""

from __future__ import annotations

from datetime import date

from tallybed.garden.days import Span, in_full, short
from tallybed.garden.plurals import figured
from tallybed.garden.squares import Bed, Square, in_words
from tallybed.reckoning.calendar.strips import PlantingStrip


def told(planting_strip: PlantingStrip) -> str:
    """Return a planting in words: ``spinach Bloomsdale (SP1), A1:B2, 21 Mar to 15 May, lost``."""
    words = f"{planting_strip.name} {planting_strip.variety}".strip()
    if planting_strip.tag:
        words += f" ({planting_strip.tag})"
    alike: dict[tuple[date, date, bool], list[Square]] = {}
    for course in planting_strip.courses:
        alike.setdefault((course.first, course.last, course.lost), []).append(course.square)
    parts = [
        f"{in_words(squares, with_bed=False)}, {short(first)} to {short(last)}{', lost' if lost else ''}"
        for (first, last, lost), squares in alike.items()
    ]
    return f"{words}, {'; '.join(parts)}"


def described(bed: Bed, span: Span, planting_strips: tuple[PlantingStrip, ...], today: date | None) -> str:
    """Return how to read the strip, and how much is on it."""
    number = sum(bool(each.courses) for each in planting_strips)
    if today is None or today < span.first:
        until = "All of it is planned."
    elif today < span.last:
        until = f"Recorded to {in_full(today)}; later days are planned."
    else:
        until = "The season is over."
    alike = ", those alike in one line," if len(bed.squares) > 1 else ""
    bars = "a bar" if number == 1 else "each a bar"
    return (
        f"{figured(len(bed.squares), 'square')}{alike} and {figured(number, 'planting')}, "
        f"{bars} from its first day to its last. {until} The table says the same."
    )
