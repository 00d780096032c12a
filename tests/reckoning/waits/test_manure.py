"""Which lines count as raw manure, of which compost one must ask, and how long a crop waits.

By 7 CFR 205.203(c); the lines are invented.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from tallybed.garden.records.log import Event, Verb
from tallybed.garden.records.treatment import Manure
from tallybed.reading.folder.library import load_library
from tallybed.reckoning.waits.manure import OFF_THE_SOIL, TOUCHES_SOIL, is_raw, is_unsaid, manure_wait

LINES = (
    # verb, subject, what the key says of animals, whether it counts as raw, whether one must ask
    (Verb.AMEND, "what the neighbour brought", Manure.RAW, True, False),
    (Verb.AMEND, "a sack of manure that holds peat", Manure.NONE, False, False),
    (Verb.AMEND, "compost", None, False, True),
    (Verb.FEED, "worm casts", None, False, True),
    (Verb.AMEND, "compost", Manure.NONE, False, False),
    (Verb.AMEND, "compost of manure", None, True, False),
    (Verb.AMEND, "lime", None, False, False),
    # Nothing was spread.
    (Verb.OBSERVE, "a heap of manure next door", None, False, False),
    (Verb.OBSERVE, "the compost steams", None, False, False),
)


@pytest.mark.parametrize(("verb", "subject", "manure", "raw", "unsaid"), LINES)
def test_what_the_key_says_counts_before_the_words(
    verb: Verb, subject: str, manure: Manure | None, raw: bool, unsaid: bool
) -> None:
    event = Event(day=date(2024, 6, 10), verb=verb, subject=subject, manure=manure)
    assert (is_raw(event), is_unsaid(event)) == (raw, unsaid)


def test_a_crop_of_the_gardens_own_waits_the_longer_time() -> None:
    """Nobody knows how the garden grows it, whatever its name."""
    okra = load_library().crops["okra"]
    assert manure_wait(okra) == OFF_THE_SOIL
    assert manure_wait(replace(okra, own=True)) == TOUCHES_SOIL
    assert manure_wait(None) == TOUCHES_SOIL
