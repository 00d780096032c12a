"""What the plan says is to be done in some days, and the log does not say was done."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date, timedelta

from tallybed.garden.days import ONE_DAY
from tallybed.garden.garden import Season
from tallybed.garden.naming import CropName
from tallybed.garden.records.log import INDOORS, STARTING, Verb
from tallybed.garden.records.plan import PlanRow, Start
from tallybed.garden.squares import Square
from tallybed.reckoning.plantings.drafts import takes_all
from tallybed.reckoning.plantings.order import RecordOrder
from tallybed.reckoning.plantings.plantings import Planting, plantings
from tallybed.reckoning.squares.occupancy import Grade, Holding, hold

AHEAD = timedelta(days=7)
"""How far what is next looks beyond the day itself. Where nothing falls due by then it is the next day with
a job."""
OVERDUE_DAYS = 21
"""How long before the days asked for a job undone is still told, as overdue."""
VERBS = (Verb.CLEAR, Verb.SOW_INDOORS, Verb.POT_UP, Verb.SOW, Verb.SET_OUT)
"""The jobs a plan has, in the order of one day: what is over makes room for what goes in."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Due:
    """One job that falls due by the plan and is not yet done by the log."""

    day: date
    verb: str
    """``sow indoors``, ``pot up``, ``sow``, ``set out`` or ``clear``."""
    planting: str
    crop: CropName
    squares: tuple[Square, ...]
    """The squares it is still to be done in, sorted; for indoor jobs those it is meant for."""
    note: str = ""
    """The plan's note on the planting."""
    overdue: bool = False
    """Whether its day is before the days asked for."""


def due(season: Season, holding: Holding, first: date, last: date) -> tuple[Due, ...]:
    """Return the jobs due from ``first`` to ``last`` by the plan, and the overdue ones of three weeks before.

    Sorted by day, then by the order of ``VERBS``, then by planting. What was recorded up to
    ``holding.today`` is done; a later step done means that the earlier ones were. Nothing
    is due of a planting that was dropped.
    """
    if season.plan is None:
        return ()
    earliest = first - timedelta(days=OVERDUE_DAYS)
    found = []
    for planting in holding.plantings:
        if planting.planned is None or not any(earliest <= day <= last for day in _days(planting.planned)):
            continue
        for job in _jobs(planting, planting.planned, _Bed(planting, holding)):
            dropped = planting.planned.dropped is not None and planting.planned.dropped <= max(
                job.day, holding.today
            )
            if job.squares and earliest <= job.day <= last and not dropped:
                found.append(replace(job, overdue=job.day < first))
    return tuple(sorted(found, key=lambda one: (one.day, VERBS.index(Verb(one.verb)), one.planting)))


def coming(season: Season, day: date, order: RecordOrder | None = None) -> tuple[Due, ...]:
    """Return the jobs of ``day`` and the seven days after it, else those of the next day that has any.

    ``season``: with no record of a later day. A job of the day itself is told as long as it is not done;
    one whose day is past is left out: nobody knows whether
    it was done and not written down. ``order`` is that of the season's records, where it is known already.
    """
    if not any(day <= one for planned in season.plan or () for one in _days(planned)):
        return ()
    every = plantings(season, day, order)
    soon = _within(season, day, day + AHEAD, every)
    if soon:
        return soon
    later = _within(season, day, season.span.last, every)
    return tuple(one for one in later if one.day == later[0].day)


def _within(season: Season, day: date, last: date, every: tuple[Planting, ...]) -> tuple[Due, ...]:
    """Return the jobs of the days from ``day`` up to ``last``; ``every``: the plantings as known by then."""

    def falls(planned: PlanRow) -> bool:
        return any(day <= one <= last for one in _days(planned))

    def asked(planting: Planting) -> bool:
        return planting.planned is not None and falls(planting.planned)

    if not any(map(falls, season.plan or ())):
        return ()
    found = due(season, hold(season, day, only=asked, known=every), day, last)
    return tuple(one for one in found if not one.overdue)


def _days(planned: PlanRow) -> tuple[date, ...]:
    """Return the days on which the plan can have a job."""
    return tuple(
        day for day in (planned.sow_indoors, planned.pot_up, planned.begins, planned.until) if day is not None
    )


class _Bed:
    """What the records say of a planting in the bed."""

    def __init__(self, planting: Planting, holding: Holding) -> None:
        """Take from the holding what is the planting's own."""
        self.span = holding.span
        own = holding.of_planting(planting.key)
        known = {hold.square for hold in own if hold.grade <= Grade.IMPLIED}
        telling = [own for event, own in planting.lines if event.verb in STARTING or takes_all(event)]
        self.met = known.union(*telling)
        self.begun = bool(known or telling)
        self.left = {hold.square for hold in own if hold in holding.departures}
        last = {hold.square: hold for hold in own}  # its holds of a square are in order
        self.stands_until = {
            square: hold.last for square, hold in last.items() if hold not in holding.departures
        }
        """The last day in each square that no record says it left."""


def _jobs(planting: Planting, planned: PlanRow, bed: _Bed) -> Iterator[Due]:
    """Yield every job of a planting that is not done; without squares where nothing is left to do."""
    verbs = {event.verb for event in planting.events}
    squares = tuple(sorted(frozenset(planned.squares)))

    def job(day: date, verb: Verb, where: tuple[Square, ...]) -> Due:
        """Return one job of the planting."""
        return Due(
            day=day,
            verb=verb.value,
            planting=planting.key,
            crop=planting.crop,
            squares=where,
            note=planned.note,
        )

    if planned.sow_indoors is not None and not bed.begun and not verbs & INDOORS:
        yield job(planned.sow_indoors, Verb.SOW_INDOORS, squares)
    if planned.pot_up is not None and not bed.begun and Verb.POT_UP not in verbs:
        yield job(planned.pot_up, Verb.POT_UP, squares)
    if planned.start is not Start.CARRIED:
        verb = Verb.SOW if planned.start is Start.SOW else Verb.SET_OUT
        yield job(planned.begins, verb, _to_start(planting, squares, bed))
    if planned.until_told:
        yield job(planned.until, Verb.CLEAR, _to_clear(planned, bed))


def _to_start(planting: Planting, squares: tuple[Square, ...], bed: _Bed) -> tuple[Square, ...]:
    """Return the planned squares still to be started.

    All of them before the first record in the bed; the rest where a part was started,
    all of it within the plan; none that it left, or where another was started since.
    """
    if bed.begun:
        starts = [own for event, own in planting.lines if event.verb in STARTING]
        if not starts or not all(starts) or not bed.met <= set(squares):
            return ()
    return tuple(square for square in squares if square not in bed.met and square not in bed.left)


def _to_clear(planned: PlanRow, bed: _Bed) -> tuple[Square, ...]:
    """Return the squares in which it stands up to the planned clearing with no record that it left."""
    last = min(planned.until - ONE_DAY, bed.span.last)
    return tuple(sorted(square for square, day in bed.stands_until.items() if day >= last))
