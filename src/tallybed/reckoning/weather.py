"""What a season's weather comes to: its freezes, each month's warmth and rain, and what nobody measured."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from fractions import Fraction

from tallybed.garden.days import Month, Span
from tallybed.garden.records.weather import WeatherDay
from tallybed.garden.units import Length
from tallybed.reckoning.growing_time import growing_times
from tallybed.reckoning.year import Year


@dataclass(frozen=True, slots=True, kw_only=True)
class Spell:
    """The weather of some days on end. Temperatures in degrees Fahrenheit."""

    span: Span
    days: tuple[WeatherDay, ...]
    """Those of which anything was measured, in order."""

    @property
    def coldest(self) -> WeatherDay | None:
        """The first day with the lowest temperature, or None where none was measured."""
        known = [one for one in self.days if one.low is not None]
        return min(known, key=lambda one: (one.low, one.day), default=None)

    @property
    def hottest(self) -> WeatherDay | None:
        """The first day with the highest temperature, or None where none was measured."""
        known = [(one.high, one) for one in self.days if one.high is not None]
        return min(known, key=lambda pair: (-pair[0], pair[1].day), default=(None, None))[1]

    @property
    def freezes(self) -> tuple[WeatherDay, ...]:
        """The days on which it froze."""
        return tuple(one for one in self.days if one.froze)

    @property
    def mean(self) -> Fraction | None:
        """The mean of all days, each halfway between its lowest and highest; None without any.

        So daily means are taken by FAO Irrigation and Drainage Paper 56, equation 9.
        """
        days = [(one.low + one.high) / 2 for one in self.days if one.low is not None and one.high is not None]
        return sum(days, Fraction(0)) / len(days) if days else None

    @property
    def rain(self) -> Length | None:
        """The rain of all days on which it was measured; None without any."""
        known = [one.rain for one in self.days if one.rain is not None]
        return sum(known, Length()) if known else None

    @property
    def without_low(self) -> int:
        """How many of its days have no lowest temperature: it may have frozen on them."""
        return self.span.days - sum(one.low is not None for one in self.days)

    @property
    def without_rain(self) -> int:
        """How many of its days have no measure of rain: more may have fallen."""
        return self.span.days - sum(one.rain is not None for one in self.days)

    def within(self, first: date, last: date) -> Spell | None:
        """Return the part of it from one day to another; None where it has no day there."""
        span = Span(first=max(first, self.span.first), last=min(last, self.span.last))
        if span.first > span.last:
            return None
        return Spell(span=span, days=tuple(one for one in self.days if one.day in span))

    @property
    def months(self) -> tuple[tuple[Month, Spell], ...]:
        """Its months, each with its own weather."""
        parts = ((month, self.within(month.first, month.last)) for month in self.span.months)
        return tuple((month, part) for month, part in parts if part)


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonWeather:
    """A season's weather up to the day it is seen from."""

    station: str
    """Who measured it; empty where the garden did."""
    whole: Spell
    last_freeze: WeatherDay | None
    """The last freeze of spring, or the last so far."""
    first_freeze: WeatherDay | None
    """The first freeze of fall."""
    past_spring: bool
    """Whether it goes on beyond the middle of the growing time, so that spring is over."""

    @property
    def between(self) -> int | None:
        """Days from the last freeze of spring to the first of fall after it; None if not both are known."""
        if self.last_freeze is None or self.first_freeze is None:
            return None
        days = (self.first_freeze.day - self.last_freeze.day).days
        return days if days > 0 else None


def season_weather(year: Year) -> SeasonWeather | None:
    """Return a season's weather; None where there is no file, or none of its days is past."""
    return year.kept("weather", lambda: _season_weather(year))


def _season_weather(year: Year) -> SeasonWeather | None:
    told, season = year.season.weather, year.season.span
    last = min(year.today, season.last)
    days = tuple(one for one in told.days if one.day <= last) if told else ()
    if told is None or not days:
        return None
    # The records may have gone on since somebody last looked at the gauge: those days are not missing.
    last = max(days[-1].day, last if year.is_over else days[-1].day)
    whole = Spell(span=Span(first=season.first, last=last), days=days)
    middles = [_middle(one) for one in growing_times(year)] or [_middle(season)]
    before = [one for one in whole.freezes if one.day < middles[-1]]
    after = [one for one in whole.freezes if one.day >= middles[0]]
    return SeasonWeather(
        station=told.station,
        whole=whole,
        last_freeze=before[-1] if before else None,
        first_freeze=after[0] if after else None,
        past_spring=last >= middles[-1],
    )


def _middle(span: Span) -> date:
    """Return the day in the middle of some days."""
    return span.first + timedelta(days=span.days // 2)
