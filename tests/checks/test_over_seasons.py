"""What stands over winter, held against the season it came from."""

from datetime import date
from pathlib import Path

import pytest

from tallybed.checks.registry import every_finding
from tallybed.garden.findings import has_errors, worded
from tallybed.reading.folder.garden_folder import read
from tallybed.reckoning.year import Years
from tests.small_garden import read_garden, written

GARDEN = """\
name: Turns
season: {start: Mar 1, end: Nov 30}
freeze dates: {last spring: Apr 25, first fall: Oct 10}
beds:
  - {name: b, length: 2 squares, width: 1 square}
"""
WENT_IN = "- {crop: garlic, tag: GA1, squares: A1, set out: Oct 5}\n"
CARRIED = "- {crop: garlic, tag: GA1, squares: A1, carried from: YEAR, until: Jul 10}\n"


def told(
    folder: Path,
    plans: dict[int, str],
    code: str = "same-family",
    *,
    garden: str = GARDEN,
    log: dict[str, str] | None = None,
) -> list[str]:
    """Return what the last of some seasons is told under a code; ``log``: lines done, by day."""
    plan = {f"{year}/plan.yaml": text.replace("YEAR", str(year - 1)) for year, text in plans.items()}
    entries = {
        f"{day[:4]}/log/{day}-x.md": f"---\ntitle: X\ndone:\n  {done}\n---\n"
        for day, done in (log or {}).items()
    }
    found = read(written(folder, {"garden.yaml": garden, **plan, **entries}))
    assert found.garden is not None
    assert not has_errors(found.findings)
    year = Years(garden=found.garden, today=date(max(plans), 3, 1)).all[-1]
    return [worded(one) for one in every_finding(year, {code})]


@pytest.mark.parametrize(("again", "too_soon"), [("Oct 5", False), ("Aug 5", False), ("Aug 4", True)])
def test_garlic_comes_back_three_years_after_it_went_in(again: str, too_soon: bool, tmp_path: Path):
    back = f"- {{crop: garlic, tag: GA2, squares: A1, set out: {again}}}\n"
    assert bool(told(tmp_path, {2024: WENT_IN, 2025: CARRIED, 2027: back})) is too_soon


@pytest.mark.parametrize(("squares", "tag"), [("A1", "BP1"), ("A1:B1", "PE1")])
def test_of_two_of_a_family_in_a_season_the_one_there_last_is_told(squares: str, tag: str, tmp_path: Path):
    """Fails where a pea is told to follow last spring's peas, with beans in between; most squares first."""
    before = (
        f"- {{crop: pea-snap, tag: PE1, squares: {squares}, sow: Apr 5, until: Jul 5}}\n"
        "- {crop: bean-pole, tag: BP1, squares: A1, sow: Jul 6, until: Oct 5}\n"
    )
    (found,) = told(
        tmp_path, {2025: before, 2026: f"- {{crop: pea-garden, tag: PE1, squares: {squares}, sow: Apr 5}}\n"}
    )
    assert f" follows {tag} (" in found


def test_what_stood_over_several_winters_counts_from_its_last_spring(tmp_path: Path):
    back = "- {crop: garlic, tag: GA2, squares: A1, set out: Oct 5}\n"
    assert told(tmp_path, {2023: WENT_IN, 2024: CARRIED, 2025: CARRIED, 2027: back})


def test_what_was_carried_from_a_season_that_has_no_folder_counts_from_its_spring(tmp_path: Path):
    back = "- {crop: garlic, tag: GA2, squares: A1, set out: Oct 5}\n"
    assert told(tmp_path, {2025: CARRIED, 2027: back})


@pytest.mark.parametrize(
    ("before", "said"),
    [
        (WENT_IN, ""),
        # Cleared on the last day of its season, as a plan may say that has it stand to the end.
        (WENT_IN.replace("Oct 5", "Oct 5, until: Nov 30"), ""),
        (WENT_IN.replace("squares: A1", "squares: A1:B1"), ""),
        (WENT_IN.replace("A1", "B1"), "do not have it as that season ends; expected squares of b/B1"),
        (WENT_IN.replace("garlic", "leek"), "do not have it as that season ends (correct"),
        # Of that spring, and out of the ground in summer.
        (
            WENT_IN.replace("Oct 5", "Apr 5, until: Jul 20"),
            "GA1 (garlic) is carried from 2024 in b/A1, where plan",
        ),
        # Nobody planned or logged that season.
        ("[]\n", ""),
    ],
)
def test_what_is_carried_over_stood_there_as_its_season_ended(before: str, said: str, tmp_path: Path):
    found = told(tmp_path, {2024: before, 2025: CARRIED}, "not-there-before")
    assert len(found) == bool(said)
    assert said in "".join(found)


CHIVES = "- {crop: chives, tag: CH1, squares: A1, set out: Apr 20}\n"
KALE = "- {crop: kale, tag: KA1, squares: A1, set out: Jul 20}\n"
TOMATO = "- {crop: tomato-determinate, tag: TO1, squares: A1, set out: May 20}\n"
LEEK = "- {crop: leek, tag: LK1, squares: B1, set out: May 20, until: Nov 1}\n"
YEAR_ROUND = GARDEN.replace("start: Mar 1, end: Nov 30", "start: Jan 1, end: Dec 31")
SOUTHERN = YEAR_ROUND.replace(
    "{last spring: Apr 25, first fall: Oct 10}", "{last spring: Sep 25, first fall: May 10}"
)
OWN = "carried from: 2024"


@pytest.mark.parametrize(
    ("before", "after", "log", "said"),
    [
        # The plan of the next season has other squares alone.
        (CHIVES, LEEK, {}, "CH1 (chives) still stands in b/A1 as 2024 ends"),
        (CHIVES.replace("A1", "A1:B1"), CHIVES.replace("set out: Apr 20", OWN), {}, "stands in b/B1 as"),
        # Carried on or planted anew; its first pickings and the new log are told without a planting.
        (CHIVES, CHIVES.replace("set out: Apr 20", OWN), {}, ""),
        (CHIVES, CHIVES, {}, ""),
        (CHIVES, LEEK, {"2025-03-01": "- {prune: chives, squares: A1}"}, "CH1 (chives) still stands in b/A1"),
        (CHIVES, LEEK, {"2025-03-01": "- {clear: chives, squares: A1}"}, ""),
        (CHIVES, LEEK, {"2025-03-01": "- {lost: chives, tag: CH1}"}, ""),
        (CHIVES, LEEK, {"2025-03-01": "- {lost: chives, tag: CH1, plants: 1}"}, "CH1 (chives) still stands"),
        # It goes on where something else is only meant to come, and not where that was begun.
        (CHIVES, LEEK.replace("B1", "A1").replace("May 20", "Mar 2"), {}, "CH1 (chives) still stands"),
        (CHIVES, LEEK.replace("B1", "A1"), {}, "CH1 (chives) still stands"),
        (CHIVES, LEEK.replace("B1", "A1"), {"2025-03-01": "- {set out: leek, tag: LK1}"}, ""),
        # Written gone; the last day of a season does not end what lasts.
        (CHIVES, LEEK, {"2024-10-20": "- {clear: chives, tag: CH1, squares: A1}"}, ""),
        (CHIVES, LEEK, {"2024-11-30": "- {clear: chives, tag: CH1}"}, ""),
        (CHIVES.replace("Apr 20", "Apr 20, until: Oct 20"), LEEK, {}, ""),
        (
            CHIVES.replace("Apr 20", "Apr 20, until: Nov 30"),
            LEEK,
            {},
            "log that with `clear` or `lost` in 2024)",
        ),
        # Garlic for the next summer, and such as was never planted.
        (WENT_IN.replace("Oct 5", "Oct 5, until: Nov 30"), LEEK, {}, "GA1 (garlic) still stands in b/A1"),
        (WENT_IN, LEEK, {"2024-10-05": "- {weed: bed, squares: b}"}, ""),
        # Spinach may be for the fall it was sown in: its plan says so.
        ("- {crop: spinach, squares: A1, sow: Sep 6, until: Nov 30}\n", LEEK, {}, ""),
        ("- {crop: spinach, squares: A1, sow: Sep 6}\n", LEEK, {}, "spinach still stands in b/A1"),
        # Crops of one year: those that may stand the winter, where no plan ended them or has the square.
        (KALE, LEEK, {}, "{crop: kale, tag: KA1, squares: b/A1, carried from: 2024} (add it; or, if it went"),
        (KALE.replace("Jul 20", "Jul 20, until: Nov 30"), LEEK, {}, ""),
        (KALE, LEEK.replace("B1", "A1").replace("May 20", "Mar 29"), {}, ""),
        (KALE, LEEK.replace("B1", "A1").replace("May 20", "Mar 30"), {}, "KA1 (kale) still stands"),
        ("[]\n", LEEK, {"2024-07-20": "- {set out: kale, squares: A1}"}, "with `clear` or `lost` in 2024)"),
        # The freeze killed it.
        (TOMATO, LEEK, {}, ""),
        # No plan is made yet, or it is told that the squares are others.
        (CHIVES, "[]\n", {}, ""),
        (CHIVES, CHIVES.replace("A1", "B1").replace("set out: Apr 20", OWN), {}, ""),
    ],
)
def test_what_stood_as_a_season_ended_is_carried_on_or_written_gone(
    before: str, after: str, log: dict[str, str], said: str, tmp_path: Path
):
    found = told(tmp_path, {2024: before, 2025: after}, "not-carried-on", log=log)
    assert len(found) == bool(said), found
    assert said in "".join(found)


@pytest.mark.parametrize("many", [3, 4, 5])
def test_of_many_crops_of_one_year_that_nobody_logged_gone_all_are_told_at_once(many: int, tmp_path: Path):
    garden = GARDEN.replace("length: 2 squares, width: 1", "length: 6 squares, width: 1")
    sown = "".join(f"- {{crop: beet, tag: BE{n}, squares: {'ABCDE'[n]}1, sow: Apr 5}}\n" for n in range(many))
    plans = {2024: sown + CHIVES.replace("A1", "F1"), 2025: "- {crop: leek, squares: F1, set out: May 20}\n"}
    found = told(tmp_path, plans, "not-carried-on", garden=garden)
    assert len(found) == (4 if many == 3 else 2), "the chives by themselves"
    assert sum("CH1 (chives) still stands in b/F1" in one for one in found) == 1
    if many > 3:
        assert f"advice: {many} plantings still stand as 2024 ends" in found[0]
        named = "BE0 (beet) in b/A1, BE1 (beet) in b/B1, BE2 (beet) in b/C1 and"
        assert f"free: {named} {many - 3} more; expected a row such as {{crop: beet, tag: BE0," in found[0]


def test_a_picking_of_what_stood_over_winter_is_told_how_it_is_planned(tmp_path: Path):
    """Only that its planting be logged was asked, though it was logged in the season before."""
    weighed = "- {date: 2025-03-01, crop: CROP, squares: A1, weight: 1 lb}\n"
    papers = {"garden.yaml": GARDEN, "2024/plan.yaml": KALE, "2025/plan.yaml": LEEK}
    for crop in ("kale", "beet"):
        ledger = {"2025/harvest.yaml": weighed.replace("CROP", crop)}
        garden = read_garden(written(tmp_path / crop, papers | ledger))
        year = Years(garden=garden, today=date(2025, 3, 1)).all[-1]
        (found,) = every_finding(year, {"never-stood"})
        assert ("carried from" in found.remedy) is (crop == "kale")


@pytest.mark.parametrize(("carried", "said"), [(False, False), (True, True)])
def test_a_picking_after_what_stood_over_winter_was_cleared(carried: bool, said: bool, tmp_path: Path):
    """What nobody carried on may still stand; what is carried on ends as the log says."""
    kept = KALE.replace("set out: Jul 20", "carried from: 2024") if carried else KALE
    papers = {
        "garden.yaml": GARDEN,
        "2024/plan.yaml": KALE,
        "2025/plan.yaml": kept,
        "2025/log/2025-04-10-x.md": "---\ntitle: X\ndone:\n  - {clear: kale, squares: A1}\n---\n",
        "2025/harvest.yaml": "- {date: 2025-05-01, crop: kale, weight: 1 lb}\n",
    }
    garden = read_garden(written(tmp_path, papers))
    year = Years(garden=garden, today=date(2025, 5, 1)).all[-1]
    assert bool(every_finding(year, {"none-stood"})) is said


def test_what_was_carried_on_once_is_told_with_the_season_it_was_planted_in(tmp_path: Path):
    plans = {2023: CHIVES, 2024: CHIVES.replace("set out: Apr 20", "carried from: 2023"), 2025: LEEK}
    (found,) = told(tmp_path, plans, "not-carried-on")
    assert found.startswith("content/2025/plan.yaml:1:1: advice: CH1 (chives) still stands in b/A1 as 2024")
    assert "{crop: chives, tag: CH1, squares: b/A1, carried from: 2023}" in found


@pytest.mark.parametrize(("before", "said"), [("2020", False), ("2019", True), (None, True)])
def test_what_was_planted_before_the_first_folder_is_carried_on_as_often_as_it_stands(
    before: str | None, said: bool, tmp_path: Path
) -> None:
    """The row that `not-carried-on` says to add was itself told as one without a season."""
    first = CHIVES.replace("set out: Apr 20", f"carried from: {before}") if before else LEEK
    plans = {2024: first, 2025: CHIVES.replace("set out: Apr 20", "carried from: 2020")}
    assert bool(told(tmp_path, plans, "no-such-season")) is said


def test_a_tag_that_nothing_bears_is_told_where_it_is_read_and_there_alone(tmp_path: Path) -> None:
    log = {"2025-03-01": "- {clear: kale, tag: KA1}"}
    assert told(tmp_path, {2024: KALE, 2025: LEEK}, "nothing-there", log=log) == []


@pytest.mark.parametrize(("before", "said"), [(CHIVES, True), (KALE, False)])
def test_after_years_without_a_season_only_what_lasts_is_missed(before: str, said: bool, tmp_path: Path):
    assert bool(told(tmp_path, {2022: before, 2024: LEEK}, "not-carried-on")) is said


def test_garlic_of_the_winter_before_is_not_taken_for_that_of_the_next(tmp_path: Path):
    garden = YEAR_ROUND.replace("Oct 10", "Nov 20")
    plans = {2023: WENT_IN, 2024: CARRIED.replace("Jul 10", "Dec 31"), 2025: LEEK}
    assert not told(tmp_path, plans, "not-carried-on", garden=garden)


@pytest.mark.parametrize(
    ("garden", "tropical", "said"),
    [
        (YEAR_ROUND, False, False),
        # In the south the year turns in summer.
        (SOUTHERN, False, True),
        # When it freezes is not told.
        (YEAR_ROUND.replace("freeze dates", "about"), False, False),
        (YEAR_ROUND.replace("freeze dates", "about"), True, True),
    ],
)
def test_a_tender_crop_stands_on_where_no_freeze_comes_before_the_next_season(
    garden: str, tropical: bool, said: bool, tmp_path: Path
):
    if "about: {" in garden:
        garden = garden.replace("about: {last spring: Apr 25, first fall: Oct 10}", "about: A bed")
    garden += f"latitude: {10 if tropical else 45}\n"
    planted = TOMATO.replace("May 20", "Jun 20")
    assert bool(told(tmp_path, {2024: planted, 2025: LEEK}, "not-carried-on", garden=garden)) is said


def test_squares_of_a_bed_that_is_no_more_are_not_missed(tmp_path: Path):
    garden = GARDEN + "  - {name: c, length: 1 square, width: 1 square, until: 2024}\n"
    plans = {2024: CHIVES.replace("A1", "c/A1"), 2025: LEEK.replace("B1", "b/B1")}
    assert not told(tmp_path, plans, "not-carried-on", garden=garden)
    assert told(tmp_path, plans, "not-carried-on", garden=garden.replace(", until: 2024", ""))


TWO_BEDS = GARDEN + "  - {name: c, title: The far bed, length: 2 squares, width: 1 squareSEASONS}\n"
IN_B = WENT_IN.replace("squares: A1", "squares: b/A1")


@pytest.mark.parametrize(
    ("seasons", "plan", "day", "said"),
    [
        ("", IN_B, date(2025, 2, 1), True),
        # Still under way.
        ("", IN_B, date(2024, 11, 1), False),
        # When it is there is told, idle or not.
        (", since: 2024", IN_B, date(2025, 2, 1), False),
        (", since: 2025", IN_B, date(2025, 2, 1), False),
        # It has a record.
        (
            "",
            IN_B + IN_B.replace("GA1", "GA2").replace("b/A1", "c/A1"),
            None,
            False,
        ),
        # No record names a place.
        ("", "[]\n", None, False),
    ],
)
def test_a_bed_that_no_record_of_a_season_names_is_told_at_its_place(
    seasons: str, plan: str, day: date | None, said: bool, tmp_path: Path
):
    """Fails where a bed built since makes an earlier season look poor, and the gardener is not told."""
    files = {
        "garden.yaml": TWO_BEDS.replace("SEASONS", seasons),
        "2024/plan.yaml": plan,
        "2025/plan.yaml": "[]\n",
    }
    garden = read_garden(written(tmp_path, files))
    year = Years(garden=garden, today=day or date(2025, 2, 1)).all[0]
    found = every_finding(year, {"bed-without-record"})
    assert [(one.place.file, one.place.line) for one in found] == [("content/garden.yaml", 6)] * said
    assert all("no record of 2024 names the far bed" in one.found for one in found)
