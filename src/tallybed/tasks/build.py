"""Where the tiers meet: a garden folder is read, reckoned, laid out, rendered and handed over.

The command calls this module alone.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from contextlib import suppress
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from typing import TypeVar

from tallybed.checks.registry import every_finding
from tallybed.checks.unpublished import answers
from tallybed.garden.days import ONE_DAY
from tallybed.garden.findings import Finding, Place, Severity, has_errors, sorted_findings
from tallybed.garden.garden import Garden
from tallybed.pages.care.library_sources import kinds_table
from tallybed.pages.catalogue import every_file, every_page
from tallybed.pages.paper import marking_out
from tallybed.pages.season import seeds
from tallybed.pages.tables.plain_text import plain
from tallybed.pictures.cache import FOLDER as CACHE
from tallybed.pictures.photos import pictures
from tallybed.publishing.assets import OWN, layouts
from tallybed.publishing.files.csv_text import csv_text, written
from tallybed.publishing.files.extra_files import files_beside, paths_beside
from tallybed.publishing.path_conflicts import unfit_paths
from tallybed.publishing.rendering import Rendering, render
from tallybed.publishing.swap.changes import Changes as Changes
from tallybed.publishing.swap.disk import BusyError
from tallybed.publishing.swap.handoff import RefusedError as RefusedError
from tallybed.publishing.swap.handoff import hand_over, repair
from tallybed.reading.base.problems import Misread
from tallybed.reading.folder.garden_folder import read
from tallybed.reading.folder.library import kinds, load_library
from tallybed.reading.shapes.take_in import TakeInSettings
from tallybed.reading.text import measures
from tallybed.reckoning.as_of import season_seen_from
from tallybed.reckoning.unpublished import readable, waits
from tallybed.reckoning.year import Year, Years
from tallybed.tasks.writeup import begin
from tallybed.writing.entry import WrittenUp
from tallybed.writing.starter_garden import start as start

CONTENT = "content"
GARDEN_FILE = f"{CONTENT}/garden.yaml"
SITE = "site"
"""The folder a site is written to, below the garden's, where no other is named."""

_Measured = TypeVar("_Measured")
NO_ADDRESS = Finding(
    place=Place(GARDEN_FILE),
    code="no-address",
    severity=Severity.ADVICE,
    found="the site’s web address is not told, so it gets no feed, no list of pages for search engines, "
    "no picture to share and no codes to scan",
    remedy="once the site has one, tell it in a line such as address: https://www.example.org/",
)
"""Told by ``check`` alone: a build of a garden that stays off the web has nothing wrong with it."""

Progress = Callable[[str, int, int], None]
"""Told what is going on, how many of how many are done; of none where that is not known."""


class UsageError(Exception):
    """The command was asked for something that cannot be meant; the message says what to do."""


class BrokenError(UsageError):
    """The garden's own file cannot be understood, so that nothing can be done with it."""

    def __init__(self, errors: tuple[Finding, ...]) -> None:
        super().__init__(f"{GARDEN_FILE} cannot be understood")
        self.errors = errors
        """Every error in the content, sorted by place."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """A site in memory: paths within it and their bytes. Empty where content has errors."""

    findings: tuple[Finding, ...]
    files: Mapping[str, bytes]
    pages: int = 0
    today: date | None = None
    site: Years | None = None
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
    site: Years | None = None

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

    Content with errors leaves the site as it was. Raises UsageError where root is no
    garden folder or target lies in its sources, RefusedError where target holds what
    Tallybed did not write, OSError where the machine fails.
    """
    target = root / SITE if target is None else target
    require_garden(root)
    _require_apart(root, target)
    repair(target)
    tell = progress or _silent
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
        site=made.site,
    )


def check(root: Path, *, as_of: date | None = None, progress: Progress | None = None) -> tuple[Finding, ...]:
    """Return everything there is to tell the gardener, in the order of the files.

    Raises UsageError where root is no garden folder, OSError where the machine fails.
    """
    require_garden(root)
    with suppress(BusyError):
        repair(root / SITE)
    made = make(root, as_of=as_of, progress=progress or _silent)
    unaddressed = made.site is not None and not made.site.garden.address
    return sorted_findings([*made.findings, NO_ADDRESS]) if unaddressed else made.findings


def write_entry(root: Path, title: str, day: date, photographs: Path | None = None) -> WrittenUp:
    """Begin a log entry of a day; see ``entries.begin``.

    Raises UsageError, BrokenError, RefusedError, OSError.
    """
    garden = understood(root).garden
    return begin(root, garden, day_of(garden), title, day, photographs)


def findings_in(root: Path, path: Path) -> tuple[Finding, ...]:
    """Return what reading finds in one file of a garden folder. Raises OSError."""
    file = path.relative_to(root).as_posix()
    return tuple(one for one in read(root).findings if one.place.file == file)


def make(
    root: Path, *, as_of: date | None = None, progress: Progress | None = None, drafts: bool = False
) -> Made:
    """Return the whole site in memory, and every finding. Raises OSError.

    ``drafts`` True shows what waits as well, for the gardener's own eyes.
    """
    tell = progress or _silent
    tell("Reading the garden", 0, 0)
    found = read(root)
    laid = layouts(root)
    findings = [*found.findings, *laid.findings]
    if found.garden is None:
        return Made(findings=sorted_findings(findings), files={})
    garden = found.garden if as_of is None else seen_from(found.garden, as_of)
    site = reckoned(garden, drafts=drafts)
    findings += [*doubts(site), *answers(garden, site.today)]
    tell("Making photographs ready", 0, 0)
    photographs = pictures(
        root, garden, lambda entry: waits(entry, site.today), drafts=drafts, cache=root / CACHE
    )
    findings += photographs.findings
    if has_errors(findings):
        return Made(findings=sorted_findings(findings), files={})
    pages = every_page(site)
    data_files = every_file(site)
    findings += unfit_paths(site, (*pages, *data_files), [*laid.assets, *paths_beside(site)])
    if has_errors(findings):
        return Made(findings=sorted_findings(findings), files={})
    rendering = Rendering(laid, photographs.by_name)
    files: dict[str, bytes] = {}
    for number, (path, data) in enumerate(render(pages, rendering, findings.append), start=1):
        files[path] = data
        tell("Making pages", number, len(pages))
    files |= {one.path: written(one) for one in data_files}
    files |= files_beside(site, pages, rendering, findings.append, root / CACHE)
    files |= {**laid.assets, **photographs.files}
    told = sorted_findings(findings)
    return Made(findings=told, files=files, pages=len(pages), today=site.today, site=site)


def reckoned(garden: Garden, *, drafts: bool = False) -> Years:
    """Return the garden with what its records say when they are held together.

    Of what waits only the lines of ``done`` are in it; all of it with ``drafts``.
    """
    today = day_of(garden)
    garden = garden if drafts else readable(garden, today)
    return Years(garden=garden, today=today, check=every_finding)


def doubts(site: Years) -> tuple[Finding, ...]:
    """Return what plan, log and ledger disagree about, season by season."""
    return tuple(finding for view in site.all for finding in view.findings)


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """What a command was asked for, as text; empty where the content has errors."""

    findings: tuple[Finding, ...] = ()
    text: str = ""


def seed_list(root: Path, *, season: str = "", spreadsheet: bool = False) -> Answer:
    """Return what a season's plan needs before it begins, as tables or as comma-separated values.

    Without ``season``: the one under way, else the next, else the last. Raises
    UsageError where root is no garden folder or the season has no plan, OSError.
    """
    require_garden(root)
    found = read(root)
    if found.garden is None or has_errors(found.findings):
        return Answer(findings=sorted_findings(found.findings))
    site = reckoned(found.garden)
    view = _season_meant(site, season)
    if spreadsheet:
        return Answer(text=csv_text(seeds.seeds_file(view)))
    shown = seeds.tables(view)
    notes = seeds.notes(view)
    parts = [*map(plain, shown), "\n".join(notes)] if shown else [seeds.NOTHING]
    return Answer(text="\n\n".join(parts) + "\n")


def marking_sheet(root: Path, bed: str, *, depth: str = "", bags: Iterable[str] = ()) -> Answer:
    """Return how to mark out a bed and what fills it, as tables.

    ``depth``: of the one layer to reckon, such as ``6 in``; ``bags``: sizes such as
    ``1.5 cu ft``. Raises UsageError where root is no garden folder, it has no such bed,
    or a size cannot be read; OSError.
    """
    require_garden(root)
    deep = _size(measures.length, depth) if depth else None
    sizes = [marking_out.Bag(words=bag, cubic_feet=_size(measures.volume, bag)) for bag in bags]
    found = read(root)
    if found.garden is None:
        return Answer(findings=sorted_findings(found.findings))
    garden = found.garden
    chosen = next((one for one in garden.beds if one.name == bed), None)
    if chosen is None:
        if has_errors(found.findings):
            return Answer(findings=sorted_findings(found.findings))
        known = ", ".join(one.name for one in garden.beds) or "none"
        raise UsageError(f"there is no bed {bed}; the garden has: {known}")
    filled = (marking_out.Layer(name="Fill", depth=deep),) if deep else marking_out.layers(garden.showing)
    shown = marking_out.tables(garden.showing, chosen, filled, sizes)
    return Answer(text="\n\n".join([chosen.title, *map(plain, shown)]) + "\n")


def library_kinds() -> str:
    """Return what the crop library's figures rest on, as a table."""
    return plain(kinds_table(kinds(load_library()))) + "\n"


def _season_meant(site: Years, name: str) -> Year:
    planned = [view for view in site.all if view.season.plan is not None]
    if name:
        view = next((one for one in planned if one.name == name), None)
    else:
        chosen = (site.running, site.coming, *reversed(planned))
        view = next((one for one in chosen if one in planned), None)
    if view is None:
        there = ", ".join(one.name for one in planned) or "none"
        raise UsageError(f"there is no plan for {name or 'any season'}; seasons with a plan: {there}")
    return view


def _size(scan: Callable[[str], _Measured], typed: str) -> _Measured:
    try:
        return scan(typed)
    except Misread as misread:
        raise UsageError(misread.sentence) from None


def day_of(garden: Garden) -> date:
    """Return the day a garden's site speaks as of: the newest record of the latest season that has any.

    With no record at all it is the day before the first season begins; with no season,
    a day long ago on which nothing stood anywhere.
    """
    newest = [season.newest for season in garden.seasons if season.newest is not None]
    if newest:
        return newest[-1]
    return min((season.span.first for season in garden.seasons), default=date(2000, 1, 1)) - ONE_DAY


def seen_from(garden: Garden, day: date) -> Garden:
    """Return the garden as its papers were at the end of a day: later records are not there yet."""
    seasons = tuple(season_seen_from(season, day) for season in garden.seasons)
    questions = tuple(one for one in garden.questions if one.asked is None or one.asked <= day)
    return replace(garden, seasons=seasons, questions=questions)


@dataclass(frozen=True, slots=True, kw_only=True)
class Understood:
    """A garden whose own file is understood, if perhaps not every record."""

    garden: Garden
    errors: tuple[Finding, ...]
    """What could not be understood, and so is not in it; sorted by place."""
    taking: TakeInSettings


def understood(root: Path) -> Understood:
    """Read a garden folder. Raises UsageError where it is none, BrokenError, OSError."""
    require_garden(root)
    found = read(root)
    errors = tuple(one for one in found.findings if one.severity is Severity.ERROR)
    if found.garden is None:
        raise BrokenError(errors)
    return Understood(garden=found.garden, errors=errors, taking=found.taking)


def require_garden(root: Path) -> None:
    """Raise UsageError where a folder is no garden's."""
    if not (root / GARDEN_FILE).is_file():
        raise UsageError(
            f"{root.resolve()} is no garden folder: it holds no {GARDEN_FILE}; "
            "name a garden's folder, or make a new one with: tallybed start FOLDER"
        )


def _require_apart(root: Path, target: Path) -> None:
    """Keep a site from being written over the text it is made of."""
    garden, site = root.resolve(), target.resolve()
    sources = [garden / CONTENT, garden / OWN]
    if garden.is_relative_to(site) or any(site.is_relative_to(source) for source in sources):
        raise UsageError(
            f"a site in {target} would overwrite the garden's own text; name another folder with --to"
        )


def _silent(what: str, done: int, of: int) -> None:
    del what, done, of
