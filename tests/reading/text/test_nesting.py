"""Prose that lies too deep in itself is found at its place; everything else passes."""

from __future__ import annotations

import pytest

from tallybed.pages.wording.prose import prose
from tallybed.reading.text.nesting import DEEPEST, too_deep

DEEP = DEEPEST + 1
STEPS = {
    "lists": "- " * DEEP + "x",
    "numbered lists": "1. " * DEEP + "x",
    "quotations": "> " * DEEP + "x",
    "both in turn": "> - " * DEEP + "x",
    "the worst seen": "- " * 500 + "x",
    "indented": "\n".join("    " * level + "- a" for level in range(DEEP + 1)),
    "indented by tabs": "\t" * DEEP + "x",
}
FINE = {
    "a rule": "- " * 400,
    "a rule of stars": "* " * 400,
    "underscores": "_" * 400,
    "a long dash": "-" * 400,
    "a list as deep as may be": "- " * DEEPEST + "x",
    "a sum": "1 - 2 - 3 " * 100,
    "a drawing": " " * 190 + "x",
}


@pytest.mark.parametrize("name", STEPS)
def test_too_deep(name: str):
    assert too_deep(f"Prose.\n\n{STEPS[name]}\n") is not None


@pytest.mark.parametrize("name", FINE)
def test_deep_enough_to_be_shown(name: str):
    assert too_deep(FINE[name]) is None
    assert prose(FINE[name], ident="t")


def test_the_place_of_the_first_mark_too_deep():
    assert too_deep("a\n" + "- " * DEEP + "x") == (2, 2 * DEEPEST + 1)
    assert too_deep("  " + "> " * DEEP + "x") == (1, 2 * DEEPEST + 3)
