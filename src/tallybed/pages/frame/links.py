"""Links that gardeners type in prose, and the pages they lead to."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from functools import lru_cache
from posixpath import dirname, join, normpath
from urllib.parse import unquote

from tallybed.garden.naming import Names
from tallybed.pages.frame import addresses
from tallybed.pages.frame.site import SeasonView, Site
from tallybed.pages.paper.sheets import papers
from tallybed.pages.season.data import has_data
from tallybed.reckoning.harvest.week import weeks


def every_path(site: Site) -> Iterator[str]:
    """Yield the path of each page the site has, in no promised order."""
    yield addresses.HOME
    yield addresses.SEASONS
    yield addresses.CROPS
    if site.garden.questions:
        yield addresses.QUESTIONS
    if site.garden.beds:
        yield addresses.SHEETS
    yield from (addresses.marking(one) for one in site.garden.beds)
    yield from (one.to for group in papers(site) for one in group.sheets)
    yield from (addresses.question(one) for one in site.garden.questions)
    yield from (addresses.leaf(site, one) for one in site.garden.leaves)
    yield from (addresses.crop(one) for one in site.garden.crops)
    for view in site.seasons:
        yield from _of_season(site, view)


def _of_season(site: Site, view: SeasonView) -> Iterator[str]:
    season = view.season
    yield addresses.season(view)
    for bed in site.garden.beds:
        yield addresses.bed(view, bed)
        yield from (addresses.bed_month(view, bed, month) for month in season.span.months)
    yield addresses.plantings(view)
    yield from (addresses.planting(one) for one in view.holding.plantings)
    if season.plan is not None:
        yield addresses.plan(view)
    if season.plan:
        yield addresses.seeds(view)
    if season.log is not None:
        yield addresses.log(view)
        yield from (addresses.entry(view, one) for one in view.entries)
    if season.ledger is not None:
        yield addresses.tally(view)
    told = weeks(season, view.lines, site.today)
    if told:
        yield addresses.bulletins(view)
        yield from (addresses.bulletin(view, week) for week in told)
    if has_data(view):
        yield addresses.data(view)


def resolver(site: Site, here: str) -> Callable[[str], str | None]:
    """Return what turns a link typed on the page ``here`` into a relative one, or into None."""
    paths, entries, names = _targets(site)

    def resolve(typed: str) -> str | None:
        kind, _, rest = typed.strip().partition(":")
        target: str | None
        if kind == "crop":
            slugs = names.find(unquote(rest))
            target = addresses.crop_of(slugs[0]) if len(slugs) == 1 else None
        elif kind == "entry":
            target = entries.get(unquote(rest))
        else:
            target = _page(typed.strip(), here)
        return addresses.relative(here, target) if target in paths else None

    return resolve


@lru_cache(maxsize=2)
def _targets(site: Site) -> tuple[frozenset[str], Mapping[str, str], Names]:
    """Return the site's pages, its entries by day and slug, and what crops are called: once for a site."""
    entries = {
        f"{one.day.isoformat()}-{one.slug}": addresses.entry(view, one)
        for view in site.seasons
        for one in view.entries
    }
    return frozenset(every_path(site)), entries, Names.of(site.garden.crops)


def _page(typed: str, here: str) -> str:
    """Return the path that plain folders name: ``/crops/carrot/`` from the site's top, else from here."""
    path = unquote(typed)
    whole = path.lstrip("/") if path.startswith("/") else normpath(join(dirname(here), path))
    if whole.endswith("index.html"):
        return whole
    return join(whole, "index.html").removeprefix("./")
