"""A draft's text reads as what it was made of, whatever the title; its lines are lines the log can hold."""

from __future__ import annotations

import re
from datetime import date, timedelta
from pathlib import Path

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from tallybed.garden.findings import worded
from tallybed.garden.invisible import UNSEEN
from tallybed.reading.base.problems import Misread
from tallybed.reading.folder.garden_folder import read
from tallybed.reading.text.texts import line
from tallybed.reckoning.calendar.due import due
from tallybed.reckoning.squares.occupancy import hold
from tallybed.tasks.base.garden import day_of
from tallybed.tasks.writeup import begin
from tallybed.writing.ledger_row import scalar
from tests.pages.gardens import LEDGER, folder, written
from tests.small_garden import read_garden


def _is_title(text: str) -> bool:
    try:
        return bool(text) and line(text) == text and not UNSEEN.search(text)
    except Misread:
        return False


TITLES = st.text(st.sampled_from("aZ9 :#-?!,'\"[]{}&*|>%@`~=\\/.é’½ \u00a0"), min_size=1, max_size=12).filter(
    _is_title
)


@given(TITLES)
def test_a_title_is_read_back_as_it_was_typed(title: str) -> None:
    # PyYAML's loader that leaves every scalar a text; it implements YAML 1.1.
    assert yaml.load(f"title: {scalar(title)}  # so\n", yaml.BaseLoader) == {"title": title}
    assert yaml.load(f"- {{a: {scalar(title)}, b: 1}}\n", yaml.BaseLoader) == [{"a": title, "b": "1"}]


@pytest.mark.parametrize("text", ["Peas are up", "long/A1:A4", "2 in", "Möhren", "set out"])
def test_plain_words_stand_without_quotes(text: str) -> None:
    assert scalar(text) == text


DONE = re.compile(r"^#(done:|  - )", re.MULTILINE)
"""What a gardener's taking away of the sign before each offered line does."""

PLAN = """\
- {crop: spinach, tag: SP1, variety: 'Broad: early', squares: front/A1:B2, sow: Apr 5, per square: 9}
- {crop: radish, tag: RA1, squares: front/A1, sow: Apr 7, among: SP1, share: 1/3, note: "a #note"}
- {crop: tomato-determinate, tag: TO1, squares: back/A2:B2, sow indoors: Apr 6, set out: May 12, plants: 2}
- {crop: kale, squares: 'back/A1, back/C1', set out: Apr 9, plants: 2}
- {crop: broccoli, tag: BR1, squares: front/D1:D2, set out: Mar 20, until: Apr 8}
"""
LOG = "---\ntitle: In\ndone:\n  - {set out: broccoli, tag: BR1, squares: front/D1:D2}\n---\n"
DAY = date(2026, 4, 6)


def draft(root: Path, day: date = DAY, title: str = "Peas are up") -> Path:
    garden = read_garden(root)
    return begin(root, garden, day_of(garden), title, day).path


@pytest.fixture
def garden(tmp_path: Path) -> Path:
    folder(tmp_path, log=False, ledger=False)
    return written(tmp_path, {"2026/plan.yaml": PLAN, "2026/log/2026-03-20-in.md": LOG})


def test_the_draft_reads_without_a_word(garden: Path) -> None:
    before = [worded(one) for one in read(garden).findings]
    path = draft(garden)
    found = read(garden)
    assert [worded(one) for one in found.findings] == before
    assert found.garden is not None
    entries = found.garden.seasons[0].log or ()
    entry = next(one for one in entries if one.slug == "peas-are-up")
    assert (entry.title, entry.day, entry.unfinished, entry.done, entry.prose) == (
        "Peas are up",
        DAY,
        True,
        (),
        "",
    )
    assert entry.place.file == path.relative_to(garden).as_posix()


def test_every_line_offered_can_be_kept_and_is_then_no_longer_due(garden: Path) -> None:
    path = draft(garden)
    text = path.read_text(encoding="utf-8")
    offered = re.findall(r"^#  - (\{.*?\})  # (.*)$", text, flags=re.MULTILINE)
    assert offered == [
        ('{sow: spinach, tag: SP1, squares: front/A1:B2, variety: "Broad: early"}', "overdue since 5 April"),
        ("{sow indoors: tomato-determinate, tag: TO1}", "due 6 April"),
        ("{sow: radish, tag: RA1, squares: front/A1, among: SP1, share: 1/3}", "due 7 April; a #note"),
        ("{clear: broccoli, tag: BR1, squares: front/D1:D2}", "due 8 April"),
        ('{set out: kale, squares: "back/A1, C1", plants: 2}', "due 9 April"),
    ]
    path.write_text(DONE.sub(r"\1", text), encoding="utf-8")
    found = read(garden)
    assert [worded(one) for one in found.findings] == []
    assert found.garden is not None
    season = found.garden.seasons[0]
    assert sum(len(one.done) for one in season.log or ()) == 1 + len(offered)
    assert due(season, hold(season, DAY), DAY, DAY + timedelta(days=6)) == ()
    again = draft(garden, title="Another").read_text(encoding="utf-8")
    assert "Nothing is due" in again


def test_what_was_recorded_later_is_not_offered_for_an_earlier_day(garden: Path) -> None:
    later = "---\ntitle: Later\ndone:\n  - {sow: spinach, tag: SP1, squares: front/A1:B2}\n---\n"
    written(garden, {"2026/log/2026-04-10-later.md": later})
    assert "sow: spinach" not in draft(garden).read_text(encoding="utf-8")


def test_what_was_weighed_that_day_is_a_remark(garden: Path) -> None:
    written(garden, {"2026/harvest.yaml": LEDGER})
    text = draft(garden, day=date(2026, 5, 16)).read_text(encoding="utf-8")
    assert text.partition("Picked that day, by the ledger")[2].splitlines()[1:] == [
        "#   spinach (SP1), not weighed",
        "#   mixed bowl: spinach and radishes, about 8 oz",
        "---",
        "",
    ]
    assert "Picked that day" not in draft(garden, day=date(2026, 5, 17)).read_text(encoding="utf-8")
