"""The facts of a week's bulletin: which days it tells, what weighed most, and the year before."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from tallybed.garden.days import Span, Week
from tallybed.garden.garden import Garden, Season
from tallybed.garden.naming import CropName
from tallybed.garden.records.ledger import Weighing
from tallybed.garden.squares import Bed
from tallybed.garden.units import OUNCE, Weight
from tallybed.reckoning.calendar.due import coming
from tallybed.reckoning.harvest.tally import TallyLine, lines
from tallybed.reckoning.harvest.week import Bulletin, a_year_before, bulletin, heaviest, told_days, weeks
from tallybed.reckoning.squares.occupancy import hold
from tests.reckoning.growing import day, line, pick, plan_row, season

GARDEN = Garden(name="Beds", beds=(Bed(name="b", title="B", columns=4, rows=2),))
SEASON = season(
    plan=[
        plan_row("carrot", "A1", "Jun 1", "Aug 10"),
        plan_row("kale", "B1", "Jun 20", "Sep 20"),
        plan_row("beet", "C1", "Jun 20", "Sep 21"),
        plan_row("okra", "D1", "Jun 18", "Sep 1", dropped="Jun 10"),
    ],
    log=[line("May 30", "weed")],
    ledger=[pick("Jun 8", "carrot"), pick("Jun 9", "kale"), pick("Jun 14", "beet"), pick("Jun 17", "beet")],
)


def told(week: str, today: date, one: Season = SEASON, **other: object) -> Bulletin:
    found = lines(one, hold(one, today), today)
    asked = Week.of(date.fromisoformat(week))
    return bulletin(GARDEN, one, asked, lines=found, today=today, **other)  # type: ignore[arg-type]


@pytest.mark.parametrize(("title", "done", "told"), [("", False, 0), ("T", False, 1), ("", True, 1)])
def test_an_entry_that_waits_makes_no_week_but_what_it_says_was_done_does(
    title: str, done: bool, told: int
) -> None:
    (entry,) = season(log=[line("Jun 8", "weed")]).log or ()
    waiting = replace(entry, title=title, done=entry.done if done else ())
    assert len(weeks(replace(season(), log=(waiting,)), day("Jun 30"))) == told


def test_whether_a_week_gave_one_crop_alone() -> None:
    """Else "nothing but beets" would be said of a week with kale in it, or of a tie."""

    def week(*rows: Weighing) -> Bulletin:
        return told("2026-W24", day("Jun 20"), season(ledger=rows))

    beet = pick("Jun 8", "beet")
    assert week(beet, pick("Jun 9", "beet")).alone
    assert not week(beet, replace(pick("Jun 9", "kale"), weight=Weight.of(1, OUNCE))).alone
    assert not week(beet, pick("Jun 9", "kale")).alone
    assert not week().alone
    assert (week(beet).bowls, week(beet, pick("Jun 9", "beet+kale")).bowls) == (False, True)
    assert (week().ledger, told("2026-W24", day("Jun 20"), season()).ledger) == (True, False)


def test_what_was_weighed_by_a_general_name_is_told_by_it() -> None:
    beans = CropName(typed="Beans", slugs=("bean-bush", "bean-pole"))
    found = told("2026-W24", day("Jun 20"), season(ledger=[replace(pick("Jun 8", "kale"), crops=(beans,))]))
    assert found.best == ("beans",)


def test_weeks_are_those_with_a_visit_or_a_picking_up_to_today() -> None:
    # ISO 8601: 30 May 2026 is in week 22, 8 and 14 June in week 24, 17 June in week 25.
    assert [str(one) for one in weeks(SEASON, day("Jun 17"))] == ["2026-W22", "2026-W24", "2026-W25"]
    assert [str(one) for one in weeks(SEASON, day("Jun 14"))] == ["2026-W22", "2026-W24"]
    assert weeks(SEASON, day("May 29")) == ()


@pytest.mark.parametrize(
    ("week", "today", "days"),
    [
        ("2026-W09", date(2026, 6, 1), (date(2026, 3, 1), date(2026, 3, 1))),  # begins on its Sunday
        ("2026-W10", date(2026, 6, 1), (date(2026, 3, 2), date(2026, 3, 8))),
        ("2026-W10", date(2026, 3, 4), (date(2026, 3, 2), date(2026, 3, 4))),
        ("2026-W49", date(2027, 1, 1), (date(2026, 11, 30), date(2026, 11, 30))),  # ends on its Monday
        ("2026-W08", date(2026, 6, 1), None),
        ("2026-W50", date(2027, 1, 1), None),
        ("2026-W11", date(2026, 3, 4), None),
    ],
)
def test_a_week_is_cut_to_the_season_and_to_today(
    week: str, today: date, days: tuple[date, date] | None
) -> None:
    assert told_days(SEASON, Week.of(date.fromisoformat(week)), today) == days
    if days is None:
        with pytest.raises(ValueError, match=week):
            told(week, today)


def test_a_week_counts_its_own_days_and_the_season_up_to_them() -> None:
    facts = told("2026-W24", day("Jun 20"))
    assert (facts.picked.pickings, facts.so_far.pickings) == (3, 3)
    facts = told("2026-W25", day("Jun 20"))
    assert (facts.picked.pickings, facts.so_far.pickings) == (1, 4)
    assert facts.square_feet == 8
    assert told("2026-W24", day("Jun 9")).picked.pickings == 2, "later pickings are not there yet"


def test_what_is_next_is_what_falls_in_seven_days_else_the_next_day_that_has_a_job() -> None:
    def ahead(week: str, today: date) -> list[tuple[str, str]]:
        last = min(Week.of(date.fromisoformat(week)).last, today)
        facts = told(week, today, ahead=coming(SEASON, last))
        return [(one.day.isoformat()[5:], one.crop.typed) for one in facts.ahead]

    # The okra of 18 June was dropped on 10 June; the carrots of 1 June are picked, so they were sown.
    assert ahead("2026-W24", day("Jun 14")) == [("06-20", "beet"), ("06-20", "kale")]
    # From 22 June nothing falls due for seven weeks: the clearing of the carrots is next.
    assert ahead("2026-W26", day("Jun 28")) == [("08-10", "carrot")]
    assert told("2026-W24", day("Jun 14")).ahead == (), "without its jobs nothing is said of what is next"


def test_what_is_due_on_the_very_day_is_next_until_it_is_done() -> None:
    def ahead(season: Season, last: date) -> list[tuple[str, str]]:
        return [(one.day.isoformat()[5:], one.crop.typed) for one in coming(season, last)]

    assert ahead(SEASON, day("Jun 20")) == [("06-20", "beet"), ("06-20", "kale")]
    assert ahead(SEASON, day("Jun 21")) == [("08-10", "carrot")], "nobody knows of a day that is past"
    done = replace(SEASON, log=season(log=[line("Jun 20", "sow", "kale", "B1")]).log)
    assert ahead(done, day("Jun 20")) == [("06-20", "beet")]


def test_nothing_is_next_once_the_season_is_over() -> None:
    closed = replace(SEASON, closed=True)
    last = told("2026-W25", day("Jun 17"), closed, ahead=coming(closed, day("Jun 17")))
    assert (last.whole, last.ahead) == (True, ())
    assert not told("2026-W24", day("Jun 17"), closed).whole, "only its last week tells of the whole season"
    assert not told("2026-W25", day("Jun 17")).whole, "a season under way is never whole"


def of_crop(crop: str, ounces: int, **other: object) -> TallyLine:
    weight = Weight.of(ounces, OUNCE)
    return TallyLine(weighing=0, season="2026", day=day("Jun 8"), crop=crop, weight=weight, **other)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("found", "best", "ounces"),
    [
        ([], (), 0),
        ([of_crop("kale", 0, weighed=False)], (), 0),
        ([of_crop("kale", 3), of_crop("beet", 2), of_crop("kale", 1)], ("kale",), 4),
        ([of_crop("kale", 3), of_crop("beet", 2), of_crop("beet", 1)], ("beet", "kale"), 3),
        ([of_crop("mixed: beet + kale", 9), of_crop("beet", 2)], ("beet",), 2),
        ([of_crop("", 9), of_crop("beet", 2)], ("beet",), 2),
        ([of_crop("general: beans", 9), of_crop("beet", 2)], ("general: beans",), 9),
        ([of_crop("onion", 9, counts=False), of_crop("beet", 2)], ("beet",), 2),
    ],
)
def test_the_heaviest_crop_is_one_that_was_named_and_weighed(
    found: list[TallyLine], best: tuple[str, ...], ounces: int
) -> None:
    assert heaviest(found) == (best, Weight.of(ounces, OUNCE))


@pytest.mark.parametrize(
    ("now", "before"),
    [
        (date(2026, 8, 2), date(2025, 8, 2)),
        (date(2024, 2, 29), date(2023, 2, 28)),
        (date(2025, 2, 28), date(2024, 2, 28)),
        (date(2026, 1, 1), date(2025, 1, 1)),
    ],
)
def test_the_same_date_a_year_before(now: date, before: date) -> None:
    assert a_year_before(now) == before


def test_the_year_before_is_counted_up_to_the_same_date() -> None:
    def weighed(on: date) -> Weighing:
        kale = CropName(typed="kale", slugs=("kale",))
        return Weighing(day=on, crops=(kale,), weight=Weight.of(16, OUNCE))

    ledger = tuple(weighed(date(2025, 6, number)) for number in (13, 14, 15))
    span = Span(first=date(2025, 3, 1), last=date(2025, 11, 30))
    before = Season(name="2025", span=span, ledger=ledger)
    found = lines(before, hold(before, span.last), span.last)
    earlier = told("2026-W24", day("Jun 17"), before=(before, found)).earlier
    assert earlier is not None
    assert (earlier.season, earlier.day) == ("2025", date(2025, 6, 14))
    assert earlier.total.weight == Weight.of(32, OUNCE)
    unknown = replace(before, ledger=None)
    assert told("2026-W24", day("Jun 17"), before=(unknown, ())).earlier is None
