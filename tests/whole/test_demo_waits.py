"""The demonstration garden: a wait open on its last day, one long over, one not known, nothing else asked."""

from __future__ import annotations

from datetime import date

from tallybed.checks.registry import every_finding
from tallybed.reckoning.year import Years


def test_one_wait_is_open_one_is_long_over_and_one_is_not_known(the_demo: Years) -> None:
    last = date(2026, 9, 14)
    assert the_demo.today == last
    every = [one for year in the_demo.all for one in year.waiting.waits]
    assert {(one.planting, one.first_safe) for one in every if one.is_open(last)} == {
        ("BR2", date(2026, 9, 19)),
        ("LK1", None),
    }
    over = [one for one in every if one.first_safe and (last - one.first_safe).days > 300]
    assert any(one.first_safe and one.first_safe > one.event.day for one in over)


def test_only_the_label_that_nobody_copied_is_asked_about(the_demo: Years) -> None:
    codes = ("picked-inside-wait", "label-not-written-down", "manure-not-told", "counts-as-raw")
    found = [one for year in the_demo.all for one in every_finding(year) if one.code in codes]
    assert [(one.code, one.place.file) for one in found] == [
        ("label-not-written-down", "content/2026/log/2026-09-01-cilantro.md")
    ]
