"""What building costs beside the bare libraries on the same work, and what it costs where little changed.

CPU seconds of whole processes, the least of some rounds, a build and its floor in turn; wall seconds
where two processes share it. Run from the repository, in full or for the demonstration garden alone:

    .venv/bin/python bench/build.py
    .venv/bin/python bench/build.py demo
"""

from __future__ import annotations

import os
import platform
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from statistics import median

from floor import keep, record
from gardens import forget, grown

ROOT = Path(__file__).parent.parent
ROUNDS = {"demo": 5, "largest": 1}
"""Rounds of a garden; of all others three."""
GARDENS: dict[str, dict[str, int]] = {
    "demo": {},
    "ten times": {"sets": 10},
    "six seasons": {"sets": 1, "seasons": 6},
    "largest": {"sets": 5, "seasons": 20, "weighings": 100_000},
}
"""Each with what it is grown to; the demonstration garden as it is."""
ONE = "- {date: 2026-09-20, crop: kale, weight: 5 oz}\n"
"""A weighing on a new day."""


@dataclass(frozen=True, kw_only=True)
class Cost:
    """What one process cost, the processes it began included."""

    cpu: float
    wall: float
    peak_mb: float


def cost(*command: str, one: bool = False) -> Cost:
    """Run a command and return what it cost; ``one`` leaves it a single processor."""
    if one and shutil.which("taskset"):
        command = ("taskset", "-c", "0", *command)
    environment = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    began = time.perf_counter()
    process = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, env=environment)
    told = process.stderr.read() if process.stderr else b""
    _pid, status, used = os.wait4(process.pid, 0)
    wall = time.perf_counter() - began
    if os.waitstatus_to_exitcode(status):
        raise SystemExit(told.decode())
    return Cost(cpu=used.ru_utime + used.ru_stime, wall=wall, peak_mb=used.ru_maxrss / 1024)


def least(work: Callable[[], Cost], rounds: int = 3) -> Cost:
    """Return the least CPU and wall time, and the largest peak, of some rounds."""
    found = [work() for _round in range(rounds)]
    return Cost(
        cpu=min(one.cpu for one in found),
        wall=min(one.wall for one in found),
        peak_mb=max(one.peak_mb for one in found),
    )


def tallybed(*words: str | Path, one: bool = False) -> Cost:
    """Return the cost of a command of Tallybed's."""
    code = "from tallybed.cli import main; main()"
    return cost(sys.executable, "-c", code, *map(str, words), one=one)


def python(code: str) -> Cost:
    """Return the cost of some lines of Python."""
    return cost(sys.executable, "-c", code)


def measure(name: str, garden: Path, work: Path) -> None:
    """Print a garden's lines."""
    rounds = ROUNDS.get(name, 3)
    site, note = work / "site", work / "floor"
    recorded = name != "largest"  # its record alone would take more memory than its build
    if recorded:
        cost(sys.executable, __file__, "record", str(garden), str(work / "recorded"), str(note))

    def full(*, one: bool) -> Cost:
        shutil.rmtree(site, ignore_errors=True)
        forget(garden)
        return tallybed("build", "--quiet", "--to", site, garden, one=one)

    full(one=True)  # photographs and pictures of figures are ready from here on
    single, both, nothing, floors = [], [], [], []
    for _round in range(rounds):
        single.append(full(one=True))
        floors += [replayed(note)] if recorded else []
        both.append(full(one=False))
        nothing.append(tallybed("build", "--quiet", "--to", site, garden))
    one, two, same = (least(iter(found).__next__, rounds) for found in (single, both, nothing))
    ledger = max(garden.glob("content/2*/harvest.yaml"))
    before = ledger.read_text(encoding="utf-8")
    more = []
    for number in range(rounds):
        ledger.write_text(before + ONE.replace("5 oz", f"{number + 5} oz"), encoding="utf-8")
        more.append(tallybed("build", "--quiet", "--to", site, garden))
        ledger.write_text(before, encoding="utf-8")
        tallybed("build", "--quiet", "--to", site, garden)
    weighed = least(iter(more).__next__, rounds)
    check = least(lambda: tallybed("check", garden), rounds)
    pages = sum(1 for _page in site.rglob("*.html"))
    size = sum(path.stat().st_size for path in site.rglob("*") if path.is_file()) / 1e6
    print(f"\n{name}: {pages} pages, {size:.1f} MB")
    row("full, one process", one, one)
    row("full, two processes", two, one)
    row("nothing changed", same, one)
    row("one weighing on a new day", weighed, one)
    row("check", check, one)
    if not recorded:
        return
    sums = [sum(found.values()) for found in floors]
    lowest = min(floors, key=lambda found: sum(found.values()))
    parts = ", ".join(f"{part} {seconds:.2f}" for part, seconds in lowest.items())
    print(f"{'floor':<28}{min(sums):8.2f}    ({parts})")
    # Pair by pair, for a machine's clock may change within minutes.
    cpu = median(built.cpu / floor for built, floor in zip(single, sums, strict=True))
    wall = median(built.wall / floor for built, floor in zip(both, sums, strict=True))
    print(f"full to floor, middle of {rounds} pairs: CPU {cpu:.2f} on one process, wall {wall:.2f} on two")


def row(name: str, found: Cost, full: Cost) -> None:
    """Print one line: CPU, wall, peak, and CPU as a share of a full build's."""
    share = f"{found.cpu / full.cpu:7.1%}"
    print(f"{name:<28}{found.cpu:8.2f} CPU s{found.wall:8.2f} wall s{found.peak_mb:8.0f} MB {share}")


def replayed(note: Path) -> dict[str, float]:
    """Return the CPU seconds of each bare library in a fresh process."""
    code = f"import sys; sys.path.insert(0, {str(Path(__file__).parent)!r})\n"
    code += (
        f"from pathlib import Path; from floor import kept, replay; print(replay(kept(Path({str(note)!r}))))"
    )
    told = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout
    pairs = (part.split(":") for part in told.strip().strip("{}").split(","))
    return {name.strip().strip("'"): float(seconds) for name, seconds in pairs}


def commands() -> None:
    """Print what the small commands cost."""
    click = least(lambda: python("import click"))
    bare = least(lambda: python("pass"))
    asked = least(lambda: tallybed("--help"))
    print(f"\npython alone {bare.cpu:.3f}, with click {click.cpu:.3f}, --help {asked.cpu:.3f} CPU s")
    with tempfile.TemporaryDirectory() as folder:
        shutil.copytree(ROOT / "content", Path(folder) / "content")
        line = ("weigh", "kale 5 oz", "--folder", folder, "--date", "2026-09-20", "--yes")
        print(f"weigh --yes {least(lambda: tallybed(*line)).cpu:.2f} CPU s")


def main(names: list[str]) -> None:
    """Print the table."""
    print(f"{platform.platform()}, Python {platform.python_version()}, {os.cpu_count()} processors")
    commands()
    for name in names or GARDENS:
        with tempfile.TemporaryDirectory() as folder:
            garden = Path(folder) / "garden"
            if GARDENS[name]:
                grown(ROOT, garden, **GARDENS[name])
            else:
                shutil.copytree(ROOT / "content", garden / "content")
            measure(name, garden, Path(folder))


if __name__ == "__main__":
    if sys.argv[1:2] == ["record"]:
        sys.setrecursionlimit(10_000)
        garden, site, note = map(Path, sys.argv[2:])
        keep(record(garden, site), note)
    else:
        main(sys.argv[1:])
