"""``tallybed build``: the site of a garden folder, made in memory, then handed over whole."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from tallybed.garden.findings import Finding, has_errors, sorted_findings
from tallybed.pages.catalogue import every_file, every_page
from tallybed.pictures.cache import FOLDER as CACHE
from tallybed.publishing.assets import OWN
from tallybed.publishing.files.csv_text import written
from tallybed.publishing.files.extra_files import files_beside
from tallybed.publishing.rendering import Rendering, render
from tallybed.publishing.swap.changes import Changes
from tallybed.publishing.swap.handoff import hand_over, repair
from tallybed.reading.folder.known_files import CONTENT
from tallybed.reckoning.year import Years
from tallybed.tasks.errors import UsageError
from tallybed.tasks.garden import SITE, require_garden
from tallybed.tasks.site.laid_out import LaidOut, Progress, laid_out, silent


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """A site in memory: paths within it and their bytes. Empty where content has errors."""

    findings: tuple[Finding, ...]
    files: Mapping[str, bytes]
    pages: int = 0
    today: date | None = None
    years: Years | None = None
    """What the pages were made of; None where they were not made."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Built:
    """What a build did."""

    findings: tuple[Finding, ...]
    target: Path
    pages: int = 0
    files: int = 0
    changed: bool = False
    """Whether anything in the site's folder is other than before."""
    changes: Changes | None = None
    """What became of the pages; None where there was no site before, or none is now."""
    today: date | None = None
    """The day the site speaks as of; None where nothing was built."""
    years: Years | None = None

    @property
    def good(self) -> bool:
        """Whether there is a site: no finding was an error."""
        return not has_errors(self.findings)


def build(
    root: Path,
    target: Path | None = None,
    *,
    as_of: date | None = None,
    replace: bool = False,
    progress: Progress | None = None,
    drafts: bool = False,
) -> Built:
    """Build the garden at ``root`` into ``target``, by default its ``site`` folder.

    ``drafts`` True shows what waits as well: never in a site that others see.

    Content with errors leaves the site as it was. Raises UsageError where root is not a
    garden folder or target lies in its sources, RefusedError where target holds what
    Tallybed did not write, OSError where the machine fails.
    """
    target = root / SITE if target is None else target
    require_garden(root)
    _require_apart(root, target)
    repair(target)
    tell = progress or silent
    made = make(root, as_of=as_of, progress=tell, drafts=drafts)
    if has_errors(made.findings):
        return Built(findings=made.findings, target=target)
    handed = hand_over(
        made.files,
        target,
        replace=replace,
        progress=lambda done, of: tell("Writing files", done, of),
    )
    return Built(
        findings=made.findings,
        target=target,
        pages=made.pages,
        files=handed.files,
        changed=handed.changed,
        changes=handed.changes,
        today=made.today,
        years=made.years,
    )


def make(
    root: Path, *, as_of: date | None = None, progress: Progress | None = None, drafts: bool = False
) -> Made:
    """Return the whole site in memory, and every finding. Raises OSError; see ``laid_out``."""
    return rendered(laid_out(root, as_of=as_of, progress=progress, drafts=drafts), progress)


def rendered(laid: LaidOut, progress: Progress | None = None) -> Made:
    """Return a laid out site in memory, and every finding. Raises OSError."""
    years = laid.years
    findings = list(laid.findings)
    if years is None:
        return Made(findings=sorted_findings(findings), files={})
    tell = progress or silent
    rendering = Rendering(laid.layouts, laid.photographs.by_name)
    files: dict[str, bytes] = {}
    tell("Laying out pages", 0, 0)
    pages = every_page(years)
    for number, (path, data) in enumerate(render(pages, rendering, findings.append), start=1):
        files[path] = data
        tell("Making pages", number, len(pages))
    files |= {one.path: written(one) for one in every_file(years)}
    files |= files_beside(years, pages, rendering, findings.append, laid.root / CACHE)
    files |= {**laid.layouts.assets, **laid.photographs.files}
    told = sorted_findings(findings)
    return Made(findings=told, files=files, pages=len(pages), today=years.today, years=years)


def _require_apart(root: Path, target: Path) -> None:
    """Keep a site from being written over the text it is made of."""
    garden, site = root.resolve(), target.resolve()
    sources = [garden / CONTENT, garden / OWN]
    if garden.is_relative_to(site) or any(site.is_relative_to(source) for source in sources):
        raise UsageError(
            f"a site in {target} would overwrite the garden's own text; name another folder with --to"
        )
