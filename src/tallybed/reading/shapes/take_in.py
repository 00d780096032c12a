"""``content/take-in.yaml``: how the garden's spreadsheets are to be read."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import TypeVar

from tallybed.garden.naming import folded
from tallybed.garden.units import WEIGHT_UNITS, Unit
from tallybed.reading.base.context import Context
from tallybed.reading.base.mappings import Key, Shape, take
from tallybed.reading.base.problems import LeftOut, Misread, listed, quoted
from tallybed.reading.base.scanners import chosen, said, wrong_kind
from tallybed.reading.shapes.common import CROP_NAME, LINE
from tallybed.reading.spreadsheet import columns
from tallybed.reading.spreadsheet.columns import Heading, Spelling
from tallybed.reading.spreadsheet.dates import DateOrder
from tallybed.reading.spreadsheet.weights import SPACES
from tallybed.reading.text import dates
from tallybed.reading.text.measures import nearest_unit
from tallybed.reading.yaml.nodes import Node, Pairs, Text

T = TypeVar("T")


@dataclass(frozen=True, slots=True, kw_only=True)
class TakeInSettings:
    """What the garden settled about spreadsheets and the scale."""

    columns: Mapping[str, Heading] = field(default_factory=dict)
    """Plain heading to its meaning."""
    order: DateOrder | None = None
    """Which number comes first in dates that are all numbers."""
    unit: Unit | None = None
    """Of weights that neither cell nor heading give one; at the scale, of bare numbers."""
    decimal: str = ""
    """The sign before decimals, ``comma`` or ``point``; empty where that is not settled."""
    spaces: str = ""
    """What a space in ``1 250 g`` sets apart in spreadsheets, one of SPACES; empty where not settled."""
    names: Mapping[str, Mapping[str, str]] = field(default_factory=dict)
    """Season to folded name to slug; under an empty text the names that hold for every season."""
    blanks: bool | None = None
    """Whether rows without a date mean the date above; None where that is not settled."""

    spellings: Mapping[Spelling, str] = field(default_factory=dict)
    """What squares and weights mean that are not understood as they stand."""

    def names_of(self, season: str) -> Mapping[str, str]:
        """Return what names mean in a season: its own answers before those for all."""
        return {**self.names.get("", {}), **self.names.get(season, {})}


def _unit(text: str) -> Unit:
    """Read a unit of weight. Raises Misread."""
    found = columns.unit_named(text)
    if found is None:
        symbols = [unit.symbol for unit in WEIGHT_UNITS]
        near = nearest_unit(text, WEIGHT_UNITS)
        raise Misread("choice", f"{quoted(text)} is not a unit of weight", listed(symbols), near)
    return found


def _columns(node: Node, context: Context) -> Mapping[str, Heading]:
    """Read what headings mean, by heading in small letters and digits. Raises LeftOut."""
    scan = said(columns.meant, "the meaning of a column, such as crop or weight")
    return _each(
        node, COLUMNS_TEXT, context, lambda name, value: (columns.plain(name.text), scan(value, context))
    )


def _names(node: Node, context: Context) -> Mapping[str, Mapping[str, str]]:
    """Read the crops that names mean: season to folded name to slug. Raises LeftOut."""
    everywhere: dict[str, str] = {}

    def answers(season: Text, value: Node) -> tuple[str, Mapping[str, str]]:
        """Read the names of one season, or one name for all. Raises LeftOut."""
        if dates.SEASON_NAME.fullmatch(season.text):
            return season.text, _each(value, NAMES_TEXT, context, answer)
        if isinstance(value, Text):
            name, crop = answer(season, value)
            everywhere[name] = crop
            return "", everywhere
        found = f"{quoted(season.text)} is neither a year nor a name with its crop"
        context.problems.add(season.place, "not-a-year", found, expected=dates.YEAR)
        raise LeftOut

    def answer(name: Text, crop: Node) -> tuple[str, str]:
        """Read a name and its crop. Raises LeftOut."""
        return folded(name.text), _one_crop(crop, context)

    return _each(node, NAMES_TEXT, context, answers)


def _spellings(node: Node, context: Context) -> Mapping[str, str]:
    """Read what texts of cells mean, by folded text. Raises LeftOut."""
    return _each(node, SPELLINGS_TEXT, context, lambda text, value: (folded(text.text), LINE(value, context)))


def _each(
    node: Node, expected: str, context: Context, scan: Callable[[Text, Node], tuple[str, T]]
) -> dict[str, T]:
    """Read every pair of a mapping. Raises LeftOut, after all was told, where some cannot be read."""
    if not isinstance(node, Pairs):
        wrong_kind(node, expected, context)
    found: dict[str, T] = {}
    broken = node.repeats
    for name, value in node.pairs:
        try:
            key, read = scan(name, value)
            found[key] = read
        except LeftOut:
            broken = True
    if broken:
        raise LeftOut
    return found


def _one_crop(node: Node, context: Context) -> str:
    """Read the slug of a crop; a general name is told. Raises LeftOut."""
    name = CROP_NAME(node, context)
    if name.slug is None:
        found = f"{quoted(name.typed)} may mean several crops"
        context.problems.add(node.place, "general-crop", found, expected=context.one_of(name.slugs))
        raise LeftOut
    return name.slug


SIGNS = ("comma", "point")
_OTHER_ORDERS = {
    **dict.fromkeys(("us", "american", "mm/dd", "mm/dd/yyyy", "m/d", "mdy", "month"), "month-first"),
    **dict.fromkeys(("uk", "european", "dd/mm", "dd/mm/yyyy", "d/m", "dmy", "day"), "day-first"),
}
_OTHER_SIGNS = {",": "comma", **dict.fromkeys((".", "dot", "period", "full stop"), "point")}
_OTHER_BLANKS = {
    **dict.fromkeys(("same", "same as above", "above", "ditto", "yes"), "as above"),
    **dict.fromkeys(("none", "unknown", "empty", "no"), "no date"),
}
COLUMNS_TEXT = "headings with their meaning, as in {Wt: weight (oz), Who: nothing}"
NAMES_TEXT = "names and their crop, for all seasons or for one, as in {2026: {toms: tomato-indeterminate}}"
SPELLINGS_TEXT = "texts of cells with what they mean, as in {by the gate: long/A1:A4}"
COLUMNS = Key("columns", _columns, COLUMNS_TEXT)
ORDER = Key(
    "dates",
    chosen({order.value: order for order in DateOrder}, "an order of dates", _OTHER_ORDERS),
    listed(DateOrder),
)
UNIT = Key("unit", said(_unit, "a unit of weight"), "a unit of weight such as oz")
NAMES = Key("names", _names, NAMES_TEXT)
DECIMAL = Key(
    "decimal", chosen({sign: sign for sign in SIGNS}, "a sign before decimals", _OTHER_SIGNS), listed(SIGNS)
)
SPACE = Key("spaces", chosen({one: one for one in SPACES}, "what a space sets apart"), listed(SPACES))
BLANKS = Key(
    "blank dates",
    chosen({"as above": True, "no date": False}, "what a blank date means", _OTHER_BLANKS),
    "as above, or no date",
)
SQUARES = Key("squares", _spellings, SPELLINGS_TEXT)
WEIGHTS = Key("weights", _spellings, SPELLINGS_TEXT)
TAKING = Shape("take-in.yaml", (COLUMNS, ORDER, UNIT, DECIMAL, SPACE, BLANKS, NAMES, SQUARES, WEIGHTS))


def taking(node: Node, context: Context) -> TakeInSettings:
    """Read what the garden settled about spreadsheets. Raises LeftOut."""
    row = take(node, TAKING, context)
    row.finish()
    return TakeInSettings(
        columns=row.get(COLUMNS) or {},
        order=row.get(ORDER),
        unit=row.get(UNIT),
        decimal=row.get(DECIMAL) or "",
        spaces=row.get(SPACE) or "",
        names=row.get(NAMES) or {},
        blanks=row.get(BLANKS),
        spellings={
            (meaning, text): value
            for meaning, key in (("squares", SQUARES), ("weight", WEIGHTS))
            for text, value in (row.get(key) or {}).items()
        },
    )
