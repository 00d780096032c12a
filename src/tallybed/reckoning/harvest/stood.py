"""Where a planting stood on the day of a picking, and what is said where it stood nowhere."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from tallybed.garden.days import ONE_DAY, without_year
from tallybed.garden.squares import Square
from tallybed.reckoning.plantings.drafts import takes_all
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.squares.occupancy import Holding


def stood_in(holding: Holding, planting: Planting, day: date) -> frozenset[Square]:
    """Return the squares that a planting held on a day, or had held up to the day before."""
    holds = holding.of_planting(planting.key)
    return frozenset(hold.square for hold in holds if hold.first <= day <= hold.last + ONE_DAY)


def stood_nowhere(name: str, plantings: Iterable[Planting], day: date) -> str:
    """Return that nothing says it stood, and which of its plantings went last by the plan alone."""
    gone = []
    for planting in plantings:
        row = planting.planned
        ended = any(takes_all(event) for event, _squares in planting.lines)
        if row and row.until_told and row.until < day and not ended:
            gone.append((row.until, planting.tag or planting.crop.typed))
    doubt = f"nothing says that {name} stood anywhere on {without_year(day)}"
    if not gone:
        return doubt
    until, last = max(gone)
    return f"{doubt}: by the plan {last} went on {without_year(until)}, though no log says so"
