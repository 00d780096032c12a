"""Words that stand for one of a few: those people use for them lead to the one that is read."""

from __future__ import annotations

from contextlib import suppress

import pytest

from tallybed.reading.base import mappings
from tallybed.reading.base.context import Context
from tallybed.reading.base.problems import LeftOut, Problems
from tallybed.reading.shapes import costs, crops, garden, ledger, people, take_in
from tallybed.reading.shapes.safety import treatment
from tallybed.reading.yaml.nodes import parse


def told(key: mappings.Key[object], word: str) -> str:
    """Return what is offered for a word of a key: the nearest, or how to mend it."""
    problems = Problems()
    node = parse(f'"{word}"\n', "x.yaml", problems)
    assert node is not None
    with suppress(LeftOut):  # what a label says is left open with a warning instead
        key.scan(node, Context(problems=problems))
    (one,) = problems.all()
    return one.nearest or one.remedy


@pytest.mark.parametrize(
    ("key", "word", "offered"),
    [
        *((garden.UNITS, word, "kilograms") for word in ("metric", "KG", "kilo", "g", "SI")),
        *((garden.UNITS, word, "pounds") for word in ("imperial", "US", "lb", "lbs", "oz", "pund")),
        # A word beside them may be misspelled too.
        *((garden.UNITS, word, "kilograms") for word in ("metrik", "Metrical", "kilogrammes")),
        *((garden.UNITS, word, "pounds") for word in ("imperal", "US-customary", "amerikan")),
        (crops.START, "seedling", "set out"),
        *((garden.UNITS, word, "write one of these words") for word in ("bushels", "stones")),
        (costs.FOR, "mulch", "soil"),
        (crops.HABIT, "bushy", "upright"),
        (crops.START, "seed", "sown"),
        (people.WHAT, "photo", "picture"),
        (take_in.ORDER, "dd/mm/yyyy", "day-first"),
        (take_in.DECIMAL, ".", "point"),
        (take_in.BLANKS, "ditto", "as above"),
        (ledger.STATE, "dry", "dried"),
        (garden.CLOSED, "y", "yes"),
        # What lay for a while is offered the longer wait.
        (treatment.MANURE, "aged", "raw"),
        (treatment.KIND, "netting", "barrier"),
    ],
)
def test_usual_words_lead_to_the_one_that_is_read(key: mappings.Key[object], word: str, offered: str) -> None:
    assert told(key, word) == offered
