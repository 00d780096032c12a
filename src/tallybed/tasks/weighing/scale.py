"""A garden's ledger on a day: what is said becomes rows, shown before they are written."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from functools import cached_property
from pathlib import Path

from tallybed.garden.days import in_full
from tallybed.garden.findings import Finding
from tallybed.garden.garden import Garden
from tallybed.garden.naming import Names
from tallybed.garden.records.ledger import State, Weighing
from tallybed.garden.records.pickings import Picking, PickingSource, weighing
from tallybed.garden.squares import Square, in_words
from tallybed.reading.base.problems import Misread, quoted
from tallybed.reading.folder.known_files import CONTENT, LEDGER
from tallybed.reading.folder.ledger_check import disagreement
from tallybed.reading.scale.destinations import went
from tallybed.reading.scale.helping import help_with
from tallybed.reading.scale.line import Habits, pickings
from tallybed.reading.scale.questions import LineQuestion
from tallybed.reading.scale.vocabulary import Vocabulary
from tallybed.reckoning.calendar.windows.ripe import Ripe, ripe
from tallybed.reckoning.harvest.belief import Belief
from tallybed.reckoning.harvest.picking_source import Refused, SourceQuestion, only_one, whose
from tallybed.reckoning.harvest.stood import stood_in
from tallybed.reckoning.harvest.tally import MIXED, Total, added, bowl
from tallybed.reckoning.harvest.total_words import in_words as total_in_words
from tallybed.reckoning.waits.pickings import inside, is_discarded
from tallybed.reckoning.year import Year
from tallybed.tasks.base.garden import year_of
from tallybed.tasks.site.unread import Unread, unread_treatments, unread_words
from tallybed.tasks.weighing.doubts import doubts
from tallybed.tasks.weighing.inside import waits_words
from tallybed.tasks.weighing.left_standing import tags_left
from tallybed.writing.ledger import UnfitError, append, turn
from tallybed.writing.ledger_row import row

MOST_QUESTIONS = 50
"""Questions that one text may raise."""
Ask = Callable[[str, Sequence[str]], int | None]
"""Given a question and its answers in words; returns the number of the one chosen, or None."""


class MisheardError(Exception):
    """A line cannot be written down as it was said; the message says why and what would do."""

    def __init__(self, text: str, why: str, helps: str = "", *, misread: Misread | None = None) -> None:
        """Take the line, what is wrong with it, what helps at the scale, and what was misread in it."""
        super().__init__(f"{quoted(text)}: {why}{helps}" if text else why)
        self.why = why
        self.misread = misread


@dataclass(frozen=True, slots=True, kw_only=True)
class Slip:
    """One picking, understood."""

    weighing: Weighing
    row: str
    """As it will stand in the ledger."""
    words: str
    """What was understood, for the person at the scale."""
    doubt: str = ""
    hint: str = ""
    """How it is said so that it counts for the one planting it may be of; empty where it counts for one."""
    passed_over: tuple[str, ...] = ()
    """Words that told nothing."""
    waits: str = ""
    """What it comes, or may come, from inside of, with the first safe day; empty where nothing waits."""

    @property
    def asks(self) -> bool:
        """Whether a person has to answer for it: it may come from inside a wait and is not discarded."""
        return bool(self.waits) and not is_discarded(self.weighing)


@dataclass(frozen=True, slots=True, kw_only=True)
class Heard:
    """A text understood: its pickings, and what was answered on the way."""

    slips: tuple[Slip, ...]
    answers: Mapping[str, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Running:
    """A total before and after what is about to be written."""

    of: str
    before: str
    after: str


@dataclass(frozen=True, kw_only=True)
class Scale:
    """A garden's ledger on a day, ready to be written to."""

    root: Path
    year: Year
    """The season weighed for, as seen from its newest record or from the day, whichever is later."""
    vocabulary: Vocabulary
    day: date
    habits: Habits = field(default_factory=Habits)
    """What the garden settled about how its people write."""
    errors: tuple[Finding, ...] = ()
    """What in the content could not be understood, and so is known of nowhere here."""
    _longer: dict[tuple[Weighing, ...], Year] = field(default_factory=dict, repr=False, compare=False)
    """The season with the rows that were asked about last."""

    @cached_property
    def unread(self) -> tuple[Unread, ...]:
        """What of the log could not be understood and may tell a wait. Raises OSError."""
        return unread_treatments(self.root, self.errors)

    @property
    def garden(self) -> Garden:
        """The garden whose ledger it is."""
        return self.year.garden

    @property
    def names(self) -> Names:
        """What the garden's crops are called, and how its files write them."""
        return self.vocabulary.context.names

    @property
    def ledger(self) -> str:
        """Path of the ledger below the garden folder."""
        return f"{CONTENT}/{self.year.name}/{LEDGER}"

    def ripe(self) -> tuple[Ripe, ...]:
        """Return what can be ripe on the day."""
        return ripe(self.garden, self.year.season, self.year.holding, self.day)

    def hear(self, text: str, ask: Ask | None = None) -> Heard:
        """Return what a text tells.

        Raises MisheardError, also where something is open and nobody answers.
        """
        answers: dict[str, str] = {}
        for _time in range(MOST_QUESTIONS):
            try:
                told = pickings(text, self.vocabulary, self.day, self.habits, answers)
            except Misread as misread:
                helping = help_with(text, self.vocabulary, self.day, self.habits, misread.typed)
                helps = "".join(f"\n  {words}" for words in (*helping, *tags_left(self.year, text)))
                raise MisheardError(text, misread.sentence, helps, misread=misread) from None
            except LineQuestion as question:
                answers[question.kept_as] = self._answer(text, question, ask)
            else:
                return Heard(slips=tuple(self._placed(text, one, ask) for one in told), answers=answers)
        raise MisheardError(text, "too much of it is open")

    def _answer(self, text: str, question: LineQuestion, ask: Ask | None) -> str:
        words = [choice.words for choice in question.choices]
        number = ask(question.words, words) if ask else None
        if number is not None:
            return question.choices[number].value
        asks = question.words.endswith("?")
        if len(words) == 1:
            raise MisheardError(
                text, f"{question.words}{' If so, say' if asks else '; say it, or'}: {words[0]}"
            )
        listed = "".join(f"\n  {choice}" for choice in words)
        raise MisheardError(text, f"{question.words}{' Say' if asks else '; say'} which:{listed}")

    def _placed(self, text: str, told: Picking, ask: Ask | None) -> Slip:
        answer = whose(self.year.holding, told, self.names)
        if isinstance(answer, Refused):
            raise MisheardError(text, answer.words)
        if isinstance(answer, SourceQuestion):
            source, doubt = self._asked(text, answer, ask), ""
        else:
            source, doubt = answer.source, answer.doubt
        slip = replace(self.slip(told, source, doubt, dated=True), hint=self._hint(told, source))
        slip = replace(
            slip, doubt="; ".join(filter(None, (slip.doubt, *doubts(self._with([slip.weighing])))))
        )
        too_much = self.belief.beyond(slip.weighing)
        if too_much and (ask is None or ask(too_much, ["it weighed so much", "no"]) != 0):
            raise MisheardError(text, too_much)
        return slip

    def _with(self, records: Sequence[Weighing]) -> Year:
        """Return the season with rows that are about to be written, as seen from the newest of all."""
        asked = tuple(records)
        if asked not in self._longer:  # one picking is asked about more than once before it is written
            longer = replace(self.year.season, ledger=(*(self.year.season.ledger or ()), *asked))
            today = max(self.year.today, *(one.told_on for one in asked))
            self._longer.clear()
            self._longer[asked] = year_of(self.year.years.garden, longer, today)
        return self._longer[asked]

    def slip(self, told: Picking, source: PickingSource, doubt: str = "", *, dated: bool = False) -> Slip:
        """Return a picking from a known source as it will be written.

        ``dated``: where it was not picked on the day of the scale, its words say so.
        """
        record = weighing(told, source, self.names)
        return Slip(
            weighing=record,
            row=row(
                record,
                told.weight_text,
                with_bed=len(self.garden.beds) > 1,
                shares=[(share.name, share.text) for share in told.shares],
            ),
            words=", ".join(self._parts(told, source, dated=dated)),
            doubt=doubt,
            passed_over=told.passed_over,
            waits="; ".join(filter(None, (self._waits(record), unread_words(self.unread, told.day)))),
        )

    def _hint(self, told: Picking, source: PickingSource) -> str:
        """Return how the only planting that a picking may be of is named; empty where none or several may."""
        found = only_one(self.year.holding, told, source)
        if found is None:
            return ""
        planting, where = found
        squares = in_words(sorted(where), with_bed=len(self.garden.beds) > 1)
        say = planting.tag or squares
        return f"it counts for no planting; if it came from the one in {squares}, say {say} with it"

    def _waits(self, record: Weighing) -> str:
        """Return what a picking may come from inside of, in words; empty where no known wait reaches it."""
        return waits_words(inside(record, self.year.waiting.waits, self.year.holding.planting))

    def running(self, slips: Sequence[Slip]) -> tuple[Running, ...]:
        """Return how totals of crops and of the season move with rows that are about to be written."""
        before, after = self.year.lines, self._with([slip.weighing for slip in slips]).lines
        new = {line.crop for line in after if line.weighing >= len(self.year.season.ledger or ())}
        moved = [
            Running(
                of=self._called(crop),
                before=self._total(added(line for line in before if line.crop == crop)),
                after=self._total(added(line for line in after if line.crop == crop)),
            )
            for crop in sorted(new, key=lambda crop: self._called(crop).casefold())
        ]
        whole = Running(
            of=f"All of {self.year.name}" + (", which is closed" if self.year.season.closed else ""),
            before=self._total(added(before)),
            after=self._total(added(after)),
        )
        return (*moved, whole)

    def write(self, slips: Sequence[Slip]) -> None:
        """Add the rows to the ledger, all or none. Raises OSError; MisheardError where it takes none."""
        content = self.root / CONTENT
        records = [slip.weighing for slip in slips]
        try:
            with turn(content):
                append(
                    content,
                    f"{self.year.name}/{LEDGER}",
                    [slip.row for slip in slips],
                    agreement(self.ledger, records, self.vocabulary),
                )
        except UnfitError as unfit:
            raise MisheardError("", f"{self.ledger} was left as it was: {unfit}") from None

    def _asked(self, text: str, question: SourceQuestion, ask: Ask | None) -> PickingSource:
        """Return the source that ``ask`` chose. Raises MisheardError, naming the choices, if none."""
        words = [self.choice(source, self.day) for source in question.choices]
        number = ask(question.words, words) if ask else None
        if number is not None:
            return question.choices[number]
        listed = "".join(f"\n  {choice}" for choice in words)
        raise MisheardError(text, f"{question.words}; say which, by tag, squares or full name:{listed}")

    def choice(self, source: PickingSource, day: date) -> str:
        """Return in words what a picking of a day may come from, with what to say for it."""
        squares = source.squares
        if source.tag:
            stood = stood_in(self.year.holding, self.year.holding.planting(source.planting), day)
            squares = tuple(sorted(stood))
        parts = [source.tag, self.garden.crop(source.crop).name if source.crop else ""]
        where = f"in {self._squares(squares)}" if squares else ""
        return " ".join(part for part in (*parts, where) if part)

    def _parts(self, told: Picking, source: PickingSource, *, dated: bool) -> list[str]:
        """Return what was understood in words, part by part: crop, tag, squares, count, weight and so on."""
        parts = [" + ".join(map(self._called, source.bowl or (source.crop,)))]
        parts[0] = parts[0] or (told.crops[0].typed if told.crops else source.tag)
        if told.variety:
            parts[0] += f" {told.variety}"
        if source.tag:
            parts.append(source.tag)
        parts.append(f"from {self._squares(source.squares)}" if source.squares else "")
        if not (source.squares or source.tag):
            parts.append("square not told")
        parts.append(f"{told.count} counted" if told.count is not None else "")
        parts.append(told.weight_text)
        parts.append(went(told.to) if told.to else "")
        parts += [f"{share.text} {went(share.name)}" for share in told.shares]
        parts.append(f"as {told.form}" if told.form else "")
        parts.append("" if told.state is State.FRESH else told.state.value)
        parts.append(
            f"picked {in_full(told.day)}" if told.weighed or (dated and told.day != self.day) else ""
        )
        parts.append(f"note: {told.note}" if told.note else "")
        return [part for part in parts if part]

    def _called(self, crop: str) -> str:
        """Return a crop's name by its slug, or the names of a mixed bowl's crops."""
        mixed = bowl(crop)
        if mixed:
            return MIXED + " + ".join(map(self._called, mixed))
        return self._names.get(crop, crop)

    @cached_property
    def belief(self) -> Belief:
        """What a picking of the season can weigh."""
        return Belief(self.garden, self.year.holding)

    @cached_property
    def _names(self) -> Mapping[str, str]:
        """The names of the garden's crops, by slug."""
        return {one.slug: one.name for one in self.garden.crops}

    def _squares(self, squares: Sequence[Square]) -> str:
        """Return squares in words, with the bed's name where there are several beds."""
        return in_words(squares, with_bed=len(self.garden.beds) > 1)

    def _total(self, total: Total) -> str:
        """Return a total in words, with *at least* where a picking in it was not weighed."""
        if not total.pickings:
            return "nothing yet"
        if total.unweighed == total.pickings:
            return "not weighed" if total.pickings == 1 else f"{total.pickings} pickings, none weighed"
        return total_in_words(self.garden.showing, total)


def agreement(
    ledger: str, records: Sequence[Weighing], vocabulary: Vocabulary
) -> Callable[[bytes, bytes], None]:
    """Return what looks over a ledger's new bytes and raises UnfitError where they do not read as meant."""

    def agree(old: bytes, new: bytes) -> None:
        """Raise UnfitError where the new bytes are not the old ones with the rows added."""
        wrong = disagreement(old, new, records, ledger, vocabulary.context)
        if wrong:
            raise UnfitError(wrong)

    return agree
