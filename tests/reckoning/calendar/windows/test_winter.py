"""Where winters are mild: held against what gardeners of a place sow before winter (named beside each)."""

from __future__ import annotations

from datetime import date
from fractions import Fraction

import pytest

from tallybed.garden.garden import FreezeDates
from tallybed.reckoning.calendar.windows.winter import is_mild


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
