"""``tallybed take-in``: a spreadsheet's weighings shown row by row, then written to the ledger."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import click

from tallybed.commands import terminal
from tallybed.commands.options import PATH, folder_option
from tallybed.commands.telling import tell_errors
from tallybed.commands.terminal import say
from tallybed.garden.squares import in_words
from tallybed.reading.base.problems import Misread
from tallybed.reading.spreadsheet.columns import Heading, meant, plain
from tallybed.reading.spreadsheet.dates import DateOrder
from tallybed.tasks import take_in as taking
from tallybed.tasks import weigh as weighing
from tallybed.tasks.take_in import SKIPPED
from tallybed.tasks.taking_in.intake import Fate, Intake, JudgedRow, Settings
from tallybed.tasks.taking_in.sheets import contents

NOT_PLACED = 1


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
    help="Rows that may be corrections of rows now gone from the file are other pickings.",
)
@click.option("--skip-unplaced", is_flag=True, help="Take the rows that are placed; save the others beside.")
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
    yes: bool,
) -> None:
    """Take the weighings of a spreadsheet into the ledger: FILE is .csv, .tsv or .xlsx.

    Shows what becomes of each row. Rows taken before are not taken again, and nothing is
    written while a row has no place, unless you use --skip-unplaced.
    """
    settings = Settings(
        columns=dict(maps),
        order=DateOrder(dates) if dates else None,
        season=season,
        sheet=sheet,
        called=called,
        others=others,
    )
    _tell_what_stands(folder)
    books = taking.books(folder)
    tell_errors(books.errors)
    data = contents(file)
    intake = taking.look(books, file.name, data, settings)
    if intake.open_dates and not yes:
        order = _asked_order(intake)
        if order is not None:
            settings = replace(settings, order=order)
            intake = taking.look(books, file.name, data, settings)
    if intake.of(Fate.UNSURE) and not yes:
        answers = dict(_asked_whether_new(intake))
        if answers:
            settings = replace(settings, answers=answers)
            intake = taking.look(books, file.name, data, settings)
    _show(intake)
    unplaced, unsure = intake.of(Fate.UNPLACED), intake.of(Fate.UNSURE)
    if (unplaced or unsure) and not skip_unplaced:
        say(f"Nothing was written: {_in_the_way(len(unplaced), len(unsure))}", err=True)
        sys.exit(NOT_PLACED)
    new = len(intake.of(Fate.NEW))
    if not new and not unplaced:
        say("Nothing to write.")
        return
    if not terminal.agreed(
        f"Write {_rows(new)}?", already=yes, otherwise="Nothing was written.", doing="write"
    ):
        return
    written = taking.write(books, intake, file)
    say(f"Written: {_rows(written)}.")
    if unsure:
        say(f"{_rows(len(unsure))} left as they are: new or corrected, and nobody said which.")
    if unplaced:
        say(f"{_rows(len(unplaced))} saved in {file.name}{SKIPPED}, with reasons.")


def _tell_what_stands(folder: Path) -> None:
    """Finish what a command that was stopped left half done, and say what stands."""
    words = weighing.recovered(folder)
    if words:
        say(f"{words[:1].upper()}{words[1:]}.")


def _asked_order(intake: Intake) -> DateOrder | None:
    """Ask which number comes first in the file's dates; return None where nobody answers."""
    chosen = terminal.chosen(
        f"The date {intake.open_dates[0]} may be read two ways; in this file",
        ["the month comes first", "the day comes first"],
    )
    return None if chosen is None else list(DateOrder)[chosen]


def _asked_whether_new(intake: Intake) -> Iterator[tuple[int, bool]]:
    """Ask of each row that may be new or corrected which it is; yield the answers."""
    for line in intake.of(Fate.UNSURE):
        row = line.row
        what = " ".join(row.get(key) for key in ("date", "crop", "variety", "tag", "weight") if row.get(key))
        chosen = terminal.chosen(
            f"Row {row.number}, {what}: {line.words}",
            ["another picking; the row that is gone was taken out", "the same picking, corrected"],
        )
        if chosen is not None:
            yield row.number, chosen == 0


def _in_the_way(unplaced: int, unsure: int) -> str:
    """Return why nothing is written, and what would do."""
    parts = []
    if unplaced:
        parts.append(f"{_rows(unplaced)} not placed. Settle them, or use --skip-unplaced.")
    if unsure:
        parts.append(
            f"{_rows(unsure)} new or corrected, and nobody said which. Answer when asked, or use --others "
            "if all are other pickings."
        )
    return " ".join(parts)


def _show_gone(intake: Intake) -> None:
    """Tell of rows that were taken before and are no longer in the file."""
    if intake.anew:
        say(f"None of the {_rows(len(intake.gone))} taken before is in the file: it counts as a new file.")
        return
    for row in intake.gone:
        cells = ", ".join(text for _meaning, text in row.cells)
        say(
            f"Row {row.number} taken before is no longer in the file: {cells}. "
            "If it was a mistake, delete it from the ledger and from taken-in.yaml."
        )


def _show(intake: Intake) -> None:
    """Tell what becomes of each row, what is left alone or not settled, and the number of rows by fate."""
    heads = ("row", "date", "what", "where", "weight", "becomes")
    if intake.lines:
        say(terminal.columns([heads, *map(_shown, intake.lines)], indent=""))
    _show_gone(intake)
    left = intake.sheet.columns.left_alone
    if left:
        say(f"Left alone: the {'column' if len(left) == 1 else 'columns'} {', '.join(left)}.")
    for one in intake.unknown:
        near = f"; nearest: {', '.join(one.near)}" if one.near else ""
        say(f"“{one.name}” in {_rows(one.rows)} is not settled{near}")
        say(f"  settle it in {one.where}")
    counts = [f"{len(intake.of(fate))} {fate.value}" for fate in Fate if intake.of(fate)]
    say(f"{_rows(len(intake.lines))} of {intake.name}: {', '.join(counts) or 'none'}.")


def _shown(line: JudgedRow) -> tuple[str, str, str, str, str, str]:
    """Return a row as cells: number, date, what, where, weight, and what becomes of it."""
    row = line.row
    what = " ".join(row.get(key) for key in ("crop", "variety", "tag") if row.get(key))
    where = " ".join(row.get(key) for key in ("bed", "squares") if row.get(key))
    if line.slip is not None:
        one = line.slip.weighing
        crop = " + ".join(name.slug or name.typed for name in one.crops)
        what = f"{what} = {crop}" if crop and crop != what else what
        where = in_words(one.squares) if one.squares else where
    fate = f"{line.fate.value}: {line.words}" if line.words else line.fate.value
    return (str(row.number), row.get("date"), what, where, row.get("weight"), fate)


def _rows(number: int) -> str:
    """Return a number of rows in words: ``1 row``, ``3 rows``."""
    return f"{number} {'row' if number == 1 else 'rows'}"
