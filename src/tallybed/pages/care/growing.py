"""When a crop can go in, in this garden: its published weeks laid on the garden's own freeze dates."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from functools import partial

from tallybed.garden.crops import Beginning, Crop
from tallybed.garden.days import Span, in_full, without_year
from tallybed.garden.records.plan import Start
from tallybed.pages.care.bulbs import bounded, bulbing_notes, bulbing_rows
from tallybed.pages.tables.tables import Row, Table, heads, text
from tallybed.pages.wording.dated import day_name
from tallybed.pages.wording.sentences import chance_words
from tallybed.reckoning.calendar.windows.freeze import Freeze, next_spring
from tallybed.reckoning.calendar.windows.windows import Window, window
from tallybed.reckoning.growing_time import freezes_for
from tallybed.reckoning.year import Year, Years

ALL_WINTER = "as well: the winters here are short and mild"
SPRING = 90
"""Days from the average last freeze within which a planting is one of spring. Our choice."""
RISK = (
    "A freeze kills it. The first of the two days is the one after which a freeze still follows in about "
    "every second year, the other the one after which it does in one of ten (National Centers for "
    "Environmental Information, NOAA, freeze probabilities); who plants before it keeps a cover at hand."
)
ENDS_SOON = "The days in spring end here where too little time is left before the first fall freeze."
WINTER = (
    "What is planted before winter rests in the cold and grows on in spring: its harvest is counted from the "
    "last spring freeze, by months that are printed for other places."
)


def windows_table(years: Years, crop: Crop) -> Table | None:
    """Return the days a crop can go in, in the season a visitor means; None where nothing can be said."""
    year = years.foremost
    if year is None:
        return None
    usual, found = _whole_window(year, crop), usual_window(year, crop)
    rows = [*_without_time(crop, usual, year), *_rows(crop, found, year), *_harvests(year, crop, found)]
    if not rows:
        return None
    shortened = found.spring_last != usual.spring_last and found.spring_first is not None
    return Table(
        ident="windows",
        caption=f"Days to plant {crop.plural} in {years.garden.name}, {year.name}",
        heads=heads("What", "When"),
        rows=tuple(Row(cells=(text(what), text(when))) for what, when in rows),
        notes=(*_notes(year, crop, found), *([ENDS_SOON] if shortened else ())),
    )


def _too_short(year: Year, crop: Crop, found: Window) -> tuple[date, date] | None:
    """Return the first day of spring and the last for a harvest, where the last comes before spring ends.

    None where spring and fall are not of one summer, and for what is planted for fall or all winter.
    """
    spring, first, last = spring_here(year), found.spring_first, found.last
    if spring is None or spring != year.spring or found.fall_first or found.all_winter:
        return None
    if first is None or last is None:
        return None
    first = max(first, spring.middle) if crop.is_tender else first
    return (first, last) if last < max(first, found.spring_last or first) else None


def _in_time(year: Year, crop: Crop, found: Window) -> Window:
    """Return a window whose spring ends while there is time for a harvest; none where there is no time."""
    short = _too_short(year, crop, found)
    if short is None:
        return found
    first, last = short
    kept = replace(found, fall_last=None, counted_back=None)
    if last < first:
        nowhere = replace(kept, spring_first=None, spring_last=None, spring_safe=None)
        return replace(nowhere, indoors_first=None, indoors_last=None)
    return replace(kept, spring_last=last)


def _without_time(crop: Crop, usual: Window, year: Year) -> list[tuple[str, str]]:
    """Return the row that says so where no day leaves a crop its time between the freezes; else none."""
    short = _too_short(year, crop, usual)
    if short is None or short[0] <= short[1]:
        return []
    first, last = (day_name(year, day) for day in short)
    verb = "Sow" if crop.start is Beginning.SOWN else "Plant"
    return [(verb, f"no day leaves it time: it can go in from {first} on, and would have to by {last}")]


def usual_window(year: Year, crop: Crop) -> Window:
    """Return when a crop goes in here as it usually does, in that year, while it has time for a harvest."""
    return _in_time(year, crop, _whole_window(year, crop))


def _whole_window(year: Year, crop: Crop) -> Window:
    """Return when a crop goes in here by its printed weeks, whether or not it has time for a harvest.

    A season that holds parts of two growing times, as a calendar year does south of the equator, has the
    fall of the one and the spring of the next: its days in spring are those of its own spring.
    """
    found = bounded(_within(year.window(crop), year, crop), year, crop)
    spring = spring_here(year)
    if spring is None or spring == year.spring:
        return found
    own = window(crop, year.garden.freezes, Span(first=spring.middle, last=spring.middle))
    found = replace(
        found, spring_first=own.spring_first, spring_last=own.spring_last, spring_safe=own.spring_safe
    )
    if found.fall_first is None:  # else what is sown indoors is for fall
        found = replace(found, indoors_first=own.indoors_first, indoors_last=own.indoors_last)
    return found


def spring_here(year: Year) -> Freeze | None:
    """Return the last spring freeze that a season's days tell of: the one within it, where there is one."""
    spring, span = year.spring, year.season.span
    if spring is None or spring.middle >= span.first:
        return spring
    later = next_spring(year.garden.freezes, spring.middle)
    return later if later is not None and later.middle in span else spring


def ready_from(year: Year, crop: Crop, day: date | None) -> date | None:
    """Return when a crop that goes in on a day should first bear; None where that is not known.

    None too where a freeze kills it before then in more than half of all years.
    """
    if day is None:
        return None
    known = year.expected(crop, day, start=crop.usual_start)
    if known is None or known.over_winter:
        return None
    _spring, fall = freezes_for(year, day)
    killed = crop.is_tender and fall is not None and known.first > fall.middle
    return None if killed else known.first


def _within(found: Window, year: Year, crop: Crop) -> Window:
    """Return a window without a count back that ends before the season: the crop stands over winter.

    What a freeze kills does not: where the freezes are of one summer, no day of it leaves it time.
    """
    back, spring = found.counted_back, spring_here(year)
    short = crop.is_tender and spring is not None and spring == year.spring
    return found if short or not back or back in year.season.span else replace(found, counted_back=None)


def _rows(crop: Crop, found: Window, year: Year) -> list[tuple[str, str]]:
    """Return what to do and when, one row for each window that is known."""
    verb = "Sow" if crop.start is Beginning.SOWN else "Plant"
    same = "The same, counted back" if found.fall_last else f"{verb} at the latest, counted back"
    fall = (f"{verb} for fall", _between(year, found.fall_first, found.fall_last))
    if found.fall_first is None:
        fall = (f"{verb} for fall, at the latest", day_name(year, found.fall_last))
    rows = [
        ("Sow indoors", _between(year, found.indoors_first, found.indoors_last)),
        *_in_spring(crop, found, year, verb),
        *bulbing_rows(year, crop),
        (f"{verb} in fall and winter", ALL_WINTER if found.all_winter else ""),
        fall,
        (same, day_name(year, found.counted_back)),
        (f"{verb} before winter", _between(year, found.winter_first, found.winter_last)),
    ]
    return [(what, when) for what, when in rows if when]


def _in_spring(crop: Crop, found: Window, year: Year, verb: str) -> list[tuple[str, str]]:
    """Return the spring window: for a tender crop from the day of an even chance to that of one in ten."""
    spring = spring_here(year)
    if not crop.is_tender or spring is None or spring.late is None:
        return [(f"{verb} in spring", _between(year, found.spring_first, found.spring_last))]
    offset = (found.spring_first - spring.middle) if found.spring_first else timedelta(0)
    even = spring.middle + max(offset, timedelta(0))
    safe = max(even, spring.late)
    kept = _own_days(year, crop)
    own = (
        [(f"{verb.removesuffix('e')}{'ed' if verb == 'Plant' else 'n'} in this garden", kept)] if kept else []
    )
    return [
        (
            f"{verb} in spring, at a risk",
            f"from {day_name(year, even)}: a freeze still follows {_share(spring, even)}",
        ),
        (
            f"{verb} in spring, safely",
            f"from {day_name(year, safe)}: a freeze still follows {_share(spring, safe)}",
        ),
        *own,
    ]


def _share(freeze: Freeze, day: date) -> str:
    """Return in how many years a freeze follows a day, in words."""
    chance = freeze.chance(day)
    if chance is None:
        return "in some years"
    if abs(chance - 0.5) < 0.01:
        return "in one year of two"
    if abs(chance - 0.1) < 0.01:
        return "in one year of ten"
    return f"in {chance_words(chance)} of years"


def _own_days(year: Year, crop: Crop) -> str:
    """Return the garden's own days of planting this crop in spring, season by season."""
    found = []
    for one in (*year.earlier, year):
        days = sorted(
            planting.begun or row.begins
            for planting, row in one.planned
            if row.crop == crop.slug
            and row.start is not Start.CARRIED
            and (spring := spring_here(one))
            and abs((row.begins - spring.middle).days) < SPRING
        )
        if days:
            found.append(
                in_full(days[0]) if len(days) == 1 else f"{without_year(days[0])} to {in_full(days[-1])}"
            )
    return "; ".join(dict.fromkeys(found))


def _harvests(year: Year, crop: Crop, found: Window) -> list[tuple[str, str]]:
    """Return when what goes in at the ends of the windows should bear."""
    ready = partial(ready_from, year, crop)
    word = "sown" if crop.start is Beginning.SOWN else "planted"
    after = found.winter_ready
    rows = [
        (
            f"First harvest if {word} in spring",
            _between(year, ready(found.spring_first), ready(found.spring_last)),
        ),
        (
            f"First harvest if {word} for fall",
            _between(year, ready(found.fall_first), ready(found.fall_last)) if found.fall_first else "",
        ),
        (
            f"First harvest if {word} on the last of these days",
            "" if found.fall_first else day_name(year, ready(found.last)),
        ),
        (f"Harvest if {word} before winter", _between(year, *after) if after else ""),
    ]
    return [(what, when) for what, when in rows if when]


def _between(year: Year, first: date | None, last: date | None) -> str:
    """Return ``from``, ``until`` or the span of two days, as far as they are known."""
    if first is None or last is None:
        return f"from {day_name(year, first)}" if first else (f"until {day_name(year, last)}" if last else "")
    return day_name(year, first) if first == last else f"{day_name(year, first)} to {day_name(year, last)}"


def _notes(year: Year, crop: Crop, found: Window) -> tuple[str, ...]:
    """Return what the windows are reckoned from, as sentences."""
    spring, fall = spring_here(year), year.fall
    told = [(spring.middle, "last spring freeze")] if spring else []
    told += [(fall.middle, "first fall freeze")] if fall else []
    dates = [f"{name} {in_full(day)}" for day, name in sorted(told)]
    notes = []
    if dates:
        notes.append(
            f"Reckoned from the garden’s freeze dates: {' and '.join(dates)}. "
            "In about half of all years each comes later."
        )
    if crop.is_tender and spring and spring.late:
        notes.append(RISK)
    if found.winter_first:
        notes.append(WINTER)
    notes += bulbing_notes(year, crop)
    if found.counted_back:
        notes.append(
            "Counted back from the first fall freeze by the days to harvest and two weeks for slow growth, "
            "and two more for a crop that a freeze kills (Virginia Cooperative Extension, 426-334)."
        )
    return tuple(notes)
