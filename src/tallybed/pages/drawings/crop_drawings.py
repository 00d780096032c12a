"""The drawings of a crop's page: its year here, its spacing, and what it gave beside rows."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date

from markupsafe import Markup

from tallybed.drawing.crops.gave import GaveDot, PrintedRange, gave_chart
from tallybed.drawing.crops.key import year_signs
from tallybed.drawing.crops.printed_days import PrintedDays
from tallybed.drawing.crops.spacing import spacing_sketch
from tallybed.drawing.crops.year import Did, PlantingLine, crop_year
from tallybed.garden.crops import Crop
from tallybed.garden.days import Month, Span, short
from tallybed.garden.records.plan import Start
from tallybed.garden.squares import in_words
from tallybed.garden.units import rounded
from tallybed.pages.care.advised import moved, on_axis
from tallybed.pages.drawings.charts import Chart, both
from tallybed.pages.drawings.kept import kept_drawing
from tallybed.pages.rows.parts import per_area, per_area_in
from tallybed.pages.rows.plantings import known
from tallybed.pages.wording.apart import distance, square_sides
from tallybed.pages.wording.sentences import counted, days_words
from tallybed.reckoning.beds import histories_of
from tallybed.reckoning.calendar.history import PlantingHistory
from tallybed.reckoning.calendar.milestones import FIRST_PICKED, GONE, RESOWN, SET_OUT, SOWN, SOWN_INDOORS
from tallybed.reckoning.calendar.stages import Stage
from tallybed.reckoning.rows.planting_yields import PlantingYield
from tallybed.reckoning.rows.season import printed_yields
from tallybed.reckoning.year import Year, Years

MOST_LINES = 16
"""Lines of the drawing at the most: whole seasons, the newest first, and one of them at the least."""
NOTHING = "nothing on record here"
_SIGNS = {SOWN_INDOORS: Stage.SOWN, SOWN: Stage.SOWN, RESOWN: Stage.SOWN, SET_OUT: Stage.GROWING}
_WEIGHTS = {SOWN: 0, SET_OUT: 0, FIRST_PICKED: 1, SOWN_INDOORS: 2, RESOWN: 4}


@dataclass(frozen=True, slots=True, kw_only=True)
class YearDrawing:
    """A crop's year here."""

    chart: Chart
    signs: tuple[tuple[Markup, str], ...]
    """Swatches and words of the key below it: of what it shows, and of nothing else."""


def year_drawing(years: Years, crop: Crop, advised: tuple[PrintedDays, ...]) -> YearDrawing | None:
    """Return a crop's year here, over what is advised; None where there is neither."""
    year = years.foremost
    if year is None:
        return None
    lines = _lines(years, year, crop)
    if not lines and not advised:
        return None
    days = on_axis(advised, year.season.span)
    span = _axis(year.season.span, lines, days)

    def drawn(narrow: bool, name: str) -> str:
        return kept_drawing(
            years,
            crop_year,
            lines,
            days,
            span,
            ident=name,
            title=f"The year of {crop.plural} in {years.garden.name}",
            nothing=NOTHING,
            narrow=narrow,
        )

    # Drawings escape their own texts.
    signs = tuple((Markup(sign), words) for sign, words in year_signs(lines, days))  # noqa: S704
    return YearDrawing(chart=both(drawn, "c-year"), signs=signs)


def _lines(years: Years, year: Year, crop: Crop) -> tuple[PlantingLine, ...]:
    """Return the plantings of a crop, the newest season first, each season's by its days."""
    found: list[PlantingLine] = []
    for one in reversed(years.all):
        own = [planting for planting in one.plantings if one.crop_of(planting) is crop]
        lines = [line for planting in own if (line := _line(year, one, histories_of(one)[planting.key]))]
        if found and len(found) + len(lines) > MOST_LINES:
            break
        found += sorted(lines, key=lambda line: (min(_days(line)), line.name))
    return tuple(found)


def _line(year: Year, own: Year, history: PlantingHistory) -> PlantingLine | None:
    """Return one planting with its days moved to the season that a visitor means; None without a day."""
    planting = history.planting
    by = year.season.span.first.year - own.season.span.first.year
    firsts = {one.what: one.day for one in reversed(history.milestones)}
    indoors = firsts.get(SOWN_INDOORS)
    first = min((hold.first for hold in history.holds), default=None)
    last = max((hold.last for hold in history.holds), default=None)
    if planting.planned and planting.planned.start is Start.CARRIED and first is not None:
        first = min(first, own.season.span.first)
    picked = tuple(sorted({one.day for one in planting.weighings}))
    did = [
        Did(day=moved(day, by), sign=_SIGNS[what], weighty=_WEIGHTS[what])
        for what, day in firsts.items()
        if what in _SIGNS
    ]
    did += [Did(day=moved(picked[0], by), sign=Stage.BEARING, weighty=1)] if picked else []
    if first is None and not did:
        return None
    past = None if first is None or last is None or first > own.today else min(last, own.today)
    return PlantingLine(
        season=own.name,
        name=_named(history),
        indoors=_moved(indoors if indoors and indoors <= own.today else None, by),
        first=_moved(first, by),
        past=_moved(past, by),
        last=_moved(last, by),
        away=tuple(Span(first=moved(one.first, by), last=moved(one.last, by)) for one in history.away),
        did=tuple(sorted(did, key=lambda one: one.day)),
        picked=tuple(moved(day, by) for day in picked),
        gone=history.gone is not None,
        lost=_lost(history),
        told=_told(own, history, picked, first, last),
    )


def _named(history: PlantingHistory) -> str:
    """Return what tells a planting apart from others of its crop: its tag, else its squares."""
    squares = sorted({hold.square for hold in history.holds})
    return history.planting.tag or in_words(squares, with_bed=False) or "·"


def _lost(history: PlantingHistory) -> bool:
    """Return whether the planting ended in a loss."""
    if history.gone is None:
        return False
    ends = {one.what for one in history.milestones if one.day == history.gone and one.what in GONE}
    return bool(ends) and ends <= {"lost", "failed"}


def _told(
    own: Year, history: PlantingHistory, picked: tuple[date, ...], first: date | None, last: date | None
) -> str:
    """Return one line in words; what is still to come is planned."""
    parts = [
        f"{one.what} {short(one.day)}{' (planned)' if one.day > own.today else ''}"
        for one in history.milestones
        if one.what in _SIGNS
    ]
    if picked:
        parts.append(f"{counted(len(picked), 'day')} of picking, {days_words(picked[0], picked[-1])}")
    if first and last:
        gone = history.gone or last
        planned = "(planned)" if first > own.today else "(its end planned)" if gone > own.today else ""
        away = "".join(f", not {days_words(one.first, one.last)}" for one in history.away)
        parts.append(f"in the bed {days_words(first, gone)}{away} {planned}".rstrip())
    if _lost(history):
        parts.append("lost")
    return f"{own.name}, {_named(history)}: {', '.join(parts)}"


def _moved(day: date | None, by: int) -> date | None:
    """Return a day moved by so many years, or None."""
    return None if day is None else moved(day, by)


def _days(line: PlantingLine) -> Iterator[date]:
    yield from (day for day in (line.indoors, line.first, line.last) if day)
    yield from (did.day for did in line.did)


def _axis(span: Span, lines: Iterable[PlantingLine], advised: Iterable[PrintedDays]) -> Span:
    """Return the days of the axis: the season, and the months about it that anything lies in."""
    days = [span.first, span.last, *(day for line in lines for day in _days(line))]
    days += [day for one in advised for day in (one.first, one.last)]
    first, last = min(days), max(days)
    return Span(
        first=Month.of(first).first if first < span.first else span.first,
        last=Month.of(last).last if last > span.last else span.last,
    )


def spacing_drawing(years: Years, crop: Crop) -> Markup | None:
    """Return a crop's spacing as a sketch; None where spacing or habit are not told."""
    if not crop.spacing or crop.habit is None:
        return None
    showing, (side, *_others) = years.garden.showing, square_sides(years.present)
    drawn = spacing_sketch(
        crop.spacing,
        side,
        crop.habit,
        ident="spacing",
        apart=distance(showing, crop.spacing),
        square=showing.length(side),
    )
    return Markup(drawn)  # noqa: S704 -- drawings escape their own texts


def gave_drawing(years: Years, crop: Crop) -> Chart | None:
    """Return what a crop gave beside what is printed for rows; None where one of the two is not known."""
    printed, plantings = printed_yields(years).get(crop.slug), known(years, crop.slug)
    if printed is None or not plantings:
        return None
    showing = years.garden.showing
    names = [year.name for year in reversed(years.all)]
    found = ((name, tuple(_dot(years, one) for one in plantings if one.season == name)) for name in names)
    seasons = tuple((name, dots) for name, dots in found if dots)
    low, middle, high = (per_area_in(showing, one) for one in (printed.low, printed.middle, printed.high))
    told = "; ".join(f"{name}: {', '.join(map(_dot_words, dots))}" for name, dots in seasons)

    def drawn(narrow: bool, name: str) -> str:
        return gave_chart(
            seasons,
            PrintedRange(low=low, middle=middle, high=high),
            unit=showing.per_area_unit,
            ident=name,
            title=f"What {crop.plural} gave beside what is printed for rows",
            told=f"Printed for rows: {per_area(showing, printed.low)} to {per_area(showing, printed.high)} "
            f"{showing.per_area_unit}. {told}.",
            narrow=narrow,
        )

    return both(drawn, "c-gave")


def _dot(years: Years, one: PlantingYield) -> GaveDot:
    """Return one planting’s dot."""
    value = per_area_in(years.garden.showing, one.like_for_like)
    return GaveDot(value=value, open=one.at_least or not one.ended)


def _dot_words(dot: GaveDot) -> str:
    """Return what one planting gave: ``at least 0.41``."""
    return f"{'at least ' if dot.open else ''}{rounded(dot.value, 2)}"
