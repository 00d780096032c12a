"""What has to be settled before rows can be taken: names nobody knows, dates that read two ways."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Collection, Iterable, Sequence

from tallybed.garden.units import Unit
from tallybed.reading.base.problems import listed
from tallybed.reading.folder.known_files import CONTENT, NAMES, TAKE_IN
from tallybed.reading.scale.numbers import COMMA, POINT
from tallybed.reading.spreadsheet.columns import Spelling, unit_named
from tallybed.reading.spreadsheet.dates import AMBIGUOUS, NO_YEAR, DateOrder
from tallybed.reading.spreadsheet.figures import OpenNumbers, summed
from tallybed.reading.spreadsheet.rows import ReadRow
from tallybed.reading.spreadsheet.shaping import HeadedSheet
from tallybed.reading.spreadsheet.weights import OPEN_NUMBER, OPEN_SPACE
from tallybed.reckoning.harvest.picking_source import Asking
from tallybed.tasks.taking_in.intake import Books, Fate, JudgedRow, Unknown
from tallybed.writing.ledger_row import scalar


def unknown_names(books: Books, told: Iterable[tuple[ReadRow, JudgedRow]]) -> tuple[Unknown, ...]:
    """Return the names to settle, each once, with the place to settle it in."""
    rows: Counter[tuple[str, str, bool]] = Counter()
    near: dict[tuple[str, str, bool], tuple[str, ...]] = {}
    for one, line in told:
        if line.fate is not Fate.UNPLACED:
            continue
        season = one.season or list(books.scales)[-1]
        for trouble in one.problems:
            if trouble.name:
                key = (trouble.name, season, False)
                rows[key] += 1
                near[key] = trouble.near
        question = line.question
        if question is not None and question.about is Asking.CROP and one.picking and one.picking.crops:
            key = (one.picking.crops[0].typed, season, True)
            rows[key] += 1
            near[key] = tuple(dict.fromkeys(source.crop for source in question.choices))
    found = []
    for key, times in sorted(rows.items()):
        called = books.scales[key[1]].names.offered(near[key])
        where = _where_to_settle(key, called)
        found.append(Unknown(name=key[0], near=near[key], called=called, rows=times, where=where))
    return tuple(found)


def _where_to_settle(key: tuple[str, str, bool], called: Sequence[str]) -> str:
    """Return the file to settle a name in, another one for general names, with a line as an example."""
    name, season, general = key
    meaning = called[0] if called else "CROP"
    if general:
        return f"{CONTENT}/{season}/{NAMES}, as in   {scalar(name)}: {meaning}"
    return f"{CONTENT}/{TAKE_IN}, as in   names: {{{scalar(name)}: {meaning}}}"


def open_dates(told: Sequence[ReadRow]) -> tuple[str, ...]:
    """Return the dates that may be read two ways, each once."""
    found = [
        one.row.get("date") for one in told if any(trouble.code == AMBIGUOUS for trouble in one.problems)
    ]
    return tuple(dict.fromkeys(found))


def spellings(told: Sequence[ReadRow]) -> dict[Spelling, int]:
    """Return the squares and weights that are not understood, each once, with the number of its rows."""
    found = (trouble.spelling for one in told for trouble in one.problems)
    return dict(Counter(spelling for spelling in found if spelling is not None))


def with_code(told: Sequence[ReadRow], code: str) -> int:
    """Return the number of rows that one kind of trouble keeps from their place."""
    return sum(any(trouble.code == code for trouble in one.problems) for one in told)


def undated_year(told: Sequence[ReadRow]) -> str:
    """Return the first date without a year that may be of several seasons, or an empty text."""
    rows = (one for one in told if any(trouble.code == NO_YEAR for trouble in one.problems))
    return next((one.row.get("date") for one in rows), "")


def outside(told: Sequence[ReadRow]) -> tuple[str, ...]:
    """Return the years of rows whose day no season of the garden holds, each once."""
    rows = (one for one in told if any(trouble.code == "date-outside-season" for trouble in one.problems))
    years = (one.row.get("date")[:4] for one in rows)
    return tuple(sorted({year for year in years if year.isdigit()}))


def date_texts(sheet: HeadedSheet) -> tuple[str, ...]:
    """Return the days of a sheet that are texts, not dates."""
    places = [place for place, one in enumerate(sheet.columns.headings) if one.meaning == "date"]
    return tuple(
        cells[place].text
        for _number, cells in sheet.rows
        for place in places
        if place < len(cells) and cells[place].text and cells[place].day is None
    )


def weight_texts(sheet: HeadedSheet) -> tuple[tuple[str, Unit | None], ...]:
    """Return the weights of a sheet that are texts, not numbers, with the unit beside them or above."""
    places = [
        (place, one.unit) for place, one in enumerate(sheet.columns.headings) if one.meaning == "weight"
    ]
    units = [place for place, one in enumerate(sheet.columns.headings) if one.meaning == "unit"]
    return tuple(
        (cells[place].text, next((found for one in units if (found := unit_named(cells[one].text))), unit))
        for _number, cells in sheet.rows
        for place, unit in places
        if place < len(cells) and cells[place].text and not cells[place].number
    )


def open_numbers(
    told: Sequence[ReadRow], texts: Sequence[tuple[str, Unit | None]], usual: Unit | None
) -> OpenNumbers | None:
    """Return the numbers that may be read two ways, with both sums of their column; None where none may."""
    rows = [one for one in told if any(trouble.code == OPEN_NUMBER for trouble in one.problems)]
    if not rows:
        return None
    known = [(text, unit or usual or _named_in(text)) for text, unit in texts]
    with_unit = [(text, unit) for text, unit in known if unit is not None]
    comma, point = (summed(with_unit, sign)[1] for sign in (COMMA, POINT))
    return OpenNumbers(example=rows[0].row.get("weight"), sums=(comma, point))


def open_space(told: Sequence[ReadRow]) -> str:
    """Return the first weight in which a space may set two things apart, or an empty text."""
    rows = (one for one in told if any(trouble.code == OPEN_SPACE for trouble in one.problems))
    return next((one.row.get("weight") for one in rows), "")


def _named_in(text: str) -> Unit | None:
    """Return the unit that a weight names, or None."""
    found = (unit_named(word) for word in re.findall(r"[^\W\d_]+", text))
    return next((unit for unit in found if unit is not None), None)


SHOWN_BESIDE = 8
"""Cells beside a table that are told one by one."""


def about_sheet(
    sheet: HeadedSheet, others: Sequence[str], shown: DateOrder | None, lost: Collection[str]
) -> tuple[str, ...]:
    """Return what must be said of a sheet: how it was read, and what in it is no row of its table.

    ``shown`` is the order of dates that the column itself shows, where that was followed. ``lost``:
    see ``lost_columns``.
    """
    found = [f"{sheet.told}."] if sheet.told else []
    if shown is not None:
        first = "month" if shown is DateOrder.MONTH_FIRST else "day"
        found.append(f"Dates are read with the {first} first, as others in the column show.")
    if sheet.unit is not None:
        found.append(f"Weights without a unit are in {sheet.unit.symbol}, as the title says.")
    if lost:
        meanings = listed((f"“{meaning}”" for meaning in sorted(lost)), "or")
        found.append(f"No column is read as {meanings} any more: what was taken before stays.")
    reasons: dict[str, list[int]] = {}
    for number, why in sheet.left_out:
        reasons.setdefault(why, []).append(number)
    for why, numbers in reasons.items():
        several = "row" if len(numbers) == 1 else "rows"
        found.append(f"Left out as {why}: {several} {', '.join(map(str, numbers))}.")
    if sheet.beside:
        more = len(sheet.beside) - SHOWN_BESIDE
        words = ", ".join(sheet.beside[:SHOWN_BESIDE]) + (f" and {more} more" if more > 0 else "")
        found.append(f"Beside the table, not taken: {words}.")
    if others:
        found.append(f"Left alone: the {'sheet' if len(others) == 1 else 'sheets'} {', '.join(others)}.")
    return tuple(found)
