"""A season knows the beds that were there, and no others."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from tallybed.checks.rotation import same_family
from tallybed.garden.squares import Bed, Square
from tallybed.pages.wording.names import place_words
from tallybed.reckoning.harvest.areas import in_no_record
from tallybed.reckoning.rows.season import answer
from tallybed.reckoning.rows.verdicts import Verdict
from tallybed.reckoning.squares.shares import utilisation
from tallybed.reckoning.year import Year, Years
from tests.bed_seasons import FRONT, NEW, OLD, garden_yaml, season_files, three_years
from tests.pages.gardens import site_of

pytestmark = pytest.mark.usefixtures("few_crops")
OLD_ALWAYS, NEW_ALWAYS = OLD.replace(", until: 2025", ""), NEW.replace(", since: 2026", "")


@pytest.fixture(scope="module")
def years(tmp_path_factory: pytest.TempPathFactory) -> Years:
    return site_of(three_years(tmp_path_factory.mktemp("garden")))


def named(years: Years, name: str) -> Year:
    found = years.named(name)
    assert found is not None
    return found


def beds_of(year: Year) -> list[str]:
    return [bed.name for bed in year.garden.beds]


@pytest.mark.parametrize(
    ("since", "until", "told", "seasons"),
    [
        ("", "", "", "2024 2025 2026 2027"),
        ("2025", "", "from 2025 on", "2025 2026 2027"),
        ("", "2025", "until 2025", "2024 2025"),
        ("2025", "2026", "from 2025 until 2026", "2025 2026"),
        ("2025", "2025", "in 2025 alone", "2025"),
    ],
)
def test_a_bed_is_there_from_its_first_season_to_its_last(
    since: str, until: str, told: str, seasons: str
) -> None:
    bed = Bed(name="b", title="B", columns=1, rows=1, since=since, until=until)
    assert bed.there == told
    every = ("2024", "2025", "2026", "2027")
    assert " ".join(one for one in every if bed.was_there(one)) == seasons


def test_each_season_has_the_beds_that_were_there(years: Years) -> None:
    assert {year.name: beds_of(year) for year in years.all} == {
        "2024": ["old", "front"],
        "2025": ["old", "front"],
        "2026": ["front", "new"],
    }
    assert [bed.name for bed in years.present.beds] == ["front", "new"]
    assert [bed.name for bed in years.garden.beds] == ["old", "front", "new"]


def test_where_no_bed_tells_a_season_the_garden_of_each_is_the_very_same(tmp_path: Path) -> None:
    years = site_of(three_years(tmp_path, {"garden.yaml": garden_yaml(OLD_ALWAYS, FRONT, NEW_ALWAYS)}))
    assert all(year.garden is year.years.garden for year in years.all)
    assert years.present is years.garden


def test_the_ground_of_a_season_is_that_of_its_beds(years: Years) -> None:
    # old: 3 by 2 squares of a foot; front: 4 by 2; new: 5 by 2
    areas = {year.name: year.grounds[0].square_feet for year in years.all}
    assert areas == {"2024": 6 + 8, "2025": 6 + 8, "2026": 8 + 10}


@pytest.mark.parametrize(
    ("beds", "ground", "verdict"),
    [
        # 12 lb at 0.5 lb per square foot, the most that is printed, are 24 sq ft of rows at least. Equal
        # plots differ by 1.34: 24 is more than 1.34 times 14 (18.76), and less than 1.34 times 24 (32.16).
        ((OLD, FRONT), 14, Verdict.MORE),
        ((OLD, FRONT, NEW), 14, Verdict.MORE),
        ((OLD, FRONT, NEW_ALWAYS), 24, Verdict.SAME),
    ],
    ids=["before the bed", "with since", "without since"],
)
def test_a_bed_added_later_leaves_the_answer_of_a_season_as_it_was(
    tmp_path: Path, beds: tuple[str, ...], ground: int, verdict: Verdict
) -> None:
    files = {"garden.yaml": garden_yaml(*beds)}
    if len(beds) == 2:
        files |= season_files("2026", "front")
    year = named(site_of(three_years(tmp_path, files)), "2024")
    found = answer(year)
    assert found is not None
    assert found.rows.square_feet.low == Fraction(12) / Fraction("0.5")
    assert [one.square_feet for one in found.grounds] == [ground]
    assert found.verdict is verdict
    of_squares = found.equivalents[0][1]
    assert of_squares.low == Fraction(24, ground)
    # By the log 8 squares of the front bed from 6 April, 2 of the old one from 21 April; by the plan the
    # first are free on 25 June, the others on 29 June.
    days = 8 * 80 + 2 * 69
    assert utilisation(year.garden, year.holding) == Fraction(days, ground * 91)


def test_rotation_remembers_a_bed_that_is_gone_and_one_season_of_a_new_one(years: Years) -> None:
    """The old bed's second carrot is told of its first; the new bed's first is told of none."""
    told = {year.name: [one.found for _row, one in same_family(year)] for year in years.all}
    assert [line for line in told["2025"] if "old/A1:B1" in line]
    assert not [line for line in told["2026"] if "old" in line or "new" in line]
    assert [line for line in told["2026"] if "front/A1:D2" in line]


def test_squares_of_a_bed_that_is_not_there_have_their_bed_and_their_words(years: Years) -> None:
    garden = named(years, "2026").garden
    gone = Square("old", 0, 0)
    assert garden.bed("old").title == "The old bed"
    assert place_words(garden, [gone, Square("new", 1, 0)]) == "B1 of the new bed and A1 of the old bed"


def test_squares_of_another_season_are_not_told_as_those_of_the_only_bed(tmp_path: Path) -> None:
    garden = garden_yaml(OLD, NEW)
    files = {f"{year}/plan.yaml": "[]\n" for year in ("2024", "2025", "2026")}
    found = site_of(
        three_years(
            tmp_path,
            {"garden.yaml": garden}
            | files
            | {f"{year}/harvest.yaml": "[]\n" for year in ("2024", "2025", "2026")}
            | {
                name: text.split("done:")[0] + "---\n"
                for year in ("2024", "2025", "2026")
                for name, text in season_files(year).items()
                if "/log/" in name
            },
        )
    )
    now = named(found, "2026").garden
    assert place_words(now, [Square("new", 0, 0)]) == "A1"
    assert place_words(now, [Square("old", 0, 0)]) == "A1 of the old bed"


def test_a_planting_carried_over_from_a_bed_that_is_gone_is_read_and_told(tmp_path: Path) -> None:
    plan = "- {crop: spinach, tag: SP9, squares: new/A1, carried from: 2025, until: Jun 1}\n"
    years = site_of(three_years(tmp_path, {"2026/plan.yaml": plan, "2026/harvest.yaml": "[]\n"}))
    year = named(years, "2026")
    codes = [finding.code for finding in year.findings]
    assert "not-there-before" in codes
    assert year.holding.of_square(Square("new", 0, 0))


def test_a_bed_that_tells_its_seasons_is_no_bed_that_may_not_have_been_there(tmp_path: Path) -> None:
    year = named(site_of(three_years(tmp_path)), "2026")
    beds = [bed for bed in year.years.garden.beds if bed.name != "front"]
    unsaid = [Bed(name="quiet", title="Quiet", columns=1, rows=1), *beds]
    assert [bed.name for bed in in_no_record(unsaid, year.season)] == ["quiet"]
