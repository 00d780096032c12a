"""What a check is given, and what it gives."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from datetime import date
from functools import cached_property

from tallybed.garden.crops import Crop
from tallybed.garden.findings import Finding, Place, Severity
from tallybed.garden.garden import Garden, Season
from tallybed.garden.ledger import Weighing
from tallybed.garden.plan import PlanRow
from tallybed.garden.squares import Square
from tallybed.reckoning.calendar.freeze import Freeze, first_fall, last_spring
from tallybed.reckoning.plantings.plantings import Planting, plantings_picked
from tallybed.reckoning.squares.occupancy import Hold, Holding

SilencingRecord = PlanRow | Weighing
"""A record that can silence a finding."""
CheckResult = tuple[SilencingRecord | None, Finding]
"""A finding, and the record whose ``silence`` may keep it quiet."""


@dataclass(frozen=True, kw_only=True)
class Case:
    """One season of a garden, as every check sees it."""

    garden: Garden
    season: Season
    holding: Holding
    earlier: tuple[tuple[Season, Holding], ...] = ()
    """The seasons before it, oldest first."""

    @property
    def today(self) -> date:
        """The day the season is seen from."""
        return self.holding.today

    @cached_property
    def planned(self) -> tuple[tuple[Planting, PlanRow], ...]:
        """The stands that the plan knows and has not dropped, each with its row of the plan."""
        return tuple(
            (planting, planting.planned)
            for planting in self.holding.plantings
            if planting.planned and planting.planned.dropped is None
        )

    @cached_property
    def rows(self) -> dict[str, PlanRow]:
        """The row of the plan for each stand that has one, dropped ones too."""
        return {planting.key: planting.planned for planting in self.holding.plantings if planting.planned}

    @cached_property
    def plan_of(self) -> dict[Square, tuple[Hold, ...]]:
        """What the plan alone gives each square, in order of days."""
        found: dict[Square, list[Hold]] = {}
        for hold in self.holding.by_plan:
            found.setdefault(hold.square, []).append(hold)
        return {square: tuple(sorted(holds, key=_in_time)) for square, holds in found.items()}

    @cached_property
    def holds_of(self) -> dict[str, tuple[Hold, ...]]:
        """What each stand holds by log and plan together, in order of days."""
        found: dict[str, list[Hold]] = {}
        for hold in self.holding.holds:
            found.setdefault(hold.planting, []).append(hold)
        return {planting: tuple(sorted(holds, key=_in_time)) for planting, holds in found.items()}

    @cached_property
    def spring(self) -> Freeze | None:
        """The last spring freeze, at 32 °F."""
        return last_spring(self.garden.freezes, self.season.span)

    @cached_property
    def fall(self) -> Freeze | None:
        """The first fall freeze, at 32 °F."""
        return first_fall(self.garden.freezes, self.season.span)

    @cached_property
    def owned(self) -> tuple[tuple[Weighing, Planting], ...]:
        """The rows of the ledger whose planting is known, each with it, in the ledger's order."""
        owners = plantings_picked(self.season, self.holding.plantings)
        return tuple((row, own) for row, own in zip(self.season.ledger or (), owners, strict=True) if own)

    def crop_of(self, planting: Planting) -> Crop | None:
        """Return the crop a stand is of, or None where its name is general."""
        return self.garden.crop(planting.crop.slug) if planting.crop.slug else None


def _in_time(hold: Hold) -> tuple[date, date, str, Square]:
    return (hold.first, hold.last, hold.planting, hold.square)


Check = Callable[[Case], Iterator[CheckResult]]
"""A check: looks at one thing in a case and yields what it finds."""


def advice(place: Place, code: str, found: str, *, expected: str = "", remedy: str = "") -> Finding:
    """Return a finding worth knowing."""
    return _finding(Severity.ADVICE, place, code, found, expected, remedy)


def warning(
    place: Place,
    code: str,
    found: str,
    *,
    expected: str = "",
    remedy: str = "",
    related: Iterable[Place] = (),
) -> Finding:
    """Return a finding that is likely a mistake or a loss."""
    return _finding(Severity.WARNING, place, code, found, expected, remedy, tuple(related))


def _finding(
    severity: Severity,
    place: Place,
    code: str,
    found: str,
    expected: str,
    remedy: str,
    related: tuple[Place, ...] = (),
) -> Finding:
    return Finding(
        place=place,
        code=code,
        severity=severity,
        found=found,
        expected=expected,
        remedy=remedy,
        related=related,
    )
