"""A garden shows crops under the names of its country, and reads every name they have anywhere."""

from __future__ import annotations

import csv
import re
from functools import cache
from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from tallybed.garden.findings import worded
from tallybed.reading.folder.garden_folder import read
from tallybed.tasks.build import make
from tests.commands.running import run
from tests.pages.gardens import built_pages, only, parsed, written

LANGUAGES = ("en", "en-GB", "en-NZ")
TABLE = """
arugula       | arugula; arugula              | rocket; rocket                                | rocket; rocket
chard         | chard; chard                  | Swiss chard; chard                            | silver beet; silverbeet
beet          | beet; beets                   | beetroot; beetroot                            | beetroot; beetroot
cilantro      | cilantro; cilantro            | coriander; coriander                          | coriander; coriander
squash-summer | zucchini; squash, summer      | courgette; courgettes                         | courgette; courgettes
bean-pole     | pole beans; beans, pole       | climbing French beans; French beans, climbing | climbing beans; beans, climbing
sweet-potato  | sweet potato; sweet potatoes  | sweet potato; sweet potatoes                  | kūmara; kūmara
rutabaga      | rutabaga; rutabagas           | swede; swedes                                 | swede; swedes
"""  # noqa: E501 - a table
"""The crops of the garden: the short name; then, for each language, what people write and what lists have."""
CELLS = [[cell.strip().split("; ") for cell in line.split("|")] for line in TABLE.strip().splitlines()]
ANYWHERE = [row[0][0] for row in CELLS]
TYPED = {language: [row[at][0] for row in CELLS] for at, language in enumerate(LANGUAGES, 1)}
SHOWN = {language: [row[at][1] for row in CELLS] for at, language in enumerate(LANGUAGES, 1)}
AMERICAN = r"arugula|beets?|cilantro|summer squash|squash, summer|zucchini|pole|rutabagas?"
ABROAD = {
    "en-GB": re.compile(rf"\b(?:{AMERICAN})\b", re.IGNORECASE),
    "en-NZ": re.compile(rf"\b(?:{AMERICAN}|chard|sweet potato(?:es)?)\b", re.IGNORECASE),
}
"""Words that no gardener of the country uses for a crop of the garden."""
countries = pytest.mark.parametrize("language", list(ABROAD))


def garden(root: Path, language: str, typed: str = "", own: str = "") -> Path:
    """Write a garden of a country, its crops named as people of ``typed`` name them."""
    names = TYPED[typed or language]
    files = {
        "garden.yaml": f"""\
name: A Bed
language: {language}
units: kilograms
season: {{start: Apr 1, end: Oct 31}}
beds: [{{name: gate, length: 8 squares, width: 2 squares, trellis: {{side: 1, height: 6 ft}}}}]
""",
        "2026/plan.yaml": "".join(
            f"- {{crop: {name}, squares: {column}1:{column}2, sow: May 10, until: Sep 20}}\n"
            for name, column in zip(names, "ABCDEFGH", strict=True)
        ),
        "2026/log/2026-05-12-sown.md": "---\ntitle: Sown\ndate: 2026-05-12\ndone:\n"
        + "".join(
            f"  - {{sow: {name}, squares: {column}1:{column}2}}\n"
            for name, column in zip(names, "ABCDEFGH", strict=True)
        )
        + f"---\nAll is in, [this one](crop:{names[0].replace(' ', '%20')}) first.\n",
        "2026/harvest.yaml": "".join(
            f"- {{date: 2026-08-{day}, crop: {name}, squares: {column}1, weight: {day}0 g}}\n"
            for day, (name, column) in enumerate(zip(names, "ABCDEFGH", strict=True), 11)
        )
        + f"- {{date: 2026-08-20, mixed: [{names[0]}, {names[1]}], weight: 200 g}}\n",
        "soil.yaml": "- {date: 2026-04-02, bed: gate, ph: 6.4}\n",
        "2026/prices.yaml": "".join(
            f"- {{date: 2026-08-20, crop: {name}, price: 5, per: kg}}\n" for name in names
        ),
    }
    files["garden.yaml"] += "currency: NZD\n"
    return written(root, files | ({"crops.yaml": own} if own else {}))


@cache
def site(root: Path) -> dict[str, str]:
    return built_pages(root)


@pytest.fixture(scope="module")
def roots(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    """One garden for each language."""
    return {language: garden(tmp_path_factory.mktemp(language), language) for language in LANGUAGES}


def words(page: BeautifulSoup) -> str:
    """All that a page says: text, drawings, titles, and what stands in place of drawings."""
    labels = (
        str(value)
        for tag in page.find_all(True)
        for name, value in tag.attrs.items()
        if name in ("alt", "aria-label", "content", "title")
    )
    return " ".join([page.get_text(" "), *labels])


@pytest.mark.parametrize("language", LANGUAGES)
def test_lists_have_the_countrys_names_and_addresses_stay(roots: dict[str, Path], language: str) -> None:
    page = parsed(site(roots[language])["crops/index.html"])
    links = {str(link["href"]): link.get_text() for link in page.select("table a")}
    assert [links[f"{slug}/index.html"] for slug in ANYWHERE] == SHOWN[language]
    listed = list(links.values())
    assert listed == sorted(listed, key=str.casefold), "not in the order of what is shown"


@pytest.mark.parametrize("language", LANGUAGES)
def test_a_crops_page_is_titled_and_told_by_the_countrys_name(roots: dict[str, Path], language: str) -> None:
    for slug, shown in zip(ANYWHERE, SHOWN[language], strict=True):
        page = parsed(site(roots[language])[f"crops/{slug}/index.html"])
        assert page.title is not None
        assert page.title.get_text().startswith(shown[0].upper() + shown[1:])


@pytest.mark.parametrize("language", LANGUAGES)
def test_tables_of_crops_stand_in_the_order_of_what_they_show(roots: dict[str, Path], language: str) -> None:
    """Those that stand by weight are left out."""
    found = {}
    for path in ("cautions/index.html", "2026/seeds/index.html", "2026/rows/index.html"):
        for table in parsed(site(roots[language])[path], "table").select("table"):
            cells = [only(row, "th, td").get_text(" ", strip=True) for row in table.select("tr")]
            if cells[0] == "Crop" and table["id"] != "t-square-weeks":
                found[table["id"]] = [cell for cell in cells[1:] if cell != "All of these"]
    assert set(found) == {"ph-gate", "crops", "t-prices", "t-row-ground"}
    for listed in found.values():
        assert listed == sorted(listed, key=str.casefold)


@countries
def test_a_crops_page_tells_the_name_that_the_country_does_not_use(
    roots: dict[str, Path], language: str
) -> None:
    for slug, foreign in zip(ANYWHERE, TYPED["en"], strict=True):
        page = parsed(site(roots[language])[f"crops/{slug}/index.html"]).get_text(" ")
        also = page.partition("Also called ")[2].partition(".")[0].split(", ")
        column = ANYWHERE.index(slug)
        if SHOWN[language][column] != SHOWN["en"][column]:
            assert foreign.removesuffix("s") in also


@countries
def test_no_page_of_a_season_has_a_name_of_another_country(roots: dict[str, Path], language: str) -> None:
    """Maps, tally, log, seeds, sheets and bulletins, with their drawings; addresses are no words."""
    pages = {
        path: text
        for path, text in site(roots[language]).items()
        if not path.startswith("crops/") or path == "crops/index.html"
    }
    assert len(pages) > 30
    found = []
    for path, text in pages.items():
        page = parsed(text)
        for link in page.select("footer dd"):  # the page’s own address among them
            link.decompose()
        found += [f"{path}: {match.group()}" for match in ABROAD[language].finditer(words(page))]
    assert found == []


@countries
def test_data_have_short_names_and_the_countrys_names_beside_them(
    roots: dict[str, Path], language: str
) -> None:
    files = make(roots[language]).files
    assert files is not None
    rows = list(csv.DictReader(files["2026/data/plan.csv"].decode("utf-8-sig").splitlines()))
    found = {row["crop"]: row["crop_name"] for row in rows}
    assert set(found) == set(ANYWHERE)
    plurals = [" ".join(reversed(shown.split(", "))) for shown in SHOWN[language]]
    assert [found[slug] for slug in ANYWHERE] == plurals


@countries
def test_a_map_has_no_letters_of_a_name_it_does_not_show(roots: dict[str, Path], language: str) -> None:
    letters = {"en-GB": {"Rk", "Cr", "Cg", "Bc", "Sd"}, "en-NZ": {"Rk", "Sb", "Cr", "Cg", "Bc", "Km", "Sd"}}
    page = parsed(site(roots[language])["sheets/sign/gate/index.html"]).get_text(" ")
    own = set(re.findall(r"\b[A-Z][a-z]\b", page))
    assert letters[language] <= own
    assert not own & {"Ar", "Ci", "Ss", "Bp", "Ru"}


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("typed", LANGUAGES)
def test_papers_read_alike_whoever_named_the_crops(tmp_path: Path, language: str, typed: str) -> None:
    found = read(garden(tmp_path, language, typed))
    assert [worded(one) for one in found.findings] == []
    assert found.garden is not None
    (season,) = found.garden.seasons
    assert season.plan is not None
    assert season.log is not None
    assert season.ledger is not None
    assert [row.crop for row in season.plan] == ANYWHERE
    assert [event.crop.slug for event in season.log[0].done if event.crop] == ANYWHERE
    assert [row.crops[0].slug for row in season.ledger if not row.mixed] == ANYWHERE


@pytest.mark.parametrize(
    ("language", "said", "shown", "row"),
    [
        ("en", "rocket 40 g", "arugula,", "crop: arugula,"),
        ("en-GB", "arugula 40 g", "rocket,", "crop: rocket,"),
        ("en-NZ", "chard 40 g", "silverbeet,", "crop: silverbeet,"),
        ("en-NZ", "sweet potato 40 g", "kūmara,", "crop: kūmara,"),
        ("en-GB", "arugula + beet 40 g", "rocket + beetroot", "mixed: [rocket, beetroot]"),
        ("en-GB", "carrot 40 g", "carrot,", "crop: carrot,"),
    ],
)
def test_the_scale_tells_and_writes_the_countrys_name(
    tmp_path: Path, language: str, said: str, shown: str, row: str
) -> None:
    root = garden(tmp_path, language)
    done = run("weigh", "--folder", root, "--date", "2026-08-21", said, "--yes")
    assert done.exit_code == 0, done.output
    assert shown in done.stdout
    ledger = (root / "content/2026/harvest.yaml").read_text(encoding="utf-8")
    assert row in ledger.splitlines()[-1]
    again = read(root)
    assert [worded(one) for one in again.findings] == []


def test_the_scale_tells_totals_in_the_order_of_what_it_shows(tmp_path: Path) -> None:
    root = garden(tmp_path, "en-GB")
    done = run("weigh", "--folder", root, "--date", "2026-08-21", "rocket 40 g", "chard 50 g", "--yes")
    totals = [line for line in done.stdout.splitlines() if ", with this " in line]
    assert [line.split(":")[0].strip() for line in totals] == ["chard", "rocket", "All of 2026"]


@countries
def test_commands_tell_the_countrys_names(roots: dict[str, Path], language: str) -> None:
    told = {
        "seeds": run("seeds", roots[language]).stdout,
        "check": run("check", roots[language]).output,
        "bulletin": run("bulletin", roots[language]).stdout,
    }
    for command, text in told.items():
        assert text, command
        assert ABROAD[language].findall(text) == [], command
    for shown in SHOWN[language]:
        assert shown in told["seeds"]


def test_a_spreadsheet_is_told_and_taken_in_by_the_countrys_names(tmp_path: Path) -> None:
    root = garden(tmp_path, "en-NZ")
    sheet = tmp_path / "picked.csv"
    sheet.write_text("date,crop,weight g\n2026-08-22,chard,80\n2026-08-22,silverbeat,90\n", encoding="utf-8")
    done = run("take-in", sheet, "--folder", root, "--skip-unplaced", "--yes")
    assert "is not settled; nearest: silverbeet" in done.stdout
    assert "names: {silverbeat: silverbeet}" in done.stdout
    ledger = root / "content/2026/harvest.yaml"
    assert ledger.read_text(encoding="utf-8").splitlines()[-1] == (
        "- {date: 2026-08-22, crop: silverbeet, weight: 80 g}"
    )
    # The row goes on being known as the one that was taken, though it would be written otherwise now.
    settings = root / "content/garden.yaml"
    settings.write_text(settings.read_text(encoding="utf-8").replace("en-NZ", "en"), encoding="utf-8")
    sheet.write_text("date,crop,weight g\n2026-08-22,chard,85\n", encoding="utf-8")
    run("take-in", sheet, "--folder", root, "--correct", "--yes")
    assert ledger.read_text(encoding="utf-8").splitlines()[-1] == (
        "- {date: 2026-08-22, crop: chard, weight: 85 g}"
    )


@pytest.mark.parametrize(
    ("language", "typed", "told"),
    [
        ("en", "beans", "expected bean-bush, bean-lima, bean-pole or bean-runner"),
        ("en-GB", "beans", "expected dwarf French bean, butter bean, climbing French bean or"),
        ("en-NZ", "beans", "expected dwarf bean, butter bean, climbing bean or runner bean"),
        ("en-NZ", "rokcet", "did you mean rocket?"),
        ("en-NZ", "silverbeat", "did you mean silverbeet?"),
        ("en-NZ", "kumera", "did you mean kumara?"),
    ],
)
def test_a_name_that_is_not_understood_is_told_with_names_of_the_country(
    tmp_path: Path, language: str, typed: str, told: str
) -> None:
    root = garden(tmp_path, language)
    plan = root / "content/2026/plan.yaml"
    first = TYPED[language][0]
    plan.write_text(plan.read_text(encoding="utf-8").replace(first, typed, 1), encoding="utf-8")
    assert any(told in worded(one) for one in read(root).findings)


OWN = """\
- {crop: silverbeet, name: perpetual spinach, letters: ps}
- {crop: tomato-indeterminate, name: tomato}
- {crop: swede, plural: swede}
"""


def test_a_garden_may_call_a_crop_as_it_likes(tmp_path: Path) -> None:
    root = garden(tmp_path, "en-NZ", own=OWN.replace("letters: ps", "letters: Pt"))
    found = read(root)
    assert [worded(one) for one in found.findings] == []
    assert found.garden is not None
    chard, tomato, swede = (found.garden.crop(slug) for slug in ("chard", "tomato-indeterminate", "rutabaga"))
    assert (chard.name, chard.plural, chard.letters) == ("perpetual spinach", "perpetual spinach", "Pt")
    assert {"chard", "silverbeet"} <= set(chard.also)
    assert (tomato.name, tomato.listed, tomato.kind) == ("tomato", "tomatoes", "")
    assert (swede.name, swede.plural) == ("swede", "swede")
    page = parsed(site(root)["crops/chard/index.html"])
    assert page.title is not None
    assert page.title.get_text().startswith("Perpetual spinach")
    done = run("weigh", "--folder", root, "--date", "2026-08-21", "tomatoes 1 kg", "--yes")
    assert "tomato: nothing yet, with this 1.0 kg" in done.stdout
    assert "crop: tomato-indeterminate" in (root / "content/2026/harvest.yaml").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("language", "words"),
    [("en-GB", "hearting lettuce or leaf lettuce"), ("en", "lettuce-head or lettuce-leaf")],
)
def test_crops_to_choose_from_are_named_in_one_way(language: str, words: str, tmp_path: Path) -> None:
    """One stood under its name in the country and the other under its short one."""
    plan = "- {crop: lettuce, squares: A1, sow: May 10, until: Sep 20}\n"
    home = garden(tmp_path, language)
    (home / "content/2026/plan.yaml").write_text(plan, encoding="utf-8")
    got = read(home)
    assert [one.expected for one in got.findings if one.code == "general-crop"] == [words]
