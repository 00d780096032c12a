"""What the preview answers: the site's files, with a script and any errors put into each page."""

from __future__ import annotations

import threading
from collections.abc import Iterable
from importlib.resources import files
from pathlib import Path
from typing import TYPE_CHECKING

from markupsafe import Markup, escape
from werkzeug.security import safe_join
from werkzeug.utils import redirect
from werkzeug.wrappers import Request, Response

from tallybed.publishing.paths import MARKER

if TYPE_CHECKING:
    from _typeshed.wsgi import StartResponse, WSGIEnvironment

_OURS = "/.tallybed/"
"""Addresses of the preview itself; no file of a site begins with a dot."""
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

_BANNER = Markup(
    '<aside role="alert" style="position:fixed;inset:auto 0 0 0;max-height:50vh;overflow:auto;z-index:9999;'
    "margin:0;padding:.75rem 1rem;background:#fff4d6;color:#1d1a10;border-top:3px solid #8a1c1c;"
    'font:1rem/1.45 system-ui,sans-serif"><strong>{heading}</strong>'
    '<ul style="margin:.4rem 0 0;padding-left:1.2rem">{items}</ul></aside>\n'
)
_PAGE = Markup(
    '<!doctype html>\n<html lang="en"><head><meta charset="utf-8">'
    '<meta name="viewport" content="width=device-width"><title>{title}</title></head>'
    "<body><h1>{title}</h1>\n</body></html>\n"
)


class Serving:
    """A WSGI application over a folder that is renewed while it is served."""

    def __init__(self, folder: Path, port: int) -> None:
        self._folder = folder
        self._hosts = frozenset({f"127.0.0.1:{port}", f"localhost:{port}"})
        self._changed = threading.Condition()
        self._version = 0
        self._errors: tuple[str, ...] = ()
        self._ended = False
        self._script = (files("tallybed.publishing") / "preview.js").read_bytes()

    def show(self, errors: Iterable[str], trouble: str = "") -> None:
        """Let every open page load again, with these errors on it."""
        with self._changed:
            self._errors = (*((trouble,) if trouble else ()), *errors)
            self._version += 1
            self._changed.notify_all()

    def end(self) -> None:
        """Let go of every page that waits."""
        with self._changed:
            self._ended = True
            self._changed.notify_all()

    def __call__(self, environ: WSGIEnvironment, start_response: StartResponse) -> Iterable[bytes]:
        """Answer one request."""
        request = Request(environ)
        response = self._answer(request)
        response.headers["Cache-Control"] = "no-store"
        response.headers["X-Content-Type-Options"] = "nosniff"
        return response(environ, start_response)

    def _answer(self, request: Request) -> Response:
        if request.environ.get("HTTP_HOST", "").lower() not in self._hosts:
            # A name of elsewhere that was made to point here could otherwise read the site (DNS rebinding).
            return Response("This address is not served here.\n", 403)
        if request.method not in {"GET", "HEAD"}:
            return Response("Only reading is served here.\n", 405, {"Allow": "GET, HEAD"})
        if request.path.startswith(_OURS):
            return self._ours(request)
        if self._version == 0:
            return self._bare("The site is being built …", 503)
        return self._file(request)

    def _ours(self, request: Request) -> Response:
        if request.path == f"{_OURS}preview.js":
            return Response(self._script, 200, content_type=_TYPES[".js"])
        if request.path == f"{_OURS}changes":
            since = request.args.get("since", "")
            with self._changed:
                self._changed.wait_for(lambda: self._ended or str(self._version) != since, _PATIENCE)
                return Response(str(self._version), 200, content_type=_TYPES[".txt"])
        return Response("There is nothing here.\n", 404)

    def _file(self, request: Request) -> Response:
        joined = safe_join(str(self._folder), request.path.lstrip("/"))
        path = Path(joined) if joined is not None else None
        if path is None or not path.exists() or path.name == MARKER:
            return self._missing()
        if path.is_dir():
            if not request.path.endswith("/"):
                return redirect(f"{request.path.rsplit('/', 1)[-1]}/")
            path /= "index.html"
        try:
            data = path.read_bytes()
        except FileNotFoundError:
            return self._missing()
        kind = _TYPES.get(path.suffix.lower(), "application/octet-stream")
        if path.suffix.lower() == ".html":
            data = self._with_news(data)
        return Response(data, 200, content_type=kind)

    def _missing(self) -> Response:
        if not self._folder.exists() and self._errors:
            return self._bare("The content has errors, so there is no site yet", 503)
        return self._bare("There is no such page", 404)

    def _bare(self, title: str, status: int) -> Response:
        page = _PAGE.format(title=title).encode()
        return Response(self._with_news(page), status, content_type=_TYPES[".html"])

    def _with_news(self, page: bytes) -> bytes:
        with self._changed:
            version, errors = self._version, self._errors
        news = Markup('<script src="{}" data-version="{}"></script>\n').format(f"{_OURS}preview.js", version)
        if errors:
            items = Markup("").join(Markup("<li>{}</li>").format(error) for error in errors)
            news += _BANNER.format(
                heading=escape("The content has errors. What stands behind this is the last good site."),
                items=items,
            )
        before, end, after = page.rpartition(b"</body>")
        return before + news.encode() + end + after if end else page + news.encode()
