"""The list of seeds and plants, and the sheets for marking out: figures by hand, and what protects people."""

from __future__ import annotations

import csv
import io
from dataclasses import replace
from pathlib import Path

import pytest

from tallybed.pages.care import cautions
from tallybed.pages.season import seeds
from tallybed.publishing.files import csv_text
from tallybed.reading.folder.library import load_library
from tests.pages.gardens import Parsed, folder, html_of, only, rows, said, site_of, written

PLAN = """\
- {crop: spinach, tag: SP1, variety: Broad, squares: front/A1:B1, sow: Apr 5, until: Jun 1, per square: 9}
- {crop: spinach, tag: SP2, squares: front/C1, sow: Aug 20, plants: 9, among: GA1}
- {crop: tomato-indeterminate, tag: TO1, squares: back/A1:B2, sow indoors: Mar 24, set out: May 16, plants: 1}
- {crop: garlic, tag: GA1, squares: front/C1:D1, sow: Oct 10, plants: 18}
- {crop: cardoon, tag: CN1, squares: front/A2, sow: May 5, plants: 4}
- {crop: okra, tag: OK1, squares: back/C1, sow: May 20, dropped: May 22, because: rotted}
- {crop: bean-bush, tag: BB1, squares: front/A1:B1, sow: Jun 5, until: Aug 19}
"""
CROPS = """\
- crop: spinach
  varieties: [{name: Broad, germination: 90%, source: "=packet, 2026"}]
- {new: cardoon, family: Apiaceae, habit: upright, start: sown, letters: Cn, spacing: 4 in}
"""


@pytest.fixture(scope="module")
def root(tmp_path_factory: pytest.TempPathFactory) -> Path:
    at = folder(tmp_path_factory.mktemp("lists"), log=False, ledger=False)
    return written(at, {"2026/plan.yaml": PLAN, "crops.yaml": CROPS})


@pytest.fixture(scope="module")
def full(root: Path) -> Parsed:
    return html_of(root)


def test_seeds_by_planting_in_the_order_of_the_first_job(full: Parsed) -> None:
    page = full["2026/seeds/index.html"]
    back, front = "of the back bed", "of the front bed"
    assert rows(page, "plantings", heads=True) == [
        ["Planting", "To get", "Plants", "In the bed", "Squares"],
        # 1 ÷ 75 % × 1.1 = 1.47; one plant without a trellis takes a stake (Illinois: stakes of 72 in)
        [
            "tomato, indeterminate (TO1)",
            "2 seeds 75%; 1 stake",
            "1",
            "16 May indoors 24 Mar",
            f"A1:B2 {back}",
        ],
        # 18 ÷ 90 % × 1.1 = 22 by the packet
        ["spinach ‘Broad’ (SP1)", "22 seeds 90%, =packet, 2026", "18", "5 Apr", f"A1:B1 {front}"],
        ["cardoon (CN1)", "seed share not known", "4", "5 May", f"A2 {front}"],
        # two squares of nine by spacing: 18 ÷ 70 % × 1.1 = 28.3
        ["bean, bush (BB1)", "29 seeds 70%", "18 by spacing", "5 Jun", f"A1:B1 {front}"],
        # 9 ÷ 60 % × 1.1 = 16.5
        ["spinach (SP2)", "17 seeds 60%", "9", "20 Aug", f"C1 {front}"],
        ["garlic (GA1)", "18 cloves", "18", "10 Oct", f"C1:D1 {front}"],
    ]


def test_seeds_by_crop_add_up(full: Parsed) -> None:
    assert rows(full["2026/seeds/index.html"], "crops", heads=True) == [
        ["Crop", "To get", "Plants", "First needed"],
        ["beans, bush", "29 seeds", "18", "5 Jun"],
        ["cardoons", "seed for 4 plants", "4", "5 May"],
        ["garlic", "18 cloves", "18", "10 Oct"],
        ["spinach two plantings", "39 seeds", "27", "5 Apr"],
        ["tomatoes, indeterminate", "2 seeds 1 stake", "1", "24 Mar"],
    ]


def test_the_allowance_the_standard_and_the_counting_are_stated(full: Parsed) -> None:
    page = full["2026/seeds/index.html"]
    notes = " ".join(said(note) for note in page.select("main > p.note"))
    assert "with 10% more to thin from" in notes
    assert "our choice, from no source" in notes
    assert "7 CFR 201.31" in notes
    assert "as keep the spacing" in notes
    assert said(only(page, ".sources li")).startswith(
        "Germination standards for vegetable seeds in interstate commerce."
    )


def test_the_list_lies_beside_as_a_file_that_runs_nothing(root: Path, full: Parsed) -> None:
    link = only(full["2026/seeds/index.html"], 'a[href$=".csv"]')
    assert link["href"] == "seeds-2026.csv"
    year = site_of(root).named("2026")
    assert year is not None
    (file,) = seeds.files(year)
    assert file.path == "2026/seeds/seeds-2026.csv"
    data = csv_text.written(file)
    assert data.count(b"\r\n") == data.count(b"\n") == 7
    table = list(csv.DictReader(io.StringIO(data.decode("utf-8"), newline="")))
    spinach = next(row for row in table if row["tag"] == "SP1")
    assert spinach["share from"] == "'=packet, 2026"
    assert (spinach["plants"], spinach["seeds"], spinach["share that comes up, %"]) == ("18", "22", "90")
    tomato = table[0]
    assert (tomato["sow indoors"], tomato["in the bed"], tomato["how"]) == (
        "2026-03-24",
        "2026-05-16",
        "set out",
    )
    assert (tomato["stakes"], tomato["trellis, ft"]) == ("1", "")


def test_plan_and_season_lead_to_the_list(full: Parsed) -> None:
    assert full["2026/plants/index.html"].select('a[href="../seeds/index.html"]')
    assert full["2026/index.html"].select('a[href="seeds/index.html"]')


def test_a_plan_without_a_planting_has_no_list(tmp_path: Path) -> None:
    pages = html_of(written(folder(tmp_path, log=False, ledger=False), {"2026/plan.yaml": "[]\n"}))
    assert "2026/seeds/index.html" not in pages
    assert not pages["2026/plants/index.html"].select('a[href*="seeds"]')


def test_a_plan_of_plants_alone_has_no_seeds_to_count(tmp_path: Path) -> None:
    plan = "- {crop: kale, tag: KA1, squares: front/A1:B2, set out: May 1}\n"
    pages = html_of(written(folder(tmp_path, log=False, ledger=False), {"2026/plan.yaml": plan}))
    assert "One planting of one crop." in pages["2026/seeds/index.html"].get_text()


def test_a_sheet_for_each_bed(full: Parsed) -> None:
    page = full["sheets/marking-out/back/index.html"]
    assert said(only(page, "h1")) == "Marking out the back bed"
    assert said(only(page, ".lead")) == "3 ft by 3 ft, in 8 squares of 1 ft; 8 sq ft in all."
    assert (
        len(page.select("figure svg.layoutplan-wide"))
        == len(page.select("figure svg.layoutplan-narrow"))
        == 1
    )
    for drawing in page.select("figure svg"):
        assert only(drawing, "title").get_text() == "Marking-out plan of the back bed"
    assert rows(page, "sides", heads=True)[1:] == [
        ["P to Q side 1", "3 ft", "1 ft, 2 ft"],
        ["Q to R", "2 ft", "1 ft"],
        ["S to R", "1 ft", "none"],
        ["S to T", "1 ft", "none"],
        ["U to T", "2 ft", "1 ft"],
        ["P to U side A", "3 ft", "1 ft, 2 ft"],
    ]
    assert rows(page, "needed", heads=True)[-1] == [
        "Twine in all",
        "14 ft, with 1 ft a line for its two knots",
    ]
    assert rows(page, "fill", heads=True)[0] == [
        *("Layer", "Depth", "Cubic feet", "Cubic yards"),
        *("Bags of 1 cu ft", "Bags of 1.5 cu ft", "Bags of 2 cu ft"),
    ]
    steps = [said(step) for step in page.select(".steps li")]
    assert any(step.startswith("Measure between the two stakes beside each corner") for step in steps)
    # By Pythagoras: sides of 3 ft and 3 ft are 4 ft 2 7/8 in, of 3 ft and 2 ft 3 ft 7 1/4 in.
    assert ["P", "U to Q", "4 ft 2 7/8 in"] in rows(page, "corners", heads=True)
    assert ["S", "R to T", "1 ft 5 in"] in rows(page, "corners", heads=True)
    assert len(rows(page, "corners", heads=True)) == 1 + 6, "a heading, and every corner"
    front = [said(step) for step in full["sheets/marking-out/front/index.html"].select(".steps li")]
    assert "Measure P to R and Q to S: both are 4 ft 5 5/8 in where the corners are square." in front


def test_a_sheet_says_what_to_take_care_of_and_from_where(full: Parsed) -> None:
    care = only(full["sheets/marking-out/front/index.html"], "dl.cautions")
    told = {said(term): said(words) for term, words in zip(care.select("dt"), care.select("dd"), strict=True)}
    assert list(told) == ["Treated timber", "Lead in the soil", "Raw manure", "Pipes and cables"]
    assert "CCA" in told["Treated timber"]
    assert "U.S. Environmental Protection Agency" in told["Treated timber"]
    assert "not a limit for gardens" in told["Lead in the soil"]
    assert "health department" in told["Lead in the soil"]
    assert "120 days" in told["Raw manure"]
    assert "90 days" in told["Raw manure"]
    assert "7 CFR 205.203(c)" in told["Raw manure"]
    assert told["Pipes and cables"].endswith("Common practice, no source.")


def test_the_sheets_are_listed_and_beds_lead_to_theirs(full: Parsed) -> None:
    links = [link["href"] for link in full["sheets/index.html"].select("main a")]
    assert links[-2:] == ["marking-out/front/index.html", "marking-out/back/index.html"]
    assert full["2026/beds/back/index.html"].select('a[href="../../../sheets/marking-out/back/index.html"]')


def test_without_a_bed_there_is_no_sheet(tmp_path: Path) -> None:
    pages = html_of(written(tmp_path, {"garden.yaml": "name: Nothing yet\n"}))
    assert not [path for path in pages if path.startswith("sheets/")]
    assert not pages["index.html"].select('nav a[href*="sheets"]')


def test_crops_named_in_the_cautions_are_crops_of_the_library() -> None:
    known = set(load_library().crops)
    assert known >= cautions.LEAFY
    assert known >= cautions.NOT_CANNED
    assert set(cautions.OF_CROP) <= known


@pytest.mark.parametrize(
    ("name", "title"),
    [
        ("rhubarb", "Rhubarb leaves"),
        ("Rhubarb, forced", "Rhubarb leaves"),
        ("runner bean", "Raw beans"),
        ("elephant garlic", "Garlic or herbs in oil"),
        ("blue potatoes", "Green potatoes"),
        ("sweet potato of the islands", ""),
        ("skirret", ""),
    ],
)
def test_a_crop_of_ones_own_is_cautioned_by_its_name(name: str, title: str) -> None:
    """Fails where a page of a crop says nothing of the parts of it that are not food."""
    own = replace(load_library().crops["parsnip"], slug="own", name=name, own=True)
    every = {one.title for ones in cautions.OF_NAME.values() for one in ones}
    assert [one.title for one in cautions.crop_cautions(own) if one.title in every] == [title] * bool(title)


@pytest.mark.parametrize("slug", sorted(load_library().crops))
def test_every_crop_has_washing_and_manure_and_no_caution_twice(slug: str) -> None:
    found = cautions.crop_cautions(load_library().crops[slug])
    titles = [one.title for one in found]
    assert {"Washing", "Raw manure"} <= set(titles)
    assert len(set(titles)) == len(titles)
    manure = next(one for one in found if one.title == "Raw manure")
    assert "120 days" in manure.words
