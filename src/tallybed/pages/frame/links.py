"""Links that gardeners type in prose, and the pages they lead to."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from posixpath import dirname, join, normpath
from urllib.parse import unquote

from tallybed.garden.naming import Names
from tallybed.pages.frame import addresses
from tallybed.pages.paper.sheets import papers
from tallybed.pages.season.data import has_data
from tallybed.reckoning.year import Year, Years


def every_path(years: Years) -> Iterator[str]:
    """Yield the path of each page the site has, in no promised order."""
    yield addresses.HOME
    yield addresses.SEASONS
    yield addresses.CROPS
    if years.garden.questions:
        yield addresses.QUESTIONS
    if years.garden.beds:
        yield addresses.SHEETS
    yield from (addresses.marking(one) for one in years.garden.beds)
    yield from (one.to for group in papers(years) for one in group.sheets)
    yield from (addresses.question(one) for one in years.garden.questions)
    yield from (addresses.leaf(years, one) for one in years.garden.leaves)
    yield from (addresses.crop(one) for one in years.garden.crops)
    for year in years.all:
        yield from _of_season(year)


def _of_season(year: Year) -> Iterator[str]:
    season = year.season
    yield addresses.season(year)
    for bed in year.garden.beds:
        yield addresses.bed(year, bed)
        yield from (addresses.bed_month(year, bed, month) for month in season.span.months)
    yield addresses.plantings(year)
    yield from (addresses.planting(one) for one in year.plantings)
    if season.plan is not None:
        yield addresses.plan(year)
    if season.plan:
        yield addresses.seeds(year)
    if season.log is not None:
        yield addresses.log(year)
        yield from (addresses.entry(year, one) for one in year.entries)
    if season.ledger is not None:
        yield addresses.tally(year)
        yield addresses.rows(year)
    told = year.weeks
    if told:
        yield addresses.bulletins(year)
        yield from (addresses.bulletin(year, week) for week in told)
    if has_data(year):
        yield addresses.data(year)


def resolver(years: Years, here: str) -> Callable[[str], str | None]:
    """Return what turns a link typed on the page ``here`` into a relative one, or into None."""
    paths, entries, names = years.kept("link targets", lambda: _targets(years))

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


def _targets(years: Years) -> tuple[frozenset[str], Mapping[str, str], Names]:
    """Return the site's pages, its entries by day and slug, and what crops are called: once for a site."""
    entries = {
        f"{one.day.isoformat()}-{one.slug}": addresses.entry(year, one)
        for year in years.all
        for one in year.entries
    }
    return frozenset(every_path(years)), entries, Names.of(years.garden.crops)


def _page(typed: str, here: str) -> str:
    """Return the path that plain folders name: ``/crops/carrot/`` from the site's top, else from here."""
    path = unquote(typed)
    whole = path.lstrip("/") if path.startswith("/") else normpath(join(dirname(here), path))
    if whole.endswith("index.html"):
        return whole
    return join(whole, "index.html").removeprefix("./")
