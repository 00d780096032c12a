"""When a crop can go in, in this garden: its published weeks laid on the garden's own freeze dates."""

from __future__ import annotations

from datetime import date

from tallybed.garden.crops import Crop
from tallybed.garden.days import in_full, without_year
from tallybed.pages.site import SeasonView, Site
from tallybed.pages.tables import Row, Table, heads, text
from tallybed.reckoning.freeze import first_fall, last_spring
from tallybed.reckoning.windows import Window, window


def windows_table(site: Site, crop: Crop) -> Table | None:
    """Return the days a crop can go in, in the season a visitor means; None where nothing can be said."""
    view = site.foremost
    if view is None:
        return None
    found = window(crop, site.garden.freezes, view.season.span)
    rows = _rows(crop, found)
    if not rows:
        return None
    return Table(
        ident="windows",
        caption=f"Days to plant {crop.plural} in {site.garden.name}, {view.name}",
        heads=heads("What", "When"),
        rows=tuple(Row(cells=(text(what), text(when))) for what, when in rows),
        notes=_notes(site, view, found),
    )


def _rows(crop: Crop, found: Window) -> list[tuple[str, str]]:
    verb = "Sow" if crop.start == "sown" else "Plant"
    rows = [
        ("Sow indoors", _between(found.indoors_first, found.indoors_last)),
        (f"{verb} in spring", _between(found.spring_first, found.spring_last)),
        (f"{verb} for fall, at the latest", without_year(found.fall_last) if found.fall_last else ""),
        ("The same, counted back", without_year(found.counted_back) if found.counted_back else ""),
    ]
    return [(what, when) for what, when in rows if when]


def _between(first: date | None, last: date | None) -> str:
    if first is None or last is None:
        return f"from {without_year(first)}" if first else (f"until {without_year(last)}" if last else "")
    return without_year(first) if first == last else f"{without_year(first)} to {without_year(last)}"


def _notes(site: Site, view: SeasonView, found: Window) -> tuple[str, ...]:
    spring = last_spring(site.garden.freezes, view.season.span)
    fall = first_fall(site.garden.freezes, view.season.span)
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
