"""Who may ask the preview anything: the machine itself, and devices that told the code of the day.

One gate stands before each address that is listened on. It lets through only requests
that name that address (a name of elsewhere that was made to point here could otherwise
read and write, by DNS rebinding), and only forms that came from a page of it.
"""

from __future__ import annotations

import hmac
import re
import secrets
import threading
from collections.abc import Callable, Iterable
from typing import TYPE_CHECKING
from urllib.parse import urlencode

from werkzeug.exceptions import HTTPException
from werkzeug.utils import redirect
from werkzeug.wrappers import Request, Response

from tallybed.server.own_pages import OURS, STYLE, asset, deskpage

if TYPE_CHECKING:
    from _typeshed.wsgi import StartResponse, WSGIApplication, WSGIEnvironment

COME_IN = f"{OURS}come-in"
TOKEN = "token"  # noqa: S105 - the name of a field
_FORM = "sent-to"
"""The field that keeps which form was filled in before the code was asked for."""
_OUR_PAGE = re.compile(rf"{re.escape(OURS)}[a-z-]+")
SESSION = "tallybed.session"
"""Where a request carries its session to whoever answers it."""
DIGITS = 8
MOST_TRIES = 5
"""Wrong codes that are listened to in one run, from all devices together."""
MOST_BYTES = 20_000
"""Bytes of a form that anybody fills in."""

_GUARDS = {
    "Cache-Control": "no-store",
    "X-Content-Type-Options": "nosniff",
    "X-Frame-Options": "DENY",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Referrer-Policy": "same-origin",
}


class Door:
    """Lets devices of the network in, each by a code that is good once."""

    def __init__(self, tell: Callable[[str], None]) -> None:
        """Take what tells the terminal of devices let in, with the next code, and of too many wrong codes."""
        self._tell = tell
        self._lock = threading.Lock()
        self._tries = MOST_TRIES
        self._inside: frozenset[str] = frozenset()
        self._code = _new_code()

    @property
    def code(self) -> str:
        """The code as it is read out: ``4821 7703``."""
        return f"{self._code[: DIGITS // 2]} {self._code[DIGITS // 2 :]}"

    @property
    def shut(self) -> bool:
        """Whether so many wrong codes were told that none is listened to any more."""
        return self._tries <= 0

    def knows(self, session: str) -> bool:
        """Return whether a session was let in."""
        return session in self._inside

    def knock(self, typed: str) -> str | None:
        """Return a new session where the code is right, else None. A code that was right is spent."""
        told = "".join(sign for sign in typed if not sign.isspace() and sign != "-")
        with self._lock:
            if self.shut:
                return None
            if not hmac.compare_digest(told.encode(), self._code.encode()):
                self._tries -= 1
                if self.shut:
                    self._tell(
                        "Too many wrong codes: nobody else is let in until the preview is started again."
                    )
                return None
            self._code = _new_code()
            session = secrets.token_urlsafe(32)
            self._inside |= {session}
        self._tell(f"A device has been let in. The code for another one: {self.code}")
        return session


class Gate:
    """A WSGI application that lets requests through to another one."""

    def __init__(
        self, inner: WSGIApplication, hosts: Iterable[str], port: int, door: Door | None = None
    ) -> None:
        """Take the hosts that are let through, without port; without a ``door`` no code is asked for."""
        self._inner = inner
        self._hosts = frozenset(f"{host}:{port}" for host in hosts)
        self._cookie = f"tallybed-{port}"
        """A browser gives cookies to every port of a host; two previews keep theirs apart."""
        self._door = door
        self._secret = secrets.token_bytes(32)

    def __call__(self, environ: WSGIEnvironment, start_response: StartResponse) -> Iterable[bytes]:
        """Answer one request."""
        request = Request(environ)
        request.max_content_length = request.max_form_memory_size = MOST_BYTES
        session = request.cookies.get(self._cookie, "")
        stranger = not session or (self._door is not None and not self._door.knows(session))
        try:
            answer = self._refusal(request) or (
                self._at_the_door(request) if stranger and self._door else None
            )
        except HTTPException as error:
            answer = _said(error.description or error.name, error.code or 400)
        if answer is None:
            given = "" if not stranger else secrets.token_urlsafe(32)
            environ[SESSION] = hmac.new(self._secret, (given or session).encode(), "sha256").hexdigest()
            answer = Response.from_app(self._inner, environ)
            if given:
                self._give(answer, given)
        for name, value in _GUARDS.items():
            answer.headers.setdefault(name, value)
        return answer(environ, start_response)

    def _refusal(self, request: Request) -> Response | None:
        """Return what is said to a request that comes from elsewhere, or None."""
        host = request.environ.get("HTTP_HOST", "").lower()
        if host not in self._hosts:
            return _said("This address is not served here.", 403)
        if request.method in {"GET", "HEAD"}:
            return None
        if request.method != "POST" or not request.path.startswith(OURS):
            return Response("Only reading is served here.\n", 405, {"Allow": "GET, HEAD"})
        if request.headers.get("Origin", "").lower() != f"http://{host}":
            return _said("This form was sent from another site; fill it in on the preview's own page.", 403)
        if request.mimetype != "application/x-www-form-urlencoded":
            return _said("This is not a form of the preview.", 415)
        return None

    def _at_the_door(self, request: Request) -> Response:
        """Return the question for the code, or what comes of its answer."""
        assert self._door is not None  # asked by the caller
        if request.path == STYLE:
            return Response(asset("desk.css"), 200, content_type="text/css; charset=utf-8")
        wrong = False
        if request.method == "POST" and request.path == COME_IN:
            session = self._door.knock(request.form.get("code", ""))
            if session:
                answer = redirect(_back_to(request), 303)
                self._give(answer, session)
                return answer
            wrong = True
        page = deskpage(
            "come_in.html",
            to=COME_IN,
            wrong=wrong,
            shut=self._door.shut,
            digits=DIGITS,
            form=request.form.get(_FORM, "") if wrong else request.path,
            typed=_typed(request),
        )
        page.status_code = 403
        return page

    def _give(self, answer: Response, session: str) -> None:
        """Hand a session to the browser; it lasts until the browser or the preview ends."""
        answer.set_cookie(self._cookie, session, path="/", httponly=True, samesite="Strict")


def forged(request: Request) -> bool:
    """Return whether a form does not carry the token that its page was given in this session."""
    told = request.form.get(TOKEN, "")
    return not hmac.compare_digest(told.encode(), str(request.environ.get(SESSION, "")).encode()) or not told


def _typed(request: Request) -> list[tuple[str, str]]:
    """Return what was typed into a form that came without a session, as it does after a restart."""
    typed = request.form.items(multi=True) if request.method == "POST" else ()
    return [(name, text) for name, text in typed if name not in {"code", TOKEN, _FORM}]


def _back_to(request: Request) -> str:
    """Return where somebody goes who told the code: to the form that was sent before, filled in as it was."""
    form, typed = request.form.get(_FORM, ""), _typed(request)
    return f"{form}?{urlencode(typed)}" if typed and _OUR_PAGE.fullmatch(form) else "/"


def _new_code() -> str:
    """Return a code of ``DIGITS`` digits that nobody can foretell."""
    return "".join(secrets.choice("0123456789") for _ in range(DIGITS))


def _said(words: str, status: int) -> Response:
    """Return a line of plain text as an answer."""
    return Response(f"{words}\n", status, content_type="text/plain; charset=utf-8")
