"""What a spreadsheet leaves open, as questions that are asked together, each once."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from tallybed.garden.grouping import grouped
from tallybed.garden.naming import folded
from tallybed.garden.plurals import figured
from tallybed.garden.units import weight_units
from tallybed.reading.base.problems import Misread
from tallybed.reading.spreadsheet.columns import unit_named
from tallybed.reading.spreadsheet.dates import DateOrder
from tallybed.reading.spreadsheet.weights import NO_UNIT, weight_words
from tallybed.reading.spreadsheet.where import where
from tallybed.tasks.taking_in.intake import Books, Intake, Settings

DATES, DECIMAL, UNIT, BLANKS, SEASON, NAME = "dates", "decimal", "unit", "blank dates", "season", "names"
SQUARES, WEIGHT, SPACES = "squares", "weight", "spaces"
AS_ABOVE, NO_DATE = "as above", "no date"
MOST_NAMES = 8
"""Names that are asked for, and squares, and weights; where a sheet has more, the others are listed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetQuestion:
    """One thing that cannot be told from the sheet alone, with its answers in words and as they are kept."""

    about: str
    words: str
    choices: tuple[tuple[str, str], ...]
    name: str = ""
    """The name, or the spelling of squares or a weight, that is asked for."""


def questions(books: Books, intakes: Sequence[Intake]) -> tuple[SheetQuestion, ...]:
    """Return what is open in sheets of one file, each once."""
    found: dict[tuple[str, str], SheetQuestion] = {}
    for intake in intakes:
        for one in (*_of_sheet(books, intake), *_of_names(intake), *_of_spellings(intake)):
            found.setdefault((one.about, one.name), one)
    many = {about: [one for one in found.values() if one.about == about] for about in (NAME, SQUARES, WEIGHT)}
    return tuple(one for one in found.values() if one in many.get(one.about, [one])[:MOST_NAMES])


def _of_sheet(books: Books, intake: Intake) -> Iterator[SheetQuestion]:
    """Yield what a whole sheet leaves open: how its dates, figures and blank cells are meant."""
    if intake.open_dates:
        yield SheetQuestion(
            about=DATES,
            words=f"The date {intake.open_dates[0]} may be read two ways; in this file",
            choices=(
                ("the month comes first", DateOrder.MONTH_FIRST.value),
                ("the day comes first", DateOrder.DAY_FIRST.value),
            ),
        )
    if intake.undated_year and len(books.scales) > 1:
        yield SheetQuestion(
            about=SEASON,
            words=f"The date {intake.undated_year} has no year; the season of such dates is",
            choices=tuple((season, season) for season in reversed(list(books.scales))),
        )
    if intake.open_numbers is not None:
        comma, point = intake.open_numbers.sums
        yield SheetQuestion(
            about=DECIMAL,
            words=f"{intake.open_numbers.example} may be read two ways; in this file",
            choices=(
                (f"a comma stands before decimals: the column adds up to {comma}", "comma"),
                (f"a point stands before decimals: the column adds up to {point}", "point"),
            ),
        )
    if intake.open_space:
        yield SheetQuestion(
            about=SPACES,
            words=f"{intake.open_space} may be read two ways; in this file a space sets apart",
            choices=(("thousands, as in 1,250 g", "thousands"), ("a count from a weight", "counts")),
        )
    if intake.unitless:
        units = weight_units(metric=books.garden.showing.metric)
        yield SheetQuestion(
            about=UNIT,
            words=f"Weights in {figured(intake.unitless, 'row')} have no unit; they are",
            choices=tuple((unit.symbol, unit.symbol) for unit in units),
        )
    if intake.sheet.dateless:
        yield SheetQuestion(
            about=BLANKS,
            words=f"{figured(intake.sheet.dateless, 'row')} below a date have none themselves; they mean",
            choices=(("the day above them", AS_ABOVE), ("a day that nobody wrote down", NO_DATE)),
        )


def _of_names(intake: Intake) -> list[SheetQuestion]:
    """Return a question for each name; one answer holds for all its capitals and seasons."""
    alike = grouped(intake.unknown, lambda one: folded(one.name))
    found = [(sum(one.rows for one in same), same) for same in alike.values()]
    return [
        SheetQuestion(
            about=NAME,
            words=f"“{same[0].name}”, in {figured(rows, 'row')}, means",
            choices=tuple(
                dict.fromkeys(pair for one in same for pair in zip(one.called, one.near, strict=True))
            ),
            name=same[0].name,
        )
        for rows, same in sorted(found, key=lambda one: -one[0])
    ]


def _of_spellings(intake: Intake) -> list[SheetQuestion]:
    """Return a question for each spelling of squares or a weight that is not understood, the most first."""
    nouns = {SQUARES: "squares", WEIGHT: "a weight"}
    return [
        SheetQuestion(
            about=meaning,
            words=f"“{text}”, in {figured(number, 'row')}, is not understood as {nouns[meaning]}"
            f"{_why(text) if meaning == WEIGHT else ''}; it means",
            choices=(),
            name=text,
        )
        for (meaning, text), number in sorted(intake.spellings.items(), key=lambda one: -one[1])
    ]


def _why(text: str) -> str:
    """Return why a text is no weight, where it has a figure that is torn, in another unit, or two in one."""
    try:
        weight_words([(text, None)], "", None)
    except Misread as misread:
        return f" ({misread.sentence})" if misread.typed else ""
    return ""


def typed_answer(books: Books, question: SheetQuestion, text: str) -> str:
    """Return what a typed answer means, or an empty text where it is not understood either."""
    if question.about == NAME:
        return crop_typed(books, text)
    understood = _is_weight(text) if question.about == WEIGHT else _are_squares(books, text)
    return " ".join(text.split()) if understood else ""


def _is_weight(text: str) -> bool:
    """Return whether a text is a weight, as far as it can be known without the unit of its column."""
    try:
        weight_words([(text, None)], "", None)
    except Misread as misread:
        return misread.code == NO_UNIT
    return True


def _are_squares(books: Books, text: str) -> bool:
    """Return whether a text names squares of any bed, or a bed."""
    vocabularies = books.vocabularies().values()
    for vocabulary, bed in ((one, bed) for one in vocabularies for bed in ("", *one.context.beds.names)):
        try:
            where(text, bed, vocabulary)
        except Misread:
            continue
        return True
    return False


def crop_typed(books: Books, text: str) -> str:
    """Return the crop that a typed answer names, or an empty text where it names none or several."""
    for scale in reversed(list(books.scales.values())):
        slugs = scale.vocabulary.slugs(" ".join(text.split()))
        if len(slugs) == 1:
            return slugs[0]
    return ""


def with_answer(settings: Settings, question: SheetQuestion, value: str) -> Settings:
    """Return settings with one more answer."""
    kept = {**settings.kept, question.about: value}
    if question.about == DATES:
        return replace(settings, order=DateOrder(value), kept=kept)
    if question.about == DECIMAL:
        return replace(settings, decimal=value, kept=kept)
    if question.about == SPACES:
        return replace(settings, spaces=value, kept=kept)
    if question.about == UNIT:
        return replace(settings, unit=unit_named(value), kept=kept)
    if question.about == BLANKS:
        return replace(settings, blanks=value == AS_ABOVE, kept=kept)
    if question.about == SEASON:
        return replace(settings, year=value)
    if question.about in (SQUARES, WEIGHT):
        spelling = (question.about, question.name)
        return replace(settings, spellings={**settings.spellings, spelling: value})
    return replace(settings, names={**settings.names, folded(question.name): value})
