"""Which records concern which planting."""

from __future__ import annotations

import pytest

from tallybed.garden.records.plan import Start
from tallybed.reckoning.plantings.plantings import Planting, plantings, plantings_picked
from tallybed.reckoning.plantings.untold import may_be_of, without_planting
from tests.reckoning.growing import day, line, pick, plan_row, season, squares

TODAY = day("Nov 1")

SUCCESSION = (
    plan_row("radish", "D1 E1", "Apr 5", "May 8", tag="RA1"),
    plan_row("radish", "D1 E1", "May 10", "Jun 12", tag="RA2"),
)


def rows(found: tuple[Planting, ...]) -> dict[str, list[str]]:
    """Write each planting's lines as ``Apr 6 sow``, by key."""
    return {
        one.key: [f"{event.day:%b} {event.day.day} {event.verb}" for event in one.events] for one in found
    }


LOG_CASES = {
    "each line of a succession goes to the sowing that stands": (
        SUCCESSION,
        [
            line("Apr 6", "sow", "radish", "D1 E1"),
            line("Apr 14", "up", "radish", "D1"),
            line("May 9", "clear", "radish", "D1 E1"),
            line("May 12", "sow", "radish", "D1 E1"),
            line("May 20", "thin", "radish", "E1"),
            line("Jun 10", "clear", "radish", "D1 E1"),
        ],
        {
            "RA1": ["Apr 6 sow", "Apr 14 up", "May 9 clear"],
            "RA2": ["May 12 sow", "May 20 thin", "Jun 10 clear"],
        },
    ),
    "so do they where no sowing was written down": (
        SUCCESSION,
        [
            line("Apr 14", "up", "radish", "D1"),
            line("May 9", "clear", "radish", "D1 E1"),
            line("May 20", "thin", "radish", "E1"),
        ],
        {"RA1": ["Apr 14 up", "May 9 clear"], "RA2": ["May 20 thin"]},
    ),
    "a square that the newer one has left is not the older one’s again": (
        SUCCESSION,
        [
            line("Apr 6", "sow", "radish", "D1 E1"),
            line("May 12", "sow", "radish", "D1 E1"),
            line("May 20", "lost", "radish", "D1"),
            line("Jun 4", "thin", "radish", "D1 E1"),
            line("Jun 10", "clear", "radish", "D1 E1"),
        ],
        {"RA1": ["Apr 6 sow"], "RA2": ["May 12 sow", "May 20 lost", "Jun 4 thin", "Jun 10 clear"]},
    ),
    "nor where the older one’s sowing was not written down": (
        SUCCESSION,
        [
            line("May 12", "sow", "radish", "D1 E1"),
            line("May 20", "lost", "radish", "D1"),
            line("Jun 10", "clear", "radish", "D1 E1"),
        ],
        {"RA1": [], "RA2": ["May 12 sow", "May 20 lost", "Jun 10 clear"]},
    ),
    "a second sowing weeks later with one plan is a new planting": (
        SUCCESSION[:1],
        [line("Apr 6", "sow", "radish", "D1 E1"), line("Apr 27", "sow", "radish", "D1 E1")],
        {"RA1": ["Apr 6 sow"], "radish": ["Apr 27 sow"]},
    ),
    "squares that were left for a later sowing are the first one's too": (
        SUCCESSION[:1],
        [
            line("Apr 6", "sow", "radish", "D1", tag="RA1"),
            line("Apr 27", "sow", "radish", "E1"),
            line("May 4", "up", "radish", "E1"),
        ],
        {"RA1": ["Apr 6 sow", "Apr 27 sow", "May 4 up"]},
    ),
    "one within days adds to the first": (
        SUCCESSION[:1],
        [line("Apr 6", "sow", "radish", "D1 E1"), line("Apr 11", "sow", "radish", "D1 E1")],
        {"RA1": ["Apr 6 sow", "Apr 11 sow"]},
    ),
    "a resowing is the same planting": (
        SUCCESSION[:1],
        [line("Apr 6", "sow", "radish", "D1 E1"), line("Apr 27", "resow", "radish", "D1")],
        {"RA1": ["Apr 6 sow", "Apr 27 resow"]},
    ),
    "a resowing after a failure is, though the next is planned nearer": (
        SUCCESSION,
        [
            line("Apr 6", "sow", "radish", "D1 E1"),
            line("Apr 28", "failed", "radish", "D1 E1"),
            line("May 4", "resow", "radish", "D1 E1"),
        ],
        {"RA1": ["Apr 6 sow", "Apr 28 failed", "May 4 resow"], "RA2": []},
    ),
    "one within days of a resowing adds to it": (
        SUCCESSION[:1],
        [
            line("Apr 6", "sow", "radish", "D1 E1"),
            line("Apr 27", "resow", "radish", "D1"),
            line("Apr 30", "sow", "radish", "D1"),
        ],
        {"RA1": ["Apr 6 sow", "Apr 27 resow", "Apr 30 sow"]},
    ),
    "the rest of the planned squares sown later is the same planting": (
        SUCCESSION[:1],
        [line("Apr 6", "sow", "radish", "D1"), line("Apr 13", "sow", "radish", "E1")],
        {"RA1": ["Apr 6 sow", "Apr 13 sow"]},
    ),
    "one line over two plantings of a crop is in both": (
        (
            plan_row("pea", "A1 B1", "Apr 1", "Jun 20", tag="PE1"),
            plan_row("pea", "C1", "Apr 8", "Jun 20", tag="PE2"),
        ),
        [line("Jun 18", "clear", "pea", "A1 B1 C1")],
        {"PE1": ["Jun 18 clear"], "PE2": ["Jun 18 clear"]},
    ),
    "a general name is the crop that is planned there": (
        (
            plan_row("bean-pole", "A1", "May 20", "Sep 1", tag="BP1"),
            plan_row("bean-bush", "B1", "May 20", "Sep 1", tag="BB1"),
        ),
        [line("May 21", "sow", "beans", "A1"), line("May 30", "up", "beans", "B1")],
        {"BB1": ["May 30 up"], "BP1": ["May 21 sow"]},
    ),
    "planted elsewhere: in other squares near its day, nothing met in its own": (
        (plan_row("kale", "A1", "Apr 20", "Jul 1", tag="KA1"),),
        [line("Apr 30", "set out", "kale", "C1"), line("May 5", "prune", "kale", "C1")],
        {"KA1": ["Apr 30 set out", "May 5 prune"]},
    ),
    "elsewhere, but more than 30 days off: a planting of its own": (
        (plan_row("kale", "A1", "Apr 20", "Jul 1", tag="KA1"),),
        [line("May 21", "set out", "kale", "C1")],
        {"KA1": [], "kale": ["May 21 set out"]},
    ),
    "an odd sowing before does not take the place of the one that fits by squares": (
        (plan_row("kale", "A1", "Apr 20", "Jul 1", tag="KA1"),),
        [line("Apr 10", "set out", "kale", "C1"), line("Apr 24", "set out", "kale", "A1")],
        {"KA1": ["Apr 24 set out"], "kale": ["Apr 10 set out"]},
    ),
    "nor where the crop was met in its own squares": (
        (plan_row("kale", "A1", "Apr 20", "Jul 1", tag="KA1"),),
        [line("Apr 22", "set out", "kale", "C1"), line("May 4", "thin", "kale", "A1")],
        {"KA1": ["May 4 thin"], "kale": ["Apr 22 set out"]},
    ),
    "met in its own squares after its days: it may still have gone elsewhere": (
        (plan_row("kale", "A1", "Apr 20", "Jul 1", tag="KA1"),),
        [line("Apr 22", "set out", "kale", "C1"), line("Jul 20", "observe", "kale", "A1")],
        {"KA1": ["Apr 22 set out"], "kale": ["Jul 20 observe"]},
    ),
    "of two elsewhere the nearer in days is the planned one": (
        (plan_row("kale", "A1", "Apr 20", "Jul 1", tag="KA1"),),
        [line("Apr 1", "set out", "kale", "C1"), line("Apr 19", "set out", "kale", "D1")],
        {"KA1": ["Apr 19 set out"], "kale": ["Apr 1 set out"]},
    ),
    "a planting dropped before the day is not meant": (
        (plan_row("okra", "A1", "May 20", "Sep 1", tag="OK1", dropped="May 25"),),
        [line("May 28", "sow", "okra", "A1")],
        {"OK1": [], "okra": ["May 28 sow"]},
    ),
    "a tag decides, whatever the squares; a start elsewhere extends it": (
        (
            plan_row("kale", "A1", "Apr 20", "Jul 1", tag="KA1"),
            plan_row("kale", "B1", "Apr 20", "Jul 1", tag="KA2"),
        ),
        [line("Apr 20", "sow", "kale", "A1", tag="KA1"), line("Jun 1", "sow", "kale", "B1", tag="ka1")],
        {"KA1": ["Apr 20 sow", "Jun 1 sow"], "KA2": []},
    ),
    "a tag the plan does not know is known to the log alone": (
        (),
        [line("Apr 20", "sow", "kale", "A1", tag="KA9"), line("May 2", "up", tag="KA9")],
        {"KA9": ["Apr 20 sow", "May 2 up"]},
    ),
    "a planting without a tag gets that of the line that begins it": (
        (plan_row("kale", "A1", "Apr 20", "Jul 1"),),
        [line("Apr 21", "sow", "kale", "A1", tag="KA1"), line("May 2", "up", tag="KA1")],
        {"KA1": ["Apr 21 sow", "May 2 up"]},
    ),
    "an unknown tag without a crop concerns none": ((), [line("May 2", "up", tag="ZZ1")], {}),
    "lines with neither crop nor tag concern none": (
        SUCCESSION[:1],
        [line("Apr 20", "weed", where="D1 E1"), line("Apr 21", "water")],
        {"RA1": []},
    ),
    "a crop without squares and tag is not told, though there is but one": (
        SUCCESSION[:1],
        [line("Apr 20", "thin", "radish")],
        {"RA1": []},
    ),
    "care with a crop told concerns it": (
        SUCCESSION[:1],
        [line("Apr 20", "treat", "radish", "D1")],
        {"RA1": ["Apr 20 treat"]},
    ),
    "a line without any match is a planting known to the log alone": (
        SUCCESSION[:1],
        [line("Apr 20", "observe", "kale", "D1"), line("May 20", "prune", "kale", "D1")],
        {"RA1": [], "kale": ["Apr 20 observe", "May 20 prune"]},
    ),
    "a clearing before a planted crop began is of something older": (
        (plan_row("spinach", "A1", "Apr 12", "Jun 5", tag="SP1"),),
        [line("Apr 1", "clear", "spinach", "A1"), line("Apr 12", "sow", "spinach", "A1")],
        {"SP1": ["Apr 12 sow"], "spinach": ["Apr 1 clear"]},
    ),
    "so it is where no sowing was written down": (
        (plan_row("spinach", "A1", "Apr 12", "Jun 5", tag="SP1"),),
        [line("Apr 1", "clear", "spinach", "A1")],
        {"SP1": [], "spinach": ["Apr 1 clear"]},
    ),
    "a line after the planting was dropped is not of it": (
        (plan_row("okra", "A1", "May 20", "Sep 1", tag="OK1", dropped="May 25"),),
        [line("May 28", "observe", "okra", "A1")],
        {"OK1": [], "okra": ["May 28 observe"]},
    ),
    "a sowing that slipped stands as much longer": (
        SUCCESSION,
        [line("Apr 15", "sow", "radish", "D1 E1"), line("May 16", "thin", "radish", "D1")],
        {"RA1": ["Apr 15 sow", "May 16 thin"], "RA2": []},
    ),
    "one that did not slip does not": (
        SUCCESSION,
        [line("Apr 5", "sow", "radish", "D1 E1"), line("May 16", "thin", "radish", "D1")],
        {"RA1": ["Apr 5 sow"], "RA2": ["May 16 thin"]},
    ),
    "sown by tag alone it is in its planned squares, though it spread to others": (
        (plan_row("spinach", "A1", "Apr 12", "Jun 5", tag="SP1"),),
        [
            line("Apr 12", "sow", tag="SP1"),
            line("Apr 14", "sow", "spinach", "C1", tag="SP1"),
            line("Apr 24", "up", "spinach", "A1"),
        ],
        {"SP1": ["Apr 12 sow", "Apr 14 sow", "Apr 24 up"]},
    ),
    "sown again within days of a failure: the same planting": (
        SUCCESSION[:1],
        [
            line("Apr 6", "sow", "radish", "D1 E1"),
            line("Apr 12", "failed", "radish", "D1 E1"),
            line("Apr 15", "sow", "radish", "D1 E1"),
        ],
        {"RA1": ["Apr 6 sow", "Apr 12 failed", "Apr 15 sow"]},
    ),
    "cleared and sown on one day it stands": (
        (SUCCESSION[0], plan_row("radish", "D1 E1", "Jun 10", "Jul 12", tag="RA2")),
        [
            line("Apr 6", "sow", "radish", "D1 E1", tag="RA1"),
            line("May 9", "clear", "radish", "D1 E1", tag="RA1"),
            line("May 9", "sow", "radish", "D1 E1", tag="RA1"),
            line("May 20", "up", "radish", "D1"),
        ],
        {"RA1": ["Apr 6 sow", "May 9 sow", "May 9 clear", "May 20 up"], "RA2": []},
    ),
    "a count of plants cannot be divided: the planting with most of the squares has it": (
        (
            plan_row("pea", "A1", "Apr 1", "Jun 20", tag="PE1"),
            plan_row("pea", "B1 C1", "Apr 8", "Jun 20", tag="PE2"),
        ),
        [line("May 18", "lost", "pea", "A1 B1 C1", plants=2)],
        {"PE1": [], "PE2": ["May 18 lost"]},
    ),
    "cleared early: what comes after is of the next": (
        SUCCESSION,
        [
            line("Apr 6", "sow", "radish", "D1 E1"),
            line("Apr 30", "clear", "radish", "D1"),
            line("May 5", "observe", "radish", "D1"),
            line("May 6", "observe", "radish", "E1"),
        ],
        {"RA1": ["Apr 6 sow", "Apr 30 clear", "May 6 observe"], "RA2": ["May 5 observe"]},
    ),
    "cleared early by tag alone: likewise in every square": (
        SUCCESSION,
        [
            line("Apr 6", "sow", "radish", "D1 E1"),
            line("Apr 30", "clear", "radish", tag="RA1"),
            line("May 5", "observe", "radish", "D1"),
        ],
        {"RA1": ["Apr 6 sow", "Apr 30 clear"], "RA2": ["May 5 observe"]},
    ),
    "some cleared, or none: it stands": (
        SUCCESSION,
        [
            line("Apr 6", "sow", "radish", "D1 E1"),
            line("Apr 28", "thin", "radish", "D1"),
            line("Apr 30", "clear", "radish", "D1", plants=2),
            line("May 5", "observe", "radish", "D1"),
        ],
        {"RA1": ["Apr 6 sow", "Apr 28 thin", "Apr 30 clear", "May 5 observe"], "RA2": []},
    ),
    "failed to come up: none stands, whatever number is told": (
        SUCCESSION,
        [
            line("Apr 6", "sow", "radish", "D1 E1"),
            line("Apr 30", "failed", "radish", "D1", plants=2),
            line("May 5", "observe", "radish", "D1"),
        ],
        {"RA1": ["Apr 6 sow", "Apr 30 failed"], "RA2": ["May 5 observe"]},
    ),
    "given up while it stood: what comes after is nearer to the next": (
        (
            plan_row("okra", "A1", "May 20", "Sep 1", tag="OK1", dropped="Jun 5"),
            plan_row("okra", "A1", "Jun 20", "Sep 1", tag="OK2"),
        ),
        [line("May 20", "sow", "okra", "A1"), line("Jun 18", "observe", "okra", "A1")],
        {"OK1": ["May 20 sow"], "OK2": ["Jun 18 observe"]},
    ),
    "one sown late by tag alone stands as much longer": (
        SUCCESSION,
        [line("Apr 15", "sow", "radish", tag="RA1"), line("May 16", "thin", "radish", "D1")],
        {"RA1": ["Apr 15 sow", "May 16 thin"], "RA2": []},
    ),
    "indoor lines without a tag go to every planting of the nearest day": (
        (
            plan_row("tomato", "A1", "May 12", tag="TO1", indoors="Mar 20", start=Start.SET_OUT),
            plan_row("tomato", "B1", "May 16", tag="TO2", indoors="Mar 20", start=Start.SET_OUT),
            plan_row("tomato", "C1", "Jul 1", tag="TO3", indoors="May 20", start=Start.SET_OUT),
            plan_row("kale", "D1", "May 16", tag="KA1", indoors="Mar 28", start=Start.SET_OUT),
        ),
        [line("Mar 28", "sow indoors", "tomato")],
        {"TO1": ["Mar 28 sow indoors"], "TO2": ["Mar 28 sow indoors"], "TO3": [], "KA1": []},
    ),
}


@pytest.mark.parametrize("name", LOG_CASES)
def test_log_to_plan(name: str) -> None:
    plan, log, expected = LOG_CASES[name]
    assert rows(plantings(season(plan, log), TODAY)) == expected


def test_squares_of_a_shared_line_are_kept_apart() -> None:
    plan = (
        plan_row("pea", "A1 B1", "Apr 1", "Jun 20", tag="PE1"),
        plan_row("pea", "C1", "Apr 8", "Jun 20", tag="PE2"),
    )
    found = plantings(season(plan, [line("Jun 18", "clear", "pea", "A1 B1 C1")]), TODAY)
    assert {one.key: one.own for one in found} == {"PE1": (squares("A1 B1"),), "PE2": (squares("C1"),)}


def test_care_of_a_whole_bed_puts_no_crop_where_it_is_not() -> None:
    plan = (plan_row("kale", "A1", "Apr 20", "Jul 1", tag="KA1"),)
    log = [line("May 1", "cover", "kale", "A1 B1 C1"), line("May 2", "water", tag="KA1", where="A1 B1 C1")]
    (kale,) = plantings(season(plan, log), TODAY)
    assert kale.own == (squares("A1"), squares("A1"))
    assert kale.squares == frozenset(squares("A1"))


def test_care_of_a_planting_that_went_elsewhere_is_not_of_its_planned_squares() -> None:
    plan = (plan_row("kale", "A1", "Apr 20", "Jul 1", tag="KA1"),)
    log = [
        line("Apr 20", "set out", "kale", "C1", tag="KA1"),
        line("May 2", "water", tag="KA1", where="A1 C1"),
    ]
    (kale,) = plantings(season(plan, log), TODAY)
    assert kale.own == (squares("C1"), squares("C1"))


HOME_CASES = {
    "planted in other squares alone: none": (["C1"], ""),
    "planted in some of its own too: all of them": (["C1", "A1"], "A1 B1"),
    "planted once without squares: all of them": (["", "C1"], "A1 B1"),
    "planted nowhere yet: all of them": ([], "A1 B1"),
}


@pytest.mark.parametrize("name", HOME_CASES)
def test_in_which_planned_squares_a_planting_may_be(name: str) -> None:
    starts, home = HOME_CASES[name]
    plan = (plan_row("kale", "A1 B1", "Apr 20", "Jul 1", tag="KA1"),)
    days = ("Apr 20", "May 3")
    log = [line(on, "sow", "kale", where, tag="KA1") for on, where in zip(days, starts, strict=False)]
    (kale,) = plantings(season(plan, log), TODAY)
    assert kale.home == frozenset(squares(home))
    assert kale.begun == (day("Apr 20") if starts else None), "the first of several sowings"


def test_keys_are_the_tag_else_the_slug_numbered_by_first_day() -> None:
    plan = (
        plan_row("kale", "B1", "Jun 20"),
        plan_row("kale", "C1", "Apr 20"),
        plan_row("kale", "A1", "Jun 20"),
        plan_row("kale", "D1", "Mar 5", tag="KA1"),
    )
    found = plantings(season(plan), TODAY)
    places = {one.key: " ".join(sorted(square.label for square in one.squares)) for one in found}
    assert places == {"KA1": "D1", "kale": "C1", "kale-2": "A1", "kale-3": "B1"}
    assert [one.key for one in found] == sorted(places)


def test_a_general_name_of_a_new_planting_means_what_the_season_says() -> None:
    log = [line("May 20", "sow", "beans", "A1")]
    assert plantings(season(None, log), TODAY)[0].crop.slugs == ("bean-bush", "bean-pole")
    answered = plantings(season(None, log, general=(("beans", "bean-pole"),)), TODAY)[0]
    assert (answered.crop.slug, answered.key) == ("bean-pole", "bean-pole")


def test_the_narrowest_name_of_a_tag_counts() -> None:
    log = [line("May 20", "sow", "beans", "A1", tag="B1"), line("May 30", "up", "bean-pole", "A1", tag="B1")]
    (found,) = plantings(season(None, log), TODAY)
    assert (found.crop.slug, found.crop.typed) == ("bean-pole", "bean-pole")


def test_the_variety_last_sown_counts() -> None:
    plan = (plan_row("radish", "D1", "Apr 5", "May 8", tag="RA1", variety="Planned"),)
    log = [
        line("Apr 6", "sow", "radish", "D1", variety="First"),
        line("Apr 20", "resow", "radish", "D1", variety="Second"),
    ]
    assert plantings(season(plan), TODAY)[0].variety == "Planned"
    assert plantings(season(plan, log), TODAY)[0].variety == "Second"


LEDGER_CASES = {
    "by its tag": (pick("May 1", tag="RA1"), "RA1"),
    "by its tag, whatever the squares": (pick("May 1", "radish", "A1", tag="RA1"), "RA1"),
    "by crop and squares: the one that stood there": (pick("May 1", "radish", "D1"), "RA1"),
    "the later of a succession": (pick("May 30", "radish", "D1 E1"), "RA2"),
    "on no stand's day: the nearest": (pick("May 9", "radish", "D1"), "RA1"),
    "long after: still the nearest": (pick("Sep 30", "radish", "D1"), "RA2"),
    "a crop alone is not told": (pick("Jun 1", "carrot"), None),
    "a mixed bowl is not told": (pick("May 1", "radish+carrot", "D1"), None),
    "a mixed bowl with a tag is": (pick("May 1", "radish+carrot", tag="RA1"), "RA1"),
    "a general name with squares": (pick("Jul 1", "beans", "B1"), "BP1"),
    "squares of two plantings of the crop at once": (pick("Jul 1", "beans", "A1 B1"), None),
    "an unknown tag without a crop": (pick("Jul 1", tag="ZZ1"), None),
    "a row of after today": (pick("Nov 20", "carrot", "C1"), None),
    "known to the ledger alone": (pick("Jul 1", "kale", "C1"), "kale"),
}

LEDGER_PLAN = (
    *SUCCESSION,
    plan_row("bean-bush", "A1", "May 20", "Sep 1", tag="BB1"),
    plan_row("bean-pole", "B1", "May 20", "Sep 1", tag="BP1"),
    plan_row("carrot", "C1", "May 20", tag="CA1"),
)


@pytest.mark.parametrize("name", LEDGER_CASES)
def test_weighing_to_planting(name: str) -> None:
    weighing, expected = LEDGER_CASES[name]
    year = season(LEDGER_PLAN, None, [pick("Jun 1", "carrot", "C1"), weighing])
    first, second = plantings_picked(year, plantings(year, TODAY))
    assert first is not None
    assert first.key == "CA1"
    assert (second.key if second else None) == expected


def test_owners_keep_the_order_of_the_ledger() -> None:
    ledger = [pick("May 30", "radish", "D1"), pick("May 1", "radish", "D1"), pick("Jun 1", "carrot", "C1")]
    year = season(LEDGER_PLAN, None, ledger)
    assert [one.key if one else "" for one in plantings_picked(year, plantings(year, TODAY))] == [
        "RA2",
        "RA1",
        "CA1",
    ]


def test_a_weighing_of_two_plantings_is_evidence_for_both() -> None:
    year = season(LEDGER_PLAN, None, [pick("Jul 1", "beans", "A1 B1")])
    found = {one.key: one.picked for one in plantings(year, TODAY) if one.weighings}
    assert found == {"BB1": (squares("A1"),), "BP1": (squares("B1"),)}


def test_a_picking_after_all_had_gone_is_of_the_one_that_went_last() -> None:
    plan = (
        plan_row("radish", "D1", "Apr 5", "May 8", tag="RA1"),
        plan_row("radish", "E1", "Jun 1", "Jul 1", tag="RA2"),
    )
    year = season(plan, None, [pick("Jul 20", "radish", "D1 E1")])
    (owner,) = plantings_picked(year, plantings(year, TODAY))
    assert owner is not None
    assert owner.key == "RA2"


def test_a_picking_some_days_before_the_sowing_that_is_written_down_is_of_that_sowing() -> None:
    """A day was written wrong, or a sowing was not: no second planting is made of it."""
    year = season([], [line("Apr 20", "sow", "radish", "D1")], [pick("Apr 16", "radish", "D1")])
    (one,) = plantings(year, TODAY)
    assert plantings_picked(year, (one,)) == (one,)


def test_pickings_far_apart_without_plan_or_log_are_two_plantings() -> None:
    ledger = [
        pick("Apr 30", "radish", "A1"),
        pick("May 9", "radish", "A1 B1"),
        pick("Sep 10", "radish", "A1"),
    ]
    year = season(None, None, ledger)
    assert [one.key if one else "" for one in plantings_picked(year, plantings(year, TODAY))] == [
        "radish",
        "radish",
        "radish-2",
    ]


def test_pickings_in_other_squares_or_of_another_crop_are_plantings_of_their_own() -> None:
    ledger = [
        pick("Apr 30", "radish", "A1"),
        pick("Apr 30", "radish", "C1"),
        pick("Apr 30", "kale", "A1"),
        pick("May 2", "radish", "A1"),
    ]
    year = season(None, None, ledger)
    assert [one.key if one else "" for one in plantings_picked(year, plantings(year, TODAY))] == [
        "radish",
        "radish-2",
        "kale",
        "radish",
    ]


def test_a_share_of_the_log_wins_over_the_plan() -> None:
    plan = (plan_row("radish", "D1 E1", "Apr 5", "May 8", tag="RA1", share="1/3"),)
    log = [line("Apr 6", "sow", "radish", "D1", share="1/4"), line("Apr 6", "sow", "radish", "E1")]
    d1, e1 = squares("D1 E1")
    (found,) = plantings(season(plan, log), TODAY)
    assert (str(found.share_in(d1)), str(found.share_in(e1))) == ("1/4", "1/3")
    (found,) = plantings(season(plan, [*log, line("Apr 9", "sow", "radish", "D1", share="1/2")]), TODAY)
    assert (str(found.share_in(d1)), str(found.share_in(e1))) == ("1/2", "1/3"), "the latest line"


def test_rows_of_no_known_planting_are_those_up_to_the_day_of_crops_they_may_mean() -> None:
    (owner,) = plantings(season(SUCCESSION[:1]), TODAY)
    beans, bowl = pick("Jul 1", "beans"), pick("Jul 2", "carrot+kale")
    ledger = [beans, pick("Jul 1", "radish"), bowl, pick("Jul 3", "beans")]
    found = without_planting(ledger, [None, owner, None, None], day("Jul 2"))
    assert found == (beans, bowl)
    assert may_be_of(found, ["bean-pole"]) == (beans,)
    assert may_be_of(found, ["kale", "radish"]) == (bowl,)
