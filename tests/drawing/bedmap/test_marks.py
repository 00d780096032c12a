"""Every mark of the map has its row: drawn, in the legend, told, and coloured by the style sheet."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from tallybed.drawing.bedmap import description, marks
from tallybed.drawing.bedmap import legend as legends
from tallybed.drawing.bedmap import map as maps
from tallybed.drawing.bedmap.legend import legend
from tallybed.drawing.bedmap.marks import KINDS, MARKS, Layer, MapMark
from tallybed.drawing.bedmap.view import viewed
from tests.drawing import months
from tests.drawing.bedmaps import bed_map
from tests.drawing.markup import parsed
from tests.tools import ROOT

SHEET = (ROOT / "layouts" / "map.css").read_text(encoding="utf-8")
SILENT = {"path", "run-out", "trellis", "stake"}
"""Rows that add no sentence: the description's first sentence has the marked corner, the rest is lasting."""
UNTOLD = "words in the description, or its name in SILENT"
NAMES = [mark.name for mark in MARKS]
WAITING = replace(months.may(), waiting=months.may().bed.squares[:2], kept_off=months.may().bed.squares[1:3])
EVERY = [months.may(), months.planned(), months.month_of(months.LONG, ()), WAITING]


def lacks(mark: MapMark) -> list[str]:
    """Return what a row fails to say or show, over months that together have every mark."""
    months_with = [month for month in EVERY if mark.shown(viewed(month))]
    drawings = [bed_map(month, ident="m", links={}) for month in months_with]
    swatch = mark.swatch("k")
    wrong = []
    if not months_with:
        wrong.append("shown in no month")
    if mark.kind not in KINDS or not re.search(r"\w", mark.words):
        wrong.append("words in the legend")
    if not list(parsed(swatch)):
        wrong.append("a swatch")
    if mark.name not in SILENT and not all(all(mark.told(viewed(month))) for month in months_with):
        wrong.append(UNTOLD)
    if mark.name not in SILENT and not any(list(mark.told(viewed(month))) for month in months_with):
        wrong.append(UNTOLD)
    for name in mark.classes or ("no class at all",):
        if not re.search(rf"\.{name}\b[^{{}}]*\{{", SHEET):
            wrong.append(f"a rule for {name}")
        if not all(re.search(rf'class="[^"]*\b{name}\b', drawing) for drawing in drawings):
            wrong.append(f"{name} on the map")
    return wrong


def test_names_are_unique() -> None:
    assert len(set(NAMES)) == len(NAMES)
    assert set(NAMES) >= SILENT


@pytest.mark.parametrize("mark", MARKS, ids=NAMES)
def test_every_row_is_drawn_explained_and_coloured(mark: MapMark) -> None:
    assert lacks(mark) == []


@pytest.mark.parametrize(
    ("change", "wanted"),
    [
        ({"words": ""}, "words in the legend"),
        ({"kind": "else"}, "words in the legend"),
        ({"swatch": lambda _ident: "<svg xmlns='http://www.w3.org/2000/svg'/>"}, "a swatch"),
        ({"told": lambda _view: ()}, UNTOLD),
        ({"told": lambda _view: ("",)}, UNTOLD),
        ({"classes": ()}, "a rule for no class at all"),
        ({"classes": ("d-unheard-of",)}, "a rule for d-unheard-of"),
        ({"classes": ("d-needle-eye", "d-canopy")}, "d-needle-eye on the map"),
    ],
)
def test_a_row_that_lacks_something_fails(change: dict[str, object], wanted: str) -> None:
    assert wanted in lacks(replace(MARKS[NAMES.index("plant")], **change))  # type: ignore[arg-type]


@pytest.mark.parametrize("month", EVERY, ids=["recorded", "planned", "empty", "waiting"])
def test_legend_and_description_go_through_the_rows(month) -> None:
    view = viewed(month)
    there = [mark for mark in MARKS if mark.shown(view)]
    assert {each.words for each in legend(month) if each.kind in KINDS} == {mark.words for mark in there}
    told = description.described(view, turned=False)
    for mark in there:
        for sentence in mark.told(view):
            assert sentence in told


def test_a_new_row_alone_reaches_map_legend_and_description(monkeypatch: pytest.MonkeyPatch) -> None:
    """What a newcomer adds: one row, here of the stake once more under another name."""
    cloth = replace(
        MARKS[NAMES.index("stake")],
        name="cloth",
        kind="ground",
        layer=Layer.SIDES,
        words="cloth over the bed",
        told=lambda _view: ("Covered with cloth.",),
    )
    month = months.may()
    before = bed_map(month, ident="m", links={})
    monkeypatch.setattr(marks, "MARKS", (*MARKS, cloth))
    after = bed_map(month, ident="m", links={})
    assert after.count("d-marked-corner") == before.count("d-marked-corner") + 1
    assert "Covered with cloth." in after
    assert "cloth over the bed" in [each.words for each in legend(month)]
    assert maps.shown is legends.shown is description.shown
