"""All that waits in a season: plantings not to be picked, squares to keep off, pickings from inside."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from functools import cached_property, partial

from tallybed.garden.garden import Garden, Season
from tallybed.garden.squares import Square
from tallybed.reckoning.squares.occupancy import Holding
from tallybed.reckoning.waits.pickings import pickings_inside
from tallybed.reckoning.waits.season import SeasonGround, season_keep_offs, season_waits
from tallybed.reckoning.waits.spans import SquareKeptOff, Wait


@dataclass(frozen=True, kw_only=True, eq=False)
class SeasonWaits:
    """A season's waits, each part worked out once. Compared by identity."""

    season: Season
    ground: SeasonGround
    earlier: tuple[SeasonWaits, ...]
    """Those of the seasons before, oldest first."""

    @classmethod
    def of(
        cls,
        garden: Garden,
        season: Season,
        today: date,
        hold: Callable[[], Holding],
        earlier: Sequence[SeasonWaits],
    ) -> SeasonWaits:
        """Return a season's waits by its log up to ``today``; ``hold`` tells who holds its squares then."""
        events = tuple(one for entry in season.log or () for one in entry.done if one.day <= today)
        ground = SeasonGround(garden=garden, span=season.span, events=events, hold=hold)
        return cls(season=season, ground=ground, earlier=tuple(earlier))

    @cached_property
    def waits(self) -> tuple[Wait, ...]:
        """Every planting in every square that waits, or waited, after a treatment or manure."""
        return season_waits(self.ground, ((one.ground, partial(_waits_of, one)) for one in self.earlier))

    @cached_property
    def keep_offs(self) -> tuple[SquareKeptOff, ...]:
        """Every square that people keep, or kept, off after a treatment."""
        before = self.earlier[-1].keep_offs if self.earlier else ()
        return season_keep_offs(self.ground, self.waits, before)

    @cached_property
    def inside(self) -> Mapping[int, tuple[Wait, ...]]:
        """The rows of the ledger, by position, that may come from inside a wait, with what they wait for."""
        return pickings_inside(self.season.ledger or (), self.waits, self.ground.planting)

    def of_planting(self, key: str, day: date) -> tuple[Wait, ...]:
        """Return the waits of a planting that are open on a day."""
        return tuple(one for one in self.waits if one.planting == key and one.is_open(day))

    def marked(self, bed: str, day: date) -> tuple[tuple[Square, ...], tuple[Square, ...]]:
        """Return the squares of a bed that something waits in on a day, and those that people keep off."""
        waiting = {one.square for one in self.waits if one.square.bed == bed and one.is_open(day)}
        kept_off = {one.square for one in self.keep_offs if one.square.bed == bed and one.is_open(day)}
        return tuple(sorted(waiting)), tuple(sorted(kept_off))


def _waits_of(one: SeasonWaits) -> tuple[Wait, ...]:
    """Return a season's waits."""
    return one.waits
