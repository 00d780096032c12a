"""How many, in a line: ``16``, ``(5)``, ``x2``, ``6 heads``, ``two peppers``; and numbers that are none."""

from __future__ import annotations

import re
from collections.abc import Sequence

from tallybed.reading.base.problems import Misread, listed, quoted
from tallybed.reading.scale.claims import Claim, Kind, Line
from tallybed.reading.scale.numbers import CONTAINERS, IN_WORDS, NUMBER, VALUES
from tallybed.reading.scale.questions import COUNT, Answers, Choice, LineQuestion, answered
from tallybed.reading.scale.weights import PIECES
from tallybed.reading.text import measures

MOST = 100_000
"""The largest count."""
_BUNCHES = re.compile(rf"\b(?:[0-9]{{1,3}}|{IN_WORDS}|an?)\s+{CONTAINERS}\b", re.IGNORECASE)
_COUNT = re.compile(
    rf"(?<![\w.,/:#-])(?:count\s+(?P<told>[0-9]{{1,6}})|[x×]\s?(?P<behind>[0-9]{{1,6}})"
    rf"|(?P<before>[0-9]{{1,6}})\s?[x×](?!\w)|(?P<pieces>[0-9]{{1,6}}|{IN_WORDS})\s+(?:{PIECES}|counted)\b\.?)(?![\w/]|[.,:][0-9])",
    re.IGNORECASE,
)
_OTHER_MEASURE = re.compile(
    rf"(?<![\w.,/:#-])(?:(?:[$£€₹¥]|\bRs\.?)\s?{NUMBER}|{NUMBER}\s?(?:°\s?[CF]?(?!\w)|(?<=[0-9])[CF](?!\w)|[%€£\"]|(?:inch(?:es)?|cm|mm|ft|feet|foot|yards?|met(?:er|re)s?"
    r"|sec(?:ond)?s?|min(?:ute)?s?|hours?|hrs?|days?|nights?|weeks?|wks?|months?|mths?|years?|yrs?|seasons?"
    r"|degrees?|plants?|people|persons?|visitors?|trips?|am|pm|a\.m\.|p\.m\.)(?![\w-]))|\bat\s+[0-9]{1,2}(?![\w.,:/-])|[0-9]{1,2}:[0-9]{2}(?:\s?[ap]\.?m\b\.?)?(?![\w:]))",
    re.IGNORECASE,
)
"""Numbers of something else than pieces: a length, a time, plants, money. They go to the note."""
_NOT_ALL = (
    r"[0-9]{1,4}\s+(?:of\s+us\b|(?:of\s+(?:them|these|those|it)\s+)?(?:had|have|has|were|was|are|is|bad|bolted|chewed"
    r"|cracked|damaged|eaten|mou?ldy|nibbled|rotten|rotted|soft|split|spoil(?:t|ed)|wormy|left|per)\b)"
    r"|[0-9]{1,4}\s+[^\W\d_]+\s+per\b"
)
_DO = (
    r"(?:ate|found|kept|lost|planted|saved|sowed|sown|threw|tossed)(?:\s+(?:out|away))?"
    r"\s+[0-9]{1,4}\b(?![.,/-]?[0-9])"
)
_LOST = re.compile(r"\blost\s+(?:[0-9]{1,4}|some|a\s+few)\s+to\s+(?:the\s+)?[^\W\d_]+", re.IGNORECASE)
"""What took some of them: no place that a picking went to."""
_OTHERS = (
    r"[0-9]{1,4}\s+(?:adults?|children|famil(?:y|ies)|folks?|friends?|guests?|helpers?|households?|kids?|members?|parents?"
    r"|pupils?|residents?|students?|teachers?|meals?|portions?|servings?|aphids?|bees?|beetles?|bugs?|caterpillars?|earwigs?"
    r"|grubs?|slugs?|snails?|worms?|squares?|beds?|rows?)(?![\w-])"
)
NUMBERED = (
    r"(?:class|crew|cut|cutting|day|flat|flush|form|gate|grade|group|house|neighbou?r|pass|room|round|shed|shift|stall|table|team|temp(?:erature)?|troop"
    r"|unit|ward|week|wk|year)\s+(?:no\.?\s*|number\s+)?[0-9]{1,4}[a-z]?(?![\w.,:/-]*[0-9])(?!\w)"
)
"""A room or a class, or a cut, by its number."""
_ORDINAL = r"[0-9]{1,2}(?:st|nd|rd|th)\s+(?:batch|cut|cutting|flush|harvest|pass|pick|picking|round)\b"
_REMARK = re.compile(rf"(?<![\w.,/:#-])(?:{_NOT_ALL}|{_DO}|{_OTHERS}|{NUMBERED}|{_ORDINAL})", re.IGNORECASE)
"""Numbers of some of the pieces, of people, meals or small beasts, or of a room, a class or a cut."""
_DONE = re.compile(_DO, re.IGNORECASE)
"""What was done with some: ``threw out 2``; of a crop that is named behind it, it is the count."""
_AMONG = re.compile(
    r"(?:\b(?:to|for|among|amongst|between|with|by)\b|→|->)\s*(?:(?:the|our|all)\s+)*(?=[0-9]{1,4}\s+[^\W\d_])",
    re.IGNORECASE,
)
"""What stands before a number of those who got a picking, or helped with it: ``to 3 neighbours``."""
_SCALE = re.compile(r"\s*(?:net|gross|tare)\b", re.IGNORECASE)
"""What stands behind a number of the scale that has lost its unit."""
_LEADS_ON = re.compile(r"\s*(?:(?:with|w/|was|were|is|are|that|which|the|a|an)\s*)*", re.IGNORECASE)
"""Little words that may stand between a number and the word that says what it is a number of."""
_YEAR = re.compile("20[0-9]{2}")
_WHERE = re.compile(r"\b(?:tare|gross|on|beds?|plots?|squares?)\s*(?:no\.?\s*|number\s+)?$", re.IGNORECASE)
"""What stands before a number of a place, a day or the scale: no count, and none that anybody knows."""
_NUMBER = re.compile(rf"(?<![\w.,/:#-])(?<!\.)({NUMBER})(?![\w/:%-]|[.,][0-9])")
_IN_WORDS = re.compile(rf"(?<![\w-])({IN_WORDS})(?=\s)", re.IGNORECASE)


def find_counts(line: Line) -> None:
    """Claim the numbers of pieces, measures of room as a note, and every other number as a bare one."""
    for match in line.free(_BUNCHES):
        line.claim(Kind.NOTE, match.start(), match.end(), match.group())
    for match in line.free(_OTHER_MEASURE):
        line.claim(Kind.NOTE, match.start(), match.end(), match.group())
    for match in line.free(_LOST):
        line.claim(Kind.NOTE, match.start(), match.end(), match.group())
    for match in line.free(_COUNT):
        word = next(part for part in match.groups() if part)
        line.claim(Kind.COUNT, match.start(), match.end(), _value(word))
    for match in line.free(_NUMBER):
        handfuls = line.starting(match.end(), Kind.UNWEIGHED)
        if handfuls and handfuls.value:
            line.claim(Kind.NOTE, match.start(), match.end(), match.group(1))
        elif not _is_of_others(line, match.start(), match.end()):
            line.claim(Kind.NUMBER, match.start(), match.end(), match.group(1))
    for match in line.free(_IN_WORDS):
        if line.starting(match.end(), Kind.NAME):
            line.claim(Kind.COUNT, match.start(), match.end(), _value(match.group(1)))


def _is_of_others(line: Line, start: int, end: int) -> bool:
    """Return whether a number is of something else than pieces, by the words beside it."""
    named = line.starting(end, Kind.NAME) is not None
    remarks = any(
        one.start() <= start and end <= one.end() and not (named and _DONE.match(one.group()))
        for one in line.free(_REMARK)
    )
    among = not named and any(one.end() == start for one in _AMONG.finditer(line.text))
    elsewhere = _WHERE.search(line.text[:start]) or _SCALE.match(line.text, end)
    return remarks or among or elsewhere is not None


def leave_to_note(line: Line) -> None:
    """Claim for the note numbers that are no counts, where no destination has them in its name."""
    for match in line.free(_REMARK):
        line.claim(Kind.NOTE, match.start(), match.end(), match.group())
    for match in line.free(_AMONG):
        number = _NUMBER.match(line.text, match.end())
        if number and line.is_free(match.start(), number.end()):
            line.claim(Kind.NOTE, match.start(), number.end(), line.text[match.start() : number.end()])


def ask_of_what_may_count(line: Line, strange: Sequence[re.Match[str]], answers: Answers) -> None:
    """Raise the question whether a number beside a strange word is a count. ``strange``: all such words."""
    _ask_of_bare_numbers(line, strange, answers)
    _ask_of_numbers(line, strange, answers)


def _ask_of_bare_numbers(line: Line, strange: Sequence[re.Match[str]], answers: Answers) -> None:
    """Raise the question whether a bare number is part of a weight where a strange word follows it.

    ``2 lb 12 ripe ones``, ``2 lb 3 with worms``: nothing but that word tells a count from ounces.
    """
    for one in line.of(Kind.WEIGHT):
        behind = next((word for word in strange if word.start() >= one.end), None)
        if one.value.bare and behind and _LEADS_ON.fullmatch(line.text, one.end, behind.start()):
            answered(answers, one.value.bare)


def _ask_of_numbers(line: Line, strange: Sequence[re.Match[str]], answers: Answers) -> None:
    """Raise the question whether a number behind the weight counts the picking, where a word may tie it up.

    ``9 oz, 3 with worms``: nothing but that word tells the pieces from some of them. What is no count is
    left to the note. ``strange``: the words that nobody understood.
    """
    weighed = min((one.end for one in line.of(Kind.WEIGHT)), default=len(line.text))
    for number in line.of(Kind.NUMBER):
        words = _beside(line, number, strange) if weighed <= number.start else ""
        if not words or _YEAR.fullmatch(number.value):
            continue
        question = LineQuestion(
            COUNT,
            f"the {number.value} in {quoted(words)} may count all that was weighed, or be of a remark",
            (Choice(f"{number.value} counted", "count"), Choice(f"{quoted(words)} is a remark", "remark")),
            key=f"{COUNT} {line.text} {number.start}",
        )
        if answered(answers, question) == "remark":
            line.claims.remove(number)
            line.claim(Kind.NOTE, number.start, number.end, number.value)


def _beside(line: Line, number: Claim, strange: Sequence[re.Match[str]]) -> str:
    """Return a number with the strange words beside it that are of no crop behind them, or an empty text."""
    left = line.words_left()
    known = {one.start() for one in strange}
    end, tied = number.end, False
    for word in (one for one in left if one.start() >= number.end):
        if line.text[end : word.start()].strip():
            break
        end, tied = word.end(), tied or word.start() in known
    if tied and not (line.starting(end, Kind.NAME) or line.starting(end, Kind.TAG)):
        return line.text[number.start : end]
    before = [
        one for one in left if one.end() <= number.start and not line.text[one.end() : number.start].strip()
    ]
    if before and before[-1].start() in known and not line.starting(number.end, Kind.NAME):
        return line.text[before[-1].start() : number.end]
    return ""


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
    if numbers and _YEAR.fullmatch(numbers[0]):
        raise Misread(
            "line", f"the number {numbers[0]} may be a year", f"a day in full, or count {numbers[0]}"
        )
    if numbers and numbers[0].startswith("0"):
        raise Misread(
            "line", f"the number {numbers[0]} is not a count", "a count such as 3, or a weight with its unit"
        )
    return measures.whole(1, MOST)(numbers[0]) if numbers else None
