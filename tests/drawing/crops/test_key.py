"""The key of a crop's year names what the drawing shows, and nothing else."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from tallybed.drawing.crops.key import year_signs
from tallybed.drawing.crops.printed_days import PrintedDays
from tallybed.drawing.crops.year import Did, PlantingLine
from tallybed.reckoning.calendar.stages import Stage
from tests.drawing.crops.test_year import ONION, PLANT

SOWN = replace(ONION, did=(Did(day=date(2026, 3, 9), sign=Stage.SOWN),), picked=(), indoors=date(2026, 3, 9))
PLANNED = replace(ONION, did=(), picked=(), first=date(2026, 9, 1), past=None, last=date(2026, 9, 30))
NEVER_CAME = replace(SOWN, first=None, past=None, last=None, lost=True)
GROWING_ON = replace(ONION, did=(), picked=(), last=date(2026, 8, 9))


@pytest.mark.parametrize(
    ("lines", "advised", "named"),
    [
        ((), (PLANT,), ["advised"]),
        ((ONION,), (), ["set out", "in the bed", "pickings"]),
        ((SOWN,), (PLANT,), ["advised", "sown", "indoors", "in the bed"]),
        ((PLANNED,), (), ["to come, by the plan"]),
        ((NEVER_CAME,), (), ["sown", "indoors"]),
        ((GROWING_ON,), (), ["in the bed", "to come, by the plan"]),
        ((replace(GROWING_ON, lost=True),), (), ["in the bed", "lost", "to come, by the plan"]),
        ((PLANNED, ONION), (), ["set out", "in the bed", "pickings", "to come, by the plan"]),
    ],
)
def test_the_key_names_what_is_shown(
    lines: tuple[PlantingLine, ...], advised: tuple[PrintedDays, ...], named: list[str]
) -> None:
    assert [words for _sign, words in year_signs(lines, advised)] == named
