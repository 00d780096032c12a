"""``tallybed check``: all that is wrong or doubtful in a garden folder, told without writing a site."""

from __future__ import annotations

from contextlib import suppress
from datetime import date
from pathlib import Path

from tallybed.garden.findings import Finding, Place, Severity, sorted_findings
from tallybed.pages.care.library_sources import kinds_table
from tallybed.pages.tables.plain_text import plain
from tallybed.publishing.swap.disk import BusyError
from tallybed.publishing.swap.handoff import repair
from tallybed.reading.folder.library import kinds, load_library
from tallybed.tasks.base.garden import GARDEN_FILE, require_garden
from tallybed.tasks.site.laid_out import laid_out
from tallybed.tasks.site.unchanged import SITE

NO_ADDRESS = Finding(
    place=Place(GARDEN_FILE),
    code="no-address",
    severity=Severity.ADVICE,
    found="the site’s web address is not told, so it gets no feed, no list of pages for search engines, "
    "no picture to share and no codes to scan",
    remedy="once the site has one, tell it in a line such as address: https://www.example.org/",
)
"""Told by ``check`` alone: a build of a garden that stays off the web has nothing wrong with it."""


def check(root: Path, *, as_of: date | None = None) -> tuple[Finding, ...]:
    """Return everything there is to tell the gardener, in the order of the files.

    Pages are made only where the garden has templates of its own: those of Tallybed have no
    mistakes to tell.
    Raises UsageError where root is not a garden folder, OSError where the machine fails.
    """
    require_garden(root)
    with suppress(BusyError):
        repair(root / SITE)
    laid = laid_out(root, as_of=as_of)
    findings = list(laid.findings)
    if laid.own_templates:
        from tallybed.tasks.build import rendered  # what few gardens need, and takes its time to load

        findings += rendered(laid).findings
    if laid.years is not None and not laid.years.garden.address:
        findings.append(NO_ADDRESS)
    return sorted_findings(findings)


def library_kinds() -> str:
    """Return what the crop library's figures rest on, as a table."""
    return plain(kinds_table(kinds(load_library()))) + "\n"
