"""Rows of a spreadsheet as pickings, each with whatever keeps it from being one."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date, timedelta
from typing import TypeVar

from tallybed.garden.days import Span, in_full
from tallybed.garden.findings import sentence
from tallybed.garden.invisible import UNSEEN, described
from tallybed.garden.naming import CropName, folded
from tallybed.garden.records.ledger import State
from tallybed.garden.records.pickings import Picking, SheetRow
from tallybed.garden.squares import Square
from tallybed.garden.units import Unit
from tallybed.reading.base.problems import Misread, quoted
from tallybed.reading.scale.numbers import POINT
from tallybed.reading.scale.vocabulary import NamedCrop, Vocabulary
from tallybed.reading.spreadsheet import dates
from tallybed.reading.spreadsheet.alike import by_value
from tallybed.reading.spreadsheet.alone import by_themselves
from tallybed.reading.spreadsheet.cells import SheetCell
from tallybed.reading.spreadsheet.columns import NOTHING, Columns, Spelling
from tallybed.reading.spreadsheet.dates import DateOrder
from tallybed.reading.spreadsheet.shaping import HeadedSheet
from tallybed.reading.spreadsheet.weights import ASKED_ONCE, weight_words
from tallybed.reading.spreadsheet.where import where
from tallybed.reading.text import measures, states, texts

T = TypeVar("T")
KEPT = (
    *("date", "crop", "variety", "tag", "bed", "squares", "weight"),
    *("count", "to", "as", "state", "weighed", "note"),
)
"""The meanings by which a row is known again, in order."""
_SERIAL = re.compile(r"[2-8][0-9]{4}(?:\.[0-9]+)?")
_SERIAL_BEGINS = (date(1899, 12, 30), date(1904, 1, 1))


@dataclass(frozen=True, slots=True, kw_only=True)
class RowProblem:
    """Why a row cannot be placed."""

    code: str
    text: str
    name: str = ""
    """The name of a crop that nobody knows."""
    near: tuple[str, ...] = ()
    """Slugs of the crops with a name most like it."""
    spelling: Spelling | None = None
    """The squares or the weight that were not understood."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadRow:
    """One row: what it tells, and the picking it is, unless something is in the way."""

    row: SheetRow
    season: str = ""
    picking: Picking | None = None
    problems: tuple[RowProblem, ...] = ()
    cells: tuple[SheetCell, ...] = ()
    """As they read alike in another file, see ``by_themselves``."""


@dataclass(frozen=True, kw_only=True)
class SheetReader:
    """How the rows of a sheet are to be read."""

    vocabularies: Mapping[str, Vocabulary]
    """By season."""
    order: DateOrder | None = None
    unit: Unit | None = None
    season: str = ""
    """The season that all rows belong to; empty: each to that of its day."""
    decimal: str = ""
    """The sign before decimals in weights that are texts, where that is known."""
    spaces: str = ""
    """What a space in ``1 250 g`` sets apart, where that is known."""
    spellings: Mapping[Spelling, str] = field(default_factory=dict)
    """What squares and weights mean that are not understood as they stand, as answered."""
    year: str = ""
    """The year that the sheet's title names: that of days without one."""
    heading: str = ""
    """The year that stands above the row: that of its days before that of the title."""

    def span(self) -> Span | None:
        """Return the season that dates without a year fall into, or None where it may be any of several."""
        if self.season:
            return self.vocabularies[self.season].context.span
        year = self.heading or self.year
        if self.heading and self.heading not in self.vocabularies:
            return Span(first=date(int(year), 1, 1), last=date(int(year), 12, 31))
        if year:  # a title of a year that is no season does not mean another
            return self.vocabularies[year].context.span if year in self.vocabularies else None
        spans = [vocabulary.context.span for vocabulary in self.vocabularies.values()]
        return spans[0] if len(spans) == 1 else None

    def season_of(self, day: date) -> str:
        """Return the season of a day. Raises Misread."""
        if self.season:
            span = self.vocabularies[self.season].context.span
            if day not in span:
                found = f"{in_full(day)} lies outside the season {self.season}"
                bounds = f"a day from {in_full(span.first)} to {in_full(span.last)}"
                raise Misread("date-outside-season", found, bounds)
            return self.season
        for season in reversed(list(self.vocabularies)):
            if day in self.vocabularies[season].context.span:
                return season
        raise Misread("date-outside-season", f"no season of the garden holds {in_full(day)}")

    def day(self, text: str) -> date:
        """Return the day a text names. Raises Misread."""
        return dates.day(text, self.order, self.span())

    def serial(self, text: str) -> date | None:
        """Return the day that a bare number is the serial number of; None where it is none of a season.

        Spreadsheets count days from 30 December 1899, some older ones from 1 January 1904: where a
        number is a day of some season both ways, it stays a number.
        """
        if not _SERIAL.fullmatch(text):
            return None
        number = int(text.partition(".")[0])
        days = [begin + timedelta(days=number) for begin in _SERIAL_BEGINS]
        spans = [vocabulary.context.span for vocabulary in self.vocabularies.values()]
        found = [day for day in days if any(day in span for span in spans)]
        return found[0] if len(found) == 1 else None

    def rows(self, sheet: HeadedSheet) -> Iterator[ReadRow]:
        """Yield every row that tells anything."""
        below = {year: replace(self, heading=year) for year in {"", *sheet.years.values()}}
        for number, cells in sheet.rows:
            one = _Row(below[sheet.years.get(number, "")], sheet.columns, cells)
            if one.by_meaning:
                yield one.read(number)


@dataclass
class _Row:
    """One row while it is read; every trouble with it is gathered."""

    reader: SheetReader
    columns: Columns
    cells: Sequence[SheetCell]
    by_meaning: dict[str, list[tuple[SheetCell, Unit | None]]] = field(default_factory=dict)
    problems: list[RowProblem] = field(default_factory=list)

    def __post_init__(self) -> None:
        """Sort the cells that hold anything by what their columns mean."""
        for heading, cell in zip(self.columns.headings, self.cells, strict=False):
            if cell and heading.meaning != NOTHING:
                answer = self.reader.spellings.get((heading.meaning, folded(cell.text)))
                said = cell if answer is None else SheetCell(answer)
                self.by_meaning.setdefault(heading.meaning, []).append((said, heading.unit))

    def read(self, number: int) -> ReadRow:
        """Return what the row tells."""
        for meaning in sorted(self.by_meaning):
            self._look_over(meaning)
        day = self._try("date", self._day)
        season = (self._try("", lambda: self.reader.season_of(day)) if day else None) or ""
        vocabulary = self.reader.vocabularies[
            season or self.reader.season or list(self.reader.vocabularies)[-1]
        ]
        bowl = self._bowl(vocabulary)
        named = self.text("tag") or vocabulary.tag_in(self.text("crop"))
        what = None if bowl else self._what(vocabulary, named)
        tag = self._try("tag", lambda: texts.tag(named)) if named else ""
        places, bed = self._where(vocabulary)
        weight = self._try_spelling("weight", self._weight)
        count = self._try("count", self._count)
        state = self._try("state", self._state)
        weighed = self._try("weighed", self._weighed)
        to = self._try("to", lambda: texts.line(self.text("to"))) or ""
        note = self._try("note", lambda: texts.note(self.text("note", "; "))) or ""
        form = self._try("as", lambda: texts.line(self.text("as"))) or ""
        cells = self._plain_cells(day, weight)
        row = SheetRow(number=number, cells=cells, values=by_value(cells))
        alone = by_themselves(
            self.cells, self.columns.headings, {"date": day, "weighed": weighed}, weight or ""
        )
        if self.problems or day is None or weight is None:
            return ReadRow(row=row, season=season, problems=tuple(self.problems), cells=alone)
        measured = measures.weighing(weight)
        picking = Picking(
            typed=f"row {number}",
            day=day,
            crops=bowl or ((what.crop,) if what else ()),
            answer=what.answer if what else "",
            answers=tuple(vocabulary.answer(crop.typed) for crop in bowl),
            variety=what.variety if what else "",
            tag=tag or "",
            bed=bed,
            places=places,
            weight=measured.weight,
            weight_text=weight,
            estimated=measured.estimated,
            count=count,
            to=vocabulary.destination(to),
            form=form,
            state=state or State.FRESH,
            weighed=weighed if weighed != day else None,
            note=note,
        )
        return ReadRow(row=row, season=season, picking=picking, cells=alone)

    def text(self, meaning: str, joint: str = " ") -> str:
        """Return the text of a meaning's cells, empty where there is none."""
        cells = self.by_meaning.get(meaning)
        return joint.join(cell.text for cell, _unit in cells) if cells else ""

    def _plain_cells(self, day: date | None, weight: str | None) -> tuple[tuple[str, str], ...]:
        """Return the cells by which the row is known again, in one form however they were typed."""
        plain = {meaning: folded(self.text(meaning, "; ")) for meaning in KEPT if meaning in self.by_meaning}
        if day is not None:
            plain["date"] = day.isoformat()
        plain["weight"] = weight or f"{plain.get('weight', '')} {folded(self.text('unit'))}".strip()
        return tuple((meaning, plain[meaning]) for meaning in KEPT if plain.get(meaning))

    def _try(self, meaning: str, scan: Callable[[], T]) -> T | None:
        """Return what a scanner reads, or None after keeping what it said."""
        if any(cell.unknown for cell, _unit in self.by_meaning.get(meaning, ())):
            return None
        try:
            return scan()
        except Misread as misread:
            self._keep(misread)
            return None

    def _try_spelling(self, meaning: str, scan: Callable[[], T]) -> T | None:
        """Return what a scanner reads, or None after keeping what it said with the cell's spelling."""
        before = len(self.problems)
        found = self._try(meaning, scan)
        cells = self.by_meaning.get(meaning, ())
        if len(self.problems) > before and len(cells) == 1 and self.problems[-1].code not in ASKED_ONCE:
            spelling = (meaning, folded(cells[0][0].text))
            self.problems[-1] = replace(self.problems[-1], spelling=spelling)
        return found

    def _keep(self, misread: Misread, near: tuple[str, ...] = (), name: str = "") -> None:
        """Keep what is in the way of placing the row."""
        text = sentence(misread.found, misread.expected, "" if near else misread.nearest, misread.remedy)
        self.problems.append(RowProblem(code=misread.code, text=text, name=name, near=near))

    def _look_over(self, meaning: str) -> None:
        """Keep trouble with a meaning's cells: characters that cannot be seen, formulas without result."""
        for cell, _unit in self.by_meaning[meaning]:
            unseen = UNSEEN.search(cell.text)
            if unseen is not None:
                self._keep(Misread("unseen-character", described(unseen.group())))
            if cell.unknown:
                self._keep(
                    Misread(
                        "formula",
                        f"the {meaning} is a formula whose result the file does not keep",
                        "the file opened and saved in a spreadsheet program",
                    )
                )

    def _day(self) -> date:
        """Return the day of picking. Raises Misread where the row has none."""
        cells = self.by_meaning.get("date")
        if not cells:
            raise Misread("date", "the row has no date")
        return self._day_in(cells[0][0])

    def _weighed(self) -> date | None:
        """Return the day of weighing, or None where the row does not say. Raises Misread."""
        cells = self.by_meaning.get("weighed")
        if not cells:
            return None
        return self._day_in(cells[0][0])

    def _day_in(self, cell: SheetCell) -> date:
        """Return the day that a cell names. Raises Misread."""
        found = cell.day or self.reader.serial(cell.text)
        if found is None and cell.number:  # of ``6.10`` a number cell keeps 6.1
            raise Misread("date", f"{quoted(cell.text)} is a bare number", dates.AS_DATES)
        return found or self.reader.day(cell.text)

    def _bowl(self, vocabulary: Vocabulary) -> tuple[CropName, ...]:
        """Return the crops of a mixed bowl, which are joined by ``+``; none where it is not a bowl."""
        parts = [" ".join(part.split()) for part in self.text("crop").split("+")]
        if len(parts) < 2 or not all(parts):
            return ()
        crops = [CropName(typed=part, slugs=self._meanings(part, vocabulary)) for part in parts]
        if all(crop.slugs for crop in crops) and len({crop.slugs for crop in crops}) < 2:
            self._keep(Misread("mixed-of-one", f"a mixed bowl of {quoted(parts[0])} alone"))
        return tuple(crops)

    def _where(self, vocabulary: Vocabulary) -> tuple[tuple[tuple[Square, ...], ...], str]:
        """Return the squares, for each bed they can be in, and a bed that was told alone."""
        squares, bed = self.text("squares"), self.text("bed")
        if bed and self._try("bed", lambda: where("", bed, vocabulary)) is None:
            return (), ""
        return self._try_spelling("squares", lambda: where(squares, bed, vocabulary)) or ((), "")

    def _meanings(self, name: str, vocabulary: Vocabulary) -> tuple[str, ...]:
        """Return what a name in a bowl can mean."""
        slugs = vocabulary.slugs(name)
        if not slugs:
            unknown = Misread("unknown-crop", f"no crop is called {quoted(name)}")
            self._keep(unknown, near=vocabulary.nearest_crops(name), name=name)
        return slugs

    def _what(self, vocabulary: Vocabulary, tag: str) -> NamedCrop | None:
        """Return the crop and variety, or None where a tag alone says it or nothing does."""
        crop, variety = (" ".join(self.text(key).split()) for key in ("crop", "variety"))
        crop = "" if folded(crop) == folded(tag) else crop
        if not crop and not variety:
            if not tag:
                self._keep(Misread("missing-key", "the row does not say what was picked"))
            return None
        name = " ".join(re.sub(r"[()]", " ", crop or variety).split()).strip(" ,;:")
        try:
            found = vocabulary.what(name)
        except Misread:
            unknown = Misread("unknown-crop", f"no crop is called {quoted(name)}")
            self._keep(unknown, near=vocabulary.nearest_crops(name), name=name)
            return None
        if not (crop and variety):
            return found
        known = vocabulary.varieties.get(folded(variety))
        both = tuple(slug for slug in found.crop.slugs if known and slug in known[1])
        if known is None or not both:
            own = self._try("variety", lambda: texts.line(variety)) or ""
            return NamedCrop(found.crop, own, found.answer)
        answer = found.answer if found.answer in both and len(both) > 1 else ""
        return NamedCrop(CropName(typed=found.crop.typed, slugs=both), known[0], answer)

    def _weight(self) -> str:
        """Return the weight in words that read back as it. Raises Misread."""
        there = self.by_meaning.get("weight", ())
        decimal = POINT if there and all(cell.number for cell, _unit in there) else self.reader.decimal
        cells, usual = [(cell.text, unit) for cell, unit in there], self.reader.unit
        return weight_words(cells, self.text("unit"), usual, decimal, spaces=self.reader.spaces)

    def _count(self) -> int | None:
        """Return the count, or None where there is none; ``5.0`` is 5, ``5.000`` is open. Raises Misread."""
        text = self.text("count")
        return measures.whole()(re.sub(r"\.(?:00?|0{4,})$", "", text)) if text else None

    def _state(self) -> State:
        """Return the state in which it was weighed, fresh unless told. Raises Misread."""
        return states.state(text) if (text := self.text("state")).strip() else State.FRESH
