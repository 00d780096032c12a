"""What the preview answers: the site's files, each page with its findings, and the desk's own pages."""

from __future__ import annotations

import threading
import time
from collections.abc import Iterable
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from werkzeug.security import safe_join
from werkzeug.utils import redirect
from werkzeug.wrappers import Request, Response

from tallybed.publishing.paths import MARKER
from tallybed.server.findings_panel import News, beside, by_page
from tallybed.server.own_pages import OURS, SCRIPT, STYLE, asset, deskpage, written
from tallybed.server.weigh_form import WEIGH, WeighForm

if TYPE_CHECKING:
    from _typeshed.wsgi import StartResponse, WSGIEnvironment

_SWAP = 2.0
"""Seconds that a request waits while one site takes the place of another."""
_PATIENCE = 20.0
"""Seconds that a page's question for something newer is kept waiting."""

_TYPES = {
    ".html": "text/html; charset=utf-8",
    ".css": "text/css; charset=utf-8",
    ".js": "text/javascript; charset=utf-8",
    ".svg": "image/svg+xml",
    ".xml": "application/xml",
    ".json": "application/json",
    ".csv": "text/csv; charset=utf-8",
    ".ics": "text/calendar; charset=utf-8",
    ".txt": "text/plain; charset=utf-8",
    ".jpg": "image/jpeg",
    ".jpeg": "image/jpeg",
    ".png": "image/png",
    ".gif": "image/gif",
    ".webp": "image/webp",
    ".ico": "image/vnd.microsoft.icon",
    ".woff": "font/woff",
    ".woff2": "font/woff2",
    ".pdf": "application/pdf",
}
"""Written here, since the machine's own list differs from one to the next."""


class Serving:
    """A WSGI application over a folder that is renewed while it is served. A ``Gate`` stands before it."""

    def __init__(self, folder: Path, weighing: WeighForm | None = None) -> None:
        self._folder = folder
        self._weighing = weighing
        self._changed = threading.Condition()
        self._version = 0
        self._news = News()
        self._ended = False

    def show(self, news: News) -> None:
        """Let every open page load again, with what is known now beside it.

        Where it says nothing of where pages lie, the site shown is still the one before.
        """
        with self._changed:
            if not news.places:
                news = replace(news, places=self._news.places, newest=self._news.newest)
            self._news = news
            self._version += 1
            self._changed.notify_all()

    def end(self) -> None:
        """Let go of every page that waits."""
        with self._changed:
            self._ended = True
            self._changed.notify_all()

    def __call__(self, environ: WSGIEnvironment, start_response: StartResponse) -> Iterable[bytes]:
        """Answer one request."""
        return self._answer(Request(environ))(environ, start_response)

    def _answer(self, request: Request) -> Response:
        """Return the answer to one request: the form's, the desk's, or a file of the site."""
        if request.path == WEIGH and self._weighing:
            return self._weighing.answer(request)
        if request.method not in {"GET", "HEAD"}:
            return Response("Only reading is served here.\n", 405, {"Allow": "GET, HEAD"})
        if request.path.startswith(OURS):
            return self._ours(request)
        if self._version == 0:
            return self._bare("The site is being built …", 503)
        return self._file(request)

    def _ours(self, request: Request) -> Response:
        """Return a file of the desk, the page of findings, or the newest site's number after a wait."""
        if request.path in (SCRIPT, STYLE):
            name = request.path.removeprefix(OURS)
            return Response(asset(name), 200, content_type=_TYPES[Path(name).suffix])
        if request.path == f"{OURS}findings":
            with self._changed:
                news, version = self._news, self._version
            return deskpage(
                "findings.html",
                pages=by_page(news),
                trouble=news.trouble,
                version=version,
                weighing=self._weighing is not None,
            )
        if request.path == f"{OURS}changes":
            since = request.args.get("since", "")
            with self._changed:
                self._changed.wait_for(lambda: self._ended or str(self._version) != since, _PATIENCE)
                return Response(str(self._version), 200, content_type=_TYPES[".txt"])
        return Response("There is nothing here.\n", 404)

    def _await_site(self) -> None:
        """Wait out the moment in which the old site has been moved away and the new one is not there yet."""
        end = time.monotonic() + _SWAP
        while self._news.places and not self._folder.exists() and time.monotonic() < end:
            time.sleep(0.02)

    def _file(self, request: Request) -> Response:
        """Return a file of the site, a page with the desk in it; a folder's index for the folder."""
        self._await_site()
        joined = safe_join(str(self._folder), request.path.lstrip("/"))
        path = Path(joined) if joined is not None else None
        if path is None or path.name == MARKER:
            return self._missing()
        try:
            if path.is_dir():
                if not request.path.endswith("/"):
                    return redirect(f"{request.path.rsplit('/', 1)[-1]}/")
                path /= "index.html"
            data = path.read_bytes()
        except (OSError, ValueError):  # not there, or a name that no file can have
            return self._missing()
        kind = _TYPES.get(path.suffix.lower(), "application/octet-stream")
        if path.suffix.lower() == ".html":
            data = self._with_news(data, path.relative_to(self._folder).as_posix())
        return Response(data, 200, content_type=kind)

    def _missing(self) -> Response:
        """Return what is shown where there is no such page (404), or no site yet (503)."""
        if not self._folder.exists():
            why = "The content has errors" if self._news.errors else "The site could not be made"
            return self._bare(f"{why}, so there is nothing to show yet", 503)
        return self._bare("There is no such page", 404)

    def _bare(self, title: str, status: int) -> Response:
        """Return a page that has a title and the desk alone."""
        page = written("bare.html", title=title).encode()
        return Response(self._with_news(page, ""), status, content_type=_TYPES[".html"])

    def _with_news(self, page: bytes, path: str) -> bytes:
        """Return a page with the desk before its end."""
        with self._changed:
            version, news = self._version, self._news
        desk = beside(path, news, version, weighing=self._weighing is not None).encode()
        before, end, after = page.rpartition(b"</body>")
        return before + desk + end + after if end else page + desk
