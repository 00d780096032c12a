"""``tallybed take-in``: each row of a spreadsheet that tells a weighing becomes a row of the ledger, once."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import replace
from pathlib import Path

from tallybed.garden.findings import worded
from tallybed.garden.garden import Season
from tallybed.garden.naming import folded
from tallybed.garden.plurals import figured
from tallybed.publishing.files.csv_text import WHY
from tallybed.reading.base.problems import LeftOut, Problems
from tallybed.reading.folder.disk import FolderOnDisk
from tallybed.reading.folder.known_files import CONTENT, LEDGER, TAKE_IN, TAKEN_IN
from tallybed.reading.scale.vocabulary import Vocabulary
from tallybed.reading.spreadsheet.columns import plain
from tallybed.reading.spreadsheet.dates import DateOrder, order_shown
from tallybed.reading.spreadsheet.figures import decimal_sign
from tallybed.reading.spreadsheet.record import TakenFile, taken_files
from tallybed.reading.spreadsheet.rows import ReadRow, SheetReader
from tallybed.reading.spreadsheet.shaping import HeadedSheet
from tallybed.reading.spreadsheet.weights import NO_UNIT
from tallybed.reckoning.harvest.sheet_compare import Compared, compared
from tallybed.tasks.base.errors import UsageError
from tallybed.tasks.base.garden import Understood, understood, year_of
from tallybed.tasks.taking_in.fates import held_against, placed, with_correction, with_likenesses
from tallybed.tasks.taking_in.intake import Books, Fate, Intake, JudgedRow, Settings
from tallybed.tasks.taking_in.lost_columns import lost_columns
from tallybed.tasks.taking_in.sheets import name_known, require_new, safe_name, sheets_meant
from tallybed.tasks.taking_in.skipped import is_skipped, skipped, skipped_file
from tallybed.tasks.taking_in.unsettled import (
    about_sheet,
    date_texts,
    open_dates,
    open_numbers,
    open_space,
    outside,
    spellings,
    undated_year,
    unknown_names,
    weight_texts,
    with_code,
)
from tallybed.tasks.weighing.scale import Scale, agreement
from tallybed.writing.atomic import write_over
from tallybed.writing.ledger import UnfitError, append_with_record, turn


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
    scales = {one.name: _scale(found, root, one) for one in found.garden.seasons}
    return Books(root=root, garden=found.garden, settled=found.taking, scales=scales, errors=found.errors)


def _scale(found: Understood, root: Path, season: Season) -> Scale:
    """Return the scale of a season as a whole, seen from the season's last day."""
    return Scale(
        root=root,
        year=year_of(found.garden, season, season.span.last),
        vocabulary=Vocabulary.of(found.garden, season, found.taking.names_of(season.name)),
        day=season.span.last,
        errors=found.errors,
    )


def look(books: Books, name: str, data: bytes, settings: Settings) -> Intake:
    """Look through a spreadsheet of one sheet; see ``looks``. Raises UsageError."""
    return looks(books, name, data, settings)[0]


def looks(books: Books, name: str, data: bytes, settings: Settings) -> tuple[Intake, ...]:
    """Look through a spreadsheet and say what would become of each row; nothing is written.

    A workbook with a sheet for each month gives one intake for each. Raises UsageError where
    the file cannot be read or understood as a whole.
    """
    if settings.season and settings.season not in books.scales:
        raise UsageError(f"the garden has no season {settings.season}; it has: {', '.join(books.scales)}")
    said = {**books.settled.columns, **settings.columns}
    vocabularies = books.vocabularies(settings.names)
    blanks = books.settled.blanks if settings.blanks is None else settings.blanks
    if is_skipped(name):
        blanks = False  # what stood above in the sheet does not stand above there
    sheets, others = sheets_meant(
        safe_name(name), data, said, settings.sheet, lambda text: _known(vocabularies, text), blanks
    )
    with turn(books.root / CONTENT):
        taken = {season: _record(books, season) for season in books.scales}
    name, several = safe_name(name), len(sheets) > 1
    return tuple(
        _look(
            books,
            name_known(name, sheet.name, settings.called, taken, one_of_several=several),
            sheet,
            settings,
            taken,
            () if number else others,
            part=is_skipped(name),
        )
        for number, sheet in enumerate(sheets)
    )


def _known(vocabularies: Mapping[str, Vocabulary], text: str) -> bool:
    """Return whether any season knows a text as a crop, a variety, or both."""
    words = " ".join(text.split()).rstrip(" .,:;")
    return bool(words) and any(
        vocabulary.slugs(words) or folded(words) in vocabulary.varieties
        for vocabulary in vocabularies.values()
    )


def _look(
    books: Books,
    called: str,
    sheet: HeadedSheet,
    settings: Settings,
    taken: Mapping[str, Mapping[str, TakenFile]],
    others: Sequence[str],
    *,
    part: bool,
) -> Intake:
    """Say what would become of each row of one sheet; ``part``: it holds skipped rows of another."""
    before = {season: found[called] for season, found in taken.items() if called in found}
    said = settings.order or next((one.order for one in before.values() if one.order), None)
    order = said or _usual_order(books, sheet)
    by_column = order is not None and said is None and books.settled.order is None
    texts = weight_texts(sheet)
    shown, _needed = decimal_sign(text for text, _unit in texts)
    reader = SheetReader(
        vocabularies=books.vocabularies(settings.names),
        order=order,
        unit=settings.unit or sheet.unit or books.settled.unit,
        season=settings.season,
        decimal=shown or settings.decimal or books.settled.decimal,
        spaces=settings.spaces or books.settled.spaces,
        spellings={**books.settled.spellings, **settings.spellings},
        year=settings.year or (sheet.year if sheet.year in books.scales else _one(before) or sheet.year),
    )
    told = list(reader.rows(sheet))
    rows = [one.row for one in told]
    if not before and not settings.called:
        require_new(called, rows, taken)
    rows_before = [row for one in before.values() for row in one.rows]
    lost = lost_columns(rows, rows_before, sheet.columns.headings)
    against = compared(rows, rows_before, part=part, lost=lost)
    lines = list(_judged(books, sheet.name, told, against, settings, lost))
    still_open = [one for one, line in zip(told, lines, strict=True) if line.fate is Fate.UNPLACED]
    return Intake(
        name=called,
        sheet=sheet,
        lines=with_likenesses(books, lines),
        unknown=unknown_names(books, zip(told, lines, strict=True)),
        order=order,
        open_dates=open_dates(still_open),
        gone=against.gone,
        anew=bool(against.gone) and not against.known and not against.changed,
        taken=taken,
        open_numbers=open_numbers(still_open, texts, reader.unit),
        open_space=open_space(still_open),
        unitless=with_code(still_open, NO_UNIT),
        undated_year=undated_year(still_open),
        outside=outside(still_open),
        spellings=spellings(still_open),
        told=about_sheet(sheet, others, order if by_column else None, lost),
    )


def _usual_order(books: Books, sheet: HeadedSheet) -> DateOrder | None:
    """Return the order that the garden, or else the column itself, shows; None where they differ.

    A column that shows another order than the garden's is asked about.
    """
    settled, shown = books.settled.order, order_shown(date_texts(sheet))
    return None if settled and shown and settled is not shown else settled or shown


def _judged(
    books: Books,
    sheet: str,
    told: Sequence[ReadRow],
    against: Compared,
    settings: Settings,
    lost: Collection[str],
) -> Iterator[JudgedRow]:
    """Yield what becomes of each row of a sheet that was held ``against`` what was taken of it before."""
    known = set(against.known)
    for place, one in enumerate(told):
        if place in known:
            line = JudgedRow(row=one.row, fate=Fate.KNOWN)
        else:
            line = held_against(settings, sheet, one.row, against, place, lost) or placed(books, one)
        yield replace(with_correction(books, line, one), cells=one.cells)


def _one(before: Mapping[str, TakenFile]) -> str:
    """Return the one season into which a file was taken before, or an empty text."""
    return next(iter(before)) if len(before) == 1 else ""


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


def write_all(books: Books, intakes: Sequence[Intake], beside: Path) -> int:
    """Write the new rows of a file's sheets, and the rows without a place beside it; return how many.

    ``beside`` is the spreadsheet. Raises UsageError where the ledger cannot take them, somebody
    took rows in meanwhile, or rows skipped before would be lost; OSError.
    """
    content = books.root / CONTENT
    unplaced = [intake for intake in intakes if intake.of(Fate.UNPLACED)]
    for intake in unplaced:
        _require_no_loss(books, intake, skipped_file(intake, beside))
    try:
        with turn(content):
            for season in books.scales:
                if _record(books, season) != intakes[0].taken[season]:
                    raise UsageError("somebody took a spreadsheet in meanwhile; run the command again")
            for season in books.scales:
                lines = [
                    (intake, line)
                    for intake in intakes
                    for line in intake.of(Fate.NEW)
                    if line.season == season
                ]
                if lines:
                    _write_season(books, season, lines)
    except UnfitError as unfit:
        raise UsageError(f"nothing more was written: {unfit}") from None
    for intake in unplaced:
        write_over(skipped_file(intake, beside), skipped(intake))
    return sum(len(intake.of(Fate.NEW)) for intake in intakes)


def _require_no_loss(books: Books, intake: Intake, path: Path) -> None:
    """Stop where a file of rows skipped before holds what somebody wrote there. Raises UsageError, OSError.

    Rows that were taken in, or that the sheet has just so, are no loss.
    """
    if not path.exists():
        return
    columns = zip(map(plain, intake.sheet.columns.names), intake.sheet.columns.headings, strict=True)
    settings = Settings(columns=dict(columns), order=intake.order)
    try:
        before = look(books, path.name, path.read_bytes(), settings)
        there = {line.row.by_value for line in intake.lines}
        lost = [one for one in before.lines if one.fate is not Fate.KNOWN and one.row.by_value not in there]
        more = set(before.sheet.columns.names) - {WHY, *intake.sheet.columns.names}
        kept = not (lost or more or before.sheet.left_out or before.sheet.beside)
    except UsageError:
        kept = False
    if not kept:
        raise UsageError(
            f"nothing was written: {path.name} is there, and not all that stands in it is in the ledger or "
            "in the file that is taken in now; take it in, then delete it or give it another name"
        )


def _write_season(books: Books, season: str, lines: Sequence[tuple[Intake, JudgedRow]]) -> None:
    """Write one season's new rows into its ledger, and into the record of what was taken in."""
    slips = [line.slip for _intake, line in lines if line.slip is not None]
    files = dict(lines[0][0].taken[season])
    for intake in dict.fromkeys(intake.name for intake, _line in lines):
        own = [(one, line.row) for one, line in lines if one.name == intake]
        before = files.get(intake, TakenFile(name=intake))
        files[intake] = replace(
            before, order=own[0][0].order, rows=(*before.rows, *(row for _one, row in own))
        )
    ledger = f"{season}/{LEDGER}"
    name = lines[0][0].name
    if any(intake.name != name for intake, _line in lines):
        name = name.partition(" [")[0]
    append_with_record(
        books.root / CONTENT,
        ledger,
        [slip.row for slip in slips],
        agreement(f"{CONTENT}/{ledger}", [slip.weighing for slip in slips], books.scales[season].vocabulary),
        f"{season}/{TAKEN_IN}",
        books.record_text(season, files.values()),
        f"{figured(len(slips), 'row')} of {name}",
    )
