"""The drawings' style sheet: readable text, a published palette, a rule for every class."""

from __future__ import annotations

import re
from itertools import combinations

import pytest
from coloraide import Color

from tallybed.drawing.base import look
from tallybed.reckoning.calendar.stages import Stage
from tallybed.reckoning.squares.occupancy import Grade
from tests.colours import channels, contrast
from tests.tools import ROOT

LAYOUTS = ROOT / "layouts"
SHEET = (LAYOUTS / "map.css").read_text(encoding="utf-8")
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


def ground(stage: Stage, page: str) -> str:
    """Return the ground of a stage: its tone, or the paper."""
    values, around = PAGES[page], page_colours(page == "dark") if page != "print" else {}
    return colour(values.get(f"--map-{stage}", values["--map-paper"]), around)


def of(name: str, page: str) -> str:
    """Return a colour of the drawings on a page."""
    values, around = PAGES[page], page_colours(page == "dark") if page != "print" else {}
    return shade(values[name], values, around)


@pytest.mark.parametrize("page", PAGES)
def test_any_two_stages_differ_by_tone_or_by_texture(page: str) -> None:
    """1.5 to 1 between tones, or a texture of its own with 3 to 1 against its ground: our own bounds."""
    shown = (Stage.SOWN, Stage.GROWING, Stage.BEARING, Stage.OVER, Stage.LOST)
    texture = of("--map-texture", page)
    for one, other in combinations(shown, 2):
        tones = contrast(ground(one, page), ground(other, page))
        woven = [stage for stage in (one, other) if look.STAGE_TEXTURE.get(stage)]
        apart_by = [contrast(texture, ground(stage, page)) for stage in woven]
        differ = look.STAGE_TEXTURE.get(one) != look.STAGE_TEXTURE.get(other)
        assert tones >= 1.5 or (differ and min(apart_by) >= 3), f"{one}, {other}, {page}: {tones:.2f}"
    assert Stage.BARE not in look.STAGE_TEXTURE
    assert ground(Stage.BARE, page) == of("--map-paper", page), "bare ground is the paper"


@pytest.mark.parametrize("page", PAGES)
def test_text_and_plants_stand_out_on_the_ground_of_every_stage(page: str) -> None:
    """WCAG 2.2: 4.5 to 1 for text (1.4.3), 3 to 1 for what is needed to read a graphic (1.4.11)."""
    for stage in Stage:
        on = ground(stage, page)
        assert contrast(of("--map-ink", page), on) >= 4.5, f"text, {stage}, {page}"
        assert contrast(of("--map-leaf", page), on) >= 3, f"leaves, {stage}, {page}"
        assert contrast(of("--map-ink", page), on) >= 3, f"edges of hollow leaves and seeds, {stage}, {page}"
    leaf, fruit, rim = (of(f"--map-{name}", page) for name in ("leaf", "fruit", "rim"))
    assert max(contrast(leaf, fruit), contrast(leaf, rim)) >= 3, "fruit on its leaves"
    assert contrast(fruit, rim) >= 3, "fruit on any ground, by its rim"


@pytest.mark.parametrize("page", PAGES)
def test_a_plant_that_bears_is_green_and_no_ground_or_leaf_looks_like_autumn(page: str) -> None:
    for name in ("--map-leaf", "--map-growing", "--map-bearing"):
        red, green, blue = channels(of(name, page))
        assert green >= max(red, blue) if page != "print" else red == green == blue, name


@pytest.mark.parametrize("page", ["light", "dark"])
def test_lines_of_charts_stand_out(page: str) -> None:
    """WCAG 2.2, 1.4.11: 3 to 1 for what is needed to read a graphic."""
    for number in range(1, look.CHART_LINES + 1):
        line = of(f"--map-line-{number}", page)
        assert contrast(line, of("--map-paper", page)) >= 3, f"line {number}, {page}"
        assert contrast(line, of("--map-tag", page)) >= 3, f"line {number}, {page}"


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
    lines = [of(f"--map-line-{number}", page) for number in range(1, 7)]
    assert apart(lines, vision) >= 7.5, "lines"
    seen = [Color(ground(stage, page)).filter(vision) for stage in (Stage.GROWING, Stage.BEARING)]
    tones = [each.convert("srgb").clip().to_string(hex=True) for each in seen]
    assert contrast(*tones) >= 1.5, "growing and bearing stay apart in lightness"


@pytest.mark.parametrize("stage", list(Stage))
def test_every_stage_has_its_tone_or_is_as_the_paper(stage: Stage) -> None:
    rule = f".stage-{stage} {{ --stage: var(--map-{stage}); }}"
    assert (rule in SHEET) is (f"--map-{stage}" in LIGHT) is (stage in (Stage.GROWING, Stage.BEARING))


@pytest.mark.parametrize("grade", [Grade.SUPPOSED, Grade.PLANNED])
def test_plants_not_seen_are_hollow(grade: Grade) -> None:
    rule = SHEET[SHEET.index(".d-planted.grade-supposed") :]
    rule = rule[: rule.index("}")]
    assert f".d-planted.grade-{grade.word}" in rule
    assert "--leaf: var(--map-paper)" in rule
    assert "--edge: var(--map-ink)" in rule


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
