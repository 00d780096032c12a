"""Sums of light as text and back, to the last digit, so that they can be kept from one run to the next."""

from __future__ import annotations

import json
from collections.abc import Mapping

from tallybed.garden.days import Month
from tallybed.reckoning.sun.scene import Light

Sums = Mapping[int, Mapping[tuple[Month, bool], Light]]
"""Sums of each spot by its place: in each month, apart for the days on which it is the tallest."""


def as_text(sums: Sums) -> str:
    """Return sums as text."""
    return json.dumps(
        [
            [
                place,
                [
                    [month.year, month.month, foremost, *_figures(light)]
                    for (month, foremost), light in own.items()
                ],
            ]
            for place, own in sums.items()
        ]
    )


def from_text(text: str) -> Sums:
    """Return the sums that a text holds."""
    return {
        place: {(Month(year, month), foremost): Light(*figures) for year, month, foremost, *figures in own}
        for place, own in json.loads(text)
    }


def _figures(light: Light) -> tuple[object, ...]:
    """Return what light is made of, in its own order."""
    return light.days, light.open, light.lost, light.around, light.to, light.to_things
