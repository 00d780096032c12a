"""What can be ripe on a day: where something stands that bears, or should by now.

A planting can be ripe where something was picked from it in the last two weeks, or where
its days to a first harvest are nearly over and its usual picking time is not long over.
Where nobody knows its days, the day on which the plan clears it says when it should be ready.
A picking that does not say which of several plantings it came from speaks for the one that was to
bear first.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

from tallybed.garden.days import ONE_DAY
from tallybed.garden.garden import Garden, Season
from tallybed.garden.naming import CropName
from tallybed.garden.records.ledger import Weighing
from tallybed.garden.records.plan import Start
from tallybed.garden.squares import Square, by_row
from tallybed.reckoning.calendar.windows.windows import Expected, expected
from tallybed.reckoning.plantings.plantings import Planting, plantings_picked
from tallybed.reckoning.room.plants import crop_of
from tallybed.reckoning.squares.grades import Hold
from tallybed.reckoning.squares.occupancy import Holding
from tallybed.reckoning.squares.stays import stays_of

RECENT = timedelta(days=14)
"""How long after a picking another is likely. Common practice, no source: each week or two."""
EARLY = timedelta(days=14)
"""How long before its expected day a planting is proposed: a warm spring puts it that far ahead.

Common practice, no source.
"""
LATE = timedelta(days=28)
"""How long after the usual end of its picking a planting that was picked is proposed. Our choice."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ripe:
    """One planting that can be ripe."""

    planting: str
    crop: CropName
    variety: str = ""
    tag: str = ""
    squares: tuple[Square, ...]
    """Those it holds that day, or held last; sorted."""
    picked: date | None = None
    """The last day it was picked, if it was."""
    first: date | None = None
    """When it was expected to bear first; None where nobody knows."""
    clearing: date | None = None
    """The day the plan clears it, where that is what speaks for it."""


def ripe(garden: Garden, season: Season, holding: Holding, day: date) -> tuple[Ripe, ...]:
    """Return what can be ripe on a day, sorted by square.

    ``holding`` is the season's, as of that day or a later one. A planting that is
    cleared on the day counts: that is when much is picked. So does one that only the plan
    has cleared by then, and that was picked in the last two weeks.
    """
    found = []
    untold = _untold(garden, season, holding, day)
    for planting in holding.plantings:
        holds = _standing(holding, planting, day)
        one = _ripe(garden, season, planting, holds, day, untold.get(planting.key)) if holds else None
        if one is not None:
            found.append(one)
    return tuple(sorted(found, key=lambda one: ([*map(by_row, one.squares)], one.planting)))


def _standing(holding: Holding, planting: Planting, day: date) -> list[Hold]:
    """Return the last holds of a planting in the squares where it can be picked on a day.

    Those of the day and the day before; and where the plan alone ended it, those of the
    two weeks before, if something was picked in these: plans are seldom kept to the day.
    """
    holds = [hold for hold in holding.of_planting(planting.key) if hold.first <= day <= hold.last + ONE_DAY]
    if holds or not any(day - RECENT <= one.day <= day for one in planting.weighings):
        return holds
    open_ends = {
        stay.square: stay.last
        for stay in stays_of(holding, planting.key)
        if stay.gone_by is None and day - RECENT <= stay.last < day
    }
    return [hold for hold in holding.of_planting(planting.key) if open_ends.get(hold.square) == hold.last]


def _untold(garden: Garden, season: Season, holding: Holding, day: date) -> dict[str, date]:
    """Return by planting the last recent picking that may be its own and does not say so.

    Of several plantings of the crop it speaks for those that were to bear first.
    """
    found: dict[str, date] = {}
    owners = plantings_picked(season, holding.plantings)
    for one, owner in zip(season.ledger or (), owners, strict=True):
        if owner is not None or not day - RECENT <= one.day <= day or one.tag:
            continue
        for crop in one.crops:
            firsts: dict[date, list[str]] = {}
            for planting in holding.plantings:
                stood = _stood(holding, planting, one) if crop.may_be(planting.crop) else []
                since = min((hold.first for hold in stood), default=None)
                ready = _ready(garden, season, planting, since, one.day) if since else None
                if ready is not None:
                    firsts.setdefault(ready.first, []).append(planting.key)
            for key in firsts[min(firsts)] if firsts else ():
                found[key] = max(one.day, found.get(key, one.day))
    return found


def _stood(holding: Holding, planting: Planting, picked: Weighing) -> list[Hold]:
    """Return the holds of a planting from which something could be picked, in the squares told if any are."""
    return [
        hold
        for hold in holding.of_planting(planting.key)
        if hold.first <= picked.day <= hold.last + ONE_DAY
        and (not picked.squares or hold.square in picked.squares)
    ]


def _ripe(
    garden: Garden, season: Season, planting: Planting, holds: list[Hold], day: date, untold: date | None
) -> Ripe | None:
    """Return a planting as ripe on a day, or None; ``untold``: a picking that may have been of it."""
    before = [one.day for one in planting.weighings if one.day <= day]
    before += [untold] if untold is not None else []
    picked = max(before, default=None)
    recent = picked is not None and picked >= day - RECENT
    ready = _ready(garden, season, planting, min(hold.first for hold in holds), day)
    clearing = _clearing(planting, day) if ready is None else None
    if not recent and clearing is None and not _in_its_time(ready, day, begun=bool(before)):
        return None
    squares = {hold.square for hold in holds}
    return Ripe(
        planting=planting.key,
        crop=planting.crop,
        variety=planting.variety,
        tag=planting.tag,
        squares=tuple(sorted(squares, key=by_row)),
        picked=picked,
        first=ready.first if ready is not None else None,
        clearing=clearing,
    )


def _in_its_time(ready: Expected | None, day: date, *, begun: bool) -> bool:
    """Return whether a day lies in a planting's picking time.

    One from which nothing was picked yet has no end to it: as long as it stands, it waits.
    """
    if ready is None or day < ready.first - EARLY:
        return False
    return not begun or ready.last is None or day <= ready.last + LATE


def _clearing(planting: Planting, day: date) -> date | None:
    """Return the day the plan clears a planting of unknown days, where that is near or past."""
    planned = planting.planned
    if planned is None or not planned.until_told or planned.until - RECENT > day:
        return None
    return planned.until


def _ready(
    garden: Garden, season: Season, planting: Planting, held_since: date, day: date
) -> Expected | None:
    """Return when a planting should bear, from its start recorded by a day, else from the planned one."""
    crop = crop_of(garden, planting)
    if crop is None:
        return None
    start, begins = _beginning(garden, planting, held_since, day)
    if begins is None:
        return None
    return expected(
        crop,
        garden.freezes,
        season.span,
        begins,
        variety=planting.variety,
        start=start,
        indoors=planting.planned.sow_indoors if planting.planned else None,
    )


def _beginning(garden: Garden, planting: Planting, held_since: date, day: date) -> tuple[Start, date | None]:
    """Return how and when a planting began, as known on a day; a carried one in the season it is from."""
    begun = planting.bears_from(day)
    if begun is not None:
        return begun.begins_as, begun.day
    planned = planting.planned
    if planned is None:
        return Start.SOW, held_since
    if planned.start is not Start.CARRIED:
        return planned.start, planned.begins
    for other in garden.seasons:
        if other.name == planned.carried_from:
            for row in other.plan or ():
                if row.crop == planned.crop and not set(row.squares).isdisjoint(planned.squares):
                    return row.start, row.begins
    return Start.CARRIED, None
