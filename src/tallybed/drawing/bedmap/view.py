"""What of a bed's month is drawn: who stands where on the day shown, and what changed hands before.

The drawing shows one day (the month's ``as_of``). A planting that has left its
squares by then has no plants drawn; where nothing followed it the ground still
says what stood there and how it ended, over or lost.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from functools import cached_property

from tallybed.drawing.bedmap.layout import edge_of, units
from tallybed.garden.days import without_year
from tallybed.garden.outline import together
from tallybed.garden.squares import Bed, Square, blocks, by_row
from tallybed.reckoning.calendar.month import BedMonth, DrawnPlanting, Holder
from tallybed.reckoning.calendar.stages import Stage
from tallybed.reckoning.calendar.strips import PlantingStrip
from tallybed.reckoning.room.spacing import Spot
from tallybed.reckoning.squares.occupancy import Grade


@dataclass(frozen=True, kw_only=True)
class Group:
    """Squares of one planting that hang together."""

    drawn: DrawnPlanting
    squares: tuple[Square, ...]
    holders: Mapping[Square, Holder]
    gone: bool
    """Whether it has left its squares, cleared or lost, and nothing has followed: no plants are left."""

    @property
    def spots(self) -> tuple[Spot, ...]:
        """Where its plants stand, row by row."""
        if self.gone:
            return ()
        inside = frozenset(self.squares)
        spots = [spot for spot in self.drawn.spots if spot.square in inside]
        return tuple(sorted(spots, key=lambda spot: (float(spot.y), float(spot.x))))

    @property
    def plants(self) -> int | None:
        """Plants that stand in its squares; None where nobody knows."""
        counts = [self.holders[square].plants for square in self.squares]
        known = [count for count in counts if count is not None]
        return sum(known) if len(known) == len(counts) else None

    @cached_property
    def parts(self) -> tuple[tuple[Grade, Stage, tuple[Square, ...]], ...]:
        """Its squares, apart where they are known differently well or are at another stage.

        Of one that has gone it counts how well its end is known.
        """
        found: dict[tuple[Grade, Stage], list[Square]] = {}
        for square in self.squares:
            holder = self.holders[square]
            grade = holder.end if self.gone and holder.end is not None else holder.grade
            found.setdefault((grade, holder.stage), []).append(square)
        return tuple((grade, stage, tuple(found[grade, stage])) for grade, stage in sorted(found))

    @property
    def vining(self) -> bool:
        """Whether it is led out over a side and up, so that it has vines to draw."""
        stages = {stage for _grade, stage, _squares in self.parts}
        return self.drawn.led_out is not None and not self.gone and not stages <= {Stage.SOWN, Stage.BARE}

    @property
    def shares(self) -> bool:
        """Whether it has less than the whole of some square."""
        return any(self.holders[square].share < 1 for square in self.squares)


@dataclass(frozen=True, slots=True, kw_only=True)
class Handover:
    """One holder of a square within the month, with the days it came and went."""

    planting: str
    name: str
    starts: date | None
    ends: date | None
    grade: Grade
    end: Grade | None
    """How well it is known that it went; None while it stands."""
    lost: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangedSquares:
    """A rectangle of squares that changed hands in the same way."""

    first: Square
    last: Square
    handovers: tuple[Handover, ...]


@dataclass(frozen=True, kw_only=True)
class View:
    """One bed's month, ready to be drawn."""

    month: BedMonth
    groups: tuple[Group, ...]
    """By first square, then planting."""
    bare: tuple[Square, ...]
    """Squares that nothing has held in the month so far, nor before it up to an end that nobody recorded."""
    changed: tuple[ChangedSquares, ...]
    places: Mapping[tuple[str, Square], int]
    """How many holders of the square come before this planting: 0 for one that has it alone."""

    @cached_property
    def standing(self) -> tuple[Group, ...]:
        """The groups that stand."""
        return tuple(group for group in self.groups if not group.gone)

    def alone(self, square: Square) -> bool:
        """Return whether one planting at the most stands in a square."""
        return sum(square in each.holders for each in self.standing) <= 1

    def nesting(self, group: Group) -> int:
        """Return how far in a group is drawn, so that the outlines of shared squares nest."""
        return max(self.places.get((group.drawn.planting, square), 0) for square in group.squares)


def viewed(month: BedMonth) -> View:
    """Return what is drawn of a bed's month. The order of its records makes no difference."""
    drawn = {each.planting: each for each in month.drawn}
    by_square: dict[Square, list[Holder]] = {square: [] for square in month.bed.squares}
    for holder in sorted(month.holders, key=lambda each: (each.first, each.last, each.planting)):
        if holder.square in by_square and holder.planting in drawn:
            by_square[holder.square].append(holder)
    here: dict[str, dict[Square, Holder]] = {}
    gone: dict[str, dict[Square, Holder]] = {}
    bare: list[Square] = []
    places: dict[tuple[str, Square], int] = {}
    ended = {holder.square: holder for holder in month.ended}
    for square, holders in by_square.items():
        present = {each.planting: each for each in holders if _stands(each, month.as_of)}
        for place, planting in enumerate(sorted(present)):
            here.setdefault(planting, {})[square] = present[planting]
            places[planting, square] = place
        if present:
            continue
        past = [each for each in holders if each.first <= month.as_of]
        last = max(past, key=lambda each: (each.last, each.planting), default=ended.get(square))
        if last is None:
            bare.append(square)
        else:
            gone.setdefault(last.planting, {})[square] = last
    groups = sorted([*_groups(drawn, here, gone=False), *_groups(drawn, gone, gone=True)], key=_first)
    return View(
        month=month, groups=tuple(groups), bare=tuple(bare), changed=_changed(by_square, drawn), places=places
    )


def stages_of(view: View) -> frozenset[Stage]:
    """Return the stages that are shown."""
    return frozenset(stage for each in view.groups for _grade, stage, _squares in each.parts)


def grades_of(view: View) -> frozenset[Grade]:
    """Return how well the plantings that are shown are known."""
    return frozenset(grade for each in view.groups for grade, _stage, _squares in each.parts)


def reach_over(bed: Bed, group: Group) -> float:
    """Return how far a group's vines are led out, in units: its own reach, within the ground's."""
    led = group.drawn.led_out
    if led is None or not group.vining:
        return 0
    edge = edge_of(bed, led.side)
    grounds = [ground.reach for ground in bed.run_outs if edge_of(bed, ground.side) is edge]
    return units(min([led.reach, *grounds]))


def letters_of(drawn: DrawnPlanting | PlantingStrip) -> str:
    """Return the letters a drawing shows for a planting; one without gets the first two of its name."""
    return drawn.letters or drawn.name[:2].capitalize() or "?"


def short_tag(drawn: DrawnPlanting) -> str:
    """Return the tag, or the number that tells a second planting of a crop from the first."""
    if drawn.tag:
        return drawn.tag
    number = drawn.planting.rpartition("-")[2]
    return number if number.isdigit() else ""


def gone_since(group: Group) -> date | None:
    """Return the day since which a planting has gone from all its squares; None where that is not known."""
    days = [holder.ends for holder in group.holders.values() if holder.ends]
    return max(days) if group.gone and len(days) == len(group.holders) else None


def since(group: Group) -> str:
    """Return `` since 12 May`` for a planting that has gone, where its day is known."""
    day = gone_since(group)
    return f" since {without_year(day)}" if day else ""


def _stands(holder: Holder, day: date) -> bool:
    """Return whether a holder stands in its square on a day."""
    return holder.first <= day <= holder.last and holder.stage not in (Stage.OVER, Stage.LOST)


def _groups(
    drawn: Mapping[str, DrawnPlanting], found: Mapping[str, Mapping[Square, Holder]], *, gone: bool
) -> Iterable[Group]:
    """Return each planting's squares in pieces that hang together, by first square."""
    groups = []
    for planting, holders in found.items():
        cells = {(square.column, square.row): square for square in holders}
        for part in together(cells):
            squares = sorted((cells[cell] for cell in part), key=by_row)
            groups.append(
                Group(
                    drawn=drawn[planting],
                    squares=tuple(squares),
                    holders={square: holders[square] for square in squares},
                    gone=gone,
                )
            )
    return groups


def _changed(
    by_square: Mapping[Square, list[Holder]], drawn: Mapping[str, DrawnPlanting]
) -> tuple[ChangedSquares, ...]:
    """Return the rectangles of squares that changed hands in the same way, by first square."""
    same: dict[tuple[Handover, ...], list[Square]] = {}
    for square, holders in by_square.items():
        if any(each.starts or each.ends for each in holders):
            same.setdefault(tuple(_handover(each, drawn) for each in holders), []).append(square)
    changed = [
        ChangedSquares(first=first, last=last, handovers=handovers)
        for handovers, squares in same.items()
        for first, last in blocks(squares)
    ]
    return tuple(sorted(changed, key=lambda each: by_row(each.first)))


def _handover(holder: Holder, drawn: Mapping[str, DrawnPlanting]) -> Handover:
    """Return a holder as the description tells it."""
    return Handover(
        planting=holder.planting,
        name=drawn[holder.planting].name,
        starts=holder.starts,
        ends=holder.ends,
        grade=holder.grade,
        end=holder.end,
        lost=holder.stage is Stage.LOST,
    )


def _first(group: Group) -> tuple[tuple[str, int, int], str]:
    """Order groups by their first square, then by planting."""
    return by_row(group.squares[0]), group.drawn.planting
