"""Scanners that several files share."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from datetime import date
from fractions import Fraction
from typing import Any

from tallybed.garden.crops import Crop
from tallybed.garden.naming import CropName
from tallybed.garden.squares import Square
from tallybed.garden.units import FOOT, INCH, Length
from tallybed.reading.base.context import CROP, Context
from tallybed.reading.base.mappings import Key, KeyedValues
from tallybed.reading.base.problems import LeftOut, Misread
from tallybed.reading.base.scanners import Scanner, is_empty, said, spoken, wrong_kind
from tallybed.reading.text import dates, measures, texts
from tallybed.reading.text.squares import squares, wanted
from tallybed.reading.yaml.nodes import Items, Node, Pairs, Text

LINE = said(texts.line, texts.LINE)
TITLE_LINE = said(texts.title, texts.LINE)
NOTE = said(texts.note, texts.NOTE)
TAG = said(texts.tag, texts.TAG)
CROP_NAME: Scanner[CropName] = spoken(lambda text, context: context.crop(text), CROP)
DAY = spoken(lambda text, context: dates.in_season(text, context.span, bounded=context.bounded), dates.DATE)
WITHIN_A_YEAR = spoken(
    lambda text, context: dates.within_a_year(text, context.span, bounded=context.bounded), dates.DATE
)
LENGTH = said(measures.length, measures.LENGTH)
EXTENT_TEXT = f"{measures.LENGTH}, up to 100 ft (30.48 m)"
EXTENT = said(measures.length_within(Length(), Length.of(100, FOOT), EXTENT_TEXT), EXTENT_TEXT)
"""What belongs to a bed: its path, the height of its trellis, how far its vines are led out."""
SHARE = said(measures.share, measures.SHARE)


def count(lowest: int = 1, highest: int = 100_000) -> Scanner[int]:
    """Return a scanner of a whole number, both bounds inside."""
    return said(measures.whole(lowest, highest), measures.WHOLE)


def some_squares(node: Node, context: Context) -> tuple[Square, ...]:
    """Read squares: one text, or a list of texts."""
    nodes = node.items if isinstance(node, Items) else (node,)
    named: list[Text] = []
    for each in nodes:
        if not isinstance(each, Text) or is_empty(each):
            wrong_kind(each, wanted(context.beds), context)
        named.append(each)
    if not nodes:
        context.problems.add(node.place, "empty-list", "the list is empty", expected=wanted(context.beds))
        raise LeftOut
    try:
        return squares((each.text for each in named), context.beds)
    except Misread as misread:
        context.problems.misread(named[misread.part].at(misread.at), misread)
        raise LeftOut from None


def silenced(node: Node, context: Context) -> tuple[tuple[str, str], ...]:
    """Read which findings are not to be told of a record, each with its reason."""
    expected = "a finding’s name and the reason, as in {early: it was a mild March}"
    if not isinstance(node, Pairs):
        wrong_kind(node, expected, context)
    return tuple((name.text.strip(), LINE(reason, context)) for name, reason in node.pairs)


UNFINISHED = Key("unfinished", said(measures.yes_no, measures.YES_NO), measures.YES_NO, never_empty=True)
HOLD_UNTIL = Key("hold until", said(dates.with_year, dates.WITH_YEAR), dates.WITH_YEAR, never_empty=True)


def held_until(row: KeyedValues, told_on: date | None) -> date | None:
    """Return the first day on which a record may be read; tells where that is before the record itself."""
    day = row.get(HOLD_UNTIL)
    if day is not None and told_on is not None and day <= told_on:
        row.wrong(
            HOLD_UNTIL,
            "held-until-before",
            f"it is to be held until {day}, which is not after its own day, {told_on}",
            expected="a later day, or no such key",
        )
    return day


SILENCE = Key("silence", silenced, "a finding’s name and the reason")
NOTE_KEY = Key("note", NOTE, texts.NOTE)
MOST_PLANTS = 10_000
"""Plants of one record. Our choice: each is placed and drawn, on every map of its months."""
SPACING_TEXT = "a length from 1/4 in (6.35 mm) to 100 ft"
SPACING_LENGTH = said(
    measures.length_within(Length.of(Fraction(1, 4), INCH), Length.of(100, FOOT), SPACING_TEXT), SPACING_TEXT
)


def narrowest(crops: Mapping[str, Crop]) -> Mapping[str, Length]:
    """Return the narrowest spacing of each crop and its varieties, by slug; none of a crop without any."""
    found = {}
    for slug, crop in crops.items():
        told = [each for each in (crop.spacing, *(one.spacing for one in crop.varieties)) if each]
        if told:
            found[slug] = min(told)
    return found


def room(context: Context, squares: Iterable[Square], spacing: Length | None) -> int:
    """Return about how many plants have room in squares; none where their spacing is not known."""
    if spacing is None:
        return 0
    in_each = Counter(square.bed for square in squares)
    area = sum(many * context.beds.by_name[bed.casefold()].square_area for bed, many in in_each.items())
    return int(area / spacing.within(FOOT) ** 2)


def refuse_crowd(row: KeyedValues, at: Key[Any], number: int) -> None:
    """Tell where a record speaks of more plants than MOST_PLANTS."""
    if number > MOST_PLANTS:
        row.wrong(
            at,
            "too-many-plants",
            f"that would be {number:,} plants",
            expected=f"{MOST_PLANTS:,} plants at most in one record",
            remedy="correct squares, spacing or number, or divide the squares among several records",
        )
