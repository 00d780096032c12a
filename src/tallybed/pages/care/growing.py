"""When a crop can go in, in this garden: its published weeks laid on the garden's own freeze dates."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from tallybed.garden.crops import Crop
from tallybed.garden.days import in_full, without_year
from tallybed.garden.plan import Start
from tallybed.pages.tables.tables import Row, Table, heads, text
from tallybed.reckoning.calendar.windows import Window
from tallybed.reckoning.year import Year, Years


def windows_table(years: Years, crop: Crop) -> Table | None:
    """Return the days a crop can go in, in the season a visitor means; None where nothing can be said."""
    year = years.foremost
    if year is None:
        return None
    found = _within(year.window(crop), year)
    rows = [*_rows(crop, found, year), *_harvests(year, crop, found)]
    if not rows:
        return None
    return Table(
        ident="windows",
        caption=f"Days to plant {crop.plural} in {years.garden.name}, {year.name}",
        heads=heads("What", "When"),
        rows=tuple(Row(cells=(text(what), text(when))) for what, when in rows),
        notes=_notes(year, found),
    )


def _within(found: Window, year: Year) -> Window:
    """Return a window without a count back that ends before the season: the crop stands over winter."""
    back = found.counted_back
    return replace(found, counted_back=None) if back and back not in year.season.span else found


def _rows(crop: Crop, found: Window, year: Year) -> list[tuple[str, str]]:
    """Return what to do and when, one row for each window that is known."""
    verb = "Sow" if crop.start == "sown" else "Plant"
    same = "The same, counted back" if found.fall_last else f"{verb} at the latest, counted back"
    rows = [
        ("Sow indoors", _between(year, found.indoors_first, found.indoors_last)),
        (f"{verb} in spring", _between(year, found.spring_first, found.spring_last)),
        (f"{verb} for fall, at the latest", _day(year, found.fall_last)),
        (same, _day(year, found.counted_back)),
    ]
    return [(what, when) for what, when in rows if when]


def _harvests(year: Year, crop: Crop, found: Window) -> list[tuple[str, str]]:
    """Return when what goes in at the ends of the windows should bear."""
    start = Start.SOW if crop.start == "sown" else Start.SET_OUT

    def ready(day: date | None) -> date | None:
        if day is None:
            return None
        known = year.expected(crop, day, start=start)
        return known.first if known else None

    word = "sown" if crop.start == "sown" else "planted"
    rows = [
        (
            f"First harvest if {word} in spring",
            _between(year, ready(found.spring_first), ready(found.spring_last)),
        ),
        (f"First harvest if {word} on the last of these days", _day(year, ready(found.last))),
    ]
    return [(what, when) for what, when in rows if when]


def _day(year: Year, day: date | None) -> str:
    """Return a day, with its year where that is not the season's first; nothing for none."""
    if day is None:
        return ""
    return without_year(day) if day.year == year.season.span.first.year else in_full(day)


def _between(year: Year, first: date | None, last: date | None) -> str:
    """Return ``from``, ``until`` or the span of two days, as far as they are known."""
    if first is None or last is None:
        return f"from {_day(year, first)}" if first else (f"until {_day(year, last)}" if last else "")
    return _day(year, first) if first == last else f"{_day(year, first)} to {_day(year, last)}"


def _notes(year: Year, found: Window) -> tuple[str, ...]:
    """Return what the windows are reckoned from, as sentences."""
    spring = year.spring
    fall = year.fall
    dates = [f"last spring freeze {in_full(spring.middle)}"] if spring else []
    dates += [f"first fall freeze {in_full(fall.middle)}"] if fall else []
    notes = [
        f"Reckoned from the garden’s freeze dates: {' and '.join(dates)}. "
        "In about half of all years each comes later."
    ]
    if found.counted_back:
        notes.append(
            "Counted back from the first fall freeze by the days to harvest and two weeks for slow growth, "
            "and two more for a crop that a freeze kills (Virginia Cooperative Extension, 426-334)."
        )
    return tuple(notes)
