"""What each kind of page shows of a small garden, figure by figure."""

from __future__ import annotations

from pathlib import Path

import pytest
from lxml.html import document_fromstring

from tallybed.pages.tables import done
from tallybed.pages.wording import sentences
from tests.pages.gardens import GARDEN, Parsed, folder, html_of, only, rows, said, written

pytestmark = pytest.mark.usefixtures("few_crops")


@pytest.fixture(scope="module")
def full(tmp_path_factory: pytest.TempPathFactory) -> Parsed:
    return html_of(folder(tmp_path_factory.mktemp("garden")))


def test_home_shows_the_running_tally_and_what_it_leaves_out(full: Parsed) -> None:
    page = full["index.html"]
    assert said(only(page, "h1")) == "The beds on 20 May 2026"
    # 1 lb 8 oz + about 8 oz + 6 oz = 38 oz = 2.375 lb, over 8 + 8 squares of one foot: 0.148 lb
    assert said(only(page, ".sum")) == "at least 2.4 lb"
    assert said(only(page, ".of")) == "picked so far in 2026, from 16 sq ft of squares"
    assert [said(item) for item in page.select(".per")] == ["at least 0.15 lb per sq ft of the squares"]
    assert said(only(page, ".caveat")) == (
        "One picking was not weighed, so the true total is more. 8 oz of it was estimated, not weighed."
    )


def test_home_shows_each_bed_today_and_the_newest_entry(full: Parsed) -> None:
    page = full["index.html"]
    assert [said(one) for one in page.select(".beds h2")] == ["The front bed", "The back bed"]
    assert [len(one.select("svg.bedmap")) for one in page.select(".beds section")] == [2, 2]
    assert only(page, ".beds h2 a")["href"] == "2026/beds/front/index.html"
    assert said(only(page, ".newest h2")) == "Carrots in"
    assert said(only(page, ".newest .prose")) == "See the last visit ."


def test_home_lists_the_week_ahead(tmp_path: Path) -> None:
    root = folder(tmp_path)
    plan = (root / "content/2026/plan.yaml").read_text(encoding="utf-8")
    plan += "- {crop: beet, tag: BE1, squares: back/A3, sow: May 24, until: Aug 1}\n"
    page = html_of(written(root, {"2026/plan.yaml": plan}))["index.html"]
    assert said(page.select("section.ahead h3")[0]) == "20 to 27 May"
    assert "24 May sow beets , A3 of the back bed" in [said(item) for item in page.select(".due li")]


def test_home_tells_first_harvests_and_thinning(tmp_path: Path) -> None:
    root = folder(tmp_path)
    plan = "- {crop: radish, tag: RA1, squares: back/A2, sow: Apr 21, until: Jun 20, plants: 16}\n"
    log = """---
title: Radishes
date: 2026-04-22
done:
  - {sow: radish, tag: RA1, squares: back/A2, seeds: 30}
---
"""
    up = "---\ntitle: Up\ndate: 2026-05-15\ndone: [{up: radish, tag: RA1, squares: back/A2}]\n---\n"
    page = html_of(
        written(
            root,
            {
                "2026/plan.yaml": plan,
                "2026/log/2026-04-22-radishes.md": log,
                "2026/log/2026-05-15-up.md": up,
                "2026/harvest.yaml": "- {date: 2026-05-20, crop: spinach, weight: 1 lb}\n",
            },
        )
    )["index.html"]
    # 30 days from sowing by the library: 22 May; seen up on 15 May, thinned a week later
    assert [said(item) for item in page.select(".due li")] == [
        "22 May thin radishes , A2 of the back bed to 16 plants",
        "22 May first harvest of radishes , A2 of the back bed",
        "20 June clear radishes , A2 of the back bed",
    ]
    assert "nothing falls due" not in said(only(page, "section.ahead"))


def test_a_month_says_the_same_in_its_table_as_on_its_map(full: Parsed) -> None:
    page = full["2026/beds/front/index.html"]
    assert (
        said(only(page, ".head .lead")) == "May. As of 20 May 2026. Days after 20 May are shown as planned."
    )
    assert rows(page, "holders") == [
        ["A1:B2", "spinach ‘Broad’ (SP1)", "all month", "36", "bearing", "implied"],
        ["C1:D2", sentences.NOTHING_ON_RECORD],
    ]
    assert (
        len(page.select("figure.hero svg.bedmap-flat"))
        == len(page.select("figure.hero svg.bedmap-upright"))
        == 1
    )


def test_a_planned_month_looks_and_says_planned(full: Parsed) -> None:
    page = full["2026/beds/front/06/index.html"]
    assert sentences.PLANNED_MONTH in said(only(page, ".head .lead"))
    assert page.select("figure.hero.planned svg.kind-planned")
    holders = rows(page, "holders")
    assert holders[0][:3] == ["A1:B2", "bean, bush (BB1)", "5 to 30 June"]
    assert {row[-1] for row in holders if len(row) > 2} == {"planned"}
    listed = {said(item): item["class"] for item in page.select("nav.at-the-map .months li")}
    assert listed["June planned"] == ["planned"]
    assert listed["May under way"] == ["running"]
    assert listed["April"] == ["recorded"]


def test_a_month_leads_to_its_neighbours_and_to_the_other_bed(full: Parsed) -> None:
    page = full["2026/beds/front/04/index.html"]
    assert [link["href"] for link in page.select("nav.neighbours a")] == [
        "../03/index.html",
        "../index.html",
    ]
    assert only(page, ".others a")["href"] == "../../back/04/index.html"
    first = full["2026/beds/front/03/index.html"]
    assert [link["rel"] for link in first.select("nav.neighbours a")] == [["next"]]
    assert only(page, "nav.at-the-map [aria-current=page]").get_text(strip=True) == "April"


def test_changes_of_a_month(full: Parsed) -> None:
    assert rows(full["2026/beds/front/04/index.html"], "changes") == [
        ["6 April", "sown seen", "spinach ‘Broad’ (SP1) A1:B2"]
    ]


def test_an_entry_tells_its_work_its_squares_and_its_neighbours(full: Parsed) -> None:
    page = full["2026/log/04-06-spinach-in/index.html"]
    assert said(only(page, ".lead")) == "6 April 2026 , by the Monday pair"
    assert rows(page, "done") == [
        ["Sown", "spinach (SP1)", "A1:B2 of the front bed"],
        ["Weeded", "bed 10 minutes × 2 people", "A1:C2, A3:B3 of the back bed"],
    ]
    assert said(only(page, "section .note")) == "20 person-minutes in all, where it was timed."
    assert len(page.select(".touched svg.smallmap-flat")) == 2
    assert len(page.select(".touched svg.smallmap-upright")) == 2, "as the large maps, for narrow pages"
    assert said(only(page, "#touched-0-flat-title")) == "The front bed, 6 April 2026: touched A1:B2"
    assert [link["href"] for link in page.select("nav.neighbours a")] == ["../04-21-carrots-in/index.html"]
    assert only(page, ".prose a")["href"] == "../../../crops/carrot/index.html"
    assert [one.name for one in page.select(".prose h2, .prose h3")] == ["h2"]


def test_a_treatment_brings_its_notice(full: Parsed) -> None:
    notices = [said(one) for one in full["2026/log/04-21-carrots-in/index.html"].select(".caution")]
    wait = "soap spray in A1:D2 of the front bed: first day to pick, 21 April 2026."
    assert notices == [f"Take care. {wait}", f"Take care. {done.TREATED}"]
    assert not full["2026/log/04-06-spinach-in/index.html"].select(".caution")


def test_the_tally_counts_every_picking_by_every_cut(full: Parsed) -> None:
    page = full["2026/tally/index.html"]
    assert rows(page, "t-crops") == [
        ["spinach", "≥ 1.50", "≥ 1.50"],
        ["mixed bowl: radishes and spinach", "0.50", "0.50"],
        ["radishes", "0.38", "0.38"],
        ["All crops", "≥ 2.38", "≥ 2.38"],
        ["Running total", "≥ 2.38", "≥ 2.38"],
    ]
    assert rows(page, "t-weeks") == [
        ["4 to 10 May week 19", "1.50", "1.50", "1", ""],
        ["11 to 17 May week 20", "≥ 0.50", "≥ 2.00", "2", "1"],
        ["18 to 24 May week 21", "0.38", "≥ 2.38", "1", ""],
    ]
    assert rows(page, "t-destination") == [
        ["food pantry", "1.50", "", "1", "", ""],
        ["not told", "≥ 0.88", "12", "3", "1", "0.50"],
    ]
    assert rows(page, "t-bed")[-1] == ["not told", "0.88", "12", "2", "", "0.50"]
    # 1 lb 8 oz over A1:A2 is 0.75 lb each; the unweighed picking of SP1 came from its four squares
    assert rows(page, "t-squares-front") == [
        ["1", "≥ 0.75", "not weighed", "–", "–"],
        ["2", "≥ 0.75", "not weighed", "–", "–"],
    ]
    assert rows(page, "t-squares-back")[-1] == ["3", "–", "–", "no square"]
    assert sentences.MIXED_NOTE in said(only(page, "main"))


def test_the_running_total_ends_in_the_seasons_total(tmp_path: Path) -> None:
    """Else the largest figure of the table is that of one month."""
    rows_of = (
        "06-20, crop: radish, weight: 1 lb",
        "07-20, crop: radish, weight: 2 lb",
        "07-21, crop: kale, weight: 4 lb",
    )
    ledger = "".join(f"- {{date: 2026-{row}}}\n" for row in rows_of)
    page = html_of(written(tmp_path, {"garden.yaml": GARDEN, "2026/harvest.yaml": ledger}))
    assert rows(page["2026/tally/index.html"], "t-crops") == [
        ["kale", "", "4.00", "4.00"],
        ["radishes", "1.00", "2.00", "3.00"],
        ["All crops", "1.00", "6.00", "7.00"],
        ["Running total", "1.00", "7.00", "7.00"],
    ]


def test_what_was_weighed_again_is_told_apart_from_the_total(tmp_path: Path) -> None:
    """Else the page explains the wrong weight, or leaves a reader to wonder where the ledger's rows went."""
    fresh = "- {{date: {}-07-18, crop: onion-bulb, tag: ON1, weight: {}}}\n"
    cured = (
        "- {{date: {0}-07-18, crop: onion-bulb, tag: ON1, state: cured, weighed: {0}-08-15, weight: {1}}}\n"
    )
    ledgers = {
        "2023": fresh.format(2023, "1 lb 4 oz"),
        # Cured alone is all that the picking weighed, so it counts and there is nothing to explain.
        "2024": cured.format(2024, "1 lb"),
        "2025": fresh.format(2025, "1 lb 4 oz") + cured.format(2025, "1 lb"),
        "2026": fresh.format(2026, "4 lb") + cured.format(2026, "1 lb") + cured.format(2026, "1 lb 8 oz"),
    }
    onions = "- {crop: onion-bulb, tag: ON1, squares: back/A1:B1, set out: Apr 5, until: Jul 20}\n"
    files = {f"{year}/plan.yaml": onions for year in ledgers}
    files |= {f"{year}/harvest.yaml": text for year, text in ledgers.items()}
    pages = html_of(written(tmp_path, {"garden.yaml": GARDEN, **files}))
    notes = {
        year: [said(one) for one in pages[f"{year}/tally/index.html"].select(".note")] for year in ledgers
    }
    told = {year: [note for note in found if "cured or dried" in note] for year, found in notes.items()}
    why = "in the ledger but in no total, because the same picking counts by another weight: "
    why += "fresh where it was weighed fresh, else cured."
    assert told == {
        "2023": [],
        "2024": [],
        "2025": [f"One weighing of cured or dried produce (1.0 lb) is {why}"],
        "2026": [f"Two weighings of cured or dried produce (2.5 lb) are {why}"],
    }


def test_a_crop_shows_what_it_gave_here_and_the_questions_about_it(full: Parsed) -> None:
    spinach = full["crops/spinach/index.html"]
    history = said(only(spinach, "section[aria-labelledby=gave]"))
    assert "at least 1.5 lb from two pickings." in history
    assert "It was also in one mixed bowl, whose weight nobody split." in history
    # 1.5 lb over four squares of one square foot
    assert [row for row in rows(spinach, "plantings") if "2026" in row] == [
        [
            "‘Broad’ (SP1) A1:B2 of the front bed",
            "2026",
            "since 6 April planned until 1 June",
            "1.50 at least",
            "0.38 at least",
        ]
    ]
    assert said(only(full["crops/carrot/index.html"], ".asked li")) == (
        "Why so few carrots? asked by a visitor, 18 May 2026"
    )
    assert sentences.NO_HISTORY in said(only(full["crops/leek/index.html"], "main"))


def test_what_styles_a_kind_of_page_styles_no_part_of_one(full: Parsed) -> None:
    """A list that bore the class of the page would be set as the whole page is, and the page as the list."""
    kinds: set[str] = set()
    worn: set[str] = set()
    for text in full.texts.values():
        page = document_fromstring(text)
        kinds |= set(str(page.xpath("string(/html/body/@class)")).split()[:1])
        worn |= set(" ".join(page.xpath("/html/body/descendant::*/@class")).split())
    assert len(kinds) > 10
    assert kinds & worn == set()


def test_every_source_cited_is_at_the_foot_of_the_page(full: Parsed) -> None:
    page = full["crops/spinach/index.html"]
    cited = {str(link["href"]) for link in page.select(".care sup a")}
    listed = {f"#{item['id']}" for item in page.select(".sources li")}
    assert cited == listed
    assert len(listed) > 5
    assert "from memory" in said(only(page, "main"))
    assert "common practice, no source" in said(only(page, "main"))


def test_the_plan_lists_its_plantings_and_says_what_was_dropped(full: Parsed) -> None:
    page = full["2026/plants/index.html"]
    first, *_others = rows(page, "plantings")
    assert first[0] == "spinach ‘Broad’ (SP1) A1:B2 of the front bed"
    assert rows(page, "meant")[0] == [
        "spinach ‘Broad’ (SP1)",
        "sow 5 April, clear 1 June 4 in apart, 36 plants",
    ]
    stood, meant = [said(row) for row in page.select("tr.dropped")]
    assert stood.startswith("okra (OK1) C1 of the back bed since 20 May planned until 22 May")
    assert meant == "okra (OK1) sow 20 May, clear 1 September 12 in apart; dropped 22 May: rotted"


def test_a_photograph_is_shown_with_its_description(tmp_path: Path) -> None:
    from PIL import Image

    root = folder(tmp_path)
    (root / "content/2026/photos").mkdir()
    Image.new("RGB", (40, 30), "green").save(root / "content/2026/photos/row.png")
    entry = (
        "---\ntitle: Row\ndate: 2026-04-25\nphotos:\n  - {file: row.png, alt: One green row}\n---\nA row.\n"
    )
    page = html_of(written(root, {"2026/log/2026-04-25-row.md": entry}))["2026/log/04-25-row/index.html"]
    picture = only(page, "figure img")
    assert (picture["alt"], picture["width"], picture["height"]) == ("One green row", "40", "30")


NEXT = {
    "garden.yaml": """\
name: Winter Garden
latitude: 41
longitude: -80
time zone: America/New_York
units: kilograms
season: {start: Sep 1, end: May 31}
seasons:
  2026: {closed: yes, note: A dry one.}
beds:
  - {name: long, title: Long, length: 4 squares, width: 2 squares}
""",
    "2026/plan.yaml": "- {crop: garlic, tag: GA1, squares: A1:B2, set out: Oct 10, until: May 20}\n",
    "2026/log/2027-05-20-done.md": """\
---
title: Done
date: 2027-05-20
done: [{clear: garlic, tag: GA1}]
---
""",
    "2026/harvest.yaml": "- {date: 2027-05-20, tag: GA1, weight: 2 kg}\n",
    "2027/plan.yaml": "- {crop: leek, tag: LK1, squares: A1:A2, sow: Sep 10, until: May 1}\n",
}


def test_between_seasons_the_final_tally_and_the_plan_to_come(tmp_path: Path) -> None:
    pages = html_of(written(tmp_path, NEXT))
    home = pages["index.html"]
    assert said(only(home, "h1")) == "Season 2026 is over"
    assert said(only(home, ".sum")) == "2.0 kg"
    assert said(only(home, ".of")).startswith("picked in season 2026, in all")
    assert [said(one) for one in home.select(".coming p")] == [
        "Season 2027 . It begins on 1 September 2027 and ends on 31 May 2028.",
        "One planting of one crop. Plantings of 2027",
    ]
    assert len(home.select(".coming .months .planned")) == 9
    assert not home.select(".ahead")
    # months of the season's later year keep that year in their address
    assert "2026/beds/long/2027-02/index.html" in pages
    assert "2026/beds/long/09/index.html" in pages
    assert "2026/log/2027-05-20-done/index.html" in pages
    assert "closed" in said(only(pages["2026/index.html"], ".lead"))
    assert said(only(pages["seasons/index.html"], "#seasons tbody")).count("closed") == 1


def test_without_any_season_the_first_page_says_so(tmp_path: Path) -> None:
    garden = NEXT["garden.yaml"].replace("seasons:\n  2026: {closed: yes, note: A dry one.}\n", "")
    pages = html_of(written(tmp_path, {"garden.yaml": garden}))
    assert said(only(pages["index.html"], ".unknown")) == sentences.NO_SEASON
    assert said(only(pages["seasons/index.html"], ".lead")) == sentences.NO_SEASON


def test_empty_papers_are_said_to_be_empty(tmp_path: Path) -> None:
    root = folder(tmp_path, plan=False, log=False, ledger=False)
    written(root, {"2026/plan.yaml": "[]\n", "2026/harvest.yaml": "[]\n"})
    (root / "content/2026/log").mkdir()
    pages = html_of(root)
    assert said(only(pages["2026/plants/index.html"], ".lead")) == sentences.EMPTY_PLAN
    assert said(only(pages["2026/log/index.html"], ".lead")) == sentences.EMPTY_LOG
    assert said(only(pages["2026/tally/index.html"], ".lead")) == sentences.EMPTY_LEDGER
    assert not pages["2026/index.html"].select(".unknown")


def test_how_sure_a_table_is_stands_only_where_one_says_so(full: Parsed) -> None:
    """Fails where the words stand on pages that use none of them, or are missing where they are used."""
    kinds = set()
    for text in full.texts.values():
        page = document_fromstring(text)
        worn = " ".join(page.xpath("//footer//@class")).split()
        kinds.add((page.find("body").get("class").split()[0], "grades" in worn))
    with_words = {"home", "season", "bed", "bed-month", "planting", "bed-sign", "poster"}
    assert {kind for kind, shown in kinds if shown} == with_words
    assert not {kind for kind, shown in kinds if not shown} & with_words


def test_a_map_on_the_first_page_leads_to_its_legend(full: Parsed) -> None:
    """Fails where somebody at the bed finds letters on a map and no word of what they mean."""
    places = [str(one["href"]) for one in full["index.html"].select(".beds .note a")]
    assert places == ["2026/beds/back/index.html#legend"]
    assert all(full[place.partition("#")[0]].select("#legend") for place in places)


def test_a_week_of_the_tally_leads_to_its_bulletin(full: Parsed) -> None:
    """Fails where the link leads to a week that has no section."""
    places = [str(one["href"]) for one in full["2026/tally/index.html"].select("#t-weeks tbody th a")]
    assert places
    for place in places:
        assert place.removeprefix("../").join(("2026/", "")) in full


def test_a_change_leads_to_the_visit_that_made_it(full: Parsed) -> None:
    """Fails where a day leads to a visit that did not work on the planting, or to none."""
    led = [
        (said(row.find_all(["th", "td"])[0]), str(row.th.a["href"]))
        for path in full
        if path.startswith("2026/beds/")
        for row in full[path].select("#changes tbody tr")
        if row.th and row.th.a
    ]
    assert led
    for day, place in led:
        entry = full["2026/log/" + place.partition("log/")[2]]
        assert said(only(entry, "time")).startswith(day)


def test_a_crop_of_mixed_bowls_alone_is_not_called_unpicked(tmp_path: Path) -> None:
    """Fails where the list of crops says ``none on record`` of what the ledger has in a bowl."""
    root = folder(tmp_path)
    ledger = "- {date: 2026-05-20, mixed: [spinach, radish], weight: 8 oz}\n"
    page = html_of(written(root, {"2026/harvest.yaml": ledger}))["crops/index.html"]
    assert ["spinach", "in mixed bowls"] in [row[:2] for row in rows(page, "grown")]


def test_of_a_crop_that_was_cleared_and_never_weighed_nobody_says_that_none_was_picked(
    tmp_path: Path,
) -> None:
    root = folder(tmp_path)
    closed = (root / "content/garden.yaml").read_text(encoding="utf-8") + "seasons: {2026: {closed: yes}}\n"
    plan = "- {crop: radish, tag: RA1, squares: back/A2, sow: Apr 21, until: May 20}\n"
    ledger = "- {date: 2026-05-20, crop: spinach, weight: 8 oz}\n"
    files = {"garden.yaml": closed, "2026/plan.yaml": plan, "2026/harvest.yaml": ledger}
    page = html_of(written(root, files))["crops/index.html"]
    assert ["radishes", "none on record"] in [row[:2] for row in rows(page, "grown")]


@pytest.mark.parametrize(
    ("path", "here", "how"),
    [
        ("index.html", "Today", "page"),
        ("2026/index.html", "Season 2026", "page"),
        ("2026/log/index.html", "Log", "page"),
        ("2026/log/04-06-spinach-in/index.html", "Log", "true"),
        ("2026/beds/front/index.html", "Season 2026", "true"),
        ("crops/leek/index.html", "Crops", "true"),
    ],
)
def test_every_page_leads_to_the_sites_parts_and_says_in_which_it_lies(
    full: Parsed, path: str, here: str, how: str
) -> None:
    """WAI-ARIA 1.2, aria-current: ``page`` for the page itself, ``true`` for what it is a part of."""
    links = {said(one): one.get("aria-current") for one in full[path].select("header nav a")}
    assert [*links][:6] == ["Today", "Season 2026", "Tally", "Log", "Crops", "All seasons"]
    assert {name: current for name, current in links.items() if current} == {here: how}
