"""What it takes to mark out a bed, in the units of its garden."""

from __future__ import annotations

from pathlib import Path

import pytest

from tallybed.garden.squares import Bed
from tallybed.garden.units import CENTIMETRE, FOOT, Length, Showing
from tallybed.pages.paper.marking_out import tables
from tests.pages.gardens import html_of, written


def test_twine_is_told_in_metres() -> None:
    # 7 lines of 120 cm, 3 of 240 cm, and a foot (30.48 cm) for the knots of each of the 10: 1864.8 cm.
    bed = Bed(name="lane", title="The lane bed", columns=8, rows=4, side=Length.of(30, CENTIMETRE))
    every = tables(Showing(metric=True), bed, ())
    told = [cell.text for table in every for row in table.rows for cell in row.cells]
    assert told[told.index("Twine in all") + 1] == "18.65 m, with 30.5 cm a line for its two knots"


@pytest.mark.parametrize(
    ("columns", "rows", "sides"), [(5, 1, {"1", "A", "E"}), (1, 5, {"1", "5", "A"}), (1, 1, {"1", "A"})]
)
def test_no_two_sides_go_by_one_name(columns: int, rows: int, sides: set[str]) -> None:
    """A run-out along side 1 could have been either of them."""
    bed = Bed(name="strip", title="The strip", columns=columns, rows=rows, side=Length.of(1, FOOT))
    table = next(one for one in tables(Showing(), bed, ()) if one.ident == "sides")
    named = [row.cells[0].note for row in table.rows if row.cells[0].note]
    assert sorted(named) == sorted(f"side {side}" for side in sides)


@pytest.mark.parametrize(
    ("size", "said"),
    [
        ("length: 5 squares, width: 1 square", "String the 4 lines across."),
        ("length: 1 square, width: 3 squares", "String the 2 lines along."),
        ("length: 2 squares, width: 2 squares", "String the 2 lines, first those across, then those along."),
        ("length: 1 square, width: 1 square", "One square needs no line."),
    ],
)
def test_lines_that_are_not_there_are_not_strung(tmp_path: Path, size: str, said: str) -> None:
    """Fails where a bed of one row is told to string "those along", of which it has none."""
    site = html_of(written(tmp_path, {"garden.yaml": f"name: One\nbeds:\n  - {{name: b, {size}}}\n"}))
    steps = site["sheets/marking-out/b/index.html"].select(".marking-out ol > li")
    assert steps[-1].get_text(strip=True) == said


def test_the_triangle_for_a_corner_is_told_with_its_three_sides(tmp_path: Path) -> None:
    """A triangle of 3, 4 and 5 has a right angle (Euclid I.48); one in feet fits a bed of 4 by 8."""
    garden = "name: One\nbeds:\n  - {name: b, length: 8 squares, width: 4 squares}\n"
    page = html_of(written(tmp_path, {"garden.yaml": garden}))["sheets/marking-out/b/index.html"]
    told = " ".join(page.get_text(" ").split())
    assert "3 ft along one side and 4 ft along the other are 5 ft apart where it is square" in told
