"""What stands in the calendars that people may take over into their own: jobs to come, and visits made."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from tallybed.garden.log import Verb
from tallybed.pages.frame import addresses
from tallybed.pages.frame.site import SeasonView, Site
from tallybed.pages.tables import done
from tallybed.pages.wording import names
from tallybed.reckoning.calendar.due import Due, due


@dataclass(frozen=True, slots=True, kw_only=True)
class Occasion:
    """One whole day's entry of a calendar, without an hour."""

    uid: str
    """The same at each build, whatever becomes of its day."""
    day: date
    summary: str
    description: str = ""
    where: str = ""
    """Squares; empty where none are meant."""
    link: str = ""
    """Web address of a page of the site; empty where the garden has none."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Calendar:
    """A calendar file."""

    path: str
    name: str
    stamped: date
    """The day the records speak as of."""
    seasons: tuple[str, ...]
    """Names of the seasons in it."""
    occasions: tuple[Occasion, ...]


def calendars(site: Site) -> tuple[Calendar, ...]:
    """Return the calendar of jobs to come, and the one of visits made; none where there is no season.

    A calendar must hold something (RFC 5545, section 3.4), so one of jobs also tells
    where its seasons begin and end, and one of no visit is left out.
    """
    views = _current(site)
    if not views:
        return ()
    jobs = tuple(one for view in views for one in _jobs(site, view))
    found = [_calendar(site, views, addresses.CALENDAR, site.garden.name, jobs)]
    seen = tuple(view for view in views if view.entries)
    if seen:
        visits = tuple(one for view in seen for one in _visits(site, view))
        found.append(_calendar(site, seen, addresses.DONE, f"{site.garden.name}: what was done", visits))
    return tuple(found)


def _calendar(
    site: Site, views: tuple[SeasonView, ...], path: str, name: str, occasions: tuple[Occasion, ...]
) -> Calendar:
    return Calendar(
        path=path,
        name=name,
        stamped=site.today,
        seasons=tuple(view.name for view in views),
        occasions=occasions,
    )


def _current(site: Site) -> tuple[SeasonView, ...]:
    """Return the season under way and the one to come; between seasons with none planned, the last."""
    found = tuple(view for view in (site.running, site.coming) if view)
    return found or tuple(view for view in (site.ended,) if view)


def _jobs(site: Site, view: SeasonView) -> Iterator[Occasion]:
    span = view.season.span
    for word, day in (("begins", span.first), ("ends", span.last)):
        yield Occasion(
            uid=_uid(site, view, "season", word),
            day=day,
            summary=f"Season {view.name} {word}",
            link=_address(site, addresses.season(view)),
        )
    if site.is_over(view):
        return
    for one in due(view.season, view.holding, max(site.today, span.first), span.last):
        yield _job(site, view, one)


def _job(site: Site, view: SeasonView, one: Due) -> Occasion:
    crop = names.crop_link(site.garden, one.crop.slug) if one.crop.slug else None
    called = crop.text if crop else one.crop.typed
    tag = view.holding.planting(one.planting).tag
    work = f"sow {called} indoors" if one.verb == Verb.SOW_INDOORS else f"{one.verb} {called}"
    words = [f"By the plan of {view.name}, not yet done by the log.", one.note]
    return Occasion(
        uid=_uid(site, view, one.planting, one.verb),
        day=one.day,
        summary=f"{work[0].upper()}{work[1:]}{f' ({tag})' if tag else ''}",
        description="\n".join(word for word in words if word),
        where=names.place_words(site.garden, one.squares),
        link=_address(site, crop.to if crop and crop.to else addresses.plan(view)),
    )


def _visits(site: Site, view: SeasonView) -> Iterator[Occasion]:
    for entry in view.entries:
        gist = done.gist(site.garden, entry.done, most=len(entry.done))
        by = f"By {entry.by}" if entry.by else ""
        squares = {square for event in entry.done for square in event.squares}
        yield Occasion(
            # A visit is known by its file's name, which holds its day.
            uid=_uid(site, view, "visit", f"{entry.day.isoformat()} {entry.slug}"),
            day=entry.day,
            summary=entry.title,
            description="\n".join(word for word in (gist, by) if word),
            where=names.place_words(site.garden, squares),
            link=_address(site, addresses.entry(view, entry)),
        )


def _uid(site: Site, view: SeasonView, thing: str, verb: str) -> str:
    """Return a name for an occasion that no other in the world has (RFC 5545, section 3.8.4.7).

    What stands after ``@`` is the site's address, else the garden's name, in a domain
    that nobody can own (RFC 2606, section 2).
    """
    told = site.garden.address.partition("//")[2].strip("/")
    whose = told or f"{_joined(site.garden.name.casefold())}.invalid"
    return f"{view.name}-{_joined(thing)}-{_joined(verb)}@{whose}"


def _joined(words: str) -> str:
    return "-".join(words.split())


def _address(site: Site, path: str) -> str:
    base = site.garden.address
    return addresses.absolute(base, path) if base else ""
