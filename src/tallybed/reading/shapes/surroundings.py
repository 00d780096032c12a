"""``surroundings`` of ``garden.yaml``: what stands around the beds and takes sun from them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import cos, radians, sin

from tallybed.garden.naming import nearest
from tallybed.garden.squares import Bed
from tallybed.garden.surroundings import Thing, ThingKind
from tallybed.reading.base.context import Context
from tallybed.reading.base.mappings import Key, KeyedValues, Shape, take
from tallybed.reading.base.problems import LeftOut, listed, quoted
from tallybed.reading.base.scanners import kept, said
from tallybed.reading.shapes.common import LENGTH, LINE
from tallybed.reading.text import dates, measures
from tallybed.reading.text.degrees import degrees
from tallybed.reading.yaml.nodes import Items, Node

_KINDS = tuple(kind.value for kind in ThingKind)
_BED = "the short name of a bed"
NAMES = {
    kind: Key(kind.value, LINE, f"what the {kind.value} is called", never_empty=True) for kind in ThingKind
}
BEARING = Key(
    "bearing",
    said(degrees("bearing", 0, 360), "degrees"),
    "degrees clockwise from north",
    required=True,
)
DISTANCE = Key("distance", LENGTH, measures.LENGTH, required=True)
WIDTH = Key("width", LENGTH, measures.LENGTH, required=True)
HEIGHT = Key("height", LENGTH, measures.LENGTH, required=True)
LEAFLESS = Key("leafless", said(dates.months, dates.SOME_MONTHS), dates.SOME_MONTHS, never_empty=True)
BED = Key("bed", LINE, _BED, never_empty=True)
THING = Shape("a thing around the beds", (*NAMES.values(), BEARING, DISTANCE, WIDTH, HEIGHT, LEAFLESS, BED))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Known:
    beds: tuple[Bed, ...]
    whole: bool
    """Whether that is all of them: a name is not doubted where a bed could not be read."""


def surroundings(node: Node, context: Context, beds: Iterable[Bed], *, whole: bool) -> tuple[Thing, ...]:
    """Read what stands around the beds; a broken row is left out, the rest kept."""
    known = _Known(beds=tuple(beds), whole=whole)
    nodes = node.items if isinstance(node, Items) else (node,)
    return kept(lambda each, own: _thing(each, own, known), nodes, context)


def _thing(node: Node, context: Context, known: _Known) -> Thing:
    row = take(node, THING, context)
    kind = _kind(row)
    bed = _bed(row, known)
    if kind is not ThingKind.TREE and row.has(LEAFLESS):
        row.wrong(
            LEAFLESS,
            "leafless",
            f"a {kind} is said to be leafless",
            expected="months without leaves for a tree alone",
            remedy="take it out, or call it a tree",
        )
    row.finish()
    thing = Thing(
        kind=kind,
        name=row[NAMES[kind]],
        bearing=row[BEARING] % 360,
        distance=row[DISTANCE],
        width=row[WIDTH],
        height=row[HEIGHT],
        leafless=row.get(LEAFLESS) or frozenset(),
        bed=bed,
    )
    inside = next((one for one in known.beds if bed in ("", one.name) and _within(thing, one)), None)
    if inside:
        found = f"{quoted(thing.name)} would stand in the bed {inside.name}"
        row.wrong(
            DISTANCE,
            "stands-in-bed",
            found,
            expected="a distance that leads out of the bed",
            remedy="measure from the middle of the bed, not from its side",
        )
        row.finish()
    return thing


def _kind(row: KeyedValues) -> ThingKind:
    told = [kind for kind in ThingKind if row.has(NAMES[kind])]
    if not told:
        if not row.broken:
            row.wrong(
                row.place,
                "missing-key",
                "a thing around the beds does not say what it is",
                expected=f"its kind and its name, as in wall: the library ({listed(_KINDS)})",
            )
        raise LeftOut
    if len(told) > 1:
        found = f"a thing around the beds is both a {told[0]} and a {told[1]}"
        row.wrong(NAMES[told[1]], "told-twice", found, expected="one of the two")
    return told[0]


def _bed(row: KeyedValues, known: _Known) -> str:
    told = row.get(BED)
    if told is None:
        return ""
    names = {bed.name.casefold(): bed.name for bed in known.beds}
    name = names.get(told.casefold())
    if name is None and known.whole:
        expected = f"one of {listed(names.values())}" if names else "a garden with a bed"
        close = nearest(told, names.values())
        row.wrong(BED, "unknown-bed", f"there is no bed {quoted(told)}", expected=expected, nearest=close)
    if name is None:
        row.broken = True
    return name or ""


def _within(thing: Thing, bed: Bed) -> bool:
    """Return whether the middle of a thing's face lies within the outer rectangle of a bed."""
    turned = radians(float(thing.bearing - bed.bearing))
    away = float(thing.distance.nanometres / bed.side.nanometres)
    return abs(away * cos(turned)) < bed.columns / 2 and abs(away * sin(turned)) < bed.rows / 2
