"""The form for weighings: filled in, shown as understood with what it makes of the totals, then written.

What a picking means, and the writing of it, is somebody else's work (``Scales``); this
module only carries what was typed there and the answer back.
"""

from __future__ import annotations

import secrets
import threading
from collections.abc import Mapping
from dataclasses import asdict, dataclass, field, fields, replace
from hashlib import sha256
from typing import Protocol

from werkzeug.datastructures import MultiDict
from werkzeug.exceptions import HTTPException
from werkzeug.utils import redirect
from werkzeug.wrappers import Request, Response

from tallybed.server.gate import MOST_BYTES, SESSION, forged
from tallybed.server.own_pages import OURS, deskpage

WEIGH = f"{OURS}weigh"
DAY_FIELD = "Day picked and weighed"
"""How the form calls the field for the day."""
_LONGEST = 300
"""Characters of one field that anybody fills in."""
_CHOICE = "choice"
"""The name under which each answer is sent."""
_FROM_BEFORE = (
    "The preview was started again since this form was opened. Look at what you typed, then send it again."
)
_OPEN_SLIPS = 100
"""Slips that wait for a yes at one time; older ones have been walked away from."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Typed:
    """The fields as they were typed; what was left out is an empty text."""

    day: str = ""
    what: str = ""
    weight: str = ""
    squares: str = ""
    count: str = ""
    to: str = ""
    note: str = ""
    choices: tuple[str, ...] = ()
    """The answers to questions about it, in the words they were offered in; the newest is last."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FormHeard:
    """A picking that was understood."""

    words: str
    row: str
    """As it will stand in the ledger."""
    ledger: str
    doubt: str = ""
    hint: str = ""
    """How it is said so that it counts for the one planting it may be of."""
    waits: str = ""
    """What it comes, or may come, from inside of; empty where nothing waits."""
    asks: bool = False
    """Whether a person has to answer for that before it is written."""
    running: tuple[tuple[str, str, str], ...] = ()
    """Of what; the total before; the total with it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """A question that has to be answered first."""

    words: str
    choices: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Wrong:
    """What cannot be understood: for each field what is wrong with it, and what concerns the whole."""

    by_field: Mapping[str, str] = field(default_factory=dict)
    whole: str = ""


class Scales(Protocol):
    """Whoever understands pickings and writes them down."""

    def today(self) -> str:
        """Return the day on which weighing is done now, in ISO form."""

    def ripe(self) -> tuple[tuple[str, str], ...]:
        """Return what can be ripe today: what to say for it, and what it is."""

    def hear(self, typed: Typed) -> FormHeard | Asked | Wrong:
        """Return what a picking means. Nothing is written."""

    def write(self, typed: Typed, row: str, *, inside: bool = False) -> FormHeard | Wrong:
        """Write a picking down, if it still means the row that was shown.

        ``inside``: whether a person answered for it where it may come from inside a wait.
        """


class WeighForm:
    """The pages of the form."""

    def __init__(self, scales: Scales) -> None:
        self._scales = scales
        self._lock = threading.Lock()
        self._one_by_one = threading.Lock()
        """Held while a slip is written: a second press of the button waits, and is told what became of it."""
        self._slips: dict[str, str] = {}
        """Slips shown and not yet agreed to: their number, and whose they are and what they said."""
        self._written: dict[str, FormHeard] = {}

    def answer(self, request: Request) -> Response:
        """Answer a request for the form."""
        request.max_content_length = request.max_form_memory_size = MOST_BYTES
        if request.method in {"GET", "HEAD"}:
            return self._empty(request)
        try:
            typed = _typed(request.form)
            slip = request.form.get("slip", "")
            if forged(request):
                return self._form(request, typed, wrong=Wrong(whole=_FROM_BEFORE), status=403)
        except HTTPException as error:
            return _notice(error.name, error.code or 400)
        if not slip or "change" in request.form:
            return self._look(request, typed, again="change" in request.form)
        with self._one_by_one:
            return self._write(request, typed, slip)

    def _empty(self, request: Request) -> Response:
        """Return the form with nothing in it but the day, and what the link filled in."""
        typed = _typed(request.args)
        with self._lock:
            done = self._written.get(request.args.get("slip", ""))
        return self._form(request, replace(typed, day=typed.day or self._scales.today()), done=done)

    def _form(
        self,
        request: Request,
        typed: Typed,
        wrong: Wrong | None = None,
        asked: Asked | None = None,
        done: FormHeard | None = None,
        status: int = 422,
    ) -> Response:
        """Return the form as filled in, with what is wrong (and its ``status``), asked, or just written."""
        page = deskpage(
            "weigh.html",
            to=WEIGH,
            token=request.environ[SESSION],
            typed=asdict(typed),
            day_field=DAY_FIELD,
            wrong=wrong or Wrong(),
            asked=asked,
            done=done,
            ripe=self._scales.ripe(),
        )
        page.status_code = status if wrong and (wrong.whole or wrong.by_field) else 200
        return page

    def _look(self, request: Request, typed: Typed, *, again: bool = False) -> Response:
        """Return what was understood, to be agreed to; or the form again with what is wrong."""
        if again:
            return self._form(request, typed)
        heard = self._scales.hear(typed)
        if isinstance(heard, Wrong):
            return self._form(request, typed, wrong=heard)
        if isinstance(heard, Asked):
            return self._form(request, typed, asked=heard)
        slip = secrets.token_urlsafe(16)
        with self._lock:
            self._slips[slip] = _sealed(request, typed, heard.row)
            for old in list(self._slips)[:-_OPEN_SLIPS]:
                del self._slips[old]
        return deskpage(
            "weigh_look.html",
            to=WEIGH,
            token=request.environ[SESSION],
            typed=asdict(typed),
            heard=heard,
            slip=slip,
        )

    def _write(self, request: Request, typed: Typed, slip: str) -> Response:
        """Write a slip that was agreed to: once, and only as it was shown."""
        row = request.form.get("row", "")
        with self._lock:
            seal = self._slips.pop(slip, "")
        if not seal:
            if slip in self._written:
                return redirect(f"{WEIGH}?slip={slip}", 303)
            return self._form(
                request, typed, wrong=Wrong(whole="This was shown too long ago. Look at it again.")
            )
        if not secrets.compare_digest(seal, _sealed(request, typed, row)):
            wrong = Wrong(whole="This is not what was shown. Look at it again.")
            return self._form(request, typed, wrong=wrong, status=403)
        heard = self._scales.write(typed, row, inside=request.form.get("inside") == "yes")
        if isinstance(heard, Wrong):
            return self._form(request, typed, wrong=heard)
        with self._lock:
            self._written[slip] = heard
            for old in list(self._written)[:-_OPEN_SLIPS]:
                del self._written[old]
        return redirect(f"{WEIGH}?slip={slip}&day={typed.day}", 303)


def _typed(told: MultiDict[str, str]) -> Typed:
    """Return the fields, each on one line and of a bearable length."""
    names = [one.name for one in fields(Typed) if one.name != "choices"]
    texts = {name: _on_one_line(told.get(name, "")) for name in names}
    return Typed(**texts, choices=tuple(map(_on_one_line, told.getlist(_CHOICE))))


def _on_one_line(text: str) -> str:
    """Return a text on one line and of a bearable length."""
    return " ".join(text.split())[:_LONGEST]


def _sealed(request: Request, typed: Typed, row: str) -> str:
    """Return what binds a slip to the session it was shown in and to what it said."""
    parts = [str(request.environ[SESSION]), row, *map(str, asdict(typed).values())]
    return sha256("\x00".join(parts).encode()).hexdigest()


def _notice(heading: str, status: int) -> Response:
    """Return a page which says that nothing was written."""
    page = deskpage("notice.html", heading=heading, lines=("Nothing was written. Open the form again.",))
    page.status_code = status
    return page
