"""Drawings as pages hold them: markup, with the ids and links of the page they stand on."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from markupsafe import Markup

from tallybed.drawing.bedmap import bed_map
from tallybed.garden.records import Garden
from tallybed.pages import addresses
from tallybed.reckoning.monthly import BedMonth


@dataclass(frozen=True, slots=True, kw_only=True)
class Maps:
    """One map twice: lying flat for wide pages, standing upright for narrow ones."""

    flat: Markup
    upright: Markup


def month_maps(garden: Garden, month: BedMonth, here: str, *, ident: str) -> Maps:
    """Return the map of a bed's month for the page ``here``; ``ident`` begins its ids."""
    links = _crop_links(garden, month, here)
    flat, upright = (
        bed_map(month, ident=f"{ident}-{name}", links=links, upright=turned, showing=garden.showing)
        for name, turned in (("flat", False), ("upright", True))
    )
    # Drawings escape their own texts.
    return Maps(flat=Markup(flat), upright=Markup(upright))  # noqa: S704


def _crop_links(garden: Garden, month: BedMonth, here: str) -> Mapping[str, str]:
    known = {crop.slug for crop in garden.crops}
    slugs = sorted({drawn.crop for drawn in month.drawn} & known)
    return {slug: addresses.relative(here, addresses.crop_of(slug)) for slug in slugs}
