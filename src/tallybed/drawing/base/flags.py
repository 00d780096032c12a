"""Titles hung on a time axis: each beside a thin stem at its day, no two of them over each other."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import product

from tallybed.drawing.base import look
from tallybed.drawing.base.lettering import width_of
from tallybed.drawing.base.svg import Element, circle, group, line, link, text
from tallybed.garden.days import in_full


@dataclass(frozen=True, slots=True, kw_only=True)
class Flag:
    """A day and its title."""

    day: date
    words: str
    to: str = ""
    """Where the title leads from the page that shows it; empty where it leads nowhere."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HungFlag:
    """A title that has room, and where: in a row, right or left of its stem."""

    flag: Flag
    x: float
    """Where its stem stands."""
    row: int
    """0 is the row next to the axis."""
    left: float
    right: float
    """Between them stand the words."""


Clear = Callable[[float, float, int], bool]
"""Whether nothing but flags can be in the way from left to right in a row."""


def hung(
    flags: Iterable[Flag],
    *,
    x: Callable[[date], float],
    edges: tuple[float, float],
    rows: int,
    size: float,
    clear: Clear = lambda _left, _right, _row: True,
) -> tuple[HungFlag, ...]:
    """Return the titles that have room, latest first.

    Each stands right of its stem, as near the axis as may be, so that earlier ones rise above
    later ones like steps; left of it where the right has no room. No stem runs through words,
    and no words reach beyond the ``edges``.
    """
    found: list[HungFlag] = []
    for flag in sorted(flags, key=lambda one: one.day, reverse=True):
        stem, wide = x(flag.day), width_of(flag.words, size)
        for left, row in product((stem + look.FLAG_AIR, stem - look.FLAG_AIR - wide), range(rows)):
            one = HungFlag(flag=flag, x=stem, row=row, left=left, right=left + wide)
            if (
                edges[0] <= left
                and one.right <= edges[1]
                and clear(left, one.right, row)
                and _has_room(one, found)
            ):
                found.append(one)
                break
    return tuple(found)


def _has_room(one: HungFlag, others: Sequence[HungFlag]) -> bool:
    """Return whether neither the words nor the stem of one run into those of the others."""
    return not any(
        (one.row == each.row and _beside(one, each))
        or (each.row >= one.row and _crossed(one, each.x))
        or (one.row >= each.row and _crossed(each, one.x))
        for each in others
    )


def _beside(one: HungFlag, each: HungFlag) -> bool:
    """Return whether the words of two flags of one row touch, or nearly."""
    return one.left < each.right + look.FLAG_APART and each.left < one.right + look.FLAG_APART


def _crossed(one: HungFlag, stem: float) -> bool:
    """Return whether another stem runs through the words of a flag, or so near that it seems to."""
    return one.left - look.FLAG_AIR / 2 < stem < one.right + look.FLAG_AIR / 2


def drawn(one: HungFlag, *, axis: float, baseline: float, size: float) -> Element:
    """Draw one title with its stem from the axis, as a link where it leads somewhere."""
    top = baseline - size * look.CAPITAL_WIDTH
    far = top if baseline < axis else baseline + size * 0.2
    shapes = (
        line(one.x, axis, one.x, far, class_="d-stem", stroke_width=look.HAIR),
        text(one.left, baseline, one.flag.words, size, class_="d-flag", halo=look.HALO),
    )
    names = {"class_": "d-told", "data_day": one.flag.day.isoformat()}
    if one.flag.to:
        return link(one.flag.to, f"{one.flag.words}, {in_full(one.flag.day)}", *shapes, **names)
    return group(*shapes, **names)


def knot(x: float, y: float) -> Element:
    """Draw the mark of a day that the log tells of."""
    return circle(x, y, look.FLAG_KNOT, class_="d-knot", stroke="none")
