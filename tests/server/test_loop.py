"""The preview as a person has it: started by the command, asked over HTTP, ended by Ctrl-C."""

import http.client
import os
import re
import signal
import socket
import subprocess
import threading
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path
from wsgiref.types import StartResponse, WSGIEnvironment

import pytest

from tallybed.pictures.rooms import FOLDER
from tallybed.server import loop
from tallybed.server.loop import preview
from tallybed.tasks.previewing.work import GardenWork
from tests.server.running import COMMAND, PATIENCE, Running


class Preview(Running):
    """A preview of a site, and what it shows."""

    def __init__(self, garden: Path, passing: Path) -> None:
        passing.mkdir()
        super().__init__(garden, TMPDIR=str(passing))
        self.until(lambda: any(line.startswith("Open http") for line in self.lines))
        self.port = int(re.findall(r"127\.0\.0\.1:(\d+)/", self.lines[0])[0])

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


@pytest.fixture
def running(garden: Path, tmp_path: Path) -> Iterator[Preview]:
    made = Preview(garden, tmp_path / "passing")
    try:
        yield made
    finally:
        made.end()


def texts(garden: Path) -> dict[Path, bytes]:
    """Return every file of a garden, but for what builds and previews keep for the next one."""
    every = (path for path in garden.rglob("*") if path.is_file())
    return {path: path.read_bytes() for path in every if FOLDER not in path.parts}


def test_the_preview_follows_the_text_and_outlives_its_mistakes(running: Preview, garden: Path) -> None:
    running.until(lambda: running.shows("The Bed by the Gate"))
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
    running.until(lambda: running.shows("The Bed by the Well"))
    waiting.join(timeout=PATIENCE)
    assert answers
    assert answers[0] != version, "an open page was not told to load again"

    file.write_text(good + "colour: green\n", encoding="utf-8")
    running.until(lambda: running.shows("colour"))
    assert running.shows("The Bed by the Well"), "the last good site is gone"
    running.until(lambda: any("content/garden.yaml" in line and "colour" in line for line in running.lines))

    file.write_text(good, encoding="utf-8")
    running.until(lambda: running.shows("The Bed by the Gate") and not running.shows('role="alert"'))

    file.unlink()
    running.until(lambda: running.shows('role="alert"'))
    file.write_text(good, encoding="utf-8")
    running.until(lambda: not running.shows('role="alert"'))

    (garden / "layouts").mkdir()
    (garden / "layouts" / "style.css").write_text("/* our own */")
    running.until(lambda: running.shows("our own", "/style.css"))
    (garden / "layouts" / "home.html").write_text("\n{{ nothing_of_the_kind }}")
    running.until(lambda: running.shows("layouts/home.html, line 2"))
    (garden / "layouts" / "home.html").unlink()
    running.until(lambda: not running.shows('role="alert"'))

    after = texts(garden)
    after.pop(garden / "layouts" / "style.css")
    assert after == before, "the preview wrote into the garden"


@pytest.mark.skipif(os.name == "nt", reason="signals of another kind there")
@pytest.mark.parametrize("how", [signal.SIGINT, signal.SIGTERM, getattr(signal, "SIGHUP", signal.SIGTERM)])
def test_the_preview_ends_cleanly_and_leaves_nothing(
    running: Preview, tmp_path: Path, how: signal.Signals
) -> None:
    running.until(lambda: running.shows("The Bed by the Gate"))
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
