"""A scale along the bottom of a drawing: round figures, strings up from them, and the unit."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from tallybed.drawing.base import look
from tallybed.drawing.base.axes import figure, rounds
from tallybed.drawing.base.lettering import width_of
from tallybed.drawing.base.svg import Element, line, path, points, text


@dataclass(frozen=True, slots=True, kw_only=True)
class Scale:
    """Where figures lie from left to right."""

    left: float
    width: float
    top: float
    bottom: float
    greatest: Fraction
    """The greatest figure on it. Above nothing."""
    step: Fraction
    size: float
    """Of text."""

    def x(self, value: Fraction) -> float:
        """Return where a figure lies; less than nothing lies at nothing."""
        return self.left + self.width * float(max(value, Fraction(0)) / self.greatest)

    @property
    def right(self) -> float:
        """Where the greatest figure lies."""
        return self.left + self.width


def scaled(greatest: Fraction, *, left: float, width: float, top: float, bottom: float, size: float) -> Scale:
    """Return a scale from nothing to a round figure that is not below ``greatest``."""
    step, most = rounds(greatest)
    return Scale(left=left, width=width, top=top, bottom=bottom, greatest=most, step=step, size=size)


def drawn(scale: Scale, unit: str) -> Iterator[Element]:
    """Draw the scale: strings up, the line below, figures and their unit."""
    size = scale.size
    count = int(scale.greatest / scale.step)
    values = [scale.step * index for index in range(count + 1)]
    across = "".join(
        points(((scale.x(value), scale.top), (scale.x(value), scale.bottom)), closed=False)
        for value in values
    )
    yield path(across, class_="d-twine", stroke_width=look.FINE, stroke_dasharray="1 3")
    yield line(scale.left, scale.bottom, scale.right, scale.bottom, class_="d-ink", stroke_width=look.INK)
    room = width_of(figure(values[-1], scale.step), size) + look.GAP
    every = max(1, -(-int(room) // max(int(scale.width / max(count, 1)), 1)))
    for index, value in enumerate(values):
        if index % every:
            continue
        words = figure(value, scale.step)
        half = width_of(words, size) / 2
        middle = min(max(scale.x(value), scale.left + half), scale.right - half)
        baseline = scale.bottom + size * look.LINE
        yield text(middle, baseline, words, size, class_="d-figure", text_anchor="middle")
    baseline = scale.bottom + size * look.LINE * 2
    yield text(scale.right, baseline, unit, size, class_="d-figure", text_anchor="end")


def below(size: float) -> float:
    """Return the room that a scale takes below its line."""
    return size * look.LINE * 2 + look.PAD + look.GAP
