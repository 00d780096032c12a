"""What reading makes of mistakes: each told once, the rest kept, and never a stop."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tallybed.garden.findings import Severity, worded
from tallybed.garden.garden import Garden
from tallybed.garden.records.log import Entry
from tallybed.reading.folder.garden_folder import read
from tallybed.reading.folder.remembered import Memory
from tallybed.reading.yaml.mistakes import likely_mistake
from tallybed.tasks.site.laid_out import laid_out
from tests.demonstration import demo_read
from tests.laws import tries
from tests.reading.bad_cases import lay_out
from tests.reading.whole_garden import FILES, LEDGER, LOG, PLAN


def _with(tmp_path: Path, **files: str) -> tuple[Garden, list[str]]:
    lay_out(tmp_path, FILES | {f"content/{name}": text for name, text in files.items()})
    done = read(tmp_path)
    assert done.garden is not None
    return done.garden, [finding.code for finding in done.findings if finding.severity is Severity.ERROR]


def test_a_broken_record_is_left_out_and_the_rest_kept(tmp_path: Path) -> None:
    plan = PLAN.replace("squares: long/A1:A3", "squares: long/Z9")
    ledger = LEDGER.replace("weight: 11 oz", "weight: lots")
    log = LOG.replace("minutes: 12", "minutes: some").replace("alt: Pea seedlings, ", "")
    garden, errors = _with(
        tmp_path,
        **{"2026/plan.yaml": plan, "2026/harvest.yaml": ledger, "2026/log/2026-04-19-Peas are up.md": log},
    )
    assert sorted(errors) == ["missing-key", "square-outside", "weight", "whole-number"]
    season = garden.seasons[1]
    assert season.plan is not None
    assert season.log is not None
    assert season.ledger is not None
    assert (len(season.plan), len(season.ledger), len(season.log[0].done)) == (7, 6, 6)
    assert season.log[0].photos == ()
    assert season.plan[1].among == "SP1", "the tag of a broken planting still counts as given"


@pytest.mark.parametrize(
    ("file", "old", "new", "errors"),
    [
        ("garden.yaml", "latitude: 39.6", "latitude: north", ["degrees"]),
        ("garden.yaml", "start: Mar 1,", "start: March,", ["date"]),
        ("garden.yaml", "start: Mar 10", "start: 3/10", ["ambiguous-date"]),
        ("garden.yaml", "omitted: [D3:F5]", "omitted: [D3:F9]", ["square-outside"]),
        ("garden.yaml", "name: long", "name: A1", ["bed-name"]),
        ("garden.yaml", "height: 6 ft", "height: tall", ["length"]),
        ("garden.yaml", "name: Wrenfold Library Beds\n", "", ["missing-key"]),
        ("crops.yaml", "letters: SK", "letters: S", ["letters"]),
        ("crops.yaml", "days: 61", "days: soon", ["whole-number"]),
        ("2026/names.yaml", "tomato-indeterminate", "tomato", ["general-crop"]),
        ("2026/plan.yaml", "crop: okra", "crop: beans", ["general-crop"]),
        ("2026/names.yaml", "Tomatoes: tomato-indeterminate", "beans: kale", ["not-its-meaning"]),
        ("2026/plan.yaml", "crop: Spinach", "crop: Spinich", ["unknown-crop"]),
    ],
)
def test_one_mistake_is_told_once(tmp_path: Path, file: str, old: str, new: str, errors: list[str]) -> None:
    text = FILES[f"content/{file}"]
    assert old in text
    _garden, found = _with(tmp_path, **{file: text.replace(old, new, 1)})
    assert found == errors


def test_where_the_season_cannot_be_read_nothing_is_made_of_its_days(tmp_path: Path) -> None:
    """In a season over the new year, a day without a year is put into the wrong one until then."""
    beds = "name: x\nbeds: [{name: long, length: 2 squares, width: 2 squares}]\n"
    plan = (
        "- {crop: chard, tag: CH1, squares: A1, sow: Sep 5, until: May 30}\n"
        "- {crop: rutabaga, tag: RU1, squares: B1, sow: Feb 1, until: Jun 20}\n"
    )
    log = "---\ntitle: x\ndone:\n  - {sow: chard, tag: CH1, squares: A1}\n---\n"
    for season, codes in (
        ("{start: 1/7, end: Jun 30}", ["ambiguous-date"]),
        ("{start: Jul 1, end: Jun 30}", []),
    ):
        files = {
            "content/garden.yaml": f"{beds}season: {season}\n",
            "content/2026/plan.yaml": plan,
            "content/2026/log/2026-09-05-x.md": log,
        }
        lay_out(tmp_path, files)
        done = read(tmp_path)
        assert done.garden is not None
        assert [one.code for one in done.findings if one.severity is Severity.ERROR] == codes
        assert "never-planted" not in {one.code for one in laid_out(tmp_path).findings}


def test_without_a_readable_garden_file_the_rest_is_still_looked_at(tmp_path: Path) -> None:
    lay_out(
        tmp_path,
        FILES | {"content/garden.yaml": "name: [\n", "content/2026/plan.yaml": "- {crop: spinich}\n"},
    )
    done = read(tmp_path)
    assert done.garden is None
    found = {finding.code for finding in done.findings}
    assert {"broken-yaml", "unknown-crop"} <= found
    assert not found & {"unknown-bed", "bed-not-told", "no-bed", "date-outside-season", "square-outside"}


def test_the_order_of_log_files_and_their_dates_is_the_logs_order(tmp_path: Path) -> None:
    head = "---\ntitle: x\n{}---\n"
    garden, errors = _with(
        tmp_path,
        **{
            "2026/log/2026-05-02-b.md": head.format(""),
            "2026/log/2026-05-02-a.md": head.format("date: 2 May\n"),
            "2026/log/2026-04-01.md": head.format(""),
        },
    )
    assert not errors
    log: tuple[Entry, ...] = garden.seasons[1].log or ()
    assert [(entry.day.isoformat(), entry.slug) for entry in log] == [
        ("2026-04-01", "visit"),
        ("2026-04-19", "peas-are-up"),
        ("2026-05-02", "a"),
        ("2026-05-02", "b"),
    ]


def test_a_folder_that_is_not_there_has_no_garden(tmp_path: Path) -> None:
    done = read(tmp_path / "nowhere")
    assert done.garden is None
    assert [finding.code for finding in done.findings] == ["no-garden"]


def test_the_demonstration_garden_is_read_without_an_error() -> None:
    done = demo_read()
    assert [worded(finding) for finding in done.findings if finding.severity is Severity.ERROR] == []
    assert done.garden is not None
    assert len(done.garden.seasons) >= 2


MARKS = st.sampled_from(
    ["", ":", "- ", "{", "}", "[", "]", "'", '"', ",", "\n", "  ", "\t", "#", "x", "é", "0", "%"]
)
NAMES = st.sampled_from(sorted(FILES))
HOW_OFTEN, HOW_MUCH = st.integers(1, 4), st.integers(0, 3)


@st.composite
def spoilt(draw: st.DrawFn) -> tuple[str, str]:
    """Return a file's name and its text with a few places overwritten."""
    name = draw(NAMES)
    text = FILES[name]
    for _ in range(draw(HOW_OFTEN)):
        at = draw(st.integers(0, len(text)))
        text = text[:at] + draw(MARKS) + text[at + draw(HOW_MUCH) :]
    return name, text


@pytest.fixture(scope="module")
def root(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The garden in which one file after another is spoilt."""
    root = tmp_path_factory.mktemp("spoilt")
    lay_out(root, FILES)
    return root


@pytest.fixture(scope="module")
def before(root: Path) -> Memory:
    """What reading it left, so that of each spoilt garden only what is spoilt is parsed."""
    return read(root, Memory()).leaves


@settings(max_examples=tries(150))
@given(spoilt())
def test_a_spoilt_file_never_ends_the_reading(root: Path, before: Memory, case: tuple[str, str]) -> None:
    name, text = case
    (root / name).write_text(text, encoding="utf-8", newline="")
    try:
        for finding in read(root, before).findings:
            where = root / finding.place.file
            assert where.exists()
            if where.is_file():
                lines = where.read_text(encoding="utf-8").split("\n")
                assert 1 <= finding.place.line <= len(lines)
                assert 1 <= finding.place.column <= len(lines[finding.place.line - 1]) + 1
    finally:
        (root / name).write_text(FILES[name], encoding="utf-8", newline="")


def test_hash_seed_time_zone_and_locale_change_no_word(tmp_path: Path) -> None:
    spoilt_files = {
        name: text.replace("long/", "lung/").replace("carrot", "carot") for name, text in FILES.items()
    }
    lay_out(tmp_path, spoilt_files)
    code = (
        "import sys; from pathlib import Path; from tallybed.reading.folder.garden_folder import read\n"
        "from tallybed.garden.findings import worded\n"
        "done = read(Path(sys.argv[1]))\n"
        "print(*map(worded, done.findings), done.garden.seasons, done.garden.crops, sep='\\n')"
    )
    running = []
    for seed, zone, language in (("1", "UTC", "C.UTF-8"), ("2", "Pacific/Auckland", "tr_TR.UTF-8")):
        env = os.environ | {"PYTHONHASHSEED": seed, "TZ": zone, "LC_ALL": language, "PYTHONUTF8": "1"}
        command = [sys.executable, "-c", code, str(tmp_path)]
        running.append(subprocess.Popen(command, env=env, stdout=subprocess.PIPE, text=True))
    told = [each.communicate()[0] for each in running]
    assert [each.returncode for each in running] == [0, 0]
    assert told[0].count("[unknown-bed]") > 5
    assert told[0] == told[1]


@pytest.mark.parametrize(
    ("line", "comma"),
    [
        ("- {date: 2026-06-11; crop: radish; weight: 1 kg}", True),
        ("- {date: 2026-06-11 crop: radish, weight: 1 kg}", True),
        ("- date: 2026-06-11 crop: radish", False),
    ],
)
def test_keys_in_braces_that_no_comma_parts_are_told_to_have_one(line: str, comma: bool) -> None:
    """Fails where the only thing said to somebody who wrote semicolons is to put a text in quotes."""
    column = line.index(": ", line.index(": ") + 1)
    _line, _column, told = likely_mistake(line, 0, column)
    assert told.remedy.startswith("put a comma between two keys") is comma
