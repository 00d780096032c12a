"""Firefox, spoken to by WebDriver BiDi (https://www.w3.org/TR/webdriver-bidi/), without a driver between."""

from __future__ import annotations

import base64
import itertools
import json
import re
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from websockets.sync.client import ClientConnection, connect

PATIENCE = 60.0
"""Seconds that one answer may take."""
QUIET = {
    "network.proxy.type": 1,
    "network.proxy.http": "127.0.0.1",
    "network.proxy.http_port": 9,
    "network.proxy.ssl": "127.0.0.1",
    "network.proxy.ssl_port": 9,
    "app.update.enabled": False,
    "datareporting.policy.dataSubmissionEnabled": False,
}
"""Preferences of a browser that reaches nobody: the port is the one where nothing answers."""


class Firefox:
    """One browser without a window, and its one tab."""

    def __init__(self, socket: ClientConnection) -> None:
        self._numbers = itertools.count(1)
        self._socket = socket
        self._ask("session.new", capabilities={})
        self._tab = self._ask("browsingContext.getTree")["contexts"][0]["context"]

    def printed(self, page: Path, width: float, height: float) -> bytes:
        """Return a page as it goes to paper of this width and height, in centimetres; no more is set."""
        self._ask("browsingContext.navigate", context=self._tab, url=page.as_uri(), wait="complete")
        paper = {"width": width, "height": height}
        told = self._ask("browsingContext.print", context=self._tab, page=paper, shrinkToFit=True)
        return base64.b64decode(told["data"])

    def close(self) -> None:
        """End the browser."""
        self._ask("browser.close")

    def _ask(self, method: str, **params: Any) -> dict[str, Any]:
        number = next(self._numbers)
        self._socket.send(json.dumps({"id": number, "method": method, "params": params}))
        while True:
            told = json.loads(self._socket.recv(PATIENCE))
            if told.get("id") == number:
                assert told["type"] == "success", told
                return dict(told["result"])


@contextmanager
def started(program: str, profile: Path) -> Iterator[Firefox]:
    """Give a browser that has this empty folder for itself, and end it afterwards."""
    prefs = (f"user_pref({json.dumps(name)}, {json.dumps(value)});\n" for name, value in QUIET.items())
    (profile / "user.js").write_text("".join(prefs), encoding="utf-8")
    command = [program, "--headless", "--no-remote", "--profile", str(profile), "--remote-debugging-port=0"]
    pipes = {"stdout": subprocess.DEVNULL, "stderr": subprocess.PIPE}
    with subprocess.Popen(command, text=True, **pipes) as process:
        try:
            said = (re.search(r"BiDi listening on (ws://\S+)", line) for line in process.stderr)
            address = next(one[1] for one in said if one)
            with connect(f"{address}/session", max_size=None, compression=None) as socket:
                browser = Firefox(socket)
                yield browser
                browser.close()
            process.wait(PATIENCE)
        finally:
            process.kill()
