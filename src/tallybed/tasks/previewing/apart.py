"""The preview's build, in a process of its own: it can be ended at any moment, and holds nobody up."""

from __future__ import annotations

import os
import pickle
import signal
import subprocess
import sys
import traceback
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path
from typing import BinaryIO

from tallybed.garden.findings import unsettled
from tallybed.pages.frame.file_pages import newest_entry, pages_of_files
from tallybed.publishing.swap.machine import machine_words
from tallybed.server.findings_panel import News
from tallybed.tasks.base.errors import UsageError
from tallybed.tasks.build import build

_CALL = f"from {__name__} import main; main()"
_COURTESY = 10
"""How far it lets others go first; what an open page waits for is made beside it."""


class Apart:
    """A build that is going on: what is found in it, then what came of it."""

    def __init__(self, root: Path, folder: Path) -> None:
        """Begin to build the garden at ``root`` into a folder. Raises OSError."""
        # The folder that the preview was called in is no place to take modules from (-P); a session of
        # its own keeps Ctrl-C from it, and lets it be ended with whatever it has begun.
        self._process = subprocess.Popen(  # noqa: S603 - ourselves
            [sys.executable, "-P", "-c", _CALL, str(root), str(folder)],
            stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE,
            env={**os.environ, "PYTHONPATH": os.pathsep.join(filter(None, sys.path))},
            start_new_session=True,
            creationflags=getattr(subprocess, "CREATE_NEW_PROCESS_GROUP", 0),
        )

    def news(self) -> Iterator[News]:
        """Yield what is known, each time it is more; the last has the places of a site that was made.

        Nothing more comes of a build that was ended.
        """
        assert self._process.stdout is not None  # asked for above
        with self._process.stdout as told, suppress(EOFError, OSError, pickle.UnpicklingError):
            while True:
                yield pickle.load(told)  # noqa: S301 - written below, by ourselves

    def end(self) -> None:
        """End it, done or not, with every process that it began."""
        if self._process.poll() is None:
            if hasattr(os, "killpg"):
                with suppress(ProcessLookupError):
                    os.killpg(self._process.pid, signal.SIGKILL)
            else:
                self._process.kill()
        self._process.wait()


def main() -> None:
    """Build, and write what is known to the standard output as it comes."""
    out = os.fdopen(os.dup(1), "wb")
    os.dup2(2, 1)
    if hasattr(os, "nice"):
        os.nice(_COURTESY)
    root, folder = map(Path, sys.argv[1:])
    with out:
        _send(out, _outcome(root, folder, out))


def _outcome(root: Path, folder: Path, out: BinaryIO) -> News:
    """Build the site, drafts too; tell what is found, and return what came of it."""
    try:
        built = build(
            root, folder, drafts=True, told=lambda found: _send(out, News(findings=unsettled(found)))
        )
    except OSError as error:
        return News(trouble=machine_words(error), ended=True)
    except UsageError as error:
        return News(trouble=str(error), ended=True)
    except Exception as error:
        traceback.print_exc()
        return News(trouble=f"{type(error).__name__}: {error}", ended=True)
    if built.years is None:
        return News(findings=unsettled(built.findings), ended=True)
    places, newest = pages_of_files(built.years), newest_entry(built.years)
    return News(findings=unsettled(built.findings), places=dict(places), newest=newest, ended=True)


def _send(out: BinaryIO, news: News) -> None:
    """Hand something to the process that began this one."""
    out.write(pickle.dumps(news))
    out.flush()
