"""Pickings that do not say all: which planting they came from, or which crop a general name means."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date

from tallybed.garden.records.ledger import Weighing
from tallybed.reckoning.plantings.plantings import Planting


def without_planting(
    ledger: Sequence[Weighing], owners: Sequence[Planting | None], today: date
) -> tuple[Weighing, ...]:
    """Return the rows up to today that no planting is known for, mixed bowls among them."""
    pairs = zip(ledger, owners, strict=True)
    return tuple(weighing for weighing, owner in pairs if owner is None and weighing.day <= today)


def may_be_of(rows: Iterable[Weighing], slugs: Iterable[str]) -> tuple[Weighing, ...]:
    """Return the rows of which a crop may be one of those named by their slugs."""
    meant = frozenset(slugs)
    return tuple(row for row in rows if any(not meant.isdisjoint(crop.slugs) for crop in row.crops))
