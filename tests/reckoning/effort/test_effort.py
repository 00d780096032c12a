"""Work, water and money of a season, from lines of the log and rows of costs and prices."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from fractions import Fraction

import pytest

from tallybed.garden.days import Month, Span
from tallybed.garden.garden import Garden, Season
from tallybed.garden.money import Cost, Price, Purpose
from tallybed.garden.naming import CropName
from tallybed.garden.records.ledger import Weighing
from tallybed.garden.records.log import Entry, Event, Verb
from tallybed.garden.squares import Bed, Square
from tallybed.garden.units import FOOT, INCH, KILOGRAM, OUNCE, POUND, Length, Weight
from tallybed.garden.water import Water
from tallybed.reading.text.water import water
from tallybed.reckoning.effort.money import spending, value
from tallybed.reckoning.effort.season import (
    bills_to_come,
    season_costs,
    season_value,
    season_water,
    season_work,
)
from tallybed.reckoning.effort.watering import watering
from tallybed.reckoning.effort.work import work
from tallybed.reckoning.harvest.tally import Total
from tallybed.reckoning.year import Years

DAY = date(2026, 7, 1)
LATER = date(2026, 12, 31)
GARDEN = Garden(name="A garden", beds=(Bed(name="b", title="b", columns=4, rows=2),))


def line(verb: Verb, day: date = DAY, **other: object) -> Event:
    return Event(verb=verb, day=day, subject="bed", **other)  # type: ignore[arg-type]


def visit(*lines: Event, day: date = DAY) -> Entry:
    return Entry(slug=f"visit-{day}", day=day, title="A visit", done=lines)


# --- work ---------------------------------------------------------------------------------------------


def test_work_is_minutes_times_people_and_untimed_lines_are_not_none():
    log = [
        visit(line(Verb.WEED, minutes=10, people=3), line(Verb.WEED), line(Verb.WATER, minutes=20)),
        visit(line(Verb.WEED, date(2026, 8, 2), minutes=5), day=date(2026, 8, 2)),
    ]
    found = work(log, LATER)
    assert (found.timed, found.lines) == (3, 4)
    assert (found.minutes, found.weeding) == (55, 35)
    assert list(found.by_month.items()) == [(Month(2026, 7), 50), (Month(2026, 8), 5)]
    assert work(log, DAY).minutes == 50
    assert work([], LATER).minutes == 0


# --- water --------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("typed", "litres"),
    [
        ("10 gal", "37.85411784"),  # NIST Handbook 44, appendix C: 1 gal = 3.785411784 L exactly
        ("about 10 gallons", "37.85411784"),
        ("20 L", "20"),
        ("1.5 litres", "1.5"),
    ],
)
def test_volumes_of_water(typed: str, litres: str):
    found = water(typed)
    assert found is not None
    assert found.litres == Fraction(litres)


@pytest.mark.parametrize("typed", ["two cans", "until it stood", "", "10", "gal", "10 gall"])
def test_an_amount_in_words_counts_nothing(typed: str):
    assert water(typed) is None


def test_an_inch_of_water():
    # 1 in over 100 sq ft is 62.34 gal (62.338: 231 cu in a gallon), a figure of extension pages.
    inch = Water(depth=Length.of(1, INCH))
    litres = inch.over(Fraction(100))
    assert litres is not None
    assert float(litres / Fraction("3.785411784")) == pytest.approx(62.338, abs=0.001)
    # A page prints 225 gal for 15 by 25 ft; it is 233.8.
    wide = inch.over(Fraction(375))
    assert wide is not None
    assert float(wide / Fraction("3.785411784")) == pytest.approx(233.77, abs=0.01)
    # 1 in is 25.4 mm, and a millimetre over a square metre is a litre.
    metre = Water(depth=Length.of(1, INCH)).over(1 / Fraction("0.3048") ** 2)
    assert metre == Fraction("25.4")
    assert inch.over(Fraction(0)) is None


def test_a_depth_counts_over_the_squares_told():
    half = Water(depth=Length.of(Fraction(1, 2), INCH))
    two = (Square("b", 0, 0), Square("b", 1, 0))
    log = [
        visit(
            line(Verb.WATER, amount="1/2 in", water=half, squares=two),
            line(Verb.WATER, amount="1/2 in", water=half),
            line(Verb.WATER, amount="20 L", water=Water(litres=Fraction(20))),
            line(Verb.WATER, amount="two cans"),
            line(Verb.WATER),
        )
    ]
    found = watering(GARDEN, log, LATER)
    assert (found.lines, found.measured) == (5, 2)
    assert found.in_words == ("1/2 in", "two cans"), "a depth over no squares told comes to nothing"
    square_metres = 2 * (FOOT.size / 10**9) ** 2
    assert found.litres == 20 + Fraction("12.7") * square_metres
    assert watering(GARDEN, log, date(2026, 6, 1)).lines == 0


# --- money --------------------------------------------------------------------------------------------


def season(name: str, *costs: Cost) -> Season:
    year = int(name)
    return Season(name=name, span=Span(first=date(year, 3, 1), last=date(year, 11, 30)), costs=costs or None)


def paid(year: int, amount: str, years: int = 1, purpose: Purpose = Purpose.SEED) -> Cost:
    return Cost(day=date(year, 3, 2), what="something", amount=Fraction(amount), purpose=purpose, years=years)


def test_what_is_spread_reaches_into_later_seasons():
    seasons = (
        season("2024", paid(2024, "100", 5, Purpose.BED), paid(2024, "10")),
        season("2025"),
        season("2026", paid(2026, "6.40")),
        season("2029"),
    )
    first, second, third, sixth = (spending(one, seasons, date(2030, 1, 1)) for one in seasons)
    assert first is not None
    assert (first.at_once, first.spread, first.whole) == (10, 20, 30)
    assert first.by_purpose == {Purpose.SEED: 10, Purpose.BED: 20}
    assert second is not None, "it has no costs of its own, and bears a part of the first one's"
    assert (second.at_once, second.spread, second.whole) == (None, 20, 20), "nobody says it cost nothing else"
    assert third is not None
    assert (third.at_once, third.spread) == (Fraction("6.40"), 20)
    assert sixth is None, "five seasons bear it: 2024 to 2028"
    assert spending(seasons[1], (seasons[1],), date(2030, 1, 1)) is None, "no costs are on record"


def test_what_two_seasons_bear_is_spread_too():
    seasons = (season("2024", paid(2024, "12", 2)), season("2025"), season("2026"))
    first, second, third = (spending(one, seasons, date(2030, 1, 1)) for one in seasons)
    assert first is not None
    assert (first.at_once, first.spread) == (0, 6)
    assert second is not None
    assert second.spread == 6
    assert third is None


def test_what_was_paid_later_is_not_known_yet():
    one = season("2026", paid(2026, "5"))
    for until, whole in ((date(2026, 3, 1), 0), (date(2026, 3, 2), 5)):
        found = spending(one, (one,), until)
        assert found is not None
        assert found.whole == whole


def seen(crop: str, amount: str, unit: object = POUND, month: int = 7) -> Price:
    return Price(day=date(2026, month, 1), crop=crop, amount=Fraction(amount), per=unit)  # type: ignore[arg-type]


def weighed(pounds: str) -> Total:
    return Total(weight=Weight.of(Fraction(pounds), POUND), pickings=1)


def test_a_crop_is_reckoned_at_the_middle_of_its_prices():
    prices = [seen("carrot", "1.00"), seen("carrot", "3.00"), seen("carrot", "1.40"), seen("kale", "9")]
    totals = {"carrot": weighed("2"), "spinach": weighed("1"), "mixed: carrot + kale": weighed("1")}
    found = value(prices, totals, Weight.of(4, POUND), LATER)
    assert found.amount == Fraction("2.80")
    assert found.share == Fraction(1, 2)
    assert [one.crop for one in found.crops] == ["carrot"]


@pytest.mark.parametrize(("unit", "pounds"), [(OUNCE, "16"), (KILOGRAM, "0.45359237")])
def test_a_price_for_another_unit_comes_to_the_pound(unit: object, pounds: str):
    found = value([seen("carrot", "1", unit)], {"carrot": weighed("1")}, Weight.of(1, POUND), LATER)
    assert found.amount == Fraction(pounds)
    assert found.crops[0].per_pound == Fraction(pounds)


def test_later_prices_are_not_known_yet():
    found = value([seen("carrot", "1", month=9)], {"carrot": weighed("1")}, Weight.of(1, POUND), DAY)
    assert found.crops == ()
    assert found.share == 0
    (own,) = value([seen("carrot", "1")], {"carrot": weighed("1")}, Weight(), date(2026, 7, 1)).crops
    assert own.amount == 1, "a price is known on its own day"


def test_what_a_season_took_and_was_worth_by_a_day_is_of_what_was_done_and_picked_by_then():
    carrot = CropName(typed="carrot", slugs=("carrot",))
    picked = [
        Weighing(day=date(2026, month, 20), crops=(carrot,), weight=Weight.of(pounds, POUND))
        for month, pounds in ((5, 1), (6, 2))
    ]
    one = season("2026", paid(2026, "5"), Cost(day=DAY, what="twine", amount=Fraction(3)))
    can = Water(litres=Fraction(20))
    log = [visit(line(Verb.WATER, day, water=can, minutes=5), day=day) for day in (one.day for one in picked)]
    one = replace(
        one,
        log=tuple(log),
        ledger=tuple(picked),
        prices=(seen("carrot", "2", month=4), seen("carrot", "4", month=8)),
    )
    (year,) = Years(garden=replace(GARDEN, seasons=(one,)), today=DAY).all
    for until, amount, litres, minutes in (
        (date(2026, 5, 19), 0, 0, 0),
        (date(2026, 5, 20), 2, 20, 5),
        (date(2026, 6, 20), 6, 40, 10),
    ):
        found = season_value(year, until)
        assert found is not None
        assert found.amount == amount
        spent, used, done = season_costs(year, until), season_water(year, until), season_work(year, until)
        assert spent is not None
        assert used is not None
        assert done is not None
        assert (spent.whole, used.litres, done.minutes) == (5, litres, minutes)
    assert bills_to_come(year) == 1, "the price of August; the twine was paid for on the day itself"
