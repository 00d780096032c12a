"""A crop's page: the drawing of its year first, care in a screenful, near kinds at hand."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from tests.pages.gardens import only, parsed, said


class Pages:
    """The demonstration's pages, each parsed when it is first asked for."""

    def __init__(self, site: Path) -> None:
        self._of = cache(lambda path: parsed((site / path).read_text(encoding="utf-8")))

    def __getitem__(self, path: str) -> BeautifulSoup:
        return self._of(path)


@pytest.fixture(scope="module")
def full(demo: Path) -> Pages:
    return Pages(demo)


def test_a_page_begins_with_the_year_and_says_it_in_words_too(full: Pages) -> None:
    for slug in ("spinach", "carrot", "tomato-indeterminate", "watermelon"):
        page = full[f"crops/{slug}/index.html"]
        first = only(page, "main section")
        assert first["aria-labelledby"] == "year", slug
        assert len(first.select("svg.cropyear")) == 2, "for wide pages and for narrow ones"
        told = said(only(first, "svg.cropyear desc"))
        assert "Advised:" in told, slug


def test_what_was_done_lies_beside_what_is_advised(full: Pages) -> None:
    drawing = only(full["crops/onion-bulb/index.html"], "svg.cropyear.strip-narrow")
    bands = [(band["data-first"], band["data-last"]) for band in drawing.select(".d-advised")]
    assert ("2026-03-18", "2026-04-01") in bands
    (line,) = drawing.select(".d-planting[data-season='2026']")
    assert "4 Apr" in said(line)


def test_care_is_a_screenful(full: Pages) -> None:
    # About 40 lines of 42 letters fit a phone of 360 by 780 pixels twice over (measured on a page of ours).
    for slug in ("spinach", "carrot", "tomato-indeterminate", "watermelon", "garlic", "lettuce-leaf"):
        short = said(only(full[f"crops/{slug}/index.html"], "dl.in-short"))
        assert len(short) < 1000, slug
        assert "Spacing" in short, slug


def test_spacing_is_said_before_any_count(full: Pages) -> None:
    carrot = said(only(full["crops/carrot/index.html"], "dl.in-short"))
    assert re.search(r"\d in apart, \w+ to a square", carrot)


def test_near_kinds_lead_to_each_other(full: Pages) -> None:
    for one, other in (
        ("pea-garden", "pea-snap"),
        ("onion-bulb", "onion-bunching"),
        ("cantaloupe", "watermelon"),
        ("bean-broad", "bean-pole"),
    ):
        for here, there in ((one, other), (other, one)):
            page = full[f"crops/{here}/index.html"]
            leads = {str(link["href"]) for link in page.select(".onward a")}
            assert f"../{there}/index.html" in leads, here
    assert not full["crops/basil/index.html"].select(".onward a"), "herbs are too many to be near"


def test_a_page_is_called_by_the_everyday_name(full: Pages) -> None:
    titles = {
        "tomato-indeterminate": "Tomatoes, indeterminate",
        "bean-bush": "Beans, bush",
        "carrot": "Carrots",
        "brussels-sprouts": "Brussels sprouts",
    }
    for slug, title in titles.items():
        assert said(only(full[f"crops/{slug}/index.html"], "h1")) == title


def test_families_are_told_on_crop_pages_alone(full: Pages) -> None:
    assert "Amaranthaceae" in said(only(full["crops/spinach/index.html"], ".lead"))
    for path in ("crops/index.html", "index.html", "2026/index.html", "2026/plants/index.html"):
        assert not re.search(r"\b[A-Z][a-z]+aceae\b", said(only(full[path], "body"))), path


def test_near_kinds_are_told_by_names_without_commas(full: Pages) -> None:
    near = next(one for one in full["crops/bean-broad/index.html"].select(".onward") if "Near" in said(one))
    assert said(near).replace(" ,", ",") == "Near kinds: bush beans, lima beans, pole beans, runner beans"
