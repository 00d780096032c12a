"""Which plantings in which squares wait after a line of the log: those it names, and nobody who had gone."""

from __future__ import annotations

from datetime import date

import pytest

from tests.reckoning.waits.test_waits import Story, laid

SPINACH = "- {crop: spinach, tag: SP1, squares: A1:B1, sow: Apr 1, until: Oct 1}\n"
SECOND = "- {crop: spinach, tag: SP2, squares: C1:D1, sow: Apr 1, until: Oct 1}\n"
KALE = "- {crop: kale, tag: KA1, squares: E1:F1, set out: Apr 1, until: Oct 1}\n"
SOWN = "- {sow: spinach, tag: SP1, squares: 'A1:B1'}"
CLEARED_OFF = "- {clear: spinach, tag: SP1, squares: A1}"

REACHED = (
    # what is told, the plan, the other lines of the log, the line of 10 June, who waits where
    ("a tag reaches its own planting alone", SPINACH + SECOND, {}, "tag: SP1", "SP1 A1, SP1 B1"),
    ("a tag in small letters", SPINACH + SECOND, {}, "tag: sp2", "SP2 C1, SP2 D1"),
    (
        "a crop reaches all its plantings and no other crop",
        SPINACH + SECOND + KALE,
        {},
        "crop: spinach",
        "SP1 A1, SP1 B1, SP2 C1, SP2 D1",
    ),
    ("a crop that stands nowhere: nothing says where not", SPINACH, {}, "crop: kale", "SP1 A1, SP1 B1"),
    (
        "a tag of plants that had gone: likewise",
        SPINACH + KALE,
        {"2024-04-01": SOWN, "2024-06-09": "- {clear: spinach, tag: SP1, squares: 'A1:B1'}"},
        "tag: SP1",
        "KA1 E1, KA1 F1",
    ),
    (
        "who was cleared the day before waits no more",
        SPINACH + KALE,
        {"2024-04-01": SOWN, "2024-06-09": "- {clear: spinach, tag: SP1, squares: A1}"},
        "squares: 'A1:F1'",
        "KA1 E1, KA1 F1, SP1 B1",
    ),
    (
        "who was cleared on the day may have been picked after it",
        SPINACH,
        {"2024-04-01": SOWN, "2024-06-10": "- {clear: spinach, tag: SP1, squares: A1}"},
        "squares: 'A1:B1'",
        "SP1 A1, SP1 B1",
    ),
    (
        "a clearing without squares is of them all",
        SPINACH + KALE,
        {"2024-04-01": SOWN, "2024-06-09": "- {clear: spinach, tag: SP1}"},
        "squares: 'A1:F1'",
        "KA1 E1, KA1 F1",
    ),
    (
        "cleared and sown again on one day: the new plants are there",
        SPINACH,
        {"2024-04-01": SOWN, "2024-05-20": f"{CLEARED_OFF}\n  - {{resow: spinach, tag: SP1, squares: A1}}"},
        "squares: A1",
        "SP1 A1",
    ),
    (
        "and in an earlier line of the same day",
        SPINACH,
        {"2024-04-01": SOWN, "2024-05-20": f"- {{sow: spinach, tag: SP1, squares: A1}}\n  {CLEARED_OFF}"},
        "squares: A1",
        "SP1 A1",
    ),
    (
        "moved before it: where they are now",
        SPINACH,
        {"2024-04-01": SOWN, "2024-06-09": "- {move: spinach, tag: SP1, squares: 'A1:B1', to: 'A2:B2'}"},
        "tag: SP1",
        "SP1 A2, SP1 B2",
    ),
    (
        "moved on the day: they may have been treated before",
        SPINACH,
        {"2024-04-01": SOWN, "2024-06-10": "- {move: spinach, tag: SP1, squares: A1, to: A2}"},
        "squares: A1",
        "SP1 A1, SP1 A2",
    ),
    (
        "moved from squares that were not treated",
        SPINACH,
        {"2024-04-01": SOWN, "2024-06-12": "- {move: spinach, tag: SP1, squares: A1, to: A2}"},
        "squares: B1",
        "SP1 B1",
    ),
    (
        "some moved before it: these were not treated",
        SPINACH,
        {"2024-04-01": SOWN, "2024-06-01": "- {move: spinach, tag: SP1, squares: A1, to: A2, plants: 2}"},
        "squares: A1",
        "SP1 A1",
    ),
    (
        "moved without a word from where",
        SPINACH,
        {"2024-04-01": SOWN, "2024-06-12": "- {move: spinach, tag: SP1, to: 'A2:B2'}"},
        "squares: B1",
        "SP1 A2, SP1 B1, SP1 B2",
    ),
    (
        "moved out of manured ground: it takes along what clings to it",
        SPINACH,
        {"2024-04-01": SOWN, "2024-06-12": "- {move: spinach, tag: SP1, squares: A1, to: A2}"},
        "amend: manure, squares: A1, manure: raw",
        "SP1 A1, SP1 A2",
    ),
    (
        "moved out of it once its 120 days are over: nothing is taken along",
        SPINACH,
        {"2024-04-01": SOWN, "2024-10-08": "- {move: spinach, tag: SP1, squares: A1, to: A2}"},
        "amend: manure, squares: A1, manure: raw",
        "SP1 A1",
    ),
    (
        "and on the last of them it is",
        SPINACH,
        {"2024-04-01": SOWN, "2024-10-07": "- {move: spinach, tag: SP1, squares: A1, to: A2}"},
        "amend: manure, squares: A1, manure: raw",
        "SP1 A1, SP1 A2",
    ),
    (
        "moved on before the manure: the ground alone waits",
        SPINACH,
        {"2024-04-01": SOWN, "2024-06-09": "- {move: spinach, tag: SP1, squares: A1, to: A2}"},
        "amend: manure, squares: A1, manure: raw",
        " A1",
    ),
)


def story(plan: str, log: dict[str, str], line: str) -> Story:
    """A story with a line of treatment on 10 June beside the others."""
    treat = f"- {{{line}}}" if "amend" in line else f"- {{treat: soap, {line}}}"
    lines = {**log, "2024-06-10": "\n  ".join([log["2024-06-10"], treat] if "2024-06-10" in log else [treat])}
    return Story(
        name="-", rule="-", plan=plan, log=lines, planting="-", safe=None, inside_from=date(2024, 6, 10)
    )


@pytest.mark.parametrize(
    ("plan", "log", "line", "told"), [row[1:] for row in REACHED], ids=[row[0] for row in REACHED]
)
def test_who_waits_after_a_line(plan: str, log: dict[str, str], line: str, told: str, tmp_path) -> None:
    waits = laid(story(plan, log, line), tmp_path).waiting.waits
    assert ", ".join(sorted(f"{one.planting} {one.square.label}" for one in waits)) == told


COUNTED = {"2024-04-01": "- {sow: spinach, tag: SP1, squares: 'A1:B1', plants: 4}"}
ALL_FOUR = "- {clear: spinach, tag: SP1, squares: 'A1:B1', plants: 4}"
CLEARED = (
    ("to the last of those counted", {**COUNTED, "2024-06-20": ALL_FOUR}, date(2024, 6, 20)),
    (
        "some lost, then the last of them",
        {
            **COUNTED,
            "2024-06-15": "- {lost: spinach, tag: SP1, squares: B1, plants: 1}",
            "2024-06-20": "- {clear: spinach, tag: SP1, plants: 3}",
        },
        date(2024, 6, 20),
    ),
    (
        "as many as a thinning left",
        {
            **COUNTED,
            "2024-05-01": "- {thin: spinach, tag: SP1, leaving: 2}",
            "2024-06-20": "- {clear: spinach, tag: SP1, plants: 2}",
        },
        date(2024, 6, 20),
    ),
    (
        "as many as a thinning left in all its squares, each named",
        {
            **COUNTED,
            "2024-05-01": "- {thin: spinach, tag: SP1, squares: 'A1:B1', leaving: 2}",
            "2024-06-20": "- {clear: spinach, tag: SP1, plants: 2}",
        },
        date(2024, 6, 20),
    ),
    (
        "as many as were counted since all its squares, each named, were cleared",
        {
            **COUNTED,
            "2024-05-01": "- {clear: spinach, tag: SP1, squares: 'A1:B1'}",
            "2024-05-02": "- {sow: spinach, tag: SP1, squares: 'A1:B1', plants: 2}",
            "2024-06-20": "- {clear: spinach, tag: SP1, plants: 2}",
        },
        date(2024, 6, 20),
    ),
    ("all but one", {**COUNTED, "2024-06-20": ALL_FOUR.replace("4", "3")}, None),
    (
        "more than were counted: the count is wrong",
        {**COUNTED, "2024-06-20": ALL_FOUR.replace("4", "5")},
        None,
    ),
    ("as many as nobody counted", {"2024-06-20": ALL_FOUR}, None),
    ("as many seen up as were sown", {**COUNTED, "2024-06-20": ALL_FOUR.replace("clear:", "up:")}, None),
    (
        "counted, and others sown without a count",
        {**COUNTED, "2024-04-20": "- {sow: spinach, tag: SP1, squares: A1}", "2024-06-20": ALL_FOUR},
        None,
    ),
    (
        "counted, and sown again: nobody knows whether for the first or beside them",
        {
            **COUNTED,
            "2024-04-20": "- {resow: spinach, tag: SP1, squares: A1, plants: 2}",
            "2024-06-20": ALL_FOUR.replace("4", "6"),
        },
        None,
    ),
    (
        "as many as a thinning left in one square",
        {
            **COUNTED,
            "2024-05-01": "- {thin: spinach, tag: SP1, squares: B1, leaving: 1}",
            "2024-06-20": "- {clear: spinach, tag: SP1, plants: 1}",
        },
        None,
    ),
    ("on the day of the line", {"2024-06-10": CLEARED_OFF}, date(2024, 6, 10)),
    (
        "on the day of the line, and sown again that day",
        {"2024-06-10": f"{CLEARED_OFF}\n  - {{sow: spinach, tag: SP1, squares: A1}}"},
        None,
    ),
    (
        "likewise, and cleared later",
        {
            "2024-06-10": f"{CLEARED_OFF}\n  - {{sow: spinach, tag: SP1, squares: A1}}",
            "2024-06-20": CLEARED_OFF,
        },
        date(2024, 6, 20),
    ),
    ("without squares", {"2024-06-20": "- {clear: spinach, tag: SP1}"}, date(2024, 6, 20)),
    ("of another square", {"2024-06-20": "- {clear: spinach, tag: SP1, squares: B1}"}, None),
    ("a part of the plants", {"2024-06-20": "- {clear: spinach, tag: SP1, squares: A1, plants: 2}"}, None),
    (
        "the first of two",
        {
            "2024-06-20": "- {clear: spinach, tag: SP1, squares: A1}",
            "2024-06-25": "- {clear: spinach, tag: SP1}",
        },
        date(2024, 6, 20),
    ),
    (
        "moved within squares that it held",
        {"2024-06-20": "- {move: spinach, tag: SP1, squares: 'A1:B1', to: 'A1:A2'}"},
        None,
    ),
    (
        "cleared before, and sown again",
        {
            "2024-05-01": "- {clear: spinach, tag: SP1, squares: 'A1:B1'}",
            "2024-05-02": "- {resow: spinach, tag: SP1, squares: 'A1:B1'}",
        },
        None,
    ),
)


@pytest.mark.parametrize("line", ["squares: A1", "amend: manure, squares: A1, manure: raw"])
@pytest.mark.parametrize(("log", "day"), [row[1:] for row in CLEARED], ids=[row[0] for row in CLEARED])
def test_what_clears_a_square_of_plants_that_wait(
    log: dict[str, str], day: date | None, line: str, tmp_path
) -> None:
    """Else a notice would be taken down while treated plants still stand."""
    waits = laid(story(SPINACH, {"2024-04-01": SOWN, **log}, line), tmp_path).waiting.waits
    own = [one for one in waits if one.square.label == "A1"]
    assert day in {one.cleared for one in own}
    assert any(one.is_open(date(2024, 6, 30)) for one in own) is (day is None)
