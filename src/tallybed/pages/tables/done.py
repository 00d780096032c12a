"""What was done on a visit, in words."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence

from tallybed.garden.garden import Garden
from tallybed.garden.plurals import figured
from tallybed.garden.records.log import WAITED_AFTER, Event, Verb
from tallybed.pages.frame import addresses
from tallybed.pages.frame.page import Link
from tallybed.pages.tables.tables import Cell, Row, Table, heads, text, without_empty_columns
from tallybed.pages.tables.treatments_table import has_no_wait, label_words, safe_words, treatment_lines
from tallybed.pages.wording import names
from tallybed.pages.wording.sentences import listed
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.waits.manure import is_raw, is_unsaid
from tallybed.reckoning.year import Year

TREATED = (
    "A treatment was used on this visit. The product’s own label decides where it may be used, how to handle "
    "it and how many days must pass before anything is picked. Where this page and the label differ, "
    "the label is right."
)
ENRICHING = WAITED_AFTER - {Verb.TREAT}
ENRICHED = (
    "Something was put on the soil or into it on this visit. If it was raw manure, ask your extension "
    "service how long to wait before picking: organic rules in the United States ask for 120 days where the "
    "crop touches soil and 90 where it does not (7 CFR 205.203). Wash what you pick."
)


def done_table(
    garden: Garden,
    events: Iterable[Event],
    plantings: Mapping[Event, Sequence[Planting]] | None = None,
) -> Table:
    """Return a visit's work as a table, in the order it was written down; narrow enough for a phone.

    ``plantings``: the plantings that a line is about, as far as that is known.
    """
    rows = tuple(
        Row(
            cells=(
                text(_past(event).capitalize()),
                _what(garden, event, (plantings or {}).get(event, ())),
                text(names.place_words(garden, event.squares)),
            )
        )
        for event in events
    )
    table = Table(ident="done", caption="What was done", heads=heads("Done", "What", "Where"), rows=rows)
    return without_empty_columns(table)


def cautions(events: Iterable[Event]) -> tuple[str, ...]:
    """Return the notices that protect people, for what was done."""
    told = tuple(events)
    verbs = {event.verb for event in told if not has_no_wait(event)}
    found = []
    if Verb.TREAT in verbs:
        found.append(TREATED)
    if verbs & ENRICHING or any(is_raw(event) or is_unsaid(event) for event in told):
        found.append(ENRICHED)
    return tuple(found)


def waits_of_lines(year: Year, events: Iterable[Event]) -> tuple[str, ...]:
    """Return for each line that treats or spreads raw manure from when on what it reached may be picked.

    What has no label and no wait, such as picking off by hand, is left out: nothing waits for it.
    """
    wanted = set(events)
    return tuple(
        f"{one.event.subject} in {names.place_words(year.garden, one.squares)}: first day to pick, "
        f"{safe_words(one)}."
        for one in treatment_lines(year)
        if one.event in wanted and not has_no_wait(one.event)
    )


def minutes_words(events: Iterable[Event]) -> str:
    """Return the work of a visit as minutes × people: ``24 person-minutes``; empty where nobody timed it."""
    timed = [event.minutes * event.people for event in events if event.minutes is not None]
    return figured(sum(timed), "person-minute") if timed else ""


def _past(event: Event) -> str:
    """Return how the verb of a line reads beside its object."""
    meaning = event.verb.meaning
    return meaning.past if event.crop else meaning.with_matter or meaning.past


def _what(garden: Garden, event: Event, plantings: Sequence[Planting]) -> Cell:
    """Return what was worked on, leading to its planting or to each of several, and what else is told."""
    note = _details(garden, event)
    base = (
        names.listed_as_typed(garden, event.crop, event.variety, event.tag)
        if event.crop
        else Link(names.full_name(event.subject, event.variety, event.tag), "")
    )
    words = base.text
    if len(plantings) == 1:
        return Cell(text=words, to=addresses.planting(plantings[0]), note=note)
    others = tuple(
        Link(names.short_name(garden, planting), addresses.planting(planting)) for planting in plantings
    )
    return Cell(text=words, to="" if others else base.to, links=others, note=note)


def _details(garden: Garden, event: Event) -> str:
    """Return what else a line of work tells, in words."""
    parts = [event.beside_crop] if event.crop and event.beside_crop else []
    if event.plants is not None:
        parts.append(figured(event.plants, "plant"))
    if event.seeds is not None:
        parts.append(figured(event.seeds, "seed"))
    if event.leaving is not None:
        parts.append(f"{event.leaving:,} left")
    if event.to:
        parts.append(f"to {names.place_words(garden, event.to)}")
    if event.among:
        parts.append(f"among {names.crop_link(garden, event.among).text}")
    if event.amount:
        parts.append(event.amount)
    if event.minutes is not None:
        people = f" × {event.people} people" if event.people > 1 else ""
        parts.append(f"{figured(event.minutes, 'minute')}{people}")
    if event.because:
        parts.append(f"because: {event.because}")
    if event.treatment is not None:
        parts += label_words(event)
    if event.note:
        parts.append(event.note)
    return "; ".join(parts)


def gist(garden: Garden, events: Iterable[Event], most: int = 4) -> str:
    """Return a visit's work in a few words, for a list: ``carrots and beets sown; bed weeded; and more``."""
    told = tuple(events)
    lines = Counter((event.verb, event.crop.slugs) for event in told if event.crop)
    by_past: dict[str, list[str]] = {}
    for event in told:
        many = event.plants != 1 or bool(event.crop and lines[event.verb, event.crop.slugs] > 1)
        subject = names.named(garden, event.crop, many=many).text if event.crop else event.subject
        by_past.setdefault(_past(event), []).append(subject)
    parts = [f"{listed(dict.fromkeys(subjects))} {past}" for past, subjects in by_past.items()]
    more = ["and more"] if len(parts) > most else []
    return "; ".join([*parts[:most], *more])
