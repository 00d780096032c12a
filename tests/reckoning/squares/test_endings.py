"""Of several ends told in the same days, the one by which a planting left its square."""

from __future__ import annotations

from itertools import combinations, permutations

import pytest

from tallybed.garden.records.log import Verb
from tallybed.reckoning.squares.stays import ending
from tests.reckoning.byhand import day, line, planting, squares

LAST, FREE = day(6, 10), day(6, 11)
(A1,) = squares("A1")
TELLING = (Verb.FAILED, Verb.LOST, Verb.CLEAR, Verb.MOVE)
"""From the one that says most of why to the one that says least."""


@pytest.mark.parametrize(("more", "less"), list(combinations(TELLING, 2)), ids=lambda verb: verb.value)
def test_of_one_days_ends_the_one_that_says_most_counts(more: Verb, less: Verb) -> None:
    """Else a planting that died is told as over, because its remains were cleared the same day."""
    for verbs in permutations((more, less)):
        found = ending(planting("CA1", "carrot", None, [line(verb, FREE, "A1") for verb in verbs]), A1, LAST)
        assert found is not None
        assert found.verb is more


@pytest.mark.parametrize(("when", "ends"), [(9, False), (10, False), (11, True), (12, False)])
def test_an_end_is_of_the_day_on_which_the_square_is_free(when: int, ends: bool) -> None:
    lines = [line(Verb.CLEAR, FREE, "B1"), line(Verb.CLEAR, day(6, when), "A1")]
    assert (ending(planting("CA1", "carrot", None, lines), A1, LAST) is not None) is ends


def test_a_whole_end_comes_before_a_part() -> None:
    lines = [line(Verb.LOST, FREE, "A1", plants=2), line(Verb.CLEAR, FREE, "A1")]
    assert ending(planting("CA1", "carrot", None, lines), A1, LAST) is lines[1]
