"""``freeze dates`` of ``garden.yaml``: last spring and first fall, as averages or by chance."""

from __future__ import annotations

from datetime import date
from functools import partial
from itertools import pairwise

from tallybed.garden.garden import FreezeDates
from tallybed.reading.base.context import Context
from tallybed.reading.base.mappings import Key, Shape, take
from tallybed.reading.base.problems import LeftOut, Misread, listed, quoted
from tallybed.reading.base.scanners import said, wrong_kind
from tallybed.reading.text import dates, measures
from tallybed.reading.yaml.nodes import Node, Pairs, Text

MonthDay = tuple[int, int]
_CHANCES = (10, 50, 90)
_EXPECTED = "a day such as Apr 22, or days by chance as in {10%: May 8, 50%: Apr 22, 90%: Apr 7}"
_DAY = said(dates.every_year, _EXPECTED)
_HALF_YEAR = 183
_SOME_LEAP_YEAR = 2024


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
SPRING = ((32, Key("last spring", _spring, _EXPECTED)), (28, Key("last spring 28", _spring, _EXPECTED)))
FALL = ((32, Key("first fall", _fall, _EXPECTED)), (28, Key("first fall 28", _fall, _EXPECTED)))
FREEZES = Shape("the list of freeze dates", tuple(key for _degrees, key in (*SPRING, *FALL)))


def freezes(node: Node, context: Context) -> FreezeDates:
    """Read ``freeze dates``; one that cannot be read is left out, the others are kept."""
    row = take(node, FREEZES, context)
    return FreezeDates(
        spring=tuple((degrees, days) for degrees, key in SPRING if (days := row.get(key)) is not None),
        fall=tuple((degrees, days) for degrees, key in FALL if (days := row.get(key)) is not None),
    )
