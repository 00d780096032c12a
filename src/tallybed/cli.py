"""The command: it parses words, calls one function, prints, and says by its exit code how it went.

0 good · 1 the content has errors · 2 wrong usage · 3 trouble with the machine
"""

from __future__ import annotations

import os
import sys
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any

import click

from tallybed.commands.archive import archive
from tallybed.commands.bulletin import bulletin
from tallybed.commands.changes import changes_told
from tallybed.commands.preview import preview
from tallybed.commands.take_in import take_in
from tallybed.commands.telling import CONTENT_ERRORS
from tallybed.commands.telling import counted as _counted
from tallybed.commands.telling import print_findings as _print_findings
from tallybed.commands.terminal import day, printable
from tallybed.commands.weigh import weigh
from tallybed.commands.withdraw import withdraw
from tallybed.garden.days import in_full
from tallybed.garden.findings import has_errors
from tallybed.tasks import build as building

WRONG_USAGE, MACHINE_TROUBLE = 2, 3
LINE_END = "\r\n"
"""Ends a line of comma-separated values (RFC 4180)."""
STOPPED = 130
"""What a shell gives a command that Ctrl-C ended: 128 and the signal's number."""


class _Group(click.Group):
    """Turns what can go wrong outside the content into a sentence and an exit code."""

    def invoke(self, ctx: click.Context) -> Any:
        """Run the command; see click.Group."""
        try:
            return super().invoke(ctx)
        except building.BrokenError as error:
            _print_findings(error.errors)
            _complain(f"{error}; nothing can be done before it is mended")
            ctx.exit(CONTENT_ERRORS)
        except (building.UsageError, building.RefusedError) as error:
            _complain(str(error))
            ctx.exit(WRONG_USAGE)
        except KeyboardInterrupt:
            _complain("stopped")
            ctx.exit(STOPPED)
        except BrokenPipeError:
            raise
        except OSError as error:
            _complain(_machine_words(error))
            ctx.exit(MACHINE_TROUBLE)


@click.group(cls=_Group, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="tallybed", message="tallybed %(version)s")
def main() -> None:
    """Turn a garden folder of plain text into its public site."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            # A console that cannot show a sign shows its number instead of ending the command.
            stream.reconfigure(errors="backslashreplace")


main.add_command(weigh)
main.add_command(take_in)
main.add_command(withdraw)
main.add_command(preview)
main.add_command(bulletin)
main.add_command(archive)

_folder = click.argument("folder", type=click.Path(path_type=Path), default=".")
_as_of = click.option(
    "--as-of",
    type=day,
    metavar="DATE",
    help="Leave out records later than this day, such as 2026-07-01.",
)


@main.command()
@_folder
@click.option(
    "--to", type=click.Path(path_type=Path), metavar="DIR", help="Folder for the site [FOLDER/site]."
)
@_as_of
@click.option("--replace", is_flag=True, help="Lose files in the site's folder that Tallybed did not write.")
@click.option("--quiet", is_flag=True, help="Print nothing but errors.")
def build(folder: Path, to: Path | None, as_of: date | None, replace: bool, quiet: bool) -> None:
    """Build the site of the garden in FOLDER (here, where none is named)."""
    built = building.build(
        folder,
        to,
        as_of=as_of,
        replace=replace,
        progress=None if quiet else _Progress(),
    )
    _print_findings(built.findings, quiet=quiet)
    if not built.good:
        click.echo(f"{_counted(built.findings)}. The site was left as it was.", err=True)
        sys.exit(CONTENT_ERRORS)
    if not quiet and built.today is not None:
        how = "written" if built.changed else "unchanged"
        said = f"{built.pages} pages {how} in {built.target}, as of {in_full(built.today)}."
        click.echo(f"{said} {_counted(built.findings)}." if built.findings else said)
        for line in changes_told(built.changes):
            click.echo(printable(line))


@main.command()
@_folder
@_as_of
@click.option(
    "--library", is_flag=True, help="Tell what the crop library's figures rest on, and nothing else."
)
def check(folder: Path, as_of: date | None, library: bool) -> None:
    """Tell what is wrong or doubtful in the garden in FOLDER, without writing a site."""
    if library:
        click.echo(building.library_kinds(), nl=False)
        return
    findings = building.check(folder, as_of=as_of)
    _print_findings(findings)
    click.echo(f"{_counted(findings)}.")
    if has_errors(findings):
        sys.exit(CONTENT_ERRORS)


def _today() -> date:
    return datetime.now(UTC).astimezone().date()


def _this_year() -> int:
    return _today().year


@main.command()
@click.argument("title")
@click.option(
    "--folder", type=click.Path(path_type=Path), default=".", metavar="FOLDER", help="The garden [here]."
)
@click.option("--date", "when", type=day, metavar="DATE", help="Day of the visit [today].")
@click.option(
    "--photos",
    type=click.Path(path_type=Path, exists=True, file_okay=False),
    metavar="DIR",
    help="Folder in which to look for photographs taken that day; they are copied.",
)
@click.option("--no-editor", is_flag=True, help="Write the file and leave it at that.")
def writeup(title: str, folder: Path, when: date | None, photos: Path | None, no_editor: bool) -> None:
    """Begin a log entry called TITLE, with the jobs that are due, and open it to write."""
    when = when or _today()
    written = building.write_entry(folder, title, when, photos)
    click.echo(f"{written.path} is begun.")
    if photos is not None:
        click.echo(f"Photographs of {in_full(when)}: {', '.join(written.photographs) or 'none found'}.")
    if written.undated:
        click.echo(printable(f"Left, since they do not say their day: {', '.join(written.undated)}."))
    # Without a terminal an editor that nobody chose would wait for ever.
    if no_editor or not (sys.stdin.isatty() or {"VISUAL", "EDITOR"} & set(os.environ)):
        return
    try:
        click.edit(filename=str(written.path))
    except click.ClickException as error:
        _complain(f"{error.message}; open {written.path} yourself")
        sys.exit(MACHINE_TROUBLE)
    findings = building.findings_in(folder, written.path)
    _print_findings(findings)
    if has_errors(findings):
        sys.exit(CONTENT_ERRORS)


@main.command()
@click.argument("folder", type=click.Path(path_type=Path))
@click.option("--year", type=click.IntRange(1900, 2999), help="Year of the first season.", default=_this_year)
def start(folder: Path, year: int) -> None:
    """Make a new garden FOLDER with examples to write over."""
    building.start(folder, year)
    click.echo(f"{folder} is ready. Next: read {folder / 'README.txt'}, then run: tallybed preview {folder}")


@main.command()
@_folder
@click.option(
    "--season", metavar="YEAR", default="", help="Season, by its folder's name [the one under way]."
)
@click.option("--csv", "spreadsheet", is_flag=True, help="Print comma-separated values for a spreadsheet.")
def seeds(folder: Path, season: str, spreadsheet: bool) -> None:
    """List the seeds, plants and supports that a plan of the garden in FOLDER needs."""
    _print_answer(building.seed_list(folder, season=season, spreadsheet=spreadsheet))


@main.command()
@click.argument("bed")
@click.option(
    "--folder",
    type=click.Path(path_type=Path),
    default=".",
    metavar="FOLDER",
    help="The garden's folder [here].",
)
@click.option("--depth", metavar="LENGTH", default="", help="Depth to fill the bed to, such as '6 in'.")
@click.option(
    "--bag", "bags", metavar="SIZE", multiple=True, help="Size of a bag, such as '1.5 cu ft' or '40 L'."
)
def marks(bed: str, folder: Path, depth: str, bags: tuple[str, ...]) -> None:
    """Tell how to mark out BED: stakes, marks, lines, twine, and what fills it."""
    _print_answer(building.marking_sheet(folder, bed, depth=depth, bags=bags))


def _print_answer(answer: building.Answer) -> None:
    _print_findings(answer.findings)
    if has_errors(answer.findings):
        click.echo(f"{_counted(answer.findings)}.", err=True)
        sys.exit(CONTENT_ERRORS)
    lines = answer.text.split(LINE_END)
    # As bytes: the line ends of a file for spreadsheets are the same on every system.
    click.echo(LINE_END.join(map(printable, lines)).encode(), nl=False)


def _complain(text: str) -> None:
    click.echo(printable(f"tallybed: {text}"), err=True)


def _machine_words(error: OSError) -> str:
    said = error.strerror or str(error)
    return f"{error.filename}: {said}" if error.filename else said


class _Progress:
    """Tells how far a build is: one line that is written over on a terminal, plain lines elsewhere."""

    def __init__(self) -> None:
        self._terminal = sys.stderr.isatty()
        self._last = ""

    def __call__(self, what: str, done: int, of: int) -> None:
        """Tell of a step; see ``building.Progress``."""
        if not self._terminal:
            if what != self._last:
                click.echo(f"{what} …", err=True)
        elif not of or done == of or done % 10 == 0:
            count = f" {done} of {of}" if of else ""
            click.echo(f"\r\x1b[K{what}{count}", nl=False, err=True)
            if what == "Writing files" and done == of:
                click.echo("\r\x1b[K", nl=False, err=True)
        self._last = what
