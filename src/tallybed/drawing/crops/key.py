"""The key below a crop's year: its signs and lines, as small drawings with their words."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from tallybed.drawing.base import look
from tallybed.drawing.base.stage_marks import stage_mark
from tallybed.drawing.base.svg import Element, line, path, points, rect, swatch
from tallybed.drawing.crops.printed_days import PrintedDays
from tallybed.drawing.crops.year import PlantingLine
from tallybed.reckoning.calendar.stages import Stage

_WIDE, _HIGH = 22.0, 16.0
_MIDDLE = _HIGH / 2
_SIGN = 11.0


Shown = Callable[[PlantingLine], bool]
"""Whether a planting's line shows a sign."""


def year_signs(lines: Sequence[PlantingLine], advised: Sequence[PrintedDays]) -> tuple[tuple[str, str], ...]:
    """Return each sign that a crop's year shows as markup with its words, in order of a planting's life."""
    found = [(_ADVISED, "advised")] if advised else []
    return (*found, *((sign, words) for sign, words, shown in _SIGNS if any(map(shown, lines))))


def _has(sign: Stage) -> Shown:
    """Return what tells whether a line bears a mark."""
    return lambda one: any(did.sign is sign for did in one.did)


def _was_in_the_bed(one: PlantingLine) -> bool:
    return one.first is not None and one.past is not None


def _is_to_come(one: PlantingLine) -> bool:
    return one.last is not None and (one.past is None or one.past < one.last)


def _line(width: float) -> Element:
    """Draw a line from side to side."""
    return line(0, _MIDDLE, _WIDE, _MIDDLE, class_="d-ink", stroke_width=width)


def _picked() -> tuple[Element, ...]:
    """Draw a line while it is picked, with a stroke for each picking."""
    ticks = "".join(points(((x, 3.4), (x, _HIGH - 3.4)), closed=False) for x in (3.0, 9.0, 18.0))
    return (
        rect(1, _MIDDLE - 2.3, _WIDE - 2, 4.6, class_="d-ripe", stroke_width=look.HAIR),
        path(ticks, class_="d-ink", stroke_width=look.FINE),
    )


def _mark(stage: Stage) -> Element:
    """Draw a stage's mark in the middle."""
    return stage_mark(stage, (_WIDE - _SIGN) / 2, _MIDDLE, _SIGN)


def _drawn(*shapes: Element) -> str:
    """Return the markup of one sign."""
    return swatch(_WIDE, _HIGH, *shapes, class_="swatch")


_ADVISED = _drawn(rect(3, 1, _WIDE - 6, _HIGH - 2, class_="d-advised", stroke_width=look.HAIR))
_DOTS = {"stroke_dasharray": look.SEASON_DOTS, "stroke_linecap": "round"}
_SIGNS: tuple[tuple[str, str, Shown], ...] = (
    (_drawn(_mark(Stage.SOWN)), "sown", _has(Stage.SOWN)),
    (_drawn(_line(look.FINE)), "indoors", lambda one: one.indoors is not None),
    (_drawn(_mark(Stage.GROWING)), "set out", _has(Stage.GROWING)),
    (_drawn(_line(look.HEAVY)), "in the bed", _was_in_the_bed),
    (_drawn(*_picked()), "pickings", lambda one: bool(one.picked) and one.first is not None),
    (_drawn(_mark(Stage.LOST)), "lost", lambda one: one.lost and one.first is not None),
    (
        _drawn(line(1, _MIDDLE, _WIDE, _MIDDLE, class_="d-soft", stroke_width=look.INK, **_DOTS)),
        "to come, by the plan",
        _is_to_come,
    ),
)
"""Each sign with its words and what tells whether a line shows it. Add one here: a row."""
