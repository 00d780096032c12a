"""What a line is parted into: pickings, with what is said once for all of them, and the shares of one."""

from __future__ import annotations

import re
from collections.abc import Sequence
from datetime import date
from fractions import Fraction
from itertools import pairwise

from tallybed.garden.days import in_full
from tallybed.garden.records.pickings import Share
from tallybed.garden.units import GRAM, KILOGRAM
from tallybed.reading.base.problems import Misread, listed, quoted
from tallybed.reading.scale.claims import WORD, Claim, Kind, Line
from tallybed.reading.scale.leftovers import turns_meaning, words_not_understood
from tallybed.reading.scale.names import BETWEEN_CROPS, PARTING, groups
from tallybed.reading.scale.questions import DAY, WEIGHT, Answers, Choice, LineQuestion, answered
from tallybed.reading.scale.weights import Told, shown

BOWL, APART, REMARK = "bowl", "apart", "remark"
_WITH = re.compile(r"\s*with\s+", re.IGNORECASE)
TO = "to"
_PARTS = {"half": Fraction(1, 2), "1/2": Fraction(1, 2), "quarter": Fraction(1, 4), "third": Fraction(1, 3)}
REST = "the rest"
_APART = re.compile(r";|\s/\s|\.\s")
"""Marks that part pickings so far that what follows the last is that of the last alone."""


def parted(line: Line, answers: Answers) -> list[Line]:
    """Return the pickings of a line, each as a line of its own. Raises Misread; LineQuestion."""
    names = groups(line)
    if len(names) < 2 or is_bowl(line, names, answers):
        return [line]
    if len(groups(line)) < len(names):
        return parted(line, answers)  # what the answer left to the note names no crop any more
    parts: list[Line] = []
    start = 0
    for before, after in pairwise(names):
        if _one_by_one(line, start, before, after):
            parts.append(line.part(start, after[0].start))
            start = after[0].start
            continue
        mark = _mark(line, start, before[-1].end, after[0].start)
        if mark is None:
            _leave_unparted(line, start, before, after, answers)
            return parted(line, answers)
        parts.append(line.part(start, mark.start()))
        start = mark.end()
    parts.append(line.part(start, len(line.text)))
    for part, group in zip(parts, names, strict=True):
        if not part.of(Kind.WEIGHT, Kind.UNWEIGHED, Kind.NUMBER, Kind.COUNT) and words_not_understood(part):
            question = LineQuestion(
                WEIGHT,
                f"the line {quoted(part.text.strip())} has no weight",
                (Choice("not weighed", "not weighed"), Choice("a remark on the other picking", REMARK)),
                key=f"{WEIGHT} {part.text}",
            )
            if answered(answers, question) == REMARK:
                _leave(line, group)
                return parted(line, answers)
    return parts


def _leave(line: Line, group: list[Claim]) -> None:
    """Leave a crop that a remark names to the note, with what is said of it."""
    for one in group:
        line.leave_to_note(one)


def _leave_unparted(line: Line, low: int, before: list[Claim], after: list[Claim], answers: Answers) -> None:
    """Leave a crop that no mark parts from the one before it to the note, if that is so.

    ``low``: where the picking before it begins. Raises LineQuestion; Misread where either may be weighed.
    """
    first = line.part(low, after[0].start)
    weighed = len(first.of(Kind.WEIGHT)) == len(line.of(Kind.WEIGHT, Kind.UNWEIGHED)) == 1
    between = WORD.findall(line.text, before[-1].end, after[0].start)
    beside = [word for word in line.words_left() if word.start() > before[-1].end]
    if not weighed or not beside or any(map(turns_meaning, between)):
        found = f"{quoted(line.text[low:].strip())} names several crops, and no mark parts them"
        raise Misread("line", found, "a comma or a line’s end between pickings, “+” between crops of a bowl")
    named = line.text[after[0].start : after[-1].end].strip()
    question = LineQuestion(
        WEIGHT,
        f"{quoted(line.text.strip())} names {quoted(named)} without a weight of its own",
        (Choice(f"a remark on {quoted(line.text[before[0].start : before[-1].end].strip())}", REMARK),),
        key=f"{WEIGHT} {named} in {line.text}",
    )
    answered(answers, question)
    _leave(line, after)


def _one_by_one(line: Line, start: int, before: list[Claim], after: list[Claim]) -> bool:
    """Return whether two pickings stand in one order, a name and then its weight: ``PP1 12 oz PP2 9 oz``.

    Then no mark need part them. ``start``: where the first begins; only its day may stand before its name.
    """
    head = line.part(start, before[0].start)
    if head.words_left() or any(one.kind is not Kind.DAY for one in head.claims):
        return False
    first = line.part(before[-1].end, after[0].start)
    weights = first.of(Kind.WEIGHT)
    behind = line.part(after[-1].end, len(line.text)).of(Kind.WEIGHT, Kind.NAME, Kind.TAG)
    return (
        len(weights) == 1
        and not first.text[weights[0].end :].strip()
        and bool(behind)
        and behind[0].kind is Kind.WEIGHT
    )


def _mark(line: Line, start: int, low: int, high: int) -> re.Match[str] | None:
    marks = [one for one in PARTING.finditer(line.text, low, high) if line.is_free(one.start(), one.end())]
    weighed = [one for one in marks if line.part(start, one.start()).of(Kind.WEIGHT, Kind.UNWEIGHED)]
    return (weighed or marks)[-1] if marks else None


def is_bowl(line: Line, names: list[list[Claim]], answers: Answers) -> bool:
    """Return whether the crops of a line lay in one bowl. Raises LineQuestion where they may have."""
    if len(names) < 2 or any(one.kind is Kind.TAG for group in names for one in group):
        return False
    between = [line.text[before[-1].end : after[0].start] for before, after in pairwise(names)]
    weights = line.of(Kind.WEIGHT)
    early = len(weights) == 1 and weights[0].start < names[1][0].start
    if early and weights[0].start >= names[0][-1].end:  # tomatoes 2 lb with fennel
        between[0] = line.text[weights[0].end : names[1][0].start]
        if not _WITH.fullmatch(between[0]):
            return False
    if not all(BETWEEN_CROPS.fullmatch(text) for text in between):
        return False
    if line.of(Kind.BOWL) or all("+" in text for text in between):
        return True
    if len(weights) != 1 or line.of(Kind.UNWEIGHED):
        return False
    whole = weights[0].value.text
    choices = [Choice(f"a mixed bowl of {whole}", BOWL)]
    if all(PARTING.search(text) for text in between):
        own = names[0 if early else -1][0].value.typed
        choices.append(Choice(f"{whole} of {own}, the others not weighed", APART))
    if early:
        rest = f"{between[0]}{line.text[names[1][0].start : names[-1][-1].end]}".strip(" ,")
        choices.append(
            Choice(f"{whole} of {names[0][0].value.typed}, and {quoted(rest)} is a remark", REMARK)
        )
    question = LineQuestion(
        WEIGHT,
        f"{quoted(line.text.strip())} has one weight for several crops",
        tuple(choices),
        key=f"{WEIGHT} {line.text}",
    )
    answer = answered(answers, question)
    if answer == REMARK:
        for group in names[1:]:
            _leave(line, group)
    return answer == BOWL


def whose_day(line: Line, day: date, other: date, answers: Answers) -> date:
    """Return the day of the first pickings where the last alone tells one. Raises LineQuestion."""
    question = LineQuestion(
        DAY,
        f"the day at the end of {quoted(line.text)} may be that of all its pickings or of the last",
        (Choice("all of them", "all"), Choice(f"the last; the others {other.isoformat()}", "last")),
        key=f"{DAY} {line.text}",
    )
    return day if answered(answers, question) == "all" else other


def day_of_others(line: Line, told: Sequence[date | None], other: date, answers: Answers) -> date:
    """Return the day of the pickings of a line that tell none, where some tell one. Raises LineQuestion.

    ``told``: the day of each picking, None where it tells none; ``other``: the day of those if none did.
    """
    if told[-1] and not any(told[:-1]):
        return other if told[-1] == other else whose_day(line, told[-1], other, answers)
    days = sorted({other, *(day for day in told if day)})
    if days == [other]:
        return other
    question = LineQuestion(
        DAY,
        f"not every picking in {quoted(line.text)} tells its day; the others are of one of these",
        tuple(Choice(in_full(day), day.isoformat()) for day in days),
        key=f"{DAY} {line.text}",
    )
    return date.fromisoformat(answered(answers, question))


def places_of_all(line: Line, parts: Sequence[Line], answers: Answers) -> tuple[Claim, ...]:
    """Return the destination at the end of a line where it is that of all its pickings.

    Raises LineQuestion where nobody says whether it is: ``kale 1 lb, leeks 2 lb pantry``.
    """
    told = [part.of(Kind.TO) for part in parts]
    if len(parts) < 2 or any(told[:-1]) or len(told[-1]) != 1 or parts[-1].of(Kind.SHARE):
        return ()
    if parts[-1].of(Kind.ALL):
        return tuple(told[-1])
    if _APART.search(line.text):
        return ()
    place = told[-1][0].value
    question = LineQuestion(
        TO,
        f"{quoted(place)} at the end of {quoted(line.text)} may be where all its pickings went or the last",
        (Choice("all of them", "all"), Choice("the last alone", "last")),
        key=f"{TO} {line.text}",
    )
    return tuple(told[-1]) if answered(answers, question) == "all" else ()


def joins(line: Line) -> bool:
    """Return whether a ``+`` stands elsewhere than between squares or in a weight such as ``2 kg+``."""
    signs = [place for place, sign in enumerate(line.text) if sign == "+"]
    spans = [(one.end, other.start) for one, other in pairwise(line.of(Kind.SQUARES))]
    spans += [(one.start, one.end) for one in line.of(Kind.WEIGHT)]
    return any(not any(start <= place < end for start, end in spans) for place in signs)


def shares_told(line: Line, total: Told | None, weights: list[Claim]) -> tuple[Share, ...]:
    """Return where a picking went; ``weights`` are those that are not its own. Raises Misread."""
    names = line.of(Kind.TO)
    parts: list[Claim] = sorted((*weights, *line.of(Kind.SHARE)), key=lambda one: one.start)
    if not names:
        if weights:
            _refuse_weights(weights, total)
        return ()
    if len(names) == 1 and not parts:
        return (Share(name=names[0].value),)
    if len(names) > 1 and len({one.value for one in names}) == 1 and not parts:
        return (Share(name=names[0].value),)
    if not parts:
        both = listed((quoted(one.value) for one in names), "and")
        raise Misread(
            "line", f"the line names {both} without saying how much went where", _parts_as_in(total)
        )
    if len(parts) != len(names) or total is None:
        _refuse_weights(weights, total)
        raise Misread("line", "the line does not say how much went where", _parts_as_in(total))
    found = tuple(_share(name.value, part, total) for name, part in zip(names, parts, strict=True))
    _require_sum(found, total)
    return found


def _parts_as_in(total: Told | None) -> str:
    """Return how parts may be told, in the unit of the picking."""
    metric = total is not None and total.unit in (GRAM, KILOGRAM)
    return f"{'1 kg' if metric else '1 lb'} pantry, rest kitchen"


def _share(name: str, part: Claim, total: Told) -> Share:
    if part.kind is Kind.WEIGHT:
        return Share(name=name, weight=part.value.weight, text=part.value.text)
    if part.value in _PARTS:
        told = shown(total.weight * _PARTS[part.value], total.unit)
        return Share(name=name, weight=told.weight, text=told.text)
    return Share(name=name, text=REST)


def _require_sum(shares: tuple[Share, ...], total: Told) -> None:
    given = sum((one.weight.nanograms for one in shares if one.weight), Fraction(0))
    rests = sum(1 for one in shares if one.weight is None)
    if rests > 1:
        raise Misread("line", "the rest went to several places", "the rest once")
    over = given >= total.weight.nanograms if rests else given != total.weight.nanograms
    if over and len({one.name for one in shares}) == len(shares):
        raise Misread(
            "line", f"the shares do not add up to {total.text}", "shares that add up, or “rest” for the last"
        )
    if len({one.name for one in shares}) != len(shares):
        raise Misread("line", "a place is named twice", "each place once")


def _refuse_weights(weights: list[Claim], total: Told | None) -> None:
    if weights:
        several = [*([total] if total else []), *(one.value for one in weights)]
        both = listed((quoted(one.text) for one in several), "and")
        raise Misread("line", f"the line has {len(several)} weights: {both}", "one weight for each picking")
