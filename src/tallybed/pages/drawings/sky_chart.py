"""The chart of a season's weather as pages hold it."""

from __future__ import annotations

from collections.abc import Sequence

from tallybed.drawing.charts.sky import DayBar, RainBar, weather_chart
from tallybed.garden.days import weeks_between
from tallybed.pages.drawings.charts import Chart, both
from tallybed.pages.wording import sky
from tallybed.pages.wording.sentences import counted, sentence
from tallybed.reckoning.weather import SeasonWeather
from tallybed.reckoning.year import Year


def sky_chart(year: Year, found: SeasonWeather) -> Chart:
    """Return the chart of a season's weather."""
    showing = year.garden.showing
    days = tuple(
        DayBar(
            day=one.day,
            low=sky.degrees_shown(showing, one.low),
            high=sky.degrees_shown(showing, one.high),
        )
        for one in found.whole.days
        if one.low is not None and one.high is not None
    )
    bars = []
    for week in weeks_between(found.whole.span.first, found.whole.span.last):
        part = found.whole.within(week.first, week.last)
        if part and part.rain is not None:
            amount, said = sky.rain_shown(showing, part.rain), sky.rain(showing, part.rain)
            bars.append(RainBar(week=week, amount=amount, said=said))

    def drawn(narrow: bool, name: str) -> str:
        return weather_chart(
            days,
            tuple(bars),
            span=year.season.span,
            unit=sky.degrees_unit(showing),
            rain_words=f"{sky.rain_word(showing)} of rain a week",
            ident=name,
            title=f"Weather of {year.name}, day by day",
            told=_told(year, found, bars),
            narrow=narrow,
        )

    return both(drawn, "c-weather")


def _told(year: Year, found: SeasonWeather, bars: Sequence[RainBar]) -> str:
    """Return what the chart shows as a sentence: its ends, its freezes, the wettest week."""
    showing, cold, hot = year.garden.showing, found.whole.coldest, found.whole.hottest
    frozen = len(found.whole.freezes)
    wettest = max(bars, key=lambda bar: bar.amount, default=None)
    return sentence(
        f"coldest {sky.degrees(showing, cold.low)}" if cold and cold.low is not None else "",
        f"hottest {sky.degrees(showing, hot.high)}" if hot and hot.high is not None else "",
        f"{counted(frozen, 'day')} with a freeze" if cold else "",
        f"{wettest.said} of rain in the wettest week" if wettest and wettest.amount else "",
    )
