"""Ends that nobody recorded: by the plan a planting is over, and no record says that it was cleared.

Such an end stays supposed, month after month, until a record shows what became of it:
a line of the log, or another planting in the square.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date

from tallybed.reckoning.squares.occupancy import Grade, Holding
from tallybed.reckoning.squares.stays import Stay, by_square


def unrecorded(holding: Holding, every: Iterable[Stay], first: date, as_of: date) -> Iterator[Stay]:
    """Yield, of the squares of a bed, what left one before ``first`` by the plan alone.

    Only where nothing came after it by ``as_of``. None for days to come, which are told as
    planned; none of a planting that the plan says was given up, for its gardener said so.
    """
    if first > holding.today:
        return
    for own in by_square(stay for stay in every if stay.first <= as_of).values():
        stay = max(own, key=lambda one: (one.last, one.planting))
        planned = holding.planting(stay.planting).planned
        dropped = planned is not None and planned.dropped is not None
        if stay.last < first and not dropped and stay.end_grade(holding.today, own) is Grade.SUPPOSED:
            yield stay
