"""``tallybed archive``: a season in one file that opens without the web."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from tallybed.garden.findings import Finding, has_errors
from tallybed.pages.frame import addresses
from tallybed.publishing.assets import layouts
from tallybed.publishing.files.archive import archive as files_of
from tallybed.publishing.files.archive import zipped
from tallybed.publishing.rendering import Rendering, TemplateMistakeError
from tallybed.tasks.base.errors import UsageError
from tallybed.tasks.base.garden import require_apart, require_garden
from tallybed.tasks.build import make
from tallybed.writing.atomic import write_new


@dataclass(frozen=True, slots=True, kw_only=True)
class Archived:
    """What became of a season's archive."""

    findings: tuple[Finding, ...] = ()
    path: Path | None = None
    """Where the file lies; None where the content has errors."""
    files: int = 0
    bytes: int = 0


def archive(root: Path, name: str, target: Path | None = None, *, replace: bool = False) -> Archived:
    """Write a season's archive into a file, by default ``SEASON.zip`` in the garden's folder.

    Raises UsageError where root is not a garden folder or has no such season, RefusedError
    where the file is there and ``replace`` is not said, OSError.
    """
    require_garden(root)
    if target is not None:
        require_apart(root, target, "--to")
    made = make(root)
    if made.years is None or has_errors(made.findings):
        return Archived(findings=made.findings)
    years = made.years
    year = years.named(name)
    if year is None:
        known = ", ".join(one.name for one in years.all) or "none"
        raise UsageError(f"there is no season {name}; the garden has: {known}")
    laid = layouts(root)
    try:
        files = files_of(year, made.files, laid.assets, Rendering(laid))
    except TemplateMistakeError as mistake:
        return Archived(findings=(mistake.finding,))
    path = root / f"{name}.zip" if target is None else target
    data = zipped(files, addresses.name_elsewhere(year), years.today)
    write_new(path, data, replace=replace)
    return Archived(findings=made.findings, path=path, files=len(files), bytes=len(data))
