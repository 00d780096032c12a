"""Which files of a garden folder are known, and what the others may be."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from tallybed.garden.findings import Place, Severity
from tallybed.garden.naming import nearest
from tallybed.reading.base.problems import Problems, listed, quoted
from tallybed.reading.folder.disk import FolderItem, FolderOnDisk
from tallybed.reading.text.dates import SEASON_NAME

CONTENT = "content"
GARDEN = "garden.yaml"
CROPS = "crops.yaml"
WITHDRAWN = "withdrawn.yaml"
TAKE_IN = "take-in.yaml"
SOIL = "soil.yaml"
QUESTIONS = "questions"
NAMES = "names.yaml"
PLAN = "plan.yaml"
LEDGER = "harvest.yaml"
COSTS = "costs.yaml"
PRICES = "prices.yaml"
TAKEN_IN = "taken-in.yaml"
"""Written when a spreadsheet is taken in, and read then; no paper of the gardener's."""
LOG = "log"
PHOTOS = "photos"
WEATHER = "weather.csv"
_OWN_FILES = (GARDEN, CROPS, WITHDRAWN, TAKE_IN, SOIL)
_SEASON_FILES = (NAMES, PLAN, LEDGER, COSTS, PRICES, WEATHER)
_SEASON_FOLDERS = (LOG, PHOTOS)


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonFiles:
    """What lies in one year's folder."""

    year: str
    files: frozenset[str]
    """Those of the season's own files that are there."""
    entries: tuple[str, ...] | None
    """Paths of the log entries, or None where there is no log folder."""

    def path(self, name: str) -> str:
        """Return a file's path below the garden folder."""
        return f"{CONTENT}/{self.year}/{name}"

    @property
    def every(self) -> tuple[str, ...]:
        """Paths of all that is read of the season, in a settled order."""
        return (*map(self.path, sorted(self.files)), *(self.entries or ()))

    @property
    def kept_as(self) -> str:
        """A name of the season that says whether it has a log."""
        return self.year if self.entries is None else self.path(LOG)


@dataclass(frozen=True, slots=True, kw_only=True)
class KnownFiles:
    """The known files of a garden folder, as paths below it."""

    garden: str | None
    crops: str | None
    withdrawn: str | None
    take_in: str | None
    soil: str | None
    leaves: tuple[str, ...]
    questions: tuple[str, ...]
    seasons: tuple[SeasonFiles, ...]


def found_files(sources: FolderOnDisk, problems: Problems) -> KnownFiles:
    """List what is there; an unknown name is told, with the known name it may have meant."""
    here = sources.listing(CONTENT)
    files = [each.name for each in here if _read_as_file(each)]
    folders = [each.name for each in here if each.name not in files]
    seasons: list[SeasonFiles] = []
    for name in folders:
        if SEASON_NAME.fullmatch(name):
            seasons.append(_season(name, sources, problems))
        elif name != QUESTIONS:
            _strange_folder(name, sources, problems)
    for name in files:
        if name == QUESTIONS or SEASON_NAME.fullmatch(name):
            _tell_no_folder(f"{CONTENT}/{name}", problems)
        elif name not in _OWN_FILES and not name.endswith(".md"):
            _unknown(
                f"{CONTENT}/{name}",
                _OWN_FILES,
                "garden.yaml, crops.yaml, soil.yaml or a page that ends in .md",
                problems,
            )
    return KnownFiles(
        garden=f"{CONTENT}/{GARDEN}" if GARDEN in files else None,
        crops=f"{CONTENT}/{CROPS}" if CROPS in files else None,
        withdrawn=f"{CONTENT}/{WITHDRAWN}" if WITHDRAWN in files else None,
        take_in=f"{CONTENT}/{TAKE_IN}" if TAKE_IN in files else None,
        soil=f"{CONTENT}/{SOIL}" if SOIL in files else None,
        leaves=tuple(f"{CONTENT}/{name}" for name in files if name.endswith(".md")),
        questions=_pages(f"{CONTENT}/{QUESTIONS}", sources, problems),
        seasons=tuple(seasons),
    )


def _season(year: str, sources: FolderOnDisk, problems: Problems) -> SeasonFiles:
    """Return the files of a season's folder, and tell of those that are not read."""
    folder = f"{CONTENT}/{year}"
    here = sources.listing(folder)
    for each in here:
        path = f"{folder}/{each.name}"
        known = _SEASON_FOLDERS if each.is_folder else _SEASON_FILES
        if each.name in _SEASON_FOLDERS and not each.is_folder:
            _tell_no_folder(path, problems)
            continue
        if each.name in (*known, *_SEASON_FILES) or (each.name == TAKEN_IN and not each.is_folder):
            continue
        _unknown(path, known, listed(known), problems)
    folders = {each.name for each in here if each.is_folder}
    return SeasonFiles(
        year=year,
        files=frozenset(each.name for each in here if each.name in _SEASON_FILES),
        entries=_pages(f"{folder}/{LOG}", sources, problems) if LOG in folders else None,
    )


def _pages(folder: str, sources: FolderOnDisk, problems: Problems) -> tuple[str, ...]:
    """Return the paths of a folder's Markdown files; anything else in it is told."""
    pages: list[str] = []
    for each in sources.listing(folder):
        path = f"{folder}/{each.name}"
        if each.name.endswith(".md"):
            pages.append(path)
            continue
        stem, _dot, ending = each.name.rpartition(".")
        meant = not each.is_folder and ending.casefold() in ("md", "markdown", "mdown", "txt", "yaml", "yml")
        _tell_unknown(path, f"{stem}.md" if meant else "", "a file whose name ends in .md", problems)
    return tuple(pages)


def _read_as_file(each: FolderItem) -> bool:
    """Return whether a name is read as a file's: a folder of such a name is told where it is opened."""
    return not each.is_folder or each.name in _OWN_FILES or each.name.endswith(".md")


def _tell_no_folder(path: str, problems: Problems) -> None:
    """Tell of something that has a folder's name and is none."""
    problems.add(
        Place(path),
        "not-a-folder",
        "this is not a folder",
        expected="a folder of that name",
        remedy="put a folder in its place, correct the link, or give it another name",
    )


def _strange_folder(name: str, sources: FolderOnDisk, problems: Problems) -> None:
    """Tell of a folder that is not read: one with a season's files in it, or one of another name."""
    path = f"{CONTENT}/{name}"
    inside = {each.name for each in sources.listing(path)}
    if inside.intersection((*_SEASON_FILES, LOG)):
        found = f"the folder {_as_named(name)} holds a season’s files, and its name is not a year"
        close = name.strip() if SEASON_NAME.fullmatch(name.strip()) else ""
        problems.add(Place(path), "not-a-year", found, expected="a year such as 2026", nearest=close)
    else:
        _unknown(path, (QUESTIONS,), "questions, or a year such as 2026", problems)


def _as_named(name: str) -> str:
    """Return a name in quotes, and where it has spaces that would not show there, that it has."""
    shows = name == " ".join(name.split())
    return quoted(name) if shows else f"{quoted(name)}, with spaces that do not show,"


def _unknown(path: str, known: Iterable[str], expected: str, problems: Problems) -> None:
    """Tell of an unknown name, with the known one nearest to it."""
    _tell_unknown(path, nearest(path.rpartition("/")[2], known), expected, problems)


def _tell_unknown(path: str, close: str, expected: str, problems: Problems) -> None:
    """Tell of an unknown name: a mistake where it is nearly a known one; else it is left where it lies."""
    name = path.rpartition("/")[2]
    problems.add(
        Place(path),
        "unknown-file",
        f"{_as_named(name)} is not a name that is read",
        expected=expected,
        nearest=close,
        severity=Severity.ERROR if close else Severity.WARNING,
    )


def tell_no_garden(disk: FolderOnDisk, problems: Problems) -> None:
    """Tell that there is no ``garden.yaml``, and which folder may be misnamed."""
    folder = nearest(CONTENT, (each.name for each in disk.listing("") if each.is_folder))
    misnamed = folder and folder != CONTENT
    problems.add(
        Place(f"{CONTENT}/{GARDEN}"),
        "no-garden",
        "there is no such file",
        expected="a file that says the garden’s name and its beds",
        remedy=f"is the folder {quoted(folder)} meant to be called content?" if misnamed else "",
    )
