"""Every cell of every table of every tally, of the demonstration's seasons and of invented gardens."""

from __future__ import annotations

from pathlib import Path

import pytest

from tallybed.pages import catalogue
from tallybed.pages.season import tally
from tallybed.publishing.assets import layouts
from tallybed.publishing.rendering import Rendering
from tallybed.reckoning.year import Years
from tests.demonstration import demo_years
from tests.generated import garden
from tests.pages.gardens import every, parsed, site_of
from tests.tools import ROOT
from tests.whole.recount import Cells, expected, shown

GARDENS = (0, 3, 6, 7, 9, 12, 16, 18, 21, 24, 27, 30, 33, 36, 39, 42, 45, 51, 57, 63)


def compared(years: Years, texts: dict[str, str], root: Path) -> int:
    """Compare every cell of every tally; return how many there were."""
    rendering = Rendering(layouts(root))
    cells = 0
    for page in every(tally.pages, years):
        name = page.path.split("/")[0]
        year = years.named(name)
        assert year is not None
        if not any(line.counts for line in year.lines):
            continue
        found = shown(year, parsed(rendering.page(catalogue.framed(years, page)).decode("utf-8")))
        told = expected(year, texts[name])
        assert set(found) == {ident for ident in told if tells(ident, told)}
        for ident in found:
            rows = told[ident]
            same(f"{name} {ident}", found[ident], rows)
            cells += sum(map(len, rows.values()))
    return cells


def tells(ident: str, told: dict[str, Cells]) -> bool:
    """Return whether a cut tells anything that the total does not; one that does not has no table."""
    rows = told[ident]
    weights = [
        words for row in told["t-state"].values() for head, words in row.items() if head.startswith("Weight")
    ]
    weighed = set(weights) != {"not weighed"}
    if ident in ("t-bed", "t-state"):
        return len(rows) > 1
    if ident == "t-variety":
        return not weighed or any(" " in name and not name.startswith("mixed: ") for name in rows)
    if ident in ("t-destination", "t-planting"):
        return set(rows) != {"not told"}
    if ident.startswith("t-squares"):
        return weighed and set(told["t-bed"]) != {"not told"}
    return weighed


def same(what: str, found: Cells, told: Cells) -> None:
    """Compare one table; a column that is not shown has nothing in it."""
    assert set(found) == set(told), what
    for name, cells in told.items():
        for head, words in cells.items():
            assert found[name].get(head, "") == words, (what, name, head)
        assert set(found[name]) <= set(cells), (what, name)


def test_the_demonstration(tmp_path: Path):
    texts = {
        path.parent.name: path.read_text(encoding="utf-8") for path in ROOT.glob("content/*/harvest.yaml")
    }
    assert compared(demo_years(), texts, tmp_path) > 1500


@pytest.mark.parametrize("fives", range(0, len(GARDENS), 5))
def test_invented_gardens(fives: int, tmp_path: Path):
    cells = 0
    for number in GARDENS[fives : fives + 5]:
        one = garden(number)
        years = site_of(one.write(tmp_path / str(number)))
        texts = {
            name.split("/")[0]: text for name, text in one.files.items() if name.endswith("harvest.yaml")
        }
        cells += compared(years, texts, tmp_path)
    assert cells > 60
