"""What a line leaves open, as a question with its answers; a line is read anew with what was answered."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

Answers = Mapping[str, str]
"""Key of a question to the value of the answer that was given."""

COUNT = "count"
DATE_ORDER = "date-order"
DAY = "day"
DECIMAL = "decimal"
LESSER_OR_COUNT = "lesser-or-count"
PLACE = "place"
THOUSANDS = "thousands"
WEIGHT = "weight"
SPELLING = "spelling"


@dataclass(frozen=True, slots=True)
class Choice:
    """One answer: as it is shown, and as the reader of lines takes it."""

    words: str
    value: str


@dataclass
class LineQuestion(Exception):  # noqa: N818 - something to be asked, not a failure
    """Something that cannot be told from the line alone."""

    about: str
    words: str
    choices: tuple[Choice, ...]
    key: str = ""
    """Under which the answer is kept; empty: what it is about."""

    @property
    def kept_as(self) -> str:
        """The key of the answer."""
        return self.key or self.about


def answered(answers: Answers, question: LineQuestion) -> str:
    """Return the value that was answered. Raises the question where none was."""
    value = answers.get(question.kept_as)
    if value is None:
        raise question
    return value
