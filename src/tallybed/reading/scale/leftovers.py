"""What nobody understood in a line: words that tell nothing, words for the note, and likely slips."""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise

from tallybed.garden.naming import folded, like_word_by_word
from tallybed.garden.units import WEIGHT_UNITS, Unit
from tallybed.reading.base.problems import Misread, listed, quoted
from tallybed.reading.scale.claims import Kind, Line
from tallybed.reading.scale.days import CAPITAL, DAY_WORDS, MONTH_WORDS
from tallybed.reading.scale.destinations import EVERYDAY
from tallybed.reading.scale.numbers import UNIT, UNITS, in_figures, unit_meant, without_sure_groups
from tallybed.reading.scale.questions import SPELLING, Answers, Choice, LineQuestion, answered
from tallybed.reading.scale.torn import EXPECTED
from tallybed.reading.scale.vocabulary import Vocabulary
from tallybed.reading.scale.weights import find_weights
from tallybed.reading.text import measures
from tallybed.reading.text.dates import month_elsewhere

LITTLE = frozenset(
    (
        *("a", "an", "the", "of", "from", "in", "on", "at", "to", "for"),
        *("and", "with", "by", "we", "i", "you", "they", "he", "she", "it"),
        *("its", "them", "that", "which", "this", "these", "those", "some", "picked", "pick"),
        *("cut", "dug", "pulled", "took", "taken", "gave", "given", "got", "harvested", "harvest"),
        *("weighed", "put", "down", "please", "is", "was", "were", "are", "be", "came"),
        *("there", "went", "into", "out", "our", "my", "their", "us"),
        *("just", "weighing", "making", "made", "comes"),
    )
)
"""Words that tell nothing of a picking, and of which nobody need be told that they were passed over."""
EMPTY = LITTLE | {
    *("all", "only", "total", "totals", "totaling", "date", "day", "crop", "weight"),
    *("square", "squares", "bed", "beds", "row"),
}
"""Words that tell nothing of a picking by themselves."""
_HEAVY = frozenset(
    {"no", "not", "never", "or", "minus", "less", "except", "without", "instead", "but", "nor", "wrong"}
)
"""Words that may turn the meaning of a line."""
_REST = frozenset({"rest", "remainder"})
"""Words for what of a picking did not go to the place that is named."""
_REMARKS = frozenset({"rain", "rains", "child", "children"})
"""Words of remarks that are like a crop's name (rapini, chili), and no slips of it beside another crop."""
_ALIKE = 0.8
"""How alike a word beside a known crop must be to a known name to be asked for (1 is equal)."""
_SURELY = 0.7
"""The same where no crop is known: it is the crop that is looked for."""
_BESIDE_NUMBER = re.compile(
    r"\b[0-9]{1,2}(?:st|nd|rd|th)?\.?\s*(?:of\s+)?$|^\.?\s*[0-9]{1,2}(?:st|nd|rd|th)?\b"
)
"""A number right before or right behind a word, as a day's beside its month."""
_WORD_BEHIND = re.compile(r"\s*(?P<word>[^\W\d_]+)\.?")
_NUMBER_AND_MORE = re.compile(
    r"(?<![\w.,/:#-])(?P<number>[0-9]{1,6}(?:[.,][0-9]{1,3})?)(?!(?:st|nd|rd|th)\b)(?P<rest>[^\W\d_]{1,4})(?![\w-])"
)
"""A number that runs on in a few letters, of which most likely the unit was to become: ``2k``."""
_UNIT_AND_NUMBER = re.compile(
    rf"(?<![\w.,/:-])(?P<unit>{UNIT})(?P<number>[0-9]{{1,6}}(?:[.,][0-9]{{1,3}})?)(?![\w/]|[.,:-][0-9])",
    re.IGNORECASE,
)
"""A unit that runs on in its figure: ``lb3``."""
_LIKE_FIGURES = r"(?:[0-9][\w.,/-]*?|[OoIl|][0-9OoIl|.,/]*)"
"""A figure, as of one that begins with a letter like its sign: ``1e3``, ``1.5.2``, ``l2``, ``O.5``."""
_UNREAD = re.compile(
    rf"(?<![\w.,/-])[.,]?{_LIKE_FIGURES}(?:\s+|-|(?<=[0-9.,/OI|]))(?P<unit>(?i:{UNIT}))(?!\w)"
)
_LETTERS_IN_FIGURES = re.compile(r"(?<![\w.,/-])[0-9][0-9.,]*[OoIl][0-9OoIl.,]*(?!\w)")
"""A figure with letters like its signs, and without a unit: ``3OO``, ``1O``."""
_LITRES = re.compile(r"[0-9.,]+l")
_UNIT_BEFORE = re.compile(rf"(?<![\w-])(?!#)(?P<unit>{UNIT})[.:]?\s*$", re.IGNORECASE)
_UNIT_BEHIND = re.compile(rf"[\s/,.]*(?P<unit>{UNIT})(?![\w-])", re.IGNORECASE)
_WORDS_ALONE = re.compile(r"[^\W\d_]*(?:\s+[^\W\d_]+)*\s*")
_VOWELS = frozenset("aeiou")
_AS_NEAR = 0.1
"""How much less alike than the likest another name may be to be asked for too."""


def respelt(line: Line, vocabulary: Vocabulary, answers: Answers) -> str:
    """Return the line with slips of spelling as they were answered. Raises LineQuestion.

    A word like one known name is asked for, as a yes or no; nothing is put right unasked.
    """
    has_crop = bool(line.of(Kind.NAME, Kind.TAG))
    if not has_crop and not line.of(Kind.WEIGHT, Kind.UNWEIGHED):
        return line.text
    known = {*vocabulary.context.names.meanings, *vocabulary.answers, *vocabulary.varieties}
    places = {*EVERYDAY, *vocabulary.destinations}
    for text, start, end in _tried(line, vocabulary):
        near = _near(text, known | places | DAY_WORDS if has_crop else known, _ALIKE if has_crop else _SURELY)
        if has_crop:
            near = near or _months(line.text, text, start, end) or _days_in_short(text)
            # A remark beside a crop is full of words like some name; few slips change the first letter.
            near = [name for name in near if name[0] == folded(text)[0]]
            near = _months_elsewhere(line.text, start, end) or near
        else:
            meant = {slug for name in near for slug in vocabulary.slugs(name)}
            near += [name for name in vocabulary.begun(text) if meant.isdisjoint(vocabulary.slugs(name))]
        near = _one_of_each(near, vocabulary)
        if not near:
            continue
        near = [name.title() if name in CAPITAL else name for name in near]
        choices = [Choice(name, name) for name in near]
        if has_crop or len(line.words_left()) > 1:
            choices.append(Choice(f"none of these; {quoted(text)} is a remark", ""))
        words = f"nothing is called {quoted(text)}; is it {listed(near)}?"
        value = answered(
            answers, LineQuestion(SPELLING, words, tuple(choices), key=f"{SPELLING} {folded(text)}")
        )
        if value:
            return line.text[:start] + value + line.text[end:]
    return line.text


def _tried(line: Line, vocabulary: Vocabulary) -> list[tuple[str, int, int]]:
    """Return what may be a name that was spelt wrong: two words together, then single ones."""
    left = [word for word in line.words_left() if not any(sign.isdigit() for sign in word.group())]
    words = [word for word in left if folded(word.group()) not in EMPTY | _HEAVY]
    pairs = [
        (line.text[one.start() : two.end()], one.start(), two.end())
        for one, two in pairwise(words)
        if not line.text[one.end() : two.start()].strip()
    ]
    single = [
        (word.group(), word.start(), word.end())
        for word in words
        if len(word.group()) > 3 or _months_elsewhere(line.text, *word.span())
    ]
    passed = vocabulary.forms | _REMARKS if line.of(Kind.NAME, Kind.TAG) else vocabulary.forms
    single = [one for one in single if folded(one[0]) not in passed]
    single = [one for one in single if not _is_unripe(line, one[0], one[1])]
    return [*pairs, *single]


def _is_unripe(line: Line, word: str, start: int) -> bool:
    """Return whether "green" says that a picking was unripe: of greens it stands right behind the crop."""
    named = line.of(Kind.NAME)
    behind = any(not line.text[one.end : start].strip() for one in named if one.end <= start)
    return folded(word) == "green" and bool(named or line.of(Kind.TAG)) and not behind


def _near(text: str, known: Iterable[str], alike: float) -> list[str]:
    names = sorted({folded(name) for name in known})
    close = difflib.get_close_matches(folded(text)[:60], names, n=4, cutoff=alike)
    close = [name for name in close if like_word_by_word(text, name)]
    scores = [difflib.SequenceMatcher(None, name, folded(text)[:60]).ratio() for name in close]
    return [name for name, score in zip(close, scores, strict=True) if score >= scores[0] - _AS_NEAR]


def _months(line: str, text: str, start: int, end: int) -> list[str]:
    """Return the months like a word beside a number: ``14 juli``, ``Septembr 1``."""
    beside = _BESIDE_NUMBER.search(line[:start]) or _BESIDE_NUMBER.match(line[end:])
    return _near(text, MONTH_WORDS, _SURELY) if beside else []


def _months_elsewhere(line: str, start: int, end: int) -> list[str]:
    """Return the month that a word beside a number is in another language: ``14 juillet``."""
    beside = _BESIDE_NUMBER.search(line[:start]) or _BESIDE_NUMBER.match(line[end:])
    month = month_elsewhere(line[start:end]) if beside else ""
    return [month] if month else []


def _days_in_short(text: str) -> list[str]:
    """Return the days that a word is short for: ``satur`` (first letters), ``ystdy`` (no vowels)."""
    word = folded(text)
    return [day for day in sorted(DAY_WORDS) if day.startswith(word) or _without_vowels(word, day)]


def _without_vowels(word: str, day: str) -> bool:
    """Return whether a word is a day's first and last letter and some between, without a vowel."""
    letters = iter(day)
    ends = (word[:1], word[-1:]) == (day[0], day[-1])
    return ends and _VOWELS.isdisjoint(word) and all(letter in letters for letter in word)


def _one_of_each(names: list[str], vocabulary: Vocabulary) -> list[str]:
    """Return the likest name of each crop."""
    found: dict[tuple[str, ...], str] = {}
    for name in names:
        found.setdefault(vocabulary.slugs(name) or (name,), name)
    return list(found.values())


def note_told(line: Line) -> tuple[str, tuple[str, ...]]:
    """Return the words for the note, and those that tell nothing. Raises Misread for numbers and turns."""
    left = line.words_left()
    for word in left:
        if any(sign.isdigit() for sign in word.group()):
            found = f"{quoted(word.group())} is not understood"
            raise Misread("line", found, "a count, a square, a date, or a weight with its unit")
    runs: list[list[re.Match[str]]] = []
    for word in left:
        if runs and not line.text[runs[-1][-1].end() : word.start()].strip(" '\"/"):
            runs[-1].append(word)
        else:
            runs.append([word])
    notes: list[tuple[int, int, str]] = []
    passed: list[str] = []
    for run in runs:
        while run and folded(run[0].group()) in EMPTY:
            passed.append(run.pop(0).group())
        behind: list[str] = []
        while run and folded(run[-1].group()) in EMPTY:
            behind.insert(0, run.pop().group())
        passed += behind
        if run:
            notes.append((run[0].start(), run[-1].end(), line.text[run[0].start() : run[-1].end()]))
            heavy = [word.group() for word in run if turns_meaning(word.group())]
            if heavy:
                found = (
                    f"the word {quoted(heavy[0])} in {quoted(notes[-1][2])} may turn the meaning of the line"
                )
                raise Misread("line", found, "“note” before what is only a remark")
            if line.of(Kind.TO) and not _REST.isdisjoint(folded(word.group()) for word in run):
                found = f"{quoted(notes[-1][2])} may be where a part of it went"
                raise Misread("line", found, "“to” before a place, or “note” before what is only a remark")
    notes += [(one.start, one.end, one.value) for one in line.of(Kind.NOTE, Kind.UNWEIGHED) if one.value]
    return _in_one(line, sorted(notes)), tuple(passed)


def turns_meaning(word: str) -> bool:
    """Return whether a word may turn the meaning of a line."""
    return folded(word) in _HEAVY or folded(word).endswith("n't")


def _in_one(line: Line, notes: Iterable[tuple[int, int, str]]) -> str:
    """Return the parts of a note as one text; with the little words between them."""
    text, last = "", 0
    for start, end, part in notes:
        between = line.text[last:start]
        if text and line.is_free(last, start) and _WORDS_ALONE.fullmatch(between):
            text += between.rstrip() + " "
        elif text:
            text += "; "
        text += part.strip()
        last = end
    return text


def words_not_understood(line: Line) -> tuple[str, ...]:
    """Return the words that were not understood, those that tell nothing left out."""
    return tuple(word.group() for word in strange_words(line))


def refuse_unread_weights(line: Line) -> None:
    """Raise Misread for what looks like a figure with its unit and was not read as a weight.

    Whatever else the line tells, a part of it would be offered or written as the whole.
    """
    for match in _UNREAD.finditer(line.text):
        if line.is_free(*match.span("unit")):
            typed = match.group()
            raise Misread("weight", f"{quoted(typed)} is not a weight", EXPECTED, typed=typed)
    for match in line.free(_LETTERS_IN_FIGURES):
        if line.of(Kind.WEIGHT) and _LITRES.fullmatch(match.group()):
            continue  # litres of water, say: told with all that is not understood
        raise Misread("weight", f"{quoted(match.group())} is not a figure", EXPECTED, typed=match.group())
    for weight in line.of(Kind.WEIGHT):
        another = _UNIT_BEHIND.match(line.text, weight.end)
        if another and line.is_free(*another.span("unit")):
            typed = line.text[weight.start : another.end()]
            raise Misread("weight", f"{quoted(typed)} names two units for one figure", EXPECTED, typed=typed)


def strange_words(line: Line) -> tuple[re.Match[str], ...]:
    """Return where the words stand that were not understood."""
    return tuple(word for word in line.words_left() if folded(word.group()) not in EMPTY)


@dataclass(frozen=True, slots=True)
class Unitless:
    """The one figure of a line that no unit follows, and the letters behind it that may be one misspelt."""

    number: str
    letters: str
    """Empty where nothing behind it is like a unit."""
    start: int
    end: int
    """Where the number begins and ends, with those letters or the unit before it."""
    unit: Unit | None
    """The unit before it, or what the letters are most like."""


def unitless(line: Line) -> Unitless | None:
    """Return the figure that no unit follows in a line, or None where there is none or more than one."""
    numbers = line.of(Kind.NUMBER)
    if len(numbers) == 1:
        number = numbers[0]
        before = _UNIT_BEFORE.search(line.text[: number.start])
        if before and line.is_free(*before.span("unit")):
            known = UNITS[before["unit"].casefold()]
            return Unitless(number.value, "", before.start(), number.end, known)
        behind = _WORD_BEHIND.match(line.text, number.end)
        unit = unit_meant(behind["word"]) if behind else None
        if behind is None or unit is None or not line.is_free(*behind.span("word")):
            return Unitless(number.value, "", number.start, number.end, None)
        return Unitless(number.value, behind["word"], number.start, behind.end(), unit)
    starts = [word.start() for word in strange_words(line)]
    led = [match for at in starts if (match := _UNIT_AND_NUMBER.match(line.text, at))]
    found = [match for at in starts if (match := _NUMBER_AND_MORE.match(line.text, at))]
    if numbers or len(led) + len(found) != 1:
        return None
    if led:
        return Unitless(led[0]["number"], "", led[0].start(), led[0].end(), UNITS[led[0]["unit"].casefold()])
    (glued,) = found
    first = folded(glued["rest"])[0]
    unit = unit_meant(glued["rest"]) or next(
        (unit for unit in WEIGHT_UNITS if unit.symbol.startswith(first)), None
    )
    return Unitless(glued["number"], glued["rest"] if unit else "", glued.start(), glued.end(), unit)


def weigh_alone(text: str, decimal: str) -> None:
    """Raise Misread where a text is no weight, or tells more than that; what it leaves open is no matter."""
    line = Line(in_figures(measures.plain(without_sure_groups(text))))
    try:
        find_weights(line, decimal, {})
    except LineQuestion:
        return
    if line.words_left() or len(line.of(Kind.WEIGHT, Kind.UNWEIGHED)) != 1:
        found = f"{quoted(text)} is not one weight with its unit"
        raise Misread("weight", found, "2 lb 3 oz or 620 g, say, or: not weighed")


def tells_weight(text: str, decimal: str) -> bool:
    """Return whether a weight, or that nothing was weighed, is told somewhere in a text."""
    line = Line(in_figures(measures.plain(without_sure_groups(text))))
    try:
        find_weights(line, decimal, {})
    except (LineQuestion, Misread):
        return True
    return bool(line.of(Kind.WEIGHT, Kind.UNWEIGHED))
