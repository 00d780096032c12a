"""Prose in which lists, quotations or brackets lie so deep in each other that no page can show them."""

from __future__ import annotations

import re

DEEPEST = 50
"""Levels that a text may have. Our choice: nobody reads ten, and the library that makes markup of
the text gives up at some two hundred lists, and needs minutes for some ten thousand brackets."""

_STEP = 4
"""Columns of indentation for each level, as in Markdown (from the text of its first description)."""
_MARK = re.compile(r"[ \t]*(?:[-*+]|[0-9]{1,9}\.)(?=[ \t])|[ \t]*>")
_RULE = re.compile(r"[ \t]*(?:(?:-[ \t]*){3,}|(?:\*[ \t]*){3,})\Z")
"""A line across the page, which is made of the signs that lists are made of."""
_BRACKET = re.compile(r"\\.|\[|\]\(?|\)")
"""A bracket that may be a link's, or a sign that a backslash takes its meaning from."""


def too_deep(prose: str) -> tuple[int, int] | None:
    """Return line and column (from 1) of the first mark that lies too deep, or None."""
    for number, line in enumerate(prose.split("\n"), start=1):
        column = _too_deep_at(line)
        if column is not None:
            return number, column
    return None


def _too_deep_at(line: str) -> int | None:
    if len(line) <= DEEPEST or _RULE.match(line):
        return None
    start = len(line) - len(line.lstrip(" \t"))
    level = len(line[:start].expandtabs(_STEP)) // _STEP
    if level > DEEPEST:
        return start + 1
    for _ in range(level, DEEPEST + 1):
        mark = _MARK.match(line, start)
        if mark is None:
            return None
        last, start = mark.end(), mark.end()
    return last


def brackets_too_deep(prose: str) -> tuple[int, int] | None:
    """Return line and column (from 1) of the first bracket of a link that lies too deep, or None.

    One that is never closed holds all of its paragraph that comes after it.
    """
    square = round_ = 0
    for number, line in enumerate(prose.split("\n"), start=1):
        if not line.strip():
            square = round_ = 0
        for found in _BRACKET.finditer(line):
            sign = found.group()
            if sign == "[":
                square += 1
            elif sign == ")":
                round_ = max(0, round_ - 1)
            elif sign[0] == "]":
                square = max(0, square - 1)
                round_ += sign == "]("
            if max(square, round_) > DEEPEST:
                return number, found.start() + 1
    return None
