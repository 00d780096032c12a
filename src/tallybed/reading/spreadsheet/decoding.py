"""The bytes of a text file as text: by its mark, as UTF-8, else by a code page."""

from __future__ import annotations

import codecs

from charset_normalizer import from_bytes

from tallybed.reading.spreadsheet.cells import TableError

_MARKS = (
    (codecs.BOM_UTF8, "utf-8-sig"),
    (codecs.BOM_UTF16_LE, "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16"),
)
CODE_PAGES = {"cp1252": "Windows-1252", "mac_roman": "Mac Roman", "cp850": "code page 850"}
"""What spreadsheet programs of the West write besides UTF-8, the commonest first. From memory."""
_USUAL = frozenset("äöüßéèêëàâáçñóòôíìîïúùûåæøœÄÖÜÉÈÀÁÇÑÓÅÆØŒ½¼¾°’‘“”„«»–—×£€\u00a0")
"""Signs that stand in such files beside those of ASCII; a wrong code page gives others."""
_LOOKED_AT = 200_000
"""Bytes that are looked at to tell code pages apart."""


def decoded(name: str, data: bytes) -> tuple[str, str]:
    """Return bytes as text, and in words how they were read where that was told by nothing but the text.

    Raises TableError.
    """
    encoding = next((kind for mark, kind in _MARKS if data.startswith(mark)), "utf-8")
    told = ""
    try:
        text = data.decode(encoding)
    except UnicodeDecodeError:
        encoding = _code_page(data) if encoding == "utf-8" and b"\x00" not in data else ""
        if not encoding:
            raise TableError(f"{name} is not written in UTF-8; save it again as “CSV UTF-8”") from None
        text = data.decode(encoding)
        told = f"{name} is not UTF-8; it was read as {CODE_PAGES[encoding]}"
    if "\x00" in text:
        raise TableError(f"{name} is neither a text file nor an .xlsx workbook")
    return text, told


def _code_page(data: bytes) -> str:
    """Return the likeliest code page, or an empty text where none fits."""
    signs = bytes(sign for sign in data if sign > 127)[:_LOOKED_AT]
    best = from_bytes(data[:_LOOKED_AT], cp_isolation=list(CODE_PAGES))
    fitting = [match.encoding for match in best]
    scores = {}
    for page in CODE_PAGES:
        if page in fitting:
            try:
                scores[page] = sum(1 if sign in _USUAL else -1 for sign in signs.decode(page))
                data.decode(page)
            except UnicodeDecodeError:
                scores.pop(page, None)
    # Of pages that speak for themselves equally, the commonest.
    return max(scores, key=lambda page: scores[page], default="")
