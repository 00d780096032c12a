"""The columns of the tables for reuse: ledger, plan and log, each with its type, unit and meaning."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from enum import StrEnum

from tallybed.garden.ledger import State
from tallybed.garden.log import Verb
from tallybed.garden.plan import Start


class ColumnType(StrEnum):
    """Types of the Table Schema specification (Data Package 1.0, Table Schema, Types and Formats)."""

    STRING = "string"
    INTEGER = "integer"
    NUMBER = "number"
    BOOLEAN = "boolean"
    DATE = "date"


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """A column: its name in the files, and what is in it."""

    name: str
    kind: ColumnType
    meaning: str
    unit: str = ""
    required: bool = False
    unique: bool = False
    choices: tuple[str, ...] = ()


Value = str | int | bool | Decimal | date | None


def _text(name: str, meaning: str, *, required: bool = False, choices: tuple[str, ...] = ()) -> Column:
    return Column(name=name, kind=ColumnType.STRING, meaning=meaning, required=required, choices=choices)


def _day(name: str, meaning: str, *, required: bool = False) -> Column:
    return Column(name=name, kind=ColumnType.DATE, meaning=meaning, required=required)


def _number(name: str, meaning: str, unit: str) -> Column:
    return Column(name=name, kind=ColumnType.NUMBER, meaning=meaning, unit=unit)


def _count(name: str, meaning: str, unit: str = "") -> Column:
    return Column(name=name, kind=ColumnType.INTEGER, meaning=meaning, unit=unit)


def _whether(name: str, meaning: str) -> Column:
    return Column(name=name, kind=ColumnType.BOOLEAN, meaning=meaning, required=True)


_ROW = Column(
    name="row",
    kind=ColumnType.INTEGER,
    meaning="Place of the row in the file, from 1",
    required=True,
    unique=True,
)
_CROP = _text("crop", "Short name of the crop in this garden’s library; empty where it was not told alone")
_CALLED = _text("crop_name", "The crop in words; the crops of a mixed bowl one after the other")
_VARIETY = _text("variety", "Variety as told")
_SQUARES = _text("squares", "Squares as told: bed/first:last")

LEDGER = (
    _ROW,
    _day("date", "Day it was picked, the day it counts on", required=True),
    _text("week", "ISO 8601 week of that day", required=True),
    _CROP,
    _CALLED,
    _whether("mixed", "Whether it is a mixed bowl of several crops"),
    _VARIETY,
    _text("planting", "Planting it came from, as in the plan’s file; empty where it could not be told"),
    _SQUARES,
    _whether("weighed", "Whether it was weighed at all"),
    _number("grams", "Weight, to a milligram; empty where it was not weighed", "g"),
    _number("pounds", "The same weight; 1 lb is 453.59237 g", "lb"),
    _whether("estimated", "Whether the weight is an estimate"),
    _count("count", "Pieces, where they were counted"),
    _text("form", "Form it was weighed in: dry, in pods, greens"),
    _text("state", "State it was weighed in", required=True, choices=tuple(state.value for state in State)),
    _day("weighed_on", "Day it was weighed, where that is another day"),
    _whether("in_total", "False for a cured or dried weight of a picking that was also weighed fresh"),
    _text("to", "Where it went; several places one after the other"),
    _text("to_grams", "Weight to each of those places in the same order, in grams"),
    _text("note", "Note in the ledger"),
)
PLAN = (
    Column(
        name="planting",
        kind=ColumnType.STRING,
        meaning="The planting’s own name: its tag, else its crop, numbered",
        required=True,
        unique=True,
    ),
    _CROP,
    _CALLED,
    _VARIETY,
    _SQUARES,
    _count("square_count", "Number of those squares"),
    _text("start", "How it comes into the bed", required=True, choices=tuple(start.value for start in Start)),
    _day("sow_indoors", "Day it is meant to be sown indoors"),
    _day("pot_up", "Day it is meant to be potted up"),
    _day(
        "begins",
        "Day it is meant to be sown or set out; the season’s first day if carried over",
        required=True,
    ),
    _day("until", "Day it is meant to be cleared; its squares are free that day", required=True),
    _whether("until_told", "Whether that day was told; if not, it is the day after the season"),
    _count("plants", "Plants meant, in all squares"),
    _number("spacing", "Distance from plant to plant, where the plan tells its own", "mm"),
    _text("among", "Planting or crop it shares its squares with"),
    _text("share", "Share of the squares told for it, as a fraction"),
    _text("run_out_side", "Side of the bed over which its vines are led out"),
    _number("run_out_reach", "How far they are led out", "mm"),
    _day("dropped", "Day it was dropped from the plan"),
    _text("because", "Why it was dropped"),
    _text("carried_from", "Season it was carried over from"),
    _text("note", "Note in the plan"),
)
LOG = (
    _ROW,
    _day("date", "Day of the visit", required=True),
    _text("visit", "The visit’s entry in the log; empty while that may not be read"),
    _text("verb", "What was done or seen", required=True, choices=tuple(verb.value for verb in Verb)),
    _text("subject", "To what, as written", required=True),
    _CROP,
    _CALLED,
    _VARIETY,
    _text("planting", "Plantings it concerns, one after the other; empty where none could be told"),
    _SQUARES,
    _text("to_squares", "Squares that plants were moved to"),
    _text("among", "Planting or crop it was put among"),
    _text("share", "Share of the squares told for it, as a fraction"),
    _count("plants", "Plants sown, set out, lost, cleared or moved"),
    _count("leaving", "Plants left after thinning"),
    _count("seeds", "Seeds sown"),
    _text("amount", "Amount of water, feed or treatment, as written"),
    _count("minutes", "Length of the work", "min"),
    _count("people", "People at it, where its length was told"),
    _count("person_minutes", "Minutes times people", "min"),
    _text("because", "Cause of a loss or failure"),
    _text("note", "Note in the log; empty while the entry may not be read"),
)
