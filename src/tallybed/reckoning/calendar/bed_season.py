"""One bed over a season: what its months and its plantings' histories are put together from."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from functools import cached_property

from tallybed.garden.garden import Garden
from tallybed.garden.squares import Bed, Square
from tallybed.reckoning.calendar.bearing import Bearing
from tallybed.reckoning.calendar.changes import Change, changes
from tallybed.reckoning.calendar.map_letters import map_letters
from tallybed.reckoning.room.plants import Plants, plants
from tallybed.reckoning.squares.occupancy import Holding
from tallybed.reckoning.squares.stays import Stay, by_square, stays


@dataclass(frozen=True, kw_only=True, eq=False)
class BedSeason:
    """A bed under one holding; each answer is worked out once. Compared by identity."""

    garden: Garden
    holding: Holding
    bed: Bed
    _counted: dict[tuple[str, date], Plants] = field(default_factory=dict, init=False, repr=False)

    @cached_property
    def stays(self) -> tuple[Stay, ...]:
        """Who stood in the bed without a gap, square by square (row by row), then by first day."""
        return stays(self.holding, self.bed.name)

    @cached_property
    def stays_of(self) -> Mapping[Square, Sequence[Stay]]:
        """The same by square."""
        return by_square(self.stays)

    @cached_property
    def changes(self) -> tuple[Change, ...]:
        """What changed in the bed over the season, by day."""
        return changes(self.holding, self.bed, self.stays)

    @cached_property
    def letters(self) -> Mapping[str, str]:
        """What stands for each planting of the season where a drawing has no room for its name, by key."""
        return map_letters(self.garden, self.holding.plantings)

    @cached_property
    def bearing(self) -> Bearing:
        """When its plantings should bear."""
        return Bearing(dates=self.garden.freezes, span=self.holding.span)

    def plants(self, key: str, day: date) -> Plants:
        """Return a planting's plants in all its squares at the end of a day. Raises KeyError."""
        if (key, day) not in self._counted:
            self._counted[key, day] = plants(self.garden, self.holding, key, day)
        return self._counted[key, day]


def bed_seasons(garden: Garden, holding: Holding) -> tuple[BedSeason, ...]:
    """Return every bed's season, in the order of the garden's beds."""
    return tuple(BedSeason(garden=garden, holding=holding, bed=bed) for bed in garden.beds)
