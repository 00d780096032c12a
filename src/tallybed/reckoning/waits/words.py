"""What a picking may come from inside of, in words for the gardener: squares, what was done, the safe day."""

from __future__ import annotations

from collections.abc import Iterable

from tallybed.garden.days import in_full
from tallybed.garden.records.log import Event, Verb
from tallybed.garden.squares import Square, in_words
from tallybed.reckoning.waits.spans import Wait, first_safe


def safe_words(waits: tuple[Wait, ...]) -> str:
    """Return from when on it may be picked."""
    _any, safe = first_safe(waits)
    if safe is None:
        return "nothing to be picked there: how long to wait is not known, read the label"
    return f"nothing to be picked there before {in_full(safe)}"


def may_be_from(waits: tuple[Wait, ...]) -> str:
    """Return what a picking may come from inside of: plantings, all their squares, what was done."""
    told = (
        f"{_stands(one for one in waits if one.event == event)}, {done_with(event)} on {in_full(event.day)}"
        for event in events_of(waits)
    )
    return " and ".join(dict.fromkeys(told))  # two lines of one visit may say the same


def events_of(waits: tuple[Wait, ...]) -> tuple[Event, ...]:
    """Return the lines of the log that waits began with, each once."""
    return tuple(dict.fromkeys(one.event for one in waits))


def _stands(waits: Iterable[Wait]) -> str:
    """Return plantings with their squares, such as ``SP1 in b/A1:A2 or SP2 in b/B1``."""
    squares: dict[str, set[Square]] = {}
    for one in waits:
        ground = "what was left of the season before" if one.left else "ground"
        squares.setdefault(one.planting or ground, set()).add(one.square)
    return " or ".join(f"{what} in {in_words(sorted(told))}" for what, told in squares.items())


def done_with(event: Event) -> str:
    """Return what was done and with what, such as ``treated with soap``; without the name of a crop."""
    if event.verb is not Verb.TREAT:
        return "given manure that counts as raw"
    return f"treated with {event.beside_crop}" if event.beside_crop else "treated"
