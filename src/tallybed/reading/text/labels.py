"""What a label says, as people copy it: waits in days, re-entry in hours, times and temperatures."""

from __future__ import annotations

import re
from datetime import time
from fractions import Fraction

from tallybed.garden.records.treatment import ReEntry
from tallybed.reading.base.problems import Misread, quoted

WAIT = "whole days such as 7 days, as on the label"
RE_ENTRY = "hours such as 4 hours, days such as 2 days, or until dry, as on the label"
TIME = "a time such as 7:30 pm or 19:30"
TEMPERATURE = "a temperature such as 68 F or 20 C"
PRODUCT = "the active ingredient as on the label"
LONGEST_WAIT = 1000
_WAIT = re.compile(r"([0-9]{1,4})(?:\s*(days?|d|weeks?))", re.IGNORECASE)
_RE_ENTRY = re.compile(r"([0-9]{1,4}(?:\.[0-9]{1,2})?)\s*(hours?|hrs?|h|days?|d)\.?", re.IGNORECASE)
_UNTIL_DRY = re.compile(
    r"(?:until|till|when|once) (?:(?:the )?(?:sprays?|deposits?|residues?|foliage|leaves) |it )?"
    r"(?:(?:is|are|has|have) )?(?:dry|dries|dried)"
)
"""As labels have it, “until sprays have dried” (usual on labels in the United States, from memory)."""
_TIME = re.compile(r"([0-9]{1,2})(?:[:.]([0-9]{2}))?\s*(?:([ap])\.?\s*m\.?)?", re.IGNORECASE)
_TEMPERATURE = re.compile(r"([-−]?[0-9]{1,3}(?:\.[0-9])?)\s*(?:°|deg(?:rees)?)?\s*([fc])\b\.?", re.IGNORECASE)
_MARKED = re.compile("[®™℠]")


def wait(text: str) -> int:
    """Read a label's wait between treatment and picking as days. Raises Misread."""
    match = _WAIT.fullmatch(text.strip())
    if match is None:
        close = f"{text.strip()} days" if re.fullmatch("[1-9][0-9]{0,2}", text.strip()) else ""
        raise Misread("wait", f"the wait {quoted(text)} cannot be read", WAIT, close)
    days = int(match.group(1)) * (7 if match.group(2).casefold().startswith("w") else 1)
    if days > LONGEST_WAIT:
        raise Misread("wait", f"the wait {quoted(text)} is out of bounds", f"{LONGEST_WAIT} days at most")
    return days


def re_entry(text: str) -> ReEntry:
    """Read how long people keep off: hours, days, or until dry. Raises Misread."""
    words = " ".join(text.split()).casefold()
    if _UNTIL_DRY.fullmatch(words):
        return ReEntry()
    match = _RE_ENTRY.fullmatch(words)
    if match is None:
        raise Misread("re-entry", f"the re-entry {quoted(text)} cannot be read", RE_ENTRY)
    hours = Fraction(match.group(1)) * (24 if match.group(2).startswith("d") else 1)
    if hours > 24 * LONGEST_WAIT:
        found = f"the re-entry {quoted(text)} is out of bounds"
        raise Misread("re-entry", found, f"{LONGEST_WAIT} days at most")
    return ReEntry(hours=hours)


def clock(text: str) -> time:
    """Read a time of day: ``7:30 pm``, ``19:30``. A bare hour needs am or pm. Raises Misread."""
    match = _TIME.fullmatch(text.strip())
    found = f"the time {quoted(text)} cannot be read"
    if match is None or (match.group(2) is None and match.group(3) is None):
        by_h = re.fullmatch(r"([0-9]{1,2}) ?h ?([0-9]{2})", text.strip().casefold())
        close = f"{by_h[1]}:{by_h[2]}" if by_h and int(by_h[1]) < 24 and int(by_h[2]) < 60 else ""
        raise Misread("time", found, TIME, close)
    hour, minute, half = int(match.group(1)), int(match.group(2) or 0), (match.group(3) or "").casefold()
    if half and not 1 <= hour <= 12:
        raise Misread("time", found, TIME)
    if half:
        hour = hour % 12 + (12 if half == "p" else 0)
    if hour > 23 or minute > 59:
        raise Misread("time", found, TIME)
    return time(hour, minute)


def temperature(text: str) -> Fraction:
    """Read an air temperature as degrees Fahrenheit. Raises Misread."""
    match = _TEMPERATURE.fullmatch(text.strip())
    if match is None:
        raise Misread("temperature", f"the temperature {quoted(text)} cannot be read", TEMPERATURE)
    degrees = Fraction(match.group(1).replace("−", "-"))
    return degrees * Fraction(9, 5) + 32 if match.group(2).casefold() == "c" else degrees


def refuse_brand(text: str) -> str:
    """Return a text that bears no sign of a trade mark: brands are never printed. Raises Misread."""
    if _MARKED.search(text):
        raise Misread("brand", f"{quoted(text)} is a brand", PRODUCT)
    return text
