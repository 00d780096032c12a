"""The page of a season's bulletins, and the way to it and to what else can be taken along."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from tallybed.garden.days import Week
from tallybed.pages.files.bulletin_text import bulletin_text
from tallybed.pages.files.card import Card
from tallybed.pages.files.week_card import week_card
from tallybed.pages.frame import addresses
from tallybed.pages.season import data, week_bulletin
from tallybed.pages.season.bulletins import season_of, week_facts, year_before
from tallybed.reckoning.year import Years
from tests.pages.gardens import GARDEN, folder, html_of, site_of, written


@pytest.fixture(scope="module")
def full(tmp_path_factory: pytest.TempPathFactory) -> dict[str, BeautifulSoup]:
    return html_of(folder(tmp_path_factory.mktemp("garden")))


@pytest.fixture
def years(tmp_path: Path) -> Years:
    return site_of(folder(tmp_path))


def said(page: BeautifulSoup, selector: str) -> list[str]:
    return [" ".join(one.get_text(" ").split()) for one in page.select(selector)]


def test_there_is_a_line_for_each_week_with_a_record_newest_first(full: dict[str, BeautifulSoup]) -> None:
    page = full["2026/bulletins/index.html"]
    # Visits on 6 and 21 April (W15, W17); pickings on 10 (W19), 16 (W20) and 20 May (W21).
    idents = [str(one["id"]) for one in page.select(".weeks li")]
    assert idents == ["2026-w21", "2026-w20", "2026-w19", "2026-w17", "2026-w15"]
    # 12 radishes of 6 oz on 20 May
    assert said(page, ".weeks li")[0] == "18 to 20 May Week 21 6 oz"
    assert said(page, ".weeks li")[3] == "20 to 26 April Week 17 Carrots in"


def test_each_week_says_what_the_command_tells_of_it(full: dict[str, BeautifulSoup], years: Years) -> None:
    (year,) = years.all
    pages = [full[addresses.bulletin(year, week)] for week in reversed(year.weeks)]
    texts = [said(page, "main .bulletin > div")[0] for page in pages]
    told_of = [bulletin_text(years.garden, week_facts(year, week)) for week in year.weeks]
    assert len(texts) == len(told_of) == 5
    for text, words in zip(texts, reversed(told_of), strict=True):
        assert text.startswith(" ".join(words.paragraphs))
    assert sum("Next, by the plan" in text for text in texts) > 1, (
        "what was next then is told of past weeks too"
    )


def test_each_bulletin_has_a_page_of_its_own(full: dict[str, BeautifulSoup]) -> None:
    """So that one week can be passed on by an address; the list does not say it once more."""
    listed = full["2026/bulletins/index.html"]
    for line in listed.select(".weeks li"):
        (link,) = line.select(".what a")
        page = full[f"2026/bulletins/{link['href']}"]
        assert said(page, "h1")[0].startswith(f"{link.get_text()} of 2026, ")
        assert said(page, "main .bulletin > div > p")[0] not in " ".join(said(listed, "main"))
    ways = [str(one["href"]) for one in full["2026/bulletins/2026-w19/index.html"].select(".neighbours a")]
    assert ways == ["../2026-w17/index.html", "../2026-w20/index.html"]


def test_a_week_keeps_its_picture_when_later_ones_are_weighed(tmp_path: Path) -> None:
    """What was passed on in May is not to change in June."""
    root = folder(tmp_path)
    ledger = root / "content/2026/harvest.yaml"
    garden = root / "content/garden.yaml"
    garden.write_text(f"{garden.read_text(encoding='utf-8')}address: https://x.example/\n", encoding="utf-8")

    def shared() -> dict[str, Card | None]:
        (year,) = site_of(root).all
        return {page.path.split("/")[2]: page.card for page in week_bulletin.pages(year)}

    before = shared()
    assert [week for week, card in before.items() if card] == ["2026-w19", "2026-w20", "2026-w21"]
    later = "- {date: 2026-06-09, crop: spinach, weight: 2 lb}\n"
    ledger.write_text(ledger.read_text(encoding="utf-8") + later, encoding="utf-8")
    after = shared()
    assert [week for week in before if before[week] != after[week]] == ["2026-w21"], "it was not over yet"
    assert after["2026-w24"] is not None


def test_home_and_season_lead_to_all_that_can_be_taken_along(full: dict[str, BeautifulSoup]) -> None:
    poster = {"The poster of 2026, one sheet for the wall": "../sheets/poster/2026/index.html"}
    for path, up, more in (("index.html", "2026/", {}), ("2026/index.html", "", poster)):
        links = {one.get_text(): str(one["href"]) for one in full[path].select(".take a")}
        root = "" if path == "index.html" else "../"
        assert links == {
            "The bulletin of week 21": f"{up}bulletins/2026-w21/index.html",
            "Every week’s bulletin": f"{up}bulletins/index.html",
            "Jobs to come, for your own calendar": f"{root}calendar.ics",
            "Visits made, for your own calendar": f"{root}done.ics",
            "Plan, log and ledger as files, with every column explained": f"{up}data/index.html",
            **more,
        }


@pytest.mark.parametrize("books", ["", "seasons: {2025: {closed: yes}}\n"], ids=["open", "closed"])
def test_a_past_season_leads_to_no_calendar(tmp_path: Path, books: str) -> None:
    ledger = "- {date: 2025-05-05, crop: leek, weight: 3 lb}\n"
    root = written(folder(tmp_path), {"2025/harvest.yaml": ledger, "garden.yaml": GARDEN + books})
    page = html_of(root)["2025/index.html"]
    assert said(page, ".take a") == [
        "The bulletin of week 19",
        "Ledger as files, with every column explained",
        "The poster of 2025, one sheet for the wall",
    ]


def test_the_data_of_a_plan_alone_are_of_one_paper(tmp_path: Path) -> None:
    years = site_of(folder(tmp_path, log=False, ledger=False))
    (page,) = (page for year in years.all for page in data.pages(year))
    assert page.data["lead"].startswith("The plan of 2026, and what follows from it, as files")
    assert "what follows from it" in page.description


def test_the_data_page_explains_every_column_and_leads_to_the_files(full: dict[str, BeautifulSoup]) -> None:
    page = full["2026/data/index.html"]
    assert "number; in inches" in page.get_text()
    assert said(page, "main section h2") == [
        "Ledger of 2026",
        "Where the pickings of 2026 went",
        "Plan of 2026",
        "What stood where in 2026",
        "Beds of 2026",
        "Log of 2026",
        "Treatments of 2026",
        "Row ground of 2026",
        "Areas of 2026",
        "Yields of plantings of 2026",
        "Work of 2026",
        "Water of 2026",
        "How to use them",
    ]
    assert [str(one["href"]) for one in page.select("main .onward a")] == [
        *(
            f"{table}.{ending}"
            for table in (
                *("ledger", "given", "plan", "stood", "beds", "log", "treatments"),
                *("row-ground", "areas", "planting-yields", "work", "water"),
            )
            for ending in ("csv", "json")
        ),
        "datapackage.json",
    ]
    assert "(4 rows)" in said(page, "section[aria-labelledby=ledger] .onward")[0]
    rows = [said(row, "th, td") for row in page.select("table#t-ledger tbody tr")]  # type: ignore[arg-type]
    assert rows[0] == ["row", "Place of the row in the file, from 1 whole number; never empty"]
    assert ["grams", "Weight, to a milligram; empty where it was not weighed number; in g"] in rows
    assert "To cite: Two Plank Garden: plan, log and ledger of 2026, as of 20 May 2026." in said(
        page, "main p"
    )


def test_a_week_of_two_seasons_is_told_of_the_one_that_has_a_record_in_it(years: Years) -> None:
    (year,) = years.all
    bare = replace(year.season, name="2027", log=None, ledger=None)
    both = Years(garden=replace(years.garden, seasons=(year.season, bare)), today=years.today)

    def told_of(day: date) -> str:
        found = season_of(both, Week.of(day))
        return found.name if found else ""

    assert told_of(date(2026, 5, 16)) == "2026"
    assert told_of(date(2026, 5, 1)) == "2027", "without a record in either, the later one"
    assert season_of(both, Week.of(date(2026, 6, 1))) is None, "after the site's day"


def test_the_year_before_is_the_one_of_that_name(years: Years) -> None:
    (year,) = years.all
    seasons = tuple(replace(year.season, name=name) for name in ("2024", "2026", "2027"))
    named = {
        one.name: one for one in Years(garden=replace(years.garden, seasons=seasons), today=years.today).all
    }
    assert year_before(named["2027"]) is named["2026"]
    assert year_before(named["2026"]) is None


def test_the_picture_shows_the_week_or_the_season_where_nothing_was_weighed(years: Years) -> None:
    (year,) = years.all

    def card(day: date) -> tuple[str, str, str, tuple[str, ...]] | None:
        found = week_card(year, week_facts(year, Week.of(day)))
        return None if found is None else (found.season, found.before, found.number, found.lines)

    assert card(date(2026, 4, 21)) is None, "nothing was weighed by then"
    # 1 lb 8 oz of spinach over 16 square feet.
    assert card(date(2026, 5, 10)) == (
        "Week 19 of 2026",
        "",
        "1.5",
        (
            "in 1 picking, 4 to 10 May",
            "all spinach",
            "season so far 1.5 lb",
            "0.09 lb per sq ft of the squares",
        ),
    )
    # A mixed bowl of about 8 oz, and a handful that nobody weighed.
    assert card(date(2026, 5, 16)) == (
        "Week 20 of 2026",
        "at least",
        "0.50",
        (
            "in 2 pickings, 11 to 17 May",
            "season so far at least 2.0 lb",
            "at least 0.13 lb per sq ft of the squares",
        ),
    )
