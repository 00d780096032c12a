"""A ledger's bytes read before they take the old ones' place: the same rows, and the new ones behind them."""

from __future__ import annotations

import codecs
from collections.abc import Sequence

from tallybed.garden.findings import worded
from tallybed.garden.ledger import Weighing
from tallybed.reading.base.context import Desk
from tallybed.reading.base.problems import LeftOut, Notes
from tallybed.reading.shapes.ledger import weighing
from tallybed.reading.yaml.nodes import Items, Node, Pairs, Text, parse

Shape = str | tuple["Shape", ...]


def disagreement(old: bytes, new: bytes, added: Sequence[Weighing], file: str, desk: Desk) -> str:
    """Return in words how new bytes differ from the old rows and the added ones; empty where they agree."""
    notes = Notes()
    try:
        before, after = _rows(old, file, notes), _rows(new, file, notes)
    except LeftOut:
        return worded(notes.all()[0])
    if [_shape(node) for node in before] != [_shape(node) for node in after[: len(before)]]:
        return "the rows that stood there would read otherwise"
    fresh = Desk(
        notes=notes,
        metric=desk.metric,
        beds=desk.beds,
        names=desk.names,
        season=desk.season,
        span=desk.span,
        general=desk.general,
    )
    try:
        read = [weighing(node, fresh) for node in after[len(before) :]]
    except LeftOut:
        return worded(notes.all()[0])
    return "" if read == list(added) else "the new rows would read otherwise than they were meant"


def _rows(data: bytes, file: str, notes: Notes) -> tuple[Node, ...]:
    text = data.removeprefix(codecs.BOM_UTF8).decode("utf-8", "replace")
    node = parse(text.replace("\r\n", "\n").replace("\r", "\n"), file, notes)
    if node is None or (isinstance(node, Text) and not node.text):
        return ()
    if isinstance(node, Items):
        return node.items
    return (node,)


def _shape(node: Node) -> Shape:
    """Return what a node says, without places."""
    if isinstance(node, Text):
        return node.text.strip()
    if isinstance(node, Items):
        return ("list", *(_shape(item) for item in node.items))
    assert isinstance(node, Pairs)  # noqa: S101 - the only other kind
    return ("keys", *((key.text, _shape(value)) for key, value in node.pairs))
