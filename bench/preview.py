"""How soon ``tallybed preview`` shows a change: milliseconds from saving a file until the page is other.

Run ``python bench/preview.py`` with the package installed (or ``PYTHONPATH=src``), on an idle machine. It
starts the preview on a copy of the demonstration, opens one page for each kind of change as a browser
does (the page, then the question for something newer), adds to the file, and stops the watch once the
answer has come and the page has been read again with other bytes.
"""

from __future__ import annotations

import argparse
import http.client
import os
import re
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from urllib.parse import quote

ROOT = Path(__file__).resolve().parent.parent
PATIENCE = 120.0
CHANGES = {
    "an entry's prose": (
        "2026/log/{entry}.md",
        "/2026/log/{page}/",
        "\nOne more line, number {number}.\n",
    ),
    "a line of the ledger": (
        "2026/harvest.yaml",
        "/2026/tally/",
        "- {{date: {day}, crop: lettuce-leaf, weight: {number} oz}}\n",
    ),
    "a row of the plan": (
        "2026/plan.yaml",
        "/2026/plants/",
        "- {{crop: radish, tag: ZZ{number}, squares: long/A1, sow: Oct {number}, until: Oct 28}}\n",
    ),
}
"""What is changed: the file below content, the page that is open, and what is added."""


class Preview:
    """A preview under way."""

    def __init__(self, garden: Path) -> None:
        call = [sys.executable, "-c", "from tallybed.cli import main; main()"]
        self.process = subprocess.Popen(
            [*call, "preview", str(garden), "--port", "0"],
            stderr=subprocess.PIPE,
            text=True,
            env={**os.environ, "PYTHONUNBUFFERED": "1"},
        )
        self.port = 0
        self.until("Open http")

    def until(self, words: str) -> None:
        """Wait for a line of the terminal."""
        for line in self.process.stderr or ():
            if found := re.search(r"127\.0\.0\.1:(\d+)/", line):
                self.port = int(found[1])
            if words in line:
                return
        raise SystemExit(f"the preview ended before it said {words!r}")

    def get(self, path: str) -> bytes:
        """Return what is answered."""
        connection = http.client.HTTPConnection("127.0.0.1", self.port, timeout=PATIENCE)
        connection.request("GET", path)
        answer = connection.getresponse().read()
        connection.close()
        return answer

    def shown(self, page: str) -> tuple[bytes, str]:
        """Return a page without the desk beside it, and the mark that it asks for news with."""
        whole = self.get(page)
        mark = re.search(rb'data-version="(\w+)"', whole)
        if mark is None:
            raise SystemExit(f"{page} is no page of the preview: {whole[:200]!r}")
        return whole.partition(b'<link rel="stylesheet" href="/.tallybed/')[0], mark[1].decode()

    def waited(self, file: Path, text: str, page: str) -> tuple[float, float]:
        """Return seconds from adding a text to a file until the page is other; and until all is built."""
        before, mark = self.shown(page)
        with file.open("a", encoding="utf-8") as out:
            out.write(text)
        began = time.perf_counter()
        while True:
            mark_now = self.get(f"/.tallybed/changes?page={quote(page)}&since={mark}").decode()
            if mark_now != mark:
                now, mark = self.shown(page)
                if now != before:
                    break
        seen = time.perf_counter() - began
        self.until("Built in")
        return seen, time.perf_counter() - began


def main() -> None:
    """Print a line for each kind of change."""
    words = argparse.ArgumentParser(description=__doc__)
    words.add_argument("--times", type=int, default=5)
    times = words.parse_args().times
    load = f"{os.getloadavg()[0]:.1f}"
    print(f"Python {sys.version.split()[0]}, {os.cpu_count()} processors, load {load} before")
    print(f"{'change':22} {'shown':>9} {'all built':>10}   each")
    with tempfile.TemporaryDirectory() as folder:
        garden = Path(folder) / "garden"
        shutil.copytree(ROOT / "content", garden / "content")
        if (ROOT / ".tallybed-cache").is_dir():
            shutil.copytree(ROOT / ".tallybed-cache", garden / ".tallybed-cache")
        preview = Preview(garden)
        try:
            preview.until("Built in")
            for what, (file, page, text) in CHANGES.items():
                print(_line(preview, garden, what, file, page, text, times), flush=True)
        finally:
            preview.process.terminate()
            preview.process.wait()


def _line(preview: Preview, garden: Path, what: str, file: str, page: str, text: str, times: int) -> str:
    """Change something several times and return what that took."""
    entry = max((garden / "content/2026/log").glob("*.md")).stem
    seen = []
    for number in range(1, times + 1):
        path = garden / "content" / file.format(entry=entry)
        added = text.format(number=number, day=entry[:10])
        seen.append(preview.waited(path, added, page.format(page=entry[5:])))
        time.sleep(1)
    each = " ".join(f"{1000 * one:.0f}" for one, _ in seen)
    shown, built = (statistics.median(one) for one in zip(*seen, strict=True))
    return f"{what:22} {1000 * shown:6.0f} ms {built:8.1f} s   {each}"


if __name__ == "__main__":
    main()
