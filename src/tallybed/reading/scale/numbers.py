"""Numbers as people write them: in words, with a comma or a point, as fractions."""

from __future__ import annotations

import re
from fractions import Fraction

from tallybed.garden.naming import nearest
from tallybed.garden.units import KILOGRAM, POUND, WEIGHT_UNIT_OF, Unit, Weight
from tallybed.reading.base.problems import Misread, quoted
from tallybed.reading.scale.questions import DECIMAL, THOUSANDS, Answers, Choice, LineQuestion, answered

COMMA, POINT = "comma", "point"
"""The signs that may stand before decimals."""
NUMBER = (
    r"(?:[0-9]{1,6}\s+[0-9]{1,2}/[0-9]{1,2}|[0-9]{1,6}/[0-9]{1,2}"
    r"|[0-9]{1,9}(?:[.,][0-9]+)+|[.,][0-9]+|[0-9]{1,9})"
)
GROUPED = r"[1-9][0-9]{0,2}(?: [0-9]{3})+(?:[.,][0-9]{1,2})?(?![0-9])"
"""A number with spaces between its thousands (ISO 80000-1), or a count and a number."""
_SURE_GROUPS = re.compile("(?<![\\w.,])([1-9][0-9]{0,2})(?:['\u2019\u00a0\u202f\u2009][0-9]{3})+(?![0-9])")
"""Thousands set apart by what stands between two numbers of nothing else: an apostrophe, a space of print."""
_MORE_NAMES = {"#": "lb", "gr": "g", "grs": "g", "gm": "g", "gms": "g"}
"""Names of units that are used at the scale only."""
UNITS = WEIGHT_UNIT_OF | {name: WEIGHT_UNIT_OF[known] for name, known in _MORE_NAMES.items()}
UNIT = "|".join(re.escape(name) for name in sorted(UNITS, key=len, reverse=True))
"""A pattern of every unit's name, the longest first."""

_LIKE_POUNDS = frozenset({"ib", "1b", "|b", "ld", "lp", "lv", "bl", "pd", "lds", "ibs", "1bs"})
"""What eyes and fingers make of ``lb``."""

_SURELY_A_UNIT = 0.75
"""How alike a word must be to a unit's name to be one spelt wrong (1 is equal)."""

HEAVY = Weight.of(25, KILOGRAM)
"""More than is weighed at once: of two readings, one above it is the less likely. Our choice."""

_SMALL = (
    *("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"),
    *("thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen", "twenty"),
)
_TENS = {"thirty": 30, "forty": 40, "fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80, "ninety": 90}
VALUES = {word: number for number, word in enumerate(_SMALL, start=1)} | _TENS
VALUES |= {
    f"{ten}{sign}{one}": VALUES[ten] + VALUES[one]
    for ten in ("twenty", *_TENS)
    for one in _SMALL[:9]
    for sign in (" ", "-")
}
_ONES, _TENS_NAMED = "|".join(_SMALL[:9]), "|".join(("twenty", *_TENS))
IN_WORDS = "|".join((rf"(?:{_TENS_NAMED})(?:[ -](?:{_ONES}))?", *sorted(_SMALL[:-1], key=len, reverse=True)))
"""A pattern of numbers in words up to ninety-nine, the longest first; in parts, so that it compiles soon."""

_ANY = rf"(?:[0-9]+|{IN_WORDS}|an?)"
_PARTS = {"half": 2, "third": 3, "quarter": 4, "fourth": 4, "eighth": 8}
_FEW = "|".join(_SMALL[:9])
_PART_IN_WORDS = rf"(?:(?P<of>[1-9]|an?|{_FEW})[\s-]+)?(?P<part>{'|'.join(_PARTS)})s?"
_PART = rf"(?:{_PART_IN_WORDS}|(?P<above>[0-9]{{1,2}})/(?P<below>[1-9][0-9]?)(?:ths?|rds?)?)"
"""A part of a unit: ``half``, ``three-quarters``, ``two thirds``, ``7/8``."""
_THIS_UNIT = rf"(?P<link>[\s-]+(?:of\s+)?(?:an?\s+)?)(?=(?:{UNIT})\b)"
_AND = r"\s*(?:\bn(?=\s+(?:an?\s+)?(?:half|third|quarter)\b)|\band\b|&)\s*"
_PART_OF_UNIT = re.compile(rf"(?<![\w./-]){_PART}{_THIS_UNIT}", re.IGNORECASE)
_UNIT_AND_PART = re.compile(
    rf"\b(?P<whole>{_ANY})\s*(?P<unit>{UNIT})\.?{_AND}{_PART_IN_WORDS}\b"
    rf"(?![\s-]+(?:(?:an?\s+)?(?:{UNIT})|of\s+(?:it|that|this|them|these|those|the))\b)",
    re.IGNORECASE,
)
_AND_PART_UNIT = re.compile(rf"(?<![\w.,/-])(?P<whole>{_ANY}){_AND}{_PART}{_THIS_UNIT}", re.IGNORECASE)
_OF_UNIT = re.compile(rf"\b({IN_WORDS}|an?)\s+(?=(?:{UNIT})\b)", re.IGNORECASE)
_POUND_AND = re.compile(rf"([0-9]\s*(?:pounds?|lbs?\.?))\s+({IN_WORDS})\b", re.IGNORECASE)
_DECIMALS_OF_UNIT = re.compile(
    rf"(?<![\w.,/:-])([0-9]*[.,][0-9]+)\s+of\s+an?\s+(?=(?:{UNIT})(?![^\W\d_]))", re.IGNORECASE
)
_GLUED_TIMES = re.compile(
    rf"(?<![\w.,/:-])([0-9]{{1,5}})x(?={NUMBER}\s*(?:{UNIT})(?![^\W\d_]))", re.IGNORECASE
)
CONTAINERS = (
    r"(?:bunch(?:es)?|bags?|baskets?|buckets?|bowls?|boxe?s?|crates?|punnets?|pecks?|trays?|sacks?|flats?|jars?"
    r"|quarts?|pints?|gallons?|lit(?:er|re)s?)"
)
"""What pieces are put into, or bound to; how much one holds differs from crop to crop."""
_EACH_HOLDS = re.compile(
    rf"(?<![\w.,/:#-])(?:(?P<many>{_ANY})\s+)?(?P<in>{CONTAINERS})(?:\s+of\s+(?P<of>[0-9]{{1,4}})|,?\s+"
    rf"(?:of\s+)?(?P<each>[0-9]{{1,4}})\s+(?:each|apiece|ea\b\.?))(?![\w/]|[.,:-][0-9]|\s+[0-9]{{1,2}}/)"
    rf"(?!\s*(?:{UNIT})(?![^\W\d_]))",
    re.IGNORECASE,
)
"""How many pieces are in each of some: ``2 bunches of 5``, ``3 bags, 10 each``."""
_NUMBERED = re.compile(r"\b(?:count|rows?|beds?|squares?|[a-z])\s+$", re.IGNORECASE)
"""What before a number says that it is none of thousands."""
_HALF_DOZEN = re.compile(r"\b(?:a\s+)?half\s+(?:a\s+)?dozen\b", re.IGNORECASE)
_DOZEN = re.compile(rf"\b({_ANY})\s+dozen\b|\bdozen\b", re.IGNORECASE)
_OF_THEM = re.compile(rf"\b({IN_WORDS})\s+of\s+(?=them\b|the\b|these\b|those\b)", re.IGNORECASE)


def without_sure_groups(text: str) -> str:
    """Return a text without the apostrophes, thin and no-break spaces that set thousands apart."""
    return _SURE_GROUPS.sub(lambda found: re.sub("[^0-9]", "", found.group()), text)


def figure(word: str) -> int:
    """Return a number that is told in figures or in words, or as ``a``."""
    plain = " ".join(word.casefold().split())
    if plain in ("a", "an"):
        return 1
    return VALUES[plain] if plain in VALUES else int(plain)


def _part(match: re.Match[str]) -> str:
    """Return the part of a unit that was told, as a fraction."""
    if match.groupdict().get("below"):
        return f"{match['above']}/{match['below']}"
    return f"{figure(match['of'] or 'a')}/{_PARTS[match['part'].casefold()]}"


def _part_of_unit(match: re.Match[str]) -> str:
    # "7/8 a pound" may be a day and a weight; "7/8 of a pound" is none.
    of = re.search(r"\bof\b", match["link"], re.IGNORECASE)
    return match.group() if match["below"] and not of else f"{_part(match)} "


def _all_they_hold(match: re.Match[str]) -> str:
    """Return the pieces in all of some, as their count, and what they were in: ``count 10 (2 bunches)``."""
    count = figure(match["many"] or "a") * int(match["of"] or match["each"])
    held = " ".join(part for part in (match["many"], match["in"]) if part)
    return f"count {count} ({held})" if count else match.group()


def in_figures(text: str) -> str:
    """Return a line with the numbers that are told in words as figures, where they measure or count.

    ``a pound and a half`` becomes ``1 1/2 pound``, ``two dozen`` ``count 24``,
    ``2 bunches of 5`` ``count 10 (2 bunches)``.
    """
    text = _GLUED_TIMES.sub(r"\1x ", text)
    text = _DECIMALS_OF_UNIT.sub(r"\1 ", text)
    text = _EACH_HOLDS.sub(_all_they_hold, text)
    text = _HALF_DOZEN.sub("count 6", text)
    text = _DOZEN.sub(lambda one: f"count {12 * figure(one.group(1) or 'a')}", text)
    text = _UNIT_AND_PART.sub(lambda one: f"{figure(one['whole'])} {_part(one)} {one['unit']}", text)
    text = _AND_PART_UNIT.sub(lambda one: f"{figure(one['whole'])} {_part(one)} ", text)
    text = _PART_OF_UNIT.sub(_part_of_unit, text)
    text = _OF_UNIT.sub(lambda one: f"{figure(one.group(1))} ", text)
    text = _POUND_AND.sub(lambda one: f"{one.group(1)} {figure(one.group(2))}", text)
    return _OF_THEM.sub(lambda one: f"count {figure(one.group(1))} of ", text)


def unit_meant(word: str) -> Unit | None:
    """Return the unit that a word is, or likely one spelt wrong; few slips change the first letter."""
    name = word.casefold()
    if name in _LIKE_POUNDS:
        return POUND
    near = nearest(name, (known for known in UNITS if known[0] == name[:1]), _SURELY_A_UNIT)
    return UNITS[near] if near else None


def amount(text: str, unit: Unit, decimal: str, answers: Answers) -> Fraction:
    """Return the number of a unit that a text names. Raises Misread; LineQuestion where it can be two."""
    if "/" in text:
        total = Fraction(0)
        for part in text.split():
            above, _slash, below = part.partition("/")
            if below and not int(below):
                raise Misread("weight", f"{quoted(text)} is not a number")
            if below and int(above) > int(below):
                raise Misread("weight", f"{quoted(text)} is more than one", "such as 4 1/2")
            total += Fraction(int(above), int(below or 1))
        return total
    text = text.replace(" ", "")  # between thousands
    signs = [sign for sign in text if sign in ".,"]
    if not signs:
        return Fraction(int(text))
    if len(signs) > 1:
        return _long(text, signs)
    head, tail = re.split("[.,]", text)
    point = Fraction(f"{head or 0}.{tail}")
    if len(tail) != 3 or not head.strip("0"):
        return point
    thousands = Fraction(int(head + tail))
    own = COMMA if signs[0] == "," else POINT
    if decimal:
        return point if decimal == own else thousands
    if own == POINT and unit.symbol in ("lb", "oz"):
        return point
    choices = (
        Choice(f"{plain(thousands)} {unit.symbol}", POINT if own == COMMA else COMMA),
        Choice(f"{plain(point)} {unit.symbol}", own),
    )
    likely = choices if thousands * unit.size <= HEAVY.nanograms else choices[::-1]
    question = LineQuestion(DECIMAL, f"{quoted(f'{text} {unit.symbol}')} can be read two ways", likely)
    return point if answered(answers, question) == own else thousands


def is_one_number(text: str, match: re.Match[str], answers: Answers) -> bool:
    """Return whether spaces in a number set thousands apart, and no count from a weight. Raises LineQuestion.

    No weight begins with a nought: ``1 012 g`` is one. Of more than is weighed at once, only the last is.
    """
    number, unit = match["number1"], UNITS[match["unit1"].casefold()]
    if " 0" in number:
        return True
    count, _space, rest = number.partition(" ")
    whole = amount(number, unit, "point", {})
    if _NUMBERED.search(text[: match.start("number1")]) or whole * unit.size > HEAVY.nanograms:
        return False
    question = LineQuestion(
        THOUSANDS,
        f"{quoted(text[match.start('number1') : match.end('unit1')])} may be read two ways",
        (
            Choice(f"{plain(whole)} {unit.symbol}", "one"),
            Choice(f"{count} counted, {rest} {unit.symbol}", "two"),
        ),
        key=f"{THOUSANDS} {text[match.start('number1') : match.end('unit1')]}",
    )
    return answered(answers, question) == "one"


def _long(text: str, signs: list[str]) -> Fraction:
    """Return a number with several signs: the last alone can stand before decimals."""
    parts = re.split("[.,]", text)
    last_alone = signs.count(signs[-1]) == 1
    grouped = parts[1:-1] if last_alone else parts[1:]
    if any(len(part) != 3 for part in grouped) or (len(set(signs[:-1])) > 1):
        raise Misread("weight", f"{quoted(text)} is not a number", "a number such as 1250 or 1.25")
    whole = "".join(parts[:-1] if last_alone else parts)
    return Fraction(f"{whole}.{parts[-1]}") if last_alone else Fraction(int(whole))


def plain(value: Fraction) -> str:
    """Return an exact number as files of the garden read it: ``1.5``; ``1 1/3`` where decimals never end."""
    if value.denominator == 1:
        return str(value.numerator)
    rest = value.denominator
    for prime in (2, 5):
        while rest % prime == 0:
            rest //= prime
    if rest == 1:
        places = next(number for number in range(1, 30) if (value * 10**number).denominator == 1)
        digits = f"{(value * 10**places).numerator:0{places + 1}d}"
        return f"{digits[:-places]}.{digits[-places:]}"
    whole, part = divmod(value.numerator, value.denominator)
    return f"{whole} {part}/{value.denominator}" if whole else f"{part}/{value.denominator}"
