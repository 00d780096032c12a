"""``tallybed weigh``: what is said at the scale, shown as understood, then written to the ledger."""

from __future__ import annotations

import sys
from collections.abc import Mapping, Sequence
from pathlib import Path

import click

from tallybed.commands.screen import terminal
from tallybed.commands.screen.half_done import tell_what_stands
from tallybed.commands.screen.options import folder_option
from tallybed.commands.screen.telling import tell_errors
from tallybed.commands.screen.terminal import say
from tallybed.garden.days import in_full, without_year
from tallybed.garden.naming import folded
from tallybed.garden.plurals import figured
from tallybed.garden.squares import in_words
from tallybed.reading.folder.known_files import CONTENT, TAKE_IN
from tallybed.reading.scale.leftovers import LITTLE
from tallybed.reading.scale.line import example
from tallybed.reckoning.calendar.windows.ripe import Ripe
from tallybed.tasks import weigh as weighing
from tallybed.tasks.base.errors import UsageError
from tallybed.tasks.weighing.inside import NOT_BY_YES, QUESTION, not_before
from tallybed.tasks.weighing.scale import MisheardError, Scale, Slip
from tallybed.tasks.weighing.settled import keep

NOT_UNDERSTOOD = 1
ENDS = frozenset({"", "q", "quit", "done", "exit"})
"""What ends a weighing by hand."""
UNDO = "undo"
SHOWN = 5
"""Rows shown of a spreadsheet that is to be taken back."""


@click.command()
@click.argument("lines", nargs=-1, metavar="[LINE]...")
@folder_option
@click.option("--date", "day", metavar="DATE", help="The day of weighing [today].")
@click.option("--yes", is_flag=True, help="Write without asking, and only what is certain.")
@click.option("--undo", is_flag=True, help="Take back what was written last: a row, or a spreadsheet.")
def weigh(lines: tuple[str, ...], folder: Path, day: str | None, yes: bool, undo: bool) -> None:
    """Write weighings into the ledger, such as: tallybed weigh "kale 12 oz 6/20 E1-E4 pantry".

    Each LINE is a picking or several: a crop, variety or tag, a weight or "not weighed", and as
    far as you know them the day, squares, a count, where it went. Without a LINE it says what
    can be ripe and asks for one picking after another.
    """
    if undo and lines:
        raise click.UsageError("use --undo without a LINE")
    tell_what_stands(folder)
    if undo:
        if not _undone(folder, already=yes):
            sys.exit(NOT_UNDERSTOOD)
        return
    today = terminal.today()
    scale = weighing.scale(folder, weighing.day_typed(folder, day, today) if day else today)
    tell_errors(scale.errors)
    if lines:
        _write_down(scale, lines, yes=yes)
    else:
        _one_after_the_other(scale, yes=yes)


def _undone(folder: Path, *, already: bool = False) -> bool:
    """Show the last row and take it back where a person agrees; return whether there was one."""
    last = weighing.last_written(folder)
    if last is None:
        say("There is no row to take back.", err=True)
        return False
    what = "What was last taken into" if last.record else "The last row of"
    say(f"{what} content/{last.ledger}: {last.row}")
    for row in last.rows[:SHOWN] if last.record else ():
        say(f"  {row}")
    if last.record and len(last.rows) > SHOWN:
        say(f"  and {len(last.rows) - SHOWN} more")
    if not terminal.agreed(
        "Take it back?", already=already, otherwise="Nothing was taken back.", doing="take it back"
    ):
        return True
    taken = weighing.undo(folder)
    if taken is None:
        say("There is no row to take back.", err=True)
        return False
    say(f"Taken back from content/{taken.ledger}: {taken.row}")
    if taken.record and (folder / CONTENT / TAKE_IN).exists():
        say(f"Your answers stay in {CONTENT}/{TAKE_IN}; delete there what you want to be asked again.")
    return True


def _write_down(scale: Scale, lines: Sequence[str], *, yes: bool) -> None:
    """Write all lines or none."""
    slips, wrong = list[Slip](), []
    answers: dict[str, str] = {}
    for line in lines:
        try:
            heard = scale.hear(line, None if yes else terminal.chosen)
            slips += heard.slips
            answers |= heard.answers
        except MisheardError as error:
            wrong.append(str(error))
    if wrong:
        for words in wrong:
            say(words, err=True)
        say("Nothing was written.", err=True)
        sys.exit(NOT_UNDERSTOOD)
    _show(scale, slips, set())
    if not _answered_for(slips, yes=yes):
        sys.exit(terminal.INSIDE_WAIT)
    if terminal.agreed("Write this?", already=yes, otherwise="Nothing was written.", doing="write"):
        _write(scale, slips, answers)


def _one_after_the_other(scale: Scale, *, yes: bool) -> None:
    """Ask for pickings until nobody names one; each is written before the next is asked for."""
    _propose(scale)
    such = example(metric=scale.vocabulary.context.metric)
    say(f"One picking a line, such as: {such}. An empty line ends; undo takes a row back.")
    mend, hinted = "", set[str]()
    while True:
        line = terminal.asked("> ", mend)
        mend = ""
        if line is None or line.casefold() in ENDS:
            return
        if line.casefold() == UNDO:
            try:
                _undone(scale.root)
            except UsageError as error:
                say(str(error), err=True)
            scale = weighing.scale(scale.root, scale.day)
            continue
        try:
            heard = scale.hear(line, None if yes else terminal.chosen)
        except MisheardError as error:
            say(str(error), err=True)
            mend = line
            continue
        _show(scale, heard.slips, hinted)
        if not _answered_for(heard.slips, yes=yes):
            if yes:
                sys.exit(terminal.INSIDE_WAIT)
            continue
        agreed = True if yes else terminal.yes("Write this?")
        if agreed is None:
            say("Nothing was written.", err=True)
            sys.exit(terminal.NOBODY_SAID_YES)
        if agreed:
            _write(scale, heard.slips, heard.answers)
            scale = weighing.scale(scale.root, scale.day)


def _answered_for(slips: Sequence[Slip], *, yes: bool) -> bool:
    """Return whether nothing comes from inside a wait, or a person answers for it; --yes never does."""
    if not any(slip.asks for slip in slips):
        return True
    if yes:
        say(NOT_BY_YES, err=True)
        return False
    answer = terminal.yes(QUESTION)
    if not answer:
        say("Nothing was written.", err=True)
    return bool(answer)


def _propose(scale: Scale) -> None:
    """Tell what can be ripe on the day, with where it stands and why."""
    found = scale.ripe()
    if not found:
        say(f"{in_full(scale.day)}. Nothing is known to be ripe.")
        return
    say(f"{in_full(scale.day)}. This can be ripe:")
    with_bed = len(scale.garden.beds) > 1
    say(
        terminal.columns(
            [
                (in_words(one.squares, with_bed=with_bed), one.tag, _named(scale, one), _why(scale, one))
                for one in found
            ]
        )
    )


def _named(scale: Scale, one: Ripe) -> str:
    """Return the crop and variety of what can be ripe, in words."""
    name = scale.garden.crop(one.crop.slug).name if one.crop.slug else one.crop.typed
    return f"{name} {one.variety}".rstrip()


def _why(scale: Scale, one: Ripe) -> str:
    """Return why something can be ripe: when it was last picked, is expected, or is to be cleared.

    What waits is told as that, whatever else speaks for it.
    """
    waits = not_before(scale.year, one.planting, scale.day)
    if waits:
        return waits
    if one.picked is not None:
        return f"picked {without_year(one.picked)}"
    if one.first is not None:
        return f"expected from {without_year(one.first)}"
    return f"to be cleared {without_year(one.clearing)}" if one.clearing else ""


def _show(scale: Scale, slips: Sequence[Slip], hinted: set[str]) -> None:
    """Tell what was understood, what is doubtful in it, and how the totals move; a hint only once.

    ``hinted``: the hints that were told before; those told now are added.
    """
    say(f"{in_full(scale.day)}, for {scale.ledger}:")
    for slip in slips:
        say(f"  {slip.words}")
        if slip.doubt:
            say(f"    but {slip.doubt}")
        if slip.hint and slip.hint not in hinted:
            hinted.add(slip.hint)
            say(f"    {slip.hint}")
        if slip.waits:
            say(f"    WAIT: {slip.waits}")
        passed = [word for word in slip.passed_over if folded(word) not in LITTLE]
        if passed:
            say(f"    passed over: {', '.join(passed)}")
    for one in scale.running(slips):
        say(f"  {one.of}: {one.before}, with this {one.after}")


def _write(scale: Scale, slips: Sequence[Slip], answers: Mapping[str, str]) -> None:
    """Write the rows; end the command where the ledger does not take them. Raises OSError."""
    try:
        scale.write(slips)
    except MisheardError as error:
        say(str(error), err=True)
        sys.exit(NOT_UNDERSTOOD)
    say(f"Written: {figured(len(slips), 'row')}.")
    kept = keep(scale.root, scale.vocabulary.context, answers)
    if kept:
        say(f"Your answer is {kept}.")
