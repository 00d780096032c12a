"""Pages of the garden's own words: about, questions, and whatever else it writes."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from tallybed.garden.garden import Leaf, Question
from tallybed.pages.frame import addresses
from tallybed.pages.frame.links import resolver
from tallybed.pages.frame.page import Link, Page
from tallybed.pages.wording import names
from tallybed.pages.wording.prose import first_paragraph, prose
from tallybed.pages.wording.sentences import Day, counted, first_words, full_day
from tallybed.reckoning.year import Years


@dataclass(frozen=True, slots=True, kw_only=True)
class QuestionItem:
    """A question in a list."""

    question: str
    to: str
    asked: Day | None
    by: str
    about: tuple[Link, ...]


def pages(years: Years) -> Iterator[Page]:
    """Yield the garden's own pages, then its questions."""
    for leaf in years.garden.leaves:
        yield _leaf(years, leaf)
    if years.garden.questions:
        yield _list(years)
    for question in years.garden.questions:
        yield _question(years, question)


def question_item(years: Years, one: Question) -> QuestionItem:
    """Return a question for a list."""
    return QuestionItem(
        question=one.question,
        to=addresses.question(one),
        asked=full_day(one.asked) if one.asked else None,
        by=one.by,
        about=tuple(names.crop_link(years.garden, slug) for slug in one.about),
    )


def ordered(questions: tuple[Question, ...]) -> list[Question]:
    """Return questions newest first; those without a day last."""
    return sorted(questions, key=lambda one: (-(one.asked or date.min).toordinal(), one.slug))


def _leaf(years: Years, leaf: Leaf) -> Page:
    path = addresses.leaf(years, leaf)
    words = first_paragraph(leaf.prose, ident="first").striptags()
    return Page(
        path=path,
        template="leaf.html",
        title=leaf.title,
        description=first_words(f"{leaf.title}: {words or f'a page of {years.garden.name}'}"),
        kind="leaf",
        data={"trail": (), "prose": prose(leaf.prose, ident="prose", resolve=resolver(years, path))},
    )


def _list(years: Years) -> Page:
    questions = ordered(years.garden.questions)
    return Page(
        path=addresses.QUESTIONS,
        template="questions.html",
        title="Questions",
        description="Questions from the public about the beds, answered.",
        kind="questions",
        data={
            "trail": (),
            "lead": f"{counted(len(questions), 'question').capitalize()} asked over the fence, and answered.",
            "questions": tuple(question_item(years, one) for one in questions),
        },
    )


def _question(years: Years, one: Question) -> Page:
    path = addresses.question(one)
    return Page(
        path=path,
        template="question.html",
        title=one.question,
        description=first_words(f"An answer to the question: {one.question}"),
        kind="question",
        data={
            "trail": (Link("Questions", addresses.QUESTIONS), Link(first_words(one.question, 60), "")),
            "item": question_item(years, one),
            "prose": prose(one.answer, ident="prose", resolve=resolver(years, path)),
        },
    )
