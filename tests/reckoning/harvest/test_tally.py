"""Tallies: worked by hand, and the laws that no cut may break."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from fractions import Fraction
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tallybed.garden.days import Month, Span, Week
from tallybed.garden.garden import Season
from tallybed.garden.naming import CropName
from tallybed.garden.records.ledger import Destination, State, Weighing
from tallybed.garden.records.plan import PlanRow, Start
from tallybed.garden.squares import Square
from tallybed.garden.units import GRAM, OUNCE, POUND, Weight, total
from tallybed.reckoning.harvest.tally import (
    BY,
    NOT_TOLD,
    TallyLine,
    added,
    bowl,
    crop_key,
    heaviest_first,
    kinds,
    lines,
    running,
    tally,
)
from tallybed.reckoning.squares.occupancy import hold

SPAN = Span(first=date(2026, 3, 1), last=date(2026, 11, 30))
TODAY = date(2026, 11, 30)
A1, B1, C1 = (Square("b", column, 0) for column in range(3))
A2, B2, C2 = (Square("b", column, 1) for column in range(3))


def crop(slug: str) -> CropName:
    return CropName(typed=slug, slugs=(slug,))


def oz(amount: int | str) -> Weight:
    return Weight.of(Fraction(amount), OUNCE)


def picked(month: int, day: int, slug: str = "", **details: object) -> Weighing:
    crops = (crop(slug),) if slug else ()
    return Weighing(day=date(2026, month, day), crops=crops, **details)  # type: ignore[arg-type]


def planted(tag: str, slug: str, *squares: Square, variety: str = "") -> PlanRow:
    return PlanRow(
        crop=slug,
        tag=tag,
        variety=variety,
        squares=squares,
        start=Start.SOW,
        begins=date(2026, 4, 1),
        until=date(2026, 10, 1),
    )


PLAN = (
    planted("LE1", "lettuce", A1, B1, variety="Oak"),
    planted("CA1", "carrot", C1, variety="Long"),
    planted("ON1", "onion", A2, B2),
)


def season(*ledger: Weighing, plan: Sequence[PlanRow] = PLAN) -> Season:
    return Season(name="2026", span=SPAN, plan=tuple(plan), log=(), ledger=ledger)


def split(*ledger: Weighing, until: date | None = None) -> tuple[TallyLine, ...]:
    one = season(*ledger)
    return lines(one, hold(one, TODAY), until)


BY_HAND = (
    picked(5, 20, "lettuce", squares=(A1, B1), weight=oz(10)),
    picked(5, 20, "carrot", squares=(C1,), weight=oz(3), count=6),
    picked(5, 24, "lettuce", weight=oz(5), to=(Destination(name="pantry"),)),
    picked(
        5,
        25,
        tag="CA1",
        weight=oz(9),
        to=(Destination(name="pantry", weight=oz(4)), Destination(name="kitchen")),
    ),
    picked(6, 1, "lettuce", squares=(A1,)),
    Weighing(
        day=date(2026, 6, 2),
        crops=(crop("lettuce"), crop("carrot")),
        mixed=True,
        weight=oz(8),
        estimated=True,
    ),
    picked(7, 20, tag="ON1", weight=oz(40)),
    picked(7, 20, tag="ON1", weight=oz(32), state=State.CURED, weighed=date(2026, 8, 14)),
    picked(7, 27, tag="ON1", weight=oz(16), state=State.CURED, weighed=date(2026, 8, 20)),
)


def ounces(table: dict[object, object]) -> dict[object, Fraction]:
    return {key: value.weight.within(OUNCE) for key, value in table.items()}  # type: ignore[attr-defined]


def test_by_hand():
    found = split(*BY_HAND)
    # By crop: the cured 32 oz are the same picking as the fresh 40 and join no total; those of 27 July do.
    assert ounces(tally(found, BY["crop"])) == {
        "carrot": 12,
        "lettuce": 15,
        "mixed: carrot + lettuce": 8,
        "onion": 56,
    }
    # By square: 10 oz over two squares; the tagged onions over theirs; the rest was not told.
    assert ounces(tally(found, BY["square"])) == {A1: 5, A2: 28, B1: 5, B2: 28, C1: 12, None: 13}
    # What came from two squares at once was not weighed in either.
    by_square = tally(found, BY["square"])
    assert [key for key, one in by_square.items() if one.shared] == [A1, B1, A2, B2]
    assert ounces(tally(found, BY["bed"])) == {"b": 78, NOT_TOLD: 13}
    assert ounces(tally(found, BY["destination"])) == {"kitchen": 5, "pantry": 9, NOT_TOLD: 77}
    assert ounces(tally(found, BY["planting"])) == {
        ("2026", "CA1"): 12,
        ("2026", "LE1"): 10,
        ("2026", "ON1"): 56,
        ("2026", NOT_TOLD): 13,
    }
    assert ounces(tally(found, BY["variety"])) == {
        ("carrot", "Long"): 12,
        ("lettuce", "Oak"): 10,
        ("lettuce", NOT_TOLD): 5,
        ("mixed: carrot + lettuce", NOT_TOLD): 8,
        ("onion", NOT_TOLD): 56,
    }
    assert ounces(tally(found, BY["month"])) == {Month(2026, 5): 27, Month(2026, 6): 8, Month(2026, 7): 56}
    assert ounces(tally(found, BY["state"])) == {State.CURED: 16, State.FRESH: 75}
    whole = added(found)
    assert whole.weight == oz(91)
    assert whole.estimated == oz(8)
    assert (whole.pickings, whole.unweighed, whole.at_least) == (8, 1, True)
    assert whole.count == 6


def test_a_picking_from_two_beds_is_shared_by_them():
    found = split(picked(5, 20, "lettuce", squares=(A1, B1, Square("c", 0, 0)), weight=oz(9)))
    assert ounces(tally(found, BY["bed"])) == {"b": 6, "c": 3}


def test_a_bowl_is_one_row_however_its_crops_were_called():
    told = [
        tuple(CropName(typed=word, slugs=(word.casefold(),)) for word in words)
        for words in (("Lettuce", "Carrot"), ("carrot", "lettuce"))
    ]
    found = split(*(Weighing(day=date(2026, 6, 2), crops=one, mixed=True, weight=oz(4)) for one in told))
    assert ounces(tally(found, BY["crop"])) == {"mixed: carrot + lettuce": 8}


def test_running_total_week_by_week():
    # Weeks of ISO 8601: 20 and 24 May are W21, 25 May is W22, 1 and 2 June W23, 20 July W30, 27 July W31.
    found = ounces(running(split(*BY_HAND), BY["week"]))
    weeks = {21: 18, 22: 27, 23: 35, 30: 75, 31: 91}
    assert found == {Week(2026, number): weight for number, weight in weeks.items()}


def test_up_to_a_day():
    assert added(split(*BY_HAND, until=date(2026, 5, 24))).weight == oz(18)
    assert added(split(*BY_HAND, until=date(2026, 3, 1))).weight == Weight()


def test_weeks_across_the_new_year():
    # ISO 8601: 28 December 2025 closes 2025-W52; 29 December 2025 to 4 January 2026 is 2026-W01.
    span = Span(first=date(2025, 9, 1), last=date(2026, 6, 30))
    days = {(2025, 12, 28): 100, (2025, 12, 29): 200, (2026, 1, 1): 300, (2026, 1, 4): 400, (2026, 1, 5): 500}
    ledger = tuple(
        Weighing(day=date(*day), crops=(crop("leek"),), weight=Weight.of(grams, GRAM))
        for day, grams in days.items()
    )
    one = Season(name="2025", span=span, ledger=ledger)
    found = tally(lines(one, hold(one, span.last)), BY["week"])
    assert {str(week): one.weight.within(GRAM) for week, one in found.items()} == {
        "2025-W52": 100,
        "2026-W01": 900,
        "2026-W02": 500,
    }


def test_a_pound_of_grams():
    # NIST Handbook 44, appendix C: 1 lb = 453.592 37 g exactly, 1 oz = 28.349 523 125 g exactly.
    assert Weight.of(1, POUND) == Weight.of(Fraction("453.59237"), GRAM)
    assert oz(1).nanograms == 28_349_523_125


def test_a_general_name_with_nothing_to_resolve_it_keeps_a_row_of_its_own():
    beans = CropName(typed="Beans", slugs=("bean-bush", "bean-pole"))
    found = split(Weighing(day=date(2026, 7, 1), crops=(beans,), weight=oz(4)))
    assert ounces(tally(found, BY["crop"])) == {"general: beans": 4}


@pytest.mark.parametrize("typed", ["bean", "Beans", "BEAN"])
def test_a_general_name_in_singular_and_plural_has_one_row(typed: str):
    name = CropName(typed=typed, slugs=("bean-bush", "bean-pole"))
    assert crop_key(Weighing(day=date(2026, 7, 1), crops=(name,), weight=oz(4)), None) == "general: beans"


def test_a_rest_nobody_told_goes_nowhere_by_name():
    found = split(picked(5, 20, "carrot", weight=oz(9), to=(Destination(name="pantry", weight=oz(4)),)))
    assert ounces(tally(found, BY["destination"])) == {"pantry": 4, NOT_TOLD: 5}


weights = st.one_of(
    st.none(),
    st.integers(1, 10_000).map(lambda n: Weight.of(Fraction(n, 16), OUNCE)),
    st.integers(1, 5_000).map(lambda n: Weight.of(n, GRAM)),
)


# Each strategy is made once: to make and check one anew for every value took most of the time.
slugs = st.sampled_from(["lettuce", "carrot", "onion", "kale"])
some_squares = st.lists(st.sampled_from([A1, B1, C1, A2, B2, C2]), unique=True, max_size=4).map(tuple)
tags = st.sampled_from(["", "", "LE1", "CA1"])
days = st.builds(date, st.just(2026), st.integers(4, 11), st.integers(1, 28))
yes_or_no = st.booleans()
tenths = st.integers(1, 9)
counts = st.one_of(st.none(), st.integers(1, 40))


@st.composite
def weighings(draw: st.DrawFn) -> Weighing:
    weight = draw(weights)
    slug = draw(slugs)
    squares = draw(some_squares)
    to: tuple[Destination, ...] = ()
    if draw(yes_or_no):
        part = weight * Fraction(draw(tenths), 10) if weight else None
        to = (Destination(name="pantry", weight=part), Destination(name="kitchen"))
    return Weighing(
        day=draw(days),
        crops=(crop(slug),),
        tag=draw(tags) if slug in ("lettuce", "carrot") else "",
        squares=squares,
        weight=weight,
        estimated=weight is not None and draw(yes_or_no),
        count=draw(counts),
        to=to,
    )


@given(st.lists(weighings(), max_size=12))
def test_every_cut_has_the_sum_of_the_ledger(ledger: list[Weighing]):
    weighed = total(one.weight for one in ledger if one.weight)
    estimated = total(one.weight for one in ledger if one.weight and one.estimated)
    found = split(*ledger)
    for name, cut in BY.items():
        sums = tally(found, cut).values()
        assert total(one.weight for one in sums) == weighed, name
        assert total(one.estimated for one in sums) == estimated, name
        assert sum(one.count for one in sums) == sum(one.count or 0 for one in ledger), name


@given(st.lists(weighings(), max_size=8), st.randoms(use_true_random=False))
def test_the_order_of_the_ledger_never_matters(ledger: list[Weighing], chance: Random):
    shuffled = list(ledger)
    chance.shuffle(shuffled)
    one, other = split(*ledger), split(*shuffled)
    for name, cut in BY.items():
        assert tally(one, cut) == tally(other, cut), name


@given(st.lists(weighings(), min_size=1, max_size=12))
def test_the_running_total_ends_at_the_whole(ledger: list[Weighing]):
    found = split(*ledger)
    for name in ("day", "week", "month"):
        steps = [one.weight for one in running(found, BY[name]).values()]
        assert steps == sorted(steps)
        assert steps[-1] == added(found).weight


@given(st.lists(weighings(), max_size=6))
def test_a_cured_weight_beside_a_fresh_one_changes_no_total(ledger: list[Weighing]):
    fresh = [replace(one, state=State.FRESH, tag="CA1", crops=(), squares=()) for one in ledger if one.weight]
    cured = [
        replace(one, state=State.CURED, weight=oz(1), estimated=False, to=(), count=None) for one in fresh
    ]
    assert added(split(*fresh)).weight == added(split(*fresh, *cured)).weight


def line(crop: str, ounces: int, **other: object) -> TallyLine:
    day = date(2026, 7, 1)
    return TallyLine(weighing=ounces, season="2026", day=day, crop=crop, weight=oz(ounces), **other)  # type: ignore[arg-type]


def test_what_was_not_told_comes_last_and_what_does_not_count_makes_no_key() -> None:
    found = [line("", 9), line("beet", 2), line("onion", 5, counts=False), line("apple", 2), line("kale", 7)]
    assert list(tally(found, BY["crop"])) == ["apple", "beet", "kale", ""]
    assert list(heaviest_first(tally(found, BY["crop"]))) == ["kale", "apple", "beet", ""]
    months = [
        replace(one, day=date(2026, month, 1)) for one, month in zip(found, (10, 9, 9, 9, 2), strict=True)
    ]
    assert list(tally(months, BY["month"])) == [Month(2026, 2), Month(2026, 9), Month(2026, 10)]


def test_fresh_cured_and_dried_are_told_apart_in_a_sum() -> None:
    found = [line("onion", 4), line("onion", 3, state=State.CURED), line("onion", 2, state=State.DRIED)]
    whole = added([*found, line("onion", 5, estimated=True)])
    assert (whole.weight, whole.cured, whole.dried, whole.estimated) == (oz(14), oz(3), oz(2), oz(5))


def test_a_running_total_takes_along_all_that_a_total_tells() -> None:
    first = line("kale", 4, count=3, shared=True)
    then = replace(line("kale", 2, weighed=False, state=State.CURED, estimated=True), day=date(2026, 7, 2))
    last = replace(line("kale", 1, state=State.DRIED, count=2), day=date(2026, 7, 3))
    found = running([last, then, first], BY["day"], at=[date(2026, 7, 4)])
    assert list(found) == [date(2026, 7, number) for number in (1, 2, 3, 4)]
    assert found[date(2026, 7, 1)] == added([first])
    assert found[date(2026, 7, 2)] == added([first, then])
    assert found[date(2026, 7, 3)] == found[date(2026, 7, 4)] == added([first, then, last])


def test_the_crops_of_a_bowl_are_read_off_its_key() -> None:
    assert bowl("mixed: beet + kale") == ("beet", "kale")
    assert bowl("beet") == ()
    assert kinds(["beet", "general: beans", "mixed: beet + kale", NOT_TOLD]) == 2
