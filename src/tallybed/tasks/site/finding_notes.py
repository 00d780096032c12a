"""Findings as they are noted from one command to the next, and read again."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import asdict
from typing import Any

from tallybed.garden.findings import Finding, Place, Severity


def as_notes(findings: Iterable[Finding]) -> list[dict[str, Any]]:
    """Return findings as plain values that JSON can hold."""
    return [asdict(finding) for finding in findings]


def from_notes(notes: Iterable[dict[str, Any]]) -> tuple[Finding, ...]:
    """Return what ``as_notes`` was given. Raises KeyError, TypeError or ValueError where it was not."""
    return tuple(map(_finding, notes))


def _finding(says: dict[str, Any]) -> Finding:
    return Finding(**{**says, "place": Place(*says["place"]), "severity": Severity(says["severity"])})
