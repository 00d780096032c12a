"""The bulletins of a season: one section a week that has a record, the newest first."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from tallybed.garden.days import Week
from tallybed.pages.files.bulletin_text import BulletinText, said
from tallybed.pages.files.card import Card
from tallybed.pages.files.week_card import shared_card
from tallybed.pages.frame import addresses
from tallybed.pages.frame.other_seasons import seasons_beside
from tallybed.pages.frame.page import Link, Page
from tallybed.pages.frame.site import SeasonView, Site
from tallybed.pages.season import log
from tallybed.pages.season.log import EntryItem
from tallybed.pages.wording.sentences import counted
from tallybed.reckoning.as_of import season_seen_from
from tallybed.reckoning.harvest.week import Bulletin, bulletin, told_days, weeks
from tallybed.reckoning.squares.occupancy import Holding, hold

LEAD = "Each is short enough to be read out in a minute, and made from log, ledger and plan alone."


@dataclass(frozen=True, slots=True, kw_only=True)
class WeekItem:
    """A week's bulletin on the page of its season."""

    ident: str
    to: str
    """The page of its own."""
    number: int
    said: BulletinText
    visits: tuple[EntryItem, ...]
    card: Card | None


def told(site: Site, view: SeasonView, week: Week) -> Bulletin:
    """Return the facts of a season's week; what was next is by the papers as they were on its last day."""
    before = year_before(site, view)
    days = told_days(view.season, week, site.today)
    return bulletin(
        site.garden,
        view.season,
        week,
        lines=view.lines,
        today=site.today,
        before=(before.season, before.lines) if before else None,
        holding=_holding(site, view, days[1]) if days else None,
    )


def _holding(site: Site, view: SeasonView, day: date) -> Holding:
    return view.holding if day == site.today else hold(season_seen_from(view.season, day), day)


def season_of(site: Site, week: Week) -> SeasonView | None:
    """Return the season that a week is told of: one with a record in it, the latest of several.

    None where no season has a day of the week up to the site's own.
    """
    views = [view for view in site.seasons if told_days(view.season, week, site.today)]
    recorded = [view for view in views if week in weeks(view.season, view.lines, site.today)]
    return next(reversed(recorded or views), None)


def year_before(site: Site, view: SeasonView) -> SeasonView | None:
    """Return the season that began in the year before; a season is named by the year it begins in."""
    if not view.name.isdecimal():
        return None
    name = str(int(view.name) - 1)
    return next((one for one in site.seasons if one.name == name), None)


def has_bulletins(site: Site, view: SeasonView) -> bool:
    """Return whether any week of the season has a record."""
    return bool(weeks(view.season, view.lines, site.today))


def pages(site: Site) -> Iterator[Page]:
    """Yield the page of bulletins of each season that has a record, and the page of each bulletin."""
    for view in site.seasons:
        if has_bulletins(site, view):
            items = tuple(_item(site, view, week) for week in weeks(view.season, view.lines, site.today))
            yield _page(site, view, items)
            yield from (_bulletin_page(view, items, number) for number in range(len(items)))


def bulletin_letter(site: Site, view: SeasonView, words: BulletinText, week: Week) -> Page:
    """Return a bulletin as a page without a frame, to be put in a mail."""
    base = site.garden.address
    path = addresses.bulletin(view, week)
    return Page(
        path="bulletin.html",
        template="bulletin_mail.html",
        title=words.heading,
        description=words.heading,
        kind="bulletin",
        data={
            "language": site.garden.language,
            "said": words,
            "address": addresses.absolute(base, path) if base else "",
        },
    )


def _page(site: Site, view: SeasonView, items: tuple[WeekItem, ...]) -> Page:
    return Page(
        path=addresses.bulletins(view),
        template="bulletins.html",
        title=f"Bulletins of {view.name}",
        description=f"{view.name} week by week in short texts: what was picked, the season so far, "
        "and how that compares with the year before.",
        kind="bulletins",
        data={
            "trail": (Link(f"Season {view.name}", addresses.season(view)), Link("Bulletins", "")),
            "lead": f"{counted(len(items), 'week').capitalize()} with a record, newest first. {LEAD}",
            "weeks": tuple(reversed(items)),
            **seasons_beside(site, view, lambda one: _link(site, one)),
        },
    )


def _bulletin_page(view: SeasonView, items: tuple[WeekItem, ...], number: int) -> Page:
    """Return the page of one bulletin, to be passed on by an address and with a picture of its own."""
    item = items[number]
    before = items[number - 1] if number else None
    after = items[number + 1] if number + 1 < len(items) else None
    return Page(
        path=item.to,
        template="bulletin.html",
        title=item.said.heading,
        description=" ".join(item.said.paragraphs),
        kind="week bulletin",
        data={
            "trail": (
                Link(f"Season {view.name}", addresses.season(view)),
                Link("Bulletins", addresses.bulletins(view)),
                Link(item.said.week, ""),
            ),
            "week": item,
            "before": Link(before.said.week, before.to) if before else None,
            "after": Link(after.said.week, after.to) if after else None,
        },
        card=item.card,
    )


def _link(site: Site, view: SeasonView) -> Link | None:
    if not has_bulletins(site, view):
        return None
    return Link(f"Bulletins of {view.name}", addresses.bulletins(view))


def _item(site: Site, view: SeasonView, week: Week) -> WeekItem:
    facts = told(site, view, week)
    return WeekItem(
        ident=addresses.week_name(week),
        to=addresses.bulletin(view, week),
        number=week.number,
        said=said(site.garden, facts),
        visits=tuple(
            log.item(site, view, entry) for entry in view.entries if facts.first <= entry.day <= facts.last
        ),
        card=shared_card(site, view, facts),
    )
