"""``tallybed build``: the site of a garden, with how far it is and what the public will find changed."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from datetime import date
from pathlib import Path

import click

from tallybed.commands.screen.options import PATH, as_of_option, folder_argument
from tallybed.commands.screen.telling import (
    CONTENT_ERRORS,
    STOPPED,
    complain,
    counted,
    print_findings,
)
from tallybed.commands.screen.terminal import say
from tallybed.garden.days import LONG_AGO, in_full
from tallybed.garden.findings import Finding, unsettled
from tallybed.garden.plurals import figured
from tallybed.publishing.swap.changes import Changes
from tallybed.tasks.site.unchanged import SITE, Unchanged, made_of, note, unchanged

_MOST = 20
"""Pages that are named before the rest is counted."""


@click.command()
@folder_argument
@click.option("--to", type=PATH, metavar="DIR", help="Folder for the site [FOLDER/site].")
@as_of_option
@click.option(
    "--replace", is_flag=True, help="Delete files in the site's folder that Tallybed did not write."
)
@click.option("--quiet", is_flag=True, help="Print nothing but errors.")
def build(folder: Path, to: Path | None, as_of: date | None, replace: bool, quiet: bool) -> None:
    """Build the site of the garden in FOLDER, by default the current one."""
    target = folder / SITE if to is None else to
    try:
        source = made_of(folder, as_of=as_of)
        same = unchanged(folder, target, source)
        if same is not None:
            _tell(same.findings, same.pages, target, same.today, quiet=quiet)
            return
        from tallybed.tasks.build import build as build_site  # takes longer to load than the above to run

        built = build_site(folder, to, as_of=as_of, replace=replace, progress=None if quiet else _Progress())
    except KeyboardInterrupt:
        complain("stopped; the site was left whole")
        sys.exit(STOPPED)
    if not built.good or built.today is None:
        shown = unsettled(built.findings)
        print_findings(shown, quiet=quiet)
        say(f"{counted(shown)}. The site was left as it was{_but(built.warned)}.", err=True)
        sys.exit(CONTENT_ERRORS)
    told = Unchanged(findings=built.findings, pages=built.pages, today=built.today)
    note(folder, target, source, built.marker, told)
    changes = built.changes if built.changed else None
    _tell(
        built.findings, built.pages, target, built.today, quiet=quiet, changed=built.changed, changes=changes
    )


def _tell(
    findings: tuple[Finding, ...],
    pages: int,
    target: Path,
    today: date,
    *,
    quiet: bool,
    changed: bool = False,
    changes: Changes | None = None,
) -> None:
    """Print what a build found and did."""
    shown = unsettled(findings)
    print_findings(shown, quiet=quiet)
    if quiet:
        return
    as_of = "" if today == LONG_AGO else f", as of {in_full(today)}"
    said = f"{figured(pages, 'page')} {'written' if changed else 'unchanged'} in {target}{as_of}."
    say(f"{said} {counted(shown)}." if shown else said)
    for line in changes_told(changes):
        say(line)


def _but(warned: int | None) -> str:
    """Return what became of notices that protect people while the site itself could not be made."""
    if warned is None:
        return "; what must still wait could not be told on it: put a sign at the bed"
    return f", but for notices of what must still wait, on {figured(warned, 'page')}" if warned else ""


def changes_told(found: Changes | None) -> Iterator[str]:
    """Yield the lines: how many pages are new, changed and gone, and the names of the first twenty.

    Nothing where there was no site before, or nothing became of it.
    """
    if not found:
        return
    groups = (("new", found.new), ("changed", found.changed), ("gone", found.gone))
    counts = [f"{figured(len(pages), 'page')} {word}" for word, pages in groups if pages]
    if found.framed:
        counts.append(f"{figured(len(found.framed), 'page')} with nothing new but the day or the menu")
    yield f"Since the site before: {', '.join(counts)}."
    named = [(word, page) for word, pages in groups for page in pages]
    for word, page in named[:_MOST]:
        yield f"  {word:<8} {page}"
    if len(named) > _MOST:
        yield f"  and {figured(len(named) - _MOST, 'page')} more"


class _Progress:
    """Tells how far a build is: one line that is written over on a terminal, plain lines elsewhere."""

    def __init__(self) -> None:
        self._terminal = sys.stderr.isatty()
        self._last = ""

    def __call__(self, what: str, done: int, of: int) -> None:
        """Tell of a step; see ``laid_out.Progress``."""
        if not self._terminal:
            if what != self._last:
                click.echo(f"{what} …", err=True)
        elif not of or done == of or done % 10 == 0:
            count = f" {done} of {of}" if of else ""
            click.echo(f"\r\x1b[K{what}{count}", nl=False, err=True)
            if what == "Writing files" and done == of:
                click.echo("\r\x1b[K", nl=False, err=True)
        self._last = what
