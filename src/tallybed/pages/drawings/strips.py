"""Season strips as pages hold them: each twice, with the same facts in a table, and a key."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from markupsafe import Markup

from tallybed.drawing.base.flags import Flag
from tallybed.drawing.bedmap.view import letters_of
from tallybed.drawing.season.key import season_key
from tallybed.drawing.season.strip import season_strip
from tallybed.garden.crops import kind_after
from tallybed.garden.days import without_year
from tallybed.garden.squares import Bed, Square, in_words
from tallybed.pages.drawings.charts import Chart, both
from tallybed.pages.drawings.kept import kept_drawing
from tallybed.pages.drawings.maps import LegendRow, legend_row
from tallybed.pages.frame import addresses
from tallybed.pages.frame.relative import relative
from tallybed.pages.story.flags import flags_of
from tallybed.pages.tables.tables import Cell, Row, Table, heads, link, text, without_empty_columns
from tallybed.pages.wording import names
from tallybed.pages.wording.dated import in_season
from tallybed.pages.wording.sentences import days_words
from tallybed.reckoning.beds import strips_of
from tallybed.reckoning.calendar.phases import Phase
from tallybed.reckoning.calendar.strips import PlantingStrip
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.squares.occupancy import Grade, Holding
from tallybed.reckoning.year import Year


@dataclass(frozen=True, slots=True, kw_only=True)
class StripDrawing:
    """A bed's season drawn for wide pages and for narrow ones, and told in a table."""

    title: str
    to: str
    wide: Markup
    narrow: Markup
    table: Table


@dataclass(frozen=True, slots=True, kw_only=True)
class Strips:
    """The strips of all beds, and what their signs mean."""

    beds: tuple[StripDrawing, ...]
    signs: tuple[LegendRow, ...]
    letters: tuple[tuple[str, str], ...]
    """The letters of crops and the crops they stand for, by their letters."""


def season_strips(year: Year, here: str) -> Strips | None:
    """Return who held what when in a season, for the page ``here``; None where nothing is known of it."""
    by_bed = {bed: own for bed in year.garden.beds if (own := strips_of(year, bed))}
    if not by_bed:
        return None
    every = [one for own in by_bed.values() for one in own]
    return Strips(
        beds=tuple(_of_bed(year, bed, own, here) for bed, own in by_bed.items()),
        signs=tuple(map(legend_row, season_key(every, ident="key"))),
        letters=tuple(sorted({(letters_of(one), kind_after(one.name, one.kind)) for one in every})),
    )


def _of_bed(year: Year, bed: Bed, own: tuple[PlantingStrip, ...], here: str) -> StripDrawing:
    """Return the strip of one bed for the page ``here``."""
    title = f"{in_season(year)}: who held each square, week by week"
    drawn = _drawn(year, bed, own, title, _links(year.holding, own, here), flags_of(year, here, bed))
    return StripDrawing(
        title=bed.title,
        to=addresses.bed(year, bed),
        wide=drawn.wide,
        narrow=drawn.narrow,
        table=_table(year, bed, own),
    )


def strips_of_planting(year: Year, planting: Planting) -> tuple[Chart, ...]:
    """Return the strip of one planting in its squares alone, bed by bed; none where it has no square."""
    return tuple(_alone(year, planting))


def _alone(year: Year, planting: Planting) -> Iterator[Chart]:
    """Yield a planting's strip in each bed it stands in, without the other squares."""
    for bed in year.garden.beds:
        one = next((strip for strip in strips_of(year, bed) if strip.planting == planting.key), None)
        if one:
            held = {each.square for each in one.courses} | {each.square for each in one.meant}
            part = replace(bed, omitted=bed.omitted | (frozenset(bed.squares) - held))
            words = f"{in_season(year)}: {names.planting_words(year.garden, planting)}, week by week"
            yield _drawn(year, part, (one,), words, {})


def _links(holding: Holding, own: Iterable[PlantingStrip], here: str) -> dict[str, str]:
    """Return where each planting leads from the page ``here``."""
    return {one.planting: relative(here, addresses.planting(holding.planting(one.planting))) for one in own}


def _drawn(
    year: Year,
    bed: Bed,
    own: tuple[PlantingStrip, ...],
    title: str,
    links: Mapping[str, str],
    flags: tuple[Flag, ...] = (),
) -> Chart:
    """Return a bed's strip, for wide pages and narrow ones."""
    holding = year.holding

    def strip(narrow: bool, ident: str) -> str:
        return kept_drawing(
            year.years,
            season_strip,
            bed,
            holding.span,
            own,
            ident=ident,
            title=f"{bed.title} {title}",
            links=links,
            flags=flags,
            today=holding.today if holding.today >= holding.span.first else None,
            narrow=narrow,
        )

    return both(strip, f"strip-{bed.name}")


def _table(year: Year, bed: Bed, own: Sequence[PlantingStrip]) -> Table:
    """Return what a bed's strip shows as a table."""
    rows = [row for one in sorted(own, key=_first) for row in _rows(year, bed, one)]
    return without_empty_columns(
        Table(
            ident=f"strip-{bed.name}-table",
            caption=f"{bed.title}: who held each square, by the day it came",
            heads=heads("Planting", "Squares", "Days", "Stages", "How known", "Meant by the plan"),
            rows=tuple(rows),
        )
    )


def _first(planting_strip: PlantingStrip) -> tuple[date, str]:
    """Return what strips are put in order by: their first day, then their planting."""
    days = [one.first for one in planting_strip.courses] + [one.first for one in planting_strip.meant]
    return min(days), planting_strip.planting


def _rows(year: Year, bed: Bed, planting_strip: PlantingStrip) -> Iterable[Row]:
    """Yield a row for each group of squares that a planting had in the same way; one at the least."""
    name = names.listed_planting(year.garden, year.holding.planting(planting_strip.planting))
    alike: dict[tuple[tuple[Phase, ...], bool], list[Square]] = {}
    for course in planting_strip.courses:
        alike.setdefault((course.phases, course.lost), []).append(course.square)
    meant = _meant_words(year.holding, bed, planting_strip)
    if not alike:
        yield Row(cells=(link(name), *(Cell(),) * 4, text(meant)))
    for (phases, lost), squares in alike.items():
        yield Row(
            cells=(
                link(name),
                text(in_words(squares, with_bed=False)),
                text(days_words(phases[0].first, phases[-1].last)),
                text(_stages(phases, lost)),
                text(_grades(phases)),
                text(meant),
            ),
            mark="planned" if phases[0].grade is Grade.PLANNED else "",
        )


def _stages(phases: Iterable[Phase], lost: bool) -> str:
    """Return ``sown 21 March, growing 4 April``, and how it ended if it was lost."""
    parts = []
    last = None
    for phase in phases:
        if phase.stage is not last:
            parts.append(f"{phase.stage.value} {without_year(phase.first)}")
        last = phase.stage
    return ", ".join([*parts, *(["lost"] if lost else [])])


def _grades(phases: Iterable[Phase]) -> str:
    """Return ``implied, planned from 15 September``."""
    parts: list[str] = []
    last = None
    for phase in phases:
        if phase.grade is not last:
            parts.append(phase.grade.word + (f" from {without_year(phase.first)}" if parts else ""))
        last = phase.grade
    return ", ".join(parts)


def _meant_words(holding: Holding, bed: Bed, planting_strip: PlantingStrip) -> str:
    """Return what the plan meant for a planting in a bed, for the whole season."""
    if holding.today < holding.span.first:
        return ""
    alike: dict[tuple[date, date], list[Square]] = {}
    for hold in holding.by_plan:
        if hold.planting == planting_strip.planting and hold.square.bed == bed.name:
            alike.setdefault((hold.first, hold.last), []).append(hold.square)
    parts = [
        f"{in_words(squares, with_bed=False)}, {days_words(first, last)}"
        for (first, last), squares in alike.items()
    ]
    return "; ".join(parts)
