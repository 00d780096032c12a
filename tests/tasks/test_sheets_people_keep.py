"""Twelve spreadsheets as people keep them, written before the reader of spreadsheets knew their kinds.

Beside each in ``tests/data/sheets`` stands what its rows mean. Every question is answered once, as the
file beside it says; then nine rows in ten must have their place, and none may be wrong.
"""

from __future__ import annotations

import shutil
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
import yaml

from tallybed.garden.naming import folded
from tallybed.garden.squares import in_words
from tallybed.garden.units import GRAM
from tallybed.reading.spreadsheet.columns import heading, meant, plain
from tallybed.reading.text import measures
from tallybed.reading.text.squares import squares
from tallybed.tasks import take_in
from tallybed.tasks.taking_in.intake import Books, Fate, Intake, JudgedRow, Settings
from tallybed.tasks.taking_in.questions import AS_ABOVE, BLANKS, NAME, SEASON, questions, with_answer
from tests.tools import ROOT

SHEETS = sorted(path for path in (ROOT / "tests/data/sheets").iterdir() if path.suffix != ".yaml")
PLACED, ASKED, REFUSED, WRONG = "placed", "asked", "refused", "wrong"
MOST_ANSWERS = 10


@pytest.fixture(scope="module")
def books(tmp_path_factory: pytest.TempPathFactory) -> Books:
    """The demonstration's papers, with nothing weighed: its ledger is not theirs."""
    root = tmp_path_factory.mktemp("garden")
    for path in (ROOT / "content").rglob("*.yaml"):
        target = root / path.relative_to(ROOT)
        target.parent.mkdir(parents=True, exist_ok=True)
        shutil.copy(path, target)
    return take_in.books(root)


@dataclass
class Read:
    """A sheet read, with the questions that were answered on the way."""

    intakes: tuple[Intake, ...]
    answers: int


def meaning(sheet: Path) -> dict[str, Any]:
    return dict(yaml.load(sheet.with_suffix(".yaml").read_text(encoding="utf-8"), Loader=yaml.CBaseLoader))


def read_sheet(books: Books, sheet: Path) -> Read:
    told = meaning(sheet)
    given = told.get("answers", {})
    kept = {**told.get("settings", {}), BLANKS: AS_ABOVE, SEASON: given.get("season", "")}
    names = {folded(name): slug for name, slug in given.get("names", {}).items()}
    settings = Settings(columns={plain(name): meant(what) for name, what in given.get("columns", {}).items()})
    count = sum(heading(name) != what for name, what in settings.columns.items())
    data = sheet.read_bytes()
    intakes = take_in.looks(books, sheet.name, data, settings)
    for _time in range(4):
        found = questions(books, intakes)
        answered = 0
        for one in found:
            value = names.get(folded(one.name), "") if one.about == NAME else kept.get(one.about, "")
            if value:
                settings = with_answer(settings, one, value)
                answered += 1
        if not answered:
            break
        count += answered
        intakes = take_in.looks(books, sheet.name, data, settings)
    unanswered = {name: slug for name, slug in names.items() if name not in settings.names}
    if unanswered:  # a name without a near one is written into take-in.yaml
        settings = replace(settings, names={**settings.names, **unanswered})
        intakes = take_in.looks(books, sheet.name, data, settings)
        count += len(unanswered)
    return Read(intakes, count)


def differences(books: Books, line: JudgedRow, wanted: dict[str, Any]) -> list[str]:
    assert line.slip is not None
    row = line.slip.weighing
    measured = measures.weighing(wanted["weight"])
    beds = books.scales[line.season].vocabulary.context.beds
    place = in_words(squares((wanted["squares"],), beds)) if wanted.get("squares") else ""
    pairs = {
        "date": (row.day.isoformat(), wanted["date"]),
        "crop": ([crop.slug for crop in row.crops], [wanted["crop"]]),
        "weight": (row.weight, measured.weight),
        "estimated": (row.estimated, wanted.get("estimated") == "true" or measured.estimated),
        "squares": (in_words(row.squares), place),
        "count": (row.count, int(wanted["count"]) if "count" in wanted else None),
        "to": (folded("".join(part.name for part in row.to)), folded(wanted.get("to", ""))),
    }
    return [f"{key}: {got!r}, not {want!r}" for key, (got, want) in pairs.items() if got != want]


def key_of(sheet: str, row: str, crop: str) -> tuple[str, str, str]:
    return sheet, row, crop


def compare(books: Books, intakes: Sequence[Intake], told: dict[str, Any]) -> tuple[Counter[str], list[str]]:
    """What became of each row that means something, and what is wrong."""
    sheets = len(intakes) > 1
    wide = any("column" in row for row in told["rows"])
    wanted = {
        key_of(row.get("sheet", "") if sheets else "", row["row"], row["crop"] if wide else ""): row
        for row in told["rows"]
    }
    counts: Counter[str] = Counter()
    wrong: list[str] = []
    for intake in intakes:
        name = intake.sheet.name if sheets else ""
        for line in intake.lines:
            crop = line.slip.weighing.crops[0].slug or "" if wide and line.slip else ""
            one = wanted.pop(key_of(name, str(line.row.number), crop), None)
            if line.fate is not Fate.NEW:
                counts[REFUSED if one else "left for a person"] += 1
                if one:
                    wrong.append(f"({line.fate}) {line.row.number} {line.row.cells}: {line.words}")
                continue
            if one is None:
                counts[WRONG] += 1
                wrong.append(f"a row that means nothing was taken: {line.row}")
                continue
            differs = differences(books, line, one)
            counts[WRONG if differs else PLACED] += 1
            wrong += [f"{line.row.number}: {words}" for words in differs]
    for key in wanted:
        counts[REFUSED] += 1
        wrong.append(f"lost: {key}")
    return counts, wrong


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: sheet.stem)
def test_rows_have_their_place_after_what_was_asked_once(books: Books, sheet: Path) -> None:
    told = meaning(sheet)
    found = read_sheet(books, sheet)
    counts, wrong = compare(books, found.intakes, told)
    assert counts[WRONG] == 0, "\n".join(wrong)
    assert counts[PLACED] >= 0.9 * len(told["rows"]), "\n".join(wrong[:20])
    assert found.answers <= MOST_ANSWERS
    total = sum(
        (
            line.slip.weighing.weight.within(GRAM)
            for intake in found.intakes
            for line in intake.of(Fate.NEW)
            if line.slip and line.slip.weighing.weight
        ),
        Fraction(0),
    )
    if counts[PLACED] == len(told["rows"]):
        assert total == Fraction(told["sums"]["total grams"]), "the sum is exact"


if __name__ == "__main__":  # the shares, one line a sheet
    import sys
    import tempfile

    root = Path(tempfile.mkdtemp())
    for path in (ROOT / "content").rglob("*.yaml"):
        target = root / path.relative_to(ROOT)
        target.parent.mkdir(parents=True, exist_ok=True)
        shutil.copy(path, target)
    papers = take_in.books(root)
    for one in SHEETS:
        if len(sys.argv) > 1 and not one.stem.startswith(sys.argv[1]):
            continue
        try:
            answer = read_sheet(papers, one)
            numbers, mistakes = compare(papers, answer.intakes, meaning(one))
            print(one.stem, dict(numbers), "answers", answer.answers)
            for intake in answer.intakes[:1]:
                print("   ", intake.told)
            print("\n".join(f"    {words}" for words in mistakes[: 40 if len(sys.argv) > 1 else 4]))
        except Exception as error:
            print(one.stem, "FAILED", type(error).__name__, str(error)[:600])
