"""What pages say of a garden with one bed, one season and hardly a record: in its own number, and no more."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.pages.gardens import Parsed, html_of, only, said, written

GARDEN = """\
name: Doorstep Bed
beds:
  - {name: step, title: The doorstep bed, length: 3 squares, width: 3 squares}
"""
TREATED = """\
---
title: Sprayed
date: 2026-05-10
done:
  - {treat: spinosad, crop: garlic, product: spinosad}
---
"""


@pytest.fixture(scope="module")
def pages(tmp_path_factory: pytest.TempPathFactory) -> Parsed:
    """One radish of one ounce, and nobody told from which square."""
    files = {
        "garden.yaml": GARDEN,
        "2026/plan.yaml": "- {crop: radish, squares: B2, sow: Apr 20, plants: 1}\n",
        "2026/harvest.yaml": "- {date: 2026-05-30, crop: radish, weight: 1 oz, count: 1}\n",
    }
    return html_of(written(tmp_path_factory.mktemp("garden"), files))


@pytest.mark.parametrize(
    ("path", "where"),
    [
        ("2026/tally/index.html", ".standing .figure"),
        ("2026/tally/index.html", "#whole-narrow .d-line-name"),
        ("seasons/index.html", "#c-seasons-narrow .d-line-name"),
        ("seasons/index.html", "#seasons tr:nth-child(7) td"),
    ],
)
def test_a_light_season_weighs_the_same_on_every_page(pages: Parsed, path: str, where: str) -> None:
    assert "0.06" in said(only(pages[path], where)).split()


def test_one_bed_is_told_as_one(pages: Parsed) -> None:
    assert said(only(pages["your-place/index.html"], ".lead")).startswith(
        "One bed in one place: what it took and gave in 2026"
    )
    assert said(only(pages["2026/bulletins/index.html"], ".lead")) == (
        "One week with a record. A bulletin takes a minute to read out."
    )


def test_months_of_one_bed_lead_to_its_maps_by_their_names(pages: Parsed) -> None:
    section = only(pages["2026/index.html"], "section:has(> #months)")
    before, ahead = section.select(":scope > p")
    assert said(before) == "Nothing on record in the bed: January , February , March ."
    assert [one.get_text() for one in ahead.select("a")] == [
        *("June", "July", "August", "September", "October", "November", "December")
    ]
    assert len(section.select(".chapters > li")) == 2, "April and May"


def test_nothing_is_drawn_of_squares_that_nobody_told(pages: Parsed) -> None:
    section = only(pages["2026/tally/index.html"], "section:has(> #beds)")
    assert not section.select("svg")
    assert said(section).endswith("1 oz came with no square told, and stands in none.")
    rows = pages["2026/rows/index.html"]
    assert not rows.select("#t-grounds, [aria-labelledby=squares] svg")
    assert "dashed line" not in said(only(rows, "main")), "no drawing has one"


def test_one_season_alone_is_held_against_none(pages: Parsed) -> None:
    assert [one["id"] for one in pages["seasons/index.html"].select("main h2")] == ["totals"]


@pytest.fixture(scope="module")
def ahead(tmp_path_factory: pytest.TempPathFactory) -> Parsed:
    """Garlic whose wait nobody knows is carried into a season that is still to come."""
    files = {
        "garden.yaml": GARDEN,
        "2026/plan.yaml": "- {crop: garlic, tag: GA1, squares: A1, set out: Apr 1}\n",
        "2026/harvest.yaml": "- {date: 2026-05-30, crop: garlic, squares: A1, weight: 4 oz}\n",
        "2026/log/2026-05-10-sprayed.md": TREATED,
        "2027/plan.yaml": "- {crop: garlic, tag: GA1, squares: A1, carried from: 2026, until: Jul 1}\n",
        "2027/log/.keep": "",
    }
    return html_of(written(tmp_path_factory.mktemp("garden"), files))


def test_a_sign_that_no_map_shows_has_no_key(ahead: Parsed) -> None:
    months = only(ahead["2027/index.html"], "section:has(> #months)")
    assert not months.select("svg")
    assert "not to be picked" not in said(months)
    assert "not to be picked" in said(only(ahead["2026/index.html"], "section:has(> #months)"))


def test_a_season_ahead_has_no_line_and_no_visits(ahead: Parsed) -> None:
    page = ahead["seasons/index.html"]
    assert [one["data-name"] for one in page.select("#c-seasons-wide .d-panel")] == ["2026"]
    visits = next(row for row in page.select("#seasons tr") if said(row).startswith("Visits"))
    assert said(visits) == "Visits written up to come 1"


PLAN = "- {crop: radish, tag: RA1, squares: A1:C3, sow: Apr 20, until: May 20}\n"
LOG = """\
---
title: Sown
date: 2026-04-20
done:
  - {sow: radish, tag: RA1, squares: "A1:C3"}
  - {water: bed}
---
"""
COUNTED = "- {date: 2026-05-20, tag: RA1, weight: not weighed, count: 12}\n"


def of(folder: Path, **papers: str) -> Parsed:
    names = {"plan": "plan.yaml", "log": "log/2026-04-20-sown.md", "ledger": "harvest.yaml"}
    files = {f"2026/{names[paper]}": text for paper, text in papers.items()}
    return html_of(written(folder, {"garden.yaml": GARDEN, **files}))


def test_where_nothing_was_weighed_no_chart_and_no_heading_stands_over_nothing(tmp_path: Path) -> None:
    pages = of(tmp_path, plan=PLAN, log=LOG, ledger=COUNTED)
    tally = pages["2026/tally/index.html"]
    assert not tally.select("main svg")
    assert "≥" not in only(tally, "main").get_text()
    assert "One picking, not weighed; 12 pieces counted." in said(only(tally, "main"))
    assert [one["id"] for one in tally.select("details.cut")] == ["variety", "planting"], "these tell pieces"
    assert not pages["seasons/index.html"].select("main h2")
    assert not pages["sheets/poster/2026/index.html"].select("h3")
    assert said(only(pages["your-place/index.html"], ".lead")).startswith(
        "One bed in one place: what it took in"
    )
    rows = pages["2026/rows/index.html"]
    assert [one["id"] for one in rows.select("main h2, .cut")] == ["cuts", "work", "water", "sources"]
    assert "None of 2 lines of the log was timed." in said(rows)
    assert "The one line of watering tells no amount that can be reckoned." in said(rows)


@pytest.mark.parametrize(("where", "drawn"), [("", False), (", squares: A1", True)])
def test_a_ledger_that_tells_no_square_draws_no_bare_map(tmp_path: Path, where: str, drawn: bool) -> None:
    pages = of(tmp_path, ledger=f"- {{date: 2026-05-20, crop: radish{where}, weight: 6 oz}}\n")
    for path in ("index.html", "2026/index.html", "sheets/poster/2026/index.html"):
        assert bool(pages[path].select("svg.bedmap, svg.smallmap")) is drawn, path
    bed = pages["index.html"].select("h2[id^=bed-] a")
    assert [link["href"] for link in bed], "its page is still led to, and signs lead to its name"


def test_a_ledger_alone_promises_no_plan(tmp_path: Path) -> None:
    pages = of(tmp_path, ledger="- {date: 2026-05-20, crop: radish, weight: 6 oz}\n")
    season = pages["2026/index.html"]
    assert "Still to come: June" in said(season)
    assert not season.select("#papers")
    assert "Jobs to come" not in said(season)
    assert "Ledger as files" in said(season)
    assert [one["id"] for one in pages["2026/tally/index.html"].select("details.cut")] == ["crops", "weeks"]
    assert not pages["2026/rows/index.html"].select("#t-use"), "that no square was held is not known"
    for path in ("beds/step", "beds/step/08"):
        told = pages[f"2026/{path}/index.html"].select(".lead, .months li, .contact span")
        assert not [one for one in told if "planned" in said(one)], path


def test_bowls_alone_make_no_chart_of_crops(tmp_path: Path) -> None:
    pages = of(tmp_path, plan=PLAN, ledger="- {date: 2026-05-20, mixed: [radish, spinach], weight: 6 oz}\n")
    crops = only(pages["2026/tally/index.html"], "#crops")
    assert not crops.select("svg")
    assert crops.select("#t-crops")


def test_a_plan_alone_is_said_to_be_alone(tmp_path: Path) -> None:
    pages = of(tmp_path, plan=PLAN)
    for path in ("index.html", "2026/index.html", "2026/plants/RA1/index.html"):
        text = said(only(pages[path], "main"))
        assert "Of this season only the plan is on record" in text, path
        assert "unknown" not in text, path


def test_of_what_was_all_cured_that_is_said(tmp_path: Path) -> None:
    cured = "- {date: 2026-05-20, tag: RA1, weight: 6 oz, state: cured}\n"
    pages = of(tmp_path, plan=PLAN, log=LOG, ledger=cured)
    assert "all of it cured" in said(only(pages["2026/tally/index.html"], ".standing"))
    assert "A1:C3: all of it cured." in said(only(pages["2026/tally/index.html"], "#squares"))


def test_an_answer_does_not_stand_without_its_question(tmp_path: Path) -> None:
    """No row yield is printed for radishes."""
    pages = of(tmp_path, plan=PLAN, log=LOG, ledger=COUNTED.replace("not weighed", "6 oz"))
    poster = said(only(pages["sheets/poster/2026/index.html"], ".sums"))
    assert "Better than ordinary rows? Too little to tell." in poster


def test_a_crop_that_is_picked_is_not_told_to_have_gone_in_before(tmp_path: Path) -> None:
    pages = of(tmp_path, plan=PLAN, log=LOG, ledger=COUNTED)
    assert "Picked on 20 May: radishes." in said(only(pages["index.html"], "main"))


def test_the_sun_of_a_bed_that_is_lit_alike_is_told_once(tmp_path: Path) -> None:
    garden = GARDEN + "latitude: 40\n"
    files = {"garden.yaml": garden, "2026/harvest.yaml": COUNTED.replace("tag: RA1", "crop: radish")}
    section = only(html_of(written(tmp_path, files))["your-place/index.html"], "section:has(> #sun)")
    assert "in every square" in said(section)
    assert "darkest" not in said(section)


def test_a_garden_without_a_season_has_no_more_crops_than_none(tmp_path: Path) -> None:
    pages = html_of(written(tmp_path, {"garden.yaml": GARDEN}))
    assert said(only(pages["crops/index.html"], ".lead")).startswith("No crop is on record here yet; ")


def test_a_planting_without_a_variety_is_named_by_its_tag_on_its_crops_page(tmp_path: Path) -> None:
    pages = of(tmp_path, plan=PLAN, log=LOG, ledger=COUNTED)
    assert only(pages["crops/radish/index.html"], "#plantings tbody th a").get_text() == "RA1"
