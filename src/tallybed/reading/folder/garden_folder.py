"""A garden folder, read: every record, and everything that could not be understood, at once."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field, replace
from functools import partial
from pathlib import Path
from typing import TypeVar

from tallybed.garden.findings import Finding, Place, Severity
from tallybed.garden.garden import Garden, Season
from tallybed.reading.base.context import Context
from tallybed.reading.base.problems import LeftOut, Problems, listed
from tallybed.reading.base.scanners import kept
from tallybed.reading.folder.benchmarks import load_benchmarks
from tallybed.reading.folder.disk import FolderOnDisk
from tallybed.reading.folder.kept_seasons import Shelf, season_from
from tallybed.reading.folder.known_files import (
    CROPS,
    GARDEN,
    KnownFiles,
    SeasonFiles,
    found_files,
    tell_no_garden,
)
from tallybed.reading.folder.library import load_library
from tallybed.reading.folder.remembered import Memory, Sources
from tallybed.reading.folder.season_folder import SeasonFolder
from tallybed.reading.shapes.common import narrowest
from tallybed.reading.shapes.crops import CropList
from tallybed.reading.shapes.garden import GardenFile, ground
from tallybed.reading.shapes.own_pages import leaf, question
from tallybed.reading.shapes.people import withdrawal
from tallybed.reading.shapes.safety.soil import soil_test
from tallybed.reading.shapes.take_in import TakeInSettings, taking
from tallybed.reading.text.file_names import slug_of
from tallybed.reading.text.squares import Beds
from tallybed.reading.text.texts import region
from tallybed.reading.yaml.headers import HeadedFile
from tallybed.reading.yaml.nodes import Node

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


def read(root: Path, before: Memory | None = None, shelf: Shelf | None = None) -> FolderRead:
    """Read a garden folder. Raises OSError on trouble with the machine, nothing else.

    ``before``: what reading the same folder left (a new ``Memory`` at first); what has changed since is
    read, and nothing else. None where it is read once: nothing is left for another time.
    ``shelf``: where seasons lie as other runs understood them, and are left for the next.
    """
    problems = Problems()
    sources = Sources(FolderOnDisk(root, problems), problems, before)
    folder = _Folder(sources, problems, shelf)
    garden = folder.garden()
    return FolderRead(garden=garden, findings=problems.all(), taking=folder.taking, leaves=sources.now)


class _Folder:
    """One run of reading."""

    def __init__(self, sources: Sources, problems: Problems, shelf: Shelf | None) -> None:
        self._sources = sources
        self._problems = problems
        self._shelf = shelf
        self.taking = TakeInSettings()

    def garden(self) -> Garden | None:
        """Return the garden with all that could be read of it, or None where its own file could not."""
        files = found_files(self._sources.disk, self._problems)
        base = self._known((files.garden,), GARDEN, read=lambda: self._ground(files))
        crop_list = self._known((files.garden, files.crops), CROPS, read=lambda: self._crop_list(files, base))
        context = Context(
            problems=self._problems,
            metric=base is not None and base.garden.showing.metric,
            currency=base.garden.currency if base is not None else "",
            beds=base.beds if base is not None else Beds({}, whole=False),
            names=crop_list.names,
            crops_whole=crop_list.whole,
            unplannable=crop_list.unplannable(),
            spacings=narrowest(crop_list.crops),
        )
        self.taking = self._taking(files, context)
        whole = (files.garden, files.crops)
        seasons = tuple(
            self._known_season(
                each, whole, read=partial(SeasonFolder(self._sources, each).season, base, context)
            )
            for each in files.seasons
        )
        questions = self._pages(files.questions, lambda page, slug: question(page, context, slug))
        leaves = self._pages(files.leaves, lambda page, slug: leaf(page, context, slug))
        if base is None:
            return None
        self._tell_seasons_without_folder(base, files)
        self._tell_beds_without_season(base, files)
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
        self, files: SeasonFiles, whole: Iterable[str | None], read: Callable[[], Season]
    ) -> Season:
        """Return a season likewise, and let go of what stood where: it takes more room than the season."""
        of = tuple(file for file in (*whole, *files.every) if file is not None)

        def shelved() -> Season:
            if self._shelf is None:
                return read()
            return season_from(self._shelf, files, self._sources, of, read)

        season = self._known(of, files.kept_as, read=shelved)
        self._problems.forget_spots()
        self._sources.forget_texts(files.every)
        return season

    def _crop_list(self, files: KnownFiles, base: GardenFile | None) -> CropList:
        """Return the library's crops, named as in the garden's country, with the garden's own among them."""
        library = load_library()
        country = region(base.garden.language) if base is not None else ""
        crop_list = CropList.of(library.crops, library.names, country)
        if files.crops is not None:
            context = Context(problems=self._problems)
            items = self._sources.items(files.crops, "a list of crops")
            crop_list.whole = items is not None
            for node in items or ():
                crop_list.add(node, context)
            crop_list.tell_taken(context)
        return crop_list

    def _listed(
        self, file: str | None, expected: str, build: Callable[[Node, Context], T], context: Context
    ) -> tuple[T, ...]:
        """Return the records of a file that is a list; none where there is no such file."""
        return () if file is None else kept(build, self._sources.items(file, expected) or (), context)

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
        self._sources.tell_empty(files.take_in, "how spreadsheets are read, as in dates: month-first")
        return TakeInSettings()

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

    def _tell_beds_without_season(self, base: GardenFile, files: KnownFiles) -> None:
        """Warn of each bed that is there in none of the seasons that have a folder."""
        years = [each.year for each in files.seasons]
        for bed in base.garden.beds:
            if years and not any(map(bed.was_there, years)):
                self._problems.add(
                    bed.place,
                    "bed-in-no-season",
                    f"garden.yaml has the bed {bed.name} {bed.there}, and no such season has a folder",
                    expected=f"seasons among {listed(years)}",
                    severity=Severity.WARNING,
                )
