"""How well a record without a tag fits a planting, by its days in one square."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable
from datetime import date, timedelta
from enum import IntEnum

from tallybed.garden.naming import folded
from tallybed.garden.records.log import Event
from tallybed.garden.records.plan import Start
from tallybed.garden.squares import Square
from tallybed.reckoning.plantings.drafts import PlantingDraft

WIDENED = 45
"""Days by which a planned span is widened at both ends when a record is held against it."""
ONE_SOWING = 14
"""Days within which a second sowing in a square belongs to the first, also after a failure.

Later ones are a new planting unless the log calls them a resowing: a rule of our own.
"""


class Level(IntEnum):
    """How well a planting fits a record by its days; the lowest is the best."""

    STANDS = 0
    """Started by the log, not ended, and within the days the plan gives it."""
    MAY_STAND = 1
    """Within its days by the plan, without a recorded start; or by the log alone, not ended."""
    NEAR = 2
    """Outside its days, not known to have ended."""
    ENDED = 3
    """Ended before, or started after, by the log; or outside its days, its crop begun anew there since."""


Fit = tuple[int, int, bool, int, int]
"""Level, days off its span, whether before it, days from its beginning, rank: compared in this order."""
Reach = tuple[int, int, int, int]
"""How near a start lies to the one meant: kind, days, clash of varieties, rank; compared in this order."""


def fit(
    draft: PlantingDraft,
    square: Square,
    day: date,
    beside: Iterable[PlantingDraft] = (),
    *,
    ending: bool = False,
    weighed: bool = False,
) -> Fit | None:
    """Return how well a planting fits a record in a square that starts nothing; None where it does not.

    ``beside``: all plantings of that square. A sowing of the same crop there implies that one
    whose days were over was gone, so what comes later is none of it, even where the newer one
    has left the square as well.
    ``ending``: the record says that the planting is gone, so it must have begun.
    ``weighed``: a weighing goes to the nearest planting that is not known to have ended,
    however far; a log line to one within its widened days.
    """
    begun = _latest(draft.starts, square, day)
    if begun is not None:
        found: _Found | None = _started(draft, square, day, begun)
    elif square in draft.starts:
        found = None if ending else _too_early(draft, square, day)
    else:
        found = _unstarted(draft, square, day, ending=ending)
    if found is None:
        return None
    level, off, since = found
    if level is Level.NEAR and (followed := _followed(draft, square, day, since, beside)) is not None:
        level, off = Level.ENDED, (day - followed).days
    boundless = level <= Level.MAY_STAND or (weighed and level is Level.NEAR)
    return (level, off, since < 0, abs(since), draft.rank) if boundless or off <= WIDENED else None


def start_reach(draft: PlantingDraft, square: Square, event: Event) -> Reach | None:
    """Return how near a planting's beginning in a square lies to a sowing; None where it cannot be meant."""
    day, planned = event.day, draft.planned
    clash = varieties_clash(draft, event)
    if starts := draft.starts.get(square):
        near = min(starts, key=lambda start: (abs((start - day).days), start))
        off = abs((near - day).days)
        return None if off >= ONE_SOWING else (1, off, clash, draft.rank)
    if planned is None or square not in draft.home or not open_to_start(draft, day):
        return None
    if not -WIDENED <= (day - planned.begins).days <= (planned.until - planned.begins).days + WIDENED:
        return None
    return (1, abs((day - planned.begins).days), clash, draft.rank)


def resow_reach(draft: PlantingDraft, square: Square, event: Event) -> Reach | None:
    """Return how near a planting is that a resowing may mean: one started there, else one planned there."""
    begun = _latest(draft.starts, square, event.day)
    if begun is None:
        return start_reach(draft, square, event)
    latest = _latest(draft.ends, square, event.day) or begun
    return (0, (event.day - max(begun, latest)).days, varieties_clash(draft, event), draft.rank)


def open_to_start(draft: PlantingDraft, day: date) -> bool:
    """Return whether a planned planting can begin on a day: not carried over, not dropped before."""
    planned = draft.planned
    if planned is None or planned.start is Start.CARRIED:
        return False
    return planned.dropped is None or planned.dropped >= day


def varieties_clash(draft: PlantingDraft, event: Event) -> bool:
    """Return whether plan and line both tell a variety, and not the same."""
    planned = draft.planned.variety if draft.planned else ""
    return bool(planned and event.variety) and folded(planned) != folded(event.variety)


def _followed(
    draft: PlantingDraft, square: Square, day: date, since: int, beside: Iterable[PlantingDraft]
) -> date | None:
    """Return the day on which its crop began anew after a planting, up to ``day``; None where it did not."""
    starts = (
        start
        for other in beside
        if other is not draft and not other.slugs.isdisjoint(draft.slugs)
        for start in other.starts.get(square, ())
        if day - timedelta(days=since) < start <= day
    )
    return min(starts, default=None)


_Found = tuple[Level, int, int]
"""Level, days off its span, days since its beginning (below nothing: before it)."""


def _started(draft: PlantingDraft, square: Square, day: date, begun: date) -> _Found:
    """Return how well a draft that began in a square on a day fits a later day."""
    since = (day - begun).days
    left = _before(draft.ends, square, day)
    # Cleared and sown on one day: it stands again if it stood before, else nothing is left of it.
    if left is not None and (left > begun or (left == begun and draft.starts[square][0] == begun)):
        return (Level.ENDED, (day - left).days, since)
    until = draft.until
    if draft.planned is None or until is None or begun >= until:
        return (Level.MAY_STAND, 0, since)
    slipped = max(0, (begun - draft.planned.begins).days)
    over = (day - until).days - slipped
    return (Level.STANDS, 0, since) if over <= 0 else (Level.NEAR, over, since)


def _too_early(draft: PlantingDraft, square: Square, day: date) -> _Found:
    """Return how well a draft fits a day before it began in a square."""
    early = (draft.starts[square][0] - day).days
    return (Level.ENDED, early, -early)


def _unstarted(draft: PlantingDraft, square: Square, day: date, *, ending: bool) -> _Found | None:
    """Return how well a draft with no recorded start in a square fits a day; None where it does not."""
    left = _before(draft.ends, square, day)
    if left is not None:
        return (Level.ENDED, (day - left).days, (day - left).days)
    met, planned, until = draft.met.get(square), draft.planned, draft.until
    if planned is not None and until is not None:
        at_home = square in draft.home and not draft.moved_house
        late = planned.dropped is not None and planned.dropped < day
        if not met and (not at_home or late):
            return None
        first, last = planned.begins, until
    elif met:
        first, last = met[0], met[-1]
    else:
        return None
    if ending and first > day:
        return None
    off = max((first - day).days, (day - last).days, 0)
    return (Level.NEAR if off else Level.MAY_STAND, off, (day - first).days)


def _latest(days: dict[Square, list[date]], square: Square, day: date) -> date | None:
    """Return the last of the days up to and with ``day``."""
    found = days.get(square, ())
    place = bisect_right(found, day)
    return found[place - 1] if place else None


def _before(days: dict[Square, list[date]], square: Square, day: date) -> date | None:
    """Return the last of the days before ``day``."""
    found = days.get(square, ())
    place = bisect_left(found, day)
    return found[place - 1] if place else None
