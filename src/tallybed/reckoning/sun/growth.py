"""How high a planting stands on a day.

It rises from the ground (a plant that is set out: from an eighth of its height) to its
printed height when its days to maturity are over: slowly at first, fastest midway,
slowly at last (the curve ``3 a² - 2 a³``, where ``a`` is the part of those days that
has passed). Where nobody knows how far on it is, three quarters of the height are
taken, as on the maps. The curve and both shares are our choice; no source was found.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from tallybed.reckoning.calendar.plant_size import MIDWAY
from tallybed.reckoning.calendar.stages import Growth

SET_OUT = 1 / 8
"""Share of its printed height that a plant has when it is set out. Our choice."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rise:
    """How one planting gains its height."""

    full: float
    """The height it comes to, in inches."""
    growth: Growth | None
    """None where nobody knows how far on it is."""

    def on(self, day: date) -> float:
        """Return the height on a day, in inches."""
        if self.growth is None:
            return self.full * float(MIDWAY)
        age = min(max((day - self.growth.begun).days / self.growth.days, 0.0), 1.0)
        risen = age * age * (3 - 2 * age)
        least = SET_OUT if self.growth.set_out else 0.0
        return self.full * (least + (1 - least) * risen)
