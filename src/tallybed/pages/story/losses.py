"""What was lost in a season, and why: as the log says it, and the plan where it gave something up."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from tallybed.garden.records.log import Event, Verb
from tallybed.garden.records.plan import Start
from tallybed.pages.frame import addresses
from tallybed.pages.frame.page import Link
from tallybed.pages.story.flags import LOSSES
from tallybed.pages.wording import names
from tallybed.pages.wording.sentences import Day, counted, plain_day
from tallybed.reckoning.harvest.stood import stood_in
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.year import Year

DROPPED = "given up"
_SAID = {Verb.FAILED: "failed", Verb.LOST: "lost"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Loss:
    """What went on one day, in one way, for one cause."""

    day: Day
    what: tuple[Link, ...]
    how: str
    """``lost``, ``lost in D1``, ``failed to come up``, ``three plants lost``, ``given up``."""
    because: str
    told: Link | None
    """The visit that the log tells it at, where that can be read."""


def losses(year: Year) -> tuple[Loss, ...]:
    """Return what was lost up to the day the year is seen from, by day."""
    found: dict[tuple[date, str, str], list[Link]] = {}
    for day, how, because, link in sorted(_each(year), key=lambda one: one[:3]):
        found.setdefault((day, how, because), []).append(link)
    told = {one.day: Link(one.title, addresses.entry(year, one)) for one in year.entries}
    return tuple(
        Loss(
            day=plain_day(day),
            what=tuple(dict.fromkeys(links)),
            how=how,
            because=because,
            told=told.get(day) if how != DROPPED else None,
        )
        for (day, how, because), links in found.items()
    )


def _each(year: Year) -> Iterator[tuple[date, str, str, Link]]:
    """Yield (day, how, cause, what) of each loss in the log, and of each row given up."""
    gone: set[str] = set()
    for entry in year.season.log or ():
        for event in entry.done:
            if event.verb not in LOSSES or event.day > year.today:
                continue
            plantings = year.plantings_of.get(event, ())
            gone.update(one.key for one in plantings)
            how = _how(event, plantings) + _where(year, event, plantings)
            for link in _what(year, event, plantings):
                yield event.day, how, event.because, link
    for planting in year.plantings:
        row = planting.planned
        if row and row.dropped and row.dropped <= year.today and planting.key not in gone:
            yield row.dropped, DROPPED, row.because, names.planting_link(year.garden, planting)


def _what(year: Year, event: Event, plantings: tuple[Planting, ...]) -> Iterator[Link]:
    """Yield the plantings that a line is about, else its crop as typed."""
    if plantings:
        yield from (names.planting_link(year.garden, one) for one in plantings)
    elif event.crop:
        yield names.named(year.garden, event.crop)


def _where(year: Year, event: Event, plantings: tuple[Planting, ...]) -> str:
    """Return where it was lost, of a line that counts no plants and names some squares of it, not all."""
    if event.plants is not None or not event.squares:
        return ""
    stood = {square for one in plantings for square in stood_in(year.holding, one, event.day)}
    return f" in {names.place_words(year.garden, event.squares)}" if stood - set(event.squares) else ""


def _how(event: Event, plantings: tuple[Planting, ...]) -> str:
    """Return how it went: ``lost``, ``two plants lost``, ``failed to come up``; ``failed`` of what was up."""
    if event.plants is not None:
        return f"{counted(event.plants, 'plant')} {_SAID[event.verb]}"
    if event.verb is Verb.FAILED and not any(_was_up(one, event.day) for one in plantings):
        return "failed to come up"
    return _SAID[event.verb]


def _was_up(planting: Planting, day: date) -> bool:
    """Return whether a planting was set out, or seen growing, by that day."""
    if planting.planned is not None and planting.planned.start is Start.SET_OUT:
        return True
    verbs = {one.verb for one in planting.events if one.day <= day}
    return any(verb is Verb.SET_OUT or verb.meaning.shows_growth for verb in verbs)
