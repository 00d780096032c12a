"""A season beside rows reckoned by other code: raw YAML, fractions, nothing of Tallybed.

It knows the forms of the demonstration and of the gardens made up in these tests, and
raises where it meets another, so that it can never agree by passing something over.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import date
from fractions import Fraction
from pathlib import Path
from statistics import median
from typing import Any

import yaml

from tests.whole.reckoner import grams, squares

POUND = Fraction("453.59237")
"""Grams in a pound, NIST Handbook 44, appendix C."""
GALLON = Fraction("3.785411784")
"""Litres in a gallon of the United States, likewise: 231 cubic inches."""
INCH_OVER_A_SQUARE_FOOT = Fraction("0.0254") * Fraction("0.3048") ** 2 * 1000
"""Litres."""
NOISE = Fraction("1.34")


def load(path: Path) -> Any:
    """Return a YAML file's plain content, every scalar as written; None where there is no file."""
    return yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.CBaseLoader) if path.exists() else None


def shown(value: Fraction, places: int) -> str:
    """Return a value to some decimals, halves away from zero."""
    scaled = abs(value) * 10**places
    whole = int(scaled) + (1 if scaled - int(scaled) >= Fraction(1, 2) else 0)
    text = f"{whole:0{places + 1}d}"
    body = f"{text[:-places]}.{text[-places:]}" if places else text
    return f"-{body}" if value < 0 and whole else body


def printed(root: Path) -> dict[str, tuple[Fraction, Fraction, Fraction]]:
    """Return low, middle and high row yield of each crop, from the library's files."""
    found = {}
    for path in sorted((root / "src/tallybed/library/crops").glob("*.yaml")):
        crop = load(path)
        rows = [one for one in crop["facts"].get("yield per sqft", []) if one.get("of") == "row garden"]
        if not rows:
            continue
        spans = [_span(one["value"]) for one in rows]
        middle = _span(crop["used"]["yield per sqft"]["value"])
        found[crop["slug"]] = (min(low for low, _ in spans), middle[0], max(high for _, high in spans))
    return found


def _span(text: str) -> tuple[Fraction, Fraction]:
    low, high = re.fullmatch(r"([\d.]+)(?: to ([\d.]+))? lb/sqft", text).groups()  # type: ignore[union-attr]
    return Fraction(low), Fraction(high or low)


@dataclass
class Ground:
    """What a garden's beds take, in square feet."""

    squares: Fraction = Fraction(0)
    run_outs: Fraction = Fraction(0)
    path: Fraction = Fraction(0)
    of_bed: dict[str, dict[str, Fraction]] = field(default_factory=dict)


def _feet(text: str) -> Fraction:
    whole = Fraction(0)
    for amount, unit in re.findall(r"([\d.]+) ?(ft|in)\b", text):
        whole += Fraction(amount) / (12 if unit == "in" else 1)
    return whole


def ground(garden: Any, plan: list[Any]) -> Ground:
    """Return the areas of a garden in a season with a plan."""
    found = Ground()
    led_out = {row["squares"].partition("/")[0] for row in plan if "run-out" in row}
    for bed in garden["beds"]:
        columns, rows = (int(bed[key].split()[0]) for key in ("length", "width"))
        every = {(chr(ord("A") + x), y + 1) for x in range(columns) for y in range(rows)}
        for text in bed.get("omitted", []):
            every -= {(letter, number) for _bed, letter, number in squares(f"x/{text}")}
        side = _feet(bed.get("square", "12 in"))
        path = Fraction(0)
        for one in bed.get("path", []):
            along = _along(every, one["side"], rows)
            path += side * len(along) * _feet(one["width"]) * Fraction(one["share"])
        run_out = Fraction(0)
        for one in bed.get("run-out", []):
            run_out += side * len(squares(f"x/{one['squares']}")) * _feet(one["reach"])
        found.squares += side**2 * len(every)
        found.path += path
        if bed["name"] in led_out:
            found.run_outs += run_out
        found.of_bed[bed["name"]] = {"side": side, "path": path / len(every), "rows": Fraction(rows)}
    return found


def _along(every: set[tuple[str, int]], side: str, rows: int) -> set[tuple[str, int]]:
    if side.isdecimal():
        assert int(side) in (1, rows)
        return {one for one in every if one[1] == int(side)}
    return {one for one in every if one[0] == side}


@dataclass
class Sums:
    """Row ground, and what was counted."""

    low: Fraction = Fraction(0)
    middle: Fraction = Fraction(0)
    high: Fraction = Fraction(0)
    covered: Fraction = Fraction(0)
    whole: Fraction = Fraction(0)
    unweighed: bool = False
    crops: dict[str, tuple[Fraction, Fraction, Fraction, Fraction]] = field(default_factory=dict)


def row_ground(
    weights: dict[str, Fraction], unweighed: bool, yields: dict[str, tuple[Fraction, Fraction, Fraction]]
) -> Sums:
    """Return the row ground of pounds by crop."""
    found = Sums(unweighed=unweighed)
    for crop, pounds in weights.items():
        found.whole += pounds
        if crop in yields and pounds:
            low, middle, high = yields[crop]
            found.covered += pounds
            found.low += pounds / high
            found.middle += pounds / middle
            found.high += pounds / low
            found.crops[crop] = (pounds, pounds / high, pounds / middle, pounds / low)
    return found


def verdict(sums: Sums, area: Fraction, *, over: bool) -> str:
    """Return what may be said of a season."""
    if not sums.whole or sums.covered / sums.whole < Fraction(1, 2):
        return "too little to tell"
    if sums.low > NOISE * area:
        return "more"
    # More than was weighed may be no less; and what has no printed yield took its part of the ground.
    if over and not sums.unweighed and sums.high * NOISE < area * (sums.covered / sums.whole):
        return "less"
    return "about the same" if area / NOISE <= sums.middle <= area * NOISE else "too little to tell"


def done(folder: Path) -> Iterator[tuple[str, dict[str, str]]]:
    """Yield the day and the keys of every line of work in a season's log."""
    for path in sorted((folder / "log").glob("*.md")):
        day = path.name[:10]
        header = yaml.load(
            path.read_text(encoding="utf-8").split("\n---", 1)[0].removeprefix("---\n"),
            Loader=yaml.CBaseLoader,
        )
        for line in header.get("done", []):
            yield day, line


def work(folder: Path) -> tuple[dict[str, int], dict[str, int], int, int]:
    """Return person-minutes by verb and by month, and how many lines are timed, of how many."""
    by_verb: dict[str, int] = defaultdict(int)
    by_month: dict[str, int] = defaultdict(int)
    lines = timed = 0
    for day, line in done(folder):
        lines += 1
        if "minutes" in line:
            timed += 1
            minutes = int(line["minutes"]) * int(line.get("people", 1))
            by_verb[next(iter(line))] += minutes
            by_month[day[:7]] += minutes
    return dict(by_verb), dict(by_month), timed, lines


def water(folder: Path, garden: Any) -> tuple[Fraction, int, int]:
    """Return litres, lines whose amount has a unit, and all lines of watering."""
    whole, measured, lines = Fraction(0), 0, 0
    sizes = {bed["name"]: _feet(bed.get("square", "12 in")) for bed in garden["beds"]}
    for _day, line in done(folder):
        if "water" not in line:
            continue
        lines += 1
        amount = line.get("amount", "").removeprefix("about ")
        volume = re.fullmatch(r"([\d.]+) (gal|L)", amount)
        depth = re.fullmatch(r"(?:(\d+)/(\d+)|([\d.]+)) in", amount)
        if volume:
            whole += Fraction(volume[1]) * (GALLON if volume[2] == "gal" else 1)
        elif depth and "squares" in line:
            inches = Fraction(int(depth[1]), int(depth[2])) if depth[1] else Fraction(depth[3])
            whole += inches * INCH_OVER_A_SQUARE_FOOT * _area(line["squares"], garden, sizes)
        else:
            continue
        measured += 1
    return whole, measured, lines


def _area(text: str, garden: Any, sizes: dict[str, Fraction]) -> Fraction:
    if "/" in text:
        return sum((sizes[bed] ** 2 for bed, _letter, _number in squares(text)), Fraction(0))
    bed = next(one for one in garden["beds"] if one["name"] == text)
    count = int(bed["length"].split()[0]) * int(bed["width"].split()[0])
    count -= sum(len(squares(f"x/{one}")) for one in bed.get("omitted", []))
    return sizes[text] ** 2 * count


def costs(content: Path, year: str) -> tuple[Fraction, Fraction, dict[str, Fraction]]:
    """Return what a season cost at once, its part of what is spread, and both by purpose."""
    at_once = spread = Fraction(0)
    by_purpose: dict[str, Fraction] = defaultdict(Fraction)
    for folder in sorted(content.glob("2*")):
        for row in load(folder / "costs.yaml") or []:
            years = int(row.get("spread", "1").split()[0])
            if not 0 <= int(year) - int(folder.name) < years:
                continue
            part = Fraction(row["cost"]) / years
            by_purpose[row.get("for", "other")] += part
            at_once, spread = (at_once + part, spread) if years == 1 else (at_once, spread + part)
    return at_once, spread, dict(by_purpose)


def value(folder: Path, weights: dict[str, Fraction]) -> tuple[Fraction, Fraction]:
    """Return what pounds by crop would have cost, and the pounds that have a price."""
    per = {"lb": Fraction(1), "kg": POUND / 1000, "oz": Fraction(16), "g": POUND}
    seen: dict[str, list[Fraction]] = defaultdict(list)
    for row in load(folder / "prices.yaml") or []:
        seen[row["crop"]].append(Fraction(row["price"]) * per[row["per"]])
    amount = priced = Fraction(0)
    for crop, prices in seen.items():
        if weights.get(crop):
            amount += weights[crop] * Fraction(median(prices))
            priced += weights[crop]
    return amount, priced


# --- gardens in which every picking of a planting has its tag ---------------------------------------------


@dataclass
class Tagged:
    """What a planting of a made-up garden gave."""

    crop: str
    season: str
    pounds: Fraction
    unweighed: bool
    squares: set[tuple[str, str, int]]
    area: Fraction
    run_out: Fraction
    path: Fraction
    first: date
    free: date | None
    lost: bool

    @property
    def unknown(self) -> bool:
        """Whether nothing of it was weighed, and nothing says that it gave nothing."""
        return not self.pounds and (self.unweighed or (self.free is not None and not self.lost))


def _until(row: dict[str, str], today: date) -> date | None:
    """Return the day a planting went by the plan, where the log says nothing and the day is past."""
    until = date.fromisoformat(row["until"])
    return until if until <= today else None


def tagged(root: Path, year: str, today: date) -> dict[str, Tagged]:
    """Return the plantings of a season by tag: sown and cleared by the log, in their planned squares."""
    folder = root / "content" / year
    garden = load(root / "content" / "garden.yaml")
    plan, ledger = load(folder / "plan.yaml"), load(folder / "harvest.yaml") or []
    beds = ground(garden, plan).of_bed
    found = {}
    for row in plan:
        tag, own = row["tag"], squares(row["squares"])
        lines = [(day, line) for day, line in done(folder) if line.get("tag") == tag]
        sown = [date.fromisoformat(day) for day, line in lines if {"sow", "set out"} & set(line)]
        gone = [date.fromisoformat(day) for day, line in lines if {"clear", "failed", "lost"} & set(line)]
        weights = [grams(one["weight"]) for one in ledger if one.get("tag") == tag]
        bed = beds[next(iter(own))[0]]
        front = [one for one in own if row.get("run-out") == one[1]]
        reach = {
            one["side"]: _feet(one["reach"])
            for each in garden["beds"]
            if each["name"] == next(iter(own))[0]
            for one in each.get("run-out", [])
        }
        led = bed["side"] * (len(front) or 1) * reach[row["run-out"]] if "run-out" in row else Fraction(0)
        found[tag] = Tagged(
            crop=row["crop"],
            season=year,
            pounds=sum((Fraction(one) for one in weights if one is not None), Fraction(0)) / POUND,
            unweighed=None in weights,
            squares=own,
            area=bed["side"] ** 2 * len(own),
            run_out=led,
            path=bed["path"] * len(own),
            first=min(sown),
            free=max(gone, default=_until(row, today)),
            lost=any({"failed", "lost"} & set(line) for _day, line in lines),
        )
    return found


def crop_verdict(plantings: list[Tagged], low: Fraction, high: Fraction) -> str:
    """Return what may be said of a crop from its plantings that have ended and whose weight is known."""
    ended = [one for one in plantings if one.free is not None and not one.unknown]
    if len(ended) < 3:
        return "too little to tell"
    values = [one.pounds / (one.area + one.run_out + one.path) for one in ended]
    if median(values) > NOISE * high:
        return "more"
    far = Fraction(10**12)
    at_most = median([far if one.unweighed else value for one, value in zip(ended, values, strict=True)])
    return "less" if at_most < low / NOISE else "about the same"
