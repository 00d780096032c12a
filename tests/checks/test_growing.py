"""What a good grower says of days, plants and weights, in gardens of three climates, case by case.

The gardens are those of ``test_growers_eye``; the rows here are others than the planted ones, so that a
check that knew its hundred cases by heart would fail.
"""

from __future__ import annotations

import re
from datetime import date, timedelta
from pathlib import Path

import pytest

from tallybed.checks.registry import every_finding
from tallybed.garden.days import MONTHS
from tallybed.garden.findings import Severity, worded
from tallybed.reading.folder.garden_folder import read
from tallybed.reckoning.year import Years
from tests.small_garden import read_garden, written

DATA = Path(__file__).parents[1] / "data" / "grower"
BED = {"cold": "well", "mild": "upper", "southern": "shed"}
SEASON = {"cold": "2026", "mild": "2026", "southern": "2029"}
TODAY = {"cold": date(2026, 10, 31), "mild": date(2026, 12, 31), "southern": date(2030, 6, 30)}
ASIDE = {"idle", "never-planted", "too-little-sun", "shades-neighbours", "no-run-out", "no-support"}


def codes(
    folder: Path, climate: str, plan: str, log: str = "", ledger: str = "", season: str = ""
) -> set[str]:
    """Return the codes told of a small plan in one of the three gardens; ``season``: other bounds of it."""
    papers, bed = SEASON[climate], BED[climate]
    (folder / "content" / papers / "log").mkdir(parents=True)
    garden = (DATA / climate / "content" / "garden.yaml").read_text(encoding="utf-8")
    bounds = re.compile("^season: .*$", re.MULTILINE)
    garden = bounds.sub(f"season: {season}", garden) if season else garden
    files = {"garden.yaml": garden}
    for name, told in (("plan", plan), ("harvest", ledger)):
        if told or name == "plan":
            rows = told.replace("@", f"{bed}/").strip().splitlines()
            files[f"{papers}/{name}.yaml"] = "".join(f"- {{{row}}}\n" for row in rows)
    if log:
        day, done = log.replace("@", f"{bed}/").split(" ", 1)
        text = f"---\ntitle: A round\ndate: {day}\ndone:\n  - {{{done}}}\n---\nText.\n"
        files[f"{papers}/log/{day}-round.md"] = text
    got = read(written(folder, files))
    assert got.garden is not None
    assert not [worded(one) for one in got.findings if one.severity is Severity.ERROR]
    year = Years(garden=got.garden, today=TODAY[climate]).all[-1]
    return {one.code for one in every_finding(year)} - ASIDE


# Climates, rows, and the code; sources beside the groups.
PLANS = [
    # Bulb onions after the days are long enough: Iowa State University (types), Puget Sound (sets by May).
    ("mild", "crop: onion-bulb, squares: '@A1:B1', set out: 2026-06-10, until: 2026-10-01", "bulbs-too-late"),
    ("mild", "crop: onion-bulb, squares: '@A1:B1', set out: 2026-04-20, until: 2026-08-20", ""),
    # Seed goes in two weeks before the last sets (Iowa State University PM 534), in March (Puget Sound).
    ("mild", "crop: onion-bulb, squares: '@A1:B1', sow: 2026-05-16, until: 2026-10-01", "bulbs-too-late"),
    ("mild", "crop: onion-bulb, squares: '@A1:B1', set out: 2026-05-16, until: 2026-10-01", ""),
    ("mild", "crop: onion-bulb, squares: '@A1:B1', sow: 2026-03-20, until: 2026-08-20", ""),
    # Of shallots all known days are from sets.
    ("mild", "crop: shallot, squares: '@A1:B1', sow: 2026-03-20, until: 2026-05-20", "sown-in-bed"),
    ("mild", "crop: shallot, squares: '@A1:B1', set out: 2026-03-20, until: 2026-08-01", ""),
    (
        "southern",
        "crop: onion-bulb, squares: '@A1:B1', set out: 2029-12-20, until: 2030-05-01",
        "bulbs-too-late",
    ),
    ("southern", "crop: onion-bulb, squares: '@A1:B1', set out: 2030-05-10", ""),
    # Garlic: Minnesota, Maine, Puget Sound, Victoria (months printed by extension and growers).
    ("cold", "crop: garlic, squares: '@A1:B1', set out: 2026-07-10", "out-of-its-time"),
    ("cold", "crop: garlic, squares: '@A1:B1', sow: 2026-10-20", ""),
    ("mild", "crop: garlic, squares: '@A1:B1', sow: 2026-04-02, until: 2026-08-01", "out-of-its-time"),
    ("mild", "crop: garlic, squares: '@A1:B1', set out: 2026-10-01", ""),
    (
        "southern",
        "crop: garlic, squares: '@A1:B1', set out: 2029-10-05, until: 2030-03-01",
        "out-of-its-time",
    ),
    ("southern", "crop: garlic, squares: '@A1:B1', set out: 2030-06-01", ""),
    # Carried over and cleared too soon, or in its time.
    ("mild", "crop: bean-broad, squares: '@A1:B1', carried from: '2025', until: 2026-03-01", "not-ripe"),
    ("mild", "crop: bean-broad, squares: '@A1:B1', carried from: '2025', until: 2026-06-20", ""),
    ("southern", "crop: shallot, squares: '@A1:B1', carried from: '2028', until: 2029-08-20", "not-ripe"),
    ("southern", "crop: onion-bulb, squares: '@A1:B1', carried from: '2028', until: 2029-12-10", ""),
    ("mild", "crop: spinach, squares: '@A1:B1', carried from: '2025', until: 2026-05-01", ""),
    # Broad beans: second week of November in western Washington, March to May in Tasmania.
    ("mild", "crop: bean-broad, squares: '@A1:B1', sow: 2026-11-10", ""),
    ("southern", "crop: bean-broad, squares: '@A1:B1', sow: 2030-04-20", ""),
    ("cold", "crop: bean-broad, squares: '@A1:B1', sow: 2026-09-28", "too-late"),
    # Heat: Harrington's table; Iowa State University PM 534 sows lettuce and peas again in August.
    ("cold", "crop: pea-snap, squares: '@A1:B1', sow: 2026-06-20, until: 2026-08-25", "sown-into-heat"),
    ("cold", "crop: lettuce-leaf, squares: '@A1:B1', sow: 2026-08-03, until: 2026-10-05", ""),
    (
        "southern",
        "crop: lettuce-head, squares: '@A1:B1', sow: 2030-01-05, until: 2030-04-01",
        "sown-into-heat",
    ),
    ("southern", "crop: lettuce-leaf, squares: '@A1:B1', sow: 2030-03-05, until: 2030-05-10", ""),
    ("mild", "crop: lettuce-leaf, squares: '@A1:B1', sow: 2026-07-20, until: 2026-09-20", ""),
    # Time indoors: N.C. State, Iowa State, Alaska extension.
    (
        "mild",
        "crop: cucumber, squares: '@A1', sow indoors: 2026-03-20, set out: 2026-05-20, until: 2026-09-01",
        "seedlings",
    ),
    (
        "mild",
        "crop: pepper-sweet, squares: '@A1', sow indoors: 2026-04-25, set out: 2026-05-10, until: 2026-10-10",
        "seedlings",
    ),
    (
        "mild",
        "crop: pepper-sweet, squares: '@A1', sow indoors: 2026-03-15, set out: 2026-05-10, until: 2026-10-01",
        "",
    ),
    # Leeks wait: sown in March, set out until the end of July (a page of northern England).
    ("mild", "crop: leek, squares: '@A1', sow indoors: 2026-03-15, set out: 2026-07-10", ""),
    # Weeks that a chart counts from the sprouting (Monterey Bay Master Gardeners): 4 to 6 and ten days.
    ("mild", "crop: kale, squares: '@A1:B2', sow indoors: 2026-03-01, set out: 2026-04-22, plants: 1", ""),
    (
        "mild",
        "crop: kale, squares: '@A1:B2', sow indoors: 2026-03-01, set out: 2026-05-20, plants: 1",
        "seedlings",
    ),
    ("mild", "crop: eggplant, squares: '@A1:B2', sow: 2026-05-20, until: 2026-11-01", "sown-in-bed"),
    ("mild", "crop: kale, squares: '@A1:B2', sow: 2026-05-20, until: 2026-11-01", ""),
    # Leeks and heads by the days that count from their own beginning.
    ("mild", "crop: leek, squares: '@A1', set out: 2026-04-20, until: 2026-07-10", "not-ripe"),
    ("mild", "crop: lettuce-head, squares: '@A1', set out: 2026-04-10, until: 2026-04-28", "not-ripe"),
    ("mild", "crop: lettuce-head, squares: '@A1', set out: 2026-04-10, until: 2026-06-05", ""),
    # Brussels sprouts bear in fall and winter (Iowa State University, Washington State University).
    ("cold", "crop: brussels-sprouts, squares: '@A1:B2', set out: 2026-05-12, until: 2026-07-20", "not-ripe"),
    ("cold", "crop: brussels-sprouts, squares: '@A1:B2', set out: 2026-05-20, until: 2026-10-20", ""),
    # Hardy crops grow all winter where it is mild and the days are long enough (Tasmania's calendar).
    ("southern", "crop: broccoli, squares: '@A1', set out: 2030-04-25", ""),
    ("cold", "crop: broccoli, squares: '@A1', set out: 2026-08-25", "too-late"),
    # Hardy crops that stand over a mild winter (Washington State University); a quick crop in fall.
    ("mild", "crop: cabbage, squares: '@A1:B2', sow: 2026-09-08, plants: 1", ""),
    ("southern", "crop: lettuce-leaf, squares: '@A1', set out: 2030-05-15", ""),
    ("cold", "crop: radish, squares: '@A1', sow: 2026-08-20, until: 2026-09-25", ""),
    # Printed weeks before the freeze are of a sowing: what was sown indoors has those days behind it.
    (
        "cold",
        "crop: rutabaga, squares: '@A1', sow indoors: 2026-05-20, set out: 2026-06-28, until: 2026-10-10",
        "",
    ),
    # Bought as plants, whose age nobody told: its weeks from the freeze are printed for seed.
    ("cold", "crop: rutabaga, squares: '@A1', set out: 2026-06-28, until: 2026-10-10", ""),
    ("cold", "crop: rutabaga, squares: '@A1', set out: 2026-08-05, until: 2026-10-10", "too-late"),
    ("cold", "crop: rutabaga, squares: '@A1', sow: 2026-06-28, until: 2026-10-10", "too-late"),
    (
        "cold",
        "crop: rutabaga, squares: '@A1', sow indoors: 2026-07-01, set out: 2026-07-30, until: 2026-10-08",
        "too-late",
    ),
    # What stays for years bears in the next, unless it is to be cleared (common practice, no source).
    ("cold", "crop: mint, squares: '@A1', set out: 2026-08-21", ""),
    ("cold", "crop: strawberry, squares: '@A1', set out: 2026-08-21", ""),
    # Broad beans go in until August where winters are mild (South Island of New Zealand), not where cold.
    ("southern", "crop: bean-broad, squares: '@A1', sow: 2029-07-20, until: 2029-12-20", ""),
    ("cold", "crop: bean-broad, squares: '@A1:B1', sow: 2026-04-01, until: 2026-08-20", "too-early"),
    # Spinach in the longest days: sown by the end of May in Alaska, in April in southern Wisconsin.
    # What flowers in the heat (common practice, no source).
    ("cold", "crop: cilantro, squares: '@A1', sow: 2026-07-01, until: 2026-09-01", "sown-into-heat"),
    ("cold", "crop: arugula, squares: '@A1', sow: 2026-08-01, until: 2026-09-20", ""),
    ("cold", "crop: spinach, squares: '@A1', sow: 2026-06-04, until: 2026-07-25", "sown-into-heat"),
    ("cold", "crop: spinach, squares: '@A1', sow: 2026-05-01, until: 2026-06-20", ""),
    # Printed days are told to five: potatoes 105, and a day less is no mistake.
    ("cold", "crop: potato, squares: '@A1', set out: 2026-05-15, until: 2026-08-25", ""),
    ("cold", "crop: potato, squares: '@A1', set out: 2026-05-15, until: 2026-08-10", "not-ripe"),
    # Kansas State University: cabbage 12 inches apart in rich soil, a square each.
    ("cold", "crop: cabbage, squares: '@A1:B2', set out: 2026-05-05, until: 2026-08-20, plants: 4", ""),
    (
        "cold",
        "crop: cabbage, squares: '@A1:B2', set out: 2026-05-05, until: 2026-08-20, plants: 6",
        "too-dense",
    ),
    # Tender crops: one year in ten.
    ("southern", "crop: bean-bush, squares: '@A1', sow: 2029-09-20, until: 2029-12-20", "too-early"),
    ("southern", "crop: bean-bush, squares: '@A1', sow: 2029-09-28, until: 2029-12-20", ""),
    # Company: what grows at the ground fills it; below a tall crop there is room.
    (
        "mild",
        "crop: beet, tag: BT1, squares: '@A1', sow: 2026-04-10, until: 2026-07-20, plants: 9\n"
        "crop: carrot, squares: '@A1', sow: 2026-04-10, until: 2026-08-20, plants: 16, among: BT1",
        "crowded",
    ),
    (
        "mild",
        "crop: beet, tag: BT1, squares: '@A1', sow: 2026-04-10, until: 2026-07-20, plants: 9, share: 1/2\n"
        "crop: carrot, squares: '@A1', sow: 2026-04-10, until: 2026-08-20, plants: 16, among: BT1",
        "",
    ),
    (
        "mild",
        "crop: tomato-indeterminate, tag: TO1, squares: '@A1:B1', "
        "set out: 2026-05-10, until: 2026-10-01, plants: 1\n"
        "crop: basil, squares: '@A1:B1', set out: 2026-05-20, until: 2026-09-20, plants: 2, among: TO1",
        "",
    ),
]


@pytest.mark.parametrize(("climate", "plan", "code"), PLANS)
def test_a_plan_is_told_of_its_fault_alone(climate: str, plan: str, code: str, tmp_path: Path) -> None:
    assert codes(tmp_path, climate, plan) == ({code} if code else set())


RHUBARB = """\
- {new: rhubarb, family: Polygonaceae, habit: rosette, start: set out, letters: Rh, spacing: 3 ft, days: DAYS}
"""


@pytest.mark.parametrize(("days", "told"), [("365", set()), ("200", {"too-late"})])
def test_a_crop_that_bears_a_year_later_is_not_counted_back(
    days: str, told: set[str], tmp_path: Path
) -> None:
    (tmp_path / "content").mkdir()
    (tmp_path / "content" / "crops.yaml").write_text(RHUBARB.replace("DAYS", days), encoding="utf-8")
    assert codes(tmp_path, "cold", "crop: rhubarb, squares: '@A1:B2', set out: 2026-05-12") == told


@pytest.mark.parametrize(
    ("climate", "hardiness", "row", "told"),
    [
        ("cold", "tender", "set out: 2026-05-03", {"too-early"}),
        ("cold", "hardy", "set out: 2026-05-03", set()),
        ("mild", "tender", "set out: 2026-10-01", {"too-late"}),
        ("mild", "hardy", "set out: 2026-10-01", set()),
    ],
)
def test_how_hardy_a_crop_of_ones_own_is_may_be_told(
    climate: str, hardiness: str, row: str, told: set[str], tmp_path: Path
) -> None:
    """Without it nobody was told of a tender crop of their own that goes out into the frost."""
    (tmp_path / "content").mkdir()
    own = RHUBARB.replace("rhubarb", "skirret").replace("Rh,", f"Sk, hardiness: {hardiness},")
    own = own.replace("DAYS", "60").replace("3 ft", "6 in")
    (tmp_path / "content" / "crops.yaml").write_text(own, encoding="utf-8")
    assert codes(tmp_path, climate, f"crop: skirret, squares: '@A1:B2', {row}") == told


LOGS = [
    # The plan has a safe day, the log another.
    (
        "crop: basil, tag: BA1, squares: '@A1', set out: 2026-05-10, until: 2026-09-20",
        "2026-03-20 set out: basil, tag: BA1, squares: '@A1'",
        "too-early",
    ),
    (
        "crop: basil, tag: BA1, squares: '@A1', set out: 2026-05-10, until: 2026-09-20",
        "2026-05-06 set out: basil, tag: BA1, squares: '@A1'",
        "",
    ),
    (
        "crop: spinach, tag: SP1, squares: '@A1', sow: 2026-04-05, until: 2026-07-30",
        "2026-06-20 resow: spinach, tag: SP1, squares: '@A1'",
        "sown-into-heat",
    ),
    (
        "crop: tomato-indeterminate, tag: TO1, squares: '@A1:B1', set out: 2026-05-10, until: 2026-10-15",
        "2026-05-10 sow: tomato-indeterminate, tag: TO1, squares: '@A1:B1'",
        "sown-in-bed",
    ),
]


@pytest.mark.parametrize(("plan", "log", "code"), LOGS)
def test_the_log_is_held_to_the_year_as_the_plan_is(plan: str, log: str, code: str, tmp_path: Path) -> None:
    told = codes(tmp_path, "mild", plan, log) - {"late"}
    assert told == ({code} if code else set())


@pytest.mark.parametrize(
    ("start", "planned", "right", "logged", "code"),
    [
        ("sow: {}, crop: spinach", "Jun 20", "Apr 5", "2026-07-05", "sown-into-heat"),
        ("set out: {}, crop: garlic", "Apr 10", "Oct 12", "2026-05-04", "out-of-its-time"),
        ("sow: {}, crop: onion-bulb", "Jun 5", "Apr 5", "2026-06-30", "bulbs-too-late"),
    ],
)
def test_a_fault_of_the_plan_is_not_told_again_at_the_log(
    start: str, planned: str, right: str, logged: str, code: str, tmp_path: Path
) -> None:
    """Two weeks later and more it is the same fault; where the plan has none it is told at the log."""
    verb, crop = start.split(": ")[0], start.rpartition(" ")[2]
    line = f"{{{verb}: {crop}, tag: XX1, squares: A1}}"
    log = f"---\ntitle: In\ndate: {logged}\ndone:\n  - {line}\n---\nIn.\n"
    beds = "beds: [{name: b, length: 1 square, width: 1 square}]\n"
    place = "name: Hot\nlatitude: 42\nfreeze dates: {last spring: Apr 25, first fall: Oct 10}\n"
    for day, file in ((planned, "plan.yaml"), (right, f"log/{logged}-in.md")):
        row = f"- {{{start.format(day)}, tag: XX1, squares: A1}}\n"
        papers = {"garden.yaml": place + beds, "2026/plan.yaml": row, f"2026/log/{logged}-in.md": log}
        garden = read_garden(written(tmp_path, papers))
        said = every_finding(Years(garden=garden, today=date(2026, 8, 1)).all[-1], {code})
        assert [one.place.file for one in said] == [f"content/2026/{file}"]


GROWN = "sow: 2026-04-10, until: 2026-10-10"
WEIGHTS = [
    # FoodData Central (SR): carrot 61 g, beet of 2 in 82 g; the rest is common practice, no source.
    (
        f"crop: carrot, tag: CA1, squares: '@A1', {GROWN}, plants: 16",
        "tag: CA1, weight: 40 lb",
        "implausible-weight",
    ),
    (f"crop: carrot, tag: CA1, squares: '@A1', {GROWN}, plants: 16", "tag: CA1, weight: 3 lb", ""),
    (
        f"crop: kale, tag: KA1, squares: '@A1', {GROWN}, plants: 1",
        "tag: KA1, weight: 25 lb",
        "implausible-weight",
    ),
    (f"crop: kale, tag: KA1, squares: '@A1', {GROWN}, plants: 1", "tag: KA1, weight: 3 lb", ""),
    (f"crop: chard, tag: CH1, squares: '@A1', {GROWN}", "tag: CH1, weight: 60 kg", "implausible-weight"),
    (f"crop: chard, tag: CH1, squares: '@A1', {GROWN}", "tag: CH1, weight: 2 kg", ""),
    (
        f"crop: kohlrabi, squares: '@A1', {GROWN}, plants: 1",
        "crop: kohlrabi, weight: 40 lb",
        "implausible-weight",
    ),
    (
        f"crop: beet, tag: BT1, squares: '@A1', {GROWN}, plants: 9",
        "tag: BT1, count: 9, weight: 1 oz",
        "piece-weight",
    ),
    (f"crop: beet, tag: BT1, squares: '@A1', {GROWN}, plants: 9", "tag: BT1, count: 9, weight: 12 oz", ""),
    (
        f"crop: beet, tag: BT1, squares: '@A1', {GROWN}, plants: 9",
        "tag: BT1, as: greens, count: 30, weight: 4 oz",
        "",
    ),
    (
        "crop: leek, tag: LK1, squares: '@A1', set out: 2026-04-10, until: 2026-10-10, plants: 8",
        "tag: LK1, count: 4, weight: 30 lb",
        "piece-weight",
    ),
]


@pytest.mark.parametrize(("plan", "weighed", "code"), WEIGHTS)
def test_weights_are_held_to_what_plants_and_pieces_give(
    plan: str, weighed: str, code: str, tmp_path: Path
) -> None:
    told = codes(tmp_path, "mild", plan, ledger=f"date: 2026-10-01, {weighed}")
    assert code in told if code else not told & {"implausible-weight", "piece-weight"}
    if code != "piece-weight":
        assert told <= {code, "piece-weight", "more-than-planted", "planting-not-told"}


# The same gardens with seasons of other bounds: a season may hold parts of two growing times.
BOUNDS = [
    ("southern", "{start: Jan 1, end: Dec 31}", "crop: bean-bush, squares: '@A1', sow: 2029-11-20", ""),
    (
        "southern",
        "{start: Jan 1, end: Dec 31}",
        "crop: bean-bush, squares: '@A1', sow: 2029-04-10",
        "too-late",
    ),
    ("cold", "{start: Oct 1, end: Sep 30}", "crop: radish, squares: '@A1', sow: 2027-06-10", ""),
    ("cold", "{start: Oct 1, end: Sep 30}", "crop: bean-bush, squares: '@A1', sow: 2027-08-25", "too-late"),
    ("cold", "{start: Oct 1, end: Sep 30}", "crop: bean-bush, squares: '@A1', sow: 2027-04-10", "too-early"),
]


@pytest.mark.parametrize(("climate", "season", "row", "code"), BOUNDS)
def test_a_planting_is_held_against_the_freezes_of_its_own_growing_time(
    climate: str, season: str, row: str, code: str, tmp_path: Path
) -> None:
    told = codes(tmp_path, climate, row, season=season) & {"too-late", "too-early"}
    assert told == ({code} if code else set())


def test_where_no_day_leaves_a_crop_its_time_that_is_said(tmp_path: Path) -> None:
    """73 days without a freeze, as by the polar circle, and onions of 110: no day is "or earlier"."""
    place = "latitude: 66\nlongitude: 23\nfreeze dates: {last spring: Jun 12, first fall: Aug 24}\n"
    row = "- {crop: onion-bulb, squares: A1:B2, set out: Jun 3, until: Sep 10}\n"
    (told,) = [one for one in found(tmp_path, place, row) if "[too-late]" in one]
    assert "no day, as it can go in from 8 May on, and would have to by 22 April, counted back" in told
    assert "(take a quicker variety, or plan a cover and silence this)" in told


def test_what_no_day_suits_is_told_once(tmp_path: Path) -> None:
    """Potatoes between freezes of 24 June and 10 August were told the same twice, too early and too late."""
    row = "- {crop: potato, squares: A1:A2, set out: May 20, until: Sep 15}\n"
    place = "latitude: 60\nfreeze dates: {last spring: Jun 24, first fall: Aug 10}\n"
    (told,) = [one for one in found(tmp_path, place, row) if "no day, as it can go in" in one]
    assert "[too-early]" in told


SHORT_SUMMER = """\
latitude: 46.5
freeze dates:
  last spring: {10%: May 28, 50%: May 12, 90%: Apr 26}
  first fall: {10%: Sep 10, 50%: Sep 25, 90%: Oct 10}
"""


@pytest.mark.parametrize(
    ("crop", "by"),
    [
        # 100 days from 2 June are over on 10 September, by which one year in ten has had its freeze.
        ("squash-winter", "expected 2 June or earlier, counted"),
        ("pumpkin", "expected no day, as it can go in from 28 May on, and would have to by 23 May,"),
    ],
)
def test_the_day_told_to_one_that_goes_in_too_late_is_a_good_one(crop: str, by: str, tmp_path: Path) -> None:
    """It is counted by the chances of a freeze that plans are held to, in spring and in fall."""
    row = f"- {{crop: {crop}, squares: A1:D2, sow: Jun 13, plants: 1}}\n"
    (told,) = [one for one in found(tmp_path / "late", SHORT_SUMMER, row) if "[too-late]" in one]
    assert by in told
    assert ("plant it sooner" in told) == ("no day" not in by)
    if "no day" not in by:
        there = found(tmp_path / "there", SHORT_SUMMER, row.replace("Jun 13", "Jun 2"))
        after = found(tmp_path / "after", SHORT_SUMMER, row.replace("Jun 13", "Jun 3"))
        assert not [one for one in there if "[too-late]" in one or "[too-early]" in one]
        assert [one for one in after if "[too-late]" in one]


@pytest.mark.parametrize(
    ("season", "rows", "told"),
    [
        # Between the average freezes: from 5 September to 4 June.
        (
            "{start: Jan 1, end: Dec 31}",
            "crop: chard, squares: A1:D2, sow: Feb 1, until: Apr 1",
            ["1 January to 31 January, 31 days", "1 April to 4 June, 65 days", "5 September to 31"],
        ),
        (
            "{start: Jan 1, end: Dec 31}",
            "crop: chard, squares: A1:D2, sow: Jan 10, until: Dec 10",
            [],
        ),
        (
            "{start: May 1, end: Apr 30}",
            "crop: chard, squares: A1:D2, sow: 2026-09-15, until: 2027-04-20",
            ["1 May to 4 June, 35 days"],
        ),
        ("{start: Jul 1, end: Jun 30}", "crop: chard, squares: A1:D2, sow: 2026-09-15", []),
    ],
)
def test_squares_are_idle_in_each_summer_that_a_season_holds_a_part_of(
    season: str, rows: str, told: list[str], tmp_path: Path
) -> None:
    garden = f"latitude: -37.8\nlongitude: 145\nseason: {season}\nfreeze dates:\n{SOUTH}"
    said = [one for one in found(tmp_path, garden, f"- {{{rows}}}\n") if "[idle]" in one]
    assert [one for one in told if not any(one in each for each in said)] == [], said
    assert len(said) == len(told), said


def test_what_would_fit_at_the_end_of_a_summer_is_told_by_its_own_freeze(tmp_path: Path) -> None:
    """In October, with the spring behind it, beans fit; by the fall freeze before nothing would."""
    garden = "latitude: -37.8\nlongitude: 145\nseason: {start: Jan 1, end: Dec 31}\n"
    rows = "- {crop: chard, squares: A1:D2, sow: Jan 1, until: Oct 1}\n"
    said = found(tmp_path, f"{garden}freeze dates:\n{SOUTH}", rows)
    (last,) = [one for one in said if "[idle]" in one]
    assert "would fit" in last


@pytest.mark.parametrize(("until", "told"), [("2026-01-20", False), ("2026-10-20", True)])
def test_what_is_cleared_before_a_winter_did_not_stand_over_it(
    until: str, told: bool, tmp_path: Path
) -> None:
    """Broad beans that stand on into January stood over the winter before, not over the one to come."""
    freezes = "  last spring: {50%: Sep 20}\n  first fall: {50%: Mar 20}\n"
    garden = f"latitude: -42\nlongitude: 147\nseason: {{start: Jan 1, end: Dec 31}}\nfreeze dates:\n{freezes}"
    rows = f"- {{crop: bean-broad, squares: A1:D2, carried from: '2025', until: {until}}}\n"
    assert any("[not-ripe]" in one for one in found(tmp_path, garden, rows)) is told


def test_what_fits_later_in_a_gap_is_offered_from_the_first_day_that_no_check_tells_of(
    tmp_path: Path,
) -> None:
    """Spinach does not come up in midsummer's ground (Harrington's table), and does a few weeks later."""
    place = "latitude: 39.6\nidle: 45 days\nfreeze dates: {last spring: Apr 22, first fall: Oct 14}\n"
    before = "- {crop: okra, squares: A1:D2, set out: May 1, until: Jul 20}\n"
    before += "- {crop: spinach, squares: A1, sow: Mar 20, until: Apr 30}\n"
    (told,) = [
        one for one in found(tmp_path / "gap", place, before) if "[idle]" in one and "would fit" in one
    ]
    offered = re.search("spinach from ([0-9]+) (July|August)", told)
    assert offered, told
    first = date(2026, MONTHS.index(offered[2]) + 1, int(offered[1]))
    for number, (day, fits) in enumerate(((first, True), (first - timedelta(days=1), False))):
        own = f"- {{crop: spinach, squares: A1, sow: {day}, until: Oct 14}}\n"
        said = found(tmp_path / f"{number}", place, before + own)
        assert any("[sown-into-heat]" in one for one in said) is not fits, said


SOUTH = """\
  last spring: {10%: Sep 28, 50%: Sep 5, 90%: Aug 12}
  first fall: {10%: May 12, 50%: Jun 4, 90%: Jun 28}
"""
"""Freezes of an invented garden south of the equator."""


@pytest.mark.parametrize(
    ("place", "offered", "never"),
    [
        # Between the tropics nothing freezes unless somebody says so; spinach comes up in cool ground alone
        # (Harrington's table), and garlic wants a winter.
        ("latitude: -5\n", "okra", ("garlic", "spinach")),
        # Elsewhere nobody knows of a tender crop where no freeze is told.
        ("latitude: 45\nseason: {start: Mar 1, end: Nov 1}\n", "spinach", ("garlic", "okra")),
        # 5 September, in spring: garlic would stand no winter.
        (
            f"latitude: -34\nseason: {{start: Jul 1, end: Jun 30}}\nfreeze dates:\n{SOUTH}",
            "cilantro",
            ("garlic",),
        ),
    ],
)
def test_what_would_fit_is_nothing_that_the_climate_forbids(
    place: str, offered: str, never: tuple[str, ...], tmp_path: Path
) -> None:
    own = "- {crop: okra, squares: D1, set out: Jul 1, until: Jul 20}\n"
    own += "- {crop: garlic, squares: D2, sow: Jul 1, until: Jul 20}\n"
    own += "- {crop: spinach, squares: C1, sow: Jul 1, until: Jul 20}\n"
    said = [one for one in found(tmp_path, place, own) if "[idle]" in one and "would fit" in one]
    fit = [one.split("; ")[1].split(" would fit")[0] for one in said]
    assert any(offered in one for one in fit), said
    assert not [name for name in never if any(name in one for one in fit)], said


@pytest.mark.parametrize(
    ("crop", "squares", "rest", "trellis", "told"),
    [
        # Summer squash stands 21 in apart: a square of a foot is under two thirds of that, two are not.
        ("squash-summer", "A1", "A2, B1:D2", "", False),
        ("squash-summer", "A1:B2", "C1:D2", "", True),
        # Cucumbers climb.
        ("cucumber", "A1", "A2, B1:D2", "", False),
        ("cucumber", "A1", "A2, B1:D2", ", trellis: [{side: 1, height: 6 ft}]", True),
    ],
)
def test_what_would_fit_has_its_ground(
    crop: str, squares: str, rest: str, trellis: str, told: bool, tmp_path: Path
) -> None:
    garden = (
        "latitude: 40\nseason: {start: Mar 1, end: Nov 30}\n"
        "freeze dates: {last spring: Apr 20, first fall: Oct 20}\n"
    )
    rows = f"- {{crop: {crop}, squares: '{squares}', set out: May 20, until: Jun 10}}\n"
    rows += f"- {{crop: chard, squares: '{rest}', sow: Apr 10}}\n"
    said = [
        one for one in found(tmp_path, garden, rows, trellis) if "[idle]" in one and "from 10 June" in one
    ]
    name = {"squash-summer": "summer squash"}.get(crop, crop)
    assert said
    assert all("silence this where the square rests on purpose" in one for one in said)
    assert any(name in one.partition("; ")[2] for one in said) is told, said


@pytest.mark.parametrize(("latitude", "told"), [(-5, False), (10, False), (30, True), (45, True)])
def test_bulbs_have_no_last_day_where_all_days_are_alike(latitude: int, told: bool, tmp_path: Path) -> None:
    """At 10 degrees the longest day is 70 minutes longer than the shortest, at 30 nearly four hours."""
    row = f"- {{crop: onion-bulb, squares: A1:B2, set out: {'Nov 10' if latitude < 0 else 'Jul 10'}}}\n"
    said = [one for one in found(tmp_path, f"latitude: {latitude}\n", row) if "[bulbs-too-late]" in one]
    assert bool(said) is told, said


GULF = """\
  last spring: {10%: Mar 12, 50%: Feb 18, 90%: Jan 28}
  first fall: {10%: Nov 17, 50%: Dec 7, 90%: Dec 28}
"""
"""Freezes of an invented garden near the Gulf of Mexico: 292 days between them."""


def gulf(folder: Path, rows: str) -> list[str]:
    """Return what is told of a plan for 2026 on the Gulf coast, worded."""
    return found(folder, f"latitude: 29.7\nlongitude: -95\nfreeze dates:\n{GULF}", rows)


def found(folder: Path, garden: str, rows: str, bed: str = "") -> list[str]:
    """Return what is told of a plan for 2026 in a garden of one bed, with those lines of ``garden.yaml``.

    ``bed``: further keys of the bed.
    """
    small = f"name: Small\n{garden}beds:\n  - {{name: main, length: 4 squares, width: 2 squares{bed}}}\n"
    got = read(written(folder, {"garden.yaml": small, "2026/plan.yaml": rows}))
    assert got.garden is not None
    assert not [worded(one) for one in got.findings if one.severity is Severity.ERROR]
    return [worded(one) for one in every_finding(Years(garden=got.garden, today=date(2026, 1, 1)).all[-1])]


@pytest.mark.parametrize(
    ("row", "told"),
    [
        # Cool crops of north Florida and the Gulf go in all winter (extension there, from memory).
        ("crop: carrot, squares: A1, sow: Jan 5, until: May 1", False),
        ("crop: lettuce-leaf, squares: A1, sow: Jan 5, until: Apr 1", False),
        ("crop: onion-bulb, squares: A1, set out: Jan 5, until: May 20", False),
        # Tubers rot in cold ground, and a freeze kills beans.
        ("crop: potato, squares: A1, set out: Jan 2, until: May 1", True),
        ("crop: bean-bush, squares: A1, sow: Feb 20, until: May 20", True),
    ],
)
def test_where_there_is_hardly_any_winter(row: str, told: bool, tmp_path: Path) -> None:
    said = [one for one in gulf(tmp_path, f"- {{{row}}}\n") if "[too-early]" in one]
    assert bool(said) is told, said


@pytest.mark.parametrize(
    ("row", "told"),
    [
        ("crop: carrot, squares: A1, sow: Oct 20", set()),
        # Iowa State University: 14 hours for a long-day type, 12 to 14 for an intermediate one. The longest
        # day there has 13.9, so the intermediate types are the last to bulb, from about 21 March.
        ("crop: onion-bulb, squares: A1, set out: May 10, until: Oct 1", {"bulbs-too-late"}),
        ("crop: onion-bulb, squares: A1, set out: Feb 10, until: Jun 10", set()),
        # Lettuce until March and from September on (extension of north Florida, from memory).
        ("crop: lettuce-leaf, squares: A1, sow: May 20, until: Aug 1", {"sown-into-heat"}),
        ("crop: lettuce-leaf, squares: A1, sow: Sep 20, until: Dec 1", set()),
    ],
)
def test_what_ends_a_planting_where_there_is_hardly_any_winter(
    row: str, told: set[str], tmp_path: Path
) -> None:
    said = " ".join(one for one in gulf(tmp_path, f"- {{{row}}}\n") if "[idle]" not in one)
    codes_of = ("too-early", "too-late", "bulbs-too-late", "not-ripe", "sown-into-heat")
    assert {code for code in codes_of if f"[{code}]" in said} == told


def test_what_would_fit_is_told_of_by_no_other_check(tmp_path: Path) -> None:
    """Radish after kohlrabi is of one family with it; cilantro is not."""
    rows = "- {crop: kohlrabi, squares: A1:D2, set out: Jan 20, until: Sep 10}\n"
    (idle, *_) = [one for one in gulf(tmp_path, rows) if "[idle]" in one and "10 September" in one]
    assert "cilantro" in idle
    assert not [name for name in ("radish", "arugula", "mustard", "kale") if name in idle], idle


@pytest.mark.parametrize(
    ("sown", "logged", "told"),
    [("", "2026-05-28", 1), ("", "2026-03-14", 2), ("2026-05-15", "2026-05-25", 2)],
)
def test_plants_too_old_by_plan_and_log_are_told_once(
    sown: str, logged: str, told: int, tmp_path: Path
) -> None:
    """A tomato of 80 days by the plan and of 83 by the log; too young by the log, it is told again.

    So it is where it went out on the day planned, and was sown two months later than that.
    """
    row = "crop: tomato-determinate, tag: TO1, squares: A1, sow indoors: Mar 6, set out: May 25, plants: 1"
    out = "done:\n  - {set out: tomato-determinate, tag: TO1, squares: A1}"
    files = {
        "garden.yaml": "name: Old\nbeds:\n  - {name: main, length: 4 squares, width: 2 squares}\n",
        "2026/plan.yaml": f"- {{{row}}}\n",
        f"2026/log/{logged}-out.md": f"---\ntitle: Out\ndate: {logged}\n{out}\n---\n",
    }
    if sown:
        done = "done:\n  - {sow indoors: tomato-determinate, tag: TO1}"
        files[f"2026/log/{sown}-in.md"] = f"---\ntitle: In\ndate: {sown}\n{done}\n---\n"
    garden = read_garden(written(tmp_path, files))
    found_there = every_finding(Years(garden=garden, today=date(2026, 6, 1)).all[-1], {"seedlings"})
    assert len(found_there) == told


COLD = """\
name: Cold
latitude: 41
season: {start: Mar 1, end: Nov 30}
freeze dates: {last spring: SPRING, first fall: FALL}
beds: [{name: b, length: 4 squares, width: 2 squares}]
"""


def cold(folder: Path, row: str, spring: str, fall: str) -> list[str]:
    """What is told of a row of the plan but for its spacing and idle squares, in a garden of some freezes."""
    place = COLD.replace("SPRING", spring).replace("FALL", fall)
    garden = read_garden(written(folder, {"garden.yaml": place, "2026/plan.yaml": f"- {{{row}}}\n"}))
    year = Years(garden=garden, today=date(2026, 3, 2)).all[-1]
    return [
        worded(one) for one in every_finding(year) if one.code in ("too-early", "too-late", "bulbs-too-late")
    ]


@pytest.mark.parametrize("begins", ["set out: Jun 5", "set out: Jun 20", "sow: Jun 20", "set out: Aug 1"])
def test_an_onion_too_late_for_bulbs_is_not_offered_a_day_that_is_too_late_as_well(
    begins: str, tmp_path: Path
) -> None:
    """Fails where one finding names 6 June, and another says of 5 June that bulbs had begun weeks before."""
    (told,) = cold(tmp_path, f"crop: onion-bulb, squares: A1:B2, {begins}", "Apr 25", "Oct 8")
    assert "[bulbs-too-late]" in told


@pytest.mark.parametrize(
    ("spring", "fall", "expected"),
    [
        ("Jun 10", "Aug 28", "no day, as it can go in from 17 June on, and "),
        ("Apr 25", "Oct 20", "expected 2 May or later"),
    ],
)
def test_what_is_too_early_is_not_told_to_wait_until_it_is_too_late(
    spring: str, fall: str, expected: str, tmp_path: Path
) -> None:
    (told,) = cold(tmp_path, "crop: pumpkin, squares: A1:B2, sow: Apr 1", spring, fall)
    assert "[too-early]" in told
    assert expected in told
    assert ("(wait, or" in told) == ("no day" not in expected)


@pytest.mark.parametrize(
    ("crop", "spring", "fall", "told"),
    [
        # 219 days between the freezes make a mild winter: peas stand it; carrots wait for their weeks.
        ("carrot", "Apr 10", "Nov 15", True),
        ("pea-snap", "Apr 10", "Nov 15", False),
        ("pea-snap", "Apr 25", "Oct 20", True),
    ],
)
def test_after_a_mild_winter_what_stands_one_may_go_in_sooner_and_nothing_else(
    crop: str, spring: str, fall: str, told: bool, tmp_path: Path
) -> None:
    found = cold(tmp_path, f"crop: {crop}, squares: A1:B2, sow: Mar 2", spring, fall)
    assert ["[too-early]" in one for one in found] == [True] * told


@pytest.mark.parametrize(("indoors", "told"), [("Apr 24", 0), ("Apr 25", 1)])
def test_a_plant_is_too_young_under_half_of_the_least_weeks_that_are_printed(
    indoors: str, told: int, tmp_path: Path
) -> None:
    """Peppers take six weeks at the least (four of the library's five sources): three are 21 days."""
    row = f"crop: pepper-sweet, squares: A1, sow indoors: {indoors}, set out: May 15, until: Oct 1"
    place = COLD.replace("SPRING", "Apr 10").replace("FALL", "Nov 15")
    garden = read_garden(written(tmp_path, {"garden.yaml": place, "2026/plan.yaml": f"- {{{row}}}\n"}))
    year = Years(garden=garden, today=date(2026, 3, 2)).all[-1]
    assert len(every_finding(year, {"seedlings"})) == told
