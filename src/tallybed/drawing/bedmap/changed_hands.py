"""Squares that changed hands within the month, in words: each holder in order with its days."""

from __future__ import annotations

from itertools import pairwise

from tallybed.drawing.base import look
from tallybed.drawing.bedmap.view import ChangedSquares, Handover
from tallybed.garden.days import short
from tallybed.reckoning.squares.occupancy import Grade


def told(each: ChangedSquares) -> str:
    """Return who held squares in turn, in a sentence: ``Changed in A1:B1: pea until 8 May, then …``."""
    where = each.first.label if each.first == each.last else f"{each.first.label}:{each.last.label}"
    words = _told(each.handovers[0])
    for before, after in pairwise(each.handovers):
        words += f", {'then' if _follows(before, after) else 'beside'} {_told(after)}"
    return f"Changed in {where}: {words}."


def _follows(before: Handover, after: Handover) -> bool:
    """Return whether a holder came once the one before it was gone; else they share the squares."""
    return before.ends is not None and after.starts is not None and before.ends <= after.starts


def _told(handover: Handover) -> str:
    """Return one holder with the days it came and went, in words."""
    words, grade = handover.name, handover.grade
    if handover.ends:
        end = (
            Grade.PLANNED if handover.end is None else handover.end
        )  # it stands yet: its last day is to come
        if end is not grade and grade >= Grade.SUPPOSED:  # that it stood is known in another way
            words += f" ({look.GRADE_WORDS[grade]})"
        grade = end
    if handover.starts:
        words += f" from {short(handover.starts)}"
    if handover.ends:
        words += f" lost {short(handover.ends)}" if handover.lost else f" until {short(handover.ends)}"
    if grade >= Grade.SUPPOSED:
        words += f" ({look.GRADE_WORDS[grade]})"
    return words
