"""The map of a bed's month: plants, who stands where, what changed."""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import replace
from datetime import date
from itertools import combinations, pairwise
from xml.etree import ElementTree as Tree

import pytest

from tallybed.drawing.base import look
from tallybed.drawing.base.lettering import width_of
from tallybed.garden.crops import Habit
from tallybed.garden.units import Showing
from tallybed.reckoning.calendar.month import BedMonth
from tallybed.reckoning.calendar.stages import Stage
from tallybed.reckoning.squares.occupancy import Grade
from tests.drawing import months
from tests.drawing.bedmaps import EVERY, TURNS, bed_map, drawn, plants, standing
from tests.drawing.markup import SVG, of_class, parsed, place, words

# --- names ----------------------------------------------------------------------------------------------


@TURNS
def test_names_of_a_long_bed_do_not_run_into_one_another(upright: bool) -> None:
    bed = replace(months.LONG, columns=40, trellises=(), run_outs=())
    markup = bed_map(
        months.month_of(bed, ()),
        ident="map",
        links={},
        upright=upright,
        showing=Showing(),
        smallest=look.SIGN_TEXT,
    )
    (group,) = of_class(parsed(markup), "d-names")
    letters = [one for one in group.iter(f"{SVG}text") if (one.text or "").isalpha()]
    size = float(letters[0].get("font-size", ""))
    places = sorted(float(one.get("y" if upright else "x", "")) for one in letters)
    assert letters[0].text == "A"
    assert len(letters) > 5
    assert min(after - before for before, after in pairwise(places)) >= (
        size if upright else width_of("AA", size)
    )


# --- plants ---------------------------------------------------------------------------------------------


@TURNS
@EVERY
def test_every_plant_that_stands_is_drawn_once_and_no_other(month: BedMonth, upright: bool) -> None:
    found = plants(month, upright=upright)
    assert Counter(each.get("data-planting") for each in found) == standing(month)


@TURNS
def test_plants_stand_at_their_real_places_to_scale(upright: bool) -> None:
    month = months.may()
    spots = sorted(
        (s.square.label, round(s.x, 2), round(s.y, 2)) for d in month.drawn if d.standing for s in d.spots
    )
    plants = of_class(drawn(month, upright=upright), "plant")
    told = sorted(
        (str(p.get("data-square")), float(p.get("data-x", "")), float(p.get("data-y", ""))) for p in plants
    )
    assert told == spots
    ax, ay = place(plants[0])
    along, across = float(plants[0].get("data-x", "")), float(plants[0].get("data-y", ""))
    for plant in plants[1:]:
        dx = (float(plant.get("data-x", "")) - along) * look.PER_INCH
        dy = (float(plant.get("data-y", "")) - across) * look.PER_INCH
        x, y = place(plant)
        wanted = (ax - dy, ay + dx) if upright else (ax + dx, ay + dy)
        assert (x, y) == pytest.approx(wanted, abs=0.1), (
            "the turned drawing must not mirror or stretch the bed"
        )


def glyph_of(planting: str) -> Tree.Element:
    """Return how a plant of a planting is drawn in May."""
    root = drawn(months.may())
    plant = next(each for each in of_class(root, "plant") if each.get("data-planting") == planting)
    return next(each for each in root.iter() if each.get("id") == plant.get("href", "").removeprefix("#"))


def test_a_canopy_has_the_width_of_the_plant() -> None:
    definition = glyph_of("TO1")
    canopy = of_class(definition, "d-canopy")[0]
    assert float(canopy.get("r", "")) * 2 == pytest.approx(20 * look.PER_INCH)


def test_what_is_sown_shows_as_seeds_without_leaves() -> None:
    definition = glyph_of("BB1")
    assert not of_class(definition, "d-leaf")
    assert of_class(definition, "d-room")


def test_the_five_habits_are_drawn_differently() -> None:
    plantings = [
        months.plan_row(months.LONG, f"X{n}", f"{chr(65 + n)}1", crop=crop, spacing=6)
        for n, crop in enumerate(("spinach", "bean-bush", "pea-garden", "squash-winter", "carrot"))
    ]
    assert {each.habit for each, _holders in plantings} == set(Habit)
    root = drawn(months.month_of(months.LONG, plantings))
    definitions = [each for each in root.iter(f"{SVG}g") if "-plant-" in (each.get("id") or "")]
    shapes = {b"".join(Tree.tostring(part) for part in each) for each in definitions}
    assert len(shapes) == 5


# --- who stands where -----------------------------------------------------------------------------------


def test_a_group_of_squares_is_outlined_once_and_labelled_once() -> None:
    plantings = of_class(drawn(months.may()), "d-planting")
    assert Counter(each.get("data-planting") for each in plantings)["PE1"] == 1
    pea = next(each for each in plantings if each.get("data-planting") == "PE1")
    assert len(of_class(pea, "d-outline")) == 1
    assert words(pea) == ["pea PE1"]


def test_squares_known_differently_well_are_outlined_apart_but_labelled_once() -> None:
    spinach, holders = months.plan_row(months.LONG, "SP1", "A1:B1", crop="spinach", spacing=4)
    mixed = (holders[0], replace(holders[1], grade=Grade.SUPPOSED))
    root = drawn(months.month_of(months.LONG, ((spinach, mixed),)))
    (planting,) = of_class(root, "d-planting")
    assert [each.get("stroke-dasharray") for each in of_class(planting, "d-outline")] == [None, "7 4"]
    assert len(of_class(planting, "d-tag")) == 1
    assert len(of_class(root, "plant")) == len(spinach.spots), "no plant twice"


def test_squares_that_do_not_touch_are_labelled_each() -> None:
    apart = months.plan_row(months.LONG, "SP1", "A1 C1:D1", crop="spinach", spacing=4)
    plantings = of_class(drawn(months.month_of(months.LONG, (apart,))), "d-planting")
    assert len(plantings) == 2


@pytest.mark.parametrize(
    ("grade", "dash"),
    [(Grade.SEEN, None), (Grade.IMPLIED, None), (Grade.SUPPOSED, "7 4"), (Grade.PLANNED, "0.1 4.4")],
)
def test_the_outline_says_how_well_a_planting_is_known(grade: Grade, dash: str | None) -> None:
    one = months.plan_row(months.LONG, "SP1", "A1:B1", crop="spinach", spacing=4, grade=grade)
    root = drawn(months.month_of(months.LONG, (one,)))
    (outline,) = of_class(root, "d-outline")
    assert outline.get("stroke-dasharray") == dash
    (planted,) = of_class(root, "d-planted")
    assert f"grade-{grade.word}" in (planted.get("class") or ""), "hollow plants hang on this class"


def test_what_bears_has_its_fruit_on_it_and_nothing_else_has() -> None:
    for stage in (Stage.SOWN, Stage.GROWING, Stage.BEARING):
        for crop in ("spinach", "bean-bush", "pea-garden", "squash-winter", "carrot"):
            one = months.plan_row(months.LONG, "X1", "A1:B1", crop=crop, spacing=6, stage=stage)
            root = drawn(months.month_of(months.LONG, (one,)))
            assert bool(of_class(root, "d-fruit")) is (stage is Stage.BEARING), (crop, stage)


def test_marks_of_the_stages_differ() -> None:
    from tallybed.drawing.base.stage_marks import stage_mark

    assert len({stage_mark(stage, 0, 0, 10).tostring() for stage in Stage}) == len(Stage)


def test_two_in_one_square_are_both_drawn_and_share_its_ground() -> None:
    root = drawn(months.may())
    in_c2 = {each.get("data-planting") for each in of_class(root, "plant") if each.get("data-square") == "C2"}
    assert in_c2 == {"CA1", "radish"}
    tags = {each.get("data-planting"): words(each) for each in of_class(root, "d-planting")}
    assert tags["radish"] == ["Ra"], "it shares its square, where its name has no room"
    assert tags["CA1"] == ["carrot"]


# --- changes within the month ----------------------------------------------------------------------------


def test_only_the_last_holder_of_a_square_has_plants() -> None:
    plants = of_class(drawn(months.may()), "plant")
    assert {each.get("data-planting") for each in plants if each.get("data-square") in ("A2", "A3")} == {
        "BB1"
    }


@pytest.mark.parametrize(("planting", "stage"), [("BR2", "lost"), ("SP2", "over")])
def test_what_has_gone_leaves_its_mark_but_no_plants(planting: str, stage: str) -> None:
    root = drawn(months.may())
    assert not [each for each in of_class(root, "plant") if each.get("data-planting") == planting]
    (tag,) = of_class(
        next(each for each in of_class(root, "d-planting") if each.get("data-planting") == planting), "d-tag"
    )
    assert f"stage-{stage}" in (tag.get("class") or "")


def test_days_to_come_are_told_but_not_drawn() -> None:
    today = date(2026, 5, 14)
    month = months.month_of(
        months.LONG,
        (
            months.plan_row(
                months.LONG,
                "SP1",
                "A1",
                crop="spinach",
                spacing=4,
                days=(months.MAY.first, date(2026, 5, 20)),
            ),
            months.plan_row(
                months.LONG,
                "BB1",
                "A1",
                crop="bean-bush",
                spacing=4,
                grade=Grade.PLANNED,
                days=(date(2026, 5, 21), months.MAY.last),
            ),
        ),
        kind="running",
        as_of=today,
    )
    root = drawn(month)
    assert {each.get("data-planting") for each in of_class(root, "plant")} == {"SP1"}
    assert "then bush bean from 21 May (planned)" in (root[1].text or "")


def test_what_is_over_or_lost_says_since_when() -> None:
    tags = {each.get("data-planting"): words(each) for each in of_class(drawn(months.may()), "d-planting")}
    assert " ".join(tags["SP2"]) == "SP2 over since 27 May", "a single column has no room for its name"
    assert " ".join(tags["BR2"]) == "BR2 lost 12 May", "a single square has less room"


@TURNS
@pytest.mark.parametrize("month", [months.may(), months.shared()], ids=["may", "shared"])
def test_tags_never_cover_each_other(month: BedMonth, upright: bool) -> None:
    boxes = []
    for shape in of_class(drawn(month, upright=upright), "d-tag-shape"):
        data = shape.get("d", "")
        x, y = (float(each) for each in re.findall(r"-?[\d.]+", data)[:2])
        boxes.append((x, y, *(float(re.findall(command + r"(-?[\d.]+)", data)[0]) for command in "hv")))
    assert len(boxes) == len({each.planting for each in month.drawn if each.spots and each.standing}) + sum(
        each.stage in (Stage.LOST, Stage.OVER) and each.planting != "SP1" for each in month.drawn
    )
    for (ax, ay, aw, ah), (bx, by, bw, bh) in combinations(boxes, 2):
        assert not (ax < bx + bw and bx < ax + aw and ay < by + bh and by < ay + ah)
