"""What stands in the calendars that people may take over into their own: jobs to come, and visits made."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date

from tallybed.garden.findings import capital
from tallybed.pages.care.notices import DEFERS, Notice, concerning, longest, notices
from tallybed.pages.files.bulletin_text import job_words
from tallybed.pages.frame import addresses
from tallybed.pages.tables import done
from tallybed.pages.wording import names
from tallybed.reckoning.calendar.due import Due, due
from tallybed.reckoning.year import Year, Years


@dataclass(frozen=True, slots=True, kw_only=True)
class Occasion:
    """One whole day's entry of a calendar, without an hour."""

    uid: str
    """The same at each build, whatever becomes of its day."""
    day: date
    sequence: int
    """How often it may have been told before: the days from its season's first to the newest on record."""
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
    """The newest day on record."""
    time_zone: str
    """Of the IANA database; empty where not told."""
    seasons: tuple[str, ...]
    """Names of the seasons in it."""
    occasions: tuple[Occasion, ...]


def calendars(years: Years) -> tuple[Calendar, ...]:
    """Return the calendar of jobs to come, and the one of visits made; none where there is no season.

    A calendar must hold something (RFC 5545, section 3.4), so one of jobs also tells
    where its seasons begin and end, and one of no visit is left out.
    """
    views = _current(years)
    if not views:
        return ()
    jobs: dict[str, Occasion] = {}
    for one in (one for year in views for one in _jobs(year)):
        # What waits in a square is told by the season that is over and by the one to come.
        jobs.setdefault(one.uid, one)
    found = [_calendar(years, views, addresses.CALENDAR, years.garden.name, tuple(jobs.values()))]
    seen = tuple(year for year in views if year.entries) or _last_visited(years)
    if seen:
        visits = tuple(one for year in seen for one in _visits(year))
        found.append(_calendar(years, seen, addresses.DONE, f"{years.garden.name}: what was done", visits))
    return tuple(found)


def _calendar(
    years: Years, views: tuple[Year, ...], path: str, name: str, occasions: tuple[Occasion, ...]
) -> Calendar:
    return Calendar(
        path=path,
        name=name,
        stamped=years.today,
        time_zone=years.garden.time_zone,
        seasons=tuple(year.name for year in views),
        occasions=occasions,
    )


def _current(years: Years) -> tuple[Year, ...]:
    """Return the season under way, between seasons the last, whose waits go on; and the one to come."""
    return tuple(year for year in (years.running or years.ended, years.coming) if year)


def _last_visited(years: Years) -> tuple[Year, ...]:
    """Return the latest season with a visit, if any: who follows the visits keeps their address."""
    return tuple(year for year in years.all if year.entries)[-1:]


def _jobs(year: Year) -> Iterator[Occasion]:
    """Yield a season's bounds and the jobs of its plan that are not done."""
    span = year.season.span
    for word, day in (("begins", span.first), ("ends", span.last)):
        yield Occasion(
            uid=_uid(year, "season", word),
            day=day,
            sequence=_sequence(year),
            summary=f"Season {year.name} {word}",
            link=_address(year.years, addresses.season(year)),
        )
    waits = notices(year, year.today)
    for notice in longest(waits):
        yield _waiting(year, notice, [one for one in waits if one.about == notice.about])
    if year.is_over:
        return
    for one in due(year.season, year.holding, max(year.today, span.first), span.last):
        yield _job(year, one)


def _job(year: Year, one: Due) -> Occasion:
    """Return one job of the plan as an occasion."""
    planting = year.holding.planting(one.planting)
    work = job_words(one.verb, names.named(year.garden, one.crop, many=True).text)
    waiting = concerning(notices(year, year.today), one.squares, one.planting)
    words = [f"By the plan of {year.name}, not yet done by the log.", one.note]
    words += [notice.text for notice in waiting]
    return Occasion(
        uid=_uid(year, one.planting, one.verb),
        day=one.day,
        sequence=_sequence(year),
        summary=f"{capital(work)}{f' ({planting.tag})' if planting.tag else ''}",
        description="\n".join(word for word in words if word),
        where=names.place_words(year.garden, one.squares),
        link=_address(year.years, addresses.planting(planting)),
    )


def _waiting(year: Year, notice: Notice, alike: Sequence[Notice]) -> Occasion:
    """Return a notice as an occasion: on the first day on which it is over, or today where none is known.

    ``alike``: all that is said of the same planting or place; one occasion tells it, when the last is over.
    """
    named = notice.what.text or notice.where
    begins = f"First day to pick {named}" if notice.planting else f"First day in {named}"
    # Of the season it was done in, so that it stays the same one in the season it reaches into.
    done_in = next((one for one in year.years.all if notice.event.day in one.season.span), year)
    return Occasion(
        uid=_uid(done_in, f"{notice.do_not} {notice.planting or notice.where}", notice.event.day.isoformat()),
        day=notice.first_day or year.today,
        sequence=_sequence(done_in, year.today),
        summary=begins if notice.first_day else f"{notice.do_not} {named}: until when is not known",
        description="\n".join([*(one.text for one in alike), DEFERS]),
        where=names.place_words(year.garden, {square for one in alike for square in one.squares}),
        link=_address(year.years, notice.what.to or addresses.CAUTIONS),
    )


def _visits(year: Year) -> Iterator[Occasion]:
    """Yield the visits of a season as occasions."""
    for entry in year.entries:
        gist = done.gist(year.garden, entry.done, most=len(entry.done))
        by = f"By {entry.by}" if entry.by else ""
        squares = {square for event in entry.done for square in event.squares}
        yield Occasion(
            # A visit is known by the name that its file first had, which holds its day.
            uid=_uid(year, "visit", entry.known_as),
            day=entry.day,
            sequence=_sequence(year),
            summary=entry.title,
            description="\n".join(word for word in (gist, by) if word),
            where=names.place_words(year.garden, squares),
            link=_address(year.years, addresses.entry(year, entry)),
        )


def _sequence(year: Year, today: date | None = None) -> int:
    """Return a number that never falls as records are added, so that a later file wins over an earlier one.

    RFC 5545, section 3.8.7.4, asks for one that grows with each change; a build knows nothing
    of the one before, and two builds on one day's records can tell different things under one number.
    """
    return max(((today or year.today) - year.season.span.first).days, 0)


def _uid(year: Year, thing: str, verb: str) -> str:
    """Return a name for an occasion that no other in the world has (RFC 5545, section 3.8.4.7).

    What stands after ``@`` is the site's address, else the garden's name, in a domain
    that nobody can own (RFC 2606, section 2).
    """
    told = year.garden.address.partition("//")[2].strip("/")
    whose = told or f"{_joined(year.garden.name.casefold())}.invalid"
    return f"{year.name}-{_joined(thing)}-{_joined(verb)}@{whose}"


def _joined(words: str) -> str:
    """Return words joined by hyphens."""
    return "-".join(words.split())


def _address(years: Years, path: str) -> str:
    """Return a page's web address; empty where the garden's is not told."""
    base = years.garden.address
    return addresses.absolute(base, path) if base else ""
