"""The table of the log's verbs: every row is whole, and agrees with itself and with who counts by it."""

from __future__ import annotations

import pytest

from tallybed.garden.records.log import (
    CROP_VERBS,
    ENDING,
    INDOORS,
    LEAVING,
    SPREADING,
    STARTING,
    TAKING_SOME,
    Verb,
)
from tallybed.reading.shapes.log import EVENT
from tallybed.reckoning.calendar import changes
from tallybed.reckoning.room.counting import RANK


@pytest.mark.parametrize("verb", Verb)
def test_every_verb_has_a_row_with_its_past_word_and_is_read(verb: Verb) -> None:
    meaning = verb.meaning
    assert meaning.past
    assert meaning.past == meaning.past.strip().lower()
    assert verb.value in EVENT.by_name
    of_crops = meaning.starts or meaning.indoors or meaning.ends or meaning.shows_growth
    assert meaning.takes_crop or not of_crops, "what is said of plants takes a crop"
    assert not (meaning.takes_crop and meaning.tends_ground)
    assert meaning.ends or not (meaning.in_part or meaning.moves)
    assert [meaning.starts, meaning.indoors, meaning.ends].count(True) <= 1
    assert meaning.change or not (meaning.starts or meaning.ends), "who comes or goes is a change"


def test_every_past_word_is_one_verbs_alone() -> None:
    assert len({verb.meaning.past for verb in Verb}) == len(Verb)


def test_a_verb_without_a_meaning_is_refused() -> None:
    with pytest.raises(TypeError, match="the verb dig has no meaning"):
        Verb.__new_member__(Verb, "dig")  # what makes a row a verb


def test_the_sets_are_those_that_gardeners_mean() -> None:
    """Which verbs do what: common practice, no source."""
    assert {verb.value for verb in STARTING} == {"sow", "set out", "resow"}
    assert {verb.value for verb in INDOORS} == {"sow indoors", "pot up"}
    assert {verb.value for verb in ENDING} == {"clear", "failed", "lost"}
    assert {verb.value for verb in SPREADING} == {"feed", "amend", "water", "cover"}
    assert {verb.value for verb in Verb if verb.meaning.tends_ground} == {
        *("water", "weed", "feed", "treat", "amend", "cover", "uncover")
    }, "what bare ground gets too says of no square that something stands there"
    assert {Verb.MOVE} == LEAVING - ENDING
    assert LEAVING - {Verb.FAILED} == TAKING_SOME
    assert {verb.value for verb in set(Verb) - CROP_VERBS} == {
        *("water", "weed", "feed", "treat", "amend", "cover", "uncover", "observe")
    }


def test_whoever_puts_verbs_in_an_order_of_its_own_forgets_none() -> None:
    assert set(RANK) == {verb for verb in Verb if verb.meaning.change}
    assert set(changes._ORDER) == {verb.meaning.change for verb in Verb} - {""}
