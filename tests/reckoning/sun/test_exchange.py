"""Exchanges of two plantings: what they cost, and which plantings could change places at all."""

from __future__ import annotations

import re
from datetime import date
from pathlib import Path

import pytest

from tallybed.reckoning.sun.exchange import Exchanges, exchanges
from tallybed.reckoning.sun.hours import plantings_sun
from tallybed.reckoning.year import Year, Years
from tests.pages.gardens import written
from tests.small_garden import read_garden

GARDEN = """\
name: Tiny
latitude: 45
season: {start: Mar 1, end: Nov 30}
beds:
  - {name: b, length: 6 squares, width: 3 squares, bearing: 90}
  - {name: c, length: 2 squares, width: 1 squares, bearing: 90}
"""
PLAN = """\
- {crop: sweet-corn, tag: SC1, squares: b/A1:A3, sow: May 10, until: Sep 10}
- {crop: carrot, tag: CA1, squares: b/B1:B3, sow: Apr 20, until: Sep 1}
- {crop: spinach, tag: SP1, squares: b/C1:D1, sow: Apr 1, until: Jun 10}
- {crop: tomato-indeterminate, tag: TO1, squares: b/C2:D2, set out: May 25, until: Sep 30}
- {crop: leek, tag: LE1, squares: b/F1:F3, set out: May 1, until: Nov 1}
"""


def year_of(folder: Path, plan: str) -> Year:
    """The year of a plan for two beds of one foot squares."""
    garden = read_garden(written(folder, {"garden.yaml": GARDEN, "2026/plan.yaml": plan}))
    return Years(garden=garden, today=date(2026, 3, 2)).all[-1]


def found_in(folder: Path, plan: str) -> Exchanges:
    """What exchanges would save in the first bed."""
    year = year_of(folder, plan)
    found = exchanges(year, year.garden.beds[0])
    assert found is not None
    return found


def cost(year: Year) -> float:
    """What the plantings of the first bed take from each other, by the plan as it lies."""
    sun = plantings_sun(year, year.garden.beds[0])
    assert sun is not None
    return sun.cost


def test_an_exchange_costs_what_the_plan_does_once_it_is_written_so(tmp_path: Path) -> None:
    """Along letters and numbers, and of plantings that stand on other days: all is reckoned anew."""
    year = year_of(tmp_path / "before", PLAN)
    found = exchanges(year, year.garden.beds[0])
    assert found is not None
    assert found.cost == pytest.approx(cost(year))
    squares = dict(re.findall(r"tag: (\w+), squares: (\S+),", PLAN))
    moved = set()
    for number, one in enumerate(found.best):
        tags = [year.holding.planting(key).tag for key in (one.one, one.other)]
        moved.add(frozenset(tags))
        plan = PLAN
        for tag, other in (tags, tags[::-1]):
            plan = plan.replace(
                f"tag: {tag}, squares: {squares[tag]}", f"tag: {tag}, squares: {squares[other]}"
            )
        assert one.cost == pytest.approx(cost(year_of(tmp_path / str(number), plan)))
        assert one.cost < found.cost
    assert {frozenset({"CA1", "SC1"}), frozenset({"SP1", "TO1"})} <= moved


@pytest.mark.parametrize(
    ("plan", "pairs"),
    [
        (
            "- {crop: radish, squares: b/A1, sow: Apr 1, until: May 1}\n"
            "- {crop: carrot, squares: b/B1, sow: Apr 1, until: May 1}\n",
            1,
        ),
        # One after the other in the same square: there is nothing to exchange.
        (
            "- {crop: radish, squares: b/A1, sow: Apr 1, until: May 1}\n"
            "- {crop: bush bean, squares: b/A1, sow: May 10, until: Sep 1}\n",
            0,
        ),
        # The radish could stand in B1, but the carrot would meet the beans in A1; whichever is told first.
        (
            "- {crop: radish, squares: b/A1, sow: Apr 1, until: May 1}\n"
            "- {crop: bush bean, squares: b/A1, sow: May 10, until: Sep 1}\n"
            "- {crop: carrot, squares: b/B1, sow: Apr 1, until: Sep 1}\n",
            0,
        ),
        (
            "- {crop: radish, squares: b/B1, sow: Apr 1, until: May 1}\n"
            "- {crop: bush bean, squares: b/B1, sow: May 10, until: Sep 1}\n"
            "- {crop: arugula, squares: b/A1, sow: Apr 1, until: Sep 1}\n",
            0,
        ),
        # What was gone from A1 before the carrot went in is not in its way.
        (
            "- {crop: arugula, squares: b/A1, sow: Mar 20, until: Apr 20}\n"
            "- {crop: radish, squares: b/A1, sow: May 1, until: Jun 1}\n"
            "- {crop: carrot, squares: b/B1, sow: May 1, until: Aug 1}\n",
            1,
        ),
        # Half of a planting stands in another bed.
        (
            "- {crop: radish, squares: 'b/A1, c/A1', sow: Apr 1, until: May 1}\n"
            "- {crop: carrot, squares: b/B1, sow: Apr 1, until: May 1}\n",
            0,
        ),
    ],
)
def test_which_could_change_places(tmp_path: Path, plan: str, pairs: int) -> None:
    """Both must fit where the other stands, with nothing else moved."""
    assert found_in(tmp_path, plan).tried == pairs
