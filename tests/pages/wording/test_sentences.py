"""Counts, lists and days read as a person would write them."""

from datetime import date

import pytest

from tallybed.pages.wording import sentences


@pytest.mark.parametrize(
    ("number", "said"),
    [
        (0, "no visit"),
        (1, "one visit"),
        (2, "two visits"),
        (10, "ten visits"),
        (11, "11 visits"),
        (1200, "1,200 visits"),
    ],
)
def test_counted(number: int, said: str) -> None:
    assert sentences.counted(number, "visit") == said


def test_counted_with_a_plural_of_its_own() -> None:
    assert sentences.counted(2, "loaf", "loaves") == "two loaves"
    assert sentences.counted(1, "loaf", "loaves") == "one loaf"


@pytest.mark.parametrize(
    ("items", "said"), [((), ""), (("a",), "a"), (("a", "b"), "a and b"), (("a", "b", "c"), "a, b and c")]
)
def test_listed(items: tuple[str, ...], said: str) -> None:
    assert sentences.listed(items) == said


@pytest.mark.parametrize(
    ("first", "last", "said"),
    [
        (date(2026, 5, 3), date(2026, 5, 3), "3 May"),
        (date(2026, 5, 3), date(2026, 5, 9), "3 to 9 May"),
        (date(2026, 4, 28), date(2026, 5, 4), "28 April to 4 May"),
        (date(2026, 12, 28), date(2027, 1, 4), "28 December 2026 to 4 January 2027"),
    ],
)
def test_days_words(first: date, last: date, said: str) -> None:
    assert sentences.days_words(first, last) == said


def test_span_words() -> None:
    assert sentences.span_words(date(2026, 3, 1), date(2026, 11, 30)) == "1 March to 30 November 2026"
    assert sentences.span_words(date(2026, 9, 1), date(2027, 5, 31)) == "1 September 2026 to 31 May 2027"


def test_a_sentence_has_a_capital_and_one_full_stop() -> None:
    assert sentences.sentence("two crops are planned", "one dropped") == "Two crops are planned, one dropped."
    assert sentences.sentence("Really?") == "Really?"
    assert sentences.sentence("", "") == ""


def test_long_words_are_cut_after_a_whole_one() -> None:
    cut = sentences.first_words("one two three four five", 12)
    assert cut == "one two …"
    assert sentences.first_words("  one\n two ", 12) == "one two"


def test_the_three_sentences_of_what_is_missing_differ() -> None:
    said = {
        sentences.NO_PLAN,
        sentences.NO_LOG,
        sentences.NO_LEDGER,
        sentences.EMPTY_PLAN,
        sentences.EMPTY_LOG,
        sentences.EMPTY_LEDGER,
    }
    assert len(said) == 6
    assert all((one.endswith(".") and "unknown" in one) or "holds no" in one or "seen" in one for one in said)
