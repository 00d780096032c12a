"""People who cannot see, point or tell colours apart: the rules of axe-core on one page of every kind."""

from __future__ import annotations

from pathlib import Path
from typing import Any, Literal

from playwright.sync_api import Page

from tests import tools

RULES = ("wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice")
LOOKS: tuple[tuple[int, Literal["light", "dark"]], ...] = ((360, "dark"), (1280, "light"))
"""Widths and schemes, in turns, since the rules ask what a page holds. What it holds twice, once for each
width, is held by ``test_once``."""
CONTRASTED = frozenset({"home", "bed-month", "crop"})
"""Kinds of page whose contrast is looked at here as well, in the dark. That of every text in both schemes is
held by ``test_contrast``; to look takes as long as all other rules together."""
SHAPES = """document.querySelectorAll(
    'svg :is(path, rect, circle, ellipse, line, polyline, polygon, use):not(a *)'
).forEach(one => one.remove())"""
"""Takes away what no rule asks about, but for shapes that can be clicked: to go through them takes long."""
RUN = """([tags, contrast]) => axe.run(document, {
    runOnly: tags, resultTypes: ['violations'], preload: false, elementRef: false,
    rules: {'color-contrast': {enabled: contrast}},
}).then(found => found.violations)"""


def violations(tab: Page, *, contrast: bool = True) -> list[str]:
    """Return what axe-core finds against the rules, each with the first element it is about."""
    found: list[dict[str, Any]] = tab.evaluate(RUN, [list(RULES), contrast])
    return [f"{each['id']}: {each['nodes'][0]['html'][:120]} ({len(each['nodes'])} in all)" for each in found]


def opened(tab: Page, path: Path) -> None:
    """Open a page and bring the rules into it."""
    tab.goto(path.as_uri())
    tab.evaluate(tools.packaged("axe-core", "axe.min.js").read_text(encoding="utf-8"))


def test_no_page_breaks_a_rule(tab: Page, samples: dict[str, Path]) -> None:
    """All rules, on a phone in the dark or at a desk in the light."""
    wrong = []
    for place, (kind, path) in enumerate(samples.items()):
        opened(tab, path)
        tab.evaluate(SHAPES)
        for width, scheme in LOOKS if kind in CONTRASTED else [LOOKS[place % 2]]:
            tab.set_viewport_size({"width": width, "height": 900})
            tab.emulate_media(color_scheme=scheme)
            contrast = scheme == "dark" and kind in CONTRASTED
            wrong += [
                f"{kind}, {width} wide, {scheme}: {each}" for each in violations(tab, contrast=contrast)
            ]
    assert set(samples) >= CONTRASTED
    assert wrong == []


def test_the_rules_see_what_is_wrong(tab: Page, tmp_path: Path) -> None:
    page = tmp_path / "wrong.html"
    page.write_text(
        '<!DOCTYPE html><title>x</title><p style="color:#999;background:#fff">pale</p>'
        '<a href="x"></a><svg role="img"></svg><main></main><main></main>',
        encoding="utf-8",
    )
    opened(tab, page)
    told = {each.split(":")[0] for each in violations(tab)}
    assert {"color-contrast", "html-has-lang", "link-name", "svg-img-alt"} <= told
    assert "landmark-no-duplicate-main" in told, "and the rules of best practice"
