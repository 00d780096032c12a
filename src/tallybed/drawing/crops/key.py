"""The key below a crop's year: its signs and lines, as small drawings with their words."""

from __future__ import annotations

from tallybed.drawing.base import look
from tallybed.drawing.base.stage_marks import stage_mark
from tallybed.drawing.base.svg import Element, line, path, points, rect, swatch
from tallybed.reckoning.calendar.stages import Stage

_WIDE, _HIGH = 22.0, 16.0
_MIDDLE = _HIGH / 2
_SIGN = 11.0


def year_signs() -> tuple[tuple[str, str], ...]:
    """Return each sign as markup with its words, in the order of a planting's life."""
    return (
        (_drawn(rect(3, 1, _WIDE - 6, _HIGH - 2, class_="d-advised", stroke_width=look.HAIR)), "advised"),
        (_drawn(_mark(Stage.SOWN)), "sown"),
        (_drawn(line(0, _MIDDLE, _WIDE, _MIDDLE, class_="d-ink", stroke_width=look.FINE)), "indoors"),
        (_drawn(_mark(Stage.GROWING)), "set out"),
        (_drawn(line(0, _MIDDLE, _WIDE, _MIDDLE, class_="d-ink", stroke_width=look.HEAVY)), "in the bed"),
        (_drawn(*_picked()), "pickings"),
        (_drawn(_mark(Stage.LOST)), "lost"),
        (
            _drawn(
                line(
                    1,
                    _MIDDLE,
                    _WIDE,
                    _MIDDLE,
                    class_="d-soft",
                    stroke_width=look.INK,
                    stroke_dasharray=look.SEASON_DOTS,
                    stroke_linecap="round",
                )
            ),
            "to come, by the plan",
        ),
    )


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
