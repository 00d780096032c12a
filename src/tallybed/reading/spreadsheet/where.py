"""Where a row of a spreadsheet says it was picked: squares, with their bed or without, or a bed alone."""

from __future__ import annotations

import re

from tallybed.garden.naming import folded
from tallybed.garden.squares import Square
from tallybed.reading.base.problems import Misread, quoted
from tallybed.reading.scale.claims import Kind, Line
from tallybed.reading.scale.places import find_places, places_told
from tallybed.reading.scale.vocabulary import Vocabulary
from tallybed.reading.text.squares import no_such_bed

_JOINTS = re.compile(r"\s*[;&\n]\s*|\s+and\s+", re.IGNORECASE)


def where(squares: str, bed_told: str, vocabulary: Vocabulary) -> tuple[tuple[tuple[Square, ...], ...], str]:
    """Return the squares, for each bed they can be in, and a bed that was told alone."""
    beds = vocabulary.context.beds
    typed = " ".join(_JOINTS.sub(", ", squares).split())
    bed = _bed_named(bed_told, vocabulary) if bed_told else ""
    if not typed:
        return (), bed
    alone = beds.by_name.get(typed.casefold())
    if alone is not None:
        return (), alone.name
    head, _space, tail = typed.partition(" ")
    if head.casefold() in beds.by_name and tail:
        typed = f"{head}/{tail}"
    if bed and "/" not in typed:
        typed = f"{bed}/{typed}"
    try:
        return vocabulary.places(typed), ""
    except Misread as misread:
        found = _as_at_the_scale(squares, bed, vocabulary)
        if found:
            return found, ""
        if squares.strip().upper() in vocabulary.tags:
            told = f"{quoted(squares.strip())} is the tag of a planting, in a column of squares"
            raise Misread(misread.code, told, "squares, or --map COLUMN=tag for that column") from None
        raise misread from None


def _as_at_the_scale(text: str, bed: str, vocabulary: Vocabulary) -> tuple[tuple[Square, ...], ...]:
    """Return squares as at the scale, such as ``long A3 to C3``; none where not all is understood."""
    line = Line(" ".join(text.split()))
    if bed:
        line.claim(Kind.BED, 0, 0, bed)
    find_places(line, vocabulary)
    if line.words_left():
        return ()
    try:
        return places_told(line, vocabulary)
    except Misread:
        return ()


def _bed_named(text: str, vocabulary: Vocabulary) -> str:
    """Return the short name of a bed told by its name or title, ``Long bed`` too. Raises Misread."""
    wanted = _bare(text)
    beds = vocabulary.context.beds
    for bed in beds.by_name.values():
        if wanted in (_bare(bed.name), _bare(bed.title)):
            return bed.name
    gone = (bed.name for bed in beds.elsewhen.values() if wanted in (_bare(bed.name), _bare(bed.title)))
    raise no_such_bed(next(gone, text), beds)


def _bare(text: str) -> str:
    """Return a bed's name as folded words without *the* and *bed*, unless nothing else is left."""
    found = re.findall(r"[^\W_]+", folded(text))
    return " ".join(word for word in found if word not in ("the", "bed")) or " ".join(found)
