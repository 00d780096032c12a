"""The map of a bed's month: the bed, the ground around it, the text."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from tallybed.drawing.base import look
from tallybed.garden.squares import Bed
from tallybed.garden.units import FOOT
from tallybed.reckoning.calendar.month import BedMonth
from tallybed.reckoning.calendar.stages import Stage
from tests.drawing import months
from tests.drawing.bedmaps import EVERY, TURNS, drawn
from tests.drawing.markup import SVG, corners, of_class, place, words

# --- the bed and what lies around it ------------------------------------------------------------------------


@pytest.mark.parametrize(("side", "where"), [("J", "I1:J2"), ("3", "D2:E3"), ("A", "A1:B2"), ("1", "D1:E2")])
@TURNS
def test_vines_cross_the_frame_and_end_within_their_reach(side: str, where: str, upright: bool) -> None:
    feet = 4
    root = drawn(months.led_out_over(side, where, feet=feet), upright=upright)
    (plant,) = of_class(root, "plant")
    x, y = place(plant)
    inches_x, inches_y = float(plant.get("data-x", "")), float(plant.get("data-y", ""))
    vines = of_class(root, "d-led-out")
    assert vines
    places = [
        spot for vine in vines for each in vine.iter(f"{SVG}path") for spot in corners(each.get("d", ""))
    ]
    turned = upright
    if turned:
        inches = [
            ((py - y) / look.PER_INCH + inches_x, (x - px) / look.PER_INCH + inches_y) for px, py in places
        ]
    else:
        inches = [
            ((px - x) / look.PER_INCH + inches_x, (py - y) / look.PER_INCH + inches_y) for px, py in places
        ]
    out = {
        "J": [px - 120 for px, _py in inches],
        "A": [-px for px, _py in inches],
        "3": [py - 36 for _px, py in inches],
        "1": [-py for _px, py in inches],
    }[side]
    assert min(out) < 0 < max(out), "the vines must cross the frame line"
    assert max(out) <= feet * 12, "no further than their reach"
    assert max(out) > feet * 12 / 3, "and well into it"


def test_a_vine_keeps_to_the_reach_of_its_ground() -> None:
    """The bed's own run-out ground at J is 5 ft deep; a planting that says 9 ft gets 5."""
    root = drawn(months.led_out_over("J", "I1:J2", feet=9))
    (ground,) = of_class(root, "d-run-out")
    assert float(ground.get("data-depth", "")) == pytest.approx(5 * 12 * look.PER_INCH)


def test_run_out_ground_without_vines_is_broken_off() -> None:
    root = drawn(months.month_of(months.LONG, ()))
    (ground,) = of_class(root, "d-run-out")
    assert float(ground.get("data-depth", "")) == look.BROKEN
    assert words(of_class(root, "d-run-out-words")[0]) == ["run-out 5 ft"]


def test_what_is_only_sown_has_no_vines_yet() -> None:
    month = months.led_out_over("J", "I1:J2", feet=4)
    sown = replace(month, holders=tuple(replace(each, stage=Stage.SOWN) for each in month.holders))
    root = drawn(sown)
    assert not of_class(root, "d-led-out")
    assert float(of_class(root, "d-run-out")[0].get("data-depth", "")) == look.BROKEN


def test_path_and_trellis_are_labelled() -> None:
    root = drawn(months.may())
    assert words(of_class(root, "d-path-words")[0]) == ["path 3 ft"]
    assert words(of_class(root, "d-trellis-words")[0]) == ["trellis 6 ft"]


def test_words_around_a_bed_lie_above_what_grows_over_them() -> None:
    """Fails where a vine, or a wide plant at the edge, is drawn over the words of a path or a trellis."""
    order = [each.get("class", "") for each in drawn(months.led_out_over("J", "I1:J2", feet=4))]
    assert order.index("d-plants") < order.index("d-around") < order.index("d-plantings")


@pytest.mark.parametrize(
    ("bearing", "flat", "upright"), [(90, 0, 90), (0, 90, 180), (180, 270, 0), (270, 180, 270), (35, 55, 145)]
)
def test_the_compass_points_north(bearing: int, flat: int, upright: int) -> None:
    """Degrees clockwise from the drawing's upper edge.

    Flat, the letters run to the right: where they run east (90°), north is up.
    Upright, they run down: where they run east, east is down, so north is to the
    right (facing north, east is on the right hand).
    """
    month = replace(months.may(), bed=replace(months.LONG, bearing=Fraction(bearing)))
    for turned, wanted in ((False, flat), (True, upright)):
        (hair,) = of_class(drawn(month, upright=turned), "d-hair")
        assert float(hair.get("data-turn", "")) == wanted


@TURNS
def test_names_stand_outside_the_frame_in_their_order(upright: bool) -> None:
    (names,) = of_class(drawn(months.may(), upright=upright), "d-names")
    places = {
        "".join(each.itertext()): (float(each.get("x", "")), float(each.get("y", ""))) for each in names
    }
    assert set(places) == set("ABCDEFGHIJ123")
    letters = [places[each] for each in "ABCDEFGHIJ"]
    numbers = [places[each] for each in "123"]
    if upright:
        assert letters == sorted(letters, key=lambda spot: spot[1]), "letters run down"
        assert numbers == sorted(numbers, key=lambda spot: -spot[0]), "numbers run from the right"
    else:
        assert letters == sorted(letters), "letters run to the right"
        assert numbers == sorted(numbers, key=lambda spot: spot[1]), "numbers run down"


@pytest.mark.parametrize(
    ("bed", "metric", "figures"),
    [
        (months.LONG, False, {"0", "10 ft", "3", "ft"}),
        (months.LONG, True, {"0", "305 cm", "91", "cm"}),
        (months.ELBOW, True, {"0", "180 cm", "150", "cm"}),
    ],
)
def test_dimensions_are_written_on_two_sides(bed: Bed, metric: bool, figures: set[str]) -> None:
    """Ten one-foot squares are 10 ft, or 304.8 cm; six squares of 30 cm are 180 cm."""
    root = drawn(months.month_of(bed, ()), metric=metric)
    scales = of_class(root, "d-scale")
    assert len(scales) == 2
    assert figures <= {word for each in scales for word in words(each)}


def test_omitted_squares_are_not_drawn_as_bed() -> None:
    root = drawn(months.month_of(months.ELBOW, ()))
    (bare,) = of_class(root, "d-bare")
    side = float(months.ELBOW.side.within(FOOT)) * 12 * look.PER_INCH
    places = corners(bare.get("d", "").replace("Z", ""))
    across = (max(x for x, _y in places) - min(x for x, _y in places)) / side
    assert across == pytest.approx(6, abs=0.01)
    assert len(places) == 6, "an L has six corners"


def test_the_planned_map_differs_as_a_whole() -> None:
    root = drawn(months.planned())
    assert "kind-planned" in (root.get("class") or "")
    (status,) = of_class(root, "d-status")
    assert status.text == "September 2026, as planned"
    (frame,) = of_class(root, "d-frame")
    assert frame.get("stroke-dasharray")
    (recorded,) = of_class(drawn(months.may()), "d-frame")
    assert recorded.get("stroke-dasharray") is None


# --- text and page ---------------------------------------------------------------------------------------


@pytest.mark.parametrize(("upright", "page"), [(True, 328), (False, 860)])
@EVERY
def test_no_text_is_under_eleven_pixels_on_the_narrowest_page(
    month: BedMonth, upright: bool, page: int
) -> None:
    root = drawn(month, upright=upright)
    shown = min(1.0, page / float(root.get("viewBox", "").split()[2]))
    sizes = [
        float(each.get("font-size", "")) for each in root.iter() if each.tag in (f"{SVG}text", f"{SVG}tspan")
    ]
    assert min(sizes) * shown >= 11


@TURNS
@EVERY
def test_everything_written_lies_within_the_drawing(month: BedMonth, upright: bool) -> None:
    root = drawn(month, upright=upright)
    _x, _y, width, height = (float(each) for each in root.get("viewBox", "").split())
    for each in root.iter(f"{SVG}text"):
        x, y = float(each.get("x", "")), float(each.get("y", ""))
        assert 0 <= x <= width, words(root)
        assert 0 <= y <= height, words(root)


def test_a_narrow_page_never_gets_a_map_across_it() -> None:
    """An L-shaped bed with vines over its long side: text must not outgrow the squares."""
    month = months.led_out_over("5", "A4:B5", feet=5, bed=months.ELBOW)
    root = drawn(month, upright=True)
    size = min(float(each.get("font-size", "")) for each in root.iter(f"{SVG}text"))
    side = float(months.ELBOW.side.within(FOOT)) * 12 * look.PER_INCH
    assert size < side / 3
