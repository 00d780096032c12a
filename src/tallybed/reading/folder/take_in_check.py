"""The bytes of take-in.yaml read before they take the old ones' place."""

from __future__ import annotations

import codecs
from dataclasses import replace

from tallybed.reading.base.context import Context
from tallybed.reading.base.problems import LeftOut, Problems
from tallybed.reading.shapes.take_in import TakeInSettings, taking
from tallybed.reading.yaml.nodes import Text, parse


def settled_in(data: bytes, file: str, context: Context) -> TakeInSettings | None:
    """Return what bytes of the file would settle, or None where they cannot be understood at all."""
    problems = Problems()
    try:
        text = data.removeprefix(codecs.BOM_UTF8).decode("utf-8")
        node = parse(text.replace("\r\n", "\n").replace("\r", "\n"), file, problems)
        if node is None or (isinstance(node, Text) and not node.text):
            return TakeInSettings()
        return taking(node, replace(context, problems=problems, general={}))
    except (LeftOut, UnicodeDecodeError):
        return None
