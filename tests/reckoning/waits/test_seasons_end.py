"""What goes on waiting from one season to the next, and what ends: in plants, in ground, and for people."""

from __future__ import annotations

from datetime import date

import pytest

from tallybed.reckoning.waits.spans import WaitKind
from tests.reckoning.waits.test_waits import SPINACH, Story, day, laid

GARLIC = "- {crop: garlic, tag: GA1, squares: A1, sow: Oct 10}\n"
CARRIED = "- {crop: garlic, tag: GA9, squares: A1, carried from: 2023, until: Jul 1}\n"
SOWN = "- {sow: garlic, tag: GA1, squares: A1}"
RADISH = "- {crop: radish, tag: RA1, squares: A1, sow: Jun 20, until: Aug 1}\n"
CLEARED_THEN_RADISH = {
    "2024-04-01": "- {sow: spinach, tag: SP1, squares: 'A1:B2'}",
    "2024-06-18": "- {clear: spinach, tag: SP1, squares: 'A1:B2'}",
    "2024-06-20": "- {sow: radish, tag: RA1, squares: A1}",
}


def years(plans: dict[str, str], log: dict[str, str]) -> Story:
    """A story of plans by season and lines by day."""
    return Story(
        name="-",
        rule="-",
        plan="",
        earlier=plans,
        log=log,
        season="2024",
        planting="-",
        safe=None,
        inside_from=date(2024, 1, 1),
    )


WAITING = (
    # what is told, the plans of two seasons, the log, who waits in 2024 until when
    (
        "cleared before the season ended: nobody carried it over",
        (GARLIC, CARRIED),
        {
            "2023-10-10": SOWN,
            "2023-11-01": "- {treat: oil, squares: A1}",
            "2023-11-29": "- {clear: garlic, tag: GA1, squares: A1}",
        },
        (),
    ),
    (
        "safe on the season's first day",
        (GARLIC, CARRIED),
        {"2023-10-10": SOWN, "2023-11-28": "- {treat: oil, squares: A1, wait: 94 days}"},
        (),
    ),
    (
        "safe on the day after it",
        (GARLIC, CARRIED),
        {"2023-10-10": SOWN, "2023-11-28": "- {treat: oil, squares: A1, wait: 95 days}"},
        (("GA9", "2024-03-02"),),
    ),
    (
        "carried over beside another crop, and beside its own in another square: these have no wait",
        (
            GARLIC,
            CARRIED
            + "- {crop: kale, tag: KA9, squares: A1, carried from: 2023, until: Jul 1}\n"
            + "- {crop: garlic, tag: GA8, squares: B2, carried from: 2023, until: Jul 1}\n",
        ),
        {"2023-10-10": SOWN, "2023-11-28": "- {treat: oil, squares: A1, wait: 95 days}"},
        (("GA9", "2024-03-02"),),
    ),
    (
        "planted anew: other plants; the old ones may stand until then",
        (GARLIC, "- {crop: garlic, tag: GA9, squares: A1, sow: Mar 5, until: Jul 1}\n"),
        {"2023-10-10": SOWN, "2023-11-28": "- {treat: oil, squares: A1, wait: 200 days}"},
        (("", "2024-06-15"),),
    ),
    (
        "no record has them gone, and none of the new season names them",
        (GARLIC, ""),
        {"2023-10-10": SOWN, "2023-11-28": "- {treat: oil, squares: A1, wait: 200 days}"},
        (("", "2024-06-15"),),
    ),
    (
        "no plan has it, and it is picked as if it still stood",
        (GARLIC, ""),
        {
            "2023-10-10": SOWN,
            "2023-11-28": "- {treat: oil, squares: A1, wait: 200 days}",
            "2024-04-01": "- {thin: garlic, tag: GA1, squares: A1}",
        },
        (("GA1", "2024-06-15"),),
    ),
    (
        "the next crop of a label whose wait is not written",
        ("", "- {crop: spinach, tag: SP1, squares: A1, sow: Mar 20, until: Jun 1}\n"),
        {"2023-11-20": "- {treat: soap, squares: A1, next crop: yes}"},
        (("SP1", None),),
    ),
    (
        "of what has no label, a wait that is told counts all the same",
        ("", SPINACH),
        {"2023-11-20": "- {treat: net, squares: A1, kind: barrier, wait: 150 days, next crop: yes}"},
        (("SP1", "2024-04-18"),),
    ),
    (
        "and one that is not told is none",
        ("", SPINACH),
        {"2023-11-20": "- {treat: net, squares: A1, kind: barrier, next crop: yes}"},
        (),
    ),
    (
        "the next crop from the first safe day on",
        ("", RADISH),
        {"2024-06-10": "- {treat: soap, squares: A1, wait: 10 days, next crop: yes}"},
        (),
    ),
    (
        "and a day before it",
        ("", RADISH),
        {"2024-06-10": "- {treat: soap, squares: A1, wait: 11 days, next crop: yes}"},
        (("RA1", "2024-06-21"),),
    ),
    (
        "another crop where no label speaks of the next",
        ("", SPINACH + RADISH),
        {**CLEARED_THEN_RADISH, "2024-06-10": "- {treat: soap, squares: A1, wait: 30 days}"},
        (("SP1", "2024-07-10"),),
    ),
    (
        "manure after a crop had gone: the next alone waits",
        ("", SPINACH + RADISH),
        {**CLEARED_THEN_RADISH, "2024-06-19": "- {amend: manure, squares: A1, manure: raw}"},
        (("RA1", "2024-10-17"),),
    ),
    (
        "manure on the day it was cleared: both",
        ("", SPINACH + RADISH),
        {
            **CLEARED_THEN_RADISH,
            "2024-06-18": "- {clear: spinach, tag: SP1, squares: 'A1:B2'}\n"
            "  - {amend: manure, squares: A1, manure: raw}",
        },
        (("RA1", "2024-10-16"), ("SP1", "2024-10-16")),
    ),
    (
        "manure under a crop that is cleared and sown again: the new plants wait too",
        ("", SPINACH),
        {
            "2024-04-01": "- {sow: spinach, tag: SP1, squares: 'A1:B2'}",
            "2024-06-10": "- {amend: manure, squares: A1, manure: raw}",
            "2024-06-20": "- {clear: spinach, tag: SP1, squares: 'A1:B2'}",
            "2024-06-25": "- {resow: spinach, tag: SP1, squares: 'A1:B2'}",
        },
        (("SP1", "2024-10-08"), ("SP1", "2024-10-08")),
    ),
    (
        "and so where the label speaks of the next crop",
        ("", SPINACH),
        {
            "2024-04-01": "- {sow: spinach, tag: SP1, squares: 'A1:B2'}",
            "2024-06-10": "- {treat: soap, squares: A1, wait: 30 days, next crop: yes}",
            "2024-06-20": "- {clear: spinach, tag: SP1, squares: 'A1:B2'}",
            "2024-06-25": "- {resow: spinach, tag: SP1, squares: 'A1:B2'}",
        },
        (("SP1", "2024-07-10"), ("SP1", "2024-07-10")),
    ),
    (
        "and on one day: the old plants until then, the new ones from then on",
        ("", SPINACH),
        {
            "2024-04-01": "- {sow: spinach, tag: SP1, squares: 'A1:B2'}",
            "2024-06-10": "- {treat: soap, squares: A1, wait: 30 days, next crop: yes}",
            "2024-06-20": "- {clear: spinach, tag: SP1, squares: 'A1:B2'}\n"
            "  - {resow: spinach, tag: SP1, squares: 'A1:B2'}",
        },
        (("SP1", "2024-07-10"), ("SP1", "2024-07-10")),
    ),
    (
        "a label that says nothing of the next crop: new plants of that day do not wait",
        ("", SPINACH),
        {
            "2024-04-01": "- {sow: spinach, tag: SP1, squares: 'A1:B2'}",
            "2024-06-10": "- {treat: soap, squares: A1, wait: 30 days}",
            "2024-06-20": "- {clear: spinach, tag: SP1, squares: 'A1:B2'}\n"
            "  - {resow: spinach, tag: SP1, squares: 'A1:B2'}",
        },
        (("SP1", "2024-07-10"),),
    ),
    (
        "ground that holds nothing yet waits as what touches soil",
        ("", ""),
        {"2023-11-20": "- {amend: manure, squares: A1, manure: raw}"},
        (("", "2024-03-19"),),
    ),
    (
        "ground whose wait is over on the first day",
        ("", ""),
        {"2023-11-02": "- {amend: manure, squares: A1, manure: raw}"},
        (),
    ),
)


@pytest.mark.parametrize(
    ("plans", "log", "told"), [row[1:] for row in WAITING], ids=[row[0] for row in WAITING]
)
def test_who_waits_in_the_season(
    plans: tuple[str, str], log: dict[str, str], told: tuple[tuple[str, str | None], ...], tmp_path
) -> None:
    waits = laid(years(dict(zip(("2023", "2024"), plans, strict=True)), log), tmp_path).waiting.waits
    found = sorted((one.planting, str(one.first_safe or "")) for one in waits if one.square.label == "A1")
    assert found == [(planting, safe or "") for planting, safe in told]


def test_what_no_record_has_gone_may_stand_until_something_else_does(tmp_path) -> None:
    kale = "- {crop: kale, tag: KA1, squares: A1, set out: Apr 5, until: Jul 1}\n"
    log = {"2023-10-10": SOWN, "2023-11-28": "- {treat: oil, squares: A1, wait: 200 days}"}
    waits = laid(years({"2023": GARLIC, "2024": kale}, log), tmp_path).waiting.waits
    (wait,) = (one for one in waits if one.square.label == "A1")
    assert (wait.kind, wait.left) == (WaitKind.LABEL, {"garlic"})
    assert wait.is_open(day("2024-03-01"))
    assert wait.is_open(day("2024-04-04"))
    assert not wait.is_open(day("2024-04-05")), "kale stands there by now"


KEPT_OFF = (
    # the line and its day, whether people keep off in 2024
    ("2023-11-29", "re-entry: 90 days, at: 8 am", False),
    ("2023-11-29", "re-entry: 92 days, at: 8 am", False),
    ("2023-11-29", "re-entry: 93 days, at: 8 am", True),
    ("2023-11-29", "because: aphids", True),
    ("2022-11-29", "because: aphids", True),
)


@pytest.mark.parametrize(("on", "keys", "told"), KEPT_OFF)
def test_people_keep_off_in_later_seasons_while_it_lasts(on: str, keys: str, told: bool, tmp_path) -> None:
    """92 days from 29 November 2023 are 29 February, and that ends at eight: 1 March is free."""
    log = {on: f"- {{treat: oil, squares: A1, wait: 0 days, {keys}}}"}
    found = laid(years({"2022": "", "2023": GARLIC, "2024": CARRIED}, log), tmp_path).waiting.keep_offs
    assert [one.event.day for one in found] == ([day(on)] if told else [])


def test_people_keep_off_until_the_last_of_the_treated_plants_is_out(tmp_path) -> None:
    """Manure on the same day waits longer, and keeps nobody off."""
    both = SPINACH + "- {crop: kale, tag: KA1, squares: A1, set out: Apr 1, until: Oct 1, among: SP1}\n"
    manure = "- {amend: manure, squares: A1, manure: raw}"
    log = {
        "2024-06-10": f"- {{treat: soap, squares: A1, wait: 0 days}}\n  {manure}",
        "2024-06-20": "- {clear: spinach, tag: SP1, squares: 'A1:B2'}",
        "2024-06-25": "- {clear: kale, tag: KA1, squares: A1}",
    }
    (kept,) = laid(years({"2023": "", "2024": both}, log), tmp_path).waiting.keep_offs
    assert kept.cleared == day("2024-06-25")


@pytest.mark.parametrize(
    ("manured", "moved", "safe"), [("11-20", "11-22", "2024-03-19"), ("11-20", "11-18", None)]
)
def test_what_was_moved_out_of_manured_ground_takes_its_wait_into_the_next_season(
    manured: str, moved: str, safe: str | None, tmp_path
) -> None:
    """By 7 CFR 205.203(c)(1)(ii). Fails where a season's end frees plants of what clings to them."""
    plans = {"2023": GARLIC, "2024": CARRIED.replace("squares: A1", "squares: A2")}
    log = {
        "2023-10-10": SOWN,
        f"2023-{manured}": "- {amend: manure, squares: A1, manure: raw}",
        f"2023-{moved}": "- {move: garlic, tag: GA1, squares: A1, to: A2}",
    }
    waits = laid(years(plans, log), tmp_path).waiting.waits
    found = [(one.planting, one.kind, str(one.first_safe)) for one in waits if one.square.label == "A2"]
    assert found == ([("GA9", WaitKind.MANURE, safe)] if safe else [])
