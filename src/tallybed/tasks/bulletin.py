"""``tallybed bulletin``: a week told in few words, as text, for a mail or as a picture."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from tallybed.garden.days import Week, in_full
from tallybed.garden.findings import has_errors, sorted_findings
from tallybed.pages.files.week_card import week_card
from tallybed.pages.season.bulletins import bulletin_letter, season_of, week_facts, week_text
from tallybed.pictures.share_cards import drawn
from tallybed.publishing.assets import layouts
from tallybed.publishing.rendering import Rendering, render
from tallybed.reading.folder.garden_folder import read
from tallybed.reckoning.year import Year, Years
from tallybed.tasks.base.errors import UsageError
from tallybed.tasks.base.garden import Answer, require_apart, require_garden, seen_from
from tallybed.tasks.site.reckoned import reckoned
from tallybed.tasks.site.shelf import SeasonShelf
from tallybed.writing.atomic import write_new


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
    over where it is there only with ``replace``. Raises UsageError where root is not a
    garden folder, the picture's name is not that of a PNG file or no season has the week,
    RefusedError where the file is there, OSError.
    """
    require_garden(root)
    if picture is not None:
        require_apart(root, picture, "--picture")
        if picture.suffix.casefold() != ".png":
            raise UsageError(f"{picture} is not the name of a PNG file, which ends in .png")
    found = read(root, shelf=SeasonShelf(root))
    if found.garden is None or has_errors(found.findings):
        return Answer(findings=sorted_findings(found.findings))
    garden = found.garden if as_of is None else seen_from(found.garden, as_of)
    years = reckoned(garden, root, as_of=as_of)
    asked = week or Week.of(_newest(years))
    year = _year_of(years, asked)
    facts = week_facts(year, asked)
    if picture is not None:
        card = week_card(year, facts)
        if card is None:
            raise UsageError(f"nothing was weighed by {in_full(facts.last)}, so there is nothing to draw")
        write_new(picture, drawn(card), replace=replace)
    if not html:
        return Answer(text=week_text(year, facts).text + "\n")
    laid = layouts(root)
    findings = list(laid.findings)
    letter = bulletin_letter(year, week_text(year, facts), asked)
    pages = dict(render([letter], Rendering(laid), findings.append))
    if has_errors(findings):
        return Answer(findings=sorted_findings(findings))
    return Answer(text=pages[letter.path].decode())


def _newest(years: Years) -> date:
    """Return the newest day with a record; what was weighed after its season counts to its last day."""
    found = (
        min(one.newest, one.span.last)
        for one in years.garden.seasons
        if one.newest is not None and min(one.newest, one.span.last) <= years.today
    )
    return max(found, default=years.today)


def _year_of(years: Years, week: Week) -> Year:
    """Return the year whose season has a day of the week. Raises UsageError where none has."""
    year = season_of(years, week)
    if year is None:
        if not any(season.newest for season in years.garden.seasons):
            raise UsageError("nothing is on record yet, so there is no week to tell of")
        raise UsageError(
            f"no season has a day of week {week} up to {in_full(years.today)}, the newest day on record"
        )
    return year
