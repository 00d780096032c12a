"""Beds marked off in squares: names, sides and where things lie.

A square is named from the bed's marked corner: column letters along the
length, row numbers across, from 1. Names are fixed to that corner stake. In
drawings and in all coordinates the marked corner is the origin, x runs along
the letters and y along the numbers; seen from above, y lies to the right of x.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, fields
from fractions import Fraction
from functools import cached_property, lru_cache
from typing import NamedTuple

from tallybed.garden.findings import NOWHERE, Place
from tallybed.garden.grouping import grouped
from tallybed.garden.records.soil import Boards
from tallybed.garden.units import FOOT, Length


@lru_cache(maxsize=1_000)
def column_letters(column: int) -> str:
    """Return the letters of a column counted from 0: A to Z, then AA, AB and on."""
    letters = ""
    column += 1
    while column:
        column, rest = divmod(column - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return letters


@lru_cache(maxsize=10_000)
def _label(column: int, row: int) -> str:
    """Return the name of a square within its bed, by its column and row counted from 0."""
    return f"{column_letters(column)}{row + 1}"


def column_number(letters: str) -> int:
    """Return the column counted from 0 that ASCII letters name."""
    number = 0
    for letter in letters.upper():
        number = number * 26 + ord(letter) - ord("A") + 1
    return number - 1


class Square(NamedTuple):
    """One square of a bed; column and row are counted from 0.

    A tuple, since squares are hashed and compared more often than anything else.
    """

    bed: str
    column: int
    row: int

    @property
    def label(self) -> str:
        """The name within the bed: ``B3``."""
        return _label(self.column, self.row)

    def __str__(self) -> str:
        """Return the square with its bed: ``long/B3``."""
        return f"{self.bed}/{self.label}"


def by_row(square: Square) -> tuple[str, int, int]:
    """Order squares bed by bed and row by row; of themselves they are ordered column by column."""
    return square.bed, square.row, square.column


def by_bed(squares: Iterable[Square]) -> Mapping[str, tuple[Square, ...]]:
    """Return squares under the names of their beds, in order of name: each bed has a side of its own."""
    found = grouped(squares, lambda square: square.bed)
    return {bed: tuple(found[bed]) for bed in sorted(found)}


@dataclass(frozen=True, slots=True, kw_only=True)
class Trellis:
    """A support along one side, over the squares named."""

    side: str
    squares: tuple[Square, ...]
    height: Length
    lean: Length = field(default=Length())
    """How far its top stands in over the bed from its foot; negative where it leans out."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BedPath:
    """A path along one side; ``share`` of its area counts to this bed."""

    side: str
    width: Length
    share: Fraction = Fraction(1, 2)


@dataclass(frozen=True, slots=True, kw_only=True)
class RunOut:
    """Ground outside one side, before the squares named, where vines may be led."""

    side: str
    squares: tuple[Square, ...]
    reach: Length


@dataclass(frozen=True, kw_only=True, repr=False)
class Bed:
    """A bed: whole squares, some of which may be omitted."""

    name: str
    title: str
    columns: int
    rows: int
    side: Length = field(default=Length.of(1, FOOT))
    """Side of one square."""
    bearing: Fraction = Fraction(90)
    """Degrees clockwise from north in which the letters run from the marked corner."""
    bearing_told: bool = True
    """Whether the garden says so; else east is taken."""
    omitted: frozenset[Square] = frozenset()
    trellises: tuple[Trellis, ...] = ()
    paths: tuple[BedPath, ...] = ()
    run_outs: tuple[RunOut, ...] = ()
    boards: Boards | None = None
    """What holds its soil in; None where not told."""
    note: str = ""
    since: str = ""
    """The first season it is there, by name; empty where not told: it always was."""
    until: str = ""
    """The last season it is there; empty where not told: it still is."""
    place: Place = field(default=NOWHERE, compare=False, repr=False)

    def __repr__(self) -> str:
        """Return its fields as text, omitted squares in order: the same for the same bed in every run."""
        told = {one.name: getattr(self, one.name) for one in fields(self) if one.repr}
        told["omitted"] = sorted(self.omitted)
        return f"Bed({', '.join(f'{name}={value!r}' for name, value in told.items())})"

    @property
    def called(self) -> str:
        """What it is called within a sentence: ``the long bed``; ``bed long`` where it has no title."""
        if self.title in ("", self.name):
            return f"bed {self.name}"
        first, _space, rest = self.title.partition(" ")
        return f"{first.lower()} {rest}" if first in ("The", "A", "An", "Our") and rest else self.title

    def was_there(self, season: str) -> bool:
        """Return whether it is there in the season of that name."""
        return self.since <= season and (not self.until or season <= self.until)

    @property
    def there(self) -> str:
        """When it is there: ``from 2025 on``, ``until 2026``, ``in 2025 alone``; empty: in every season."""
        if self.since and self.since == self.until:
            return f"in {self.since} alone"
        if self.since and self.until:
            return f"from {self.since} until {self.until}"
        return f"from {self.since} on" if self.since else f"until {self.until}" if self.until else ""

    @cached_property
    def squares(self) -> tuple[Square, ...]:
        """Every square that is there, row by row from the marked corner."""
        every = (Square(self.name, column, row) for row in range(self.rows) for column in range(self.columns))
        return tuple(square for square in every if square not in self.omitted)

    def has(self, square: Square) -> bool:
        """Return whether the square is there."""
        inside = 0 <= square.column < self.columns and 0 <= square.row < self.rows
        return square.bed == self.name and inside and square not in self.omitted

    @cached_property
    def sides(self) -> tuple[str, str, str, str]:
        """Names of the sides: row 1, last row, column A, last column."""
        return ("1", str(self.rows), "A", column_letters(self.columns - 1))

    def along(self, side: str) -> tuple[Square, ...]:
        """Return the squares that touch one of the four sides, in order.

        In a bed of one row (or column) the sides ``1`` and last row have one name
        and mean the edge at row 1.
        """
        first, last, start, _end = self.sides
        if side in (first, last):
            row = 0 if side == first else self.rows - 1
            return tuple(square for square in self.squares if square.row == row)
        column = 0 if side == start else self.columns - 1
        return tuple(square for square in self.squares if square.column == column)

    @property
    def square_area(self) -> Fraction:
        """Area of one square, in square feet."""
        return self.side.within(FOOT) ** 2

    @property
    def square_feet(self) -> Fraction:
        """Area of the squares, in square feet."""
        return self.square_area * len(self.squares)

    @cached_property
    def path_square_feet(self) -> Fraction:
        """The bed's share of its paths, in square feet."""
        share = Fraction(0)
        for path in self.paths:
            length = self.side.within(FOOT) * len(self.along(path.side))
            share += length * path.width.within(FOOT) * path.share
        return share

    @property
    def run_out_square_feet(self) -> Fraction:
        """Area of the run-out grounds, in square feet."""
        side = self.side.within(FOOT)
        return sum(
            (side * len(ground.squares) * ground.reach.within(FOOT) for ground in self.run_outs), Fraction(0)
        )


def blocks(squares: Iterable[Square]) -> Iterator[tuple[Square, Square]]:
    """Return rectangles (first, last square) that hold each of the squares once, bed by bed.

    Taken from the marked corner on: the longest run along the letters, then as many
    further rows as repeat it. That makes few rectangles, not always the fewest; the same
    squares always give the same ones.
    """
    return iter(_blocks(frozenset(squares)))


@lru_cache(maxsize=20_000)
def _blocks(squares: frozenset[Square]) -> tuple[tuple[Square, Square], ...]:
    """Return the same, once for the same squares: a planting's are asked for on page after page."""
    left = set(squares)
    found = []
    for start in sorted(left, key=by_row):
        if start not in left:
            continue
        width = 1
        while Square(start.bed, start.column + width, start.row) in left:
            width += 1
        height = 1
        while left.issuperset(_run(start, width, height)):
            height += 1
        for down in range(height):
            left.difference_update(_run(start, width, down))
        found.append((start, Square(start.bed, start.column + width - 1, start.row + height - 1)))
    return tuple(found)


def _run(start: Square, width: int, down: int) -> tuple[Square, ...]:
    """Return ``width`` squares along the letters, ``down`` rows below the first."""
    return tuple(Square(start.bed, start.column + step, start.row + down) for step in range(width))


def in_words(squares: Iterable[Square], *, with_bed: bool = True) -> str:
    """Return squares as a gardener would write them: ``long/A1:B2, C4``."""
    words: list[str] = []
    bed = None
    for first, last in blocks(squares):
        name = first.label if first == last else f"{first.label}:{last.label}"
        if with_bed and first.bed != bed:
            name = f"{first.bed}/{name}"
        bed = first.bed
        words.append(name)
    return ", ".join(words)
