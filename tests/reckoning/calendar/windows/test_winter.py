"""Where winters are mild: held against what gardeners of a place sow before winter (named beside each)."""

from __future__ import annotations

from datetime import date
from fractions import Fraction

import pytest

from tallybed.garden.garden import FreezeDates
from tallybed.reading.folder.library import load_library
from tallybed.reckoning.calendar.windows.winter import harvest_after, is_mild


def freezes(spring: tuple[int, int], fall: tuple[int, int], latitude: int) -> FreezeDates:
    return FreezeDates(
        spring=((32, ((50, spring),)),), fall=((32, ((50, fall),)),), latitude=Fraction(latitude)
    )


@pytest.mark.parametrize(
    ("spring", "fall", "latitude", "mild"),
    [
        # Broad beans in autumn: inland Tasmania, as all of it (P. Cundall, in the library).
        ((10, 12), (5, 3), -42, True),
        # The same days in Missouri, where nothing but garlic and spinach stands the winter (from memory).
        ((4, 12), (11, 3), 39, False),
        ((4, 12), (11, 3), 52, True),
        # A frost hollow of the south, high up: as cold as it would be in the north.
        ((12, 10), (3, 20), -44, False),
    ],
)
def test_the_sea_is_near_everywhere_south_of_the_equator(
    spring: tuple[int, int], fall: tuple[int, int], latitude: int, mild: bool
) -> None:
    day = date(2026, 5, 5) if latitude < 0 else date(2026, 11, 5)
    assert is_mild(freezes(spring, fall, latitude), day) is mild


def test_what_stood_over_winter_is_picked_by_weeks_from_the_freeze_that_follows() -> None:
    """The sowing of ``CYCLES``: 3 to 10 weeks, of seven days each, from 1 May of the year after."""
    found = harvest_after(load_library().crops["pea-snap"], freezes((5, 1), (10, 15), 40), date(2026, 10, 20))
    assert found is not None
    assert (found.first, found.last) == (date(2027, 5, 22), date(2027, 7, 10))
