"""What a label says, as people copy it."""

from __future__ import annotations

from datetime import time
from fractions import Fraction

import pytest

from tallybed.garden.records.treatment import ReEntry
from tallybed.reading.base.problems import Misread
from tallybed.reading.text import labels


@pytest.mark.parametrize(
    ("text", "days"), [("7 days", 7), ("1 day", 1), ("0 days", 0), ("2 weeks", 14), ("7days", 7), ("7 d", 7)]
)
def test_a_wait_is_whole_days(text: str, days: int) -> None:
    assert labels.wait(text) == days


@pytest.mark.parametrize("text", ["7", "", "a week", "-1 days", "7 hours", "1.5 days", "9999 days", "none"])
def test_what_is_no_wait_is_never_guessed(text: str) -> None:
    with pytest.raises(Misread):
        labels.wait(text)


@pytest.mark.parametrize(("text", "offered"), [("7", "7 days"), ("0", ""), ("none", "")])
def test_a_bare_number_is_offered_as_days_and_no_wait_as_nothing(text: str, offered: str) -> None:
    with pytest.raises(Misread) as misread:
        labels.wait(text)
    assert misread.value.nearest == offered


@pytest.mark.parametrize(("text", "offered"), [("19h30", "19:30"), ("25h30", ""), ("19h75", "")])
def test_hours_with_an_h_between_are_offered_with_a_colon(text: str, offered: str) -> None:
    with pytest.raises(Misread) as misread:
        labels.clock(text)
    assert misread.value.nearest == offered


@pytest.mark.parametrize(
    ("text", "hours"),
    [("4 hours", 4), ("4 h", 4), ("12 hrs", 12), ("1 day", 24), ("2 days", 48), ("0 hours", 0)],
)
def test_re_entry_is_hours_or_days(text: str, hours: int) -> None:
    assert labels.re_entry(text) == ReEntry(hours=Fraction(hours))


@pytest.mark.parametrize(
    "text",
    [
        "until dry",
        "Until it has dried",
        "until sprays have dried",
        "when dry",
        "until the leaves are dry",
        "until residues dry",
        "till spray dries",
    ],
)
def test_until_dry_is_legal(text: str) -> None:
    assert labels.re_entry(text).hours is None


@pytest.mark.parametrize("text", ["4", "soon", "until Tuesday", "dry"])
def test_what_is_no_re_entry_is_told(text: str) -> None:
    with pytest.raises(Misread):
        labels.re_entry(text)


@pytest.mark.parametrize(
    ("text", "at"),
    [
        *[("7:30 pm", time(19, 30)), ("7 pm", time(19)), ("19:30", time(19, 30)), ("12:15 am", time(0, 15))],
        *[("12 pm", time(12)), ("7.30 p.m.", time(19, 30))],
    ],
)
def test_a_time_of_day(text: str, at: time) -> None:
    assert labels.clock(text) == at


@pytest.mark.parametrize("text", ["7", "13 pm", "25:00", "7:75 pm", "dusk"])
def test_a_time_that_can_be_read_two_ways_is_told(text: str) -> None:
    with pytest.raises(Misread):
        labels.clock(text)


def test_temperatures_in_both_scales() -> None:
    assert labels.temperature("68 F") == 68
    assert labels.temperature("20 °C") == 68
    assert labels.temperature("-40 C") == -40
