"""Contact sheets: a bed's months as small maps beside each other, each leading to its page."""

from __future__ import annotations

from dataclasses import dataclass

from tallybed.garden.days import without_year
from tallybed.garden.squares import Bed
from tallybed.pages.drawings.maps import BedMaps, LegendRow, sheet_maps, waiting_key
from tallybed.pages.drawings.months import MonthItem, bed_months
from tallybed.reckoning.beds import months_of
from tallybed.reckoning.year import Year


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetMonth:
    """One month on a contact sheet."""

    month: MonthItem
    day: str
    """The day its map shows: ``31 March``."""
    maps: BedMaps


@dataclass(frozen=True, slots=True, kw_only=True)
class ContactSheet:
    """A bed's season, a small map for each month."""

    months: tuple[SheetMonth, ...]
    key: tuple[LegendRow, ...] = ()
    """The mark of squares that wait, where a map shows it."""


def contact_sheet(year: Year, bed: Bed) -> ContactSheet:
    """Return a bed's contact sheet of a season; several pages show it."""
    return year.kept(("contact sheet", bed.name), lambda: _contact_sheet(year, bed))


def _contact_sheet(year: Year, bed: Bed) -> ContactSheet:
    """Return a bed's months as small maps, each leading to its page."""
    together = zip(bed_months(year, bed).months, months_of(year, bed), strict=True)
    return ContactSheet(
        months=tuple(
            SheetMonth(
                month=item,
                day=without_year(month.as_of),
                maps=sheet_maps(year.years, month, ident=f"sheet-{bed.name}-{number}"),
            )
            for number, (item, month) in enumerate(together, start=1)
        ),
        key=waiting_key(months_of(year, bed)),
    )
