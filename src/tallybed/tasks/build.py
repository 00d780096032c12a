"""``tallybed build``: the site of a garden folder, made in memory, then handed over whole."""

from __future__ import annotations

import itertools
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from tallybed.garden.days import in_full
from tallybed.garden.findings import Finding, has_errors, sorted_findings
from tallybed.pages.care.notices import UNREAD
from tallybed.pages.frame import addresses
from tallybed.pages.frame.waits_shown import is_of, open_notices
from tallybed.pictures.cache import CardCache
from tallybed.pictures.rooms import FOLDER as CACHE
from tallybed.publishing.added_notices import with_notices
from tallybed.publishing.swap.changes import Changes
from tallybed.publishing.swap.handoff import NewSite, hand_over, new_site, repair
from tallybed.publishing.swap.marker import files_there
from tallybed.publishing.swap.refused import RefusedError
from tallybed.reading.folder.known_files import CONTENT
from tallybed.reckoning.year import Years
from tallybed.tasks.base.errors import UsageError
from tallybed.tasks.base.garden import in_own_text, require_garden
from tallybed.tasks.site.divided import make_divided
from tallybed.tasks.site.kept import closed_key, keep_closed, kept_closed
from tallybed.tasks.site.laid_out import LaidOut, Progress, laid_out, silent
from tallybed.tasks.site.making import make_closed, make_rest
from tallybed.tasks.site.unchanged import SITE
from tallybed.tasks.site.unread import unread_treatments


@dataclass(frozen=True, slots=True, kw_only=True)
class InMemory:
    """A site in memory: paths within it and their bytes. Empty where content has errors."""

    findings: tuple[Finding, ...]
    files: Mapping[str, bytes]
    years: Years | None = None
    """What the pages were made of; None where they were not made."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Built:
    """What a build did."""

    findings: tuple[Finding, ...]
    pages: int = 0
    marker: str = ""
    """SHA-256 of the site's marker; empty where nothing was built."""
    kept: bool = False
    """Whether the files of closed seasons were found to be as they would be made."""
    changed: bool = False
    """Whether anything in the site's folder is other than before."""
    changes: Changes | None = None
    """What became of the pages; None where there was no site before, or none is now."""
    today: date | None = None
    """The day the site speaks as of; None where nothing was built."""
    years: Years | None = None
    warned: int | None = 0
    """Pages of the last good site that notices were added to, because it could not be made anew;
    None where they could not be."""

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
    told: Callable[[tuple[Finding, ...]], None] | None = None,
) -> Built:
    """Build the garden at ``root`` into ``target``, by default its ``site`` folder.

    ``drafts`` True shows what waits as well: never in a site that others see. ``told`` gets
    what is found before pages are made.

    Content with errors leaves the site as it was, but for notices of what waits that its pages
    do not have yet: they are added to each. Raises UsageError where root is not a
    garden folder or target lies in its sources, RefusedError where target holds what
    Tallybed did not write, OSError where the machine fails.
    """
    target = root / SITE if target is None else target
    require_garden(root)
    _require_apart(root, target)
    repair(target)
    tell = progress or silent
    laid = laid_out(root, as_of=as_of, progress=tell, drafts=drafts)
    if told is not None:
        told(sorted_findings(laid.findings))
    if laid.years is None:
        return Built(findings=sorted_findings(laid.findings), warned=_warned(laid, target))
    with new_site(target, replace=replace) as new:
        tell("Laying out pages", 0, 0)
        mistakes, kept = _filled(new, laid, laid.years, tell)
        findings = sorted_findings([*laid.findings, *mistakes])
        handed = (
            None if has_errors(findings) else new.finish(lambda done, of: tell("Writing files", done, of))
        )
    if handed is None:
        return Built(findings=findings, warned=_warned(laid, target))
    return Built(
        findings=findings,
        pages=len(laid.years.paths),
        marker=handed.marker,
        kept=kept,
        changed=handed.changed,
        changes=handed.changes,
        today=laid.years.today,
        years=laid.years,
    )


def _filled(new: NewSite, laid: LaidOut, years: Years, tell: Progress) -> tuple[list[Finding], bool]:
    """Give a new site its files. Raises OSError.

    Returns what a garden's own templates get wrong, and whether the files of closed seasons were kept.
    """
    pages, done = len(years.paths), itertools.count(1)

    def put(path: str, data: bytes) -> None:
        new.put(path, data)
        if path.endswith(".html"):
            tell("Making pages", next(done), pages)

    closed = years.closed
    if closed is None:
        rest = make_rest(laid, years, put)
        CardCache(laid.root / CACHE).tidy(rest.cards)
        return rest.findings, False
    key = closed_key(laid.closed_base, laid.root, laid.photographs.by_name, years, closed)
    kept = kept_closed(laid.root, key, years)
    if kept and all(new.has(path, digest) for path, digest in kept.files.items()):
        new.add(kept.files)
        return make_rest(laid, years, put).findings, True
    made, kept = make_divided(new, laid, years, put)
    if not made.findings:
        keep_closed(laid.root, key, kept)
    CardCache(laid.root / CACHE).tidy(made.cards)
    return made.findings, False


def _warned(laid: LaidOut, target: Path) -> int | None:
    """Add the notices of today to the pages of the last good site; return how many pages that changed.

    Pages of other seasons stay as they are. None where the site could not be written: the errors in
    the content are told all the same.
    """
    years = laid.understood
    unread = () if years is None else _unread(laid, years)
    if years is None or not (unread or open_notices(years)):
        return 0
    try:
        before = files_there(target)
        if before is None:
            return None
        after = warned(before, years, unread)
        changed = sum(after[path] != before[path] for path in before)
        if changed:
            hand_over(after, target)
    except (OSError, RefusedError, UnicodeDecodeError):
        return None
    return changed


def _unread(laid: LaidOut, years: Years) -> tuple[str, ...]:
    """Return the notice of a treatment that a slip keeps from being read, where the season has one."""
    year = years.foremost
    mine = f"{CONTENT}/{year.name}/" if year else ""
    found = [one for one in unread_treatments(laid.root, laid.findings) if one.place.file.startswith(mine)]
    return (UNREAD,) if year and found else ()


def warned(files: Mapping[str, bytes], years: Years, more: Sequence[str] = ()) -> dict[str, bytes]:
    """Return files of a site, with the notices of today, and more, on pages that lack them.

    See ``with_notices``.
    """
    others = [year for year in years.all if year is not years.foremost]
    now = {path: data for path, data in files.items() if not any(is_of(year, path) for year in others)}
    texts = [*more, *(one.text for one in open_notices(years))]
    return {**files, **with_notices(now, texts, in_full(years.today), all_at=addresses.CAUTIONS)}


def make(root: Path, *, drafts: bool = False) -> InMemory:
    """Return the whole site in memory, and every finding. Raises OSError; see ``laid_out``."""
    return rendered(laid_out(root, drafts=drafts))


def rendered(laid: LaidOut) -> InMemory:
    """Return a laid out site in memory, and every finding. Raises OSError."""
    years = laid.years
    if years is None:
        return InMemory(findings=sorted_findings(laid.findings), files={})
    files: dict[str, bytes] = {}
    made = [make_closed(laid, years, files.__setitem__), make_rest(laid, years, files.__setitem__)]
    CardCache(laid.root / CACHE).tidy(name for one in made for name in one.cards)
    told = sorted_findings([*laid.findings, *(finding for one in made for finding in one.findings)])
    return InMemory(findings=told, files=files, years=years)


def _require_apart(root: Path, target: Path) -> None:
    """Keep a site from being written over the text it is made of."""
    if root.resolve().is_relative_to(target.resolve()) or in_own_text(root, target):
        raise UsageError(
            f"a site in {target} would overwrite the garden's own text; name another folder with --to"
        )
