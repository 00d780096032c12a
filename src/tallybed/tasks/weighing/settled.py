"""What was answered once for good: kept in ``content/take-in.yaml``."""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path

from tallybed.reading.base.context import Context
from tallybed.reading.folder.known_files import CONTENT, TAKE_IN
from tallybed.reading.folder.take_in_check import settled_in
from tallybed.reading.scale.questions import DATE_ORDER, DECIMAL
from tallybed.reading.shapes.take_in import TakeInSettings
from tallybed.reading.spreadsheet.columns import meant, plain
from tallybed.writing.atomic import write_over
from tallybed.writing.ledger_row import scalar

KEYS = {DATE_ORDER: "dates", DECIMAL: "decimal"}
"""What a question at the scale is about, to the key that keeps its answer."""
SPELLINGS = {"squares": "squares", "weight": "weights"}
"""What a column means, to the key that keeps what its texts mean."""
_GROUP = r"[ \t]*(?:#[^\n]*)?\r?\n(?P<indent>[ \t]+)(?=\S)"
"""Follows the key of a group of take-in.yaml whose pairs stand one a line."""


def keep(root: Path, context: Context, answers: Mapping[str, str]) -> str:
    """Add answers of the scale that hold for good to take-in.yaml; see ``keep_settings``. Raises OSError."""
    kept = {KEYS[about]: answer for about, answer in answers.items() if about in KEYS}
    return keep_settings(root, context, kept, {})


def keep_settings(
    root: Path, context: Context, kept: Mapping[str, str], groups: Mapping[str, Mapping[str, str]]
) -> str:
    """Add settings to take-in.yaml, and pairs to its groups; return in words what was kept, if anything.

    ``groups`` are pairs by their key: ``columns``, ``squares``, ``weights``, and ``names`` for all seasons.

    ``context`` knows the garden's crops. What would be written is read first: where it would not say
    what the file says and what is added, the file is left alone, and the words say what to write
    there. Raises OSError.
    """
    if not kept and not any(groups.values()):
        return ""
    path = root / CONTENT / TAKE_IN
    old = path.read_bytes() if path.exists() else b""
    lines = [f"{key}: {answer}" for key, answer in sorted(kept.items())]
    pairs = {
        key: [f"{scalar(name)}: {scalar(said)}" for name, said in sorted(group.items())]
        for key, group in sorted(groups.items())
        if group
    }
    together = [f"{key}: {{{', '.join(added)}}}" for key, added in pairs.items()]
    left = (
        f"not kept, as {CONTENT}/{TAKE_IN} cannot be added to; write there {', '.join([*lines, *together])}"
    )
    if old.lstrip().startswith((b"{", b"[", b"-")) or old.rstrip().endswith(b"..."):
        return left
    text = old.decode("utf-8", "surrogateescape")
    end = "\r\n" if "\r\n" in text else "\n"
    text = text if not text or text.endswith("\n") else f"{text}{end}"
    text = "".join((text, *(f"{line}{end}" for line in lines)))
    for key, added in pairs.items():
        text = _with_pairs(text, key, added, end)
    new = text.encode("utf-8", "surrogateescape")
    before, after = (settled_in(data, f"{CONTENT}/{TAKE_IN}", context) for data in (old, new))
    if before is None or after is None or not _holds(after, before, kept, groups):
        return left
    write_over(path, new)
    lines += [pair for added in pairs.values() for pair in added]
    return f"kept in {CONTENT}/{TAKE_IN}: {', '.join(lines)}"


def _with_pairs(text: str, key: str, pairs: list[str], end: str) -> str:
    """Return the text with pairs added to those of a key, or with a key for them."""
    there = re.search(rf"^{key}:{_GROUP}", text, re.MULTILINE)
    if there is None:
        return "".join((text, f"{key}:{end}", *(f"  {pair}{end}" for pair in pairs)))
    at, indent = there.start("indent"), there.group("indent")
    return text[:at] + "".join(f"{indent}{pair}{end}" for pair in pairs) + text[at:]


def _holds(
    after: TakeInSettings,
    before: TakeInSettings,
    kept: Mapping[str, str],
    groups: Mapping[str, Mapping[str, str]],
) -> bool:
    """Return whether a file that was added to says what it said, and what was added."""
    columns = {plain(heading): meant(meaning) for heading, meaning in groups.get("columns", {}).items()}
    spellings = {
        (meaning, text): said
        for meaning, key in SPELLINGS.items()
        for text, said in groups.get(key, {}).items()
    }
    same = (
        after.columns == {**before.columns, **columns}
        and after.spellings == {**before.spellings, **spellings}
        and all(after.names.get(season) == found for season, found in before.names.items() if season)
    )
    everywhere = after.names.get("", {})
    return (
        same
        and all(everywhere.get(name) == crop for name, crop in groups.get("names", {}).items())
        and all(_said(after).get(key) == answer for key, answer in kept.items())
    )


def _said(settings: TakeInSettings) -> Mapping[str, str | None]:
    """Return settings by the keys of the file, as they are written there."""
    blanks = None if settings.blanks is None else "as above" if settings.blanks else "no date"
    return {
        "dates": settings.order,
        "decimal": settings.decimal or None,
        "spaces": settings.spaces or None,
        "unit": settings.unit.symbol if settings.unit else None,
        "blank dates": blanks,
    }
