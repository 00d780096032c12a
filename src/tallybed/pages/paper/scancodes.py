"""Codes on paper that lead to the living page."""

from __future__ import annotations

import re
from dataclasses import dataclass

from markupsafe import Markup

from tallybed.drawing.scancode import scan_code
from tallybed.pages.frame import addresses
from tallybed.reckoning.year import Years

NO_ADDRESS = "No code to scan: the garden’s web address is not told."
TOO_LONG = "No code to scan: the page’s web address is too long for one."

_PARTS = re.compile(r"[^/.]+[/.]*|[/.]+")
"""A part of an address: a line may break behind its slashes and dots."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ScanCode:
    """A code, or the sentence that says why there is none."""

    picture: Markup
    address: tuple[str, ...]
    """The page it leads to, spelt out for those who type it, in parts between which a line may break."""
    said: str


def page_code(
    years: Years, path: str, *, ident: str, title: str, part: str = "", sturdy: bool = False
) -> ScanCode:
    """Return the code that leads to a page of the site, or to the ``part`` of it with that id.

    ``sturdy`` for one that hangs in the weather.
    """
    base = years.garden.address
    if not base:
        return ScanCode(picture=Markup(""), address=(), said=NO_ADDRESS)
    address = addresses.absolute(base, path) + (f"#{part}" if part else "")
    drawn = years.keep(
        f"code to scan {(address, ident, title, sturdy)}",
        lambda: scan_code(address, ident=ident, title=title, sturdy=sturdy),
    )
    picture = Markup(drawn)  # noqa: S704 - drawings escape their own texts
    return ScanCode(picture=picture, address=tuple(_PARTS.findall(address)), said="" if drawn else TOO_LONG)
