"""The weather of a season: its freezes beside the average dates, each month's warmth and rain, a chart."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from tallybed.garden.plurals import figured
from tallybed.garden.records.weather import WeatherDay
from tallybed.pages.drawings.sky_chart import sky_chart
from tallybed.pages.frame import addresses
from tallybed.pages.frame.other_seasons import seasons_beside
from tallybed.pages.frame.page import Link, Page
from tallybed.pages.frame.trails import below_season
from tallybed.pages.tables.tables import Cell, Row, Table, figure, heads, text, without_empty_columns
from tallybed.pages.wording import sky
from tallybed.pages.wording.dated import day_name, month_name
from tallybed.pages.wording.sentences import counted, listed, sentence, span_words
from tallybed.reckoning.calendar.windows.freeze import Freeze
from tallybed.reckoning.growing_time import freezes_for
from tallybed.reckoning.weather import SeasonWeather, Spell, season_weather
from tallybed.reckoning.year import Year

_FIGURES = ("Low", "Mean", "High", "Freezes", "Rain")
AVERAGE = "The average dates are those that the garden tells as even chances of a later or an earlier freeze."


def pages(year: Year) -> Iterator[Page]:
    """Yield the weather of a season that has any."""
    found = season_weather(year)
    if found:
        yield _page(year, found)


def weather_link(year: Year) -> Link | None:
    """Return the link to a season's weather; None where it has none."""
    return Link(f"Weather of {year.name}", addresses.weather(year)) if season_weather(year) else None


def short_words(year: Year) -> str:
    """Return a season's freezes and rain in a sentence; empty where it has no weather."""
    found = season_weather(year)
    if found is None:
        return ""
    rain = found.whole.rain
    return sentence(
        f"last freeze {day_name(year, found.last_freeze.day)}" if found.last_freeze else "",
        f"first freeze {day_name(year, found.first_freeze.day)}" if found.first_freeze else "",
        f"{sky.rain(year.garden.showing, rain)} of rain" if rain is not None else "",
    )


def _page(year: Year, found: SeasonWeather) -> Page:
    """Return a season's weather as a page."""
    told = tuple(_told(year, found))
    whole = found.whole.span
    return Page(
        path=addresses.weather(year),
        template="weather.html",
        title=f"Weather of {year.name}",
        description=f"The weather over the beds, {span_words(whole.first, whole.last)}: freezes, heat, rain.",
        kind="weather",
        data={
            "trail": below_season(year, here="Weather"),
            "lead": " ".join(told[:2]),
            "more": " ".join(told[2:]),
            "chart": sky_chart(year, found),
            "table": weather_table(year, found.whole),
            "notes": tuple(_notes(year, found)),
            **seasons_beside(year, weather_link),
        },
    )


def _told(year: Year, found: SeasonWeather) -> Iterator[str]:
    """Yield a season's weather in sentences: freezes, then heat and cold, then rain."""
    spring, fall = found.last_freeze, found.first_freeze
    yield from _freezes(year, found)
    cold, hot = found.whole.coldest, found.whole.hottest
    extremes = []
    if cold and cold not in (spring, fall):
        extremes.append(f"coldest on {_when(year, cold)}")
    if hot and hot.high is not None:
        extremes.append(
            f"hottest on {day_name(year, hot.day)} ({sky.degrees(year.garden.showing, hot.high)})"
        )
    if extremes:
        yield f"It was {listed(extremes)}."
    rain = found.whole.rain
    if rain is not None:
        yield f"In all, {sky.rain(year.garden.showing, rain)} of rain was measured."


def _freezes(year: Year, found: SeasonWeather) -> Iterator[str]:
    """Yield the last freeze of spring and the first of fall, by day; or that none was measured."""
    spring, fall = found.last_freeze, found.first_freeze
    told = []
    if spring:
        which = "last freeze of spring" if found.past_spring else "last freeze so far"
        average, _fall = freezes_for(year, spring.day)
        told.append(
            (spring.day, f"The {which} was on {_when(year, spring)}{_beside(year, spring.day, average)}.")
        )
    if fall:
        between = f"; {figured(found.between, 'day')} lay between" if found.between else ""
        which = "first" if found.between else "first freeze"
        _spring, average = freezes_for(year, fall.day)
        beside = _beside(year, fall.day, average)
        told.append((fall.day, f"The {which} of fall was on {_when(year, fall)}{beside}{between}."))
    yield from (words for _day, words in sorted(told))
    if found.whole.coldest and found.past_spring and not spring:
        yield "No freeze was measured in spring." if fall else "No freeze was measured."
    elif found.whole.coldest and year.is_over and not fall:
        yield "None was measured in fall."


def _when(year: Year, one: WeatherDay) -> str:
    """Return a day with its lowest temperature."""
    low = f" ({sky.degrees(year.garden.showing, one.low)})" if one.low is not None else ""
    return f"{day_name(year, one.day)}{low}"


def _beside(year: Year, day: date, average: Freeze | None) -> str:
    """Return how many days a freeze was before or after the average date; empty where none is told."""
    if average is None:
        return ""
    apart = (day - average.middle).days
    if not apart:
        return ", on the average date"
    side = "after" if apart > 0 else "before"
    return f", {counted(abs(apart), 'day')} {side} the average of {day_name(year, average.middle)}"


def weather_table(year: Year, whole: Spell) -> Table:
    """Return a row for each month: lowest and highest temperature, their means, freezes, and rain."""
    showing = year.garden.showing
    unit = f"temperatures in {sky.degrees_unit(showing)}, rain in {sky.rain_word(showing)}"
    rows = tuple(_row(year, month_name(year, month), part) for month, part in whole.months)
    return without_empty_columns(
        Table(
            ident="months",
            caption=f"Month by month: {unit}",
            heads=heads("Month", *_FIGURES, numbers=_FIGURES),
            rows=rows,
            foot=(_row(year, "In all", whole, mark="total"),) if len(rows) > 1 else (),
        )
    )


def _row(year: Year, of: str, part: Spell, mark: str = "") -> Row:
    """Return the row of some days, called ``of``."""
    showing = year.garden.showing
    return Row(
        cells=(
            text(of),
            *_warmth(year, part),
            figure(str(len(part.freezes)) if part.coldest else ""),
            figure(sky.rain_number(showing, part.rain) if part.rain is not None else ""),
        ),
        mark=mark,
    )


def _warmth(year: Year, part: Spell) -> Iterator[Cell]:
    """Yield the cells of temperatures: the lowest, the mean, the highest."""
    low, high = part.coldest, part.hottest
    for value in (low.low if low else None, part.mean, high.high if high else None):
        yield figure("" if value is None else sky.degrees_number(year.garden.showing, value))


def _notes(year: Year, found: SeasonWeather) -> Iterator[str]:
    """Yield who measured it, what is missing, and what averages are."""
    if found.station:
        yield f"Measured at the station {found.station}, not in the beds: a hollow freezes sooner."
    whole = found.whole
    missing = (
        (whole.without_low if whole.coldest else 0, "no lowest temperature"),
        (whole.without_rain if whole.rain is not None else 0, "no measure of rain"),
    )
    told = [f"{many} have {what}" for many, what in missing if many]
    if told:
        span = span_words(whole.span.first, whole.span.last)
        yield f"Of the {figured(whole.span.days, 'day')} from {span}, {listed(told)}."
    if (found.last_freeze and year.spring) or (found.first_freeze and year.fall):
        yield AVERAGE
