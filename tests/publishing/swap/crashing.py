"""Ends hand-overs by SIGKILL at each of their steps, and tells what was left. Run as a program of its own.

Usage: crashing.py FOLDER exchange|renames. Prints a JSON list of records.
"""

from __future__ import annotations

import json
import os
import shutil
import signal
import sys
from collections.abc import Callable
from functools import partial
from pathlib import Path

from tallybed.publishing.swap import disk
from tallybed.publishing.swap.handoff import hand_over, repair
from tallybed.publishing.swap.marker import compared

OLD = {"index.html": b"old", "a/index.html": b"old a", "only-old/index.html": b"x", "same.css": b"same"}
NEW = {"index.html": b"new", "a/index.html": b"new a", "only-new/index.html": b"y", "same.css": b"same"}


def state(target: Path) -> str:
    """Return ``old``, ``new``, ``none``, or what is wrong with the folder."""
    if not target.exists():
        return "none"
    both = compared(target)
    if both is None:
        return "a mixture: no marker"
    _told, found = both
    if found.by_hand or found.missing:
        return f"a mixture: {found}"
    text = (target / "index.html").read_bytes()
    return {b"old": "old", b"new": "new"}.get(text, "a mixture")


def dying(work: Callable[[], object], at: int) -> tuple[str, bool]:
    """Run ``work`` in a process that kills itself at step ``at``; return the step and whether it died."""
    readable, writable = os.pipe()
    child = os.fork()
    if child == 0:
        count = 0

        def step(name: str) -> None:
            nonlocal count
            if count == at:
                os.write(writable, name.encode())
                os.kill(os.getpid(), signal.SIGKILL)
            count += 1

        disk.step = step
        work()
        os._exit(0)
    os.close(writable)
    with os.fdopen(readable) as pipe:
        name = pipe.read()
    _, status = os.waitpid(child, 0)
    if os.WIFEXITED(status) and os.WEXITSTATUS(status):
        raise SystemExit("a hand-over failed by itself")
    return name, os.WIFSIGNALED(status)


def begin(folder: Path, *, with_old: bool) -> Path:
    """Return a target in a fresh folder, holding the old site or nothing."""
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir(parents=True)
    target = folder / "site"
    if with_old:
        hand_over(OLD, target)
    return target


def main(folder: Path, how: str) -> list[dict[str, object]]:
    """Return one record a crash."""
    if how == "renames":
        disk.exchange = lambda one, other: False  # noqa: ARG005 - called by position, typed by name
    records: list[dict[str, object]] = []
    for with_old in (True, False):
        at = 0
        while True:
            target = begin(folder, with_old=with_old)
            name, died = dying(partial(hand_over, NEW, target), at)
            if not died:
                break
            found = state(target)
            kept = folder.with_name("kept")
            shutil.rmtree(kept, ignore_errors=True)
            shutil.copytree(folder, kept)
            repair(target)
            left = sorted(path.name for path in folder.iterdir() if path.name != "site")
            records.append(
                {
                    "with_old": with_old,
                    "step": name,
                    "found": found,
                    "repaired": state(target),
                    "left": left,
                    "again": crash_the_repair(folder, kept),
                }
            )
            at += 1
    return records


def crash_the_repair(folder: Path, kept: Path) -> list[str]:
    """End the repair itself at each of its steps, repair again, and return the states after that."""
    states: list[str] = []
    at = 0
    while True:
        shutil.rmtree(folder)
        shutil.copytree(kept, folder)
        target = folder / "site"
        _, died = dying(partial(repair, target), at)
        if not died:
            return states
        repair(target)
        states.append(state(target))
        at += 1


if __name__ == "__main__":
    print(json.dumps(main(Path(sys.argv[1]), sys.argv[2])))
