"""Gardens made up by chance from a seed, as files: every picking of a planting has its tag."""

from __future__ import annotations

import random
from pathlib import Path

SPACES = (
    "carrot",
    "bean-bush",
    "spinach",
    "beet",
    "tomato-indeterminate",
    "squash-winter",
    "kale",
    "cucumber",
)
LOOSE = ("parsley", "dill")
"""Crops that are picked and stand in no plan."""


def garden(root: Path, seed: int) -> Path:
    """Write a garden of two seasons, the first closed, and return its folder."""
    chance = random.Random(seed)
    metric = seed % 5 == 4
    columns, rows = chance.randint(4, 8), chance.randint(2, 3)
    bed = f"  - name: plot\n    length: {columns} squares\n    width: {rows} squares\n    square: 12 in\n"
    if seed % 3:
        bed += (
            f"    path: [{{side: 1, width: {chance.randint(1, 3)} ft, share: 1/{chance.randint(1, 3)}}}, "
            f"{{side: A, width: 18 in, share: 1/2}}]\n"
        )
    last = chr(ord("A") + columns - 1)
    reach = chance.randint(3, 6)
    bed += f"    run-out: [{{side: {last}, squares: '{last}1:{last}{rows}', reach: {reach} ft}}]\n"
    text = (
        f"name: Garden of chance {seed}\nunits: {'kilograms' if metric else 'pounds'}\ncurrency: USD\n"
        f"season: {{start: Mar 1, end: Oct 31}}\nseasons:\n  2025: {{closed: yes}}\nbeds:\n{bed}"
    )
    _write(root / "content" / "garden.yaml", text)
    for year in ("2025", "2026"):
        _season(root / "content" / year, chance, year, columns, rows, last)
    return root


def _season(folder: Path, chance: random.Random, year: str, columns: int, rows: int, last: str) -> None:
    plan, log, ledger = [], [], []
    for number, column in enumerate(range(columns)):
        letter = chr(ord("A") + column)
        crop = chance.choice(SPACES)
        tag = f"T{number + 1}"
        place = f"plot/{letter}1:{letter}{chance.randint(1, rows)}"
        month, day = chance.randint(4, 6), chance.randint(1, 20)
        until = chance.randint(8, 9)
        led = f", run-out: {last}" if crop == "squash-winter" and letter == last else ""
        plan.append(
            f"- {{crop: {crop}, tag: {tag}, squares: '{place}', sow: {year}-{month:02d}-{day:02d}, "
            f"until: {year}-{until:02d}-25{led}}}"
        )
        log.append((f"{year}-{month:02d}-{day:02d}", f"{{sow: {crop}, tag: {tag}, squares: '{place}'}}"))
        fate = chance.random()
        for week in range(chance.randint(0, 4) if fate > 0.15 else 0):
            weight = chance.choice(
                [
                    f"{chance.randint(1, 60)} oz",
                    f"{chance.randint(1, 9)}.25 lb",
                    f"{chance.randint(20, 900)} g",
                ]
            )
            weight = "not weighed" if chance.random() < 0.1 else weight
            ledger.append(f"- {{date: {year}-07-{7 * week + 1:02d}, tag: {tag}, weight: {weight}}}")
        if fate <= 0.15:
            log.append((f"{year}-07-05", f"{{lost: {crop}, tag: {tag}, squares: '{place}', because: slugs}}"))
        elif year == "2025" or chance.random() < 0.7:
            log.append(
                (
                    f"{year}-08-{chance.randint(2, 25):02d}",
                    f"{{clear: {crop}, tag: {tag}, squares: '{place}'}}",
                )
            )
    ledger += [
        f"- {{date: {year}-07-20, crop: {chance.choice(LOOSE)}, weight: {chance.randint(1, 20)} oz}}"
        for _times in range(chance.randint(0, 3))
    ]
    if chance.random() < 0.5:
        ledger.append(f"- {{date: {year}-07-21, mixed: [parsley, dill], weight: 7 oz}}")
    for _times in range(6):
        month = chance.randint(4, 8)
        minutes = (
            f", minutes: {chance.randint(5, 60)}, people: {chance.randint(1, 3)}"
            if chance.random() < 0.7
            else ""
        )
        amount = chance.choice(
            [
                ", amount: 10 gal",
                ", amount: 20 L",
                ", squares: 'plot/A1:B2', amount: 1/2 in",
                ", amount: two cans",
                "",
            ]
        )
        verb = chance.choice(["weed: bed", "amend: compost", f"water: bed{amount}"])
        log.append((f"{year}-{month:02d}-{chance.randint(1, 28):02d}", f"{{{verb}{minutes}}}"))
    log.append((f"{year}-09-20", "{weed: bed, minutes: 10}"))
    _write(folder / "plan.yaml", "\n".join(plan) + "\n")
    _write(folder / "harvest.yaml", "\n".join(ledger) + "\n" if ledger else "# nothing\n")
    for number, (day, line) in enumerate(log):
        _write(
            folder / "log" / f"{day}-visit-{number}.md",
            f"---\ntitle: Visit {number}\ndate: {day}\ndone:\n  - {line}\n---\nWritten.\n",
        )
    costs = [
        f"- {{date: {year}-03-0{each + 1}, what: thing {each}, cost: {_price(chance, 90)}, "
        f"for: {chance.choice(['seed', 'soil', 'tools'])}, spread: {chance.choice([1, 1, 2, 5])} years}}"
        for each in range(3)
    ]
    _write(folder / "costs.yaml", "\n".join(costs) + "\n")
    prices = [
        f"- {{crop: {crop}, price: {_price(chance, 6)}, per: {chance.choice(['lb', 'kg'])}, "
        f"date: {year}-07-0{each + 1}}}"
        for crop in ("carrot", "spinach", "bean-bush")
        for each in range(chance.randint(1, 3))
    ]
    _write(folder / "prices.yaml", "\n".join(prices) + "\n")


def _price(chance: random.Random, most: int) -> str:
    return f"{chance.randint(1, most)}.{chance.randint(10, 99)}"


def _write(path: Path, text: str) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")
