"""Weights in spreadsheets: the unit in the cell, beside it, above it, or pounds and ounces in two columns."""

from __future__ import annotations

import re
from collections.abc import Sequence
from decimal import Decimal

from tallybed.garden.units import WEIGHT_UNITS, Unit
from tallybed.reading.base.problems import Misread, listed, quoted
from tallybed.reading.scale.claims import Kind, Line
from tallybed.reading.scale.numbers import NUMBER, amount, in_figures, plain, without_sure_groups
from tallybed.reading.scale.questions import DECIMAL, THOUSANDS, LineQuestion
from tallybed.reading.scale.weights import find_weights
from tallybed.reading.spreadsheet.columns import unit_named
from tallybed.reading.spreadsheet.figures import without_groups
from tallybed.reading.text import measures
from tallybed.reading.text.other_units import other_unit

FINEST = 9
"""Decimals kept of a number; a result of a formula such as 1/3 is rounded to these."""
NOT_WEIGHED = "not weighed"
NO_UNIT = "no-unit"
"""The code of a weight that nothing gives a unit."""
OPEN_NUMBER = "open-number"
"""The code of a number that a decimal comma or a decimal point would make two of."""
OPEN_SPACE = "open-space"
"""The code of a weight in which a space may set thousands apart, or a count from a weight."""
ASKED_ONCE = frozenset({NO_UNIT, OPEN_NUMBER, OPEN_SPACE})
"""Of weights whose trouble one answer settles for the whole file."""
SPACES = ("thousands", "counts")
"""What a space in ``1 250 g`` may set apart."""
_SAID_SO = frozenset({NOT_WEIGHED, "unweighed", "n/w", "nw"})
_BARE = re.compile(
    r"(?P<about>(?:about|around|roughly|approx\.?|ca\.?|~)\s*)?"
    rf"(?P<amount>[0-9]+ [0-9]+/[0-9]+|{NUMBER})",
    re.IGNORECASE,
)
_SIGNED = re.compile(r"[0-9],[0-9]|[0-9]\.[0-9]{3}(?![0-9])")
"""What has to be read with the sign before decimals in mind."""
_WORD = re.compile(r"[^\W\d_]+")

WeightCell = tuple[str, Unit | None]
"""A cell's text, and the unit of its column's heading."""


def weight_words(
    cells: Sequence[WeightCell], unit: str, usual: Unit | None, decimal: str = "", *, spaces: str = ""
) -> str:
    """Return the weight of a row in words that read back as exactly that weight. Raises Misread.

    ``cells`` are those that are not empty, ``unit`` the row's own cell for the unit,
    ``usual`` the unit where nothing else says one, ``decimal`` the sign before decimals and
    ``spaces`` what a space in ``1 250 g`` sets apart, one of SPACES, where they are known.
    """
    if not cells:
        raise Misread(
            "weight", "the row has no weight", f"a weight, or “{NOT_WEIGHED}” where nobody weighed it"
        )
    beside = _beside(unit)
    if len(cells) > 1:
        return _checked(_joined(cells, decimal))
    text, above = cells[0]
    words = measures.plain(without_sure_groups(text))
    words = without_groups(words) if spaces == "thousands" else words
    if words.casefold().rstrip(".") in _SAID_SO:
        return NOT_WEIGHED
    # A number that fills its cell is one number; before a unit a space may also part a count from it.
    bare = _BARE.fullmatch(without_groups(words))
    if bare is None:
        _agreeing(words, beside, text)
        try:
            return _as_at_the_scale(words, decimal) if _SIGNED.search(words) else _checked(words, decimal)
        except Misread as misread:
            if misread.code != OPEN_SPACE or not spaces:
                raise
            raise Misread("weight", misread.found, misread.expected, typed=words) from None
    found = beside or above or usual
    if found is None:
        raise Misread(NO_UNIT, f"the weight {quoted(text)} has no unit", _units())
    return _checked(f"{bare['about'] or ''}{_number(bare['amount'], found, decimal)} {found.symbol}")


def _number(text: str, unit: Unit, decimal: str) -> str:
    """Return a number as files of the garden read it. Raises Misread where it can be read two ways."""
    if re.fullmatch(r"[0-9 /]+|[0-9]*\.(?:[0-9]{1,2}|[0-9]{4,})", text):
        return _fine(text)
    try:
        return _fine(plain(amount(text, unit, decimal, {})))
    except LineQuestion as question:
        raise Misread(OPEN_NUMBER, question.words, "--decimal comma or --decimal point") from None


def _as_at_the_scale(words: str, decimal: str) -> str:
    """Return a weight with its unit as it is understood at the scale, such as ``2#3``. Raises Misread."""
    line = Line(in_figures(words))
    try:
        find_weights(line, decimal, {})
    except LineQuestion as question:
        if question.about == DECIMAL:
            raise Misread(OPEN_NUMBER, question.words, "--decimal comma or --decimal point") from None
        choices = listed(choice.words for choice in question.choices)
        if question.about == THOUSANDS:
            remedy = "`spaces: thousands` or `spaces: counts` in take-in.yaml settles it"
            raise Misread(OPEN_SPACE, question.words, choices, remedy=remedy, typed=words) from None
        raise Misread("weight", question.words, choices, typed=words) from None
    told = line.of(Kind.WEIGHT, Kind.UNWEIGHED)
    if len(told) != 1 or line.words_left() or line.of(Kind.EACH, Kind.COUNT):
        raise Misread("weight", f"the weight {quoted(words)} cannot be read", measures.WEIGHING)
    return NOT_WEIGHED if told[0].kind is Kind.UNWEIGHED else _exactly(told[0].value.text)


def _exactly(text: str) -> str:
    """Return the same words where they read as a weight. Raises Misread."""
    measures.weighing(text)
    return text


def _beside(unit: str) -> Unit | None:
    """Return the unit in the row's own cell, None where that is empty. Raises Misread."""
    found = unit_named(unit)
    if unit and found is None:
        other = other_unit(unit)
        near = "" if other else measures.nearest_unit(unit, WEIGHT_UNITS)
        words = other.words if other else ""
        raise Misread("weight", f"{quoted(unit)} is not a unit of weight", _units(), near, remedy=words)
    return found


def _units() -> str:
    """Return the symbols of the units of weight, listed."""
    return listed(unit.symbol for unit in WEIGHT_UNITS)


def _checked(text: str, decimal: str = "") -> str:
    """Return the same words where they read as a weight, else as at the scale. Raises Misread."""
    try:
        return _exactly(text)
    except Misread as misread:
        try:
            return _as_at_the_scale(text, decimal)
        except Misread as other:
            raise (other if other.code == OPEN_NUMBER or other.typed else misread) from None


def _agreeing(plain: str, beside: Unit | None, typed: str) -> None:
    """Refuse a cell that names another unit than the cell beside it."""
    named = {unit for word in _WORD.findall(plain) if (unit := unit_named(word)) is not None}
    if beside is not None and named and beside not in named:
        found = f"the weight {quoted(typed)} stands beside the unit {beside.symbol}"
        raise Misread("weight", found, "one unit")


def _joined(cells: Sequence[WeightCell], decimal: str) -> str:
    """Return pounds and ounces of two columns as one weight; a nothing in one of them is left out."""
    parts: list[tuple[Unit, str]] = []
    for text, unit in cells:
        bare = _BARE.fullmatch(measures.plain(text))
        if bare is None or unit is None or bare["about"]:
            both = listed((quoted(cell) for cell, _unit in cells), "and")
            raise Misread("weight", f"the cells {both} are not one weight", "a bare number in each")
        if any(sign in "123456789" for sign in bare["amount"].partition("/")[0]):
            parts.append((unit, _number(bare["amount"], unit, decimal)))
    if not parts:
        raise Misread("weight", "the weight is zero", "a weight above zero")
    parts.sort(key=lambda part: part[0].size, reverse=True)
    return " ".join(f"{amount} {unit.symbol}" for unit, amount in parts)


def _fine(amount: str) -> str:
    """Return a decimal with no more places than are kept."""
    _whole, _point, decimals = amount.partition(".")
    if len(decimals) <= FINEST:
        return amount
    return format(round(Decimal(amount), FINEST).normalize(), "f")
