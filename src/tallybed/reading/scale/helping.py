"""What helps after a line was refused: what was understood of it, and one line that would do."""

from __future__ import annotations

import re
from collections.abc import Callable
from contextlib import suppress
from datetime import date

from tallybed.reading.base.problems import Misread
from tallybed.reading.scale import days, names, places, weights
from tallybed.reading.scale.claims import Claim, Kind, Line
from tallybed.reading.scale.counts import find_counts
from tallybed.reading.scale.days import MONTH_WORDS, DaysKnown
from tallybed.reading.scale.destinations import find_destinations, find_exact_names
from tallybed.reading.scale.leftovers import (
    refuse_unread_weights,
    strange_words,
    unitless,
    words_not_understood,
)
from tallybed.reading.scale.line import LONGEST, Habits, pickings
from tallybed.reading.scale.numbers import UNITS, in_figures, without_sure_groups
from tallybed.reading.scale.questions import LineQuestion
from tallybed.reading.scale.vague import ask_of_vague_days
from tallybed.reading.scale.vocabulary import Vocabulary
from tallybed.reading.text import measures

_FIGURE = re.compile(r"[0-9]+(?:[.,][0-9]+)?")
_LIKE_A_DAY = re.compile(
    rf"\b(?:[0-9]{{1,2}}(?:st|nd|rd|th)|[0-9]{{1,2}}-[0-9]{{1,2}}(?:-[0-9]+)?|(?:{'|'.join(MONTH_WORDS)})[0-9-]+)\b",
    re.IGNORECASE,
)
"""A word that may tell a day, though nobody knows which."""
_ORDER = (Kind.NAME, Kind.TAG, Kind.COUNT, Kind.WEIGHT, Kind.UNWEIGHED, Kind.SQUARES, Kind.DAY, Kind.TO)
"""The order of the parts in a line that is offered."""


def help_with(
    text: str, vocabulary: Vocabulary, day: date, habits: Habits, wrong: str = ""
) -> tuple[str, ...]:
    """Return sentences that help to put a refused text right; the text itself may be of several lines.

    ``wrong``: the part of it that was refused as a whole, of which nothing counts as understood.
    """
    rows = [row for row in text.splitlines() if row.strip()]
    if len(rows) != 1 or len(rows[0]) > LONGEST:
        return ()
    line, complete = _as_far_as_possible(rows[0], vocabulary, day, habits)
    start = line.text.find(wrong) if wrong else -1
    within = range(start, start + len(wrong)) if start >= 0 else range(0)
    told = [line.text[one.start : one.end].strip() for one in line.of(*Kind) if not _meet(one, within)]
    found = []
    if any(told):
        found.append("understood: " + " | ".join(part for part in told if part))
    strange = [word.group() for word in strange_words(line) if word.start() not in within]
    if within:
        strange.insert(sum(word.start() < start for word in strange_words(line)), wrong)
    if strange:
        found.append("not understood: " + ", ".join(strange))
    # Without the day that it told, the line would be written under the day of weighing; and of two
    # weights or days one alone would be written.
    once = all(len(line.of(kind)) < 2 for kind in (Kind.WEIGHT, Kind.DAY))
    dated = _LIKE_A_DAY.search(" ".join(strange)) is not None
    # Of "300 g each", "half to pantry" and "1 kg -200" a part would be offered as the whole.
    parted = line.of(Kind.EACH, Kind.SHARE) or any(
        word.isdigit() or word.casefold() in UNITS for word in strange
    )
    fit = complete and once and not wrong and not dated and not parted
    would_do, guessed = _offer(line, vocabulary, day, habits) if fit else ("", False)
    if would_do:
        units = " (or another unit, as the scale shows)" if guessed else ""
        found.append(f"this would do: {would_do}{units}")
    return tuple(found)


def _meet(one: Claim, within: range) -> bool:
    """Return whether a part that was understood has a character of another part in it."""
    return one.start < within.stop and within.start < one.end


def _as_far_as_possible(row: str, vocabulary: Vocabulary, day: date, habits: Habits) -> tuple[Line, bool]:
    """Return a line with whatever could be understood of it, and False where that lacks its day or weight."""
    line = Line(in_figures(measures.plain(without_sure_groups(row))))
    known = DaysKnown(day, vocabulary.context.span, habits.order)
    _heard(lambda: find_exact_names(line, vocabulary))
    _heard(lambda: names.find_tags(line, vocabulary))
    _heard(lambda: names.find_names(line, vocabulary))
    in_words = _heard(lambda: days.find_days(line, known))
    in_numbers = _heard(lambda: days.find_number_days(line, known, {}))
    _heard(lambda: weights.find_weights(line, habits.decimal, {}))
    _heard(lambda: places.find_places(line, vocabulary))
    _heard(lambda: find_counts(line))
    _heard(lambda: find_destinations(line, vocabulary, {}))
    roughly = _heard(lambda: ask_of_vague_days(line, known, {}))
    whole = _heard(lambda: refuse_unread_weights(line))
    return line, in_words and in_numbers and roughly and whole


def _heard(step: Callable[[], None]) -> bool:
    """Return whether a part of a line could be understood, or is not there."""
    try:
        step()
    except (Misread, LineQuestion):
        return False
    return True


def _crops(line: Line) -> list[str]:
    """Return the crops that a line names, each once and as typed; kale of ``greens: kale``."""
    typed: dict[frozenset[str], str] = {}
    for one in line.of(Kind.NAME):
        typed.setdefault(frozenset(one.value.slugs), line.text[one.start : one.end].strip(" ,."))
    return [name for meant, name in typed.items() if not any(other < meant for other in typed)]


def _offer(line: Line, vocabulary: Vocabulary, day: date, habits: Habits) -> tuple[str, bool]:
    """Return a line of what was understood that reads without a question, or an empty text.

    Beside it whether the unit of its weight is a guess, the figure told without one.
    """
    parts: dict[Kind, str] = {}
    guessed = False
    figure = unitless(line)
    for kind in _ORDER:
        for one in line.of(kind)[:1]:
            parts[kind] = line.text[one.start : one.end].strip(" ,.")
    crops = _crops(line)
    if len(crops) > 1 and "+" not in line.text:
        return "", False  # one crop alone would be written, or a bowl that nobody told
    if crops:
        parts[Kind.NAME] = " + ".join(crops)
    if not {Kind.NAME, Kind.TAG} & parts.keys():
        slip = figure.letters if figure else ""
        near = vocabulary.near(" ".join(word for word in words_not_understood(line) if word != slip))
        if parts.get(Kind.SQUARES, "").upper() in vocabulary.tags:
            parts[Kind.TAG] = f"tag {parts.pop(Kind.SQUARES)}"
        elif near:
            parts[Kind.NAME] = near
        else:
            return "", False  # a crop out of the air would be no help
    if not {Kind.WEIGHT, Kind.UNWEIGHED} & parts.keys():
        metric = vocabulary.context.metric
        bare = [line.text[one.start : one.end] for one in line.of(Kind.NUMBER)]
        left = [one.group() for one in line.words_left()]
        figures = [figure for words in (*bare, *left) for figure in _FIGURE.findall(words)]
        if len(figures) > 1 or any(word.casefold() in UNITS for word in left):
            return "", False  # a weight out of the air would be no help where one was told
        number = figures[0] if figures else "100" if metric else "4"
        likely = figure.unit if figure else None
        own = (likely or habits.unit) if figures else None
        guessed = bool(figures) and own is None
        parts[Kind.WEIGHT] = f"{number} {own.symbol if own else 'g' if metric else 'oz'}"
    for without in ((), (Kind.SQUARES,), (Kind.TO,), (Kind.SQUARES, Kind.TO, Kind.COUNT)):
        offered = " ".join(parts[kind] for kind in _ORDER if kind in parts and kind not in without)
        with suppress(Misread, LineQuestion):
            if len(pickings(offered, vocabulary, day, habits)) == 1:
                return offered, guessed
    return "", False
