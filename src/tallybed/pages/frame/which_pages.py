"""Which pages a site has, by kind, known without making one or loading what makes them.

A kind of page has a row in ``PATHS`` here and one in ``pages/catalogue.py``, which says how it is made.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from types import MappingProxyType

from tallybed.garden.days import Month
from tallybed.garden.squares import Bed
from tallybed.pages.frame import addresses
from tallybed.reckoning.year import Year, Years

Paths = Callable[[Years], Iterable[str]]
"""Gives the path of each page of one kind."""


def has_bulletins(year: Year) -> bool:
    """Return whether any week of the season has a record."""
    return bool(year.weeks)


def has_data(year: Year) -> bool:
    """Return whether a season has a paper to make a table of."""
    season = year.season
    return any(paper is not None for paper in (season.plan, season.log, season.ledger))


def has_list(year: Year) -> bool:
    """Return whether a season has a list of plantings: it has one, or a plan that is still empty."""
    return year.season.plan is not None or bool(year.plantings)


def has_ledger(year: Year) -> bool:
    """Return whether a season has a tally, and a page that holds it against ordinary rows."""
    return year.season.ledger is not None


def has_weather(year: Year) -> bool:
    """Return whether a season has a file of weather, and a day of it is past."""
    told = year.season.weather
    return told is not None and any(one.day <= year.today for one in told.days)


def begun(years: Years) -> tuple[Year, ...]:
    """Return the seasons that have a poster, oldest first: those with a bed."""
    return tuple(year for year in years.all if year.garden.beds and year.season.span.first <= years.today)


def sheets_season(years: Years) -> Year | None:
    """Return the season that tally sheet and list for volunteers are of; None without a bed."""
    return years.foremost if years.present.beds else None


def tagged_seasons(years: Years) -> tuple[Year, ...]:
    """Return the seasons that plant tags are of: the one that a visitor means, and the one to come.

    Tags are cut out before the first seed is sown, so a plan is enough; of a season that is over nobody
    needs any more where the next is planned. None without a bed.
    """
    year, coming = sheets_season(years), years.coming
    if year is None or coming is None or coming is year or not (coming.season.plan and coming.garden.beds):
        return (year,) if year else ()
    return (coming,) if year.is_over else (year, coming)


def marked_beds(years: Years) -> tuple[Bed, ...]:
    """Return the beds that have a sheet for marking them out: those of any season, and those there now."""
    seasons = (years.present, *(year.garden for year in years.all))
    return tuple(bed for bed in years.garden.beds if any(bed in garden.beds for garden in seasons))


def own_months(year: Year) -> Iterator[Month]:
    """Yield the months that have a page of their own: all but the chief one, which is the bed's page."""
    chief = year.chief_month
    return (month for month in year.season.span.months if month != chief)


def _bed_months(years: Years) -> Iterator[str]:
    """Yield where each bed's months of each season lie."""
    for year in years.all:
        for bed in year.garden.beds:
            yield from (addresses.bed_month(year, bed, month) for month in own_months(year))


def _sun(years: Years) -> Iterator[str]:
    """Yield where the sun of each bed's months lies; none where the garden's latitude is not told."""
    if years.garden.latitude is not None:
        for year in years.all:
            for bed in year.garden.beds:
                yield from (addresses.sun(year, bed, month) for month in year.season.span.months)


def _for_beds(path: str) -> Paths:
    """Return what gives one page to a garden that has a bed."""
    return lambda years: (path,) if years.present.beds else ()


def _for_season(path: str) -> Paths:
    """Return what gives one page to a garden that has a bed and a season."""
    return lambda years: (path,) if sheets_season(years) else ()


PATHS: Mapping[str, Paths] = MappingProxyType(
    {
        "home": lambda _years: (addresses.HOME,),
        "season": lambda years: map(addresses.season, years.all),
        "seasons": lambda _years: (addresses.SEASONS,),
        "seeds": lambda years: (addresses.seeds(year) for year in years.all if year.season.plan),
        "log": lambda years: (addresses.log(year) for year in years.all if year.season.log is not None),
        "entry": lambda years: (addresses.entry(year, entry) for year in years.all for entry in year.entries),
        "plantings": lambda years: (addresses.plantings(year) for year in years.all if has_list(year)),
        "planting": lambda years: (addresses.planting(one) for year in years.all for one in year.plantings),
        "bed": lambda years: (addresses.bed(year, bed) for year in years.all for bed in year.garden.beds),
        "bed month": _bed_months,
        "sun": _sun,
        "weather": lambda years: (addresses.weather(year) for year in years.all if has_weather(year)),
        "tally": lambda years: (addresses.tally(year) for year in years.all if has_ledger(year)),
        "rows": lambda years: (addresses.rows(year) for year in years.all if has_ledger(year)),
        "bulletins": lambda years: (addresses.bulletins(year) for year in years.all if has_bulletins(year)),
        "week bulletin": lambda years: (
            addresses.bulletin(year, week) for year in years.all for week in year.weeks
        ),
        "data": lambda years: (addresses.data(year) for year in years.all if has_data(year)),
        "crops": lambda _years: (addresses.CROPS,),
        "crop": lambda years: map(addresses.crop, years.garden.crops),
        "your place": _for_beds(addresses.YOUR_PLACE),
        "taking care": lambda _years: (addresses.CAUTIONS,),
        "sheets": _for_beds(addresses.SHEETS),
        "marking out": lambda years: map(addresses.marking, marked_beds(years)),
        "bed sign": lambda years: (addresses.sign(bed) for bed in years.present.beds if years.foremost),
        "tally sheet": _for_season(addresses.TALLY_SHEET),
        "volunteers": _for_season(addresses.VOLUNTEERS),
        "plant tags": _for_season(addresses.PLANT_TAGS),
        "poster": lambda years: map(addresses.poster, begun(years)),
        "leaf": lambda years: (addresses.leaf(years, leaf) for leaf in years.garden.leaves),
        "questions": lambda years: (addresses.QUESTIONS,) if years.garden.questions else (),
        "question": lambda years: map(addresses.question, years.garden.questions),
        "not found": lambda years: (addresses.NOT_FOUND,) if years.garden.address else (),
    }
)
"""Each kind of page with what gives the path of each of its pages, in a settled order."""


def every_path(years: Years) -> Iterator[str]:
    """Yield the path of each page of the site."""
    return (path for paths in PATHS.values() for path in paths(years))


def every_file_path(years: Years) -> Iterator[str]:
    """Yield the path of every file for spreadsheets."""
    return (addresses.seeds_file(year) for year in years.all if year.season.plan)
