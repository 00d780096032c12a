"""A season held against ordinary rows: the answer, by rule, and all that it stands on."""

from __future__ import annotations

from collections.abc import Iterator

from tallybed.pages.frame import addresses
from tallybed.pages.frame.other_seasons import seasons_beside
from tallybed.pages.frame.page import Link, Page
from tallybed.pages.frame.trails import below_season
from tallybed.pages.frame.which_pages import has_ledger
from tallybed.pages.rows.answer import NO_ANSWER, SHORT, TITLE, answer_part, answer_sentence
from tallybed.pages.rows.between import between_part
from tallybed.pages.rows.crops import crops_part
from tallybed.pages.rows.effort import effort_parts
from tallybed.pages.rows.gardens import gardens_part
from tallybed.pages.rows.money import money_part
from tallybed.pages.rows.parts import Citations, RowsPart
from tallybed.pages.rows.plantings import plantings_part
from tallybed.pages.rows.rules import rules_part
from tallybed.pages.rows.squares import squares_part
from tallybed.reckoning.rows.season import answer
from tallybed.reckoning.year import Year


def pages(year: Year) -> Iterator[Page]:
    """Yield the page of a season that has a ledger."""
    if has_ledger(year):
        yield _page(year)


def _page(year: Year) -> Page:
    """Return a season beside rows as a page."""
    found, citations = answer(year), Citations()
    verdict = f"{SHORT[found.verdict]}." if found else NO_ANSWER
    said = answer_sentence(year, found) if found else ""
    parts = tuple(_parts(year, citations))
    return Page(
        path=addresses.rows(year),
        template="rows.html",
        title=f"{TITLE[:-1]}, {year.name}?",
        description=f"{verdict} {said}",
        kind="rows",
        data={
            "trail": below_season(year, here="Beside rows"),
            "verdict": verdict,
            "said": said,
            "parts": parts,
            "sources": citations.cited(year.garden),
            **seasons_beside(year, _link),
        },
    )


def _link(year: Year) -> Link | None:
    """Return the link to a season beside rows; None where it has no such page."""
    return Link(f"{TITLE} {year.name}", addresses.rows(year)) if has_ledger(year) else None


def _parts(year: Year, citations: Citations) -> Iterator[RowsPart]:
    """Yield the sections of the page, in order."""
    found = answer(year)
    printed = found is not None and bool(found.rows.crops)
    if found is not None:
        if printed:
            yield answer_part(year, found)
        yield crops_part(year, found, citations)
    dots = plantings_part(year)
    if dots is not None:
        yield dots
    if printed or dots is not None:
        yield rules_part()
    if found is not None:
        if found.grounds:
            yield gardens_part(year, found, citations)
        squares = squares_part(year)
        if squares is not None:
            yield squares
    yield from effort_parts(year, citations)
    spent = money_part(year, citations)
    if spent is not None:
        yield spent
    between = between_part(year)
    if between is not None:
        yield between
