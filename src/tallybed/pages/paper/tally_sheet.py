"""The tally sheet for the clipboard: what stands now, with room to write what is picked."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from tallybed.garden.crops import kind_after
from tallybed.garden.days import in_full
from tallybed.garden.squares import Bed, in_words
from tallybed.pages.drawings.months import shown_month
from tallybed.pages.frame import addresses
from tallybed.pages.frame.page import Page
from tallybed.pages.frame.trails import below_sheets
from tallybed.pages.frame.waits_shown import few, open_notices
from tallybed.pages.frame.which_pages import sheets_season
from tallybed.pages.wording import names
from tallybed.pages.wording.sentences import END_SUPPOSED, full_day
from tallybed.reckoning.beds import month_of
from tallybed.reckoning.calendar.month import DrawnPlanting, over_by_plan
from tallybed.reckoning.calendar.stages import Stage
from tallybed.reckoning.year import Year, Years

SHEETS = 2
"""Sheets of paper that a tally sheet should fill at most."""
ON_A_SHEET = 29
"""Lines for writing on one sheet: 255 mm of paper that both Letter and A4 have between narrow
margins, less headings, in lines of 7.5 mm, which a cold hand can write in. Our choice."""
_HEAD = 90
"""Letters of the garden's name and the day that one line of the sheet's head holds."""
_CELL = 56
"""Letters of a planting and its stage that stand beside one line for writing."""
WAYS = ((3, 2, 1), (2, 2, 1), (2, 1, 1), (1, 1, 1))
"""Lines for a planting that bears, one that grows, one just sown: as many as still fit, from the left."""
ON_A_NOTICE = 2
"""Lines for writing that a notice of what is not to be picked takes the place of, at the most."""
OTHERS = 4
"""Lines for mixed bowls and whatever is not on the sheet."""
FEWEST_NOTES = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetPlanting:
    """A planting that stands, and the lines to write its pickings on."""

    squares: str
    name: str
    stage: str
    lines: int


@dataclass(frozen=True, slots=True, kw_only=True)
class BedPart:
    """A bed's plantings, in the order of their squares."""

    title: str
    standing: tuple[SheetPlanting, ...]


def pages(years: Years) -> Iterator[Page]:
    """Yield the tally sheet of the season that a visitor means; none without a bed or a season."""
    year = sheets_season(years)
    if year:
        yield _page(year)


def _page(year: Year) -> Page:
    """Return a season's tally sheet as a page."""
    month = shown_month(year)
    found = [(bed, _standing(year, bed)) for bed in year.garden.beds]
    waiting = ON_A_NOTICE * len(few(year.years, open_notices(year.years)))
    stages = [drawn.stage for _bed, standing in found for drawn in standing]
    nothing = "" if stages else _nothing(year)
    way, notes = fitted(stages, len(found) + waiting + _taken(year, found) + (2 if nothing else 0))
    return Page(
        path=addresses.TALLY_SHEET,
        template="tally_sheet.html",
        title=f"Tally sheet for {month}",
        description=f"For the clipboard: what stands in the beds in {month}, with room to write weights.",
        kind="tally sheet",
        data={
            "trail": below_sheets("Tally sheet"),
            "lead": f"What stands in the beds on {in_full(year.today)}. Weigh in {year.garden.showing.unit} "
            "and enter the lines in harvest.yaml.",
            "beds": tuple(_part(year.years, bed, standing, way) for bed, standing in found),
            "nothing": nothing,
            "others": OTHERS,
            "notes": notes,
            "as_of": full_day(year.today),
        },
    )


def fitted(stages: list[Stage], beds: int) -> tuple[tuple[int, int, int], int]:
    """Return how many lines each planting gets, and the lines left for notes.

    ``beds``: lines that headings take, one for each bed, and the notices above them.
    More plantings than two sheets hold get a line each, on as many sheets as they need.
    """
    for way in WAYS:
        written = sum(_lines(stage, way) for stage in stages) + OTHERS + beds
        for sheets in range(1, SHEETS + 1):
            left = sheets * ON_A_SHEET - written
            if left >= FEWEST_NOTES:
                return way, left
    return WAYS[-1], FEWEST_NOTES


def _taken(year: Year, found: list[tuple[Bed, list[DrawnPlanting]]]) -> int:
    """Return the lines for writing that long names take the place of."""
    head = len(f"Tally sheet for {shown_month(year)}{year.garden.name}, as of {in_full(year.today)}") > _HEAD
    every = (drawn for _bed, standing in found for drawn in standing)
    told = (f"{names.full_name(_listed(drawn), drawn.variety, drawn.tag)} {drawn.stage}" for drawn in every)
    return int(head) + sum(len(one) > _CELL for one in told)


def _lines(stage: Stage, way: tuple[int, int, int]) -> int:
    """Return the lines that a planting at a stage gets."""
    bearing, growing, sown = way
    if stage is Stage.BEARING:
        return bearing
    return sown if stage in (Stage.SOWN, Stage.OVER) else growing


def _standing(year: Year, bed: Bed) -> list[DrawnPlanting]:
    """Return what stands in a bed today, from the marked corner on; nothing outside the season.

    What is over by the plan alone is among it: nobody wrote that it was cleared, so somebody
    may still pick of it.
    """
    if year.today not in year.season.span:
        return []
    month = month_of(year, bed, shown_month(year))
    maybe = {one.planting for one in over_by_plan(month).values()}
    standing = [drawn for drawn in month.drawn if drawn.standing or drawn.planting in maybe]
    return sorted(standing, key=lambda drawn: (drawn.squares[0].row, drawn.squares[0].column, drawn.planting))


def _part(years: Years, bed: Bed, standing: list[DrawnPlanting], way: tuple[int, int, int]) -> BedPart:
    """Return a bed's plantings with their lines."""
    return BedPart(
        title=bed.title,
        standing=tuple(
            SheetPlanting(
                squares=in_words(drawn.squares, with_bed=len(years.present.beds) > 1),
                name=names.full_name(_listed(drawn), drawn.variety, drawn.tag),
                stage=drawn.stage.value if drawn.standing else f"{drawn.stage.value}, {END_SUPPOSED}",
                lines=_lines(drawn.stage, way),
            )
            for drawn in standing
        ),
    )


def _listed(drawn: DrawnPlanting) -> str:
    """Return a crop's name as lists have it, ready for its variety."""
    return kind_after(drawn.name, drawn.kind) + ("," if drawn.kind and drawn.variety else "")


def _nothing(year: Year) -> str:
    """Return why no planting is on the sheet."""
    if year.season.plan is None and year.season.log is None:
        return "Neither a plan nor a log is on record, so what stands in the beds is unknown."
    if year.today in year.season.span:
        return f"By the records, nothing stands in the beds on {in_full(year.today)}."
    return f"{in_full(year.today)} lies outside season {year.name}, so nothing is listed."
