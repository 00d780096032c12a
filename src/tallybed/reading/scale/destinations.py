"""Where a picking went, in a line: ``pantry``, ``to school fair``, ``1 lb pantry, rest kitchen``."""

from __future__ import annotations

import re
from functools import lru_cache

from tallybed.garden.naming import folded
from tallybed.reading.base.problems import Misread, quoted
from tallybed.reading.scale.claims import WORD, Kind, Line
from tallybed.reading.scale.counts import NUMBERED
from tallybed.reading.scale.numbers import UNIT
from tallybed.reading.scale.questions import PLACE, Answers, Choice, LineQuestion, answered
from tallybed.reading.scale.vocabulary import Vocabulary
from tallybed.reading.text import texts

EVERYDAY = (
    "pantry",
    "food pantry",
    "food bank",
    "soup kitchen",
    "kitchen",
    "volunteers",
    "compost",
    "neighbors",
    "neighbours",
)
"""Destinations that need no ``to``, beside those of the garden's ledgers."""
_PEOPLE = frozenset({"volunteers", "neighbors", "neighbours"})
"""Those of them that a number beside them may count."""
GIVEN_AWAY = "given away"
"""Where a picking went of which nobody says to whom it was given."""
_THEM = r"(?:(?:it|them|that|those|these|all|both|everything)\s+){0,2}"
_GONE = (
    r"(?:\b(?:and\s+)?(?:which\s+)?(?:(?:we|i|they)\s+)?(?:all\s+)?"
    r"(?:went|goes|took|taken|brought|gave|gives?|given|giving|donat(?:ed?|es|ing))\b\s+"
    rf"{_THEM}(?:away\s+)?)"
)
_TO = rf"(?:{_GONE}?(?:\b(?:to|for)\b|→|->):?\s*(?:the\s+|our\s+)?)"
_REST_FOR = r"(?:(?<=\brest )|(?<=\bremainder )|(?<=\brest of it )|(?<=\brest of them ))for\s+"
"""What leads to a place behind the rest alone, ``remainder for the hens``; ``2 lb for soup`` is a remark."""
_OPEN = re.compile(
    rf"(?<!\w)(?:{_GONE}?(?:\bto:?\s+|(?:→|->)\s*)|{_REST_FOR})(?:the\s+|our\s+)?(?!(?:the|our)\b)"
    r"(?=[^\W\d_]|[0-9]{1,4}\s+[^\W\d_])",
    re.IGNORECASE,
)
_QUOTED = re.compile(
    rf'(?<!\w){_GONE}?(?:\bto:?\s+|(?:→|->)\s*)(?:the\s+|our\s+)?"\s*(?P<name>[^"]*[^\W\d_][^"]*?)\s*"',
    re.IGNORECASE,
)
"""A name in quotation marks: whatever stands between them is of it."""
_AWAY = re.compile(
    r"(?<![\w-])(?:and\s+)?(?:which\s+)?(?:(?:we|i|they)\s+)?"
    r"(?:(?:have|has|had|was|were|is|are|been|be|to|for)\s+)*"
    rf"(?:(?:gave|gives?|given|giving)\s+{_THEM}away|give-?aways?"
    rf"|donat(?:ed?|es|ing)(?:\s+(?:it|them|all|everything))*|donations?)(?![\w-])",
    re.IGNORECASE,
)
"""What says that a picking was given, wherever nobody says to whom."""
_SHARE = r"(?:the\s+)?(?P<share>rest|remainder|half|1/2|quarter|third)(?:\s+of\s+(?:it|them))?"
_ENDS = frozenset(
    {
        "as",
        "picked",
        "note",
        "cured",
        "dried",
        "fresh",
        "and",
        "on",
        "from",
        "in",
        "at",
        "by",
        "but",
        "to",
        "for",
    }
)
"""Words that end the name of a destination that nobody wrote before."""
_SHARE_WORDS = frozenset({"rest", "remainder", "half", "quarter", "third"})
_MARK = re.compile(r"[^\w\s'’-]|[0-9]")
"""What no name of a place has in it, or a number: more than a name stands there."""
_MANY = re.compile(r"[0-9]{1,4}\s+")
_NUMBERED = re.compile(NUMBERED, re.IGNORECASE)
_NAME_GOES_ON = re.compile(r'\s*(?:(?P<and>and\b|&)|")\s*"?(?P<next>[^\W\d_]+)', re.IGNORECASE)
"""What a name may go on over, and its next word: ``Ed and Jo``, ``Ed "Big" Smith``."""
LEADS_TO = re.compile(r"(?<!\w)(?:to:?|→|->)(?:\s*\b(?:the|our))?\s*$", re.IGNORECASE)
"""What stands right before the name of a place or a person, at the end of a text."""
_APART = re.compile(
    r"\b(?:gave|gives?|given|giving)\b(?!\s+(?:some|part|most|many|a\s+(?:few|lot|part))\b)"
    r"[^,;:()]*?(?<!\bput )(?<!\bright )(?P<away>\baway)\b",
    re.IGNORECASE,
)
"""What says so with the crop between its words, and does not say that only some of it was given."""
_TO_SOMEWHERE = re.compile(r"\s*(?:\b(?:to|for)\b|→|->)", re.IGNORECASE)
_TITLE = re.compile(r"(?<![^\W_])(?:mrs?|ms|dr|st|rev|prof|fr|sr)$", re.IGNORECASE)
"""What a full stop may follow within a name."""
_ALL = re.compile(
    r"\b(?:both|all|everything|each|all\s+of\s+(?:it|them|this))\s*(?:of\s+(?:it|them)\s*)?(?:went|go|goes|gone)?\s*$",
    re.IGNORECASE,
)
"""What says before a destination that all pickings of a line went there."""
_UNIT_NEXT = re.compile(rf"\s*(?:{UNIT})(?![^\W_])", re.IGNORECASE)


@lru_cache(maxsize=8)
def _known(names: frozenset[str]) -> re.Pattern[str]:
    parts = "|".join(
        r"\s+".join(map(re.escape, name.split())) for name in sorted(names, key=len, reverse=True)
    )
    return re.compile(
        rf"(?<!\bfrom )(?<!\bfrom the )(?<!\bin the )(?P<to>{_TO}(?P<many>[0-9]{{1,4}}\s+)?)?"
        rf"(?<![\w-])(?P<name>{parts})(?![\w-])",
        re.IGNORECASE,
    )


def went(place: str) -> str:
    """Return where a picking went, as words after its weight: ``to pantry``, ``given away``."""
    return place if place == GIVEN_AWAY else f"to {place}"


def find_exact_names(line: Line, vocabulary: Vocabulary) -> None:
    """Claim places whose numbers are of their names: ``to "block 7"``, and ``block 7`` once it is known."""
    for match in line.free(_QUOTED):
        name = texts.line(match.group("name"))
        line.claim(Kind.TO, match.start(), match.end(), vocabulary.destination(name))
    numbered = frozenset(name for name in vocabulary.destinations if any(sign.isdigit() for sign in name))
    for match in line.free(_known(numbered)) if numbered else ():
        if _UNIT_NEXT.match(line.text, match.end()) is None:
            line.claim(Kind.TO, match.start(), match.end(), vocabulary.destination(match.group("name")))


def find_destinations(line: Line, vocabulary: Vocabulary, answers: Answers) -> None:
    """Claim where it went: known names anywhere, others behind ``to``.

    Raises LineQuestion where a number behind a name may be of it.
    """
    for match in line.free(_known(frozenset({*EVERYDAY, *vocabulary.destinations}))):
        if not match.group("to") and _ends_a_name(line, match.start()):
            continue
        name = texts.line(match.group("name"))
        # A longer name behind "to" is one nobody wrote before: "to kitchen of the school".
        line.claim(Kind.TO, match.start(), match.end(), vocabulary.destination(name))
        if not match.group("to") and folded(name) in _PEOPLE:
            _ask_whose_number(line, match.start("name"), name, answers)
        if match.group("many"):  # neighbours are one place to go to, however many there were
            line.claim(Kind.NOTE, *match.span("many"), f"{match.group('many').strip()} {name}")
    for match in line.free(_AWAY):
        if line.text[: match.start()].strip() and not _says_to_whom(line, match.end()):
            line.claim(Kind.TO, match.start(), match.end(), vocabulary.destination(GIVEN_AWAY))
    for match in line.free(_OPEN):
        end = _end_of_name(line, match.end())
        if end > match.end():
            end = _with_its_number(line, match.end(), end, answers)
            name = texts.line(line.text[match.end() : end])
            line.claim(Kind.TO, match.start(), end, vocabulary.destination(name))
    _claim_rest_of_names(line, vocabulary)
    for match in line.free(LEADS_TO):
        raise Misread(
            "line", f"nothing follows {quoted(match.group().strip())}", "a name, as in to food pantry"
        )
    _claim_giving_of_the_line(line, vocabulary)
    _claim_shares(line)
    for one in line.of(Kind.TO):
        every = _ALL.search(line.text[: one.start])
        if every and line.is_free(every.start(), every.end()):
            line.claim(Kind.ALL, every.start(), every.end())


def _ask_whose_number(line: Line, start: int, name: str, answers: Answers) -> None:
    """Raise the question whether a number right before people counts them or the pieces: ``3 neighbours``."""
    number = next((one for one in line.of(Kind.NUMBER) if line.text[one.end : start].isspace()), None)
    if number is None or number.end > start or not line.of(Kind.WEIGHT, Kind.UNWEIGHED):
        return
    typed = f"{number.value} {name}"
    question = LineQuestion(
        PLACE,
        f"{quoted(typed)} may be read two ways",
        (
            Choice(f"to {name}, {number.value} of them", "people"),
            Choice(f"to {name}, and {number.value} counted", "count"),
        ),
        key=f"{PLACE} {typed}",
    )
    if answered(answers, question) == "people":
        line.claims.remove(number)
        line.claim(Kind.NOTE, number.start, number.end, typed)


def _claim_giving_of_the_line(line: Line, vocabulary: Vocabulary) -> None:
    """Claim words before or about what was given, where the line is of one picking and names no place.

    ``gave away 2 lb kale``, ``we gave 2 lb kale away``; in ``donated 2 lb kale to the pantry`` they say no
    more than the place does.
    """
    if line.of(Kind.TO) or len(line.of(Kind.WEIGHT, Kind.UNWEIGHED)) > 1:
        return
    whole, parted = next(line.free(_AWAY), None), _APART.search(line.text)
    if whole is not None:
        line.claim(Kind.TO, whole.start(), whole.end(), vocabulary.destination(GIVEN_AWAY))
    elif parted is not None and line.is_free(*parted.span("away")):
        line.claim(Kind.TO, *parted.span("away"), vocabulary.destination(GIVEN_AWAY))


def _says_to_whom(line: Line, end: int) -> bool:
    """Return whether words that say that a picking was given are followed by a place."""
    return line.starting(end, Kind.TO) is not None or _TO_SOMEWHERE.match(line.text, end) is not None


def _ends_a_name(line: Line, start: int) -> bool:
    """Return whether a known place is but the end of a longer name behind ``to``: "to school kitchen"."""
    opening = max((match.end() for match in line.free(_OPEN) if match.end() < start), default=start)
    between = line.text[opening:start]
    words = WORD.findall(between)
    return (
        bool(words)
        and line.is_free(opening, start)
        and not _MARK.search(between)
        and not {*_ENDS, *_SHARE_WORDS}.intersection(word.casefold() for word in words)
    )


def _end_of_name(line: Line, start: int) -> int:
    """Return where a name ends: before a date, a square, a weight, a crop, a mark or one of a few words."""
    number = _MANY.match(line.text, start)
    first = number.end() if number and line.is_free(*number.span()) else start
    end = first
    for word in WORD.finditer(line.text, first):
        free = line.is_free(word.start(), word.end())
        gap = line.text[end : word.start()].strip()
        if gap == "." and _TITLE.search(line.text[start:end]):
            gap = ""
        if _goes_on(line, start, end, word):
            gap = ""
        elif word.group().casefold() in _ENDS:
            break
        if gap or not free or word.group()[0].isdigit():
            break
        numbered = _NUMBERED.match(line.text, word.start())
        end = numbered.end() if numbered and line.is_free(*numbered.span()) else word.end()
        if numbered:
            break
    if line.text.count('"', start, end) % 2:
        closed = line.text.startswith('"', end)
        end = end + 1 if closed else line.text.rindex('"', start, end)
    return len(line.text[:end].rstrip()) if end > first else start


def _goes_on(line: Line, start: int, end: int, word: re.Match[str]) -> bool:
    """Return whether a name in capitals goes on over ``and``, ``&`` or quotation marks.

    ``Ed and Jo``, ``Ed "Big" Smith``; not over what parts one picking from the next.
    """
    last = WORD.findall(line.text, start, end)[-1:]
    over = _NAME_GOES_ON.match(line.text, end)
    if not last or over is None or word.start() not in (over.start("and"), over.start("next")):
        return False
    capitals = last[0][0].isupper() and over["next"][0].isupper()
    ends = over["next"].casefold() in _ENDS | _SHARE_WORDS
    return capitals and not ends and line.is_free(*over.span("next"))


def _claim_rest_of_names(line: Line, vocabulary: Vocabulary) -> None:
    """Claim the rest of a name of which quotation marks enclose the beginning alone: ``to "Big" Ed``."""
    for one in line.of(Kind.TO):
        end = _end_of_name(line, one.end) if line.text[one.end - 1] == '"' else one.end
        if end > one.end and line.text[one.end : end].lstrip()[:1].isupper():
            name = texts.line(line.text[line.text.rindex('"', 0, one.end - 1) : end])
            line.claims.remove(one)
            line.claim(Kind.TO, one.start, end, vocabulary.destination(name))


def _with_its_number(line: Line, start: int, end: int, answers: Answers) -> int:
    """Return where a name ends that a number follows, which may be of it or a count: ``to block 7``.

    A line without a weight has the number for its own question. Raises LineQuestion.
    """
    number = line.starting(end, Kind.NUMBER)
    if number is None or not line.of(Kind.WEIGHT, Kind.UNWEIGHED):
        return end
    name, whole = texts.line(line.text[start:end]), texts.line(line.text[start : number.end])
    question = LineQuestion(
        PLACE,
        f"{quoted(f'to {whole}')} may be read two ways",
        (
            Choice(f'to "{whole}"', "name"),
            Choice(f"to {name}, and {number.value} counted", "count"),
        ),
        key=f"{PLACE} {whole}",
    )
    if answered(answers, question) == "count":
        return end
    line.claims.remove(number)
    return number.end


def _claim_shares(line: Line) -> None:
    """Claim ``rest`` and ``half`` where they stand beside a destination."""
    before = re.compile(rf"\b{_SHARE}\s*(?:[:=]|\bto\b)?\s*$", re.IGNORECASE)
    after = re.compile(rf"[\s:=]*\b{_SHARE}\b", re.IGNORECASE)
    alone: list[int] = []
    for one in line.of(Kind.TO):
        match = before.search(line.text[: one.start])
        if match and line.is_free(match.start(), match.end()):
            line.claim(Kind.SHARE, match.start("share"), match.end(), match.group("share").casefold())
        else:
            alone.append(one.end)
    for end in alone:
        match = after.match(line.text, end)
        told = len(line.of(Kind.WEIGHT)[1:]) + len(line.of(Kind.SHARE))
        if match and line.is_free(match.start(), match.end()) and told < len(line.of(Kind.TO)):
            line.claim(Kind.SHARE, match.start("share"), match.end(), match.group("share").casefold())
