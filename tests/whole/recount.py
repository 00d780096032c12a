"""Every cell of every table of a tally, added up and rounded by other code from the text of the ledger.

Which planting a row came from and which squares it held are facts of the records, taken as they
are; all sums, shares, roundings and words are made here, with decimal arithmetic.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from datetime import date, timedelta
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction
from typing import Any

import yaml
from bs4 import BeautifulSoup
from bs4.element import Tag

from tallybed.garden.days import MONTHS
from tallybed.garden.plurals import in_plural
from tallybed.garden.squares import Square
from tallybed.reckoning.year import Year
from tests.whole.reckoner import GRAMS, grams

Cells = dict[str, dict[str, str]]
"""Row by its name, then column by its heading."""
OF_IT = "Of it cured or dried"


@dataclass
class Part:
    """One share of one row: of one square, to one destination."""

    row: int
    day: date
    crop: str
    variety: str
    planting: str
    square: Square | None
    bed: str
    to: str
    state: str
    grams: Fraction
    weighed: bool
    estimated: bool
    count: Fraction


@dataclass
class Sum:
    """What some parts come to."""

    unit: str
    parts: list[Part] = field(default_factory=list)

    @property
    def rows(self) -> set[int]:
        return {part.row for part in self.parts}

    @property
    def unweighed(self) -> set[int]:
        return {part.row for part in self.parts if not part.weighed}

    def weight(self, which: Callable[[Part], bool] | None = None) -> Fraction:
        return sum((part.grams for part in self.parts if which is None or which(part)), Fraction(0))

    def cell(self) -> str:
        if self.rows and self.rows == self.unweighed:
            return "not weighed"
        words = self.fine(self.weight())
        return f"≥ {words}" if self.unweighed else words

    def fine(self, weight: Fraction) -> str:
        if self.unit == "kg" and 0 < weight < 100:
            grams = int(weight + Fraction(1, 2))
            return f"0.{grams:03d}" if grams else "under 0.001"
        words = hundredths(weight / Fraction(GRAMS[self.unit]))
        return "under 0.01" if weight and words == "0.00" else words

    def cured(self) -> str:
        told = [(how, self.weight(lambda part, how=how: part.state == how)) for how in ("cured", "dried")]
        words = [f"{self.fine(weight)} {self.unit} {how}" for how, weight in told if weight]
        return " and ".join(words)

    def pieces(self) -> str:
        count = sum((part.count for part in self.parts), Fraction(0))
        assert count.denominator == 1
        return f"{int(count):,}" if count else ""

    def row_of_cut(self) -> dict[str, str]:
        estimated = self.weight(lambda part: part.estimated)
        return {
            f"Weight, {self.unit}": self.cell(),
            "Pieces": self.pieces(),
            "Pickings": f"{len(self.rows):,}",
            "Not weighed": f"{len(self.unweighed):,}" if self.unweighed else "",
            "Of it estimated": self.fine(estimated) if estimated else "",
            OF_IT: self.cured(),
        }


def hundredths(value: Fraction) -> str:
    """Return a number to two decimals, halves away from zero."""
    exact = Decimal(value.numerator) / Decimal(value.denominator)
    return f"{exact.quantize(Decimal('0.01'), ROUND_HALF_UP):f}"


def rows_of(text: str) -> list[dict[str, Any]]:
    """Return the rows of a ledger as plain text."""
    return yaml.load(text, Loader=yaml.CBaseLoader) or []


def day_of(row: dict[str, Any]) -> date:
    return date.fromisoformat(row["date"])


def parts_of(year: Year, text: str) -> list[Part]:
    """Return the shares of every row that counts, up to the day the site speaks as of."""
    rows = rows_of(text)
    owners = year.owners
    keys = [crop_of(year, number) for number in range(len(rows))]
    found: list[Part] = []
    for number, row in enumerate(rows):
        if day_of(row) > year.today or not counts(rows, keys, year, number):
            continue
        found += shares(year, number, row, keys[number], owners[number])
    return found


def crop_of(year: Year, number: int) -> str:
    """Return what a row is of; names are a fact of the library and the season's own."""
    weighing = (year.season.ledger or ())[number]
    slugs = [crop.slug or crop.typed for crop in weighing.crops]
    if weighing.mixed:
        return "mixed: " + " + ".join(sorted(slugs))
    owner = year.owners[number]
    named = weighing.crops[0].slug if weighing.crops else None
    if named:
        return named
    known = owner.crop if owner else (weighing.crops[0] if weighing.crops else None)
    if known is None:
        return ""
    return known.slug or f"general: {in_plural(known.typed.casefold())}"


def where(year: Year, number: int, row: dict[str, Any]) -> object:
    """Return the tag of a row, else its squares; all that a planting held are as good as its tag."""
    owner, squares = year.owners[number], (year.season.ledger or ())[number].squares
    if "tag" in row or (owner and squares and set(squares) == set(held(year, number))):
        return owner.key if owner else row["tag"]
    return frozenset(squares)


def counts(rows: list[dict[str, Any]], keys: list[str], year: Year, number: int) -> bool:
    """Return whether a row counts: its picking may count by another of its weights."""

    def picking(other: int) -> tuple[object, ...]:
        form = rows[other].get("as", "").casefold()
        produce = form if form in ("scapes", "greens", "leaves", "flowers") else ""
        return (keys[other], rows[other]["date"], produce, where(year, other, rows[other]))

    own = [rows[other] for other in range(len(rows)) if picking(other) == picking(number)]
    states = {row.get("state", "fresh") for row in own if grams(row["weight"]) is not None}
    states = states or {row.get("state", "fresh") for row in own}
    first = next(state for state in ("fresh", "cured", "dried") if state in states)
    return bool(rows[number].get("state", "fresh") == first)


def held(year: Year, number: int) -> list[Square]:
    """Return the squares that the row's planting held on the day, else on the last day before it."""
    owner, day = year.owners[number], (year.season.ledger or ())[number].day
    if owner is None:
        return []
    holds = [hold for hold in year.holding.of_planting(owner.key) if hold.first <= day]
    last = min([day, *([max(hold.last for hold in holds)] if holds else [])])
    return sorted(
        {hold.square for hold in holds if hold.last >= last}, key=lambda s: (s.bed, s.row, s.column)
    )


def dealt(pieces: int, portions: list[Fraction]) -> list[int]:
    """Deal pieces out whole, one by one, each to the share that is furthest behind what it should have."""
    whole = sum(portions)
    exact = [pieces * portion / whole for portion in portions]
    got = [int(one) for one in exact]
    behind = sorted(range(len(portions)), key=lambda place: -(exact[place] - got[place]))
    for place in behind[: pieces - sum(got)]:
        got[place] += 1
    return got


def shares(year: Year, number: int, row: dict[str, Any], crop: str, owner: Any) -> Iterator[Part]:
    weighing = (year.season.ledger or ())[number]
    places: list[Square | None] = list(weighing.squares or held(year, number)) or [None]
    weight = grams(row["weight"])
    parts = list(destinations(row.get("to"), Fraction(weight) if weight is not None else Fraction(0)))
    names = called(year)
    pieces = dealt(int(row.get("count", 0)), [portion for _to, _grams, portion in parts])
    beds = {place.bed for place in places if place}
    for to, (name, share, _portion) in enumerate(parts):
        for place, count in zip(places, dealt(pieces[to], [Fraction(1)] * len(places)), strict=True):
            yield Part(
                row=number,
                day=weighing.day,
                crop=crop,
                variety=row.get("variety") or (owner.variety if owner else ""),
                planting=owner.key if owner else "",
                square=place,
                bed=place.bed if place else (next(iter(beds)) if len(beds) == 1 else ""),
                to=names.get(name, name),
                state=row.get("state", "fresh"),
                grams=share / len(places),
                weighed=weight is not None,
                estimated=row["weight"].startswith("about"),
                count=Fraction(count),
            )


def destinations(to: Any, weight: Fraction) -> Iterator[tuple[str, Fraction, Fraction]]:
    """Yield where a row went, with grams and the portion of it."""
    if to is None or isinstance(to, str):
        yield to or "", weight, Fraction(1)
        return
    told = {name: None if text == "the rest" else Fraction(grams(text) or 0) for name, text in to.items()}
    rest = weight - sum(part for part in told.values() if part is not None)
    for name, part in told.items():
        share = rest if part is None else part
        yield name, share, share / weight if weight else Fraction(1, len(told))
    if None not in told.values() and rest:
        yield "", rest, rest / weight


def called(year: Year) -> dict[str, str]:
    """Return how each place is called: as it is written most often."""
    written = [part.name for row in year.season.ledger or () for part in row.to]
    found: dict[str, str] = {}
    for name in written:
        same = [one for one in written if plain(one) == plain(name)]
        found[name] = min(same, key=lambda one: (-same.count(one), one))
    return found


def plain(name: str) -> str:
    return name.casefold().removeprefix("the ")


def expected(year: Year, text: str) -> dict[str, Cells]:
    """Return every table of the tally by its ident."""
    unit = year.garden.showing.unit
    parts = parts_of(year, text)

    def by(key: Callable[[Part], str]) -> Cells:
        found: dict[str, Sum] = defaultdict(lambda: Sum(unit))
        for part in parts:
            found[key(part)].parts.append(part)
        return {name: one.row_of_cut() for name, one in found.items()}

    beds = {bed.name: bed.title for bed in year.garden.beds}
    return {
        "t-bed": by(lambda part: beds.get(part.bed, "not told")),
        "t-destination": by(lambda part: part.to or "not told"),
        "t-state": by(lambda part: part.state),
        "t-planting": by(lambda part: part.planting or "not told"),
        "t-variety": by(lambda part: f"{part.crop} {part.variety}" if part.variety else part.crop),
        "t-crops": months(year, parts),
        "t-weeks": weeks(unit, parts),
        **{f"t-squares-{bed.name}": squares(year, bed.name, parts) for bed in year.garden.beds},
    }


def months(year: Year, parts: list[Part]) -> Cells:
    unit = year.garden.showing.unit
    days = [part.day for part in parts]
    first, last = min(days), max(days)
    every = [
        (number // 12, number % 12 + 1)
        for number in range(first.year * 12 + first.month - 1, last.year * 12 + last.month)
    ]

    def head(month: tuple[int, int]) -> str:
        word = MONTHS[month[1] - 1][:3]
        return word if month[0] == year.season.span.first.year else f"{word} {month[0]}"

    def of(own: Iterable[Part], month: tuple[int, int]) -> Sum:
        return Sum(unit, [part for part in own if (part.day.year, part.day.month) == month])

    found: Cells = {}
    groups: dict[str, list[Part]] = defaultdict(list)
    for part in parts:
        groups[part.crop].append(part)
        groups["All crops"].append(part)
    for name, own in groups.items():
        row = {head(month): of(own, month).cell() if of(own, month).parts else "" for month in every}
        found[name] = {**row, "Season": Sum(unit, own).cell(), OF_IT: Sum(unit, own).cured()}
    upto = {
        month: Sum(unit, [part for part in parts if (part.day.year, part.day.month) <= month])
        for month in every
    }
    whole = found["All crops"]
    found["Running total"] = {
        **{head(month): one.cell() for month, one in upto.items()},
        "Season": whole["Season"],
        OF_IT: whole[OF_IT],
    }
    for name, cells in (
        ("All crops", {head(month): of(parts, month).cured() for month in every}),
        ("Running total", {head(month): one.cured() for month, one in upto.items()}),
    ):
        if any(cells.values()):
            found[f"{name}: {OF_IT.lower()}"] = {**cells, "Season": "", OF_IT: ""}
    return found


def weeks(unit: str, parts: list[Part]) -> Cells:
    found: Cells = {}
    monday = min(part.day for part in parts)
    monday -= timedelta(days=monday.weekday())
    while monday <= max(part.day for part in parts):
        sunday = monday + timedelta(days=6)
        own = Sum(unit, [part for part in parts if monday <= part.day <= sunday])
        upto = Sum(unit, [part for part in parts if part.day <= sunday])
        found[f"week {monday.isocalendar()[1]}"] = {
            f"Weight, {unit}": own.cell() if own.parts else "–",
            f"Running total, {unit}": upto.cell(),
            "Pickings": f"{len(own.rows):,}" if own.parts else "–",
            "Not weighed": f"{len(own.unweighed):,}" if own.unweighed else "",
            OF_IT: own.cured(),
            "Of the running total": upto.cured(),
        }
        monday += timedelta(days=7)
    return found


def squares(year: Year, name: str, parts: list[Part]) -> Cells:
    bed = year.garden.bed(name)
    found: Cells = {}
    for row in range(bed.rows):
        cells = {}
        for column in range(bed.columns):
            square = Square(name, column, row)
            own = Sum(year.garden.showing.unit, [part for part in parts if part.square == square])
            words = own.cell() if own.parts else "–"
            cells[square.label[:-1] if row < 9 else square.label[:-2]] = (
                words if bed.has(square) else "no square"
            )
        found[str(row + 1)] = cells
    return found


def shown(year: Year, page: BeautifulSoup) -> dict[str, Cells]:
    """Return every table of a tally's page, its rows named as ``expected`` names them."""
    slugs = {name: crop.slug for crop in year.garden.crops for name in (crop.name, crop.plural)}
    varieties = {line.variety for line in year.lines if line.variety}
    found: dict[str, Cells] = {}
    for table in page.select("table"):
        ident = str(table.get("id"))
        heads = [head.get_text(" ", strip=True) for head in table.select("thead th")][1:]
        rows: Cells = {}
        for row in table.select("tbody tr, tfoot tr"):
            head, *cells = row.find_all(["th", "td"])
            texts = [cell.get_text(" ", strip=True) for cell in cells]
            name = _named(ident, head, slugs, varieties)
            assert name not in rows, (ident, name)
            rows[name] = dict(zip(heads, texts, strict=True))
        found[ident] = rows
    return found


def _named(ident: str, head: Tag, slugs: dict[str, str], varieties: set[str]) -> str:
    text = head.get_text(" ", strip=True)
    link = head.find("a")
    last = str(link["href"]).split("/")[-2] if isinstance(link, Tag) else ""
    if ident == "t-planting":
        return last or text
    if ident == "t-weeks":
        return f"week {text.partition('week ')[2].partition(',')[0]}"
    if ident in ("t-crops", "t-variety"):
        return _crop(text, last, slugs, varieties)
    return text


def _crop(text: str, slug: str, slugs: dict[str, str], varieties: set[str]) -> str:
    if text.startswith("mixed bowl: "):
        words = text.removeprefix("mixed bowl: ").replace(" and ", ", ").split(", ")
        return "mixed: " + " + ".join(sorted(slugs.get(word, word) for word in words))
    variety = next((one for one in sorted(varieties, key=len, reverse=True) if text.endswith(f"‘{one}’")), "")
    if slug:
        return f"{slug} {variety}" if variety else slug
    if text.endswith(" (which kind was not told)") or ", variety not told" in text:
        return f"general: {text.partition(' (which')[0]}"
    return text
