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
    # As people call it every day, in some languages; wool is what sheep wear.
    (Verb.FEED, "chook poo", None, True, False),
    (Verb.FEED, "chicken pellets", None, True, False),
    (Verb.AMEND, "straw bedding of the rabbits", None, True, False),
    (Verb.AMEND, "well rotted farmyard stuff", None, True, False),
    (Verb.AMEND, "fumier de cheval", None, True, False),
    (Verb.AMEND, "Pferdemist", None, True, False),
    (Verb.AMEND, "estiércol", None, True, False),
    (Verb.WATER, "shampooed pool water, as a mist", None, False, False),
    (Verb.AMEND, "sheep wool pellets", None, False, False),
    (Verb.FEED, "horsetail tea", None, False, False),
    # What was under animals, and what only sounds like it.
    (Verb.COVER, "straw from the chicken run", None, True, False),
    (Verb.FEED, "pelleted chicken", None, True, False),
    (Verb.AMEND, "a cowpat", None, True, False),
    (Verb.AMEND, "sewage sludge", None, True, False),
    (Verb.WATER, "bedding plants", None, False, False),
    (Verb.COVER, "chicken wire over straw", None, False, False),
    (Verb.AMEND, "horse chestnut leaf compost", None, False, True),
    (Verb.AMEND, "greenmanure", None, False, False),
    # On the land in another way: the rule is of manure put on land.
    (Verb.WATER, "manure tea", None, True, False),
    (Verb.COVER, "stable litter", None, True, False),
    (Verb.COVER, "straw", Manure.RAW, True, False),
    (Verb.COVER, "leaf litter", None, False, False),
    (Verb.WATER, "compost tea", None, False, True),
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


HEATS = (
    # 7 CFR 205.203(c)(2): 131 to 170 °F, for 3 days in a vessel or static pile, 15 in a turned windrow.
    ("15 days at 131 F", True),
    ("15 days at 130 F", False),
    ("3 days at 170 F in a vessel", True),
    ("3 days at 171 F in a vessel", False),
    ("2 days at 140 F", False),
    # How long is not said: that it was long enough nobody recorded.
    ("reached 140 F", False),
    ("windrow at 140 F, turned 5 times", False),
    ("2 weeks at 140 F", True),
    ("140 F for 2 weeks in a windrow, turned 5 times", False),
    ("140 F for 3 weeks in a windrow, turned 5 times", True),
    ("15-day record, 131-150°F", True),
    ("15 days at 120 to 140 F", False),
    ("15 days at 55 C", True),
    ("15 days at 54 °C", False),
    # 170 °F are 76.7 °C.
    ("3 days at 77 C in a vessel", True),
    ("3 days at 78 C in a vessel", False),
    ("15 days at 100 degrees", False),
    ("15 days at 140 degrees", True),
    ("windrow, 15 days at 140 F, turned 5 times", True),
    ("windrow, 15 days at 140 F, turned 4 times", False),
    ("windrow, 15 days at 140 F, 4 turnings", False),
    ("14 days at 140 F, turned 5 times", False),
    ("15 days at 140 F, turned every 3 days", True),
    ("static pile, 3 days at 140 F, never turned", True),
    ("vessel, 3 days at 140 F, turned 2 times", True),
    # 60 °F is cool, and nobody can tell that it was not meant.
    ("3 days at 60", False),
    ("3 days at 60 degrees", False),
    ("3 days at 60 C", True),
    ("3 days at 140", True),
    ("3 days at 120 to 140", False),
    ("at 140 for 3 days", True),
    ("3 days", False),
    ("not recorded", False),
)


@pytest.mark.parametrize(("words", "recorded"), HEATS)
def test_heat_outside_the_rule_is_none(words: str, recorded: bool) -> None:
    event = Event(
        day=date(2024, 6, 10), verb=Verb.AMEND, subject="compost", manure=Manure.COMPOSTED, heat=words
    )
    assert is_raw(event) is not recorded


def test_a_crop_of_the_gardens_own_waits_the_longer_time() -> None:
    """Nobody knows how the garden grows it, whatever its name."""
    okra = load_library().crops["okra"]
    assert manure_wait(okra) == OFF_THE_SOIL
    assert manure_wait(replace(okra, own=True)) == TOUCHES_SOIL
    assert manure_wait(None) == TOUCHES_SOIL
