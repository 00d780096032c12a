"""Where each page lies, as paths below the site's folder, and the way from one to another."""

from __future__ import annotations

from datetime import date
from functools import lru_cache
from re import IGNORECASE, fullmatch, sub
from urllib.parse import quote

from tallybed.garden.crops import Crop
from tallybed.garden.days import Month, Week
from tallybed.garden.garden import Leaf, Question
from tallybed.garden.records.log import Entry
from tallybed.garden.squares import Bed
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.year import Year, Years

HOME = "index.html"
NOT_FOUND = "404.html"
"""Where hosts look for what to show at an address where nothing lies (common practice, no source)."""
CROPS = "crops/index.html"
SEASONS = "seasons/index.html"
QUESTIONS = "questions/index.html"
SHEETS = "sheets/index.html"
CAUTIONS = "cautions/index.html"
YOUR_PLACE = "your-place/index.html"
VOLUNTEERS = "sheets/volunteers/index.html"
TALLY_SHEET = "sheets/tally-sheet/index.html"
PLANT_TAGS = "sheets/plant-tags/index.html"
CALENDAR = "calendar.ics"
DONE = "done.ics"
FEED = "feed.xml"
SITEMAP = "sitemap.xml"
ROBOTS = "robots.txt"
TAKEN = frozenset(one.partition("/")[0] for one in (CAUTIONS, CROPS, QUESTIONS, SEASONS, SHEETS, YOUR_PLACE))
"""Folders that pages of the garden's own may not take over."""


def season(year: Year) -> str:
    """Return where a season's home lies."""
    return f"{year.name}/index.html"


def season_of(name: str) -> str:
    """Return where the season of that name lies."""
    return f"{name}/index.html"


def seeds(year: Year) -> str:
    """Return where the list of seeds and plants for a season's plan lies."""
    return f"{year.name}/seeds/index.html"


def seeds_file(year: Year) -> str:
    """Return where that list lies as a file for spreadsheets."""
    return f"{year.name}/seeds/seeds-{year.name}.csv"


def weather(year: Year) -> str:
    """Return where a season's weather lies."""
    return f"{year.name}/weather/index.html"


def sign(one: Bed) -> str:
    """Return where a bed's sign for the fence lies."""
    return f"sheets/sign/{one.name}/index.html"


def poster(year: Year) -> str:
    """Return where a season's poster lies."""
    return f"sheets/poster/{year.name}/index.html"


def marking(one: Bed) -> str:
    """Return where the sheet for marking out a bed lies."""
    return f"sheets/marking-out/{one.name}/index.html"


def log(year: Year) -> str:
    """Return where the list of a season's entries lies."""
    return f"{year.name}/log/index.html"


def entry(year: Year, one: Entry) -> str:
    """Return where an entry lies; a day in a later year than the season's first keeps its year."""
    return f"{year.name}/log/{_day_word(year, one.day)}-{one.slug}/index.html"


def bed(year: Year, one: Bed) -> str:
    """Return where a bed lies in a season, with the map of the season's chief month."""
    return f"{year.name}/beds/{one.name}/index.html"


def bed_month(year: Year, one: Bed, month: Month) -> str:
    """Return where a bed's month lies: the season's chief month is one page with the bed."""
    chief = year.chief_month
    return bed(year, one) if month == chief else bed_month_folder(year, one, month)


def bed_month_folder(year: Year, one: Bed, month: Month) -> str:
    """Return where a bed's month has its own folder, whether its page lies there or leads on from there."""
    return f"{year.name}/beds/{one.name}/{_month_word(year, month)}/index.html"


def sun(year: Year, one: Bed, month: Month) -> str:
    """Return where the hours of sun over a bed in a month lie."""
    return f"{year.name}/beds/{one.name}/{_month_word(year, month)}/sun/index.html"


def tally(year: Year) -> str:
    """Return where a season's tally lies."""
    return f"{year.name}/tally/index.html"


def rows(year: Year) -> str:
    """Return where a season is held against ordinary rows."""
    return f"{year.name}/rows/index.html"


def card(year: Year) -> str:
    """Return where the picture lies that is shown with a season's address."""
    return f"{year.name}/card.png"


def data(year: Year) -> str:
    """Return where a season's files for reuse are explained."""
    return f"{year.name}/data/index.html"


def data_file(year: Year, name: str) -> str:
    """Return where one of those files lies."""
    return f"{year.name}/data/{name}"


def name_elsewhere(year: Year) -> str:
    """Return the name of a season's archive and of its data, for folders and programs of other people.

    It has small letters and digits, joined by hyphens: ``wrenfold-library-beds-2026``.
    """
    words = sub(r"[^a-z0-9]+", "-", year.garden.name.casefold()).strip("-")
    return f"{words or 'garden'}-{year.name}"


def bulletins(year: Year) -> str:
    """Return where the bulletins of a season lie, week by week."""
    return f"{year.name}/bulletins/index.html"


def week_name(week: Week) -> str:
    """Return how a week is named in addresses: ``2026-w31``."""
    return str(week).lower()


def bulletin(year: Year, week: Week) -> str:
    """Return where a week's bulletin lies."""
    return f"{year.name}/bulletins/{week_name(week)}/index.html"


def bulletin_card(year: Year, week: Week) -> str:
    """Return where the picture lies that is shown with a bulletin's address."""
    return f"{year.name}/bulletins/{week_name(week)}/card.png"


def plantings(year: Year) -> str:
    """Return where a season's plan lies, planting by planting with what came of each."""
    return f"{year.name}/plants/index.html"


def planting(one: Planting) -> str:
    """Return where a planting lies."""
    return planting_of(one.season, one.key)


def planting_of(season: str, key: str) -> str:
    """Return where the planting of that key lies: by its tag, so that a plant tag may carry the address."""
    return f"{season}/plants/{_planting_word(key)}/index.html"


def planting_name(one: Planting) -> str:
    """Return the one name that a planting has in every file for reuse: its tag, else its address's word."""
    return one.tag or _planting_word(one.key)


@lru_cache(maxsize=10_000)
def _planting_word(key: str) -> str:
    """Return the word that stands for a planting in addresses.

    ``COM1`` and the like would name a device on some systems, so they end in a hyphen.
    """
    word = sub(r"[^\w-]+", "-", key)
    return f"{word}-" if fullmatch(r"con|prn|aux|nul|(com|lpt)\d", word, IGNORECASE) else word


def crop(one: Crop) -> str:
    """Return where a crop lies."""
    return crop_of(one.slug)


def crop_of(slug: str) -> str:
    """Return where the crop of that slug lies."""
    return f"crops/{slug}/index.html"


def question(one: Question) -> str:
    """Return where a question and its answer lie."""
    return f"questions/{one.slug}/index.html"


def leaf(years: Years, one: Leaf) -> str:
    """Return where a page of the garden's own lies; it makes way for the site's own folders."""
    seasons = (years.whole or years).garden.seasons
    taken = one.slug in TAKEN or any(season.name == one.slug for season in seasons)
    return f"{one.slug}-page/index.html" if taken else f"{one.slug}/index.html"


def absolute(base: str, path: str) -> str:
    """Return the web address of a path; a folder stands for its page, so that each page has one address.

    ``base``: the garden's address, with a closing slash.
    """
    folder = path.removesuffix(HOME) if f"/{path}".endswith(f"/{HOME}") else path
    return base + quote(folder)


def _month_word(year: Year, month: Month) -> str:
    """Return how a month is named in addresses: ``05``, or ``2027-01`` in a later year than the first."""
    if month.year == year.season.span.first.year:
        return f"{month.month:02d}"
    return f"{month.year}-{month.month:02d}"


def _day_word(year: Year, day: date) -> str:
    """Return how a day is named in addresses; in a later year than the season's first with its year."""
    if day.year == year.season.span.first.year:
        return f"{day.month:02d}-{day.day:02d}"
    return day.isoformat()
