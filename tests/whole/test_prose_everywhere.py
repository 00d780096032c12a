"""Prose that the Markdown library stumbles over: on the page, in the feed, and in everything beside them."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from lxml import etree

from tallybed.garden.findings import has_errors
from tallybed.tasks.build import make
from tests.pages.gardens import GARDEN, written

SIGNS = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f\u0080-\u009f\ufffe\uffff]")
PROSE = r"""Write to <jo\_smith@example.org>. A bell&#7; rings&#x1b;[31m, and&#2; again.

Next: \*peas\*."""
ENTRY = f"---\ntitle: A letter\ndate: 2026-05-01\ndone:\n  - {{water: bed}}\n---\n{PROSE}\n"
QUESTION = f"---\nquestion: Whom do we ask?\nasked: 2026-05-01\n---\n{PROSE}\n"
LEAF = f"---\ntitle: Letters\n---\n{PROSE}\n"


@pytest.mark.parametrize("address", ["", "address: https://beds.example/\n"])
def test_marks_and_references_break_neither_build_nor_files(tmp_path: Path, address: str):
    root = written(
        tmp_path,
        {
            "garden.yaml": GARDEN + address,
            "2026/log/2026-05-01-a-letter.md": ENTRY,
            "2026/harvest.yaml": "- {date: 2026-05-01, crop: spinach, weight: 1 lb}\n",
            "questions/whom.md": QUESTION,
            "letters.md": LEAF,
        },
    )
    made = make(root)
    assert made.files, made.findings
    assert not has_errors(made.findings)
    for path, data in made.files.items():
        if path.endswith((".html", ".xml", ".ics", ".json", ".csv", ".txt", ".svg")):
            assert not SIGNS.search(data.decode("utf-8")), path
        if path.endswith((".xml", ".svg")):
            etree.fromstring(data)
    told = [path for path, data in made.files.items() if b"mailto:jo_smith@example.org" in data]
    assert "letters/index.html" in told
    assert any(path.startswith("2026/log/") and "a-letter" in path for path in told)
    assert any(path.endswith(".xml") for path in told) is bool(address)


def test_lists_far_too_deep_are_a_finding_with_its_place(tmp_path: Path):
    deep = ENTRY + "\n" + "- " * 500 + "x\n"
    root = written(tmp_path, {"garden.yaml": GARDEN, "2026/log/2026-05-01-a-letter.md": deep})
    found = [one for one in make(root).findings if one.code == "prose-too-deep"]
    assert [(one.place.file, one.place.line, one.place.column) for one in found] == [
        ("content/2026/log/2026-05-01-a-letter.md", 11, 101)
    ]
