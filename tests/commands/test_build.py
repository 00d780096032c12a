"""What ``tallybed build`` prints of the pages that changed."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from tallybed.cli import main
from tallybed.commands.build import changes_told
from tallybed.publishing.swap.changes import Changes
from tallybed.tasks.start import start


@pytest.mark.parametrize(
    ("found", "lines"),
    [
        (None, []),
        (Changes(), []),
        (Changes(new=("a.html",)), ["Since the site before: 1 page new.", "  new      a.html"]),
        (
            Changes(new=("a.html", "b.html"), changed=("c.html",), gone=("d.html",), framed=("e.html",)),
            [
                "Since the site before: 2 pages new, 1 page changed, 1 page gone, "
                "1 page with nothing new but the day or the menu.",
                "  new      a.html",
                "  new      b.html",
                "  changed  c.html",
                "  gone     d.html",
            ],
        ),
        (
            Changes(framed=("a.html", "b.html")),
            ["Since the site before: 2 pages with nothing new but the day or the menu."],
        ),
    ],
)
def test_the_lines(found: Changes | None, lines: list[str]) -> None:
    assert list(changes_told(found)) == lines


@pytest.mark.parametrize(("number", "last"), [(20, "  new      p19.html"), (21, "  and 1 page more")])
def test_twenty_pages_are_named_at_most(number: int, last: str) -> None:
    names = tuple(f"p{place:02d}.html" for place in range(number))
    lines = list(changes_told(Changes(new=names)))
    assert lines[-1] == last
    assert len([line for line in lines if line.startswith("  new")]) == 20


def build(garden: Path, *words: str) -> Result:
    return CliRunner().invoke(main, ["build", str(garden), *words], catch_exceptions=False)


def test_a_build_tells_what_a_new_entry_changed_and_nothing_the_first_time(tmp_path: Path) -> None:
    garden = tmp_path / "garden"
    start(garden, 2026)
    assert len(build(garden).stdout.splitlines()) == 1
    entry = garden / "content" / "2026" / "log" / "2026-05-12-a-look.md"
    entry.write_text("---\ntitle: A look\ndate: 2026-05-12\n---\nAll is well.\n", encoding="utf-8")
    lines = build(garden).stdout.splitlines()
    assert lines[1].startswith("Since the site before: 2 pages new, ")
    assert lines[1].endswith(" pages with nothing new but the day or the menu.")
    assert "  new      2026/log/05-12-a-look/index.html" in lines
    assert "  new      2026/bulletins/2026-w20/index.html" in lines, (
        "12 May lies in a week without a record before"
    )
    assert "  changed  2026/log/index.html" in lines
    crops = {line.split()[1] for line in lines if "crops/" in line}
    assert "crops/lettuce-leaf/index.html" in crops, "what stands has come further in its year"
    assert crops <= {
        f"crops/{slug}/index.html" for slug in ("beet", "carrot", "lettuce-leaf", "radish", "spinach")
    }
    entry.unlink()
    assert build(garden, "--quiet").stdout == ""
