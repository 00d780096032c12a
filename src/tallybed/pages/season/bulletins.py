"""The bulletins of a season: a line for each week that has a record, the newest first."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from re import sub

from tallybed.garden.days import Week
from tallybed.garden.units import AT_LEAST_WORDS, with_at_least
from tallybed.pages.care.notices import Notice, longest, notices
from tallybed.pages.files.bulletin_text import BesideRows, BulletinText, bulletin_text
from tallybed.pages.files.card import Card
from tallybed.pages.files.week_card import shared_card
from tallybed.pages.frame import addresses
from tallybed.pages.frame.other_seasons import seasons_beside
from tallybed.pages.frame.page import Link, Page
from tallybed.pages.frame.trails import below_season
from tallybed.pages.frame.which_pages import has_bulletins
from tallybed.pages.season import log
from tallybed.pages.season.log import EntryItem
from tallybed.pages.wording import sky
from tallybed.pages.wording.sentences import counted
from tallybed.reckoning.as_of import season_seen_from
from tallybed.reckoning.calendar.due import Due, coming
from tallybed.reckoning.harvest.week import Bulletin, bulletin, told_days
from tallybed.reckoning.rows.season import answer
from tallybed.reckoning.weather import season_weather
from tallybed.reckoning.year import Year, Years

LEAD = "A bulletin takes a minute to read out."


@dataclass(frozen=True, slots=True, kw_only=True)
class WeekItem:
    """A week's bulletin, and what a list says of it."""

    ident: str
    to: str
    """The page of its own."""
    number: int
    said: BulletinText
    gave: str
    """What was picked, in few words: ``at least 2.4 lb``."""
    visits: tuple[EntryItem, ...]
    card: Card | None


def week_facts(year: Year, week: Week) -> Bulletin:
    """Return the facts of a season's week; what was next is by the papers as they were on its last day."""
    before = year_before(year)
    days = told_days(year.season, week, year.today)
    return bulletin(
        year.garden,
        year.season,
        week,
        lines=year.lines,
        today=year.today,
        before=(before.season, before.lines) if before else None,
        ahead=_coming(year, days[1]) if days else (),
    )


def _coming(year: Year, day: date) -> tuple[Due, ...]:
    """Return the jobs that came next after a day, by the papers as they were then."""
    return coming(season_seen_from(year.season, day), day, year.holding.order)


def season_of(years: Years, week: Week) -> Year | None:
    """Return the season that a week is told of: one with a record in it, the latest of several.

    None where no season has a day of the week up to the site's own.
    """
    views = [year for year in years.all if told_days(year.season, week, years.today)]
    recorded = [year for year in views if week in year.weeks]
    return next(reversed(recorded or views), None)


def week_text(year: Year, facts: Bulletin) -> BulletinText:
    """Return the facts of a season's week in words; the last of a season tells it beside ordinary rows."""
    waits, weather = _waiting(year, facts.last), _weather(year, facts.first, facts.last)
    found = answer(year) if facts.whole else None
    if found is None or found.ground is None or not found.rows.crops:
        return bulletin_text(year.garden, facts, waits=waits, weather=weather)
    beside = BesideRows(
        verdict=found.verdict,
        row_ground=found.rows.square_feet,
        ground=found.ground,
        at_least=found.rows.at_least,
    )
    return bulletin_text(year.garden, facts, beside, waits, weather)


def _weather(year: Year, first: date, last: date) -> str:
    """Return the weather of a bulletin's days as a sentence; empty where nothing is known of it."""
    found = season_weather(year)
    spell = found.whole.within(first, last) if found else None
    return sky.said(year.garden.showing, spell) if spell else ""


def _waiting(year: Year, day: date) -> str:
    """Return what is not to be picked and where to keep off on a bulletin's last day, as sentences."""
    found = longest(notices(year, day))
    said = []
    for do_not in dict.fromkeys(one.do_not for one in found):
        parts = dict.fromkeys(_briefly(one) for one in found if one.do_not == do_not)
        said.append(f"{do_not}: {'; '.join(parts)}.")
    return " ".join(said)


def _briefly(one: Notice) -> str:
    """Return what waits, in few words: a planting without its variety."""
    named = sub(r" ‘[^’]*’", "", one.what.text) or one.where
    return f"{named} {one.until}" if one.first_day else f"{named} until its label has been read"


def year_before(year: Year) -> Year | None:
    """Return the season that began in the year before; a season is named by the year it begins in."""
    if not year.name.isdecimal():
        return None
    return year.years.named(str(int(year.name) - 1))


def pages(year: Year) -> Iterator[Page]:
    """Yield the page of bulletins of a season that has a record."""
    if has_bulletins(year):
        yield _page(year, week_items(year))


def week_items(year: Year) -> tuple[WeekItem, ...]:
    """Return the bulletins of a season, oldest first."""
    return year.kept("bulletins", lambda: tuple(_item(year, week) for week in year.weeks))


def bulletin_letter(year: Year, words: BulletinText, week: Week) -> Page:
    """Return a bulletin as a page without a frame, to be put in a mail."""
    base = year.garden.address
    path = addresses.bulletin(year, week)
    return Page(
        path="bulletin.html",
        template="bulletin_mail.html",
        title=words.heading,
        description=words.heading,
        kind="bulletin",
        data={
            "language": year.garden.language,
            "said": words,
            "address": addresses.absolute(base, path) if base else "",
        },
    )


def _page(year: Year, items: tuple[WeekItem, ...]) -> Page:
    """Return a season's bulletins as a page."""
    return Page(
        path=addresses.bulletins(year),
        template="bulletins.html",
        title=f"Bulletins of {year.name}",
        description=f"{year.name} week by week: what was picked, who was there, and a short text for each "
        "week to be read out.",
        kind="bulletins",
        data={
            "trail": below_season(year, here="Bulletins"),
            "lead": f"{counted(len(items), 'week').capitalize()} with a record"
            f"{', newest first' if len(items) > 1 else ''}. {LEAD}",
            "weeks": tuple(reversed(items)),
            **seasons_beside(year, _link),
        },
    )


def _link(year: Year) -> Link | None:
    """Return the link to a season's bulletins; None where it has none."""
    if not has_bulletins(year):
        return None
    return Link(f"Bulletins of {year.name}", addresses.bulletins(year))


def _item(year: Year, week: Week) -> WeekItem:
    """Return one week's bulletin, its visits and its picture."""
    facts = week_facts(year, week)
    return WeekItem(
        ident=addresses.week_name(week),
        to=addresses.bulletin(year, week),
        number=week.number,
        said=week_text(year, facts),
        gave=_gave(year, facts),
        visits=tuple(
            log.entry_item(year, entry) for entry in year.entries if facts.first <= entry.day <= facts.last
        ),
        card=shared_card(year, facts),
    )


def _gave(year: Year, facts: Bulletin) -> str:
    """Return what a week gave, for its line in the list; empty where nothing was picked."""
    total = facts.picked
    if not total.pickings:
        return ""
    if total.unknown:
        return "picked, not weighed"
    words = year.garden.showing.summed(total.weight)
    return with_at_least(words, AT_LEAST_WORDS) if total.at_least else words
