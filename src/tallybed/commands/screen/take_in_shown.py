"""What ``take-in`` shows of a spreadsheet: sums first, then rows that need attention, then corrections."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from tallybed.commands.screen import terminal
from tallybed.commands.screen.in_few import MOST, InFew, in_few
from tallybed.commands.screen.terminal import say
from tallybed.garden.plurals import figured
from tallybed.garden.squares import in_words
from tallybed.reading.folder.known_files import CONTENT, LEDGER, TAKE_IN, TAKEN_IN
from tallybed.tasks.taking_in.corrections import Correction, ReadOtherwise, read_otherwise
from tallybed.tasks.taking_in.intake import Books, Fate, Intake, JudgedRow
from tallybed.tasks.taking_in.sums import as_the_sheet_adds_up, by_crop_and_month

EVERY_ROW = "Use --every-row to see each row."
MOST_NAMES = 12
"""Names that are not settled, of which it is told where to settle them. Our choice."""
HEADS = ("row", "date", "what", "where", "weight", "becomes")


def show(books: Books, intakes: Sequence[Intake], *, every_row: bool) -> None:
    """Tell what a file adds up to, what becomes of its rows, and what is left alone or not settled."""
    whole = as_the_sheet_adds_up(books, intakes)
    if whole:
        say(whole)
    sums = by_crop_and_month(books, intakes)
    if sums:
        say("What is new, by crop and month:")
        say(terminal.columns(sums))
    for intake in intakes:
        _show_rows(intake, several=len(intakes) > 1, every_row=every_row)
    for line in dict.fromkeys(words for intake in intakes for words in intake.told):
        say(line)
    left = dict.fromkeys(name for intake in intakes for name in intake.sheet.columns.left_alone)
    if left:
        say(f"Left alone: the {'column' if len(left) == 1 else 'columns'} {', '.join(left)}.")
    _show_unknown(intakes, every=every_row)
    lines = [line for intake in intakes for line in intake.lines]
    counts = {fate: sum(line.fate is fate for line in lines) for fate in Fate}
    words = [f"{number:,} {fate.value}" for fate, number in counts.items() if number]
    name = intakes[0].name if len(intakes) == 1 else intakes[0].name.partition(" [")[0]
    say(f"{figured(len(lines), 'row')} of {name}: {', '.join(words) or 'none'}.")


def _show_rows(intake: Intake, *, several: bool, every_row: bool) -> None:
    """Tell of the rows that need attention, or of all."""
    lines = intake.lines if every_row else tuple(filter(needs_somebody, intake.lines))
    few = InFew(shown=lines, others=()) if every_row else in_few(lines)
    if lines and several:
        say(f"{intake.name}:")
    if lines:
        say(terminal.columns([HEADS, *map(_shown, few.shown)], indent=""))
    for words in (*few.others, *([EVERY_ROW] if few.others else [])):
        say(words)
    if intake.anew:
        before = figured(len(intake.gone), "row")
        say(f"None of the {before} taken before is in the file: it counts as a new file.")
        return
    for row in intake.gone if every_row else intake.gone[:MOST]:
        cells = ", ".join(text for _meaning, text in row.cells)
        say(
            f"Row {row.number} taken before is no longer in the file: {cells}. "
            "If it was a mistake, delete it from the ledger and from taken-in.yaml."
        )
    if len(intake.gone) > MOST and not every_row:
        say(f"And {figured(len(intake.gone) - MOST, 'row')} more that are no longer in the file. {EVERY_ROW}")


def needs_somebody(line: JudgedRow) -> bool:
    """Return whether somebody should look at a row before it is written or left."""
    return line.fate not in (Fate.KNOWN, Fate.NEW) or (line.fate is Fate.NEW and bool(line.words))


def _show_unknown(intakes: Sequence[Intake], *, every: bool) -> None:
    """Tell of the names that are not settled, each once, unless they are many."""
    found = {(one.name, one.where): one for intake in intakes for one in intake.unknown}
    shown = list(found.items()) if every else list(found.items())[:MOST_NAMES]
    for (name, where), one in shown:
        number = sum(other.rows for intake in intakes for other in intake.unknown if other.name == name)
        near = f"; nearest: {', '.join(one.called)}" if one.called else ""
        say(f"“{name}” in {figured(number if len(intakes) > 1 else one.rows, 'row')} is not settled{near}")
        say(f"  settle it in {where}")
    if len(shown) < len(found):
        say(f"And {len(found) - len(shown)} more names that are not settled. {EVERY_ROW}")


def _shown(line: JudgedRow) -> tuple[str, str, str, str, str, str]:
    """Return a row as cells: number, date, what, where, weight, and what becomes of it."""
    row = line.row
    what = " ".join(row.get(key) for key in ("crop", "variety", "tag") if row.get(key))
    where = " ".join(row.get(key) for key in ("bed", "squares") if row.get(key))
    if line.slip is not None:
        one = line.slip.weighing
        crop = " + ".join(name.typed for name in one.crops)
        what = f"{what} = {crop}" if crop and crop != what else what
        where = in_words(one.squares) if one.squares else where
    fate = f"{line.fate.value}: {line.words}" if line.words else line.fate.value
    return (str(row.number), row.get("date"), what, where, row.get("weight"), fate)


def show_corrections(found: Sequence[Correction]) -> None:
    """Show the ledger's lines as they stand, and as they would be."""
    for one in found:
        say(f"{CONTENT}/{one.season}/{LEDGER}:{one.line}: {one.standing}")
        say(f"  would be: {one.slip.row}")


def show_uncorrected(intakes: Sequence[Intake], found: Sequence[Correction]) -> None:
    """Show the rows that changed since they were taken and cannot be corrected here, and what would help."""
    corrected = [one.old for one in found]
    otherwise: Counter[ReadOtherwise] = Counter()
    for intake, line in ((one, line) for one in intakes for line in one.of(Fate.CHANGED)):
        if line.old in corrected:
            continue
        if column := read_otherwise(intake, line):
            otherwise[column] += 1
            continue
        say(
            f"Row {line.row.number} changed since, and cannot be read or has no row in the ledger as it was "
            f"taken: correct the ledger and {TAKEN_IN} by hand, where it should be."
        )
    for column, rows in otherwise.items():
        name, words = column.column, "was" if rows == 1 else "were"
        say(
            f"{figured(rows, 'row')} {words} taken with the column {name} read as {column.then}, and it is "
            f'read as {column.now} now: say --map "{name}={column.then}" again, or write it below columns in '
            f"{CONTENT}/{TAKE_IN}."
        )
