"""What it took: work and water, beside what others counted."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from tallybed.garden.benchmarks import Topic
from tallybed.garden.plurals import figured
from tallybed.garden.units import GALLON, KILOGRAM, LITRE, POUND, Unit, rounded
from tallybed.pages.rows.others import OTHERS, others_table
from tallybed.pages.rows.parts import Citations, RowsPart
from tallybed.pages.tables.tables import Row, Table, figure, heads, text
from tallybed.pages.wording.sentences import listed, number_word
from tallybed.reckoning.effort.season import season_water, season_work
from tallybed.reckoning.effort.watering import Watering
from tallybed.reckoning.effort.work import Work
from tallybed.reckoning.year import Year

_GALLON = " A gallon is that of the United States, 3.785 litres."


def effort_parts(year: Year, citations: Citations) -> Iterator[RowsPart]:
    """Yield the sections on work and water, as far as there are papers for them."""
    worked, watered = season_work(year, year.today), season_water(year, year.today)
    if worked is not None and worked.lines:
        yield _work_part(year, worked, citations)
    if watered is not None and watered.lines:
        yield _water_part(year, watered, citations)


def _work_part(year: Year, worked: Work, citations: Citations) -> RowsPart:
    """Return the section on work."""
    return RowsPart(
        ident="work",
        title="What it took: work",
        answer=f"{figured(worked.minutes, 'minute')} timed" if worked.timed else "",
        said=(
            f"Timed: {worked.timed:,} of {figured(worked.lines, 'line')} of the log."
            if worked.timed
            else f"None of {figured(worked.lines, 'line')} of the log was timed."
            if worked.lines > 1
            else "The one line of work in the log was not timed.",
        ),
        tables=(_work_table(year, worked),) if worked.by_verb else (),
        folded=(
            *([("The same by month", _month_table(worked))] if worked.by_month else []),
            (OTHERS, others_table(year.garden, Topic.WORK, citations, "Work that others counted, in {unit}")),
        ),
        notes=(
            "Minutes are times people. A line without minutes is not a line of no work, so every figure is "
            "at least this.",
        ),
    )


def _work_table(year: Year, worked: Work) -> Table:
    """Return minutes by kind, and in all where there is more than one."""
    showing = year.garden.showing
    columns = ("Minutes", f"Minutes per {showing.area_unit} of the squares")
    rows = [_work_row(year, verb.value, minutes) for verb, minutes in worked.by_verb.items()]
    foot = (_work_row(year, "in all", worked.minutes, "total"),) if len(rows) > 1 else ()
    return Table(
        ident="t-work",
        caption=f"Work that was timed, {year.name}",
        heads=heads("Kind", *columns, numbers=columns),
        rows=tuple(rows),
        foot=foot,
    )


def _work_row(year: Year, name: str, minutes: int, mark: str = "") -> Row:
    """Return minutes of one kind, also over the squares."""
    return Row(
        cells=(text(name), figure(f"{minutes:,}"), figure(_over_squares(year, Fraction(minutes)))), mark=mark
    )


def _over_squares(year: Year, value: Fraction, places: int = 1) -> str:
    """Return a value over the area of the squares, in the garden's unit of areas; nothing for no area."""
    area = year.garden.square_feet
    if not area:
        return ""
    return rounded(value / year.garden.showing.area_in(area), places)


def _month_table(worked: Work) -> Table:
    """Return minutes by month."""
    rows = tuple(
        Row(cells=(text(str(month)), figure(f"{minutes:,}"))) for month, minutes in worked.by_month.items()
    )
    return Table(
        ident="t-work-months",
        caption="The same by month",
        heads=heads("Month", "Minutes", numbers=("Minutes",)),
        rows=rows,
    )


def _water_part(year: Year, watered: Watering, citations: Citations) -> RowsPart:
    """Return the section on water."""
    many = number_word(watered.measured) if watered.measured else "none"
    told = (
        f"Of {watered.lines:,} lines of watering {many} "
        f"{'tell' if watered.measured > 1 else 'tells'} an amount that can be reckoned."
    )
    if watered.lines == 1:
        amount = "an amount" if watered.measured else "no amount"
        told = f"The one line of watering tells {amount} that can be reckoned."
    words = (
        (f"Told in words, and counting nothing: {listed(f'“{one}”' for one in watered.in_words)}.",)
        if watered.in_words
        else ()
    )
    others = others_table(year.garden, Topic.WATER, citations, f"{OTHERS}, in {{unit}}")
    return RowsPart(
        ident="water",
        title="What it took: water",
        answer=f"{rounded(_amount(year, watered), 1)} {_unit(year).symbol} measured"
        if watered.measured
        else "",
        said=(told, *words),
        tables=(_water_table(year, watered),) if watered.measured else (),
        folded=((OTHERS, others),),
        notes=(f"Rain is not counted.{'' if year.garden.showing.metric else _GALLON}",),
    )


def _unit(year: Year) -> Unit:
    """Return the unit in which water is told."""
    return LITRE if year.garden.showing.metric else GALLON


def _amount(year: Year, watered: Watering) -> Fraction:
    """Return the water that was measured, in that unit."""
    return watered.litres * LITRE.size / _unit(year).size


def _water_table(year: Year, watered: Watering) -> Table:
    """Return the water over the squares and over the weight."""
    showing, weight = year.garden.showing, year.total.weight
    unit, amount = _unit(year), _amount(year, watered)
    large = KILOGRAM if showing.metric else POUND
    over = rounded(amount / weight.within(large), 2) if weight else ""
    columns = (
        f"Water, {unit.symbol}",
        f"Per {showing.area_unit} of the squares",
        f"Per {showing.unit} weighed",
    )
    row = Row(
        cells=(
            text(f"{year.name}, at least"),
            figure(rounded(amount, 1)),
            figure(_over_squares(year, amount, 2)),
            figure(over),
        )
    )
    return Table(
        ident="t-water",
        caption=f"Water that was measured, {year.name}",
        heads=heads("Season", *columns, numbers=columns),
        rows=(row,),
    )
