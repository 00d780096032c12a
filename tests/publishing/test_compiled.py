"""Templates kept compiled: the next build compiles nothing, and never runs what is not of the same text."""

import sys
from pathlib import Path

import pytest
from jinja2 import DictLoader, Environment

from tallybed.publishing.compiled import CompiledBeside


@pytest.fixture(autouse=True)
def keeping(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "dont_write_bytecode", False)


def rendered(folder: Path, text: str, *, trim: bool = False) -> tuple[str, int]:
    """Return what a template gives in a fresh environment, and how many texts were compiled for it."""
    compiled = []

    class Counting(Environment):
        def _compile(self, source: str, filename: str) -> object:
            compiled.append(filename)
            return super()._compile(source, filename)

    environment = Counting(
        loader=DictLoader({"one.html": text}),
        bytecode_cache=CompiledBeside(folder),
        trim_blocks=trim,
        autoescape=True,
    )
    return environment.get_template("one.html").render(n=1), len(compiled)


def test_the_next_build_compiles_nothing(tmp_path: Path) -> None:
    assert rendered(tmp_path, "{{ n }} plant") == ("1 plant", 1)
    assert rendered(tmp_path, "{{ n }} plant") == ("1 plant", 0)


def test_another_text_or_another_way_of_reading_it_is_compiled_anew(tmp_path: Path) -> None:
    """Else a site would be made of templates as they were before a change."""
    rendered(tmp_path, "{% if n %}\nold{% endif %}")
    assert rendered(tmp_path, "{% if n %}\nnew{% endif %}") == ("\nnew", 1)
    assert rendered(tmp_path, "{% if n %}\nnew{% endif %}", trim=True) == ("new", 1)


@pytest.mark.parametrize("damage", [b"", b"\0" * 40, b"j2"])
def test_what_is_damaged_is_compiled_anew(tmp_path: Path, damage: bytes) -> None:
    rendered(tmp_path, "{{ n }} plant")
    (kept,) = (tmp_path / "__pycache__").iterdir()
    kept.write_bytes(kept.read_bytes()[:30] + damage)
    assert rendered(tmp_path, "{{ n }} plant") == ("1 plant", 1)


def test_nothing_is_kept_where_python_keeps_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "dont_write_bytecode", True)
    rendered(tmp_path, "{{ n }} plant")
    assert not (tmp_path / "__pycache__").exists()


def test_a_folder_that_cannot_be_written_to_keeps_nothing(tmp_path: Path) -> None:
    (tmp_path / "__pycache__").write_text("not a folder")
    assert rendered(tmp_path, "{{ n }} plant") == ("1 plant", 1)
