"""Taking in a spreadsheet: each row that tells a weighing becomes a row of the ledger, once.

Like ``building`` it brings tiers together; the commands call it.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from pathlib import Path

from tallybed.garden.findings import worded
from tallybed.garden.garden import Garden, Season
from tallybed.garden.pickings import SheetRow
from tallybed.publishing.files.skipped_rows import skipped_rows
from tallybed.reading.base.problems import LeftOut, Misread, Problems
from tallybed.reading.folder.disk import FolderOnDisk
from tallybed.reading.folder.known_files import LEDGER, NAMES, TAKE_IN, TAKEN_IN
from tallybed.reading.scale.vocabulary import Vocabulary
from tallybed.reading.shapes.take_in import TakeInSettings
from tallybed.reading.spreadsheet.columns import Heading, recognised
from tallybed.reading.spreadsheet.dates import AMBIGUOUS
from tallybed.reading.spreadsheet.record import TakenFile, taken_files
from tallybed.reading.spreadsheet.rows import HeadedSheet, ReadRow, SheetReader, found_sheet
from tallybed.reading.spreadsheet.tables import LARGEST, SheetTable, TableError, tables
from tallybed.reckoning.harvest.picking_source import Asking, Found, SourceQuestion, whose
from tallybed.reckoning.harvest.sheet_compare import Compared, Likenesses, compared, same_file
from tallybed.reckoning.squares.occupancy import hold
from tallybed.tasks.build import CONTENT, UsageError, understood
from tallybed.tasks.take_in_rows import Books, Fate, Intake, JudgedRow, Settings, Unknown
from tallybed.tasks.weigh import Scale, agreement
from tallybed.writing import take_in_record
from tallybed.writing.atomic import write_over
from tallybed.writing.ledger import UnfitError, turn
from tallybed.writing.ledger_row import scalar

SKIPPED = ".skipped.csv"
"""Follows the name of a file in that of the one its skipped rows are saved in."""


def books(root: Path) -> Books:
    """Return a garden's books.

    Raises UsageError where root is no garden folder, has no season, or its take-in.yaml
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
    return Scale(
        root=root,
        garden=garden,
        season=season,
        holding=hold(season, season.span.last),
        vocabulary=Vocabulary.of(garden, season, settled.names.get(season.name)),
        day=season.span.last,
    )


def contents(path: Path) -> bytes:
    """Return a spreadsheet's bytes, no more than are read at all. Raises UsageError, OSError."""
    if not path.is_file():
        raise UsageError(f"{path} is no file")
    with path.open("rb") as stream:
        return stream.read(LARGEST + 1)


def look(books: Books, name: str, data: bytes, settings: Settings) -> Intake:
    """Look through a spreadsheet and say what would become of each row; nothing is written.

    Raises UsageError where the file cannot be read or understood as a whole.
    """
    if settings.season and settings.season not in books.scales:
        raise UsageError(f"the garden has no season {settings.season}: {', '.join(books.scales)}")
    said = {**books.settled.columns, **settings.columns}
    table, sheet = _sheet(name, data, said, settings.sheet)
    called = settings.called or (f"{name} [{table.name}]" if table.name else name)
    part = called.endswith(SKIPPED)
    with turn(books.root / CONTENT):
        taken = {season: _record(books, season) for season in books.scales}
    if part:
        called = _whole_of(called.removesuffix(SKIPPED), taken)
    before = [found[called] for found in taken.values() if called in found]
    order = settings.order or next((one.order for one in before if one.order), None) or books.settled.order
    reader = SheetReader(
        vocabularies=books.vocabularies(), order=order, unit=books.settled.unit, season=settings.season
    )
    told = list(reader.rows(sheet))
    rows = [one.row for one in told]
    if not before and not settings.called:
        _not_another(called, rows, taken)
    against = compared(rows, [row for one in before for row in one.rows], part=part)
    known = set(against.known)
    lines = [
        JudgedRow(row=one.row, fate=Fate.KNOWN)
        if place in known
        else _held_against(settings, one.row, against, place) or _placed(books, one)
        for place, one in enumerate(told)
    ]
    return Intake(
        name=called,
        sheet=sheet,
        lines=_with_likenesses(books, lines),
        unknown=_unknown(books, zip(told, lines, strict=True)),
        order=order,
        open_dates=_open_dates(told),
        part=part,
        gone=against.gone,
        anew=bool(against.gone) and not against.known and not against.changed,
        taken=taken,
    )


def _sheet(
    name: str, data: bytes, said: Mapping[str, Heading], wanted: str
) -> tuple[SheetTable, HeadedSheet]:
    """Return the sheet to be taken in: the one named, else the only one that has the headings."""
    try:
        found = tables(name, data, lambda cells: recognised(cells, said))
    except TableError as error:
        raise UsageError(str(error)) from None
    if wanted:
        found = tuple(table for table in found if table.name == wanted)
    if not found:
        raise UsageError(f"{name} has no sheet {wanted!r}" if wanted else f"{name} holds nothing")
    fitting: list[tuple[SheetTable, HeadedSheet]] = []
    wrong: list[str] = []
    for table in found:
        try:
            fitting.append((table, found_sheet(table, said)))
        except Misread as misread:
            wrong.append(f"{name}{f', sheet {table.name}' if table.name else ''}: {misread.sentence}")
    if not fitting:
        raise UsageError("\n".join(wrong))
    if len(fitting) > 1:
        names = ", ".join(table.name for table, _sheet in fitting)
        raise UsageError(f"{name} has several sheets of weighings: {names}; name one with --sheet")
    return fitting[0]


def _record(books: Books, season: str) -> Mapping[str, TakenFile]:
    """Return what was taken into a season, after finishing what a machine left half done."""
    take_in_record.finish(books.root / CONTENT, season, LEDGER, TAKEN_IN)
    file = f"{CONTENT}/{season}/{TAKEN_IN}"
    if not (books.root / file).exists():
        return {}
    problems = Problems()
    try:
        return taken_files(FolderOnDisk(books.root, problems).text(file), file, problems)
    except LeftOut:
        raise UsageError(worded(problems.all()[0])) from None


def _whole_of(name: str, taken: Mapping[str, Mapping[str, TakenFile]]) -> str:
    """Return the name under which the file is known whose skipped rows these are."""
    every = {one for found in taken.values() for one in found}
    sheets = [one for one in sorted(every) if one.startswith(f"{name} [")]
    return sheets[0] if name not in every and len(sheets) == 1 else name


def _not_another(called: str, rows: Sequence[SheetRow], taken: Mapping[str, Mapping[str, TakenFile]]) -> None:
    """Stop where most rows were taken under another name. Raises UsageError."""
    by_name: dict[str, list[SheetRow]] = {}
    for found in taken.values():
        for one in found.values():
            by_name.setdefault(one.name, []).extend(one.rows)
    other = same_file(rows, by_name)
    if other:
        raise UsageError(
            f"rows of {called} were taken in from {other} already; if it is that sheet under another name, "
            f'say --as "{other}"; if its rows are others that happen to be equal, say --as "{called}"'
        )


def _placed(books: Books, told: ReadRow) -> JudgedRow:
    """Return a new row with the planting it came from, or why there is none."""
    if told.picking is None:
        words = "; ".join(problem.text for problem in told.problems)
        return JudgedRow(row=told.row, fate=Fate.UNPLACED, words=words, season=told.season)
    scale = books.scales[told.season]
    answer = whose(scale.holding, told.picking, looking_around=False)
    if isinstance(answer, Found):
        doubt = answer.doubt if scale.season.plan is not None else ""
        slip = scale.slip(told.picking, answer.source, doubt)
        return JudgedRow(row=told.row, fate=Fate.NEW, words=doubt, season=told.season, slip=slip)
    words = answer.words
    if isinstance(answer, SourceQuestion):
        choices = ", ".join(scale.choice(source, told.picking.day) for source in answer.choices)
        words += f": {choices}"
    question = answer if isinstance(answer, SourceQuestion) else None
    return JudgedRow(row=told.row, fate=Fate.UNPLACED, words=words, season=told.season, question=question)


def _held_against(settings: Settings, row: SheetRow, against: Compared, place: int) -> JudgedRow | None:
    """Return what a row is that was corrected, or may have been; None for a new one."""
    if place in against.changed:
        return _changed(row, against.changed[place])
    if place not in against.unsure or settings.others or settings.answers.get(row.number):
        return None
    old = against.unsure[place]
    if settings.answers.get(row.number) is False:
        return _changed(row, old)
    words = f"row {old.number} taken before is gone, and this may be it: {_difference(row, old)}"
    return JudgedRow(row=row, fate=Fate.UNSURE, words=words)


def _changed(row: SheetRow, old: SheetRow) -> JudgedRow:
    words = f"{_difference(row, old)} (mend the ledger and {TAKEN_IN} by hand)"
    return JudgedRow(row=row, fate=Fate.CHANGED, words=words)


def _difference(row: SheetRow, old: SheetRow) -> str:
    """Return what was taken and what stands there now."""
    keys = dict.fromkeys(name for name, _text in (*old.cells, *row.cells))
    parts = [
        f"{key} was {old.get(key) or 'empty'}, is {row.get(key) or 'empty'}"
        for key in keys
        if old.get(key) != row.get(key)
    ]
    return "; ".join(parts)


def _with_likenesses(books: Books, lines: Sequence[JudgedRow]) -> tuple[JudgedRow, ...]:
    """Point out new rows of a day, crop and weight that the ledger has, not taken from the file."""
    plantings = {
        season: Likenesses(scale.season.ledger or (), scale.holding.plantings)
        for season, scale in books.scales.items()
    }
    known = {line.row.cells for line in lines if line.fate is Fate.KNOWN}
    made = []
    for line in lines:
        like = plantings[line.season].of(line.slip.weighing) if line.slip else None
        if like is not None and line.row.cells not in known:
            words = f"the like stands in {like.place.file}:{like.place.line}"
            line = replace(line, words="; ".join(part for part in (words, line.words) if part))
        made.append(line)
    return tuple(made)


def _unknown(books: Books, told: Iterable[tuple[ReadRow, JudgedRow]]) -> tuple[Unknown, ...]:
    """Return the names to settle, each once, with the place to settle it in."""
    rows: Counter[tuple[str, str, bool]] = Counter()
    near: dict[tuple[str, str, bool], tuple[str, ...]] = {}
    for one, line in told:
        if line.fate is not Fate.UNPLACED:
            continue
        season = one.season or list(books.scales)[-1]
        for problem in one.problems:
            if problem.name:
                key = (problem.name, season, False)
                rows[key] += 1
                near[key] = problem.near
        question = line.question
        if question is not None and question.about is Asking.CROP and one.picking and one.picking.crops:
            key = (one.picking.crops[0].typed, season, True)
            rows[key] += 1
            near[key] = tuple(dict.fromkeys(source.crop for source in question.choices))
    return tuple(
        Unknown(name=key[0], near=near[key], rows=times, where=_where_to_settle(key, near[key]))
        for key, times in sorted(rows.items())
    )


def _where_to_settle(key: tuple[str, str, bool], near: Sequence[str]) -> str:
    name, season, general = key
    meaning = near[0] if near else "CROP"
    if general:
        return f"{CONTENT}/{season}/{NAMES}, as in   {scalar(name)}: {meaning}"
    return f"{CONTENT}/{TAKE_IN}, as in   names: {{{season}: {{{scalar(name)}: {meaning}}}}}"


def _open_dates(told: Sequence[ReadRow]) -> tuple[str, ...]:
    found = [
        one.row.get("date") for one in told if any(problem.code == AMBIGUOUS for problem in one.problems)
    ]
    return tuple(dict.fromkeys(found))


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
                raise UsageError("somebody took a spreadsheet in meanwhile; say the command again")
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
    slips = [line.slip for line in lines if line.slip is not None]
    files = dict(intake.taken[season])
    before = files.get(intake.name, TakenFile(name=intake.name))
    files[intake.name] = replace(
        before, order=intake.order, rows=(*before.rows, *(line.row for line in lines))
    )
    ledger = f"{CONTENT}/{season}/{LEDGER}"
    take_in_record.write(
        books.root / CONTENT,
        season,
        LEDGER,
        TAKEN_IN,
        [slip.row for slip in slips],
        agreement(ledger, [slip.weighing for slip in slips], books.scales[season].vocabulary),
        take_in_record.record_text((one.name, one.order or "", one.rows) for one in files.values()),
    )


def _skipped(intake: Intake, lines: Sequence[JudgedRow]) -> bytes:
    """Return the skipped rows as they stand in the file, with reasons."""
    cells = dict(intake.sheet.rows)
    rows = [([cell.text for cell in cells[line.row.number]], line.words) for line in lines]
    return skipped_rows(intake.sheet.columns.names, rows)
