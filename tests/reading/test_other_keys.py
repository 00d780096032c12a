"""Keys that nobody reads lead to the one that was meant: by their meaning first, by their letters else."""

from __future__ import annotations

import importlib
import pkgutil
from contextlib import suppress

import pytest

from tallybed.reading import shapes
from tallybed.reading.base.context import Context
from tallybed.reading.base.mappings import Shape, take
from tallybed.reading.base.other_keys import OTHER_KEYS
from tallybed.reading.base.problems import LeftOut, Problems
from tallybed.reading.shapes import beds, costs, crops, freezes, garden, ledger, log, plan
from tallybed.reading.yaml.nodes import parse


def every_shape() -> list[Shape]:
    found = []
    for module in pkgutil.walk_packages(shapes.__path__, f"{shapes.__name__}."):
        found += [
            one for one in vars(importlib.import_module(module.name)).values() if isinstance(one, Shape)
        ]
    return found


def offered(shape: Shape, word: str) -> str:
    """Return the key that is offered for a word."""
    problems = Problems()
    node = parse(f"{{{word}: 1}}\n", "x.yaml", problems)
    assert node is not None
    with suppress(LeftOut):
        take(node, shape, Context(problems=problems))
    (one,) = (found for found in problems.all() if found.code == "unknown-key")
    return one.nearest or one.remedy


@pytest.mark.parametrize(
    ("shape", "word", "key"),
    [
        (beds.BED, "side", "square"),
        (beds.BED, "sides", "square"),
        (beds.BED, "Orientation", "bearing"),
        (beds.BED, "walkway", "path"),
        (beds.TRELLIS, "tall", "height"),
        (garden.GARDEN, "website", "address"),
        (garden.GARDEN, "frost dates", "freeze dates"),
        (freezes.FREEZES, "last_frost", "last spring"),
        (plan.PLAN_ROW, "cultivar", "variety"),
        (plan.PLAN_ROW, "transplant", "set out"),
        (plan.PLAN_ROW, "location", "squares"),
        (plan.PLAN_ROW, "bed", "squares"),
        (log.ENTRY, "author", "by"),
        (log.ENTRY, "work", "done"),
        (ledger.WEIGHING, "quantity", "count"),
        (ledger.WEIGHING, "destination", "to"),
        (costs.COSTS, "price", "cost"),
        (crops.OWN, "Latin-name", "botanical name"),
        (crops.OWN, "crop", "the name of the crop stands after `new:`"),
        (
            crops.OVERRIDE,
            "family",
            "an entry for a crop that is not known yet begins with `new:` and its name, in place of `crop:`",
        ),
        # What is no such word is still held against the keys by its letters.
        (beds.BED, "lenght", "length"),
        # What a shape says of a word by itself comes first.
        (log.EVENT, "planted", "write sow for seed, set out for young plants"),
    ],
)
def test_usual_words_lead_to_the_key_that_is_read(shape: Shape, word: str, key: str) -> None:
    assert offered(shape, word) == key


def test_a_key_that_stands_there_already_is_not_offered_again() -> None:
    problems = Problems()
    node = parse("{date: 2026-05-01, weight: 1 lb, amount: 2, lbs: 3, crop: kale}\n", "x.yaml", problems)
    assert node is not None
    with suppress(LeftOut):
        take(node, ledger.WEIGHING, Context(problems=problems))
    assert "weight" not in [one.nearest for one in problems.all()]


def test_each_word_leads_to_a_key_of_some_shape_and_is_needed() -> None:
    every = every_shape()
    assert len(every) > 20
    known = {key for shape in every for key in shape.names}
    for word, keys in OTHER_KEYS.items():
        assert set(keys) <= known, word
        for key in keys:
            assert [shape for shape in every if key in shape.names and word not in shape.names], (
                f"{word} is a key itself wherever {key} is one"
            )
            assert len(set(keys)) == len(keys), word
