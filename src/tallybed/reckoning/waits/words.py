"""What a picking may come from inside of, in words for the gardener: squares, what was done, the safe day."""

from __future__ import annotations

from tallybed.garden.days import in_full
from tallybed.garden.records.log import Event, Verb
from tallybed.garden.squares import in_words
from tallybed.reckoning.waits.spans import Wait, first_safe


def safe_words(waits: tuple[Wait, ...]) -> str:
    """Return from when on it may be picked."""
    _any, safe = first_safe(waits)
    if safe is None:
        return "nothing to be picked there: how long to wait is not known, read the label"
    return f"nothing to be picked there before {in_full(safe)}"


def place_of(waits: tuple[Wait, ...]) -> str:
    """Return what a picking may come from inside of: the planting, its square, and each line of the log."""
    return " and ".join(
        f"{one.planting or 'ground'} in {in_words([one.square])}, {done_with(one.event)} on "
        f"{in_full(one.event.day)}"
        for one in waits
    )


def done_with(event: Event) -> str:
    """Return what was done and with what, such as ``treated with soap``; without the name of a crop."""
    if event.verb is not Verb.TREAT:
        return "given manure that counts as raw"
    return f"treated with {event.beside_crop}" if event.beside_crop else "treated"
