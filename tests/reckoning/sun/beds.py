"""Beds with bodies on them, put together by hand for the tests of sun and shade."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from fractions import Fraction

from tallybed.garden.garden import Garden
from tallybed.garden.squares import Bed, Square
from tallybed.garden.surroundings import Thing, ThingKind
from tallybed.garden.units import INCH, Length
from tallybed.reckoning.calendar.stages import Growth
from tallybed.reckoning.sun.bodies import Body, Box, Spot, Standing
from tallybed.reckoning.sun.growth import Rise
from tallybed.reckoning.sun.hours import SeasonSun, summed_up
from tallybed.reckoning.sun.scene import Scene, site_of

YEAR = (date(2026, 1, 1), date(2026, 12, 31))


def bed_of(columns: int, rows: int, bearing: int = 90) -> Bed:
    """Return a bed of one-foot squares whose letters run in a bearing."""
    return Bed(name="b", title="Bed", columns=columns, rows=rows, bearing=Fraction(bearing))


def grown(inches: float) -> Rise:
    """Return a planting that has its height all the time."""
    return Rise(full=inches, growth=Growth(begun=date(2020, 1, 1), days=1, set_out=False))


def body(name: str, box: Box, inches: float, days: tuple[date, date] = YEAR) -> Body:
    """Return a box of a height."""
    return Body(planting=name, first=days[0], last=days[1], boxes=(box,), rise=grown(inches))


def spot(
    column: int, row: int, name: str = "", inches: float | None = None, days: tuple[date, date] = YEAR
) -> Spot:
    """Return the middle of a one-foot square, on the ground or at a height."""
    return Spot(
        square=Square("b", column, row),
        planting=name,
        first=days[0],
        last=days[1],
        x=12 * column + 6,
        y=12 * row + 6,
        rise=None if inches is None else grown(inches),
    )


def thing(kind: str, bearing: float, distance: float, width: float, height: float, *leafless: int) -> Thing:
    """Return a thing around the bed; lengths in inches."""
    return Thing(
        kind=ThingKind(kind),
        name=f"the {kind}",
        bearing=Fraction(bearing).limit_denominator(1000),
        distance=Length.of(Fraction(distance), INCH),
        width=Length.of(Fraction(width), INCH),
        height=Length.of(Fraction(height), INCH),
        leafless=frozenset(leafless),
    )


def scene(
    bed: Bed,
    latitude: float,
    bodies: Iterable[Body],
    spots: Iterable[Spot],
    things: Iterable[Thing] = (),
    longitude: int = 0,
) -> Scene:
    """Return a bed under the sun."""
    garden = Garden(
        name="G",
        latitude=Fraction(latitude),
        longitude=Fraction(longitude),
        beds=(bed,),
        surroundings=tuple(things),
    )
    site = site_of(garden, bed)
    assert site is not None
    return Scene(site, Standing(bodies=tuple(bodies), spots=tuple(spots)))


def season(bed: Bed, latitude: float, bodies: Iterable[Body], spots: Iterable[Spot]) -> SeasonSun:
    """Return the sums over all days of the spots."""
    return summed_up(bed, scene(bed, latitude, bodies, spots))
