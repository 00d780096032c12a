"""Rows of a spreadsheet against those taken before: new, known, corrected, and each counted."""

from __future__ import annotations

from collections import Counter

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tallybed.garden.records.pickings import SheetRow
from tallybed.reckoning.harvest.sheet_compare import compared, same_file


def sheet(*rows: str) -> list[SheetRow]:
    """Rows such as ``6-02 kale 3``: a day, a crop, a weight, and perhaps where it went."""
    made = []
    for number, row in enumerate(rows, start=2):
        cells = dict(zip(("date", "crop", "weight", "to"), row.split(), strict=False))
        told = tuple((key, text) for key, text in cells.items() if text != "-")
        made.append(SheetRow(number=number, cells=told))
    return made


def fates(rows: list[SheetRow], taken: list[SheetRow], *, part: bool = False) -> list[str]:
    found = compared(rows, taken, part=part)
    words = dict.fromkeys(found.new, "new") | dict.fromkeys(found.known, "known")
    words |= {place: f"was {old.number}" for place, old in found.changed.items()}
    words |= {place: f"was {old.number}?" for place, old in found.unsure.items()}
    return [words[place] for place in range(len(rows))]


OLD = ["6-01 kale 3", "6-02 pea 4", "6-03 kale 5", "6-04 beet 6"]


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        (OLD, ["known"] * 4),
        ([*OLD, "6-05 kale 2"], ["known"] * 4 + ["new"]),
        # Put in between, above, sorted otherwise: known rows stay known.
        ([OLD[0], "6-01 leek 9", *OLD[1:]], ["known", "new", "known", "known", "known"]),
        (OLD[::-1], ["known"] * 4),
        # Twice the same row is two weighings.
        ([*OLD, OLD[1]], ["known"] * 4 + ["new"]),
        ([OLD[0], OLD[0], *OLD[1:]], ["known", "new", "known", "known", "known"]),
        # Corrected: the weight, the crop, the day, a second thing beside it, something told later.
        ([OLD[0], "6-02 pea 4.5", *OLD[2:]], ["known", "was 3", "known", "known"]),
        ([OLD[0], "6-02 bean 4", *OLD[2:]], ["known", "was 3", "known", "known"]),
        ([OLD[0], "6-12 pea 4", *OLD[2:]], ["known", "was 3", "known", "known"]),
        ([OLD[0], "6-02 bean 4.5", *OLD[2:]], ["known", "was 3", "known", "known"]),
        ([OLD[0], "6-02 pea 4 pantry", *OLD[2:]], ["known", "was 3", "known", "known"]),
        ([OLD[0], "6-02 pea -", *OLD[2:]], ["known", "was 3", "known", "known"]),
        # In its place between its neighbours, one thing in common is enough, of two in a row too.
        ([OLD[0], "6-12 pea 9", "6-13 kale 8", OLD[3]], ["known", "was 3", "was 4", "known"]),
        ([OLD[0], "6-13 kale 8", OLD[3]], ["known", "was 4", "known"]),
        # Corrected and moved; corrected, and longer.
        (["6-02 pea 4.5", *OLD[:1], *OLD[2:]], ["was 3", "known", "known", "known"]),
        ([OLD[0], "6-02 pea 4.5", *OLD[2:], "6-09 leek 1"], ["known", "was 3", "known", "known", "new"]),
        # Two corrected that changed places: each is what it is most like.
        ([OLD[0], "6-03 kale 4", "6-02 pea 5", OLD[3]], ["known", "was 4", "was 3", "known"]),
        # Taken out: nothing is told of it, and what is new stays new.
        (OLD[1:], ["known"] * 3),
        ([*OLD[1:], "6-05 leek 2"], ["known"] * 3 + ["new"]),
        # The same crop and weight on another day, at another place, is another picking.
        ([*OLD[1:], "6-08 kale 3"], ["known"] * 3 + ["was 2"]),
        (["6-08 kale 3 pantry", *OLD], ["new"] + ["known"] * 4),
        # Most of it corrected and moved at once, or another picking and the old one taken out.
        ([*OLD[1:], "6-08 kale 3 pantry"], ["known"] * 3 + ["was 2?"]),
        ([*OLD[1:], "6-01 leek 9"], ["known"] * 3 + ["was 2?"]),
        ([*OLD[1:], "6-09 leek 3"], ["known"] * 3 + ["was 2?"]),
        ([*OLD[1:], "6-08 kale 4", "6-09 kale 7", "6-09 leek 8"], ["known"] * 3 + ["was 2?"] * 2 + ["new"]),
        (["6-09 beet 7", OLD[1], "6-09 pea 7", "6-09 kale 8"], ["was 5?", "known", "new", "was 4?"]),
        # A sheet that is begun anew each week under one name.
        (["6-08 kale 4", "6-09 pea 5", "6-10 kale 6"], ["new"] * 3),
        # By chance a day's picking in it weighs what last week's did.
        (["6-08 kale 3", "6-09 pea 5", "6-10 kale 6"], ["was 2?", "new", "new"]),
        # One row is there, corrected: so it is the same sheet.
        (["6-01 kale 4", "6-09 pea 5"], ["was 2", "was 3?"]),
        ([], []),
    ],
)
def test_each_row_is_new_known_or_corrected(rows: list[str], expected: list[str]) -> None:
    assert fates(sheet(*rows), sheet(*OLD)) == expected


def test_of_taken_rows_alike_in_the_same_things_it_is_the_one_more_alike_else_the_nearer() -> None:
    beside = sheet("6-01 kale 3 pantry", "6-01 kale 3 kitchen")
    assert fates(sheet("6-01 kale 4 kitchen", "6-01 kale 5 pantry"), beside) == ["was 3", "was 2"]
    between = ["6-02 pea 4", "6-03 beet 5", "6-04 leek 6"]
    twice = sheet("6-01 kale 3", *between, "6-01 kale 3")
    rows = sheet(*between[:2], "6-05 chard 7", "6-01 kale 4", between[2])
    assert fates(rows, twice) == ["known", "known", "new", "was 6", "known"]


def test_a_meaning_without_a_column_makes_no_difference() -> None:
    taken = sheet("6-01 kale 3 pantry", "6-02 pea 4 kitchen")
    rows = sheet("6-01 kale 3", "6-02 pea 5")
    found = compared(rows, taken, lost={"to"})
    assert (found.known, found.changed) == ((0,), {1: taken[1]}), "the taken row is returned whole"


def test_of_a_part_of_a_file_nothing_counts_as_corrected() -> None:
    assert fates(sheet("6-02 pea 4.5"), sheet(*OLD), part=True) == ["new"]


_ROWS = st.lists(
    st.builds(
        "{} {} {}".format,
        st.sampled_from(["6-01", "6-02", "6-03"]),
        st.sampled_from(["kale", "pea"]),
        st.integers(1, 3),
    ),
    max_size=12,
)


@given(_ROWS, _ROWS)
def test_taking_a_longer_file_adds_exactly_what_is_longer(rows: list[str], more: list[str]) -> None:
    taken = sheet(*rows)
    longer = sheet(*rows, *more)
    found = compared(longer, taken)
    assert found.changed == {}
    assert len(found.known) == len(rows)
    new = Counter(longer[place].cells for place in found.new)
    assert new == Counter(row.cells for row in longer) - Counter(row.cells for row in taken)


@given(_ROWS, st.randoms(use_true_random=False))
def test_the_order_of_rows_plays_no_part_in_what_is_known(rows: list[str], chance: object) -> None:
    shuffled = list(rows)
    chance.shuffle(shuffled)  # type: ignore[attr-defined]
    assert fates(sheet(*shuffled), sheet(*rows)) == ["known"] * len(rows)


@given(_ROWS, _ROWS)
def test_no_row_is_lost_between_the_fates(rows: list[str], taken: list[str]) -> None:
    found = compared(sheet(*rows), sheet(*taken))
    places = sorted([*found.new, *found.known, *found.changed, *found.unsure])
    assert places == list(range(len(rows)))
    assert len(found.known) + len(found.changed) + len(found.gone) == len(taken)
    assert set(found.unsure.values()) <= set(found.gone)


_MANY = [f"6-{day:02} {crop} {day}{weight}" for day in range(1, 31) for weight, crop in enumerate("abc")]


@given(
    st.integers(0, len(_MANY) - 1),
    st.integers(0, len(_MANY) - 1),
    st.sampled_from(["6-04 b 31", "6-04 x 41", "7-31 b 41"]),
)
def test_one_thing_corrected_is_seen_wherever_the_row_goes(at: int, to: int, corrected: str) -> None:
    place = _MANY.index("6-04 b 41")
    taken = [*_MANY[:place], *_MANY[place + 1 :]]
    taken.insert(at, _MANY[place])
    rows = [row for row in taken if row != _MANY[place]]
    rows.insert(to, corrected)
    found = compared(sheet(*rows), sheet(*taken))
    assert {place: old.get("weight") for place, old in found.changed.items()} == {rows.index(corrected): "41"}
    assert found.new == ()


def test_what_is_gone_is_told_in_order() -> None:
    found = compared(sheet(OLD[1], OLD[3]), sheet(*OLD))
    assert [row.number for row in found.gone] == [2, 4]
    assert compared(sheet(OLD[1]), sheet(*OLD), part=True).gone == ()


@pytest.mark.parametrize(
    ("rows", "other"),
    [
        (OLD, "a.csv"),
        ([*OLD, "6-05 kale 2", "6-06 kale 2", "6-07 kale 2", "6-08 kale 2", "6-09 kale 2"], "a.csv"),
        (OLD[:1], "a.csv"),
        ([OLD[0], "6-05 kale 2", "6-06 kale 2", "6-07 kale 2"], ""),
        ([OLD[0], "6-05 kale 2"], "a.csv"),
        (["6-05 kale 2"], ""),
        ([], ""),
    ],
)
def test_a_file_is_known_under_another_name_by_half_its_rows(rows: list[str], other: str) -> None:
    assert same_file(sheet(*rows), {"a.csv": sheet(*OLD), "b.csv": sheet("1-01 x 1")}) == other
