"""How many, in a line: ``16``, ``(5)``, ``x2``, ``6 heads``, ``two peppers``; and numbers that are none."""

from __future__ import annotations

import re

from tallybed.reading.base.problems import Misread, listed
from tallybed.reading.scale.claims import Kind, Line
from tallybed.reading.scale.numbers import IN_WORDS, NUMBER, VALUES
from tallybed.reading.scale.weights import PIECES
from tallybed.reading.text import measures

MOST = 100_000
"""The largest count."""
_BUNCHES = re.compile(
    rf"\b(?:[0-9]{{1,3}}|{IN_WORDS}|an?)\s+(?:bunch(?:es)?|bags?|baskets?|buckets?|bowls?|boxe?s?|crates?|punnets?|pecks?|trays?|sacks?|flats?|jars?|quarts?|pints?|gallons?|lit(?:er|re)s?)\b",
    re.IGNORECASE,
)
_COUNT = re.compile(
    rf"(?<![\w.,/:#-])(?:count\s+(?P<told>[0-9]{{1,6}})|[x×]\s?(?P<behind>[0-9]{{1,6}})"
    rf"|(?P<before>[0-9]{{1,6}})\s?[x×](?!\w)|(?P<pieces>[0-9]{{1,6}}|{IN_WORDS})\s+(?:{PIECES}|counted)\b\.?)(?![\w/]|[.,:][0-9])",
    re.IGNORECASE,
)
_OTHER_MEASURE = re.compile(
    rf"(?<![\w.,/:#-])(?:(?:[$£€₹¥]|\bRs\.?)\s?{NUMBER}|{NUMBER}\s?(?:[%°€£\"]|(?:inch(?:es)?|cm|mm|ft|feet|foot|yards?|met(?:er|re)s?"
    r"|sec(?:ond)?s?|min(?:ute)?s?|hours?|hrs?|days?|nights?|weeks?|wks?|months?|mths?|years?|yrs?|seasons?"
    r"|plants?|people|persons?|visitors?|trips?|am|pm|a\.m\.|p\.m\.)(?![\w-]))|\bat\s+[0-9]{1,2}(?![\w.,:/-])|[0-9]{1,2}:[0-9]{2}(?:\s?[ap]\.?m\b\.?)?(?![\w:]))",
    re.IGNORECASE,
)
"""Numbers of something else than pieces: a length, a time, plants, money. They go to the note."""
_NUMBER = re.compile(rf"(?<![\w.,/:#-])(?<!\.)({NUMBER})(?![\w/:%-]|[.,][0-9])")
_IN_WORDS = re.compile(rf"(?<![\w-])({IN_WORDS})(?=\s)", re.IGNORECASE)


def find_counts(line: Line) -> None:
    """Claim the numbers of pieces, measures of room as a note, and every other number as a bare one."""
    for match in line.free(_BUNCHES):
        line.claim(Kind.NOTE, match.start(), match.end(), match.group())
    for match in line.free(_OTHER_MEASURE):
        line.claim(Kind.NOTE, match.start(), match.end(), match.group())
    for match in line.free(_COUNT):
        word = next(part for part in match.groups() if part)
        line.claim(Kind.COUNT, match.start(), match.end(), _value(word))
    for match in line.free(_NUMBER):
        line.claim(Kind.NUMBER, match.start(), match.end(), match.group(1))
    for match in line.free(_IN_WORDS):
        if line.starting(match.end(), Kind.NAME):
            line.claim(Kind.COUNT, match.start(), match.end(), _value(match.group(1)))


def _value(word: str) -> int:
    plain = " ".join(word.casefold().split())
    return VALUES[plain] if plain in VALUES else measures.whole(1, MOST)(plain)


def count_told(line: Line, *, bare: bool = True) -> int | None:
    """Return the count that a line tells. Raises Misread where it has several numbers.

    ``bare`` False: its bare number is the weight.
    """
    told = [one.value for one in line.of(Kind.COUNT)]
    numbers = [one.value for one in line.of(Kind.NUMBER)] if bare else []
    if len(told) + len(numbers) > 1 and len({*map(str, told), *numbers}) > 1:
        every = listed((str(number) for number in (*told, *numbers)), "and")
        raise Misread("line", f"the line has the numbers {every}", "one count, and a weight with its unit")
    if told:
        return int(told[0])
    if numbers and re.fullmatch("20[0-9]{2}", numbers[0]):
        raise Misread(
            "line", f"the number {numbers[0]} may be a year", f"a day in full, or count {numbers[0]}"
        )
    if numbers and numbers[0].startswith("0"):
        raise Misread(
            "line", f"the number {numbers[0]} is not a count", "a count such as 3, or a weight with its unit"
        )
    return measures.whole(1, MOST)(numbers[0]) if numbers else None
