"""The package as others get it: built, installed elsewhere, and used where no checkout is."""

import os
import subprocess
import sys
import venv
import zipfile
from pathlib import Path

import pytest

from tests.tools import ROOT

BARE = {name: value for name, value in os.environ.items() if not name.startswith(("PYTHON", "VIRTUAL_ENV"))}
NO_NETWORK = ("NewConnectionError", "ConnectTimeoutError", "Temporary failure in name resolution")


def pip(*words: str) -> None:
    done = subprocess.run(
        [sys.executable, "-m", "pip", "--quiet", "--disable-pip-version-check", *words],
        capture_output=True,
        text=True,
        check=False,
        env=BARE,
        timeout=400,
    )
    if any(sign in done.stderr for sign in NO_NETWORK) and "CI" not in os.environ:
        pytest.skip("the package index cannot be reached")
    assert done.returncode == 0, done.stderr


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("wheel")
    pip("wheel", str(ROOT), "--no-deps", "--wheel-dir", str(folder))
    (made,) = folder.glob("tallybed-*.whl")
    return made


def test_the_wheel_holds_layouts_examples_and_library(wheel: Path) -> None:
    with zipfile.ZipFile(wheel) as packed:
        names = set(packed.namelist())
    assert names >= {
        "tallybed/py.typed",
        "tallybed/layouts/sheet.html",
        "tallybed/layouts/style.css",
        "tallybed/server/preview.js",
        "tallybed/writing/starter/README.txt",
        "tallybed/writing/starter/content/YEAR/log/YEAR-04-05-the-first-sowing.md",
    }
    for folder in ("layouts", "src/tallybed"):
        for path in (ROOT / folder).rglob("*"):
            if path.is_file() and "__pycache__" not in path.parts:
                name = path.relative_to(ROOT if folder == "layouts" else ROOT / "src").as_posix()
                assert (name if folder != "layouts" else f"tallybed/{name}") in names
    assert not any(name.startswith(("tests/", "content/", "site/")) for name in names)


def test_a_garden_is_started_and_built_where_no_checkout_is(wheel: Path, tmp_path: Path) -> None:
    home = tmp_path / "venv"
    venv.create(home)
    folder = home / ("Scripts" if os.name == "nt" else "bin")
    # What is loaded here is compiled as it is loaded; the rest need not be.
    pip("--python", str(folder / "python"), "install", "--no-compile", str(wheel))
    command = folder / "tallybed"

    def run(*words: str, cwd: Path = tmp_path) -> str:
        done = subprocess.run(
            [str(command), *words],
            cwd=cwd,
            env=BARE,
            capture_output=True,
            text=True,
            check=False,
            timeout=120,
        )
        assert done.returncode == 0, done.stderr
        return done.stdout

    run("start", "g")
    assert "pages written" in run("build", cwd=tmp_path / "g")
    site = tmp_path / "g" / "site"
    assert (site / "index.html").is_file()
    assert (site / "style.css").is_file()
    where = subprocess.run(
        [
            str(folder / "python"),
            "-c",
            "import tallybed, sys; print(tallybed.__file__, *sys.path, sep='\\n')",
        ],
        cwd=tmp_path,
        env=BARE,
        capture_output=True,
        text=True,
        check=True,
    ).stdout
    assert str(home) in where.splitlines()[0]
    assert str(ROOT) not in where, "the checkout lent a hand"
