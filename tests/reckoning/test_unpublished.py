"""What waits stays out of everything but the reckoning, until its day has come."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tallybed.garden.days import Span
from tallybed.garden.garden import Garden, Question, Season
from tallybed.garden.naming import CropName
from tallybed.garden.records.log import Entry, Event, FurtherReading, Photo, Verb
from tallybed.reckoning.unpublished import readable, waits

DAY = date(2026, 4, 19)
SPAN = Span(first=date(2026, 3, 1), last=date(2026, 11, 30))
SOWN = Event(verb=Verb.SOW, day=DAY, subject="pea", crop=CropName(typed="pea", slugs=("pea-garden",)))
TOLD = Entry(
    slug="x",
    day=DAY,
    title="A title",
    by="somebody",
    done=(SOWN,),
    photos=(Photo(file="a.jpg", alt="b"),),
    further=(FurtherReading(title="c", address="https://d.example/"),),
    prose="Words.",
)


def held(until: date | None, *, unfinished: bool = False, done: tuple[Event, ...] = (SOWN,)) -> Entry:
    return Entry(slug="x", day=DAY, title="A title", done=done, hold_until=until, unfinished=unfinished)


@pytest.mark.parametrize(
    ("entry", "today", "waiting"),
    [
        (held(None), DAY, False),
        (held(None, unfinished=True), DAY, True),
        (held(None, unfinished=True), date(2040, 1, 1), True),
        (held(date(2026, 10, 1)), date(2026, 9, 30), True),
        (held(date(2026, 10, 1)), date(2026, 10, 1), False),
        (held(date(2026, 10, 1), unfinished=True), date(2026, 10, 1), True),
    ],
)
def test_a_record_waits_while_unfinished_and_until_its_day(entry: Entry, today: date, waiting: bool) -> None:
    assert waits(entry, today) is waiting
    question = Question(
        slug="q", question="Q?", unfinished=entry.unfinished, hold_until=entry.hold_until, asked=DAY
    )
    assert waits(question, today) is waiting


def test_of_an_entry_that_waits_its_day_and_its_work_are_left_and_nothing_else() -> None:
    waiting = Entry(
        slug=TOLD.slug,
        day=TOLD.day,
        title=TOLD.title,
        by=TOLD.by,
        done=TOLD.done,
        photos=TOLD.photos,
        further=TOLD.further,
        prose=TOLD.prose,
        unfinished=True,
    )
    garden = Garden(
        name="G",
        seasons=(Season(name="2025", span=SPAN), Season(name="2026", span=SPAN, log=(waiting, TOLD))),
        questions=(Question(slug="a", question="A?"), Question(slug="b", question="B?", unfinished=True)),
    )
    seen = readable(garden, DAY)
    assert seen.seasons[0].log is None, "a log that is not there came to be"
    assert seen.seasons[1].log == (Entry(slug="x", day=DAY, title="", done=(SOWN,), unfinished=True), TOLD)
    assert [one.slug for one in seen.questions] == ["a"]


@pytest.mark.parametrize(
    ("entry", "newest"),
    [
        (held(None), DAY),
        (held(None, done=()), DAY),
        (held(None, unfinished=True), DAY),
        (held(None, unfinished=True, done=()), None),
        (held(date(2026, 10, 1)), DAY),
        (held(date(2026, 10, 1), done=()), None),
    ],
    ids=["plain", "plain, no work", "unfinished", "unfinished, no work", "held", "held, no work"],
)
def test_a_page_that_waits_moves_today_only_by_the_work_in_it(entry: Entry, newest: date | None) -> None:
    assert Season(name="2026", span=SPAN, log=(entry,)).newest == newest


DAYS = st.integers(1, 300).map(lambda days: DAY + timedelta(days=days))


@given(until=DAYS, today=DAYS, later=st.integers(0, 300))
def test_what_may_be_read_may_be_read_on_every_later_day(until: date, today: date, later: int) -> None:
    if not waits(held(until), today):
        assert not waits(held(until), today + timedelta(days=later))
