"""The list of questions from the public."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from tallybed.garden.garden import Question
from tallybed.pages.frame import addresses
from tallybed.pages.frame.page import Page
from tallybed.pages.wording.sentences import Day, counted, full_day
from tallybed.reckoning.year import Years


@dataclass(frozen=True, slots=True, kw_only=True)
class QuestionItem:
    """A question in a list."""

    question: str
    to: str
    asked: Day | None
    by: str


def pages(years: Years) -> Iterator[Page]:
    """Yield the list of questions; nothing where nobody asked."""
    if years.garden.questions:
        yield _page(years)


def question_item(one: Question) -> QuestionItem:
    """Return a question for a list."""
    return QuestionItem(
        question=one.question,
        to=addresses.question(one),
        asked=full_day(one.asked) if one.asked else None,
        by=one.by,
    )


def ordered(questions: tuple[Question, ...]) -> list[Question]:
    """Return questions newest first; those without a day last."""
    return sorted(questions, key=lambda one: (-(one.asked or date.min).toordinal(), one.slug))


def _page(years: Years) -> Page:
    """Return the list of questions as a page."""
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
            "questions": tuple(question_item(one) for one in questions),
        },
    )
