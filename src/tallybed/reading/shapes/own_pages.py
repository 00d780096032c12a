"""Questions from the public, and pages of the garden's own."""

from __future__ import annotations

from tallybed.garden.garden import Leaf, Question
from tallybed.reading.base.context import CROP, Context
from tallybed.reading.base.mappings import Key, Shape, take
from tallybed.reading.base.scanners import every, said
from tallybed.reading.shapes.common import (
    CROP_NAME,
    HOLD_UNTIL,
    LINE,
    TITLE_LINE,
    UNFINISHED,
    count,
    held_until,
)
from tallybed.reading.text import dates, measures, texts
from tallybed.reading.yaml.headers import HeadedFile

QUESTION_KEY = Key("question", TITLE_LINE, "the question", required=True)
ASKED = Key("asked", said(dates.with_year, dates.WITH_YEAR), dates.WITH_YEAR)
BY = Key("by", LINE, "who asked")
ABOUT = Key("about", every(CROP_NAME, "a list of crops"), f"a list: {CROP}")
QUESTION = Shape("a question’s header", (QUESTION_KEY, ASKED, BY, ABOUT, UNFINISHED, HOLD_UNTIL))

TITLE = Key("title", TITLE_LINE, texts.LINE, required=True)
ORDER = Key("order", count(0), measures.WHOLE)
LEAF = Shape("a page’s header", (TITLE, ORDER))


def question(page: HeadedFile, context: Context, slug: str) -> Question:
    """Read a question and its answer; a general name is about all the crops it can mean."""
    row = take(page.header, QUESTION, context)
    hold_until = held_until(row, row.get(ASKED))
    row.finish()
    slugs = (slug for name in row.get(ABOUT) or () for slug in name.slugs)
    return Question(
        slug=slug,
        question=row[QUESTION_KEY],
        asked=row.get(ASKED),
        by=row.get(BY) or "",
        about=tuple(dict.fromkeys(slugs)),
        answer=page.prose,
        answer_begins=page.begins,
        unfinished=row.get(UNFINISHED) or False,
        hold_until=hold_until,
        place=row.place,
    )


def leaf(page: HeadedFile, context: Context, slug: str) -> Leaf:
    """Read a page of the garden's own."""
    row = take(page.header, LEAF, context)
    row.finish()
    return Leaf(
        slug=slug,
        title=row[TITLE],
        order=row.get(ORDER) or 0,
        prose=page.prose,
        prose_begins=page.begins,
        place=row.place,
    )
