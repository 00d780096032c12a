"""How plantings begin: as the plan means it, and as the log tells it where that is another day."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from tallybed.checks.results import called
from tallybed.garden.crops import Crop
from tallybed.garden.days import without_year
from tallybed.garden.findings import Place
from tallybed.garden.records.log import STARTING, Verb
from tallybed.garden.records.plan import PlanRow, Start
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.year import Year


@dataclass(frozen=True, slots=True, kw_only=True)
class Begun:
    """One beginning of a planting."""

    planting: Planting
    called: str
    """``GA1 (garlic)``"""
    crop: Crop
    start: Start
    day: date
    indoors: date | None
    """The day it was sown indoors, where that was told."""
    logged: bool
    place: Place
    row: PlanRow | None
    """The row of the plan whose ``silence`` keeps findings quiet."""

    @property
    def words(self) -> str:
        """What a finding says of it: ``GA1 (garlic) goes in on 3 October``."""
        verb = "went in" if self.logged else "goes in"
        return f"{self.called} {verb} on {without_year(self.day)}"


def beginnings(year: Year) -> Iterator[Begun]:
    """Yield each beginning: the plan's, then those of the log on other days or in another way."""
    for planting in year.plantings:
        crop, row = year.crop_of(planting), planting.planned
        if crop is None or (row is not None and row.dropped is not None):
            continue
        if row is not None and row.start is not Start.CARRIED:
            yield Begun(
                planting=planting,
                called=called(year, planting),
                crop=crop,
                start=row.start,
                day=row.begins,
                indoors=row.sow_indoors,
                logged=False,
                place=row.place,
                row=row,
            )
        yield from _logged(planting, called(year, planting), crop, row)


def _logged(planting: Planting, name: str, crop: Crop, row: PlanRow | None) -> Iterator[Begun]:
    """Yield the beginnings that the log tells and the plan does not."""
    sown = [event.day for event in planting.events if event.verb is Verb.SOW_INDOORS]
    told: set[tuple[date, Start]] = set()
    for event, _squares in planting.lines:
        start = event.begins_as
        if event.verb not in STARTING or (event.day, start) in told:
            continue
        told.add((event.day, start))
        indoors = max((day for day in sown if day <= event.day), default=row.sow_indoors if row else None)
        if row is not None and (row.begins, row.start, row.sow_indoors) == (event.day, start, indoors):
            continue
        yield Begun(
            planting=planting,
            called=name,
            crop=crop,
            start=start,
            day=event.day,
            indoors=indoors,
            logged=True,
            place=event.place,
            row=row,
        )
