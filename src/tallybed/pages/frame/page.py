"""What one page of the site is: where it lies, how it is laid out, and its plain data."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal

from tallybed.pages.files.card import Card


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """One page.

    ``data`` holds only texts, numbers, records of them and markup of ``prose`` and drawings. It always
    has ``trail``, which ``layouts/sheet.html`` shows at the head: see ``frame/trails.py``.
    """

    path: str
    """Below the site's folder: ``2026/log/04-19-peas-are-up/index.html``; all but one end so."""
    template: str
    title: str
    """Without the garden's name, which the frame adds."""
    description: str
    data: Mapping[str, object]
    kind: str
    """What kind of page it is, e.g. ``bed month``."""
    linked: tuple[Mapping[str, object], ...] = ()
    """What it is about, for programs, in the vocabulary of schema.org."""
    card: Card | None = None
    """The picture to show with its address, where it has one of its own; else its season's is."""
    top: str = ""
    """Where the site lies on its host (``/beds/``), for a page shown at any address: its links begin there.
    Empty for a page with one address of its own."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DataFile:
    """A table that lies beside the pages for spreadsheets and programs."""

    path: str
    """Below the site's folder, ending in ``.csv``."""
    heads: tuple[str, ...]
    rows: tuple[tuple[str | int | Decimal, ...], ...]
    """As many cells as ``heads``; texts as they are, not yet made safe for a spreadsheet, and numbers."""


@dataclass(frozen=True, slots=True)
class Link:
    """Words that lead to another page of the site."""

    text: str
    to: str
    """The other page's path; empty for words that lead nowhere."""
