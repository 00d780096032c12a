"""What is most likely wrong where a YAML file cannot be read, judged from the gardener's own line.

The parser's message is never repeated or guessed from: it speaks of tokens and
flow mappings. Only its place is used, and the text around it.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from tallybed.reading.base.problems import Misread, quoted

DEEPEST = 20
"""Lists and groups of keys within each other; a garden needs five."""
_INDENT = re.compile(r"[ \t-]*")
_BEGINS_WITH = re.compile(r"(?:^|[:,\[{-]\s)\s*([*&!@`%])[^,\[\]{}]*$")
"""The last text before the trouble, where it begins with a sign that means something to YAML."""
_CLOSING = {"[": "]", "{": "}"}
_ODD_COLON = re.compile(
    "(?:^|[{,-])[ \t-]{0,40}([^\\W_][\\w -]{0,40})"
    "(:[\u00a0\u2000-\u200a\u202f\u205f\u3000]|[\ufe55\uff1a\ua789])"
)
"""A key with a colon, or a space after it, that looks like YAML's own and is none, as web pages have them."""

_CUT = re.compile(r"[ \t]+#(?=\w)")
"""A number sign behind a value, with a word on it: ``jar #4``. Remarks in our examples have a space there."""

PlacedMisread = tuple[int, int, Misread]


def likely_mistake(text: str, line: int, column: int) -> PlacedMisread:
    """Return line and column (from 0) and the likely trouble of a text the parser refused there."""
    lines = text.split("\n")
    line = min(line, len(lines) - 1)
    here = lines[line]
    found = _tab(lines, line) or _unclosed(lines[: line + 1]) or _odd_colon_near(lines, line)
    if found is not None:
        return found
    sign = _BEGINS_WITH.search(here[: column + 1])
    if sign is not None:
        return line, sign.start(1), special(sign.group(1), here[sign.start(1) : column])
    if here[column:].startswith(":"):
        return line, column, _colon(here, column)
    found_here = "the file cannot be read from here on"
    if here.strip():
        found_here += f": {quoted(here)}"
    remedy = "look for a missing colon, quote or bracket, or lines that do not begin in one column"
    return line, column, Misread("broken-yaml", found_here, remedy=remedy)


def special(sign: str, word: str = "") -> Misread:
    """Return what is wrong with a text that begins with a sign which means something to YAML."""
    code = {"*": "alias", "&": "alias", "!": "exclamation-mark"}.get(sign, "broken-yaml")
    found = f"a text that begins with {sign} has a special meaning here"
    if len(word) > 1:
        found += f": {quoted(word)}"
    return Misread(code, found, remedy="put the text in quotes")


def cut_by_hash(rest: str, value: str) -> tuple[int, Misread] | None:
    """Return where in the ``rest`` of a line after a value it goes on from a #, and the doubt; or None."""
    found = _CUT.match(rest)
    if found is None:
        return None
    at = found.end() - 1
    after = f" after {quoted(value)}" if value else ""
    words = f"what follows #{after} is passed over: {quoted(rest[at:])}"
    remedy = "put the whole text in quotes; if it is a remark to yourself, put a space after #"
    return at, Misread("stray-hash", words, remedy=remedy)


def _tab(lines: list[str], line: int) -> PlacedMisread | None:
    """Return the tab at the beginning of a line or of the one before it, or None."""
    for number in (line, line - 1):
        indent = _INDENT.match(lines[number]) if number >= 0 else None
        if indent and "\t" in indent.group():
            found = "a tab stands at the beginning of the line"
            misread = Misread("tab", found, "spaces", remedy="replace each tab by two spaces")
            return number, indent.group().index("\t"), misread
    return None


def odd_colon(text: str) -> tuple[int, Misread] | None:
    """Return where in a text a key has a colon, or a space after it, of another kind, and what is wrong."""
    match = None if text.isascii() else _ODD_COLON.search(text)
    if match is None:
        return None
    sign = match.group(2)
    kind, expected = ("space", "an ordinary space") if len(sign) == 2 else ("colon", "an ordinary colon")
    found = f"a {kind} of another kind stands after {quoted(match.group(1))}, U+{ord(sign[-1]):04X}"
    return match.end() - 1, Misread("broken-yaml", found, expected)


def _odd_colon_near(lines: list[str], line: int) -> PlacedMisread | None:
    """Return such a colon on a line, or on the last one before it that holds anything, or None."""
    before = next((number for number in range(line - 1, -1, -1) if lines[number].strip()), line)
    for number in (line, before):
        found = odd_colon(lines[number])
        if found is not None:
            return number, *found
    return None


def _colon(here: str, column: int) -> Misread:
    """Return what is wrong with a colon: a second one on the line, or a key in another column."""
    if ": " in here[:column]:
        found = f"a second colon stands in the line {quoted(here)}"
        remedy = "put a text that holds a colon in quotes"
        if here[:column].rfind("{") > here[:column].rfind("}"):
            remedy = f"put a comma between two keys; {remedy}"  # a semicolon, or nothing, parts them
        return Misread("broken-yaml", found, remedy=remedy)
    found = f"the key {quoted(here[:column])} begins in another column than the keys above it"
    return Misread("broken-yaml", found, remedy="let the keys of one record begin in one column")


@dataclass
class _Open:
    """Quotes and brackets open at one place of a text; quoted texts and comments are passed over."""

    brackets: list[tuple[str, int, int]] = field(default_factory=list)
    quote: tuple[str, int, int] | None = None

    def take(self, sign: str, before: str, line: int, column: int) -> None:
        """Take in one character and the one before it."""
        if self.quote is not None:
            if sign == self.quote[0]:
                self.quote = None
        elif sign in "\"'" and before in " \t[{,:":
            self.quote = (sign, line, column)
        elif sign in _CLOSING and (self.brackets or before in " \t[{,"):
            self.brackets.append((sign, line, column))
        elif self.brackets and sign == _CLOSING[self.brackets[-1][0]]:
            self.brackets.pop()


def _unclosed(lines: list[str]) -> PlacedMisread | None:
    """Return the last quote or bracket left open, or the first that lies too deep, if any."""
    signs = _Open()
    hidden: dict[tuple[str, int, int], tuple[int, int]] = {}
    for number, text in enumerate(lines):
        before = " "
        for column, sign in enumerate(text):
            if sign == "#" and before.isspace() and signs.quote is None:
                if signs.brackets and _CLOSING[signs.brackets[-1][0]] in text[column:]:
                    hidden.setdefault(signs.brackets[-1], (number, column))
                break
            signs.take(sign, before, number, column)
            if len(signs.brackets) > DEEPEST:
                return number, column, too_deep()
            before = sign
    if signs.quote is not None:
        sign, line, column = signs.quote
        return line, column, Misread("broken-yaml", f"the quotation mark {sign} is never closed")
    if signs.brackets:
        sign, line, column = signs.brackets[-1]
        if signs.brackets[-1] in hidden:
            line, column = hidden[signs.brackets[-1]]
            found = f"what follows # is passed over, and with it the {_CLOSING[sign]}"
            found += f": {quoted(lines[line][column:])}"
            return line, column, Misread("broken-yaml", found, remedy="put a text that holds # in quotes")
        expected = f"a closing {_CLOSING[sign]}"
        return line, column, Misread("broken-yaml", f"the bracket {sign} is not closed", expected)
    return None


def too_deep() -> Misread:
    """Return what is wrong where lists and groups of keys lie too deep in each other."""
    found = f"lists and groups of keys lie more than {DEEPEST} deep in each other"
    return Misread("too-deep", found, "a handful of levels at most")
