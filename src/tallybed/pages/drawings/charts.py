"""Charts as pages hold them: each twice, for wide pages and for narrow ones."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from typing import cast

from markupsafe import Markup

from tallybed.drawing.base.flags import Flag
from tallybed.drawing.base.look import CHART_LINES
from tallybed.drawing.base.twice import passed_over
from tallybed.drawing.charts.running_totals import Series, cumulative
from tallybed.drawing.charts.weeks import WeekBar, weekly
from tallybed.garden.days import Week
from tallybed.garden.units import KILOGRAM, POUND, Showing, Weight
from tallybed.pages.wording import names
from tallybed.reckoning.harvest.tally import BY, TallyLine, added, bowl, running
from tallybed.reckoning.year import Year, Years


@dataclass(frozen=True, slots=True, kw_only=True)
class Chart:
    """One chart for wide pages and for narrow ones; the style sheet shows one of the two."""

    wide: Markup
    narrow: Markup


def whole_chart(year: Year, flags: Sequence[Flag]) -> Chart:
    """Return the running total of all crops, with the titles of the season's log."""
    series = [_series(year.years, "all crops", year.lines)]
    return _cumulative(year, series, "whole", f"Running total, {year.name}", flags)


def crops_chart(year: Year) -> Chart:
    """Return the running totals of crops, of many the heaviest; bowls are in the table."""
    by_crop: dict[str, list[TallyLine]] = {}
    for line in year.lines:
        if not bowl(line.crop):
            by_crop.setdefault(line.crop, []).append(line)
    series = [
        _series(year.years, names.listed_key(year.garden, key).text, by_crop[key]) for key in sorted(by_crop)
    ]
    many = len([one for one in series if one.points]) > CHART_LINES
    which = "heaviest crops" if many else "each crop"
    return _cumulative(year, series, "c-crops", f"Running totals: {which}, {year.name}")


def weeks_chart(year: Year) -> Chart:
    """Return what each week gave."""
    bars = tuple(
        WeekBar(
            week=cast("Week", week),
            amount=amount(year.garden.showing, total.weight),
            at_least=total.at_least,
        )
        for week, total in year.sums("week").items()
    )

    def drawn(narrow: bool, name: str) -> str:
        return weekly(
            bars,
            span=year.season.span,
            unit=year.garden.showing.unit,
            ident=name,
            title=f"What each week gave, {year.name}",
            narrow=narrow,
        )

    return both(drawn, "c-weeks")


def _cumulative(
    year: Year, series: Iterable[Series], ident: str, title: str, flags: Sequence[Flag] = ()
) -> Chart:
    """Return the chart of running totals, for wide pages and narrow ones."""
    kept = tuple(series)

    def drawn(narrow: bool, name: str) -> str:
        return cumulative(
            kept,
            span=year.season.span,
            unit=year.garden.showing.unit,
            ident=name,
            title=title,
            until=min(year.today, year.season.span.last),
            flags=flags,
            narrow=narrow,
        )

    return both(drawn, ident)


def both(drawn: Callable[[bool, str], str], ident: str) -> Chart:
    """Return a chart from what draws it: given whether it is narrow, and its name on the page."""
    # Drawings escape their own texts.
    return Chart(
        wide=Markup(drawn(False, f"{ident}-wide")),  # noqa: S704
        narrow=Markup(passed_over(drawn(True, f"{ident}-narrow"))),  # noqa: S704
    )


def _series(years: Years, name: str, lines: Sequence[TallyLine]) -> Series:
    """Return a running total, day by day, under a name."""
    points = tuple(
        (cast("date", day), amount(years.garden.showing, total.weight))
        for day, total in running(lines, BY["day"]).items()
    )
    return Series(name=name, points=points, at_least=added(lines).at_least)


def amount(showing: Showing, weight: Weight) -> Fraction:
    """Return a weight in the unit of the garden's totals."""
    return weight.within(KILOGRAM if showing.metric else POUND)
