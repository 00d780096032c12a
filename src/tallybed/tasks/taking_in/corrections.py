"""Rows corrected since they were taken in: the ledger's line as it stands, and as it should be."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from tallybed.garden.records.ledger import Weighing, one_place
from tallybed.garden.records.pickings import SheetRow
from tallybed.reading.folder.known_files import CONTENT, LEDGER, TAKEN_IN
from tallybed.reading.folder.ledger_check import changed_otherwise
from tallybed.reading.spreadsheet.record import TakenFile
from tallybed.tasks.base.errors import UsageError
from tallybed.tasks.taking_in.fates import read_again
from tallybed.tasks.taking_in.intake import Books, Fate, Intake, JudgedRow
from tallybed.tasks.weighing.scale import Slip
from tallybed.writing.ledger import UnfitError, correct, offset_of, turn


@dataclass(frozen=True, slots=True, kw_only=True)
class Correction:
    """One row of the ledger that a spreadsheet has corrected."""

    season: str
    file: str
    """The name under which the spreadsheet is known."""
    old: SheetRow
    new: SheetRow
    standing: str
    """The row as it stands in the ledger."""
    line: int
    """The line of the ledger on which it stands."""
    slip: Slip
    """The row as it should be."""


def corrections(books: Books, intakes: Sequence[Intake]) -> tuple[Correction, ...]:
    """Return the corrections that can be written: the ledger's row stands as it was taken in."""
    return tuple(
        found for intake in intakes for line in intake.of(Fate.CHANGED) for found in _one(books, intake, line)
    )


@dataclass(frozen=True, slots=True)
class ReadOtherwise:
    """A column that is read otherwise than when its rows were taken: somebody told its meaning then."""

    column: str
    """Its heading."""
    then: str
    now: str
    """What it meant then, and means now."""


def read_otherwise(intake: Intake, line: JudgedRow) -> ReadOtherwise | None:
    """Return the column that makes all of a row's difference from what was taken, if one does."""
    was, now = dict(line.old.cells if line.old else ()), dict(line.row.cells)
    before = {meaning: text for meaning, text in was.items() if now.get(meaning) != text}
    after = {meaning: text for meaning, text in now.items() if was.get(meaning) != text}
    if len(before) != 1 or len(after) != 1 or {*before.values()} != {*after.values()}:
        return None
    (then,), (today,) = before, after
    columns = intake.sheet.columns
    pairs = zip(columns.names, columns.headings, strict=True)
    names = [name for name, heading in pairs if heading.meaning == today]
    return ReadOtherwise(names[0], then, today) if len(names) == 1 else None


def _one(books: Books, intake: Intake, line: JudgedRow) -> Iterator[Correction]:
    """Yield the correction of one row, if it can be written."""
    if line.old is None or line.slip is None or not line.season:
        return
    before = read_again(books, line.old, line.season)
    if before is None:
        return
    stands = _standing(books, before, line.season)
    if stands is not None:
        yield Correction(
            season=line.season,
            file=intake.name,
            old=line.old,
            new=line.row,
            standing=stands[0],
            line=stands[1],
            slip=line.slip,
        )


def _standing(books: Books, before: Slip, season: str) -> tuple[str, int] | None:
    """Return the ledger's row that a slip was written as, and its line; None where there is none any more.

    Spelled as it would be written today, or else one that says the same on one line: a destination is
    written as the ledger spells it, a crop as the garden's country calls it, and that may have been
    otherwise then.
    """
    path = books.root / CONTENT / season / LEDGER
    data = path.read_bytes() if path.exists() else b""
    at = offset_of(before.row, data)
    if at is not None:
        return before.row, data.count(b"\n", 0, at) + 1
    ledger = next((one.ledger for one in books.garden.seasons if one.name == season), None) or ()
    lines = data.decode("utf-8", "replace").splitlines()
    for row in ledger:
        if _by_place(row) == _by_place(before.weighing) and row.place.line <= len(lines):
            text = lines[row.place.line - 1].strip().removeprefix("-").strip()
            if text.startswith("{") and text.endswith("}"):
                return text, row.place.line
    return None


def _by_place(row: Weighing) -> Weighing:
    """Return a weighing with crops and destinations under the name that tells one from another."""
    crops = tuple(replace(crop, typed="") for crop in row.crops)
    return replace(row, crops=crops, to=tuple(replace(part, name=one_place(part.name)) for part in row.to))


def write_corrections(books: Books, intakes: Sequence[Intake], found: Sequence[Correction]) -> int:
    """Write corrections into ledger and record together; return how many. Raises UsageError, OSError."""
    done = 0
    try:
        with turn(books.root / CONTENT):
            for season in dict.fromkeys(one.season for one in found):
                own = [one for one in found if one.season == season]
                _write_season(books, season, own, intakes[0].taken[season].values())
                done += len(own)
    except UnfitError as unfit:
        said = f"{done} of {len(found)} rows corrected, the others not" if done else "nothing was corrected"
        raise UsageError(f"{said}: {unfit}") from None
    return done


def _write_season(books: Books, season: str, found: Sequence[Correction], taken: Iterable[TakenFile]) -> None:
    """Write one season's corrections into its ledger and its record. Raises UnfitError, OSError."""
    ledger = f"{season}/{LEDGER}"
    context = books.scales[season].vocabulary.context
    meant = [one.slip.weighing for one in found]

    def agree(old: bytes, new: bytes) -> None:
        """Raise UnfitError where more than the corrected rows would read otherwise."""
        wrong = changed_otherwise(old, new, meant, f"{CONTENT}/{ledger}", context)
        if wrong:
            raise UnfitError(wrong)

    correct(
        books.root / CONTENT,
        ledger,
        [(one.standing, one.slip.row) for one in found],
        agree,
        f"{season}/{TAKEN_IN}",
        books.record_text(season, (_corrected(one, found) for one in taken)),
    )


def _corrected(taken: TakenFile, found: Sequence[Correction]) -> TakenFile:
    """Return what was taken from a file with its corrected rows in the place of the old ones."""
    rows = list(taken.rows)
    for one in found:
        if one.file == taken.name and one.old in rows:
            rows[rows.index(one.old)] = one.new
    return replace(taken, rows=tuple(rows))
