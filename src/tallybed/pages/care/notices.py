"""What is not to be picked and not to be touched, in words: shown wherever hands are.

A notice tells what a label says as the gardener wrote it down, and until when. It never says
that anything may be eaten: the label, local rules and licensed practice stand above it.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime

from tallybed.garden.days import in_full
from tallybed.garden.garden import Garden
from tallybed.garden.grouping import grouped
from tallybed.garden.records.log import Event
from tallybed.garden.squares import Square, by_row
from tallybed.pages.frame.page import Link
from tallybed.pages.wording import names
from tallybed.pages.wording.sentences import counted, listed
from tallybed.reckoning.waits.season import UNTOLD
from tallybed.reckoning.waits.spans import SquareKeptOff, Wait, WaitKind, first_safe
from tallybed.reckoning.waits.words import done_with
from tallybed.reckoning.year import Year

DEFERS = (
    "The product’s own label, local rules and licensed practice stand above everything written here; where "
    "they differ from this page, they are right."
)
"""The standing sentence: wherever advice on treatments, soil, boards or food stands."""
NOT_KNOWN = "how long to wait is not known; read the label"
UNREAD = (
    "Do not pick: a treatment or manure is written down that cannot be understood yet, so how long to wait "
    "is not known."
)
"""Where a slip keeps a line from being read, until it is corrected."""
KEEP_OFF_NOT_KNOWN = "when to go back in is not known; read the label"


_SOIL = "Pick nothing that touches soil in"
_LEFT = "Pick nothing left of the season before in"


@dataclass(frozen=True, slots=True, kw_only=True)
class Notice:
    """One thing not to pick, or one place to keep off."""

    do_not: str
    """``Do not pick``, or ``Keep off``."""
    what: Link
    """The planting; its words are empty where ground alone is meant."""
    where: str
    until: str
    """``before 15 September 2026``, or why nobody knows."""
    because: str
    planting: str
    """Key of the planting; empty for ground."""
    squares: frozenset[Square]
    first_day: date | None
    """The first day on which it is over; None where that is not known."""
    event: Event

    @property
    def about(self) -> tuple[str, str]:
        """What not to do, and with which planting, or where it is none's."""
        return self.do_not, self.planting or self.where

    @property
    def text(self) -> str:
        """Return it as one sentence."""
        named = f" {self.what.text}" if self.what.text else ""
        place = f" in {self.where}" if named and self.where else f" {self.where}" if self.where else ""
        until = f" {self.until}" if self.first_day else f": {self.until}"
        return f"{self.do_not}{named}{place}{until} ({self.because})."

    @property
    def plain(self) -> str:
        """Return it as one sentence, without the cause: for words that travel with a picture."""
        named = f" {self.what.text}" if self.what.text else f" {self.where}"
        return f"{self.do_not}{named}{' ' if self.first_day else ': '}{self.until}."

    @property
    def short(self) -> str:
        """Return what, where and until when, for where there is little room."""
        named = self.what.text or self.where
        return f"{named}, {self.until}" if self.first_day else f"{named}, not known until when"


def notices(year: Year, day: date) -> tuple[Notice, ...]:
    """Return what is not to be picked on a day, then where to keep off, each by bed and squares."""
    return (*not_to_pick(year, day), *keep_off_notices(year, day))


def not_to_pick(year: Year, day: date) -> tuple[Notice, ...]:
    """Return what is not to be picked on a day, planting by planting."""
    still_open = (wait for wait in year.waiting.waits if wait.is_open(day))
    there = grouped(still_open, lambda wait: (wait.planting, wait.square))
    together: dict[tuple[str, date | None], list[tuple[Square, list[Wait]]]] = {}
    for (planting, square), waits in there.items():
        _any, safe = first_safe(waits)
        together.setdefault((planting, safe), []).append((square, waits))
    found = [_wait_notice(year, key, safe, parts) for (key, safe), parts in together.items()]
    return tuple(sorted(found, key=_order))


def keep_off_notices(year: Year, day: date) -> tuple[Notice, ...]:
    """Return where people keep off on some of a day."""
    still_open = (one for one in year.waiting.keep_offs if one.is_open(day))
    together = grouped(still_open, lambda one: (one.event, one.rule.first_day))
    return tuple(sorted((_keep_off(year.garden, parts) for parts in together.values()), key=_order))


def longest(found: Iterable[Notice]) -> tuple[Notice, ...]:
    """Return for each planting, and for each place that is none's, the notice that lasts longest.

    For wherever the squares of a planting are not told: the earlier of two days would be read for all of
    them. What is not known lasts longest.
    """
    last: dict[tuple[str, str], Notice] = {}
    for one in found:
        kept = last.setdefault(one.about, one)
        if (one.first_day or date.max) > (kept.first_day or date.max):
            last[one.about] = one
    return tuple(last.values())


def concerning(found: Iterable[Notice], squares: Iterable[Square], planting: str = "") -> tuple[Notice, ...]:
    """Return the notices that concern some squares, or a planting by its key."""
    wanted = frozenset(squares)
    return tuple(
        one for one in found if (planting and one.planting == planting) or not wanted.isdisjoint(one.squares)
    )


def _order(one: Notice) -> tuple[object, ...]:
    """Return what notices are put in order by: by their squares, what is not known first."""
    return (*min(map(by_row, one.squares)), one.first_day or date.min, one.what.text, one.event.day)


def _wait_notice(year: Year, key: str, safe: date | None, parts: list[tuple[Square, list[Wait]]]) -> Notice:
    """Return the notice of one planting's squares that wait for the same day."""
    squares = frozenset(square for square, _waits in parts)
    waits = [wait for _square, own in parts for wait in own if wait.first_safe == safe]
    events = {wait.event: wait for wait in waits}
    planting = year.holding.planting(key) if key else None
    return Notice(
        do_not="Do not pick" if planting else _LEFT if any(wait.left for wait in waits) else _SOIL,
        what=names.planting_link(year.garden, planting) if planting else Link("", ""),
        where=names.place_words(year.garden, squares),
        until=f"before {in_full(safe)}" if safe else NOT_KNOWN,
        because=listed(dict.fromkeys(cause_words(wait) for wait in events.values())),
        planting=key,
        squares=squares,
        first_day=safe,
        event=next(iter(events)),
    )


def cause_words(wait: Wait) -> str:
    """Return why something waits: ``treated with soap on 10 June 2026, 7 days to wait by the label``."""
    event = wait.event
    if wait.kind is WaitKind.MANURE:
        days = (wait.first_safe - event.day).days if wait.first_safe else 0
        return f"manure that counts as raw, {in_full(event.day)}; organic rules ask for {days} days"
    told = event.treatment or UNTOLD
    days_words = "" if told.wait is None else f", {counted(told.wait, 'day')} to wait by the label"
    return f"{treated_words(event)}{days_words}"


def treated_words(event: Event) -> str:
    """Return ``treated with soap on 10 June 2026``; without the name of a crop."""
    return f"{done_with(event)} on {in_full(event.day)}"


def _keep_off(garden: Garden, parts: list[SquareKeptOff]) -> Notice:
    """Return the notice of squares that people keep off after one line of the log."""
    rule, event = parts[0].rule, parts[0].event
    squares = frozenset(one.square for one in parts)
    return Notice(
        do_not="Keep off",
        what=Link("", ""),
        where=names.place_words(garden, squares),
        until=keep_off_words(parts[0]),
        because=treated_words(event),
        planting="",
        squares=squares,
        first_day=rule.first_day,
        event=event,
    )


def keep_off_words(one: SquareKeptOff) -> str:
    """Return until when people keep off: to the hour where that is known."""
    rule = one.rule
    if rule.first_day is None:
        return KEEP_OFF_NOT_KNOWN
    if rule.until is not None:
        return f"until {in_full(rule.until.date())}, {clock_words(rule.until)}"
    if rule.until_dry:
        return f"until it has dried, and before {in_full(rule.first_day)} ask whoever treated it"
    return f"before {in_full(rule.first_day)}"


def clock_words(when: datetime) -> str:
    """Return a time of day: ``11:30 pm``."""
    half = "am" if when.hour < 12 else "pm"
    return f"{when.hour % 12 or 12}:{when.minute:02d} {half}"
