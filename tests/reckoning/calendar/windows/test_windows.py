"""Planting windows against published calendars and worked dates."""

from dataclasses import replace
from datetime import date
from fractions import Fraction

import pytest

from tallybed.garden.crops import Beginning, Crop, Figure, Habit, Variety
from tallybed.garden.days import Span
from tallybed.garden.garden import FreezeDates
from tallybed.garden.records.plan import Start
from tallybed.garden.units import INCH, Length
from tallybed.reading.folder.library import load_library
from tallybed.reckoning.calendar.windows.windows import days_to_harvest, expected, window

SEASON = Span(first=date(2026, 3, 1), last=date(2026, 11, 30))


def crop(**used: tuple[float, float] | str) -> Crop:
    """A crop that knows only the figures told."""
    chosen = tuple(
        Figure(fact=fact.replace("_", " "), text=value)
        if isinstance(value, str)
        else Figure(fact=fact.replace("_", " "), low=Fraction(value[0]), high=Fraction(value[1]))
        for fact, value in used.items()
    )
    return Crop(
        slug="x",
        name="x",
        plural="xs",
        family="Xaceae",
        habit=Habit.UPRIGHT,
        start=Beginning.SOWN,
        letters="Xx",
        spacing=Length.of(6, INCH),
        chosen=chosen,
    )


def frost(spring: tuple[int, int] | None = None, fall: tuple[int, int] | None = None) -> FreezeDates:
    return FreezeDates(
        spring=((32, ((50, spring),)),) if spring else (), fall=((32, ((50, fall),)),) if fall else ()
    )


@pytest.mark.parametrize(
    ("last_freeze", "year", "weeks", "first", "last"),
    [
        # Week ranges are common practice, no source; the dates were counted with GNU date.
        ((5, 2), 2026, (-6, -4), "2026-03-21", "2026-04-04"),
        ((5, 2), 2026, (1, 2), "2026-05-09", "2026-05-16"),
        ((3, 20), 2028, (-4, -2), "2028-02-21", "2028-03-06"),  # across 29 February
        ((3, 20), 2027, (-4, -2), "2027-02-20", "2027-03-06"),
        ((9, 20), 2026, (-8, -6), "2026-07-26", "2026-08-09"),  # south of the equator
        # Broomfield Enterprise, citing Colorado State University Extension: six weeks before May 5.
        ((5, 5), 2026, (-6, -6), "2026-03-24", "2026-03-24"),
    ],
)
def test_weeks_from_the_last_freeze(
    last_freeze: tuple[int, int], year: int, weeks: tuple[int, int], first: str, last: str
):
    south = last_freeze[0] > 7
    span = Span(first=date(year, 8 if south else 2, 1), last=date(year + south, 5 if south else 11, 30))
    found = window(crop(spring_planting_offset=weeks), frost(last_freeze), span)
    assert (found.spring_first, found.spring_last) == (date.fromisoformat(first), date.fromisoformat(last))


@pytest.mark.parametrize(
    ("hardiness", "weeks", "safe", "last"),
    [
        # Not before the day after which a freeze follows in one year of ten, here 15 May: what a freeze
        # kills waits for it, though its weeks from the average one, 1 May, have begun, or are even over.
        ("tender", (1, 3), (5, 15), (5, 22)),
        ("tender", (0, 1), (5, 15), (5, 15)),
        ("tender", (3, 4), (5, 22), (5, 29)),
        ("hardy", (1, 3), (5, 8), (5, 22)),
    ],
)
def test_what_a_freeze_kills_waits_until_one_in_ten(
    hardiness: str, weeks: tuple[int, int], safe: tuple[int, int], last: tuple[int, int]
):
    dates = FreezeDates(spring=((32, ((50, (5, 1)), (10, (5, 15)))),))
    found = window(crop(spring_planting_offset=weeks, hardiness=hardiness), dates, SEASON)
    assert (found.spring_safe, found.spring_last) == (date(2026, *safe), date(2026, *last))


@pytest.mark.parametrize(
    ("raised", "last"),
    [
        # 90 days from sowing, and 14 for a slow fall (Virginia Cooperative Extension 426-334), before
        # 15 October: 3 July. What was raised indoors needs so many days less, but a third of them in the bed.
        (0, "2026-07-03"),
        (40, "2026-08-12"),
        (80, "2026-09-01"),
    ],
)
def test_days_indoors_are_days_less_in_the_bed(raised: int, last: str):
    plant = crop(days_from_sowing=(90, 90), hardiness="hardy")
    found = window(plant, frost((5, 2), (10, 15)), SEASON, start=Start.SET_OUT, raised=raised)
    assert found.counted_back == date.fromisoformat(last)


@pytest.mark.parametrize(
    ("last_freeze", "year", "weeks", "first", "last"),
    [
        ((5, 2), 2026, (6, 8), "2026-03-07", "2026-03-21"),
        ((2, 10), 2026, (8, 10), "2025-12-02", "2025-12-16"),  # across the new year
    ],
)
def test_sowing_indoors_is_counted_back_from_setting_out(
    last_freeze: tuple[int, int], year: int, weeks: tuple[int, int], first: str, last: str
):
    plant = crop(spring_planting_offset=(0, 0), weeks_indoors=weeks)
    found = window(plant, frost(last_freeze), Span(first=date(year, 1, 15), last=date(year, 11, 30)))
    assert (found.indoors_first, found.indoors_last) == (date.fromisoformat(first), date.fromisoformat(last))


# Iowa State University Extension, "Planting and harvesting times for garden vegetables": last practical dates
# in central Iowa. The average first freeze of Boone County, central Iowa, is October 6 (Iowa State University
# Extension, freeze dates by county, 1950-2021). The crops' own figures come from other publications.
CENTRAL_IOWA = frost((4, 28), (10, 6))


@pytest.mark.parametrize(
    ("slug", "earliest", "latest"),
    [
        ("bean-bush", "08-01", "08-01"),
        ("beet", "08-01", "08-01"),
        ("carrot", "08-01", "08-01"),
        ("chard", "08-01", "08-01"),
        ("pea-garden", "08-01", "08-10"),
        ("eggplant", "06-20", "06-20"),
        ("pepper-sweet", "06-20", "06-20"),
        ("tomato-determinate", "06-20", "06-20"),
        ("tomato-indeterminate", "06-20", "06-20"),
    ],
)
def test_last_planting_in_central_iowa(slug: str, earliest: str, latest: str):
    found = window(load_library().crops[slug], CENTRAL_IOWA, SEASON)
    assert found.last is not None
    assert found.counted_back is not None
    low, high = date.fromisoformat(f"2026-{earliest}"), date.fromisoformat(f"2026-{latest}")
    off = min(
        max((low - day).days, (day - high).days, 0)
        for day in (found.last, found.counted_back, found.fall_last)
        if day
    )
    assert off <= 12, f"{slug}: printed {earliest}, reckoned {found.counted_back} to {found.last}"


def test_an_early_sweet_corn_in_central_iowa():
    # The same table prints July 1 for an early variety; 70 days for one is common practice, no source.
    corn = load_library().crops["sweet-corn"]
    early = Crop(
        **{slot: getattr(corn, slot) for slot in Crop.__slots__}
        | {"varieties": (Variety(name="E", days=70),)}
    )
    found = window(early, CENTRAL_IOWA, SEASON, variety="E")
    assert found.counted_back is not None
    assert abs((found.counted_back - date(2026, 7, 1)).days) <= 3


@pytest.mark.parametrize(
    ("days", "hardiness", "freeze", "last"),
    [
        # Virginia Cooperative Extension 426-334: days to harvest + 14, and + 14 for what frost kills.
        ((60, 60), "hardy", (10, 15), "2026-08-02"),
        ((60, 60), "tender", (10, 15), "2026-07-19"),
        # UC Master Gardeners of Sonoma County, sowing worksheet: 60 days, two weeks' allowance, freeze Nov 25
        # (where the ten-hour day of Nov 18 decides, we have no such date: seven days later).
        ((60, 60), "hardy", (11, 18), "2026-09-05"),
        ((45, 45), "hardy", (10, 6), "2026-08-08"),
    ],
)
def test_counting_back_from_the_first_freeze(
    days: tuple[int, int], hardiness: str, freeze: tuple[int, int], last: str
):
    found = window(crop(days_from_sowing=days, hardiness=hardiness), frost((4, 20), freeze), SEASON)
    assert found.counted_back == date.fromisoformat(last)


@pytest.mark.parametrize(
    ("begins", "days", "told"),
    [
        (date(2026, 10, 20), 45, True),
        (date(2026, 11, 28), 45, False),
        (date(2026, 11, 28), 200, True),
        (date(2027, 2, 20), 45, True),
    ],
    ids=["before the freeze", "into winter", "for the spring", "before spring"],
)
def test_nothing_ripens_in_the_winter_that_it_is_sown_into(begins: date, days: int, told: bool) -> None:
    """Fails where spinach sown at the end of November "may come in" in January."""
    plant = crop(days_from_sowing=(days, days), hardiness="hardy")
    span = Span(first=date(2026, 7, 1), last=date(2027, 6, 30))
    assert (expected(plant, frost((4, 10), (10, 25)), span, begins, start=Start.SOW) is not None) is told


@pytest.mark.parametrize(
    ("begins", "over_winter", "first"),
    [
        # Both days are within the weeks in which spinach is sown to stand the winter. The library's 45 days
        # and the fourteen of fall end on 1 November, ten days after the freeze; from its last week on they
        # end in deep winter, and the library has it picked from the last spring freeze on.
        (date(2026, 9, 3), False, date(2026, 11, 1)),
        (date(2026, 10, 20), True, date(2027, 4, 10)),
    ],
)
def test_what_can_be_picked_before_the_winter_that_it_could_stand_is(
    begins: date, over_winter: bool, first: date
) -> None:
    span = Span(first=date(2026, 7, 1), last=date(2027, 6, 30))
    spinach = load_library().crops["spinach"]
    found = expected(spinach, frost((4, 10), (10, 22)), span, begins, start=Start.SOW)
    assert found is not None
    assert (found.over_winter, found.first) == (over_winter, first)


def test_a_65_day_crop_takes_about_80_days_in_fall():
    # Metropolitan Washington Council of Governments, fall planting formula (A. McDaniel), 2011.
    fall = expected(
        crop(days_from_sowing=(65, 65)), frost((4, 10), (10, 25)), SEASON, date(2026, 8, 1), start=Start.SOW
    )
    assert fall is not None
    assert abs(fall.days - 80) <= 2
    spring = expected(
        crop(days_from_sowing=(65, 65)), frost((4, 10), (10, 25)), SEASON, date(2026, 4, 10), start=Start.SOW
    )
    assert spring is not None
    assert (spring.days, spring.first) == (65, date(2026, 6, 14))


def test_bunching_onions_are_ready_in_about_sixty_days():
    # Common practice, no source: about 60 days. From sets they come sooner (University of Missouri Extension
    # G6201 prints 25 to 35 days), which is why the two beginnings are kept apart.
    onion = load_library().crops["onion-bunching"]
    sown, sets = days_to_harvest(onion, "", Start.SOW), days_to_harvest(onion, "", Start.SET_OUT)
    assert sown is not None
    assert sets is not None
    assert 55 <= sown[0] <= 65
    assert sets[0] < sown[0]


@pytest.mark.parametrize(
    ("slug", "killed"),
    [
        ("tomato-indeterminate", True),
        ("basil", True),
        ("cucumber", True),
        ("kale", False),
        ("spinach", False),
    ],
)
def test_what_a_freeze_kills(slug: str, killed: bool):
    # University of Minnesota Extension M1227: basil killed by frost, kale to 20 F, spinach light frost.
    assert load_library().crops[slug].is_tender is killed


def test_a_variety_has_its_own_days():
    plant = crop(days_from_sowing=(60, 70))
    named = Crop(
        **{slot: getattr(plant, slot) for slot in Crop.__slots__}
        | {"varieties": (Variety(name="V", days=50),)}
    )
    assert days_to_harvest(named, "V", Start.SOW) == (50, False)
    assert days_to_harvest(named, "v", Start.SOW) == (50, False), "capitals make no other variety"
    assert days_to_harvest(named, "", Start.SOW) == (65, False)
    assert days_to_harvest(named, "", Start.SET_OUT) is None, "days from sowing are none from setting out"


def test_nothing_known_gives_nothing():
    found = window(crop(), FreezeDates(), SEASON)
    assert (found.spring_first, found.fall_last, found.counted_back, found.last) == (None, None, None, None)
    assert expected(crop(), FreezeDates(), SEASON, date(2026, 5, 1), start=Start.SOW) is None


def test_a_tender_crop_is_not_expected_to_bear_after_the_freeze():
    plant = crop(days_from_setting_out=(70, 70), usable_days_after_first_harvest=(90, 90), hardiness="tender")
    found = expected(plant, frost((4, 22), (10, 14)), SEASON, date(2026, 5, 12), start=Start.SET_OUT)
    assert found is not None
    assert (found.first, found.last) == (date(2026, 7, 21), date(2026, 10, 14))


def test_a_southern_season_runs_over_the_new_year():
    span = Span(first=date(2026, 8, 15), last=date(2027, 6, 15))
    plant = crop(spring_planting_offset=(0, 2), days_from_setting_out=(70, 70), hardiness="tender")
    found = window(plant, frost((9, 20), (4, 30)), span, start=Start.SET_OUT)
    assert found.spring_first == date(2026, 9, 20)
    assert found.counted_back == date(2027, 1, 22)


def test_what_bears_in_a_later_year_is_not_counted_back_from_this_ones_freeze() -> None:
    """Asparagus, two years from its crown to the first spears: "plant it two years ago" helps nobody."""
    fall = frost(fall=(10, 20))
    assert window(crop(days_from_sowing=(100, 100)), fall, SEASON).counted_back == date(2026, 6, 28)
    assert window(crop(days_from_sowing=(730, 730)), fall, SEASON).counted_back is None


def test_days_from_sowing_count_from_the_windowsill_where_no_weeks_indoors_are_known() -> None:
    own = replace(crop(), days=100, days_from="sowing")
    begins, indoors = date(2026, 5, 12), date(2026, 3, 10)
    found = expected(own, FreezeDates(), SEASON, begins, start=Start.SET_OUT, indoors=indoors)
    assert found is not None
    assert found.first == date(2026, 6, 18)
    assert expected(own, FreezeDates(), SEASON, begins, start=Start.SET_OUT) is None
