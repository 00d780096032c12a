"""A new garden: whole, in the year asked for, and never over something else."""

import errno
from pathlib import Path

import pytest

from tallybed.publishing.swap.refused import RefusedError
from tallybed.writing.starter_garden import start


def test_every_example_carries_the_year_in_name_and_text(tmp_path: Path) -> None:
    written = start(tmp_path / "g", 2031)
    names = {path.relative_to(tmp_path / "g").as_posix() for path in written}
    assert names >= {
        "README.txt",
        "content/garden.yaml",
        "content/about.md",
        "content/2031/plan.yaml",
        "content/2031/harvest.yaml",
        "content/2031/log/2031-04-05-the-first-sowing.md",
    }
    for path in written:
        text = path.read_text(encoding="utf-8")
        assert "YEAR" not in text + str(path.relative_to(tmp_path)), path
    assert "2031-04-05" in (tmp_path / "g/content/2031/log/2031-04-05-the-first-sowing.md").read_text()


def test_the_note_names_files_that_are_there(tmp_path: Path) -> None:
    start(tmp_path / "g", 2031)
    named = [
        line.split()[0]
        for line in (tmp_path / "g" / "README.txt").read_text(encoding="utf-8").splitlines()
        if line.startswith("  content/")
    ]
    assert len(named) == 6
    for name in named:
        assert (tmp_path / "g" / name).exists(), name


@pytest.mark.parametrize("there", [False, True])
def test_half_a_garden_is_not_left_in_the_way(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, *, there: bool
) -> None:
    folder = tmp_path / "g"
    if there:
        folder.mkdir()
    write, room = Path.write_text, iter(range(3))

    def filling(path: Path, text: str, **more: str) -> int:
        if next(room, None) is None:
            write(path, "")
            raise OSError(errno.ENOSPC, "No space left on device")
        return write(path, text, **more)

    monkeypatch.setattr(Path, "write_text", filling)
    with pytest.raises(OSError, match="No space"):
        start(folder, 2031)
    assert folder.exists() is there
    monkeypatch.undo()
    assert start(folder, 2031)


def test_an_empty_folder_is_filled(tmp_path: Path) -> None:
    start(tmp_path, 2031)
    assert (tmp_path / "content" / "garden.yaml").is_file()


def test_a_folder_with_anything_in_it_is_refused(tmp_path: Path) -> None:
    (tmp_path / "diary.txt").write_text("mine")
    for folder in (tmp_path, tmp_path / "diary.txt"):
        with pytest.raises(RefusedError, match="exists already and is not empty"):
            start(folder, 2031)
    assert [path.name for path in tmp_path.iterdir()] == ["diary.txt"]
