"""What is said of a picking that may come from inside a wait: at the scale, in the form, taken in."""

from __future__ import annotations

from tallybed.reckoning.waits.spans import Wait
from tallybed.reckoning.waits.words import place_of, safe_words

QUESTION = "It may come from inside a wait, and nobody is to eat it. Write it all the same?"
NOT_BY_YES = (
    "Nothing was written: a picking may come from inside a wait, and --yes does not answer that. Weigh it in "
    "by hand, or say that it went to: discarded."
)


def waits_words(waits: tuple[Wait, ...]) -> str:
    """Return the line of the log and the first safe day, in words; empty where nothing waits."""
    if not waits:
        return ""
    lines = " and ".join(f"{one.event.place.file}:{one.event.place.line}" for one in waits)
    return f"this may come from {place_of(waits)} ({lines}): {safe_words(waits)}"
