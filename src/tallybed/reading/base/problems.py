"""What a run of reading has to tell: one collector, one way for a scanner to refuse a text."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from tallybed.garden.findings import Finding, Place, Severity, joined, sentence, sorted_findings
from tallybed.garden.findings import quoted as quoted

MOST = 200
"""Findings of one severity in one file that anybody reads through before correcting some."""


@dataclass
class Misread(Exception):  # noqa: N818 - a text that was misread, not a failure of ours
    """A text that could not be understood; the parts of a finding, without its place."""

    code: str
    found: str
    expected: str = ""
    nearest: str = ""
    remedy: str = ""
    at: int = 0
    """Characters before the trouble within the text."""
    part: int = 0
    """Which of several texts is wrong, from 0."""
    typed: str = ""
    """The part of a longer text that is wrong as a whole; empty where that is not known."""

    @property
    def sentence(self) -> str:
        """What could not be read, without a place."""
        return sentence(self.found, self.expected, self.nearest, self.remedy)


class LeftOut(Exception):  # noqa: N818 - a decision, not a failure
    """A value that is left out quietly: its trouble has been told, or follows from one that was."""


@dataclass
class Problems:
    """The findings of one run, in the order they were met."""

    _findings: list[Finding] = field(default_factory=list)
    _counts: dict[tuple[str, Severity], int] = field(default_factory=dict)
    _spots: dict[tuple[Place, str], Place] = field(default_factory=dict)

    def remember(self, record: Place, key: str, place: Place) -> None:
        """Keep where a key's value stands in a record, for findings that come up after it is read."""
        self._spots[record, key] = place

    def spot(self, record: Place, key: str) -> Place:
        """Return where a key's value stands in a record, or the record's own place."""
        return self._spots.get((record, key), record)

    def forget_spots(self) -> None:
        """Let go of where values stand, once nothing more can come up of the records read so far."""
        self._spots.clear()

    def add(
        self,
        place: Place,
        code: str,
        found: str,
        *,
        expected: str = "",
        nearest: str = "",
        remedy: str = "",
        severity: Severity = Severity.ERROR,
    ) -> None:
        """Keep one finding; of each severity no more than MOST of one file."""
        counted = self._counts.get((place.file, severity), 0)
        self._counts[place.file, severity] = counted + 1
        if counted == MOST:
            code, found = "too-many-findings", f"the file has more than {MOST} findings like these"
            expected = nearest = remedy = ""
        elif counted > MOST:
            return
        self._findings.append(
            Finding(
                place=place,
                code=code,
                severity=severity,
                found=found,
                expected=expected,
                nearest=nearest,
                remedy=remedy,
            )
        )

    def __len__(self) -> int:
        """Return how many findings were kept so far."""
        return len(self._findings)

    def since(self, number: int) -> tuple[Finding, ...]:
        """Return the findings after the first ``number``."""
        return tuple(self._findings[number:])

    def again(self, findings: Iterable[Finding]) -> None:
        """Keep findings that an earlier run had of the same texts."""
        for one in findings:
            counted = self._counts.get((one.place.file, one.severity), 0)
            self._counts[one.place.file, one.severity] = counted + 1
            self._findings.append(one)

    def full(self, file: str) -> bool:
        """Return whether a file has so many errors that reading on is of no use."""
        return self._counts.get((file, Severity.ERROR), 0) > MOST

    def misread(self, place: Place, error: Misread, severity: Severity = Severity.ERROR) -> None:
        """Keep what a scanner said, at its place."""
        self.add(
            place,
            error.code,
            error.found,
            expected=error.expected,
            nearest=error.nearest,
            remedy=error.remedy,
            severity=severity,
        )

    def all(self) -> tuple[Finding, ...]:
        """Return every finding, sorted by place, without repeats."""
        return sorted_findings(self._findings)


def listed(words: Iterable[str], last: str = "or") -> str:
    """Return ``a, b or c``, in the order given."""
    return joined(words, last)
