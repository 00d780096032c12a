"""What the preview answers: the site's files, each page with its findings, and the desk's own pages."""

from __future__ import annotations

import threading
import time
from collections.abc import Iterable, Mapping
from dataclasses import replace
from functools import partial
from hashlib import blake2b
from pathlib import Path
from typing import TYPE_CHECKING, Protocol

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


class Pages(Protocol):
    """A site that is newer than the folder it will be built into."""

    @property
    def looks(self) -> Mapping[str, bytes]:
        """The style sheets and signs that pages are shown with, by path."""

    def data(self, path: str) -> bytes | None:
        """Return a file's bytes, or None where they are not known before the build ends."""

    def lacks(self, path: str) -> bool:
        """Return whether it has no page there, whatever the folder holds."""


class Serving:
    """A WSGI application over a folder that is renewed while it is served. A ``Gate`` stands before it.

    Until a new site is in the folder its pages can be given by ``Pages``.
    """

    def __init__(self, folder: Path, weighing: WeighForm | None = None) -> None:
        self._folder = folder
        self._weighing = weighing
        self._changed = threading.Condition()
        self._version = 0
        self._news = News(looking=True)
        self._pages: Pages | None = None
        self._newest: Pages | None = None
        """The last of them, whether they are shown or built by now."""
        self._looks = b""
        """What pages are shown with: style sheets and signs."""
        self._built = False
        self._ended = False

    def show(self, news: News, pages: Pages | None = None) -> None:
        """Show what is known now: open pages that it changes load again.

        ``pages`` gives what the folder does not have yet; None where the folder is shown. Where
        the news say nothing of where pages lie, the site shown is still the one before.
        """
        with self._changed:
            self._built = self._built or bool(news.places and pages is None)
            if not news.places:
                news = replace(news, places=self._news.places, newest=self._news.newest)
            self._news, self._pages = news, pages
            if pages is not None:
                self._newest = pages
                self._looks = b"".join(data for path, data in sorted(pages.looks.items()))
            self._version += 1
            self._changed.notify_all()

    def trouble(self, words: str) -> None:
        """Tell of trouble that is not the content's fault; what is shown stays."""
        with self._changed:
            news, pages = self._news, self._pages
        self.show(replace(news, findings=(), trouble=words), pages)

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
        return self._file(request.path)

    def _ours(self, request: Request) -> Response:
        """Return a file of the desk, the page of findings, or the newest site's number after a wait."""
        if request.path in (SCRIPT, STYLE):
            name = request.path.removeprefix(OURS)
            return Response(asset(name), 200, content_type=_TYPES[Path(name).suffix])
        if request.path == f"{OURS}findings":
            return self._findings()
        if request.path == f"{OURS}changes":
            since, page = request.args.get("since", ""), request.args.get("page", "")
            told = self._other_than(since, page) if page else self._later_than(since)
            return Response(told, 200, content_type=_TYPES[".txt"])
        return Response("There is nothing here.\n", 404)

    def _findings(self) -> Response:
        """Return the page of all findings."""
        with self._changed:
            news = self._news

        def laid_out(version: str) -> Response:
            return deskpage(
                "findings.html",
                pages=by_page(news),
                trouble=news.trouble,
                looking=news.looking,
                version=version,
                weighing=self._weighing is not None,
            )

        answer = laid_out(version := _mark(laid_out("").get_data()))
        answer.set_etag(version)
        return answer

    def _later_than(self, since: str) -> str:
        """Return the number of what is shown, once it is another, or after a while."""
        with self._changed:
            self._changed.wait_for(lambda: self._ended or str(self._version) != since, _PATIENCE)
            return str(self._version)

    def _other_than(self, since: str, page: str) -> str:
        """Return the mark of a page as it is now, once it is another, or after a while."""
        self._get_ready(page)
        end = time.monotonic() + _PATIENCE
        while True:
            with self._changed:
                version = self._version
            mark = self._marked(page)
            with self._changed:
                left = end - time.monotonic()
                if mark != since or not self._changed.wait_for(partial(self._moved, version), left):
                    return mark
                if self._ended:
                    return mark

    def _moved(self, version: int) -> bool:
        """Return whether something else is shown by now, or nothing will be any more."""
        return self._ended or self._version != version

    def _marked(self, page: str) -> str:
        """Return the mark of what is shown at an address."""
        answer = self._findings() if page == f"{OURS}findings" else self._file(page)
        return answer.get_etag()[0] or ""

    def _get_ready(self, page: str) -> None:
        """Make a page that somebody has open once, so that the next change finds its templates at hand."""
        if self._pages is None and self._newest is not None:
            self._newest.data(_path(page))

    def _await_site(self) -> None:
        """Wait out the moment in which the old site has been moved away and the new one is not there yet."""
        end = time.monotonic() + _SWAP
        while self._built and not self._folder.exists() and time.monotonic() < end:
            time.sleep(0.02)

    def _file(self, address: str) -> Response:
        """Return a file of the site, a page with the desk in it; a folder's index for the folder."""
        pages = self._pages
        asked = _path(address)
        if pages is not None:
            data = pages.data(asked)
            if data is not None:
                return self._found(data, asked)
            if pages.lacks(asked):
                return self._missing()
            if pages.data(f"{asked}/index.html") is not None:
                return redirect(f"{address.rsplit('/', 1)[-1]}/")
        self._await_site()
        joined = safe_join(str(self._folder), address.lstrip("/"))
        path = Path(joined) if joined is not None else None
        if path is None or path.name == MARKER:
            return self._missing()
        try:
            if path.is_dir():
                if not address.endswith("/"):
                    return redirect(f"{address.rsplit('/', 1)[-1]}/")
                path /= "index.html"
            data = path.read_bytes()
        except (OSError, ValueError):  # not there, or a name that no file can have
            return self._missing()
        return self._found(data, path.relative_to(self._folder).as_posix())

    def _found(self, data: bytes, path: str) -> Response:
        """Return a file of the site, which lies at ``path`` of it."""
        ending = Path(path).suffix.lower()
        if ending == ".html":
            return self._with_news(data, path, 200)
        return Response(data, 200, content_type=_TYPES.get(ending, "application/octet-stream"))

    def _missing(self) -> Response:
        """Return what is shown where there is no such page (404), or no site yet (503)."""
        if self._version == 0:
            return self._bare("The site is being built …", 503)
        if self._pages is None and not self._folder.exists():
            why = "The content has errors" if self._news.errors else "The site could not be made"
            return self._bare(f"{why}, so there is nothing to show yet", 503)
        return self._bare("There is no such page", 404)

    def _bare(self, title: str, status: int) -> Response:
        """Return a page that has a title and the desk alone."""
        return self._with_news(written("bare.html", title=title).encode(), "", status)

    def _with_news(self, page: bytes, path: str, status: int) -> Response:
        """Return a page with the desk before its end, and a mark of all that it shows."""
        with self._changed:
            news, looks = self._news, self._looks

        def desk(version: str) -> bytes:
            return beside(path, news, version, weighing=self._weighing is not None).encode()

        version = _mark(page, desk(""), looks)
        before, end, after = page.rpartition(b"</body>")
        whole = before + desk(version) + end + after if end else page + desk(version)
        answer = Response(whole, status, content_type=_TYPES[".html"])
        answer.set_etag(version)
        return answer


def _path(address: str) -> str:
    """Return the path within the site that an address names."""
    path = address.lstrip("/")
    return f"{path}index.html" if not path or path.endswith("/") else path


def _mark(*parts: bytes) -> str:
    """Return a short text that stands for what is shown: another one as soon as any of it is other."""
    found = blake2b(digest_size=12)
    for part in parts:
        found.update(b"%d\0" % len(part))
        found.update(part)
    return found.hexdigest()
