"""A preview as a person has it: a process of its own, and what it says on the terminal."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Callable
from pathlib import Path

COMMAND = [sys.executable, "-c", "from tallybed.cli import main; main()"]
PATIENCE = 60.0
"""Seconds; far more than anything here takes on an idle machine."""


def heeding() -> None:
    """Heed Ctrl-C again: whoever runs the tests in a shell's background hands on that it is ignored."""
    signal.signal(signal.SIGINT, signal.SIG_DFL)


class Running:
    """A preview under way, and what it has said."""

    def __init__(self, garden: Path, *options: str, **variables: str) -> None:
        self.garden = garden
        self.process = subprocess.Popen(
            [*COMMAND, "preview", str(garden), "--port", "0", *options],
            stderr=subprocess.PIPE,
            text=True,
            encoding="utf-8",
            env={**os.environ, "PYTHONUNBUFFERED": "1", **variables},
            preexec_fn=None if os.name == "nt" else heeding,
        )
        self.lines: list[str] = []
        self._listener = threading.Thread(target=self._listen, daemon=True)
        self._listener.start()

    def _listen(self) -> None:
        assert self.process.stderr is not None
        for line in self.process.stderr:
            self.lines.append(line)

    def until(self, true: Callable[[], bool]) -> None:
        """Wait until something holds. Fails after a while, and at once where the preview has ended."""
        end = time.monotonic() + PATIENCE
        while not true():
            assert self.process.poll() is None, f"the preview ended: {self.lines}"
            assert time.monotonic() < end, f"nothing came: {self.lines}"
            time.sleep(0.05)

    def end(self) -> None:
        assert self.process.stderr is not None
        self.process.kill()
        self.process.wait(timeout=PATIENCE)
        self._listener.join(timeout=PATIENCE)
        self.process.stderr.close()
