"""What is read of a sign at six feet is large enough, by the rule that the style sheet states."""

from __future__ import annotations

import re
from math import radians, tan

from tallybed.drawing.base import look
from tallybed.pages.paper.bed_sign import LIST_SIZES
from tests.tools import ROOT

SHEET = (ROOT / "layouts" / "paper.css").read_text(encoding="utf-8")
SNELLEN = 5 / 60
"""Degrees that the letter of normal sight subtends: five minutes of arc (ISO 8596, from memory)."""
CAPITALS = 0.72
"""Height of capitals as a share of the type's size; sans-serifs have 0.70 to 0.73 (from memory)."""


def points_at(feet: float, angle: float) -> float:
    """Return the type size in points whose capitals subtend an angle at a distance."""
    return tan(radians(angle)) * feet * 12 * 72 / CAPITALS


def value(name: str) -> float:
    """Return a size of the sign in points."""
    found = re.search(rf"--{name}:\s*([\d.]+)pt;", SHEET)
    assert found
    return float(found[1])


def test_the_rule_is_twice_the_letter_of_normal_sight() -> None:
    assert value("six-feet") >= points_at(6, 2 * SNELLEN)
    assert value("two-feet") >= points_at(2, 2 * SNELLEN)


def test_every_size_on_a_sign_follows_the_rule() -> None:
    sign = SHEET[SHEET.index("  .sign {\n    --six-feet") : SHEET.index("  /* The tally sheet */")]
    crowded = re.compile(r"  \.sign figcaption\.of-(\d+) \{\n    font-size: (\d+)pt;\n  \}\n")
    steps = [(int(name), int(size)) for name, size in crowded.findall(sign)]
    assert steps == [(size, size) for size in LIST_SIZES[1:]]
    assert LIST_SIZES[0] == value("six-feet")
    assert min(LIST_SIZES) >= value("two-feet"), (
        "a list too long for six feet is read with a hand on the sign"
    )
    sizes = re.findall(r"font-size:\s*([^;]+);", crowded.sub("", sign))
    assert len(sizes) > 6
    for size in sizes:
        if size == "var(--two-feet)":
            continue
        assert size == "var(--six-feet)" or float(size.removesuffix("pt")) >= value("six-feet"), size
    small = re.findall(r"([^{}]+)\{[^}]*font-size: var\(--two-feet\)", sign)
    assert [" ".join(each.split()) for each in small] == [".sign .sums .caveat, .sign .sums .scan p"]


def test_letters_of_the_map_have_the_same_where_it_fills_the_sheet() -> None:
    """Ten inches across are 960 CSS pixels; the size is told for a drawing of ``FLAT_PAGE`` pixels."""
    assert points_at(6, 2 * SNELLEN) - 0.05 <= look.SIGN_TEXT * 960 / look.FLAT_PAGE * 0.75
