"""The small map of a visit."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations

from tallybed.drawing.base import look
from tallybed.drawing.small.small_map import month_map, small_map
from tests.drawing import months
from tests.drawing.markup import SVG, of_class, parsed, words


def test_touched_squares_are_marked_with_their_letters_and_no_others() -> None:
    touched = dict.fromkeys(months.squares("A1:B1"), "Pe") | dict.fromkeys(months.squares("D2"), "Ra Ca")
    root = parsed(small_map(months.LONG, touched, "visit"))
    marked = {
        each.get("data-square"): words(each) for each in root.iter(f"{SVG}g") if each.get("data-square")
    }
    assert marked == {"A1": ["Pe"], "B1": ["Pe"], "D2": ["Ra", "Ca"]}
    assert root[0].text == "The long bed: touched A1:B1, D2"
    assert root[1].text == "Pe in A1:B1; Ra Ca in D2"


def test_many_crops_in_one_square_are_counted_where_they_have_no_room() -> None:
    root = parsed(small_map(months.LONG, dict.fromkeys(months.squares("A1"), "Ra Ca On Pe"), "visit"))
    assert words(of_class(root, "d-marked")[0]) == ["Ra", "+ 3"]


def test_squares_of_other_beds_are_left_out() -> None:
    root = parsed(small_map(months.LONG, dict.fromkeys(months.squares("A1", "elbow"), "Pe"), "visit"))
    assert not of_class(root, "d-touched")
    assert "no square touched" in (root[0].text or "")


def test_a_long_bed_is_turned_so_that_it_fits_a_narrow_page() -> None:
    endless = replace(months.LONG, columns=24, trellises=(), run_outs=())
    root = parsed(small_map(endless, {}, "visit"))
    width, height = (float(each) for each in root.get("viewBox", "").split()[2:])
    assert width < height
    assert width <= 328
    sizes = [float(each.get("font-size", "")) for each in root.iter(f"{SVG}text")]
    assert min(sizes) >= 11


def test_the_stake_stays_at_the_marked_corner_when_the_map_is_turned() -> None:
    endless = replace(months.LONG, columns=24, trellises=(), run_outs=())
    for bed, right in ((months.LONG, False), (endless, True)):
        root = parsed(small_map(bed, {}, "visit"))
        (corner,) = of_class(root, "d-corner")
        width = float(root.get("viewBox", "").split()[2])
        assert (float(corner.get("x", "")) > width / 2) is right


def test_ids_and_bytes() -> None:
    touched = dict.fromkeys(months.squares("A1:B1"), "Pe")
    once = small_map(months.LONG, touched, "visit")
    assert once == small_map(months.LONG, dict(reversed(touched.items())), "visit")
    ids = [each.get("id") for each in parsed(once).iter() if each.get("id")]
    assert ids == ["visit", "visit-title", "visit-desc"]


def test_all_beds_of_a_month_are_drawn_to_one_scale_and_clear_of_each_other() -> None:
    beds = (months.LONG, months.ELBOW, replace(months.LONG, name="box", columns=2, rows=2))
    held = {each.squares[0]: "Sp" for each in beds}
    root = parsed(month_map(beds, held, dict.fromkeys(held, "bearing"), "m", title="The beds in May"))
    marked = of_class(root, "d-touched")
    assert [one.get("class") for one in marked] == ["d-touched stage-bearing"] * 3
    assert len({(one.get("width"), one.get("height")) for one in marked}) == 1, "squares of two sizes"
    boxes = []
    for each, part in zip(beds, root.findall(f"{SVG}g"), strict=True):
        x, y = (float(number) for number in str(part.get("transform"))[len("translate(") : -1].split())
        side = look.SMALL_SQUARE
        boxes.append((x, y, x + each.columns * side, y + each.rows * side))
    for one, other in combinations(boxes, 2):
        apart = one[2] <= other[0] or other[2] <= one[0] or one[3] <= other[1] or other[3] <= one[1]
        assert apart, f"{one} and {other} lie over each other"
