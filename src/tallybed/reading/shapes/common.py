"""Scanners that several files share."""

from __future__ import annotations

from datetime import date

from tallybed.garden.naming import CropName
from tallybed.garden.squares import Square
from tallybed.reading.base.context import CROP, Context
from tallybed.reading.base.mappings import Key, KeyedValues
from tallybed.reading.base.problems import LeftOut, Misread
from tallybed.reading.base.scanners import Scanner, is_empty, said, spoken, wrong_kind
from tallybed.reading.text import dates, measures, texts
from tallybed.reading.text.squares import SQUARES, squares
from tallybed.reading.yaml.nodes import Items, Node, Pairs, Text

LINE = said(texts.line, texts.LINE)
TITLE_LINE = said(texts.title, texts.LINE)
NOTE = said(texts.note, texts.NOTE)
TAG = said(texts.tag, texts.TAG)
CROP_NAME: Scanner[CropName] = spoken(lambda text, context: context.crop(text), CROP)
DAY = spoken(lambda text, context: dates.in_season(text, context.span, bounded=context.bounded), dates.DATE)
LAST_DAY = spoken(
    lambda text, context: dates.in_season(text, context.span, day_after=True, bounded=context.bounded),
    dates.DATE,
)
WITHIN_A_YEAR = spoken(
    lambda text, context: dates.within_a_year(text, context.span, bounded=context.bounded), dates.DATE
)
LENGTH = said(measures.length, measures.LENGTH)
SHARE = said(measures.share, measures.SHARE)


def count(lowest: int = 1) -> Scanner[int]:
    """Return a scanner of a whole number."""
    return said(measures.whole(lowest), measures.WHOLE)


def some_squares(node: Node, context: Context) -> tuple[Square, ...]:
    """Read squares: one text, or a list of texts."""
    nodes = node.items if isinstance(node, Items) else (node,)
    named: list[Text] = []
    for each in nodes:
        if not isinstance(each, Text) or is_empty(each):
            wrong_kind(each, SQUARES, context)
        named.append(each)
    if not nodes:
        context.problems.add(node.place, "empty-list", "the list is empty", expected=SQUARES)
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
