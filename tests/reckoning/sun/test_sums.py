"""A month is the mean of its days, though not each of them is looked at."""

from __future__ import annotations

from datetime import date, timedelta
from random import Random

import pytest

from tallybed.garden.days import Month
from tallybed.reckoning.calendar.stages import Growth
from tallybed.reckoning.sun.bodies import Body, Spot
from tallybed.reckoning.sun.growth import Rise
from tallybed.reckoning.sun.hours import SeasonSun, summed_up
from tests.reckoning.sun.beds import bed_of, body, scene, spot, thing

FIRST, DAYS = date(2026, 3, 1), 200


def _growing(random: Random, name: str, square: tuple[int, int]) -> tuple[Body, Spot]:
    begun = FIRST + timedelta(days=random.randrange(DAYS - 30))
    last = min(begun + timedelta(days=random.choice((4, 30, 60, 100))), FIRST + timedelta(days=DAYS))
    rise = Rise(
        full=random.uniform(8, 80),
        growth=Growth(begun=begun, days=random.randint(40, 90), set_out=random.random() < 0.5),
    )
    column, row = square
    box = (12.0 * column, 12.0 * column + 12, 12.0 * row, 12.0 * row + 12)
    return (
        Body(planting=name, first=begun, last=last, boxes=(box,), rise=rise),
        Spot(
            square=spot(*square).square,
            planting=name,
            first=begun,
            last=last,
            x=box[0] + 6,
            y=box[2] + 6,
            rise=rise,
        ),
    )


def _season(seed: int) -> SeasonSun:
    random = Random(seed)
    squares = [(column, row) for column in range(3) for row in range(2)]
    both = [_growing(random, f"P{number}", square) for number, square in enumerate(squares)]
    tree = thing("tree", 240, 200, 200, 400, 11, 12, 1, 2, 3)
    bed = bed_of(3, 2, random.randrange(360))
    latitude = random.choice((-35, 10, 45, 60))
    return summed_up(bed, scene(bed, latitude, [one for one, _ in both], [one for _, one in both], (tree,)))


@pytest.mark.parametrize("seed", range(6))
def test_the_sums_of_months_are_those_of_their_days_to_a_minute_a_day(seed: int) -> None:
    season = _season(seed)
    days = [FIRST + timedelta(days=step) for step in range(DAYS + 1)]
    for month, found in season.months.items():
        for one in found.spots:
            mine = [
                day_spot.light
                for day in days
                if Month.of(day) == month
                for day_spot in season.on(day).spots
                if (day_spot.square, day_spot.planting) == (one.square, one.planting)
            ]
            count = len(mine)
            assert one.light.days == pytest.approx(count)
            for told, exact in (
                (one.light.sun, sum(light.sun for light in mine)),
                (one.light.lost, sum(light.lost for light in mine)),
                (one.light.around, sum(light.around for light in mine)),
            ):
                assert abs(told - exact) / count * 60 < 1.5


def test_a_body_that_stands_for_a_few_days_is_not_missed() -> None:
    bed = bed_of(2, 1)
    days = (date(2026, 5, 12), date(2026, 5, 13))
    brief = body("brief", (12, 24, 0, 12), 60, days)
    season = summed_up(bed, scene(bed, 45, (brief,), (spot(0, 0, days=(FIRST, date(2026, 7, 1))),)))
    lost = sum(season.on(day).spots[0].light.lost for day in days)
    assert lost > 2
    assert season.months[Month(2026, 5)].spots[0].light.lost == pytest.approx(lost, rel=0.01)
    assert season.months[Month(2026, 6)].spots[0].light.lost == 0


@pytest.mark.parametrize("begun", [date(2026, 4, 10) + timedelta(days=step) for step in range(8)], ids=str)
def test_a_plant_that_is_set_out_shades_from_that_day_on_and_not_before(begun: date) -> None:
    """If days before it were read off a curve to its shade, a month would lose minutes that it had."""
    bed, days, april = bed_of(1, 2), (FIRST, date(2026, 6, 30)), Month(2026, 4)
    rise = Rise(full=66, growth=Growth(begun=begun, days=40, set_out=True))
    neighbour = Body(planting="P", first=begun, last=days[1], boxes=((0, 12, 12, 24),), rise=rise)
    season = summed_up(bed, scene(bed, 45, (neighbour,), (spot(0, 0, days=days),)))
    exact = sum(season.on(date(2026, 4, day)).spots[0].light.lost for day in range(1, 31))
    assert exact > 1
    assert abs(season.months[april].spots[0].light.lost - exact) / 30 * 60 < 1


def test_each_day_counts_at_the_tallest_crop_of_a_square() -> None:
    bed = bed_of(1, 1)
    low = spot(0, 0, "low", 10, days=(date(2026, 5, 1), date(2026, 5, 20)))
    tall = spot(0, 0, "tall", 40, days=(date(2026, 5, 11), date(2026, 5, 31)))
    season = summed_up(bed, scene(bed, 45, (), (low, tall)))
    found = season.months[Month(2026, 5)]
    assert {one.planting: round(one.light.days) for one in found.spots} == {"low": 20, "tall": 21}
    assert {one.planting: round(one.foremost.days) for one in found.spots} == {"low": 10, "tall": 21}
    (square,) = found.squares.values()
    assert square.days == pytest.approx(31)
    (square,) = season.on(date(2026, 5, 15)).squares.values()
    assert (square.days, square.sun) == (1, season.scene.light(1, date(2026, 5, 15)).sun)
