"""Sheets printed by a browser: as many as there should be, nothing cut off, codes that scan."""

from __future__ import annotations

from importlib.resources import files
from io import BytesIO
from pathlib import Path
from urllib.parse import unquote

import pytest
import zxingcpp
from PIL import Image
from playwright.sync_api import Page

from tallybed.tasks.build import build
from tests.proof.sheets import sheets_of
from tests.small_garden import written

BASE = "https://beds.wrenfold.example/"
SIZES = {"Letter": (612, 792), "A4": (595, 842)}
"""Width and height in points: ANSI/ASME Y14.1 A, ISO 216 A4."""
PAPERS = (
    *("sign/long", "sign/elbow", "tally-sheet", "plant-tags", "poster/2024", "poster/2026"),
    "volunteers",
)
LYING = ("sign/long", "sign/elbow", "poster/2024", "poster/2026")


def opened(tab: Page, demo: Path, name: str) -> None:
    tab.goto((demo / "sheets" / name / "index.html").as_uri())


def printed(tab: Page, size: str) -> list[tuple[int, int]]:
    """Return width and height of each sheet that printing on this paper gives."""
    tab.add_style_tag(
        content=f"@page {{ size: {size} }} @page paper-wide {{ size: {size} landscape }}"
        f"@page paper {{ size: {size} }}"
    )
    sheets = sheets_of(tab.pdf(prefer_css_page_size=True))
    return [(round(sheet.width), round(sheet.height)) for sheet in sheets]


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("name", PAPERS)
def test_each_fills_the_sheets_it_should(tab: Page, demo: Path, name: str, size: str) -> None:
    opened(tab, demo, name)
    tags = tab.locator(".tags > li").count()
    width, height = SIZES[size]
    sheets = printed(tab, size)
    assert set(sheets) == {(height, width) if name in LYING else (width, height)}
    if name in ("tally-sheet", "volunteers"):
        assert len(sheets) <= 2
    else:
        assert len(sheets) == (-(-tags // 10) if tags else 1)


@pytest.fixture(scope="module")
def crowded(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The site of a garden in which every square of a bed has another crop, until the library has no more."""
    root, library = tmp_path_factory.mktemp("crowded"), files("tallybed") / "library" / "crops"
    crops = sorted(one.name.removesuffix(".yaml") for one in library.iterdir())
    rows, beds = [], []
    for bed, columns in (("broad", 8), ("low", 20)):
        beds.append(f"  - {{name: {bed}, length: {columns} squares, width: {60 // columns} squares}}\n")
        squares = (f"{'ABCDEFGHIJKLMNOPQRST'[place % columns]}{place // columns + 1}" for place in range(56))
        rows += [
            f"- {{crop: {crop}, squares: {bed}/{square}, set out: Jan 2}}\n"
            for crop, square in zip(crops, squares, strict=False)
        ]
    texts = {"garden.yaml": f"name: Full beds\nbeds:\n{''.join(beds)}", "2026/plan.yaml": "".join(rows)}
    build(written(root, texts))
    return root / "site"


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("bed", ["broad", "low"])
def test_a_sign_with_more_names_than_have_room_at_the_usual_size_is_one_sheet(
    tab: Page, crowded: Path, bed: str, size: str
) -> None:
    """Fails where the list keeps its size: the map is squeezed, or lies over what the bed gave."""
    opened(tab, crowded, f"sign/{bed}")
    assert len(printed(tab, size)) == 1
    tab.emulate_media(media="print")
    assert tab.locator(".sign figcaption").evaluate("one => parseFloat(getComputedStyle(one).fontSize)") < 20


LONG = "Vereinshausmeisterbesprechungsprotokollführer"


@pytest.fixture(scope="module")
def wordy(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The site of a garden with one small bed, one planting and long names for everything."""
    texts = {
        "garden.yaml": "name: The bed by the old wool bridge, behind the reading room of the upper village\n"
        "beds:\n  - {name: step, length: 2 squares, width: 2 squares}\n",
        "2026/plan.yaml": "- {crop: tomato-indeterminate, tag: TOMATO12BIG, squares: A1:B2, set out: May 20,"
        " variety: The Miller’s Widow’s Improved Early Scarlet Trellis Beefheart, until: Oct 10}\n",
        "2026/harvest.yaml": "".join(
            f"- {{date: 2026-{month:02d}-12, tag: TOMATO12BIG, weight: 90 lb}}\n" for month in range(6, 9)
        ),
        "2026/log/2026-05-20-in.md": f"---\ntitle: {LONG}\ndate: 2026-05-20\n"
        "done: [{set out: tomato-indeterminate, tag: TOMATO12BIG, squares: A1:B2}]\n---\n",
        "questions/who.md": f"---\nquestion: Who is the {LONG} of the upper village?\n---\nNobody.\n",
    }
    root = written(tmp_path_factory.mktemp("wordy"), texts)
    build(root)
    return root / "site"


def test_a_word_longer_than_a_phone_breaks_within_its_list(tab: Page, wordy: Path) -> None:
    tab.set_viewport_size({"width": 360, "height": 740})
    for page in ("2026/log/index.html", "2026/plants/TOMATO12BIG/index.html", "questions/index.html"):
        tab.goto((wordy / page).as_uri())
        link = tab.locator("main a", has_text=LONG).first
        assert link.bounding_box()["width"] < 344, page  # type: ignore[index]
        assert tab.evaluate("document.documentElement.scrollWidth") <= 360, page


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("name", ["tally-sheet", "plant-tags", "sign/step", "poster/2026"])
def test_long_names_take_no_second_sheet(tab: Page, wordy: Path, name: str, size: str) -> None:
    opened(tab, wordy, name)
    assert len(printed(tab, size)) == 1


@pytest.mark.parametrize("name", ["plant-tags", "poster/2026"])
def test_long_names_push_nothing_off_the_paper(tab: Page, wordy: Path, name: str) -> None:
    opened(tab, wordy, name)
    assert cut_off(tab) == []
    over = tab.evaluate(
        """() => [...document.querySelectorAll(".numbers b")]
            .filter(each => each.scrollWidth > each.clientWidth + 1).map(each => each.textContent)"""
    )
    assert over == [], "a figure lies over its words"


@pytest.mark.parametrize("name", PAPERS)
def test_nothing_is_cut_off_on_paper(tab: Page, demo: Path, name: str) -> None:
    opened(tab, demo, name)
    assert cut_off(tab) == []


def cut_off(tab: Page) -> list[str]:
    """Return what of a printed sheet reaches out of its tag, its picture or its paper."""
    tab.emulate_media(media="print")
    found: list[str] = tab.evaluate(
        """() => [...document.querySelectorAll(".paper *:not(svg *)")]
            .map(each => [each, each.closest(".tags > li, .year figure, .paper")])
            .filter(([each, frame]) => {
                const inner = each.getBoundingClientRect(), outer = frame.getBoundingClientRect();
                return inner.right > outer.right + 1 || inner.bottom > outer.bottom + 1;
            })
            .map(([each]) => `${each.tagName}.${each.className}: ${each.textContent.trim().slice(0, 40)}`)"""
    )
    return found


@pytest.mark.parametrize(
    ("name", "codes"),
    [
        ("sign/long", [f"{BASE}#bed-long"]),
        ("sign/elbow", [f"{BASE}#bed-elbow"]),
        ("plant-tags", None),
    ],
)
@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("painted", [True])
def test_every_code_leads_to_a_page_of_the_site(
    tab: Page, demo: Path, name: str, codes: list[str] | None, scheme: str
) -> None:
    tab.emulate_media(color_scheme="dark" if scheme == "dark" else "light")
    opened(tab, demo, name)
    shown = tab.locator(".scan-code")
    for number in range(min(shown.count(), 3)):
        code = shown.nth(number)
        with Image.open(BytesIO(code.screenshot())) as picture:
            read = [one.text for one in zxingcpp.read_barcodes(picture.convert("L"))]
        assert read == [code.locator("desc").text_content()]
        assert codes is None or read == codes
        path, _mark, part = unquote(read[0].removeprefix(BASE)).partition("#")
        page = demo / path / "index.html"
        assert page.is_file(), f"{read[0]} leads nowhere"
        assert not part or f'id="{part}"' in page.read_text(encoding="utf-8"), f"{read[0]} leads nowhere"


TORN = """() => {
    const text = document.querySelector('.scan p');
    const walker = document.createTreeWalker(text, NodeFilter.SHOW_TEXT);
    const ends = [];
    let before = null, line = null;
    while (walker.nextNode()) {
        const node = walker.currentNode;
        for (let at = 0; at < node.data.length; at += 1) {
            const range = document.createRange();
            range.setStart(node, at);
            range.setEnd(node, at + 1);
            const box = range.getBoundingClientRect();
            if (!box.width) continue;
            if (line !== null && box.top > line + box.height / 2) ends.push(before);
            [before, line] = [node.data[at], box.top];
        }
    }
    return ends;
}"""
"""The last character of each line but the last."""


def test_a_printed_address_breaks_at_slashes_alone(tab: Page, demo: Path) -> None:
    """A hyphen at the end of a line reads as if it were no part of the address; a dot, as a full stop."""
    opened(tab, demo, "sign/long")
    assert tab.locator(".scan p").inner_text().endswith(f"{BASE}#bed-long")
    for width in (84, 100, 120, 150, 200, 360):
        tab.add_style_tag(content=f".scan p {{ width: {width}px !important; font-size: 9.3px !important }}")
        ends = tab.evaluate(TORN)
        assert "-" not in ends, width
        if width >= 150:  # a line holds the garden's domain
            assert "." not in ends, width
            assert set(ends) <= {"/", " ", "y", ":"}, (width, ends)
