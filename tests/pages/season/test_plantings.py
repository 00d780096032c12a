"""The pages of plantings: what happened, how long it took, what it gave, and how all that is known."""

from __future__ import annotations

from datetime import date
from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image

from tallybed.pages.frame.page import Link
from tallybed.pages.season import planting, plantings
from tallybed.pages.tables.tables import Table
from tallybed.reckoning.beds import histories_of
from tallybed.reckoning.year import Years
from tests.pages.gardens import (
    GARDEN,
    LEDGER,
    PLAN,
    Parsed,
    every,
    folder,
    html_of,
    only,
    rows,
    said,
    site_of,
    written,
)

PICKED = "2026/log/2026-05-10-first-bowl.md"
ENTRY = """\
---
title: A first bowl
date: 2026-05-10
done:
  - {thin: spinach, tag: SP1, leaving: 30}
photos:
  - {file: bowl.jpg, alt: A bowl of leaves, shows: sp1}
  - {file: bowl.jpg, alt: Leaves close by, shows: [okra, spinach]}
  - {file: bowl.jpg, alt: Carrot tops, shows: CA1}
  - {file: bowl.jpg, alt: The shed}
---
SP1 is ready.
"""


@pytest.fixture(scope="module")
def full(tmp_path_factory: pytest.TempPathFactory) -> Parsed:
    late_first = "".join(reversed(LEDGER.splitlines(keepends=True)))  # rows of a ledger stand in any order
    files = {PICKED: ENTRY, "2026/harvest.yaml": late_first}
    root = written(folder(tmp_path_factory.mktemp("garden")), files)
    photos = root / "content/2026/photos"
    photos.mkdir()
    picture = BytesIO()
    Image.new("RGB", (40, 30), "green").save(picture, "JPEG")
    (photos / "bowl.jpg").write_bytes(picture.getvalue())
    return html_of(root)


@pytest.fixture(scope="module")
def busy(tmp_path_factory: pytest.TempPathFactory) -> Parsed:
    """Two plantings of a crop, two in one square, tags that name a device, and a visit that only tells."""
    plan = PLAN.replace("OK1", "COM1") + (
        "- {crop: spinach, tag: SP2, squares: back/A2, sow: Apr 5, until: Jun 1}\n"
        "- {crop: radish, tag: LPT2, squares: back/A1, sow: Apr 20, until: May 15, among: CA1}\n"
    )
    visits = {
        "2026/log/2026-04-25-rain.md": (
            "---\ntitle: Rain\ndate: 2026-04-25\n---\nCA1 is up; CA12 is no tag of ours.\n"
        ),
        "2026/log/2026-04-28-looked.md": (
            "---\ntitle: Looked\ndate: 2026-04-28\ndone:\n"
            "  - {up: spinach, squares: 'front/A1, back/A2'}\n---\nUp.\n"
        ),
        "2026/log/2026-05-02-room.md": (
            "---\ntitle: Room\ndate: 2026-05-02\ndone:\n"
            "  - {move: radish, tag: LPT2, squares: back/A1, to: front/C1, plants: 2, because: crowded}\n"
            "---\nMoved.\n"
        ),
    }
    return html_of(written(folder(tmp_path_factory.mktemp("busy")), {"2026/plan.yaml": plan, **visits}))


def test_every_planting_is_listed_and_has_a_page(full: Parsed) -> None:
    listed = {str(one["href"]) for one in full["2026/plants/index.html"].select("table#plantings th a")}
    assert listed == {f"{key}/index.html" for key in ("SP1", "CA1", "BB1", "OK1")}
    there = {path for path in full.texts if path.startswith("2026/plants/")} - {"2026/plants/index.html"}
    assert there == {f"2026/plants/{one}" for one in listed}


def test_the_list_tells_days_squares_and_weight(full: Parsed) -> None:
    # 1 lb 8 oz from four squares of one foot; one picking of it was not weighed.
    assert rows(full["2026/plants/index.html"], "plantings")[0] == [
        "spinach ‘Broad’ (SP1) A1:B2 of the front bed",
        "since 6 April planned until 1 June",
        "1.50 at least",
        "0.38 at least",
    ]


def test_a_life_is_told_day_by_day(full: Parsed) -> None:
    page = full["2026/plants/SP1/index.html"]
    assert said(only(page, "h1")) == "Spinach ‘Broad’ (SP1) in 2026"
    assert said(only(page, ".lead")) == "In A1:B2 of the front bed since 6 April, as of 20 May 2026."
    assert rows(page, "moments") == [
        ["6 April", "Sown", "A1:B2 of the front bed", "seen"],
        ["10 May", "Thinned 30 left", "A1:B2 of the front bed", "seen"],
        ["10 May", "First picked", "", "in the ledger"],
        ["16 May", "Last picked so far", "", "in the ledger"],
        ["1 June", "Cleared", "A1:B2 of the front bed", "planned"],
    ]
    assert "By the plan: sow 5 April in A1:B2 of the front bed, clear 1 June." in said(only(page, ".head"))


def test_a_move_is_told_with_where_it_went(busy: Parsed) -> None:
    (path,) = (one for one in busy.texts if one.startswith("2026/plants/") and "lpt2" in one.casefold())
    (moved,) = (row for row in rows(busy[path], "moments") if row[0] == "2 May")
    assert moved[1] == "Moved in part 2 plants; to C1 of the front bed; crowded"


def test_the_gardens_own_days_are_told_in_its_own_words_behind_a_colon(tmp_path: Path) -> None:
    """Behind a full stop they would begin a sentence with a small letter."""
    own = {"crops.yaml": "- {crop: spinach, days: 40, source: our own rows}\n"}
    page = html_of(written(folder(tmp_path), own))["2026/plants/SP1/index.html"]
    assert "The crop’s 40 days: this garden’s own: our own rows" in said(page)


def test_days_stand_beside_the_printed_ones(full: Parsed) -> None:
    (picking, last, bed) = rows(full["2026/plants/SP1/index.html"], "stretches")
    assert picking[:2] == ["From sowing to the first picking", "34"], "6 April to 10 May"
    assert picking[2].isdigit(), "days used for spinach"
    notes = said(only(full["2026/plants/SP1/index.html"], "section:has(> #days)"))
    assert f"The crop’s {picking[2]} days: " in notes, "what that figure rests on"
    assert last[:2] == ["From the first picking to the last", "6 so far"]
    assert bed[:2] == ["In the bed", "44 so far"]


def test_what_it_gave_is_told_with_its_gaps(full: Parsed) -> None:
    page = full["2026/plants/SP1/index.html"]
    gave = only(page, "section[aria-labelledby=gave]")
    told = said(gave)
    assert told.startswith("What it gave at least 1.5 lb from two pickings.")
    assert "One picking was not weighed, so the true total is more." in told
    assert "That is at least 0.38 lb per sq ft of its squares (4 sq ft)." in told
    first, second = (row[0] for row in rows(page, "pickings"))
    assert first.startswith("10 May")
    assert second == "16 May a handful", "each with its day, and what was noted"
    assert gave.select("details table#pickings"), "the rows are folded away"


def test_visits_that_tell_of_it_are_listed_with_their_photographs(full: Parsed) -> None:
    page = full["2026/plants/SP1/index.html"]
    visits = only(page, "section[aria-labelledby=visits]")
    assert [said(one) for one in visits.select(".what a")] == ["Spinach in", "A first bowl"]
    assert [image["alt"] for image in visits.select("img")] == ["A bowl of leaves", "Leaves close by"], (
        "those that show it, by its tag or its crop, and no other of the visit"
    )
    assert {said(one) for one in visits.select(".note a")} == {"A first bowl, 10 May"}
    carrots = full["2026/plants/CA1/index.html"]
    assert [said(one) for one in carrots.select("section[aria-labelledby=visits] .what a")] == ["Carrots in"]
    assert [image["alt"] for image in carrots.select("img")] == ["Carrot tops"], "its tag is enough"
    entry = full["2026/log/05-10-first-bowl/index.html"]
    assert len(entry.select("main img")) == 4, "the visit itself shows them all"


def test_a_visit_that_names_the_tag_in_its_words_tells_of_it(busy: Parsed) -> None:
    page = busy["2026/plants/CA1/index.html"]
    visits = [said(one) for one in page.select("section[aria-labelledby=visits] .what a")]
    assert visits == ["Carrots in", "Rain"]
    assert "Rain" not in said(only(busy["2026/plants/SP1/index.html"], "main"))


def test_of_a_visit_it_tells_what_was_done_to_this_planting_alone(full: Parsed) -> None:
    """That visit also weeded the back bed."""
    sown = full["2026/plants/SP1/index.html"].select("section[aria-labelledby=visits] .gist")[0]
    assert said(sown) == "spinach sown"


def test_where_it_stood_is_told_with_how_that_is_known(full: Parsed) -> None:
    assert rows(full["2026/plants/SP1/index.html"], "stood") == [
        ["A1:B2 of the front bed", "6 April to 16 May", "implied seen on 1 day"],
        ["A1:B2 of the front bed", "17 to 20 May", "supposed"],
        ["A1:B2 of the front bed", "21 to 31 May", "planned"],
    ]


def test_a_planting_that_never_came_says_so(full: Parsed) -> None:
    head = said(only(full["2026/plants/OK1/index.html"], ".head"))
    assert "It was dropped on 22 May: rotted." in head


def test_tables_of_the_site_lead_to_plantings(full: Parsed) -> None:
    def leads(path: str, ident: str) -> set[str]:
        return {str(one["href"]) for one in full[path].select(f"table#{ident} a")}

    assert "../../plants/SP1/index.html" in leads("2026/beds/front/index.html", "holders")
    assert "../../../plants/SP1/index.html" in leads("2026/beds/front/04/index.html", "changes")
    assert "../plants/SP1/index.html" in leads("2026/tally/index.html", "t-planting")
    assert "SP1/index.html" in leads("2026/plants/index.html", "plantings")
    assert "../../plants/SP1/index.html" in leads("2026/log/04-06-spinach-in/index.html", "done")
    assert "../../2026/plants/SP1/index.html" in leads("crops/spinach/index.html", "plantings")


def test_a_line_about_two_plantings_leads_to_each(busy: Parsed) -> None:
    page = busy["2026/log/04-28-looked/index.html"]
    assert [(said(one), one["href"]) for one in page.select("table#done a")] == [
        ("SP1", "../../plants/SP1/index.html"),
        ("SP2", "../../plants/SP2/index.html"),
    ]


def test_two_in_the_same_squares_name_each_other(busy: Parsed) -> None:
    assert "It shared squares with radish (LPT2) (21 April to 14 May), and those count whole." in said(
        only(busy["2026/plants/CA1/index.html"], "main")
    )


def test_a_tag_that_names_a_device_has_another_folder(busy: Parsed) -> None:
    """Some systems cannot hold a folder of that name (Microsoft, Naming Files, Paths, and Namespaces)."""
    made = {path.split("/")[2] for path in busy.texts if path.startswith("2026/plants/")}
    assert {"COM1-", "LPT2-", "CA1"} <= made
    assert not {"COM1", "LPT2"} & made


def test_without_a_plan_a_log_and_a_ledger_there_is_no_planting(tmp_path: Path) -> None:
    years = site_of(folder(tmp_path, plan=False, log=False, ledger=False))
    assert [page for year in years.all for page in (*plantings.pages(year), *planting.pages(year))] == []
    assert [plantings.plantings_link(year) for year in years.all] == [None]


def test_what_the_ledger_alone_knows_has_a_page_that_says_so(tmp_path: Path) -> None:
    years = site_of(folder(tmp_path, plan=False, log=False))
    pages = {page.path: page for year in years.all for page in planting.pages(year)}
    page = pages["2026/plants/spinach/index.html"]
    assert page.data["plan"] == "", "there is no plan to be missing from"
    told = page.data["moments"]
    assert isinstance(told, Table)
    assert [row.cells[1].text for row in told.rows][:2] == ["First recorded", "First picked"]


@pytest.mark.parametrize("closed", [(), ("2025",), ("2025", "2026")])
def test_what_was_carried_over_leads_to_where_it_was_planted(closed: tuple[str, ...], tmp_path: Path) -> None:
    """Fails where a season whose books are closed does not lead on to one that is still open."""
    plans = {
        "2025/plan.yaml": """\
- {crop: garlic, tag: GA8, squares: back/A2, set out: Oct 10}
- {crop: garlic, tag: GA9, squares: front/A1, set out: Oct 10}
""",
        "2026/plan.yaml": "- {crop: garlic, tag: GA1, squares: back/A2, carried from: 2025, until: Jul 10}\n",
    }
    told = "".join(f"  {name}: {{closed: yes}}\n" for name in closed)
    plans["garden.yaml"] = GARDEN + (f"seasons:\n{told}" if told else "")
    years = site_of(written(folder(tmp_path, plan=False, log=False, ledger=False), plans))
    pages = {page.path: page for year in years.all for page in planting.pages(year)}
    page = pages["2026/plants/GA1/index.html"]
    assert page.data["earlier"] == (Link("garlic (GA8) in 2025", "2025/plants/GA8/index.html"),)
    assert page.data["later"] == ()
    before = pages["2025/plants/GA8/index.html"].data
    assert before["earlier"] == ()
    assert before["later"] == (Link("garlic (GA1) in 2026", "2026/plants/GA1/index.html"),)
    assert pages["2025/plants/GA9/index.html"].data["later"] == (), "it stood in another square"
    assert pages["2025/plants/GA8/index.html"].data["plan"] == (
        "By the plan: set out 10 October in A2 of the back bed, there to the season’s end."
    )


def test_what_stands_for_years_leads_to_where_it_was_planted_and_to_each_later_year(tmp_path: Path) -> None:
    row = "- {{crop: kale, tag: KA1, squares: back/A2, {how}}}\n"
    files = {
        "2024/plan.yaml": row.format(how="set out: May 1"),
        "2025/plan.yaml": row.format(how="carried from: 2024"),
        "2026/plan.yaml": row.format(how="carried from: 2024"),
    }
    years = site_of(written(folder(tmp_path, plan=False, log=False, ledger=False), files))
    pages = {page.path: page.data for year in years.all for page in planting.pages(year)}
    links = {
        name: Link(f"kale (KA1) in {name}", f"{name}/plants/KA1/index.html")
        for name in ("2024", "2025", "2026")
    }
    found = {name: (pages[one.to]["earlier"], pages[one.to]["later"]) for name, one in links.items()}
    assert found == {
        "2024": ((), (links["2025"], links["2026"])),
        "2025": ((links["2024"],), (links["2026"],)),
        "2026": ((links["2024"],), ()),
    }


def test_a_season_over_new_year_is_called_one_and_days_have_their_years(tmp_path: Path) -> None:
    garden = GARDEN.replace("{start: Mar 1, end: Oct 31}", "{start: Sep 1, end: May 31}")
    log = "---\ntitle: In\ndate: 2026-09-20\ndone: [{sow: kale, tag: KA1, squares: front/A1}]\n---\n"
    gone = "---\ntitle: Out\ndate: 2027-01-06\ndone: [{clear: kale, tag: KA1}]\n---\n"
    files = {"garden.yaml": garden, "2026/log/2026-09-20-in.md": log, "2026/log/2027-01-06-out.md": gone}
    years = site_of(written(folder(tmp_path, plan=False, log=False, ledger=False), files))
    (page,) = (one for one in every(planting.pages, years) if one.path == "2026/plants/KA1/index.html")
    assert page.title == "Kale (KA1) in season 2026"
    assert page.data["lead"] == "In A1 of the front bed from 20 September 2026 to 6 January 2027."


def test_what_stood_before_is_not_said_to_be_picked_for_the_first_time(tmp_path: Path) -> None:
    plan = "- {crop: kale, tag: KA1, squares: back/A2, carried from: 2025}\n"
    log = "---\ntitle: Looked\ndate: 2026-04-20\ndone: [{observe: kale, tag: KA1}]\n---\n"
    ledger = "- {date: 2026-04-18, tag: KA1, weight: 3 oz}\n"
    files = {"2026/plan.yaml": plan, "2026/log/2026-04-20-in.md": log, "2026/harvest.yaml": ledger}
    years = site_of(written(folder(tmp_path, plan=False, log=False, ledger=False), files))
    (page,) = (one for one in every(planting.pages, years) if one.path == "2026/plants/KA1/index.html")
    assert "First picked this season" in [row.cells[1].text for row in page.data["moments"].rows]


def test_days_between_a_loss_and_the_next_sowing_are_told(tmp_path: Path) -> None:
    """Fails where a bean lost and sown again later is told as one stretch of days in the bed."""
    lines = {"05-20": "sow", "06-10": "lost", "06-12": "resow", "08-20": "clear"}
    log = {
        f"2026/log/2026-{on}-b.md": f"---\ntitle: B\ndate: 2026-{on}\n"
        f"done:\n  - {{{verb}: bush bean, tag: BB1, squares: front/A1}}\n---\n"
        for on, verb in lines.items()
    }
    (year,) = site_of(written(folder(tmp_path, plan=False, log=False, ledger=False), log)).all
    (page,) = planting.pages(year)
    days = "from 20 May to 20 August 2026, but not from 10 June to 12 June"
    assert page.data["lead"] == f"In A1 of the front bed {days}."
    (history,) = histories_of(year).values()
    assert plantings.in_bed(year, history)[0] == "20 May to 20 August, but not from 10 June to 12 June"


def test_two_lines_with_as_many_plants_are_told_apart(tmp_path: Path) -> None:
    """Fails where 16 plants sown in each of two squares are told as 16 in both."""
    lines = "".join(
        f"  - {{sow: carrot, tag: CA1, squares: front/{one}, plants: 16}}\n" for one in ("A1", "B1")
    )
    log = f"---\ntitle: In\ndate: 2026-04-20\ndone:\n{lines}---\n"
    root = written(folder(tmp_path, plan=False, log=False, ledger=False), {"2026/log/2026-04-20-in.md": log})
    (page,) = (page for year in site_of(root).all for page in planting.pages(year))
    told = [(row.cells[1].text, row.cells[1].note, row.cells[2].text) for row in page.data["moments"].rows]
    assert told == [("Sown", "16 plants", f"{one} of the front bed") for one in ("A1", "B1")]


@pytest.mark.parametrize(
    ("day", "last", "days"),
    [
        (date(2026, 8, 1), "Last picked so far", "so far"),
        (date(2026, 12, 1), "Last picked this season", "to the season’s end"),
    ],
)
def test_what_stands_on_is_told_so_far_until_its_season_is_over(
    day: date, last: str, days: str, tmp_path: Path
) -> None:
    """Fails where a season that is over goes on saying “so far”."""
    log = "---\ntitle: In\ndate: 2026-04-20\ndone: [{sow: kale, tag: KA1, squares: front/A1}]\n---\n"
    ledger = "".join(f"- {{date: 2026-0{month}-18, tag: KA1, weight: 3 oz}}\n" for month in (6, 7))
    files = {"2026/log/2026-04-20-in.md": log, "2026/harvest.yaml": ledger}
    root = written(folder(tmp_path, plan=False, log=False, ledger=False), files)
    (year,) = Years(garden=site_of(root).garden, today=day).all
    (page,) = planting.pages(year)
    assert last in [row.cells[1].text for row in page.data["moments"].rows]
    assert days in [row.cells[1].note for row in page.data["stretches"].rows]


def test_a_planting_is_drawn_in_its_squares_alone(full: Parsed) -> None:
    page = full["2026/plants/CA1/index.html"]
    strips = page.select("svg.strip")
    assert [one["id"] for one in strips] == ["strip-back-wide", "strip-back-narrow"]
    for one in strips:
        assert [said(name) for name in one.select(".d-ruled .d-name")] == ["A1:B1"]
        assert {str(bar["data-planting"]) for bar in one.select(".d-planting-strip")} == {"CA1"}
    assert full["2026/plants/OK1/index.html"].select("svg.strip"), "it had its square for two days"


def test_what_stays_in_is_planned_to_the_seasons_end_and_no_longer_once_that_is_past(tmp_path: Path) -> None:
    plan = "- {crop: kale, tag: KA1, squares: front/A1, sow: Apr 20}\n"
    log = "---\ntitle: In\ndate: 2026-04-20\ndone: [{sow: kale, tag: KA1, squares: front/A1}]\n---\n"
    root = folder(tmp_path, log=False, ledger=False)
    garden = site_of(written(root, {"2026/plan.yaml": plan, "2026/log/2026-04-20-in.md": log})).garden
    told = []
    for day in (date(2026, 6, 1), date(2027, 3, 1)):
        (year,) = Years(garden=garden, today=day).all
        told.append(plantings.in_bed(year, histories_of(year)[year.plantings[0].key]))
    assert told == [("since 20 April", "planned to the season’s end"), ("since 20 April", "")]
