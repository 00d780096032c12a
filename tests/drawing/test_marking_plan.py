"""The marking-out plan: to scale, every line and mark at its place, nothing off the sheet."""

from __future__ import annotations

import re
from itertools import combinations
from xml.etree import ElementTree as Tree

import pytest

from tallybed.drawing.base.lettering import width_of
from tallybed.drawing.marking_plan import layout_plan
from tallybed.garden.squares import Bed, Square
from tallybed.garden.units import CENTIMETRE, Length, Showing
from tallybed.reckoning.marking_out import marks, stakes
from tests.drawing.markup import SVG, of_class, parsed, words
from tests.tools import ROOT

ELBOW = Bed(
    name="e",
    title="The elbow bed",
    columns=6,
    rows=5,
    omitted=frozenset(Square("e", column, row) for column in (3, 4, 5) for row in (2, 3, 4)),
)
LONG = Bed(name="l", title="The long bed", columns=10, rows=3)
ONE = Bed(name="o", title="One square", columns=1, rows=1)
RING = Bed(name="r", title="Ring", columns=3, rows=3, omitted=frozenset({Square("r", 1, 1)}))
METRIC = Bed(name="m", title="Metric", columns=4, rows=2, side=Length.of(30, CENTIMETRE))
ENDLESS = Bed(name="x", title="Endless", columns=40, rows=4)
FIELD = Bed(name="f", title="Field", columns=30, rows=30)
ROW = Bed(name="w", title="Row", columns=3, rows=1)
HIGH = Bed(name="h", title="High", columns=4, rows=60)
SQUARE = Bed(name="q", title="Square", columns=8, rows=8)
BEDS = [ELBOW, LONG, ONE, RING, METRIC, ENDLESS, FIELD, ROW, HIGH, SQUARE]


def drawn(bed: Bed, *, narrow: bool = False) -> Tree.Element:
    showing = Showing(metric=bed is METRIC)
    return parsed(layout_plan(bed, marks(bed), stakes(bed), ident="plan", showing=showing, narrow=narrow))


def stakes_at(root: Tree.Element) -> dict[str, tuple[float, float]]:
    """Return where each stake is drawn, by its name."""
    found = {}
    for each in root.iter(f"{SVG}g"):
        if each.get("data-corner"):
            shape = each[0]
            if shape.tag == f"{SVG}circle":
                at = (float(shape.get("cx", "")), float(shape.get("cy", "")))
            else:
                half = float(shape.get("width", "")) / 2
                at = (float(shape.get("x", "")) + half, float(shape.get("y", "")) + half)
            found[each.get("data-corner", "")] = at
    return found


def test_the_stakes_stand_to_scale() -> None:
    at = stakes_at(drawn(ELBOW))
    (px, py), (qx, qy), (sx, sy), (ux, uy) = (at[name] for name in "PQSU")
    assert (qy, ux) == (py, px)
    scale = (qx - px) / 6
    assert (uy - py) / scale == pytest.approx(5, abs=0.01)
    assert ((sx - px) / scale, (sy - py) / scale) == pytest.approx((3, 2), abs=0.01)


def test_a_narrow_plan_is_turned_to_the_right_and_names_stay() -> None:
    at = stakes_at(drawn(ELBOW, narrow=True))
    (px, py), (qx, qy), (ux, _uy) = (at[name] for name in "PQU")
    assert px == pytest.approx(qx), "the letters run down the page"
    assert qy > py
    assert ux < px, "the rows run to the left"


def test_each_side_carries_its_marks_and_its_length() -> None:
    said = {
        each.get("data-side"): words(each) for each in drawn(ELBOW).iter(f"{SVG}g") if each.get("data-side")
    }
    assert said == {
        "PQ": ["1′", "2′", "3′", "4′", "5′", "6 ft"],
        "QR": ["1′", "2 ft"],
        "SR": ["1′", "2′", "3 ft"],
        "ST": ["1′", "2′", "3 ft"],
        "UT": ["1′", "2′", "3 ft"],
        "PU": ["1′", "2′", "3′", "4′", "5 ft"],
    }


def test_a_metric_plan_is_in_centimetres() -> None:
    said = {each.get("data-side"): words(each) for each in drawn(METRIC).iter(f"{SVG}g")}
    assert said["PQ"] == ["30", "60", "90", "120 cm"]


@pytest.mark.parametrize("bed", BEDS, ids=lambda bed: bed.name)
def test_one_run_of_twine_and_two_staples_for_each_line(bed: Bed) -> None:
    (strings,) = of_class(drawn(bed), "d-strings")
    twine, staples = (each.get("d", "").count("M") for each in strings)
    assert twine == len(marks(bed).lines)
    assert staples == marks(bed).staples


def test_the_diagonals_run_from_stake_to_stake() -> None:
    root = drawn(ELBOW)
    (diagonals,) = of_class(root, "d-diagonals")
    (one,) = diagonals.iter(f"{SVG}line")
    at = stakes_at(root)
    ends = [(float(one.get(f"x{n}", "")), float(one.get(f"y{n}", ""))) for n in (1, 2)]
    assert ends == [pytest.approx(at["Q"]), pytest.approx(at["U"])]
    assert words(diagonals) == ["7′ 9 3/4″"]
    (both,) = of_class(drawn(LONG), "d-diagonals")
    assert len(list(both.iter(f"{SVG}line"))) == 2


@pytest.mark.parametrize("bed", BEDS, ids=lambda bed: bed.name)
@pytest.mark.parametrize("narrow", [False, True], ids=["wide", "narrow"])
def test_no_word_runs_off_the_sheet(bed: Bed, narrow: bool) -> None:
    root = drawn(bed, narrow=narrow)
    width, height = (float(each) for each in root.get("viewBox", "").split()[2:])
    if narrow:
        assert width <= 328
    for each in root.iter(f"{SVG}text"):
        size, x, y = (float(each.get(name, "")) for name in ("font-size", "x", "y"))
        assert size >= 11.1, "too small to read on a narrow page"
        run = width_of("".join(each.itertext()), size)
        before = {"end": 1.0, "middle": 0.5}.get(each.get("text-anchor", ""), 0.0)
        ahead, across = (run * (1 - before), run * before), (size * 0.3, size)
        if re.match(r"rotate\(-?90", each.get("transform", "")):
            ahead, across = (size, size), (run / 2, run / 2)
        assert x - ahead[1] >= 0, each.text
        assert x + ahead[0] <= width, each.text
        assert y - across[1] >= 0, each.text
        assert y + across[0] <= height, each.text


def boxes(root: Tree.Element) -> list[tuple[str, tuple[float, float, float, float]]]:
    """Return each text with what its capitals fill: left, top, right, bottom."""
    found = []
    for each in root.iter(f"{SVG}text"):
        own = float(each.get("font-size", ""))
        x, y = (float(each.get(name, "")) for name in ("x", "y"))
        run, high = width_of(each.text or "", own), own * 0.72
        before = {"end": run, "middle": run / 2}.get(each.get("text-anchor", ""), 0.0)
        turned = re.match(r"rotate\((-?90)", each.get("transform", ""))
        if turned:
            left = x - high if turned[1] == "-90" else x
            found.append((each.text or "", (left, y - before, left + high, y - before + run)))
        else:
            found.append((each.text or "", (x - before, y - high, x - before + run, y)))
    return found


def over_each_other(words: list[tuple[str, tuple[float, float, float, float]]]) -> list[tuple[str, str]]:
    """Return the pairs of texts that lie over each other."""
    return [
        (one, other)
        for (one, a), (other, b) in combinations(words, 2)
        if a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]
    ]


@pytest.mark.parametrize("bed", BEDS, ids=lambda bed: bed.name)
@pytest.mark.parametrize("narrow", [False, True], ids=["wide", "narrow"])
def test_no_word_lies_over_another(bed: Bed, narrow: bool) -> None:
    assert over_each_other(boxes(drawn(bed, narrow=narrow))) == []


@pytest.mark.parametrize("bed", BEDS, ids=lambda bed: bed.name)
def test_text_on_paper_has_seven_points_and_the_plan_room_beside_its_steps(bed: Bed) -> None:
    sheet = (ROOT / "layouts" / "paper.css").read_text(encoding="utf-8")
    (em,) = re.findall(r"\.marking-out \.layoutplan \{\s*font-size: ([\d.]+)pt;", sheet)
    root = drawn(bed)
    width, height = (float(each) for each in root.get("viewBox", "").split()[2:])
    wide = float(root.get("width", "").removesuffix("em")) * float(em)
    sizes = [float(each.get("font-size", "")) for each in root.iter(f"{SVG}text")]
    assert min(sizes) * wide / width >= 7
    millimetre = 72 / 25.4
    assert wide <= 0.6 * 192 * millimetre, "the steps have the rest of the sheet"
    assert wide * height / width <= 56 * millimetre


def test_a_high_bed_lies_on_a_wide_page_and_tells_each_fifth_mark() -> None:
    root = drawn(HIGH)
    at = stakes_at(root)
    (px, py), (qx, _qy), (sx, sy) = (at[name] for name in "PQS")
    assert (px, sy) == (pytest.approx(qx), pytest.approx(py)), "the rows run along the page"
    assert sx < px, "turned a quarter to the right, as on a narrow page"
    said = {each.get("data-side"): words(each) for each in root.iter(f"{SVG}g")}
    assert said["PS"] == [*(f"{feet}′" for feet in range(5, 60, 5)), "60 ft"]


def test_the_length_of_a_diagonal_is_left_to_the_table_where_it_has_no_room_in_the_bed() -> None:
    (diagonals,) = of_class(drawn(Bed(name="z", title="Longest", columns=100, rows=1)), "d-diagonals")
    assert len(list(diagonals.iter(f"{SVG}line"))) == 2
    assert words(diagonals) == []


def test_figures_beside_an_upright_side_leave_room_for_its_length() -> None:
    bed = Bed(name="m", title="Metric", columns=4, rows=8, side=Length.of(30, CENTIMETRE))
    plan = layout_plan(bed, marks(bed), stakes(bed), ident="plan", showing=Showing(metric=True))
    said = {each.get("data-side"): words(each) for each in parsed(plan).iter(f"{SVG}g")}
    assert said["PS"] == ["30", "60", "90", "120", "150", "180", "210", "240 cm"]


@pytest.mark.parametrize("narrow", [False, True])
def test_the_longest_bed_there_may_be_is_drawn(narrow: bool) -> None:
    assert drawn(Bed(name="z", title="Longest", columns=700, rows=1), narrow=narrow) is not None


@pytest.mark.parametrize("narrow", [False, True])
@pytest.mark.parametrize("bed", [LONG, METRIC, ELBOW])
def test_the_length_of_a_diagonal_stands_between_the_names(bed: Bed, narrow: bool) -> None:
    root = drawn(bed, narrow=narrow)
    (names,), (diagonals,) = of_class(root, "d-names"), of_class(root, "d-diagonals")
    at, size = float(diagonals[2].get("y", "")), float(diagonals[2].get("font-size", ""))
    assert min(abs(float(each.get("y", "")) - at) for each in names) > size
    left = float(diagonals[1].get("x", ""))
    right = left + float(diagonals[1].get("width", ""))
    stakes = [place[0] for place in stakes_at(root).values()]
    assert not any(left < x < right for x in stakes), "it lies between the sides, on no board"


@pytest.mark.parametrize("bed", [LONG, METRIC])
def test_no_line_runs_through_a_word(bed: Bed) -> None:
    """Names stand over the diagonals, on a halo; the length on ground of its own, which its spaces need."""
    root = drawn(bed)
    order = [each.get("class", "") for each in root]
    assert order.index("d-names") > order.index("d-diagonals") > order.index("d-strings")
    (names,) = of_class(root, "d-names")
    assert all("d-halo" in each.get("class", "") for each in names)
    (diagonals,) = of_class(root, "d-diagonals")
    first, ground, length, second = diagonals
    assert (first.tag, second.tag) == (f"{SVG}line", f"{SVG}line")
    wide = width_of(length.text or "", float(length.get("font-size", "0")), bold=True)
    assert float(ground.get("width", "")) == pytest.approx(wide, abs=0.1)


def test_words_for_those_who_do_not_see_it_and_no_id_but_its_own() -> None:
    root = drawn(ELBOW)
    assert root[0].text == "Marking-out plan of the elbow bed"
    assert root[1].text == (
        "Sides: P to Q 6 ft; Q to R 2 ft; S to R 3 ft; S to T 3 ft; U to T 3 ft; P to U 5 ft. "
        "9 lines of twine between 18 staples. Corner to corner: Q to U 7 ft 9 3/4 in."
    )
    ids = [each.get("id") for each in root.iter() if each.get("id")]
    assert ids == ["plan", "plan-title", "plan-desc"]


def test_the_same_bed_gives_the_same_bytes() -> None:
    once, again = (
        layout_plan(LONG, marks(LONG), stakes(LONG), ident="p", showing=Showing()) for _ in range(2)
    )
    assert once == again
