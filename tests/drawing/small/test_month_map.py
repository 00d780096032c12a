"""A month on a contact sheet: names and stages, no plants; past, present and future told apart."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from itertools import combinations
from xml.etree import ElementTree as Tree

import pytest

from tallybed.drawing.base import look
from tallybed.drawing.small.month_map import months_together, sheet_map
from tallybed.reckoning.calendar.month import BedMonth
from tallybed.reckoning.calendar.stages import Stage
from tests.drawing import months
from tests.drawing.markup import SVG, apart, corners, of_class, parsed, text_box, words


def drawn(month: BedMonth, *, upright: bool = False) -> Tree.Element:
    return parsed(sheet_map(month, ident="m", upright=upright))


def signs(root: Tree.Element) -> dict[str, list[str]]:
    """Return what is written in each square."""
    (every,) = of_class(root, "d-signs")
    return {each.get("data-square", ""): words(each) for each in every if each.get("data-square")}


def test_each_planting_has_its_name_or_letters_once_where_its_squares_are_alike() -> None:
    root = drawn(months.may())
    assert sorted(word for found in signs(root).values() for word in found) == sorted(
        # Spinach left A2:A3 to beans and B2:B3 to nothing; broccoli was lost in H1.
        ["pea", "Bb", "Sp", "Ca", "Ra", "Ll", "bulb onion", "Br", "Br", "To", "Ws", "basil"]
    )
    assert not of_class(root, "plant"), "a contact sheet shows no plants"


def test_what_has_gone_is_faint_and_marked_over_or_lost() -> None:
    root = drawn(months.may())
    (every,) = of_class(root, "d-signs")
    faint = {square.get("data-square") for square in every if of_class(square, "d-faint")}
    assert faint == {"B2", "H1"}
    woven = [each.get("fill") for each in of_class(root, "d-woven")]
    assert sorted(map(str, woven)) == ["url(#m-drills)", "url(#m-lattice)", "url(#m-stubble)"]


@pytest.mark.parametrize(
    ("kind", "dash", "heavy"),
    [("recorded", None, False), ("running", None, True), ("planned", "1 4.2", False)],
)
def test_a_month_to_come_is_dotted_and_the_present_one_heavy(
    kind: str, dash: str | None, heavy: bool
) -> None:
    root = drawn(replace(months.may(), kind=kind))
    (frame,) = of_class(root, "d-frame")
    assert frame.get("stroke-dasharray") == dash
    assert (float(frame.get("stroke-width", "")) > 2) is heavy
    assert f"kind-{kind}" in (root.get("class") or "").split()


def test_lines_tell_how_well_it_is_known() -> None:
    root = drawn(months.planned())
    assert {each.get("stroke-dasharray") for each in of_class(root, "d-outline")} == {"0.1 3.2"}
    outlines = of_class(drawn(months.may()), "d-outline")
    supposed = [each for each in outlines if "grade-supposed" in (each.get("class") or "").split()]
    assert {each.get("stroke-dasharray") for each in supposed} == {"4 2.5"}


def test_squares_that_two_share_are_parted_between_them() -> None:
    root = drawn(months.shared())
    assert sorted(signs(root)["A1"]) == ["Ra", "Sp"]
    grounds = of_class(root, "d-ground")
    halves = [each for each in grounds if each.get("d", "").count("M") == 1]
    widths = set()
    for each in halves:
        numbers = [float(part.split()[0]) for part in each.get("d", "")[1:-1].split("L")]
        widths.add(round(max(numbers) - min(numbers), 1))
    assert look.SMALL_SQUARE / 2 in widths, "half of a square"


def test_three_in_a_square_are_counted() -> None:
    month = months.crowded(holders=3)
    every = tuple(replace(each, first=date(2026, 5, 1), last=date(2026, 5, 31)) for each in month.holders)
    standing = tuple(replace(each, standing=True) for each in month.drawn)
    root = drawn(replace(month, holders=every, drawn=standing))
    assert signs(root)["A1"] == ["Ra", "+ 2"]


def test_it_lies_as_the_large_map_of_the_page_does() -> None:
    for month in (months.may(), months.planned()):
        for upright in (False, True):
            width, height = (
                float(each) for each in drawn(month, upright=upright).get("viewBox", "").split()[2:]
            )
            assert (width < height) is upright


def test_all_beds_of_a_month_are_drawn_to_one_scale_and_clear_of_each_other() -> None:
    beds = (months.LONG, months.ELBOW, replace(months.LONG, name="box", columns=2, rows=2))
    every = [
        months.month_of(bed, (months.plan_row(bed, "SP1", "A1", crop="spinach", spacing=6),)) for bed in beds
    ]
    root = parsed(months_together(every, "m", title="The beds in May"))
    sides = set()
    boxes = []
    for bed, part in zip(beds, root.findall(f"{SVG}g"), strict=True):
        ((left, top), _b, (right, bottom), _d) = corners(of_class(part, "d-ground")[0].get("d", ""))
        sides |= {round(right - left, 2), round(bottom - top, 2)}
        x, y = (float(number) for number in str(part.get("transform"))[len("translate(") : -1].split())
        side = look.SMALL_SQUARE
        boxes.append((x, y, x + bed.columns * side, y + bed.rows * side))
    assert sides == {look.SMALL_SQUARE}, "squares of two sizes"
    for one, other in combinations(boxes, 2):
        assert apart(one, other), f"{one} and {other} lie over each other"


@pytest.mark.parametrize(("columns", "rows"), [(1, 1), (3, 3), (12, 12), (16, 40), (40, 16)])
def test_any_bed_has_readable_letters(columns: int, rows: int) -> None:
    bed = replace(months.LONG, columns=columns, rows=rows, trellises=(), run_outs=(), paths=())
    held = months.plan_row(bed, "ON1", "A1", crop="onion-bulb", spacing=4)
    root = drawn(months.month_of(bed, (held,)), upright=True)
    shown = min(1, look.UPRIGHT_PAGE / float(root.get("viewBox", "").split()[2]))
    sizes = {float(each.get("font-size", "")) * shown for each in root.iter(f"{SVG}text")}
    assert min(sizes) >= 11
    assert signs(root)["A1"] == ["On"]


def test_letters_stand_clear_of_each_other() -> None:
    for month in (months.may(), months.shared(), months.crowded(holders=3), months.planned()):
        boxes = [text_box(each) for each in of_class(drawn(month), "d-letters")]
        assert all(apart(one, other) for one, other in combinations(boxes, 2))


def test_title_and_description_tell_the_same() -> None:
    root = drawn(months.planned())
    assert root[0].text == "The elbow, September 2026, as planned"
    assert (root[1].text or "").split("; ")[0] == "A1:A4 bush bean (BB2), growing"
    empty = drawn(months.month_of(months.LONG, ()))
    assert empty[1].text == "nothing stands"


def test_no_stage_rests_on_colour_alone() -> None:
    held = [
        months.plan_row(months.LONG, f"X{place}", f"{'ACEGI'[place]}1", crop="carrot", spacing=3, stage=stage)
        for place, stage in enumerate((Stage.SOWN, Stage.GROWING, Stage.BEARING))
    ]
    root = drawn(months.month_of(months.LONG, held))
    marks = [Tree.tostring(each) for each in of_class(root, "d-mark")]
    assert len({mark.split(b">", 1)[1] for mark in marks}) == 3


def test_the_same_month_is_the_same_drawing() -> None:
    once = sheet_map(months.may(), ident="m", upright=False)
    assert once == sheet_map(months.turned_about(months.may()), ident="m", upright=False)
    assert [each.get("id") for each in parsed(once).iter() if each.get("id")] == [
        "m",
        "m-title",
        "m-desc",
        "m-drills",
        "m-lattice",
        "m-stubble",
    ]
