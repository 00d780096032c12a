"""``tallybed check --library``: what the figures of the crop library rest on."""

from __future__ import annotations

from tallybed.pages.care.library_sources import kinds_table
from tallybed.pages.tables.plain_text import plain
from tallybed.reading.folder.library import kinds, load_library


def library_kinds() -> str:
    """Return what the crop library's figures rest on, as a table."""
    return plain(kinds_table(kinds(load_library()))) + "\n"
