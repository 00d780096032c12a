"""Adds rows to a ledger in processes that are killed, or several at once. Run as a program of its own.

    killing.py FOLDER moments KILLS SEED    SIGKILL to what writes, after random times; prints a JSON record
    killing.py FOLDER commands KILLS SEED   the same to the whole command
    killing.py FOLDER steps                 SIGKILL at each step of an append; prints a JSON list
    killing.py FOLDER four ROWS             the command four times at once; prints the notes of its rows

Row ``n`` has the count ``n``, so that a lost, doubled or half row shows.
"""

from __future__ import annotations

import io
import json
import os
import random
import shutil
import signal
import sys
import time
from collections.abc import Callable
from contextlib import redirect_stdout
from datetime import date
from functools import partial
from pathlib import Path

import yaml

from tallybed.cli import main
from tallybed.tasks.start import start
from tallybed.tasks.weigh import scale
from tallybed.tasks.weighing.scale import Scale, Slip
from tests.publishing.swap.crashing import dying

YEAR = 2026
LEDGER = "content/2026/harvest.yaml"
OPENING = b"# The ledger, by hand.\r\n- {date: 2026-05-01, crop: radish, count: 1, weight: 1 oz} # first"
HEARD_AHEAD = 4
AT_ONE_LEDGER = 10
"""Kills before the ledger begins anew, so that it stays short."""
LONGEST_WAIT, LONGEST_WAIT_FOR_COMMANDS = 0.12, 0.2
"""Seconds up to which a child is left alone."""


def adding(scale: Scale, first: int) -> Callable[[int], None]:
    """Return what adds one row as the command does once somebody said yes.

    The first rows are heard before, so that a kill meets the writing and not the hearing.
    """
    ahead = {number: _heard(scale, number) for number in range(first, first + HEARD_AHEAD)}
    return lambda number: scale.write(ahead.get(number) or _heard(scale, number))


def _heard(scale: Scale, number: int) -> tuple[Slip, ...]:
    return scale.hear(f"radish count {number} 1 oz").slips


def weigh(folder: Path, number: int, note: str = "by command") -> None:
    """Add one row by the command itself."""
    words = ["--folder", str(folder), "--date", f"{YEAR}-05-02", "--yes"]
    with redirect_stdout(io.StringIO()):
        main.main(
            ["weigh", f"radish count {number} 1 oz note {note}", *words], "tallybed", standalone_mode=False
        )


def counts(folder: Path) -> list[int]:
    """Return the counts of the ledger's rows; whatever is wrong with its text raises."""
    data = (folder / LEDGER).read_bytes()
    if not data.startswith(OPENING):
        raise SystemExit("what stood there was touched")
    rows = yaml.load(data, Loader=yaml.CBaseLoader)
    for row in rows:
        if set(row) - {"note"} != {"date", "crop", "count", "weight"} or row["weight"] != "1 oz":
            raise SystemExit(f"a half row: {row}")
    return [int(row["count"]) for row in rows]


def begin(folder: Path) -> Scale:
    """Lay out a garden with a ledger of one row."""
    shutil.rmtree(folder, ignore_errors=True)
    start(folder, YEAR)
    (folder / LEDGER).write_bytes(OPENING)
    return scale(folder, date(YEAR, 5, 2))


def killed_after(seconds: float, add: Callable[[int], None], first: int) -> int:
    """Let a process add rows from number ``first`` on, kill it, and return the last it said was written."""
    readable, writable = os.pipe()
    child = os.fork()
    if child == 0:
        os.write(writable, b"0\n")
        number = first
        while True:
            add(number)
            os.write(writable, b"%d\n" % number)
            number += 1
    os.close(writable)
    with os.fdopen(readable) as pipe:
        pipe.readline()
        time.sleep(seconds)
        os.kill(child, signal.SIGKILL)
        said = [int(line) for line in pipe.read().split("\n") if line]
    os.waitpid(child, 0)
    return max(said, default=first - 1)


def commands(folder: Path, kills: int, seed: int) -> dict[str, int]:
    """Do as ``moments``, with the whole command."""
    return moments(folder, kills, seed, by_command=True)


def moments(folder: Path, kills: int, seed: int, *, by_command: bool = False) -> dict[str, int]:
    """Kill at random moments; return how many rows there came to be and in how many a write was under way."""
    chance = random.Random(seed)
    rows = midway = 0
    beside = (folder / LEDGER).with_name(".harvest.yaml.tallybed-new")
    for kill in range(kills):
        if kill % AT_ONE_LEDGER == 0:
            ledger, last = begin(folder), 1
        longest = LONGEST_WAIT_FOR_COMMANDS if by_command else LONGEST_WAIT
        add = partial(weigh, folder) if by_command else adding(ledger, last + 1)
        said = killed_after(chance.uniform(0, longest), add, last + 1)
        found = counts(folder)
        if found != list(range(1, len(found) + 1)):
            raise SystemExit(f"rows are lost or doubled: {found}")
        if not said <= len(found) <= said + 1:
            raise SystemExit(f"{said} rows were said to be written, and {len(found)} are there")
        midway += beside.exists()
        rows += len(found) - last
        last = len(found)
    adding(ledger, last + 1)(last + 1)
    if beside.exists() or counts(folder)[-1] != last + 1:
        raise SystemExit("the next row does not clear up")
    return {"kills": kills, "rows": rows, "midway": midway}


def steps(folder: Path) -> list[dict[str, object]]:
    """Kill at each step of one append; return step by step which rows were there, and after the next one."""
    found: list[dict[str, object]] = []
    while True:
        ledger = begin(folder)
        name, died = dying(lambda ledger=ledger: adding(ledger, 2)(2), len(found))
        if not died:
            return found
        there = counts(folder)
        adding(ledger, len(there) + 1)(len(there) + 1)
        found.append({"step": name, "rows": there, "then": counts(folder)})


def four(folder: Path, rows: int) -> list[str]:
    """Let four processes weigh at once; return each row's note, which names the process and its row."""
    begin(folder)
    children = []
    for who in range(4):
        child = os.fork()
        if child == 0:
            for number in range(1, rows + 1):
                weigh(folder, number, f"{who}-{number}")
            os._exit(0)
        children.append(child)
    for child in children:
        _, status = os.waitpid(child, 0)
        if status:
            raise SystemExit("one of four failed")
    counts(folder)
    return [row.get("note", "") for row in yaml.load((folder / LEDGER).read_bytes(), Loader=yaml.CBaseLoader)]


if __name__ == "__main__":
    where, how, *more = sys.argv[1:]
    work = {"moments": moments, "commands": commands, "steps": steps, "four": four}[how]
    print(json.dumps(work(Path(where), *map(int, more))))  # type: ignore[operator]
