"""Files that begin with a header between two lines of hyphens, and go on in prose."""

from __future__ import annotations

import re
from dataclasses import dataclass
from itertools import islice

from tallybed.garden.findings import Place
from tallybed.reading.base.problems import LeftOut, Problems
from tallybed.reading.text.nesting import DEEPEST, brackets_too_deep, too_deep
from tallybed.reading.text.prose_tables import MOST_CELLS, too_large
from tallybed.reading.yaml.nodes import Node, Pairs, parse

RULE = "---"
MOST_LINES, MOST_CHARACTERS = 2_000, 100_000
"""Bounds of the prose of one file. Our choice: that is forty pages of a book. For each heading and list the
library that makes markup of it goes through the rest of the text, so ten thousand of them take minutes."""
MOST_SIGNS = 5_000
"""Signs with a meaning in the prose of one file: one in twenty characters of the longest. Our choice: for
each the library puts the paragraph together anew, so that 50,000 take minutes, and these a second."""
_SIGN = re.compile(r"[*_`\\\[\]<>&\"']")


@dataclass(frozen=True, slots=True)
class HeadedFile:
    """A file with its header read as nodes; the prose begins after it."""

    header: Node
    prose: str
    begins: Place
    """Where the prose begins."""


def split(text: str, file: str, problems: Problems) -> HeadedFile:
    """Return header and prose. Empty lines may stand before the header. Raises LeftOut after telling."""
    lines = text.split("\n")
    first = next((number for number, line in enumerate(lines) if line.strip()), None)
    if first is None:
        problems.add(Place(file), "empty-file", "the file is empty", expected="a header, then prose")
        raise LeftOut
    if lines[first].rstrip() != RULE:
        problems.add(
            Place(file, first + 1),
            "no-header",
            "the file does not begin with a header",
            expected="a line of three hyphens, the header’s keys, and three hyphens again",
        )
        raise LeftOut
    last = next((n for n in range(first + 1, len(lines)) if lines[n].rstrip() == RULE), None)
    if last is None:
        problems.add(
            Place(file, first + 1),
            "header-without-end",
            "the header that begins here has no end",
            expected="a second line of three hyphens where the prose begins",
        )
        raise LeftOut
    below = "\n".join(lines[last + 1 :])
    _refuse_length(below, file, last + 1, problems)
    _refuse_signs(below, file, last + 1, problems)
    _refuse_tables(below, file, last + 1, problems)
    _refuse_depth(below, file, last + 1, problems)
    header = parse("\n".join(lines[first + 1 : last]), file, problems, first_line=first + 2)
    if header is None:
        header = Pairs((), Place(file, first + 1))
    prose = below.strip("\n")
    empty = below.find(prose)
    return HeadedFile(header, prose, Place(file, last + 2 + empty))


def _refuse_length(prose: str, file: str, before: int, problems: Problems) -> None:
    """Tell of prose that is too long. Raises LeftOut after it."""
    text = prose.rstrip()
    for length, most, unit, line in (
        (text.count("\n") + 1, MOST_LINES, "lines", MOST_LINES + 1),
        (len(text), MOST_CHARACTERS, "characters", 1),
    ):
        if length > most:
            problems.add(
                Place(file, before + line),
                "prose-too-long",
                f"the prose of this file has {length:,} {unit}",
                expected=f"{most:,} at most",
                remedy="divide it among several files",
            )
            raise LeftOut


def _refuse_signs(prose: str, file: str, before: int, problems: Problems) -> None:
    """Tell of prose with too many signs that mean something; ``before`` lines stand before it.

    Raises LeftOut after it.
    """
    beyond = next(islice(_SIGN.finditer(prose), MOST_SIGNS, None), None)
    if beyond is not None:
        start = beyond.start()
        problems.add(
            Place(file, before + prose.count("\n", 0, start) + 1, start - prose.rfind("\n", 0, start)),
            "too-many-signs",
            f"the prose of this file has over {MOST_SIGNS:,} signs such as * _ ` [ and quotation marks",
            expected="words for the most part",
            remedy="take out signs that mean nothing, or divide it among several files",
        )
        raise LeftOut


def _refuse_tables(prose: str, file: str, before: int, problems: Problems) -> None:
    """Tell of tables with too many cells; ``before`` as above. Raises LeftOut after it."""
    found = too_large(prose)
    if found is not None:
        line, cells = found
        problems.add(
            Place(file, before + line),
            "table-too-large",
            f"the tables of this file come to {cells:,} cells with this one",
            expected=f"{MOST_CELLS:,} at most",
            remedy="divide it among several files, or take columns out that hold nothing",
        )
        raise LeftOut


def _refuse_depth(prose: str, file: str, before: int, problems: Problems) -> None:
    """Tell of lists, quotations or brackets too deep in each other; ``before`` lines stand before the prose.

    Raises LeftOut for brackets, since to look for links among them may take minutes.
    """
    if (found := too_deep(prose)) is not None:
        line, column = found
        problems.add(
            Place(file, before + line, column),
            "prose-too-deep",
            f"lists or quotations lie over {DEEPEST} levels deep in each other here",
            expected="a few levels",
            remedy="take out some of the marks or spaces at the beginning of the line",
        )
    if (found := brackets_too_deep(prose)) is not None:
        line, column = found
        problems.add(
            Place(file, before + line, column),
            "prose-too-deep",
            f"over {DEEPEST} brackets are open in one paragraph here",
            expected="a closing bracket for each",
            remedy="close them, or put a backslash before those that begin no link",
        )
        raise LeftOut
