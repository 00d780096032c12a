"""Squares in a line as people write them: ``A1-A4``, ``A1 to A4``, ``c2``, ``C 2``, ``A1/A2``, ``row 3``."""

from __future__ import annotations

import re

from tallybed.garden.naming import folded, nearest
from tallybed.garden.squares import Square
from tallybed.reading.base.problems import Misread, listed, quoted
from tallybed.reading.scale.claims import Claim, Kind, Line
from tallybed.reading.scale.destinations import EVERYDAY
from tallybed.reading.scale.leftovers import LITTLE, strange_words
from tallybed.reading.scale.numbers import UNIT
from tallybed.reading.scale.questions import PLACE, Answers, Choice, LineQuestion, answered
from tallybed.reading.scale.vocabulary import Vocabulary
from tallybed.reading.text.squares import no_such_bed

_ONE = r"(?:[A-Za-z]{1,3}[0-9]{1,4}|[A-Zb-z]\s[0-9]{1,2})"
_BLOCK = rf"{_ONE}(?:\s*(?:[-–—:]|\.\.|\b(?:to|thru|through)\b)\s*{_ONE}(?!\w))?"
_SQUARES = re.compile(
    rf"(?<![\w:#])(?<![^0-9]/)(?:(?P<bed>[^\W\d_]+[\w-]*(?<![0-9]))\s*/\s*)?(?P<block>{_BLOCK})(?!\w|:\w|[.,][0-9])"
)
_ROW = re.compile(r"\b(?:the\s+)?rows?\s+([0-9]{1,2})(?![\w/:]|[.,][0-9])", re.IGNORECASE)
_LEAD = re.compile(r"\b(?:in\s+|from\s+)?(?:the\s+)?(?:squares?|sqs?\.?)\s*$", re.IGNORECASE)


def find_places(line: Line, vocabulary: Vocabulary) -> None:
    """Claim squares, rows of squares and beds. Raises Misread for a bed that is not there in the season."""
    known = vocabulary.context.beds
    every = {**known.by_name, **known.elsewhen}
    for match in line.free(_SQUARES):
        block = re.sub(r"\s+", "", match.group("block"))
        # "x3" is a count and "lb3" a weight, where no square is called so.
        if re.fullmatch(rf"(?:x|{UNIT})[0-9]+", block, re.IGNORECASE) and not vocabulary.is_somewhere(block):
            continue
        ends = re.split(r"[-–—:]|\.\.|(?<=[0-9])(?:to|thru|through)(?=[A-Za-z])", block, flags=re.IGNORECASE)
        if re.match(r"[b-z]\s", match.group("block")) and not vocabulary.is_somewhere(":".join(ends)):
            continue  # "c 2" is a square; a small letter before a number that is none is a word
        bed, start = match.group("bed"), match.start()
        if bed and bed.casefold() not in every and line.starting(start, Kind.NAME):
            bed, start = None, match.start("block")
        lead = _LEAD.search(line.text[:start])
        start = lead.start() if lead and line.is_free(lead.start(), start) else start
        line.claim(Kind.SQUARES, start, match.end(), (bed or "", ":".join(ends)))
    for match in line.free(_ROW):
        line.claim(Kind.ROW, match.start(), match.end(), int(match.group(1)))
    names = sorted(every, key=len, reverse=True)
    if names:
        beds = "|".join(map(re.escape, names))
        # What stands behind "to" is where a picking went, also where a bed is called the same.
        pattern = re.compile(
            rf"(?<!\bto )(?<!\bto the )(?<!\bto our )(?<!> )(?<!→ )"
            rf"\b(?:(?:of|in|from)\s+)?(?:the\s+)?(?P<bed>{beds})\b(?:\s+bed\b)?(?:\s*/)?",
            re.IGNORECASE,
        )
        for match in line.free(pattern):
            named = known.by_name.get(match.group("bed").casefold())
            if named is None and match.group() == match.group("bed") and _is_destination(match, vocabulary):
                continue  # "kitchen", where the bed of that name is gone and pickings go to a kitchen
            if named is None:
                raise no_such_bed(match.group("bed"), known)
            line.claim(Kind.BED, match.start(), match.end(), named.name)


def ask_of_before(line: Line, vocabulary: Vocabulary, answers: Answers) -> None:
    """Raise the question whether ``b4`` beside a word is a square or short for before: ``b4 rain``.

    Where no bed has such a square it is a remark.
    """
    strange = strange_words(line)
    for one in line.of(Kind.SQUARES):
        beside = next((word for word in strange if word.start() >= one.end), None)
        if line.text[one.start : one.end] != "b4" or beside is None:
            continue
        words = line.text[one.end : beside.start()].split()
        if not line.is_free(one.end, beside.start()) or not LITTLE.issuperset(words):
            continue
        typed = line.text[one.start : beside.end()]
        question = LineQuestion(
            PLACE,
            f"{quoted(typed)} may be read two ways",
            (Choice("the square B4", "square"), Choice(f"{quoted(typed)} is a remark", "remark")),
            key=f"{PLACE} {typed}",
        )
        if not vocabulary.is_somewhere("B4") or answered(answers, question) == "remark":
            line.leave_to_note(one)


def _is_destination(match: re.Match[str], vocabulary: Vocabulary) -> bool:
    """Return whether what was found is a place that pickings go to."""
    return folded(match.group()) in {*EVERYDAY, *vocabulary.destinations}


def places_told(line: Line, vocabulary: Vocabulary) -> tuple[tuple[Square, ...], ...]:
    """Return the squares of a line, once for each bed they can be in. Raises Misread."""
    told = line.of(Kind.SQUARES)
    if not told:
        return ()
    bed = bed_told(line)
    parts = []
    for one in told:
        own, block = one.value
        if own and bed and own.casefold() != bed.casefold():
            raise Misread(
                "line", f"the line names the beds {listed((bed, own), 'and')}", "squares of one bed"
            )
        parts.append(f"{own}/{block}" if own else block)
    text = ", ".join(parts)
    if bed and "/" not in parts[0]:
        text = f"{bed}/{text}"
    try:
        return vocabulary.places(text)
    except Misread as misread:
        close = nearest(text, vocabulary.tags) if re.fullmatch(r"[A-Za-z]{2,3}[0-9]+", text) else ""
        if close:
            found = f"{quoted(text)} is neither a tag of the season nor a square"
            raise Misread("line", found, nearest=close) from None
        raise misread from None


def bed_told(line: Line) -> str:
    """Return the bed that a line names. Raises Misread where it names two."""
    beds = sorted({one.value for one in line.of(Kind.BED)})
    if len(beds) > 1:
        raise Misread("line", f"the line names the beds {listed(beds, 'and')}", "squares of one bed")
    return "".join(beds)


def row_told(line: Line) -> int | None:
    """Return the row of squares that a line names. Raises Misread where it names two."""
    rows: list[Claim] = line.of(Kind.ROW)
    if len({one.value for one in rows}) > 1 or (rows and line.of(Kind.SQUARES)):
        raise Misread("line", "the line names a row and other squares", "the squares, such as A3:D3")
    if rows and not rows[0].value:
        raise Misread("line", "there is no row 0", "a row such as row 3")
    return rows[0].value if rows else None
