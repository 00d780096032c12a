"""Hours of direct sun over each square of a bed: on a day, in a month, over a season.

The sun's middle counts, above a level horizon, without refraction, under a clear sky.
A month's figure is the mean of its days that lie in the season.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from functools import partial

from tallybed.garden.days import Month
from tallybed.garden.grouping import grouped
from tallybed.garden.squares import Bed, Square
from tallybed.reckoning.sun.bodies import Body, Spot, Standing, standing
from tallybed.reckoning.sun.scene import Light, Scene, site_of
from tallybed.reckoning.sun.sums import STRETCH, Summing
from tallybed.reckoning.sun.sums_text import Sums, as_text, from_text
from tallybed.reckoning.year import Year


@dataclass(frozen=True, slots=True, kw_only=True)
class SpotSun:
    """The sun over one square at one height: that of a planting, or of bare ground."""

    square: Square
    planting: str
    """Empty for bare ground."""
    light: Light
    """Sums over its days."""
    foremost: Light
    """The same over those days on which it is the tallest that the square has."""


@dataclass(frozen=True, kw_only=True)
class BedSun:
    """A bed's sun over some days."""

    bed: Bed
    spots: tuple[SpotSun, ...]
    """By square (row by row), then planting."""
    unknown: tuple[str, ...] = ()
    """Plantings of no known height, by key."""

    @property
    def squares(self) -> Mapping[Square, Light]:
        """Each square's sun: each day at the tallest crop it has, or on bare ground."""
        found = {square: Light() for square in self.bed.squares}
        for spot in self.spots:
            found[spot.square].add(spot.foremost)
        return found

    @property
    def plantings(self) -> Mapping[str, Light]:
        """Each planting's sun over all its squares, by key; its days are square-days."""
        found: dict[str, Light] = {}
        for spot in self.spots:
            if spot.planting:
                found.setdefault(spot.planting, Light()).add(spot.light)
        return dict(sorted(found.items()))

    @property
    def cost(self) -> float:
        """Square-hours of sun that plantings take from each other."""
        return sum(spot.light.lost for spot in self.spots if spot.planting)


@dataclass(frozen=True, kw_only=True)
class SeasonSun:
    """A bed's sun over a season, month by month, and on any day."""

    bed: Bed
    scene: Scene = field(repr=False)
    months: Mapping[Month, BedSun]
    whole: BedSun

    def on(self, day: date) -> BedSun:
        """Return the sun on one day of the season."""
        foremost = _foremost(self.scene.stands)
        found = {}
        for place, spot in enumerate(self.scene.stands.spots):
            if spot.first <= day <= spot.last:
                light = self.scene.light(place, day)
                found[place] = (light, light if _is_foremost(foremost[place], day) else Light())
        return _bed_sun(self.bed, self.scene.stands, found)


Days = tuple[int, int]
"""A first and a last day, by ordinal."""
_Both = tuple[Light, Light]
"""Sums over all days of a spot, and over those on which it is the tallest of its square."""


def season_sun(year: Year, bed: Bed) -> SeasonSun | None:
    """Return a bed's sun over a season, once for a year; None where the garden's latitude is not told."""
    return year.kept(("sun", bed.name), lambda: _season_sun(year, bed))


def plantings_sun(year: Year, bed: Bed) -> BedSun | None:
    """Return the same over the whole season of a bed's plantings alone, in less than half the time."""
    scene = _scene(year, bed)
    return None if scene is None else _bed_sun(bed, scene.stands, _whole(_of_plantings(year, bed, scene)))


def planted_sun(bed: Bed, scene: Scene) -> BedSun:
    """Return the sun over the plantings of any scene, summed over all their days."""
    return _bed_sun(bed, scene.stands, _whole(_sums(scene, _planted(scene))))


def bodies(year: Year, bed: Bed) -> tuple[Body, ...]:
    """Return what stands in a bed over a season and can shade; nothing where the latitude is not told."""
    scene = _scene(year, bed)
    return tuple(scene.stands.bodies) if scene else ()


def _scene(year: Year, bed: Bed) -> Scene | None:
    """Return the scene of a bed, once for a year; None where the garden's latitude is not told."""
    site = site_of(year.garden, bed)
    return None if site is None else year.kept(("scene", bed.name), lambda: Scene(site, standing(year, bed)))


def _of_plantings(year: Year, bed: Bed, scene: Scene) -> Sums:
    """Return the sums of the spots with a planting, once for a year."""
    return year.kept(("sun of plantings", bed.name), lambda: _kept_sums(year, scene, _planted(scene)))


def _kept_sums(year: Year, scene: Scene, places: Sequence[int]) -> Sums:
    """Return the sums of some spots, kept from one run to the next: nothing else takes as long to reckon."""
    text = year.years.keep(f"sun at {places} of {scene.told}", lambda: as_text(_sums(scene, places)))
    return from_text(text)


def _season_sun(year: Year, bed: Bed) -> SeasonSun | None:
    scene = _scene(year, bed)
    if scene is None:
        return None
    bare = [place for place, spot in enumerate(scene.stands.spots) if not spot.planting]
    return summed_up(bed, scene, {**_of_plantings(year, bed, scene), **_kept_sums(year, scene, bare)})


def summed_up(bed: Bed, scene: Scene, known: Sums | None = None) -> SeasonSun:
    """Return the sums of a scene over all days of its spots, month by month.

    ``known``: those of some spots, worked out before.
    """
    sums = dict(known or {})
    sums |= _sums(scene, [place for place in range(len(scene.stands.spots)) if place not in sums])
    months: dict[Month, dict[int, _Both]] = {}
    for place, own in sorted(sums.items()):
        for (month, is_foremost), light in own.items():
            _add(months.setdefault(month, {}), place, light, is_foremost=is_foremost)
    return SeasonSun(
        bed=bed,
        scene=scene,
        months={month: _bed_sun(bed, scene.stands, months[month]) for month in sorted(months)},
        whole=_bed_sun(bed, scene.stands, _whole(sums)),
    )


def _planted(scene: Scene) -> list[int]:
    """Return the places of the spots with a planting."""
    return [place for place, spot in enumerate(scene.stands.spots) if spot.planting]


def _whole(sums: Sums) -> dict[int, _Both]:
    """Return sums over all months."""
    found: dict[int, _Both] = {}
    for place, own in sorted(sums.items()):
        for (_month, is_foremost), light in own.items():
            _add(found, place, light, is_foremost=is_foremost)
    return found


def _add(found: dict[int, _Both], place: int, light: Light, *, is_foremost: bool) -> None:
    """Add light at a spot to what was found of it."""
    pair = found.setdefault(place, (Light(), Light()))
    pair[0].add(light)
    if is_foremost:
        pair[1].add(light)


def _sums(scene: Scene, places: Sequence[int]) -> Sums:
    """Return the light at some spots of a scene, summed over all their days in each month."""
    spots, foremost = scene.stands.spots, _foremost(scene.stands)
    bounds = {place: (spots[place].first.toordinal(), spots[place].last.toordinal()) for place in places}
    start = min((first for first, _last in bounds.values()), default=0)
    latest = max((last for _first, last in bounds.values()), default=-1)
    names = {day: (Month.of(date.fromordinal(day)), True) for day in range(start, latest + 1)}
    alike = _alike(scene, bounds, foremost)
    sums = {
        place: Summing(light=partial(_light_on, scene, place), cut=_names(names, foremost[place]).__getitem__)
        for place in sorted(set(alike.values()))
    }
    turns = {place: scene.turns(place, *bounds[place]) for place in sums}
    while start <= latest:
        # Stretch by stretch for all spots together, so that no day's sky is kept for long.
        end = start - start % STRETCH + STRETCH
        for place, own in sums.items():
            first, last = bounds[place]
            if first < end and last >= start:
                if first >= start:
                    own.begin(first)
                own.go_on((day for day in turns[place] if start <= day < end), min(end, last))
        scene.forget(date.fromordinal(end))
        start = end
    return {place: sums[other].sums for place, other in alike.items()}


def _alike(scene: Scene, bounds: Mapping[int, Days], foremost: list[tuple[Days, ...]]) -> dict[int, int]:
    """Return for each spot the first that has the very same light on the same days: where nothing shades."""
    known: dict[tuple[Days, tuple[Days, ...]], int] = {}
    return {
        place: known.setdefault((days, foremost[place]), place) if scene.is_open(place) else place
        for place, days in bounds.items()
    }


def _light_on(scene: Scene, place: int, day: int) -> Light:
    return scene.light(place, date.fromordinal(day))


def _names(names: dict[int, tuple[Month, bool]], behind: tuple[Days, ...]) -> dict[int, tuple[Month, bool]]:
    """Return for each day its month, and whether a spot is then the tallest of its square."""
    other = {
        day: (names[day][0], False)
        for first, last in behind
        for day in range(first, last + 1)
        if day in names
    }
    return names | other if other else names


def _foremost(stands: Standing) -> list[tuple[Days, ...]]:
    """Return for each spot the days on which a taller planting has its square."""
    by_square = grouped(stands.spots, lambda spot: spot.square)
    return [
        tuple(
            (other.first.toordinal(), other.last.toordinal())
            for other in by_square[spot.square]
            if _rank(other) > _rank(spot) and other.first <= spot.last and other.last >= spot.first
        )
        for spot in stands.spots
    ]


def _rank(spot: Spot) -> tuple[float, str]:
    return (spot.rise.full if spot.rise else 0.0, spot.planting)


def _is_foremost(behind: tuple[Days, ...], day: date) -> bool:
    return not any(first <= day.toordinal() <= last for first, last in behind)


def _bed_sun(bed: Bed, stands: Standing, found: Mapping[int, _Both]) -> BedSun:
    sums: dict[tuple[Square, str], _Both] = {}
    for place, (light, foremost) in found.items():
        spot = stands.spots[place]
        own = sums.setdefault((spot.square, spot.planting), (Light(), Light()))
        own[0].add(light)
        own[1].add(foremost)
    ordered = sorted(sums.items(), key=lambda item: (item[0][0].row, item[0][0].column, item[0][1]))
    return BedSun(
        bed=bed,
        unknown=stands.unknown,
        spots=tuple(
            SpotSun(square=square, planting=planting, light=light, foremost=foremost)
            for (square, planting), (light, foremost) in ordered
        ),
    )
