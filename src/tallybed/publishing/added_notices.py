"""Notices added to pages that were made before them, where the site as a whole cannot be made anew.

Nothing else of a page changes. The notices stand before its content, between two comments, so
that a later call puts its own in their place; the next good build makes the page without them.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from html import unescape

from markupsafe import Markup

_BEGINS, _ENDS = "<!-- notices added later -->", "<!-- end of notices added later -->"
_ADDED = re.compile(re.escape(_BEGINS) + r".*?" + re.escape(_ENDS) + r"\n", re.DOTALL)
_CONTENT = re.compile(r'^<main id="content">', re.MULTILINE)
"""Where the content of a page begins: ``sheet.html`` writes it so."""
_TAG = re.compile(r"<[^>]*>")


def with_notices(
    files: Mapping[str, bytes], sentences: Sequence[str], day: str, *, all_at: str
) -> dict[str, bytes]:
    """Return a site's files, each page with those of the sentences that the site does not say already.

    ``day``: the day they are told as of. ``all_at``: the page that has all notices there were when
    the site was made. A page without the usual beginning of its content (one that only leads on;
    a garden's own ``sheet.html`` may lack it) stays as it is.
    """
    said = _words(files.get(all_at, b"").decode("utf-8"))
    news = [one for one in sentences if one.removesuffix(".") not in said]
    return {
        path: _page(data.decode("utf-8"), news, day).encode() if path.endswith(".html") else data
        for path, data in files.items()
    }


def _words(text: str) -> str:
    """Return what a page says, without what was added to it."""
    return " ".join(unescape(_TAG.sub("", _ADDED.sub("", text))).split())


def _page(text: str, wanted: Sequence[str], day: str) -> str:
    """Return one page with its notices."""
    plain = _ADDED.sub("", text)
    if not wanted:
        return plain
    items = Markup("").join(Markup("<li><b>{}</b></li>\n").format(one) for one in wanted)
    notice = Markup(
        '{}\n<aside class="caution" aria-label="Added since this page was made">\n<p>As of {}:</p>\n'
        "<ul>\n{}</ul>\n</aside>\n{}\n"
    ).format(Markup(_BEGINS), day, items, Markup(_ENDS))  # noqa: S704 - two comments of our own
    return _CONTENT.sub(lambda found: f"{notice}{found[0]}", plain, count=1)
