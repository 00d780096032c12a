"""What can be ripe: five days of the demonstration garden, and the edges of the rule in one bed."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path

import pytest

from tallybed.garden.garden import Garden, Season
from tallybed.reading.folder.garden_folder import read
from tallybed.reckoning.calendar.windows.ripe import EARLY, LATE, RECENT, Ripe, ripe
from tallybed.reckoning.squares.occupancy import hold
from tests.demonstration import demo_garden
from tests.small_garden import written


@pytest.fixture(scope="module")
def demo() -> Garden:
    return demo_garden()


def before_breakfast(garden: Garden, day: date) -> dict[str, Ripe]:
    """What is proposed on a day of 2026 to somebody who has written down everything up to the day before."""
    from tallybed.tasks.base.garden import seen_from

    known = seen_from(garden, day - timedelta(days=1))
    season = next(one for one in known.seasons if one.name == "2026")
    return {one.planting: one for one in ripe(known, season, hold(season, day), day)}


# In: why it must be proposed. Out: why it must not. By the demonstration plan and ledger, read by eye.
DAYS: dict[str, tuple[dict[str, str], dict[str, str]]] = {
    "2026-04-20": (
        {"SP1": "spinach sown 21 March, 44 days: 4 May", "RA2": "radish sown 4 April, 27 days: 1 May"},
        {
            "GA1": "garlic needs 255 days from 11 October",
            "PO1": "potatoes went in on 11 April",
            "ON1": "onion sets went in on 4 April, 105 days",
            "PE1": "peas: 60 days from 4 April",
            "TO1": "the tomato is not in the bed before 12 May",
            "LK1": "the leeks are not in the bed before 25 April",
        },
    ),
    "2026-05-16": (
        {
            "SP1": "picked 12 May, and cleared this very day",
            "RA1": "picked 12 May",
            "LE3": "picked 9 May",
            "LE2": "leaf lettuce sown 7 April, 38 days: 15 May",
            "LE1": "leaf lettuce set out 18 April, 38 days: 26 May",
            "LE4": "leaf lettuce set out 18 April, 38 days: 26 May",
            "AR1": "picked 9 May",
            "LH1": "head lettuce: 70 days from sowing less five weeks indoors, from 11 April: this very day",
            "MU1": "picked 9 May",
            "RA2": "picked 9 May, and cleared this very day",
        },
        {
            "TO1": "set out four days ago",
            "BE1": "beets: 56 days from 7 April, 2 June",
            "CA1": "carrots: 70 days, 20 June",
            "GA1": "garlic in June at the earliest",
        },
    ),
    "2026-06-20": (
        {
            "PE1": "picked 16 June, cleared today",
            "BR1": "picked 16 June, cleared today",
            "BE1": "picked 13 June",
            "GA1": "255 days from 11 October: 23 June",
            "OB1": "picked 6 June",
            "CU1": "58 days from 28 April, sown indoors: 25 June",
            "BA1": "basil picked 13 June, from one of the two",
            "BA2": "basil picked 13 June, from one of the two",
        },
        {
            "SP1": "cleared in May",
            "CA1": "70 days from 5 May, sown again after none came: 14 July",
            "LE2": "cleared on 2 June",
            "TO1": "76 days from 16 May",
            "BB1": "beans sown on 2 June",
            "WS1": "winter squash in September",
            "PP1": "peppers in August",
        },
    ),
    "2026-07-18": (
        {
            "TO2": "60 days from 19 May",
            "TO1": "76 days from 16 May, a fortnight off",
            "CU1": "picked 14 July",
            "CU2": "picked 14 July",
            "ON1": "picked 4 July",
            "CA1": "picked 14 July",
            "BB1": "52 days from 2 June: 24 July",
            "PP1": "picked 11 July",
            "PO1": "picked 14 July",
            "BA1": "basil picked 11 July, from one of the two",
            "BA2": "basil picked 11 July, from one of the two",
        },
        {
            "PE1": "cleared in June",
            "GA1": "cleared on 7 July",
            "BB2": "sown on 11 July",
            "BB3": "sown on 23 June",
            "WS1": "winter squash in September",
            "EG1": "eggplant later in August",
        },
    ),
    "2026-09-01": (
        {
            "TO1": "picked 29 August",
            "TO2": "picked 29 August",
            "PP2": "picked 29 August",
            "EG1": "picked 22 August",
            "BB2": "54 days from 11 July: 3 September",
            "WS1": "105 days from 28 April, sown indoors: 11 August",
            "PP1": "picked 22 August",
            "BB3": "picked 29 August",
            "CU1": "picked 22 August",
            "CU2": "picked 29 August",
            "CA3": "62 days from 7 July: 7 September",
            "DI1": "sown 27 June, and not picked yet",
            "KA1": "55 days from 27 June, sown indoors, and two weeks in fall: 4 September",
            "BA1": "basil picked 25 August, from one of the two",
            "BA2": "basil picked 25 August, from one of the two",
        },
        {
            "BB1": "cleared on 15 August",
            "LK1": "leeks: 150 days from 25 April, 22 September",
            "CI2": "cilantro sown a few days ago",
            "BE2": "beets sown on 1 August or so",
            "LE5": "lettuce sown in August",
            "LE6": "not in the bed before 26 September",
            "GA2": "garlic goes in in October",
        },
    ),
}


@pytest.mark.parametrize("day", sorted(DAYS))
def test_the_demonstration_garden_proposes_what_can_be_ripe(demo: Garden, day: str) -> None:
    found = before_breakfast(demo, date.fromisoformat(day))
    wanted, unwanted = DAYS[day]
    assert {tag: why for tag, why in wanted.items() if tag not in found} == {}, "not proposed"
    assert {tag: why for tag, why in unwanted.items() if tag in found} == {}, "proposed"
    assert set(found) == set(wanted), "proposed, and nobody can say why"


def test_each_proposal_names_the_squares_held_that_day_and_why(demo: Garden) -> None:
    found = before_breakfast(demo, date(2026, 9, 1))
    eggplant = found["EG1"]
    assert [str(square) for square in eggplant.squares] == ["elbow/C2"], "it was set out in another square"
    assert eggplant.picked == date(2026, 8, 22)
    squash = found["WS1"]
    assert (squash.picked, squash.first) == (None, date(2026, 8, 11)), "105 days from its sowing indoors"


GARDEN = """\
name: One bed
beds: [{name: bed, length: 4 squares, width: 2 squares}]
season: {start: Mar 1, end: Nov 30}
"""


def one_bed(folder: Path, plan: str, ledger: str = "", log: str = "") -> tuple[Garden, Season]:
    """A garden of one bed in 2026. Radish is of the library; its variety Quick bears after 30 days."""
    files = {
        "garden.yaml": GARDEN,
        "crops.yaml": "- {crop: radish, varieties: [{name: Quick, days: 30, source: test}]}\n",
        "2026/plan.yaml": plan,
        "2026/harvest.yaml": ledger,
        "2026/log/2026-04-01-a-visit.md": log,
    }
    found = read(written(folder, {name: text for name, text in files.items() if text}))
    assert found.findings == ()
    assert found.garden is not None
    return found.garden, found.garden.seasons[-1]


RADISH = "- {crop: radish, tag: RA1, variety: Quick, squares: A1, sow: Apr 1, until: Oct 1}\n"


def proposed(garden: Garden, season: Season, day: date) -> bool:
    return bool(ripe(garden, season, hold(season, day), day))


def test_a_planting_is_proposed_from_a_fortnight_before_its_days_are_over(tmp_path: Path) -> None:
    garden, season = one_bed(tmp_path, RADISH)
    ready = date(2026, 4, 1) + timedelta(days=30)
    assert not proposed(garden, season, ready - EARLY - timedelta(days=1))
    assert proposed(garden, season, ready - EARLY)


def test_what_was_never_picked_stays_proposed_while_it_stands(tmp_path: Path) -> None:
    garden, season = one_bed(tmp_path, RADISH)
    assert proposed(garden, season, date(2026, 9, 30))
    assert proposed(garden, season, date(2026, 10, 1)), "the day of clearing is when much is picked"
    assert not proposed(garden, season, date(2026, 10, 2))


def test_what_was_picked_and_is_long_over_is_no_longer_proposed(tmp_path: Path) -> None:
    picked = date(2026, 5, 4)
    garden, season = one_bed(tmp_path, RADISH, f"- {{date: {picked}, tag: RA1, weight: 3 oz}}\n")
    radish = garden.crop("radish").used("usable days after first harvest")
    assert radish is not None
    assert radish.high is not None
    over = date(2026, 5, 1) + timedelta(days=round(radish.high)) + LATE
    assert proposed(garden, season, over)
    assert [one.picked for one in ripe(garden, season, hold(season, over), over)] == [picked], "not expected"
    assert not proposed(garden, season, over + timedelta(days=1))


def test_a_picking_keeps_a_planting_proposed_for_two_weeks_whatever_its_days(tmp_path: Path) -> None:
    picked = date(2026, 8, 20)
    ledger = f"- {{date: 2026-05-04, tag: RA1, weight: 3 oz}}\n- {{date: {picked}, tag: RA1, weight: 3 oz}}\n"
    garden, season = one_bed(tmp_path, RADISH, ledger)
    assert proposed(garden, season, picked + RECENT)
    assert not proposed(garden, season, picked + RECENT + timedelta(days=1))


def test_a_recorded_sowing_counts_before_the_planned_one(tmp_path: Path) -> None:
    log = "---\ntitle: Late\ndate: 2026-04-20\ndone:\n  - {sow: radish, tag: RA1, squares: A1}\n---\n"
    garden, season = one_bed(tmp_path, RADISH)
    assert proposed(garden, season, date(2026, 4, 25))
    path = tmp_path / "content/2026/log/2026-04-20-late.md"
    path.parent.mkdir()
    path.write_text(log, encoding="utf-8")
    again = read(tmp_path).garden
    assert again is not None
    assert not proposed(again, again.seasons[-1], date(2026, 4, 25))


def test_what_was_sown_again_counts_from_then_and_not_before_it_was(tmp_path: Path) -> None:
    """As what lies ahead has it: the first sowing came to little."""
    sown = "---\ntitle: Sown\ndone:\n  - {{{}: radish, tag: RA1, squares: A1}}\n---\n"
    log = tmp_path / "content/2026/log"
    log.mkdir(parents=True)
    (log / "2026-04-25-again.md").write_text(sown.format("resow"), encoding="utf-8")
    garden, season = one_bed(tmp_path, RADISH, log=sown.format("sow"))
    ready = date(2026, 4, 25) + timedelta(days=30)
    assert not proposed(garden, season, ready - EARLY - timedelta(days=1))
    (found,) = ripe(garden, season, hold(season, ready), ready)
    assert found.first == ready
    (early,) = ripe(garden, season, hold(season, ready), date(2026, 4, 20))
    assert early.first == date(2026, 5, 1), "as it was known then"


def test_a_picking_of_nobody_knows_which_speaks_for_what_was_to_bear_first(tmp_path: Path) -> None:
    plan = (
        "- {crop: radish, tag: RA1, variety: Quick, squares: A1, sow: May 10, until: Oct 1}\n"
        "- {crop: radish, tag: RA2, variety: Quick, squares: B1, sow: May 10, until: Oct 1}\n"
        "- {crop: radish, tag: RA3, variety: Quick, squares: C1, sow: May 17, until: Oct 1}\n"
    )

    def picked(ledger: str) -> dict[str, date | None]:
        """What is proposed on 20 May, ten days after the first sowing, by what was picked on the 18th."""
        day = date(2026, 5, 20)
        garden, season = one_bed(tmp_path, plan, f"- {{date: 2026-05-18, {ledger}, weight: 3 oz}}\n")
        return {one.tag: one.picked for one in ripe(garden, season, hold(season, day), day)}

    that_day = date(2026, 5, 18)
    assert picked("crop: kale") == {}
    assert picked("crop: radish") == {"RA1": that_day, "RA2": that_day}
    assert picked("mixed: [kale, radish]") == {"RA1": that_day, "RA2": that_day}
    assert picked("mixed: [kale, radish], squares: 'B1:C1'") == {"RA2": that_day}
    assert picked("crop: radish, squares: C1") == {"RA3": that_day}, "who says where needs no such help"


def test_a_crop_of_unknown_days_is_proposed_before_the_plan_clears_it(tmp_path: Path) -> None:
    plan = "- {crop: garlic, tag: GA1, squares: A1, carried from: 2025, until: Jul 10}\n"
    garden, season = one_bed(tmp_path, plan)
    assert not proposed(garden, season, date(2026, 6, 25)), "nobody knows when it was planted"
    (one,) = ripe(garden, season, hold(season, date(2026, 6, 26)), date(2026, 6, 26))
    assert (one.first, one.clearing) == (None, date(2026, 7, 10))


def test_nothing_is_proposed_where_nothing_stands(tmp_path: Path) -> None:
    garden, season = one_bed(tmp_path, RADISH)
    assert not proposed(garden, season, date(2026, 3, 15))
