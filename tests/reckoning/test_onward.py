"""Which planting of a later season is one that stood on, by its plan or by its log."""

from __future__ import annotations

from pathlib import Path

import pytest

from tallybed.reckoning.onward import goes_on, later_plantings, told_of_earlier
from tallybed.reckoning.rows.season import yields
from tests.pages.gardens import site_of, written

pytestmark = pytest.mark.usefixtures("few_crops")
GARDEN = """\
name: Two Winters
season: {start: Mar 1, end: Nov 30}
seasons: {2025: {closed: CLOSED}}
beds: [{name: b, length: 4 squares, width: 2 squares}]
"""
SET_OUT = "{set out: garlic, tag: GA1, squares: b/A1:A2}"
CARRIED = "- {crop: garlic, tag: GA9, squares: b/A2:B2, carried from: 2025, until: Jul 10}\n"


def leads(root: Path, plan: str = "", *lines: str, before: str = "", closed: str = "no") -> list[str]:
    """Return which plantings of the second season go on from one of the first, and check the key of both."""
    files = {
        "garden.yaml": GARDEN.replace("CLOSED", closed),
        "2025/log/2025-10-10-in.md": f"---\ntitle: In\ndate: 2025-10-10\ndone: [{SET_OUT}]\n---\n",
        "2026/log/2026-03-02-x.md": "---\ntitle: X\ndate: 2026-03-02\n---\nX.\n",
    }
    if before:
        files["2025/log/2025-11-10-x.md"] = f"---\ntitle: X\ndate: 2025-11-10\ndone: [{before}]\n---\n"
    if plan:
        files["2026/plan.yaml"] = plan
    for number, line in enumerate(lines):
        day = f"2026-04-{10 + number}"
        files[f"2026/log/{day}-y.md"] = f"---\ntitle: Y\ndate: {day}\ndone: [{line}]\n---\n"
    years = site_of(written(root, files))
    first, second = years.all
    found = [
        later.key
        for one in first.plantings
        for later in second.plantings
        if goes_on(first, one, second, later)
    ]
    told = {key for _year, key, *_rest in told_of_earlier(years)}  # type: ignore[misc]
    assert set(found) <= told, "the site would keep a page that leads elsewhere by now"
    return found


@pytest.mark.parametrize("closed", ["yes", "no"])
@pytest.mark.parametrize(
    ("plan", "found"),
    [
        (CARRIED, ["GA9"]),
        (CARRIED.replace("A2:B2", "B1:B2"), []),
        (CARRIED.replace("garlic", "kale"), []),
        (CARRIED.replace("carried from: 2025", "sow: Apr 1"), []),
        (CARRIED.replace("2025", "2024"), []),
    ],
)
def test_the_plan_says_what_it_carried_over(plan: str, found: list[str], closed: str, tmp_path: Path) -> None:
    assert leads(tmp_path, plan, closed=closed) == found


@pytest.mark.parametrize("closed", ["yes", "no"])
@pytest.mark.parametrize(
    ("line", "before", "found"),
    [
        ("{weed: garlic, tag: GA1}", "", ["GA1"]),
        ("{weed: garlic, tag: GA1, squares: b/A2}", "", ["GA1"]),
        ("{weed: garlic, tag: GA1, squares: b/B1}", "", []),
        ("{weed: garlic, tag: GA2, squares: b/A2}", "", []),
        ("{weed: garlic, squares: b/A2}", "", []),
        ("{weed: kale, tag: GA1, squares: b/A2}", "", []),
        ("{set out: garlic, tag: GA1, squares: b/A2}", "", []),
        ("{weed: garlic, tag: GA1}", "{clear: garlic, tag: GA1}", []),
    ],
)
def test_without_a_plan_the_log_names_what_stood_on(
    line: str, before: str, found: list[str], closed: str, tmp_path: Path
) -> None:
    """Fails where a tag that was begun anew, or that was gone by the end, is taken for the old."""
    assert leads(tmp_path, "", line, before=before, closed=closed) == found


@pytest.mark.parametrize("closed", ["yes", "no"])
@pytest.mark.parametrize(
    ("last", "stood"),
    [
        # "The earlier season it was planted in": so a plan of the third year may name the first.
        ("carried from: 2024", ["GA1 2025 GA1 2026", "GA1 2024 GA1 2025", "GA1 2024 GA1 2026"]),
        ("carried from: 2025", ["GA1 2025 GA1 2026", "GA1 2024 GA1 2025"]),
        ("set out: Mar 5", ["GA1 2024 GA1 2025"]),
    ],
)
def test_what_stands_for_years_stood_in_each_of_them(
    last: str, stood: list[str], closed: str, tmp_path: Path
) -> None:
    """Fails where a planting between its first year and its last is said to have ended in each."""
    row = "- {{crop: garlic, tag: GA1, squares: b/A1:A2, {how}}}\n"
    seasons = f"seasons: {{2024: {{closed: {closed}}}, 2025: {{closed: {closed}}}}}\n"
    files = {
        "garden.yaml": GARDEN.replace("seasons: {2025: {closed: CLOSED}}\n", seasons),
        "2024/plan.yaml": row.format(how="set out: Oct 10"),
        "2025/plan.yaml": row.format(how="carried from: 2024"),
        "2025/harvest.yaml": "- {date: 2025-06-01, tag: GA1, weight: 3 oz, as: scapes}\n",
        "2026/plan.yaml": row.format(how=last) + "- {crop: radish, squares: b/C1, sow: Apr 5}\n",
        "2026/log/2026-03-06-x.md": "---\ntitle: X\ndate: 2026-03-06\n---\nX.\n",
    }
    years = site_of(written(tmp_path, files))
    found = [
        f"{one.key} {year.name} {later.key} {other.name}"
        for year in years.all
        for one in year.plantings
        for other, later in later_plantings(year)
        if goes_on(year, one, other, later)
    ]
    assert sorted(found) == sorted(stood)
    (second,) = yields(years.all[1])
    assert second.ended == ("GA1 2025 GA1 2026" not in stood), "also where its season is closed"


@pytest.mark.parametrize("closed", ["yes", "no"])
@pytest.mark.parametrize(
    ("second", "picked", "stood"),
    [
        # Dug in summer, and planted anew in fall: the new one is what went on.
        (
            "- {crop: garlic, tag: GA1, squares: b/A1:A2, carried from: 2024, until: Jul 10}\n"
            "- {crop: garlic, tag: GA2, squares: b/A1:A2, set out: Oct 10}\n",
            "tag: GA1",
            ["GA1 2024 GA1 2025", "GA2 2025 GA3 2026"],
        ),
        # The books of its last year end it, and the plan has it all the same.
        (
            "- {crop: garlic, tag: GA2, squares: b/A1:A2, set out: Apr 10, until: Nov 1}\n",
            "tag: GA2",
            ["GA2 2025 GA3 2026"],
        ),
    ],
)
def test_of_two_that_had_the_squares_the_one_goes_on_that_stood_there_last(
    second: str, picked: str, stood: list[str], closed: str, tmp_path: Path
) -> None:
    """Garlic that was dug was said to have gone on as the garlic that was planted after it."""
    assert _goes_on(tmp_path, second, picked, "2025", closed) == stood


@pytest.mark.parametrize("closed", ["yes", "no"])
@pytest.mark.parametrize("since", ["2023", "2024", "2025"])
def test_what_a_season_met_and_did_not_plan_goes_on_too(since: str, closed: str, tmp_path: Path) -> None:
    """It counted as ended in the season in between, and its yield there as whole."""
    assert "garlic 2025 GA3 2026" in _goes_on(tmp_path, "", "crop: garlic, squares: b/A1:A2", since, closed)


def _goes_on(root: Path, second: str, picked: str, since: str, closed: str) -> list[str]:
    """Return which plantings go on in which of three seasons; ``since``: as the third plan has it."""
    seasons = f"seasons: {{2024: {{closed: {closed}}}, 2025: {{closed: {closed}}}}}\n"
    files = {
        "garden.yaml": GARDEN.replace("seasons: {2025: {closed: CLOSED}}\n", seasons),
        "2024/plan.yaml": "- {crop: garlic, tag: GA1, squares: b/A1:A2, set out: Oct 10}\n",
        "2025/harvest.yaml": f"- {{date: 2025-07-10, {picked}, weight: 1 lb}}\n",
        "2026/plan.yaml": f"- {{crop: garlic, tag: GA3, squares: b/A1:A2, carried from: {since}}}\n",
        "2026/log/2026-03-06-x.md": "---\ntitle: X\ndate: 2026-03-06\n---\nX.\n",
    }
    if second:
        files["2025/plan.yaml"] = second
    years = site_of(written(root, files))
    return sorted(
        f"{one.key} {year.name} {later.key} {other.name}"
        for year in years.all
        for one in year.plantings
        for other, later in later_plantings(year)
        if goes_on(year, one, other, later)
    )
