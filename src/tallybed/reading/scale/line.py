"""Pickings as people write them at the scale: ``kale 12 oz 6/20 E1-E4 pantry``, or a whole clipboard.

Each recogniser claims the words it knows, whatever their order; what nobody claims goes to
the note, is shown as telling nothing, or is asked about. Nothing of a line is lost, and
nothing is guessed: what can be read two ways is a question.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date

from tallybed.garden.days import in_full
from tallybed.garden.invisible import UNSEEN, described
from tallybed.garden.naming import CropName
from tallybed.garden.records.ledger import State
from tallybed.garden.records.pickings import Picking
from tallybed.garden.units import Unit, weight_units
from tallybed.reading.base.context import ADD_CROP
from tallybed.reading.base.problems import Misread, listed, quoted
from tallybed.reading.scale import days, leftovers, names, places, torn, vague, weights
from tallybed.reading.scale.claims import Claim, Kind, Line
from tallybed.reading.scale.counts import ask_of_what_may_count, count_told, find_counts, leave_to_note
from tallybed.reading.scale.days import DaysKnown
from tallybed.reading.scale.destinations import find_destinations, find_exact_names
from tallybed.reading.scale.numbers import UNITS, amount, in_figures, plain, without_sure_groups
from tallybed.reading.scale.parting import day_of_others, is_bowl, joins, parted, places_of_all, shares_told
from tallybed.reading.scale.questions import WEIGHT, Answers, Choice, LineQuestion, answered
from tallybed.reading.scale.vocabulary import Vocabulary
from tallybed.reading.scale.weights import Told
from tallybed.reading.spreadsheet.dates import DateOrder
from tallybed.reading.text import measures, texts
from tallybed.reading.text.dates import MEND_BOUNDS, to_begin
from tallybed.reading.text.states import STATES

LONGEST = 300
"""Characters of the longest line anybody says."""
MOST_LINES = 200
"""Lines of the longest text that is taken at once."""
UNWEIGHED = "not weighed"
_BULLET = re.compile(r"^\s*[-*•·–—]\s+")
_NUMBERED = re.compile(r"^\s*[0-9]{1,2}[.)]\s+")
_NOTE = re.compile(r"(?<!\S)note:?\s+(?P<text>.+)$", re.IGNORECASE)
_AS = re.compile(r"(?<![\w-])as:?\s+(?P<form>(?:in\s+)?[^\W\d_]+)", re.IGNORECASE)
_QUALIFIED = re.compile(
    r"\b(?:mostly|partly|some|half|few|still|bit|little|too|rather|very)\s+$", re.IGNORECASE
)
"""What makes a remark of a form: ``mostly green``."""
_STATE = re.compile(rf"(?<![\w-])({'|'.join(STATES)})(?![\w-])", re.IGNORECASE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Habits:
    """What a garden settled about how its people write."""

    order: DateOrder | None = None
    """Which number comes first in dates that are all numbers."""
    unit: Unit | None = None
    """The unit of the scale."""
    decimal: str = ""
    """The sign before decimals, ``comma`` or ``point``; empty where that is not settled."""


def example(*, metric: bool) -> str:
    """Return a line as it may be typed, weighed as the garden weighs."""
    return f"tomato {'1.2 kg' if metric else '2 lb 3 oz'} C2:C3"


def pickings(
    text: str, vocabulary: Vocabulary, day: date, habits: Habits | None = None, answers: Answers | None = None
) -> tuple[Picking, ...]:
    """Read what was typed on a day, of one line or several.

    Raises Misread, also where nothing is understood; LineQuestion where something is open.
    """
    return _Reader(vocabulary, day, habits or Habits(), answers or {}).read(text)


@dataclass(frozen=True, slots=True)
class _Reader:
    """Reads what was typed on ``day``, with what the garden has settled and what was answered so far.

    Its methods raise Misread and LineQuestion, as ``pickings`` does.
    """

    vocabulary: Vocabulary
    day: date
    habits: Habits
    answers: Answers

    def read(self, text: str) -> tuple[Picking, ...]:
        rows = [row for row in text.splitlines() if row.strip()]
        if len(rows) > MOST_LINES:
            raise Misread("line", f"the text has {len(rows)} lines", f"{MOST_LINES} lines at most")
        found: list[Picking] = []
        governing: date | None = None
        for row in rows or [text]:
            line = self._line(row, several=len(rows) > 1)
            heading = not line.of(Kind.NAME, Kind.TAG, Kind.WEIGHT, Kind.UNWEIGHED, Kind.SQUARES)
            if len(rows) > 1 and heading and line.of(Kind.DAY):
                governing = days.day_told(line, self._days, self.answers)
                strange = leftovers.words_not_understood(line)
                if strange or line.of(Kind.NUMBER, Kind.COUNT, Kind.TO):
                    raise Misread(
                        "line", f"{quoted(row.strip())} tells a day and more, but no crop", self._line_words
                    )
                continue
            found += self._pickings(line, governing)
        return tuple(found)

    @property
    def _line_words(self) -> str:
        """What a line is expected to say."""
        return f"a crop or tag, and a weight, such as: {example(metric=self.vocabulary.context.metric)}"

    @property
    def _days(self) -> DaysKnown:
        return DaysKnown(self.day, self.vocabulary.context.span, self.habits.order)

    def _line(self, row: str, *, several: bool) -> Line:
        """Return a line with all that is understood of it."""
        typed = " ".join(without_sure_groups(_BULLET.sub("", row)).replace("\t", " , ").split())
        typed = _NUMBERED.sub("", typed) if several else typed
        if len(typed) > LONGEST:
            raise Misread("line", f"the line {quoted(typed)} is too long", f"{LONGEST} characters at most")
        unseen = UNSEEN.search(typed)
        if unseen is not None:
            raise Misread("unseen-character", described(unseen.group()), remedy="delete it")
        text = in_figures(measures.plain(typed))
        line = self._claimed(text)
        for _time in range(len(text)):
            again = leftovers.respelt(line, self.vocabulary, self.answers)
            if again == text:
                break
            text, line = again, self._claimed(again)
        leftovers.refuse_unread_weights(line)
        strange = leftovers.strange_words(line)
        ask_of_what_may_count(line, strange, self.answers)
        vague.refuse_words_like_days(line, strange)
        return line

    def _claimed(self, text: str) -> Line:
        """Return a line with the words claimed that something recognises, one recogniser after the other."""
        line = Line(text)
        for match in line.free(_NOTE):
            line.claim(Kind.NOTE, match.start(), match.end(), match.group("text"))
        find_exact_names(line, self.vocabulary)
        torn.refuse_torn_figures(line)
        torn.refuse_other_units(line, weighed=True)
        for match in line.free(_AS):
            line.claim(Kind.FORM, match.start(), match.end(), match.group("form"))
        names.find_tags(line, self.vocabulary)
        names.find_names(line, self.vocabulary)
        names.find_bowl_words(line)
        days.find_days(line, self._days)
        days.find_number_days(line, self._days, self.answers)
        vague.ask_of_vague_days(line, self._days, self.answers)
        weights.find_weights(line, self.habits.decimal, self.answers)
        names.leave_neighbours(line)
        places.find_places(line, self.vocabulary)
        self._forms(line)
        for match in line.free(_STATE):
            line.claim(Kind.STATE, match.start(), match.end(), match.group(1).casefold())
        find_counts(line)
        find_destinations(line, self.vocabulary, self.answers)
        leave_to_note(line)
        places.ask_of_before(line, self.vocabulary, self.answers)
        return line

    def _forms(self, line: Line) -> None:
        """Claim the forms that the ledger knows: ``dry``, ``bunched``."""
        known = "|".join(map(re.escape, sorted(self.vocabulary.forms, key=len, reverse=True)))
        if known:
            for match in line.free(re.compile(rf"(?<![\w-])(?:as\s+)?({known})(?![\w-])", re.IGNORECASE)):
                if _QUALIFIED.search(line.text[: match.start()]):
                    continue
                line.claim(Kind.FORM, match.start(), match.end(), match.group(1))

    def _pickings(self, line: Line, governing: date | None) -> Iterator[Picking]:
        parts = parted(line, self.answers)
        told = [days.day_told(part, self._days, self.answers) for part in parts]
        shared = places_of_all(line, parts, self.answers)
        head = parts[0]
        before = [one for one in head.of(Kind.DAY) if one.end <= _first(head)]
        if len(parts) > 1 and told[0] and before and len(set(told) - {None}) == 1:
            governing = told[0]
        elif any(told) and not all(told):
            governing = day_of_others(line, told, governing or self.day, self.answers)
        for part in parts[:-1]:
            part.claims += shared
        for part, own in zip(parts, told, strict=True):
            yield self._picking(part, own or governing, line.text if len(parts) == 1 else part.text)

    def _picking(self, line: Line, day: date | None, typed: str) -> Picking:
        """Return the one picking of a line, of the day told or of the day it was typed."""
        crops, variety, tag, answer = self._what(line)
        total, others, bare = self._weight(line)
        count = count_told(line, bare=not bare)
        if total is not None and line.of(Kind.EACH):
            if count is None:
                found = f"the line does not say how many weighed {quoted(total.text)} each"
                raise Misread("line", found, "a count, as in 6 at 4 oz each")
            total = weights.times(total, count)
        note, passed = leftovers.note_told(line)
        shares = shares_told(line, total, others)
        state = _only(line, Kind.STATE, f"one of {listed(STATES)}")
        form = _only(line, Kind.FORM, "one form")
        squares = places.places_told(line, self.vocabulary)
        picked = day or self.day
        span = self.vocabulary.context.span
        if picked not in span:
            raise Misread(
                "date-outside-season",
                f"{in_full(picked)} lies in no season",
                f"the day it was picked, from {in_full(span.first)} to {in_full(span.last)}",
                remedy=MEND_BOUNDS + to_begin(span, picked),
            )
        one_place = len(shares) == 1 and shares[0].weight is None and shares[0].text == ""
        return Picking(
            typed=typed.strip(),
            day=picked,
            crops=crops,
            answer=answer,
            answers=tuple(self.vocabulary.answer(crop.typed) for crop in crops) if len(crops) > 1 else (),
            variety=variety,
            tag=tag,
            bed="" if squares else places.bed_told(line),
            places=squares,
            row=places.row_told(line),
            weight=total.weight if total else None,
            weight_text=total.text if total else self._unweighed(line),
            estimated=total.estimated if total else False,
            count=count,
            to=shares[0].name if one_place else "",
            shares=() if one_place else tuple(replace(one, text=one.text or "the rest") for one in shares),
            form=texts.line(form),
            state=STATES[state] if state else State.FRESH,
            weighed=self.day if picked != self.day and line.of(Kind.PICKED) else None,
            note=texts.line(note),
            passed_over=passed,
        )

    def _unweighed(self, line: Line) -> str:
        return next(
            (
                line.text[one.start : one.end]
                for one in line.of(Kind.UNWEIGHED)
                if measures.plain(line.text[one.start : one.end]).casefold() == UNWEIGHED
            ),
            UNWEIGHED,
        )

    def _what(self, line: Line) -> tuple[tuple[CropName, ...], str, str, str]:
        """Return the crops, the variety, the tag and the answer that says which crop was meant."""
        found = names.groups(line)
        if len(found) > 1 and is_bowl(line, found, self.answers):
            bowl = [names.what_told(group, self.vocabulary)[0] for group in found]
            crops = tuple(crop for crop in bowl if crop is not None)
            if len({crop.slugs for crop in crops}) < 2:
                raise Misread(
                    "mixed-of-one", f"a mixed bowl of {quoted(crops[0].typed)} alone", "two crops or more"
                )
            return crops, "", "", ""
        if len(found) == 1:
            crop, variety, tag, answer = names.what_told(found[0], self.vocabulary)
            if crop and joins(line):
                raise Misread(
                    "mixed-of-one",
                    f"a “+” stands beside {quoted(crop.typed)} alone",
                    "“+” between crops of one bowl, and weights added up",
                )
            return (crop,) if crop else (), variety, tag, answer
        if found:
            raise Misread("line", f"{quoted(line.text.strip())} names several crops", "a line for each")
        strange = leftovers.words_not_understood(line)
        if strange:
            near = self.vocabulary.context.offered(self.vocabulary.near(" ".join(strange)))
            found_words = f"no crop is named; not understood: {listed(map(quoted, strange), 'and')}"
            if not line.of(Kind.WEIGHT, Kind.UNWEIGHED):
                found_words = f"neither crop nor weight is told; {found_words}"
            remedy = "" if near else ADD_CROP
            raise Misread("unknown-crop", found_words, self._line_words, near, remedy)
        if not line.of(Kind.SQUARES) or not line.of(Kind.WEIGHT, Kind.UNWEIGHED):
            raise Misread("line", "the line does not say what was weighed", self._line_words)
        return (), "", "", ""

    def _weight(self, line: Line) -> tuple[Told | None, list[Claim], bool]:
        """Return the weight, the weights of shares, and whether the weight was a bare number."""
        found = line.of(Kind.WEIGHT)
        if found:
            if any(not one.value for one in line.of(Kind.UNWEIGHED)):
                raise Misread(
                    "line", "the line has a weight and says that nothing was weighed", "one of them"
                )
            return found[0].value, found[1:], False
        if line.of(Kind.UNWEIGHED):
            return None, [], False
        figure = leftovers.unitless(line)
        if self.habits.unit and line.of(Kind.NUMBER) and figure and not figure.unit:
            unit = self.habits.unit
            value = amount(figure.number, unit, self.habits.decimal, self.answers)
            text = f"{plain(value)} {unit.symbol}"
            return Told(measures.weight(text), text, unit=unit), [], True
        return self._weightless(line, figure)

    def _weightless(
        self, line: Line, figure: leftovers.Unitless | None
    ) -> tuple[Told | None, list[Claim], bool]:
        number = figure.number if figure else ""
        likely = figure.unit.symbol if figure and figure.unit else ""
        usual = [unit.symbol for unit in weight_units(metric=self.vocabulary.context.metric)]
        choices = [Choice(f"{number} {unit}", f"{number} {unit}") for unit in usual] if number else []
        if number.isdigit() or not number:
            choices.insert(0, Choice(f"{number} counted, not weighed" if number else UNWEIGHED, UNWEIGHED))
        choices.sort(key=lambda choice: choice.value != f"{number} {likely}")
        why = f": no unit follows {number}" if number else ""
        if figure and figure.letters:
            why = f": {quoted(figure.letters)} is not a unit of weight"
        question = LineQuestion(
            WEIGHT,
            f"the line {quoted(line.text.strip())} has no weight{why}",
            tuple(choices),
            key=f"{WEIGHT} {line.text}",
        )
        value = answered(self.answers, question)
        if figure and (value != UNWEIGHED or not line.of(Kind.NUMBER)):
            line.claim(Kind.NUMBER, figure.start, figure.end, number)  # its letters are no note
        if value == UNWEIGHED:
            return None, [], False
        unit_named = UNITS[value.rpartition(" ")[2]]
        exact = amount(number, unit_named, self.habits.decimal, self.answers)
        text = f"{plain(exact)} {unit_named.symbol}"
        return Told(measures.weight(text), text, unit=unit_named), [], True


def _only(line: Line, kind: Kind, expected: str) -> str:
    """Return the one word of a kind, or an empty text. Raises Misread where the line says several."""
    found = sorted({one.value for one in line.of(kind)})
    if len(found) > 1:
        raise Misread("line", f"the line says {listed(found, 'and')}", expected)
    return "".join(found)


def _first(line: Line) -> int:
    """Return where the first word of a picking itself stands."""
    told = line.of(Kind.NAME, Kind.TAG, Kind.WEIGHT, Kind.COUNT, Kind.NUMBER, Kind.SQUARES)
    return told[0].start if told else len(line.text)
