"""What each planting gave for the ground it lived on, and whether that may be judged."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from tallybed.garden.garden import Garden, Season
from tallybed.garden.grouping import grouped
from tallybed.garden.records.ledger import Weighing
from tallybed.garden.records.log import STARTING, Event, Verb
from tallybed.garden.squares import Square
from tallybed.garden.units import POUND, Weight
from tallybed.reckoning.calendar.history import PlantingHistory
from tallybed.reckoning.harvest.tally import NOT_TOLD, TallyLine, added
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.rows.ground import PlantingGround, planting_ground


@dataclass(frozen=True, slots=True, kw_only=True)
class PlantingYield:
    """One planting that stood in squares of the bed: what it gave, and the ground it lived on."""

    season: str
    planting: Planting
    crop: str
    """Slug."""
    ground: PlantingGround
    weight: Weight
    at_least: bool
    """Whether it gave more than its weight says: pickings of it were not weighed, or pickings of its crop
    that nobody put down to a planting fell into its time."""
    ended: bool
    """Whether it is over: gone from its squares, or its season over and no later one going on with it."""
    lost: bool
    """Whether the log has it fail, be lost or be cut short as a whole, and not begin again."""

    @property
    def unknown(self) -> bool:
        """Whether nothing was weighed of it, so that its weight is no figure at all.

        One that was lost, or still stands, with nothing picked gave nothing so far, and that is known.
        """
        return not self.weight and (self.at_least or (self.ended and not self.lost))

    @property
    def counts(self) -> bool:
        """Whether it may take part in a verdict: it has ended, its squares are known, and what it gave."""
        return self.ended and self.ground.squares > 0 and not self.unknown

    @property
    def like_for_like(self) -> Fraction:
        """Pounds per square foot of its squares, its run-out and its squares' share of path."""
        return self.weight.within(POUND) / self.ground.whole

    @property
    def on_squares(self) -> Fraction:
        """Pounds per square foot of its squares alone."""
        return self.weight.within(POUND) / self.ground.squares


def planting_yields(
    garden: Garden,
    season: Season,
    histories: Iterable[PlantingHistory],
    lines: Iterable[TallyLine],
    *,
    over: bool,
    carried_on: frozenset[str],
    today: date,
) -> tuple[PlantingYield, ...]:
    """Return the yields of the plantings that stood in the beds, by key; none without a ledger.

    ``over``: whether the season is; ``carried_on``: keys of plantings that a later season
    goes on with. A planting that was lost before it gave anything is there with nothing: losses count.
    """
    if season.ledger is None:
        return ()
    counted = [line for line in lines if line.counts]
    by_planting = grouped(counted, lambda line: line.planting)
    ledger = season.ledger
    loose = tuple((line.day, ledger[line.weighing]) for line in counted if line.planting == NOT_TOLD)
    found = []
    for history in histories:
        planting = history.planting
        crop = planting.crop.slug
        squares = tuple(sorted({hold.square for hold in history.holds if hold.first <= today}))
        if not crop or history.began is None or not squares:
            continue
        total = added(by_planting.get(planting.key, ()))
        led_out = planting.planned.led_out if planting.planned else None
        found.append(
            PlantingYield(
                season=season.name,
                planting=planting,
                crop=crop,
                ground=planting_ground(garden, squares, led_out),
                weight=total.weight,
                at_least=total.at_least or _may_be_of(history, loose),
                ended=history.gone is not None or (over and planting.key not in carried_on),
                lost=is_lost(planting),
            )
        )
    return tuple(sorted(found, key=lambda one: one.planting.key))


def _may_be_of(history: PlantingHistory, loose: Iterable[tuple[date, Weighing]]) -> bool:
    """Return whether a picking that nobody put down to a planting may be of this one: crop and day fit."""
    slug = history.planting.crop.slug
    return any(
        history.began is not None
        and history.began <= day
        and (history.gone is None or day <= history.gone)
        and any(slug in name.slugs for name in weighing.crops)
        for day, weighing in loose
    )


def is_lost(planting: Planting) -> bool:
    """Return whether the log has a planting fail, be lost or be cut short as a whole, and not begin again.

    At once or square by square: each was lost, and none was begun again since, or on that very day.
    """
    lost: dict[Square, date] = {}
    for event, squares in planting.lines:
        if _is_loss(event) and event.plants is None:
            lost |= dict.fromkeys(squares or planting.squares, event.day)
    again = {
        square
        for event, squares in planting.lines
        if event.verb in STARTING
        for square in squares or planting.squares
        if square in lost and event.day >= lost[square]
    }
    return bool(lost) and lost.keys() - again >= planting.squares


def by_crop(yields: Iterable[PlantingYield]) -> Mapping[str, tuple[PlantingYield, ...]]:
    """Return yields by crop slug, sorted; within a crop in the order given."""
    found = grouped(yields, lambda one: one.crop)
    return {crop: tuple(found[crop]) for crop in sorted(found)}


def _is_loss(event: Event) -> bool:
    """Return whether a line has plants fail or be lost, or clears a crop for a cause that it tells."""
    return event.verb in (Verb.FAILED, Verb.LOST) or (event.verb is Verb.CLEAR and bool(event.because))


@dataclass(frozen=True, slots=True, kw_only=True)
class Loss:
    """One line of the log by which plants failed or were lost."""

    planting: Planting
    day: date
    plants: int | None
    """How many; None where it was all of them in the squares named."""
    because: str


def losses(plantings: Iterable[Planting], until: date) -> tuple[Loss, ...]:
    """Return what the log has fail or be lost up to and with a day, wholly or in part, by day.

    Clearing counts where a cause is told: it was not the crop's own time to go.
    """
    found = [
        Loss(planting=planting, day=event.day, plants=event.plants, because=event.because)
        for planting in plantings
        for event, _squares in planting.lines
        if event.day <= until and _is_loss(event)
    ]
    return tuple(sorted(found, key=lambda one: (one.day, one.planting.key)))
