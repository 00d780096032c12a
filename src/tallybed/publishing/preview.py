"""The site while it is being written: built into a passing folder, served here alone, renewed at a change."""

from __future__ import annotations

import socket
import threading
import time
import traceback
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory

from watchfiles import watch
from werkzeug.serving import WSGIRequestHandler, make_server

from tallybed.garden.findings import Finding, Severity, worded
from tallybed.publishing.serving import Serving

ADDRESS = "127.0.0.1"
"""The machine itself; nothing from outside can ask."""
_LOOK = 0.5
"""Seconds between looks at whether a watched folder came, went or was replaced."""

Build = Callable[[Path], tuple[Finding, ...]]
"""Builds the site into a folder and returns what was found; leaves the folder alone on errors."""


def preview(build: Build, folders: Iterable[Path], port: int, say: Callable[[str], None]) -> None:
    """Serve the site until Ctrl-C, building it anew when something in ``folders`` changes.

    ``say`` gets each line for the terminal. Raises OSError where the port is taken
    (its message says so) or a folder for the site cannot be made.
    """
    with TemporaryDirectory(prefix="tallybed-") as passing, _listening(port) as listener:
        folder = Path(passing).resolve() / "site"
        port = listener.getsockname()[1]
        serving = Serving(folder, port)
        server = make_server(
            ADDRESS, port, serving, threaded=True, request_handler=_Quiet, fd=listener.fileno()
        )
        ended = threading.Event()
        changed = threading.Event()
        threads = [
            threading.Thread(target=server.serve_forever, daemon=True),
            threading.Thread(target=_watch, args=(tuple(folders), changed, ended), daemon=True),
        ]
        for thread in threads:
            thread.start()
        try:
            say(f"Open http://{ADDRESS}:{port}/ in a browser. Ctrl-C ends the preview.")
            while True:
                _rebuild(build, folder, serving, say)
                while not changed.wait(_LOOK):
                    pass
                changed.clear()
        except KeyboardInterrupt:
            say("The preview has ended.")
        finally:
            ended.set()
            serving.end()
            server.shutdown()
            server.server_close()
            for thread in threads:
                thread.join(timeout=5)


def _rebuild(build: Build, folder: Path, serving: Serving, say: Callable[[str], None]) -> None:
    began = time.perf_counter()
    try:
        findings = build(folder)
    except Exception as error:
        say("".join(traceback.format_exception(error)) if not isinstance(error, OSError) else str(error))
        serving.show((), f"The site could not be made: {error}")
        return
    errors = tuple(worded(one) for one in findings if one.severity is Severity.ERROR)
    for finding in findings:
        say(worded(finding))
    serving.show(errors)
    if errors:
        say("The content has errors; the page shows the last good site.")
    else:
        say(f"Built in {time.perf_counter() - began:.1f} seconds.")


def _watch(folders: tuple[Path, ...], changed: threading.Event, ended: threading.Event) -> None:
    """Set ``changed`` whenever something in the folders changes, or one of them comes or goes."""
    while not ended.is_set():
        there = _there(folders)
        if not there:
            ended.wait(_LOOK)
        else:
            for changes in watch(
                *(path for path, _ in there),
                stop_event=ended,
                debounce=300,
                step=50,
                rust_timeout=int(_LOOK * 1000),
                yield_on_timeout=True,
                raise_interrupt=False,
            ):
                if changes:
                    changed.set()
                if _there(folders) != there:
                    break
        if _there(folders) != there:
            changed.set()


def _there(folders: tuple[Path, ...]) -> tuple[tuple[Path, int], ...]:
    """Return the folders that exist, each with its number on the disk: a new one of the same name differs."""
    found = []
    for path in folders:
        try:
            found.append((path, path.stat().st_ino))
        except OSError:
            continue
    return tuple(found)


@contextmanager
def _listening(port: int) -> Iterator[socket.socket]:
    """Yield a socket bound to the port. Ours, since the server's own ends the process where it fails."""
    with socket.socket(socket.AF_INET, socket.SOCK_STREAM) as listener:
        if hasattr(socket, "SO_REUSEADDR") and not hasattr(socket, "SO_EXCLUSIVEADDRUSE"):
            listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            listener.bind((ADDRESS, port))
        except OSError as error:
            raise OSError(
                error.errno, f"port {port} cannot be had ({error.strerror}); name another with --port"
            ) from error
        listener.listen(128)
        yield listener


class _Quiet(WSGIRequestHandler):
    """Serves without a line on the terminal for each request."""

    def log(self, type: str, message: str, *args: object) -> None:  # noqa: A002 - the name is werkzeug's
        """Say nothing."""
        del type, message, args
