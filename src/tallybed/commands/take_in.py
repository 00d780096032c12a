"""``tallybed take-in``: a spreadsheet's weighings shown row by row, then written to the ledger."""

from __future__ import annotations

import sys
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from pathlib import Path

import click

from tallybed.commands.screen import terminal
from tallybed.commands.screen.half_done import tell_what_stands
from tallybed.commands.screen.options import PATH, folder_option
from tallybed.commands.screen.take_in_shown import show, show_corrections, show_uncorrected
from tallybed.commands.screen.telling import tell_errors
from tallybed.commands.screen.terminal import say
from tallybed.garden.plurals import figured
from tallybed.reading.base.problems import Misread
from tallybed.reading.folder.known_files import CONTENT
from tallybed.reading.spreadsheet.columns import Heading, MissingColumns, meant, plain
from tallybed.reading.spreadsheet.dates import DateOrder
from tallybed.tasks import take_in as taking
from tallybed.tasks.taking_in.corrections import (
    Correction,
    corrections,
    write_corrections,
)
from tallybed.tasks.taking_in.intake import Books, Fate, Intake, Settings
from tallybed.tasks.taking_in.questions import (
    NAME,
    SheetQuestion,
    questions,
    typed_answer,
    with_answer,
)
from tallybed.tasks.taking_in.sheets import ColumnsUnknownError, contents
from tallybed.tasks.taking_in.skipped import skipped_file
from tallybed.tasks.weighing.inside import NOT_BY_YES, QUESTION
from tallybed.tasks.weighing.settled import SPELLINGS, keep_settings

NOT_PLACED = 1
_HOLDS = {"date": "the date", "weight": "the weight", "crop": "what was picked"}
MOST_ROUNDS = 4
"""Times that questions are asked: an answer may show what else is open."""


def _mapping(text: str) -> tuple[str, Heading]:
    """Return a column and its meaning from ``column=meaning``."""
    column, _sign, meaning = text.rpartition("=")
    if not column.strip():
        raise click.BadParameter(f"{text!r} is not of the form column=meaning")
    try:
        return plain(column), meant(meaning)
    except Misread as misread:
        raise click.BadParameter(misread.sentence) from None


@click.command("take-in")
@click.argument("file", type=PATH)
@folder_option
@click.option(
    "--map", "maps", type=_mapping, multiple=True, metavar="COLUMN=MEANING", help="What a column means."
)
@click.option(
    "--dates",
    type=click.Choice([order.value for order in DateOrder]),
    help="Which number comes first in 4/5/2026.",
)
@click.option("--season", default="", metavar="YEAR", help="The season of all rows.")
@click.option("--sheet", default="", help="The sheet of a workbook.")
@click.option(
    "--as", "called", default="", metavar="NAME", help="The file's name when it was taken in before."
)
@click.option(
    "--others",
    is_flag=True,
    help="Treat rows that may be corrections of rows now gone from the file as other pickings.",
)
@click.option("--skip-unplaced", is_flag=True, help="Take the rows that are placed; save the others beside.")
@click.option(
    "--decimal", type=click.Choice(["comma", "point"]), help="Which sign stands before decimals in 1.250."
)
@click.option("--correct", is_flag=True, help="Write corrections of rows taken before into the ledger.")
@click.option("--every-row", is_flag=True, help="Show every row, not only those that need attention.")
@click.option("--yes", is_flag=True, help="Write without asking.")
def take_in(
    file: Path,
    folder: Path,
    maps: tuple[tuple[str, Heading], ...],
    dates: str | None,
    season: str,
    sheet: str,
    called: str,
    others: bool,
    skip_unplaced: bool,
    decimal: str | None,
    correct: bool,
    every_row: bool,
    yes: bool,
) -> None:
    """Take the weighings of a spreadsheet into the ledger: FILE is .csv, .tsv or .xlsx.

    Shows what the file adds up to, and the rows that need attention. Rows taken before are not
    taken again, and nothing is written while a row has no place, unless you use --skip-unplaced.
    """
    settings = Settings(
        columns=dict(maps),
        order=DateOrder(dates) if dates else None,
        season=season,
        sheet=sheet,
        called=called,
        others=others,
        decimal=decimal or "",
    )
    tell_what_stands(folder)
    books = taking.books(folder)
    tell_errors(books.errors)
    data = contents(file)
    settings, intakes = _looked_through(books, file.name, data, settings, asking=not yes)
    if not yes and _made_seasons(books, intakes):
        books = taking.books(folder)
        intakes = taking.looks(books, file.name, data, settings)
    if not yes:
        settings, intakes = _settled(books, file.name, data, settings, intakes)
    show(books, intakes, every_row=every_row)
    found = corrections(books, intakes)
    show_corrections(found)
    show_uncorrected(intakes, found)
    if correct:
        _write_agreed(books, intakes, found, yes=yes)
    elif found:
        say(f"Use --correct to write {'it' if len(found) == 1 else 'them'} so.")
    unplaced, unsure = _number(intakes, Fate.UNPLACED), _number(intakes, Fate.UNSURE)
    if (unplaced or unsure) and not skip_unplaced:
        what = "Not taken" if correct else "Nothing was written"
        say(f"{what}: {_in_the_way(unplaced, unsure)}", err=True)
        for year in _missing(books, intakes):
            say(f"Rows are of {year}; to have that season, make a folder {CONTENT}/{year}.", err=True)
        sys.exit(NOT_PLACED)
    if correct:
        return
    new = _number(intakes, Fate.NEW)
    if not new and not unplaced:
        say("Nothing to write.")
        return
    _answer_for_waits(intakes, yes=yes)
    if terminal.agreed(
        f"Write {figured(new, 'row')}?", already=yes, otherwise="Nothing was written.", doing="write"
    ):
        _write(books, intakes, file, settings)


def _write(books: Books, intakes: Sequence[Intake], file: Path, settings: Settings) -> None:
    """Write the new rows and keep the answers; say so, and what was left. Raises UsageError, OSError."""
    written = taking.write_all(books, intakes, file)
    say(f"Written: {figured(written, 'row')}.")
    context = next(iter(books.scales.values())).vocabulary.context
    kept = keep_settings(books.root, context, settings.kept, _groups(settings))
    if kept:
        say(f"Your answers are {kept}.")
    if unsure := _number(intakes, Fate.UNSURE):
        say(f"{figured(unsure, 'row')} left as they are: new or corrected, and nobody said which.")
    for intake in intakes:
        if skipped := len(intake.of(Fate.UNPLACED)):
            say(f"{figured(skipped, 'row')} saved in {skipped_file(intake, file).name}, with reasons.")


def _number(intakes: Iterable[Intake], fate: Fate) -> int:
    """Return how many rows have a fate."""
    return sum(len(intake.of(fate)) for intake in intakes)


def _looked_through(
    books: Books, name: str, data: bytes, settings: Settings, *, asking: bool
) -> tuple[Settings, tuple[Intake, ...]]:
    """Look through a file, asking first which columns are the needed ones that nothing names.

    Raises UsageError where nobody is to be asked, or nobody answers.
    """
    try:
        return settings, taking.looks(books, name, data, settings)
    except ColumnsUnknownError as unknown:
        answers = _columns_asked(unknown.columns) if asking else {}
        if not answers:
            raise
    columns = {plain(heading): meant(meaning) for heading, meaning in answers.items()}
    settings = replace(settings, columns={**settings.columns, **columns}, headings=answers)
    return settings, taking.looks(books, name, data, settings)


def _columns_asked(columns: MissingColumns) -> dict[str, str]:
    """Return headings with their meaning as chosen; none where a needed one stays open."""
    answers: dict[str, str] = {}
    for meaning in columns.missing:
        free = [heading for heading in columns.free if heading not in answers]
        chosen = terminal.chosen(f"No column is known to hold {_HOLDS[meaning]}; it is", free)
        if chosen is None:
            return {}
        answers[free[chosen]] = meaning
    return answers


def _groups(settings: Settings) -> dict[str, dict[str, str]]:
    """Return the answers that take-in.yaml keeps as pairs, by their key."""
    groups = {"names": dict(settings.names), "columns": dict(settings.headings)}
    for (meaning, text), value in settings.spellings.items():
        groups.setdefault(SPELLINGS[meaning], {})[text] = value
    return groups


def _answer_for_waits(intakes: Iterable[Intake], *, yes: bool) -> None:
    """Ask about new rows that may come from inside a wait; --yes answers for none. A no ends the command."""
    new = (line for intake in intakes for line in intake.of(Fate.NEW))
    slips = [(line.row.number, line.slip) for line in new if line.slip and line.slip.waits]
    for number, slip in slips:
        say(f"Row {number}, WAIT: {slip.waits}")
    if not any(slip.asks for _number, slip in slips):
        return
    if yes:
        say(NOT_BY_YES, err=True)
        sys.exit(terminal.INSIDE_WAIT)
    if not terminal.yes(QUESTION):
        say("Nothing was written.", err=True)
        sys.exit(terminal.INSIDE_WAIT)


def _missing(books: Books, intakes: Sequence[Intake]) -> tuple[str, ...]:
    """Return the years of rows, none of them to come, that have no season."""
    years = sorted({year for intake in intakes for year in intake.outside})
    last = str(terminal.today().year)
    return tuple(year for year in years if year not in books.scales and year <= last)


def _made_seasons(books: Books, intakes: Sequence[Intake]) -> bool:
    """Offer to make the seasons that rows lack; return whether any was made. Raises OSError."""
    made = False
    for year in _missing(books, intakes):
        if terminal.yes(f"Rows are of {year}, which is not a season yet; make {CONTENT}/{year}?"):
            (books.root / CONTENT / year).mkdir(exist_ok=True)
            made = True
    return made


def _write_agreed(books: Books, intakes: Sequence[Intake], found: Sequence[Correction], *, yes: bool) -> None:
    """Write corrections into the ledger where they are agreed to. Raises UsageError, OSError."""
    if not found:
        say("Nothing to correct.")
    elif terminal.agreed(
        f"Correct {figured(len(found), 'row')}?",
        already=yes,
        otherwise="Nothing was corrected.",
        doing="correct",
    ):
        number = write_corrections(books, intakes, found)
        more = " Take the file in for what is new." if any(one.of(Fate.NEW) for one in intakes) else ""
        say(f"Corrected: {figured(number, 'row')}.{more}")


def _settled(
    books: Books, name: str, data: bytes, settings: Settings, intakes: tuple[Intake, ...]
) -> tuple[Settings, tuple[Intake, ...]]:
    """Ask what is open, each thing once, and look again with the answers."""
    asked: set[tuple[str, str]] = set()
    for _time in range(MOST_ROUNDS):
        found = [one for one in questions(books, intakes) if (one.about, one.name) not in asked]
        if not found:
            break
        for one in found:
            asked.add((one.about, one.name))
            value = _answer(books, one)
            if value:
                settings = with_answer(settings, one, value)
        intakes = taking.looks(books, name, data, settings)
    answers = {
        (intake.sheet.name, place): new for intake in intakes for place, new in _asked_whether_new(intake)
    }
    if answers:
        settings = replace(settings, answers=answers)
        intakes = taking.looks(books, name, data, settings)
    return settings, intakes


def _answer(books: Books, one: SheetQuestion) -> str:
    """Return the answer to a question, or an empty text where nobody gives one."""
    if one.choices:
        other = ["another crop"] if one.about == NAME else []
        chosen = terminal.chosen(one.words, [*(words for words, _value in one.choices), *other])
        if chosen is None:
            return ""
        if chosen < len(one.choices):
            return one.choices[chosen][1]
    wanted = "which crop? [its name, Enter for none]" if one.about == NAME else "[Enter for none]"
    typed = terminal.asked(f"{one.words} {wanted} ")
    found = typed_answer(books, one, typed) if typed else ""
    if typed and not found:
        say(f"“{typed}” is not understood.")
    return found


def _asked_whether_new(intake: Intake) -> Iterator[tuple[int, bool]]:
    """Ask of each row that may be new or corrected which it is; yield the answers by their place."""
    for place, line in enumerate(intake.lines):
        if line.fate is not Fate.UNSURE:
            continue
        row = line.row
        what = " ".join(row.get(key) for key in ("date", "crop", "variety", "tag", "weight") if row.get(key))
        chosen = terminal.chosen(
            f"Row {row.number}, {what}: {line.words}",
            ["another picking; the row that is gone was taken out", "the same picking, corrected"],
        )
        if chosen is not None:
            yield place, chosen == 0


def _in_the_way(unplaced: int, unsure: int) -> str:
    """Return why nothing is written, and what would do."""
    parts = []
    if unplaced:
        parts.append(f"{figured(unplaced, 'row')} not placed. Settle them, or use --skip-unplaced.")
    if unsure:
        parts.append(
            f"{figured(unsure, 'row')} new or corrected, and nobody said which. Answer when asked, or use "
            "--others if all are other pickings."
        )
    return " ".join(parts)
