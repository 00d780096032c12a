"""The answer in one sentence, one drawing, and a table of the grounds it may be told over."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from tallybed.drawing.rows.answer import AnswerBar, answer_bars
from tallybed.garden.units import Showing, rounded
from tallybed.pages.drawings.charts import Chart, both
from tallybed.pages.frame import addresses
from tallybed.pages.frame.page import Link
from tallybed.pages.rows.parts import RowsPart, percent, to
from tallybed.pages.tables.tables import Cell, Row, Table, figure, heads, text
from tallybed.pages.wording.dated import in_season
from tallybed.pages.wording.sentences import counted, listed, sentence
from tallybed.reckoning.harvest.areas import in_no_record
from tallybed.reckoning.rows.land import Range
from tallybed.reckoning.rows.season import RowAnswer, answer
from tallybed.reckoning.rows.verdicts import COVERED, NOISE, Verdict
from tallybed.reckoning.year import Year

TITLE = "Better than ordinary rows?"
SHORT = {
    Verdict.MORE: "More than is printed for ordinary rows",
    Verdict.SAME: "About the same as ordinary rows",
    Verdict.LESS: "Less than is printed for ordinary rows",
    Verdict.UNKNOWN: "Too little to tell",
}
NO_ANSWER = "Nothing was weighed, so nothing can be held against ordinary rows."


@dataclass(frozen=True, slots=True, kw_only=True)
class ShortAnswer:
    """The answer as other pages show it."""

    heading: str
    verdict: str
    sentence: str
    chart: Chart | None
    """None where no row yield is printed for anything that was weighed."""
    to: Link


@dataclass(frozen=True, slots=True, kw_only=True)
class AreaFigure:
    """An area as the first page sets it: its number large, its words beside it."""

    number: str
    unit: str
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class AnswerFigures:
    """The answer in a word, the areas it stands on, and why it says no more."""

    heading: str
    verdict: str
    areas: tuple[AreaFigure, ...]
    because: str
    to: Link


def short_answer(year: Year) -> ShortAnswer | None:
    """Return a season's answer for its home and for the first page; None where nothing was weighed."""
    found = answer(year)
    if found is None:
        return None
    return ShortAnswer(
        heading=TITLE,
        verdict=f"{SHORT[found.verdict]}.",
        sentence=answer_sentence(year, found),
        chart=answer_chart(year, found, ident="beside-rows") if found.rows.crops else None,
        to=Link("How this is reckoned, crop by crop", addresses.rows(year)),
    )


def answer_figures(year: Year) -> AnswerFigures | None:
    """Return a season's answer in its figures, without a drawing; None where nothing was weighed."""
    found = answer(year)
    if found is None:
        return None
    printed = bool(found.rows.crops)
    return AnswerFigures(
        heading=TITLE,
        verdict=SHORT[found.verdict],
        areas=tuple(_area_figures(year, found)) if printed else (),
        because=_because(year, found) if printed else answer_sentence(year, found),
        to=Link("How this is reckoned, crop by crop", addresses.rows(year)),
    )


def _area_figures(year: Year, found: RowAnswer) -> Iterator[AreaFigure]:
    """Yield the ground that rows would need, and the ground of the beds it is held against."""
    showing, rows = year.garden.showing, found.rows.square_feet
    least = " at least" if found.rows.at_least else ""
    span = _least_to_most(showing, rows)
    yield AreaFigure(
        number=showing.area_number(rows.middle),
        unit=showing.area_unit,
        words=f"of ordinary rows{least}, for the same weight by printed yields{span}",
    )
    if found.ground:
        yield AreaFigure(
            number=showing.area_number(found.ground.square_feet),
            unit=showing.area_unit,
            words=f"here: {found.ground.of}",
        )


def _least_to_most(showing: Showing, rows: Range, to: str = " to ") -> str:
    """Return the least and the most row ground in brackets; nothing where both are told by one number."""
    low, high = showing.area_number(rows.low), showing.area_number(rows.high)
    return f" ({low}{to}{high})" if low != high else ""


def answer_sentence(year: Year, found: RowAnswer) -> str:
    """Return what the verdict stands on: the row ground, and the ground it is held against."""
    showing = year.garden.showing
    rows, ground = found.rows.square_feet, found.ground
    so_far = "" if year.is_over else " so far"
    if not found.rows.crops:
        return f"No row yield is printed for anything that was weighed {in_season(year)}{so_far}."
    least = "at least" if found.rows.at_least else "about"
    needed = (
        f"what was weighed {in_season(year)}{so_far} would have needed {least} {_area(showing, rows.middle)} "
        f"of ordinary rows, by printed yields{_least_to_most(showing, rows)}"
    )
    taken = f"{ground.of} are {_area(showing, ground.square_feet)}" if ground else ""
    return " ".join(filter(None, (sentence(needed), sentence(taken), _because(year, found))))


def _because(year: Year, found: RowAnswer) -> str:
    """Return why there is too little to tell, as a sentence."""
    if found.verdict is not Verdict.UNKNOWN:
        return ""
    if found.ground is None:
        return "Nobody told which squares gave it, so it is held against none."
    if found.rows.share < COVERED:
        return f"A row yield is printed for only {percent(found.rows.share)} of the weight."
    if found.rows.square_feet.high * NOISE < found.ground.square_feet:
        if not year.is_over:
            return "That is less by now, but the season still goes on."
        if found.rows.at_least:
            return "That is less, but more was picked than was weighed."
        return "That is less, but some of the weight has no printed yield, and took ground too."
    return "The lowest printed yields and the highest lead to different answers."


def answer_line(year: Year) -> str:
    """Return verdict and figures in a poster's few words; nothing where nothing was weighed."""
    found = answer(year)
    if found is None:
        return ""
    if not found.rows.crops or found.ground is None:
        return f"{TITLE} {SHORT[found.verdict]}."
    rows, showing = found.rows.square_feet, year.garden.showing
    here, low, high = (_area(showing, one) for one in (found.ground.square_feet, rows.low, rows.high))
    needed = high if low == high else f"{showing.area_number(rows.low)} to {high}"
    return (
        f"{TITLE} {SHORT[found.verdict]}: they would have needed {needed} by printed yields; here "
        f"it is {here}, {found.ground.of}."
    )


def _area(showing: Showing, square_feet: Fraction) -> str:
    """Return an area with its unit."""
    return f"{showing.area_number(square_feet)} {showing.area_unit}"


def answer_chart(year: Year, found: RowAnswer, *, ident: str) -> Chart:
    """Return the drawing: the ground of rows, and each ground of the beds."""
    showing = year.garden.showing
    bars = tuple(_bars(showing, found))

    def drawn(narrow: bool, name: str) -> str:
        return answer_bars(
            bars,
            unit=showing.area_unit,
            ident=name,
            title=f"Ground for what was weighed, {year.name}",
            narrow=narrow,
        )

    return both(drawn, ident)


def _bars(showing: Showing, found: RowAnswer) -> Iterator[AnswerBar]:
    """Yield the ground of rows, then each ground of the beds."""
    rows = found.rows.square_feet
    low, middle, high = (showing.area_in(one) for one in (rows.low, rows.middle, rows.high))
    yield AnswerBar(
        name="ordinary rows would need",
        words=f"{showing.area_number(rows.middle)}{_least_to_most(showing, rows, '–')}",
        low=low,
        middle=middle,
        high=high,
        rows=True,
    )
    for one in found.grounds:
        area = showing.area_in(one.square_feet)
        yield AnswerBar(
            name=one.of.replace("their share of path", "path"),
            words=showing.area_number(one.square_feet),
            low=area,
            middle=area,
            high=area,
            near=(area / NOISE, area * NOISE) if one is found.ground else None,
        )


def answer_part(year: Year, found: RowAnswer) -> RowsPart:
    """Return the section with the answer, its drawing and the grounds."""
    return RowsPart(
        ident="answer",
        title="The answer",
        stands_open=True,
        charts=(answer_chart(year, found, ident="c-answer"),) if found.rows.crops else (),
        folded=(("Over each ground of the beds, in a table", _grounds_table(year, found)),)
        if found.grounds and found.rows.crops
        else (),
        notes=tuple(_notes(year, found)),
    )


def _grounds_table(year: Year, found: RowAnswer) -> Table:
    """Return the row ground over each of the grounds."""
    showing = year.garden.showing
    columns = (f"Area, {showing.area_unit}", "Land equivalents", "Low to high")
    rows = []
    for ground, ratio in found.equivalents:
        like = ground is found.ground
        rows.append(
            Row(
                cells=(
                    Cell(text=ground.of, note="the answer stands on this one" if like else ""),
                    figure(showing.area_number(ground.square_feet)),
                    figure(rounded(ratio.middle, 2)),
                    figure(to(rounded(ratio.low, 2), rounded(ratio.high, 2))),
                    text(SHORT[found.verdict] if like else "no verdict: rows have paths and vines too"),
                ),
                mark="total" if like else "",
            )
        )
    return Table(
        ident="t-grounds",
        caption=f"Row ground over each ground of the beds, {year.name}",
        heads=heads("Ground", *columns, "What may be said", numbers=columns),
        rows=tuple(rows),
        notes=(
            "Row ground over the beds’ ground is a sum of partial land equivalents (Mead and Willey, 1980; "
            "the land equivalent ratio of FAO): more than 1 means that rows would need more ground.",
            "The dashed line in the drawing runs from that ground divided by 1.34 to the ground times 1.34: "
            "a middle of the rows that lies within is about the same.",
        ),
    )


def _notes(year: Year, found: RowAnswer) -> Iterator[str]:
    """Yield what must be said beside the answer."""
    if found.rows.crops:
        yield (
            f"A row yield is printed for {percent(found.rows.share)} of the weight. The rest counts nothing "
            "here, which makes the answer low."
            if found.rows.share < 1
            else "A row yield is printed for all of the weight."
        )
    if found.rows.at_least:
        yield "Some pickings were not weighed, so the ground that rows would need is at least this."
    if found.rows.crops:
        yield (
            "A square that gives peas in spring and beans in summer counts for both. Such successions raise "
            "the sum without any closeness: rows can be sown twice as well."
        )
    idle = in_no_record(year.garden.beds, year.season)
    if idle and found.grounds:
        them, there = ("their", "they were") if len(idle) > 1 else ("its", "it was")
        yield sentence(
            f"no record of {year.name} names {listed(bed.called for bed in idle)}: {them} ground is counted "
            f"all the same, which makes the answer low if {there} not there yet"
        )
    if not any(bed.paths for bed in year.garden.beds):
        yield (
            "The garden tells no path, so the beds stand here without theirs while the rows hold "
            "their own: the answer is too kind to the beds."
        )
    if not year.is_over:
        yield (
            f"The season still goes on: {counted(len(found.rows.crops), 'crop')} counted so far, and more to "
            "come. Nothing is called less before it is over."
        )
