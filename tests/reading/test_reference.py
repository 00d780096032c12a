"""``docs/files.md`` explains every key that is read, and every key that it explains is read.

The page has a heading of the second level for each file, named like the file. Below it, a key is the first
thing in a row of a table, in backticks; a row of a key that must be there says "needed".
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from importlib import import_module
from pkgutil import iter_modules

import pytest

from tallybed.reading import shapes
from tallybed.reading.base.mappings import Key, Shape
from tallybed.reading.shapes import (
    beds,
    costs,
    crops,
    freezes,
    garden,
    ledger,
    log,
    own_pages,
    people,
    plan,
    surroundings,
    take_in,
)
from tallybed.reading.shapes.safety import soil
from tallybed.reading.spreadsheet import record
from tallybed.reading.weather.columns import DATE, Measure
from tests.tools import ROOT

PAGE = ROOT / "docs" / "files.md"
FILES: dict[str, tuple[Shape, ...]] = {
    "garden.yaml": (
        *(garden.GARDEN, garden.BOUNDS, garden.ONE_SEASON, freezes.FREEZES, people.SUPPORTER),
        *(beds.BED, beds.TRELLIS, beds.PATH, beds.RUN_OUT, soil.BOARDS, surroundings.THING),
    ),
    "crops.yaml": (crops.OVERRIDE, crops.OWN, crops.VARIETY),
    "plan.yaml": (plan.PLAN_ROW, plan.RUN_OUT),
    "log/*.md": (log.ENTRY, log.EVENT, log.PHOTO, log.DRAFT_PHOTO, log.READING),
    "harvest.yaml": (ledger.WEIGHING,),
    "costs.yaml": (costs.COSTS,),
    "prices.yaml": (costs.PRICES,),
    "questions/*.md": (own_pages.QUESTION,),
    "about.md": (own_pages.LEAF,),
    "soil.yaml": (soil.SOIL_TEST,),
    "take-in.yaml": (take_in.TAKING,),
    "taken-in.yaml": (record.FILE, record.ROW),
    "withdrawn.yaml": (people.WITHDRAWN,),
}
"""The headings of the page, with the shapes of what each file holds."""
WEATHER = "weather.csv"
"""The one file with columns instead of keys."""
NO_FILE_OF_THE_GARDENERS = {"benchmarks", "library"}
"""Modules of shapes for files that come with the package."""


def explained(text: str) -> dict[str, dict[str, str]]:
    """The keys that a page explains and all it says of each, by its headings of the second level."""
    found: dict[str, dict[str, str]] = {}
    for part in re.split(r"^## ", text, flags=re.MULTILINE)[1:]:
        rows = re.findall(r"^(?:\| |- )`([^`]+)`(.*)$", part, flags=re.MULTILINE)
        for key, said in rows:
            of_file = found.setdefault(part.partition("\n")[0].strip(), {})
            of_file[key] = of_file.get(key, "") + said
    return found


def differences(text: str) -> list[str]:
    """What a page and the shapes disagree in, in words; empty where they agree."""
    told = explained(text)
    found = [f"{name}: no shape" for name in sorted(set(told) - set(FILES) - {WEATHER})]
    for name, of_file in FILES.items():
        rows = told.get(name, {})
        read = {key.name for shape in of_file for key in shape.keys}
        found += [f"{name}: {key} is read and not explained" for key in sorted(read - set(rows))]
        found += [f"{name}: {key} is explained and not read" for key in sorted(set(rows) - read)]
        found += [
            f"{name}: {key} is needed, and its row does not say so"
            for key in sorted(needed(of_file) & set(rows))
            if "needed" not in rows[key] and name != "taken-in.yaml"  # which a command writes
        ]
    return found


def needed(of_file: tuple[Shape, ...]) -> set[str]:
    """The keys that must be there, wherever they may be."""
    keys: list[Key[object]] = [key for shape in of_file for key in shape.keys]
    names = {key.name for key in keys}
    return {name for name in names if any(key.required for key in keys if key.name == name)}


def every_shape() -> Iterator[tuple[str, Shape]]:
    for module in iter_modules(shapes.__path__):
        if module.name not in NO_FILE_OF_THE_GARDENERS:
            values = vars(import_module(f"{shapes.__name__}.{module.name}")).values()
            yield from ((module.name, value) for value in values if isinstance(value, Shape))


def test_every_shape_belongs_to_a_file() -> None:
    held = {id(shape) for of_file in FILES.values() for shape in of_file}
    found = list(every_shape())
    assert len(found) > 15
    assert [f"{module}: {shape.what}" for module, shape in found if id(shape) not in held] == []


def test_the_columns_of_weather_are_those_that_are_read() -> None:
    columns = explained(PAGE.read_text(encoding="utf-8"))[WEATHER]
    assert list(columns) == [DATE, *Measure]
    assert "needed" in columns[DATE]


def test_every_key_is_explained_and_every_key_explained_is_read() -> None:
    assert differences(PAGE.read_text(encoding="utf-8")) == []


def _page() -> str:
    """A page as it should be, made from the shapes."""
    lines = []
    for name, of_file in FILES.items():
        lines += [f"## {name}", "| key | what |", "|---|---|"]
        names, must = sorted({key.name for shape in of_file for key in shape.keys}), needed(of_file)
        lines += [f"| `{key}` | {'needed: ' if key in must else ''}x |" for key in names]
    return "\n".join(lines)


@pytest.mark.parametrize(
    ("good", "bad", "told"),
    [
        ("| `pot up` | x |", "", ["plan.yaml: pot up is read and not explained"]),
        ("| `pot up` |", "- `pot up`:", []),
        ("| `pot up` |", "| `potted up` |", ["pot up is read", "potted up is explained and not read"]),
        ("| `weight` | needed: x |", "| `weight` | x |", ["harvest.yaml: weight is needed, and its row"]),
        ("## about.md", "## abuot.md", ["abuot.md: no shape", "about.md: order is read", "title is read"]),
    ],
)
def test_a_page_that_differs_is_found_out(good: str, bad: str, told: list[str]) -> None:
    page = _page()
    assert good in page, "the case no longer changes anything"
    found = differences(page.replace(good, bad, 1))
    # The log has `pot up` too; its row comes later than the plan's.
    assert len(found) == len(told)
    assert all(part in one for part, one in zip(told, found, strict=True))
