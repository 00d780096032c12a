"""Titles: whole where there is room, else without some of their middle, and never two alike that were not."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tallybed.pages.catalogue import Frame
from tallybed.pages.frame.page import Page
from tallybed.pages.frame.titles import LONGEST, fitted, with_garden
from tests.pages.gardens import ABOUT, GARDEN, LEDGER, LOG, PLAN, QUESTION, every_page, site_of, written

pytestmark = pytest.mark.usefixtures("few_crops")

LONG = "Determinate tomato ‘Paperback Paste from the old Corner House’ (TO2) in the long bed, 2026"


@pytest.mark.parametrize(
    ("garden", "title", "told"),
    [
        ("Two Plank Garden", "Tally of 2026", "Tally of 2026 – Two Plank Garden"),
        ("Two Plank Garden", "Two Plank Garden", "Two Plank Garden"),
        (
            "The Society of Friends of the Beds behind the Old Town Hall of Upper Harrowgate",
            "Tally of 2026",
            "Tally of 2026 – The Society of Friends of the Beds behind the Old …",
        ),
        ("Two Plank Garden", LONG, "Determinate tomato ‘Paperback Paste from the … in the long bed, 2026"),
        ("A" * 90, "A" * 90, "A" * 44 + " … " + "A" * 23),
    ],
)
def test_titles_by_hand(garden: str, title: str, told: str) -> None:
    assert with_garden(garden, title) == told
    assert len(told) <= LONGEST


@given(st.text(min_size=1), st.text(min_size=1))
def test_no_title_is_too_long(garden: str, title: str) -> None:
    assert len(with_garden(garden, title)) <= LONGEST
    assert len(fitted(title)) <= LONGEST


def test_no_page_of_a_garden_with_long_names_has_a_longer_title_or_that_of_another(tmp_path: Path) -> None:
    """Names as long as the reader lets through, made longer where the garden's files have any."""
    longer = "and of those who came after them and are remembered by a stone at the gate"
    files = {
        "garden.yaml": GARDEN.replace(
            "name: Two Plank Garden", f"name: The Beds of the First Comers {longer}"
        )
        .replace("The front bed", f"The front bed of the First Comers {longer}")
        .replace("The back bed", f"The back bed of the First Comers {longer}"),
        "2026/plan.yaml": PLAN.replace(
            "variety: Broad", f"variety: Broad-leaved of the First Comers {longer}"
        ),
        "2026/harvest.yaml": LEDGER,
        **{
            f"2026/log/{name}": text.replace("title: ", f"title: By the First Comers {longer}, ")
            for name, text in LOG.items()
        },
        "questions/why.md": QUESTION.replace("Why so few carrots", f"Why do the First Comers {longer} weigh"),
        "about.md": ABOUT.replace("About the hall", f"About the hall of the First Comers {longer}"),
    }
    titles = [titled(page) for page in every_page(site_of(written(tmp_path, files)))]
    assert len(titles) > 60
    assert max(map(len, titles)) <= LONGEST
    assert [one for one, number in Counter(titles).items() if number > 1] == []


def titled(page: Page) -> str:
    """The title that a page goes out with."""
    frame = page.data["frame"]
    assert isinstance(frame, Frame)
    return frame.head.title
