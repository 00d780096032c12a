"""A garden's years with what its records say when they are held together."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path

from tallybed.checks.registry import every_finding
from tallybed.garden.findings import Finding, in_closed_season
from tallybed.garden.garden import Garden
from tallybed.pages.frame.which_pages import every_path
from tallybed.reckoning.unpublished import readable
from tallybed.reckoning.year import Years
from tallybed.tasks.base.garden import day_of
from tallybed.tasks.site.reckonings import Reckonings


def reckoned(
    garden: Garden, root: Path | None = None, *, drafts: bool = False, as_of: date | None = None
) -> Years:
    """Return a garden's years as seen from the day its site speaks as of.

    Of what waits only the lines of ``done`` are in it; all of it with ``drafts``. What takes long
    to reckon is kept beside the garden, in the folder ``root``; without one it is not kept.
    ``as_of``: the day that a garden without its later records is seen from.
    """
    today = day_of(garden, as_of)
    seen = garden if drafts else readable(garden, today)
    years = Years(garden=seen, today=today, check=every_finding, pages=every_path)
    return years if root is None else replace(years, keep=Reckonings(root).kept)


def own_doubts(years: Years) -> tuple[Finding, ...]:
    """Return what the records of ``Years.own`` disagree about; advice on closed seasons as settled."""
    return tuple(
        in_closed_season(finding) if year.season.closed else finding
        for year in years.own
        for finding in year.findings
    )
