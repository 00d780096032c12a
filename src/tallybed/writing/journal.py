"""A ledger and what goes with it, written together: all of it or nothing, whatever ends the program.

Before the ledger is touched, a note beside it says how the ledger is and how it will be, and
what else is to be written then. Where a machine stops in between, the ledger itself says how
far it got: the next command finishes what was begun, or drops it, and says which row stands.

``.tallybed-unfinished``  the note, in ``content/``; gone as soon as all is written
"""

from __future__ import annotations

import errno
import hashlib
import json
from collections.abc import Callable, Mapping
from pathlib import Path

from tallybed.writing.atomic import write_over

NOTE = ".tallybed-unfinished"
LEFT_BESIDE = ".*.tallybed-new"
"""What a file is called while it is written, see ``write_over``."""


class StandsError(OSError):
    """A machine failed after the ledger was written: its rows stand."""


def write(
    content: Path,
    ledger: str,
    new: bytes | None,
    then: Mapping[str, str],
    told: str,
    agree: Callable[[bytes], None] | None = None,
) -> None:
    """Give a ledger new bytes, then other files their texts; None takes the ledger away.

    ``ledger`` and the names of the other files are paths below ``content``; ``told`` says in
    words what stands once the ledger is written. To be called within a ``turn``. Raises what
    ``agree`` raises; OSError where the ledger stands as it was, StandsError where it is written.
    """
    path = content / ledger
    old = path.read_bytes() if path.exists() else b""
    after = new or b""
    longer = len(after) >= len(old)
    piece = (after if longer else old)[common(old, after) :]
    note = {
        "ledger": ledger,
        "old": _print(old),
        "piece": piece.decode("utf-8", "surrogateescape"),
        "longer": longer,
        "times": after.count(piece),
        "then": dict(then),
        "told": told,
    }
    try:
        write_over(content / NOTE, json.dumps(note, indent=1).encode())
        if new is None:
            path.unlink()
        else:
            write_over(path, new, agree)
    except BaseException as error:
        if _print(path.read_bytes() if path.exists() else b"") != note["old"]:
            raise  # it is written: the note stays for the next command, which writes what lacks beside it
        (content / NOTE).unlink(missing_ok=True)
        if isinstance(error, OSError):
            said = f"{error.strerror or error}; content/{ledger} stands as it was"
            raise OSError(error.errno or errno.EIO, said, error.filename) from None
        raise
    try:
        _finish(content, then)
    except OSError as error:
        said = f"{error.strerror or error}; {told}, and the next command writes what lacks beside it"
        raise StandsError(error.errno or errno.EIO, said, error.filename) from None


def finish(content: Path) -> str:
    """Finish or drop what a program that was ended left half done; return in words what stands, if anything.

    To be called within a ``turn``: nobody else is writing. Raises OSError.
    """
    for folder in (content, *(one for one in content.iterdir() if one.is_dir())):
        for left in folder.glob(LEFT_BESIDE):
            left.unlink(missing_ok=True)
    try:
        note = json.loads((content / NOTE).read_bytes())
        ledger, told = str(note["ledger"]), str(note["told"])
        then = {str(file): str(text) for file, text in note["then"].items()}
        old, piece = str(note["old"]), str(note["piece"]).encode("utf-8", "surrogateescape")
        longer, times = bool(note["longer"]), int(note["times"])
    except FileNotFoundError:
        return ""
    except (ValueError, KeyError, TypeError, AttributeError):
        (content / NOTE).unlink()
        return ""
    path = content / ledger
    data = path.read_bytes() if path.exists() else b""
    # Where somebody changed the ledger meanwhile, what was to come or to go says whether it did.
    there = data.count(piece)
    if _print(data) == old or (there < times if longer else there > times):
        (content / NOTE).unlink()
        return f"the last command was stopped before it wrote: content/{ledger} stands as it was"
    _finish(content, then)
    return f"the last command was stopped after it wrote: {told}"


def _finish(content: Path, then: Mapping[str, str]) -> None:
    """Give the other files their texts, then take the note away: nothing is left to do. Raises OSError."""
    for file, text in then.items():
        write_over(content / file, text.encode("utf-8", "surrogateescape"))
    (content / NOTE).unlink(missing_ok=True)


def common(one: bytes, other: bytes) -> int:
    """Return how many bytes two texts begin with alike."""
    if other.startswith(one):
        return len(one)
    pairs = enumerate(zip(one, other, strict=False))
    return next((place for place, (here, there) in pairs if here != there), min(len(one), len(other)))


def _print(data: bytes) -> str:
    """Return what tells one state of a file from every other."""
    return hashlib.sha256(data).hexdigest()
