"""The pages of the preview itself: their templates, their style, and what a browser is let do on them."""

from __future__ import annotations

from functools import cache
from importlib.resources import files

from jinja2 import PackageLoader, StrictUndefined
from jinja2.environment import Environment
from werkzeug.wrappers import Response

OURS = "/.tallybed/"
"""Addresses of the preview itself; no file of a site begins with a dot."""
STYLE = f"{OURS}desk.css"
SCRIPT = f"{OURS}preview.js"
HTML = "text/html; charset=utf-8"
RULES = (
    "default-src 'none'; style-src 'self'; script-src 'self'; img-src 'self' data:; connect-src 'self'; "
    "form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
)
"""What a page of the preview may load and do (Content Security Policy Level 3): its own style and script.

The icon is an empty `data:` address, so that no browser asks for one.
"""


@cache
def _environment() -> Environment:
    """Return the templates of the desk's own pages, which escape what they are given."""
    return Environment(
        loader=PackageLoader("tallybed.server", "deskpages"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        auto_reload=False,
    )


def written(template: str, **values: object) -> str:
    """Return a template of the desk filled in; every value is escaped."""
    return _environment().get_template(template).render(ours=OURS, style=STYLE, script=SCRIPT, **values)


def deskpage(template: str, **values: object) -> Response:
    """Return a page of the preview itself."""
    answer = Response(written(template, **values), 200, content_type=HTML)
    answer.headers["Content-Security-Policy"] = RULES
    return answer


@cache
def asset(name: str) -> bytes:
    """Return the bytes of the desk's style or script."""
    folder = files("tallybed.server")
    return (folder / name if name.endswith(".js") else folder / "deskpages" / name).read_bytes()
