"""Places in the gardener's files, and what was found there.

A finding keeps its parts apart (what was found, what was expected, the nearest
match, the remedy); they are put together in one place, ``sentence``.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import NamedTuple

from tallybed.garden.invisible import shown


class Place(NamedTuple):
    """Where something stands: a path below the garden folder, line and column from 1.

    A tuple, since every word of the gardener's files has one.
    """

    file: str
    line: int = 1
    column: int = 1

    def __str__(self) -> str:
        """Return the place as ``file:line:column``."""
        return f"{self.file}:{self.line}:{self.column}"


NOWHERE = Place("", 0, 0)
"""The place of a record that no file holds (built in code)."""


WAITING = frozenset({"unfinished", "held"})
"""Findings that something waits to be published."""
_NAME_AS_IT_IS = re.compile(r"[\w-]+(?:\.[a-z]|/[A-Z]+\d)")
"""The beginning of a word that is a file's name (``peas.jpg``) or a square (``long/A1``)."""
_LONGEST_ECHO = 60
"""Characters of the gardener's text that a message repeats."""
_LONGEST_NEAREST = 200
"""Characters of a nearest match that anybody reads: it may be the gardener's own text put right."""


class Severity(StrEnum):
    """How much a finding weighs. Only an error keeps a site from being built."""

    ERROR = "error"
    WARNING = "warning"
    ADVICE = "advice"


_WEIGHT = {Severity.ERROR: 0, Severity.WARNING: 1, Severity.ADVICE: 2}


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One thing to tell the gardener."""

    place: Place
    code: str
    """Stable name, lower case with hyphens, e.g. ``unknown-crop``."""
    severity: Severity = Severity.ERROR
    found: str
    """What stands there, as a clause without a full stop."""
    expected: str = ""
    nearest: str = ""
    """The nearest thing that would have been understood."""
    remedy: str = ""
    """What to do, as a sentence without a full stop."""
    settled: bool = False
    """Whether it is advice on a season whose books are closed: told when all is asked for, not each time."""
    first: bool = False
    """Whether it protects people, and so is told before everything else."""

    @property
    def order(self) -> tuple[bool, Place, int, str, str]:
        """Sort key: what protects people, then by place, then weight, then name."""
        return (not self.first, self.place, _WEIGHT[self.severity], self.code, self.found)


def sentence(found: str, expected: str = "", nearest: str = "", remedy: str = "") -> str:
    """Return the parts of a finding in one sentence: ``found; expected …; did you mean …? (remedy)``."""
    parts = [found]
    if expected:
        parts.append(f"expected {expected}")
    if nearest and len(nearest) <= _LONGEST_NEAREST:
        parts.append(f"did you mean {nearest}?")
    return "; ".join(parts) + (f" ({remedy})" if remedy else "")


def worded(finding: Finding) -> str:
    """Return the finding as one line in the form that editors jump from.

    ``file:line:column: severity: found; expected …; did you mean …? (remedy) [code]``
    """
    text = sentence(finding.found, finding.expected, finding.nearest, finding.remedy)
    line = f"{finding.place}: {finding.severity}: {text} [{finding.code}]"
    # A file's name may hold a line end, and what follows it would pass for a finding of its own.
    return line.replace("\r", "\\r").replace("\n", "\\n")


def quoted(text: str) -> str:
    """Return the gardener's own words in quotation marks, on one line and cut to a readable length.

    What cannot be seen in them is shown: a word may be wrong by that alone.
    """
    plain = shown(" ".join(text.split()))
    if len(plain) > _LONGEST_ECHO:
        plain = plain[: _LONGEST_ECHO - 1].rstrip() + "…"
    return f"“{plain}”"


def capital(words: str) -> str:
    """Return words with a capital at their beginning, and every other letter as it is.

    The name of a file or a square at their beginning stays as it is: with a capital it would name another.
    """
    return words if _NAME_AS_IT_IS.match(words) else words[:1].upper() + words[1:]


def sorted_findings(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Return findings in the order of the files, without repeats.

    What is told of a season that is open, such as how a bed lies, is not told of closed ones again.
    """
    every = set(findings)
    told = (one for one in every if not (one.settled and replace(one, settled=False) in every))
    return tuple(sorted(told, key=lambda finding: finding.order))


def in_closed_season(finding: Finding) -> Finding:
    """Return a finding on a season whose books are closed; advice on them is settled.

    What still waits to be published is told each time: it is easily forgotten there.
    """
    if finding.severity is not Severity.ADVICE or finding.code in WAITING:
        return finding
    return replace(finding, settled=True)


def unsettled(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Return the findings without the advice on closed seasons."""
    return tuple(finding for finding in findings if not finding.settled)


def has_errors(findings: Iterable[Finding]) -> bool:
    """Return whether any finding keeps a site from being built."""
    return any(finding.severity is Severity.ERROR for finding in findings)


def joined(words: Iterable[str], last: str) -> str:
    """Return ``a``, ``a or b``, ``a, b or c``, with the word ``last`` before the last one."""
    every = tuple(words)
    return f"{', '.join(every[:-1])} {last} {every[-1]}" if len(every) > 1 else "".join(every)
