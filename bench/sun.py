"""CPU seconds that the sun over the demonstration garden's beds takes for a whole season.

Beside it a plain loop of Python of a known length, since the figure says nothing about a
machine that others use at the same time. Run from the repository:

    .venv/bin/python bench/sun.py
"""

from __future__ import annotations

import time
from collections.abc import Callable
from pathlib import Path

from tallybed.reading.folder.garden_folder import read
from tallybed.reckoning.sun.bodies import standing
from tallybed.reckoning.sun.hours import summed_up
from tallybed.reckoning.sun.scene import Scene, site_of
from tallybed.tasks.site.reckoned import reckoned

ROUNDS = 10
LOOP = 3_000_000


def seconds(work: Callable[[], object]) -> float:
    """Return the CPU seconds of some work."""
    started = time.process_time()
    work()
    return time.process_time() - started


def main() -> None:
    """Print the least of some rounds."""
    garden = read(Path(__file__).parent.parent).garden
    if garden is None or garden.latitude is None:
        raise SystemExit("the demonstration garden has no latitude")
    year = reckoned(garden).all[-1]
    stands = [(bed, site, standing(year, bed)) for bed in garden.beds if (site := site_of(garden, bed))]
    squares = sum(len(bed.squares) for bed in garden.beds)

    def work() -> None:
        for bed, site, own in stands:
            summed_up(bed, Scene(site, own))

    sun = min(seconds(work) for _round in range(ROUNDS))
    loop = min(seconds(lambda: sum(range(LOOP))) for _round in range(ROUNDS))
    print(
        f"{squares} squares over {year.season.span.days} days: {sun:.2f} s; a loop of {LOOP:,}: {loop:.3f} s"
    )


if __name__ == "__main__":
    main()
