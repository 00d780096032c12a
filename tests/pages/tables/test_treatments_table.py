"""What was used on the beds, as the page of cautions tells it."""

from __future__ import annotations

from pathlib import Path

import pytest

from tallybed.pages.files.data.treatments import treatments
from tallybed.pages.tables.treatments_table import safe_words, treatment_lines
from tallybed.reckoning.year import Year
from tests.pages.gardens import folder, html_of, only, site_of, written

LINE = (
    "{treat: spinosad, product: spinosad, squares: front, wait: 1 day, re-entry: 4 hours, at: 9:00 am, "
    "wind: calm, temperature: 14 C}"
)


@pytest.mark.parametrize(
    ("line", "told"),
    [
        (LINE, "wind: calm; temperature: 57.2 °F (14 °C)"),
        # outside what is printed: told with that, and once
        (LINE.replace("spinosad", "soap").replace("14 C", "95 F"), "wind: calm; 95 °F (35 °C) was noted"),
    ],
)
def test_wind_and_temperature_are_told(line: str, told: str, tmp_path: Path) -> None:
    log = f"---\ntitle: Sprayed\ndate: 2026-05-18\ndone:\n  - {line}\n---\n"
    root = written(folder(tmp_path), {"2026/log/2026-05-18-sprayed.md": log})
    page = html_of(root)["cautions/index.html"]
    assert told in " ".join(only(page, "main").get_text(" ").split())


BARE = """\
name: Tiny
latitude: 45
season: {start: Mar 1, end: Oct 31}
beds: [{name: b, length: 2 squares, width: 1 square}]
"""


def logged(root: Path, plan: str, *lines: str) -> Year:
    """A season with one line on each day from 10 June."""
    files = {"garden.yaml": BARE, "2026/plan.yaml": plan}
    for number, line in enumerate(lines, start=10):
        files[f"2026/log/2026-06-{number}-x.md"] = (
            f"---\ntitle: X\ndate: 2026-06-{number}\ndone: [{line}]\n---\n"
        )
    (year,) = site_of(written(root, files)).all
    return year


@pytest.mark.parametrize(
    ("keys", "told"),
    [
        ("wait: 3 days", "nothing stood there"),
        ("because: aphids", "not known: read the label"),
        # The label speaks of whatever is planted there next.
        ("wait: 3 days, next crop: yes", "13 June 2026"),
        ("kind: barrier", "no label: barrier"),
    ],
)
def test_what_is_told_of_a_treatment_of_bare_ground(keys: str, told: str, tmp_path: Path) -> None:
    year = logged(tmp_path, "[]\n", f"{{treat: soap, squares: A1, {keys}}}")
    assert [safe_words(one) for one in treatment_lines(year)] == [told]


def test_each_treatment_has_its_own_day_to_go_in_and_to_pick(tmp_path: Path) -> None:
    """From nine in the morning four hours end on that day and 48 two days later: whole days come after."""
    plan = "- {crop: kale, tag: KA1, squares: A1, set out: Apr 20}\n"
    lines = [
        f"{{treat: soap, squares: A1, wait: {days} days, re-entry: {hours} hours, at: 9:00 am}}"
        for days, hours in ((1, 4), (5, 48))
    ]
    table = treatments(logged(tmp_path, plan, *lines))
    names = [column.name for column in table.columns]
    found = [dict(zip(names, row, strict=True)) for row in table.rows]
    assert [(str(row["first_day_on"]), str(row["first_day_to_pick"])) for row in found] == [
        ("2026-06-11", "2026-06-11"),
        ("2026-06-14", "2026-06-16"),
    ]
