"""What taking in a thousand rows costs, as a ratio to pandas reading the same file in one run.

pandas reads the file and turns one column into dates and one into numbers; taking in reads
it, matches every row to a planting, and adds a thousand rows to a ledger that is read back.
A last line tells the seconds of CPU that looking through 20,000 rows takes; they should stay below ten.
Run from the repository, with the extra ``bench`` installed:

    .venv/bin/pip install -e '.[bench]' && .venv/bin/python bench/take_in.py
"""

from __future__ import annotations

import csv
import random
import tempfile
import time
from collections.abc import Callable
from datetime import date, timedelta
from pathlib import Path

ROWS = 1000
ROUNDS = 3
MANY = 20_000
MOST_SECONDS = 10
"""Of CPU, for looking through so many rows. Our aim."""
GARDEN = """\
name: Bench
beds: [{name: bed, length: 10 squares, width: 3 squares}]
season: {start: Mar 1, end: Nov 30}
"""
PLAN = """\
- {crop: kale, tag: KA1, squares: A1:B1, sow: Mar 1}
- {crop: tomato-indeterminate, tag: TO1, squares: C1:D2, set out: May 1}
- {crop: bean-bush, tag: BB1, squares: E1:F1, sow: May 1}
"""
NAMES = (("kale", "A1"), ("tomatoes", "C1:D2"), ("beans", "E1"), ("radish", ""), ("basil", ""))
HEADS = ("Date", "Crop", "Square", "Weight (oz)", "Went to")


def rows(number: int = ROWS) -> list[list[str]]:
    """Return pickings, always the same."""
    chance = random.Random(7)  # noqa: S311 - no secret
    found = []
    for _number in range(number):
        day = date(2026, 5, 1) + timedelta(days=chance.randrange(200))
        name, square = chance.choice(NAMES)
        found.append([day.isoformat(), name, square, f"{chance.randrange(1, 400) / 10}", "pantry"])
    return found


def files(folder: Path) -> tuple[Path, Path]:
    """Write the pickings as .csv and as .xlsx."""
    import openpyxl

    plain, book_file = folder / "kitchen.csv", folder / "kitchen.xlsx"
    with plain.open("w", encoding="utf-8", newline="") as stream:
        csv.writer(stream).writerows([HEADS, *rows()])
    book = openpyxl.Workbook(write_only=True)
    sheet = book.create_sheet("Picked")
    sheet.append(HEADS)
    for day, name, square, weight, to in rows():
        sheet.append([date.fromisoformat(day), name, square, float(weight), to])
    book.save(book_file)
    return plain, book_file


def garden(folder: Path) -> Path:
    """Write a garden without a ledger."""
    (folder / "content" / "2026").mkdir(parents=True)
    (folder / "content" / "garden.yaml").write_text(GARDEN, encoding="utf-8")
    (folder / "content" / "2026" / "plan.yaml").write_text(PLAN, encoding="utf-8")
    return folder


def taken(root: Path, file: Path, *, writing: bool) -> None:
    """Take a file in as the command does, or look through it alone."""
    from tallybed.tasks import take_in
    from tallybed.tasks.taking_in.intake import Fate, Settings
    from tallybed.tasks.taking_in.sheets import contents

    books = take_in.books(root)
    intake = take_in.look(books, file.name, contents(file), Settings())
    if len(intake.of(Fate.NEW)) != ROWS:
        raise SystemExit(f"{len(intake.of(Fate.NEW))} of {ROWS} rows have a place")
    if writing:
        take_in.write_all(books, (intake,), file)


def cpu_of_many(root: Path) -> float:
    """Return the seconds of CPU of looking through many rows."""
    from tallybed.tasks import take_in
    from tallybed.tasks.taking_in.intake import Fate, Settings

    data = "\n".join(",".join(row) for row in [list(HEADS), *rows(MANY)]).encode()
    books = take_in.books(root)
    started = time.process_time()
    intake = take_in.look(books, "many.csv", data, Settings())
    seconds = time.process_time() - started
    if len(intake.of(Fate.NEW)) != MANY:
        raise SystemExit(f"{len(intake.of(Fate.NEW))} of {MANY} rows have a place")
    return seconds


def read_by_pandas(file: Path) -> None:
    """Read a file as pandas does."""
    import pandas as pd

    frame = pd.read_csv(file) if file.suffix == ".csv" else pd.read_excel(file)
    pd.to_datetime(frame["Date"])
    pd.to_numeric(frame["Weight (oz)"]).sum()


def best(work: Callable[[], None]) -> float:
    """Return the best seconds of some rounds."""
    seconds = []
    for _round in range(ROUNDS):
        started = time.perf_counter()
        work()
        seconds.append(time.perf_counter() - started)
    return min(seconds)


def main() -> None:
    """Print a line for each kind of file."""
    heads = ("look s", "take in s", "pandas s", "look ratio", "ratio")
    print("file  " + "".join(f"{head:>12}" for head in heads))
    with tempfile.TemporaryDirectory() as folder:
        numbers = iter(range(10**6))

        def fresh() -> Path:
            return garden(Path(folder) / f"garden-{next(numbers)}")

        for file in files(Path(folder)):
            read_by_pandas(file)  # imports are nobody's cost
            taken(fresh(), file, writing=True)
            looking = best(lambda file=file: taken(fresh(), file, writing=False))  # type: ignore[misc]
            writing = best(lambda file=file: taken(fresh(), file, writing=True))  # type: ignore[misc]
            floor = best(lambda file=file: read_by_pandas(file))  # type: ignore[misc]
            cells = (looking, writing, floor)
            ratios = (looking / floor, writing / floor)
            print(
                f"{file.suffix:<6}"
                + "".join(f"{cell:>12.3f}" for cell in cells)
                + "".join(f"{ratio:>12.1f}" for ratio in ratios)
            )
        print(f"{MANY:,} rows: {cpu_of_many(fresh()):.1f} s of CPU to look through (at most {MOST_SECONDS})")


if __name__ == "__main__":
    main()
