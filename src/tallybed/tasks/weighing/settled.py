"""What was answered once for good: kept in ``content/take-in.yaml``."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from tallybed.reading.folder.garden_folder import read
from tallybed.reading.folder.known_files import CONTENT, TAKE_IN
from tallybed.reading.scale.questions import DATE_ORDER, DECIMAL
from tallybed.writing.atomic import write_over

KEYS = {DATE_ORDER: "dates", DECIMAL: "decimal"}
"""What a question is about, to the key that keeps its answer."""


def keep(root: Path, answers: Mapping[str, str]) -> str:
    """Add answers that hold for good to take-in.yaml; return in words what was kept, if anything.

    The file is left alone where it is not a list of keys at the start of lines. Raises OSError.
    """
    lines = [f"{KEYS[about]}: {answer}" for about, answer in sorted(answers.items()) if about in KEYS]
    path = root / CONTENT / TAKE_IN
    old = path.read_bytes() if path.exists() else b""
    if not lines or old.lstrip().startswith((b"{", b"[", b"-")) or old.rstrip().endswith(b"..."):
        return ""
    lead = old if not old or old.endswith(b"\n") else old + b"\n"
    before = read(root).taking
    write_over(path, lead + "".join(f"{line}\n" for line in lines).encode())
    after = read(root).taking
    if {KEYS[DATE_ORDER]: after.order, KEYS[DECIMAL]: after.decimal or None} == {
        KEYS[DATE_ORDER]: before.order,
        KEYS[DECIMAL]: before.decimal or None,
    }:
        # The file was not one that can be added to: as it was.
        path.write_bytes(old)
        return ""
    return f"kept in {CONTENT}/{TAKE_IN}: {', '.join(lines)}"
