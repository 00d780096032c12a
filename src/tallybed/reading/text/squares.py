"""Squares as people type them: ``B3``, ``A1:B2``, ``long/A1:A4, C2``, or a bed's name alone."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from tallybed.garden.naming import nearest
from tallybed.garden.squares import Bed, Square, column_letters, column_number, in_words
from tallybed.reading.base.problems import LeftOut, Misread, listed, quoted

SQUARES = "squares such as B3 or A1:B2"
LIKE_A_SQUARE = re.compile(r"[A-Za-z]{1,2}[0-9]+")
_PART = re.compile(r"([A-Za-z]{1,3})([0-9]{1,4})(?:\s*:\s*([A-Za-z]{1,3})([0-9]{1,4}))?")
_DASHED = re.compile(r"([A-Za-z]{1,2}[0-9]{1,3})\s*(?:-|–|—|\.\.|to)\s*([A-Za-z]{1,2}[0-9]{1,3})")


@dataclass(frozen=True, slots=True)
class Beds:
    """The beds that squares can be named in."""

    by_name: Mapping[str, Bed]
    """Name, casefolded, to bed."""
    whole: bool = True
    """False where some bed could not be read: an unknown one may be that."""
    elsewhen: Mapping[str, Bed] = field(default_factory=dict)
    """The garden's beds that are not there in the season that is read, by name, casefolded."""
    known: dict[tuple[str, ...], tuple[Square, ...]] = field(default_factory=dict, compare=False, repr=False)
    """Texts that named squares in these beds before, with those: records that name the same share them."""

    @classmethod
    def of(cls, beds: Iterable[Bed], *, whole: bool = True) -> Beds:
        """Index beds by name."""
        return cls({bed.name.casefold(): bed for bed in beds}, whole)

    def in_season(self, season: str) -> Beds:
        """Return those that are there in a season: the very same where none is missing."""
        gone = {name: bed for name, bed in self.by_name.items() if not bed.was_there(season)}
        if not gone:
            return self
        there = {name: bed for name, bed in self.by_name.items() if name not in gone}
        return Beds(there, self.whole, gone)

    @property
    def names(self) -> tuple[str, ...]:
        """The beds' names, in order."""
        return tuple(sorted(bed.name for bed in self.by_name.values()))


def wanted(beds: Beds) -> str:
    """Return what is expected where squares are to be named: with a bed, where there are several."""
    if len(beds.by_name) < 2:
        return SQUARES
    first = beds.names[0]
    return f"squares such as {first}/B3 or {first}/A1:B2, or a bed: {listed(beds.names)}"


def squares(texts: Iterable[str], beds: Beds) -> tuple[Square, ...]:
    """Return the squares that texts name, sorted, each once. The bed carries over from part to part.

    Raises Misread (``part`` says which text is wrong, ``at`` where in it) or
    LeftOut, where a bed that could not be read may be meant.
    """
    named = tuple(texts)
    if named not in beds.known:
        beds.known[named] = _squares(named, beds)
    return beds.known[named]


def _squares(texts: Iterable[str], beds: Beds) -> tuple[Square, ...]:
    found: set[Square] = set()
    bed: Bed | None = None
    for number, text in enumerate(texts):
        at = 0
        for part in text.split(","):
            lead = len(part) - len(part.lstrip())
            try:
                bed = _add(part.strip(), bed, beds, found, at + lead)
            except Misread as misread:
                misread.part = number
                raise
            at += len(part) + 1
    return tuple(sorted(found))


def _add(part: str, bed: Bed | None, beds: Beds, found: set[Square], at: int) -> Bed | None:
    """Add one part's squares; return the bed that carries over."""
    name, slash, rest = (text.strip() for text in part.rpartition("/"))
    if slash:
        bed = _bed(name, beds, at)
    elif rest.casefold() in beds.by_name:
        bed = beds.by_name[rest.casefold()]
        found.update(bed.squares)
        return bed
    elif rest.casefold() in beds.elsewhen:
        raise no_such_bed(rest, beds, at)
    ends = _ends(rest, beds, bool(slash), at)
    if bed is None:
        bed = _only_bed(rest, beds, at)
    found.update(_block(ends, rest, bed, at))
    return bed


def _bed(name: str, beds: Beds, at: int) -> Bed:
    """Return the bed of a name. Raises Misread, or LeftOut where one that could not be read may be meant."""
    bed = beds.by_name.get(name.casefold())
    if bed is not None:
        return bed
    if not beds.whole and name.casefold() not in beds.elsewhen:
        raise LeftOut
    raise no_such_bed(name, beds, at)


def no_such_bed(name: str, beds: Beds, at: int = 0) -> Misread:
    """Return what is wrong with a name that no bed has in the season that is read."""
    other = beds.elsewhen.get(name.casefold())
    code, found = "unknown-bed", f"there is no bed {quoted(name)}"
    if other is not None:
        code, found = "bed-not-there", f"garden.yaml has the bed {other.name} {other.there}"
    return Misread(code, found, listed(beds.names), nearest(name, beds.names), at=at)


def _only_bed(rest: str, beds: Beds, at: int) -> Bed:
    """Return the garden's one bed. Raises Misread if it has several or none, LeftOut if one was not read."""
    if not beds.whole:
        raise LeftOut
    if not beds.by_name and beds.elsewhen:
        found = "no bed of content/garden.yaml is there in this season, so no square can be named"
        raise Misread("no-bed", found, at=at)
    if not beds.by_name:
        raise Misread("no-bed", "content/garden.yaml describes no bed, so no square can be named", at=at)
    if len(beds.by_name) > 1:
        raise Misread(
            "bed-not-told",
            f"{quoted(rest)} could be in any of {len(beds.by_name)} beds",
            "the bed’s name before it, as in " + listed(f"{name}/{rest}" for name in beds.names[:3]),
            at=at,
        )
    return next(iter(beds.by_name.values()))


def _ends(rest: str, beds: Beds, given: bool, at: int) -> tuple[int, int, int, int]:
    """Return first column, first row, last column, last row, counted from 0, in rising order."""
    match = _PART.fullmatch(rest)
    if match is not None:
        column, row, last_column, last_row = match.groups()
        columns = sorted((column_number(column), column_number(last_column or column)))
        rows = sorted((int(row) - 1, int(last_row or row) - 1))
        return columns[0], rows[0], columns[1], rows[1]
    dashed = _DASHED.fullmatch(rest)
    close = f"{dashed.group(1)}:{dashed.group(2)}" if dashed else ""
    if not close and not given and not beds.whole and re.fullmatch(r"[\w-]+", rest):
        raise LeftOut
    if not close and not given:
        close = nearest(rest, beds.names)
    found = f"{quoted(rest)} is not a square" if rest else "a square is missing"
    raise Misread("square", found, SQUARES if given else wanted(beds), close, at=at)


def _block(ends: tuple[int, int, int, int], rest: str, bed: Bed, at: int) -> Iterable[Square]:
    """Return the squares from corner to corner, both inside. Raises Misread where the bed lacks any."""
    first_column, first_row, last_column, last_row = ends
    if first_row < 0 or last_column >= bed.columns or last_row >= bed.rows:
        last = f"{column_letters(bed.columns - 1)}{bed.rows}"
        raise Misread(
            "square-outside",
            f"{quoted(rest)} lies outside the bed {bed.name}",
            f"squares from A1 to {last}",
            at=at,
        )
    block = [
        Square(bed.name, column, row)
        for column in range(first_column, last_column + 1)
        for row in range(first_row, last_row + 1)
    ]
    gone = [square for square in block if square in bed.omitted]
    if gone:
        raise Misread(
            "square-omitted",
            f"the bed {bed.name} does not have {in_words(gone, with_bed=False)}, which {quoted(rest)} covers",
            at=at,
        )
    return block
