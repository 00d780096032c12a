"""``tallybed bulletin`` and ``tallybed archive``: what they print and write, and what they refuse."""

from __future__ import annotations

import io
from pathlib import Path
from zipfile import ZipFile

import pytest
from bs4 import BeautifulSoup
from PIL import Image

from tests.commands.running import run
from tests.pages.gardens import folder, written


@pytest.fixture
def garden(tmp_path: Path) -> Path:
    return folder(tmp_path / "garden")


@pytest.mark.parametrize("week", ["2026-W20", "2026W20", "2026-05-16"])
def test_a_week_is_told_by_its_number_or_by_a_day_in_it(garden: Path, week: str) -> None:
    result = run("bulletin", garden, "--week", week)
    assert result.exit_code == 0, result.stderr
    head, *rest = result.stdout.split("\n\n")
    assert head == "Two Plank Garden\nWeek 20 of 2026, 11 to 17 May"
    assert rest[0].startswith("Two pickings gave at least 8 ounces; one of them was not weighed.")
    assert len(result.stdout.split()) < 120


def test_without_a_week_it_is_that_of_the_newest_record(garden: Path) -> None:
    assert "Week 21 of 2026, 18 to 20 May" in run("bulletin", garden).stdout
    assert "Week 19 of 2026, 4 to 10 May" in run("bulletin", garden, "--as-of", "2026-05-12").stdout


def test_for_a_mail_it_is_a_fragment_without_styles_and_with_everything_escaped(garden: Path) -> None:
    plain = run("bulletin", garden).stdout
    path = garden / "content" / "garden.yaml"
    text = path.read_text(encoding="utf-8").replace("Two Plank Garden", "'<b>Two</b> & \"Plank\"'")
    path.write_text(text + "address: https://plank.example/\n", encoding="utf-8")
    result = run("bulletin", garden, "--html")
    assert result.exit_code == 0
    fragment = BeautifulSoup(result.stdout, "html.parser")
    assert not fragment.find_all(["html", "head", "style", "script", "img", "link", "b"])
    assert not [tag for tag in fragment.find_all(True) if {"style", "class", "src"} & set(tag.attrs)]
    assert fragment.h2 is not None
    assert fragment.h2.get_text(" ", strip=True).startswith('<b>Two</b> & "Plank"')
    *paragraphs, link = [one.get_text(strip=True) for one in fragment.find_all("p")]
    assert paragraphs == plain.strip().split("\n\n")[1:], "the same sentences as in plain text"
    assert link == "https://plank.example/2026/bulletins/2026-w21/"


def test_its_picture_is_written_once_and_again_only_when_said(garden: Path, tmp_path: Path) -> None:
    picture = tmp_path / "week.png"
    assert run("bulletin", garden, "--picture", picture).exit_code == 0
    with Image.open(picture) as image:
        assert (image.format, image.size) == ("PNG", (1200, 630))
    first = picture.read_bytes()
    again = run("bulletin", garden, "--picture", picture, "--week", "2026-W19")
    assert again.exit_code == 2
    assert "--replace" in again.stderr
    assert picture.read_bytes() == first
    assert run("bulletin", garden, "--picture", picture, "--week", "2026-W19", "--replace").exit_code == 0
    assert picture.read_bytes() != first, "another week has another picture"
    early = run("bulletin", garden, "--picture", tmp_path / "early.png", "--week", "2026-W15")
    assert early.exit_code == 2
    assert "nothing was weighed by 12 April 2026" in early.stderr
    assert sorted(path.name for path in tmp_path.iterdir()) == ["garden", "week.png"]


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["--week", "2026-W54"], "not a week such as 2026-W31"),
        (["--week", "soon"], "not a week such as 2026-W31"),
        (["--week", "9999-W52"], "is not a week of the years 1000 to 2999"),
        (["--week", "0001-W01"], "is not a week of the years 1000 to 2999"),
        (["--as-of", "9999-12-31"], "is not a day of the years 1000 to 2999"),
        (["--week", "2026-W22"], "no season has a day of week 2026-W22 up to 20 May 2026"),
        (["--week", "2025-W20"], "no season has a day of week 2025-W20"),
        (["--as-of", "yesterday"], "is not a date"),
    ],
)
def test_a_week_that_cannot_be_told_is_wrong_usage(garden: Path, words: list[str], said: str) -> None:
    result = run("bulletin", garden, *words)
    assert result.exit_code == 2
    assert said in " ".join(result.stderr.split())
    assert result.stdout == ""


def test_a_garden_without_a_record_has_no_bulletin(tmp_path: Path) -> None:
    bare = folder(tmp_path, plan=False, log=False, ledger=False)
    result = run("bulletin", bare)
    assert result.exit_code == 2
    assert "nothing is on record yet" in result.stderr


@pytest.mark.parametrize("words", [["bulletin"], ["archive", "2026"]])
def test_content_with_errors_ends_with_1_and_its_findings(garden: Path, words: list[str]) -> None:
    written(garden, {"2026/names.yaml": "beans: [\n"})
    result = run(*words, garden)
    assert result.exit_code == 1
    assert "content/2026/names.yaml:" in result.stderr
    assert result.stdout == ""
    assert not list(garden.glob("*.zip"))


def test_a_season_is_put_into_one_file_that_is_the_same_each_time(garden: Path, tmp_path: Path) -> None:
    result = run("archive", "2026", garden)
    assert result.exit_code == 0, result.stderr
    data = (garden / "2026.zip").read_bytes()
    assert f"MB, written to {garden / '2026.zip'}." in " ".join(result.stdout.split())
    with ZipFile(io.BytesIO(data)) as file:
        assert "two-plank-garden-2026/2026/index.html" in file.namelist()
        assert result.stdout.startswith(f"{len(file.namelist())} files, ")
    refused = run("archive", "2026", garden)
    assert refused.exit_code == 2
    assert "--replace" in refused.stderr
    assert run("archive", "2026", garden, "--to", tmp_path / "other.zip").exit_code == 0
    assert (tmp_path / "other.zip").read_bytes() == data


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["archive"], "Missing argument"),
        (["archive", "1999", "{garden}"], "there is no season 1999; the garden has: 2026"),
        (["archive", "2026", "{garden}/content"], "is not a garden folder"),
        (["archive", "2026", "{garden}", "--replace", "--to", "{garden}"], "is a folder"),
        (["bulletin", "{garden}", "--replace"], "--replace works only together with --picture"),
        (["bulletin", "{garden}", "--picture", "{garden}/week.jpg"], "is not the name of a PNG file"),
        *(
            ([*words, f"{{garden}}/{target}"], "the garden's own text")
            for words in (
                ["archive", "2026", "{garden}", "--replace", "--to"],
                ["bulletin", "{garden}", "--replace", "--picture"],
            )
            for target in ("content/garden.yaml", "content/new", "layouts/frame.html", "site/../content/x")
        ),
    ],
)
def test_what_cannot_be_archived_is_wrong_usage(garden: Path, words: list[str], said: str) -> None:
    result = run(*(word.format(garden=garden) for word in words))
    assert result.exit_code == 2
    assert said in " ".join(result.stderr.split())
