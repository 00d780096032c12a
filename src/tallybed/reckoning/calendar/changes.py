"""What changed in a bed within some days: what came, what went, what was thinned or lost."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import date

from tallybed.garden.days import ONE_DAY
from tallybed.garden.grouping import grouped
from tallybed.garden.records.log import STARTING, TAKING_SOME, Event, Verb
from tallybed.garden.records.plan import Start
from tallybed.garden.squares import Bed, Square
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.squares.occupancy import Grade, Holding
from tallybed.reckoning.squares.stays import Stay

_COMES = {Start.SOW: "sown", Start.SET_OUT: "set out", Start.CARRIED: "stands from before"}
FIRST_RECORDED = "first recorded"
"""How a planting comes that neither plan nor log has a beginning of."""
MOVED_HERE = "moved here"
"""How a planting comes out of another bed."""
IN_PART = " in part"
"""What a change in some squares adds to its word."""
_ORDER = ("failed", "lost", "cleared", "moved", "sown", "set out", "resown", "thinned")


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """One change, in all squares of the bed that it took in the same way."""

    day: date
    squares: tuple[Square, ...]
    """In bed order."""
    planting: str
    what: str
    """``sown``, ``set out``, ``resown``, ``thinned``, ``failed``, ``lost``, ``cleared``, ``moved``;
    ``lost in part`` and so on where some plants stay; ``moved here``, ``first recorded``."""
    grade: Grade
    plants: int | None = None
    """Plants put in, lost, cleared or moved; for ``thinned``, those left; in all, as the line says."""
    why: str = ""
    """The cause that the log gives."""
    to: tuple[Square, ...] = ()
    """Where what was moved stands now."""
    line: Event | None = None
    """The line of the log, where it tells a number of plants: two such lines are never one change."""


def changes(holding: Holding, bed: Bed, stays: tuple[Stay, ...]) -> tuple[Change, ...]:
    """Return the changes in a bed within the season, by day, in the order of its squares."""
    in_bed = {square: place for place, square in enumerate(bed.squares)}
    stays = tuple(stay for stay in stays if stay.square in in_bed)
    together: dict[Change, set[Square]] = {}
    for change in _by_square(holding, bed, stays):
        if change.day in holding.span:
            together.setdefault(replace(change, squares=()), set()).update(change.squares)
    found = [
        replace(alike, squares=tuple(sorted(squares, key=in_bed.__getitem__)))
        for alike, squares in together.items()
    ]
    return tuple(sorted(found, key=lambda change: _order(change, in_bed)))


def _order(change: Change, in_bed: dict[Square, int]) -> tuple[date, int, int, str, str, int]:
    """Order changes by day, by what goes and comes, then by their first square in the bed."""
    plain = change.what.removesuffix(IN_PART)
    rank = _ORDER.index(plain) if plain in _ORDER else len(_ORDER)
    return change.day, rank, in_bed[change.squares[0]], change.planting, change.why, change.plants or 0


def _by_square(holding: Holding, bed: Bed, stays: tuple[Stay, ...]) -> Iterator[Change]:
    """Yield the changes of each planting square by square, in any order of days."""
    by_planting = grouped(stays, lambda stay: stay.planting)
    for key, own in by_planting.items():
        planting = holding.planting(key)
        yield from _recorded(planting, bed, own)
        for stay in own:
            yield from _come(planting, stay)
            yield from _gone(holding, stay, stays)


def _recorded(planting: Planting, bed: Bed, own: list[Stay]) -> Iterator[Change]:
    """Yield the changes that lines of the log tell of."""
    for event, told in planting.lines:
        if not event.verb.meaning.change:
            continue
        named = [square for square in told if bed.has(square)]
        if not told:
            stood = (stay.square for stay in own if stay.first <= event.day <= stay.last + ONE_DAY)
            named = [square for square in stood if square not in event.to]
        plants = event.leaving if event.verb is Verb.THIN else event.plants
        for square in named:
            yield Change(
                day=event.day,
                squares=(square,),
                planting=planting.key,
                what=event.verb.meaning.change + (IN_PART if _in_part(event, square, own) else ""),
                grade=Grade.SEEN,
                plants=plants,
                why=event.because,
                to=event.to,
                line=event if plants is not None else None,
            )
        arrived = [square for square in event.to if bed.has(square)]
        if arrived and not named:
            yield Change(
                day=event.day,
                squares=tuple(arrived),
                planting=planting.key,
                what=MOVED_HERE,
                grade=Grade.SEEN,
                plants=event.plants,
                line=event if event.plants is not None else None,
            )


def _in_part(event: Event, square: Square, own: Iterable[Stay]) -> bool:
    """Return whether a line took some of a square's plants and left others."""
    if event.plants is None or event.verb not in TAKING_SOME:
        return False
    return any(stay.square == square and stay.first <= event.day <= stay.last for stay in own)


def _come(planting: Planting, stay: Stay) -> Iterator[Change]:
    """Yield the coming of a stay that no line of the log tells of."""
    told = any(
        event.day == stay.first
        and ((event.verb in STARTING and (not own or stay.square in own)) or stay.square in event.to)
        for event, own in planting.lines
    )
    if told or stay.came is None:
        return
    grade = stay.holds[0].grade
    # A planting that is known by a later record alone has no day of sowing to tell.
    what = _COMES[planting.planned.start] if planting.planned and grade is not Grade.SEEN else FIRST_RECORDED
    yield Change(day=stay.came, squares=(stay.square,), planting=planting.key, what=what, grade=grade)


def _gone(holding: Holding, stay: Stay, stays: tuple[Stay, ...]) -> Iterator[Change]:
    """Yield the going of a stay that no line of the log tells of."""
    if stay.end is not None or stay.left is None:
        return
    grade = stay.end_grade(holding.today, stays)
    if grade is not None:
        yield Change(
            day=stay.left, squares=(stay.square,), planting=stay.planting, what="cleared", grade=grade
        )
