"""The map of the sun: every square with its figure, nothing resting on its tone alone."""

from __future__ import annotations

import pytest
from lxml import etree

from tallybed.drawing.base import look
from tallybed.drawing.base.lettering import width_of
from tallybed.drawing.sun.sun_map import (
    STEP_WORDS,
    Figures,
    SquareHours,
    figures_of,
    step,
    sun_map,
    sun_swatches,
)
from tallybed.garden.squares import Bed, Square

BED = Bed(name="b", title="The <bed>", columns=3, rows=2, omitted=frozenset({Square("b", 2, 1)}))
HOURS = {
    square: SquareHours(hours=1.96 * place, lost=0.04 * place, name="sweet corn <&>", tag="SC1")
    for place, square in enumerate(BED.squares)
}


def _drawn(*, upright: bool) -> etree._Element:
    text = sun_map(BED, HOURS, ident="m", when="June 2026", kind="recorded", upright=upright)
    return etree.fromstring(text)


def _words(root: etree._Element, square: str) -> list[str]:
    (found,) = root.findall(f".//*[@data-square='{square}']")
    return [node.text or "" for node in found]


def test_every_square_says_its_hours_and_what_it_loses() -> None:
    for upright in (False, True):
        root = _drawn(upright=upright)
        assert len(root.findall(".//*[@data-square]")) == len(BED.squares)
        assert _words(root, "A1") == ["SC1", "0.0"]
        assert _words(root, "C1") == ["SC1", "3.9", "−0.1"]


@pytest.mark.parametrize("upright", [False, True])
@pytest.mark.parametrize(("columns", "rows"), [(12, 12), (30, 2), (30, 30), (120, 3), (60, 60)])
def test_hours_stay_within_their_squares(columns: int, rows: int, upright: bool) -> None:
    """In smaller squares stand full hours, in the smallest none; never figures that lie over each other."""
    bed = Bed(name="b", title="Broad", columns=columns, rows=rows)
    hours = {square: SquareHours(hours=13.96, lost=2, name="") for square in bed.squares}
    drawn = sun_map(bed, hours, ident="m", when="June 2026", kind="recorded", upright=upright)
    figures = etree.fromstring(drawn).findall(".//*[@class='d-letters']")
    shown = figures_of(bed, hours, upright=upright)
    side = 12 * look.PER_INCH
    assert {one.text for one in figures} == ({shown.of(13.96)} if shown else set())
    for one in figures:
        assert width_of(one.text or "", float(one.get("font-size", "")), bold=True) <= side


def test_full_hours_lie_in_the_same_step_of_light() -> None:
    hours = [tenth / 20 for tenth in range(320)]
    assert [step(each) for each in hours] == [step(float(Figures.FULL.of(each))) for each in hours]


def test_its_description_tells_the_same_in_words() -> None:
    told = _drawn(upright=False).findtext("{*}desc") or ""
    assert "A1, sweet corn <&>: 0 hours." in told
    assert "B2, sweet corn <&>: 7.8 hours, 0.2 hours lost to neighbours." in told


def test_steps_of_light_are_those_of_the_figures_that_are_shown() -> None:
    assert [step(hours) for hours in (0, 1.94, 1.96, 4.0, 7.94, 7.96, 15)] == [0, 0, 1, 2, 3, 4, 4]
    assert [words for _swatch, words in sun_swatches()] == list(reversed(STEP_WORDS))


def test_the_same_bed_gives_the_same_bytes() -> None:
    assert etree.tostring(_drawn(upright=True)) == etree.tostring(_drawn(upright=True))
