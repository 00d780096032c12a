"""Sums over many days from a few of them.

Light at a spot changes a little from day to day, but where a neighbour is set out or goes:
the days on both sides of that are looked at by themselves. Else a stretch of days is looked
at on its first day, its last and a middle one: where the middle one lies on the line between
the others, to four minutes in everything that is told, the days between are read off the
curve through the three; else each half is looked at likewise, down to the single days. The
means of a month come within two minutes of those over each of its days.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable
from dataclasses import dataclass, field
from functools import lru_cache
from typing import Generic, TypeVar

from tallybed.reckoning.sun.scene import Light

STRETCH = 8
"""Days in a stretch at the most."""
_NEAR = 4 / 60
"""Hours by which a middle day may lie off the line."""
Name = TypeVar("Name", bound=Hashable)


@dataclass(slots=True)
class Summing(Generic[Name]):
    """Light at one spot, summed from its first day on, stretch by stretch. Days are ordinals."""

    light: Callable[[int], Light]
    cut: Callable[[int], Name]
    """Names the sum that a day belongs to."""
    sums: dict[Name, Light] = field(default_factory=dict)
    _day: int = -1
    _last: Light | None = None

    def begin(self, day: int) -> None:
        """Count the first day."""
        self._day, self._last = day, self.light(day)
        self._into(self.cut(day)).add(self._last)

    def go_on(self, marks: Iterable[int], last: int) -> None:
        """Count on to a day; of those before it each of the ``marks`` is looked at by itself, in order."""
        for end in (*marks, last):
            start, one = self._day, self._last
            if start < end <= last and one is not None:
                other = self.light(end)
                self._between(start, one, end, other)
                self._into(self.cut(end)).add(other)
                self._day, self._last = end, other

    def _into(self, name: Name) -> Light:
        if name not in self.sums:
            self.sums[name] = Light()
        return self.sums[name]

    def _between(self, start: int, one: Light, end: int, other: Light) -> None:
        """Count the days between two, without them."""
        if end - start < 2:
            return
        middle = (start + end) // 2
        between = self.light(middle)
        if end - start == 2 or not _on_line(one, between, other, (middle - start) / (end - start)):
            self._between(start, one, middle, between)
            self._between(middle, between, end, other)
            self._into(self.cut(middle)).add(between)
            return
        weights: dict[Name, list[float]] = {self.cut(middle): [0.0, 1.0, 0.0]}
        for day in range(start + 1, end):
            if day != middle:
                own = weights.setdefault(self.cut(day), [0.0, 0.0, 0.0])
                for place, weight in enumerate(_curve(middle - start, end - start, day - start)):
                    own[place] += weight
        for name, times in weights.items():
            total = self._into(name)
            for light, weight in zip((one, between, other), times, strict=True):
                total.add(light, weight)


@lru_cache(maxsize=1024)
def _curve(middle: int, end: int, day: int) -> tuple[float, float, float]:
    """Return what the days 0, ``middle`` and ``end`` count for one between them on the curve through them."""
    return (
        (day - middle) * (day - end) / (middle * end),
        day * (day - end) / (middle * (middle - end)),
        day * (day - middle) / (end * (end - middle)),
    )


def _on_line(one: Light, between: Light, other: Light, part: float) -> bool:
    def off(start: float, middle: float, end: float) -> bool:
        return abs(start + (end - start) * part - middle) > _NEAR

    if off(one.lost, between.lost, other.lost) or off(one.around, between.around, other.around):
        return False
    for a, b, c in ((one.to, between.to, other.to), (one.to_things, between.to_things, other.to_things)):
        for name in {*a, *b, *c}:
            if off(a.get(name, 0.0), b.get(name, 0.0), c.get(name, 0.0)):
                return False
    return True
