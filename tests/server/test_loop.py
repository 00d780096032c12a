"""The preview as a person has it: started by the command, asked over HTTP, ended by Ctrl-C."""

import http.client
import os
import re
import signal
import socket
import subprocess
import sys
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import suppress
from pathlib import Path
from wsgiref.types import StartResponse, WSGIEnvironment

import pytest

from tallybed.pictures.rooms import FOLDER
from tallybed.server import loop
from tallybed.server.loop import preview
from tallybed.tasks.previewing.work import GardenWork
from tallybed.writing.starter_garden import start

COMMAND = [sys.executable, "-c", "from tallybed.cli import main; main()"]
PATIENCE = 60.0
"""Seconds; far more than anything here takes on an idle machine."""


def heeding() -> None:
    """Heed Ctrl-C again: whoever runs the tests in a shell's background hands on that it is ignored."""
    signal.signal(signal.SIGINT, signal.SIG_DFL)


class Running:
    """A preview under way, and what it has said."""

    def __init__(self, garden: Path, passing: Path) -> None:
        passing.mkdir()
        self.process = subprocess.Popen(
            [*COMMAND, "preview", str(garden), "--port", "0"],
            stderr=subprocess.PIPE,
            text=True,
            encoding="utf-8",
            env={**os.environ, "TMPDIR": str(passing), "PYTHONUNBUFFERED": "1"},
            preexec_fn=None if os.name == "nt" else heeding,
        )
        self.lines: list[str] = []
        self._listener = threading.Thread(target=self._listen, daemon=True)
        self._listener.start()
        until(lambda: any(line.startswith("Open http") for line in self.lines), self)
        self.port = int(re.findall(r"127\.0\.0\.1:(\d+)/", self.lines[0])[0])

    def _listen(self) -> None:
        assert self.process.stderr is not None
        for line in self.process.stderr:
            self.lines.append(line)

    def end(self) -> None:
        assert self.process.stderr is not None
        self.process.kill()
        self.process.wait(timeout=PATIENCE)
        self._listener.join(timeout=PATIENCE)
        self.process.stderr.close()

    def get(self, path: str = "/") -> tuple[int, str]:
        connection = http.client.HTTPConnection("127.0.0.1", self.port, timeout=PATIENCE)
        try:
            connection.request("GET", path)
            answer = connection.getresponse()
            return answer.status, answer.read().decode()
        finally:
            connection.close()

    def shows(self, words: str, path: str = "/") -> bool:
        status, text = self.get(path)
        return status == 200 and words in text


def until(true: Callable[[], bool], running: Running) -> None:
    """Wait until something holds. Fails after a while, and at once where the preview has ended."""
    end = time.monotonic() + PATIENCE
    while not true():
        assert running.process.poll() is None, f"the preview ended: {running.lines}"
        assert time.monotonic() < end, f"nothing came: {running.lines}"
        time.sleep(0.05)


@pytest.fixture
def garden(tmp_path: Path) -> Path:
    start(tmp_path / "garden", 2026)
    return tmp_path / "garden"


@pytest.fixture
def running(garden: Path, tmp_path: Path) -> Iterator[Running]:
    made = Running(garden, tmp_path / "passing")
    try:
        yield made
    finally:
        made.end()


def texts(garden: Path) -> dict[Path, bytes]:
    """Return every file of a garden, but for what builds and previews keep for the next one."""
    every = (path for path in garden.rglob("*") if path.is_file())
    return {path: path.read_bytes() for path in every if FOLDER not in path.parts}


def test_the_preview_follows_the_text_and_outlives_its_mistakes(running: Running, garden: Path) -> None:
    until(lambda: running.shows("The Bed by the Gate"), running)
    before = texts(garden)

    file = garden / "content" / "garden.yaml"
    good = file.read_text(encoding="utf-8")
    _, version = running.get("/.tallybed/changes")
    answers: list[str] = []
    waiting = threading.Thread(
        target=lambda: answers.append(running.get(f"/.tallybed/changes?since={version}")[1])
    )
    waiting.start()
    file.write_text(good.replace("by the Gate", "by the Well"), encoding="utf-8")
    until(lambda: running.shows("The Bed by the Well"), running)
    waiting.join(timeout=PATIENCE)
    assert answers
    assert answers[0] != version, "an open page was not told to load again"

    file.write_text(good + "colour: green\n", encoding="utf-8")
    until(lambda: running.shows("colour"), running)
    assert running.shows("The Bed by the Well"), "the last good site is gone"
    until(lambda: any("content/garden.yaml" in line and "colour" in line for line in running.lines), running)

    file.write_text(good, encoding="utf-8")
    until(lambda: running.shows("The Bed by the Gate") and not running.shows('role="alert"'), running)

    file.unlink()
    until(lambda: running.shows('role="alert"'), running)
    file.write_text(good, encoding="utf-8")
    until(lambda: not running.shows('role="alert"'), running)

    (garden / "layouts").mkdir()
    (garden / "layouts" / "style.css").write_text("/* our own */")
    until(lambda: running.shows("our own", "/style.css"), running)
    (garden / "layouts" / "home.html").write_text("\n{{ nothing_of_the_kind }}")
    until(lambda: running.shows("layouts/home.html, line 2"), running)
    (garden / "layouts" / "home.html").unlink()
    until(lambda: not running.shows('role="alert"'), running)

    after = texts(garden)
    after.pop(garden / "layouts" / "style.css")
    assert after == before, "the preview wrote into the garden"


@pytest.mark.skipif(os.name == "nt", reason="signals of another kind there")
@pytest.mark.parametrize("how", [signal.SIGINT, signal.SIGTERM, getattr(signal, "SIGHUP", signal.SIGTERM)])
def test_the_preview_ends_cleanly_and_leaves_nothing(
    running: Running, tmp_path: Path, how: signal.Signals
) -> None:
    until(lambda: running.shows("The Bed by the Gate"), running)
    assert any((tmp_path / "passing").iterdir())

    def wait() -> None:
        with suppress(OSError, http.client.HTTPException):  # the end may cut it short
            running.get("/.tallybed/changes?since=1")

    waiting = threading.Thread(target=wait, daemon=True)
    waiting.start()
    running.process.send_signal(how)
    assert running.process.wait(timeout=PATIENCE) == 0
    assert not any((tmp_path / "passing").iterdir())
    waiting.join(timeout=PATIENCE)
    assert not any("Traceback" in line for line in running.lines), running.lines


def test_a_port_that_is_taken_is_said(garden: Path) -> None:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        done = subprocess.run(
            [*COMMAND, "preview", str(garden), "--port", str(port)],
            capture_output=True,
            text=True,
            check=False,
            timeout=PATIENCE,
        )
    assert done.returncode == 3
    assert f"port {port} cannot be used" in done.stderr
    assert "--port" in done.stderr
    assert "Traceback" not in done.stderr


def test_no_address_is_told_where_another_cannot_be_served(garden: Path) -> None:
    said: list[str] = []
    # TEST-NET-1 of RFC 5737: no machine has an address of it.
    with pytest.raises(OSError, match=r"does not have the address 192\.0\.2\.7; .* --address"):
        preview(GardenWork(garden), (), 0, said.append, lan="192.0.2.7")
    assert said == []


@pytest.mark.parametrize(
    "begun",
    [
        b"",
        b"GET / HTTP/1.1\r\nHost: 127",
        b"POST /.tallybed/weigh HTTP/1.1\r\nHost: a\r\nContent-Length: 9\r\n\r\nab",
    ],
    ids=["nothing", "half of a head", "half of a form"],
)
def test_whoever_goes_silent_is_hung_up_on(begun: bytes, monkeypatch: pytest.MonkeyPatch) -> None:
    assert loop._Quiet.timeout, "silence is borne with for ever"
    monkeypatch.setattr(loop._Quiet, "timeout", 0.2)

    def reading(environ: WSGIEnvironment, start_response: StartResponse) -> list[bytes]:
        environ["wsgi.input"].read(9)
        start_response("200 OK", [])
        return [b"read"]

    with loop._listening("127.0.0.1", 0) as listener:
        server = loop._server(listener, reading)
        serving = threading.Thread(target=server.serve_forever, daemon=True)
        serving.start()
        try:
            with socket.create_connection(listener.getsockname(), timeout=PATIENCE) as asking:
                asking.sendall(begun)
                assert asking.recv(1) == b""
        finally:
            server.shutdown()
            serving.join(timeout=PATIENCE)
