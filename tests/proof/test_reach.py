"""Narrow pages, large text, the keyboard: nothing runs off, nothing is covered, everything is reached."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page

from tests.pages.gardens import parsed

NARROWEST = 320
"""Pixels: a page of 1280 at 400 percent (WCAG 2.2, 1.4.10 Reflow)."""

STOPS = 14
"""How often Tab is pressed on a page: past the ways about, of which there are eight, and into its text."""

PRINTED = frozenset({"bed-sign", "plant-tags", "poster", "tally-sheet"})
"""Sheets to print show on the screen about as they print: their smallest text is 9.3 px, 7 points."""

RUNS_OFF = """() => {
    const page = document.documentElement;
    if (page.scrollWidth <= page.clientWidth) return '';
    const wide = [...document.querySelectorAll('body *')].find(
        each => !each.closest('svg, .frame') && each.getBoundingClientRect().right > page.clientWidth + 1);
    return `${page.scrollWidth} wide; ${wide ? wide.outerHTML.slice(0, 120) : 'nothing found'}`;
}"""

COVERED = """() => {
    const lines = [];
    const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    while (texts.nextNode()) {
        const node = texts.currentNode;
        const apart = 'svg, .skip, .frame tbody th, .frame tfoot th';
        if (!node.data.trim() || node.parentElement.closest(apart)) continue;
        if (!node.parentElement.checkVisibility()) continue;
        const range = document.createRange();
        range.selectNodeContents(node);
        for (const box of range.getClientRects()) {
            if (box.width > 1) lines.push([box.left, box.top + box.height * 0.25,
                                           box.right, box.bottom - box.height * 0.25, node.data.trim()]);
        }
    }
    lines.sort((one, other) => one[1] - other[1]);
    const found = [];
    lines.forEach((one, at) => {
        for (let next = at + 1; next < lines.length && lines[next][1] < one[3]; next += 1) {
            const other = lines[next];
            const shared = Math.min(one[2], other[2]) - Math.max(one[0], other[0]);
            if (shared > 2) found.push(`${one[4]} | ${other[4]}`);
        }
    });
    return found;
}"""

CUT_OFF = """() => [...document.querySelectorAll('body *')].filter(each => {
    const style = getComputedStyle(each);
    return !each.closest('svg') && style.overflowX !== 'visible' && style.overflowX !== 'auto'
        && (each.scrollWidth > each.clientWidth + 1 || each.scrollHeight > each.clientHeight + 1);
}).map(each => each.outerHTML.slice(0, 120))"""

SMALLEST_TEXT = """() => {
    const sizes = [...document.querySelectorAll('main svg text')].filter(
        each => each.getClientRects().length && each.textContent.trim()
    ).flatMap(each => [each, ...each.querySelectorAll('tspan')]).map(each => {
        const turned = each.getScreenCTM();
        return [parseFloat(getComputedStyle(each).fontSize) * Math.hypot(turned.a, turned.b),
                each.textContent];
    });
    return sizes.sort((one, other) => one[0] - other[0])[0] ?? null;
}"""

FOCUSED = """() => {
    const here = document.activeElement;
    if (here === document.body) return null;
    const style = getComputedStyle(here), box = here.getBoundingClientRect();
    const look = () => [...here.querySelectorAll('*')].map(each => {
        const own = getComputedStyle(each);
        return [own.fill, own.stroke, own.strokeWidth].join();
    }).join();
    let ring = style.outlineStyle === 'none' ? 0 : parseFloat(style.outlineWidth);
    if (!ring && here.closest('svg')) {
        const focused = look();
        here.blur();
        ring = look() === focused ? 0 : 2;
        here.focus();
    }
    return {
        part: here.closest('main') ? 'main' : here.closest('footer') ? 'footer' : here.closest('nav.site')
            ? 'site' : here.closest('nav') ? 'nav' : here.closest('header') ? 'masthead' : here.className,
        words: here.getAttribute('aria-label') ?? here.textContent.trim(),
        place: [...document.querySelectorAll('a[href], summary, [tabindex]')].indexOf(here),
        shown: box.right > 0 && box.left < innerWidth && box.bottom > 0 && box.top < innerHeight,
        ring: ring,
    };
}"""
"""What has the focus, and how wide its ring is; a link of a drawing may change its shapes instead."""


@pytest.fixture
def scripted() -> bool:
    """No page needs script for what is asked here."""
    return False


def test_no_page_runs_off_its_side_and_the_smallest_text_of_its_drawings_can_be_read(
    tab: Page, samples: dict[str, Path]
) -> None:
    looked, wrong = 0, []
    for kind, path in samples.items():
        tab.goto(path.as_uri())
        least = 9.3 if kind in PRINTED else 11
        for width in (NARROWEST, 360, 768, 944, 1060, 1280):
            tab.set_viewport_size({"width": width, "height": 900})
            if told := tab.evaluate(RUNS_OFF):
                wrong.append(f"{kind} at {width}: {told}")
            # A poster at 1060 has its maps beside its figures, and the least room for them.
            smallest = tab.evaluate(SMALLEST_TEXT) if width in (360, 1280) or kind == "poster" else None
            looked += smallest is not None
            if smallest and smallest[0] < least:
                wrong.append(f"{kind} at {width}: {smallest[1]!r} is {smallest[0]:.1f} px high")
    assert looked >= 16, "maps, small maps and charts have text"
    assert wrong == []


def test_text_twice_as_large_runs_off_nowhere_and_covers_nothing(tab: Page, samples: dict[str, Path]) -> None:
    """WCAG 2.2, 1.4.4: text of 200 percent, here 32 px for the usual 16, without loss of what it says."""
    tab.set_viewport_size({"width": 640, "height": 900})
    wrong = {}
    for kind, path in samples.items():
        tab.goto(path.as_uri())
        assert tab.evaluate(COVERED) == [], f"{kind}: lines of text cover each other at the usual size"
        tab.evaluate("document.documentElement.style.fontSize = '32px'")
        told = [*filter(None, [tab.evaluate(RUNS_OFF)]), *tab.evaluate(COVERED), *tab.evaluate(CUT_OFF)]
        if told:
            wrong[kind] = told[:5]
    assert wrong == {}


def tabbed(tab: Page, most: int) -> list[dict[str, Any]]:
    """Press Tab up to ``most`` times; return what had the focus, in order."""
    found: list[dict[str, Any]] = []
    for _press in range(most):
        tab.keyboard.press("Tab")
        here = tab.evaluate(FOCUSED)
        if here is None or (found and here["place"] == found[0]["place"]):
            break
        found.append(here)
    return found


def test_the_keyboard_goes_through_a_page_in_order_and_its_place_is_seen(
    tab: Page, samples: dict[str, Path]
) -> None:
    """First comes the link that leads past the ways about."""
    for kind, path in samples.items():
        tab.goto(path.as_uri())
        stops = tabbed(tab, STOPS)
        parts = [stop["part"] for stop in stops]
        assert parts[:2] == ["skip", "masthead"], kind
        assert parts[2] == "site", kind
        assert "main" not in parts or parts.index("main") > parts.index("site"), kind
        places = [stop["place"] for stop in stops]
        assert places == sorted(places), f"{kind}: the keyboard jumps about"
        for stop in stops:
            assert stop["words"], f"{kind}: {stop}"
            assert stop["shown"], f"{kind}: the focus is out of sight on {stop['words']!r}"
            assert stop["ring"] >= 2, f"{kind}: the focus cannot be seen on {stop['words']!r}"
        tab.locator(".skip").focus()
        tab.keyboard.press("Enter")
        (after,) = tabbed(tab, 1)
        assert after["part"] in ("main", "footer"), f"{kind}: {after}"


SQUEEZED = """() => [
    ['.entries .what', 0.9], ['.entries .gist', 0.9], ['.numbers span', 0.7], ['.due .when + span', 0.9],
].flatMap(([names, share]) => [...document.querySelectorAll(names)].filter(each => {
    const row = each.closest('li').getBoundingClientRect().width;
    const own = Math.max(...[each, ...each.children].map(one => one.getBoundingClientRect().width));
    return each.checkVisibility() && each.textContent.length > 80 && own < share * row;
}).map(each => `${names}: ${each.textContent.trim()}`))"""


def test_a_phone_at_twice_its_size_leaves_lists_the_width_of_the_page(
    tab: Page, samples: dict[str, Path]
) -> None:
    """360 pixels at 200 percent: a day beside its words would leave them a letter or two a line."""
    tab.set_viewport_size({"width": 180, "height": 400})
    looked, wrong = 0, []
    for kind in ("home", "log", "season", "bulletins"):
        tab.goto(samples[kind].as_uri())
        looked += tab.locator(".entries .what, .numbers span").count()
        wrong += tab.evaluate(SQUEEZED)
        signs = tab.locator(".map-key .sign svg").evaluate_all(
            "all => all.filter(one => one.checkVisibility()).map(one => one.getBoundingClientRect().width)"
        )
        if any(width < 14 for width in signs):
            wrong.append(f"{kind}: a sign of the key is {min(signs):.0f} px wide")
    assert looked > 30
    assert wrong == []


@pytest.mark.parametrize("scripted", [True])
def test_a_photograph_has_its_room_before_it_is_there(tab: Page, demo: Path) -> None:
    """Browsers wait with pictures further down only where pages may run script; here none ever comes."""
    tab.set_viewport_size({"width": 360, "height": 400})
    tab.route("**/photos/*", lambda _asked: None)
    page = demo / "2026/log/09-12-reading-lamps/index.html"
    tab.goto(page.as_uri(), wait_until="domcontentloaded")
    (late,) = tab.locator(".photograph img[loading=lazy]").all()
    assert not late.evaluate("one => one.complete"), "it is not there"
    assert late.bounding_box(), "it has room"
    width, height = late.evaluate("one => [one.offsetWidth, one.offsetHeight]")
    assert height == pytest.approx(width * 427 / 640, abs=1)
    assert width > 300


def test_what_belongs_together_is_not_torn(tab: Page, samples: dict[str, Path]) -> None:
    """Days stay on one line beside the titles of their visits; crops of a key begin below its signs."""
    torn, mixed = 0, []
    for width in (360, 768, 1280):
        tab.set_viewport_size({"width": width, "height": 900})
        tab.goto(samples["season"].as_uri())
        days = tab.locator(".chapters ul time")
        assert days.count() > 20
        torn += sum(days.evaluate_all("all => all.map(one => one.getClientRects().length > 1)"))
        for kind in ("season", "home", "bed"):
            tab.goto(samples[kind].as_uri())
            key = tab.locator(".map-key:has(.letter)").first
            last, first = key.locator(".sign").last, key.locator(".letter").first
            below, above = first.bounding_box(), last.bounding_box()
            assert below
            assert above
            if below["y"] < above["y"] + above["height"] - 1:
                mixed.append(f"{kind} at {width}")
    assert torn == 0
    assert mixed == []


def test_a_table_that_goes_on_beyond_its_frame_shows_it(tab: Page, samples: dict[str, Path]) -> None:
    frame = "one => getComputedStyle(one).backgroundAttachment + getComputedStyle(one).backgroundImage"
    tab.set_viewport_size({"width": 360, "height": 900})
    tab.goto(samples["plantings"].as_uri())
    shades = tab.locator(".frame").first.evaluate(frame)
    assert "local, scroll" in shades
    assert shades.count("linear-gradient") == 2
    tab.emulate_media(media="print")
    assert "gradient" not in tab.locator(".frame").first.evaluate(frame)


HIDES = """() => [...document.querySelectorAll('main .frame')].filter(
    one => one.checkVisibility() && one.scrollWidth > one.clientWidth + 1
).map(one => one.querySelector('table').id)"""


def test_a_phone_shows_every_table_whole_that_is_not_folded_away(tab: Page, samples: dict[str, Path]) -> None:
    """Fails where a phone does not show where something went, or from when on it may be picked."""
    tab.set_viewport_size({"width": 360, "height": 900})
    hidden = {}
    for kind in sorted(samples):
        tab.goto(samples[kind].as_uri())
        if found := tab.evaluate(HIDES):
            hidden[kind] = found
    assert hidden == {}


def test_no_drawing_cuts_its_own_title(samples: dict[str, Path]) -> None:
    found = set()
    for path in samples.values():
        page = parsed(path.read_text(encoding="utf-8"), "svg")
        found |= {title.get_text() for title in page.select("svg.chart text.d-title")}
    assert len(found) >= 8
    assert [title for title in sorted(found) if title.endswith("…")] == []
