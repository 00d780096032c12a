"""Scanners for texts that are shown as they are: titles, notes, addresses, names of beds and tags."""

from __future__ import annotations

import re
from contextlib import suppress
from urllib.parse import quote, urlsplit, urlunsplit
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError, available_timezones

from tallybed.garden.naming import nearest
from tallybed.reading.base.problems import Misread, quoted

LINE = "a text on one line"
NOTE = "a text"
ADDRESS = "an address that begins with https:// or http://"
TAG = "a tag of letters and digits, such as SP1"

LONGEST_LINE = 200
LONGEST_NOTE = 2000
_TAG = re.compile(r"(?=.*[0-9])[A-Za-z][A-Za-z0-9]{1,11}")
_QUOTES = {'"': ("“", "”"), "'": ("‘", "’")}
_ZONE = re.compile(r"[A-Za-z][A-Za-z0-9_+-]*(/[A-Za-z0-9_+-]+){0,2}")
_OF_A_MACHINE = frozenset({"Factory", "localtime", "posixrules"})
"""Names that many systems keep beside the database, and each machine means something else by."""
_LANGUAGE = re.compile(r"[A-Za-z]{2,3}(-[A-Za-z0-9]{2,8})*")


def line(text: str) -> str:
    """Read a text shown on one line: a title, a name."""
    words = text.strip()
    if "\n" in words:
        raise Misread("several-lines", f"the text {quoted(text)} runs over several lines", LINE)
    if len(words) > LONGEST_LINE:
        raise _too_long(words, LONGEST_LINE)
    return " ".join(words.split())


def title(text: str) -> str:
    """Read a text that is set as it is read: a line with its quotes curly, as all of a site has them."""
    return curled(line(text))


def curled(words: str) -> str:
    """Return words with curly quotes for straight ones; feet and inches after a figure stay as they are."""
    for straight, (opening, closing) in _QUOTES.items():
        words = re.sub(rf"(?<![^\s(\[“‘]){straight}(?=\S)", opening, words)
        words = re.sub(rf"(?<!\d){straight}", closing, words)
    return words


def note(text: str) -> str:
    """Read a remark, which may run over several lines."""
    words = text.strip()
    if len(words) > LONGEST_NOTE:
        raise _too_long(words, LONGEST_NOTE)
    return words


def _too_long(words: str, longest: int) -> Misread:
    """Return the Misread of a text that is too long, with its length in characters."""
    return Misread(
        "text-too-long",
        f"the text {quoted(words)} has {len(words)} characters",
        f"{longest} characters at most",
    )


def address(text: str) -> str:
    """Read a web address."""
    words = text.strip()
    found = f"{quoted(text)} is not a web address"
    try:
        parts = urlsplit(words)
        host = parts.hostname
        parts.port  # noqa: B018 - an impossible port is refused only when asked for
    except ValueError:
        raise Misread("address", found, ADDRESS) from None
    if parts.scheme not in ("http", "https") or not host or len(words) > LONGEST_NOTE:
        close = f"https://{words}" if re.fullmatch(r"[\w-]+(\.[\w-]+)+(/\S*)?", words) else ""
        raise Misread("address", found, ADDRESS, close)
    if re.search(r"[\s\"<>\\^`{|}]", words) or "@" in parts.netloc:
        raise Misread("address", found, f"{ADDRESS}, without spaces, quotes or a password")
    return words


def site_address(text: str) -> str:
    """Read the address of the site itself: no query, a closing slash, other letters spelt in ASCII.

    Feeds, lists of pages and codes to scan hold addresses in ASCII alone (RFC 3986;
    host names: RFC 3490, ToASCII).
    """
    words = address(text)
    if "?" in words or "#" in words:
        raise Misread("address", f"the site’s address {quoted(text)} holds ? or #", "an address without them")
    parts = urlsplit(words if words.endswith("/") else f"{words}/")
    with suppress(UnicodeError):
        parts = parts._replace(netloc=parts.netloc.encode("idna").decode("ascii"))
    return urlunsplit(parts._replace(path=quote(parts.path, safe="/%:@!$&'()*+,;=~")))


def is_tag(text: str) -> bool:
    """Return whether a text has the form of a tag."""
    return _TAG.fullmatch(text.strip()) is not None


def tag(text: str) -> str:
    """Read a planting's tag, in capitals."""
    words = text.strip()
    if not _TAG.fullmatch(words):
        if words.isascii() and words.isalpha() and len(words) < 12:
            expected = f"a tag with a digit in it, such as {words.upper()}1, so that no word is taken for one"
            raise Misread("tag", f"{quoted(text)} has no digit", expected)
        raise Misread("tag", f"{quoted(text)} is not a tag", TAG)
    return words.upper()


def language(text: str) -> str:
    """Read a language by its code (BCP 47 in form), such as ``en`` or ``en-GB``."""
    words = text.strip()
    if not _LANGUAGE.fullmatch(words):
        raise Misread("language", f"{quoted(text)} is not a language code", "a code such as en or en-GB")
    return words


def region(language: str) -> str:
    """Return the country that a code of English names (``NZ`` of ``en-NZ``), else an empty text.

    Other languages have their own names for crops, whatever the country.
    """
    first, *parts = language.upper().split("-")
    found = next((part for part in parts if len(part) < 3), "")  # a script has four letters
    # People write UK; the code is GB (CLDR, aliases of territories).
    return {"UK": "GB"}.get(found, found) if first == "EN" else ""


def time_zone(text: str) -> str:
    """Read a time zone of the IANA database. Where the machine has none, the form alone is looked at."""
    words = text.strip()
    found = f"there is no time zone {quoted(text)}"
    expected = "a name such as America/New_York"
    formed = _ZONE.fullmatch(words) and words not in _OF_A_MACHINE
    with suppress(ZoneInfoNotFoundError, ValueError, OSError):
        if formed:
            ZoneInfo(words)
            return words
    known = available_timezones() - _OF_A_MACHINE
    if known or not formed:
        raise Misread("time-zone", found, expected, nearest(words, known))
    return words
