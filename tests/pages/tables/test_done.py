"""Every verb of the log reads as something done, and notices stand where they protect people."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from tallybed.garden.crops import Beginning, Crop, Habit
from tallybed.garden.garden import Garden
from tallybed.garden.naming import CropName
from tallybed.garden.records.log import Event, Verb
from tallybed.garden.records.treatment import Treatment, TreatmentKind
from tallybed.garden.squares import Bed, Square
from tallybed.garden.units import INCH, Length
from tallybed.pages.tables import done

DAY = date(2026, 5, 1)


def crop(slug: str, name: str) -> Crop:
    return Crop(
        slug=slug,
        name=name,
        plural=f"{name}s",
        family="F",
        habit=Habit.ROOT,
        start=Beginning.SOWN,
        letters=name[:2].capitalize(),
        spacing=Length.of(3, INCH),
    )


GARDEN = Garden(
    name="g",
    beds=(Bed(name="one", title="One", columns=3, rows=1),),
    crops=(crop("beet", "beet"), crop("carrot", "carrot")),
)


def event(verb: Verb, typed: str = "carrot", /, **details: Any) -> Event:
    name = CropName(typed=typed, slugs=(typed,))
    return Event(verb=verb, day=DAY, subject=typed, crop=name, **details)


@pytest.mark.parametrize(
    ("details", "said"),
    [
        ({"plants": 1}, "1 plant"),
        ({"plants": 3, "because": "slugs"}, "3 plants; because: slugs"),
        ({"leaving": 32}, "32 left"),
        ({"seeds": 40, "amount": "one packet"}, "40 seeds; one packet"),
        ({"minutes": 12, "people": 2}, "12 minutes × 2 people"),
        ({"minutes": 1}, "1 minute"),
        ({"to": (Square("one", 2, 0),)}, "to C1"),
        ({"among": "beet", "note": "thick"}, "among beets; thick"),
        ({}, ""),
    ],
)
def test_details_are_told(details: dict[str, Any], said: str) -> None:
    table = done.done_table(GARDEN, [event(Verb.SOW, note="x"), event(Verb.SOW, "carrot", **details)])
    assert table.rows[1].cells[1].note == said


def test_columns_that_say_nothing_are_left_out() -> None:
    table = done.done_table(GARDEN, [event(Verb.UP)])
    assert [head.text for head in table.heads] == ["Done", "What"]


def test_the_gist_groups_by_what_was_done() -> None:
    events = [
        event(Verb.SOW),
        event(Verb.CLEAR, "beet"),
        event(Verb.SOW, "beet"),
        event(Verb.SOW),
        Event(verb=Verb.WEED, day=DAY, subject="bed"),
    ]
    assert done.gist(GARDEN, events) == "carrots and beets sown; beets cleared; bed weeded"
    assert done.gist(GARDEN, events, most=2) == "carrots and beets sown; beets cleared; and more"
    assert done.gist(GARDEN, []) == ""


@pytest.mark.parametrize(
    ("plants", "said"),
    [((1,), "beet lost"), ((2, 1), "beets lost"), ((1, 1), "beets lost")],
)
def test_plants_of_several_lines_are_several(plants: tuple[int, ...], said: str) -> None:
    """Two beets in one line and one in another read as “beets and beet lost”."""
    events = [event(Verb.LOST, "beet", plants=number) for number in plants]
    other = event(Verb.LOST, "carrot", plants=1)
    assert done.gist(GARDEN, [*events, event(Verb.SET_OUT, "beet")]) == f"{said}; beets set out"
    assert done.gist(GARDEN, [other, *events]) == f"carrot and {said}"


def test_what_is_no_crop_is_not_said_to_be_done_to() -> None:
    events = [
        Event(verb=Verb.COVER, day=DAY, subject="row cover"),
        event(Verb.COVER, "beet"),
        Event(verb=Verb.UNCOVER, day=DAY, subject="shade cloth"),
        Event(verb=Verb.AMEND, day=DAY, subject="compost"),
        Event(verb=Verb.FEED, day=DAY, subject="nettle water"),
        Event(verb=Verb.OBSERVE, day=DAY, subject="hail"),
        event(Verb.OBSERVE),
        event(Verb.LOST, "beet", plants=1),
    ]
    told = (
        "row cover put on; beets covered; shade cloth taken off; compost added; nettle water given; "
        "hail seen; carrots looked at; beet lost"
    )
    assert done.gist(GARDEN, events, most=8) == told
    assert done.done_table(GARDEN, events).rows[0].cells[0].text == "Put on"


def test_work_is_minutes_times_people() -> None:
    events = [event(Verb.SOW, minutes=12, people=2), event(Verb.UP), event(Verb.THIN, minutes=5)]
    assert done.minutes_words(events) == "29 person-minutes"
    assert done.minutes_words([event(Verb.UP)]) == ""


@pytest.mark.parametrize(
    ("verb", "notices"),
    [
        (Verb.TREAT, (done.TREATED,)),
        (Verb.FEED, (done.ENRICHED,)),
        (Verb.AMEND, (done.ENRICHED,)),
        (Verb.SOW, ()),
    ],
)
def test_notices_that_protect_people(verb: Verb, notices: tuple[str, ...]) -> None:
    assert done.cautions([event(verb)]) == notices


def test_a_cover_of_manure_has_its_notice() -> None:
    litter = Event(verb=Verb.COVER, day=DAY, subject="stable litter")
    assert done.cautions([litter]) == (done.ENRICHED,)
    assert done.cautions([Event(verb=Verb.COVER, day=DAY, subject="cloth")]) == ()


def treating(subject: str, crop: str = "", **told: Any) -> Event:
    name = CropName(typed=crop, slugs=(crop,)) if crop else None
    return Event(verb=Verb.TREAT, day=DAY, subject=subject, crop=name, treatment=Treatment(**told))


def test_a_line_about_a_crop_tells_what_it_was_done_with() -> None:
    fed = event(Verb.FEED)
    events = [treating("spinosad", "beet", wait=1), fed]
    rows = done.done_table(GARDEN, events).rows
    assert [row.cells[1].note for row in rows] == ["spinosad; wait by the label: one day", ""]


def test_what_has_no_label_brings_no_notice_of_a_label() -> None:
    assert done.cautions([treating("picking off", kind=TreatmentKind.BY_HAND)]) == ()
    assert done.cautions([treating("soap", kind=TreatmentKind.BY_HAND, wait=2)]) == (done.TREATED,)
