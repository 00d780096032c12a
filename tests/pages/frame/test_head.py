"""The head of every page: a title and description, one address, and what is shown where it is passed on."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from hypothesis import given
from hypothesis import strategies as st

from tallybed.garden.garden import Garden
from tallybed.pages.frame.addresses import NOT_FOUND
from tallybed.pages.frame.head import described
from tallybed.pages.frame.page import Page
from tallybed.pages.frame.surround import surround
from tallybed.pages.wording.sentences import full_day
from tallybed.reckoning.year import Years
from tests.pages.gardens import GARDEN, LEDGER, LOG, only, pages_of, parsed, written

pytestmark = pytest.mark.usefixtures("few_crops")

BASE = "https://beds.example/plot/"
LINE = st.text(st.characters(blacklist_categories=("Cs", "Cc", "Zl", "Zp")), min_size=1, max_size=200)


@pytest.fixture(scope="module")
def years(tmp_path_factory: pytest.TempPathFactory) -> dict[str, BeautifulSoup]:
    root = tmp_path_factory.mktemp("head")
    files = {"garden.yaml": f"{GARDEN}address: {BASE}\n", "2026/harvest.yaml": LEDGER}
    written(root, files | {f"2026/log/{name}": text for name, text in LOG.items()})
    return {path: parsed(text, "head") for path, text in pages_of(root).items() if path != NOT_FOUND}


def meta(page: BeautifulSoup, name: str) -> str:
    return str(only(page, f'meta[property="{name}"]')["content"])


def test_descriptions_are_neither_empty_talk_nor_cut_short(years: dict[str, BeautifulSoup]) -> None:
    for path, page in years.items():
        said = str(only(page, "meta[name=description]")["content"])
        assert 50 <= len(said) <= 160, f"{path}: {len(said)} characters: {said}"
        assert meta(page, "og:description") == said


def test_each_page_has_one_address_and_no_two_share_it(years: dict[str, BeautifulSoup]) -> None:
    found = set()
    for path, page in years.items():
        address = str(only(page, "link[rel=canonical]")["href"])
        assert address == BASE + path.removesuffix("index.html")
        assert meta(page, "og:url") == address
        found.add(address)
    assert len(found) == len(years)


def test_what_is_passed_on_is_named_and_pictured(years: dict[str, BeautifulSoup]) -> None:
    """The four properties that the Open Graph protocol requires (ogp.me): title, type, image, url."""
    for path, page in years.items():
        assert meta(page, "og:title") in only(page, "title").get_text(), path
        assert only(page, 'meta[name="twitter:card"]')["content"] == "summary_large_image", path
        assert meta(page, "og:type") == ("article" if "/log/0" in path else "website"), path
        own = [
            week for week in ("w19", "w20", "w21") if f"2026-{week}/" in path
        ]  # weighed on 10, 16 and 20 May
        of = f"2026/bulletins/2026-{own[0]}" if own else "2026"
        assert meta(page, "og:image") == f"{BASE}{of}/card.png", path
        size = tuple(meta(page, f"og:image:{side}") for side in ("width", "height"))
        assert size == (("600", "315") if own else ("1200", "630")), path


def test_the_picture_of_a_bulletin_is_told_to_those_who_cannot_see_it(
    years: dict[str, BeautifulSoup],
) -> None:
    alts = {
        path.split("/")[2]: meta(page, "og:image:alt")
        for path, page in years.items()
        if "bulletins/2026-w" in path
    }
    assert alts == {
        "2026-w15": "Two Plank Garden: season 2026 in figures",
        "2026-w17": "Two Plank Garden: season 2026 in figures",
        "2026-w19": "Two Plank Garden, Week 19 of 2026: 1.5 lb in 1 picking, 4 to 10 May",
        "2026-w20": ("Two Plank Garden, Week 20 of 2026: at least 0.50 lb in 2 pickings, 11 to 17 May"),
        "2026-w21": "Two Plank Garden, Week 21 of 2026: 0.38 lb in 1 picking, 18 to 20 May",
    }


def test_without_an_address_nothing_pretends_to_have_one(tmp_path: Path) -> None:
    written(tmp_path, {"garden.yaml": GARDEN, "2026/harvest.yaml": LEDGER})
    for path, text in pages_of(tmp_path).items():
        page = parsed(text, "link", "meta", "title")
        absent = (
            'link[rel=canonical], link[rel=alternate], meta[property="og:url"], meta[property="og:image"]'
        )
        assert page.select(absent) == [], path
        assert meta(page, "og:title"), path


def test_the_sign_of_the_site_is_found_from_every_page(years: dict[str, BeautifulSoup]) -> None:
    for path, page in years.items():
        assert only(page, "link[rel=icon]")["href"] == "../" * path.count("/") + "favicon.svg"


def test_the_licence_is_told_on_every_page(tmp_path: Path) -> None:
    terms = "licence: CC BY 4.0\nlicence address: https://terms.example/by\n"
    for path, text in pages_of(written(tmp_path, {"garden.yaml": GARDEN + terms})).items():
        link = only(parsed(text, "footer"), "footer a[rel=license]")
        assert (link.get_text(), link["href"]) == ("CC BY 4.0", "https://terms.example/by"), path


@given(name=LINE, where=LINE | st.just(""), said=LINE)
def test_any_words_make_a_description_of_fitting_length(name: str, where: str, said: str) -> None:
    years = Years(garden=Garden(name=name.strip() or "G", where=where), today=date(2026, 9, 14))
    page = Page(path="x/index.html", template="leaf.html", title="X", description="", data={}, kind="leaf")
    assert (
        50 <= len(described(surround(years), replace(page, description=said), full_day(years.today))) <= 160
    )
