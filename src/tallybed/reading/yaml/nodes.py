"""YAML as nodes that know their file, line and column.

The text passes as events first, so that nothing dangerous (aliases, deep or
endless nesting) is ever composed. Plain scalars stay as typed: ``no``,
``12:30`` and ``010`` are texts.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

import yaml

from tallybed.garden.findings import Place
from tallybed.reading.base.invisible import UNSEEN, told
from tallybed.reading.base.problems import LeftOut, Misread, Notes, quoted
from tallybed.reading.yaml.mistakes import DEEPEST, special, too_deep, trouble

MOST_NODES = 200_000
"""Values in one file; a ledger of ten thousand rows has about 120 000."""
_LOADER: Any = getattr(yaml, "CBaseLoader", yaml.BaseLoader)
"""Of the base kind: it resolves no scalar to a number or a date, which we would throw away."""


@dataclass(frozen=True, slots=True)
class Text:
    """A scalar as typed."""

    text: str
    place: Place
    shift: int | None = None
    """Columns from the place to the text's first character; None where columns inside it cannot be told."""

    def at(self, offset: int) -> Place:
        """Return the place of a character within the text, as near as it can be told."""
        if self.shift is None or not offset:
            return self.place
        return Place(self.place.file, self.place.line, self.place.column + self.shift + offset)


@dataclass(frozen=True, slots=True)
class Items:
    """A list."""

    items: tuple[Node, ...]
    place: Place


@dataclass(frozen=True, slots=True)
class Pairs:
    """A mapping, in the order written; keys are unique texts."""

    pairs: tuple[tuple[Text, Node], ...]
    place: Place
    flow: bool = False
    """Whether it was written in braces, where a comma ends a value."""
    repeats: bool = field(default=False, compare=False)
    """Whether a key stood there twice (told already)."""

    def get(self, name: str) -> Node | None:
        """Return the value of a key, or None."""
        return next((value for key, value in self.pairs if key.text == name), None)


Node = Text | Items | Pairs


def parse(text: str, file: str, notes: Notes, *, first_line: int = 1) -> Node | None:
    """Return the one document of a YAML text, or None where it holds nothing.

    ``first_line`` is the file's line on which the text begins (2 for a header).
    Raises LeftOut after telling what is wrong.
    """
    offset = first_line - 1
    try:
        _guard(text, file, offset)
        root = yaml.compose(text, Loader=_LOADER)
    except _Refused as refused:
        notes.misread(refused.place, refused.misread)
        raise LeftOut from None
    except yaml.MarkedYAMLError as error:
        mark = error.problem_mark or error.context_mark
        line, column = (mark.line, mark.column) if mark else (0, 0)
        line, column, misread = trouble(text, line, column)
        notes.misread(Place(file, line + 1 + offset, column + 1), misread)
        raise LeftOut from None
    return None if root is None else _converted(root, file, offset, notes)


@dataclass
class _Refused(Exception):  # noqa: N818
    place: Place
    misread: Misread


def _guard(text: str, file: str, offset: int) -> None:
    """Let the events pass and refuse what a garden's file never needs. Raises _Refused, YAMLError."""
    _refuse_directives(text, file, offset)
    depth = nodes = documents = 0
    for event in _events(text):
        if isinstance(event, yaml.DocumentStartEvent):
            documents += 1
            if documents > 1:
                raise _Refused(
                    _place(event, file, offset),
                    Misread(
                        "several-documents",
                        "a line of three hyphens begins a second part here",
                        "one part in the file",
                        remedy="delete the line of hyphens",
                    ),
                )
        if isinstance(event, yaml.CollectionStartEvent):
            depth += 1
            if depth > DEEPEST:
                raise _Refused(_place(event, file, offset), too_deep())
        elif isinstance(event, yaml.CollectionEndEvent):
            depth -= 1
        if isinstance(event, yaml.NodeEvent):
            nodes += 1
            if nodes > MOST_NODES:
                many = Misread("too-many-values", f"the file holds over {MOST_NODES} values")
                raise _Refused(_place(event, file, offset), many)
            sign = _sign(event)
            if sign:
                raise _Refused(_place(event, file, offset), special(sign[0], sign))


def _refuse_directives(text: str, file: str, offset: int) -> None:
    """Refuse lines that instruct the parser, which a garden never needs; thousands of them take minutes."""
    for number, line in enumerate(text.split("\n")):
        if line.startswith("%"):
            found = "a line cannot begin with %"
            raise _Refused(
                Place(file, number + 1 + offset), Misread("broken-yaml", found, remedy="delete it")
            )
        if line.strip() and not line.startswith("#"):
            return


def _sign(event: Any) -> str:
    """Return the anchor, alias or tag of a node as it is written, a tag by its sign alone; else nothing."""
    if event.anchor is not None:
        return ("*" if isinstance(event, yaml.AliasEvent) else "&") + str(event.anchor)
    return "!" if getattr(event, "tag", None) is not None else ""


def _events(text: str) -> Iterator[Any]:
    yield from yaml.parse(text, Loader=_LOADER)


def _place(holder: Any, file: str, offset: int) -> Place:
    mark = holder.start_mark
    return Place(file, mark.line + 1 + offset, mark.column + 1)


def _converted(node: Any, file: str, offset: int, notes: Notes) -> Node:
    place = _place(node, file, offset)
    if isinstance(node, yaml.ScalarNode):
        unseen = UNSEEN.search(node.value)
        if unseen is not None:  # written as an escape within double quotes
            notes.add(place, "unseen-character", told(unseen.group()), remedy="delete it")
            raise LeftOut
        return Text(node.value, place, _shift(node))
    if isinstance(node, yaml.SequenceNode):
        return Items(tuple(_converted(item, file, offset, notes) for item in node.value), place)
    pairs: list[tuple[Text, Node]] = []
    seen: dict[str, Place] = {}
    repeats = False
    for key_node, value_node in node.value:
        if notes.full(file):
            raise LeftOut
        key = _converted(key_node, file, offset, notes)
        value = _converted(value_node, file, offset, notes)
        if not isinstance(key, Text):
            notes.add(
                key.place,
                "key-not-text",
                "a list or a group of keys stands before a colon",
                expected="a word",
            )
            repeats = True
        elif key.text in seen:
            first = seen[key.text]
            notes.add(
                key.place,
                "duplicate-key",
                f"the key {quoted(key.text)} stands here a second time; the first is on line {first.line}",
                remedy="keep one of them",
                related=(first,),
            )
            repeats = True
        else:
            seen[key.text] = key.place
            pairs.append((key, value))
    return Pairs(tuple(pairs), place, bool(node.flow_style), repeats)


def _shift(node: yaml.ScalarNode) -> int | None:
    """Return the columns before the first character, where the text stands on its line as it is read."""
    start, end = node.start_mark, node.end_mark
    if start.line != end.line or node.style in ("|", ">"):
        return None
    quotes = 1 if node.style in ("'", '"') else 0
    return quotes if end.column - start.column - 2 * quotes == len(node.value) else None
