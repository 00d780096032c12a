"""The text of a new log entry: what is due as lines to keep or delete, what was weighed, photographs."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import date

from tallybed.garden.days import without_year
from tallybed.garden.garden import Garden
from tallybed.garden.records.log import INDOORS, Verb
from tallybed.garden.squares import in_words
from tallybed.pages.tables.pickings_table import crop_words, weight_words
from tallybed.pages.wording.names import place_words
from tallybed.reckoning.calendar.due import Due
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.year import Year
from tallybed.writing.ledger_row import scalar

_OF_PHOTOGRAPHS = (
    "# Say after alt: what each photograph shows, for those who cannot see it. Where somebody can be",
    "# known on it, add shows people: yes; and consent: yes, once they agreed.",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class EntryDraft:
    """What a new entry begins with."""

    title: str
    day: date
    slug: str
    """Its title as it stands in the file's name."""
    due: tuple[Due, ...] = ()
    last: date
    """The last of the days that ``due`` looks at."""
    photographs: tuple[str, ...] = field(default=())
    """Names of files in the season's photos folder."""

    @property
    def name(self) -> str:
        """The file's name without its ending, and what feeds and calendars are to know it by."""
        return f"{self.day.isoformat()}-{self.slug}"


def text_of(draft: EntryDraft, year: Year) -> str:
    """Return the entry's file: a header and no prose yet.

    Left as it is, it reads without a finding but that it is unfinished and that
    photographs want words.
    """
    lines = [
        "---",
        f"title: {scalar(draft.title)}",
        f"date: {draft.day.isoformat()}",
        "unfinished: yes    # take this line out once the page may be read",
        "#by: who was there",
        f"identity: {draft.name}    # keep it, whatever this file is called later",
        *_done(draft, year),
        *_weighed(draft.day, year),
    ]
    if draft.photographs:
        lines += [*_OF_PHOTOGRAPHS, "photos:"]
        lines += [f"  - {{file: {scalar(name)}, alt: }}" for name in draft.photographs]
    return "\n".join([*lines, "---", "", ""])


def line_of(one: Due, planting: Planting | None, garden: Garden) -> str:
    """Return a job as a line of ``done``, with all the plan tells of it that the log should know."""
    details = {one.verb: garden.crop(one.crop.slug).written if one.crop.slug else one.crop.typed}
    planned = planting.planned if planting else None
    if planned and planned.tag:
        details["tag"] = planned.tag
    if Verb(one.verb) not in INDOORS:
        details["squares"] = in_words(one.squares)
    if planned and Verb(one.verb) in (Verb.SOW, Verb.SOW_INDOORS, Verb.SET_OUT):
        whole = frozenset(one.squares) == frozenset(planned.squares)
        details |= {"variety": planned.variety} if planned.variety else {}
        if planned.plants and whole and one.verb == Verb.SET_OUT:  # of seeds nobody counts the plants
            details["plants"] = str(planned.plants)
        details |= {"among": planned.among} if planned.among else {}
        details |= {"share": str(planned.share)} if planned.share else {}
    return "{" + ", ".join(f"{key}: {scalar(value)}" for key, value in details.items()) + "}"


def _done(draft: EntryDraft, year: Year) -> Iterable[str]:
    """Return the lines on what was done: what is due by the plan, each after a #, or an example."""
    if not draft.due:
        return (
            "# Nothing is due by the plan. What was done, line by line, as in:",
            "#done:",
            "#  - {weed: bed, minutes: 20}",
        )
    plantings = {planting.key: planting for planting in year.holding.plantings}
    return (
        f"# Due by the plan up to {without_year(draft.last)}. For what was done, take the # away, and that",
        "# before done: as well; set right what went otherwise; delete the rest.",
        "#done:",
        *(
            f"#  - {line_of(one, plantings.get(one.planting), year.garden)}  # {_when(one)}"
            for one in draft.due
        ),
    )


def _when(one: Due) -> str:
    """Return when a thing is due or since when it is overdue, with its note, on one line."""
    day = f"{'overdue since' if one.overdue else 'due'} {without_year(one.day)}"
    return f"{day}; {' '.join(one.note.split())}" if one.note else day


def _weighed(day: date, year: Year) -> Iterable[str]:
    """Return the day's rows of the ledger as comments; nothing where there are none."""
    rows = [
        ", ".join(
            part
            for part in (
                crop_words(year.garden, weighing, year.owners[number]).text,
                weight_words(year.garden, weighing),
                place_words(year.garden, weighing.squares),
            )
            if part
        )
        for number, weighing in enumerate(year.season.ledger or ())
        if weighing.day == day
    ]
    if not rows:
        return ()
    return ("# Picked that day, by the ledger; the page shows it by itself:", *(f"#   {row}" for row in rows))
