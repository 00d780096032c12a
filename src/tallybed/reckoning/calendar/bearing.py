"""When the plantings of a season should bear: drawn stages turn on the days that pages tell."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date

from tallybed.garden.crops import Crop
from tallybed.garden.days import Span
from tallybed.garden.garden import FreezeDates
from tallybed.garden.records.plan import Start
from tallybed.reckoning.calendar.windows.windows import expected
from tallybed.reckoning.plantings.plantings import Planting


@dataclass(frozen=True, kw_only=True, eq=False)
class Bearing:
    """What a garden's freezes make of days to harvest in one season; each answer is worked out once."""

    dates: FreezeDates
    span: Span
    _days: dict[tuple[str, date, Start], date | None] = field(default_factory=dict, init=False, repr=False)

    def first(self, planting: Planting, crop: Crop | None, begun: date, start: Start | None) -> date | None:
        """Return the day, as ``expected`` has it, on which a planting in the bed since ``begun`` should bear.

        None where its days to harvest are not known, nobody knows how it came into the bed, or it was
        carried over.
        """
        if crop is None or start in (None, Start.CARRIED):
            return None
        asked = (planting.key, begun, start)
        if asked not in self._days:
            found = expected(
                crop,
                self.dates,
                self.span,
                begun,
                variety=planting.variety,
                start=start,
                indoors=planting.planned.sow_indoors if planting.planned else None,
            )
            self._days[asked] = found.first if found else None
        return self._days[asked]
