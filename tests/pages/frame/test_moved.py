"""Addresses whose page has become part of another, in any garden and on any day of its season."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from tallybed.pages.frame import addresses
from tallybed.pages.frame.moved import moved
from tallybed.pages.frame.which_pages import every_path
from tallybed.reckoning.year import Years
from tests.pages.gardens import folder, site_of, written

DAYS = [date(2026, 2, 1), date(2026, 3, 1), date(2026, 5, 20), date(2026, 10, 31), date(2027, 1, 5)]
"""Before, at the beginning, within, at the end and after the season, which runs from March to October."""


@pytest.mark.parametrize("today", DAYS)
@pytest.mark.parametrize("plan", [True, False])
def test_each_month_and_the_plan_have_a_page_or_lead_on_to_one(
    tmp_path: Path, today: date, plan: bool
) -> None:
    years = Years(garden=site_of(folder(tmp_path, plan=plan)).garden, today=today)
    (year,) = years.all
    leads = {path: link.to for path, link in moved(years)}
    there = set(every_path(years))
    months = {
        addresses.bed_month_folder(year, bed, month)
        for bed in years.garden.beds
        for month in year.season.span.months
    }
    assert months <= there | set(leads)
    assert ("2026/plan/index.html" in leads) is plan
    assert set(leads.values()) <= there
    assert not there & set(leads), "a page and an address that leads on lie at one place"


def test_between_its_seasons_a_bed_stands_for_the_middle_of_one(tmp_path: Path) -> None:
    garden = site_of(folder(tmp_path)).garden
    leads = {
        today: {path for path, _to in moved(Years(garden=garden, today=today)) if "/front/" in path}
        for today in DAYS
    }
    assert leads[date(2026, 5, 20)] == {"2026/beds/front/05/index.html"}
    # March to October are eight months; the fifth is July.
    assert leads[date(2027, 1, 5)] == leads[date(2026, 2, 1)] == {"2026/beds/front/07/index.html"}


def test_an_entry_that_was_renamed_is_found_where_it_was_published(tmp_path: Path) -> None:
    """Fails where a friend who was sent its address finds nothing, though the entry tells its first name."""
    entry = "---\ntitle: {}\ndate: 2026-04-{}\nidentity: {}\n{}---\nIn.\n"
    root = written(
        folder(tmp_path),
        {
            "2026/log/2026-04-12-all-in.md": entry.format("All in", 12, "2026-04-11-peas-in", ""),
            "2026/log/2026-04-13-kept.md": entry.format("Kept", 13, "2026-04-13-kept", ""),
            "2026/log/2026-04-14-new.md": entry.format("New", 14, "2026-04-13-old", "unfinished: yes\n"),
            # Another lies by now where this one was.
            "2026/log/2026-04-15-moved.md": entry.format("Moved", 15, "2026-04-12-all-in", ""),
        },
    )
    years = Years(garden=site_of(root).garden, today=date(2026, 5, 20))
    leads = {path: link for path, link in moved(years) if "/log/" in path}
    assert {path: link.to for path, link in leads.items()} == {
        "2026/log/04-11-peas-in/index.html": "2026/log/04-12-all-in/index.html"
    }
    assert [link.text for link in leads.values()] == ["All in"]
