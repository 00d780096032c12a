"""A spreadsheet on its way into the ledger: what becomes of each row, with nothing written yet."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from enum import StrEnum
from pathlib import Path

from tallybed.garden.findings import Finding
from tallybed.garden.garden import Garden
from tallybed.garden.records.pickings import SheetRow
from tallybed.garden.units import Unit
from tallybed.reading.folder.known_files import CONTENT, TAKEN_IN
from tallybed.reading.scale.vocabulary import Vocabulary
from tallybed.reading.shapes.take_in import TakeInSettings
from tallybed.reading.spreadsheet.cells import SheetCell
from tallybed.reading.spreadsheet.columns import Heading, Spelling
from tallybed.reading.spreadsheet.dates import DateOrder
from tallybed.reading.spreadsheet.figures import OpenNumbers
from tallybed.reading.spreadsheet.record import TakenFile
from tallybed.reading.spreadsheet.shaping import HeadedSheet
from tallybed.reckoning.harvest.picking_source import SourceQuestion
from tallybed.tasks.weighing.scale import Scale, Slip
from tallybed.writing.take_in_record import record_text


class Fate(StrEnum):
    """What becomes of a row."""

    NEW = "new"
    KNOWN = "taken before"
    CHANGED = "changed since"
    UNSURE = "new or corrected"
    UNPLACED = "not placed"


@dataclass(frozen=True, slots=True, kw_only=True)
class JudgedRow:
    """One row and what becomes of it."""

    row: SheetRow
    fate: Fate
    words: str = ""
    """Why, or what to look at."""
    season: str = ""
    slip: Slip | None = None
    """As it will be written, for a new row or a corrected one."""
    question: SourceQuestion | None = None
    """What is open, for a row that is not placed because of it."""
    old: SheetRow | None = None
    """The row as it was taken, for one that was corrected since."""
    cells: tuple[SheetCell, ...] = ()
    """As they are saved where the row is skipped."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Unknown:
    """A name that has to be settled before its rows can be taken."""

    name: str
    near: tuple[str, ...]
    """Slugs of the crops that it is like or may mean."""
    called: tuple[str, ...]
    """The same crops as the garden's files name them."""
    rows: int
    where: str
    """The file to settle it in, and how."""


@dataclass(frozen=True, kw_only=True)
class Settings:
    """What was said on the command line."""

    columns: Mapping[str, Heading] = field(default_factory=dict)
    order: DateOrder | None = None
    season: str = ""
    called: str = ""
    """The name under which the file is to be known; empty: its own."""
    answers: Mapping[tuple[str, int], bool] = field(default_factory=dict)
    """By sheet, and place among its lines: whether one that may be new or a row corrected is new."""
    others: bool = False
    """Whether all of these are new."""
    sheet: str = ""
    decimal: str = ""
    """The sign before decimals, where the column does not show it."""
    spaces: str = ""
    """What a space in ``1 250 g`` sets apart."""
    unit: Unit | None = None
    """Of weights that nothing in the sheet gives one."""
    blanks: bool | None = None
    """Whether rows without a date mean the date above."""
    year: str = ""
    """The season of dates without a year."""
    names: Mapping[str, str] = field(default_factory=dict)
    """Folded name to slug, as answered."""
    spellings: Mapping[Spelling, str] = field(default_factory=dict)
    """What squares and weights mean that are not understood as they stand, as answered."""
    headings: Mapping[str, str] = field(default_factory=dict)
    """Heading to its meaning, as answered."""
    kept: Mapping[str, str] = field(default_factory=dict)
    """Answers that hold for good, by the key of take-in.yaml that keeps them."""


@dataclass(frozen=True, kw_only=True)
class Books:
    """A garden as spreadsheets are held against it."""

    root: Path
    garden: Garden
    settled: TakeInSettings
    scales: Mapping[str, Scale]
    """By season, the oldest first."""
    errors: tuple[Finding, ...] = ()
    """What in the content could not be understood, and so is known of nowhere here."""

    def record_text(self, season: str, files: Iterable[TakenFile]) -> str:
        """Return a season's record of what was taken in, with these files in it; comments in it are kept.

        Raises OSError.
        """
        path = self.root / CONTENT / season / TAKEN_IN
        before = path.read_text(encoding="utf-8-sig") if path.exists() else ""
        return record_text(((one.name, one.order or "", one.rows) for one in files), before)

    def vocabularies(self, names: Mapping[str, str] | None = None) -> dict[str, Vocabulary]:
        """Return what can be spoken of, by season; ``names`` were answered besides."""
        return {
            season: replace(scale.vocabulary, answers={**scale.vocabulary.answers, **(names or {})})
            for season, scale in self.scales.items()
        }


@dataclass(frozen=True, kw_only=True)
class Intake:
    """A spreadsheet looked through, with nothing written yet."""

    name: str
    sheet: HeadedSheet
    lines: tuple[JudgedRow, ...]
    unknown: tuple[Unknown, ...]
    order: DateOrder | None
    open_dates: tuple[str, ...]
    """Dates that may be read two ways, as long as nobody says which."""
    gone: tuple[SheetRow, ...]
    """Rows that were taken from the file and are no longer in it."""
    anew: bool
    """Whether none of the rows taken from the file is in it any more."""
    taken: Mapping[str, Mapping[str, TakenFile]]
    """What was taken before, by season and file."""

    open_numbers: OpenNumbers | None = None
    """Numbers that may be read two ways, as long as nobody says which."""
    open_space: str = ""
    """The first weight in which a space may set thousands apart or a count from a weight."""
    unitless: int = 0
    """Rows whose weight has no unit."""
    undated_year: str = ""
    """A date without a year that may be of several seasons."""
    outside: tuple[str, ...] = ()
    """Years of rows that no season of the garden holds."""
    spellings: Mapping[Spelling, int] = field(default_factory=dict)
    """Squares and weights that are not understood, each with the number of its rows."""
    told: tuple[str, ...] = ()
    """What must be said of the sheet besides its rows."""

    def of(self, fate: Fate) -> tuple[JudgedRow, ...]:
        """Return the rows of one fate."""
        return tuple(line for line in self.lines if line.fate is fate)
