"""Linked data: strict JSON, no property that the vocabulary lacks, nothing that a garden keeps to itself."""

from __future__ import annotations

import json
from collections.abc import Iterator
from datetime import date
from importlib import import_module
from pathlib import Path
from typing import Any

import pytest
from bs4 import BeautifulSoup
from hypothesis import given
from hypothesis import strategies as st

from tallybed.garden.days import Span
from tallybed.garden.garden import Garden, Season
from tallybed.garden.records.log import Entry, Photo
from tallybed.pages.drawings.photographs import photo_items
from tallybed.pages.frame import linked
from tallybed.pages.frame.linked import script
from tallybed.reckoning.year import Years
from tests.pages.gardens import GARDEN, LEDGER, LOG, pages_of, parsed, written

pytestmark = pytest.mark.usefixtures("few_crops")

VOCABULARY = import_module("msgspec_schemaorg.models")
"""schema.org's own definitions, as msgspec-schemaorg generates them."""

TOLD = """\
address: https://beds.example/plot/
licence: CC BY 4.0
licence address: https://creativecommons.org/licenses/by/4.0/
"""


def refuse(sign: str) -> None:
    raise AssertionError(f"{sign} is no JSON (RFC 8259)")


def things(page: BeautifulSoup) -> list[dict[str, Any]]:
    """Return what a page's linked data tells of, read by the strict rules of JSON."""
    found: list[dict[str, Any]] = []
    for tag in page.select('script[type="application/ld+json"]'):
        told = json.loads(tag.string or "", parse_constant=refuse)
        found += told if isinstance(told, list) else [told]
    return found


def every(value: object) -> Iterator[dict[str, Any]]:
    """Yield each thing within a thing, itself first."""
    if isinstance(value, dict):
        if "@type" in value:
            yield value
        for part in value.values():
            yield from every(part)
    elif isinstance(value, list):
        for part in value:
            yield from every(part)


@pytest.fixture(scope="module")
def years(tmp_path_factory: pytest.TempPathFactory) -> dict[str, BeautifulSoup]:
    """A garden that tells its address, place and licence."""
    root = tmp_path_factory.mktemp("linked")
    files = {"garden.yaml": GARDEN + TOLD, "2026/harvest.yaml": LEDGER}
    written(root, files | {f"2026/log/{name}": text for name, text in LOG.items()})
    return {path: parsed(text, "script") for path, text in pages_of(root).items()}


def test_each_kind_of_page_tells_what_it_is_about(years: dict[str, BeautifulSoup]) -> None:
    told = {path: [one["@type"] for one in things(page)] for path, page in years.items()}
    assert {path: kinds for path, kinds in told.items() if kinds} == {
        "index.html": ["Organization", "WebSite"],
        "2026/log/04-06-spinach-in/index.html": ["BlogPosting"],
        "2026/log/04-21-carrots-in/index.html": ["BlogPosting"],
        "2026/tally/index.html": ["Dataset"],
    }


def test_no_property_is_made_up(years: dict[str, BeautifulSoup]) -> None:
    for path, page in years.items():
        for whole in things(page):
            assert whole["@context"] == "https://schema.org", path
            for one in every(whole):
                known = set(getattr(VOCABULARY, one["@type"]).__struct_encode_fields__)
                assert set(one) - {"@context"} <= known, f"{path}: {one['@type']}"


def test_an_entry_is_told_with_its_day_and_who_wrote_it(years: dict[str, BeautifulSoup]) -> None:
    (one,) = things(years["2026/log/04-06-spinach-in/index.html"])
    assert (one["headline"], one["datePublished"], one["creditText"]) == (
        "Spinach in",
        "2026-04-06",
        "the Monday pair",
    )
    assert one["url"] == "https://beds.example/plot/2026/log/04-06-spinach-in/"
    (other,) = things(years["2026/log/04-21-carrots-in/index.html"])
    assert "creditText" not in other, "nobody is said to have written the second entry"


def test_an_entry_is_told_with_its_photographs() -> None:
    """Those that were put out, by their whole address; of one that shows somebody unasked nothing is told."""
    photos = (
        Photo(file="peas.jpg", alt="Peas", credit="N.", licence="CC BY 4.0"),
        Photo(file="lost.jpg", alt="Not there"),
        Photo(file="crew.jpg", alt="The crew", people=True),
    )
    entry = Entry(slug="in", day=date(2026, 4, 6), title="In", photos=photos)
    season = Season(name="2026", span=Span(first=date(2026, 3, 1), last=date(2026, 10, 31)), log=(entry,))
    seen = Years(garden=Garden(name="Plank", seasons=(season,)), today=entry.day)
    (thing,) = linked.entry(seen.all[0], entry, "", photo_items("2026", entry))
    known = {"2026/peas.jpg": "https://beds.example/x.jpg", "2026/crew.jpg": "https://beds.example/y.jpg"}
    told = json.loads(str(script((thing,), known.get)))
    assert told["image"] == [
        {
            "@type": "ImageObject",
            "caption": "Peas",
            "creditText": "N.",
            "license": {
                "@type": "CreativeWork",
                "name": "CC BY 4.0",
                "url": "https://creativecommons.org/licenses/by/4.0/",
            },
            "contentUrl": "https://beds.example/x.jpg",
        }
    ]
    for one in every(told):
        assert set(one) - {"@context"} <= set(getattr(VOCABULARY, one["@type"]).__struct_encode_fields__)
    assert "image" not in json.loads(str(script((thing,)))), "without an address there is nothing to lead to"


def test_a_ledger_is_told_as_a_set_of_data(years: dict[str, BeautifulSoup]) -> None:
    (one,) = things(years["2026/tally/index.html"])
    assert one["temporalCoverage"] == "2026-03-01/2026-05-20", "the season's first day to the newest record"
    assert one["spatialCoverage"] == {"@type": "Place", "name": "Harrowgate Lane"}
    assert one["license"]["url"] == "https://creativecommons.org/licenses/by/4.0/"
    files = [
        str(part["contentUrl"]).removeprefix("https://beds.example/plot/") for part in one["distribution"]
    ]
    assert files == ["2026/data/ledger.csv", "2026/data/ledger.json"]
    # 1 lb 8 oz, about 8 oz and 6 oz are 38 oz, 2.375 lb; halves away from zero at one decimal.
    assert "at least 2.4 lb" in one["description"]
    # Bounds: what a search engine's guide to markup of data sets asks for, from memory.
    assert 50 <= len(one["description"]) <= 5000


def test_where_a_garden_lies_is_told_in_its_own_public_words_alone(years: dict[str, BeautifulSoup]) -> None:
    for path, page in years.items():
        for one in (part for whole in things(page) for part in every(whole)):
            assert not {"geo", "latitude", "longitude"} & set(one), path
    assert things(years["index.html"])[0]["location"] == {"@type": "Place", "name": "Harrowgate Lane"}


def test_without_address_place_and_licence_none_is_told(tmp_path: Path) -> None:
    bare = GARDEN.replace("place: Harrowgate Lane\n", "")
    written(tmp_path, {"garden.yaml": bare, "2026/harvest.yaml": LEDGER})
    pages = {path: parsed(text, "script") for path, text in pages_of(tmp_path).items()}
    told = [part for page in pages.values() for whole in things(page) for part in every(whole)]
    assert {one["@type"] for one in told} == {"Organization", "WebSite", "Dataset"}
    assert not [one for one in told if {"url", "license", "spatialCoverage", "location"} & set(one)]


@given(st.text())
def test_no_text_ends_the_script_element(text: str) -> None:
    written_out = str(script([{"@type": "Thing", "name": text}]))
    assert not set("<>&\u2028\u2029") & set(written_out)
    page = BeautifulSoup(
        f'<script type="application/ld+json">{written_out}</script><p>after</p>', "html.parser"
    )
    assert page.p is not None
    if not any(0xD800 <= ord(sign) <= 0xDFFF for sign in text):
        assert json.loads(written_out)["name"] == text
