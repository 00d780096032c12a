"""The house keeps its order: who may import whom, and what the core never touches."""

import ast
import subprocess
import sys
from pathlib import Path

import pytest

from tests.tools import ROOT

SOURCE = ROOT / "src" / "tallybed"
PURE = ("garden", "reckoning", "checks", "drawing", "pages")
CLOCK = {"today", "now", "utcnow", "fromtimestamp"}


def test_imports_keep_the_contracts():
    code = "from importlinter.cli import lint_imports_command as c; c()"
    done = subprocess.run(
        [sys.executable, "-c", code, "--no-cache"], cwd=ROOT, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stdout + done.stderr


def _pure_modules() -> list[Path]:
    return [path for tier in PURE for path in sorted((SOURCE / tier).rglob("*.py"))]


@pytest.mark.parametrize("path", _pure_modules(), ids=lambda path: str(path.relative_to(SOURCE)))
def test_the_core_opens_no_file_and_asks_no_clock(path: Path):
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if not isinstance(node, ast.Call):
            continue
        called = node.func
        name = called.id if isinstance(called, ast.Name) else getattr(called, "attr", "")
        assert name not in {"open", "input", "print", "exec", "eval"}, f"{path}:{node.lineno} calls {name}"
        assert name not in CLOCK, f"{path}:{node.lineno} asks the clock"


def test_every_folder_with_code_is_a_package():
    for path in SOURCE.rglob("*.py"):
        assert (path.parent / "__init__.py").exists(), f"{path.parent} has modules but is no package"
