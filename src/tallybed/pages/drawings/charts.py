"""Charts as pages hold them: each twice, for wide pages and for narrow ones."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable
from dataclasses import dataclass
from fractions import Fraction
from typing import cast

from markupsafe import Markup

from tallybed.drawing.charts.running_totals import Series, cumulative
from tallybed.drawing.charts.weeks import WeekBar, weekly
from tallybed.garden.days import Week
from tallybed.garden.units import KILOGRAM, POUND, Showing, Weight
from tallybed.pages.frame.site import SeasonView, Site
from tallybed.pages.wording import names
from tallybed.reckoning.harvest.tally import BY, TallyLine, added, running, tally


@dataclass(frozen=True, slots=True, kw_only=True)
class Chart:
    """One chart for wide pages and for narrow ones; the style sheet shows one of the two."""

    wide: Markup
    narrow: Markup


def whole_chart(site: Site, view: SeasonView, *, ident: str) -> Chart:
    """Return the running total of all crops."""
    return _cumulative(
        site, view, [_series(site, "all crops", view.lines)], ident, f"Running total, {view.name}"
    )


def crops_chart(site: Site, view: SeasonView, *, ident: str) -> Chart:
    """Return the running total of each crop."""
    by_crop: dict[str, list[TallyLine]] = {}
    for line in view.lines:
        by_crop.setdefault(line.crop, []).append(line)
    series = [_series(site, names.key_link(site.garden, key).text, by_crop[key]) for key in sorted(by_crop)]
    return _cumulative(site, view, series, ident, f"Running total of each crop, {view.name}")


def weeks_chart(site: Site, view: SeasonView, *, ident: str) -> Chart:
    """Return what each week gave."""
    bars = tuple(
        WeekBar(
            week=cast("Week", week),
            amount=amount(site.garden.showing, total.weight),
            at_least=total.at_least,
        )
        for week, total in tally(view.lines, BY["week"]).items()
    )

    def drawn(narrow: bool, name: str) -> str:
        return weekly(
            bars,
            span=view.season.span,
            unit=site.garden.showing.unit,
            ident=name,
            title=f"What each week gave, {view.name}",
            narrow=narrow,
        )

    return both(drawn, ident)


def _cumulative(site: Site, view: SeasonView, series: Iterable[Series], ident: str, title: str) -> Chart:
    kept = tuple(series)

    def drawn(narrow: bool, name: str) -> str:
        return cumulative(
            kept,
            span=view.season.span,
            unit=site.garden.showing.unit,
            ident=name,
            title=title,
            until=min(site.today, view.season.span.last),
            narrow=narrow,
        )

    return both(drawn, ident)


def both(drawn: Callable[[bool, str], str], ident: str) -> Chart:
    """Return a chart from what draws it: given whether it is narrow, and its name on the page."""
    # Drawings escape their own texts.
    return Chart(
        wide=Markup(drawn(False, f"{ident}-wide")),  # noqa: S704
        narrow=Markup(drawn(True, f"{ident}-narrow")),  # noqa: S704
    )


def _series(site: Site, name: str, lines: Iterable[TallyLine]) -> Series:
    counted = [line for line in lines if line.counts]
    totals: dict[Hashable, Fraction] = {
        day: amount(site.garden.showing, total.weight) for day, total in running(counted, BY["day"]).items()
    }
    points = tuple((line.day, totals[line.day]) for line in {line.day: line for line in counted}.values())
    return Series(name=name, points=tuple(sorted(points)), at_least=added(counted).at_least)


def amount(showing: Showing, weight: Weight) -> Fraction:
    """Return a weight in the unit of the garden's totals."""
    return weight.within(KILOGRAM if showing.metric else POUND)
