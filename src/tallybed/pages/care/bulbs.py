"""What day length means for bulb onions here: when each type begins to bulb."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from tallybed.garden.crops import Crop
from tallybed.pages.wording.dated import day_name
from tallybed.reckoning.calendar.windows.windows import Window
from tallybed.reckoning.sun.bulbing import TYPES, bulbing, day_length, last_to_bulb, longest_day, shortest_day
from tallybed.reckoning.year import Year

ONION = "onion-bulb"

BULBS = (
    "A bulb onion begins to bulb when the days are long enough for its type: 14 hours for a long-day type, "
    "12 to 14 for an intermediate one, 10 to 12 for a short-day one (Iowa State University Extension). "
    "What has few leaves by then makes a small bulb; so onions go in well before, and the type has to suit "
    "the latitude."
)


def bounded(found: Window, year: Year, crop: Crop) -> Window:
    """Return a window without a count back where day length ends it; for other crops as it was."""
    if _bulbs(year, crop) is None or found.counted_back is None:
        return found
    return replace(found, counted_back=None, fall_last=None)


def latest(last: date | None, year: Year, crop: Crop) -> date | None:
    """Return the last day of planting, for bulb onions no later than the last type that bulbs begins to.

    Nor does it lie before the end of their spring weeks: where spring is late, long days come first.
    """
    bulbs = _bulbs(year, crop)
    if last is None or bulbs is None:
        return last
    return max(min(last, bulbs[1]), year.window(crop).spring_last or bulbs[1])


def _bulbs(year: Year, crop: Crop) -> tuple[str, date] | None:
    """Return the last type of bulb onion to bulb here, and when; None for other crops."""
    return last_to_bulb(year.garden.latitude, year.season.span) if crop.slug == ONION else None


def bulbing_rows(year: Year, crop: Crop) -> list[tuple[str, str]]:
    """Return from when on each type of bulb onion bulbs here; nothing for other crops."""
    latitude, span = year.garden.latitude, year.season.span
    if latitude is None or crop.slug != ONION:
        return []
    days = bulbing(latitude, span)
    longest = day_length(latitude, longest_day(latitude, span))
    shortest = day_length(latitude, shortest_day(latitude, span))
    rows = []
    bulbs, spring_ends = _bulbs(year, crop), year.window(crop).spring_last
    if bulbs and (spring_ends is None or bulbs[1] > spring_ends):
        kind, day = bulbs
        rows.append(("Plant at the latest", f"{day_name(year, day)}, as {kind} types begin to bulb"))
    for kind, hours in TYPES.items():
        begins = days.get(kind)
        when = f"never here: the longest day has {longest:.1f} hours"
        if shortest >= hours:
            when = f"in any month: the shortest day has {shortest:.1f} hours"
        elif begins is not None:
            when = f"from about {day_name(year, begins)}, as the day comes to {hours} hours"
        rows.append((f"{kind.capitalize()} types begin to bulb", when))
    return rows


def bulbing_notes(year: Year, crop: Crop) -> list[str]:
    """Return what the rows rest on."""
    return [BULBS] if bulbing_rows(year, crop) else []
