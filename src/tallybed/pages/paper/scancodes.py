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

_PARTS = re.compile(r"[^/]+/*|/+")
"""A part of an address: up to its slashes, behind which a line may break."""
_PIECES = re.compile(r"[^.]+\.*|\.+")
"""A piece of a part: up to its dots, behind which a line breaks that is too short for the part."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ScanCode:
    """A code, or the sentence that says why there is none."""

    picture: Markup
    address: tuple[tuple[str, ...], ...]
    """The page it leads to, spelt out for those who type it: parts, each in pieces.

    Between parts a line may break, between pieces where it must, and never at a hyphen, which would seem to
    be no part of the address.
    """
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
    spelt = tuple(tuple(_PIECES.findall(part)) for part in _PARTS.findall(address))
    return ScanCode(picture=picture, address=spelt, said="" if drawn else TOO_LONG)
