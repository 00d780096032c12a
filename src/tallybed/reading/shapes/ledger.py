"""``harvest.yaml``: the ledger."""

from __future__ import annotations

from tallybed.garden.days import in_full
from tallybed.garden.naming import CropName
from tallybed.garden.records.ledger import Destination, State, Weighing
from tallybed.garden.units import Weight, total
from tallybed.reading.base.context import CROP, Context
from tallybed.reading.base.mappings import Key, KeyedValues, Shape, take
from tallybed.reading.base.problems import LeftOut, listed, quoted
from tallybed.reading.base.scanners import every, said, wider, wrong_kind
from tallybed.reading.shapes.common import (
    CROP_NAME,
    DAY,
    LINE,
    NOTE_KEY,
    SILENCE,
    TAG,
    WITHIN_A_YEAR,
    count,
    some_squares,
)
from tallybed.reading.text import dates, measures, texts
from tallybed.reading.text.squares import SQUARES
from tallybed.reading.text.states import state
from tallybed.reading.yaml.nodes import Node, Pairs, Text

REST = "the rest"
_PART = f"{measures.WEIGHT}, or “{REST}”"
TO_TEXT = "a name, or names with their weights as in {food pantry: 2 lb, kitchen: the rest}"


def _destinations(node: Node, context: Context) -> tuple[Destination, ...]:
    """Read where a picking went: one name for all of it, or names with weights and once *the rest*."""
    if isinstance(node, Text):
        return (Destination(name=LINE(node, context)),)
    if not isinstance(node, Pairs):
        wrong_kind(node, TO_TEXT, context)
    part = said(wider(_part, measures.WEIGHT, _PART), _PART)
    found = tuple(
        Destination(name=LINE(name, context), weight=part(value, context)) for name, value in node.pairs
    )
    if sum(destination.weight is None for destination in found) > 1:
        context.problems.add(
            node.place, "two-rests", f"“{REST}” goes to two places", remedy="give one of them a weight"
        )
        raise LeftOut
    return found


def _part(text: str) -> Weight | None:
    """Read the weight of a part; None for *the rest*. Raises Misread."""
    words = " ".join(text.split()).casefold()
    return None if words in (REST, REST.removeprefix("the ")) else measures.weight(text)


DATE = Key("date", DAY, dates.DATE, required=True)
CROP_KEY = Key("crop", CROP_NAME, CROP)
MIXED = Key("mixed", every(CROP_NAME, "a list of crops"), "a list of crops")
TAG_KEY = Key("tag", TAG, texts.TAG)
VARIETY = Key("variety", LINE, "the variety’s name")
SQUARES_KEY = Key("squares", some_squares, SQUARES)
WEIGHT = Key("weight", said(measures.weighing, measures.WEIGHING), measures.WEIGHING, required=True)
COUNT = Key("count", count(), measures.WHOLE)
TO = Key("to", _destinations, TO_TEXT)
FORM = Key("as", LINE, "a form such as dry or in pods")
STATE = Key("state", said(state, listed(State)), listed(State))
WEIGHED = Key("weighed", WITHIN_A_YEAR, dates.DATE)
WEIGHING = Shape(
    "a weighing",
    (
        DATE,
        CROP_KEY,
        MIXED,
        TAG_KEY,
        VARIETY,
        SQUARES_KEY,
        WEIGHT,
        COUNT,
        TO,
        FORM,
        STATE,
        WEIGHED,
        NOTE_KEY,
        SILENCE,
    ),
)


def weighing(node: Node, context: Context) -> Weighing:
    """Read one row of the ledger. Raises LeftOut."""
    row = take(node, WEIGHING, context)
    crops = _crops(row)
    day, weighed = row.get(DATE), row.get(WEIGHED)
    if day and weighed and weighed < day:
        found = "it was weighed before it was picked"
        row.wrong(WEIGHED, "weighed-before-picked", found, expected=f"a day from {in_full(day)} on")
    _parts_fit(row)
    row.finish()
    measured = row[WEIGHT]
    return Weighing(
        day=row[DATE],
        crops=crops,
        mixed=row.has(MIXED),
        tag=row.get(TAG_KEY) or "",
        variety=row.get(VARIETY) or "",
        squares=row.get(SQUARES_KEY) or (),
        weight=measured.weight,
        estimated=measured.estimated,
        count=row.get(COUNT),
        to=row.get(TO) or (),
        form=row.get(FORM) or "",
        state=row.get(STATE) or State.FRESH,
        weighed=weighed if weighed != day else None,
        note=row.get(NOTE_KEY) or "",
        silence=row.get(SILENCE) or (),
        place=row.place,
    )


def _crops(row: KeyedValues) -> tuple[CropName, ...]:
    """Return the crops of a weighing, none where a tag alone says it; tells what does not fit together."""
    if row.has(CROP_KEY) and row.has(MIXED):
        found = "both “crop” and “mixed” say what was picked"
        row.wrong(MIXED, "told-twice", found, remedy="keep one of them")
    if not (row.has(CROP_KEY) or row.has(MIXED) or row.has(TAG_KEY) or row.broken):
        found = "the weighing does not say what was picked"
        row.wrong(row.place, "missing-key", found, expected="one of the keys crop, mixed or tag")
    crop, mixed = row.get(CROP_KEY), row.get(MIXED)
    if mixed is not None and len({name.slugs for name in mixed}) < 2:
        found = f"a mixed bowl of {quoted(mixed[0].typed)} alone"
        row.wrong(MIXED, "mixed-of-one", found, expected="two crops or more, or the key crop")
    return mixed or ((crop,) if crop else ())


def _parts_fit(row: KeyedValues) -> None:
    """Tell where the parts that went somewhere weigh more than the picking did."""
    given, measured = row.get(TO), row.get(WEIGHT)
    if not given or measured is None:
        return
    parts = [destination.weight for destination in given if destination.weight is not None]
    if not parts:
        return
    if measured.weight is None:
        found = "a part has a weight, but the whole was not weighed"
        row.wrong(TO, "parts-over-weight", found, expected="the weight of the whole, at least of its parts")
    elif total(parts) > measured.weight or (total(parts) == measured.weight and len(parts) < len(given)):
        found = "the parts leave nothing for the rest"
        if total(parts) > measured.weight:
            found = "the parts weigh more than the whole"
        row.wrong(TO, "parts-over-weight", found, expected=f"no more than {_whole(row)} together")


def _whole(row: KeyedValues) -> str:
    """Return the weight of the whole as it was typed, in quotes."""
    node = row.node.get(WEIGHT.name)
    return quoted(node.text) if isinstance(node, Text) else "the weight"
