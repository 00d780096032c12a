"""The house keeps its order: who may import whom, and what the core never touches."""

import ast
import functools
import subprocess
import sys
from collections.abc import Collection, Iterable, Iterator
from graphlib import CycleError, TopologicalSorter
from pathlib import Path

import pytest

from tests.tools import ROOT

SOURCE = ROOT / "src" / "tallybed"
PURE = ("garden", "reckoning", "checks", "drawing", "pages")
CLOCK = {"today", "now", "utcnow", "fromtimestamp"}
LATE = {
    "tallybed.tasks.check": "tallybed.tasks.build",
    "tallybed.commands.build": "tallybed.tasks.build",
    "tallybed.pictures.rooms": "tempfile",
    "tallybed.publishing.swap.disk": "concurrent.futures",
}
"""Imports inside a function: what one command alone needs, and what takes long to load."""


def test_imports_keep_the_contracts():
    code = "from importlinter.cli import lint_imports_command as c; c()"
    done = subprocess.run(
        [sys.executable, "-c", code, "--no-cache"], cwd=ROOT, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stdout + done.stderr


@functools.cache
def _parsed(path: Path) -> ast.Module:
    return ast.parse(path.read_text(encoding="utf-8"))


def _pure_modules() -> list[Path]:
    return [path for tier in PURE for path in sorted((SOURCE / tier).rglob("*.py"))]


@pytest.mark.parametrize("path", _pure_modules(), ids=lambda path: str(path.relative_to(SOURCE)))
def test_the_core_opens_no_file_and_asks_no_clock(path: Path):
    for node in ast.walk(_parsed(path)):
        if not isinstance(node, ast.Call):
            continue
        called = node.func
        name = called.id if isinstance(called, ast.Name) else getattr(called, "attr", "")
        assert name not in {"open", "input", "print", "exec", "eval"}, f"{path}:{node.lineno} calls {name}"
        assert name not in CLOCK, f"{path}:{node.lineno} asks the clock"


def _modules() -> dict[str, ast.Module]:
    """Every module by its name, parsed."""
    found = {}
    for path in sorted(SOURCE.rglob("*.py")):
        name = ".".join(path.relative_to(SOURCE.parent).with_suffix("").parts).removesuffix(".__init__")
        found[name] = _parsed(path)
    return found


def _imported(nodes: Iterable[ast.AST], known: Collection[str]) -> set[str]:
    """Return what some import statements name: the module itself where a package's is asked for by name."""
    found = set()
    for node in nodes:
        if isinstance(node, ast.Import):
            found |= {one.name for one in node.names}
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, "relative imports hide what is imported"
            whole = str(node.module)
            below = {f"{whole}.{one.name}" for one in node.names}
            found |= (below & set(known)) or {whole}
    return found


def _statements(node: ast.AST) -> Iterator[ast.AST]:
    """Every statement below a node; expressions, which hold no import, are not looked into."""
    for part in ("body", "orelse", "finalbody", "handlers", "cases"):
        for one in getattr(node, part, ()):
            yield one
            yield from _statements(one)


def _cycle(graph: dict[str, set[str]]) -> list[str]:
    """Return modules that import each other in a ring, the first again at the end; empty without a ring."""
    try:
        TopologicalSorter(graph).prepare()
    except CycleError as error:
        return list(error.args[1])
    return []


def test_no_module_imports_itself_by_way_of_others():
    modules = _modules()
    graph = {name: _imported(_statements(tree), modules) & modules.keys() for name, tree in modules.items()}
    assert sum(map(len, graph.values())) > 1000, "the imports are not seen"
    assert _cycle(graph) == []
    graph["tallybed.garden.days"] = graph["tallybed.garden.days"] | {"tallybed.reckoning.year"}
    assert _cycle(graph), "a ring is not seen"


def test_imports_stand_at_the_head_of_their_module():
    late = {}
    for name, tree in _modules().items():
        functions = [
            one for one in _statements(tree) if isinstance(one, ast.FunctionDef | ast.AsyncFunctionDef)
        ]
        inside = {node for one in functions for node in _statements(one)}
        if found := _imported(inside, ()):
            late[name] = " ".join(sorted(found))
    assert late == LATE


def test_every_folder_with_code_is_a_package():
    for path in SOURCE.rglob("*.py"):
        assert (path.parent / "__init__.py").exists(), f"{path.parent} has modules but is no package"


def test_rooms_and_modules_stay_small():
    """A newcomer reads a module in one go, and finds it among few."""
    for folder in {path.parent for path in SOURCE.rglob("*.py")}:
        modules = [path for path in folder.glob("*.py") if path.name != "__init__.py"]
        assert len(modules) <= 16, f"{folder} has {len(modules)} modules: divide the room"
        for path in modules:
            lines = path.read_text(encoding="utf-8").count("\n")
            assert lines <= 350, f"{path} has {lines} lines: divide it"


def test_packages_hold_no_logic():
    for path in SOURCE.rglob("__init__.py"):
        body = _parsed(path).body
        assert all(isinstance(one, ast.Expr | ast.Assign | ast.ImportFrom) for one in body), path
