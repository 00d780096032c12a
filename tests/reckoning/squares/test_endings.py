"""Of several ends told in the same days, the one by which a planting left its square."""

from __future__ import annotations

from itertools import combinations, permutations

import pytest

from tallybed.garden.records.log import Verb
from tallybed.reckoning.squares.stays import ending
from tests.reckoning.byhand import day, line, planting, squares

LAST = day(6, 10)
(A1,) = squares("A1")
TELLING = (Verb.FAILED, Verb.LOST, Verb.CLEAR, Verb.MOVE)
"""From the one that says most of why to the one that says least."""


@pytest.mark.parametrize(("more", "less"), list(combinations(TELLING, 2)), ids=lambda verb: verb.value)
def test_of_one_days_ends_the_one_that_says_most_counts(more: Verb, less: Verb) -> None:
    """Else a planting that died is told as over, because its remains were cleared the same day."""
    for verbs in permutations((more, less)):
        found = ending(planting("CA1", "carrot", None, [line(verb, LAST, "A1") for verb in verbs]), A1, LAST)
        assert found is not None
        assert found.verb is more


@pytest.mark.parametrize(("when", "ends"), [(9, False), (10, True), (11, True), (12, False)])
def test_an_end_is_of_the_last_day_or_the_day_after(when: int, ends: bool) -> None:
    lines = [line(Verb.CLEAR, LAST, "B1"), line(Verb.CLEAR, day(6, when), "A1")]
    assert (ending(planting("CA1", "carrot", None, lines), A1, LAST) is not None) is ends


def test_of_two_days_the_later_counts_and_a_whole_end_before_a_part() -> None:
    both = [line(Verb.CLEAR, LAST, "A1"), line(Verb.LOST, day(6, 11), "A1")]
    found = ending(planting("CA1", "carrot", None, both), A1, LAST)
    assert found is both[1]
    part = [line(Verb.CLEAR, LAST, "A1"), line(Verb.LOST, day(6, 11), "A1", plants=2)]
    found = ending(planting("CA1", "carrot", None, part), A1, LAST)
    assert found is part[0]
