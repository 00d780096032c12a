"""The drawings' style sheet: readable text, a published palette, a rule for every class."""

from __future__ import annotations

import re
from itertools import combinations

import pytest
from coloraide import Color

from tallybed.drawing.base import look
from tallybed.reckoning.calendar.month import Stage
from tallybed.reckoning.squares.occupancy import Grade
from tests.colours import blended, contrast
from tests.tools import ROOT

LAYOUTS = ROOT / "layouts"
SHEET = (LAYOUTS / "map.css").read_text(encoding="utf-8")
OKABE_ITO = {
    "#e69f00",
    "#56b4e9",
    "#009e73",
    "#f0e442",
    "#0072b2",
    "#d55e00",
    "#cc79a7",
    "#000000",
}
"""Okabe & Ito, Color Universal Design, revised 2008: orange, sky blue, bluish green, yellow, blue,
vermillion, reddish purple, black; there in RGB as 230,159,0; 86,180,233; 0,158,115; 240,228,66;
0,114,178; 213,94,0; 204,121,167; 0,0,0 (from memory)."""
TEXT = ("--map-ink", "--map-soft")
GROUNDS = ("--map-paper", "--map-tag")


def block(start: str) -> dict[str, str]:
    """Return the custom properties of the first ``:root`` after ``start``."""
    after = SHEET[SHEET.index(start) :]
    return dict(
        re.findall(
            r"(--[\w-]+):\s*([^;]+);", after[after.index("{", after.index(":root")) : after.index("}")]
        )
    )


LIGHT = block(":root")
DARK = LIGHT | block("@media (prefers-color-scheme: dark)")
PRINT = LIGHT | block("@media print {\n  :root")
PAGES = {"light": LIGHT, "dark": DARK, "print": PRINT}


def page_colours(dark: bool) -> dict[str, str]:
    """Return the page's own paper and ink from the main style sheet."""
    text = (LAYOUTS / "style.css").read_text(encoding="utf-8")
    if dark:
        text = text[text.index("@media (prefers-color-scheme: dark)") :]
    return dict(re.findall(r"(--(?:sheet|sheet-lit|ink|soft)):\s*(#[0-9a-f]{6});", text[: text.index("}")]))


def colour(value: str, own: dict[str, str]) -> str:
    found = re.fullmatch(r"var\((--[\w-]+), (#[0-9a-f]+)\)", value)
    value = own.get(found[1], found[2]) if found else value
    return "#" + "".join(sign * 2 for sign in value[1:]) if len(value) == 4 else value


@pytest.mark.parametrize("page", PAGES)
@pytest.mark.parametrize("own", [False, True], ids=["alone", "in the page"])
def test_text_stands_out_from_its_ground(page: str, own: bool) -> None:
    """WCAG 2.2, success criterion 1.4.3: at least 4.5 to 1."""
    values = PAGES[page]
    around = page_colours(page == "dark") if own and page != "print" else {}
    for text in TEXT:
        for ground in GROUNDS:
            ratio = contrast(colour(values[text], around), colour(values[ground], around))
            assert ratio >= 4.5, f"{text} on {ground}, {page}: {ratio:.2f}"


@pytest.mark.parametrize("page", ["light", "dark"])
def test_ink_stands_out_from_coloured_ground(page: str) -> None:
    """WCAG 2.2, 1.4.11 asks 3 to 1 of parts of graphics; outlines and marks are ink over a stage's wash."""
    values = PAGES[page]
    strength = float(values["--map-ground-strength"])
    ink, paper = colour(values["--map-ink"], {}), colour(values["--map-paper"], {})
    for stage in ("sown", "growing", "bearing", "over", "lost"):
        assert contrast(ink, blended(values[f"--map-{stage}"], paper, strength)) >= 4.5


def test_stage_colours_are_of_the_published_palette() -> None:
    stages = {LIGHT[f"--map-{stage}"] for stage in ("sown", "growing", "bearing", "over")}
    assert len(stages) == 4
    assert stages <= OKABE_ITO
    lines = {LIGHT[f"--map-line-{number}"] for number in range(1, 7)}
    assert len(lines) == 6
    assert lines <= OKABE_ITO


@pytest.mark.parametrize("page", ["light", "dark"])
def test_lines_of_charts_stand_out_or_have_an_edge_that_does(page: str) -> None:
    """WCAG 2.2, 1.4.11: 3 to 1 for what is needed to read a graphic: a line, or the edge along its sides."""
    values, around = PAGES[page], page_colours(page == "dark")
    paper = colour(values["--map-paper"], around)
    edge = values["--map-line-edge"]
    edged = edge != "transparent" and contrast(shade(edge, values, around), paper) >= 3
    for number in range(1, look.CHART_LINES + 1):
        line = shade(values[f"--map-line-{number}"], values, around)
        assert edged or contrast(line, paper) >= 3, f"line {number}, {page}: {contrast(line, paper):.2f}"


VISIONS = ("protan", "deutan", "tritan")
"""Coloraide's filters for the whole loss of one kind of cone, as they come."""


def apart(colours: list[str], vision: str) -> float:
    """Return the least distance between any two colours (CIEDE2000) as seen with one kind of cone missing."""
    seen = [Color(each).filter(vision) for each in colours]
    return min(one.delta_e(other, method="2000") for one, other in combinations(seen, 2))


def shade(value: str, values: dict[str, str], around: dict[str, str]) -> str:
    """Return the colour of a property that may take that of another one."""
    found = re.fullmatch(r"var\((--map-[\w-]+)\)", value)
    return colour(values[found[1]] if found else value, around)


@pytest.mark.parametrize("vision", VISIONS)
@pytest.mark.parametrize("page", ["light", "dark"])
def test_colours_stay_apart_when_a_kind_of_cone_is_missing(page: str, vision: str) -> None:
    """About 2.3 is the least that people notice side by side (Mahy et al. 1994, from memory)."""
    values, around = PAGES[page], page_colours(page == "dark")
    stages = [values[f"--map-{stage}"] for stage in ("sown", "growing", "bearing", "over", "lost")]
    paper = colour(values["--map-paper"], around)
    washes = [blended(each, paper, float(values["--map-ground-strength"])) for each in stages]
    lines = [values[f"--map-line-{number}"] for number in range(1, 7)]
    assert apart(stages, vision) >= 10, "marks and leaves"
    assert apart(washes, vision) >= 3, "grounds"
    assert apart(lines, vision) >= 7.5, "lines"


@pytest.mark.parametrize("stage", list(Stage))
def test_every_stage_has_its_colour(stage: Stage) -> None:
    assert f".stage-{stage} {{ --stage: var(--map-{stage}); }}" in SHEET
    assert f"--map-{stage}" in LIGHT


@pytest.mark.parametrize("grade", [Grade.SUPPOSED, Grade.PLANNED])
def test_plants_not_seen_are_hollow(grade: Grade) -> None:
    rule = SHEET[SHEET.index(".d-planted.grade-supposed") :]
    rule = rule[: rule.index("}")]
    assert f".d-planted.grade-{grade.word}" in rule
    assert "--wash: transparent" in rule


def test_every_property_used_is_defined() -> None:
    used = set(re.findall(r"var\((--map-[\w-]+)", SHEET))
    assert used <= set(LIGHT)


def test_every_class_with_a_rule_is_drawn_somewhere() -> None:
    source = "".join(
        path.read_text(encoding="utf-8")
        for path in sorted((ROOT / "src" / "tallybed" / "drawing").rglob("*.py"))
    )
    for name in sorted(set(re.findall(r"\.(d-[\w-]+)", SHEET)) - {"d-status-planned"}):
        assert name in source, f"a rule for {name}, which nothing draws"
