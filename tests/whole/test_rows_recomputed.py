"""Every figure of a season beside rows, reckoned by other code from the raw files, to the last shown digit.

For the demonstration garden, and for twenty gardens made up by chance.
"""

from __future__ import annotations

from collections import defaultdict
from datetime import date
from fractions import Fraction
from pathlib import Path
from statistics import median
from typing import Any

import pytest

from tallybed.pages.rows.parts import RowsPart
from tallybed.pages.season import rows
from tallybed.pages.tables.tables import Row, Table
from tallybed.reading.folder.garden_folder import read
from tallybed.reckoning.rows.season import crop_verdict
from tallybed.reckoning.year import Years
from tallybed.tasks.site.reckoned import reckoned
from tests.pages.gardens import every
from tests.tools import ROOT
from tests.whole import rows_reckoner as other
from tests.whole.made_up import garden as made_up
from tests.whole.reckoner import grams, season
from tests.whole.rows_reckoner import GALLON, NOISE, POUND, Sums, shown

YEARS = ("2024", "2025", "2026")
PRINTED = other.printed(ROOT)
SQUARE_FOOT = Fraction("0.3048") ** 2


def tables_of(years: Years, name: str) -> tuple[dict[str, Table], str]:
    """The tables of a season's page by their ident, and its sentence; laid out once."""
    return years.kept(("recomputed", name), lambda: _tables_of(years, name))


def _tables_of(years: Years, name: str) -> tuple[dict[str, Table], str]:
    page = next(one for one in every(rows.pages, years) if one.path == f"{name}/rows/index.html")
    parts: Any = page.data["parts"]
    found = {}
    for part in parts:
        assert isinstance(part, RowsPart)
        for table in (*part.tables, *(table for _words, table in part.folded)):
            found[table.ident] = table
    return found, f"{page.data['verdict']} {page.data['said']}"


def cells(row: Row) -> list[str]:
    return [cell.text for cell in row.cells]


def by_head(table: Table) -> dict[str, list[str]]:
    return {row.cells[0].text: cells(row)[1:] for row in table.rows}


def to(low: str, high: str) -> str:
    return low if low == high else f"{low} to {high}"


def demo_sums(year: str) -> tuple[Sums, dict[str, Fraction]]:
    """Row ground, and pounds by crop, from the raw ledger."""
    weights: dict[str, Fraction] = defaultdict(Fraction)
    unweighed = False
    for (crop, _month), cell in season(ROOT, year).items():
        weights[crop] += Fraction(cell.grams) / POUND
        unweighed |= bool(cell.unweighed)
    return other.row_ground(dict(weights), unweighed, PRINTED), dict(weights)


def area_shown(value: Fraction, *, metric: bool) -> str:
    """A tenth; under ten square metres a hundredth."""
    return shown(value, 2 if metric and value < 10 else 1)


def check_row_ground(
    tables: dict[str, Table], said: str, sums: Sums, ground: other.Ground, *, metric: bool, over: bool
):
    """The crops' table, the grounds' table and the sentence."""
    area_of = SQUARE_FOOT if metric else Fraction(1)
    large = Fraction(1000) / POUND if metric else Fraction(1)
    per_area = POUND / 1000 / SQUARE_FOOT if metric else Fraction(1)
    if sums.crops:
        table = tables["t-row-ground"]
        found = {row.cells[0].to.split("/")[-2]: row for row in table.rows}
        assert set(found) == set(sums.crops)
        for crop, (pounds, low, middle, high) in sums.crops.items():
            row = cells(found[crop])
            if Fraction(shown(pounds / large, 2)):
                assert row[1] == shown(pounds / large, 2), crop
            least, most = PRINTED[crop][0] * per_area, PRINTED[crop][2] * per_area
            assert row[2] == shown(PRINTED[crop][1] * per_area, 2), crop
            span = to(shown(least, 2), shown(most, 2)) if shown(least, 2) != shown(most, 2) else ""
            assert found[crop].cells[2].note == span, crop
            assert row[3] == area_shown(middle * area_of, metric=metric), crop
            lowest, highest = (area_shown(one * area_of, metric=metric) for one in (low, high))
            assert found[crop].cells[3].note == (to(lowest, highest) if lowest != highest else ""), crop
        (foot,) = table.foot
        assert cells(foot)[1:4] == [
            shown(sums.covered / large, 2),
            "",
            area_shown(sums.middle * area_of, metric=metric),
        ]
        lowest, highest = (area_shown(one * area_of, metric=metric) for one in (sums.low, sums.high))
        assert foot.cells[3].note == (to(lowest, highest) if lowest != highest else "")
    both = ground.squares + ground.run_outs + ground.path
    expected = [("the squares", ground.squares)]
    if ground.run_outs:
        expected.append(("the squares and their run-outs", ground.squares + ground.run_outs))
    if ground.path:
        expected.append(("the squares and their share of path", ground.squares + ground.path))
    if ground.run_outs and ground.path:
        expected.append(("the squares, their run-outs and their share of path", both))
    grounds = tables["t-grounds"].rows if sums.crops else ()
    assert [cells(row)[:4] for row in grounds] == [
        [
            of,
            area_shown(area * area_of, metric=metric),
            shown(sums.middle / area, 2),
            to(shown(sums.low / area, 2), shown(sums.high / area, 2)),
        ]
        for of, area in (expected if sums.crops else ())
    ]
    words = {
        "more": "More than is printed for ordinary rows.",
        "about the same": "About the same as ordinary rows.",
        "less": "Less than is printed for ordinary rows.",
        "too little to tell": "Too little to tell.",
    }
    assert said.startswith(words[other.verdict(sums, both, over=over)])
    if sums.crops:
        unit = "m²" if metric else "sq ft"
        least = "at least" if sums.unweighed else "about"
        assert f"needed {least} {area_shown(sums.middle * area_of, metric=metric)} {unit}" in said
        low, high = (area_shown(one * area_of, metric=metric) for one in (sums.low, sums.high))
        assert f"({low} to {high})" in said
        assert f"{area_shown(both * area_of, metric=metric)} {unit}" in said


def check_effort(
    root: Path, name: str, tables: dict[str, Table], weights: dict[str, Fraction], *, metric: bool
):
    """Work, water, costs and prices."""
    folder, garden = root / "content" / name, other.load(root / "content" / "garden.yaml")
    squares = other.ground(garden, []).squares * (SQUARE_FOOT if metric else 1)
    by_verb, by_month, _timed, _lines = other.work(folder)
    work = tables["t-work"]
    assert by_head(work) == {
        verb: [f"{minutes:,}", shown(minutes / squares, 1)] for verb, minutes in by_verb.items()
    }
    whole = sum(by_verb.values())
    in_all = [f"{whole:,}", shown(whole / squares, 1)]
    assert [cells(row)[1:] for row in work.foot] == ([in_all] if len(by_verb) > 1 else [])
    assert [cells(row)[1] for row in tables["t-work-months"].rows] == [
        f"{by_month[month]:,}" for month in sorted(by_month)
    ]
    litres, measured, _lines = other.water(folder, garden)
    total = sum(weights.values()) / (Fraction(1000) / POUND if metric else 1)
    if measured:
        amount = litres if metric else litres / GALLON
        (row,) = tables["t-water"].rows
        over = shown(amount / total, 2) if total else ""
        assert cells(row)[1:] == [shown(amount, 1), shown(amount / squares, 2), over]
    else:
        assert "t-water" not in tables
    at_once, spread, by_purpose = other.costs(root / "content", name)
    amount, priced = other.value(folder, weights)
    money = by_head(tables["t-money"])
    for words, cost in (
        ("What it cost, with its part of what is spread", at_once + spread),
        *([("Without what is spread over years", at_once)] if (folder / "costs.yaml").exists() else []),
    ):
        each = dollars(cost / total) if total else ""
        assert money[words] == [dollars(cost), each, dollars(cost / squares)]
    per = dollars(amount / (priced / (Fraction(1000) / POUND if metric else 1))) if priced else ""
    assert money["What the produce would have cost"] == [dollars(amount), per, dollars(amount / squares)]
    if by_purpose:
        assert by_head(tables["t-purposes"]) == {
            purpose: [dollars(part)] for purpose, part in by_purpose.items()
        }


def dollars(amount: Fraction) -> str:
    whole, cents = shown(amount, 2).split(".")
    return f"${int(whole):,}.{cents}"


# --- the demonstration ---------------------------------------------------------------------------------


@pytest.mark.parametrize("name", YEARS)
def test_the_row_ground_of_the_demonstration(name: str, the_demo: Years):
    tables, said = tables_of(the_demo, name)
    folder = ROOT / "content" / name
    ground = other.ground(other.load(ROOT / "content" / "garden.yaml"), other.load(folder / "plan.yaml"))
    sums, _weights = demo_sums(name)
    check_row_ground(tables, said, sums, ground, metric=False, over=name != "2026")


@pytest.mark.parametrize(
    ("name", "middle", "low", "high"),
    [("2024", 92.8, 73, 132), ("2026", 82.8, 67, 119), ("2025", 106.8, 89, 146)],
)
def test_the_row_ground_that_is_known(name: str, middle: float, low: int, high: int):
    """The figures that other code gives, kept here so that a change of ledger or library is seen."""
    sums, _weights = demo_sums(name)
    assert (round(float(sums.middle), 1), round(sums.low), round(sums.high)) == (middle, low, high)


@pytest.mark.parametrize("name", YEARS)
def test_what_a_season_of_the_demonstration_took(name: str, the_demo: Years):
    tables, _said = tables_of(the_demo, name)
    check_effort(ROOT, name, tables, demo_sums(name)[1], metric=False)


def test_the_timed_lines_of_the_demonstration():
    _by_verb, _by_month, timed, lines = other.work(ROOT / "content" / "2026")
    assert (timed, lines) == (15, 146)


@pytest.mark.parametrize("name", YEARS)
def test_plantings_of_a_crop_grown_once_in_a_season(name: str, the_demo: Years):
    """A crop with one row in the plan and no loose picking: all its weight is that planting's."""
    folder = ROOT / "content" / name
    plan, ledger = other.load(folder / "plan.yaml"), other.load(folder / "harvest.yaml")
    _sums, weights = demo_sums(name)
    table = tables_of(the_demo, name)[0]["t-plantings"]
    found = {row.cells[0].to: cells(row) for row in table.rows if row.cells[0].to}
    beds = other.ground(other.load(ROOT / "content" / "garden.yaml"), plan).of_bed
    checked = 0
    for crop in PRINTED:
        own = [row for row in plan if row["crop"] == crop]
        kind = crop.split("-")[0]
        loose = [
            row
            for row in ledger
            if row.get("crop", "").startswith(kind) and not {"squares", "tag"} & set(row)
        ]
        if len(own) != 1 or loose or crop not in weights:
            continue
        row, squares = own[0], other.squares(own[0]["squares"])
        bed = beds[next(iter(squares))[0]]
        started = {
            line["squares"]
            for _day, line in other.done(folder)
            if line.get("tag") == row["tag"] and {"sow", "set out", "move"} & set(line) and "squares" in line
        }
        if (started and started != {row["squares"]}) or "run-out" in row:
            continue
        shown_row = found[f"{name}/plants/{row['tag']}/index.html"]
        area = bed["side"] ** 2 * len(squares)
        whole = area + bed["path"] * len(squares)
        assert shown_row[2:6] == [
            shown(weights[crop], 2),
            shown(whole, 1),
            shown(weights[crop] / whole, 2),
            shown(weights[crop] / area, 2),
        ], (name, crop)
        checked += 1
    assert checked >= 2


# --- twenty gardens made up by chance --------------------------------------------------------------------


@pytest.fixture(scope="module", params=range(20))
def chance(
    request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory
) -> tuple[Path, Years, bool]:
    root = made_up(tmp_path_factory.mktemp("garden"), request.param)
    found = read(root)
    assert found.garden is not None
    assert not [one for one in found.findings if one.severity == "error"], found.findings
    return root, reckoned(found.garden), request.param % 5 == 4


def weighed(root: Path, name: str) -> tuple[dict[str, Fraction], bool]:
    """Pounds by crop or bowl, and whether anything was not weighed."""
    folder = root / "content" / name
    crops = {row["tag"]: row["crop"] for row in other.load(folder / "plan.yaml")}
    weights: dict[str, Fraction] = defaultdict(Fraction)
    unweighed = False
    for row in other.load(folder / "harvest.yaml") or []:
        crop = crops[row["tag"]] if "tag" in row else row.get("crop", "a bowl")
        weight = grams(row["weight"])
        unweighed |= weight is None
        weights[crop] += Fraction(weight or 0) / POUND
    return dict(weights), unweighed


@pytest.mark.parametrize("name", ["2025", "2026"])
def test_gardens_of_chance_beside_rows(name: str, chance: tuple[Path, Years, bool]):
    root, years, metric = chance
    weights, unweighed = weighed(root, name)
    sums = other.row_ground(weights, unweighed, PRINTED)
    if not sums.whole:
        pytest.skip("nothing was weighed")
    tables, said = tables_of(years, name)
    plan = other.load(root / "content" / name / "plan.yaml")
    ground = other.ground(other.load(root / "content" / "garden.yaml"), plan)
    check_row_ground(tables, said, sums, ground, metric=metric, over=name == "2025")
    check_effort(root, name, tables, weights, metric=metric)


def every_planting(root: Path, today: date) -> list[tuple[str, str, other.Tagged]]:
    return [
        (name, tag, one) for name in ("2025", "2026") for tag, one in other.tagged(root, name, today).items()
    ]


def test_plantings_and_verdicts_of_gardens_of_chance(chance: tuple[Path, Years, bool]):
    root, years, metric = chance
    plantings = [one for one in every_planting(root, years.today) if one[2].crop in PRINTED]
    shown_ones = [one for one in plantings if one[2].pounds or one[2].free]
    if all(one.unknown for _name, _tag, one in shown_ones):
        pytest.skip("no planting to show")
    table = tables_of(years, "2026")[0]["t-plantings"]
    found = {row.cells[0].to: row for row in table.rows if row.cells[0].to}
    assert set(found) == {f"{name}/plants/{tag}/index.html" for name, tag, _one in shown_ones}
    large, per_area = (
        (Fraction(1000) / POUND, POUND / 1000 / SQUARE_FOOT) if metric else (Fraction(1), Fraction(1))
    )
    for name, tag, one in shown_ones:
        row = found[f"{name}/plants/{tag}/index.html"]
        whole = one.area + one.run_out + one.path
        ground = area_shown(whole * (SQUARE_FOOT if metric else 1), metric=metric)
        told = [
            shown(one.pounds / large, 2),
            ground,
            shown(one.pounds / whole * per_area, 2),
            shown(one.pounds / one.area * per_area, 2),
        ]
        assert cells(row)[2:6] == (["", ground, "", ""] if one.unknown else told), (name, tag)
        note = row.cells[2].note
        assert ("not weighed" in note) is one.unknown, (name, tag)
        assert ("at least" in note) is (one.unweighed and not one.unknown), (name, tag)
        assert ("still stands" in note) is (one.free is None), (name, tag)
        assert ("lost" in note) is one.lost, (name, tag)
    by_crop: dict[str, list[other.Tagged]] = defaultdict(list)
    for _name, _tag, one in shown_ones:
        by_crop[one.crop].append(one)
    for crop, own in by_crop.items():
        low, _middle, high = PRINTED[crop]
        assert str(crop_verdict(years, crop)) == other.crop_verdict(own, low, high), crop


def test_square_weeks_and_use_of_gardens_of_chance(chance: tuple[Path, Years, bool]):
    root, years, metric = chance
    year = next(one for one in years.all if one.name == "2025")
    weights, _unweighed = weighed(root, "2025")
    if not any(weights.values()):
        pytest.skip("nothing was weighed")
    tables, _said = tables_of(years, "2025")
    days: dict[str, int] = defaultdict(int)
    by_month: dict[int, int] = defaultdict(int)
    for one in other.tagged(root, "2025", years.today).values():
        assert one.free is not None
        span = range(one.first.toordinal(), one.free.toordinal())
        days[one.crop] += len(span) * len(one.squares)
        for ordinal in span:
            by_month[date.fromordinal(ordinal).month] += len(one.squares)
    found = {row.cells[0].to.split("/")[-2]: cells(row) for row in tables["t-square-weeks"].rows}
    grown = {crop for crop in days if weights.get(crop)}
    assert set(found) == grown
    for crop in grown:
        weeks = Fraction(days[crop], 7)
        a_week = weights[crop] / weeks * (POUND if metric else 16)
        assert found[crop][2:] == [shown(weeks, 1), shown(a_week, 0 if metric else 1)], crop
    squares = sum(len(bed.squares) for bed in year.garden.beds)
    used = [cells(row) for row in tables["t-use"].rows]
    lengths = {3: 31, 4: 30, 5: 31, 6: 30, 7: 31, 8: 31, 9: 30, 10: 31}
    assert [row[1:3] for row in used] == [
        [f"{by_month[month]:,}", f"{squares * length:,}"] for month, length in lengths.items()
    ]


def test_seasons_beside_each_other_in_gardens_of_chance(chance: tuple[Path, Years, bool]):
    root, years, metric = chance
    names = [name for name in ("2025", "2026") if (root / "content" / name / "harvest.yaml").exists()]
    sums = {name: other.row_ground(*weighed(root, name), PRINTED) for name in names}
    if any(not one.whole for one in sums.values()):
        pytest.skip("nothing was weighed in one of them")
    # Every picking of these gardens is before the day they are seen from, so both tables have all of it.
    tables, _said = tables_of(years, "2026")
    area_of, large = (SQUARE_FOOT, Fraction(1000) / POUND) if metric else (Fraction(1), Fraction(1))
    values = {
        "Weight, kg" if metric else "Weight, lb": ([one.whole / large for one in sums.values()], 1),
        "Row ground, m²" if metric else "Row ground, sq ft": (
            [one.middle * area_of if one.covered else None for one in sums.values()],  # no 0 for no yield
            1,
        ),
    }
    same = by_head(tables["t-same-date"])
    for words, (each, places) in values.items():
        texts = ["" if one is None else shown(one, places) for one in each]
        known = [one for one in each if one is not None]
        ends = to(shown(min(known), places), shown(max(known), places)) if known else ""
        middle = shown(median(known), places) if known else ""
        assert same[words] == [*texts, middle, ends], words
    shares = [one.covered / one.whole for one in sums.values()]
    assert same["Weight with a printed row yield"][:2] == [_percent(one) for one in shares]
    end = by_head(tables["t-to-the-end"])
    assert {words: row[0] for words, row in end.items() if words in values and row[0]} == {
        words: shown(each[0], places) for words, (each, places) in values.items() if each[0] is not None
    }


def _percent(share: Fraction) -> str:
    if 0 < share < Fraction(1, 100):
        return "under 1%"
    return "over 99%" if Fraction(99, 100) < share < 1 else f"{shown(share * 100, 0)}%"


def test_the_rule_of_the_noise_is_the_one_printed():
    assert Fraction(134, 100) == NOISE
