"""What lies ahead in some days: the jobs of the plan, thinning, and first harvests to expect.

``due`` tells what the plan has and the log has not done. Thinning and harvests follow from
what the log saw instead: from what came up, and from the day on which a crop really went in.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date, timedelta

from tallybed.garden.garden import Garden, Season
from tallybed.garden.records.log import Verb
from tallybed.garden.squares import Square
from tallybed.reckoning.calendar.due import OVERDUE_DAYS, VERBS, Due, due
from tallybed.reckoning.calendar.windows.windows import expected
from tallybed.reckoning.plantings.plantings import Planting, plantings_picked
from tallybed.reckoning.squares.occupancy import Holding

HARVEST = "harvest"
"""The job of a first picking, beside the verbs of the log."""
THIN_AFTER = timedelta(days=7)
"""How long after they are seen up seedlings are thinned. Our choice: the library has no figure."""
_ORDER = (Verb.THIN.value, HARVEST, *(verb.value for verb in VERBS))
"""Jobs in the order of one day: a crop is picked, then cleared, and then the next goes in."""


def ahead(garden: Garden, season: Season, holding: Holding, first: date, last: date) -> tuple[Due, ...]:
    """Return the jobs of the plan, thinning and first harvests, due from ``first`` to ``last`` or overdue.

    As ``due`` does, it tells what was to be done up to three weeks before; of thinning and harvests
    not where the planting has gone since, nor of harvests where nobody keeps a ledger. Sorted by day,
    then in the order of one day, then by planting. Without a plan only
    harvests are told.
    """
    found = [*due(season, holding, first, last), *_seen(garden, season, holding, first, last)]
    return tuple(sorted(found, key=lambda one: (one.day, _ORDER.index(one.verb), one.planting)))


def _seen(garden: Garden, season: Season, holding: Holding, first: date, last: date) -> Iterator[Due]:
    """Yield thinning and first harvests that fall due."""
    loose = _loose(season, holding)
    earliest = first - timedelta(days=OVERDUE_DAYS)
    for planting in holding.plantings:
        for day, verb, note in (_thinning(planting), _harvest(garden, holding, planting, loose)):
            squares = _standing(holding, planting, max(day, min(first, holding.today))) if day else ()
            kept = day is None or day >= first or verb != HARVEST or season.ledger is not None
            if day and squares and kept and earliest <= day <= last:
                yield Due(
                    day=day,
                    verb=verb,
                    planting=planting.key,
                    crop=planting.crop,
                    squares=squares,
                    note=note,
                    overdue=day < first,
                )


def _thinning(planting: Planting) -> tuple[date | None, str, str]:
    """Return when a planting is to be thinned: where more came up than the plan means to stand.

    More came up where the log tells more seeds sown, or more plants seen up, than the
    plan's plants; and it is over once the log has a line of thinning. None where nothing
    tells so.
    """
    meant = planting.planned.plants if planting.planned else None
    up = [event for event in planting.events if event.verb is Verb.UP]
    none = (None, Verb.THIN.value, "")
    if meant is None or not up or any(event.verb is Verb.THIN for event in planting.events):
        return none
    sown = sum(event.seeds or 0 for event in planting.events if event.verb in (Verb.SOW, Verb.RESOW))
    seen = max(event.plants or 0 for event in up)
    if max(sown, seen) <= meant:
        return none
    return min(event.day for event in up) + THIN_AFTER, Verb.THIN.value, f"to {meant:,} plants"


def _loose(season: Season, holding: Holding) -> dict[str, date]:
    """Return the last day on which each crop was picked with no word of which planting it came from."""
    found: dict[str, date] = {}
    owners = plantings_picked(season, holding.plantings)
    for weighing, owner in zip(season.ledger or (), owners, strict=True):
        if owner is None and weighing.day <= holding.today:
            for slug in (slug for name in weighing.crops for slug in name.slugs):
                found[slug] = max(weighing.day, found.get(slug, weighing.day))
    return found


def _harvest(
    garden: Garden, holding: Holding, planting: Planting, loose: Mapping[str, date]
) -> tuple[date | None, str, str]:
    """Return when a planting should first bear, from the day it really went in; None once it was picked.

    Squares that were sown again count from that day. None where nobody saw it go in, its
    days to harvest are not known for the way it began, or a picking may have been of it.
    """
    begun = planting.bears_from(holding.today)
    none = (None, HARVEST, "")
    if planting.crop.slug is None or planting.weighings or begun is None:
        return none
    if loose.get(planting.crop.slug, date.min) >= begun.day:
        return none
    found = expected(
        garden.crop(planting.crop.slug),
        garden.freezes,
        holding.span,
        begun.day,
        variety=planting.variety,
        start=begun.begins_as,
    )
    return none if found is None or found.other_start else (found.first, HARVEST, "")


def _standing(holding: Holding, planting: Planting, day: date) -> tuple[Square, ...]:
    """Return the squares in which it stands on a day, by the records or the plan.

    One that no plan knows is known up to today; nothing says that it goes before the day.
    """
    if planting.planned is None:
        day = min(day, holding.today)
    return tuple(
        sorted({hold.square for hold in holding.of_planting(planting.key) if hold.first <= day <= hold.last})
    )
