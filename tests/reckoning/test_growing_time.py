"""What is worked out once is told of what was asked, and of nothing else that was asked before it."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from tallybed.garden.crops import Variety
from tallybed.garden.garden import FreezeDates, Garden
from tallybed.garden.records.plan import Start
from tallybed.garden.squares import Bed
from tallybed.reading.folder.library import load_library
from tallybed.reckoning.calendar.bearing import Bearing
from tallybed.reckoning.carried import carry
from tallybed.reckoning.growing_time import window_for
from tallybed.reckoning.year import Year, Years
from tests.reckoning.byhand import plan_row, planting
from tests.reckoning.growing import SPAN, day, line, season

FREEZES = FreezeDates(spring=((32, ((50, (5, 1)),)),), fall=((32, ((50, (10, 15)),)),))
LIBRARY = load_library()
QUICK = replace(LIBRARY.crops["kale"], varieties=(Variety(name="Quick", days=30),))
GARDEN = Garden(
    name="g", beds=(Bed(name="b", title="b", columns=4, rows=1),), crops=(QUICK,), freezes=FREEZES
)


def year_of(today: str = "Jul 1", one: object = None) -> Year:
    (found,) = Years(garden=replace(GARDEN, seasons=(one or season([]),)), today=day(today)).all  # type: ignore[arg-type]
    return found


ASKED = (
    {},
    {"variety": "Quick"},
    {"start": Start.SOW},
    {"start": Start.SET_OUT, "indoors": day("Apr 20")},
    {"start": Start.SET_OUT, "indoors": day("Apr 10")},
    {"crop": LIBRARY.crops["carrot"]},
    {"day": day("Nov 28")},
)


@pytest.mark.parametrize("other", ASKED, ids=str)
def test_a_window_is_of_the_crop_variety_start_and_days_indoors_asked_for(other: dict[str, object]) -> None:
    """Fails where of two plantings one is told the latest day of the other, which was asked for before."""
    usual = {"crop": QUICK, "day": day("May 10")}

    def told(year: Year, asked: dict[str, object]) -> object:
        every = {**usual, **asked}
        return window_for(year, every.pop("crop"), every.pop("day"), **every)  # type: ignore[arg-type]

    year = year_of()
    for asked in ASKED:
        told(year, asked)
    assert told(year, other) == told(year_of(), other)


def test_when_plantings_bear_is_told_of_each_by_its_own_beginning() -> None:
    """Kale of 30 days from sowing, and kale of the library's own days; each a week later too."""
    row = plan_row("kale", "A1", date(2026, 5, 10))
    quick, plain = (planting(key, "kale", row, variety=name) for key, name in (("KA1", "Quick"), ("KA2", "")))
    asked = [
        (one, begun, start)
        for one in (quick, plain)
        for begun in (day("May 10"), day("May 17"))
        for start in (Start.SOW, Start.SET_OUT)
    ]
    together = Bearing(dates=FREEZES, span=SPAN)
    for one, begun, start in asked:
        alone = Bearing(dates=FREEZES, span=SPAN).first(one, QUICK, begun, start)
        assert together.first(one, QUICK, begun, start) == alone
    assert together.first(quick, QUICK, day("May 10"), Start.SOW) == day("Jun 9")


@pytest.mark.parametrize(("today", "same"), [("Jul 1", True), ("Jul 2", False)])
def test_what_was_worked_out_is_carried_over_to_the_same_season_on_the_same_day_alone(
    today: str, same: bool
) -> None:
    told = season([], [line("Apr 10", "sow", "kale", "A1")])
    before, now, other = year_of(one=told), year_of(today, told), year_of(one=replace(told))
    assert before.holding.today == day("Jul 1")
    carry(before.years, now.years)
    carry(before.years, other.years)
    assert (now.holding is before.holding) is same
    assert now.holding.today == day(today)
    assert other.holding is not before.holding
