"""A site before its pages are made: the garden is read and reckoned, and what is wrong is known."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field, replace
from datetime import date
from pathlib import Path

from tallybed.checks.unpublished import answers
from tallybed.garden.findings import Finding, has_errors, in_closed_season
from tallybed.garden.garden import Garden
from tallybed.pages.frame.links import nowhere_links
from tallybed.pages.frame.which_pages import every_file_path, every_path
from tallybed.pictures.photos import Pictures, pictures
from tallybed.pictures.rooms import FOLDER as CACHE
from tallybed.publishing.assets import Layouts, layouts
from tallybed.publishing.files.extra_paths import paths_beside
from tallybed.publishing.path_conflicts import unfit_paths
from tallybed.reading.folder.garden_folder import read
from tallybed.reading.folder.known_files import CONTENT
from tallybed.reading.folder.remembered import Memory
from tallybed.reckoning.carried import carry
from tallybed.reckoning.unpublished import waits
from tallybed.reckoning.year import Years
from tallybed.tasks.base.garden import seen_from
from tallybed.tasks.site.certain import certain
from tallybed.tasks.site.kept import closed_base, keep_findings, kept_findings
from tallybed.tasks.site.reckoned import own_doubts, reckoned
from tallybed.tasks.site.shelf import SeasonShelf

Progress = Callable[[str, int, int], None]
"""Told what is going on, how many of how many are done; of none where that is not known."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Before:
    """What laying out a garden left to whoever lays it out again."""

    reading: Memory = field(default_factory=Memory)
    years: Years | None = None
    """Those that its pages were made of."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LaidOut:
    """A site of which all is known but what its pages say and how they look."""

    root: Path
    findings: tuple[Finding, ...]
    """All there is to tell but what a garden's own templates get wrong; in no order."""
    layouts: Layouts
    years: Years | None = None
    """What the pages are made of; None where they cannot be made."""
    photographs: Pictures = field(default_factory=Pictures)
    closed_base: str = ""
    """A hash of all that its closed seasons are worked out from."""
    understood: Years | None = None
    """As much of the garden as can be understood, errors or none; None where it is nothing at all."""
    reading: Memory = field(default_factory=Memory)
    """What spares the next reading what has not changed."""

    @property
    def own_templates(self) -> bool:
        """Whether the garden has templates of its own, which may be wrong."""
        return any(template.own for template in self.layouts.templates.values())


def laid_out(
    root: Path,
    *,
    as_of: date | None = None,
    progress: Progress | None = None,
    drafts: bool = False,
    before: Before | None = None,
    doubts: bool = True,
) -> LaidOut:
    """Lay out the site of a garden folder. Raises OSError.

    ``as_of`` leaves later records out; ``drafts`` True shows what waits as well, for the
    gardener's own eyes. ``before`` spares what has not changed since. ``doubts`` False leaves
    out what plan, log and ledger disagree about, which is never an error and takes longest.
    """
    tell = progress or silent
    tell("Reading the garden", 0, 0)
    found = read(root, before.reading if before else None, SeasonShelf(root))
    laid = layouts(root)
    findings = [*found.findings, *laid.findings]
    if found.garden is None:
        return LaidOut(root=root, findings=tuple(findings), layouts=laid, reading=found.leaves)
    garden = found.garden if as_of is None else seen_from(found.garden, as_of)
    years = reckoned(garden, root, drafts=drafts, as_of=as_of)
    if before and before.years:
        carry(before.years, years)
    base = ""
    if doubts:
        base = closed_base(root, years, as_of=as_of, drafts=drafts)
        findings += certain((*_closed_doubts(root, base, years), *own_doubts(years)), found.findings)
        findings += answers(garden, years.today)
    tell("Making photographs ready", 0, 0)
    photographs = pictures(
        root, garden, lambda entry: waits(entry, years.today), drafts=drafts, cache=root / CACHE
    )
    findings += photographs.findings
    whole = LaidOut(root=root, findings=tuple(findings), layouts=laid, understood=years, reading=found.leaves)
    if has_errors(findings):
        return whole
    findings += nowhere_links(
        years, years if as_of is None and drafts else reckoned(found.garden, root, drafts=True)
    )
    ours = (*every_path(years), *every_file_path(years), *paths_beside(years))
    findings += unfit_paths(years, ours, laid.assets)
    whole = replace(whole, findings=settled(findings, garden))
    if has_errors(findings):
        return whole
    return replace(whole, years=years, photographs=photographs, closed_base=base)


def _closed_doubts(root: Path, base: str, years: Years) -> tuple[Finding, ...]:
    """Return what is found of closed seasons: what was kept of them, if it was worked out from the same."""
    if years.closed is None:
        return ()
    found = kept_findings(root, base)
    if found is None:
        found = own_doubts(years.closed)
        keep_findings(root, base, found)
    return found


def settled(findings: Iterable[Finding], garden: Garden) -> tuple[Finding, ...]:
    """Return findings, those marked that are advice on a closed season: its books do not change any more."""
    closed = tuple(f"{CONTENT}/{season.name}/" for season in garden.seasons if season.closed)
    return tuple(in_closed_season(one) if one.place.file.startswith(closed) else one for one in findings)


def silent(what: str, done: int, of: int) -> None:
    """Tell nobody of a step; see ``Progress``."""
    del what, done, of
