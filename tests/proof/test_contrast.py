"""Every text of every kind of page stands out from what lies behind it, as the browser paints both."""

from __future__ import annotations

from pathlib import Path
from typing import Literal

import pytest
from playwright.sync_api import Page

from tests.colours import contrast

LEAST, LEAST_LARGE = 4.5, 3.0
"""WCAG 2.2, 1.4.3. Large is 24 px, or 18.66 px in bold (18 and 14 points)."""

Look = tuple[Literal["light", "dark"], Literal["no-preference", "more"]]
USUAL: tuple[Look, ...] = (("light", "no-preference"), ("dark", "no-preference"))
MORE: tuple[Look, ...] = (("light", "more"), ("dark", "more"))
"""Schemes as most people see them, and as those do who ask for more contrast."""

Pair = tuple[str, str, bool, str]
"""Colour of the text, colour behind it, whether the text is large, the first such words."""

PAIRS = """() => {
    const parts = colour => {
        const found = colour.match(/[\\d.]+/g).map(Number);
        return colour.startsWith('rgb') ? [...found.slice(0, 3), found[3] ?? 1]
            : (() => { throw new Error(`a colour of another kind: ${colour}`); })();
    };
    const over = (top, under) => {
        const share = top[3] + under[3] * (1 - top[3]);
        return share ? [0, 1, 2].map(at => (top[at] * top[3] + under[at] * under[3] * (1 - top[3])) / share)
            .concat(share) : [0, 0, 0, 0];
    };
    const hex = colour => '#' + colour.slice(0, 3).map(
        each => Math.round(each).toString(16).padStart(2, '0')).join('');
    const painted = each => {
        const style = getComputedStyle(each);
        const box = !(each instanceof SVGElement) || each instanceof SVGSVGElement;
        if (box) return parts(style.backgroundColor);
        if (each instanceof SVGTextContentElement || !style.fill.startsWith('rgb')) return [0, 0, 0, 0];
        const fill = parts(style.fill);
        return [...fill.slice(0, 3), fill[3] * parseFloat(style.fillOpacity) * parseFloat(style.opacity)];
    };
    const colours = new Map();
    const paint = each => {
        if (!colours.has(each)) colours.set(each, painted(each));
        return colours.get(each);
    };
    const layered = layers => {
        let seen = [0, 0, 0, 0];
        for (const each of layers) {
            if (seen[3] >= 0.999) break;
            seen = over(seen, paint(each));
        }
        return seen;
    };
    function* above(each) {
        for (; each; each = each.parentElement) yield each;
    }
    const found = new Map();
    const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    while (texts.nextNode()) {
        const words = texts.currentNode.data.trim(), own = texts.currentNode.parentElement;
        if (!words || !own.checkVisibility() || own.closest('title, desc, script, style')) continue;
        const style = getComputedStyle(own), drawn = own instanceof SVGElement;
        let behind;
        if (!drawn) {
            behind = layered(above(own));
        } else if (style.stroke !== 'none' && style.paintOrder.startsWith('stroke')) {
            behind = parts(style.stroke);
        } else {
            const box = own.getBoundingClientRect();
            const layers = document.elementsFromPoint(box.left + box.width / 2, box.top + box.height / 2);
            behind = layered(layers);
        }
        if (behind[3] < 0.999) throw new Error(`nothing lies behind ${words}`);
        const scale = drawn ? Math.hypot(own.getScreenCTM().a, own.getScreenCTM().b) : 1;
        const size = parseFloat(style.fontSize) * scale;
        const large = size >= 24 || (size >= 18.66 && parseInt(style.fontWeight) >= 700);
        const colour = parts(drawn ? style.fill : style.color);
        const pair = [hex(over(colour, behind)), hex(behind), large];
        if (!found.has(pair.join())) found.set(pair.join(), [...pair, words.slice(0, 40)]);
    }
    return [...found.values()];
}"""


def pairs(tab: Page) -> list[Pair]:
    """Return every pair of colours of text and ground on the open page; all of it must be in view at once."""
    high = int(tab.evaluate("document.documentElement.scrollHeight"))
    tab.set_viewport_size({"width": 1280, "height": min(high, 16_000)})
    found: list[Pair] = tab.evaluate(PAIRS)
    return found


def faint(found: list[Pair]) -> list[str]:
    """Return the pairs that stand out too little, in words."""
    return [
        f"{text} on {behind} is {contrast(text, behind):.2f}: {words}"
        for text, behind, large, words in found
        if contrast(text, behind) < (LEAST_LARGE if large else LEAST)
    ]


def test_every_text_stands_out(tab: Page, samples: dict[str, Path]) -> None:
    """In both schemes, and with more contrast in one of them, in turns."""
    wrong, met = set(), set()
    for place, (kind, path) in enumerate(samples.items()):
        tab.goto(path.as_uri())
        for scheme, more in (*USUAL, MORE[place % 2]):
            tab.emulate_media(color_scheme=scheme, contrast=more)
            found = pairs(tab)
            met |= {(text, behind) for text, behind, _large, _words in found}
            wrong |= {f"{kind}, {scheme}, {more}: {told}" for told in faint(found)}
    assert len(met) >= 10, "text in ink, soft ink and links, on sheets, tags and grounds, light and dark"
    assert sorted(wrong) == []


@pytest.mark.parametrize(
    ("body", "expected"),
    [
        ('<p style="color:#777;background:#fff">x</p>', ("#777777", "#ffffff", False, "x")),
        (
            '<div style="background:#fff"><b style="color:rgba(0,0,0,.5);font-size:20px">x</b></div>',
            ("#808080", "#ffffff", True, "x"),
        ),
        (
            '<svg style="background:#fff" width="90" height="90"><rect width="90" height="90" fill="#f00" '
            'fill-opacity=".5"/><text x="20" y="40" fill="#000">xxx</text></svg>',
            ("#000000", "#ff8080", False, "xxx"),
        ),
    ],
)
def test_colours_are_read_as_they_are_painted(tab: Page, body: str, expected: Pair) -> None:
    tab.set_content(f"<!DOCTYPE html><html style='background:#eee'><body>{body}</body></html>")
    (found,) = pairs(tab)
    assert tuple(found) == expected
