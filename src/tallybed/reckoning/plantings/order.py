"""The order of a season's records, by what they say: worked out once for all that is asked of it."""

from __future__ import annotations

from dataclasses import dataclass, field

from tallybed.garden.garden import Season
from tallybed.garden.records.ledger import Weighing
from tallybed.garden.records.log import Event
from tallybed.reckoning.plantings.candidates import event_order, weighing_order


@dataclass(frozen=True, kw_only=True, eq=False)
class RecordOrder:
    """Where each record of a season stands among those of its paper. Files play no part in it.

    Good for the season it was made of, and for that season without some of its records.
    """

    season: Season
    """Holds the records, so that no other takes the place of one in memory."""
    _places: dict[int, int] = field(repr=False)

    @classmethod
    def of(cls, season: Season) -> RecordOrder:
        """Return the order of a season's records."""
        events = sorted((event for entry in season.log or () for event in entry.done), key=event_order)
        weighings = sorted(season.ledger or (), key=weighing_order)
        places = {id(event): place for place, event in enumerate(events)}
        places |= {id(weighing): place for place, weighing in enumerate(weighings)}
        return cls(season=season, _places=places)

    def index(self, record: Event | Weighing) -> int:
        """Return where a record stands among those of its paper. Raises KeyError for another season's."""
        return self._places[id(record)]
