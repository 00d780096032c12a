"""What columns mean by their headings, and by what somebody says of them."""

from __future__ import annotations

import pytest

from tallybed.reading.base.problems import Misread
from tallybed.reading.spreadsheet.columns import WORDS, columns, heading, meant, plain, recognised


def meanings(*names: str, **told: str) -> list[str]:
    """Each column's meaning, with its unit behind it."""
    said = {plain(name): meant(meaning) for name, meaning in told.items()}
    found = columns(names, said).headings
    return [f"{one.meaning} {one.unit.symbol}" if one.unit else one.meaning for one in found]


@pytest.mark.parametrize(
    ("names", "expected"),
    [
        (("Date", "Crop", "Weight"), ["date", "crop", "weight"]),
        (("DATE:", " crop ", "Weight (oz)"), ["date", "crop", "weight oz"]),
        (("Day", "Veg", "Wt. in lbs."), ["date", "crop", "weight lb"]),
        (("Harvest date", "Vegetable", "oz"), ["date", "crop", "weight oz"]),
        (("When", "What", "Pounds", "Ounces"), ["date", "crop", "weight lb", "weight oz"]),
        (("Date", "Crop", "Weight", "Unit"), ["date", "crop", "weight", "unit"]),
        (("Date", "Crop", "Variety", "Amount [g]"), ["date", "crop", "variety", "weight g"]),
        (("date", "plant tag", "mass", "count"), ["date", "tag", "weight", "count"]),
        (("Date", "Crop", "Bed", "Square(s)", "Weight"), ["date", "crop", "bed", "squares", "weight"]),
        (("Date", "Crop", "Sq.", "kg", "To whom"), ["date", "crop", "squares", "weight kg", "to"]),
        (("Date", "Crop", "Weight", "Went to", "Notes"), ["date", "crop", "weight", "to", "note"]),
        (("Date", "Crop", "Weight", "For", "Notes"), ["date", "crop", "weight", "to", "note"]),
        # Two columns of notes are both taken; a stranger's column is left alone.
        (("Date", "Crop", "Weight", "Notes", "Comments"), ["date", "crop", "weight", "note", "note"]),
        (("Date", "Crop", "Weight", "Weather", ""), ["date", "crop", "weight", "nothing", "nothing"]),
        # A weaker heading gives way to the plain one; the number of a row is no count.
        (("No.", "Date", "Name", "Crop", "Weight"), ["nothing", "date", "nothing", "crop", "weight"]),
        (("Day", "Date", "Crop", "Weight"), ["nothing", "date", "crop", "weight"]),
        (("Date", "Name", "Weight"), ["date", "crop", "weight"]),
    ],
)
def test_headings_are_known_by_everyday_words(names: tuple[str, ...], expected: list[str]) -> None:
    assert meanings(*names) == expected


@pytest.mark.parametrize("meaning", WORDS)
def test_each_meaning_is_known_by_its_own_name(meaning: str) -> None:
    found = heading(meaning.title())
    assert found is not None
    assert found.meaning == meaning


def test_no_heading_has_two_meanings() -> None:
    every = [word for words in WORDS.values() for word in words.split(", ")]
    assert sorted(every) == sorted(set(every))
    assert all(word == plain(word) for word in every)


def test_what_somebody_says_of_a_column_counts_before_its_heading() -> None:
    said = meanings("Date", "Date picked", "Crop", "Weight", **{"Date picked": "date"})
    assert said == ["nothing", "date", "crop", "weight"]
    said = meanings("Date", "X", "Crop", "Weight", X="weight (lb)")
    assert said == ["date", "weight lb", "crop", "nothing"]
    assert meanings("Date", "Crop", "lb", lb="weight") == ["date", "crop", "weight lb"]
    assert meanings("Date", "Crop", "Weight", Crop="variety") == ["date", "variety", "weight"]


@pytest.mark.parametrize(
    ("names", "words"),
    [
        (("Crop", "Weight"), "the date"),
        (("Date", "Weight"), "the crop"),
        (("Crop", "Weight"), "no column is known to be the date; every column is known to be something else"),
        (("Date", "Crop", "X"), "no column is known to be the weight; the columns left are “X”"),
        (("Date", "Crop", "Quantity"), "“Quantity” may be a weight or a count"),
        (("Fecha", "Cultivo", "Cantidad"), "“Cantidad” may be a weight or a count"),
        (("Date", "Date picked", "Crop", "Weight"), "“Date” and “Date picked” both mean the date"),
        (("Date", "Crop", "Weight", "Wt"), "“Weight” and “Wt” both mean the weight"),
        (("Date", "Crop", "oz", "ounces"), "both mean the weight"),
        (("Date", "Crop", "oz", "ounces", "lb"), "all mean the weight"),
    ],
)
def test_what_is_missing_or_double_is_said_with_what_to_type(names: tuple[str, ...], words: str) -> None:
    with pytest.raises(Misread) as caught:
        columns(names, {})
    assert words in caught.value.found
    assert "--map" in caught.value.expected


def test_the_row_of_headings_is_the_one_with_most_meanings() -> None:
    assert recognised(["Date", "Crop", "Weight"], {}) > recognised(["Our harvest", "2026", ""], {})
    assert recognised(["2026-04-12", "radish", "3 oz"], {}) == 0


def test_a_meaning_that_is_none_is_said_with_the_nearest() -> None:
    with pytest.raises(Misread) as caught:
        meant("wieght")
    assert caught.value.nearest == "weight"
