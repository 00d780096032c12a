"""YAML as nodes that know their file, line and column.

Nodes are made from the parser's events one by one, so that nothing dangerous
(aliases, deep or endless nesting) is ever composed. Plain scalars stay as
typed: ``no``, ``12:30`` and ``010`` are texts.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any, NamedTuple

import yaml

from tallybed.garden.findings import Place, Severity
from tallybed.garden.invisible import UNSEEN, described
from tallybed.reading.base.problems import MOST, LeftOut, Misread, Problems, quoted
from tallybed.reading.yaml.mistakes import DEEPEST, cut_by_hash, likely_mistake, special, too_deep

MOST_NODES = 200_000
"""Values in one file; a ledger of ten thousand rows has about 120 000."""
_LOADER: Any = getattr(yaml, "CBaseLoader", yaml.BaseLoader)
"""The parser in C, or in Python where PyYAML was built without it; only its events are used."""

_NODES = frozenset({yaml.ScalarEvent, yaml.AliasEvent, yaml.SequenceStartEvent, yaml.MappingStartEvent})
_ENDS = frozenset({yaml.SequenceEndEvent, yaml.MappingEndEvent})


class Text(NamedTuple):
    """A scalar as typed. A tuple, since a garden has tens of thousands of them."""

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
        for key, value in self.pairs:
            if key.text == name:
                return value
        return None


Node = Text | Items | Pairs


def parse(text: str, file: str, problems: Problems, *, first_line: int = 1) -> Node | None:
    """Return the one document of a YAML text, or None where it holds nothing.

    ``first_line`` is the file's line on which the text begins (2 for a header).
    Raises LeftOut after telling what is wrong.
    """
    builder = _Builder(text, file, first_line - 1)
    try:
        _refuse_directives(text, file, first_line - 1)
        parser = _LOADER(text)
        while (event := parser.get_event()) is not None:
            builder.take(event)
    except _Refused as refused:
        problems.misread(refused.place, refused.misread)
        raise LeftOut from None
    except yaml.MarkedYAMLError as error:
        mark = error.problem_mark or error.context_mark
        line, column = (mark.line, mark.column) if mark else (0, 0)
        line, column, misread = likely_mistake(text, line, column)
        problems.misread(Place(file, line + first_line, column + 1), misread)
        raise LeftOut from None
    builder.tell(problems)
    return builder.root


@dataclass
class _Refused(Exception):  # noqa: N818
    place: Place
    misread: Misread


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


@dataclass(slots=True)
class _Unfinished:
    """A list or a group of keys whose end has not been met yet."""

    place: Place
    flow: bool = False
    items: list[Node] = field(default_factory=list)
    """Of a list: its items."""
    pairs: dict[str, tuple[Text, Node]] | None = None
    """Of a group of keys: its pairs by key; None in a list."""
    key: Node | None = None
    """A key whose value has not been met yet."""
    repeats: bool = False


class _Builder:
    """Makes nodes of events, and refuses what a garden's file never needs.

    Trouble that leaves the YAML readable is kept until the whole text has passed:
    where the text turns out to be broken, that alone is told.
    """

    def __init__(self, text: str, file: str, offset: int) -> None:
        self.root: Node | None = None
        self._file = file
        self._offset = offset
        self._has_unseen = UNSEEN.search(text) is not None
        self._lines = text.split("\n") if " #" in text else []
        """The lines of the text, where a comment may stand behind a value."""
        self._open: list[_Unfinished] = []
        self._nodes = self._documents = 0
        self._troubles: list[tuple[Place, Misread]] = []
        self._doubts: list[tuple[Place, Misread]] = []

    def take(self, event: Any) -> None:
        """Take in one event. Raises _Refused."""
        kind = type(event)
        if kind in _NODES:
            self._node(kind, event)
        elif kind in _ENDS:
            done = self._open.pop()
            if done.pairs is None:
                self._add(Items(tuple(done.items), done.place))
            else:
                self._add(Pairs(tuple(done.pairs.values()), done.place, done.flow, done.repeats))
        elif kind is yaml.DocumentStartEvent:
            self._documents += 1
            if self._documents > 1:
                found = "a line of three hyphens begins a second part here"
                remedy = "delete the line of hyphens"
                misread = Misread("several-documents", found, "one part in the file", remedy=remedy)
                raise _Refused(self._place(event), misread)

    def tell(self, problems: Problems) -> None:
        """Tell the trouble that was kept. Raises LeftOut where it leaves nothing to be read."""
        for place, misread in self._troubles:
            problems.misread(place, misread)
            if misread.code == "unseen-character":
                raise LeftOut
        for place, misread in self._doubts:
            problems.misread(place, misread, Severity.WARNING)
        if self._troubles and problems.full(self._file):
            raise LeftOut

    def _place(self, event: Any) -> Place:
        """Return where an event begins in the file, from 1."""
        mark = event.start_mark
        return Place(self._file, mark.line + 1 + self._offset, mark.column + 1)

    def _node(self, kind: type, event: Any) -> None:
        """Take in a text, or the beginning of a list or mapping. Raises _Refused."""
        place = self._place(event)
        self._nodes += 1
        if self._nodes > MOST_NODES:
            raise _Refused(place, Misread("too-many-values", f"the file holds over {MOST_NODES} values"))
        if event.anchor is not None or event.tag is not None:
            sign = _sign(event)
            raise _Refused(place, special(sign[0], sign))
        if kind is yaml.ScalarEvent:
            if self._has_unseen or event.style == '"':  # in double quotes it may be written as an escape
                self._look_over(event.value, place)
            if self._lines and not event.style:
                self._look_behind(event)
            self._add(Text(event.value, place, _shift(event)))
        elif len(self._open) == DEEPEST:
            raise _Refused(place, too_deep())
        elif kind is yaml.MappingStartEvent:
            self._open.append(_Unfinished(place, bool(event.flow_style), pairs={}))
        else:
            self._open.append(_Unfinished(place))

    def _look_over(self, text: str, place: Place) -> None:
        """Keep, to be told later, a character of a text that cannot be seen."""
        unseen = UNSEEN.search(text)
        if unseen is not None:
            misread = Misread("unseen-character", described(unseen.group()), remedy="delete it")
            self._troubles.append((place, misread))

    def _look_behind(self, event: Any) -> None:
        """Keep, to be told later, a comment behind a text without quotes that may be the rest of it."""
        end = event.end_mark
        found = cut_by_hash(self._lines[end.line][end.column :], event.value)
        if found is not None and len(self._doubts) <= MOST:
            place = Place(self._file, end.line + 1 + self._offset, end.column + found[0] + 1)
            self._doubts.append((place, found[1]))

    def _add(self, node: Node) -> None:
        """Put a node where it belongs: an item, a key or a value of what is open, or the root."""
        if not self._open:
            self.root = node
            return
        here = self._open[-1]
        if here.pairs is None:
            here.items.append(node)
        elif here.key is None:
            here.key = node
        else:
            key, here.key = here.key, None
            self._add_pair(here, here.pairs, key, node)

    def _add_pair(
        self, here: _Unfinished, pairs: dict[str, tuple[Text, Node]], key: Node, value: Node
    ) -> None:
        """Put a key and its value into a mapping; one that is not a text, or repeats, is kept as trouble."""
        if len(self._troubles) > MOST:  # nobody is told more, and thousands take long to put into words
            here.repeats = True
            return
        if not isinstance(key, Text):
            found = "a list or a group of keys stands before a colon"
            self._troubles.append((key.place, Misread("key-not-text", found, "a word")))
            here.repeats = True
            return
        plain = key.text if ":" in key.text else " ".join(key.text.split())  # after a colon a space is told
        if plain != key.text:
            key = key._replace(text=plain, shift=None)
        if key.text not in pairs:
            pairs[key.text] = (key, value)
            return
        first = pairs[key.text][0].place
        misread = Misread(
            "duplicate-key",
            f"the key {quoted(key.text)} stands here a second time; the first is on line {first.line}",
            remedy="keep one of them",
        )
        self._troubles.append((key.place, misread))
        here.repeats = True


def _sign(event: Any) -> str:
    """Return the anchor or alias of a node as it is written, or the sign of its tag: it has one of them."""
    if event.anchor is not None:
        return ("*" if isinstance(event, yaml.AliasEvent) else "&") + str(event.anchor)
    return "!"


def _shift(event: Any) -> int | None:
    """Return the columns before the first character, where the text stands on its line as it is read."""
    start, end, style = event.start_mark, event.end_mark, event.style
    if start.line != end.line or style in ("|", ">"):
        return None
    quotes = 1 if style in ("'", '"') else 0
    return quotes if end.column - start.column - 2 * quotes == len(event.value) else None
