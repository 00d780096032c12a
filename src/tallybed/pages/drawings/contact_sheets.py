"""Contact sheets: a bed's months as small maps beside each other, each leading to its page."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from markupsafe import Markup

from tallybed.garden.squares import Bed
from tallybed.pages.drawings.maps import sheet_map
from tallybed.pages.drawings.months import MonthItem, bed_months
from tallybed.pages.frame.site import SeasonView, Site
from tallybed.reckoning.calendar.month import BedMonth, bed_month

_KEPT = 256
"""Beds of seasons for which what was reckoned is kept."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetMonth:
    """One month on a contact sheet."""

    month: MonthItem
    picture: Markup


@dataclass(frozen=True, slots=True, kw_only=True)
class ContactSheet:
    """A bed's season, a small map for each month."""

    title: str
    to: str
    months: tuple[SheetMonth, ...]


@lru_cache(maxsize=_KEPT)
def reckoned_months(site: Site, view: SeasonView, bed: Bed) -> tuple[BedMonth, ...]:
    """Return a bed's months in a season, in order; several pages ask for the same ones."""
    months = view.season.span.months
    return tuple(bed_month(site.garden, view.season, view.holding, bed, month) for month in months)


@lru_cache(maxsize=_KEPT)
def contact_sheet(site: Site, view: SeasonView, bed: Bed) -> ContactSheet:
    """Return a bed's contact sheet of a season."""
    listed = bed_months(site, view, bed)
    together = zip(listed.months, reckoned_months(site, view, bed), strict=True)
    return ContactSheet(
        title=listed.title,
        to=listed.to,
        months=tuple(
            SheetMonth(month=item, picture=sheet_map(month, ident=f"sheet-{bed.name}-{number}"))
            for number, (item, month) in enumerate(together, start=1)
        ),
    )
