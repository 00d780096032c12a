"""Spreadsheets in mixed forms, by chance: what is taken equals an exact computation, or is reported.

The computation here shares nothing with the product: weights are Decimals of grams, by the
factors of the international yard and pound agreement (NIST Special Publication 811, appendix
B.8: 1 lb = 453.59237 g; 16 oz = 1 lb), and the ledger is read with a bare YAML loader.
"""

from __future__ import annotations

import csv
import io
import os
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal
from pathlib import Path
from typing import Any

import openpyxl
import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from tallybed.reading.spreadsheet.dates import DateOrder
from tallybed.reckoning.harvest.belief import Belief
from tallybed.tasks import take_in
from tallybed.tasks.taking_in.intake import Books, Fate, Settings
from tests.laws import tries
from tests.small_garden import written

SHEETS = tries(int(os.environ.get("SHEETS", "300")))
"""A thousand are tried by hand, with ``SHEETS=1000 CI=true``."""
GARDEN = """\
name: Two beds
beds:
  - {name: long, length: 4 squares, width: 2 squares}
  - {name: short, length: 3 squares, width: 2 squares}
season: {start: Mar 1, end: Nov 30}
"""
PLAN = """\
- {crop: tomato-indeterminate, tag: TO1, variety: Red Lamp, squares: long/A1:B1, sow: Mar 1}
- {crop: tomato-determinate, tag: TO2, squares: short/B1, sow: Mar 1}
- {crop: kale, tag: KA1, squares: long/C1, sow: Mar 1}
"""
# Names as told, the square told beside it, and the crop it must be; None where nobody can say.
NAMES: list[tuple[str, str, str | None]] = [
    ("kale", "", "kale"),
    ("Kale", "long/C1", "kale"),
    ("radishes", "", "radish"),
    ("Red Lamp", "", "tomato-indeterminate"),
    ("tomato", "short/B1", "tomato-determinate"),
    ("tomatoes", "A1", "tomato-indeterminate"),
    ("beans", "", "bean-bush"),
    ("kale + Beans", "", "kale + bean-bush"),
    ("tomato", "", None),
    ("toms", "", None),
    ("kale", "long/Z9", None),
]
GRAMS = {
    "lb": Decimal("453.59237"),
    "oz": Decimal("453.59237") / 16,
    "g": Decimal(1),
    "kg": Decimal(1000),
}
LOADER = getattr(yaml, "CBaseLoader", yaml.BaseLoader)
MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"]


@dataclass(frozen=True)
class Row:
    """A picking, and whether its date and name can be told."""

    day: date
    name: str
    square: str
    crop: str | None
    amount: Decimal
    ounces: Decimal
    unit: str
    date_form: str
    weighed: bool


@dataclass(frozen=True)
class Form:
    """How a sheet is laid out."""

    kind: str
    units: str
    order: DateOrder | None
    seed: int
    title: bool
    blanks: bool


ROWS = st.builds(
    lambda day, name, tenths, ounces, unit, date_form, weighed: Row(
        day=date(2026, 3, 1) + timedelta(days=day),
        name=name[0],
        square=name[1],
        crop=name[2],
        amount=Decimal(tenths) / 100,
        ounces=Decimal(ounces) / 10,
        unit=unit,
        date_form=date_form,
        weighed=weighed,
    ),
    st.integers(0, 270),
    st.sampled_from(NAMES),
    st.integers(1, 20_000),
    st.integers(1, 159),
    st.sampled_from(sorted(GRAMS)),
    st.sampled_from(["iso", "words", "numbers", "serial"]),
    st.integers(0, 9).map(bool),
)
FORMS = st.builds(
    Form,
    kind=st.sampled_from(["comma", "semicolon", "tab", "comma", "tab", "xlsx"]),
    units=st.sampled_from(["cell", "column", "heading", "two columns"]),
    order=st.sampled_from([None, DateOrder.MONTH_FIRST, DateOrder.DAY_FIRST]),
    seed=st.integers(0, 5),
    title=st.booleans(),
    blanks=st.booleans(),
)


def heading_unit(form: Form) -> str:
    return sorted(GRAMS)[form.seed % 4]


def grams(row: Row, form: Form) -> Decimal | None:
    """What the picking weighs, exactly; None where nobody weighed it."""
    if not row.weighed:
        return None
    if form.units == "two columns":
        return int(row.amount) * GRAMS["lb"] + row.ounces * GRAMS["oz"]
    return row.amount * GRAMS[heading_unit(form) if form.units == "heading" else row.unit]


def told_date(row: Row, form: Form) -> object:
    if row.date_form == "serial" and form.kind == "xlsx":
        return row.day
    if row.date_form == "words":
        return f"{MONTHS[row.day.month - 1]} {row.day.day} {row.day.year}"
    if row.date_form == "numbers":
        parts = [row.day.month, row.day.day]
        return "/".join(
            map(str, [*(parts[::-1] if form.order is DateOrder.DAY_FIRST else parts), row.day.year])
        )
    return row.day.isoformat()


def can_be_dated(row: Row, form: Form, column: Sequence[Row]) -> bool:
    """Whether a date is clear by itself, by the settings, or by three of its column that show the order."""
    clear = row.day.day > 12 or row.day.day == row.day.month
    showing = sum(one.date_form == "numbers" and one.day.day > 12 for one in column)
    return row.date_form != "numbers" or form.order is not None or clear or showing >= 3


def placeable(row: Row, form: Form, column: Sequence[Row]) -> bool:
    return row.crop is not None and can_be_dated(row, form, column)


def cells(row: Row, form: Form) -> dict[str, object]:
    found: dict[str, object] = {"Date": told_date(row, form), "Veg": row.name, "Square(s)": row.square}
    amount: object = float(row.amount) if form.kind == "xlsx" else str(row.amount)
    if form.units == "two columns":
        found["Pounds"] = str(int(row.amount)) if row.weighed else "not weighed"
        found["Ounces"] = str(row.ounces) if row.weighed else ""
    elif form.units == "heading":
        found[f"Weight ({heading_unit(form)})"] = amount if row.weighed else "not weighed"
    elif form.units == "column":
        found |= {"Weight": amount if row.weighed else "Not weighed", "Unit": row.unit}
    else:
        found["Weight"] = f"{row.amount} {row.unit}" if row.weighed else "not weighed"
    return found | {"Weather": "=sun"}


def spreadsheet(rows: list[Row], form: Form) -> tuple[str, bytes]:
    """A spreadsheet of the rows, its columns in some order."""
    heads = list(cells(rows[0], form))
    turn = form.seed % len(heads)
    heads = heads[turn:] + heads[:turn]
    lines: list[list[object]] = [["Our harvest"]] if form.title else []
    lines.append(list(heads))
    for row in rows:
        lines += [[]] if form.blanks else []
        lines.append([cells(row, form)[head] for head in heads])
    if form.kind == "xlsx":
        book: Any = openpyxl.Workbook(write_only=True)
        sheet = book.create_sheet("Picked")
        for line in lines:
            sheet.append([value if value != "=sun" else "sun" for value in line])
        out = io.BytesIO()
        book.save(out)
        return "a.xlsx", out.getvalue()
    text = io.StringIO(newline="")
    sign = {"comma": ",", "semicolon": ";", "tab": "\t"}[form.kind]
    csv.writer(text, delimiter=sign).writerows(lines)
    return "a.csv", text.getvalue().encode("utf-8-sig" if form.seed % 2 else "utf-8")


def weighed_in(ledger: Path) -> list[tuple[str, str, Decimal | None]]:
    """Each row of a ledger: day, crop, grams."""
    if not ledger.exists():
        return []
    found = []
    for row in yaml.load(ledger.read_bytes(), Loader=LOADER):
        parts = re.findall(r"([0-9.]+) (lb|oz|kg|g)\b", row["weight"])
        assert parts or row["weight"] == "not weighed"
        total = sum((Decimal(amount) * GRAMS[unit] for amount, unit in parts), Decimal(0))
        crop = row.get("crop") or " + ".join(row["mixed"])
        found.append((row["date"], crop, total if parts else None))
    return found


@pytest.fixture(scope="module")
def books(tmp_path_factory: pytest.TempPathFactory) -> Books:
    files = {"garden.yaml": GARDEN, "2026/plan.yaml": PLAN, "2026/names.yaml": "beans: bean-bush\n"}
    return take_in.books(written(tmp_path_factory.mktemp("garden"), files))


@pytest.mark.parametrize(("typed", "fate"), [("beans", Fate.NEW), ("onions", Fate.UNPLACED)])
def test_a_general_name_is_settled_by_the_seasons_answer_alone(
    typed: str, fate: Fate, tmp_path: Path
) -> None:
    """Else a row of a whole summer is put to whichever crop of the name happened to stand that day."""
    names, plan = "beans: bean-bush\n", "- {crop: onion-bulb, tag: ON1, squares: long/A1, set out: Apr 1}\n"
    written(tmp_path, {"garden.yaml": GARDEN, "2026/plan.yaml": plan, "2026/names.yaml": names})
    sheet = f"Date,Crop,Weight (oz)\n2026-06-01,{typed},9\n".encode()
    (line,) = take_in.look(take_in.books(tmp_path), "a.csv", sheet, Settings()).lines
    assert line.fate is fate
    assert bool(line.words) is (fate is Fate.UNPLACED)


def _looked_at(folder: Path, plan: str, sheet: str) -> take_in.Intake:
    for name, text in {"garden": GARDEN, "2026/plan": plan}.items():
        path = folder / "content" / f"{name}.yaml"
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    return take_in.look(take_in.books(folder), "a.csv", sheet.encode(), Settings())


@pytest.mark.parametrize("typed", ["TO1", "to1", "KA1"])
def test_a_tag_where_the_crop_stands_is_the_tag(typed: str, tmp_path: Path) -> None:
    """Fails where no crop is called TO1, and a tomato is offered in its place without the planting."""
    found = _looked_at(tmp_path, PLAN, f"Date,Crop,Weight (oz)\n2026-08-01,{typed},9\n")
    (line,) = found.lines
    assert (line.fate, line.words) == (Fate.NEW, "")
    assert line.slip is not None
    assert line.slip.weighing.tag == typed.upper()


LONGER_THAN_ANY = ("x" * 2_500, "9" * 2_500, "a b " * 700)


@pytest.mark.parametrize(
    "heading",
    ["Date", "Crop", "Variety", "Tag", "Square", "Bed", "Weight (oz)", "Count", "To", "As", "Notes"],
)
def test_a_cell_longer_than_any_text_may_be_keeps_its_row_out_and_says_so(
    heading: str, tmp_path: Path
) -> None:
    usual = {"Date": "2026-08-01", "Crop": "kale", "Weight (oz)": "9"} | {heading: ""}
    rows = [list(usual), *([*({**usual, heading: cell}.values())] for cell in LONGER_THAN_ANY)]
    found = _looked_at(tmp_path, PLAN, "".join(f"{','.join(row)}\n" for row in rows))
    assert [line.fate for line in found.lines] == [Fate.UNPLACED] * len(LONGER_THAN_ANY)
    assert all(0 < len(line.words) < 500 for line in found.lines)


@pytest.mark.parametrize("kind", ["tomato-indeterminate", "tomato-determinate"])
def test_of_a_general_name_the_crop_that_the_season_has_is_offered_first(kind: str, tmp_path: Path) -> None:
    """Fails where a tired person who takes the first answer puts a row to a crop that never stood."""
    plan = f"- {{crop: {kind}, tag: TO1, squares: long/A1, sow: Mar 1}}\n"
    found = _looked_at(tmp_path, plan, "Date,Crop,Weight (oz)\n2026-08-01,Toms,9\n")
    (open_name,) = found.unknown
    assert open_name.near[0] == kind
    assert open_name.where.endswith(f"Toms: {kind}")


def by_crop(rows: list[tuple[str, str, Decimal | None]]) -> dict[str, Decimal]:
    totals: dict[str, Decimal] = {}
    for _day, crop, weight in rows:
        totals[crop] = totals.get(crop, Decimal(0)) + (weight or 0)
    return totals


@pytest.fixture(scope="module")
def any_weight() -> Iterator[None]:
    """Believe every weight: those of chance are out of all proportion to four squares."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(Belief, "beyond", lambda _self, _weighing: "")
        yield


@pytest.mark.usefixtures("any_weight")
@settings(max_examples=SHEETS)
@given(st.lists(ROWS, min_size=1, max_size=5), FORMS, st.integers(0, 5))
def test_spreadsheets_total_exactly_or_report_the_row(
    books: Books, rows: list[Row], form: Form, first: int
) -> None:
    season = books.root / "content" / "2026"
    for name in ("harvest.yaml", "taken-in.yaml"):
        (season / name).unlink(missing_ok=True)
    for left in books.root.glob("*.skipped.csv"):
        left.unlink()
    said = Settings(order=form.order)
    wanted = [row for row in rows if placeable(row, form, rows)]
    exact = [(row.day.isoformat(), row.crop or "", grams(row, form)) for row in wanted]
    # First the sheet as it was when it had fewer rows, then all of it; or all of it twice.
    longer = 0 < first < len(rows)
    whole = (rows, *spreadsheet(rows, form))
    for part, name, data in ((rows[:first], *spreadsheet(rows[:first], form)) if longer else whole, whole):
        intake = take_in.look(books, name, data, said)
        reported = [line for line in intake.lines if line.fate is Fate.UNPLACED]
        assert len(intake.lines) == len(part), "a row is not in the table"
        assert len(reported) == sum(not placeable(row, form, part) for row in part)
        assert all(line.words for line in reported), "a row is not taken, and nothing says why"
        assert intake.of(Fate.CHANGED) == ()
        if intake.of(Fate.NEW):
            take_in.write_all(books, (intake,), books.root / name)
    assert longer or intake.of(Fate.NEW) == ()
    found = weighed_in(season / "harvest.yaml")
    assert sorted(found, key=repr) == sorted(exact, key=repr), "a row is lost, doubled, or weighs otherwise"
    assert by_crop(found) == by_crop(exact)
