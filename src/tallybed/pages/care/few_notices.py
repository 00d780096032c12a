"""What waits, in as few lines as a sheet to print has room for."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace

from tallybed.garden.days import in_full
from tallybed.garden.squares import Square
from tallybed.pages.care.notices import Notice
from tallybed.pages.frame.page import Link

NOT_OF_ALL = "for how long is not known of all: read the labels"
_WHAT_STANDS = "what stands in"


def by_bed(
    found: Iterable[Notice], most: int, words: Callable[[Iterable[Square]], str]
) -> tuple[Notice, ...]:
    """Return the notices one by one up to ``most`` of them; more are told bed by bed.

    Together stand plantings of one bed that wait for one reason until one day, so that nothing is told
    but what holds for each of them. ``words`` names squares.
    """
    every = tuple(found)
    if len(every) <= most:
        return every
    alike: dict[tuple[object, ...], list[Notice]] = {}
    for one in every:
        beds = tuple(sorted({square.bed for square in one.squares}))
        own = (one.do_not, beds, one.until, one.because) if one.what.text else (one.text,)
        alike.setdefault(own, []).append(one)
    return tuple(_of_bed(group, words) for group in alike.values())


def _of_bed(found: list[Notice], words: Callable[[Iterable[Square]], str]) -> Notice:
    """Return notices that differ in planting and squares alone as one."""
    first, *others = found
    if not others:
        return first
    squares = frozenset(square for one in found for square in one.squares)
    where = f"{_WHAT_STANDS} {words(squares)}"
    return replace(first, what=Link("", ""), where=where, planting="", squares=squares)


def in_few(
    found: Iterable[Notice], most: int, words: Callable[[Iterable[Square]], str]
) -> tuple[Notice, ...]:
    """Return the notices one by one up to ``most`` of them; more are told together, one of each kind.

    ``words`` names squares. Those told together have the last of their days, as an earlier one would be
    read for all squares; where one is not known, none is told.
    """
    every = tuple(found)
    if len(every) <= most:
        return tuple(replace(one, where=words(one.squares)) for one in every)
    kinds = dict.fromkeys(one.do_not for one in every)
    return tuple(_together([one for one in every if one.do_not == kind], words) for kind in kinds)


def _together(found: list[Notice], words: Callable[[Iterable[Square]], str]) -> Notice:
    """Return several notices of one kind as one, with the squares and the last day of all."""
    first, *others = found
    if not others:
        return replace(first, where=words(first.squares))
    squares = frozenset(square for one in found for square in one.squares)
    days = [one.first_day for one in found if one.first_day]
    last = max(days) if len(days) == len(found) else None
    return replace(
        first,
        what=Link("", ""),
        where=f"{'from ' if first.what.text else ''}{words(squares)}",
        until=f"before {in_full(last)}" if last else NOT_OF_ALL,
        planting="",
        squares=squares,
        first_day=last,
    )
