"""Work done in a second process, beside that of the first."""

from __future__ import annotations

import os
import threading
from collections.abc import Callable
from multiprocessing import get_context
from multiprocessing.connection import Connection
from typing import Generic, TypeVar

T = TypeVar("T")


class BesideError(Exception):
    """The second process ended before its work did, or the work failed there; the message says how."""


def can_work_beside() -> bool:
    """Return whether a second process can take over what this one knows, and has a processor to itself.

    A process with threads is not divided: a lock that one of them holds would stay held for good.
    """
    processors = len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else 1
    return hasattr(os, "fork") and processors > 1 and threading.active_count() == 1


class Beside(Generic[T]):
    """Work that is going on in a second process, which knows all that this one knew when it began."""

    def __init__(self, work: Callable[[], T]) -> None:
        """Begin it. What it returns must be such that it can be sent."""
        context = get_context("fork")
        self._ours, theirs = context.Pipe(duplex=False)
        self._process = context.Process(target=_do, args=(work, theirs), daemon=True)
        self._process.start()
        theirs.close()

    def result(self) -> T:
        """Wait for it and return what it gave. Raises OSError as the work did, else BesideError."""
        try:
            good, given = self._ours.recv()
        except EOFError:
            good, given = False, BesideError("the second process was ended")
        self.end()
        if good:
            result: T = given
            return result
        raise given

    def end(self) -> None:
        """End it, done or not."""
        self._process.terminate()
        self._process.join()


def _do(work: Callable[[], T], out: Connection) -> None:
    """Do the work and send what it gave, or how it failed."""
    try:
        out.send((True, work()))
    except OSError as error:
        out.send((False, error))
    except KeyboardInterrupt:
        os._exit(130)  # the first process was told too, and says so
    except BaseException as error:
        out.send((False, BesideError(f"{type(error).__name__}: {error}")))
