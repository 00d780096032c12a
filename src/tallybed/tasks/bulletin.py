"""What leaves the house by another way than the site: a week's bulletin, and a season in one file.

Like ``building``, which it calls, it brings tiers together.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from pathlib import Path

from tallybed.garden.days import Week, in_full
from tallybed.garden.findings import Finding, has_errors, sorted_findings
from tallybed.pages.files.bulletin_text import said
from tallybed.pages.files.week_card import week_card
from tallybed.pages.season.bulletins import bulletin_letter, season_of, told
from tallybed.pictures.share_cards import drawn
from tallybed.publishing.assets import layouts
from tallybed.publishing.files.archive import archive, folder_of, zipped
from tallybed.publishing.rendering import Rendering, TemplateMistakeError, render
from tallybed.publishing.swap import disk
from tallybed.reading.folder.garden_folder import read
from tallybed.reckoning.year import Year, Years
from tallybed.tasks.build import Answer, RefusedError, UsageError, make, reckoned, require_garden, seen_from


@dataclass(frozen=True, slots=True, kw_only=True)
class Archived:
    """What became of a season's archive."""

    findings: tuple[Finding, ...] = ()
    path: Path | None = None
    """Where the file lies; None where the content has errors."""
    files: int = 0
    bytes: int = 0


def bulletin(
    root: Path,
    week: Week | None = None,
    *,
    as_of: date | None = None,
    html: bool = False,
    picture: Path | None = None,
    replace: bool = False,
) -> Answer:
    """Return the bulletin of a week, by default of the one that the newest record lies in.

    ``html``: as a fragment for a mail; ``picture``: a file to draw its picture into, taken
    over where it is there only with ``replace``. Raises UsageError where root is no
    garden folder or no season has the week, RefusedError where the file is there, OSError.
    """
    require_garden(root)
    found = read(root)
    if found.garden is None or has_errors(found.findings):
        return Answer(findings=sorted_findings(found.findings))
    site = reckoned(found.garden if as_of is None else seen_from(found.garden, as_of))
    asked = week or Week.of(site.today)
    view = _season_of(site, asked)
    facts = told(view, asked)
    if picture is not None:
        card = week_card(view, facts)
        if card is None:
            raise UsageError(f"nothing was weighed by {in_full(facts.last)}, so there is nothing to draw")
        _write(picture, drawn(card), replace=replace)
    if not html:
        return Answer(text=said(site.garden, facts).text + "\n")
    laid = layouts(root)
    findings = list(laid.findings)
    letter = bulletin_letter(view, said(site.garden, facts), asked)
    pages = dict(render([letter], Rendering(laid), findings.append))
    if has_errors(findings):
        return Answer(findings=sorted_findings(findings))
    return Answer(text=pages[letter.path].decode())


def archive_season(root: Path, name: str, target: Path | None = None, *, replace: bool = False) -> Archived:
    """Write a season's archive into a file, by default ``SEASON.zip`` in the garden's folder.

    Raises UsageError where root is no garden folder or has no such season, RefusedError
    where the file is there and ``replace`` is not said, OSError.
    """
    require_garden(root)
    made = make(root)
    if made.site is None or has_errors(made.findings):
        return Archived(findings=made.findings)
    site = made.site
    view = next((one for one in site.all if one.name == name), None)
    if view is None:
        known = ", ".join(one.name for one in site.all) or "none"
        raise UsageError(f"there is no season {name}; the garden has: {known}")
    laid = layouts(root)
    try:
        files = archive(view, made.files, laid.assets, Rendering(laid))
    except TemplateMistakeError as mistake:
        return Archived(findings=(mistake.finding,))
    data = zipped(files, folder_of(view), site.today)
    path = root / f"{name}.zip" if target is None else target
    _write(path, data, replace=replace)
    return Archived(findings=made.findings, path=path, files=len(files), bytes=len(data))


def _season_of(site: Years, week: Week) -> Year:
    view = season_of(site, week)
    if view is None:
        raise UsageError(
            f"no season has a day of week {week} up to {in_full(site.today)}, the newest day on record"
        )
    return view


def _write(path: Path, data: bytes, *, replace: bool) -> None:
    """Write a file whole or not at all."""
    if path.exists() and not replace:
        raise RefusedError(f"{path} is there already; name another file, or say --replace to write it anew")
    if path.is_dir():
        raise RefusedError(f"{path} is a folder; name a file")
    new = path.with_name(f".{path.name}.tallybed-new")
    try:
        new.write_bytes(data)
        disk.flush_file(new)
        new.replace(path)
    finally:
        new.unlink(missing_ok=True)
