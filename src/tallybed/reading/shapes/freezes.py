"""``freeze dates`` of ``garden.yaml``: last spring and first fall, as averages or by chance."""

from __future__ import annotations

from datetime import date
from fractions import Fraction
from functools import partial
from itertools import pairwise

from tallybed.garden.days import without_year
from tallybed.garden.findings import Place, Severity
from tallybed.garden.garden import FreezeDates
from tallybed.reading.base.context import Context
from tallybed.reading.base.mappings import Key, KeyedValues, Shape, take
from tallybed.reading.base.problems import LeftOut, Misread, Problems, listed, quoted
from tallybed.reading.base.scanners import said, wrong_kind
from tallybed.reading.text import dates, measures
from tallybed.reading.yaml.nodes import Node, Pairs, Text

MonthDay = tuple[int, int]
_CHANCES = (10, 50, 90)
_EXPECTED = "a day such as Apr 22, or days by chance as in {10%: May 8, 50%: Apr 22, 90%: Apr 7}"
_DAY = said(dates.every_year, _EXPECTED)
_HALF_YEAR = 183
_SOME_LEAP_YEAR = 2024
_TROPIC = Fraction(47, 2)
"""Degrees from the equator within which the half year of freezes is not held against the latitude."""
_NORTHERN = {"spring": range(1, 8), "fall": (*range(7, 13), 1, 2)}
"""Months in which the average freeze comes north of the tropics; south of them it is half a year off. They
leave room for frost pockets and mild coasts. Our choice."""


def _chance(text: str) -> int:
    """Read a chance in percent: 10, 50 or 90. Raises Misread."""
    chance = measures.percentage(text)
    if chance not in _CHANCES:
        raise Misread(
            "percentage",
            f"{quoted(text)} is not one of the chances that are read",
            "10%, 50% or 90%",
            remedy="leave that chance out",
        )
    return chance


def _in_order(days: dict[int, MonthDay], *, falling: bool) -> bool:
    """Return whether the days follow each other around the year as their chances rise (or fall)."""
    chances = sorted(days, reverse=falling)
    numbers = [date(_SOME_LEAP_YEAR, *days[chance]).timetuple().tm_yday for chance in chances]
    return all((after - before) % 366 <= _HALF_YEAR for before, after in pairwise(numbers))


def _days(node: Node, context: Context, *, spring: bool) -> tuple[tuple[int, MonthDay], ...]:
    """Read the dates of one freeze: an average day, which stands for 50 %, or days by chance."""
    if isinstance(node, Text):
        return ((50, _DAY(node, context)),)
    if not isinstance(node, Pairs):
        wrong_kind(node, _EXPECTED, context)
    days = {
        said(_chance, measures.PERCENT)(name, context): _DAY(value, context) for name, value in node.pairs
    }
    if 50 not in days:
        context.problems.add(
            node.place, "missing-key", "the day of an even chance is missing", expected="50%: a day"
        )
        raise LeftOut
    if not _in_order(days, falling=spring):
        order = listed([f"{chance}%" for chance in sorted(days, reverse=spring)], "and")
        when = (
            "a freeze after a later day is less likely"
            if spring
            else "a freeze by a later day is more likely"
        )
        context.problems.add(
            node.place,
            "freeze-order",
            "these days do not follow each other as their chances do",
            expected=f"days in the order {order}",
            remedy=when,
        )
        raise LeftOut
    return tuple(sorted(days.items()))


_spring, _fall = partial(_days, spring=True), partial(_days, spring=False)
_FreezeKey = tuple[int, Key[tuple[tuple[int, MonthDay], ...]]]
SPRING = ((32, Key("last spring", _spring, _EXPECTED)), (28, Key("last spring 28", _spring, _EXPECTED)))
FALL = ((32, Key("first fall", _fall, _EXPECTED)), (28, Key("first fall 28", _fall, _EXPECTED)))
FREEZES = Shape("the list of freeze dates", tuple(key for _degrees, key in (*SPRING, *FALL)))


def freezes(node: Node, context: Context) -> FreezeDates:
    """Read ``freeze dates``; one that cannot be read is left out, the others are kept."""
    row = take(node, FREEZES, context)
    return FreezeDates(
        spring=_of_both(row, SPRING, context.problems, spring=True),
        fall=_of_both(row, FALL, context.problems, spring=False),
    )


def _of_both(
    row: KeyedValues, keys: tuple[_FreezeKey, ...], problems: Problems, *, spring: bool
) -> tuple[tuple[int, tuple[tuple[int, MonthDay], ...]], ...]:
    """Return the days of both temperatures; one at 28 °F out of line with 32 °F is left out."""
    found = {degrees: days for degrees, key in keys if (days := row.get(key)) is not None}
    even = {degrees: dict(days)[50] for degrees, days in found.items()}
    if len(even) == 2 and not _in_order(even, falling=not spring):
        (_, light), (hard, key) = keys
        problems.add(
            row.place_of(key),
            "freeze-order",
            f"a freeze at {hard} °F {'still follows' if spring else 'comes before'} the one at 32 °F here",
            expected=f"a day no {'later' if spring else 'earlier'} than that of {light.name}",
            remedy="at the colder of the two it freezes at 32 °F as well; correct one of them",
        )
        del found[hard]
    return tuple(found.items())


def tell_other_half(
    freezes: FreezeDates, latitude: Fraction | None, place: Place, problems: Problems
) -> None:
    """Tell where freezes come in the half year in which none do at that latitude: its sign is missing."""
    if latitude is None or abs(latitude) <= _TROPIC:
        return
    side, other = ("north", "south") if latitude > 0 else ("south", "north")
    for name, told in (("last freeze of spring", freezes.spring), ("first freeze of fall", freezes.fall)):
        for _degrees, days in told[:1]:
            month, day = dict(days)[50]
            northern = month if latitude > 0 else (month + 5) % 12 + 1
            if northern in _NORTHERN[name.rpartition(" ")[2]]:
                continue
            when = without_year(date(_SOME_LEAP_YEAR, month, day))
            problems.add(
                place,
                "other-half",
                f"this lies {side} of the equator, and the {name} on {when} is of the {other}",
                expected="a minus sign before a latitude south of the equator, and none north of it",
                remedy="correct it, or the freeze dates: the hours of sun are worked out from it",
                severity=Severity.WARNING,
            )
            return
