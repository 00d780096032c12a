"""Pickings as they are said at the scale: ``tomato 2 lb 3 oz C2:C3``, ``radish 16 9oz to food pantry``.

What a line holds is taken out of it piece by piece, whatever its order: where it went,
the weight, how it was, tag and squares, a count. Every word that is left must be the name
of a crop or variety; nothing of a line is passed over.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import date

from tallybed.garden.days import in_full
from tallybed.garden.ledger import State
from tallybed.garden.naming import CropName, nearest
from tallybed.garden.pickings import Picking
from tallybed.garden.squares import Square
from tallybed.garden.units import WEIGHT_UNITS
from tallybed.reading.base.invisible import UNSEEN, described
from tallybed.reading.base.problems import Misread, listed, quoted
from tallybed.reading.scale.vocabulary import Vocabulary
from tallybed.reading.text import dates, measures, texts

LINE = "a crop or tag, and a weight, such as: tomato 2 lb 3 oz C2:C3"
LONGEST = 300
"""Characters of the longest line anybody says."""
MOST = 100_000
"""The largest count."""
NO_WEIGHT = "no-weight"
"""The code of a line that lacks a weight, for who asks for one in a field of its own."""

_UNIT = "|".join(sorted((name for unit in WEIGHT_UNITS for name in unit.names), key=len, reverse=True))
_NUMBER = r"(?:[0-9]+ [0-9]+/[0-9]+|[0-9]+/[0-9]+|[0-9]*[.,][0-9]+|[0-9]+)"
_ONE = rf"{_NUMBER}\s*(?:{_UNIT})"
_MEASURE = rf"{_ONE}(?:(?![^\W_])\.?|(?={_ONE}(?![^\W_])))"
"""A number and its unit; the next one may follow without a space, as in ``2lb3oz``."""
_WEIGHT = re.compile(
    rf"(?<![\w.,/:-])(?:(?:(?:about|around|roughly|approx\.?|ca\.?)\s+|~\s*)?"
    rf"{_MEASURE}(?:\s*(?:,|\band\b|&)?\s*{_MEASURE})*|not\s+weighed\b)",
    re.IGNORECASE,
)
_BARE = re.compile(rf"(?<!\S){_NUMBER}(?!\S)")
_STATES = {state.value: state for state in State}
_WORD_OF_STATE = re.compile(rf"(?<!\S)({'|'.join(_STATES)})(?!\S)", re.IGNORECASE)
_CLAUSE = re.compile(r"(?<!\S)(to|as|picked|note):?\s+", re.IGNORECASE)
_COUNT = re.compile(r"(?<!\S)(?:count )?([0-9]{1,6})x?,?(?!\S)", re.IGNORECASE)
_BLOCK = r"[A-Za-z]{1,3}[0-9]{1,4}(?:\s?:\s?[A-Za-z]{1,3}[0-9]{1,4})?"
_PLACE = re.compile(
    rf"(?<![\w/:])(?:[\w-]+/\s?)?{_BLOCK}(?:\s?(?:,|\band\b)\s?(?:[\w-]+/)?{_BLOCK})*(?![\w/:])",
    re.IGNORECASE,
)
_SQUARE = r"(?:[\w-]+/)?[A-Za-z]{1,3}[0-9]{1,4}"
_DASHED = re.compile(rf"(?<!\S)({_SQUARE})\s?[-–—]\s?([A-Za-z]{{1,3}}[0-9]{{1,4}})(?![\w/:-])")
_ENDS_IN_SQUARE = re.compile(rf"(?<!\S)({_SQUARE})\s*$")
_SQUARE_FIRST = re.compile(r"[A-Za-z]{1,3}[0-9]{1,4}(?![\w/:-])")
_DAY = re.compile(
    r"(?:[0-9]{4}-[0-9]{2}-[0-9]{2}|[^\W\d_]{3,}\.? [0-9]{1,2}(?:st|nd|rd|th)?(?:,? [0-9]{4})?"
    r"|[0-9]{1,2}(?:st|nd|rd|th)?\.? [^\W\d_]{3,}\.?(?:,? [0-9]{4})?)(?=,?(?:\s|$))",
    re.IGNORECASE,
)
_SEVERAL = re.compile(r"\s*(?:,|&|\band\b)\s*", re.IGNORECASE)
_AND = re.compile(r"\band\b", re.IGNORECASE)
_TAG = re.compile(r"(?<!\S)(tag )?([A-Za-z][A-Za-z0-9]{1,11})(?=,?(?!\S))", re.IGNORECASE)


@dataclass
class _Line:
    """What is left of a line while pieces are taken out of it."""

    rest: str
    clauses: dict[str, str] = field(default_factory=dict)
    """What follows ``to``, ``as``, ``picked`` and ``note``."""

    def cut(self, match: re.Match[str]) -> str:
        """Take a piece out; its neighbours stay apart."""
        self.rest = f"{self.rest[: match.start()]} {self.rest[match.end() :]}"
        return match.group().strip()

    def cut_end(self, clause: str, start: int) -> str:
        """Take the end off a clause."""
        text = self.clauses[clause]
        self.clauses[clause] = text[:start].rstrip(" ,")
        return text[start:].strip()


def picking(text: str, vocabulary: Vocabulary, day: date) -> Picking:
    """Read one line said on a day. Raises Misread."""
    typed = " ".join(text.split())
    if len(typed) > LONGEST:
        raise Misread("line", f"the line {quoted(typed)} is too long", f"{LONGEST} characters at most")
    unseen = UNSEEN.search(typed)
    if unseen is not None:
        raise Misread("unseen-character", described(unseen.group()), remedy="delete it")
    line = _Line(measures.plain(typed))
    _take_clauses(line)
    states = list(_states_at_ends(line))
    weight_text = _weight(line)
    states += list(_states_at_ends(line))
    states += [line.cut(match).casefold() for match in _from_behind(_WORD_OF_STATE, line.rest)]
    if len(states) > 1:
        raise Misread("line", f"the line says {listed(sorted(states), 'and')}", f"one of {listed(_STATES)}")
    tag = _tag(line, vocabulary)
    places = _places(line, vocabulary)
    bed = "" if places else _bed_alone(line, vocabulary)
    count = _count(line)
    crops, variety, answer = _what(line.rest, vocabulary, tag)
    picked = _picked(line, vocabulary, day)
    measured = measures.weighing(weight_text)
    return Picking(
        typed=typed,
        day=picked or day,
        crops=crops,
        answer=answer,
        answers=tuple(vocabulary.answer(crop.typed) for crop in crops) if len(crops) > 1 else (),
        variety=variety,
        tag=tag,
        bed=bed,
        places=places,
        weight=measured.weight,
        weight_text=weight_text,
        estimated=measured.estimated,
        count=count,
        to=vocabulary.destination(texts.line(line.clauses.get("to", ""))),
        form=texts.line(line.clauses.get("as", "")),
        state=_STATES[states[0]] if states else State.FRESH,
        weighed=day if picked and picked != day else None,
        note=texts.line(line.clauses.get("note", "")),
    )


def _from_behind(pattern: re.Pattern[str], text: str) -> Iterator[re.Match[str]]:
    """Yield matches from the last to the first, so that one can be cut before the next is met."""
    yield from reversed(list(pattern.finditer(text)))


def _take_clauses(line: _Line) -> None:
    """Take what follows ``to``, ``as``, ``picked`` and ``note`` out of a line, each up to the next of them.

    A note is all that follows it.
    """
    heads = list(_CLAUSE.finditer(line.rest))
    notes = [number for number, head in enumerate(heads) if head.group(1).casefold() == "note"]
    heads = heads[: notes[0] + 1] if notes else heads
    for head in reversed(heads):
        name = head.group(1).casefold()
        text = line.rest[head.end() :].strip().rstrip(",")
        line.rest = line.rest[: head.start()]
        if name in line.clauses:
            raise Misread("line", f"{quoted(name)} stands twice in the line", "it once")
        if not text:
            raise Misread("line", f"nothing follows {quoted(name)}", LINE)
        day = _DAY.match(text) if name == "picked" else None
        if day is not None:
            line.rest += f" {text[day.end() :].lstrip(',')}"
            text = day.group()
        line.clauses[name] = text


def _states_at_ends(line: _Line) -> Iterator[str]:
    """Take ``cured``, ``dried`` or ``fresh`` off the ends of clauses."""
    for name in ("to", "as"):
        head, _space, last = line.clauses.get(name, "").rpartition(" ")
        if head and last.casefold() in _STATES:
            yield line.cut_end(name, len(head)).casefold()


def _weight(line: _Line) -> str:
    """Take the weight out of the line, else off the end of a clause, with the count before it."""
    found = list(_WEIGHT.finditer(line.rest))
    if len(found) > 1:
        both = listed((quoted(one.group()) for one in found), "and")
        raise Misread("line", f"the line has {len(found)} weights: {both}", "one weight in a line")
    if found:
        return line.cut(found[0])
    for name in ("to", "as"):
        text = line.clauses.get(name, "")
        inside = list(_WEIGHT.finditer(text))
        if len(inside) != 1:
            continue
        behind = text[inside[0].end() :].strip()
        if behind and not _PLACE.fullmatch(behind) and behind.casefold() not in _STATES:
            continue
        line.clauses[name] = f"{text[: inside[0].start()].rstrip()} {behind}".strip()
        head, _space, last = text[: inside[0].start()].rstrip().rpartition(" ")
        if head and _COUNT.fullmatch(last):
            line.clauses[name] = f"{head} {behind}".strip()
            line.rest += f" {last}"
        return inside[0].group().strip()
    bare = _BARE.search(line.rest)
    missing = f": no unit follows {bare.group()}" if bare else ""
    raise Misread(
        NO_WEIGHT, f"the line has no weight{missing}", f"{measures.WEIGHT}, or the words “not weighed”"
    )


def _picked(line: _Line, vocabulary: Vocabulary, day: date) -> date | None:
    """Return the day after ``picked``, or None. Raises Misread where it is after the day of weighing."""
    text = line.clauses.get("picked")
    if text is None:
        return None
    picked = dates.in_season(text, vocabulary.context.span, bounded=vocabulary.context.bounded)
    if picked > day:
        found = f"{quoted(text)} is after the day of weighing"
        raise Misread("line", found, f"a day up to {in_full(day)}")
    return picked


def _tag(line: _Line, vocabulary: Vocabulary) -> str:
    """Take the tag out of the line. Raises Misread where it is the name of a square too."""
    found = []
    for match in _from_behind(_TAG, line.rest):
        given, name = match.group(1), match.group(2).upper()
        if not given and name not in vocabulary.tags:
            continue
        if not given and vocabulary.is_somewhere(name):
            other = f"{vocabulary.context.beds.names[0]}/{name}"
            raise Misread("line", f"{name} is both a tag and a square", f"{quoted(f'tag {name}')} or {other}")
        line.cut(match)
        found.append(name)
    if len(found) > 1:
        raise Misread("line", f"the line names {listed(sorted(found), 'and')}", "one tag in a line")
    return "".join(found)


def _places(line: _Line, vocabulary: Vocabulary) -> tuple[tuple[Square, ...], ...]:
    """Take the squares out of the line; those at the end of a clause are the line's too."""
    _refuse_other_blocks(line, vocabulary)
    given: list[str] = []
    for name in ("to", "as"):
        text = line.clauses.get(name, "")
        for match in _from_behind(_PLACE, text):
            if (
                match.end() == len(text)
                and match.start()
                and vocabulary.is_somewhere(_AND.sub(",", match.group()))
            ):
                given.append(line.cut_end(name, match.start()))
            break
    for match in _from_behind(_PLACE, line.rest):
        before = line.rest[: match.start()].split()
        text = line.cut(match)
        if before and before[-1].casefold() in vocabulary.context.beds.by_name and "/" not in text:
            start = line.rest[: match.start()].rstrip().rfind(before[-1])
            line.rest = f"{line.rest[:start]} {line.rest[match.start() :]}"
            text = f"{before[-1]}/{text}"
        given.append(text)
    if not given:
        return ()
    text = ", ".join(_AND.sub(",", part) for part in reversed(given))
    try:
        return vocabulary.places(text)
    except Misread as misread:
        close = nearest(text, vocabulary.tags) if re.fullmatch(r"[A-Za-z]{2,3}[0-9]+", text) else ""
        if close:
            found = f"{quoted(text)} is neither a tag of the season nor a square"
            raise Misread("line", found, nearest=close) from None
        raise misread from None


def _refuse_other_blocks(line: _Line, vocabulary: Vocabulary) -> None:
    """Refuse ``C1-D3`` and ``C1 to D3``: as two squares, or as a destination, they pass unnoticed."""
    dashed = _DASHED.search(line.rest)
    if dashed is not None and all(map(vocabulary.is_somewhere, dashed.groups())):
        found, ends = dashed.group(), dashed.groups()
    else:
        to = line.clauses.get("to", "")
        before = _ENDS_IN_SQUARE.search(line.rest)
        if before is None or not _SQUARE_FIRST.match(to) or not vocabulary.is_somewhere(to.split()[0]):
            return
        found, ends = f"{before.group(1)} to {to.split()[0]}", (before.group(1), to.split()[0])
    raise Misread(
        "line", f"{quoted(found)} is not a block of squares", "a colon between its corners", ":".join(ends)
    )


def _bed_alone(line: _Line, vocabulary: Vocabulary) -> str:
    """Take a bed's name out of the line, unless it is part of a crop's or a variety's."""
    for match in re.finditer(r"(?<!\S)[\w-]+(?!\S)", line.rest):
        bed = vocabulary.context.beds.by_name.get(match.group().casefold())
        if bed is not None and not _is_name(line.rest, vocabulary):
            line.cut(match)
            return bed.name
    return ""


def _is_name(text: str, vocabulary: Vocabulary) -> bool:
    """Return whether the words name a crop or variety."""
    try:
        vocabulary.what(" ".join(text.split()))
    except Misread:
        return False
    return True


def _count(line: _Line) -> int | None:
    """Take the count out of the line; None where there is none. Raises Misread where there are several."""
    found = list(_COUNT.finditer(line.rest))
    if len(found) > 1:
        numbers = listed((one.group(1) for one in found), "and")
        raise Misread("line", f"the line has the numbers {numbers}", "one count, and a weight with its unit")
    if not found:
        return None
    line.cut(found[0])
    return measures.whole(1, MOST)(found[0].group(1))


def _what(text: str, vocabulary: Vocabulary, tag: str) -> tuple[tuple[CropName, ...], str, str]:
    """Return the crops that the rest of a line names, the variety, and what a general name means."""
    name = " ".join(text.split()).strip(" ,;:")
    if not name:
        if tag:
            return (), "", ""
        raise Misread("line", "the line does not say what was weighed", LINE)
    if "+" in name:
        bowl = tuple(vocabulary.crop(part.strip()) for part in name.split("+"))
        if len({crop.slugs for crop in bowl}) < 2:
            raise Misread(
                "mixed-of-one", f"a mixed bowl of {quoted(bowl[0].typed)} alone", "two crops or more"
            )
        return bowl, "", ""
    several = [part for part in _SEVERAL.split(name) if part]
    if len(several) > 1 and all(map(vocabulary.slugs, several)):
        raise Misread(
            "line",
            f"{quoted(name)} are several crops",
            "a mixed bowl’s crops joined by +, or a line for each",
            nearest=" + ".join(several),
        )
    given = vocabulary.what(name)
    return (given.crop,), given.variety, given.answer
