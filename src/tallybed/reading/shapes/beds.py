"""The beds of ``garden.yaml``: key by key, and what must hold among the keys."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction
from typing import TypeVar

from tallybed.garden.squares import Bed, BedPath, RunOut, Square, Trellis, in_words
from tallybed.garden.units import CENTIMETRE, FOOT, INCH, Length, Showing
from tallybed.reading.base.context import Context
from tallybed.reading.base.mappings import Key, KeyedValues, Shape, take
from tallybed.reading.base.problems import LeftOut, Misread, listed, quoted
from tallybed.reading.base.scanners import Scanner, as_it_stands, rows, said, spoken, wider
from tallybed.reading.shapes.common import EXTENT, EXTENT_TEXT, LINE, NOTE_KEY, SHARE, some_squares
from tallybed.reading.shapes.safety.soil import boards
from tallybed.reading.text import dates, measures, texts
from tallybed.reading.text.degrees import degrees
from tallybed.reading.text.squares import LIKE_A_SQUARE, SQUARES, Beds
from tallybed.reading.yaml.nodes import Items, Node

T = TypeVar("T")
LONGEST_SIDE = 700
"""Squares along one side at most: two letters name 702 columns."""
MOST_SQUARES = 10_000
MOST_ALONG = 100
"""Trellises, paths or run-outs of one bed: each is drawn on every map."""
SIDE = "a side of the bed: 1 or its last row, A or its last column"
_LEANING = "how far its top stands in over the bed, such as 6 in, or 6 in outward"
SQUARES_OR_LENGTH = "a number of squares such as 10 squares, or a length"
_LONG = wider(measures.length, measures.LENGTH, SQUARES_OR_LENGTH)
_LEANT = wider(measures.length, measures.LENGTH, _LEANING)
_SIDES = (Length.of(1, INCH), Length.of(10, FOOT))
SIDE_OF_A_SQUARE = "the side of one square, such as 12 in; from 1 in (2.54 cm) to 10 ft (3.048 m)"


def _bed_name(text: str) -> str:
    """Read a bed's short name: letters, digits and hyphens, 40 at most, unlike a square. Raises Misread."""
    name = text.strip()
    expected = "a short name of the letters a to z, digits and hyphens"
    if not re.fullmatch(r"[A-Za-z][A-Za-z0-9-]{0,39}", name):
        raise Misread("bed-name", f"{quoted(text)} cannot be a bed’s short name", expected)
    if LIKE_A_SQUARE.fullmatch(name):
        raise Misread(
            "bed-name", f"the bed’s name {quoted(text)} looks like a square", f"{expected}, unlike B3"
        )
    return name


def _extent(text: str) -> int | Length:
    """Read a length or width: a number of squares, or a length. Raises Misread."""
    match = re.fullmatch(r"([0-9]{1,6})\s*(?:squares?|sq\.?)", text.strip(), re.IGNORECASE)
    if match is None:
        return _LONG(text)
    if not 1 <= int(match.group(1)) <= LONGEST_SIDE:
        raise Misread("whole-number", f"{quoted(text)} is out of bounds", f"1 to {LONGEST_SIDE} squares")
    return int(match.group(1))


def _lean(text: str) -> Length:
    """Read how far a trellis leans: in over the bed, or ``6 in outward``."""
    inward = re.fullmatch(r"(.*?)\s*\b(outward|outwards|inward|inwards)\s*", text.strip(), re.IGNORECASE)
    length = _LEANT(text if inward is None else inward.group(1))
    outward = inward is not None and inward.group(2).casefold().startswith("out")
    return length * -1 if outward else length


def _bearing(text: str) -> Fraction:
    """Read degrees clockwise from north; 360 is 0. Raises Misread."""
    return degrees("bearing", 0, 360)(text) % 360


NAME = Key("name", said(_bed_name, "a short name"), "a short name used in squares", required=True)
TITLE = Key("title", LINE, texts.LINE)
BED_LENGTH = Key("length", said(_extent, SQUARES_OR_LENGTH), SQUARES_OR_LENGTH, required=True)
WIDTH = Key("width", said(_extent, SQUARES_OR_LENGTH), SQUARES_OR_LENGTH, required=True)
SQUARE = Key(
    "square", said(measures.length_within(*_SIDES, SIDE_OF_A_SQUARE), SIDE_OF_A_SQUARE), SIDE_OF_A_SQUARE
)
BEARING = Key("bearing", said(_bearing, "degrees"), "degrees clockwise from north")
OMITTED = Key("omitted", as_it_stands, SQUARES)
TRELLISES = Key("trellis", as_it_stands, "a list of trellises")
PATHS = Key("path", as_it_stands, "a list of paths")
RUN_OUTS = Key("run-out", as_it_stands, "a list of run-outs")
BOARDS_KEY = Key("boards", boards, "what they are of, as in {material: larch, treated: no}")
SINCE = Key("since", said(dates.year, dates.YEAR), dates.YEAR)
UNTIL = Key("until", said(dates.year, dates.YEAR), dates.YEAR)
BED = Shape(
    "a bed",
    (
        NAME,
        TITLE,
        BED_LENGTH,
        WIDTH,
        SQUARE,
        BEARING,
        OMITTED,
        TRELLISES,
        PATHS,
        RUN_OUTS,
        BOARDS_KEY,
        NOTE_KEY,
        SINCE,
        UNTIL,
    ),
)


def _side(text: str, context: Context) -> str:
    """Read a side of the bed that is being read. Raises Misread."""
    bed = _here(context)
    side = text.strip().upper()
    if side not in bed.sides:
        expected = f"one of its sides: {listed(dict.fromkeys(bed.sides))}"
        raise Misread("side", f"the bed {bed.name} has no side {quoted(text)}", expected)
    return side


SIDE_KEY = Key("side", spoken(_side, SIDE), SIDE, required=True)
SQUARES_KEY = Key("squares", some_squares, SQUARES)
HEIGHT = Key("height", EXTENT, EXTENT_TEXT, required=True)
LEAN = Key("lean", said(_lean, _LEANING), _LEANING)
PATH_WIDTH = Key("width", EXTENT, EXTENT_TEXT, required=True)
SHARE_KEY = Key("share", SHARE, measures.SHARE)
REACH = Key("reach", EXTENT, EXTENT_TEXT, required=True)

TRELLIS = Shape("a trellis", (SIDE_KEY, SQUARES_KEY, HEIGHT, LEAN))
PATH = Shape("a path", (SIDE_KEY, PATH_WIDTH, SHARE_KEY))
RUN_OUT = Shape("a run-out", (SIDE_KEY, SQUARES_KEY, REACH))


def bed(node: Node, context: Context) -> Bed:
    """Read one bed; its squares first, then what lies along its sides. Raises LeftOut."""
    row = take(node, BED, context)
    if any(row.get(key) is None for key in (NAME, BED_LENGTH, WIDTH)):
        raise LeftOut
    side = row.get(SQUARE) or (Length.of(30, CENTIMETRE) if context.metric else Length.of(12, INCH))
    columns, rows_ = _squares_in(row, BED_LENGTH, side), _squares_in(row, WIDTH, side)
    if columns * rows_ > MOST_SQUARES:
        found = f"the bed would have {columns * rows_} squares"
        row.wrong(BED_LENGTH, "bed-too-large", found, expected=f"{MOST_SQUARES} squares at most")
        row.finish()
    _in_order(row)
    bare = Bed(
        name=row[NAME],
        title=row.get(TITLE) or row[NAME],
        columns=columns,
        rows=rows_,
        side=side,
        bearing=_or(row.get(BEARING), Fraction(90)),
        bearing_told=row.get(BEARING) is not None,
        boards=row.get(BOARDS_KEY),
        note=row.get(NOTE_KEY) or "",
        since=row.get(SINCE) or "",
        until=row.get(UNTIL) or "",
        place=row.place,
    )
    for key in (TRELLISES, PATHS, RUN_OUTS):
        along = row.get(key)
        if isinstance(along, Items) and len(along.items) > MOST_ALONG:
            found = f"{len(along.items):,} lines lie along the bed"
            row.wrong(key, "bed-too-large", found, expected=f"{MOST_ALONG} at most")
            row.finish()
    gone = _read_in(bare, row, OMITTED, some_squares)
    bare = replace(bare, omitted=frozenset(gone))
    if not bare.squares:
        row.wrong(OMITTED, "no-square-left", "no square of the bed is left")
        row.finish()
    whole = replace(
        bare,
        trellises=_read_in(bare, row, TRELLISES, rows(_trellis)),
        paths=_read_in(bare, row, PATHS, rows(_path)),
        run_outs=_read_in(bare, row, RUN_OUTS, _run_outs),
    )
    row.finish()
    return whole


def _in_order(row: KeyedValues) -> None:
    """Tell where the bed's last season comes before its first."""
    since, until = row.get(SINCE), row.get(UNTIL)
    if since and until and until < since:
        found = f"the bed’s last season {until} comes before its first, {since}"
        row.wrong(UNTIL, "bed-seasons", found, expected=f"{since} or later")


def _or(value: Fraction | None, default: Fraction) -> Fraction:
    """Return a value, or the default where there is none; zero is a value."""
    return default if value is None else value


def _squares_in(row: KeyedValues, key: Key[int | Length], side: Length) -> int:
    """Return how many squares make up the bed's length or width; tells where it is not a whole number."""
    extent = row[key]
    if isinstance(extent, int):
        return extent
    squares = extent.nanometres / side.nanometres
    if squares.denominator != 1:
        each = Showing(metric=row.context.metric).taped(side)
        found = f"the bed’s {key.name} is not a whole number of squares of {each}"
        expected = f"{SQUARES_OR_LENGTH} that its squares divide evenly"
        remedy = f"{quoted('square:')} says how large one is, where it is not {each}"
        row.wrong(key, "not-whole-squares", found, expected=expected, remedy=remedy)
        return 1
    if squares > LONGEST_SIDE:
        found = f"the bed’s {key.name} comes to {squares} squares"
        row.wrong(key, "bed-too-large", found, expected=f"{LONGEST_SIDE} squares at most")
        return 1
    return squares.numerator


def _read_in(bed: Bed, row: KeyedValues, key: Key[Node], scan: Scanner[tuple[T, ...]]) -> tuple[T, ...]:
    """Read what stands under a key, in the surroundings of this bed alone; LeftOut breaks the bed."""
    node = row.get(key)
    return () if node is None else scan(node, replace(row.context, beds=Beds.of([bed])))


def _here(context: Context) -> Bed:
    """Return the one bed that is being read."""
    return next(iter(context.beds.by_name.values()))


def _along(row: KeyedValues) -> tuple[Square, ...]:
    """Return the squares told along a side, or the whole side."""
    row.finish()
    along = _here(row.context).along(row[SIDE_KEY])
    given = row.get(SQUARES_KEY)
    if given is None:
        return along
    off = [square for square in given if square not in along]
    if off:
        found = f"{in_words(off, with_bed=False)} does not lie along side {row[SIDE_KEY]}"
        expected = f"squares among {in_words(along, with_bed=False)}"
        row.wrong(SQUARES_KEY, "square-off-side", found, expected=expected)
        row.finish()
    return given


def _trellis(node: Node, context: Context) -> Trellis:
    """Read a trellis. Raises LeftOut."""
    row = take(node, TRELLIS, context)
    squares = _along(row)
    height, lean = row[HEIGHT], row.get(LEAN) or Length()
    if abs(lean.nanometres) > height.nanometres:
        found = "the trellis leans further than it is high"
        row.wrong(LEAN, "lean", found, expected="how far its top stands from over its foot")
        row.finish()
    return Trellis(side=row[SIDE_KEY], squares=squares, height=height, lean=lean)


def _path(node: Node, context: Context) -> BedPath:
    """Read a path along a side; half of its area counts to the bed unless told. Raises LeftOut."""
    row = take(node, PATH, context)
    row.finish()
    return BedPath(side=row[SIDE_KEY], width=row[PATH_WIDTH], share=_or(row.get(SHARE_KEY), Fraction(1, 2)))


def _run_out(node: Node, context: Context) -> RunOut:
    """Read the ground beyond a side onto which vines are led. Raises LeftOut."""
    row = take(node, RUN_OUT, context)
    squares = _along(row)
    return RunOut(side=row[SIDE_KEY], squares=squares, reach=row[REACH])


def _run_outs(node: Node, context: Context) -> tuple[RunOut, ...]:
    """Read every run-out of a bed. Raises LeftOut where one is broken: a plan that names it is not wrong."""
    found = rows(_run_out)(node, context)
    if len(found) < (len(node.items) if isinstance(node, Items) else 1):
        raise LeftOut
    return found
