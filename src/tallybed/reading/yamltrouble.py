"""What is most likely wrong where a YAML file cannot be read, judged from the gardener's own line.

The parser's message is never repeated or guessed from: it speaks of tokens and
flow mappings. Only its place is used, and the text around it.
"""

from __future__ import annotations

import re

from tallybed.reading.notes import Misread, quoted

_INDENT = re.compile(r"[ \t]*")
_OPENERS = {"[": "]", "{": "}"}


def trouble(text: str, line: int, column: int) -> tuple[int, int, Misread]:
    """Return line and column (from 0) and the likely trouble of a text the parser refused there."""
    lines = text.split("\n")
    line = min(line, len(lines) - 1)
    here = lines[line]
    for number in (line, line - 1):
        if number >= 0:
            indent = _INDENT.match(lines[number])
            if indent and "\t" in indent.group():
                return number, indent.group().index("\t"), _tab()
    opened = _unclosed(lines[: line + 1])
    if opened is not None:
        return opened
    rest = here[column:]
    if rest.startswith(":"):
        return line, column, _colon(here)
    if rest[:1] in {"@", "`", "%"}:
        return line, column, _sign(rest[0])
    found = f"the file cannot be read from here on: {quoted(here)}" if here.strip() else _END
    remedy = "look for a missing colon, quote or bracket, or lines that do not begin in one column"
    return line, column, Misread("broken-yaml", found, remedy=remedy)


_END = "the file cannot be read from here on"


def _tab() -> Misread:
    return Misread(
        "tab",
        "a tab stands at the beginning of the line",
        "spaces",
        remedy="replace each tab by two spaces",
    )


def _colon(here: str) -> Misread:
    return Misread(
        "broken-yaml",
        f"a second colon stands in the line {quoted(here)}",
        remedy="put a text that holds a colon in quotes, and begin each key in the column of the one above",
    )


def _sign(sign: str) -> Misread:
    return Misread("broken-yaml", f"a text cannot begin with {sign} here", remedy="put the text in quotes")


def _unclosed(lines: list[str]) -> tuple[int, int, Misread] | None:
    """Return the last quote or bracket left open, if any; comments and quoted texts are passed over."""
    open_signs: list[tuple[str, int, int]] = []
    quote: tuple[str, int, int] | None = None
    for number, text in enumerate(lines):
        before = " "
        for column, sign in enumerate(text):
            if quote is not None:
                if sign == quote[0]:
                    quote = None
            elif sign == "#" and before.isspace():
                break
            elif sign in "\"'" and before in " \t[{,:":
                quote = (sign, number, column)
            elif sign in _OPENERS and (open_signs or before in " \t[{,"):
                open_signs.append((sign, number, column))
            elif open_signs and sign == _OPENERS[open_signs[-1][0]]:
                open_signs.pop()
            before = sign
    if quote is not None:
        sign, number, column = quote
        return number, column, Misread("broken-yaml", f"the quotation mark {sign} is never closed")
    if open_signs:
        sign, number, column = open_signs[-1]
        closing = _OPENERS[sign]
        return (
            number,
            column,
            Misread("broken-yaml", f"the bracket {sign} is not closed", f"a closing {closing}"),
        )
    return None
