"""The small map of a visit."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tallybed.drawing.base import look
from tallybed.drawing.base.lettering import width_of
from tallybed.drawing.small.small_map import small_map
from tests.drawing import months
from tests.drawing.markup import SVG, of_class, parsed, words


def test_touched_squares_are_marked_with_their_letters_and_no_others() -> None:
    touched = dict.fromkeys(months.squares("A1:B1"), "Pe") | dict.fromkeys(months.squares("D2"), "Ra Ca")
    root = parsed(small_map(months.LONG, touched, "visit", when="31 May 2026", upright=False))
    marked = {
        each.get("data-square"): words(each) for each in root.iter(f"{SVG}g") if each.get("data-square")
    }
    assert marked == {"A1": ["Pe"], "B1": ["Pe"], "D2": ["Ra", "Ca"]}
    assert root[0].text == "The long bed, 31 May 2026: touched A1:B1, D2"
    assert root[1].text == "Pe in A1:B1; Ra Ca in D2"


def test_the_letters_of_a_tag_are_whole() -> None:
    """Fails where a square is thought too narrow for letters that it holds, as it was for TO2."""
    touched = dict.fromkeys(months.squares("A1"), "TO2") | dict.fromkeys(months.squares("B1"), "PO2 OK1")
    root = parsed(small_map(months.LONG, touched, "visit", when="", upright=False))
    assert words(of_class(root, "d-marked")[0]) == ["TO2", "PO2", "OK1"]


def test_many_crops_in_one_square_are_counted_where_they_have_no_room() -> None:
    root = parsed(
        small_map(
            months.LONG, dict.fromkeys(months.squares("A1"), "Ra Ca On Pe"), "visit", when="", upright=False
        )
    )
    assert words(of_class(root, "d-marked")[0]) == ["Ra", "+ 3"]


def test_squares_of_other_beds_are_left_out() -> None:
    root = parsed(
        small_map(
            months.LONG, dict.fromkeys(months.squares("A1", "elbow"), "Pe"), "visit", when="", upright=False
        )
    )
    assert not of_class(root, "d-touched")
    assert "no square touched" in (root[0].text or "")


def test_a_long_bed_stands_on_a_narrow_page_and_lies_on_a_wide_one() -> None:
    endless = replace(months.LONG, columns=24, trellises=(), run_outs=())
    for upright in (False, True):
        root = parsed(small_map(endless, {}, "visit", when="", upright=upright))
        width, height = (float(each) for each in root.get("viewBox", "").split()[2:])
        assert (width < height) is upright
        assert width <= (328 if upright else 860)
        sizes = [float(each.get("font-size", "")) for each in root.iter(f"{SVG}text")]
        assert min(sizes) >= 11
        (corner,) = of_class(root, "d-corner")
        assert (float(corner.get("x", "")) > width / 2) is upright, "the stake stays at the marked corner"


@pytest.mark.parametrize("upright", [False, True])
@pytest.mark.parametrize(("columns", "rows"), [(1, 1), (30, 6), (40, 12), (12, 30), (4, 120)])
def test_names_of_any_bed_are_whole_and_its_letters_readable(columns: int, rows: int, upright: bool) -> None:
    """Fails where a name of two letters or three figures runs off the sheet, or a broad bed is shrunk."""
    bed = replace(months.LONG, columns=columns, rows=rows, trellises=(), run_outs=())
    root = parsed(small_map(bed, {}, "visit", when="", upright=upright))
    width = float(root.get("viewBox", "").split()[2])
    for each in root.iter(f"{SVG}text"):
        size, x = float(each.get("font-size", "")), float(each.get("x", ""))
        half = width_of(each.text or "", size, bold=True) / 2
        assert (x - half >= 0, x + half <= width) == (True, True), each.text
        assert size * min(1, (look.UPRIGHT_PAGE if upright else look.FLAT_PAGE) / width) >= 11


def test_ids_and_bytes() -> None:
    touched = dict.fromkeys(months.squares("A1:B1"), "Pe")
    once = small_map(months.LONG, touched, "visit", when="31 May 2026", upright=False)
    assert once == small_map(
        months.LONG, dict(reversed(touched.items())), "visit", when="31 May 2026", upright=False
    )
    ids = [each.get("id") for each in parsed(once).iter() if each.get("id")]
    assert ids == ["visit", "visit-title", "visit-desc"]
