"""The site while it is being written: built into a passing folder, served here, renewed at a change."""

from __future__ import annotations

import errno
import os
import socket
import threading
from collections.abc import Callable, Iterable, Iterator
from contextlib import ExitStack, contextmanager, suppress
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING

from watchfiles import watch
from werkzeug.serving import BaseWSGIServer, WSGIRequestHandler, make_server

from tallybed.server.answers import Serving
from tallybed.server.following import Following, Work
from tallybed.server.gate import Door, Gate
from tallybed.server.weigh_form import Scales, WeighForm

if TYPE_CHECKING:
    from _typeshed.wsgi import WSGIApplication

ADDRESS = "127.0.0.1"
"""The machine itself; nothing from outside can ask."""
_QUIET, _TOGETHER = 25, 300
"""Milliseconds without a change after which those before are told, and after which they are told anyhow."""
_State = frozenset[tuple[str, str, int, int]]
_There = tuple[tuple[Path, int], ...]
_LOOK = 0.5
"""Seconds between looks at whether a watched folder came, went or was replaced."""


def preview(
    work: Work,
    folders: Iterable[Path],
    port: int,
    say: Callable[[str], None],
    *,
    scales: Scales | None = None,
    lan: str = "",
) -> None:
    """Serve the site until Ctrl-C, renewed by ``work`` when something in ``folders`` changes.

    ``say`` gets each line for the terminal; ``scales`` understands weighings; ``lan`` is
    this machine's address in its network where devices of it may come in by a code.
    Raises OSError where the port is taken (its message says so) or a folder for the site
    cannot be made.
    """
    with ExitStack() as stack:
        passing = stack.enter_context(TemporaryDirectory(prefix="tallybed-"))
        folder = Path(passing).resolve() / "site"
        serving = Serving(folder, WeighForm(scales) if scales else None)
        # Every port is ours before any address is told: one that is told and not served is no use.
        listeners = [stack.enter_context(_listening(each, port)) for each in (ADDRESS, lan) if each]
        servers = [_loopback(listeners[0], serving)]
        told = [f"Open {_url(listeners[0])} in a browser."]
        if lan:
            door = Door(say)
            servers.append(_network(listeners[1], serving, door))
            told += [
                f"On a phone in the same network open {_url(listeners[1])} and type the code {door.code}",
                "What they send each other is not encrypted: use a network you trust.",
            ]
        ended = threading.Event()
        watched = tuple(folders)
        following = Following(work, folder, serving, say)
        threads = [threading.Thread(target=server.serve_forever, daemon=True) for server in servers]
        threads.append(
            threading.Thread(
                target=_watch, args=(watched, _state(watched), following.changed, ended), daemon=True
            )
        )
        for thread in threads:
            thread.start()
        for line in (*told, "Ctrl-C ends the preview."):
            say(line)
        try:
            following.run()
        except KeyboardInterrupt:
            say("The preview has ended.")
        finally:
            ended.set()
            serving.end()
            for server in servers:
                server.shutdown()
                server.server_close()
            for thread in threads:
                thread.join(timeout=5)


def _loopback(listener: socket.socket, serving: Serving) -> BaseWSGIServer:
    """Return a server that this machine alone can ask."""
    return _server(listener, Gate(serving, (ADDRESS, "localhost"), listener.getsockname()[1]))


def _network(listener: socket.socket, serving: Serving, door: Door) -> BaseWSGIServer:
    """Return a server that devices of the network can ask once they told the code."""
    address, port = listener.getsockname()[:2]
    return _server(listener, Gate(serving, (address,), port, door))


def _url(listener: socket.socket) -> str:
    """Return the address to open in a browser."""
    address, port = listener.getsockname()[:2]
    return f"http://{address}:{port}/"


def _server(listener: socket.socket, gate: WSGIApplication) -> BaseWSGIServer:
    """Return a server on a socket that listens already, with a thread for each request."""
    address, port = listener.getsockname()[:2]
    return make_server(address, port, gate, threaded=True, request_handler=_Quiet, fd=listener.fileno())


def _watch(
    folders: tuple[Path, ...], seen: _State, changed: Callable[[], None], ended: threading.Event
) -> None:
    """Call ``changed`` whenever something in the folders changes, or one of them comes or goes.

    ``seen``: how they were before anybody looked into them.
    """
    while not ended.is_set():
        there = _there(folders)
        if there:
            _watch_while_there(folders, there, seen, changed, ended)
        else:
            ended.wait(_LOOK)
        if _there(folders) != there:
            seen = _state(folders)
            changed()


def _watch_while_there(
    folders: tuple[Path, ...],
    there: _There,
    seen: _State,
    changed: Callable[[], None],
    ended: threading.Event,
) -> None:
    """Call ``changed`` whenever something in the folders that are ``there`` changes, until others are."""
    begun = False
    for changes in watch(
        *(path for path, _ in there),
        stop_event=ended,
        debounce=_TOGETHER,
        step=_QUIET,
        rust_timeout=int(_LOOK * 1000),
        yield_on_timeout=True,
        raise_interrupt=False,
    ):
        # What was written while the watch was being set up is told by nobody else.
        if changes or (not begun and _state(folders) != seen):
            changed()
        begun = True
        if _there(folders) != there:
            return


def _state(folders: tuple[Path, ...]) -> _State:
    """Return what tells whether a file below the folders has changed: its size, and when it was written."""
    found = []
    for top in folders:
        for here, _, files in os.walk(top):
            for name in files:
                with suppress(OSError):
                    about = Path(here, name).stat()
                    found.append((here, name, about.st_size, about.st_mtime_ns))
    return frozenset(found)


def _there(folders: tuple[Path, ...]) -> _There:
    """Return the folders that exist, each with its number on the disk: a new one of the same name differs."""
    found = []
    for path in folders:
        try:
            found.append((path, path.stat().st_ino))
        except OSError:
            continue
    return tuple(found)


@contextmanager
def _listening(address: str, port: int) -> Iterator[socket.socket]:
    """Yield a socket bound to the port. Ours, since the server's own ends the process where it fails."""
    with socket.socket(socket.AF_INET, socket.SOCK_STREAM) as listener:
        if hasattr(socket, "SO_REUSEADDR") and not hasattr(socket, "SO_EXCLUSIVEADDRUSE"):
            listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            listener.bind((address, port))
            listener.listen(128)
        except OSError as error:
            raise OSError(error.errno, _not_served(error, address, port)) from error
        yield listener


def _not_served(error: OSError, address: str, port: int) -> str:
    """Return why nothing can be served at an address, and what would do."""
    if error.errno == errno.EADDRNOTAVAIL:
        return f"this machine does not have the address {address}; name the one it has with --address"
    where = "" if address == ADDRESS else f" of {address}"
    return f"port {port}{where} cannot be used ({error.strerror}); name another with --port"


class _Quiet(WSGIRequestHandler):
    """Serves without a line on the terminal for each request, and hangs up on whoever goes silent."""

    timeout = 30
    """Seconds without a byte after which a request is given up: each holds a thread and a file until then."""

    def log(self, type: str, message: str, *args: object) -> None:  # noqa: A002 - the name is werkzeug's
        """Say nothing."""
        del type, message, args
