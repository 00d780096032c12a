"""Scanners: from a node to a typed value, with whatever is wrong told at its place.

Every scanner takes a node and the context. What it cannot read it adds to the
context's problems, and raises LeftOut.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from typing import NoReturn, TypeVar

from tallybed.reading.base.choices import NO_OTHERS, choice
from tallybed.reading.base.context import Context
from tallybed.reading.base.problems import LeftOut, Misread, listed, quoted
from tallybed.reading.yaml.mistakes import odd_colon
from tallybed.reading.yaml.nodes import Items, Node, Pairs, Text

CURLY = ("“", "”", "„", "‘", "’", "«")
"""What a text in curly quotation marks begins with, as writing programs and web pages have them."""
QUOTES_OFF = "curly quotation marks belong to the text; write straight ones, or none"
T = TypeVar("T")
Scanner = Callable[[Node, Context], T]


def is_empty(node: Node) -> bool:
    """Return whether nothing was written after a key's colon."""
    return isinstance(node, Text) and not node.text.strip()


_KINDS = {Items: "a list", Pairs: "a group of keys", Text: "a plain text"}


def wrong_kind(node: Node, expected: str, context: Context) -> NoReturn:
    """Tell that a list, a mapping or a text stands where something else belongs. Raises LeftOut always."""
    if is_empty(node):
        context.problems.add(node.place, "empty-value", "nothing stands here", expected=expected)
        raise LeftOut
    kind = _KINDS[type(node)]
    if isinstance(node, Text) and (odd := odd_colon(node.text)) is not None:
        context.problems.misread(node.at(odd[0]), odd[1])
        raise LeftOut
    if isinstance(node, Text):
        kind = f"the plain text {quoted(node.text)}"
    context.problems.add(node.place, "wrong-kind", f"{kind} stands here", expected=expected)
    raise LeftOut


def as_it_stands(node: Node, _context: Context) -> Node:
    """Return the node itself: it is read once its surroundings are known."""
    return node


def said(scan: Callable[[str], T], expected: str) -> Scanner[T]:
    """Return a scanner for one text."""
    return spoken(lambda text, _context: scan(text), expected)


def spoken(scan: Callable[[str, Context], T], expected: str) -> Scanner[T]:
    """Return a scanner for one text whose meaning depends on the context (season, beds, crops)."""

    def scanner(node: Node, context: Context) -> T:
        """Read a text; anything else, or an empty one, is told. Raises LeftOut."""
        if not isinstance(node, Text) or is_empty(node):
            wrong_kind(node, expected, context)
        try:
            return scan(node.text, context)
        except Misread as misread:
            if node.text.strip().startswith(CURLY):
                misread.remedy = QUOTES_OFF
            context.problems.misread(node.at(misread.at), misread)
            raise LeftOut from None

    return scanner


def wider(scan: Callable[[str], T], narrow: str, expected: str) -> Callable[[str], T]:
    """Return ``scan`` as part of a scanner that takes more: where it expects ``narrow``, that is told."""

    def scanner(text: str) -> T:
        """Read a text. Raises Misread."""
        try:
            return scan(text)
        except Misread as misread:
            if misread.expected == narrow:
                misread.expected = expected
            raise

    return scanner


def every(scan: Scanner[T], expected: str) -> Scanner[tuple[T, ...]]:
    """Return a scanner for a list of values, or one value alone; one broken value breaks the list."""

    def scanner(node: Node, context: Context) -> tuple[T, ...]:
        """Read every value. Raises LeftOut where the list is empty or a value is broken."""
        nodes = node.items if isinstance(node, Items) else (node,)
        if not nodes:
            context.problems.add(node.place, "empty-list", "the list is empty", expected=expected)
            raise LeftOut
        values = kept(scan, nodes, context)
        if len(values) < len(nodes):
            raise LeftOut
        return values

    return scanner


def rows(scan: Scanner[T]) -> Scanner[tuple[T, ...]]:
    """Return a scanner for a list of records (or one alone); a broken one is left out, the rest kept."""

    def scanner(node: Node, context: Context) -> tuple[T, ...]:
        """Read the records that can be read."""
        return kept(scan, node.items if isinstance(node, Items) else (node,), context)

    return scanner


def kept(scan: Scanner[T], nodes: Iterable[Node], context: Context) -> tuple[T, ...]:
    """Return the values that could be read; what is wrong with the others has been told."""
    values: list[T] = []
    for node in nodes:
        if context.problems.full(node.place.file):
            break
        try:
            values.append(scan(node, context))
        except LeftOut:
            continue
    return tuple(values)


def chosen(choices: Mapping[str, T], what: str, others: Mapping[str, str] = NO_OTHERS) -> Scanner[T]:
    """Return a scanner for one of a few words; ``others``: words that people use, each with the one meant."""
    return said(lambda text: choice(text, choices, what, others), listed(choices))
