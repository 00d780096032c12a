"""Tables for reuse: as RFC 4180 and the Table Schema have them, nothing of the records lost or made up."""

from __future__ import annotations

import csv
import io
import json
import warnings
from datetime import date
from decimal import Decimal
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tallybed.garden.units import GRAM, OUNCE, POUND, Weight
from tallybed.pages.files.data import ledger as data_ledger
from tallybed.pages.files.data.datasets import datasets
from tallybed.pages.files.data.tables import Column, ColumnType, Dataset, number, rows_of, text, weight_in
from tallybed.pages.frame.addresses import planting_name
from tallybed.publishing.files.data_package import csv_of, data_files, json_of
from tallybed.reckoning.squares.shares import square_days
from tallybed.reckoning.squares.stood import stood
from tallybed.reckoning.year import Years
from tests.pages.gardens import site_of, written

with warnings.catch_warnings():
    warnings.simplefilter("ignore")  # the library's own imports are old
    from frictionless import Package

GARDEN = """\
name: Plank End
latitude: 41
longitude: -80
season: {start: Mar 1, end: Oct 31}
address: https://plank.example/
licence: CC BY 4.0
licence address: https://creativecommons.org/licenses/by/4.0/
beds:
  - {name: plank, length: 4 squares, width: 2 squares}
"""
FILES = {
    "garden.yaml": GARDEN,
    "2026/plan.yaml": "- {crop: carrot, tag: CA1, variety: Long, squares: plank/A1:B1, sow: Apr 20,"
    " until: Aug 1, spacing: 2 in, note: =1+1}\n"
    "- {crop: okra, squares: plank/C1, sow: May 20, dropped: May 22, because: '-cold, \"wet\"'}\n"
    "- {crop: onion-bulb, tag: ON1, squares: plank/D1, set out: Apr 4}\n",
    "2026/log/2026-04-20-in.md": "---\ntitle: In\ndate: 2026-04-20\nby: A. Person\ndone:\n"
    "  - {sow: carrot, tag: CA1, squares: plank/A1:B1, minutes: 10, people: 3}\n"
    '  - {weed: bed, squares: plank/D1, note: "\'tis done"}\n---\nIn.\n',
    "2026/log/2026-05-01-later.md": "---\ntitle: Later\ndate: 2026-05-01\nunfinished: yes\ndone:\n"
    "  - {water: bed, note: not to be read yet}\n---\nSecret.\n",
    "2026/harvest.yaml": "- {date: 2026-06-20, tag: CA1, weight: 1 lb 6 oz, count: 9,"
    " to: {food pantry: 1 lb, kitchen: the rest}}\n"
    "- {date: 2026-06-21, mixed: [carrot, chard], weight: about 1/3 lb}\n"
    "- {date: 2026-06-22, crop: basil, weight: not weighed, note: '@home'}\n"
    "- {date: 2026-07-01, tag: ON1, weight: 2 kg}\n"
    "- {date: 2026-07-01, tag: ON1, as: dry, state: cured, weighed: 2026-07-20, weight: 1.5 kg}\n",
}


@pytest.fixture(scope="module")
def small(tmp_path_factory: pytest.TempPathFactory) -> Years:
    return site_of(written(tmp_path_factory.mktemp("garden"), FILES))


def files_of(years: Years) -> dict[str, bytes]:
    """Return the data of the seasons that are still open, by path."""
    return {path: data for year in years.own for path, data in data_files(year).items()}


@pytest.fixture(scope="module", params=["small", "the_demo"])
def files(request: pytest.FixtureRequest) -> dict[str, bytes]:
    return files_of(request.getfixturevalue(request.param))


def table(data: bytes) -> list[dict[str, str]]:
    rows = list(csv.reader(io.StringIO(data.decode("utf-8"), newline=""), strict=True))
    return [dict(zip(rows[0], row, strict=True)) for row in rows[1:]]


def put(files: dict[str, bytes], folder: Path) -> list[Path]:
    for path, data in files.items():
        (folder / path).parent.mkdir(parents=True, exist_ok=True)
        (folder / path).write_bytes(data)
    return sorted(folder.glob("*/data/datapackage.json"))


def test_frictionless_finds_the_package_valid(files: dict[str, bytes], tmp_path: Path) -> None:
    packages = put(files, tmp_path)
    assert packages
    for path in packages:
        report = Package(str(path)).validate()
        assert report.valid, report.flatten(["rowNumber", "fieldName", "type", "note"])
        described = json.loads(path.read_text(encoding="utf-8"))
        tables = {resource["name"] for resource in described["resources"]}
        papers = {"ledger", "given", "plan", "stood", "beds", "log"}
        assert papers | {"row-ground", "areas", "planting-yields", "work", "water"} <= tables
        assert report.stats["tasks"] == len(tables)


def test_frictionless_would_find_a_changed_file(files: dict[str, bytes], tmp_path: Path) -> None:
    path = next(iter(put(files, tmp_path)))
    ledger = path.with_name("ledger.csv")
    ledger.write_bytes(ledger.read_bytes().replace(b",fresh,", b",rotten,", 1))
    kinds = {error for (error,) in Package(str(path)).validate().flatten(["type"])}
    assert {"hash-count", "constraint-error"} <= kinds


def test_lines_and_fields_are_as_rfc_4180_has_them(files: dict[str, bytes]) -> None:
    # Section 2: lines end in CR LF, every line has as many fields. No byte-order mark is meant.
    for path, data in files.items():
        if path.endswith(".csv"):
            assert data.endswith(b"\r\n"), path
            assert not data.startswith(b"\xef\xbb\xbf"), path
            rows = list(csv.reader(io.StringIO(data.decode("utf-8"), newline=""), strict=True))
            assert {len(row) for row in rows} == {len(rows[0])}, path


def test_csv_and_json_say_the_same(files: dict[str, bytes]) -> None:
    for path in [path for path in files if path.endswith(".csv")]:
        other = json.loads(files[path.replace(".csv", ".json")], parse_float=Decimal)
        rows = table(files[path])
        assert len(other) == len(rows)
        for row, same in zip(rows, other, strict=True):
            assert list(row) == list(same)
            assert {name: cell.removeprefix("'") for name, cell in row.items()} == {
                name: "" if value is None else str(value).lower() if isinstance(value, bool) else str(value)
                for name, value in same.items()
            }


def test_the_ledger_by_hand(small: Years) -> None:
    rows = table(files_of(small)["2026/data/ledger.csv"])
    # 1 lb 6 oz = 22 × 28.349523125 g (NIST Handbook 44, appendix C) = 623.68950875 g, to a milligram.
    assert rows[0] == {
        "row": "1",
        "date": "2026-06-20",
        "week": "2026-W25",
        "crop": "carrot",
        "crop_name": "carrots",
        "mixed": "false",
        "variety": "",
        "planting": "CA1",
        "squares": "",
        "weighed": "true",
        "grams": "623.69",
        "pounds": "1.375",
        "estimated": "false",
        "count": "9",
        "form": "",
        "state": "fresh",
        "weighed_on": "",
        "in_total": "true",
        "to": "food pantry; kitchen",
        "to_grams": "453.592; 170.097",
        "note": "",
    }
    mixed = rows[1]
    assert (mixed["crop"], mixed["crop_name"], mixed["mixed"]) == ("", "carrots; chard", "true")
    # A third of 453.59237 g, rounded to a milligram.
    assert (mixed["grams"], mixed["pounds"], mixed["estimated"]) == ("151.197", "0.333333", "true")
    unweighed = rows[2]
    assert [unweighed[name] for name in ("weighed", "grams", "pounds", "note")] == ["false", "", "", "'@home"]
    assert [row["in_total"] for row in rows[3:]] == ["true", "false"]
    assert rows[4]["weighed_on"] == "2026-07-20"


def test_the_plan_by_hand(small: Years) -> None:
    rows = {row["planting"]: row for row in table(files_of(small)["2026/data/plan.csv"])}
    assert sorted(rows) == ["CA1", "ON1", "okra"]
    carrot = rows["CA1"]
    assert (carrot["squares"], carrot["square_count"], carrot["spacing"]) == ("plank/A1:B1", "2", "50.8")
    assert (carrot["start"], carrot["begins"], carrot["until"]) == ("sow", "2026-04-20", "2026-08-01")
    assert (carrot["until_told"], rows["ON1"]["until"], rows["ON1"]["until_told"]) == (
        "true",
        "2026-11-01",
        "false",
    )
    assert carrot["note"] == "'=1+1", "a spreadsheet would count this"
    assert {name: cell for name, cell in carrot.items() if cell} == {
        "planting": "CA1",
        "crop": "carrot",
        "crop_name": "carrots",
        "variety": "Long",
        "squares": "plank/A1:B1",
        "square_count": "2",
        "start": "sow",
        "begins": "2026-04-20",
        "until": "2026-08-01",
        "until_told": "true",
        "spacing": "50.8",
        "note": "'=1+1",
    }
    assert (rows["okra"]["dropped"], rows["okra"]["because"]) == ("2026-05-22", '\'-cold, "wet"')


def test_the_log_by_hand(small: Years) -> None:
    rows = table(files_of(small)["2026/data/log.csv"])
    assert [(row["row"], row["date"], row["verb"], row["subject"]) for row in rows] == [
        ("1", "2026-04-20", "sow", "carrot"),
        ("2", "2026-04-20", "weed", "bed"),
        ("3", "2026-05-01", "water", "bed"),
    ]
    assert {name: cell for name, cell in rows[0].items() if cell} == {
        "row": "1",
        "date": "2026-04-20",
        "visit": "2026-04-20-in",
        "verb": "sow",
        "subject": "carrot",
        "crop": "carrot",
        "crop_name": "carrots",
        "planting": "CA1",
        "squares": "plank/A1:B1",
        "minutes": "10",
        "people": "3",
        "person_minutes": "30",
    }
    assert [rows[1][name] for name in ("minutes", "people", "person_minutes")] == ["", "", ""]
    assert rows[1]["note"] == "''tis done", "one apostrophe more, so that taking one off gives it back"


def test_where_it_went_by_hand(small: Years) -> None:
    rows = table(files_of(small)["2026/data/given.csv"])
    # 1 lb is 453.59237 g; the rest of 1 lb 6 oz is 6 oz, 170.09713875 g.
    assert rows == [
        {"row": "1", "to": "food pantry", "grams": "453.592"},
        {"row": "1", "to": "kitchen", "grams": "170.097"},
    ]


def test_one_place_has_one_name_and_what_was_not_weighed_has_no_weight(tmp_path: Path) -> None:
    ledger = (
        "- {date: 2026-06-20, crop: carrot, weight: 1 lb, to: Food Pantry}\n"
        "- {date: 2026-06-21, crop: carrot, weight: 1 lb, to: food pantry}\n"
        "- {date: 2026-06-22, crop: carrot, weight: 1 lb, to: food pantry}\n"
        "- {date: 2026-06-23, crop: carrot, weight: not weighed, to: the crew}\n"
    )
    one = site_of(written(tmp_path, {"garden.yaml": GARDEN, "2026/harvest.yaml": ledger}))
    rows = table(files_of(one)["2026/data/given.csv"])
    assert [row["to"] for row in rows] == ["food pantry"] * 3 + ["the crew"]
    assert rows[3]["grams"] == ""


def test_what_stood_by_hand(small: Years) -> None:
    """CA1 was sown on 20 April and is seen that day; it was picked, without squares told, on 20 June."""
    rows = table(files_of(small)["2026/data/stood.csv"])
    own = [row for row in rows if (row["planting"], row["square"]) == ("CA1", "A1")]
    assert [(row["first"], row["last"], row["known"]) for row in own] == [
        ("2026-04-20", "2026-04-20", "seen"),
        ("2026-04-21", "2026-06-20", "implied"),
        ("2026-06-21", "2026-07-20", "supposed"),
    ]
    # The plan has no variety of the onions; the okra was dropped, yet supposed for two days.
    assert own[0] == {
        "planting": "CA1",
        "crop": "carrot",
        "variety": "Long",
        "bed": "plank",
        "square": "A1",
        "share": "1",
        "first": "2026-04-20",
        "last": "2026-04-20",
        "known": "seen",
    }
    assert max(row["last"] for row in rows) == "2026-07-20", "days after the newest record are not told"


def test_the_beds_by_hand(tmp_path: Path) -> None:
    beds = (
        "  - {name: plank, length: 4 squares, width: 2 squares, square: 18 in,"
        " path: [{side: 1, width: 3 ft, share: 1/3}], run-out: [{side: D, squares: D1:D2, reach: 5 ft}]}\n"
    )
    garden = GARDEN.replace("  - {name: plank, length: 4 squares, width: 2 squares}\n", beds)
    plan = "- {crop: squash-winter, squares: plank/D1, set out: May 20, run-out: D}\n"
    log = "---\ntitle: In\n---\nIn.\n"
    files = {"garden.yaml": garden, "2026/plan.yaml": plan, "2026/log/2026-06-01-in.md": log}
    files["2025/plan.yaml"] = "- {crop: carrot, squares: plank/A1, sow: Apr 20}\n"
    found = files_of(site_of(written(tmp_path, files)))
    # Squares of 1.5 ft: 8 × 2.25 = 18; the run-out 3 ft wide × 5 = 15; the path 6 ft × 3 ÷ 3 = 6.
    assert table(found["2026/data/beds.csv"]) == [
        {
            "bed": "plank",
            "title": "plank",
            "squares": "8",
            "side_in": "18",
            "area_sqft": "18",
            "run_out_sqft": "15",
            "path_share_sqft": "6",
            "first": "2026-03-01",
            "last": "2026-06-01",
        }
    ]
    (before,) = table(found["2025/data/beds.csv"])
    assert (before["run_out_sqft"], before["last"]) == ("0", "2025-10-31"), "no vine was led out in 2025"


def test_every_planting_has_one_name_in_all_files_with_a_row_in_the_plan_or_without(tmp_path: Path) -> None:
    log = (
        "---\ntitle: In\ndate: 2026-04-20\ndone:\n"
        "  - {sow: carrot, tag: COM1, squares: plank/A1}\n"
        "  - {set out: beans, squares: plank/C1, note: a gift}\n"
        "  - {treat: spinosad, wait: 3 days, squares: 'plank/A1, C1'}\n---\nIn.\n"
    )
    ledger = (
        "- {date: 2026-06-20, crop: carrot, squares: plank/A1, weight: 1 lb}\n"
        "- {date: 2026-06-20, crop: beans, squares: plank/C1, weight: 1 lb}\n"
    )
    files = {"garden.yaml": GARDEN, "2026/log/2026-04-20-in.md": log, "2026/harvest.yaml": ledger}
    years = site_of(written(tmp_path, files))
    found = {
        name: table(files_of(years)[f"2026/data/{name}.csv"])
        for name in ("ledger", "stood", "log", "treatments")
    }
    # A tag keeps its name though its page's folder has a hyphen more (COM1 names a device on some systems).
    assert {row["planting"] for row in found["stood"]} == {"COM1", "beans"}
    assert [row["planting"] for row in found["ledger"]] == ["COM1", "beans"]
    assert [row["planting"] for row in found["log"]] == ["COM1", "beans", ""]
    assert found["treatments"][0]["plantings"] == "COM1; beans"
    assert {one for year in years.all for one in map(planting_name, year.plantings)} == {"COM1", "beans"}


def test_the_parts_of_a_square_add_up_to_the_days_that_pages_reckon_with(the_demo: Years) -> None:
    for year in the_demo.all:
        days = square_days(year.holding, year.today)
        told = dict.fromkeys(days, Fraction(0))
        for one in stood(year.holding, year.today):
            told[one.planting] += one.share * ((one.last - one.first).days + 1)
        assert told == days


def test_what_may_not_be_read_and_who_was_there_stay_out(small: Years) -> None:
    files = files_of(small)
    for path, data in files.items():
        for word in (b"not to be read", b"later", b"Secret", b"Person"):
            assert word not in data, path


def test_the_descriptor_says_whose_it_is_and_how_to_cite_it(small: Years) -> None:
    told = json.loads(files_of(small)["2026/data/datapackage.json"])
    assert told["name"] == "plank-end-2026"
    assert told["version"] == "2026-07-20"
    assert told["created"] == "2026-07-20T00:00:00Z", "the newest day on record, never the clock"
    assert told["homepage"] == "https://plank.example/2026/data/"
    assert told["licenses"] == [
        {
            "name": "CC-BY-4.0",
            "title": "CC BY 4.0",
            "path": "https://creativecommons.org/licenses/by/4.0/",
        }
    ]
    assert (
        "To cite: Plank End: plan, log and ledger of 2026, as of 20 July 2026. https://plank.example/2026/data/"
    ) in told["description"]
    grams = next(one for one in told["resources"][0]["schema"]["fields"] if one["name"] == "grams")
    assert (grams["type"], grams["unit"], grams["constraints"]) == ("number", "g", {"minimum": 0})


def test_only_the_papers_that_are_there_become_files(tmp_path: Path) -> None:
    one = site_of(written(tmp_path, {"garden.yaml": GARDEN, "2026/plan.yaml": "[]"}))
    found = files_of(one)
    tables = ("beds", "plan", "stood")
    names = {"datapackage.json", *(f"{name}.{ending}" for name in tables for ending in ("csv", "json"))}
    assert set(found) == {f"2026/data/{name}" for name in names}
    assert found["2026/data/plan.json"] == b"[]\n"
    assert found["2026/data/stood.json"] == b"[]\n"


@given(st.fractions(0, 10**14, max_denominator=10**6))
def test_a_weight_is_exact_to_a_milligram_in_both_units(nanograms: Fraction) -> None:
    weight = Weight(nanograms)
    milligram = Fraction(10**6)
    for unit in (GRAM, POUND):
        told = Fraction(weight_in(weight, unit)) * unit.size
        assert abs(told - nanograms) <= milligram / 2


@given(st.integers(0, 5000))
def test_whole_ounces_come_back_as_they_were(ounces: int) -> None:
    told = Fraction(weight_in(Weight.of(ounces, OUNCE), POUND))
    assert round(told * 16) == ounces


_TEXT = st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\0"), min_size=1)


@given(st.lists(st.tuples(_TEXT, st.decimals(0, 10**6, places=3)), max_size=4))
def test_every_text_and_number_comes_back(rows: list[tuple[str, Decimal]]) -> None:
    columns: tuple[Column[tuple[str, Decimal]], ...] = (
        text("text", "", lambda row: row[0]),
        number("number", "", "", lambda row: row[1]),
    )
    one = Dataset(name="x", title="", meaning="", key="text", columns=columns, rows=rows_of(columns, rows))
    back = [(row["text"].removeprefix("'"), Decimal(row["number"])) for row in table(csv_of(one))]
    assert back == rows
    assert [(row["text"], row["number"]) for row in json.loads(json_of(one), parse_float=Decimal)] == rows


def test_every_row_has_a_value_of_its_type_for_every_column(the_demo: Years) -> None:
    types = {
        ColumnType.STRING: str,
        ColumnType.INTEGER: int,
        ColumnType.NUMBER: Decimal,
        ColumnType.BOOLEAN: bool,
        ColumnType.DATE: date,
    }
    for year in the_demo.all:
        for one in datasets(year):
            assert one.rows, one.name
            assert all(column.meaning for column in one.columns), f"{one.name}: a column has no meaning"
            for row in one.rows:
                for column, value in zip(one.columns, row, strict=True):
                    assert value != "", (one.name, column.name)
                    assert value is not None or not column.required, (one.name, column.name)
                    assert value is None or type(value) is types[column.kind], (one.name, column.name)


def test_a_column_is_one_row_with_its_value(small: Years, monkeypatch: pytest.MonkeyPatch) -> None:
    """Fails where a new column's head, value or description has to be put in a second place."""
    more: Column[data_ledger.LedgerRecord] = text(
        "weekday", "Day of the week", lambda one: f"{one.weighing.day:%w}"
    )
    monkeypatch.setattr(data_ledger, "COLUMNS", (*data_ledger.COLUMNS, more))
    files = files_of(small)
    # 20 June 2026 is a Saturday, the day numbered 6 from Sunday on.
    assert table(files["2026/data/ledger.csv"])[0]["weekday"] == "6"
    assert json.loads(files["2026/data/ledger.json"])[0]["weekday"] == "6"
    described = json.loads(files["2026/data/datapackage.json"])["resources"][0]["schema"]["fields"]
    assert described[-1] == {"name": "weekday", "type": "string", "description": "Day of the week"}
