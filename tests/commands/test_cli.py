"""The command: what it prints, where, and the number it ends with."""

import os
import re
import shlex
import subprocess
import sys
from datetime import date
from pathlib import Path

import click
import pytest
from click.testing import CliRunner

from tallybed.cli import main
from tallybed.garden.findings import Finding, Place
from tallybed.tasks import build, check
from tests.commands.running import run

COMMAND = [sys.executable, "-c", "from tallybed.cli import main; main()"]


def spoil(garden: Path) -> None:
    with (garden / "content" / "2026" / "plan.yaml").open("a", encoding="utf-8") as file:
        file.write("- {crop: carrrot, squares: A1, sow: Apr 5}\n")


def test_a_garden_without_a_season_speaks_as_of_no_day(tmp_path: Path) -> None:
    (tmp_path / "content").mkdir()
    (tmp_path / "content" / "garden.yaml").write_text("name: Bare\n", encoding="utf-8")
    for _again in range(2):
        built = run("build", tmp_path)
        assert re.match(r"\d+ pages (written|unchanged) in .*site\.\s", built.stdout)
    pages = [page.read_text(encoding="utf-8") for page in (tmp_path / "site").rglob("index.html")]
    assert not [page for page in pages if re.search("As of|1999-12-31|31 December 1999", page)]


def test_start_check_build_go_well_one_after_the_other(tmp_path: Path) -> None:
    folder = tmp_path / "g"
    started = run("start", folder, "--year", "2026")
    assert started.exit_code == 0
    assert "README.txt" in started.stdout
    spaced = tmp_path / "our garden"
    assert shlex.split(run("start", spaced).stdout.partition("then run: ")[2])[-1] == str(spaced)
    checked = run("check", folder)
    assert (checked.exit_code, checked.stdout) == (0, "1 piece of advice.\n")
    assert "[no-address]" in checked.stderr
    assert not (folder / "site").exists()
    built = run("build", folder)
    assert built.exit_code == 0
    assert re.fullmatch(r"\d+ pages written in .*site, as of 10 May 2026\.\n", built.stdout)
    assert "unchanged" in run("build", folder).stdout


def test_start_takes_the_year_from_the_clock_where_none_is_said(tmp_path: Path) -> None:
    assert run("start", tmp_path / "g").exit_code == 0
    (season,) = (path.name for path in (tmp_path / "g" / "content").iterdir() if path.name.isdigit())
    assert abs(int(season) - date.today().year) <= 1  # noqa: DTZ011 - the test may cross midnight


def test_the_folder_is_the_current_one_where_none_is_said(
    garden: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(garden)
    assert run("check").exit_code == 0
    assert run("build").exit_code == 0
    assert (garden / "site" / "index.html").is_file()


def test_errors_are_printed_as_lines_that_editors_jump_from(garden: Path) -> None:
    spoil(garden)
    line = re.compile(
        r"^content/2026/plan\.yaml:\d+:\d+: error: .*carrot\? .*\[unknown-crop\]$", re.MULTILINE
    )
    for command in ("check", "build"):
        result = run(command, garden)
        assert result.exit_code == 1
        assert line.search(result.stderr), result.stderr
        assert "1 error" in result.output
    assert "site was left as it was" in run("build", garden).stderr


def test_warnings_and_advice_do_not_change_the_exit_code(garden: Path) -> None:
    with (garden / "content" / "2026" / "harvest.yaml").open("w", encoding="utf-8") as file:
        file.write("- {date: 2026-04-01, tag: RA1, weight: 7 oz}\n")
    for command in ("check", "build"):
        result = run(command, garden)
        assert result.exit_code == 0
        assert re.search(r"warning|advice", result.stderr)
        assert re.search(r"\d (warning|piece)", result.stdout)


def test_quiet_prints_errors_alone(garden: Path) -> None:
    assert run("build", garden, "--quiet").output == ""
    spoil(garden)
    result = run("build", garden, "--quiet")
    assert result.exit_code == 1
    assert "carrrot" in result.stderr


@pytest.mark.parametrize("words", [["check"], ["seeds"], ["bulletin"], ["archive", "2026"]], ids=" ".join)
def test_the_folder_may_be_told_as_other_commands_are_told_it(garden: Path, words: list[str]) -> None:
    """Fails where ``--folder``, which half of the commands need, is a mistake for the others."""
    assert run(*words, "--folder", garden).exit_code == 0


@pytest.mark.parametrize(
    "words",
    [
        ["no-such-command"],
        ["build", "{garden}", "--no-such-option"],
        ["build", "{garden}", "--as-of", "1 July"],
        ["build", "{garden}", "--as-of", "2026-02-30"],
        ["build", "{garden}", "--to", "{garden}/content"],
        ["build", "{garden}", "--to", "{garden}/content/2026/plan.yaml"],
        ["build", "{garden}/content"],
        ["check", "{garden}/nowhere"],
        ["check", "--folder", "{garden}/nowhere"],
        ["check", "{garden}", "--folder", "{garden}"],
        ["preview", "{garden}/nowhere"],
        ["preview", "{garden}", "--port", "99999"],
        ["start"],
        ["start", "{garden}"],
        ["start", "{garden}/new", "--year", "26"],
    ],
    ids=" ".join,
)
def test_wrong_usage_ends_with_2_and_a_sentence(garden: Path, words: list[str]) -> None:
    before = sorted(garden.rglob("*"))
    result = run(*(word.format(garden=garden) for word in words))
    assert result.exit_code == 2
    assert result.stderr.strip()
    assert "Traceback" not in result.output
    assert sorted(garden.rglob("*")) == before


def test_a_foreign_folder_and_work_by_hand_end_with_2_and_the_remedy(garden: Path) -> None:
    (garden / "site").mkdir()
    (garden / "site" / "mine.txt").write_text("mine")
    result = run("build", garden)
    assert result.exit_code == 2
    assert "--replace" in result.stderr
    assert run("build", garden, "--replace").exit_code == 0
    (garden / "site" / "about" / "index.html").write_text("by hand")
    result = run("build", garden)
    assert result.exit_code == 2
    assert "about/index.html" in result.stderr


@pytest.mark.parametrize("words", [["check", "{loop}"], ["build", "{garden}", "--to", "{loop}"]])
def test_links_that_lead_to_each_other_end_with_a_sentence(
    garden: Path, tmp_path: Path, words: list[str]
) -> None:
    loop = tmp_path / "loop"
    loop.symlink_to(loop)
    result = run(*(word.format(loop=loop, garden=garden) for word in words))
    assert result.exit_code in {2, 3}, "Pythons differ in what they make of such links"
    assert result.stderr.splitlines()[-1].startswith("tallybed: ")


def test_a_command_that_ends_itself_after_trouble_keeps_its_exit_code(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Fails where an end told while the machine's word was handled becomes trouble with the machine."""

    @click.command()
    @click.pass_context
    def ends(ctx: click.Context) -> None:
        try:
            raise OSError("not there")
        except OSError:
            ctx.exit(5)

    monkeypatch.setattr(type(main), "get_command", lambda *_asked: ends)
    assert CliRunner().invoke(main, ["check"]).exit_code == 5


def test_trouble_with_the_machine_ends_with_3(
    garden: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "file").write_text("x")
    result = run("build", garden, "--to", tmp_path / "file" / "site")
    assert result.exit_code == 3
    assert str(tmp_path / "file") in result.stderr

    def full(*_args: object, **_more: object) -> None:
        raise OSError(28, "No space left on device", "site")

    monkeypatch.setattr(build, "new_site", full)
    result = run("build", garden)
    assert result.exit_code == 3
    assert (
        "tallybed: site: No space left on device (make room on that disk, then try again)\n" in result.stderr
    )


def test_two_builds_at_once_are_said(garden: Path) -> None:
    from tallybed.publishing.swap import disk

    with disk.alone(garden / ".site.tallybed-lock"):
        result = run("build", garden)
        assert result.exit_code == 3
        assert "another build" in result.stderr
        assert run("check", garden).exit_code == 0, "checking needs no lock"


def test_ctrl_c_ends_a_build_without_noise(garden: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def stopped(*_args: object, **_more: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(build, "new_site", stopped)
    result = run("build", garden)
    assert result.exit_code == 130
    assert result.stderr.endswith("tallybed: stopped; the site was left whole\n")


def test_nothing_typed_into_content_steers_the_terminal(
    garden: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    bad = Finding(place=Place("content/\x1b[2J.yaml"), code="x", found="\x1b]0;title\x07 and \u202e and ½")
    monkeypatch.setattr(check, "check", lambda *_args, **_more: (bad,))
    result = run("check", garden)
    assert result.exit_code == 1
    assert result.stderr == "content/\\x1b[2J.yaml:1:1: error: \\x1b]0;title\\x07 and \\u202e and ½ [x]\n"


@pytest.mark.parametrize(
    ("file", "data"),
    [
        ("garden.yaml", b""),
        ("garden.yaml", b"\xff\xfe\x00"),
        ("garden.yaml", b"- a\n- b\n"),
        ("garden.yaml", b"name: [\n"),
        ("garden.yaml", b"a: &a [*a]\n"),
        ("garden.yaml", b"[" * 5000),
        ("garden.yaml", b"name: G\nbeds: [{name: a, length: 999999999 squares, width: 3 squares}]\n"),
        ("2026/plan.yaml", b"\x00"),
        ("2026/plan.yaml", b"- {crop: carrot, squares: A1:ZZZ999, sow: Apr 5}\n"),
        ("2026/harvest.yaml", b"- {date: 2026-05-05, crop: carrot, weight: 1e999 lb}\n"),
        ("2026/log/2026-04-05-the-first-sowing.md", b"---\n"),
        ("2026/log/2026-99-99-never.md", b"---\ntitle: X\n---\n"),
        ("about.md", b"no header"),
        ("questions/what.md", b"---\nquestion: {}\n---\n"),
    ],
    ids=lambda value: value if isinstance(value, str) else repr(value[:30]),
)
def test_no_content_however_bad_brings_a_traceback(garden: Path, file: str, data: bytes) -> None:
    (garden / "content" / file).write_bytes(data)
    result = run("build", garden)
    assert result.exit_code == 1, result.output
    assert isinstance(result.exception, SystemExit)
    assert "error: " in result.stderr


def process(*words: str | Path, **env: str) -> subprocess.CompletedProcess[bytes]:
    return subprocess.run(
        [*COMMAND, *map(str, words)], capture_output=True, check=False, env={**os.environ, **env}, timeout=120
    )


def test_the_real_command_ends_with_the_same_numbers(garden: Path, tmp_path: Path) -> None:
    assert process("build", garden).returncode == 0
    assert process("build", garden / "nowhere").returncode == 2
    (tmp_path / "file").write_text("x")
    assert process("build", garden, "--to", tmp_path / "file" / "x").returncode == 3
    spoil(garden)
    done = process("check", garden, PYTHONIOENCODING="ascii")
    assert done.returncode == 1
    assert b"Traceback" not in done.stderr
    assert b"carrrot" in done.stderr


def test_progress_is_plain_lines_where_no_terminal_is(garden: Path) -> None:
    said = process("build", garden).stderr.decode()
    assert "\r" not in said
    assert "\x1b" not in said
    assert said.count("Making pages") == 1


@pytest.mark.skipif(sys.platform == "win32", reason="no pseudo-terminals there")
def test_progress_is_one_line_on_a_terminal(garden: Path) -> None:
    import pty

    ours, theirs = pty.openpty()
    try:
        done = subprocess.run(
            [*COMMAND, "build", str(garden)], stdout=subprocess.PIPE, stderr=theirs, check=False, timeout=120
        )
        said = os.read(ours, 100_000).decode()
    finally:
        os.close(ours)
        os.close(theirs)
    assert done.returncode == 0
    assert "\n" not in said
    assert "Making pages 10 of" in said
    assert said.endswith("\r\x1b[K"), "the line of progress was left standing"


def test_help_and_version_are_there() -> None:
    assert "tallybed" in run("--version").stdout
    for command in ("start", "check", "build", "preview"):
        assert command in run("--help").stdout
        assert run(command, "--help").exit_code == 0
