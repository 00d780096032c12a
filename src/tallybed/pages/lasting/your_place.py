"""Can I do this at my place? What it took and gave here, as a beginning for somebody else's bed."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction

from tallybed.garden.plurals import figured
from tallybed.garden.units import GALLON, KILOGRAM, LITRE, POUND, rounded
from tallybed.pages.frame import addresses
from tallybed.pages.frame.page import Page
from tallybed.pages.lasting.place_parts import advice, ground, marking, of_season
from tallybed.pages.tables.tables import Row, Table, figure, heads, text
from tallybed.pages.wording import sums
from tallybed.pages.wording.dated import in_season
from tallybed.pages.wording.money import money
from tallybed.pages.wording.sentences import counted
from tallybed.reckoning.effort.season import season_costs, season_water, season_work
from tallybed.reckoning.year import Year, Years

TITLE = "Can I do this at my place?"
SCALED = (
    "The last column is this garden’s figures over its squares, for {own}. Nobody grew that bed: another "
    "size has another edge, another place another summer."
)
_SMALL = {False: 16, True: 2}
"""A small bed, in square feet and in square metres: our choice, as an example."""


def pages(years: Years) -> Iterator[Page]:
    """Yield the page; nothing without a bed."""
    if years.present.beds:
        yield _page(years)


def whole_season(years: Years) -> Year | None:
    """Return the season that figures are taken from: the latest that is over, else the one under way.

    One without a record tells nothing of what a bed took and gave, and is the last to be taken.
    """
    told = (one for one in reversed(years.all) if one.is_over and (one.season.ledger or one.season.log))
    return next(told, None) or years.running or years.ended


def _page(years: Years) -> Page:
    year = whole_season(years)
    garden = year.garden if year else years.present
    parts = [
        ground(years, year),
        *(of_season(year) if year else ()),
        marking(years, year),
        advice(years, year),
    ]
    beds = counted(len(garden.beds), "bed").capitalize()
    they = "they" if len(garden.beds) > 1 else "it"
    lead = f"{beds} in one place, in figures: a beginning for yours, and no promise."
    if year:
        did = "took" if year.total.unknown or not year.lines else "took and gave"
        over = "the last whole season" if year.is_over else "the season under way"
        lead = f"{beds} in one place: what {they} {did} {in_season(year)}, {over}. A beginning, no promise."
    return Page(
        path=addresses.YOUR_PLACE,
        template="your_place.html",
        title=TITLE,
        description="What a bed like this took and gave here: ground, sun, minutes, money and water, "
        "how to mark one out, and where local advice is found.",
        kind="your place",
        data={
            "trail": (),
            "lead": lead,
            "parts": tuple(parts),
            "table": _scaled(year) if year else None,
        },
    )


def _scaled(year: Year) -> Table | None:
    """Return this garden's figures beside those of a small bed, in proportion; None where none are known."""
    garden, showing = year.garden, year.garden.showing
    own = _SMALL[showing.metric]
    area = showing.area_in(garden.square_feet)
    if not area:
        return None
    rows = [
        Row(cells=(text(name), figure(worded(amount)), figure(worded(amount * own / area))))
        for name, amount, worded in _amounts(year)
    ]
    columns = (f"Here, {showing.area(garden.square_feet)}", f"In proportion, {own} {showing.area_unit}")
    if not rows:
        return None
    return Table(
        ident="scaled",
        caption=f"What {year.name} comes to in proportion",
        heads=heads("In all, at least" if year.is_over else "So far, at least", *columns, numbers=columns),
        rows=tuple(rows),
        notes=(SCALED.format(own=f"{own} {showing.area_unit}"),),
    )


def _amounts(year: Year) -> Iterator[tuple[str, Fraction, Callable[[Fraction], str]]]:
    """Yield each amount of a season by name, with what words it."""
    garden = year.garden
    large = KILOGRAM if garden.showing.metric else POUND
    volume = LITRE if garden.showing.metric else GALLON
    if year.total.weight:
        places = 1 if year.total.weight.nanograms >= large.size else sums.FINE
        yield (
            "Weight",
            year.total.weight.within(large),
            lambda one: f"{rounded(one, places)} {large.symbol}",
        )
    worked = season_work(year, year.today)
    if worked is not None and worked.timed:
        yield "Work that was timed", Fraction(worked.minutes), lambda one: figured(round(one), "minute")
    watered = season_water(year, year.today)
    if watered is not None and watered.measured:
        amount = watered.litres * LITRE.size / volume.size
        yield "Water that was measured", amount, lambda one: f"{rounded(one, 0)} {volume.symbol}"
    costs = season_costs(year, year.today)
    if costs is not None and costs.shares:
        yield "Money", costs.whole, lambda one: money(garden, one)
