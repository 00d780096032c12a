"""The weather held against the beds: what a freeze should have killed, and nobody told of since."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date, timedelta

from tallybed.checks.results import CheckResult, advice, called
from tallybed.garden.days import Span, without_year
from tallybed.garden.records.log import Event, Verb
from tallybed.garden.records.weather import degrees_words
from tallybed.garden.squares import Square
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.weather import season_weather
from tallybed.reckoning.year import Year

_SEEN_BY = timedelta(days=7)
"""Days in which somebody should have looked at what froze: the beds are visited each week. Our choice."""


def stood_through_freeze(year: Year) -> Iterator[CheckResult]:
    """Find tender plantings that stood uncovered in a freeze of which the log tells nothing since.

    A freeze of 29 to 32 °F kills tender plants (National Weather Service, "light freeze"; from memory).
    """
    found = season_weather(year)
    freezes = found.whole.freezes if found and year.season.log is not None else ()
    for planting in year.plantings if freezes else ():
        crop = year.crop_of(planting)
        if crop is None or not crop.is_tender or not (planting.lines or planting.weighings):
            continue
        for one in freezes:
            squares = _standing(year, planting, one.day)
            if not squares or one.low is None or _is_told(year, planting, squares, one.day):
                continue
            low = degrees_words(one.low, metric=year.garden.showing.metric)
            yield (
                None,
                advice(
                    one.place,
                    "stood-through-freeze",
                    f"{called(year, planting)} stood through {low} on "
                    f"{without_year(one.day)}, and the log tells nothing of it in the week after",
                    expected="a line on what became of it, or on a cover",
                    remedy="log `lost`, `cover` or `observe` with its tag",
                ),
            )
            break


def _standing(year: Year, planting: Planting, day: date) -> frozenset[Square]:
    """Return the squares a planting stood in on a day, and still a week later by all that is known."""
    after = day + _SEEN_BY
    if after > year.today:
        return frozenset()
    holds = year.holding.of_planting(planting.key)
    stands = {hold.square for hold in holds if hold.first < after <= hold.last}
    return frozenset(hold.square for hold in holds if hold.first < day <= hold.last).intersection(stands)


def _is_told(year: Year, planting: Planting, squares: frozenset[Square], day: date) -> bool:
    """Return whether it was covered, or anything is on record of it in the week after a day."""
    week = Span(first=day, last=day + _SEEN_BY)
    if any(weighing.day in week and weighing.day > day for weighing in planting.weighings):
        return True
    lines = [event for entry in year.season.log or () for event in entry.done]
    near = [one for one in lines if not squares.isdisjoint(one.squares)]
    own = [event for event, _squares in planting.lines]
    return _is_covered(near, day) or any(one.day in week for one in (*own, *near))


def _is_covered(lines: Iterable[Event], day: date) -> bool:
    """Return whether the last that lines tell of a cover before a night is that it was put on."""
    covers = [one for one in lines if one.verb in (Verb.COVER, Verb.UNCOVER) and one.day <= day]
    return bool(covers) and max(covers, key=lambda one: one.day).verb is Verb.COVER
