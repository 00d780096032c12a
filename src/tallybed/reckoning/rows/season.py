"""A season beside ordinary rows: everything of it that follows from a Year, kept with the Year."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from tallybed.reckoning.beds import histories_of
from tallybed.reckoning.harvest.areas import Ground
from tallybed.reckoning.onward import goes_on, later_plantings
from tallybed.reckoning.rows.land import Range, RowGround, row_ground
from tallybed.reckoning.rows.planting_yields import PlantingYield, by_crop, planting_yields
from tallybed.reckoning.rows.printed import Printed, printed
from tallybed.reckoning.rows.verdicts import Verdict, of_crop, of_season
from tallybed.reckoning.year import Year, Years


@dataclass(frozen=True, slots=True, kw_only=True)
class RowAnswer:
    """What may be said of a season beside ordinary rows, up to a day."""

    rows: RowGround
    grounds: tuple[Ground, ...]
    """The areas the weight may be told over, as many as the garden tells; the last is like the rows' own.

    None where nobody told what ground the weight came from.
    """
    verdict: Verdict

    @property
    def ground(self) -> Ground | None:
        """The like-for-like ground: squares, run-outs and share of path together; None where not known."""
        return self.grounds[-1] if self.grounds else None

    @property
    def equivalents(self) -> tuple[tuple[Ground, Range], ...]:
        """The sum of partial land equivalents over each of the grounds."""
        return tuple((one, self.rows.equivalents(one.square_feet)) for one in self.grounds)


def printed_yields(years: Years) -> Mapping[str, Printed]:
    """Return the printed row yields of the garden's crops, by slug."""

    def found() -> Mapping[str, Printed]:
        """Read the printed yields off the crops."""
        every = ((crop.slug, printed(crop)) for crop in years.garden.crops)
        return {slug: one for slug, one in every if one is not None}

    return years.kept("printed row yields", found)


def answer(year: Year, until: date | None = None) -> RowAnswer | None:
    """Return the answer of a season up to and with a day (by default all of it).

    None where nothing was weighed, or the garden has no squares.
    """
    return year.kept(("beside rows", until), lambda: _answer(year, until))


def _answer(year: Year, until: date | None) -> RowAnswer | None:
    """Reckon the answer of a season."""
    found = row_ground(year.lines, printed_yields(year.years), until)
    if not found.weight or not year.garden.square_feet:
        return None
    own = year.grounds
    over = year.is_over if until is None else year.season.span.last <= until
    verdict = Verdict.UNKNOWN
    if own:
        verdict = of_season(
            found.square_feet, own[-1].square_feet, found.share, over=over, at_least=found.at_least
        )
    return RowAnswer(rows=found, grounds=own, verdict=verdict)


def yields(year: Year) -> tuple[PlantingYield, ...]:
    """Return what each planting of a season gave for its ground, by key."""
    return year.kept("planting yields", lambda: _yields(year))


def _yields(year: Year) -> tuple[PlantingYield, ...]:
    """Reckon the yields of a season’s plantings."""
    later = tuple(later_plantings(year))
    return planting_yields(
        year.garden,
        year.season,
        histories_of(year).values(),
        year.lines,
        over=year.is_over,
        carried_on=frozenset(
            one.key
            for one in year.plantings
            if any(goes_on(year, one, other, another) for other, another in later)
        ),
        today=year.today,
    )


def crop_yields(years: Years) -> Mapping[str, tuple[PlantingYield, ...]]:
    """Return the plantings of all seasons by crop slug; within a crop by season, then key."""
    return years.kept("plantings by crop", lambda: by_crop(one for year in years.all for one in yields(year)))


def crop_verdict(years: Years, slug: str) -> Verdict | None:
    """Return what may be said of a crop over all seasons; None where no row yield of it is printed."""
    known = printed_yields(years).get(slug)
    return of_crop(crop_yields(years).get(slug, ()), known) if known else None


def same_day(year: Year, today: date) -> date | None:
    """Return the day of a season with the month and day of ``today``; its last one if later.

    None where the season has not begun by then: one over new year has ended before it begins, in any
    year. 29 February is 28 February where there is none. ``today`` is told, for a season whose books are
    closed is itself never seen from later than its own end.
    """
    span = year.season.span
    if today in span:
        return today
    there = span.day_of(today.month, today.day) or span.day_of(2, 28)  # no 29 February there
    over_new_year = span.first.year < span.last.year
    before = (today.month, today.day) < (span.first.month, span.first.day) and not over_new_year
    if there is not None and there in span:
        return there
    return None if before else span.last
