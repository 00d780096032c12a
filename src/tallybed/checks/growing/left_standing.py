"""What still stood as a season ended, held against the plan of the next one."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import timedelta

from tallybed.checks.results import CheckResult, advice, called, is_overdue
from tallybed.garden.crops import Crop
from tallybed.garden.findings import Place, joined
from tallybed.garden.records.log import STARTING
from tallybed.garden.records.plan import Start
from tallybed.garden.squares import Square, in_words
from tallybed.reckoning.calendar.windows.freeze import nearest_fall
from tallybed.reckoning.calendar.windows.winter import LASTING, planted_before_winter
from tallybed.reckoning.onward import stood_at_end
from tallybed.reckoning.plantings.drafts import takes_all
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.sun.position import is_tropical
from tallybed.reckoning.year import Year

NAMED = 3
"""Plantings of crops of one year that are told each by itself, at the most."""
ONE_WINTER = timedelta(days=366)
"""Days between two seasons up to which other crops than lasting ones may stand from one to the next."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Left:
    """A planting that still stood, in squares of which the next season does not tell what became of it."""

    name: str
    row: str
    """The row that carries it on."""
    squares: frozenset[Square]
    lasts: bool
    planned: bool

    @property
    def there(self) -> str:
        """What it is and where: ``KA1 (kale) in b/A1:A2``."""
        return f"{self.name} in {in_words(self.squares)}"


def not_carried_on(year: Year) -> Iterator[CheckResult]:
    """Find what stood as the season before ended, and is neither written gone nor in the season's plan.

    Its squares count as free, whatever grows there. An `until:` of the plan says that it went; but what
    lasts, or went in for the next year, does not go because a season has its last day. Of a gardener who
    does not log how crops of one year end, all of these are told at once.
    """
    before = year.beside(-1)
    if before is None or not year.season.plan:
        return
    left = tuple(_left(before, year))
    annual = [one for one in left if not one.lasts]
    if len(annual) > NAMED:
        left = tuple(one for one in left if one.lasts)
        named = [*(one.there for one in annual[:NAMED]), f"{len(annual) - NAMED} more"]
        found = f"{len(annual)} plantings still stand as {before.name} ends, by its plan and log, and nothing"
        yield _told(
            year,
            f"{found} here carries them on, so their squares count as free: {joined(named, 'and')}",
            annual[0],
            f"add those that are there; log what went with `clear` or `lost` in {before.name},"
            " or say `until:` in its plan",
        )
    for one in left:
        gone = f"or, if it went, log that with `clear` or `lost` in {before.name}"
        yield _told(
            year,
            f"{one.name} still stands in {in_words(one.squares)} as {before.name} ends, by its plan and log,"
            " and nothing here carries it on, so those squares count as free",
            one,
            f"add it; {gone}, or say `until:` in its plan"
            if one.planned and not one.lasts
            else f"add it; {gone}",
        )


def _told(year: Year, found: str, such: Left, remedy: str) -> CheckResult:
    """Return the finding, at the head of the plan that lacks the plantings."""
    place = Place(next(iter(year.season.plan or ())).place.file)
    return None, advice(
        place, "not-carried-on", found, expected=f"a row such as {{{such.row}}}", remedy=remedy
    )


def _left(before: Year, year: Year) -> Iterator[Left]:
    """Yield what stood as a season ended, and of which the next does not tell what became of it."""
    ends = {one.key: stood_at_end(before, one) for one in before.plantings}
    for planting in before.plantings:
        crop = before.crop_of(planting)
        if crop is None or not ends[planting.key] or is_overdue(before, planting):
            continue
        lasts = _lasts(before, planting, crop)
        if not lasts and (_ends_by_plan(planting) or not _lives_on(before, year, planting, crop)):
            continue
        alike = [ends[one.key] for one in before.plantings if one.crop.slug == crop.slug]
        if _carried_elsewhere(year, crop, frozenset().union(*alike)):
            continue  # told as not there before
        squares = ends[planting.key] - _spoken_for(year, planting, lasts=lasts)
        if squares:
            yield Left(
                name=called(before, planting),
                row=_row(before, planting, crop, squares),
                squares=squares,
                lasts=lasts,
                planned=planting.planned is not None,
            )


def _row(before: Year, planting: Planting, crop: Crop, squares: frozenset[Square]) -> str:
    """Return the row of a plan that carries a planting on, without its braces."""
    where = in_words(squares)
    told = f"[{where}]" if "," in where else where
    tag = f"tag: {planting.tag}, " if planting.tag else ""
    since = planting.planned.carried_from if planting.planned else ""
    return f"crop: {crop.written}, {tag}squares: {told}, carried from: {since or before.name}"


def _lasts(before: Year, planting: Planting, crop: Crop) -> bool:
    """Return whether a planting stays for years, or went in for the next year and gives nothing before."""
    if crop.slug in LASTING:
        return True
    row = planting.planned
    begun = planting.begun or (row.begins if row else None)
    wintered = planted_before_winter(crop, before.garden.freezes, begun) if begun else None
    return wintered is not None and wintered.whole and wintered.first > before.season.span.last


def _ends_by_plan(planting: Planting) -> bool:
    """Return whether the plan says when a planting goes."""
    return planting.planned is not None and planting.planned.until_told


def _lives_on(before: Year, year: Year, planting: Planting, crop: Crop) -> bool:
    """Return whether what stood as a season ended may live as the next begins: no freeze has killed it.

    Where nobody told when it freezes, what is tender dies in winter but between the tropics.
    """
    first = year.season.span.first
    if first - before.season.span.last > ONE_WINTER:
        return False
    if not crop.is_tender:
        return True
    begun = min(hold.first for hold in before.holding.of_planting(planting.key))
    near = (begun, before.season.span.last, first)
    falls = [fall for fall in (nearest_fall(year.garden.freezes, day) for day in near) if fall]
    if not falls:
        return is_tropical(year.garden.latitude)
    return not any(begun <= fall.middle < first for fall in falls)


def _carried_elsewhere(year: Year, crop: Crop, stood: frozenset[Square]) -> bool:
    """Return whether the plan carries a crop on in squares none of which it stood in."""
    rows = [row for _planting, row in year.planned if row.crop == crop.slug and row.start is Start.CARRIED]
    return any(stood.isdisjoint(row.squares) for row in rows)


def _spoken_for(year: Year, planting: Planting, *, lasts: bool) -> frozenset[Square]:
    """Return the squares of which a season tells what became of a planting that stood there before it.

    It does where it plans or begins the crop, carried on or anew, or ends it, and where something else was
    begun. What does not last has gone too where something else is planned before a square may be called
    idle. Records that find it there are of no planting that the season knows.
    """
    found: set[Square] = {square for bed in year.garden.elsewhen for square in bed.squares}
    soon = year.season.span.first + timedelta(days=year.garden.idle)
    for later in year.plantings:
        row, same = later.planned, planting.crop.slug in later.crop.slugs
        if same and (row or later.begun):
            found |= later.squares
        for event, squares in later.lines:
            if event.verb in STARTING:
                found.update(squares or later.squares)
            elif same and takes_all(event):
                found.update(squares or planting.squares)
        if not lasts and row and row.dropped is None and row.begins <= soon:
            found.update(row.squares)
    return frozenset(found)
