"""Work done in other processes, beside that of the first."""

from __future__ import annotations

import os
import threading
from collections.abc import Callable, Iterator
from multiprocessing import get_context
from multiprocessing.connection import Connection
from typing import Generic, TypeVar

T = TypeVar("T")
_MOST = 4
"""Processes at the most, the first among them: each takes the room of a season's pages."""
_NUMBER = 2
"""Bytes of a number that is handed to whichever process asks next."""


class BesideError(Exception):
    """A process ended before its work did, or the work failed there; the message says how."""


def processes_beside() -> int:
    """Return how many more processes can take over what this one knows, each with a processor to itself.

    A process with threads is not divided: a lock that one of them holds would stay held for good.
    """
    processors = len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else 1
    divides = hasattr(os, "fork") and threading.active_count() == 1
    return min(processors, _MOST) - 1 if divides else 0


class Turns:
    """Numbers from 0 up to another, each for whichever of several processes asks next: none comes twice."""

    def __init__(self, many: int) -> None:
        """Make them ready, before the process is divided."""
        self._next, last = os.pipe()
        os.write(last, b"".join(number.to_bytes(_NUMBER, "big") for number in range(many)))
        os.close(last)

    def __iter__(self) -> Iterator[int]:
        """Yield numbers as long as there are any."""
        while number := os.read(self._next, _NUMBER):
            yield int.from_bytes(number, "big")

    def end(self) -> None:
        """Let go of what they take of the system."""
        os.close(self._next)


class Beside(Generic[T]):
    """Work that is going on in another process, which knows all that this one knew when it began."""

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
            good, given = False, BesideError("a process beside it was ended")
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
