"""Pickings that come, or may come, from inside a wait."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping

from tallybed.garden.naming import folded
from tallybed.garden.records.ledger import Weighing, one_place
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.waits.spans import Wait

DISCARDED = "discarded"
"""The destination of what nobody is to eat."""


def is_discarded(weighing: Weighing) -> bool:
    """Return whether all of a picking went to be discarded."""
    return bool(weighing.to) and all(one_place(part.name) == DISCARDED for part in weighing.to)


def inside(
    weighing: Weighing, waits: Iterable[Wait], planting: Callable[[str], Planting]
) -> tuple[Wait, ...]:
    """Return the waits that a picking may come from inside of: every square it may be from.

    By its tag, else by crop, and by its squares where they are told; what is not told excludes
    nothing. ``planting``: a planting of the season by its key.
    """
    found: list[Wait] = []
    for wait in waits:
        if not wait.is_inside(weighing.day):
            continue
        if weighing.squares and wait.square not in weighing.squares:
            continue
        if wait.planting and not _may_be(weighing, planting(wait.planting)):
            continue
        if not wait.planting and not _may_be_left(weighing, wait):
            continue
        found.append(wait)
    return tuple(sorted(found, key=lambda one: (one.event.day, one.event.place, one.square)))


def _may_be(weighing: Weighing, planting: Planting) -> bool:
    """Return whether a picking may be of a planting, by its tag, else by its crops."""
    if weighing.tag and (planting.tag or not weighing.crops):
        return folded(weighing.tag) == folded(planting.tag)
    return not weighing.crops or any(crop.may_be(planting.crop) for crop in weighing.crops)


def _may_be_left(weighing: Weighing, wait: Wait) -> bool:
    """Return whether a picking may be of what was left in the ground of a wait, or may touch that ground."""
    slugs = {slug for crop in weighing.crops for slug in crop.slugs}
    return not slugs.isdisjoint(wait.left) if wait.left and slugs else bool(weighing.squares)


def pickings_inside(
    ledger: Iterable[Weighing], waits: Iterable[Wait], planting: Callable[[str], Planting]
) -> Mapping[int, tuple[Wait, ...]]:
    """Return for each row of the ledger that may come from inside a wait, by its position, the waits."""
    every = tuple(waits)
    if not every:
        return {}
    found = ((place, inside(row, every, planting)) for place, row in enumerate(ledger))
    return {place: waits for place, waits in found if waits}
