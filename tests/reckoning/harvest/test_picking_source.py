"""Which planting a picking came from: tags, squares, beds, general names; what is asked and what refused."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from tallybed.garden.records.pickings import Picking
from tallybed.garden.squares import in_words
from tallybed.reading.folder.garden_folder import read
from tallybed.reading.scale.line import pickings
from tallybed.reading.scale.vocabulary import Vocabulary
from tallybed.reckoning.harvest.picking_source import (
    Answer,
    Asking,
    Found,
    Refused,
    SourceQuestion,
    only_one,
    whose,
)
from tallybed.reckoning.squares.occupancy import Holding, hold
from tests.small_garden import written

GARDEN = """\
name: Two beds
beds:
  - {name: long, length: 4 squares, width: 2 squares}
  - {name: short, length: 3 squares, width: 2 squares}
season: {start: Mar 1, end: Nov 30}
"""
PLAN = """\
- {crop: tomato-indeterminate, tag: TO1, variety: Red, squares: long/A1:B1, set out: May 10, until: Oct 1}
- {crop: tomato-determinate, tag: TO2, squares: short/B1, set out: May 10, until: Oct 1}
- {crop: bean-bush, tag: BB1, squares: long/C1, sow: May 1, until: Aug 1}
- {crop: bean-bush, tag: BB2, squares: short/C1, sow: May 1, until: Sep 1}
- {crop: onion-bulb, tag: ON1, squares: long/D1, set out: Apr 1, until: Jul 20}
- {crop: onion-bunching, tag: OB1, squares: long/D1, sow: Apr 1, until: Jun 20}
- {crop: radish, squares: short/A1, sow: Apr 1, until: May 10}
"""
JULY = date(2026, 7, 1)


@pytest.fixture(scope="module")
def ground(tmp_path_factory: pytest.TempPathFactory) -> tuple[Vocabulary, Holding]:
    files = {"garden.yaml": GARDEN, "2026/plan.yaml": PLAN, "2026/names.yaml": "beans: bean-bush\n"}
    found = read(written(tmp_path_factory.mktemp("garden"), files))
    assert found.findings == ()
    assert found.garden is not None
    season = found.garden.seasons[0]
    return Vocabulary.of(found.garden, season), hold(season, date(2026, 11, 1))


def answer(ground: tuple[Vocabulary, Holding], line: str, day: date = JULY, **more: bool) -> Answer:
    talk, holding = ground
    told: Picking = pickings(f"{line} 1 lb", talk, day)[0]
    return whose(holding, told, **more)


def told(found: Answer) -> tuple[str, str, str]:
    assert isinstance(found, Found), found
    return (found.source.crop, in_words(found.source.squares), found.source.tag)


CASES = [
    # A tag says it, with or without the crop; squares are kept.
    ("TO1", JULY, ("tomato-indeterminate", "", "TO1")),
    ("tomato TO2", JULY, ("tomato-determinate", "", "TO2")),
    ("TO1 A1", JULY, ("tomato-indeterminate", "long/A1", "TO1")),
    # A row of squares, counted from 1, is those of it in which the crop stood.
    ("beans row 1 long", JULY, ("bean-bush", "long/C1", "")),
    ("TO1 row 1", JULY, ("tomato-indeterminate", "long/A1:B1", "TO1")),
    # A general name goes to the planting that stood in the squares; the bed follows from it.
    ("tomato long/A1", JULY, ("tomato-indeterminate", "long/A1", "")),
    ("tomato B1", JULY, None),
    ("tomato short/B1", JULY, ("tomato-determinate", "short/B1", "")),
    ("tomato A1", JULY, ("tomato-indeterminate", "long/A1", "")),
    ("beans long/C1", JULY, ("bean-bush", "long/C1", "")),
    ("onion D1", JULY, ("onion-bulb", "long/D1", "")),
    # The day of clearing counts, the day after does not; then the season's answer says it.
    ("beans C1", date(2026, 8, 2), ("bean-bush", "short/C1", "")),
    ("onion D1", date(2026, 6, 20), None),
    # A name of one crop is that crop; where it stood is not told where nobody told it.
    ("radish", date(2026, 5, 1), ("radish", "", "")),
    ("bush beans", JULY, ("bean-bush", "", "")),
    # A variety names its crop.
    ("Red", JULY, ("tomato-indeterminate", "", "")),
    ("Red tomato", JULY, ("tomato-indeterminate", "", "")),
    # A general name without squares is the only one of its crops that stands.
    ("beans", JULY, ("bean-bush", "", "")),
    ("onion", date(2026, 7, 10), ("onion-bulb", "", "")),
    ("beans", date(2026, 10, 20), ("bean-bush", "", "")),
    # A bed alone: the one planting of the crop in it.
    ("tomato short", JULY, ("tomato-determinate", "", "TO2")),
    ("radish short", date(2026, 5, 1), ("radish", "short/A1", "")),
]


@pytest.mark.parametrize(("line", "day", "expected"), [case for case in CASES if case[2]])
def test_this_is_where_it_came_from(
    ground: tuple[Vocabulary, Holding], line: str, day: date, expected: tuple[str, str, str]
) -> None:
    assert told(answer(ground, line, day)) == expected


@pytest.mark.parametrize(
    ("line", "day", "doubt"),
    [
        ("TO1", JULY, ""),
        ("TO1 A1", JULY, ""),
        ("TO1 long/D1", JULY, "nothing says that TO1 stood in long/D1 on 1 July"),
        ("TO1", date(2026, 5, 9), "nothing says that TO1 stood anywhere on 9 May"),
        ("TO1", date(2026, 5, 10), ""),
        ("TO1", date(2026, 10, 1), ""),
        (
            "TO1",
            date(2026, 10, 2),
            "nothing says that TO1 stood anywhere on 2 October:"
            " by the plan TO1 went on 1 October, though no log says so",
        ),
        ("beans", date(2026, 4, 20), "nothing says that beans stood anywhere on 20 April"),
        (
            "radish",
            date(2026, 5, 12),
            "nothing says that radish stood anywhere on 12 May:"
            " by the plan radish went on 10 May, though no log says so",
        ),
    ],
)
def test_a_tag_is_believed_and_doubted_where_nothing_bears_it_out(
    ground: tuple[Vocabulary, Holding], line: str, day: date, doubt: str
) -> None:
    found = answer(ground, line, day)
    assert isinstance(found, Found)
    assert found.doubt == doubt


@pytest.mark.parametrize(
    ("line", "day", "key"),
    [
        ("radish", date(2026, 4, 1), "radish"),
        ("radish", date(2026, 3, 31), None),
        ("bush beans", JULY, None),  # it may be of two
        ("bush beans", date(2026, 8, 20), "BB2"),
        ("Red tomato", JULY, "TO1"),
        # What says where it came from needs no telling.
        ("TO1", JULY, None),
        ("radish short/A1", date(2026, 5, 1), None),
        ("radish short", date(2026, 5, 1), None),
        ("radish long/A1", date(2026, 5, 1), None),  # where it did not stand
        ("radish + bush beans", date(2026, 5, 1), None),
    ],
)
def test_the_one_planting_that_a_crop_alone_can_mean(
    ground: tuple[Vocabulary, Holding], line: str, day: date, key: str | None
) -> None:
    talk, holding = ground
    picking = pickings(f"{line} 1 lb", talk, day)[0]
    found = whose(holding, picking)
    assert isinstance(found, Found)
    one = only_one(holding, picking, found.source)
    assert (one[0].key if one else None) == key


def question(found: Answer) -> SourceQuestion:
    assert isinstance(found, SourceQuestion), found
    return found


@pytest.mark.parametrize(
    ("line", "means", "expected"),
    [
        ("tomato", "tomato-determinate", ("tomato-determinate", "", "")),
        ("onion long", "onion-bunching", ("onion-bunching", "", "OB1")),
        ("onion long", "onion-bulb", ("onion-bulb", "", "ON1")),
    ],
)
def test_of_several_that_stood_the_answer_of_the_season_says_which(
    ground: tuple[Vocabulary, Holding], line: str, means: str, expected: tuple[str, str, str]
) -> None:
    talk, holding = ground
    picked = pickings(f"{line} 1 lb", talk, date(2026, 6, 1))[0]
    assert isinstance(whose(holding, picked), SourceQuestion)
    assert told(whose(holding, replace(picked, answer=means))) == expected


def test_an_answer_that_did_not_stand_is_asked_about(ground: tuple[Vocabulary, Holding]) -> None:
    talk, holding = ground
    picked = replace(pickings("tomato 1 lb", talk, JULY)[0], answer="tomato-cherry")
    assert question(whose(holding, picked)).about is Asking.PLAN_ROW


def test_two_plantings_of_a_general_name_are_asked_apart(ground: tuple[Vocabulary, Holding]) -> None:
    asked = question(answer(ground, "tomato"))
    assert asked.about is Asking.PLAN_ROW
    assert [source.tag for source in asked.choices] == ["TO1", "TO2"]


def test_squares_that_both_beds_have_are_asked_apart(ground: tuple[Vocabulary, Holding]) -> None:
    asked = question(answer(ground, "tomato B1"))
    assert {(source.crop, in_words(source.squares)) for source in asked.choices} == {
        ("tomato-indeterminate", "long/B1"),
        ("tomato-determinate", "short/B1"),
    }
    asked = question(answer(ground, "bush beans C1"))
    assert asked.about is Asking.BED


def test_two_crops_of_a_name_in_one_square_are_asked_apart(ground: tuple[Vocabulary, Holding]) -> None:
    asked = question(answer(ground, "onion D1", date(2026, 6, 20)))
    assert asked.about is Asking.CROP
    assert [source.crop for source in asked.choices] == ["onion-bulb", "onion-bunching"]


def test_a_general_name_of_which_nothing_stands_is_asked(ground: tuple[Vocabulary, Holding]) -> None:
    asked = question(answer(ground, "onion", date(2026, 10, 1)))
    assert [source.crop for source in asked.choices] == ["onion-bulb", "onion-bunching"]
    assert "none of them stood here" in asked.words


def test_without_looking_around_the_answer_of_the_season_alone_counts(
    ground: tuple[Vocabulary, Holding],
) -> None:
    assert told(answer(ground, "beans", looking_around=False)) == ("bean-bush", "", "")
    asked = question(answer(ground, "onion", date(2026, 7, 10), looking_around=False))
    assert "an answer of this season" in asked.words
    asked = question(answer(ground, "tomato", looking_around=False))
    assert [source.crop for source in asked.choices] == ["tomato-determinate", "tomato-indeterminate"]


def test_a_picking_from_where_nothing_of_it_stood_is_kept_with_a_doubt(
    ground: tuple[Vocabulary, Holding],
) -> None:
    for line in ("radish short/A1", "radish", "TO1 long/D2", "TO1"):
        day = date(2026, 11, 1) if line == "TO1" else JULY
        found = answer(ground, line, day)
        assert isinstance(found, Found), line
        assert found.doubt.startswith("nothing says that"), line
    held = answer(ground, "radish short/A1", date(2026, 5, 1))
    assert isinstance(held, Found)
    assert held.doubt == ""


def test_a_general_name_in_squares_where_none_stood_goes_to_the_answer_else_is_asked(
    ground: tuple[Vocabulary, Holding],
) -> None:
    assert told(answer(ground, "beans long/A2")) == ("bean-bush", "long/A2", "")
    assert question(answer(ground, "tomato long/A2")).about is Asking.CROP


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("radish TO1", "TO1 is tomato-indeterminate, not radish"),
        ("tag TO3", "has the tag TO3; did you mean TO"),
        ("radish long", "nothing says that radish stood in the bed long on 1 July"),
        ("TO1 A2", "name the bed"),
        ("TO1 short", "TO1 stood in long/A1:B1 on 1 July, not in the bed short"),
        ("tomato + radish", "may be several crops"),
        ("kale + radish A1", "need their bed"),
    ],
)
def test_what_cannot_be_is_refused(ground: tuple[Vocabulary, Holding], line: str, words: str) -> None:
    found = answer(ground, line)
    assert isinstance(found, Refused), found
    assert words in found.words


def test_a_bowl_keeps_its_crops_and_squares(ground: tuple[Vocabulary, Holding]) -> None:
    found = answer(ground, "kale + radish long/A1:B1")
    assert told(found) == ("", "long/A1:B1", "")


def test_what_did_stand_is_named_first_where_the_squares_are_wrong(
    ground: tuple[Vocabulary, Holding],
) -> None:
    """A slip of the pen in the squares is commoner than a planting nobody knows of."""
    asked = answer(ground, "tomato C1")
    assert isinstance(asked, SourceQuestion)
    assert [source.tag for source in asked.choices[:2]] == ["TO1", "TO2"]
    assert all(in_words(source.squares) for source in asked.choices[2:]), "then the squares as they were told"
