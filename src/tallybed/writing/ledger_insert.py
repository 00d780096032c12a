"""Where new rows go in a ledger's text, whatever form the gardener gave it.

Nothing that stands there is touched: bytes are put in, none is changed or taken away.
Rows are added at the end of a list of hyphens, and before the closing bracket of a list
in brackets; one that stands on a single line, as an empty one does, first becomes a list
of hyphens, a line for each row. Comments, blank lines, line ends, a byte order mark and a
last line without an end stay as they are.
"""

from __future__ import annotations

import codecs
import re
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate
from typing import Any

import yaml

_LOADER: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
_LINE = re.compile(r"[^\r\n]*(?:\r\n|\r|\n|$)")
_COMMENT = re.compile(r"(?:(?<=\s)|^)#[^\r\n]*")
_BREAK = re.compile(r"[\r\n]")
_LINE_END = re.compile(r"\A[ \t]*(?:\r\n|\r|\n)?")
_ODD_BREAKS = re.compile("[\x85\u2028\u2029]")


class UnfitError(Exception):
    """A ledger cannot take a row; the message says why."""


def with_rows(data: bytes, rows: Sequence[str]) -> bytes:
    """Return a ledger's bytes with more rows, each given as a mapping in braces.

    Raises UnfitError where the bytes are not a list that a row can join.
    """
    mark = codecs.BOM_UTF8 if data.startswith(codecs.BOM_UTF8) else b""
    try:
        text = data[len(mark) :].decode("utf-8")
    except UnicodeDecodeError:
        raise UnfitError("it is not written in UTF-8") from None
    if _ODD_BREAKS.search(text):
        raise UnfitError("it has a character in it that cannot be seen")
    if rows:
        text = _with_hyphens(text, _outline(text))
        for at, piece in sorted(_pieces(text, _outline(text), rows), reverse=True):
            text = text[:at] + piece + text[at:]
    return mark + text.encode("utf-8")


@dataclass(frozen=True, slots=True, kw_only=True)
class _Outline:
    """What a ledger's text is, with places as counts of characters."""

    end: int
    """Where the list's part of the text ends: at its end, or before a line of three dots."""
    indent: int = 0
    """Columns before the hyphens."""
    bracket: int | None = None
    """The closing bracket; None for a list of hyphens, or where there is none yet."""
    opening: int = 0
    inside: tuple[tuple[int, int], ...] = ()
    """Where each row in the brackets begins and ends."""

    @property
    def last(self) -> int | None:
        """The end of the last row in brackets; None where there is none."""
        return self.inside[-1][1] if self.inside else None


class _Walk:
    """A walk through the events of a text, for the one list that it is."""

    def __init__(self, text: str) -> None:
        self._starts = [0, *accumulate(len(line) for line in _LINE.findall(text))]
        self._depth = 0
        self.root: Any = None
        self.end = len(text)
        self.bracket: int | None = None
        self.inside: list[tuple[int, int]] = []
        self._begins = 0

    def at(self, mark: Any) -> int:
        """Return a place as characters from the beginning."""
        return int(self._starts[mark.line] + mark.column)

    def take(self, event: Any) -> None:
        """Take in one event."""
        if isinstance(event, yaml.DocumentEndEvent) and event.explicit:
            self.end = self.at(event.start_mark)
        elif isinstance(event, yaml.CollectionEndEvent):
            self._depth -= 1
            self.bracket = self.at(event.start_mark)  # the list's own comes last
        elif isinstance(event, yaml.NodeEvent):
            if self.root is None:
                self.root = event
            elif self._depth == 1:
                self._begins = self.at(event.start_mark)
            self._depth += isinstance(event, yaml.CollectionStartEvent)
        if self._depth == 1 and isinstance(event, yaml.ScalarEvent | yaml.CollectionEndEvent):
            self.inside.append((self._begins, self.at(event.end_mark)))


def _outline(text: str) -> _Outline:
    """Return where a ledger's list lies in its text. Raises UnfitError where it is not a list."""
    walk = _Walk(text)
    try:
        for event in yaml.parse(text, Loader=_LOADER):
            walk.take(event)
    except yaml.YAMLError:
        raise UnfitError("it cannot be read") from None
    root = walk.root
    if root is None or (isinstance(root, yaml.ScalarEvent) and not root.value and not root.style):
        return _Outline(end=walk.end)
    if not isinstance(root, yaml.SequenceStartEvent):
        raise UnfitError("it is not a list of weighings")
    begins: Any = root.start_mark
    if not root.flow_style:
        return _Outline(end=walk.end, indent=begins.column)
    return _Outline(
        end=walk.end,
        bracket=walk.bracket,
        opening=walk.at(begins),
        inside=tuple(walk.inside),
    )


def _with_hyphens(text: str, outline: _Outline) -> str:
    """Return a text with a list in brackets on a line of its own as one of hyphens; any other as it is."""
    begins, close = _line_start(text, outline.opening), outline.bracket
    if close is None or text[begins : outline.opening].strip() or _BREAK.search(text, outline.opening, close):
        return text
    lead = text[begins : outline.opening]
    rows = [f"{lead}- {text[start:end]}" for start, end in outline.inside]
    behind = text[close + 1 :]
    if not rows:  # what stood behind the brackets on their line begins it; an empty line goes with them
        behind = _LINE_END.sub("", behind, count=1)
    return text[:begins] + _line_end(text).join(rows) + behind


def _pieces(text: str, outline: _Outline, rows: Sequence[str]) -> list[tuple[int, str]]:
    """Return what is to be put in, each at its place in the text as it was."""
    line_end = _line_end(text)
    if outline.bracket is None:
        at = outline.end
        lead = line_end if at and text[at - 1] not in "\r\n" else ""
        lines = "".join(f"{' ' * outline.indent}- {row}{line_end}" for row in rows)
        return [(at, lead + lines)]
    close, line = outline.bracket, _line_start(text, outline.bracket)
    between = text[outline.last if outline.last is not None else outline.opening + 1 : close]
    bare = _COMMENT.sub(lambda comment: " " * len(comment.group()), between)
    comma = "," in bare
    indent = _indent_of(text, outline)
    if not _BREAK.search(bare):
        if outline.last is None:
            return [(close, ", ".join(rows))]
        at = outline.last + bare.index(",") + 1 if comma else outline.last
        apart = f",{line_end}{indent}" if _BREAK.search(text, outline.opening, close) else ", "
        return [(at, f"{apart[comma:]}{apart.join(rows)}")]
    pieces = [] if comma or outline.last is None else [(outline.last, ",")]
    if text[line:close].strip():  # something stands before the bracket on its line
        return [*pieces, (close, f"{', '.join(rows)} ")]
    lines = f",{line_end}".join(f"{indent}{row}" for row in rows)
    return [*pieces, (line, f"{lines}{',' if comma else ''}{line_end}")]


def _indent_of(text: str, outline: _Outline) -> str:
    """Return what stands before the last row on its line, else two spaces."""
    if outline.inside:
        begins = outline.inside[-1][0]
        before = text[_line_start(text, begins) : begins]
        if before and not before.strip():
            return before
    return "  "


def _line_start(text: str, at: int) -> int:
    """Return where the line begins that the character ``at`` stands on."""
    return max(text.rfind("\n", 0, at), text.rfind("\r", 0, at)) + 1


def _line_end(text: str) -> str:
    """Return how the text's lines end; where it has both ways, as most do."""
    windows = text.count("\r\n")
    counts = {"\n": text.count("\n") - windows, "\r\n": windows, "\r": text.count("\r") - windows}
    return max(counts, key=lambda end: counts[end])
