"""What of an entry outlasts it: its lines about treatments and manure, which protect people."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping

from tallybed.garden.records.log import WAITED_AFTER
from tallybed.garden.records.treatment import names_manure
from tallybed.reading.edit.header_edits import Plain, header_values

WORDS = frozenset({"note", "because", "silence"})
"""Keys with words that somebody wrote to be read: they go with the entry."""
_BARE = re.compile(r"[\w/.:%-]+")


def what_protects(text: str) -> str:
    """Return an entry with nothing but its lines that begin waits; empty where it has none.

    It is kept unfinished, so that no page of it is published. Raises UncutError where the
    header cannot be read.
    """
    values = header_values(text)
    done = values.get("done")
    rows = done if isinstance(done, list) else [done]
    kept = [row for row in rows if isinstance(row, dict) and _protects(row)]
    if not kept:
        return ""
    date = [f"date: {_written(values['date'])}"] if "date" in values else []
    lines = [f"  - {_written({k: v for k, v in row.items() if k not in WORDS})}" for row in kept]
    return "\n".join(["---", "title: Treatment", *date, "unfinished: yes", "done:", *lines, "---", ""])


def _protects(row: Mapping[str, Plain]) -> bool:
    """Return whether a line may begin a wait: by its verb, or by the manure that it tells of."""
    told = "manure" in row or names_manure(
        f"{row.get('water', '')} {row.get('cover', '')} {row.get('amount', '')}"
    )
    return not WAITED_AFTER.isdisjoint(row) or told


def _written(value: Plain) -> str:
    """Return a value as YAML on one line."""
    if isinstance(value, dict):
        return "{" + ", ".join(f"{key}: {_written(one)}" for key, one in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(map(_written, value)) + "]"
    return value if _BARE.fullmatch(value) else json.dumps(value, ensure_ascii=False)
