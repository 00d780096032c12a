"""The reckoned windows held against windows printed for 25 places: they meet, or it is said why not.

The places' tables print months for whole countries or single gardens, so meeting is asked for, not equality.
"""

from __future__ import annotations

from datetime import date
from fractions import Fraction

import pytest

from tallybed.garden.garden import FreezeDates
from tallybed.reading.folder.library import load_library
from tallybed.reckoning.calendar.windows.winter import harvest_after, is_mild
from tests.reckoning.calendar.printed import SLACK, apart, freezes, printed

WHY: dict[tuple[str, str, str], str] = {
    ("garlic", "New Zealand", "harvest"): "the row tells no day of planting to reckon from",
    ("bean-broad", "Northern Ireland", "sow_indoors"): "no source of weight prints weeks indoors for it",
    (
        "bean-broad",
        "Northern Ireland",
        "harvest",
    ): "of plants from pots, whose day of setting out is not printed",
    ("broccoli", "Northern Ireland", "harvest"): "sprouting broccoli, another kind: it stands over winter",
    (
        "brussels-sprouts",
        "UK (south of England presumed)",
        "sow_indoors",
    ): "long kinds, picked from August to "
    "March, are sown in spring there; the reckoned days are Iowa’s and western Washington’s for a fall crop",
    ("brussels-sprouts", "UK (south of England presumed)", "set_out"): "the same",
    (
        "chinese-cabbage",
        "UK (south of England presumed)",
        "sow_indoors",
    ): "no weeks indoors are printed for it",
    (
        "chinese-cabbage",
        "UK (south of England presumed)",
        "harvest",
    ): "of plants, and its days count from sowing",
    (
        "sweet-corn",
        "south-central Alaska",
        "sow_indoors",
    ): "started in pots there; no weeks indoors are printed",
    (
        "onion-bulb",
        "western Washington",
        "sow_indoors",
    ): "plants for the winter, started in July; only sets and plants of spring are reckoned indoors",
    (
        "broccoli",
        "western Washington (WSU)",
        "harvest",
    ): "the latest day on which side shoots are cut, not the first",
    (
        "brussels-sprouts",
        "western Washington (WSU)",
        "harvest",
    ): "the latest day of a mild winter, not the first",
}
"""Every disagreement, by crop, place and what is printed, with its reason."""


def test_the_calendars_are_all_there() -> None:
    assert len(printed()) > 290
    assert len({one.place for one in printed()}) == 25
    assert {one.weight for one in printed()} == {"A", "B", "C", "D"}


def test_reckoned_windows_meet_the_printed_ones() -> None:
    off = {}
    for one in printed():
        days = apart(one)
        if days is None or days > SLACK.days:
            off[one.crop, one.place, one.what] = days
    assert off.keys() - WHY.keys() == set(), {key: off[key] for key in off.keys() - WHY.keys()}
    assert WHY.keys() - off.keys() == set(), "these agree by now: take their reasons out"


# Penn State Extension, starting seeds indoors: weeks from sowing to setting out, as reprinted. It is one of
# several sources, and the others are shorter.
@pytest.mark.parametrize(
    ("slug", "low", "high"),
    [
        *(("broccoli", 8, 9), ("cabbage", 8, 9), ("tomato-indeterminate", 8, 9), ("pepper-sweet", 8, 9)),
        *(("cucumber", 4, 4), ("lettuce-head", 4, 4)),
    ],
)
def test_printed_weeks_indoors_lie_within_what_the_library_has_seen(slug: str, low: int, high: int) -> None:
    crop = load_library().crops[slug]
    seen = [(one.low, one.high) for one in crop.all_of("weeks indoors")]
    assert (Fraction(low), Fraction(high)) in seen
    used = crop.used("weeks indoors")
    assert used is not None
    assert used.low is not None
    assert used.low <= high, "the middle of several sources, not this one's"


# Iowa State University Extension, Minnesota and Maine; Puget Sound; New South Wales (see the calendars).
@pytest.mark.parametrize(
    ("place", "months"),
    [
        ("southern Maine", {7, 8}),
        ("western Washington", {5, 6, 7}),
        ("southern New South Wales", {11, 12, 1}),
    ],
)
def test_garlic_is_dug_in_early_summer(place: str, months: set[int]) -> None:
    wanted = ("garlic", place, "sow_out")
    (one,) = [row for row in printed() if (row.crop, row.place, row.what) == wanted]
    ready = harvest_after(load_library().crops["garlic"], freezes(place), one.last)
    assert ready is not None
    assert {ready.first.month, ready.last.month} <= months


@pytest.mark.parametrize(
    ("latitude", "spring", "fall", "mild"),
    [
        # Average freezes, from memory, to about ten days.
        (51, (4, 22), (10, 30), True),  # inland in the south of England
        (50, (5, 25), (9, 22), False),  # Winnipeg
        (45, (4, 2), (11, 8), True),  # the Oregon coast
        (39, (4, 20), (10, 20), False),  # Cincinnati
        (-38, (9, 5), (6, 4), True),  # Melbourne
    ],
)
def test_a_winter_is_mild_by_the_sea_and_near_the_tropics(
    latitude: int, spring: tuple[int, int], fall: tuple[int, int], mild: bool
) -> None:
    dates = FreezeDates(
        spring=((32, ((50, spring),)),), fall=((32, ((50, fall),)),), latitude=Fraction(latitude)
    )
    assert is_mild(dates, date(2026, *fall)) is mild
