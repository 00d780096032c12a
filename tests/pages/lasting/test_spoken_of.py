"""What a text of the garden's own leads to: crops, plantings, visits and papers that it speaks of."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from tallybed.pages.lasting.spoken_of import spoken_of
from tallybed.reckoning.year import Years
from tests.pages.gardens import folder, only, pages_of, parsed, site_of, written


@pytest.fixture
def years(tmp_path: Path) -> Years:
    return site_of(folder(tmp_path))


def leads(years: Years, text: str, **more: object) -> dict[str, list[str]]:
    found = spoken_of(years, text, **more)  # type: ignore[arg-type]
    return {kind.title: [link.to for link in kind.links] for kind in found}


def test_crops_are_found_by_any_name_if_the_garden_grew_them(years: Years) -> None:
    assert leads(years, "Bush beans after the spinach; kale we never had.") == {
        "Crops": ["crops/bean-bush/index.html", "crops/spinach/index.html"]
    }


def test_a_planting_is_found_by_its_tag_and_by_its_variety(years: Years) -> None:
    assert leads(years, "CA1 was slow.")["Plantings"] == ["2026/plants/CA1/index.html"]
    assert leads(years, "We liked Broad best.")["Plantings"] == ["2026/plants/SP1/index.html"]
    assert "Plantings" not in leads(years, "Broadly speaking, CA12 was not.")


def test_plantings_of_the_crops_it_is_about_are_found(years: Years) -> None:
    assert leads(years, "They were slow.", about=("carrot",), written=date(2026, 5, 18)) == {
        "Crops": ["crops/carrot/index.html"],
        "Plantings": ["2026/plants/CA1/index.html"],
    }


@pytest.mark.parametrize(
    "words", ["on 6 April 2026", "on the 6th of April", "on April 6", "on April 6th, 2026", "on 2026-04-06"]
)
def test_a_visit_is_found_by_its_day(years: Years, words: str) -> None:
    assert leads(years, f"We began {words}.")["Visits"] == ["2026/log/04-06-spinach-in/index.html"]


@pytest.mark.parametrize("words", ["on 7 April", "on 6 April 2025", "on 16 April"])
def test_another_day_is_no_visit(years: Years, words: str) -> None:
    assert "Visits" not in leads(years, f"We began {words}.")


def test_papers_are_found_by_their_names(years: Years) -> None:
    assert leads(years, "The plan, the log and the tally.")["Lists"] == [
        "2026/plants/index.html",
        "2026/log/index.html",
        "2026/tally/index.html",
    ]


def test_the_page_of_a_question_leads_there(tmp_path: Path) -> None:
    answer = "---\nquestion: When?\nabout: [carrot]\n---\nOn 21 April, says the log.\n"
    root = written(folder(tmp_path), {"questions/when.md": answer})
    page = parsed(pages_of(root)["questions/when/index.html"])
    ways = [str(one["href"]) for one in only(page, ".spoken").select("a")]
    assert ways == [
        "../../crops/carrot/index.html",
        "../../2026/plants/CA1/index.html",
        "../../2026/log/04-21-carrots-in/index.html",
        "../../2026/log/index.html",
    ]
