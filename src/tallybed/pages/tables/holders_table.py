"""A bed's month in a table: who held which squares, in order, and what changed."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from tallybed.garden.days import without_year
from tallybed.garden.squares import Bed, Square, in_words
from tallybed.pages.frame import addresses
from tallybed.pages.frame.page import Link
from tallybed.pages.frame.site import SeasonView, Site
from tallybed.pages.tables.tables import Cell, Row, Table, heads, link, text, without_empty_columns
from tallybed.pages.wording import names
from tallybed.pages.wording.sentences import days_words, figured
from tallybed.reckoning.calendar.month import BedMonth, Change, Segment
from tallybed.reckoning.plantings.plantings import Stand


@dataclass(frozen=True, slots=True, kw_only=True)
class Holder:
    """Who held some squares for some days of the month."""

    name: Link
    days: str
    plants: str
    """In all the squares together; ``not counted``; or where they are rooted, if in none of these."""
    notes: tuple[str, ...]
    """The part of each square it has, where it shares them."""
    stage: str
    grade: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SquareGroup:
    """Squares whose month was alike, and their holders in order."""

    squares: str
    holders: tuple[Holder, ...]


def groups(site: Site, bed: Bed, month: BedMonth, stands: dict[str, Stand]) -> Iterator[SquareGroup]:
    """Yield squares whose month was the same, in the order of the first square of each."""
    held: dict[Square, list[Segment]] = {square: [] for square in bed.squares}
    for segment in month.segments:
        held[segment.square].append(segment)
    alike: dict[tuple[tuple[object, ...], ...], list[Square]] = {}
    for square, segments in held.items():
        alike.setdefault(tuple(_likeness(segment) for segment in segments), []).append(square)
    for squares in alike.values():
        turns = zip(*(held[square] for square in squares), strict=True)
        holders = tuple(_holder(site, month, segments, stands) for segments in turns)
        yield SquareGroup(squares=in_words(squares, with_bed=False), holders=holders)


def _likeness(segment: Segment) -> tuple[object, ...]:
    return (
        segment.stand,
        segment.first,
        segment.last,
        segment.grade,
        segment.stage,
        segment.share,
        segment.plants is None,
        segment.why,
    )


def _holder(site: Site, month: BedMonth, segments: tuple[Segment, ...], stands: dict[str, Stand]) -> Holder:
    """Return one turn of squares that are alike; their plants are counted together."""
    segment = segments[0]
    whole = segment.first == month.first and segment.last == month.last
    stage = f"{segment.stage.value}: {segment.why}" if segment.why else segment.stage.value
    notes = [] if segment.share == 1 else [f"{segment.share} of each square"]
    return Holder(
        name=names.stand_link(site.garden, stands[segment.stand]),
        days="all month" if whole else days_words(segment.first, segment.last),
        plants=_plants(month, segments),
        notes=tuple(notes),
        stage=stage,
        grade=segment.grade.word,
    )


def _plants(month: BedMonth, segments: tuple[Segment, ...]) -> str:
    """Return how many plants stand in squares that are alike; where they stand, if in others of the planting.

    A crop wider than a square holds squares that none of its plants is rooted in.
    """
    counts = [one.plants for one in segments if one.plants is not None]
    if not counts:
        return "not counted"
    if sum(counts):
        return f"{sum(counts):,}"
    segment = segments[0]
    alike = (one for one in month.segments if one.stand == segment.stand and one.plants)
    squares = [one.square for one in alike if one.first <= segment.last and segment.first <= one.last]
    return f"rooted in {in_words(squares, with_bed=False)}" if squares else "0"


def _change_details(change: Change) -> str:
    parts = []
    if change.plants is not None:
        left = change.what == "thinned"
        parts.append(f"{change.plants:,} left" if left else figured(change.plants, "plant"))
    if change.why:
        parts.append(change.why)
    return "; ".join(parts)


def _visit(view: SeasonView, day: date, stand: Stand) -> str:
    for entry in view.entries:
        about = (one.key for event in entry.done for one in view.stands_of.get(event, ()))
        if entry.day == day and stand.key in about:
            return addresses.entry(view, entry)
    return ""


def changes_table(site: Site, view: SeasonView, month: BedMonth, stands: dict[str, Stand]) -> Table:
    """Return what changed in a bed within a month; a day leads to the visit that worked on the planting."""

    def row(change: Change) -> Row:
        return Row(
            cells=(
                Cell(text=without_year(change.day), to=_visit(view, change.day, stands[change.stand])),
                text(change.what),
                link(names.stand_link(site.garden, stands[change.stand])),
                text(in_words(change.squares, with_bed=False)),
                text(_change_details(change)),
                text(change.grade.word),
            ),
            mark="planned" if change.grade.word == "planned" else "",
        )

    return without_empty_columns(
        Table(
            ident="changes",
            caption=f"Changes in {month.month}",
            heads=heads("Day", "Change", "Planting", "Squares", "Details", "How known"),
            rows=tuple(row(change) for change in month.changes),
        )
    )
