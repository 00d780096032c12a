"""A garden folder, read: every record, and everything that could not be understood, at once."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field, replace
from datetime import date
from functools import partial
from pathlib import Path
from typing import TypeVar

from tallybed.garden.days import Span
from tallybed.garden.findings import Finding, Place, Severity
from tallybed.garden.garden import Garden, Season
from tallybed.garden.records.log import Entry
from tallybed.garden.records.plan import PlanRow
from tallybed.reading.base.context import Context
from tallybed.reading.base.problems import LeftOut, Problems, quoted
from tallybed.reading.base.scanners import kept
from tallybed.reading.folder.benchmarks import load_benchmarks
from tallybed.reading.folder.disk import FolderOnDisk
from tallybed.reading.folder.known_files import (
    COSTS,
    CROPS,
    GARDEN,
    LEDGER,
    NAMES,
    PLAN,
    PRICES,
    KnownFiles,
    SeasonFiles,
    found_files,
    tell_no_garden,
)
from tallybed.reading.folder.library import load_library
from tallybed.reading.folder.remembered import Memory, Sources
from tallybed.reading.folder.season_links import SeasonNames, logged, planned, weighed
from tallybed.reading.shapes.costs import cost, price
from tallybed.reading.shapes.crops import CropList, general_names
from tallybed.reading.shapes.garden import GardenFile, ground
from tallybed.reading.shapes.ledger import weighing
from tallybed.reading.shapes.log import entry
from tallybed.reading.shapes.own_pages import leaf, question
from tallybed.reading.shapes.people import withdrawal
from tallybed.reading.shapes.plan import plan_row
from tallybed.reading.shapes.safety.soil import soil_test
from tallybed.reading.shapes.take_in import TakeInSettings, taking
from tallybed.reading.text.file_names import entry_name, slug_of
from tallybed.reading.text.squares import Beds
from tallybed.reading.yaml.headers import HeadedFile
from tallybed.reading.yaml.nodes import Items, Node, Pairs

T = TypeVar("T")


@dataclass(frozen=True, kw_only=True)
class FolderRead:
    """What reading a folder gave. ``garden`` is None only if garden.yaml cannot be understood."""

    garden: Garden | None
    findings: tuple[Finding, ...]
    """Sorted by place. A record with an error is left out; everything else is kept."""
    taking: TakeInSettings = field(default=TakeInSettings())
    """What is settled about spreadsheets."""
    leaves: Memory = field(default_factory=Memory, repr=False, compare=False)
    """What spares the next reading of the same folder what has not changed."""


def read(root: Path, before: Memory | None = None) -> FolderRead:
    """Read a garden folder. Raises OSError on trouble with the machine, nothing else.

    ``before``: what reading the same folder left (a new ``Memory`` at first); what has changed since is
    read, and nothing else. None where it is read once: nothing is left for another time.
    """
    problems = Problems()
    sources = Sources(FolderOnDisk(root, problems), problems, before)
    folder = _Folder(sources, problems)
    garden = folder.garden()
    return FolderRead(garden=garden, findings=problems.all(), taking=folder.taking, leaves=sources.now)


class _Folder:
    """One run of reading."""

    def __init__(self, sources: Sources, problems: Problems) -> None:
        self._sources = sources
        self._problems = problems
        self.taking = TakeInSettings()

    def garden(self) -> Garden | None:
        """Return the garden with all that could be read of it, or None where its own file could not."""
        files = found_files(self._sources.disk, self._problems)
        base = self._known((files.garden,), GARDEN, read=lambda: self._ground(files))
        crop_list = self._known((files.crops,), CROPS, read=lambda: self._crop_list(files))
        context = Context(
            problems=self._problems,
            metric=base is not None and base.garden.showing.metric,
            beds=base.beds if base is not None else Beds({}, whole=False),
            names=crop_list.names,
            crops_whole=crop_list.whole,
            unplannable=crop_list.unplannable(),
        )
        self.taking = self._taking(files, context)
        whole = (files.garden, files.crops)
        seasons = tuple(
            self._known_season(each, whole, read=partial(self._season, each, base, context))
            for each in files.seasons
        )
        questions = self._pages(files.questions, lambda page, slug: question(page, context, slug))
        leaves = self._pages(files.leaves, lambda page, slug: leaf(page, context, slug))
        if base is None:
            return None
        self._tell_seasons_without_folder(base, files)
        return replace(
            base.garden,
            crops=tuple(crop for _slug, crop in sorted(crop_list.crops.items())),
            sources=(*load_library().sources.values(), *load_benchmarks().sources),
            benchmarks=load_benchmarks().figures,
            seasons=seasons,
            questions=questions,
            leaves=leaves,
            withdrawn=self._listed(
                files.withdrawn, "a list of withdrawals", withdrawal, Context(problems=self._problems)
            ),
            soil_tests=self._listed(files.soil, "a list of soil tests", soil_test, context),
        )

    def _ground(self, files: KnownFiles) -> GardenFile | None:
        """Return what ``garden.yaml`` says, or None, after telling why, where it cannot be read."""
        if files.garden is None:
            tell_no_garden(self._sources.disk, self._problems)
            return None
        try:
            node = self._sources.nodes(files.garden)
            if node is None:
                self._problems.add(
                    Place(files.garden),
                    "empty-file",
                    "the file holds nothing",
                    expected="the garden’s name and beds",
                )
                return None
            return ground(node, Context(problems=self._problems))
        except LeftOut:
            return None

    def _known(self, files: Iterable[str | None], name: str, *, read: Callable[[], T]) -> T:
        """Return a part of the garden, read unless it was read from the same texts before."""
        present = tuple(file for file in files if file is not None)
        return self._sources.part(name, present, read) if present else read()

    def _known_season(
        self, files: SeasonFiles, whole: Iterable[str | None], *, read: Callable[[], Season]
    ) -> Season:
        """Return a season likewise, and let go of what stood where: it takes more room than the season."""
        season = self._known((*whole, *files.every), files.kept_as, read=read)
        self._problems.forget_spots()
        self._sources.forget_texts(files.every)
        return season

    def _crop_list(self, files: KnownFiles) -> CropList:
        """Return the library's crops with the garden's own among them."""
        library = load_library()
        crop_list = CropList.of(library.crops, library.names)
        if files.crops is not None:
            context = Context(problems=self._problems)
            items = self._items(files.crops, "a list of crops")
            crop_list.whole = items is not None
            for node in items or ():
                crop_list.add(node, context)
        return crop_list

    def _listed(
        self, file: str | None, expected: str, build: Callable[[Node, Context], T], context: Context
    ) -> tuple[T, ...]:
        """Return the records of a file that is a list; none where there is no such file."""
        return () if file is None else kept(build, self._items(file, expected) or (), context)

    def _taking(self, files: KnownFiles, context: Context) -> TakeInSettings:
        """Return what was settled about spreadsheets; nothing where the file is missing or broken."""
        if files.take_in is None:
            return TakeInSettings()
        try:
            node = self._sources.nodes(files.take_in)
            if node is not None:
                return taking(node, context)
        except LeftOut:
            return TakeInSettings()
        self._tell_empty(files.take_in, "how spreadsheets are read, as in dates: month-first")
        return TakeInSettings()

    def _items(self, file: str, expected: str) -> tuple[Node, ...] | None:
        """Return the rows of a file that is a list; None where it could not be read."""
        try:
            node = self._sources.nodes(file)
        except LeftOut:
            return None
        if node is None:
            self._tell_empty(file, expected)
            return ()
        if not isinstance(node, Items):
            kind = "a group of keys" if isinstance(node, Pairs) else "a plain text"
            remedy = "begin each record with a hyphen" if isinstance(node, Pairs) else ""
            self._problems.add(
                node.place, "wrong-kind", f"{kind} stands here", expected=expected, remedy=remedy
            )
            return None
        return node.items

    def _tell_empty(self, file: str, expected: str) -> None:
        """Warn that a file holds nothing."""
        found = "the file holds nothing"
        self._problems.add(Place(file), "empty-file", found, expected=expected, severity=Severity.WARNING)

    def _season(self, files: SeasonFiles, base: GardenFile | None, context: Context) -> Season:
        """Return a season with its plan, log and ledger; each is None where there is no such file."""
        year = files.year
        span = base.span(year) if base else Span(first=date(int(year), 1, 1), last=date(int(year), 12, 31))
        context = replace(
            context,
            season=year,
            span=span,
            bounded=base is not None and base.is_bounded(year),
        )
        general, whole = self._general(files, context)
        context = replace(context, general=general, general_whole=whole)
        known = SeasonNames()
        plan = self._plan(files, known, context)
        log = self._log(files, known, context)
        ledger = self._rows(files, LEDGER, "a list of weighings", weighing, context)[1]
        costs = self._rows(files, COSTS, "a list of costs", cost, context)[1]
        prices = self._rows(files, PRICES, "a list of prices", price, context)[1]
        if base is not None:
            self._tell_no_currency(base, files)
        given = base.seasons.get(year) if base else None
        return Season(
            name=year,
            span=span,
            closed=given.closed if given else False,
            note=given.note if given else "",
            plan=None if plan is None else planned(plan, known, context),
            log=None if log is None else logged(log, known, context),
            ledger=None if ledger is None else weighed(ledger, known, context),
            costs=costs,
            prices=prices,
            general=tuple(general.items()),
        )

    def _tell_no_currency(self, base: GardenFile, files: SeasonFiles) -> None:
        """Tell that there are costs or prices and no currency."""
        paid = [name for name in (COSTS, PRICES) if name in files.files]
        if paid and base.currency_unknown:
            self._problems.add(
                Place(files.path(paid[0])),
                "no-currency",
                "the garden does not say which currency this is",
                expected="currency: with three letters such as USD, in content/garden.yaml",
                severity=Severity.WARNING,
            )

    def _general(self, files: SeasonFiles, context: Context) -> tuple[dict[str, str], bool]:
        """Return what general names mean in the season, and whether all of it could be read."""
        if NAMES not in files.files:
            return {}, True
        file = files.path(NAMES)
        try:
            node = self._sources.nodes(file)
            if node is not None:
                return general_names(node, context)
        except LeftOut:
            return {}, False
        self._tell_empty(file, "general names with their crop, as in beans: bean-bush")
        return {}, True

    def _rows(
        self,
        files: SeasonFiles,
        name: str,
        expected: str,
        build: Callable[[Node, Context], T],
        context: Context,
    ) -> tuple[tuple[Node, ...] | None, tuple[T, ...] | None]:
        """Return a file's rows as nodes and as records; no records where there is no file."""
        if name not in files.files:
            return (), None
        items = self._items(files.path(name), expected)
        return items, kept(build, items or (), context)

    def _plan(self, files: SeasonFiles, known: SeasonNames, context: Context) -> tuple[PlanRow, ...] | None:
        """Return the rows of a season's plan, and take note of its tags; None where there is no plan."""
        items, plan = self._rows(files, PLAN, "a list of plantings", plan_row, context)
        known.whole = items is not None
        if items and plan is not None:
            known.add_plan(Items(items, Place(files.path(PLAN))), context)
        return plan

    def _log(self, files: SeasonFiles, known: SeasonNames, context: Context) -> list[Entry] | None:
        """Return the entries that could be read, and take note of their tags; None where there is no log."""
        if files.entries is None:
            return None
        entries: list[Entry] = []
        for file in files.entries:
            try:
                page = self._sources.page(file)
            except LeftOut:
                known.whole = False
                continue
            if isinstance(page.header, Pairs):
                known.add_done(page.header.get("done"), context)
            try:
                day, slug = self._entry_name(file)
                entries.append(entry(page, context, day, slug))
            except LeftOut:
                continue
        return entries

    def _entry_name(self, file: str) -> tuple[date | None, str]:
        """Return the date a file's name begins with, and the rest of it as a slug."""
        stem = file.rpartition("/")[2].removesuffix(".md")
        day, slug = entry_name(stem)
        if day is None:
            found = f"the file’s name {quoted(stem + '.md')} does not begin with a date"
            self._problems.add(
                Place(file), "entry-name", found, expected="a name such as 2026-04-19-peas-are-up.md"
            )
        return day, slug

    def _pages(self, files: Iterable[str], build: Callable[[HeadedFile, str], T]) -> tuple[T, ...]:
        """Return the pages of prose that could be read; ``build`` gets each with its file's short name."""
        built: list[T] = []
        for file in files:
            try:
                page = self._sources.page(file)
                built.append(build(page, slug_of(file.rpartition("/")[2].removesuffix(".md"), "page")))
            except LeftOut:
                continue
        return tuple(built)

    def _tell_seasons_without_folder(self, base: GardenFile, files: KnownFiles) -> None:
        """Warn of each season that ``garden.yaml`` names and no folder holds."""
        years = {each.year for each in files.seasons}
        for year, given in base.seasons.items():
            if year not in years:
                self._problems.add(
                    given.place,
                    "season-without-folder",
                    f"there is no folder content/{year} for the season {year}",
                    severity=Severity.WARNING,
                )
