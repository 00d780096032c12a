"""The style sheet: contrast, the media it knows, and what it must not fetch; and the templates beside it."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.colours import contrast
from tests.tools import ROOT

LAYOUTS = ROOT / "layouts"
STYLE = (LAYOUTS / "style.css").read_text(encoding="utf-8")


def colours(block: str) -> dict[str, str]:
    """Return the custom properties of a block that are plain colours."""
    return dict(re.findall(r"--([\w-]+): (#[0-9a-f]{6});", block))


LIGHT = colours(STYLE.split("@media (prefers-color-scheme: dark)")[0])
DARK = LIGHT | colours(
    STYLE.split("@media (prefers-color-scheme: dark)")[1].split("@media (prefers-contrast")[0]
)


@pytest.mark.parametrize("scheme", [LIGHT, DARK], ids=["light", "dark"])
@pytest.mark.parametrize("name", ["ink", "soft", "link", "mark"])
def test_text_is_readable(scheme: dict[str, str], name: str) -> None:
    # WCAG 2.2, 1.4.3: 4.5 to 1 for text; body ink is asked for the 7 to 1 of 1.4.6
    assert contrast(scheme[name], scheme["sheet"]) >= (7 if name == "ink" else 4.5)


@pytest.mark.parametrize("scheme", [LIGHT, DARK], ids=["light", "dark"])
def test_focus_can_be_seen(scheme: dict[str, str]) -> None:
    # WCAG 2.2, 1.4.11: 3 to 1
    assert contrast(scheme["focus"], scheme["sheet"]) >= 3


@pytest.mark.parametrize(
    "media",
    [
        "prefers-color-scheme: dark",
        "prefers-contrast: more",
        "prefers-reduced-motion: no-preference",
        "print",
    ],
)
def test_the_style_sheet_knows_its_media(media: str) -> None:
    assert re.search(rf"@media \(?{re.escape(media)}\)? \{{", STYLE)


def test_the_style_sheet_fetches_nothing() -> None:
    assert not re.findall(r"url\(|@import|@font-face|expression\(", STYLE)


def test_every_property_used_is_defined() -> None:
    defined = set(re.findall(r"(--[\w-]+):", STYLE))
    assert set(re.findall(r"var\((--[\w-]+)", STYLE)) <= defined


@pytest.mark.parametrize("path", sorted(LAYOUTS.glob("*.html")), ids=lambda path: path.name)
def test_templates_trust_no_text(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert not re.findall(r"\|\s*safe|autoescape|\son\w+=|style=", text)
    assert set(re.findall("<script[^>]*>", text)) <= {'<script type="application/ld+json">'}
