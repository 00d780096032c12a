"""Weights beyond belief: for the plants there are, for the ground there is, and for the pieces counted."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from fractions import Fraction

from tallybed.checks.results import CheckResult, called, warning
from tallybed.checks.weights.limits import BY_AREA, Limits, limits_of
from tallybed.garden.crops import Crop, Habit
from tallybed.garden.plurals import figured
from tallybed.garden.records.ledger import State, Weighing
from tallybed.garden.records.log import STARTING, Verb
from tallybed.garden.units import FOOT, GRAM, POUND, Length, Weight, total
from tallybed.reckoning.harvest.belief import TIMES, Belief
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.room.counting import part_of
from tallybed.reckoning.room.plants import spacing_of
from tallybed.reckoning.room.spacing import most
from tallybed.reckoning.rows.ground import planting_ground
from tallybed.reckoning.year import Year

DRY = 4
"""By how much dried or cured pieces may be lighter than the least fresh ones. Our choice."""
LIGHT_PARTS = frozenset(
    {
        *("greens", "green", "tops", "top", "leaves", "leaf", "scapes", "scape", "thinnings", "thinning"),
        *("shoots", "shoot", "tips", "tip", "tendrils", "sprouts"),
        *("flowers", "flower", "blossoms", "blossom", "blooms", "buds", "seed", "seeds"),
    }
)
"""Words for a form of a crop that is lighter than the piece it is grown for."""


def implausible_weight(year: Year) -> Iterator[CheckResult]:
    """Find plantings that gave far more than their plants or their squares can."""
    fresh: dict[str, list[tuple[Weight, Weighing]]] = {}
    for weighing, planting in year.owned:
        if weighing.weight and weighing.state is State.FRESH:
            fresh.setdefault(planting.key, []).append((weighing.weight, weighing))
    for key, weighed in sorted(fresh.items()):
        planting = year.holding.planting(key)
        crop = year.crop_of(planting)
        whole = total(weight for weight, _row in weighed)
        usual = _usual(year, planting, crop, whole) if crop else None
        if usual is None:
            continue
        heaviest, largest = max(weighed, key=lambda pair: pair[0])
        showing = year.garden.showing
        yield (
            largest,
            warning(
                largest.place,
                "implausible-weight",
                f"{called(year, planting)} comes to {showing.picked(whole)}"
                f" with this {showing.picked(heaviest)}, {usual[0]}",
                expected=usual[1],
                remedy="check the unit and the decimal point",
            ),
        )
    of_crops = tuple(_of_no_planting(year))
    yield from of_crops
    yield from _at_once(year, {id(row) for row, _finding in of_crops})


def _at_once(year: Year, told: Collection[int]) -> Iterator[CheckResult]:
    """Yield single pickings of no told planting that the scale would not believe, but those told before."""
    belief = Belief(year.garden, year.holding)
    for weighing, planting in year.weighings:
        beyond = "" if planting or id(weighing) in told else belief.beyond(weighing)
        if beyond:
            yield weighing, warning(weighing.place, "implausible-weight", beyond)


def _of_no_planting(year: Year) -> Iterator[CheckResult]:
    """Yield pickings of a crop, their planting not told, that are more than all its plantings can give."""
    told: dict[str, list[Weighing]] = {}
    for weighing, planting in year.weighings:
        slug = weighing.slug
        if planting is None and slug and weighing.weight and weighing.state is State.FRESH:
            told.setdefault(slug, []).append(weighing)
    for slug, weighed in sorted(told.items()):
        crop = year.garden.crop(slug)
        own = [planting for planting in year.plantings if planting.crop.slug == slug and planting.squares]
        most_of_all = Weight.of(
            sum(_plants(year, one, crop) * limits_of(crop, one.variety).plant for one in own), GRAM
        )
        whole = total(one.weight for one in weighed if one.weight)
        if not own or whole <= most_of_all:
            continue
        largest = max(weighed, key=lambda one: one.weight or Weight())
        showing = year.garden.showing
        yield (
            largest,
            warning(
                largest.place,
                "implausible-weight",
                f"{crop.plural} of no told planting come to {showing.picked(whole)} with this one,"
                " more than all their plants can give",
                expected=f"{showing.picked(most_of_all)} at most",
                remedy="check the unit and the decimal point",
            ),
        )


def _usual(year: Year, planting: Planting, crop: Crop, whole: Weight) -> tuple[str, str] | None:
    """Return what is wrong with a planting's whole weight and what would be believed; None if nothing."""
    squares = {hold.square for hold in year.holding.of_planting(planting.key)} or planting.squares
    if not squares:
        return None
    showing = year.garden.showing
    led_out = planting.planned.led_out if planting.planned else None
    own = planting_ground(year.garden, squares, led_out)
    area = own.squares + own.run_out
    # Rows of what runs stand six feet and more apart: its squares tell next to nothing of its ground.
    figure = None if crop.habit is Habit.RUNNING else crop.used("yield per sqft")
    if figure is not None and figure.high is not None:
        usual = Weight.of(figure.high * area, POUND)
        if whole.nanograms > usual.nanograms * TIMES:
            times = f"{float(whole.nanograms / usual.nanograms):.0f} times the usual"
            ground = f"for its {showing.area(area)}, by published row yields"
            return times, f"about {showing.picked(usual)} {ground}"
    limits, plants = limits_of(crop, planting.variety), _plants(year, planting, crop)
    most_of_plants = Weight.of(plants * limits.plant, GRAM)
    if plants and whole > most_of_plants:
        return (
            "more than its plants can give",
            f"{showing.picked(most_of_plants)} at most of {figured(plants, 'plant')}",
        )
    most_of_area = Weight.of(area * BY_AREA, GRAM)
    if whole > most_of_area and crop.slug not in _HEAVY:
        return (
            "more than its ground can give",
            f"{showing.picked(most_of_area)} at most of {showing.area(area)}",
        )
    return None


_HEAVY = frozenset({"pumpkin", "watermelon", "squash-winter"})
"""Crops whose vines leave their squares, led out or not: their ground is not known."""


def _plants(year: Year, planting: Planting, crop: Crop) -> int:
    """Return how many plants may have given a planting's weight: the most that plan, log or room tell."""
    row = planting.planned
    thinned = any(event.verb is Verb.THIN for event, _squares in planting.lines)
    put = sum(
        part_of(year.garden, event.plants or (None if thinned else event.seeds), event, own) or 0
        for event, own in planting.lines
        if event.verb in STARTING
    )
    told = max(row.plants or 0 if row else 0, put)
    if told:
        return told
    squares = row.squares if row and row.squares else tuple(sorted(planting.squares, key=str))
    spacing = spacing_of(year.garden, planting) or crop.spacing
    spacing = spacing or Length()  # where nobody told it: as close as anything is sown
    beds = sorted({square.bed for square in squares})
    return sum(max(1, len(most(year.garden.bed(bed), squares, _close(spacing)))) for bed in beds)


def _close(spacing: Length) -> Length:
    """Return the spacing at which a crop may be sown where nobody counted: three quarters of the usual."""
    return max(spacing * Fraction(3, 4), Length.of(1, FOOT) * Fraction(1, 8))


def piece_weight(year: Year) -> Iterator[CheckResult]:
    """Find pickings whose pieces are heavier or lighter than pieces of that crop can be."""
    for weighing, planting in year.weighings:
        crop = year.crop_of(planting) if planting else _crop(year, weighing)
        if crop is None or weighing.weight is None or weighing.mixed:
            continue
        if set(weighing.form.casefold().split()) & LIGHT_PARTS:
            continue
        said = _piece(year, weighing, limits_of(crop, planting.variety if planting else weighing.variety))
        if said is None:
            continue
        name = called(year, planting) if planting else crop.name
        yield (
            weighing,
            warning(
                weighing.place,
                "piece-weight",
                f"{said[0]} of {name}",
                expected=said[1],
                remedy="check the count, the unit and the decimal point",
            ),
        )


def _crop(year: Year, weighing: Weighing) -> Crop | None:
    """Return the crop of a weighing whose planting is not told."""
    return year.garden.crop(weighing.slug) if weighing.slug else None


def _piece(year: Year, weighing: Weighing, limits: Limits) -> tuple[str, str] | None:
    """Return what is wrong with the weight of a picking's pieces and what would be believed."""
    assert weighing.weight is not None  # asked before
    showing, count = year.garden.showing, weighing.count or 1
    each = Weight(weighing.weight.nanograms / count)
    shown = (
        f"{weighing.count} pieces come to {showing.picked(each)} each:" if weighing.count else "this picking"
    )
    least = limits.least if weighing.state is State.FRESH else limits.least / DRY
    light = Weight.of(Fraction(least), GRAM)
    if each < light and not weighing.count:
        return f"{shown} too light for one piece", f"{showing.picked(light)} at the very least"
    if each < light:  # told of all together: one of each may be under what a scale shows
        together = showing.picked(Weight(light.nanograms * count))
        shown = f"{count} pieces come to {showing.picked(weighing.weight)} in all:"
        return f"{shown} too light for pieces", f"{together} in all at the very least"
    if weighing.count and limits.most and each > Weight.of(limits.most, GRAM):
        return (
            f"{shown} too heavy for pieces",
            f"{showing.picked(Weight.of(limits.most, GRAM))} each at the very most",
        )
    return None
