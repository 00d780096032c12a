"""Mappings described key by key, so that unknown, missing and misplaced values are all told one way.

A shape lists its keys; each key has a scanner that turns the value's node into
a typed value. ``take`` reads a mapping by its shape into a Row; a Row with
trouble is told in full and then left out by whoever asked for it.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from itertools import pairwise
from typing import Any, Generic, TypeVar, cast

from tallybed.garden.findings import Place, Severity
from tallybed.garden.naming import nearest
from tallybed.reading.base.context import Context, quiet
from tallybed.reading.base.other_keys import key_meant
from tallybed.reading.base.problems import LeftOut, listed, quoted
from tallybed.reading.base.scanners import is_empty, wrong_kind
from tallybed.reading.yaml.mistakes import odd_colon
from tallybed.reading.yaml.nodes import Node, Pairs, Text

T = TypeVar("T")
T_co = TypeVar("T_co", covariant=True)


@dataclass(frozen=True, slots=True)
class Key(Generic[T_co]):
    """One key of a mapping: its name, how its value is read, what is expected, in the gardener's words."""

    name: str
    scan: Callable[[Node, Context], T_co]
    expected: str
    required: bool = False
    never_empty: bool = False
    """Whether the key, once it stands there, needs a value."""


@dataclass(frozen=True)
class Shape:
    """The keys that a kind of mapping may have; ``what`` names it with its article, as in ``a planting``."""

    what: str
    keys: tuple[Key[Any], ...]
    hint: str = ""
    """What to name instead of every key, where there are too many."""
    instead: Mapping[str, str] = field(default_factory=dict)
    """Words that people write for something that is told otherwise, each with how to tell it."""

    @property
    def names(self) -> tuple[str, ...]:
        """The names of all keys, in order."""
        return tuple(key.name for key in self.keys)

    @cached_property
    def by_name(self) -> Mapping[str, Key[Any]]:
        """The keys by their names."""
        return {key.name: key for key in self.keys}

    @cached_property
    def required(self) -> tuple[Key[Any], ...]:
        """The keys that must stand there."""
        return tuple(key for key in self.keys if key.required)


@dataclass
class KeyedValues:
    """The values read from one mapping. ``broken`` once anything in it was not understood."""

    node: Pairs
    context: Context
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

    def has(self, key: Key[Any]) -> bool:
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
        self.context.problems.add(place, code, found, **parts)
        self.broken = True

    def finish(self) -> None:
        """Raise LeftOut if the row is broken."""
        if self.broken:
            raise LeftOut


def take(node: Node, shape: Shape, context: Context) -> KeyedValues:
    """Read a mapping by its shape. Raises LeftOut where it is not one at all, or its colons are none."""
    if not isinstance(node, Pairs):
        keys = listed(shape.names[:4], "and")
        wrong_kind(node, f"{shape.what}: keys such as {keys}", context)
    _refuse_odd_colon(node, context)
    row = KeyedValues(node, context, broken=node.repeats)
    offered: set[str] = set()
    cut = _cut_short(node, shape)
    for name, value in node.pairs:
        context.problems.remember(node.place, name.text, value.place)
        key = shape.by_name.get(name.text)
        if key is None:
            offered.add(_unknown(name, value, row, shape))
        elif is_empty(value):
            _empty(value, key, row)
        else:
            try:
                row._values[key.name] = key.scan(value, quiet(context) if name.text in cut else context)
            except LeftOut:
                row.broken = True
    for key in shape.required:
        if node.get(key.name) is None:
            row.broken = True
            if key.name not in offered and not node.repeats:
                found = f"{shape.what} has no key {quoted(key.name)}"
                row.wrong(row.place, "missing-key", found, expected=f"{key.name}: {key.expected}")
    return row


def _refuse_odd_colon(node: Pairs, context: Context) -> None:
    """Tell of a key in braces that no colon of YAML's ends, so that it holds its value. Raises LeftOut."""
    for name, value in node.pairs if node.flow else ():
        odd = odd_colon(name.text) if is_empty(value) else None
        if odd is not None:
            context.problems.misread(name.at(odd[0]), odd[1])
            raise LeftOut


def _cut_short(node: Pairs, shape: Shape) -> frozenset[str]:
    """Return the keys after whose text a comma ends the value, and the rest of it stands alone.

    The comma is told; what is wrong with the text before it follows from that.
    """
    if not node.flow:
        return frozenset()
    return frozenset(
        key.text
        for (key, value), (rest, nothing) in pairwise(node.pairs)
        if isinstance(value, Text) and is_empty(nothing) and rest.text not in shape.by_name
    )


def _unknown(name: Text, value: Node, row: KeyedValues, shape: Shape) -> str:
    """Tell of a key that the shape does not know; return the key that was named as missing in its place."""
    if row.context.problems.full(name.place.file):  # nobody is told more, and each looks at all keys
        row.broken = True
        return ""
    if row.node.flow and is_empty(value):
        row.wrong(
            name.place,
            "stray-comma",
            f"{quoted(name.text)} stands alone after a comma",
            remedy="in braces a comma ends the value: put a text that holds a comma in quotes",
        )
        return ""
    written = {key.text for key, _value in row.node.pairs}
    free = [key for key in shape.names if key not in written]
    remedy = shape.instead.get(name.text.casefold(), "")
    close = "" if remedy else key_meant(name.text, free) or nearest(name.text, free)
    rest = f"{'one of the keys' if len(free) > 1 else 'the key'} {listed(free)}"
    if not free:
        rest = "no other key, since all that it can have are there"
    row.wrong(
        name.place,
        "unknown-key",
        f"{shape.what} has no place for the key {quoted(name.text)}",
        expected=shape.hint or ("" if close else rest),
        nearest=close,
        remedy=remedy,
    )
    return close or (free[0] if len(free) == 1 and not (remedy or shape.hint) else "")


def _empty(value: Node, key: Key[Any], row: KeyedValues) -> None:
    """Tell that nothing follows a key: a mistake where the key must hold something, else a warning."""
    if key.required or key.never_empty:
        row.wrong(value.place, "empty-value", f"nothing follows {quoted(key.name)}", expected=key.expected)
        return
    row.context.problems.add(
        value.place,
        "empty-value",
        f"nothing follows {quoted(key.name)}; it counts as left out",
        remedy="fill it in or delete the key",
        severity=Severity.WARNING,
    )
