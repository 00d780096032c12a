"""The worked example at the head of ``reckoning`` is what the code does with it."""

from __future__ import annotations

import re
from collections.abc import Iterable
from datetime import date

import pytest

import tallybed.reckoning
from tallybed.garden.days import Month
from tallybed.garden.squares import Square
from tallybed.garden.units import OUNCE
from tallybed.reading.folder.garden_folder import read
from tallybed.reckoning.beds import month_of, stays_of, strips_of
from tallybed.reckoning.calendar.month import Holder
from tallybed.reckoning.year import Year, Years
from tests.small_garden import written

TODAY = date(2026, 6, 10)
GARDEN = """
name: Six squares
season: {start: Mar 1, end: Oct 31}
beds:
  - {name: row, length: 6 squares, width: 1 squares}
"""
BLOCKS = {
    title: [line.strip() for line in body.splitlines()]
    for title, body in re.findall(
        r"^(\S.*)\n((?: {4}\S.*\n)+)", tallybed.reckoning.__doc__ or "", flags=re.MULTILINE
    )
}
"""The blocks of the example by their headings, line by line."""


@pytest.fixture(scope="module")
def year(tmp_path_factory: pytest.TempPathFactory) -> Year:
    """The example's own papers, read as any garden's are."""
    files = {"garden.yaml": GARDEN}
    for name in ("plan.yaml", "harvest.yaml"):
        files[f"2026/{name}"] = "\n".join(BLOCKS[name]) + "\n"
    for line in BLOCKS["log"]:
        day, done = line.split(" ", 1)
        files[f"2026/log/{day}.md"] = f"---\ntitle: A visit\ndone:\n  - {done}\n---\n"
    found = read(written(tmp_path_factory.mktemp("example"), files))
    assert found.garden is not None
    assert found.findings == ()
    (one,) = Years(garden=found.garden, today=TODAY).all
    return one


def grouped(told: Iterable[tuple[Square, str]]) -> list[str]:
    """Lines that say the same of several squares, once with all of them, by first square."""
    found: dict[str, list[str]] = {}
    for square, words in told:
        found.setdefault(words, []).append(square.label)
    return sorted_lines(f"{' '.join(squares):<5}  {words}" for words, squares in found.items())


def sorted_lines(told: Iterable[str]) -> list[str]:
    """In the order of the example: by first square, then by the first day told."""
    return sorted(told, key=lambda line: (line[:2], re.findall(r"\d\d-\d\d", line)))


def days(first: date, last: date) -> str:
    return f"{first:%m-%d} to {last:%m-%d}"


def test_the_example_has_six_squares_and_all_its_blocks(year: Year) -> None:
    assert len(year.garden.beds[0].squares) == 6
    assert sorted(BLOCKS) == [
        "harvest.yaml",
        "holders in May",
        "holds",
        "log",
        "phases of RA1",
        "plan.yaml",
        "stays",
        "tally lines",
    ]


def test_holds(year: Year) -> None:
    told = (
        (one.square, f"{one.planting}  {days(one.first, one.last)}  {one.grade.word}")
        for one in year.holding.holds
    )
    assert BLOCKS["holds"] == grouped(told)


def test_stays(year: Year) -> None:
    told = (
        (one.square, f"{one.planting}  {days(one.first, one.last)}  left {one.left:%m-%d}")
        for one in stays_of(year, year.garden.beds[0])
    )
    assert BLOCKS["stays"] == grouped(told)


def test_phases(year: Year) -> None:
    (strip,) = (one for one in strips_of(year, year.garden.beds[0]) if one.planting == "RA1")
    told = (
        (
            course.square,
            f"RA1  {days(phase.first, phase.last)}  {phase.stage.value}, {phase.grade.word}",
        )
        for course in strip.courses
        for phase in course.phases
    )
    assert BLOCKS["phases of RA1"] == grouped(told)


def _holder(one: Holder) -> str:
    starts = f", starts {one.starts:%m-%d}" if one.starts else ""
    ends = f", ends {one.ends:%m-%d}" if one.ends else ""
    return f"{one.planting}  {days(one.first, one.last)}  {one.stage.value}{starts}{ends}"


def test_holders(year: Year) -> None:
    may = month_of(year, year.garden.beds[0], Month(2026, 5))
    assert BLOCKS["holders in May"] == grouped((one.square, _holder(one)) for one in may.holders)


def test_tally_lines(year: Year) -> None:
    told = [
        f"{one.square.label:<5}  {one.planting}  {one.day:%m-%d}  {float(one.weight.within(OUNCE))} oz"
        for one in year.lines
        if one.square is not None
    ]
    assert BLOCKS["tally lines"] == told
