"""A bed's month in a table: who held which squares, in order, and what changed."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from tallybed.garden.days import without_year
from tallybed.garden.squares import Bed, Square, in_words
from tallybed.pages.frame import addresses
from tallybed.pages.frame.page import Link
from tallybed.pages.tables.planting_tables import change_details
from tallybed.pages.tables.tables import Cell, Row, Table, heads, link, text, without_empty_columns
from tallybed.pages.wording import names
from tallybed.pages.wording.sentences import END_SUPPOSED, days_words
from tallybed.reckoning.calendar.changes import Change
from tallybed.reckoning.calendar.month import BedMonth, Holder
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.squares.occupancy import Grade
from tallybed.reckoning.year import Year, Years


@dataclass(frozen=True, slots=True, kw_only=True)
class HolderRow:
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
    holders: tuple[HolderRow, ...]


def groups(years: Years, bed: Bed, month: BedMonth, plantings: dict[str, Planting]) -> Iterator[SquareGroup]:
    """Yield squares whose month was the same, in the order of the first square of each."""
    held: dict[Square, list[Holder]] = {square: [] for square in bed.squares}
    for holder in (*month.ended, *month.holders):
        held[holder.square].append(holder)
    alike: dict[tuple[tuple[object, ...], ...], list[Square]] = {}
    for square, holders in held.items():
        alike.setdefault(tuple(_likeness(holder) for holder in holders), []).append(square)
    for squares in alike.values():
        turns = zip(*(held[square] for square in squares), strict=True)
        rows = tuple(_holder(years, month, turn, plantings) for turn in turns)
        yield SquareGroup(squares=in_words(squares, with_bed=False), holders=rows)


def _likeness(holder: Holder) -> tuple[object, ...]:
    """Return what squares must have alike to share a row."""
    return (
        holder.planting,
        holder.first,
        holder.last,
        holder.grade,
        holder.stage,
        holder.share,
        holder.plants is None,
        holder.why,
        holder.end,
    )


def _holder(
    years: Years, month: BedMonth, holders: tuple[Holder, ...], plantings: dict[str, Planting]
) -> HolderRow:
    """Return one turn of squares that are alike; their plants are counted together."""
    holder = holders[0]
    whole = holder.first == month.first and holder.last == month.last
    days = "all month" if whole else days_words(holder.first, holder.last)
    if holder in month.ended:
        return HolderRow(
            name=names.listed_planting(years.garden, plantings[holder.planting]),
            days=f"until {without_year(holder.last)}",
            plants="",
            notes=(),
            stage=holder.stage.value,
            grade=END_SUPPOSED,
        )
    stage = f"{holder.stage.value}: {holder.why}" if holder.why else holder.stage.value
    notes = [] if holder.share == 1 else [f"{holder.share} of each square"]
    return HolderRow(
        name=names.listed_planting(years.garden, plantings[holder.planting]),
        days=days,
        plants=_plants(month, holders),
        notes=tuple(notes),
        stage=stage,
        grade=_known(holder),
    )


def _known(holder: Holder) -> str:
    """Return how it is known that it stood there, and where its end is not, or is still to come."""
    if holder.end is Grade.SUPPOSED and holder.grade < Grade.SUPPOSED:
        return f"{holder.grade.word}; {END_SUPPOSED}"
    if holder.ends and holder.end is None and holder.grade < Grade.PLANNED:  # it stands yet
        return f"{holder.grade.word}; its end planned"
    return holder.grade.word


def _plants(month: BedMonth, holders: tuple[Holder, ...]) -> str:
    """Return how many plants stand in squares that are alike; where they stand, if in others of the planting.

    A crop wider than a square holds squares that none of its plants is rooted in.
    """
    counts = [one.plants for one in holders if one.plants is not None]
    if not counts:
        return "not counted"
    if sum(counts):
        return f"{sum(counts):,}"
    holder = holders[0]
    alike = (one for one in month.holders if one.planting == holder.planting and one.plants)
    squares = [one.square for one in alike if one.first <= holder.last and holder.first <= one.last]
    return f"rooted in {in_words(squares, with_bed=False)}" if squares else "0"


def _visit(year: Year, day: date, planting: Planting) -> str:
    """Return the page of the visit on a day that worked on a planting; empty for none."""
    for entry in year.entries:
        about = (one.key for event in entry.done for one in year.plantings_of.get(event, ()))
        if entry.day == day and planting.key in about:
            return addresses.entry(year, entry)
    return ""


def changes_table(year: Year, month: BedMonth, plantings: dict[str, Planting]) -> Table:
    """Return what changed in a bed within a month; a day leads to the visit that worked on the planting."""

    def row(change: Change) -> Row:
        return Row(
            cells=(
                Cell(text=without_year(change.day), to=_visit(year, change.day, plantings[change.planting])),
                text(change.what, "; ".join(filter(None, (change_details(year, change), change.grade.word)))),
                link(
                    names.listed_planting(year.garden, plantings[change.planting]),
                    in_words(change.squares, with_bed=False),
                ),
            ),
            mark="planned" if change.grade.word == "planned" else "",
        )

    return without_empty_columns(
        Table(
            ident="changes",
            caption=f"Changes in {month.month}",
            heads=heads("Day", "Change, and how known", "Planting"),
            rows=tuple(row(change) for change in month.changes),
        )
    )
