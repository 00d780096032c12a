"""A sheet as people lay it out, as a plain table: ditto marks, months above blocks, totals, a column a crop.

What is no row of the table is kept with the reason, and told; nothing is left silently.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from tallybed.garden.days import MONTH_NUMBERS, MONTHS
from tallybed.garden.naming import folded
from tallybed.garden.units import Unit
from tallybed.reading.base.problems import Misread
from tallybed.reading.spreadsheet.cells import EMPTY, NumberedRow, SheetCell, SheetTable, as_told
from tallybed.reading.spreadsheet.columns import NOTHING, Columns, Heading, columns, recognised
from tallybed.reading.spreadsheet.crop_columns import (
    TOTAL,
    UNIT_WORDS,
    Knows,
    adds_up_its_column,
    crop_columns,
    is_ditto,
    notes_a_total,
    one_crop_a_row,
)
from tallybed.reading.spreadsheet.dates import WEEKDAY
from tallybed.reading.spreadsheet.sum_rows import adds_up

HEADING_WITHIN = 20
"""Rows among which the headings are looked for: a title and a date may stand above them."""
_FIGURE = re.compile(r"[1-9]")
_DASHES = re.compile(r"[-–—\s]+")
_MAY_BE_DASHED = frozenset({"variety", "to", "as", "note"})
"""The meanings for which any text would do: a dash there is no name but says that there is nothing."""
_MONTH = re.compile(
    rf"\W*(?P<month>{'|'.join(sorted(MONTH_NUMBERS, key=len, reverse=True))})\W*"
    r"(?P<year>[12][0-9]{3}|'?[0-9]{2})?\W*",
    re.IGNORECASE,
)
_MONTH_AND_DAY = re.compile(rf"(?:{'|'.join(MONTH_NUMBERS)})\.?\s+[0-3]?[0-9]", re.IGNORECASE)
_BARE_DAY = re.compile(
    r"(?:(?P<word>[^\W\d_]{2,9})\.?,?\s+)?(?P<day>[0-9]{1,2})(?:\.0+)?(?:st|nd|rd|th|\.)?", re.IGNORECASE
)
"""A day whose month stands above: ``13``, ``13th``, ``Wed 13``. The word before it may also be its month."""
_WHOLE_DATE = re.compile(r"(?P<year>20[0-9]{2})[-/.](?P<month>0?[1-9]|1[0-2])[-/.][0-9]{1,2}(?![0-9])")
_IN_NUMBERS = re.compile(r"([0-9]{1,2})[-/.](0?[1-9]|[12][0-9]|3[01])(?![0-9])")
"""A date of which nobody says which number is the month."""
_BEFORE_A_DAY = frozenset({*MONTH_NUMBERS, "day", "mo", "tu", "we", "weds", "th", "fr", "sa", "su"})
"""Besides days of the week, what may stand before a bare day; of ``Week 3`` nobody knows the month."""
_A_TOTAL = "a total"
_ADDS_UP = re.compile(r"=\s*(?:SUM|SUBTOTAL|SUMME|SOMME)\s*\(", re.IGNORECASE)
_YEAR = re.compile(r"(?<![0-9])(20[0-9]{2})(?![0-9])")
_YEARS = re.compile(r"(?<![0-9])20([0-9]{2})\s*[-–/]\s*([0-9]{2})(?![0-9])")
"""A year and the last figures of the next: ``2025-26``. Of a season or of two, nobody tells."""
_YEAR_ALONE = re.compile(r"\W*(?:(?:year|season)\W+)?(20[0-9]{2})(?:\.0+)?(?:\W+season)?\W*", re.IGNORECASE)
_TEXTS = ("date", "crop", "variety", "tag", "bed", "squares", "to")
"""The meanings in whose cells a total calls itself so, beside a remark."""


@dataclass(frozen=True, kw_only=True)
class HeadedSheet:
    """A sheet with its headings found, each row complete by itself."""

    columns: Columns
    rows: tuple[NumberedRow, ...]
    """Those below the headings that tell a picking."""
    name: str = ""
    left_out: tuple[tuple[int, str], ...] = ()
    """Rows that tell no picking, each with the reason."""
    beside: tuple[str, ...] = ()
    """Cells outside the table, as they are told."""
    dateless: int = 0
    """Rows without a date that follow one with a date, as long as nobody says that they mean it."""
    unit: Unit | None = None
    """The unit that the title above the table names."""
    year: str = ""
    """The year that the title or the sheet's name tells."""
    years: Mapping[int, str] = field(default_factory=dict)
    """The year that stands above a row as a heading, by the row's number."""
    told: str = ""
    """What must be said of how the file was read."""


def found_sheet(
    table: SheetTable,
    settled: Mapping[str, Heading],
    knows: Knows | None = None,
    *,
    blanks: bool | None = None,
) -> HeadedSheet:
    """Find the headings of a sheet and what they mean, and make each row complete.

    ``blanks`` says whether a row without a date means the date above. Raises Misread where the
    headings do not suffice.
    """
    rows = table.rows[:HEADING_WITHIN]
    if not rows:
        raise Misread("columns", "nothing stands in it", "a row of headings, and rows below it")
    known = knows or (lambda _text: False)
    scores = [
        recognised([cell.text for cell in cells], settled) + crop_columns(cells, settled, known)
        for _number, cells in rows
    ]
    best = scores.index(max(scores))
    names = [" ".join(cell.text.split()) for cell in rows[best][1]]
    a_day_a_row = bool(crop_columns(rows[best][1], settled, known))
    if a_day_a_row:
        table, names = one_crop_a_row(table, best, names, settled, known)
    made = columns(names, settled)
    above = [cell.text for _number, cells in rows[:best] for cell in cells if cell.text]
    shaping = _Shaping(columns=made, knows=known, blanks=blanks, a_day_a_row=a_day_a_row)
    shaping.days = any(shaping.tells_a_day(cells) for _number, cells in table.rows[best + 1 :])
    shaping.month = next((found for text in reversed([table.name, *above]) if (found := _month(text))), None)
    for number, cells in table.rows[best + 1 :]:
        shaping.take(number, cells)
    units = {unit for text in above if (unit := _unit_in(text)) is not None}
    years = {year for text in (*above, table.name) for year in _years(text)}
    return HeadedSheet(
        columns=made,
        rows=tuple(shaping.rows),
        name=table.name,
        left_out=tuple(shaping.left_out),
        beside=(*shaping.beside, *table.far),
        dateless=shaping.dateless,
        unit=units.pop() if len(units) == 1 else None,
        year=years.pop() if len(years) == 1 else "",
        years=shaping.years,
        told=table.told,
    )


@dataclass
class _Shaping:
    """The rows of a sheet on their way to a plain table, from the top to the bottom."""

    columns: Columns
    knows: Knows
    blanks: bool | None
    a_day_a_row: bool = False
    """Whether the sheet has a column for each crop."""
    month: tuple[int, str] | None = None
    """The month that stands above the rows, and its year where that is told."""
    days: bool = False
    """Whether a month and two digits are a day in this sheet: ``June 25`` is then no month of 2025."""
    year: str = ""
    """The year that stands above the rows."""
    years: dict[int, str] = field(default_factory=dict)
    above: dict[int, SheetCell] = field(default_factory=dict)
    """The last cell of each column, for those that mean the same."""
    day: SheetCell = EMPTY
    rows: list[NumberedRow] = field(default_factory=list)
    left_out: list[tuple[int, str]] = field(default_factory=list)
    beside: list[str] = field(default_factory=list)
    dateless: int = 0

    def take(self, number: int, cells: Sequence[SheetCell]) -> None:
        """Take a row: into the table, as something above others, or as left out with the reason."""
        headings, names = self.columns.headings, self.columns.names
        for column, cell in enumerate(cells):
            if cell and (column >= len(names) or not names[column]):
                self.beside.append(as_told(column, number, cell))
        inside = [
            cells[column] if column < len(cells) and names[column] else EMPTY
            for column in range(len(headings))
        ]
        if not any(inside):
            return
        if [folded(cell.text) for cell in inside if cell] == [
            folded(name) for name, cell in zip(names, inside, strict=True) if cell
        ]:
            self.left_out.append((number, "headings again"))
            return
        month, year = self._month_alone(inside), self._year_alone(inside)
        if month is not None or year:
            self.month, self.day, self.year = month, EMPTY, year or self.year
            self.above.clear()
            return
        if self._is_total(inside):
            self.left_out.append((number, _A_TOTAL))
            return
        self._ditto(inside)
        self._date(inside)
        if self.a_day_a_row and self._is_without_picking(inside):
            self.left_out.append((number, "a day without a picking"))
            return
        self.rows.append((number, tuple(inside)))
        if self.year:
            self.years[number] = self.year

    def _places(self, meaning: str) -> list[int]:
        """Return the columns of a meaning."""
        return [place for place, one in enumerate(self.columns.headings) if one.meaning == meaning]

    def _month_alone(self, inside: Sequence[SheetCell]) -> tuple[int, str] | None:
        """Return the month where it is all that stands in a row."""
        there = [cell for cell in inside if cell]
        if len(there) != 1:
            return None
        if there[0].day is not None:
            return (there[0].day.month, str(there[0].day.year)) if there[0].day.day == 1 else None
        if self.days and _MONTH_AND_DAY.fullmatch(there[0].text.strip()):
            return None
        return _month(there[0].text)

    def _year_alone(self, inside: Sequence[SheetCell]) -> str:
        """Return the year where it is all that stands in a row, and is no amount."""
        there = [place for place, cell in enumerate(inside) if cell]
        if len(there) != 1 or self.columns.headings[there[0]].meaning in ("weight", "count"):
            return ""
        found = _YEAR_ALONE.fullmatch(inside[there[0]].text.strip())
        return found.group(1) if found else ""

    def tells_a_day(self, cells: Sequence[SheetCell]) -> bool:
        """Return whether a row has a date such as ``June 25`` and more beside it."""
        dates = [cells[place].text.strip() for place in self._places("date") if place < len(cells)]
        return sum(map(bool, cells)) > 1 and any(_MONTH_AND_DAY.fullmatch(text) for text in dates)

    def _is_total(self, inside: Sequence[SheetCell]) -> bool:
        """Return whether a row adds up others: by its formula, or it calls itself so."""
        weights = [(place, inside[place]) for place in self._places("weight") if inside[place]]
        if weights and all(adds_up_its_column(cell, place) for place, cell in weights):
            return True
        what = [
            inside[place].text for meaning in ("crop", "variety", "tag") for place in self._places(meaning)
        ]
        if any(self.knows(text) for text in what if text):
            return False
        texts = [inside[place].text for meaning in _TEXTS for place in self._places(meaning)]
        if any(TOTAL.search(text) for text in texts):
            return True
        dated = any(inside[place] for place in self._places("date"))
        if any(notes_a_total(inside[place].text, dated=dated) for place in self._places("note")):
            return True
        if any(what) or dated:
            return False
        if any(TOTAL.search(cell.text) for cell in inside):
            return True
        last = max((number for number, why in self.left_out if why == _A_TOTAL), default=0)
        if adds_up(inside, self._places("weight"), self.rows, last):
            return True
        return bool(weights) and all(_ADDS_UP.match(cell.formula) for _place, cell in weights)

    def _is_without_picking(self, inside: Sequence[SheetCell]) -> bool:
        """Return whether a day has nothing of any crop, and no figure in a column that nobody understood."""
        told = [place for meaning in ("crop", "weight", "count") for place in self._places(meaning)]
        unknown = [inside[place].text for place in self._places(NOTHING)]
        day = any(inside[place] for place in self._places("date"))
        return day and not any(inside[place] for place in told) and not any(map(_FIGURE.search, unknown))

    def _ditto(self, inside: list[SheetCell]) -> None:
        """Put what stands above in the place of marks that say so, and nothing in that of dashes."""
        for place, cell in enumerate(inside):
            text = cell.text.strip().casefold()
            if _DASHES.fullmatch(text) and self.columns.headings[place].meaning in _MAY_BE_DASHED:
                inside[place] = self.above[place] = EMPTY
            elif is_ditto(text):
                inside[place] = self.above.get(place, cell)
            elif cell:
                self.above[place] = cell

    def _date(self, inside: list[SheetCell]) -> None:
        """Complete the date: a bare day below its month, and none below a date."""
        places = self._places("date")
        if not places:
            return
        (place, *_more) = places
        cell = inside[place]
        bare = _BARE_DAY.fullmatch(cell.text.strip()) if cell.day is None else None
        word = (bare["word"] or "") if bare else ""
        # A day of the week stays, so that it is held against the date.
        weekday = f"{word} " if WEEKDAY.fullmatch(f"{word} ") else ""
        if word and not weekday and word.casefold() not in _BEFORE_A_DAY:
            bare = None
        if self.month:
            self.month = _month_after(cell, self.month)
        if bare and self.month and 1 <= int(bare.group("day")) <= 31:
            month, year = self.month
            cell = SheetCell(f"{weekday}{MONTHS[month - 1]} {int(bare['day'])}{f', {year}' if year else ''}")
            inside[place] = cell
        if cell:
            self.day = cell
            if self.blanks:
                self._same_crop(inside)
        elif self.day and any(inside[one] for one in self._places("weight")):
            if self.blanks:
                inside[place] = self.day
            elif self.blanks is None:
                self.dateless += 1

    def _same_crop(self, inside: list[SheetCell]) -> None:
        """Put the crop above into a row that has a date and a weight alone."""
        what = [place for meaning in ("crop", "variety", "tag") for place in self._places(meaning)]
        if any(inside[place] for place in what) or not any(inside[one] for one in self._places("weight")):
            return
        for place in what:
            inside[place] = self.above.get(place, EMPTY)


def _years(text: str) -> set[str]:
    """Return the years that a title names."""
    both = {f"20{second}" for first, second in _YEARS.findall(text) if int(second) == (int(first) + 1) % 100}
    return {*_YEAR.findall(text), *both}


def _month(text: str) -> tuple[int, str] | None:
    """Return the month that is all that a text says, and its year where it is told."""
    found = _MONTH.fullmatch(text.strip())
    if found is None:
        return None
    year = (found.group("year") or "").strip("'")
    return MONTH_NUMBERS[found.group("month").casefold()], f"20{year}" if len(year) == 2 else year


def _month_after(cell: SheetCell, above: tuple[int, str]) -> tuple[int, str] | None:
    """Return the month of bare days below a date: that which it names, with its year, or else that above.

    None where the date is all numbers and may be of another month: which one, they do not tell.
    """
    if cell.day is not None:
        return cell.day.month, str(cell.day.year)
    whole = _WHOLE_DATE.match(cell.text.strip())
    if whole is not None:
        return int(whole["month"]), whole["year"]
    numbers = _IN_NUMBERS.match(cell.text.strip())
    if numbers is not None:
        return above if above[0] in map(int, numbers.groups()) else None
    words = re.findall(r"[^\W\d_]+", cell.text.casefold())
    months = [MONTH_NUMBERS[word] for word in words if word in MONTH_NUMBERS]
    if len(months) != 1:
        return above
    years = _YEAR.findall(cell.text)
    # An earlier month than that above may be one of the next year: the season says which.
    return months[0], years[0] if years else above[1] if months[0] >= above[0] else ""


def month_named(text: str) -> bool:
    """Return whether a text is the name of a month, perhaps with a year."""
    return _month(text) is not None


def _unit_in(text: str) -> Unit | None:
    """Return the one unit of weight that a title names, or None."""
    units = {UNIT_WORDS[word] for word in re.findall(r"[^\W\d_]+", folded(text)) if word in UNIT_WORDS}
    return units.pop() if len(units) == 1 else None
