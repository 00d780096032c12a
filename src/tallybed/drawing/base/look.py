"""Every constant of the drawings: sizes, line weights, dashes, class names, textures.

Colours are not here: shapes carry classes, and the style sheet (``map.css``)
gives the classes their colours for light, dark and print. Geometry is here and
goes into the markup, so that a drawing without its style sheet is still a drawing.

Units: a drawing's own units (user units), unless a name says inches or pixels.
"""

from __future__ import annotations

from collections.abc import Mapping

from tallybed.reckoning.calendar.stages import Stage
from tallybed.reckoning.squares.occupancy import Grade

# --- scale and text ---------------------------------------------------------------------------------

PER_INCH = 6.0
"""Units an inch is drawn as: a one-foot square is 72 units wide."""
FLAT_PAGE = 860.0
"""Pixels a flat drawing has at the least; narrower pages show the upright one."""
UPRIGHT_PAGE = 328.0
"""Pixels left for a drawing on a page of 360 with its margins."""
GROWS = 1.35
"""How much larger than its units a drawing may be shown where the page has room."""
SMALLEST_TEXT = 11.1
"""Pixels the smallest text has on the narrowest page it is shown on."""
TEXT = 12.0
"""Size of text where the page leaves a choice."""
FLAT_WIDTH = TEXT * FLAT_PAGE / SMALLEST_TEXT
UPRIGHT_WIDTH = TEXT * UPRIGHT_PAGE / SMALLEST_TEXT
"""Widths that flat and upright drawings have at the least, in units, whatever the size of their bed.

Every drawing is shown equally wide, so that its text is as large as its neighbour's on any page.
"""
SIGN_TEXT = 25.0
"""Pixels the text of a sign's map has where a drawing is ``FLAT_PAGE`` wide: 21 points across ten inches,
whose capitals are 0.21 in high. That is ten minutes of arc at six feet, twice the letter of 5 minutes that
Snellen's charts (ISO 8596) ask of an eye that sees well."""
SIGN_SHARE = 0.6
"""Share of a square's side that it has at the most: on signs of long beds it is smaller, and names fit."""
SIGN_WIDTHS: tuple[tuple[str, float], ...] = (
    ("Iijl.,:;|!'’ ", 0.32),
    ("Jtfr()[]-/", 0.42),
    ("0123456789", 0.64),
    ("→←×≥+", 0.84),
    ("MWmw@%…—", 0.98),
)
"""Widths of characters as shares of the text size, as in a wide sans-serif (DejaVu Sans, measured).

A page's own font may be narrower; then there is a little more room than counted on.
"""
CAPITAL_WIDTH = 0.72
SMALL_WIDTH = 0.62
BOLD = 1.13
"""How much wider bold text runs."""
ACROSS = 1.1
"""Room across for a name of a row or column beside the bed, as a multiple of the text size."""
MIDDLE = 0.35
"""Share of the text size by which a baseline lies below the middle of its line."""
LINE = 1.3
"""Distance of lines, as a multiple of the text size."""
PAD = 5.0
"""Clear room around a whole drawing."""
GAP = 4.0
"""Clear room between things that stand side by side."""

# --- line weights -------------------------------------------------------------------------------------

HAIR = 0.7
FINE = 1.0
INK = 1.8
HEAVY = 2.6
TWINE = 1.7
"""The twine's body; its twist is drawn over it as a hairline."""
TWIST = "2 2.6"
HALO = 3.2
"""Width of the paper-coloured halo that keeps text readable over lines."""

# --- the bed ------------------------------------------------------------------------------------------

BOARD = 7.0
"""Thickness of the frame's boards (1 1/6 in at scale)."""
STAPLE = 5.0
"""Length of a staple's bar across the twine."""
STAKE = 10.0
"""Side of the marked corner stake."""
TICK = 6.0
"""Length of a dimension tick."""
LADDER = 7.0
"""Depth of a trellis line."""
LADDER_OFF = 3.0
"""Distance of a trellis line from the boards."""
RUNG = 8.0
"""Distance of a trellis's rungs."""
BROKEN = 42.0
"""Depth at which ground outside the bed is broken off where its whole depth is not needed."""
NARROW_REACH = 120.0
"""Depth at which ground that vines lie in is broken off where it lies across a narrow page."""
PATH_DEPTH = 29.0
"""Depth at which a path is broken off."""
PATH_WORDS = 1.25
"""Height of a path's words, as a multiple of the text size; the path is at least as deep."""
RUN_OUT_WORDS = 1.5
"""The same of a run-out, whose words stand a line within its far side."""
ZIGZAG = 5.0
"""Height of the notch in a break line."""
DEEP = 130.0
"""Ground deeper than this sends the dimension line to the other side of the bed."""
FRAME_DASH: Mapping[str, str | None] = {"recorded": None, "running": None, "planned": "1 4.2"}
"""How the frame's outer line is drawn for each kind of month: dotted where all is still planned."""
GROUND_DASH = "7 5"

# --- plantings ----------------------------------------------------------------------------------------

INSET = 3.0
"""Distance of a planting's outline from the grid."""
NEST = 3.4
"""How much further in the outline of each planting that shares its squares."""
GRADE_DASH: Mapping[Grade, str | None] = {
    Grade.SEEN: None,
    Grade.IMPLIED: None,
    Grade.SUPPOSED: "7 4",
    Grade.PLANNED: "0.1 4.4",
}
"""Line of a planting's outline by how well its planting is known; the last is a row of round dots."""
GRADE_WORDS: Mapping[Grade, str] = {
    Grade.SEEN: "seen",
    Grade.IMPLIED: "implied by other records",
    Grade.SUPPOSED: "supposed from the plan",
    Grade.PLANNED: "planned",
}
STAGE_WORDS: Mapping[Stage, str] = {
    Stage.BARE: "bare",
    Stage.SOWN: "sown",
    Stage.GROWING: "growing",
    Stage.BEARING: "bearing",
    Stage.OVER: "over",
    Stage.LOST: "lost",
}
TAG_LINE = 1.32
"""Height of a line of a planting's tag, as a multiple of the text size."""
TAG_PAD = 0.28
"""Clear room within a tag at both ends, likewise."""
TAG_POINT = 3.0
"""Height of the point of a tag."""
SEED = 1.5
"""Radius of a seed as drawn."""
FRUIT_LEAST = 2.4
"""Radius of a fruit at the least."""
SMALL_PLANT = 8.0
"""Radius below which a plant is drawn with fewer strokes."""
LARGE_PLANT = 34.0
"""Radius above which a plant is drawn with more leaves."""
PLANT_PEN = (0.5, 0.016, 0.85)
"""Line weight of a plant: at radius nothing, more for each unit of radius, and at the most."""
TURN = 137.508
"""Degrees each plant is turned against the one before, so that none looks like its neighbour.

The golden angle, at which leaves follow each other on many stems.
"""
VINE_LEAF_INCHES = 7.0
"""Distance of leaves along a vine."""
VINE_REACH = 0.9
"""Share of its reach that a vine's tip is drawn at; leaves and tendrils need the rest."""
VINES_A_PLANT = 3

# --- textures ------------------------------------------------------------------------------------------

STAGE_TEXTURE: Mapping[Stage, str] = {Stage.SOWN: "drills", Stage.OVER: "stubble", Stage.LOST: "lattice"}
"""The texture of a stage's ground; growing and bearing are told by tones, and bare ground is the paper."""
TEXTURE_STEP = 0.48
"""Distance at which a texture repeats, as a multiple of the text size: three times and more in 24 pixels."""
TEXTURE_PEN = 0.1
"""Width of a texture's strokes, likewise: a pixel and more at the smallest text."""
TEXTURE: Mapping[str, str] = {
    "drills": "M0 0.5H1",
    "stubble": "M-0.25 -0.25L1.25 1.25M-0.25 0.75L0.25 1.25M0.75 -0.25L1.25 0.25",
    "lattice": "M0 0.5H1M0.5 0V1",
}
"""Strokes of a texture's tile, in shares of its side."""
PATTERN_TILE: Mapping[str, tuple[float, float, str]] = {
    "hatch": (7, 7, "M-1 8 L8 -1 M-1 1 L1 -1 M6 8 L8 6"),
}
"""Width, height and strokes of the pattern of ground outside the bed."""

# --- small maps ---------------------------------------------------------------------------------------

SMALL_SQUARE = 28.0
"""Side of a square on a small map: three letters of a tag have room."""
SMALL_TEXT = 11.5
SMALL_BOARD = 3.0
SHEET_LEAST = 19.0
"""Side of a square on a contact sheet at the least: two letters need it."""
SHEET_INSET, SHEET_NEST = 1.6, 2.2
"""How far within the strings a planting's outline lies, and how much further each that shares its squares."""
SHEET_MARK = 8.0
SHEET_BARRED = 0.165
"""Radius of the ring in a square that waits, as a share of the square's side."""
SHEET_DASH: Mapping[Grade, str | None] = {
    Grade.SEEN: None,
    Grade.IMPLIED: None,
    Grade.SUPPOSED: "4 2.5",
    Grade.PLANNED: "0.1 3.2",
}

# --- season strips ----------------------------------------------------------------------------------------

SEASON_WIDE = 760.0
SEASON_NARROW = 326.0
"""Widths of a strip, in units that are pixels on the narrowest page it is shown on."""
SEASON_TEXT: Mapping[bool, float] = {True: 11.2, False: 12.6}
SEASON_LETTERS: Mapping[bool, float] = {True: 11.5, False: 12.8}
"""Sizes of text, narrow and wide: pages from 46 rem show the wide strip, a little smaller than its units."""
SEASON_LANE = 20.0
"""Height of a square's line; twice as much where two plantings share it, and so on."""
SEASON_HEAD = 34.0
"""Room above the lines for the months and the day of the records."""
SEASON_MEANT, SEASON_BAR = 1.2, 4.0
"""How far within its line lies the band of what was meant, and the bar before it."""
SEASON_PLANTS = (2.4, 3.8, 5.2)
"""Radii of plants along a bar, as they grow."""
SEASON_STEP = 15.0
"""Distance of plants along a bar."""
SEASON_MARK = 8.0
SEASON_AIR = 2.5
"""Room within a bar around its letters and marks."""
SEASON_HALO = 2.2
SEASON_DOTS = "0.1 3.2"

# --- titles of the log on a time axis ---------------------------------------------------------------------

FLAG_AIR = 4.0
"""Room between a title and its stem."""
FLAG_APART = 9.0
"""Room between two titles of one row."""
FLAG_ROW = 1.35
"""Height of a row of titles, in their size."""
FLAG_ROWS = 8
"""Rows of titles over a strip, at the most; as many as have room stand at a running total."""
FLAG_MOST: Mapping[bool, int] = {True: 8, False: 10}
"""Titles that room is looked for, narrow and wide: a drawing with all of them would show none."""
FLAG_KNOT = 2.4
"""Radius of the mark of a day that the log tells of."""

# --- charts -------------------------------------------------------------------------------------------

CHART_WIDE = 760.0
CHART_NARROW = 326.0
"""Widths of a chart, in units that are pixels on the narrowest page it is shown on."""
CHART_ROOM: Mapping[bool, float] = {True: 0.34, False: 0.29}
"""Share of a chart's width kept for names at the ends of its lines: narrow, wide."""
CHART_LINES = 8
"""Lines drawn at the most; the lighter crops beyond are left to the table."""
CHART_DASHES: tuple[str | None, ...] = (
    None,
    "9 4",
    "2.5 3",
    "12 3 2.5 3",
    "6 2.5",
    "1.2 2.6",
    "14 5",
    "5 2 1.5 2 1.5 2",
)
"""Dash of each line in order; together with its name at the line's end it tells the lines apart."""
LEAD = 20.0
"""Length of the line that leads from a line's end to its name."""
CHART_TEXT: Mapping[bool, float] = {True: 11.5, False: 12.6}
"""Sizes of text, narrow and wide: pages from 46 rem show the wide chart, a little smaller than its units."""
CHART_LINE = 1.25
"""Height of a line of text, in its size."""
CHART_APART: Mapping[bool, float] = {True: 3.0, False: 0.0}
"""Room between two names, narrow and wide: on a narrow chart names run over two lines."""
CHART_PLOT = 260.0
"""Height of a chart's plot."""
CHART_BARS = 170.0
"""Height of the plot of weekly bars."""
CHART_RAIN = 60.0
"""Height of the bars of rain below a chart of temperatures."""

# --- charts across seasons --------------------------------------------------------------------------------

PANEL_PLOT = 120.0
"""Height of the plot of one season's panel."""
PANEL_NAME = 0.95
"""Its name and unit stand so many sizes of their text above the plot, clear of the scale's top figure."""
PANEL_GAP = 16.0
PANELS: Mapping[bool, int] = {True: 2, False: 4}
"""Panels beside each other at the most: narrow, wide."""
WEEK_STEPS = (1, 2, 5, 10, 20, 50)
"""Weeks between two figures along a panel: the first of these that leaves them room."""
BAR_ROW = 16.0
"""Height of one season's bar in a crop's panel."""
BAR_COLUMNS: Mapping[bool, int] = {True: 1, False: 3}
"""Crops' panels beside each other at the most: narrow, wide."""

# --- marking-out plans ----------------------------------------------------------------------------------

PLAN_WIDE = 760.0
PLAN_NARROW = 326.0
"""Widths of a plan, in units that are pixels on the narrowest page it is shown on."""
PLAN_HIGH = 370.0
"""Height of a wide plan at the most: on paper its steps stand beside it, and all is one sheet."""
PLAN_SQUARE = 84.0
"""Side of a square as drawn, at the most; less where a bed has many."""
PLAN_LEAST = 14.0
"""Side of a square below which a wide plan is turned where that makes its squares larger."""
PLAN_TEXT: Mapping[bool, float] = {True: 11.8, False: 17.0}
"""Sizes of text, narrow and wide: ``paper.css`` shows the wide plan so small that its text has 7 points."""
PLAN_EM = 10.0
"""Units of a plan's width that are one em: the style sheets say how large that is, on screen and paper."""
PLAN_BOARD = 4.0
PLAN_TICK = 6.0
"""Length of the tick at a mark on a side."""
PLAN_OFF = (20.0, 38.0)
"""Distances from the side of the figures at its marks, and of the length of the whole side."""
PLAN_STAKE_OFF = 15.0
"""Distance from a stake to the middle of its name, each way."""
PLAN_ROOMY = 60.0
"""Side of a square, as drawn, from which the length of a side without marks has room beside it."""
PLAN_DIAGONAL = "7 5"

# --- beside ordinary rows ---------------------------------------------------------------------------------

ROWS_LANE = 26.0
"""Height of a line of the drawings that hold beds and rows side by side."""
ROWS_BAR = 12.0
"""Height of a bar in such a line."""
ROWS_NAMES: Mapping[bool, float] = {True: 0.0, False: 320.0}
"""Width kept for names before the lines, narrow and wide; on a narrow page names stand above them."""
DOTS_NAMES: Mapping[bool, float] = {True: 0.0, False: 190.0}
DOTS_STEP = 11.0
"""Height of one planting's line among those of its crop."""
DOTS_LEAST: Mapping[bool, float] = {True: 11.0, False: 32.0}
"""Height of a crop's lines at the least: on a wide page its name and verdict stand beside them."""
DOT, DOT_EARLIER, DOT_TWIN = 4.2, 3.1, 2.4
"""Radius of a planting's dot in the season shown, in an earlier one, and of its twin on the squares alone."""
DOTS_OCTAVES = (-3, 3)
"""How far the axis reaches at the least, in doublings of the printed figure in the middle."""
EARNED_OPEN = "3 2.4"
"""The line at the top of a square's fill where more was picked than was weighed."""
EARNED_SQUARE = 68.0
"""Side of a square in the drawing of what each square gave, at the most."""
