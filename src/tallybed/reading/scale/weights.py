"""The weights in a line: ``2 lbs. 3 oz.``, ``1#4``, ``about 1,5 kg``, ``6 at 4 oz each``, a handful."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from tallybed.garden.units import GRAM, KILOGRAM, OUNCE, POUND, Unit, Weight
from tallybed.reading.base.problems import Misread, quoted
from tallybed.reading.scale import torn
from tallybed.reading.scale.claims import Kind, Line
from tallybed.reading.scale.numbers import (
    GROUPED,
    NUMBER,
    UNIT,
    UNITS,
    amount,
    is_one_number,
    plain,
)
from tallybed.reading.scale.questions import (
    LESSER_OR_COUNT,
    WEIGHT,
    Answers,
    Choice,
    LineQuestion,
    answered,
)
from tallybed.reading.text import measures

PIECES = r"heads?|pcs?|pieces?|cobs?|ears?|bulbs?|roots?|fruits?|stalks?|stems?|pods?|tubers?|spears?|ct"
"""Words for pieces that are counted."""
_ABOUT = (
    r"(?:about|abt\.?|around|roughly|approx(?:imately)?\.?|ca\.?|c\.|circa|nearly|almost|maybe|perhaps|prob(?:ably)?\.?|close\s+to"
    r"|est(?:imated|\.)?|guess(?:ed)?|(?:just|a\s+(?:bit|little|touch))\s+(?:under|over)|under|over"
    r"|at\s+(?:least|most)|up\s+to|more\s+than|[<>≤≥]=?|~)"
)
_MORE_OR_LESS = re.compile(
    r"\s*(?:\(\s*)?(?:\?|-?ish\b|or\s+so\b|or\s+thereabouts\b|give\s+or\s+take\b|more\s+or\s+less\b"
    r"|(?:and|n|&|plus|\+)\s+a?\s*(?:bit|little)\b(?!\s+of)|(?:plus|\+)(?=\s*(?:$|[,;]))"
    r"|(?:est(?:imated|\.)?|guess(?:ed)?|approx(?:imately|\.)?|roughly)(?![\w-]))(?:\s*\))?",
    re.IGNORECASE,
)
"""What people put behind a weight that they are not sure of: ``6 oz?``, ``2 lb or so``."""


def _one(place: int, number: str = NUMBER) -> str:
    """Return the pattern of a number with its unit; ``g3`` is a square."""
    return rf"(?P<number{place}>{number})(?:\s*|-)(?P<unit{place}>{UNIT})(?![^\W\d_])(?!(?<=[gG])[0-9])\.?"


_WEIGHT = re.compile(
    rf"(?<![\w.,/:])(?:(?P<about>{_ABOUT})\s*)?{_one(1, f'{GROUPED}|{NUMBER}')}"
    rf"(?:(?P<joint>\s*(?:,|\band\b|&)?\s*){_one(2)})?",
    re.IGNORECASE,
)
_EITHER = re.compile(
    rf"(?<![\w.,/:])({NUMBER})(?:\s+(?:or|to|and)\s+|\s?[-–]\s?(?<=[0-9][-–]))({NUMBER})\s*({UNIT})(?![^\W\d_])\.?",
    re.IGNORECASE,
)
_BARE = re.compile(
    rf"(?P<and>\s*(?:\band\b|&))?\s*(?P<number>[0-9]{{1,3}}(?:\.[0-9]{{1,2}}|\s+[0-9]/[0-9])?)(?![\w/:]|[.,][0-9])"
    rf"(?!\s*(?:{UNIT})(?![^\W\d_]))(?!\s*(?:{PIECES}|dozen|bunch(?:es)?|x|×|@|at|[ap]\.?m)\b|\s*[×@#]|\s+of\b)",
    re.IGNORECASE,
)
_LESSER = {POUND: (OUNCE, "ounces"), KILOGRAM: (GRAM, "grams")}
"""The unit that a bare number behind another unit may be of."""
_GRAMS = 100
"""The least bare number behind kilograms that may be grams: “1 kg 300” is said so, “1 kg 30” is not."""
_UNWEIGHED = re.compile(
    r"\b(?:not\s+weighed|unweighed|(?:did\s*n[o']?t|did\s+not|could\s*n[o']?t|forgot\s+to|never)\s+weigh(?:ed)?"
    r"(?:\s+(?:it|them|these|those))?|(?:nobody|no\s+one|noone)\s+weighed(?:\s+(?:it|them|these|those))?"
    r"|no\s+weight)\b",
    re.IGNORECASE,
)
_HANDFUL = re.compile(
    r"\b(?:a\s+)?(?:(?:small|big|large|good|few)\s+)*(?:handfuls?|pinch|sprigs?)\b", re.IGNORECASE
)
_EACH = re.compile(
    rf"[\s,]*\b(?:each|apiece|a\s+(?:piece|head)|ea\b\.?|per\s+(?:{PIECES}|one)|on\s+average)\b",
    re.IGNORECASE,
)
_EACH_BEFORE = re.compile(
    r"\b(?:each|averag(?:e|es|ing)|avg\.?|ea\b\.?)(?:\s+(?:of|at|is|was|weighs|weighing|weight))*:?\s*$",
    re.IGNORECASE,
)
_IN_ALL = re.compile(r"[\s,]*\b(?:(?:in\s+)?totals?|in\s+all|altogether)\b", re.IGNORECASE)
_TIMES = re.compile(
    r"(?<![\w.,/:-])([0-9]{1,5})\s+(?:[x×]\s*|@\s*)$|(?<![\w.,/:-])([0-9]{1,5})\s*[×@]\s*$", re.IGNORECASE
)
_TIMES_CLOSE = re.compile(
    r"(?<![\w.,/:-])([0-9]{1,5})(?:x\s*|\s*\*\s*|\s+times\s+|\s+of\s+|\s+at\s+)$", re.IGNORECASE
)
_OF_OR_AT = re.compile(r"\s+(?:of|at)\s+$", re.IGNORECASE)
_TIMES_BEHIND = re.compile(
    r"\s*\(?\s*(?:[x×*@]\s*(?P<number>[0-9]{1,5})|(?P<before>[0-9]{1,5})\s*[x×])(?![\w/]|[.,:][0-9])"
    rf"(?!\s*(?:(?:{UNIT})(?![^\W\d_])|[€£%]))(?:\s*\))?",
    re.IGNORECASE,
)
_COUNT_BEFORE = re.compile(r"(?<![\w.,/:-])([0-9]{1,5})\s+$")


@dataclass(frozen=True, slots=True)
class Told:
    """A weight of a line: how much, and in words that read back as exactly that."""

    weight: Weight
    text: str
    estimated: bool = False
    unit: Unit = OUNCE
    bare: LineQuestion | None = None
    """Where a bare number behind it was read as part of it: the question whether it was meant so."""


def find_weights(line: Line, decimal: str, answers: Answers) -> None:
    """Claim the weights of a line, and the words that say that nothing was weighed.

    Raises Misread; LineQuestion where a weight may be two.
    """
    for match in line.free(_UNWEIGHED):
        line.claim(Kind.UNWEIGHED, match.start(), match.end(), "")
    for match in line.free(_HANDFUL):
        line.claim(Kind.UNWEIGHED, match.start(), match.end(), match.group())
    torn.refuse_torn_figures(line)
    torn.refuse_other_units(line, weighed=next(line.free(_WEIGHT), None) is not None)
    _either(line, decimal, answers)
    # A second measure that is no part of the first is a weight of its own: search again behind the first.
    at = 0
    while (found := _WEIGHT.search(line.text, at)) is not None:
        if not line.is_free(found.start(), found.end()):
            at = found.start() + 1
            continue
        if (
            " " in found["number1"]
            and "/" not in found["number1"]
            and not is_one_number(line.text, found, answers)
        ):
            at = found.start("number1") + found["number1"].rindex(" ") + 1
            continue
        at = _claim(line, found, decimal, answers)


def _either(line: Line, decimal: str, answers: Answers) -> None:
    for match in line.free(_EITHER):
        unit = UNITS[match.group(3).casefold()]
        both = [amount(match.group(number), unit, decimal, answers) for number in (1, 2)]
        if "/" in match.group(2) and " " not in match.group(2) and both[0].denominator == 1:
            both.insert(0, sum(both, Fraction(0)))  # "1-1/2 lb" is how some write one and a half
        texts = [f"{plain(value)} {unit.symbol}" for value in both]
        question = LineQuestion(
            WEIGHT,
            f"{quoted(match.group())} is not one weight",
            tuple(Choice(text, text) for text in texts),
            key=f"{WEIGHT} {match.group()}",
        )
        value = answered(answers, question)
        told = Told(measures.weight(value), value, unit=unit)
        line.claim(Kind.WEIGHT, match.start(), match.end(), told)


def _claim(line: Line, match: re.Match[str], decimal: str, answers: Answers) -> int:
    """Claim one weight, and return where it ends."""
    unit = UNITS[match.group("unit1").casefold()]
    parts, end, bare = _parts(line, match, decimal, answers)
    weight = Weight(sum((number * of.size for number, of in parts), Fraction(0)))
    if not weight:
        raise Misread("weight", f"the weight {quoted(match.group())} is zero", "a weight above zero")
    torn.refuse_torn(line, match, end, counted=_counted_behind(line, end) is not None)
    unsure = _MORE_OR_LESS.match(line.text, end)
    about = match.group("about") is not None or unsure is not None
    text = _words(line.text[match.start() : end], parts, weight, about=about)
    told = Told(weight, text, about, unit, bare)
    end = unsure.end() if unsure else end
    line.claim(Kind.WEIGHT, match.start(), end, told)
    return _each(line, match.start(), end, told, answers)


def _parts(
    line: Line, match: re.Match[str], decimal: str, answers: Answers
) -> tuple[list[tuple[Fraction, Unit]], int, LineQuestion | None]:
    """Return the figures of one weight with their units, where it ends, and the question left open."""
    unit = UNITS[match.group("unit1").casefold()]
    number = amount(match.group("number1"), unit, decimal, answers)
    end = match.end("unit1") + (line.text[match.end("unit1") :][:1] == ".")
    if not match.group("unit2"):
        if unit in _LESSER and number.denominator == 1:
            return _lesser(line, match, number, end, answers)
        return [(number, unit)], end, None
    second = UNITS[match.group("unit2").casefold()]
    more = amount(match.group("number2"), second, decimal, answers)
    # Pounds and grams, or kilograms and pounds, are one weight told twice.
    fits = (
        second.size < unit.size
        and (unit.size / second.size).denominator == 1
        and number.denominator == 1
        and more * second.size < unit.size
    )
    if fits and not ("," in match.group("joint") and re.search(r"\brest\b", line.text, re.IGNORECASE)):
        return [(number, unit), (more, second)], match.end(), None
    if second.size < unit.size and not match.group("joint").strip():
        # Let the one reader of weights say why the two do not add up.
        try:
            measures.weighing(f"{plain(number)} {unit.symbol} {plain(more)} {second.symbol}")
        except Misread as misread:
            misread.typed = match.group().strip()
            raise
    return [(number, unit)], end, None


def _each(line: Line, start: int, end: int, told: Told, answers: Answers) -> int:
    """Claim what says that a weight is that of each piece, and return where its words end."""
    each = _EACH.match(line.text, end)
    before = _EACH_BEFORE.search(line.text[:start])
    before = before if before and line.is_free(*before.span()) else None
    if (before or each) and (whole := _IN_ALL.match(line.text, each.end() if each else end)):
        typed = line.text[before.start() if before else start : whole.end()].strip()
        found = f"{quoted(typed)} is of each and of all at once"
        raise Misread("weight", found, "“each” or “in all”", typed=typed)
    if before and not each:
        line.claim(Kind.EACH, *before.span())
        return end
    if each:
        line.claim(Kind.EACH, each.start(), each.end())
        if at := re.search(r"\bat\s+$", line.text[:start], re.IGNORECASE):
            line.claim(Kind.EACH, *at.span())
        end = each.end()
    _times(line, start, end, told, answers, each=each is not None)
    return end


def _counted_behind(line: Line, end: int) -> re.Match[str] | None:
    """Return the number that a sign ties to the weight before it: ``5 oz x2``; none of the next picking."""
    behind = _TIMES_BEHIND.match(line.text, end)
    return None if behind and line.starting(behind.end(), Kind.NAME) else behind


def _lesser(
    line: Line, match: re.Match[str], greater: Fraction, end: int, answers: Answers
) -> tuple[list[tuple[Fraction, Unit]], int, LineQuestion | None]:
    """Read a bare number under 16 straight after pounds as ounces; before a crop's name, ask.

    One of three figures after kilograms may be grams, and is always asked about. Returns what ``_parts``
    does; the question is that which a word behind an unasked number raises in the end.
    """
    unit = UNITS[match.group("unit1").casefold()]
    alone = [(greater, unit)], end, None
    bare = _BARE.match(line.text, end)
    if bare is None or not line.is_free(*bare.span("number")):
        return alone
    named = line.starting(bare.end(), Kind.NAME) is not None
    if bare["and"] and named:
        return alone  # the count of the next picking
    lesser, words = _LESSER[unit]
    number = amount(bare.group("number"), lesser, "point", answers)
    whole = number.denominator == 1
    if number * lesser.size >= unit.size or (lesser is GRAM and not (whole and number >= _GRAMS)):
        return alone
    told = f"{plain(greater)} {unit.symbol}"
    question = LineQuestion(
        LESSER_OR_COUNT,
        f"the {plain(number)} after {quoted(match.group().strip())} may be {words} or a count",
        (
            Choice(f"{told} {plain(number)} {lesser.symbol}", "lesser"),
            Choice(f"{told}, {plain(number)} counted", "count"),
            Choice(f"{told}, and {plain(number)} is of a remark", "remark"),
        ),
        key=f"{LESSER_OR_COUNT} {line.text[match.start() : bare.end()]}",
    )
    ask = whole and (lesser is GRAM or bare["and"] or named)
    answer = answered(answers, question) if ask else answers.get(question.kept_as)
    if answer == "count":
        line.claim(Kind.COUNT, *bare.span("number"), int(number))
        return alone
    if answer == "remark":
        line.claim(Kind.NOTE, *bare.span("number"), bare["number"])
        return alone
    more = [(number, lesser)] if number else []
    return [(greater, unit), *more], bare.end("number"), question if whole else None


def _times(line: Line, start: int, end: int, told: Told, answers: Answers, *, each: bool) -> None:
    """Claim the number beside a weight that is that of one piece: ``3 x 200 g``, ``5 oz x2``."""
    before = _TIMES.search(line.text[:start])
    if before is not None:
        line.claim(Kind.COUNT, before.start(), start, int(before.group(1) or before.group(2)))
        if not each:
            line.claim(Kind.EACH, start, start)
        return
    close = _TIMES_CLOSE.search(line.text[:start]) or _counted_before_name(line, start)
    close = close or _counted_behind(line, end)
    place = close.lastindex or 1 if close else 1
    if close is None or each or not line.is_free(*close.span(place)):
        return
    number = int(close.group(place))
    if close.start() >= end and (behind := _EACH.match(line.text, close.end())):
        line.claim(Kind.COUNT, *close.span(), number)
        line.claim(Kind.EACH, *behind.span())
        return
    typed = line.text[min(close.start(), start) : max(close.end(), end)].strip()
    question = LineQuestion(
        WEIGHT,
        f"{quoted(typed)} may be read two ways",
        (
            Choice(f"{number} counted, {told.text} in all", "all"),
            Choice(f"{number} of {told.text} each", "each"),
        ),
        key=f"times {typed}",
    )
    if answered(answers, question) == "each":
        line.claim(Kind.EACH, start, start)
    line.claim(Kind.COUNT, close.start(), close.end(), number)


def _counted_before_name(line: Line, start: int) -> re.Match[str] | None:
    """Return the number before a crop's name that ``of`` or ``at`` ties to a weight: ``5 beets of 600 g``."""
    tie = _OF_OR_AT.search(line.text[:start])
    if tie is None:
        return None
    name = next((one for one in line.of(Kind.NAME, Kind.TAG) if one.end == tie.start()), None)
    return _COUNT_BEFORE.search(line.text[: name.start]) if name else None


def _words(typed: str, parts: Sequence[tuple[Fraction, Unit]], weight: Weight, *, about: bool) -> str:
    """Return a weight as it was typed where the ledger reads that as the same, else in full."""
    try:
        read = measures.weighing(typed)
        if read.weight == weight and read.estimated == about:
            return typed
    except Misread:
        pass
    return ("about " if about else "") + " ".join(f"{plain(number)} {unit.symbol}" for number, unit in parts)


def times(told: Told, count: int) -> Told:
    """Return the weight of several pieces of one weight."""
    weight = Weight(told.weight.nanograms * count)
    return shown(weight, told.unit, estimated=told.estimated)


def shown(weight: Weight, unit: Unit, *, estimated: bool = False) -> Told:
    """Return a weight in words, exactly, in a unit; what is no whole number of pounds with its ounces."""
    pounds, rest = divmod(weight.nanograms, POUND.size)
    text = f"{plain(weight.within(unit))} {unit.symbol}"
    if unit in (OUNCE, POUND) and rest and (pounds or unit is POUND):
        text = f"{f'{pounds} lb ' if pounds else ''}{plain(Fraction(rest) / OUNCE.size)} oz"
    return Told(weight, ("about " if estimated else "") + text, estimated, unit)
