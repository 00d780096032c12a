"""A ledger's bytes read before they take the old ones' place: the same rows, and the new ones behind them."""

from __future__ import annotations

import codecs
from collections.abc import Sequence
from dataclasses import replace

from tallybed.garden.findings import worded
from tallybed.garden.records.ledger import Weighing
from tallybed.reading.base.context import Context
from tallybed.reading.base.problems import LeftOut, Problems
from tallybed.reading.shapes.ledger import weighing
from tallybed.reading.yaml.nodes import Items, Node, Pairs, Text, parse

Content = str | tuple["Content", ...]


def disagreement(old: bytes, new: bytes, added: Sequence[Weighing], file: str, context: Context) -> str:
    """Return in words how new bytes differ from the old rows and the added ones; empty where they agree."""
    problems = Problems()
    try:
        before, after = _rows(old, file, problems), _rows(new, file, problems)
    except LeftOut:
        return worded(problems.all()[0])
    if [_content(node) for node in before] != [_content(node) for node in after[: len(before)]]:
        return "the rows that stood there would read otherwise"
    try:
        read = [weighing(node, replace(context, problems=problems)) for node in after[len(before) :]]
    except LeftOut:
        return worded(problems.all()[0])
    return "" if read == list(added) else "the new rows would read otherwise than they were meant"


def changed_otherwise(old: bytes, new: bytes, meant: Sequence[Weighing], file: str, context: Context) -> str:
    """Return in words what else than the rows ``meant`` new bytes would change; empty where nothing."""
    problems = Problems()
    try:
        before, after = _rows(old, file, problems), _rows(new, file, problems)
        if len(before) != len(after):
            return "rows would come or go"
        pairs = zip(before, after, strict=True)
        changed = [two for one, two in pairs if _content(one) != _content(two)]
        read = [weighing(node, replace(context, problems=problems)) for node in changed]
    except LeftOut:
        return worded(problems.all()[0])
    same = len(read) == len(meant) and all(one in meant for one in read)
    return "" if same else "the corrected rows would read otherwise than they were meant"


def _rows(data: bytes, file: str, problems: Problems) -> tuple[Node, ...]:
    """Return a ledger's rows as nodes, none where it is empty. Raises LeftOut."""
    text = data.removeprefix(codecs.BOM_UTF8).decode("utf-8", "replace")
    node = parse(text.replace("\r\n", "\n").replace("\r", "\n"), file, problems)
    if node is None or (isinstance(node, Text) and not node.text):
        return ()
    if isinstance(node, Items):
        return node.items
    return (node,)


def _content(node: Node) -> Content:
    """Return what a node says, without places."""
    if isinstance(node, Text):
        return node.text.strip()
    if isinstance(node, Items):
        return ("list", *(_content(item) for item in node.items))
    assert isinstance(node, Pairs)  # the only other kind
    return ("keys", *((key.text, _content(value)) for key, value in node.pairs))
