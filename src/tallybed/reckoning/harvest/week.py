"""What one week of a season comes to: the facts of a bulletin, from the records alone.

A bulletin tells the days of one ISO week that lie in the season and are not after
today: what was picked, the season up to then, the heaviest crop, the season a year
before up to the same date, and what the plan has next.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from datetime import date
from fractions import Fraction
from functools import partial

from tallybed.garden.days import Week
from tallybed.garden.garden import Garden, Season
from tallybed.garden.units import Weight
from tallybed.reckoning.calendar.due import Due
from tallybed.reckoning.harvest.areas import is_known
from tallybed.reckoning.harvest.tally import BY, GENERAL, MIXED, NOT_TOLD, TallyLine, Total, added, tally


@dataclass(frozen=True, slots=True, kw_only=True)
class Earlier:
    """The season a year before, up to the same date."""

    season: str
    day: date
    total: Total


@dataclass(frozen=True, slots=True, kw_only=True)
class Bulletin:
    """The facts of one week of one season."""

    season: str
    week: Week
    first: date
    """The first day of the week that lies in the season."""
    last: date
    """The last day of it that lies in the season and is not after today."""
    ledger: bool
    """Whether the season has a ledger; without one nothing is known of what was picked."""
    picked: Total = field(default=Total())
    """What was picked in these days."""
    best: tuple[str, ...] = ()
    """What weighed most in these days, by everyday names; several where they tie, sorted; bowls aside."""
    best_weight: Weight = field(default=Weight())
    """What each of ``best`` weighed."""
    alone: bool = False
    """Whether every picking of these days was of the one crop in ``best``."""
    bowls: bool = False
    """Whether there was a mixed bowl in these days, which counts for no crop."""
    so_far: Total = field(default=Total())
    """What the season gave up to and with ``last``."""
    whole: bool = False
    """Whether the season is over and this is the last week of it that has a record."""
    square_feet: Fraction = Fraction(0)
    """The squares of all beds; 0 where it is not known what ground the weights came from."""
    earlier: Earlier | None = None
    """None where no ledger of the year before is there."""
    ahead: tuple[Due, ...] = ()
    """What is next by the plan, by day."""


def weeks(season: Season, today: date) -> tuple[Week, ...]:
    """Return the ISO weeks in which a visit or a picking is on record, up to today, in order."""
    told = (one for one in season.log or () if one.title or one.done)  # else it waits, and tells nothing
    days = {one.day for one in told} | {row.day for row in season.ledger or ()}
    return tuple(sorted({Week.of(day) for day in days if day <= today}))


def told_days(season: Season, week: Week, today: date) -> tuple[date, date] | None:
    """Return the first and last day that a bulletin of the week tells, or None where there is no such day."""
    first = max(week.first, season.span.first)
    last = min(week.last, season.span.last, today)
    return (first, last) if first <= last else None


def bulletin(
    garden: Garden,
    season: Season,
    week: Week,
    *,
    lines: Sequence[TallyLine],
    today: date,
    before: tuple[Season, Sequence[TallyLine]] | None = None,
    ahead: Iterable[Due] = (),
) -> Bulletin:
    """Return the facts of a week.

    ``lines`` are the season's, ``before`` the season of the year before with its lines.
    ``ahead`` are the jobs that came next after the last day told. Raises ValueError where the
    season has no day of the week up to today.
    """
    days = told_days(season, week, today)
    if days is None:
        raise ValueError(f"season {season.name} has no day of {week} up to {today}")
    first, last = days
    here = [line for line in lines if first <= line.day <= last]
    called = partial(everyday_name, garden)
    best, weight = heaviest(here, called)
    over = season.closed or season.span.last <= today
    whole = over and all(later <= week for later in weeks(season, today)[-1:])
    return Bulletin(
        season=season.name,
        week=week,
        first=first,
        last=last,
        ledger=season.ledger is not None,
        picked=added(here),
        best=best,
        best_weight=weight,
        alone=len({called(line.crop) for line in here if line.counts}) == 1 and len(best) == 1,
        bowls=any(line.crop.startswith(MIXED) for line in here),
        so_far=added(line for line in lines if line.day <= last),
        whole=whole,
        square_feet=garden.square_feet if is_known(season, lines) else Fraction(0),
        earlier=_earlier(before, last) if before else None,
        ahead=() if whole else tuple(ahead),
    )


def everyday_name(garden: Garden, key: str) -> str:
    """Return the everyday name of a tally’s crop key: ``tomatoes``, of whatever kind, told or not."""
    if key.startswith(GENERAL):
        return key.removeprefix(GENERAL)
    return next((crop.everyday for crop in garden.crops if crop.slug == key), key)


def heaviest(
    lines: Iterable[TallyLine], called: Callable[[str], str] = str
) -> tuple[tuple[str, ...], Weight]:
    """Return what weighed most among lines, by the name it is called, and that weight; else none.

    A mixed bowl is not a crop and takes no part; neither does what nobody named.
    """
    totals: dict[str, Weight] = {}
    for crop, total in tally(lines, BY["crop"]).items():
        if crop != NOT_TOLD and not str(crop).startswith(MIXED):
            name = called(str(crop))
            totals[name] = totals.get(name, Weight()) + total.weight
    most = max(totals.values(), default=Weight())
    return (tuple(sorted(crop for crop in totals if totals[crop] == most)), most) if most else ((), Weight())


def a_year_before(day: date) -> date:
    """Return the same date a year before; 28 February for the 29th."""
    if (day.month, day.day) == (2, 29):
        return date(day.year - 1, 2, 28)
    return day.replace(year=day.year - 1)


def _earlier(before: tuple[Season, Sequence[TallyLine]], last: date) -> Earlier | None:
    """Return the season before up to the same date; None where it has no ledger."""
    season, lines = before
    if season.ledger is None:
        return None
    day = a_year_before(last)
    return Earlier(season=season.name, day=day, total=added(line for line in lines if line.day <= day))
