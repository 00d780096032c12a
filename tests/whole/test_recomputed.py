"""Every crop and month of every demonstration season, added up by other code and read off the page."""

from decimal import ROUND_HALF_UP, Decimal
from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from bs4.element import Tag

from tests.demonstration import demo_garden
from tests.pages.gardens import Parsed
from tests.tools import ROOT
from tests.whole.reckoner import GRAMS, season

YEARS = ("2024", "2025", "2026")
MONTHS = {"Mar": "03", "Apr": "04", "May": "05", "Jun": "06", "Jul": "07", "Aug": "08", "Sep": "09"}
MONTHS |= {"Oct": "10", "Nov": "11"}


def crop_of(row: Tag, slugs: dict[str, str]) -> str:
    head = row.find("th")
    assert isinstance(head, Tag)
    link = head.find("a")
    if isinstance(link, Tag):
        return str(link["href"]).split("/")[-2]
    text = head.get_text(" ", strip=True)
    assert text.startswith("mixed bowl: "), text
    words = text.removeprefix("mixed bowl: ").replace(" and ", ", ").split(", ")
    return "mixed: " + " + ".join(sorted(slugs[word] for word in words))


def _months(table: Tag) -> list[str]:
    """Return the headings of the months, which follow the crop's; the sums come behind them."""
    heads = [head.get_text(strip=True) for head in table.select("thead th")][1:]
    return [head for head in heads if head in MONTHS]


def cells_on_page(page: BeautifulSoup, year: str, slugs: dict[str, str]) -> dict[tuple[str, str], str]:
    table = page.find("table", id="t-crops")
    assert isinstance(table, Tag)
    heads = _months(table)
    found: dict[tuple[str, str], str] = {}
    for row in table.select("tbody tr"):
        crop = crop_of(row, slugs)
        for month, cell in zip(heads, row.find_all("td"), strict=False):
            text = cell.get_text(" ", strip=True)
            if text:
                found[crop, f"{year}-{MONTHS[month]}"] = text
    return found


@pytest.fixture(scope="module")
def slugs() -> dict[str, str]:
    """The name and plural of each crop as the site writes them."""
    garden = demo_garden()
    return {name: crop.slug for crop in garden.crops for name in (crop.name, crop.plural)}


@pytest.mark.parametrize("year", YEARS)
def test_every_cell_of_crop_and_month(year: str, pages: Parsed, slugs: dict[str, str]):
    reckoned = season(ROOT, year)
    shown = cells_on_page(pages[f"{year}/tally/index.html"], year, slugs)
    assert set(shown) == set(reckoned), "the page has a cell the ledger does not, or the other way round"
    for key, cell in sorted(reckoned.items()):
        pounds = (cell.grams / GRAMS["lb"]).quantize(Decimal("0.01"), ROUND_HALF_UP)
        if cell.grams == 0:
            assert shown[key].startswith("not weighed"), (key, shown[key])
            continue
        assert Decimal(shown[key].removeprefix("≥ ")) == pounds, (key, shown[key])
        assert shown[key].startswith("≥ ") is bool(cell.unweighed), (key, shown[key])


@pytest.mark.parametrize("year", YEARS)
def test_the_running_total_of_the_page(year: str, pages: Parsed):
    table = pages[f"{year}/tally/index.html"].find("table", id="t-crops")
    assert isinstance(table, Tag)
    heads = _months(table)
    (row,) = (one for one in table.select("tr") if one.find("th").get_text(strip=True) == "Running total")
    so_far = Decimal(0)
    cells = season(ROOT, year)
    for month, cell in zip(heads, row.find_all("td"), strict=False):
        so_far += sum(
            (one.grams for (_c, m), one in cells.items() if m == f"{year}-{MONTHS[month]}"), Decimal(0)
        )
        expected = (so_far / GRAMS["lb"]).quantize(Decimal("0.01"), ROUND_HALF_UP)
        assert Decimal(cell.get_text(" ", strip=True).removeprefix("≥ ")) == expected, month


def test_the_seasons_are_rich_enough_to_show_everything():
    for year in YEARS:
        content = ROOT / "content" / year
        entries = len(list((content / "log").glob("*.md")))
        assert entries >= 25, year
        crops = {crop for crop, _month in season(ROOT, year) if not crop.startswith("mixed")}
        assert len(crops) >= 20, year
        text = Path(content / "harvest.yaml").read_text(encoding="utf-8")
        assert text.count("- {date:") >= 120, year
