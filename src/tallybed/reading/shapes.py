"""Mappings described key by key, so that unknown, missing and misplaced values are all told one way.

A shape lists its keys; each key has a scanner that turns the value's node into
a typed value. ``take`` reads a mapping by its shape into a Row; a Row with
trouble is told in full and then left out by whoever asked for it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any, Generic, NoReturn, TypeVar, cast

from tallybed.garden.findings import Place, Severity
from tallybed.reading.desk import Desk
from tallybed.reading.nodes import Items, Node, Pairs, Text
from tallybed.reading.notes import LeftOut, Misread, listed, nearest, quoted

T = TypeVar("T")
T_co = TypeVar("T_co", covariant=True)
Scanner = Callable[[Node, Desk], T]
"""Node to value; tells the desk's notes what is wrong and raises LeftOut."""


@dataclass(frozen=True, slots=True)
class Key(Generic[T_co]):
    """One key of a mapping: its name, how its value is read, what is expected, in the gardener's words."""

    name: str
    scan: Callable[[Node, Desk], T_co]
    expected: str
    required: bool = False


@dataclass(frozen=True, slots=True)
class Shape:
    """The keys that a kind of mapping may have; ``what`` names it with its article, as in ``a planting``."""

    what: str
    keys: tuple[Key[Any], ...]

    @property
    def names(self) -> tuple[str, ...]:
        """The names of all keys, in order."""
        return tuple(key.name for key in self.keys)


@dataclass
class Row:
    """The values read from one mapping. ``broken`` once anything in it was not understood."""

    node: Pairs
    desk: Desk
    broken: bool = False
    _values: dict[str, object] = field(default_factory=dict)

    @property
    def place(self) -> Place:
        """Where the mapping begins."""
        return self.node.place

    def __getitem__(self, key: Key[T]) -> T:
        """Return the value of a required key. Raises KeyError where the row is broken."""
        return cast("T", self._values[key.name])

    def get(self, key: Key[T]) -> T | None:
        """Return a value, or None where it was left out (or is broken)."""
        return cast("T | None", self._values.get(key.name))

    def told(self, key: Key[Any]) -> bool:
        """Return whether the key stands there with a value, understood or not."""
        node = self.node.get(key.name)
        return node is not None and not is_empty(node)

    def place_of(self, key: Key[Any]) -> Place:
        """Return the place of a key's value, or of the mapping where there is none."""
        node = self.node.get(key.name)
        return self.place if node is None else node.place

    def wrong(self, at: Key[Any] | Place, code: str, found: str, **parts: Any) -> None:
        """Tell something wrong about the row as a whole, at a key's value or a place; the row is broken."""
        place = at if isinstance(at, Place) else self.place_of(at)
        self.desk.notes.add(place, code, found, **parts)
        self.broken = True

    def finish(self) -> None:
        """Raise LeftOut if the row is broken."""
        if self.broken:
            raise LeftOut


def is_empty(node: Node) -> bool:
    """Return whether nothing was written after a key's colon."""
    return isinstance(node, Text) and not node.text.strip()


def take(node: Node, shape: Shape, desk: Desk) -> Row:
    """Read a mapping by its shape. Raises LeftOut where it is no mapping at all."""
    if not isinstance(node, Pairs):
        keys = listed(shape.names[:4], "and")
        wrong_kind(node, f"{shape.what}: keys such as {keys}", desk)
    row = Row(node, desk, broken=node.repeats)
    by_name = {key.name: key for key in shape.keys}
    offered: set[str] = set()
    for name, value in node.pairs:
        key = by_name.get(name.text)
        if key is None:
            offered.add(_unknown(name, value, row, shape))
        elif is_empty(value):
            _empty(value, key, row)
        else:
            try:
                row._values[key.name] = key.scan(value, desk)
            except LeftOut:
                row.broken = True
    for key in shape.keys:
        if key.required and node.get(key.name) is None:
            row.broken = True
            if key.name not in offered:
                found = f"{shape.what} has no key {quoted(key.name)}"
                row.wrong(row.place, "missing-key", found, expected=f"{key.name}: {key.expected}")
    return row


def _unknown(name: Text, value: Node, row: Row, shape: Shape) -> str:
    """Tell of a key that the shape does not know; return the key it may have meant."""
    if row.node.flow and is_empty(value):
        row.wrong(
            name.place,
            "stray-comma",
            f"{quoted(name.text)} stands alone after a comma",
            remedy="in braces a comma ends the value: put a text that holds a comma in quotes",
        )
        return ""
    free = [key for key in shape.names if row.node.get(key) is None]
    close = nearest(name.text, free)
    row.wrong(
        name.place,
        "unknown-key",
        f"{shape.what} has no place for the key {quoted(name.text)}",
        expected="" if close else f"one of: {listed(free)}",
        nearest=close,
    )
    return close


def _empty(value: Node, key: Key[Any], row: Row) -> None:
    if key.required:
        row.wrong(value.place, "empty-value", f"nothing follows {quoted(key.name)}", expected=key.expected)
        return
    row.desk.notes.add(
        value.place,
        "empty-value",
        f"nothing follows {quoted(key.name)}; it counts as left out",
        remedy="fill it in or delete the key",
        severity=Severity.WARNING,
    )


_KINDS = {Items: "a list", Pairs: "a mapping", Text: "a plain text"}


def wrong_kind(node: Node, expected: str, desk: Desk) -> NoReturn:
    """Tell that a list, a mapping or a text stands where something else belongs. Raises LeftOut always."""
    if is_empty(node):
        desk.notes.add(node.place, "empty-value", "nothing stands here", expected=expected)
        raise LeftOut
    kind = _KINDS[type(node)]
    if isinstance(node, Text):
        kind = f"the plain text {quoted(node.text)}"
    desk.notes.add(node.place, "wrong-kind", f"{kind} stands here", expected=expected)
    raise LeftOut


def as_it_stands(node: Node, _desk: Desk) -> Node:
    """Return the node itself: it is read once its surroundings are known."""
    return node


def said(scan: Callable[[str], T], expected: str) -> Scanner[T]:
    """Return a scanner for one text."""
    return spoken(lambda text, _desk: scan(text), expected)


def spoken(scan: Callable[[str, Desk], T], expected: str) -> Scanner[T]:
    """Return a scanner for one text whose meaning depends on the desk (season, beds, crops)."""

    def scanner(node: Node, desk: Desk) -> T:
        if not isinstance(node, Text) or is_empty(node):
            wrong_kind(node, expected, desk)
        try:
            return scan(node.text, desk)
        except Misread as misread:
            desk.notes.misread(node.at(misread.at), misread)
            raise LeftOut from None

    return scanner


def every(scan: Scanner[T], expected: str) -> Scanner[tuple[T, ...]]:
    """Return a scanner for a list of values, or one value alone; one broken value breaks the list."""

    def scanner(node: Node, desk: Desk) -> tuple[T, ...]:
        nodes = node.items if isinstance(node, Items) else (node,)
        if not nodes:
            desk.notes.add(node.place, "empty-list", "the list is empty", expected=expected)
            raise LeftOut
        values = kept(scan, nodes, desk)
        if len(values) < len(nodes):
            raise LeftOut
        return values

    return scanner


def rows(scan: Scanner[T]) -> Scanner[tuple[T, ...]]:
    """Return a scanner for a list of records (or one alone); a broken one is left out, the rest kept."""

    def scanner(node: Node, desk: Desk) -> tuple[T, ...]:
        return kept(scan, node.items if isinstance(node, Items) else (node,), desk)

    return scanner


def kept(scan: Scanner[T], nodes: Iterable[Node], desk: Desk) -> tuple[T, ...]:
    """Return the values that could be read; what is wrong with the others has been told."""
    values: list[T] = []
    for node in nodes:
        try:
            values.append(scan(node, desk))
        except LeftOut:
            continue
    return tuple(values)


def chosen(choices: Mapping[str, T], what: str) -> Scanner[T]:
    """Return a scanner for one of a few words."""
    expected = listed(choices)

    def scan(text: str) -> T:
        word = " ".join(text.split()).casefold()
        if word not in choices:
            raise Misread("choice", f"{quoted(text)} is no {what}", expected, nearest(word, choices))
        return choices[word]

    return said(scan, expected)
