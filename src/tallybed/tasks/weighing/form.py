"""The preview's form as a scale: what is typed into its fields is said as one line, and written so."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from datetime import date
from pathlib import Path

from tallybed.garden.days import in_full
from tallybed.garden.findings import capital, sentence
from tallybed.garden.garden import Season
from tallybed.garden.plurals import figured
from tallybed.garden.squares import in_words
from tallybed.publishing.swap.machine import machine_words
from tallybed.reading.base.problems import LeftOut, Misread
from tallybed.reading.scale.counts import MOST
from tallybed.reading.scale.leftovers import tells_weight, weigh_alone
from tallybed.reading.scale.numbers import NUMBER
from tallybed.reading.scale.vocabulary import Vocabulary
from tallybed.reading.text import dates, measures, texts
from tallybed.server.weigh_form import DAY_FIELD, Asked, FormHeard, Typed, Wrong
from tallybed.tasks.base.errors import BrokenError, UsageError
from tallybed.tasks.base.garden import GARDEN_FILE, understood
from tallybed.tasks.weigh import scale
from tallybed.tasks.weighing.inside import not_before
from tallybed.tasks.weighing.scale import MisheardError, Scale, Slip


class GardenScales:
    """A garden's ledger as the form weighs into it, read anew each time: it may have changed meanwhile."""

    def __init__(self, root: Path, today: Callable[[], date]) -> None:
        self._root = root
        self._today = today

    def today(self) -> str:
        """See ``weigh_form.Scales``."""
        return self._today().isoformat()

    def ripe(self) -> tuple[tuple[str, str], ...]:
        """See ``weigh_form.Scales``."""
        try:
            at = scale(self._root, self._today())
        except (UsageError, OSError):
            return ()
        with_bed = len(at.garden.beds) > 1
        found = []
        for one in at.ripe():
            name = at.garden.crop(one.crop.slug).name if one.crop.slug else one.crop.typed
            waits = not_before(at.year, one.planting, at.day)
            where = f"in {in_words(one.squares, with_bed=with_bed)}"
            parts = (name, one.variety, one.tag, where, f"({waits})" if waits else "")
            found.append((one.tag or name, " ".join(part for part in parts if part)))
        return tuple(dict(found).items())

    def hear(self, typed: Typed) -> FormHeard | Asked | Wrong:
        """See ``weigh_form.Scales``."""
        answer = self._heard(typed)
        if isinstance(answer, tuple):
            at, slip = answer
            return _heard(at, slip, self._today())
        return answer

    def write(self, typed: Typed, row: str, *, inside: bool = False) -> FormHeard | Wrong:
        """See ``weigh_form.Scales``."""
        answer = self._heard(typed)
        if not isinstance(answer, tuple) or answer[1].row != row:
            return Wrong(whole="The garden's files have changed since this was shown. Look at it again.")
        at, slip = answer
        heard = _heard(at, slip, self._today())
        if heard.asks and not inside:
            return Wrong(whole=f"{_sentence(heard.waits)} Nobody answered for it. Look at it again.")
        try:
            at.write([slip])
        except MisheardError as error:
            return Wrong(whole=str(error))
        except OSError as error:
            return Wrong(whole=f"The ledger could not be written: {machine_words(error)}.")
        return heard

    def _heard(self, typed: Typed) -> tuple[Scale, Slip] | Asked | Wrong:
        """Return the scale of the day and the picking it understood; else a question, or what is wrong."""
        if not typed.day:
            return Wrong(by_field={"day": "Say on which day."})
        try:
            at = scale(self._root, dates.with_year(typed.day))
        except Misread as misread:
            return Wrong(by_field={"day": _sentence(misread.sentence)})
        except BrokenError:
            return Wrong(whole=f"{GARDEN_FILE} cannot be understood. Correct it first.")
        except UsageError:
            return Wrong(by_field={"day": _in_no_season(understood(self._root).garden.seasons)})
        except OSError as error:
            return Wrong(whole=f"The garden could not be read: {machine_words(error)}.")
        season = at.year.season
        if at.day not in season.span:
            return Wrong(by_field={"day": _in_no_season([season])})
        asked: list[Asked] = []

        def ask(question: str, choices: Sequence[str]) -> int | None:
            """Return the number of the answer given in the form; keep the question where there is none."""
            given = next((one for one in reversed(typed.choices) if one in choices), None)
            if given is None:
                asked.append(Asked(words=question, choices=tuple(choices)))
                return None
            return choices.index(given)

        unfit = _unfit(typed, at.habits.decimal)
        if unfit:
            return Wrong(by_field=unfit)
        try:
            heard = at.hear(_line(typed), ask)
            if len(heard.slips) != 1:
                return Wrong(whole="Several pickings are told. Weigh them in one after the other.")
            return at, heard.slips[0]
        except MisheardError as error:
            return asked[-1] if asked else _wrong(typed, at.vocabulary, error)


def _heard(at: Scale, slip: Slip, today: date) -> FormHeard:
    """Return a slip as the form shows it, with the totals it moves."""
    coming = f"{in_full(at.day)} has not come yet" if at.day > today else ""
    return FormHeard(
        words=slip.words,
        row=slip.row,
        ledger=at.ledger,
        doubt="; ".join(filter(None, (coming, slip.doubt, _left_out(at)))),
        hint=slip.hint,
        waits=slip.waits,
        asks=slip.asks,
        running=tuple((one.of, one.before, one.after) for one in at.running([slip])),
    )


def _in_no_season(seasons: Sequence[Season]) -> str:
    """Return that no season holds a day, with those that there are."""
    spans = [f"{one.name} runs from {in_full(one.span.first)} to {in_full(one.span.last)}" for one in seasons]
    return f"No season of this garden holds that day{': ' if spans else ''}{'; '.join(spans)}."


def _left_out(at: Scale) -> str:
    """Return that the garden's files have errors, and what follows for the totals; empty where none has."""
    if not at.errors:
        return ""
    errors = figured(len(at.errors), "error")
    return f"the garden’s files have {errors}: what cannot be understood is not counted"


_BARE = re.compile(NUMBER)
"""A weight without its unit: that of the scale, where it is settled, or else asked for."""


def _unfit(typed: Typed, decimal: str) -> dict[str, str]:
    """Return what is wrong with fields that take one thing alone, and with those that are needed."""
    found = {}
    if not typed.what:
        found["what"] = "Say what was picked."
    if not typed.weight and not tells_weight(typed.what, decimal):
        found["weight"] = "Say what it weighed, or: not weighed."
    elif typed.weight and not _BARE.fullmatch(typed.weight):
        try:
            weigh_alone(typed.weight, decimal)
        except Misread as misread:
            found["weight"] = _sentence(misread.sentence)
    if typed.count:
        try:
            measures.whole(1, MOST)(typed.count)
        except Misread as misread:
            found["count"] = _sentence(misread.sentence)
    return found


def _line(typed: Typed) -> str:
    """Return the fields as one line said at the scale."""
    parts = [
        typed.what,
        f"count {typed.count}" if typed.count else "",
        typed.weight,
        typed.squares,
        f"to {typed.to}" if typed.to else "",
        f"note {typed.note}" if typed.note else "",
    ]
    return " ".join(part for part in parts if part)


def _wrong(typed: Typed, vocabulary: Vocabulary, error: MisheardError) -> Wrong:
    """Return what is wrong with each field by itself; with none, what was said of the whole."""
    found = {}
    for name, scan in _SCANS.items():
        text = getattr(typed, name)
        # A figure beside a name is a day, a weight or a count, of which the whole line says more.
        if text and not (name == "what" and any(map(str.isdigit, text))):
            try:
                scan(text, vocabulary)
            except Misread as misread:
                found[name] = _sentence(misread.sentence)
            except LeftOut:
                continue
    if found:
        return Wrong(by_field=found)
    why = error.misread
    if why and why.code == "date-outside-season":
        # The command takes such a day as an option, the form in a field.
        remedy = f"for a day of another season fill in “{DAY_FIELD}”"
        return Wrong(whole=_sentence(sentence(why.found, why.expected, remedy=remedy)))
    return Wrong(whole=_sentence(error.why))


def _what(text: str, vocabulary: Vocabulary) -> object:
    """Read what was picked: a tag, a mixed bowl or a crop. Raises Misread."""
    return text.upper() in vocabulary.tags or "+" in text or vocabulary.what(text)


_SCANS: dict[str, Callable[[str, Vocabulary], object]] = {
    "what": _what,
    "squares": lambda text, vocabulary: vocabulary.places(text),
    "to": lambda text, _vocabulary: texts.line(text),
    "note": lambda text, _vocabulary: texts.line(text),
}
"""How each field is read by itself; weight and count were, before the whole was."""


def _sentence(text: str) -> str:
    """Return a text with a capital at its beginning and a full stop, unless it has an end of its own."""
    return capital(text) + ("" if text.endswith((".", "?", ")")) else ".")
