"""What a spreadsheet's columns mean, by their headings."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from tallybed.garden.naming import folded, nearest
from tallybed.garden.units import Unit
from tallybed.reading.base.problems import Misread, listed, quoted
from tallybed.reading.scale.numbers import UNITS

Spelling = tuple[str, str]
"""What a column means, squares or weight, and a folded text of a cell in it."""
NOTHING = "nothing"
"""The meaning of a column that is left alone."""
WORDS: Mapping[str, str] = {
    "date": "date, day, when, picked, picked on, harvested, harvested on, date picked, date harvested, "
    "harvest date, pick date, picking date, date of harvest, datum, tag der ernte, erntedatum, jour, "
    "date de récolte, fecha, día, data",
    "crop": "crop, crops, crop name, kind of crop, vegetable, vegetables, veg, veggie, produce, plant, "
    "plant name, product, item, name, what, gemüse, kultur, légume, légumes, culture, hortaliza, verdura, "
    "cultivo",
    "variety": "variety, varieties, variety name, cultivar, sort, sorte, variété, variedad",
    "tag": "tag, plant tag, tag no, tag number",
    "bed": "bed, bed name, which bed",
    "squares": "square, squares, square s, sq, sqs, bed square, bed squares, bed and square, where, "
    "location, place, spot, plot, position, from, carré, carrés, feld, felder, quadrat, quadrate, "
    "cuadro, cuadros",
    "weight": "weight, weights, wt, mass, how much, weight picked, picked weight, harvest weight, "
    "net weight, gewicht, poids, peso",
    "unit": "unit, units, uom, measure, unit of measure, weight unit",
    "count": "count, how many, how many pieces, pieces, pcs, heads, number of pieces, "
    "number picked, no, nos, number, stück, anzahl, nombre, pièces, unidades",
    "to": "to, destination, went to, gone to, goes to, sent to, given to, given away to, donated to, "
    "recipient, for, where to, where it went, who got it, to whom, for whom, who for, who to, wohin, "
    "an, pour, à, para, destino",
    "as": "as, form, picked as",
    "state": "state, condition",
    "weighed": "weighed, weighed on, date weighed",
    "note": "note, notes, comment, comments, remark, remarks, observations, memo, bemerkung, bemerkungen, "
    "notiz, notizen, anmerkung, remarque, remarques, nota, notas, observaciones",
    NOTHING: "nothing, ignore, skip, row, why it was skipped",
}
"""Each meaning with the headings people give it: small letters, no signs.

Those of other languages are from memory."""
WEAK = frozenset({"day", "when", "plant", "product", "item", "name", "what", "where", "place", "from"})
"""Headings that give way to a plainer one of the same meaning: ``Name`` beside ``Crop`` is somebody's."""
UNSURE = (
    *("amount", "quantity", "qty", "yield", "harvest", "total", "amount picked"),
    *("menge", "quantité", "cantidad"),
)
"""Headings that may stand over a weight or over a count."""
NEEDED = ("date", "weight")
_WHAT = ("crop", "variety", "tag")
_NUMBERING = frozenset({"no", "nos", "nr", "number"})
"""Headings that number the rows where they stand first; elsewhere they count pieces."""
_MEANINGS = {word: meaning for meaning, words in WORDS.items() for word in words.split(", ")}


@dataclass
class MissingColumns(Misread):
    """Needed columns that nothing names, with the columns that may be them."""

    missing: tuple[str, ...] = ()
    """Meanings."""
    free: tuple[str, ...] = ()
    """Headings that mean nothing so far."""


@dataclass(frozen=True, slots=True)
class Heading:
    """What a column means, and the unit of its weights where the heading says one."""

    meaning: str
    unit: Unit | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Columns:
    """The columns of a spreadsheet."""

    headings: tuple[Heading, ...]
    """One for each column, from the left."""
    names: tuple[str, ...]
    """As they stand there."""

    @property
    def left_alone(self) -> tuple[str, ...]:
        """The columns that nothing is taken from."""
        pairs = zip(self.names, self.headings, strict=True)
        return tuple(name for name, heading in pairs if name and heading.meaning == NOTHING)


def plain(heading: str) -> str:
    """Return a heading in small letters and digits alone."""
    return " ".join(re.findall(r"[^\W_]+", folded(heading)))


def unit_named(text: str) -> Unit | None:
    """Return the unit of weight that a text names, or None."""
    return UNITS.get(folded(text).rstrip("."))


def heading(text: str) -> Heading | None:
    """Return what a heading means, or None where it is none of ours."""
    words = plain(text)
    meaning = _MEANINGS.get(words)
    if meaning is not None:
        return Heading(meaning)
    if "/" in text:  # one heading in two languages
        sides = [heading(side) for side in text.split("/")]
        known = {side.meaning for side in sides if side is not None}
        if len(known) == 1 and None not in sides:
            return next((side for side in sides if side and side.unit), sides[0])
    head, _space, last = words.rpartition(" ")
    unit = UNITS.get(last)
    head = head.removesuffix(" in").removesuffix(" of")
    if unit is not None and (
        head in ("", "in", "total") or _MEANINGS.get(head) == "weight" or head in UNSURE
    ):
        return Heading("weight", unit)
    return None


def meant(text: str) -> Heading:
    """Read what somebody says a column means: ``weight``, ``weight (oz)``, ``nothing``. Raises Misread."""
    found = heading(text)
    if found is None:
        known = [meaning for meaning in WORDS if meaning != NOTHING]
        raise Misread(
            "choice",
            f"{quoted(text)} is not a meaning of a column",
            listed([*known, NOTHING]),
            nearest(plain(text), _MEANINGS),
        )
    return found


def columns(names: Sequence[str], given: Mapping[str, Heading]) -> Columns:
    """Return what columns mean, by what was told of them (plain heading to meaning), else by their headings.

    Raises Misread where a needed one is not there, or two may be the one.
    """
    own = [heading(name) or Heading(NOTHING) for name in names]
    if names and plain(names[0]) in _NUMBERING:
        own[0] = Heading(NOTHING)
    made = [
        _with_its_unit(given[plain(name)], one) if plain(name) in given else one
        for name, one in zip(names, own, strict=True)
    ]
    said = {one.meaning for name, one in zip(names, made, strict=True) if plain(name) in given}
    strong = said | {one.meaning for name, one in zip(names, made, strict=True) if plain(name) not in WEAK}
    for place, name in enumerate(names):
        meaning, unit = made[place].meaning, made[place].unit
        if plain(name) in given or meaning == "note":
            continue
        if (meaning in said and unit is None) or (meaning in strong and plain(name) in WEAK):
            made[place] = Heading(NOTHING)
    _one_of_each(names, made)
    _enough(names, made)
    return Columns(headings=tuple(made), names=tuple(names))


def _with_its_unit(said: Heading, own: Heading) -> Heading:
    """Return what was said of a column, with the unit that its heading names."""
    return own if said.unit is None and own.meaning == said.meaning else said


def recognised(names: Sequence[str], given: Mapping[str, Heading]) -> int:
    """Return how many different meanings a row of headings has: the row with most of them is the headings."""
    found = [given.get(plain(name)) or heading(name) for name in names]
    return len({one.meaning for one in found if one is not None and one.meaning != NOTHING})


def _one_of_each(names: Sequence[str], made: Sequence[Heading]) -> None:
    """Raise Misread where two columns mean the same; notes may, and weights in two units."""
    for meaning in WORDS:
        same = [name for name, one in zip(names, made, strict=True) if one.meaning == meaning]
        units = [one.unit for one in made if one.meaning == meaning]
        if meaning == "weight" and len(same) == 2 and None not in units and units[0] != units[1]:
            continue  # pounds in one column and ounces in the other
        if len(same) > 1 and meaning not in (NOTHING, "note"):
            several = listed((quoted(name) for name in same), "and")
            raise Misread(
                "columns",
                f"the columns {several} {'both' if len(same) == 2 else 'all'} mean the {meaning}",
                f"one of them: say --map {quoted_argument(same[1], NOTHING)}",
            )


def _enough(names: Sequence[str], made: Sequence[Heading]) -> None:
    """Raise Misread where a needed column is missing, or no column says what was picked."""
    there = {one.meaning for one in made}
    missing = [meaning for meaning in NEEDED if meaning not in there]
    if there.isdisjoint(_WHAT):
        missing.append("crop")
    if not missing:
        return
    free = [name for name, one in zip(names, made, strict=True) if name and one.meaning == NOTHING]
    unsure = [name for name in names if plain(name) in UNSURE]
    if missing == ["weight"] and unsure:
        raise MissingColumns(
            "columns",
            f"the column {quoted(unsure[0])} may be a weight or a count",
            f"--map {quoted_argument(unsure[0], 'weight')} or --map {quoted_argument(unsure[0], 'count')}",
            missing=tuple(missing),
            free=tuple(dict.fromkeys(free)),
        )
    wanted = listed((f"the {meaning}" for meaning in missing), "and")
    left = listed((quoted(name) for name in free), "and")
    raise MissingColumns(
        "columns",
        f"no column is known to be {wanted}; "
        + (f"the columns left are {left}" if left else "every column is known to be something else"),
        f"--map {quoted_argument(free[0] if free else 'HEADING', missing[0])}",
        missing=tuple(missing),
        free=tuple(dict.fromkeys(free)),
    )


def quoted_argument(name: str, meaning: str) -> str:
    """Return a column and its meaning as they are said on the command line."""
    return f'"{name}={meaning}"'
