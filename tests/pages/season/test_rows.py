"""The page of a season beside rows, in gardens of which little is known."""

from __future__ import annotations

import re
from fractions import Fraction
from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from tallybed.garden.benchmarks import Topic
from tallybed.garden.findings import Finding
from tallybed.garden.units import Showing, rounded
from tallybed.pages.catalogue import framed
from tallybed.pages.rows.measures import every_measure
from tallybed.pages.rows.others import others_unit
from tallybed.pages.season import rows
from tallybed.publishing.assets import layouts
from tallybed.publishing.rendering import Rendering, render
from tests.pages.gardens import GARDEN, every, html_of, only, parsed, site_of, written
from tests.tools import ROOT

FILE = "2026/rows/index.html"
CARROT = "- {crop: carrot, tag: CA1, squares: front/A1:B2, sow: Apr 20, until: Jul 20}\n"
SOWN = """\
---
title: In and out
date: 2026-07-20
done:
  - {clear: CROP, tag: CA1, squares: front/A1:B2}
---
Out.
"""


def garden(root: Path, **files: str) -> Path:
    """A garden of one season with the files given: ``plan``, ``harvest``, ``log``, ``costs``, ``prices``."""
    content = {"garden.yaml": files.pop("garden", GARDEN)}
    if "log" in files:
        content["2026/log/2026-07-20-out.md"] = files.pop("log")
    content |= {f"2026/{name}.yaml": text for name, text in files.items()}
    return written(root, content)


def page(root: Path, **files: str) -> BeautifulSoup:
    """The page alone, laid out: a whole site of small gardens would take long."""
    return laid_out(garden(root, **files))[FILE]


def laid_out(root: Path) -> dict[str, BeautifulSoup]:
    years = site_of(root)
    found = [framed(years, one) for one in every(rows.pages, years)]
    trouble: list[Finding] = []
    texts = render(found, Rendering(layouts(root)), trouble.append)
    pages = {path: parsed(data.decode("utf-8")) for path, data in texts}
    assert trouble == []
    return pages


def said(soup: BeautifulSoup) -> str:
    return " ".join(only(soup, ".head").get_text(" ").split())


def rows_of(soup: BeautifulSoup, ident: str) -> list[list[str]]:
    return [
        [" ".join(cell.get_text(" ").split()) for cell in row.select("th, td")]
        for row in soup.select(f"#{ident} tbody tr")
    ]


def test_nothing_printed_for_its_crops(tmp_path: Path) -> None:
    soup = page(
        tmp_path,
        plan=CARROT.replace("carrot", "parsley"),
        harvest="- {date: 2026-07-01, tag: CA1, weight: 2 lb}\n",
    )
    assert "Too little to tell. No row yield is printed for anything that was weighed in 2026" in said(soup)
    assert "printed for 0%" not in soup.get_text(), "that nothing is printed is told once"
    assert soup.select("#t-row-ground") == []
    assert soup.select("[aria-labelledby=answer] svg") == [], "no bar of 0 for what nobody printed"
    assert soup.select("[aria-labelledby=plantings], #rules") == [], "no rule judged anything"
    assert rows_of(soup, "t-uncovered") == [["parsley", "2.00"]]


def test_what_nobody_timed_or_printed_is_not_0_beside_other_seasons(tmp_path: Path) -> None:
    root = garden(
        tmp_path,
        plan=CARROT.replace("carrot", "parsley"),
        log=SOWN.replace("CROP", "parsley"),
        harvest="- {date: 2026-07-01, tag: CA1, weight: 2 lb}\n",
    )
    years = site_of(root)
    (year,) = years.all
    found = {one.name: one.value(year, year.today) for one in every_measure(years.garden)}
    assert found["Weight, lb"] == 2
    assert found["Weight with a printed row yield"] == 0
    assert [found[name] for name in ("Minutes timed", "Minutes of weeding", "Row ground, sq ft")] == [
        None
    ] * 3
    assert found["Land equivalents over the squares"] is None


def test_one_planting(tmp_path: Path) -> None:
    soup = page(
        tmp_path,
        plan=CARROT,
        log=SOWN.replace("CROP", "carrot"),
        harvest="- {date: 2026-07-01, tag: CA1, weight: 8 lb}\n",
    )
    # Carrots: 0.67, 1.02 and 1.2 lb per sq ft printed; 8 lb are 6.7, 7.8 and 11.9 sq ft; the beds are 16.
    assert "would have needed about 7.8 sq ft of ordinary rows, by printed yields (6.7 to 11.9)" in said(soup)
    assert rows_of(soup, "t-grounds") == [
        ["the squares the answer stands on this one", "16.0", "0.49", "0.42 to 0.75", "Too little to tell"]
    ]
    planting, median = rows_of(soup, "t-plantings")
    assert planting[1:] == ["2026", "8.00", "4.0", "2.00", "2.00", "0.67 to 1.20"]
    assert median[-1] == "too little to tell", "one planting is under three"
    notes = only(soup, "[aria-labelledby=answer]").get_text(" ")
    assert "The garden tells no path" in notes


def test_only_unweighed_pickings(tmp_path: Path) -> None:
    soup = page(
        tmp_path,
        plan=CARROT,
        log=SOWN.replace("CROP", "carrot"),
        harvest="- {date: 2026-07-01, tag: CA1, weight: not weighed}\n",
    )
    assert "Nothing was weighed, so nothing can be held against ordinary rows." in said(soup)
    assert soup.select("#t-plantings") == [], "nobody knows what it gave, so it is not judged"
    assert soup.select("#t-grounds, #t-row-ground, #t-gardens") == []


def test_no_squares_told(tmp_path: Path) -> None:
    soup = page(tmp_path, harvest="- {date: 2026-07-01, crop: carrot, weight: 8 lb}\n")
    assert "would have needed about 7.8 sq ft" in said(soup)
    assert "Nobody told which squares gave it, so it is held against none." in said(soup)
    assert soup.select("#t-grounds") == []
    assert soup.select("#t-plantings") == [], "no planting is known, so none is judged"
    assert "8.0 lb came with no square told, and stands in none." in only(soup, "#squares").get_text(" ")
    assert soup.select("#t-square-weeks") == []


def test_of_what_stood_over_winter_the_square_weeks_say_that_they_are_this_seasons(tmp_path: Path) -> None:
    """Fails where garlic seems to give its weight for the weeks since spring alone."""
    plan = (
        "- {crop: garlic, tag: GA1, squares: front/A1, carried from: 2025, until: Jul 1}\n"
        + CARROT.replace("A1:B2", "B2")
    )
    harvest = "".join(f"- {{date: 2026-07-01, tag: {tag}, weight: 8 oz}}\n" for tag in ("GA1", "CA1"))
    found = only(page(tmp_path, plan=plan, harvest=harvest), "#t-square-weeks tbody")
    told = {only(row, "th").get_text(): row.get_text(" ") for row in found.select("tr")}
    assert "this season’s alone" in told["garlic"]
    assert "this season’s alone" not in told["carrots"]


def test_kilograms_and_metres(tmp_path: Path) -> None:
    metric = GARDEN.replace("units: pounds", "units: kilograms").replace(
        "width: 2 squares}", "width: 2 squares, path: [{side: 1, width: 50 cm, share: 1/2}]}"
    )
    soup = page(
        tmp_path,
        garden=metric,
        plan=CARROT,
        log=SOWN.replace("CROP", "carrot"),
        harvest="- {date: 2026-07-01, tag: CA1, weight: 4 kg}\n",
    )
    # 4 kg over 1.02 lb per sq ft (4.98 kg per m²) are 0.803 m²; 16 squares of 30 cm are 1.44 m², the path
    # is 1.2 m by 50 cm, half of it: 0.3 m².
    assert "would have needed about 0.80 m² of ordinary rows, by printed yields (0.68 to 1.22)" in said(soup)
    assert "0.80 (0.68–1.22)" in soup.get_text(" ")
    assert [row[1] for row in rows_of(soup, "t-grounds")] == ["1.44", "1.74"]
    assert rows_of(soup, "t-grounds")[-1][2] == "0.46"
    assert rows_of(soup, "t-row-ground") == [
        ["carrots", "4.00", "4.98 3.27 to 5.86", "0.80 0.68 to 1.22", "1 , 2"]
    ]
    gardens = " ".join(soup.get_text(" ").split())
    assert "147 kg over 33.9 m²" in gardens
    assert "at about 2,190 m" in gardens
    assert "sq ft" not in gardens


def test_others_are_told_in_the_unit_of_the_garden() -> None:
    # 8.2 minutes over 0.09290304 m² are 88.26 over a whole one; 16.9 L/kg are 16.9 / 3.785411784 gallons
    # over 1 / 0.45359237 pounds, 2.025 (NIST SP 811, appendix B.8).
    feet, metres = Showing(), Showing(metric=True)
    told = {
        (showing.metric, topic): others_unit(showing, topic) for showing in (feet, metres) for topic in Topic
    }
    assert told[False, Topic.WORK] == ("minutes per sq ft", 1)
    assert told[True, Topic.WORK][0] == "minutes per m²"
    assert rounded(told[True, Topic.WORK][1] * Fraction("8.2"), 2) == "88.26"
    assert told[True, Topic.MONEY][0] == "US dollars per m²"
    assert told[True, Topic.WATER] == ("litres per kilogram", 1)
    assert told[False, Topic.WATER][0] == "gallons per pound"
    assert rounded(told[False, Topic.WATER][1] * Fraction("16.9"), 3) == "2.025"


def test_a_season_that_is_over_and_gave_little(tmp_path: Path) -> None:
    closed = GARDEN + "seasons:\n  2026: {closed: yes}\n"
    files = {"plan": CARROT, "log": SOWN.replace("CROP", "carrot")}
    harvest = "- {date: 2026-07-01, tag: CA1, weight: 1 lb}\n"
    over = page(tmp_path / "over", garden=closed, harvest=harvest, **files)
    running = page(tmp_path / "running", harvest=harvest, **files)
    assert "Less than is printed for ordinary rows." in said(over)
    assert "Too little to tell." in said(running)
    assert "That is less by now, but the season still goes on." in said(running)


@pytest.mark.parametrize(
    ("more", "because"),
    [
        (
            "- {date: 2026-07-02, tag: CA1, weight: not weighed}\n",
            "That is less, but more was picked than was weighed.",
        ),
        (
            "- {date: 2026-07-02, mixed: [carrot, parsley], weight: 4.5 lb}\n",
            "That is less, but some of the weight has no printed yield, and took ground too.",
        ),
    ],
)
def test_a_season_whose_weights_do_not_tell_all_is_not_judged_less(
    more: str, because: str, tmp_path: Path
) -> None:
    soup = page(
        tmp_path,
        garden=GARDEN + "seasons:\n  2026: {closed: yes}\n",
        plan=CARROT,
        log=SOWN.replace("CROP", "carrot"),
        harvest=f"- {{date: 2026-07-01, tag: CA1, weight: 5 lb}}\n{more}",
    )
    assert "Too little to tell." in said(soup)
    assert because in said(soup)


@pytest.mark.parametrize(
    ("records", "named"),
    [
        ({"plan": CARROT}, True),
        ({"plan": CARROT + "- {crop: kale, squares: back/A1, set out: May 1, until: Oct 1}\n"}, False),
        (
            {
                "plan": CARROT,
                "log": SOWN.replace("CROP, tag: CA1, squares: front/A1:B2", "kale, squares: back/A1"),
            },
            False,
        ),
    ],
)
def test_a_bed_of_which_a_season_has_no_record_is_counted_and_said(
    tmp_path: Path, records: dict[str, str], named: bool
) -> None:
    """Fails where a bed built since makes an earlier season look poor, and nobody is told."""
    soup = page(tmp_path, harvest="- {date: 2026-07-01, tag: CA1, weight: 2 lb}\n", **records)
    words = only(soup, "[aria-labelledby=answer]").get_text()
    assert ("No record of 2026 names the back bed: its ground is counted" in words) is named
    assert "yaml" not in words, "how the garden is written is nothing to a visitor"


@pytest.mark.parametrize(("weight", "told"), [("1 oz", ""), ("60 lb", " (")])
def test_a_range_of_one_number_is_no_range(tmp_path: Path, weight: str, told: str) -> None:
    """Fails where little ground is told as “0.1 (0.1 to 0.1)”."""
    row = f"- {{date: 2026-07-01, tag: CA1, weight: {weight}}}\n"
    words = only(page(tmp_path, plan=CARROT, harvest=row), "main").get_text()
    ranges = re.findall(r"by printed yields( \([0-9.]+ to [0-9.]+\))?", words)
    assert ranges
    assert all(one.startswith(told) and bool(one) is bool(told) for one in ranges)


def test_more_than_rows(tmp_path: Path) -> None:
    soup = page(
        tmp_path,
        plan=CARROT,
        log=SOWN.replace("CROP", "carrot"),
        harvest="- {date: 2026-07-01, tag: CA1, weight: 40 lb}\n",
    )
    assert "More than is printed for ordinary rows." in said(soup)


def test_a_mixed_bowl_keeps_a_planting_from_being_judged_less(tmp_path: Path) -> None:
    soup = page(
        tmp_path,
        plan=CARROT,
        log=SOWN.replace("CROP", "carrot"),
        harvest="- {date: 2026-07-01, tag: CA1, weight: 1 lb}\n"
        "- {date: 2026-07-02, mixed: [carrot, parsley], weight: 1 lb}\n",
    )
    assert rows_of(soup, "t-plantings")[0][2] == "1.00 at least"


def test_no_ledger_no_page(tmp_path: Path) -> None:
    assert FILE not in laid_out(garden(tmp_path, plan=CARROT))


@pytest.mark.parametrize(
    ("currency", "language", "shown"),
    [
        ("USD", "en", "$6.40"),
        ("EUR", "de", "6,40\N{NO-BREAK SPACE}€"),
        ("JPY", "en", "¥6"),
        ("", "en", "6.40"),
        ("USD", "tlh", "$6.40"),
    ],
)
def test_money_is_written_by_currency_and_language(
    tmp_path: Path, currency: str, language: str, shown: str
) -> None:
    """Expected: the Unicode Common Locale Data Repository, patterns for currencies of en and de."""
    text = GARDEN + f"language: {language}\n" + (f"currency: {currency}\n" if currency else "")
    root = garden(
        tmp_path,
        garden=text,
        harvest="- {date: 2026-07-01, crop: carrot, weight: 1 lb}\n",
        costs="- {date: 2026-03-02, what: seed potatoes, cost: 6.40, for: seed}\n",
    )
    soup = laid_out(root)[FILE]
    assert [row[1] for row in rows_of(soup, "t-purposes")] == [" ".join(shown.split())]


def test_the_answer_is_on_the_home_the_season_and_the_crop(tmp_path: Path) -> None:
    root = garden(
        tmp_path,
        plan=CARROT,
        log=SOWN.replace("CROP", "carrot"),
        harvest="- {date: 2026-07-01, tag: CA1, weight: 8 lb}\n",
    )
    pages = html_of(root)
    for path in ("index.html", "2026/index.html"):
        section = only(pages[path], "[aria-labelledby=beside]")
        assert "7.8 sq ft" in " ".join(section.get_text(" ").split())
        drawn = section.select_one("svg.chart-wide title")
        assert (drawn is None) is (path == "index.html"), "the first page tells it in figures alone"
        assert only(section, ".onward a")["href"].endswith("rows/index.html")  # type: ignore[union-attr]
    line = only(pages["crops/carrot/index.html"], "[aria-labelledby=gave]").get_text(" ")
    assert "Beside ordinary rows: too little to tell, by one planting that has ended" in line
    assert "2.00 lb per sq ft" in line
    poster = only(pages["sheets/poster/2026/index.html"], ".sums").get_text(" ")
    assert (
        "Too little to tell: they would have needed 6.7 to 11.9 sq ft by printed yields; here it is" in poster
    )


def test_a_garden_without_beds_has_no_answer(tmp_path: Path) -> None:
    bare = GARDEN.split("beds:")[0]
    years = site_of(
        garden(tmp_path, garden=bare, harvest="- {date: 2026-07-01, crop: carrot, weight: 1 lb}\n")
    )
    assert years.all[0].lines
    soup = laid_out(tmp_path)[FILE]
    assert "nothing can be held against ordinary rows" in said(soup)


def test_a_season_under_way_is_held_against_others_only_up_to_its_day(tmp_path: Path) -> None:
    root = garden(tmp_path, harvest="- {date: 2026-05-20, crop: kale, weight: 3 lb}\n")
    before = (
        "- {date: 2025-05-20, crop: kale, weight: 1 lb}\n- {date: 2025-09-01, crop: kale, weight: 2 lb}\n"
    )
    closed = GARDEN + "seasons: {2025: {closed: yes}}\n"
    written(root, {"2025/harvest.yaml": before, "garden.yaml": closed})
    pages = laid_out(root)
    (weight, *_rest) = rows_of(pages[FILE], "t-same-date")
    assert weight[:3] == ["Weight, lb", "1.0", "3.0"], "September 2025 is no part of it"
    assert rows_of(pages[FILE], "t-to-the-end")[0][:2] == ["Weight, lb", "3.0"]


BOTH = ["2025", "2026"]
OVER_NEW_YEAR = "season: {start: Jul 1, end: Jun 30}\n"


@pytest.mark.parametrize(
    ("season", "picked", "same", "whole"),
    [
        pytest.param(
            "season: {start: Apr 1, end: Oct 31}\n", "2026-10-31", BOTH, ["2025"], id="its last day"
        ),
        pytest.param(
            "season: {start: Apr 1, end: Oct 30}\n", "2026-10-30, weighed: 2026-11-20", [], BOTH, id="over"
        ),
        # The days after a season over New Year are the first of the one before, by their month and day.
        pytest.param(OVER_NEW_YEAR, "2027-06-20, weighed: 2027-07-04", [], BOTH, id="over, over New Year"),
    ],
)
def test_no_season_is_left_out_or_cut_short_about_its_end(
    season: str, picked: str, same: list[str], whole: list[str], tmp_path: Path
) -> None:
    bounded = re.sub(r"season: .*\n", "", GARDEN) + season
    root = garden(tmp_path, garden=bounded, harvest=f"- {{date: {picked}, crop: kale, weight: 3 lb}}\n")
    written(root, {"2025/harvest.yaml": "- {date: 2025-09-01, crop: kale, weight: 2 lb}\n"})
    soup = laid_out(root)[FILE]

    def seasons(ident: str) -> list[str]:
        heads = [one.get_text(strip=True) for one in soup.select(f"#{ident} thead th")]
        return [one for one in heads if one.isdigit()]

    assert seasons("t-same-date") == same
    assert seasons("t-to-the-end") == whole


@pytest.mark.parametrize("closed", ["", "seasons: {2025: {closed: yes}}\n"])
def test_a_bill_after_the_last_day_of_a_season_is_in_every_sum_of_it(tmp_path: Path, closed: str) -> None:
    """Fails where one page tells two sums of what a season cost, or a price seen in winter is left out."""
    root = garden(
        tmp_path, harvest="- {date: 2026-05-20, crop: kale, weight: 3 lb}\n", garden=GARDEN + closed
    )
    costs = "- {date: 2025-03-01, what: boards, cost: 100, for: bed, spread: 5 years}\n"
    bill = "- {date: 2026-01-10, what: water, cost: 12.50, for: water}\n"
    before = "- {date: 2025-05-20, crop: kale, weight: 1 lb}\n"
    price = "- {date: 2026-01-10, crop: kale, price: 4, per: lb}\n"
    written(
        root,
        {"2025/costs.yaml": costs + bill, "2025/harvest.yaml": before, "2025/prices.yaml": price},
    )
    pages = laid_out(root)
    assert [cells[1] for cells in rows_of(pages["2025/rows/index.html"], "t-money")] == [
        "32.50",
        "12.50",
        "4.00",
    ]
    ended = {cells[0]: cells[1] for cells in rows_of(pages[FILE], "t-to-the-end")}
    assert ended["Cost, with what is spread"] == "32.50"
    assert ended["Cost, without"] == "12.50"
    assert ended["Would have cost"].startswith("4.00 ")


def test_a_bill_after_the_newest_record_is_said_to_be_left_out(tmp_path: Path) -> None:
    """Fails where somebody writes a cost down, and the page tells a sum without it and no more."""
    costs = "- {date: 2026-05-19, what: seed, cost: 4}\n- {date: 2026-05-21, what: net, cost: 9}\n"
    price = "- {date: 2062-05-01, crop: kale, price: 4, per: lb}\n"
    harvest = "- {date: 2026-05-20, crop: kale, weight: 3 lb}\n"
    soup = page(tmp_path / "late", harvest=harvest, costs=costs, prices=price)
    told = only(soup, "#money").get_text()
    assert "Two lines of costs and prices are of a day after 20 May 2026, the newest on record" in told
    assert rows_of(soup, "t-money")[0][1] == "4.00"
    soup = page(tmp_path / "all", harvest=harvest, costs=costs.splitlines()[0] + "\n")
    assert "not counted yet" not in only(soup, "#money").get_text()


def test_a_season_that_bears_its_part_of_earlier_costs_alone_says_so(tmp_path: Path) -> None:
    """Fails where it is said to have cost nothing else: nobody wrote that down."""
    root = garden(tmp_path, harvest="- {date: 2026-05-20, crop: kale, weight: 3 lb}\n")
    boards = "- {date: 2025-03-01, what: boards, cost: 100, for: bed, spread: 5 years}\n"
    kale = "- {date: 2025-05-20, crop: kale, weight: 1 lb}\n"
    written(root, {"2025/costs.yaml": boards, "2025/harvest.yaml": kale})
    page = laid_out(root)[FILE]
    assert [cells[:2] for cells in rows_of(page, "t-money")] == [
        ["What it cost, with its part of what is spread", "20.00"]
    ]
    beside = {cells[0]: cells[2] for cells in rows_of(page, "t-same-date")}
    assert (beside["Cost, with what is spread"], beside["Cost, without"]) == ("20.00", "not on record")
    assert "Nothing paid for 2026 itself is on record" in only(page, "#money").get_text()


def test_what_no_printed_yield_covers_says_where_it_is_at_least(tmp_path: Path) -> None:
    unweighed = "- {date: 2026-07-02, tag: CA1, weight: not weighed}\n"
    soup = page(
        tmp_path,
        plan=CARROT.replace("carrot", "parsley"),
        harvest=f"- {{date: 2026-07-01, tag: CA1, weight: 2 lb}}\n{unweighed}",
    )
    assert rows_of(soup, "t-uncovered") == [["parsley", "2.00 at least"]]


@pytest.mark.parametrize(
    ("amounts", "told"),
    [
        (("until it stood", "a can"), "Of 2 lines of watering none tells an amount"),
        (("10 gal", "a can"), "Of 2 lines of watering one tells an amount"),
        (("10 gal", "5 gal"), "Of 2 lines of watering two tell an amount"),
        # Fails where "Of 1 line of watering one tells an amount".
        (("10 gal",), "The one line of watering tells an amount"),
        (("a can",), "The one line of watering tells no amount"),
    ],
)
def test_how_many_waterings_tell_an_amount(tmp_path: Path, amounts: tuple[str, ...], told: str) -> None:
    lines = "\n".join(f"  - {{water: bed, squares: front/A1:B2, amount: {one}}}" for one in amounts)
    soup = page(
        tmp_path,
        plan=CARROT,
        log=f"---\ntitle: Dry\ndate: 2026-07-20\ndone:\n{lines}\n---\nDry.\n",
        harvest="- {date: 2026-07-01, tag: CA1, weight: 2 lb}\n",
    )
    assert told in only(soup, "#water").get_text()


def test_a_planting_cleared_without_a_weighing_is_not_said_to_have_given_nothing(tmp_path: Path) -> None:
    line = "  - {clear: carrot, tag: CA1, squares: front/A1:B2}\n"
    both = line + line.replace("CA1", "CA2").replace("A1:B2", "C1:D2")
    soup = page(
        tmp_path,
        plan=CARROT + CARROT.replace("CA1", "CA2").replace("A1:B2", "C1:D2"),
        log=SOWN.replace("CROP", "carrot").replace(line, both),
        harvest="- {date: 2026-07-01, tag: CA1, weight: 8 lb}\n",
    )
    weighed, cleared, median = rows_of(soup, "t-plantings")
    assert weighed[2:5] == ["8.00", "4.0", "2.00"]
    assert cleared[2:6] == ["not weighed", "4.0", "", ""]
    assert median[4] == "median 2.00"


def test_where_no_work_was_timed_no_empty_table_says_so(tmp_path: Path) -> None:
    weighed = "- {date: 2026-07-18, tag: CA1, weight: 2 lb}\n"
    soup = page(tmp_path, plan=CARROT, harvest=weighed, log=SOWN.replace("CROP", "carrot"))
    assert "The one line of work in the log was not timed." in soup.get_text(" ")
    assert not soup.select("#t-work, #t-work-months")


def test_open_stand_the_answer_and_its_drawings_and_the_rest_is_opened_by_its_title() -> None:
    """All of it open, the page was seventeen screens long on a phone."""
    soup = parsed((ROOT / "site/2026/rows/index.html").read_text(encoding="utf-8"))
    assert [one["id"] for one in soup.select("main section > h2")] == [
        "answer",
        "plantings",
        "cuts",
        "sources",
    ]
    assert not soup.select("table[id]:not(details table)"), "tables are for who asks how"
    assert [one["id"] for one in soup.select(".cuts .cut")] == [
        *("crops", "rules", "gardens", "squares", "work", "water", "money", "between"),
    ]
    told = {one.b.get_text(): one.small.get_text() for one in soup.select(".cut summary:has(small)")}
    assert told == {
        "Crop by crop": "12 crops with a printed row yield",
        "What it took: work": "794 minutes timed",
        "What it took: water": "36.5 gal measured",
        "What it took: money": "cost $85.45",
        "Season beside season": "2024, 2025 and 2026",
    }
