"""What a plan page says of the year and of the plan's own faults."""

from __future__ import annotations

from pathlib import Path

import pytest

from tallybed.checks.registry import CHECKS, code_of
from tallybed.pages.care.plan_notes import CALM
from tallybed.pages.wording.sentences import chance_words
from tests.pages.gardens import folder, html_of, only, rows, said, site_of, written

GARDEN = """\
name: Two Plank Garden
season: {start: Mar 1, end: Oct 31}
freeze dates:
  last spring: {10%: May 11, 50%: May 1, 90%: Apr 21}
  first fall: {10%: Sep 30, 50%: Oct 10, 90%: Oct 20}
beds:
  - {name: front, length: 4 squares, width: 2 squares}
"""
CROPS = """\
- {new: greenleaf, family: Leafaceae, habit: rosette, start: sown, letters: Gl, spacing: 6 in, days: 40}
- {new: twiner, family: Twineaceae, habit: climbing, start: sown, letters: Tw, spacing: 4 in, days: 60}
"""
PLAN = """\
- {crop: greenleaf, tag: GL1, squares: A1, sow: May 1, until: Jun 20, plants: 9}
- {crop: greenleaf, tag: GL2, squares: B1, sow: Sep 1, until: Oct 20}
- {crop: twiner, tag: TW1, squares: A2, sow: Jun 1, until: Jul 15}
- {crop: greenleaf, tag: GL3, squares: C1, sow: May 5, dropped: May 6, because: slugs}
- {crop: greenleaf, tag: GL4, squares: D1, carried from: 2025, until: May 20}
"""
LOG = "---\ntitle: A look\ndate: 2026-05-20\n---\nNothing yet.\n"


@pytest.fixture
def root(tmp_path: Path) -> Path:
    files = {"garden.yaml": GARDEN, "crops.yaml": CROPS, "2026/plan.yaml": PLAN}
    return written(tmp_path, files | {"2026/log/2026-05-20-a-look.md": LOG})


def test_what_the_year_allows_is_told_planting_by_planting(root: Path) -> None:
    page = html_of(root)["2026/plants/index.html"]
    assert [one["href"] for one in page.select("#outlook a")] == [
        "GL1/index.html",
        "TW1/index.html",
        "GL2/index.html",
    ]
    assert rows(page, "outlook", heads=True) == [
        [
            *("Planting", "Goes in", "Latest day", "Freeze after it goes in"),
            *("First harvest", "Freeze by then"),
        ],
        # 1 May is the 50 % day; 40 days on it is 10 June. Latest: 10 Oct less 40 and 14 days is 17 Aug.
        ["greenleaf (GL1)", "1 May", "17 Aug", "50%", "10 Jun", ""],
        # 1 June is 31 days past the middle, 4 standard deviations (10 days are 1.28 of them)
        ["twiner (TW1)", "1 Jun", "28 Jul", "under 1%", "31 Jul", "under 1%"],
        # sown after midsummer: two weeks more; 25 Oct is 15 days past the middle, 1.92 of them: 97 %
        ["greenleaf (GL2)", "1 Sep", "17 Aug", "", "25 Oct", "97%"],
    ]


def test_the_methods_and_their_sources_are_named_below(root: Path) -> None:
    page = html_of(root)["2026/plants/index.html"]
    notes = " ".join(said(note) for note in page.select("section p.note"))
    for source in ("Virginia Cooperative Extension, 426-334", "(NOAA)", "1958; from memory"):
        assert source in notes
    assert "last spring freeze about 1 May 2026 and first fall freeze about 10 October 2026" in notes


def test_both_growing_times_of_a_calendar_year_in_the_south_are_named(root: Path) -> None:
    spring, fall = "{10%: Nov 2, 50%: Oct 12, 90%: Sep 20}", "{10%: Apr 12, 50%: May 3, 90%: May 25}"
    south = f"latitude: -42\nfreeze dates:\n  last spring: {spring}\n  first fall: {fall}\n"
    garden = f"name: South\n{south}{GARDEN[GARDEN.index('beds:') :]}"
    plan = "- {crop: kale, squares: A1, set out: Feb 1}\n- {crop: kale, squares: B1, set out: Nov 5}\n"
    files = {"garden.yaml": garden, "2026/plan.yaml": plan}
    notes = said(only(html_of(written(root, files))["2026/plants/index.html"], "main"))
    assert (
        "last spring freezes about 12 October 2025 and 12 October 2026 and first fall freezes about "
        "3 May 2026 and 3 May 2027"
    ) in notes


def test_what_goes_in_late_in_winter_has_the_days_of_that_winter(tmp_path: Path) -> None:
    dates = "freeze dates: {last spring: Sep 5, first fall: May 28}\nlatitude: -34\n"
    season = "name: South\nseason: {start: Jul 1, end: Jun 30}\n"
    garden = f"{season}{dates}{GARDEN[GARDEN.index('beds:') :]}"
    plan = "- {crop: bean-broad, tag: BB1, squares: A1, sow: Jul 5, until: Nov 20}\n"
    page = html_of(written(tmp_path, {"garden.yaml": garden, "2026/plan.yaml": plan}))[
        "2026/plants/index.html"
    ]
    heads, (_name, _goes_in, first, latest, *_rest) = rows(page, "outlook", heads=True)
    assert heads[2:4] == ["First day", "Latest day"]
    # of the winter that began about 28 May 2026, not of the one after: days of the next year tell their year
    assert not {"2027", "2025"} & {*first.split(), *latest.split()}


def test_averages_alone_give_no_chances_and_say_so(root: Path) -> None:
    plain = "freeze dates: {last spring: May 1, first fall: Oct 10}\n"
    garden = GARDEN[: GARDEN.index("freeze dates")] + plain + GARDEN[GARDEN.index("beds:") :]
    page = html_of(written(root, {"garden.yaml": garden}))["2026/plants/index.html"]
    assert rows(page, "outlook", heads=True)[0] == ["Planting", "Goes in", "Latest day", "First harvest"]
    assert "no chance follows from an average" in said(only(page, "main"))


def test_without_freeze_dates_harvests_alone_are_told(root: Path) -> None:
    garden = GARDEN[: GARDEN.index("freeze dates")] + GARDEN[GARDEN.index("beds:") :]
    page = html_of(written(root, {"garden.yaml": garden}))["2026/plants/index.html"]
    assert rows(page, "outlook", heads=True)[0] == ["Planting", "Goes in", "First harvest"]
    assert "freeze" not in said(only(page, "section:has(#outlook)"))


def test_what_the_plan_was_told_in_calm_words(root: Path) -> None:
    page = html_of(root)["2026/plants/index.html"]
    told = [said(item) for item in page.select(".told li")]
    assert (
        "Look again TW1 (twiner) is to be cleared on 15 July, 44 days after it goes in. "
        "It needs: 60 days to a first harvest, about 31 July. "
        "Give it longer, start it sooner, or expect less."
    ) in told
    assert (
        "A thought 9 plants of GL1 (greenleaf) in A1. Usual: 6 in apart, 4 at most. "
        "Plant fewer, or thin them early."
    ) in told
    assert any(item.startswith("A thought TW1 (twiner) climbs, and A2 has no trellis.") for item in told)
    weights = [item.split(" ")[0] for item in told]
    assert weights == sorted(weights, key=["Look", "A"].index), "the weightier come first"
    assert not any("silence" in item or "plan.yaml" in item for item in told), "that is for the gardener"


def test_squares_are_named_as_on_every_page_and_the_same_advice_stands_once(root: Path) -> None:
    beds = GARDEN + "  - {name: back, title: The back bed, length: 1 squares, width: 1 squares}\n"
    plan = PLAN.replace("squares: ", "squares: front/")
    page = html_of(written(root, {"garden.yaml": beds, "2026/plan.yaml": plan}))["2026/plants/index.html"]
    told = [said(item) for item in page.select(".told li")]
    idle = [item for item in told if "Nothing is planned" in item]
    assert any(" in A1 of the back bed from " in item for item in idle)
    assert not any("/" in item for item in told), "long/A1 is how the gardener writes it"
    assert len(idle) > 2
    assert [item.endswith("or the ground rests.") for item in idle] == [False] * (len(idle) - 1) + [True]
    assert told.index(idle[-1]) - told.index(idle[0]) == len(idle) - 1, "they stand together"


def test_nothing_is_told_once_the_season_is_over(root: Path) -> None:
    closed = GARDEN + "seasons:\n  2026: {closed: yes}\n"
    page = html_of(written(root, {"garden.yaml": closed}))["2026/plants/index.html"]
    assert not page.select(".told")
    assert page.select("table#outlook")


def test_what_concerns_log_and_ledger_stays_with_the_gardener(tmp_path: Path) -> None:
    root = folder(tmp_path)
    written(root, {"2026/harvest.yaml": "- {date: 2026-04-01, tag: SP1, weight: 7 oz}\n"})
    page = html_of(root)["2026/plants/index.html"]
    codes = {finding.code for year in site_of(root).all for finding in year.findings}
    assert "weighed-before-planting" in codes, "the test itself makes no such finding"
    assert not any("picked" in said(item) for item in page.select(".told li"))


def test_the_findings_told_are_findings_of_the_checks() -> None:
    codes = {code_of(check) for check in CHECKS}
    assert set(CALM) - codes == set(), "found by no check"


@pytest.mark.parametrize(
    ("chance", "words"),
    [(0.0, "under 1%"), (0.009, "under 1%"), (0.01, "1%"), (0.5, "50%"), (0.99, "99%"), (0.991, "over 99%")],
)
def test_chances_in_words(chance: float, words: str) -> None:
    assert chance_words(chance) == words
