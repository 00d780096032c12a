"""A line while it is understood: which of its characters mean what.

Every recogniser claims the characters that it understood, and none claims another's.
What nobody claimed is left over, so that no word of a line can be lost unseen.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from enum import StrEnum
from typing import Any

WORD = re.compile(r"(?:[0-9]+[.,](?=[0-9]))*[^\W_]+(?:['-][^\W_]+)*")
"""A word or a number of a line, with its decimals and the letters it runs on in: ``1.2k``."""
_MARKS = frozenset(",;.()–—+&")
"""Signs over which no remark goes on."""


class Kind(StrEnum):
    """What a part of a line tells."""

    TAG = "tag"
    NAME = "name"
    DAY = "day"
    WEIGHT = "weight"
    UNWEIGHED = "unweighed"
    EACH = "each"
    SQUARES = "squares"
    BED = "bed"
    ROW = "row"
    COUNT = "count"
    NUMBER = "number"
    TO = "to"
    SHARE = "share"
    FORM = "form"
    STATE = "state"
    NOTE = "note"
    BOWL = "bowl"
    PICKED = "picked"
    ALL = "all"


@dataclass(frozen=True, slots=True)
class Claim:
    """A part of a line that was understood."""

    kind: Kind
    start: int
    end: int
    value: Any


@dataclass
class Line:
    """One line with what was understood of it so far."""

    text: str
    claims: list[Claim] = field(default_factory=list)

    def claim(self, kind: Kind, start: int, end: int, value: Any = None) -> Claim:
        """Note that a part was understood."""
        made = Claim(kind, start, end, value)
        self.claims.append(made)
        return made

    def is_free(self, start: int, end: int) -> bool:
        """Return whether nobody claimed any of the characters."""
        return all(claim.end <= start or end <= claim.start for claim in self.claims)

    def free(self, pattern: re.Pattern[str]) -> Iterator[re.Match[str]]:
        """Yield the matches of a pattern among what nobody claimed; claims made meanwhile count."""
        at = 0
        while (match := pattern.search(self.text, at)) is not None:
            if self.is_free(match.start(), match.end()):
                yield match
                at = max(match.end(), match.start() + 1)
            else:
                at = match.start() + 1

    def of(self, *kinds: Kind) -> list[Claim]:
        """Return the claims of some kinds, in the order of the line."""
        return sorted((claim for claim in self.claims if claim.kind in kinds), key=lambda one: one.start)

    def leave_to_note(self, claim: Claim) -> None:
        """Make a remark of what was understood of a part, with the words around it that nobody claimed."""
        self.claims.remove(claim)
        start, end = claim.start, claim.end
        while start and self.is_free(start - 1, start) and self.text[start - 1] not in _MARKS:
            start -= 1
        while end < len(self.text) and self.is_free(end, end + 1) and self.text[end] not in _MARKS:
            end += 1
        text = self.text[start:end]
        start += len(text) - len(text.lstrip())
        self.claim(Kind.NOTE, start, start + len(text.strip()), text.strip())

    def starting(self, start: int, kind: Kind) -> Claim | None:
        """Return the claim of a kind that begins at the next character that is not a space."""
        while start < len(self.text) and self.text[start].isspace():
            start += 1
        return next((one for one in self.claims if one.kind is kind and one.start == start), None)

    def words_left(self) -> list[re.Match[str]]:
        """Return the words and numbers that nobody claimed."""
        rest = list(self.text)
        for one in self.claims:
            # What was understood of a word leaves the rest of it: the 14 of "2 lb 7-14" is not lost.
            rest[one.start : one.end] = " " * (one.end - one.start)
        return list(WORD.finditer("".join(rest)))

    def part(self, start: int, end: int) -> Line:
        """Return a part of the line as a line of its own, with the claims that lie in it."""
        inside = [one for one in self.claims if start <= one.start and one.end <= end]
        moved = [Claim(one.kind, one.start - start, one.end - start, one.value) for one in inside]
        return Line(self.text[start:end], moved)
