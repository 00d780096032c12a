"""Rows of the ledger as they are written: the same for the same weighing, and read back as what was meant."""

from __future__ import annotations

from datetime import date

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from tallybed.garden.naming import CropName
from tallybed.garden.records.ledger import Destination, State, Weighing
from tallybed.garden.squares import Square
from tallybed.garden.units import OUNCE, Weight
from tallybed.writing.ledger_row import in_braces, row, scalar

DAY = date(2026, 6, 2)
KALE = CropName(typed="kale", slugs=("kale",))
LEEK = CropName(typed="leek", slugs=("leek",))


def weighing(**parts: object) -> Weighing:
    known: dict[str, object] = {"day": DAY, "crops": (KALE,), "weight": Weight.of(3, OUNCE)}
    return Weighing(**(known | parts))  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("record", "text"),
    [
        (weighing(), "{date: 2026-06-02, crop: kale, weight: 3 oz}"),
        (weighing(tag="KA1", crops=()), "{date: 2026-06-02, tag: KA1, weight: 3 oz}"),
        (
            weighing(squares=(Square("long", 0, 0), Square("long", 1, 0)), count=4),
            "{date: 2026-06-02, crop: kale, squares: long/A1:B1, count: 4, weight: 3 oz}",
        ),
        (
            weighing(squares=(Square("long", 0, 0), Square("long", 2, 1))),
            "{date: 2026-06-02, crop: kale, squares: [long/A1, C2], weight: 3 oz}",
        ),
        (
            weighing(crops=(LEEK, KALE), mixed=True, to=(Destination(name="Lantern Street pantry"),)),
            "{date: 2026-06-02, mixed: [leek, kale], weight: 3 oz, to: Lantern Street pantry}",
        ),
        (
            weighing(
                variety="Blue: Card", form="dry", state=State.CURED, weighed=date(2026, 7, 1), note="a, b"
            ),
            '{date: 2026-06-02, crop: kale, variety: "Blue: Card", weight: 3 oz, as: dry, state: cured, '
            'weighed: 2026-07-01, note: "a, b"}',
        ),
    ],
)
def test_a_weighing_is_written_with_its_keys_in_this_order(record: Weighing, text: str) -> None:
    assert row(record, "3 oz") == text


def test_a_garden_of_one_bed_writes_squares_without_it() -> None:
    assert "squares: A1," in row(weighing(squares=(Square("long", 0, 0),)), "3 oz", with_bed=False)


@given(st.text(st.characters(exclude_categories=["Cs", "Cc"]), min_size=1))
def test_any_text_reads_back_from_within_braces(text: str) -> None:
    found = yaml.load(in_braces([("a", text), ("b", [text, "x"])]), Loader=yaml.BaseLoader)
    assert found == {"a": text, "b": [text, "x"]}


@pytest.mark.parametrize(
    "text", ["a b", "1 lb 6 oz", "½ lb", "long/A1:B2", "été", "food pantry (east)", "3.5"]
)
def test_a_plain_text_stands_as_it_is(text: str) -> None:
    assert scalar(text) == text


@pytest.mark.parametrize(
    "text", ["", "a: b", "a:", "a #b", "#", "- a", "a, b", "[x", "{", '"', "'a", "a  b", "~2 lb"]
)
def test_a_text_with_a_sign_of_yaml_stands_in_quotes(text: str) -> None:
    assert scalar(text).startswith('"')
