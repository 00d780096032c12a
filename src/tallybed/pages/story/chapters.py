"""A season month by month: the beds as they were, what was written of them, and what they gave."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import takewhile

from tallybed.garden.days import Month
from tallybed.pages.drawings.month_pictures import MonthPicture, month_picture
from tallybed.pages.drawings.months import STATE_WORDS
from tallybed.pages.frame import addresses
from tallybed.pages.frame.page import Link
from tallybed.pages.wording import sums
from tallybed.pages.wording.dated import month_name
from tallybed.pages.wording.sentences import Day, plain_day
from tallybed.reckoning.beds import month_of
from tallybed.reckoning.calendar.month_state import MonthState, month_state
from tallybed.reckoning.year import Year


@dataclass(frozen=True, slots=True, kw_only=True)
class ChapterTitle:
    """A visit that the log tells of in a month."""

    day: Day
    title: str
    to: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Chapter:
    """One month of a season."""

    name: str
    said: str
    """``under way``; nothing for a month on record."""
    drawn: MonthPicture
    beds: tuple[Link, ...]
    """Where each bed's month is told in full."""
    picked: str
    """``at least 16.8 lb, 3.0 lb of it cured``; empty where no picking is on record."""
    titles: tuple[ChapterTitle, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class NamedMonth:
    """A month that is named, and not shown: before anything was in the beds, or still to come."""

    name: str
    beds: tuple[Link, ...]


def chapters(year: Year) -> tuple[tuple[NamedMonth, ...], tuple[Chapter, ...], tuple[NamedMonth, ...]]:
    """Return a season's months before anything was in the beds, those that tell something, those to come.

    None for a garden without a bed.
    """
    if not year.garden.beds:
        return (), (), ()
    months = year.season.span.months
    ahead = [one for one in months if month_state(year.season.span, one, year.today) is MonthState.PLANNED]
    begun = [month for month in months if month not in ahead]
    empty = list(takewhile(lambda month: _tells_nothing(year, month), begun[:-1]))
    return (
        tuple(_named(year, month) for month in empty),
        tuple(_chapter(year, month) for month in begun if month not in empty),
        tuple(_named(year, month) for month in ahead),
    )


def _named(year: Year, month: Month) -> NamedMonth:
    """Return a month by its name alone."""
    return NamedMonth(name=month_name(year, month), beds=_beds(year, month))


def _tells_nothing(year: Year, month: Month) -> bool:
    """Return whether no bed held anything in a month, nobody wrote of it, and nothing was picked."""
    held = (month_of(year, bed, month).holders for bed in year.garden.beds)
    written = any(Month.of(one.day) == month for one in year.entries)
    return not (any(held) or written or month in year.sums("month"))


def _beds(year: Year, month: Month) -> tuple[Link, ...]:
    """Return where each bed's month is told in full."""
    return tuple(Link(bed.title, addresses.bed_month(year, bed, month)) for bed in year.garden.beds)


def _chapter(year: Year, month: Month) -> Chapter:
    """Return one month."""
    drawn = month_picture(year, month)
    total = year.sums("month").get(month)
    return Chapter(
        name=month_name(year, month),
        said=STATE_WORDS[drawn.state],
        drawn=drawn,
        beds=_beds(year, month),
        picked=sums.in_words(year.garden.showing, total) if total else "",
        titles=tuple(
            ChapterTitle(day=plain_day(one.day), title=one.title, to=addresses.entry(year, one))
            for one in year.entries
            if Month.of(one.day) == month
        ),
    )
