"""What becomes of a row: placed, corrected since it was taken, or perhaps taken already."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import replace

from tallybed.garden.records.pickings import SheetRow
from tallybed.reading.spreadsheet.cells import SheetCell
from tallybed.reading.spreadsheet.columns import Columns, Heading
from tallybed.reading.spreadsheet.rows import ReadRow, SheetReader
from tallybed.reading.spreadsheet.shaping import HeadedSheet
from tallybed.reckoning.harvest.picking_source import Found, SourceQuestion, whose
from tallybed.reckoning.harvest.sheet_compare import Compared, Likenesses
from tallybed.tasks.taking_in.intake import Books, Fate, JudgedRow, Settings
from tallybed.tasks.taking_in.lost_columns import with_lost
from tallybed.tasks.weighing.scale import Slip


def placed(books: Books, told: ReadRow) -> JudgedRow:
    """Return a new row with the planting it came from, or why there is none."""
    if told.picking is None:
        words = "; ".join(problem.text for problem in told.problems)
        return JudgedRow(row=told.row, fate=Fate.UNPLACED, words=words, season=told.season)
    scale = books.scales[told.season]
    answer = whose(scale.year.holding, told.picking, scale.names, looking_around=False)
    if isinstance(answer, Found):
        doubt = answer.doubt if scale.year.season.plan is not None else ""
        slip = scale.slip(told.picking, answer.source, doubt)
        too_much = scale.belief.beyond(slip.weighing)
        if too_much:
            return JudgedRow(row=told.row, fate=Fate.UNPLACED, words=too_much, season=told.season)
        return JudgedRow(row=told.row, fate=Fate.NEW, words=doubt, season=told.season, slip=slip)
    words = answer.words
    if isinstance(answer, SourceQuestion):
        choices = ", ".join(scale.choice(source, told.picking.day) for source in answer.choices)
        words += f": {choices}"
    question = answer if isinstance(answer, SourceQuestion) else None
    return JudgedRow(row=told.row, fate=Fate.UNPLACED, words=words, season=told.season, question=question)


def held_against(
    settings: Settings, sheet: str, row: SheetRow, against: Compared, place: int, lost: Collection[str]
) -> JudgedRow | None:
    """Return what a row is that was corrected, or may have been; None for a new one.

    ``lost``: see ``lost_columns``; what it was taken with of that stays.
    """
    if place in against.changed:
        return _changed(row, against.changed[place], lost)
    if place not in against.unsure or settings.others or settings.answers.get((sheet, place)):
        return None
    old = against.unsure[place]
    if settings.answers.get((sheet, place)) is False:
        return _changed(row, old, lost)
    difference = _difference(with_lost(row, old, lost), old)
    words = f"row {old.number} taken before is gone, and this may be it: {difference}"
    return JudgedRow(row=row, fate=Fate.UNSURE, words=words)


def with_correction(books: Books, line: JudgedRow, told: ReadRow) -> JudgedRow:
    """Return a row corrected since it was taken with what the ledger should say; any other as it is."""
    if line.fate is not Fate.CHANGED or told.picking is None:
        return line
    slip = placed(books, told).slip if line.row == told.row else read_again(books, line.row, told.season)
    return replace(line, slip=slip, season=told.season)


def read_again(books: Books, row: SheetRow, season: str) -> Slip | None:
    """Return a row of the record as it is meant for the ledger; None where it would not be any more."""
    columns = Columns(
        headings=tuple(Heading(meaning) for meaning, _text in row.cells),
        names=tuple(meaning for meaning, _text in row.cells),
    )
    cells = tuple(SheetCell(text) for _meaning, text in row.cells)
    reader = SheetReader(vocabularies=books.vocabularies(), season=season)
    for told in reader.rows(HeadedSheet(columns=columns, rows=((row.number, cells),))):
        return placed(books, told).slip
    return None


def _changed(row: SheetRow, old: SheetRow, lost: Collection[str]) -> JudgedRow:
    """Return a row corrected since it was taken; its words say what differs."""
    row = with_lost(row, old, lost) if lost else row
    return JudgedRow(row=row, fate=Fate.CHANGED, words=_difference(row, old), old=old)


def _difference(row: SheetRow, old: SheetRow) -> str:
    """Return what was taken and what stands there now."""
    keys = dict.fromkeys(name for name, _text in (*old.cells, *row.cells))
    was, now = dict(old.by_value), dict(row.by_value)
    parts = [
        f"{key} was {old.get(key) or 'empty'}, is {row.get(key) or 'empty'}"
        for key in keys
        if was.get(key) != now.get(key)
    ]
    return "; ".join(parts)


def with_likenesses(books: Books, lines: Sequence[JudgedRow]) -> tuple[JudgedRow, ...]:
    """Point out new rows of a day, crop and weight that the ledger has, not taken from the file."""
    plantings = {
        season: Likenesses(scale.year.season.ledger or (), scale.year.holding.plantings)
        for season, scale in books.scales.items()
    }
    known = {line.row.by_value for line in lines if line.fate is Fate.KNOWN}
    made = []
    for line in lines:
        like = plantings[line.season].of(line.slip.weighing) if line.slip and not line.old else None
        if like is not None and line.row.by_value not in known:
            words = f"the like stands in {like.place.file}:{like.place.line}"
            line = replace(line, words="; ".join(part for part in (words, line.words) if part))
        made.append(line)
    return tuple(made)
