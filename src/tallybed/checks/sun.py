"""The plan held against the sun: crops with too little of it, and crops that take it from others.

Hours are worked out under a clear sky, over all days that a planting stands. A season
that is closed is left alone, since nothing of it can be moved. What goes in before winter to be
picked after it only roots by then (common practice, no source): its sun is looked at in the season
that carries it over.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from tallybed.checks.results import CheckResult, advice, called, warning
from tallybed.garden.crops import Figure
from tallybed.garden.days import hours_words
from tallybed.garden.garden import Garden
from tallybed.garden.records.plan import Start
from tallybed.reckoning.calendar.windows.winter import planted_before_winter
from tallybed.reckoning.sun.needs import Dim, dim, shading
from tallybed.reckoning.sun.position import is_tropical
from tallybed.reckoning.year import Year

NAMED = 3
"""How many neighbours a finding names."""


def too_little_sun(year: Year) -> Iterator[CheckResult]:
    """Find plantings with less sun a day than their crop needs, and what takes it."""
    if year.season.closed:
        return
    for one in dim(year):
        row = year.rows.get(one.planting)
        if row is None or row.dropped is not None or _only_roots(year, one.planting):
            continue
        planting = year.holding.planting(one.planting)
        yield (
            row,
            warning(
                row.place,
                "too-little-sun",
                f"{called(year, planting)} gets {hours_words(one.hours)} of direct sun a day"
                f"{_taken(year, one)}",
                expected=_needed(year.garden, one.need),
                remedy="move it out of that shade, or silence this with the reason",
            ),
        )


def shades_neighbours(year: Year) -> Iterator[CheckResult]:
    """Find plantings that take more than an hour of sun a day from a neighbour."""
    if year.season.closed:
        return
    for one in shading(year):
        row = year.rows.get(one.planting)
        taken = [(key, hours) for key, hours in one.taken if not _only_roots(year, key)]
        if row is None or row.dropped is not None or not taken:
            continue
        told = [
            f"{hours_words(hours)}{'' if place else ' of direct sun a day'}"
            f" from {called(year, year.holding.planting(key))}"
            for place, (key, hours) in enumerate(taken[:NAMED])
        ]
        rest = len(taken) - NAMED
        bed = _bed_of_both(year, one.planting, taken[0][0])
        more = f" and from {rest} more" if rest > 0 else ""
        yield (
            row,
            advice(
                row.place,
                "shades-neighbours",
                f"{called(year, year.holding.planting(one.planting))} grows tall,"
                f" and takes {', '.join(told)}{more}",
                expected="an hour at most from each",
                remedy=f"{_where_tall(year.garden)};"
                f" `tallybed sun {bed} --better{_month(year)}` looks for an exchange",
            ),
        )


def _bed_of_both(year: Year, planting: str, neighbour: str) -> str:
    """Return the (first) bed in which a planting stands together with one that it takes sun from."""
    beds = [[hold.square.bed for hold in year.holding.of_planting(key)] for key in (planting, neighbour)]
    return next((bed for bed in beds[0] if bed in beds[1]), beds[0][0])


def _month(year: Year) -> str:
    """Return the option by which ``tallybed sun`` looks at this season; nothing where it does so anyway."""
    month = year.chief_month
    return "" if year is year.years.foremost else f" --month {month.year}-{month.month:02d}"


def _only_roots(year: Year, key: str) -> bool:
    """Return whether a planting goes in this season to stand the winter and give nothing before."""
    planting, row = year.holding.planting(key), year.rows.get(key)
    crop = year.crop_of(planting)
    if row is None or crop is None or row.start is Start.CARRIED:
        return False
    wintered = planted_before_winter(crop, year.garden.freezes, row.begins)
    return wintered is not None and wintered.whole and row.until > year.season.span.last


def _taken(year: Year, one: Dim) -> str:
    """Return what takes a planting's sun: neighbours, and what stands around."""
    days = one.light.days
    most, around = _most(one.light.to, days), _most(one.light.to_things, days)
    told = [
        f"{called(year, year.holding.planting(key))} takes {hours_words(hours / days)}" for key, hours in most
    ]
    told += [f"{name} takes {hours_words(hours / days)}" for name, hours in around]
    return f"; {', '.join(told)}" if told else ""


def _most(hours: Mapping[str, float], days: float) -> list[tuple[str, float]]:
    """Return what takes most of some hours, the most first: what is told as none of them is left out."""
    told = [(name, taken) for name, taken in hours.items() if round(taken / days, 1) > 0]
    return sorted(told, key=lambda item: (-item[1], item[0]))[:NAMED]


def _needed(garden: Garden, figure: Figure) -> str:
    low, high = float(figure.low or 0), float(figure.high or 0)
    span = f"{low:g} to {high:g} hours" if high > low else f"at least {hours_words(low)}"
    source = next((one for one in garden.sources if one.id == figure.source), None)
    if source is None:
        return f"{span} ({figure.kind})"
    weight = f", a source of weight {source.weight}" if source.weight else ""
    return f"{span} ({source.publisher or source.title}{weight})"


def _where_tall(garden: Garden) -> str:
    """Return where tall crops belong: away from the sun, where it stands on one side at noon all year."""
    latitude = float(garden.latitude or 0)
    if is_tropical(latitude):
        return "here the sun of noon stands north and south by turns, and no side is right all year"
    return f"tall crops belong on the {'south' if latitude < 0 else 'north'} side"
