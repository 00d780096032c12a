"""What happened to a planting, or was meant to, day by day: sown, up, picked, cleared."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date

from tallybed.garden.records.log import ENDING, Verb
from tallybed.garden.squares import Square
from tallybed.reckoning.calendar.changes import FIRST_RECORDED, IN_PART, MOVED_HERE, Change
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.squares.occupancy import Grade

SOWN_INDOORS, POTTED_UP = "sown indoors", "potted up"
SOWN, RESOWN, SET_OUT, UP = "sown", "resown", "set out", "came up"
FIRST_PICKED, LAST_PICKED = "first picked", "last picked"
GONE = frozenset(verb.meaning.change for verb in ENDING)
"""What takes a planting out of squares for good."""
ENDS = GONE | {"moved"}
"""What takes a planting out of squares, to others perhaps."""
_TOUCHED = {Verb.SOW_INDOORS: SOWN_INDOORS, Verb.POT_UP: POTTED_UP, Verb.UP: UP}
_RANK = (
    *(SOWN_INDOORS, POTTED_UP, SOWN, SET_OUT, FIRST_RECORDED, UP, RESOWN, "thinned"),
    *(FIRST_PICKED, LAST_PICKED, "moved"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Milestone:
    """One thing that happened to a planting, or was meant to."""

    day: date
    what: str
    """As the constants here name it, or as ``changes`` does: ``thinned``, ``cleared``, ``lost in part``."""
    squares: tuple[Square, ...]
    """None where it touched no square, or all of them."""
    grade: Grade
    plants: int | None = None
    why: str = ""
    to: tuple[Square, ...] = ()
    """Where what was moved stands now."""


def of_changes(changes: Iterable[Change]) -> Mapping[str, Iterable[Milestone]]:
    """Return the changes of all beds as milestones, by planting; what one line did in two beds is one."""
    together: dict[Change, list[Square]] = {}
    for change in (one for one in changes if one.what != MOVED_HERE):  # told with the squares it left
        together.setdefault(replace(change, squares=()), []).extend(change.squares)
    found: dict[str, list[Milestone]] = {}
    for one, squares in together.items():
        milestone = Milestone(day=one.day, what=one.what, squares=tuple(squares), grade=one.grade)
        milestone = replace(milestone, plants=one.plants, why=one.why, to=one.to)
        found.setdefault(one.planting, []).append(milestone)
    return found


def in_order(milestone: Milestone, *, again: bool) -> tuple[date, int, str, tuple[Square, ...]]:
    """Order milestones by day, those of one day as a planting goes through them.

    ``again``: it was sown again that day, which follows whatever was lost.
    """
    rank = _RANK.index(milestone.what) if milestone.what in _RANK else len(_RANK)
    if again and milestone.what.removesuffix(IN_PART) in GONE:
        rank = _RANK.index(UP)
    return milestone.day, rank, milestone.what, milestone.squares


def indoor_work(planting: Planting, today: date) -> Iterator[Milestone]:
    """Yield sowing indoors and potting up: as recorded, else as planned."""
    planned = planting.planned
    meant = {
        Verb.SOW_INDOORS: planned.sow_indoors if planned else None,
        Verb.POT_UP: planned.pot_up if planned else None,
    }
    for verb, day in meant.items():
        told = list(touched(planting, verb))
        yield from told
        kept = planned is None or planned.dropped is None or (day or today) < planned.dropped
        if day is not None and not told and kept:
            grade = Grade.SUPPOSED if day <= today else Grade.PLANNED
            yield Milestone(day=day, what=_TOUCHED[verb], squares=(), grade=grade)


def touched(planting: Planting, verb: Verb) -> Iterator[Milestone]:
    """Yield a milestone for each line of the log with that verb."""
    for event, own in zip(planting.events, planting.own, strict=True):
        if event.verb is verb:
            yield Milestone(
                day=event.day,
                what=_TOUCHED[verb],
                squares=own,
                grade=Grade.SEEN,
                plants=event.plants,
                why=event.because,
            )


def picking_days(planting: Planting) -> Iterator[Milestone]:
    """Yield the first and the last picking; the first alone where there is one day."""
    days = sorted({weighing.day for weighing in planting.weighings})
    for day, what in zip([*days[:1], *days[1:][-1:]], (FIRST_PICKED, LAST_PICKED), strict=False):
        yield Milestone(day=day, what=what, squares=(), grade=Grade.SEEN)
