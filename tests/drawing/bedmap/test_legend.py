"""The legend lists what the map shows, and nothing else."""

from __future__ import annotations

from collections import Counter

from tallybed.drawing.bedmap.legend import LegendItem, grade_items, legend, stage_items
from tallybed.drawing.bedmap.view import grades_of, stages_of, viewed
from tests.drawing import months
from tests.drawing.bedmaps import bed_map
from tests.drawing.markup import of_class, parsed


def of_kind(kind: str, items: tuple[LegendItem, ...]) -> list[LegendItem]:
    return [each for each in items if each.kind == kind]


def test_every_planting_on_the_map_is_listed_once() -> None:
    month = months.may()
    crops = of_kind("crop", legend(month))
    shown = {
        each.get("data-planting")
        for each in of_class(parsed(bed_map(month, ident="m", links={})), "d-planting")
    }
    assert len(crops) == len(shown)
    assert [each.sign for each in crops] == sorted(each.sign for each in crops)
    carrot = next(each for each in crops if each.sign == "Ca")
    assert (carrot.words, carrot.detail, carrot.crop) == ("carrot (CA1)", "C2:D2: growing, seen", "carrot")


def test_what_has_left_and_was_followed_is_not_listed() -> None:
    month = months.may()
    assert "SP1" in {each.planting for each in month.holders}, "the test itself has nothing that left"
    assert not [each for each in legend(month) if "SP1" in each.words]


def test_the_short_key_has_the_stages_and_grades_shown_and_the_legend_does_not_repeat_them() -> None:
    view = viewed(months.may())
    stages = [each.words for each in stage_items(stages_of(view), "key")]
    assert stages == ["sown", "growing", "bearing", "over", "lost"]
    assert [each.words for each in grade_items(grades_of(view))] == [
        "seen or implied by other records",
        "supposed from the plan",
    ]
    assert {each.kind for each in legend(months.may())} == {"crop", "ground", "mark"}


def test_ground_is_listed_where_the_bed_has_it() -> None:
    assert {each.words for each in of_kind("ground", legend(months.planned()))} == {"bare", "trellis"}
    assert {"path", "trellis", "bare"} <= {each.words for each in of_kind("ground", legend(months.may()))}


def test_an_empty_month_has_no_crops() -> None:
    kinds = Counter(each.kind for each in legend(months.month_of(months.LONG, ())))
    assert set(kinds) == {"ground", "mark"}


def test_swatches_are_sound_and_their_ids_unique_in_the_page() -> None:
    items = legend(months.may())
    ids = []
    for item in items:
        root = parsed(item.swatch)
        assert root.get("aria-hidden") == "true"
        ids += [each.get("id") for each in root.iter() if each.get("id")]
        assert len([float(each) for each in root.get("viewBox", "").split()]) == 4
    assert len(set(ids)) == len(ids)
    assert all(str(each).startswith("legend-") for each in ids)


def test_the_legend_does_not_hang_on_the_order_of_records() -> None:
    assert legend(months.turned_about(months.may())) == legend(months.may())
