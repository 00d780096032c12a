"""How much sun a crop needs, and which plantings get less or take much from their neighbours."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from tallybed.garden.crops import Crop, Figure
from tallybed.reckoning.sun.hours import bodies, plantings_sun
from tallybed.reckoning.sun.scene import Light
from tallybed.reckoning.year import Year

NEED = "sun hours"
TALL = 36.0
"""Inches from which a planting counts as tall. Our choice."""
MUCH = 1.0
"""Hours a day, to a tenth as they are told, that a planting may take from a neighbour."""

ENOUGH = 12.0
"""Hours a day that are enough for any crop, whoever takes more: where the summer has no night, a neighbour
may cast a shadow for hours and do no harm. Our choice; no crop of the library needs more than 8."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Dim:
    """A planting with less sun than its crop needs, over the days it stands."""

    planting: str
    hours: float
    """Hours of direct sun a day."""
    need: Figure
    light: Light


@dataclass(frozen=True, slots=True, kw_only=True)
class Shading:
    """A planting that takes much sun from neighbours, over the days each of them stands."""

    planting: str
    taken: tuple[tuple[str, float], ...]
    """Neighbours, by key, and hours a day of each; the most first."""


def need_of(crop: Crop | None) -> Figure | None:
    """Return the figure used for the sun that a crop needs; None where nothing is known."""
    figure = crop.used(NEED) if crop else None
    return figure if figure and figure.low is not None else None


def sun_of(year: Year) -> Mapping[str, Light]:
    """Return the sun of each planting of a season, in whatever beds, by key; its days are square-days."""
    return year.kept("sun of plantings", lambda: _sun_of(year))


def _sun_of(year: Year) -> Mapping[str, Light]:
    found: dict[str, Light] = {}
    for bed in year.garden.beds:
        sun = plantings_sun(year, bed)
        for planting, light in sun.plantings.items() if sun else ():
            found.setdefault(planting, Light()).add(light)
    return found


def dim(year: Year) -> Iterator[Dim]:
    """Yield the plantings that get less sun a day, to a tenth of an hour, than the least their crop needs."""
    for planting, light in sorted(sun_of(year).items()):
        need = need_of(year.crop_of(year.holding.planting(planting)))
        if need is None or need.low is None or not light.days:
            continue
        hours = light.sun / light.days
        if round(hours, 1) < need.low:
            yield Dim(planting=planting, hours=hours, need=need, light=light)


def shading(year: Year) -> Iterator[Shading]:
    """Yield the tall plantings that take more than an hour a day from some neighbour that wants it."""
    taken: dict[str, list[tuple[str, float]]] = {}
    for planting, light in sun_of(year).items():
        for other, hours in light.to.items():
            if light.days and round(hours / light.days, 1) > MUCH and light.sun / light.days < ENOUGH:
                taken.setdefault(other, []).append((planting, hours / light.days))
    heights = _heights(year)
    for planting, neighbours in sorted(taken.items()):
        if heights.get(planting, 0.0) < TALL:
            continue
        ordered = sorted(neighbours, key=lambda one: (-one[1], one[0]))
        yield Shading(planting=planting, taken=tuple(ordered))


def _heights(year: Year) -> Mapping[str, float]:
    """Return the height in inches that each planting comes to, and no more than its trellis has."""
    found: dict[str, float] = {}
    for bed in year.garden.beds:
        for body in bodies(year, bed):
            full = body.rise.full if body.most is None else min(body.rise.full, body.most)
            found[body.planting] = max(found.get(body.planting, 0.0), full)
    return found
