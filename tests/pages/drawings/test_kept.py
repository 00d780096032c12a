"""Drawings kept between runs: a value's own text has to tell all that a drawing is made of."""

from __future__ import annotations

import pkgutil
from collections.abc import Callable, Iterator
from dataclasses import fields, is_dataclass, replace
from importlib import import_module

import pytest

import tallybed
from tallybed.garden.squares import Bed, Square
from tallybed.pages.drawings.kept import kept_drawing
from tallybed.reckoning.year import Years
from tests.demonstration import demo_garden

VALUES = ("garden", "reckoning", "drawing")
NEVER_DRAWN = {"Year", "Years", "Remembering", "RecordOrder", "BedSeason", "Bearing", "SeasonSun"}
"""Hold what is worked out from them, or lead to other values; no drawing is given one."""
SAY_IT_THEMSELVES = {"Bed"}
"""Their text is written by hand, and tested below."""


def classes() -> Iterator[type]:
    """Every dataclass of the rooms whose values drawings are made of."""
    for found in pkgutil.walk_packages(tallybed.__path__, "tallybed."):
        if found.name.split(".")[1] in VALUES:
            module = import_module(found.name)
            own = [one for one in vars(module).values() if getattr(one, "__module__", "") == found.name]
            yield from (one for one in own if isinstance(one, type) and is_dataclass(one))


def test_every_value_tells_in_its_text_all_by_which_it_is_compared() -> None:
    """Fails where two different values have one text: a drawing of the one would stand for the other."""
    every = list(classes())
    assert len(every) > 150
    for one in every:
        if one.__name__ in NEVER_DRAWN:
            continue
        hidden = [field.name for field in fields(one) if field.compare and not field.repr]
        assert not hidden, f"{one.__qualname__} is compared by {hidden}, of which its text says nothing"
        by_hand = not hasattr(one.__repr__, "__wrapped__")
        assert by_hand == (one.__name__ in SAY_IT_THEMSELVES), f"{one.__qualname__} writes its own text"


def test_a_bed_tells_all_of_itself_and_omitted_squares_in_order() -> None:
    squares = [Square("b", column, row) for row in (2, 1) for column in (3, 0, 1)]
    bed = Bed(name="b", title="B", columns=5, rows=5, omitted=frozenset(squares))
    assert [f"{one.name}=" in repr(bed) for one in fields(bed)].count(False) == 1, "all but its place"
    assert repr(sorted(squares)) in repr(bed)
    assert repr(replace(bed, omitted=frozenset(squares[1:]))) != repr(bed)


class Kept:
    """What was asked for, and under which text."""

    def __init__(self) -> None:
        self.of: list[str] = []

    def __call__(self, of: str, work: Callable[[], str]) -> str:
        self.of.append(of)
        return work()


@pytest.fixture
def kept() -> Kept:
    return Kept()


@pytest.fixture
def years(kept: Kept) -> Years:
    garden = demo_garden()
    return Years(garden=garden, today=garden.seasons[-1].span.first, keep=kept)


def drawn(words: str, *, size: int) -> str:
    return words * size


def other(words: str, *, size: int) -> str:
    return words + str(size)


def test_whatever_differs_is_kept_apart(years: Years, kept: Kept) -> None:
    assert kept_drawing(years, drawn, "a", size=2) == "aa"
    assert kept_drawing(years, drawn, "a", size=3) == "aaa"
    assert kept_drawing(years, drawn, "b", size=2) == "bb"
    assert kept_drawing(years, other, "a", size=2) == "a2"
    assert kept_drawing(years, drawn, "a", size=2) == "aa"
    assert len(kept.of) == 5
    assert len(set(kept.of)) == 4


def test_what_does_not_say_what_it_holds_is_drawn_each_time(years: Years, kept: Kept) -> None:
    assert kept_drawing(years, str, object())
    assert kept_drawing(years, lambda words: words, "x") == "x", "one function within another is like all"
    assert kept.of == []


def test_of_closed_seasons_whose_pages_are_kept_nothing_is(years: Years, kept: Kept) -> None:
    assert years.closed is not None
    assert kept_drawing(years.closed, drawn, "a", size=2) == "aa"
    assert kept.of == []
