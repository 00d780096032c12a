"""Water: what was given by hand or hose, as far as the log tells an amount with its unit."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from tallybed.garden.garden import Garden
from tallybed.garden.records.log import Entry, Event, Verb


@dataclass(frozen=True, slots=True, kw_only=True)
class Watering:
    """The water of a season. A line without an amount that can be reckoned is not a line of none."""

    lines: int
    """Lines of watering in the log."""
    measured: int
    """Those of them whose amount comes to litres."""
    in_words: tuple[str, ...]
    """Amounts that were told and come to none, as written, in the order of the log."""
    litres: Fraction


def litres(garden: Garden, event: Event) -> Fraction | None:
    """Return the litres of a line of watering, or None; a depth counts over the squares it names."""
    if event.water is None:
        return None
    return event.water.over(garden.area_of(event.squares))


def watering(garden: Garden, log: Iterable[Entry], until: date) -> Watering:
    """Return the water of a season's log up to and with a day."""
    done = [
        event
        for entry in sorted(log, key=lambda one: (one.day, one.slug))
        for event in entry.done
        if event.verb is Verb.WATER and event.day <= until
    ]
    amounts = [(event, litres(garden, event)) for event in done]
    known = [amount for _event, amount in amounts if amount is not None]
    return Watering(
        lines=len(done),
        measured=len(known),
        in_words=tuple(event.amount for event, amount in amounts if amount is None and event.amount),
        litres=sum(known, Fraction(0)),
    )
