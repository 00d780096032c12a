"""Tools that are not Python packages: a test without its tool is skipped, or fails where CI is set."""

from __future__ import annotations

import os
import shutil
import subprocess
from pathlib import Path
from typing import NoReturn

import pytest

ROOT = Path(__file__).parent.parent
SWITCHES = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)
"""For a browser without a window that asks nothing of anybody."""
UNPAINTED = "--disable-threaded-compositing"
"""With it pages are laid out, measured and printed, but nothing can be clicked. It takes half the time."""
BROWSERS = ("chromium-headless-shell", "chromium", "chromium-browser", "google-chrome")
"""The first is the same engine without windows, in two thirds of the time."""


def lacking(tool: str, remedy: str) -> NoReturn:
    """Skip the test for want of a tool; fail it under CI, where a skip would hide that nothing was tested."""
    words = f"{tool} is missing: {remedy}"
    if os.environ.get("CI"):
        pytest.fail(words)
    pytest.skip(words)


def program(*names: str, remedy: str) -> str:
    """Return the path of the first of these programs that the machine has."""
    found = next((path for path in map(shutil.which, names) if path), None)
    return found or lacking(names[0], remedy)


def browser() -> str:
    """Return the browser: the one that CHROMIUM names, else the machine's own."""
    names = (os.environ["CHROMIUM"],) if os.environ.get("CHROMIUM") else BROWSERS
    return program(
        *names, remedy="apt-get install chromium-headless-shell, or set CHROMIUM to a browser of that family"
    )


def firefox() -> str:
    """Return Firefox."""
    return program("firefox-esr", "firefox", remedy="apt-get install firefox-esr")


def webkit() -> tuple[str, ...]:
    """Return the command that runs a script of Python which may load WebKitGTK, on a screen of its own."""
    remedy = "apt-get install gir1.2-webkit2-4.1 python3-gi xauth xvfb"
    screen = program("xvfb-run", remedy=remedy)
    python = "/usr/bin/python3"  # Debian's, which has the bindings; they are no wheel
    loads = "import gi; gi.require_version('WebKit2', '4.1')"
    if subprocess.run([python, "-c", loads], capture_output=True, check=False).returncode:
        lacking("WebKitGTK", remedy)
    return screen, "--auto-servernum", python


def nginx() -> str:
    """Return a server of files."""
    found = shutil.which("nginx", path=f"{os.environ.get('PATH', '')}:/usr/sbin")
    return found or lacking("nginx", "apt-get install nginx-light")


def java() -> str:
    """Return the Java runtime that the markup checker runs on."""
    return program("java", remedy="apt-get install default-jre-headless")


def font(path: str) -> Path:
    """Return a font file that text is measured against."""
    found = Path(path)
    return found if found.exists() else lacking(found.name, "apt-get install fonts-dejavu-core")


def packaged(*parts: str) -> Path:
    """Return a file of an npm package named in package.json."""
    path = ROOT.joinpath("node_modules", *parts)
    return path if path.exists() else lacking("/".join(parts), "npm install --ignore-scripts in this folder")
