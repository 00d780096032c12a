"""A crop's spacing in words: the distance first, and the count that follows from it after."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from tallybed.garden.garden import Garden
from tallybed.garden.squares import Bed
from tallybed.garden.units import CENTIMETRE, FOOT, INCH, Length, Showing, rounded
from tallybed.pages.care.metric import UNITS
from tallybed.pages.wording.sentences import listed, number_word
from tallybed.reckoning.room.spacing import in_printed_inches, kept_in, pack

_MORE = {11: "eleven", 12: "twelve", 13: "thirteen", 14: "fourteen", 15: "fifteen", 16: "sixteen"}
_IN_INCHES = 48
_PARTS = {Fraction(1, 4): "1/4", Fraction(1, 3): "1/3", Fraction(1, 2): "1/2", Fraction(3, 4): "3/4"}


def square_sides(garden: Garden) -> tuple[Length, ...]:
    """Return the sides that the garden's squares have, its first bed's first; a foot where it has no bed."""
    return tuple(dict.fromkeys(bed.side for bed in garden.beds)) or (Length.of(1, FOOT),)


def distance(showing: Showing, spacing: Length) -> str:
    """Return a distance as spacings are printed: in inches up to four feet.

    A metric garden’s are lengths, those that are printed in inches no finer than they were meant.
    """
    inches = spacing.within(INCH)
    if showing.metric and in_printed_inches(spacing):
        return showing.length(Length.of(UNITS["in"].value(inches), CENTIMETRE))
    if showing.metric or inches > _IN_INCHES:
        return showing.length(spacing)
    return f"{_plain(inches)} in"


def _plain(inches: Fraction) -> str:
    """Return inches with their part as gardeners write it: ``2 1/2``."""
    whole, part = divmod(inches, 1)
    if not part:
        return f"{int(whole)}"
    told = _PARTS.get(part)
    return f"{int(whole)} {told}".removeprefix("0 ") if told else f"{float(inches):.1f}"


def apart(showing: Showing, spacing: Length, sides: Iterable[Length]) -> str:
    """Return ``3 in apart, sixteen to a square``, or ``2 ft apart, four squares to a plant``.

    ``sides``: of the garden's squares. Where they hold unlike numbers each is told with its size.
    """
    counts = {side: _count(spacing, side) for side in sides}
    if len(set(counts.values())) == 1:
        told = [start + end for start, end in set(counts.values())]
    else:
        told = [f"{start} of {showing.length(side)}{end}" for side, (start, end) in counts.items()]
    return f"{distance(showing, spacing)} apart, {listed(told)}"


def _count(spacing: Length, side: Length) -> tuple[str, str]:
    """Return ``sixteen to a square``, or ``four squares`` and `` to a plant``."""
    bed = Bed(name="", title="", columns=1, rows=1, side=side)
    share = kept_in(bed, spacing).nanometres / side.nanometres
    count = len(pack(bed, bed.squares, spacing).spots)
    if share <= 1 or count > 1:
        return f"{_MORE.get(count, number_word(count))} to a square", ""
    squares = share * share
    about = int(rounded(squares, 0))
    if rounded(squares, 1) == rounded(Fraction(about), 1):
        return f"{number_word(about)} {'square' if about == 1 else 'squares'}", " to a plant"
    return f"{_plain(squares)} squares", " to a plant"
