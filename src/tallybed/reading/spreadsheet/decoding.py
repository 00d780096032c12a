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
_OTHER_KINDS = (
    (b"%PDF-", "a PDF document"),
    (b"{\\rtf", "a text document"),
    *((mark, "a picture") for mark in (b"\x89PNG", b"\xff\xd8\xff", b"GIF8", b"II*\x00", b"MM\x00*")),
    *((mark, "a compressed file") for mark in (b"\x1f\x8b", b"7z\xbc\xaf", b"Rar!", b"\xfd7zXZ")),
    *((mark, "a web page") for mark in (b"<!doctype html", b"<html", b"<table")),
    (b"<?xml", "an XML file"),
)
"""First bytes of files that people have beside their spreadsheets, by their formats; from memory."""
_BEGINNING = 100
_CONTROLS = frozenset(range(32)) - frozenset(b"\t\n\v\f\r\x1a")
"""Bytes that stand in no text, whatever its code page."""
_NEITHER = "neither a text file nor an .xlsx workbook"
_WORKBOOKS = (".xlsx", ".xlsm", ".xltx", ".xls", ".xlsb", ".ods", ".numbers")
_SAVE = "open it in the program it comes from and save the table as .xlsx or .csv"
_LOOKED_AT = 200_000
"""Bytes that are looked at to tell code pages apart."""


def decoded(name: str, data: bytes) -> tuple[str, str]:
    """Return bytes as text, and in words how they were read where that was told by nothing but the text.

    Raises TableError.
    """
    _refuse_other_kinds(name, data)
    encoding = next((kind for mark, kind in _MARKS if data.startswith(mark)), "utf-8")
    told = ""
    try:
        text = data.decode(encoding)
    except UnicodeDecodeError:
        if encoding == "utf-8":
            _refuse_other_bytes(name, data)
        encoding = _code_page(data) if encoding == "utf-8" else ""
        if not encoding:
            raise TableError(f"{name} is not written in UTF-8; save it again as “CSV UTF-8”") from None
        text = data.decode(encoding)
        told = f"{name} is not UTF-8; it was read as {CODE_PAGES[encoding]}"
    if "\x00" in text:
        raise TableError(f"{name} is {_NEITHER}; {_SAVE}")
    return text, told


def _refuse_other_kinds(name: str, data: bytes) -> None:
    """Raise TableError where a file's first bytes tell that it is of a kind that holds no table."""
    begin = data.removeprefix(codecs.BOM_UTF8)[:_BEGINNING].lstrip().lower()
    kind = next((words for mark, words in _OTHER_KINDS if begin.startswith(mark.lower())), "")
    if kind:
        raise TableError(f"{name} is {kind}, not a spreadsheet, whatever its name says; {_SAVE}")


def _refuse_other_bytes(name: str, data: bytes) -> None:
    """Raise TableError where bytes that are not UTF-8 are no text in a code page either."""
    if not _CONTROLS.isdisjoint(data):
        kind = "not a workbook" if name.casefold().endswith(_WORKBOOKS) else _NEITHER
        raise TableError(f"{name} is {kind}; {_SAVE}")


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
