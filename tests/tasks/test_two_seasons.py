"""Two seasons of 750 rows each, as two hands keep them: exact sums, nothing twice, few answers."""

from __future__ import annotations

import random
from datetime import date, timedelta
from fractions import Fraction
from pathlib import Path

import pytest
import yaml

from tallybed.garden.units import GRAM
from tallybed.reading.text import measures
from tallybed.tasks import take_in
from tallybed.tasks.taking_in.intake import Fate, Intake, Settings
from tallybed.tasks.taking_in.questions import DECIMAL, NAME, SEASON, questions, with_answer
from tests.small_garden import written

GARDEN = """\
name: Two hands
beds: [{name: bed, length: 12 squares, width: 4 squares}]
season: {start: Mar 1, end: Nov 30}
"""
PLAN = """\
- {crop: kale, tag: KA1, squares: A1:B1, sow: Mar 1}
- {crop: tomato-indeterminate, tag: TO1, squares: C1:D2, set out: May 1}
- {crop: bean-bush, tag: BB1, squares: E1:F1, sow: May 1}
- {crop: radish, tag: RA1, squares: G1:H1, sow: Mar 1}
"""
NAMES = {
    "Kale": "kale",
    "Romas": "tomato-indeterminate",
    "green thingies": "bean-bush",
    "Radishes": "radish",
    "leafy stuff": "kale",
}
ROWS = 750
MOST_ANSWERS = 10
_Row = tuple[date, str, int, str]
"""Day, name, grams, destination."""


def garden(root: Path) -> Path:
    return written(root, {"garden.yaml": GARDEN, "2025/plan.yaml": PLAN, "2026/plan.yaml": PLAN})


def picked(year: int) -> list[_Row]:
    chance = random.Random(f"season {year}")
    return sorted(
        (
            date(year, 5, 20) + timedelta(days=chance.randrange(130)),
            chance.choice(list(NAMES)),
            chance.randrange(20, 2400),
            chance.choice(["pantry", "kitchen", ""]),
        )
        for _row in range(ROWS)
    )


def in_german(rows: list[_Row]) -> bytes:
    """Kilograms with a decimal comma, day first, the day once for all its rows, totals by month, cp1252."""
    lines = ["Datum;Gemüse;Gewicht (kg);wohin"]
    last = None
    for number, (day, name, grams, to) in enumerate(rows):
        told = "" if day == last else f"{day:%d.%m.%Y}"
        lines.append(f"{told};{name};{grams // 1000},{grams % 1000:03};{to}")
        last = day
        if number + 1 == len(rows) or rows[number + 1][0].month != day.month:
            total = sum(one for when, _name, one, _to in rows if when.month == day.month)
            lines.append(f";Summe;{total // 1000},{total % 1000:03};")
    return "\r\n".join(lines).encode("cp1252")


def in_grams(rows: list[_Row], *, anew: bool = False) -> bytes:
    """Grams with thousands set apart, ISO days; saved anew in kilograms with other spelling."""
    if anew:
        lines = ["Date,Crop,Weight,Went to"]
        lines += [
            f"{day:%Y-%m-%d},{name.upper()},{grams / 1000:.4f} kg,{to}" for day, name, grams, to in rows
        ]
    else:
        lines = ["Date,Crop,Weight (g),Went to"]
        lines += [f'{day:%Y-%m-%d},{name},"{grams:,}",{to}' for day, name, grams, to in rows]
    return "\n".join(lines).encode()


def asked(root: Path, name: str, data: bytes, settings: Settings) -> tuple[Intake, Settings, int]:
    """Look, answer every question once as the season's people would, and look again."""
    books = take_in.books(root)
    answers = 0
    for _time in range(4):
        intake = take_in.look(books, name, data, settings)
        open_now = questions(books, (intake,))
        if not open_now:
            break
        for one in open_now:
            kept = {DECIMAL: "point"}.get(one.about, one.choices[0][1] if one.choices else "")
            value = NAMES[one.name] if one.about == NAME else kept
            settings = with_answer(settings, one, value)
            answers += 1
    return intake, settings, answers


def in_ledger(root: Path, year: int) -> tuple[int, Fraction]:
    rows = yaml.load((root / f"content/{year}/harvest.yaml").read_bytes(), Loader=yaml.CBaseLoader)
    weights = (measures.weighing(row["weight"]).weight for row in rows)
    return len(rows), sum((one.within(GRAM) for one in weights if one), Fraction(0))


@pytest.mark.parametrize("year", [2025, 2026])
def test_a_season_is_taken_exactly_and_once_after_few_answers(year: int, tmp_path: Path) -> None:
    root = garden(tmp_path)
    rows = picked(year)
    name, data = ("buch.csv", in_german(rows)) if year == 2025 else ("grams.csv", in_grams(rows))
    intake, settings, answers = asked(root, name, data, Settings())
    assert answers <= MOST_ANSWERS
    assert [line.words for line in intake.lines if line.fate is not Fate.NEW] == []
    take_in.write_all(take_in.books(root), (intake,), root / name)
    exact = (ROWS, Fraction(sum(grams for _day, _name, grams, _to in rows)))
    assert in_ledger(root, year) == exact
    again = data if year == 2025 else in_grams(rows, anew=True)
    for once_more in (data, again):
        intake = take_in.look(take_in.books(root), name, once_more, settings)
        assert {line.fate for line in intake.lines} == {Fate.KNOWN}, "nothing has changed"
        assert intake.gone == ()
    assert in_ledger(root, year) == exact


BELOW_YEARS = """\
Picked, {title}
Date,Crop,Weight
2025
3 May,kale,120 g
24/6,radish,100 g
2026
4 Apr,kale,40 g
Season 2024:
4 May,kale,90 g
"""


@pytest.mark.parametrize("title", ["2025-26", "2025/2026", "2026"])
def test_a_day_without_a_year_is_of_the_year_that_stands_above_it(tmp_path: Path, title: str) -> None:
    """The years were rows without a place, and all days were of the one season that was asked for."""
    books = take_in.books(garden(tmp_path))
    text = BELOW_YEARS.format(title=title).encode()
    (intake,) = take_in.looks(books, "years.csv", text, Settings(year="2026"))
    assert [(line.row.get("date"), line.fate) for line in intake.lines] == [
        ("2025-05-03", Fate.NEW),
        ("2025-06-24", Fate.NEW),
        ("2026-04-04", Fate.NEW),
        ("2024-05-04", Fate.UNPLACED),
    ]
    assert intake.outside == ("2024",)


@pytest.mark.parametrize(
    ("title", "asked"), [("2025-26", True), ("2025/26", True), ("2025-06", False), ("2025", False)]
)
def test_a_title_of_two_years_tells_the_season_of_no_day(tmp_path: Path, title: str, asked: bool) -> None:
    """Each of the two may be meant; the first was taken for that of every day."""
    books = take_in.books(garden(tmp_path))
    text = f"Picked, {title}\nDate,Crop,Weight\n4 Apr,kale,40 g\n".encode()
    (intake,) = take_in.looks(books, "title.csv", text, Settings())
    assert [question.about for question in questions(books, (intake,))] == ([SEASON] if asked else [])
