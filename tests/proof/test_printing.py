"""Any page put on paper: its words are there, the ways about are not, and nothing runs off the sheet."""

from __future__ import annotations

from pathlib import Path

from playwright.sync_api import Page

from tests.proof.sheets import sheets_of

A4 = (794, 1123)
MARGINS = (2 * 34, 2 * 60)
"""Pixels, 96 to the inch: A4 is 210 by 297 mm; the style sheet's margins are 9 mm beside, 16 mm above."""
BARE = frozenset({"bed-sign", "plant-tags", "poster", "tally-sheet", "volunteers"})
"""Sheets to print: nothing but themselves, with margins of their own; test_paper holds them to their size."""
WORDLESS = "svg :is(path, rect, circle, ellipse, line, polyline, polygon, use, image) { display: none }"
"""The shapes of drawings: they say nothing, and to read a sheet without them takes a fraction of the time."""
RUNS_OFF = """() => [...document.querySelectorAll('body *')].filter(
    each => !each.closest('svg') && each.getClientRects().length
        && each.getBoundingClientRect().right > document.documentElement.clientWidth + 1
).map(each => each.outerHTML.slice(0, 100))"""


def words(text: str) -> str:
    """Return text without its spaces, since a line may break anywhere on paper."""
    return "".join(text.split())


SHEETS = {
    "bed-month": 2,
    "bed": 3,
    "season": 6,
    "log": 3,
    "planting": 3,
    "plantings": 6,
    "rows": 3,
    "seeds": 4,
    "taking-care": 4,
    "crops": 2,
    "seasons": 3,
    "your-place": 2,
}
"""Sheets of Letter that the largest page of a kind takes at the most: as many as what it says fills."""


def test_every_kind_of_page_prints(tab: Page, samples: dict[str, Path]) -> None:
    for kind, path in samples.items():
        tab.goto(path.as_uri())
        heading = tab.locator("h1").inner_text()
        tab.add_style_tag(content=WORDLESS)
        said = [words(sheet.text) for sheet in sheets_of(tab.pdf(prefer_css_page_size=True))]
        assert 1 <= len(said) <= SHEETS.get(kind, 10), f"{kind} takes {len(said)} sheets"
        if kind not in BARE:
            assert words(heading) in said[0], f"{kind}: {said[0][:80]}"
        assert all(said), f"{kind}: sheet {said.index('') + 1} is empty" if "" in said else kind
        assert words("Skip to the content") not in "".join(said), f"{kind}: the skip link is printed"


LONELY = """() => [...document.querySelectorAll('section > h2')].filter(each => each.checkVisibility()
    && ![...each.parentElement.querySelectorAll(':scope > :not(h2)')].some(
        one => one.checkVisibility() && one.getBoundingClientRect().height)
).map(each => each.textContent)"""


def test_nothing_runs_off_the_paper_no_heading_stands_alone_on_it_and_no_link_leads_nowhere(
    tab: Page, samples: dict[str, Path]
) -> None:
    """What is folded away is not printed, nor a line that is nothing but the way to another page."""
    tab.set_viewport_size({"width": A4[0] - MARGINS[0], "height": A4[1] - MARGINS[1]})
    tab.emulate_media(media="print")
    wrong = {}
    for kind, path in samples.items():
        if kind in BARE:
            continue
        tab.goto(path.as_uri())
        wide, lonely = tab.evaluate(RUNS_OFF), tab.evaluate(LONELY)
        ways = tab.locator(".waiting .more, .caring").evaluate_all(
            "all => all.map(one => one.checkVisibility())"
        )
        if wide or lonely or any(ways):
            wrong[kind] = (wide[:3], lonely, ways)
    assert wrong == {}


SMALL = """() => [...document.querySelectorAll('svg text')].filter(
    each => each.getClientRects().length
).map(each => {
    const { a, b } = each.getScreenCTM();
    return [parseFloat(getComputedStyle(each).fontSize) * Math.hypot(a, b) * 72 / 96, each.textContent];
}).filter(([points]) => points < 7)"""


def test_no_text_of_a_drawing_is_too_small_on_paper(tab: Page, samples: dict[str, Path]) -> None:
    """Seven points are the least that is read at arm's length: common practice, no source.

    A poster is not held to it: a whole season's months share its one sheet, each as large as it can be.
    """
    tab.set_viewport_size({"width": A4[0] - MARGINS[0], "height": A4[1] - MARGINS[1]})
    tab.emulate_media(media="print")
    small = {}
    for kind, path in samples.items():
        if kind == "poster":
            continue
        tab.goto(path.as_uri())
        found = tab.evaluate(SMALL)
        if found:
            small[kind] = (len(found), min(found))
    assert small == {}


def test_the_first_sheet_of_the_first_page_has_what_the_beds_gave_its_maps_and_their_key(
    tab: Page, demo: Path
) -> None:
    """Fails where a sponsor who prints one sheet has the beds without their weight."""
    tab.goto((demo / "index.html").as_uri())
    tab.add_style_tag(content=WORDLESS)
    first, *_ = sheets_of(tab.pdf(format="Letter", prefer_css_page_size=True))
    for part in (".sum", ".verdict p", ".map-key .letter >> nth=-1"):
        assert words(tab.locator(part).first.inner_text()) in words(first.text), part


KEPT = ("What the plan has", "sow 18 March", "By where it went", "Lantern Street pantry")


def test_paper_has_the_lists_that_no_drawing_tells_and_what_each_cut_comes_to(tab: Page, demo: Path) -> None:
    """The plan is folded away on the page of plantings, and every cut on that of the tally."""
    printed = ""
    for page in ("2026/plants", "2026/tally"):
        tab.goto((demo / page / "index.html").as_uri())
        printed += "".join(sheet.text for sheet in sheets_of(tab.pdf(prefer_css_page_size=True)))
    assert [one for one in KEPT if words(one) not in words(printed)] == []
    assert words("told otherwise, in full on the site") in words(printed)
    assert words("When each planting can go in") not in words(printed), "the rest is on the site"
