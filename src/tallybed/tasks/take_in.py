"""``tallybed take-in``: each row of a spreadsheet that tells a weighing becomes a row of the ledger, once."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from pathlib import Path

from tallybed.garden.findings import worded
from tallybed.garden.garden import Garden, Season
from tallybed.publishing.files.csv_text import skipped_rows
from tallybed.reading.base.problems import LeftOut, Problems
from tallybed.reading.folder.disk import FolderOnDisk
from tallybed.reading.folder.known_files import CONTENT, LEDGER, TAKE_IN, TAKEN_IN
from tallybed.reading.scale.vocabulary import Vocabulary
from tallybed.reading.shapes.take_in import TakeInSettings
from tallybed.reading.spreadsheet.record import TakenFile, taken_files
from tallybed.reading.spreadsheet.rows import SheetReader
from tallybed.reckoning.harvest.sheet_compare import compared
from tallybed.tasks.errors import UsageError
from tallybed.tasks.garden import understood, year_of
from tallybed.tasks.taking_in.fates import held_against, placed, with_likenesses
from tallybed.tasks.taking_in.intake import Books, Fate, Intake, JudgedRow, Settings
from tallybed.tasks.taking_in.sheets import require_new, sheet_meant, whole_of
from tallybed.tasks.taking_in.unsettled import open_dates, unknown_names
from tallybed.tasks.weighing.scale import Scale, agreement
from tallybed.writing import take_in_record
from tallybed.writing.atomic import write_over
from tallybed.writing.ledger import UnfitError, append_with_record, turn

SKIPPED = ".skipped.csv"
"""Follows the name of a file in that of the one its skipped rows are saved in."""


def books(root: Path) -> Books:
    """Return a garden's books.

    Raises UsageError where root is not a garden folder, has no season, or its take-in.yaml
    cannot be understood, BrokenError where its garden.yaml cannot; OSError.
    """
    found = understood(root)
    for finding in found.errors:
        if finding.place.file == f"{CONTENT}/{TAKE_IN}":
            raise UsageError(worded(finding))
    if not found.garden.seasons:
        raise UsageError(f"the garden has no season; make a folder for it, such as {CONTENT}/2026")
    scales = {one.name: _scale(root, found.garden, one, found.taking) for one in found.garden.seasons}
    return Books(root=root, garden=found.garden, settled=found.taking, scales=scales, errors=found.errors)


def _scale(root: Path, garden: Garden, season: Season, settled: TakeInSettings) -> Scale:
    """Return the scale of a season as a whole, seen from the season's last day."""
    return Scale(
        root=root,
        year=year_of(garden, season, season.span.last),
        vocabulary=Vocabulary.of(garden, season, settled.names.get(season.name)),
        day=season.span.last,
    )


def look(books: Books, name: str, data: bytes, settings: Settings) -> Intake:
    """Look through a spreadsheet and say what would become of each row; nothing is written.

    Raises UsageError where the file cannot be read or understood as a whole.
    """
    if settings.season and settings.season not in books.scales:
        raise UsageError(f"the garden has no season {settings.season}; it has: {', '.join(books.scales)}")
    said = {**books.settled.columns, **settings.columns}
    table, sheet = sheet_meant(name, data, said, settings.sheet)
    called = settings.called or (f"{name} [{table.name}]" if table.name else name)
    part = called.endswith(SKIPPED)
    with turn(books.root / CONTENT):
        taken = {season: _record(books, season) for season in books.scales}
    if part:
        called = whole_of(called.removesuffix(SKIPPED), taken)
    before = [found[called] for found in taken.values() if called in found]
    order = settings.order or next((one.order for one in before if one.order), None) or books.settled.order
    reader = SheetReader(
        vocabularies=books.vocabularies(), order=order, unit=books.settled.unit, season=settings.season
    )
    told = list(reader.rows(sheet))
    rows = [one.row for one in told]
    if not before and not settings.called:
        require_new(called, rows, taken)
    against = compared(rows, [row for one in before for row in one.rows], part=part)
    known = set(against.known)
    lines = [
        JudgedRow(row=one.row, fate=Fate.KNOWN)
        if place in known
        else held_against(settings, one.row, against, place) or placed(books, one)
        for place, one in enumerate(told)
    ]
    return Intake(
        name=called,
        sheet=sheet,
        lines=with_likenesses(books, lines),
        unknown=unknown_names(books, zip(told, lines, strict=True)),
        order=order,
        open_dates=open_dates(told),
        part=part,
        gone=against.gone,
        anew=bool(against.gone) and not against.known and not against.changed,
        taken=taken,
    )


def _record(books: Books, season: str) -> Mapping[str, TakenFile]:
    """Return what was taken into a season, by file."""
    file = f"{CONTENT}/{season}/{TAKEN_IN}"
    if not (books.root / file).exists():
        return {}
    problems = Problems()
    try:
        return taken_files(FolderOnDisk(books.root, problems).text(file), file, problems)
    except LeftOut:
        raise UsageError(worded(problems.all()[0])) from None


def write(books: Books, intake: Intake, beside: Path) -> int:
    """Write the new rows of an intake, and the rows that are not placed beside the file; return how many.

    ``beside`` is the spreadsheet. Raises UsageError where the ledger cannot take them or
    somebody took rows in meanwhile; OSError.
    """
    content = books.root / CONTENT
    new = intake.of(Fate.NEW)
    try:
        with turn(content):
            if {season: _record(books, season) for season in books.scales} != intake.taken:
                raise UsageError("somebody took a spreadsheet in meanwhile; run the command again")
            for season in books.scales:
                lines = [line for line in new if line.season == season]
                if lines:
                    _write_season(books, intake, season, lines)
    except UnfitError as unfit:
        raise UsageError(f"nothing more was written: {unfit}") from None
    unplaced = intake.of(Fate.UNPLACED)
    if unplaced:
        write_over(beside.with_name(beside.name + SKIPPED), _skipped(intake, unplaced))
    return len(new)


def _write_season(books: Books, intake: Intake, season: str, lines: Sequence[JudgedRow]) -> None:
    """Write one season's new rows into its ledger, and into the record of what was taken in."""
    slips = [line.slip for line in lines if line.slip is not None]
    files = dict(intake.taken[season])
    before = files.get(intake.name, TakenFile(name=intake.name))
    files[intake.name] = replace(
        before, order=intake.order, rows=(*before.rows, *(line.row for line in lines))
    )
    ledger = f"{season}/{LEDGER}"
    number = len(slips)
    append_with_record(
        books.root / CONTENT,
        ledger,
        [slip.row for slip in slips],
        agreement(f"{CONTENT}/{ledger}", [slip.weighing for slip in slips], books.scales[season].vocabulary),
        f"{season}/{TAKEN_IN}",
        take_in_record.record_text((one.name, one.order or "", one.rows) for one in files.values()),
        f"{number} {'row' if number == 1 else 'rows'} of {intake.name}",
    )


def _skipped(intake: Intake, lines: Sequence[JudgedRow]) -> bytes:
    """Return the skipped rows as they stand in the file, with reasons."""
    cells = dict(intake.sheet.rows)
    rows = [([cell.text for cell in cells[line.row.number]], line.words) for line in lines]
    return skipped_rows(intake.sheet.columns.names, rows)
