"""Treatments as a table: what was used, and from when on what it reached may be picked."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from tallybed.garden.days import in_full, without_year
from tallybed.garden.grouping import grouped
from tallybed.garden.records.log import Event, Verb
from tallybed.garden.squares import Square
from tallybed.pages.care.notices import keep_off_words
from tallybed.pages.tables.tables import Row, Table, heads, text, without_empty_columns
from tallybed.pages.wording import names
from tallybed.pages.wording.dated import in_season
from tallybed.pages.wording.sentences import counted
from tallybed.reckoning.waits.dose import dose_words
from tallybed.reckoning.waits.manure import is_raw
from tallybed.reckoning.waits.season import UNTOLD
from tallybed.reckoning.waits.spans import Wait, first_safe
from tallybed.reckoning.waits.temperatures import degrees, outside_limits
from tallybed.reckoning.year import Year

NOT_WRITTEN = "not known: read the label"


@dataclass(frozen=True, slots=True, kw_only=True)
class TreatmentLine:
    """A line of the log that treats, or puts down what counts as raw manure, with what follows from it."""

    number: int
    """From 1, by day."""
    event: Event
    squares: tuple[Square, ...]
    """All that it reached."""
    plantings: tuple[str, ...]
    """Those that it reached, by key."""
    waits: tuple[Wait, ...]


def treatment_lines(year: Year) -> tuple[TreatmentLine, ...]:
    """Return a season's treatments and raw manure, by day."""
    by_event = grouped(year.waiting.waits, lambda wait: wait.event)
    ground = year.waiting.ground
    told = [event for event in ground.events if event.verb is Verb.TREAT or is_raw(event)]
    return tuple(
        TreatmentLine(
            number=number,
            event=event,
            squares=tuple(sorted(ground.squares(event))),
            plantings=tuple(dict.fromkeys(one.planting for one in by_event.get(event, ()) if one.planting)),
            waits=tuple(by_event.get(event, ())),
        )
        for number, event in enumerate(told, start=1)
    )


def treatments_table(year: Year, lines: Iterable[TreatmentLine], *, ident: str) -> Table:
    """Return treatments as a table, in the order given."""
    return without_empty_columns(
        Table(
            ident=ident,
            caption=f"Treatments and raw manure {in_season(year)}",
            heads=heads("Day", "What, and where", "First day to pick"),
            rows=tuple(_row(year, one) for one in lines),
        )
    )


def _row(year: Year, one: TreatmentLine) -> Row:
    event = one.event
    return Row(
        cells=(
            text(without_year(event.day)),
            text(event.subject, "; ".join(_about(year, one))),
            text(safe_words(one), _kept_off(year, event)),
        )
    )


def _about(year: Year, one: TreatmentLine) -> Iterator[str]:
    """Yield where a treatment was used, why, and what else its line says of the product."""
    yield names.place_words(year.garden, one.squares)
    if one.event.because:
        yield f"because: {one.event.because}"
    yield from details(year, one)


def has_no_wait(event: Event) -> bool:
    """Return whether a line treats with what has no label, and tells no wait of its own."""
    told = event.treatment or UNTOLD
    return event.verb is Verb.TREAT and not told.has_label and told.wait is None


def safe_words(one: TreatmentLine) -> str:
    """Return the first day to pick after a treatment; what it says itself where nothing stood there."""
    told = one.event.treatment or UNTOLD
    if has_no_wait(one.event):
        return f"no label: {told.kind}"
    waits, safe = first_safe(one.waits)
    if waits:
        return in_full(safe) if safe else NOT_WRITTEN
    if one.event.verb is Verb.TREAT and told.wait is None:
        return NOT_WRITTEN
    after = told.safe_from(one.event.day)
    if told.next_crop and after is not None:
        return in_full(after)
    return "nothing stood there"


def _kept_off(year: Year, event: Event) -> str:
    """Return until when people keep off after a treatment; empty where nothing says so."""
    found = [keep_off_words(one) for one in year.waiting.keep_offs if one.event == event]
    return f"keep off: {found[0]}" if found else ""


def label_words(event: Event) -> Iterator[str]:
    """Yield what a line says of the label's wait; one that is not written down is not known."""
    told = event.treatment or UNTOLD
    if told.wait is not None:
        also = ", for the next crop too" if told.next_crop else ""
        yield f"wait by the label: {counted(told.wait, 'day') if told.wait else 'none'}{also}"
    elif told.has_label:
        yield "wait by the label not written down"
    elif told.kind:
        yield told.kind.value


def details(year: Year, one: TreatmentLine) -> Iterator[str]:
    """Yield what else a line says of the product, as it was written down."""
    told = one.event.treatment
    if told is None:
        return
    yield from label_words(one.event)
    if told.rate:
        area = year.garden.area_of(one.squares)
        dose = dose_words(told.rate, area, year.garden.showing)
        yield f"label’s rate: {told.rate}{f', which is {dose}' if dose else ''}"
    if told.registration:
        yield f"registration {told.registration}"
    if told.wind:
        yield f"wind: {told.wind}"
    outside = outside_limits(one.event, year.season.weather_on(one.event.day))
    if outside:
        yield outside
    elif told.temperature is not None:
        yield f"temperature: {degrees(told.temperature)}"
