"""Squares as people type them."""

from __future__ import annotations

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from tallybed.garden.squares import Bed, Square, column_letters, column_number, in_words
from tallybed.reading.base.problems import LeftOut, Misread
from tallybed.reading.text.squares import Beds, squares
from tests.reading.refusals import refusal

LONG = Bed(name="long", title="", columns=10, rows=3)
ELBOW = Bed(
    name="elbow",
    title="",
    columns=6,
    rows=5,
    omitted=frozenset(Square("elbow", column, row) for column in (3, 4, 5) for row in (2, 3, 4)),
)
ONE = Beds.of([LONG])
TWO = Beds.of([LONG, ELBOW])


def _labels(texts: list[str], beds: Beds) -> str:
    return in_words(squares(texts, beds))


READ = {
    "B3": "long/B3",
    "b3": "long/B3",
    "A1:B2": "long/A1:B2",
    "B2:A1": "long/A1:B2",
    "A2:B1": "long/A1:B2",
    "A1 : A3": "long/A1:A3",
    "A1, C2": "long/A1, C2",
    "A1,C2": "long/A1, C2",
    "long/A1:C1": "long/A1:C1",
    "LONG/a1": "long/A1",
    "long / A1": "long/A1",
    "long": "long/A1:J3",
    "A1, A1, A1:A2": "long/A1:A2",
    "J3": "long/J3",
}


@pytest.mark.parametrize(("typed", "meant"), READ.items())
def test_squares_of_the_only_bed(typed: str, meant: str) -> None:
    assert _labels([typed], ONE) == meant


@pytest.mark.parametrize(
    ("texts", "meant"),
    [
        (["long/A1:A2, C2"], "long/A1:A2, C2"),
        (["long/A1, elbow/B2, C2"], "elbow/B2:C2, long/A1"),
        (["long/A1", "C2"], "long/A1, C2"),
        (["elbow"], "elbow/A1:F2, A3:C5"),
        (["elbow, A1, long/B1"], "elbow/A1:F2, A3:C5, long/B1"),
        (["long, elbow/A1"], "elbow/A1, long/A1:J3"),
    ],
)
def test_the_bed_carries_over_from_part_to_part(texts: list[str], meant: str) -> None:
    assert _labels(texts, TWO) == meant


REFUSED = {
    "A": "square",
    "3": "square",
    "3B": "square",
    "": "square",
    "A1,": "square",
    "A1:": "square",
    "A1-A3": "square",
    "A1 to A3": "square",
    "A1:B2:C3": "square",
    "all of it": "square",
    "А1": "square",  # a Cyrillic A
    "A１": "square",  # a full-width 1
    "K1": "square-outside",
    "A4": "square-outside",
    "A0": "square-outside",
    "A1:K1": "square-outside",
    "AA1": "square-outside",
    "ZZZ9999": "square-outside",
    "A99999": "square",
    "lng/A1": "unknown-bed",
    "/A1": "unknown-bed",
    "long/long": "square",
}


@pytest.mark.parametrize(("typed", "code"), REFUSED.items())
def test_what_is_no_square_is_refused(typed: str, code: str) -> None:
    with pytest.raises(Misread) as refused:
        squares([typed], ONE)
    assert refused.value.code == code


@pytest.mark.parametrize(
    ("typed", "code", "nearest"),
    [
        ("A1", "bed-not-told", ""),
        ("A1, long/A1", "bed-not-told", ""),
        ("elbo/A1", "unknown-bed", "elbow"),
        ("elbw", "square", "elbow"),
        ("A1–A3", "square", "A1:A3"),
        ("elbow/D3", "square-omitted", ""),
        ("elbow/C2:D3", "square-omitted", ""),
        ("elbow/F6", "square-outside", ""),
    ],
)
def test_with_two_beds_the_right_thing_is_asked_for(typed: str, code: str, nearest: str) -> None:
    with pytest.raises(Misread) as refused:
        squares([typed], TWO)
    assert (refused.value.code, refused.value.nearest) == (code, nearest)


@pytest.mark.parametrize(
    ("beds", "typed", "expected"),
    [
        (ONE, "??", "squares such as B3 or A1:B2"),
        (TWO, "??", "squares such as elbow/B3 or elbow/A1:B2, or a bed: elbow or long"),
        (TWO, "long/??", "squares such as B3 or A1:B2"),
    ],
)
def test_a_bed_is_asked_for_only_where_one_can_be_meant(beds: Beds, typed: str, expected: str) -> None:
    """Else a gardener with two beds is not told that a bed's name alone is understood."""
    with pytest.raises(Misread) as refused:
        squares([typed], beds)
    assert refused.value.expected == expected


def test_the_trouble_is_told_at_its_part() -> None:
    with pytest.raises(Misread) as refused:
        squares(["long/A1", "B1,  Z9"], TWO)
    assert (refused.value.part, refused.value.at) == (1, 5)


def test_nothing_is_said_of_a_bed_that_could_not_be_read() -> None:
    partly = Beds.of([LONG], whole=False)
    for typed in ("elbow/A1", "A1", "elbow"):
        with pytest.raises(LeftOut):
            squares([typed], partly)
    assert _labels(["long/A1"], partly) == "long/A1"


PLACES = st.sets(st.sampled_from(LONG.squares + ELBOW.squares), min_size=1)


@given(PLACES)
def test_squares_in_words_read_back_the_same(named: set[Square]) -> None:
    assert set(squares([in_words(named)], TWO)) == named


@given(st.sets(st.sampled_from(LONG.squares), min_size=1))
def test_squares_of_one_bed_read_back_without_its_name(named: set[Square]) -> None:
    assert set(squares([in_words(named, with_bed=False)], ONE)) == named


@given(st.integers(0, 701))
def test_column_letters_read_back_the_same(column: int) -> None:
    wide = Beds.of([Bed(name="wide", title="", columns=702, rows=1)])
    assert column_number(column_letters(column)) == column
    assert squares([f"{column_letters(column)}1"], wide) == (Square("wide", column, 0),)


# Most texts are no squares; of these many are, so that both ends of the law are met.
ALIKE = st.from_regex(r"((long|elbow)/)?[A-K][1-6](:[A-K][1-6])?(, ?[A-F][1-3])?", fullmatch=True)


@given(st.text(max_size=40) | ALIKE)
@example("elbow/A1:B2, C2")
def test_any_text_is_read_or_refused_in_words(typed: str) -> None:
    refused = refusal(lambda text: squares([text], TWO), typed)
    if refused is not None:
        assert refused.found
        assert 0 <= refused.at <= len(typed)
        return
    found = squares([typed], TWO)
    assert found
    assert all(LONG.has(square) or ELBOW.has(square) for square in found)
