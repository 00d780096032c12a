"""The demonstration's sheets as they should come out: how many, which way round, with which codes."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import pypdfium2
import zxingcpp
from bs4 import BeautifulSoup

DOTS = 150 / 72
"""Dots for each point of a sheet that is looked at for codes: 150 to the inch, a coarse printer."""
SIZES = {"na_letter": (612, 792), "iso_a4": (595, 842)}
"""Width and height in points: ANSI/ASME Y14.1 A, ISO 216 A4."""
NAMES = {
    "sheets/sign/elbow": True,
    "sheets/poster/2026": True,
    "sheets/plant-tags": False,
    "sheets/tally-sheet": False,
    "sheets/volunteers": False,
    "sheets/marking-out/elbow": False,
}
"""One sheet of every kind, and whether it lies flat. The elbow bed has most to be said of it."""
TAGS_A_SHEET = 10
AT_MOST = {"sheets/tally-sheet": 2}
"""Sheets that are as long as there are plantings; every other kind is one sheet, or tags by the ten."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A sheet of paper that came out."""

    width: float
    """Points."""
    height: float
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Expected:
    """What should come out."""

    most: int
    """Sheets of paper."""
    codes: list[list[str]]
    """What the codes of each sheet say, in any order; empty where a page has none."""


def sheets_of(paper: bytes | Path) -> list[Sheet]:
    """Return the sheets of a PDF."""
    with pypdfium2.PdfDocument(paper) as document:
        return [
            Sheet(width=width, height=height, text=one.get_textpage().get_text_bounded())
            for one in document
            for width, height in [one.get_size()]
        ]


def expected(site: Path, name: str) -> Expected:
    """Return what a page should come out as."""
    page = BeautifulSoup((site / name / "index.html").read_bytes(), "html.parser")
    codes = [str(one.desc.string) for one in page.select(".scan-code") if one.desc]
    sheets = [codes[start : start + TAGS_A_SHEET] for start in range(0, len(codes), TAGS_A_SHEET)]
    return Expected(most=AT_MOST.get(name, max(1, len(sheets))), codes=[sorted(one) for one in sheets])


def held_to_it(site: Path, name: str, size: str, paper: Path, *, lying: bool) -> None:
    """Hold what an engine printed of a page against what it should be."""
    told = expected(site, name)
    width, height = SIZES[size]
    found = sheets_of(paper)
    assert all(
        abs(one.width - (height if lying else width)) < 2
        and abs(one.height - (width if lying else height)) < 2
        for one in found
    ), f"{name} on {size} does not lie as it should: {found[0].width} by {found[0].height}"
    assert len(found) <= told.most, f"{name} takes {len(found)} sheets of {size}, not {told.most}"
    assert all(one.text.strip() for one in found), f"{name} on {size} has an empty sheet"
    if told.codes:
        assert codes(paper) == told.codes, f"{name} on {size}"


def codes(paper: Path) -> list[list[str]]:
    """Return what a scanner reads on each sheet, sorted."""
    with pypdfium2.PdfDocument(paper) as document:
        pictures = [sheet.render(scale=DOTS).to_pil().convert("L") for sheet in document]
    return [sorted(one.text for one in zxingcpp.read_barcodes(picture)) for picture in pictures]
