"""Which square earned its place: the beds with what each square gave, and how they were used."""

from __future__ import annotations

from fractions import Fraction

from tallybed.garden.records.plan import Start
from tallybed.garden.units import GRAM, OUNCE, Showing, Weight, rounded
from tallybed.pages.drawings.earned_beds import earned_beds, no_square_told
from tallybed.pages.rows.parts import RowsPart, percent
from tallybed.pages.tables.tables import Cell, Row, Table, figure, heads, link, text
from tallybed.pages.tables.tally_tables import square_table, weight_cell
from tallybed.pages.wording import names
from tallybed.pages.wording.sentences import AT_LEAST
from tallybed.reckoning.rows.squares import MonthUse, crop_square_weeks, use_by_month
from tallybed.reckoning.year import Year


def squares_part(year: Year) -> RowsPart | None:
    """Return the section with the squares; None where the garden has none, or nothing is known of any."""
    beds = year.garden.beds
    if not beds:
        return None
    used = use_by_month(year.garden, year.holding, year.today) if year.plantings else ()
    weeks = _weeks_table(year)
    drawn, notes = earned_beds(year), _notes(year)
    if not (drawn or used or notes):
        return None
    return RowsPart(
        ident="squares",
        title="Which square earned its place",
        said=(
            "Each square of the bed is filled as high as the weight it gave; the one that gave most in this "
            "season is full.",
        )
        if drawn
        else (),
        charts=drawn,
        folded=tuple(
            (f"{bed.title}: the same in a table", square_table(year, bed, ident=f"t-earned-{bed.name}"))
            for bed in beds
            if drawn
        )
        + ((("What a crop gave for each week that it held a square", weeks),) if weeks.rows else ())
        + ((("How far the squares were used, month by month", _use_table(used)),) if used else ()),
        notes=notes,
    )


def _notes(year: Year) -> tuple[str, ...]:
    """Return what must be said of squares."""
    found = (
        AT_LEAST if year.total.at_least else "",
        "A weighing of several squares is shared equally between them." if earned_beds(year) else "",
        no_square_told(year),
    )
    return tuple(filter(None, found))


def _weeks_table(year: Year) -> Table:
    """Return what crops gave for each square-week, the most first."""
    showing = year.garden.showing
    unit = "g" if showing.metric else "oz"
    columns = (f"Weight, {showing.unit}", "Square-weeks", f"A square-week, {unit}")
    found = [
        one for one in crop_square_weeks(year.holding, year.plantings, year.lines, year.today) if one.weight
    ]
    carried = {one.crop.slug for one in year.plantings if one.planned and one.planned.start is Start.CARRIED}
    found.sort(key=lambda one: (-one.per_week.nanograms, one.crop))
    rows = tuple(
        Row(
            cells=(
                link(names.listed_key(year.garden, one.crop)),
                weight_cell(showing, one.weight, at_least=one.at_least),
                Cell(
                    text=rounded(one.square_weeks, 1),
                    number=True,
                    note="this season’s alone" if one.crop in carried else "",
                ),
                figure(_small(showing, one.per_week)),
            )
        )
        for one in found
    )
    return Table(
        ident="t-square-weeks",
        caption=f"What a crop gave for each week that it held a square, {year.name}",
        heads=heads("Crop", *columns, numbers=columns),
        rows=rows,
        notes=(
            "A square-week is one square held for seven days; where two crops shared a square, each has its "
            "part of it. Crops of which nothing was weighed are left out.",
        ),
    )


def _small(showing: Showing, weight: Weight) -> str:
    """Return a small weight, in ounces or grams."""
    return rounded(weight.within(GRAM), 0) if showing.metric else rounded(weight.within(OUNCE), 1)


def _use_table(used: tuple[MonthUse, ...]) -> Table:
    """Return the use of the squares by month."""
    columns = ("Square-days held", "Square-days there were", "Use")
    rows = tuple(
        Row(
            cells=(
                text(str(one.month)),
                figure(f"{int(one.held):,}"),
                figure(f"{one.there:,}"),
                figure(percent(one.share)),
            )
        )
        for one in used
    )
    held, there = sum((one.held for one in used), Fraction(0)), sum(one.there for one in used)
    whole = Row(
        cells=(
            text("In all"),
            figure(f"{int(held):,}"),
            figure(f"{there:,}"),
            figure(percent(held / there)),
        ),
        mark="total",
    )
    return Table(
        ident="t-use",
        caption="How far the squares were used, month by month",
        heads=heads("Month", *columns, numbers=columns),
        rows=rows,
        foot=(whole,),
    )
