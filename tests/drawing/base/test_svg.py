"""The helper's own promises: plain markup, sound sizes, the same bytes."""

from __future__ import annotations

import pytest

from tallybed.drawing.base.svg import circle, group, num, points, rect, runs, sheet, swatch, text, use
from tests.drawing.markup import parsed


@pytest.mark.parametrize(
    ("value", "shown"),
    [
        (0, "0"),
        (-0.001, "0"),
        (1, "1"),
        (2.5, "2.5"),
        (1 / 3, "0.33"),
        (-7.126, "-7.13"),
        (100, "100"),
        (1e6, "1000000"),
    ],
)
def test_numbers_are_written_plainly(value: float, shown: str) -> None:
    assert num(value) == shown


@pytest.mark.parametrize("sizes", [(-1, 2), (1, -2)])
def test_a_size_below_nothing_is_refused(sizes: tuple[float, float]) -> None:
    with pytest.raises(ValueError, match="below nothing"):
        rect(0, 0, *sizes)
    with pytest.raises(ValueError, match="below nothing"):
        sheet("x", *sizes, title="x")


def test_a_radius_below_nothing_is_refused() -> None:
    with pytest.raises(ValueError, match="below nothing"):
        circle(0, 0, -0.5)


def test_the_same_drawing_is_the_same_bytes_however_often() -> None:
    def once() -> str:
        return sheet("x", 10, 10, group(circle(1, 1, 1), use("x-a", 2, 3, 45)), title="A & B", desc="<c>")

    assert len({once() for _time in range(3)}) == 1


def test_texts_are_escaped_and_unprintable_signs_dropped() -> None:
    root = parsed(sheet("x", 10, 10, text(1, 2, "a<b>&\x00\x0b c", 12), title="t"))
    assert root[1].text == "a<b>& c"


def test_parts_of_a_line_are_apart_by_a_space_that_can_be_heard() -> None:
    root = parsed(sheet("x", 10, 10, runs(1, 2, ("Sp", 15, "a"), ("SP1", 12, "b")), title="t"))
    assert "".join(root[1].itertext()) == "Sp SP1"
    assert [(each.text, each.get("font-size")) for each in root[1]] == [("Sp", "15"), (" SP1", "12")]


def test_without_a_style_sheet_shapes_are_lines_and_text_is_filled() -> None:
    root = parsed(sheet("x", 10, 10, text(1, 2, "a", 12), title="t"))
    assert (root.get("fill"), root.get("stroke")) == ("none", "currentColor")
    assert (root[1].get("fill"), root[1].get("stroke")) == ("currentColor", "none")


def test_a_swatch_is_hidden_from_readers_aloud() -> None:
    assert parsed(swatch(10, 10)).get("aria-hidden") == "true"


def test_no_corners_make_no_path() -> None:
    assert points(()) == ""
    assert points(((0, 0), (1, 2))) == "M0 0L1 2Z"
