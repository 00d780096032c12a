"""A season month by month: the beds as they were, what was written of them, and what they gave."""

from __future__ import annotations

from dataclasses import dataclass

from tallybed.garden.days import Month
from tallybed.pages.drawings.month_pictures import MonthPicture, month_picture
from tallybed.pages.drawings.months import STATE_WORDS
from tallybed.pages.frame import addresses
from tallybed.pages.frame.page import Link
from tallybed.pages.wording import sums
from tallybed.pages.wording.dated import month_name
from tallybed.pages.wording.sentences import Day, plain_day
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
    """``at least 16.8 lb, of it 3.0 lb cured``; empty where no picking is on record."""
    titles: tuple[ChapterTitle, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ChapterAhead:
    """A month that is still to come."""

    name: str
    beds: tuple[Link, ...]


def chapters(year: Year) -> tuple[tuple[Chapter, ...], tuple[ChapterAhead, ...]]:
    """Return a season's months that have begun, and those to come; none for a garden without a bed."""
    if not year.garden.beds:
        return (), ()
    months = year.season.span.months
    ahead = [one for one in months if month_state(year.season.span, one, year.today) is MonthState.PLANNED]
    return (
        tuple(_chapter(year, month) for month in months if month not in ahead),
        tuple(ChapterAhead(name=month_name(year, month), beds=_beds(year, month)) for month in ahead),
    )


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
