"""Figures that are not the whole of a weight: torn by a slip, by the words around them, or in other units."""

from __future__ import annotations

import re
from fractions import Fraction

from tallybed.garden.units import KILOGRAM, POUND
from tallybed.reading.base.problems import Misread, quoted
from tallybed.reading.scale.claims import Line
from tallybed.reading.scale.numbers import IN_WORDS, NUMBER, POINT, UNIT, amount, figure, plain, unit_meant
from tallybed.reading.text.other_units import NAMES as OTHER_NAMES
from tallybed.reading.text.other_units import other_unit

EXPECTED = "the whole weight in figures, such as 150 g, 1.5 lb or 2 lb 3 oz"
_TORN = re.compile(
    rf"(?:\b(?:{IN_WORDS})(?:\s+(?:to|and|or))?|\b(?:lost|double|half|thirds?|quarters?|most|part)(?:\s+of)?(?:\s+the)?|%\s+of"
    r"|\b(?:hundred|thousand)(?:\s+and)?|\b(?:point|dot|twice|thrice)|\b[a-z]+ths?\s+of(?:\s+an?)?"
    r"|(?<![\w/.])[0-9]+(?:\s*[./]|['’])"
    r"|\b(?:bunches|bags|baskets|buckets|bowls|boxes|crates|punnets|pecks|lots|jars|trays|batches|sacks|flats|piles)"
    rf"\s*(?:of|@|at|[x×*])|(?<![\w-])(?!#)(?:{UNIT})[.:]?)\s*$",
    re.IGNORECASE,
)
"""What stands before a figure that is not the whole weight: ``two hundred``, ``3 bags of``, ``lb``."""
_ONE_OF_THEM = re.compile(
    r"(?<![^\W\d_])(?!(?:a|about|almost|and|around|at|dot|hundred|just|nearly|of|or|over|point|thousand|to|under"
    rf"|{UNIT}|{IN_WORDS})\s)[^\W\d_]+\s+one\s*$",
    re.IGNORECASE,
)
"""One of them, by a word that says which, and no number: ``a big one 3 lb``."""
_TORN_BEHIND = re.compile(
    r"\s*(?:per\b|\*|times\b|twice\b|[x×]\s*[0-9]|(?:and\s+)?(?:[a-z]+\s+)?(?:hundred|thousand)\b|half(?=\s*(?:$|[,;])))",
    re.IGNORECASE,
)
_DASH = re.compile(r"(?<![\w.,/])([0-9]+)\s+[-–]\s*$")
_LIKE_UNIT = re.compile(r"[0-9]\.?\s*([a-z1|]{2,9})\.?\s*$", re.IGNORECASE)
_NUMBER_BEFORE = re.compile(r"(?<![\w.,/:-])[0-9]{1,5}\s+$")
_HUNDREDS = re.compile(
    rf"(?:\b(?:{IN_WORDS}|an?|[0-9]+)\s+)?\b(?:hundred|thousand)\s*(?:{UNIT})(?![^\W\d_])", re.IGNORECASE
)
_FIGURE = re.compile(
    r"(?<!\S)(?P<figure>[-.,]*[0-9](?:[.,]-+(?=[0-9])|[0-9.,]|--+|//+)*)"
    rf"(?P<unit>\s*(?:{UNIT})(?![^\W\d_])(?!(?<=[gG])[0-9])\.?)?",
    re.IGNORECASE,
)
"""A run of figures and the signs that stand in numbers, with the unit behind it."""
_DOUBLED = re.compile(r"(?:^|[0-9])(?:[.,]{2,}|--+|//+)[0-9]")
_OTHER_UNIT = re.compile(
    rf"(?<![\w.,/:-])(?P<number>half\s+an?|an?|{IN_WORDS}|{NUMBER})\s*(?P<unit>{OTHER_NAMES})\b\.?"
    r"(?:\s*(?:and\s+)?(?P<more>[0-9]{1,2})(?:\s*(?:lbs?|pounds?)\b\.?|(?!\s*[^\W\d_])(?![\w.,/:])))?",
    re.IGNORECASE,
)
_FIRST = re.compile(r"(?:[0-9]*[02-9])?1st", re.IGNORECASE)
"""The first of something, and no stone."""
_PODS = frozenset({"pod", "pods"})
"""Pieces that are spelt much like pounds."""


def refuse_torn(line: Line, match: re.Match[str], end: int, *, counted: bool) -> None:
    """Raise Misread where the words around a figure make another weight of it than it says alone.

    ``match``: the figure with its unit, which ends at ``end``. ``counted``: what follows is a count.
    """
    before, number = line.text[: match.start()], match.group("number1")
    torn = _TORN.search(before)
    if torn is None and (dash := _DASH.search(before)):
        part = "/" in number and " " not in number
        torn = dash if part or (number.isdigit() and int(dash.group(1)) < int(number)) else None
    if torn is None and number[0] in ".,":
        torn = _NUMBER_BEFORE.search(before)  # "1 ,5 kg" is one and a half, torn
    like = _LIKE_UNIT.search(before) if torn is None else None
    if like and like.group(1).casefold() not in _PODS and unit_meant(like.group(1)):
        torn = like
    behind = None if counted else _TORN_BEHIND.match(line.text, end)
    if torn and (not line.is_free(*torn.span()) or _is_one_of_them(line, torn, number)):
        torn = None
    if torn or behind:
        typed = line.text[torn.start() if torn else match.start() : behind.end() if behind else end].strip()
        raise Misread(
            "weight",
            f"{quoted(typed)} may be another weight than {quoted(line.text[match.start() : end].strip())}",
            EXPECTED,
            typed=typed,
        )


def _is_one_of_them(line: Line, torn: re.Match[str], number: str) -> bool:
    """Return whether the word before a whole number is “one” as the name of a piece, not as a figure."""
    if torn.group().strip().casefold() != "one" or not number.isdigit():
        return False
    said = _ONE_OF_THEM.search(line.text[: torn.end()])
    return said is not None and line.is_free(*said.span())


def refuse_torn_figures(line: Line) -> None:
    """Raise Misread for a figure that a slip tore apart, ``12..5 kg`` or ``--5 kg``, or one below zero."""
    for match in line.free(_HUNDREDS):
        typed = match.group().strip()
        raise Misread("weight", f"{quoted(typed)} is a weight in words", EXPECTED, typed=typed)
    for match in line.free(_FIGURE):
        figure, unit = match["figure"], match["unit"]
        typed = match.group().strip()
        if unit and re.fullmatch(f"-{NUMBER}", figure):
            found = f"the weight {quoted(typed)} is below nothing"
            raise Misread("weight", found, "a weight above zero", typed=typed)
        if _is_torn(figure, with_unit=bool(unit)):
            raise Misread(
                "weight",
                f"{quoted(typed)} is not a {'weight' if unit else 'number'}: its signs make no one figure",
                "a figure with one sign alone, before its decimals, such as 12.5 kg",
                typed=typed,
            )


def _is_torn(figure: str, *, with_unit: bool) -> bool:
    """Return whether a run of figures and signs is no number; without a unit only doubled signs tell that."""
    if not with_unit:
        return _DOUBLED.search(figure) is not None
    if not re.fullmatch(NUMBER, figure):
        return True
    try:
        amount(figure, KILOGRAM, POINT, {})
    except Misread:
        return True
    return False


def refuse_other_units(line: Line, *, weighed: bool) -> None:
    """Raise Misread, with what to write, for a weight in a unit that no file takes: ``2 stone 3 lb``.

    ``weighed``: the line has a weight besides, beside which ``a stone`` is part of a remark.
    """
    for match in line.free(_OTHER_UNIT):
        unit = other_unit(match["unit"])
        text = match["number"].casefold()
        if unit is None or (_FIRST.fullmatch(match.group()) or (text in ("a", "an") and weighed)):
            continue
        number = (
            Fraction(1, 2)
            if text.startswith("half")
            else amount(text, unit.unit, POINT, {})
            if text[-1].isdigit()
            else Fraction(figure(text))
        )
        more = Fraction(int(match["more"] or 0)) if unit.unit is POUND else Fraction(0)
        typed = match.group().strip()
        raise Misread(
            "weight",
            f"{quoted(typed)} is in a unit that the ledger does not take; {unit.words}",
            remedy=f"write {plain(number * unit.number + more)} {unit.unit.symbol}"
            if unit.number
            else "write it in kg or lb",
            typed=typed,
        )
