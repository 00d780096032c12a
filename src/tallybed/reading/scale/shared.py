"""What is said once for several pickings of a line: the day at its end, the place they all went to."""

from __future__ import annotations

import re
from collections.abc import Sequence
from datetime import date

from tallybed.garden.days import in_full
from tallybed.reading.base.problems import quoted
from tallybed.reading.scale.claims import Claim, Kind, Line
from tallybed.reading.scale.questions import DAY, Answers, Choice, LineQuestion, answered

TO = "to"
_APART = re.compile(r";|\s/\s|\.\s")
"""Marks that part pickings so far that what follows the last is that of the last alone."""


def whose_day(line: Line, day: date, other: date, answers: Answers) -> date:
    """Return the day of the first pickings where the last alone tells one. Raises LineQuestion."""
    question = LineQuestion(
        DAY,
        f"the day at the end of {quoted(line.text)} may be that of all its pickings or of the last",
        (Choice("all of them", "all"), Choice(f"the last; the others {other.isoformat()}", "last")),
        key=f"{DAY} {line.text}",
    )
    return day if answered(answers, question) == "all" else other


def day_of_others(line: Line, told: Sequence[date | None], other: date, answers: Answers) -> date:
    """Return the day of the pickings of a line that tell none, where some tell one. Raises LineQuestion.

    ``told``: the day of each picking, None where it tells none; ``other``: the day of those if none did.
    """
    if told[-1] and not any(told[:-1]):
        return other if told[-1] == other else whose_day(line, told[-1], other, answers)
    days = sorted({other, *(day for day in told if day)})
    if days == [other]:
        return other
    question = LineQuestion(
        DAY,
        f"not every picking in {quoted(line.text)} tells its day; the others are of one of these",
        tuple(Choice(in_full(day), day.isoformat()) for day in days),
        key=f"{DAY} {line.text}",
    )
    return date.fromisoformat(answered(answers, question))


def places_of_all(line: Line, parts: Sequence[Line], answers: Answers) -> tuple[Claim, ...]:
    """Return the destination at the end of a line where it is that of all its pickings.

    Raises LineQuestion where nobody says whether it is: ``kale 1 lb, leeks 2 lb pantry``.
    """
    told = [part.of(Kind.TO) for part in parts]
    if len(parts) < 2 or any(told[:-1]) or len(told[-1]) != 1 or parts[-1].of(Kind.SHARE):
        return ()
    if parts[-1].of(Kind.ALL):
        return tuple(told[-1])
    if _APART.search(line.text):
        return ()
    place = told[-1][0].value
    question = LineQuestion(
        TO,
        f"{quoted(place)} at the end of {quoted(line.text)} may be where all its pickings went or the last",
        (Choice("all of them", "all"), Choice("the last alone", "last")),
        key=f"{TO} {line.text}",
    )
    return tuple(told[-1]) if answered(answers, question) == "all" else ()
