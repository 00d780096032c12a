"""A month on a contact sheet: letters and stages, no plants; past, present and future told apart."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from itertools import combinations
from xml.etree import ElementTree as Tree

import pytest

from tallybed.drawing.base.lettering import width_of
from tallybed.drawing.small.month_map import sheet_map
from tallybed.reckoning.calendar.month import BedMonth, Stage
from tests.drawing import months
from tests.drawing.markup import SVG, of_class, parsed, words


def drawn(month: BedMonth) -> Tree.Element:
    return parsed(sheet_map(month, ident="m"))


def signs(root: Tree.Element) -> dict[str, list[str]]:
    """Return what is written in each square."""
    (every,) = of_class(root, "d-signs")
    return {each.get("data-square", ""): words(each) for each in every if each.get("data-square")}


def test_each_planting_has_its_letters_once_where_its_squares_are_alike() -> None:
    root = drawn(months.may())
    assert sorted(word for found in signs(root).values() for word in found) == sorted(
        # Spinach left A2:A3 to beans and B2:B3 to nothing; broccoli was lost in H1.
        ["Pe", "Bb", "Sp", "Ca", "Ra", "Ll", "On", "Br", "Br", "To", "Ws", "Ba"]
    )
    assert not of_class(root, "plant"), "a contact sheet shows no plants"


def test_what_has_gone_is_faint_and_marked_over_or_lost() -> None:
    root = drawn(months.may())
    (every,) = of_class(root, "d-signs")
    faint = {}
    for square in (each for each in every if of_class(each, "d-faint")):
        names = " ".join(one.get("class") or "" for one in square).split()
        faint[square.get("data-square")] = [name for name in names if name.startswith("stage-")]
    assert faint == {"B3": ["stage-over"], "H1": ["stage-lost"]}


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
    assert 13.5 in widths, "half of a square of 27"


def test_three_in_a_square_are_counted() -> None:
    month = months.crowded(holders=3)
    every = tuple(replace(each, first=date(2026, 5, 1), last=date(2026, 5, 31)) for each in month.holders)
    standing = tuple(replace(each, standing=True) for each in month.drawn)
    root = drawn(replace(month, holders=every, drawn=standing))
    assert signs(root)["A1"] == ["Ra", "+ 2"]


def test_the_longer_side_runs_down_so_that_months_stand_beside_each_other() -> None:
    for month in (months.may(), months.planned()):
        width, height = (float(each) for each in drawn(month).get("viewBox", "").split()[2:])
        assert width < height
    assert float(drawn(months.may()).get("width", "")) <= 104, "three beside each other on a narrow page"


@pytest.mark.parametrize(("columns", "rows"), [(1, 1), (3, 3), (12, 12), (16, 40), (40, 16)])
def test_any_bed_has_readable_letters(columns: int, rows: int) -> None:
    bed = replace(months.LONG, columns=columns, rows=rows, trellises=(), run_outs=(), paths=())
    held = months.plan_row(bed, "ON1", "A1", crop="onion-bulb", spacing=4)
    root = drawn(months.month_of(bed, (held,)))
    assert float(root.get("viewBox", "").split()[2]) <= 328.5
    sizes = {float(each.get("font-size", "")) for each in root.iter(f"{SVG}text")}
    assert min(sizes) >= 11
    assert signs(root)["A1"] == ["On"]


def test_letters_stand_clear_of_each_other() -> None:
    for month in (months.may(), months.shared(), months.crowded(holders=3), months.planned()):
        boxes = []
        for each in of_class(drawn(month), "d-letters"):
            size = float(each.get("font-size", ""))
            wide = width_of("".join(each.itertext()), size)
            x, y = float(each.get("x", "")), float(each.get("y", ""))
            boxes.append((x - wide / 2, y - size * 0.7, x + wide / 2, y))
        for one, other in combinations(boxes, 2):
            apart = one[2] <= other[0] or other[2] <= one[0] or one[3] <= other[1] or other[3] <= one[1]
            assert apart


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
    marks = {each.get("class") for each in root.iter(f"{SVG}g") if len(each) and of_class(each[0], "d-mark")}
    assert {"stage-sown", "stage-growing", "stage-bearing"} <= marks


def test_the_same_month_is_the_same_drawing() -> None:
    once = sheet_map(months.may(), ident="m")
    assert once == sheet_map(months.turned_about(months.may()), ident="m")
    assert [each.get("id") for each in parsed(once).iter() if each.get("id")] == ["m", "m-title", "m-desc"]
