"""Links of a finished page, found and changed, every other byte left as it is."""

from __future__ import annotations

import re
from collections.abc import Callable
from html import escape, unescape
from html.parser import HTMLParser
from posixpath import dirname, join, normpath
from urllib.parse import unquote

from tallybed.publishing.paths import ELSEWHERE

Change = Callable[[str, str], str | None]
"""From an element's name and its address as written to the new address, or None to leave it."""

_LINKS = re.compile(r"""(\s(?:xlink:href|href|src)\s*=\s*)("[^"]*"|'[^']*'|[^\s"'>]+)""", re.IGNORECASE)


def target(here: str, address: str) -> tuple[str, str]:
    """Return the path within the site that an address on the page ``here`` leads to, and its anchor.

    The path is empty for an address outside the site.
    """
    if ELSEWHERE.match(address):
        return "", ""
    path, _, anchor = address.partition("#")
    found = normpath(join(dirname(here), unquote(path.partition("?")[0]))) if path else here
    return found, unquote(anchor)


def relinked(text: str, change: Change) -> str:
    """Return a page with the addresses of its elements changed as ``change`` says."""
    reader = _Reader(text, change)
    reader.feed(text)
    reader.close()
    return reader.whole()


class _Reader(HTMLParser):
    """Copies a page piece by piece; start tags are looked through for addresses."""

    def __init__(self, text: str, change: Change) -> None:
        super().__init__(convert_charrefs=False)
        self._text = text
        self._change = change
        self._lines = [0]
        for line in text.split("\n")[:-1]:
            self._lines.append(self._lines[-1] + len(line) + 1)
        self._parts: list[str] = []
        self._done = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Change the addresses of one element."""
        addresses = {value for name, value in attrs if name in ("href", "src", "xlink:href") and value}
        new = {address: found for address in addresses if (found := self._change(tag, address)) is not None}
        written = self.get_starttag_text()
        if not new or written is None:
            return
        line, column = self.getpos()
        start = self._lines[line - 1] + column
        self._parts.append(self._text[self._done : start])
        self._parts.append(_LINKS.sub(lambda match: _changed(match, new), written))
        self._done = start + len(written)

    def whole(self) -> str:
        """Return the page as it has become."""
        return "".join([*self._parts, self._text[self._done :]])


def _changed(match: re.Match[str], new: dict[str, str]) -> str:
    """Return an attribute with its new address in double quotes, or as it was where it has none."""
    before, quoted = match.groups()
    found = new.get(unescape(quoted.strip("\"'")))
    return match[0] if found is None else f'{before}"{escape(found)}"'
