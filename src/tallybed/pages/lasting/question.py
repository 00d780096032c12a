"""A question from the public, and its answer."""

from __future__ import annotations

from collections.abc import Iterator

from tallybed.garden.garden import Question
from tallybed.pages.frame import addresses
from tallybed.pages.frame.links import resolver
from tallybed.pages.frame.page import Link, Page
from tallybed.pages.lasting.questions import question_item
from tallybed.pages.lasting.spoken_of import spoken_of
from tallybed.pages.wording.prose import prose
from tallybed.pages.wording.sentences import first_words
from tallybed.reckoning.year import Years


def pages(years: Years, only: str | None = None) -> Iterator[Page]:
    """Yield a page for each question, or the one at ``only``."""
    return (_page(years, one) for one in years.garden.questions if only in (None, addresses.question(one)))


def _page(years: Years, one: Question) -> Page:
    path = addresses.question(one)
    spoken = spoken_of(years, f"{one.question}\n{one.answer}", about=one.about, written=one.asked)
    return Page(
        path=path,
        template="question.html",
        title=one.question,
        description=first_words(f"An answer to the question: {one.question}"),
        kind="question",
        data={
            "trail": (Link("Questions", addresses.QUESTIONS), Link(first_words(one.question, 60), "")),
            "item": question_item(one),
            "spoken": spoken,
            "leads": tuple(link.to for kind in spoken for link in kind.links),
            "prose": prose(one.answer, ident="prose", resolve=resolver(years, path)),
        },
    )
