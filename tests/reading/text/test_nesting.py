"""Prose that lies too deep in itself is found at its place; everything else passes."""

from __future__ import annotations

import pytest

from tallybed.pages.wording.prose import prose
from tallybed.reading.text.nesting import DEEPEST, brackets_too_deep, too_deep

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
BRACKETS = {
    "never closed": "[" * DEEP,
    "in each other": "[" * DEEP + "]" * DEEP,
    "links without an end": "[a](b " * DEEP,
    "links of the site’s own": "[a](crop:" * DEEP,
    "pictures": "![" * DEEP,
    "over lines": "[a\n" * DEEP,
    "with a backslash that another takes": "\\\\[" * DEEP,
}
FINE_BRACKETS = {
    "as deep as may be": "[" * DEEPEST,
    "closed": "[a](https://example.org/) [b] " * 200,
    "one to a paragraph": "a [\n\n" * 200,
    "in words": "(a" * 200,
    "ends alone": "a) b] " * 200,
    "with a backslash": "\\[" * 200,
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


@pytest.mark.parametrize("name", BRACKETS)
def test_brackets_too_deep(name: str):
    assert brackets_too_deep(f"Prose.\n\n{BRACKETS[name]}\n") is not None


@pytest.mark.parametrize("name", FINE_BRACKETS)
def test_brackets_that_are_shown(name: str):
    assert brackets_too_deep(FINE_BRACKETS[name]) is None


def test_the_place_of_the_first_bracket_too_deep():
    assert brackets_too_deep("a\n[" + "![" * DEEPEST) == (2, 2 * DEEPEST + 1)
