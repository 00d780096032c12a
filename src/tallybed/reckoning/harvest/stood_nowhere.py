"""What speaks against a picking of something that stood nowhere, in words."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from tallybed.garden.days import without_year
from tallybed.reckoning.plantings.drafts import takes_all
from tallybed.reckoning.plantings.plantings import Planting


def stood_nowhere(name: str, plantings: Iterable[Planting], day: date) -> str:
    """Return that nothing says it stood, and of these plantings which was last to go, if by the plan alone."""
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
