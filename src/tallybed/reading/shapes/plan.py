"""``plan.yaml``: what is meant to stand where, and when."""

from __future__ import annotations

from datetime import date, timedelta

from tallybed.garden.days import in_full
from tallybed.garden.records.plan import LedOut, PlanRow, Start
from tallybed.garden.squares import Bed, Square, by_bed
from tallybed.garden.units import Length
from tallybed.reading.base.context import CROP, Context
from tallybed.reading.base.mappings import Key, KeyedValues, Shape, take
from tallybed.reading.base.problems import Misread, listed, quoted
from tallybed.reading.base.scanners import spoken
from tallybed.reading.shapes.common import (
    CROP_NAME,
    DAY,
    EXTENT,
    EXTENT_TEXT,
    LINE,
    MOST_PLANTS,
    NOTE_KEY,
    SHARE,
    SILENCE,
    SPACING_LENGTH,
    SPACING_TEXT,
    TAG,
    count,
    refuse_crowd,
    room,
    some_squares,
)
from tallybed.reading.text import dates, measures, texts
from tallybed.reading.text.squares import SQUARES
from tallybed.reading.yaml.nodes import Node, Pairs

ONE_DAY = timedelta(days=1)
BEGIN_SOONER = "correct the date, or let the season in content/garden.yaml begin by the first sowing indoors"
CARRY_ON = (
    "what stands on into the next season has no `until` in this plan, and in the next one a row with "
    "`carried from:` the season it was planted in"
)
RUN_OUT_TEXT = "a side of the bed such as J, or a side and a reach as in {side: J, reach: 6 ft}"


def _year_before(text: str, context: Context) -> str:
    """Read a year before the season's. Raises Misread."""
    year = text.strip()
    if not (year.isascii() and year.isdigit() and len(year) == 4 and year < (context.season or "9999")):
        expected = f"an earlier season, by the year it began in: one before {context.season}"
        raise Misread("carried-from", f"nothing can be carried from {quoted(text)}", expected)
    return year


def _side_word(text: str, _context: Context) -> str:
    """Read the name of a side, in capitals; whether the bed has it is known later. Raises Misread."""
    return texts.line(text).upper()


SIDE = Key("side", spoken(_side_word, "a side"), "a side of the bed, such as J", required=True)
REACH = Key("reach", EXTENT, EXTENT_TEXT)
RUN_OUT = Shape("a run-out", (SIDE, REACH))


def _led_out(node: Node, context: Context) -> tuple[str, Length | None]:
    """Read the side over which vines are led out, with the reach where it is told. Raises LeftOut."""
    if isinstance(node, Pairs):
        row = take(node, RUN_OUT, context)
        row.finish()
        return row[SIDE], row.get(REACH)
    return spoken(_side_word, RUN_OUT_TEXT)(node, context), None


def _inside(text: str, context: Context) -> date:
    """Read a day of work indoors; the season begins by the first of them. Raises Misread."""
    return dates.in_season(text, context.span, bounded=context.bounded, remedy=BEGIN_SOONER)


def _cleared(text: str, context: Context) -> date:
    """Read the day of clearing; the day after the season's last one will do. Raises Misread."""
    remedy = f"{dates.MEND_BOUNDS}; {CARRY_ON}"
    return dates.in_season(text, context.span, day_after=True, bounded=context.bounded, remedy=remedy)


INSIDE = spoken(_inside, dates.DATE)
CROP_KEY = Key("crop", CROP_NAME, CROP, required=True)
TAG_KEY = Key("tag", TAG, texts.TAG)
VARIETY = Key("variety", LINE, "the variety’s name")
SQUARES_KEY = Key("squares", some_squares, SQUARES, required=True)
SOW = Key("sow", DAY, dates.DATE)
SET_OUT = Key("set out", DAY, dates.DATE)
CARRIED = Key("carried from", spoken(_year_before, "a year"), "the year it was planted in")
INDOORS = Key("sow indoors", INSIDE, dates.DATE)
POT_UP = Key("pot up", INSIDE, dates.DATE)
UNTIL = Key("until", spoken(_cleared, dates.DATE), dates.DATE)
PLANTS = Key("plants", count(1, MOST_PLANTS), measures.WHOLE)
PER_SQUARE = Key("per square", count(1, MOST_PLANTS), measures.WHOLE)
SPACING = Key("spacing", SPACING_LENGTH, SPACING_TEXT)
AMONG = Key("among", LINE, "a tag or a crop")
SHARE_KEY = Key("share", SHARE, measures.SHARE)
RUN_OUT_KEY = Key("run-out", _led_out, RUN_OUT_TEXT)
DROPPED = Key("dropped", DAY, dates.DATE)
BECAUSE = Key("because", LINE, texts.LINE)
PLAN_ROW = Shape(
    "a planting",
    (
        CROP_KEY,
        TAG_KEY,
        VARIETY,
        SQUARES_KEY,
        SOW,
        SET_OUT,
        CARRIED,
        INDOORS,
        POT_UP,
        UNTIL,
        PLANTS,
        PER_SQUARE,
        SPACING,
        AMONG,
        SHARE_KEY,
        RUN_OUT_KEY,
        DROPPED,
        BECAUSE,
        NOTE_KEY,
        SILENCE,
    ),
)


def plan_row(node: Node, context: Context) -> PlanRow:
    """Read one row of the plan. ``among`` stays as typed until the season is known. Raises LeftOut."""
    row = take(node, PLAN_ROW, context)
    _plannable(row, context)
    begins = _begins(row, context)
    if context.bounded:  # else a day without a year may lie in either year of its season
        _in_order(row, begins)
    if row.has(PLANTS) and row.has(PER_SQUARE):
        found = "both “plants” and “per square” say how many"
        row.wrong(PER_SQUARE, "told-twice", found, remedy="keep one of them")
    led_out = _led(row, context)
    _crowded(row, context)
    row.finish()
    squares = row[SQUARES_KEY]
    each = row.get(PER_SQUARE)
    until = row.get(UNTIL)
    return PlanRow(
        crop=row[CROP_KEY].slugs[0],
        squares=squares,
        start=_start(row),
        begins=begins or context.span.first,
        until=until or context.span.last + ONE_DAY,
        until_told=until is not None,
        tag=row.get(TAG_KEY) or "",
        variety=row.get(VARIETY) or "",
        sow_indoors=row.get(INDOORS),
        pot_up=row.get(POT_UP),
        plants=each * len(squares) if each else row.get(PLANTS),
        spacing=row.get(SPACING),
        among=row.get(AMONG) or "",
        share=row.get(SHARE_KEY),
        led_out=led_out,
        dropped=row.get(DROPPED),
        because=row.get(BECAUSE) or "",
        carried_from=row.get(CARRIED) or "",
        note=row.get(NOTE_KEY) or "",
        silence=row.get(SILENCE) or (),
        place=row.place,
    )


def _plannable(row: KeyedValues, context: Context) -> None:
    """Tell of a name that leaves the crop open, and of a crop that tells enough to be weighed alone."""
    crop = row.get(CROP_KEY)
    if crop is None:
        return
    if crop.slug is None:
        row.broken = True
        if context.general_whole:
            row.wrong(
                CROP_KEY,
                "general-crop",
                f"{quoted(crop.typed)} may mean several crops",
                expected=context.one_of(crop.slugs),
                remedy=f"name the crop, or say what it means in content/{context.season}/names.yaml",
            )
    elif crop.slug in context.unplannable:
        place, keys = context.unplannable[crop.slug]
        untold = f"{place.file}:{place.line} does not tell its {listed(keys)}"
        row.wrong(
            CROP_KEY,
            "crop-keys",
            f"{quoted(crop.typed)} is planned, and {untold}",
            remedy="a crop that is only weighed may leave them out; add them there for one that is planned",
        )


def _crowded(row: KeyedValues, context: Context) -> None:
    """Refuse more plants, told or by the room of the squares, than any bed holds."""
    crop, squares = row.get(CROP_KEY), row.get(SQUARES_KEY)
    if crop is not None and squares:
        own = row.get(SPACING) or context.spacings.get(crop.slug or "")
        refuse_crowd(row, PER_SQUARE, (row.get(PER_SQUARE) or 0) * len(squares))
        refuse_crowd(row, SQUARES_KEY, room(context, squares, own))


def _start(row: KeyedValues) -> Start:
    """Return how a planting begins, by the key that says when."""
    if row.has(CARRIED):
        return Start.CARRIED
    return Start.SOW if row.has(SOW) else Start.SET_OUT


def _begins(row: KeyedValues, context: Context) -> date | None:
    """Return the first day in the bed; tells where none or several of the three starts stand there."""
    given = [key for key in (SOW, SET_OUT, CARRIED) if row.has(key)]
    if not given and not row.broken:
        row.wrong(
            row.place,
            "no-start",
            "the planting does not say when it begins",
            expected="one of the keys sow, set out or carried from",
        )
    for key in given[1:]:
        found = f"both {quoted(given[0].name)} and {quoted(key.name)} say how it begins"
        row.wrong(key, "told-twice", found, remedy="keep one of them; a crop started inside has sow indoors")
    if given and given[0] is CARRIED:
        return context.span.first
    return row.get(SOW) if row.has(SOW) else row.get(SET_OUT)


def _in_order(row: KeyedValues, begins: date | None) -> None:
    """Tell of days that stand in the wrong order: indoors, potted up, in the bed, cleared."""
    inside, potted, until = row.get(INDOORS), row.get(POT_UP), row.get(UNTIL)
    if begins and until and until <= begins:
        found = "the planting is cleared before it has stood for a day"
        expected, remedy = f"a day after {in_full(begins)}", f"correct one of the two; {CARRY_ON}"
        row.wrong(UNTIL, "until-before-start", found, expected=expected, remedy=remedy)
    if inside and begins and begins < inside:
        found = "the planting is in the bed before it is sown indoors"
        row.wrong(INDOORS, "indoors-after-start", found, expected=f"a day up to {in_full(begins)}")
    if potted and inside and potted < inside:
        found, expected = "it is potted up before it is sown indoors", f"a day from {in_full(inside)} on"
        row.wrong(POT_UP, "pot-up-out-of-order", found, expected=expected)
    if potted and begins and begins < potted:
        found, expected = "it is potted up after it is in the bed", f"a day up to {in_full(begins)}"
        row.wrong(POT_UP, "pot-up-out-of-order", found, expected=expected)


def _led(row: KeyedValues, context: Context) -> LedOut | None:
    """Return where vines are led out; the reach is the garden's own for that side unless told."""
    given, squares = row.get(RUN_OUT_KEY), row.get(SQUARES_KEY)
    if given is None or squares is None:
        return None
    side, reach = given
    beds = [context.beds.by_name[name.casefold()] for name in by_bed(squares)]
    having = [bed for bed in beds if side in bed.sides]
    if not having:
        sides = dict.fromkeys(side for bed in beds for side in bed.sides)
        found = f"{_beds_have(beds)} no side {quoted(side)}"
        whose = "its" if len(beds) == 1 else "their"
        row.wrong(RUN_OUT_KEY, "side", found, expected=f"one of {whose} sides: {listed(sides)}")
        return None
    # One reach stands for all the beds: what there is ground for in each.
    reach = reach or min((one for bed in having if (one := _ground(bed, side, squares))), default=None)
    if reach is None:
        found = f"{_beds_have(having)} no run-out at side {side}, so its reach is not known"
        expected = f"the reach, as in {{side: {side}, reach: {'2 m' if context.metric else '6 ft'}}}"
        row.wrong(RUN_OUT_KEY, "no-run-out", found, expected=expected)
        return None
    return LedOut(side=side, reach=reach)


def _beds_have(beds: list[Bed]) -> str:
    """Return ``the bed long has``, ``the beds long and elbow have``."""
    names = listed((bed.name for bed in beds), "and")
    return f"the bed {names} has" if len(beds) == 1 else f"the beds {names} have"


def _ground(bed: Bed, side: str, squares: tuple[Square, ...]) -> Length | None:
    """Return the longest reach of the run-outs before these squares, else of all at that side, or None."""
    grounds = [ground for ground in bed.run_outs if ground.side == side]
    touching = [ground for ground in grounds if set(ground.squares) & set(squares)]
    return max((ground.reach for ground in touching or grounds), default=None)
