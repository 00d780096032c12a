"""What is said of a picking that may come from inside a wait: at the scale, in the form, taken in."""

from __future__ import annotations

from datetime import date

from tallybed.garden.days import in_full
from tallybed.reckoning.waits.spans import Wait, first_safe
from tallybed.reckoning.waits.words import events_of, may_be_from, safe_words
from tallybed.reckoning.year import Year

QUESTION = "It may come from inside a wait, and nobody is to eat it. Write it all the same?"
NOT_BY_YES = (
    "Nothing was written: a picking may come from inside a wait, and --yes does not answer that. Weigh it in "
    "by hand, or say that it went to: discarded."
)


def not_before(year: Year, planting: str, day: date) -> str:
    """Return until when something that can be ripe is not to be picked; empty where it does not wait."""
    waits, safe = first_safe(year.waiting.of_planting(planting, day))
    if not waits:
        return ""
    return f"WAIT: not before {in_full(safe)}" if safe else "WAIT: until when is not known; read the label"


def waits_words(waits: tuple[Wait, ...]) -> str:
    """Return the line of the log and the first safe day, in words; empty where nothing waits."""
    if not waits:
        return ""
    lines = " and ".join(f"{event.place.file}:{event.place.line}" for event in events_of(waits))
    return f"this may come from {may_be_from(waits)} ({lines}): {safe_words(waits)}"
