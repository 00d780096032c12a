"""The ledger, the plan and the log of a season as tables for reuse, row by row."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from tallybed.garden.days import Week
from tallybed.garden.garden import Garden
from tallybed.garden.ledger import Weighing
from tallybed.garden.log import Entry, Event
from tallybed.garden.plan import PlanRow
from tallybed.garden.squares import in_words
from tallybed.garden.units import GRAM, MILLIMETRE, POUND, Length, Unit, Weight, rounded, total
from tallybed.pages.files.data_columns import LEDGER, LOG, PLAN, Column, Value
from tallybed.pages.wording import names
from tallybed.reckoning.harvest.tally import TallyLine, crop_key
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.year import Year

_SEVERAL = "; "
"""Stands between several values in one cell."""
GRAM_PLACES, POUND_PLACES = 3, 6
"""Decimals that keep a weight exact to a milligram: 0.000001 lb is 0.45 mg."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Dataset:
    """One table of a season."""

    name: str
    title: str
    meaning: str
    key: str
    """The column that tells its rows apart."""
    columns: tuple[Column, ...]
    rows: tuple[tuple[Value, ...], ...]
    """As many values as columns; None where nothing was told."""


def datasets(year: Year) -> tuple[Dataset, ...]:
    """Return the tables of the papers that a season has."""
    season, found = year.season, []
    if season.ledger is not None:
        found.append(
            Dataset(
                name="ledger",
                title=f"Ledger of {year.name}",
                meaning="What was picked: one row a weighing, in the order of the gardener’s file.",
                key="row",
                columns=LEDGER,
                rows=tuple(_ledger_rows(year)),
            )
        )
    if season.plan is not None:
        found.append(
            Dataset(
                name="plan",
                title=f"Plan of {year.name}",
                meaning="What was meant to stand where: one row a planting. A change of mind keeps its row.",
                key="planting",
                columns=PLAN,
                rows=tuple(_plan_rows(year)),
            )
        )
    if season.log is not None:
        found.append(
            Dataset(
                name="log",
                title=f"Log of {year.name}",
                meaning="What was done and seen: one row a line of work, by day. "
                "A visit that noted no work has no row.",
                key="row",
                columns=LOG,
                rows=tuple(_log_rows(year)),
            )
        )
    return tuple(found)


def _ledger_rows(year: Year) -> Iterator[tuple[Value, ...]]:
    ledger = year.season.ledger or ()
    by_row: dict[int, list[TallyLine]] = {}
    for line in year.lines:
        by_row.setdefault(line.weighing, []).append(line)
    for number, (weighing, owner) in enumerate(zip(ledger, year.owners, strict=True)):
        yield _ledger_row(year.garden, weighing, owner, number, by_row.get(number, []))


def _ledger_row(
    garden: Garden, weighing: Weighing, owner: Planting | None, number: int, lines: list[TallyLine]
) -> tuple[Value, ...]:
    weight = weighing.weight
    key = crop_key(weighing, owner)
    slug = key if not weighing.mixed and names.crop(garden, key) else None
    return (
        number + 1,
        weighing.day,
        str(Week.of(weighing.day)),
        slug,
        _called(garden, weighing, slug),
        weighing.mixed,
        weighing.variety or None,
        owner.key if owner else None,
        in_words(weighing.squares) or None,
        weight is not None,
        weight_in(weight, GRAM) if weight is not None else None,
        weight_in(weight, POUND) if weight is not None else None,
        weighing.estimated,
        weighing.count,
        weighing.form or None,
        weighing.state.value,
        weighing.weighed,
        all(line.counts for line in lines),
        _SEVERAL.join(part.name for part in weighing.to) or None,
        _parts(weighing, lines) if weight is not None else None,
        weighing.note or None,
    )


def _called(garden: Garden, weighing: Weighing, slug: str | None) -> str | None:
    if slug:
        return names.crop_link(garden, slug).text
    words = (names.crop_link(garden, one.slug).text if one.slug else one.typed for one in weighing.crops)
    return _SEVERAL.join(words) or None


def _parts(weighing: Weighing, lines: list[TallyLine]) -> str | None:
    """Return what each destination got, in grams, in the order told."""
    found = []
    for part in weighing.to:
        got = total(line.weight for line in lines if line.destination == part.name)
        found.append(f"{weight_in(got, GRAM):f}")
    return _SEVERAL.join(found) or None


def _plan_rows(year: Year) -> Iterator[tuple[Value, ...]]:
    for planting in year.plantings:
        if planting.planned is not None:
            yield _plan_row(year.garden, planting.key, planting.planned)


def _plan_row(garden: Garden, key: str, one: PlanRow) -> tuple[Value, ...]:
    return (
        key,
        one.crop if names.crop(garden, one.crop) else None,
        names.crop_link(garden, one.crop).text,
        one.variety or None,
        in_words(one.squares) or None,
        len(set(one.squares)),
        one.start.value,
        one.sow_indoors,
        one.pot_up,
        one.begins,
        one.until,
        one.until_told,
        one.plants,
        _length(one.spacing),
        one.among or None,
        str(one.share) if one.share is not None else None,
        one.led_out.side if one.led_out else None,
        _length(one.led_out.reach) if one.led_out else None,
        one.dropped,
        one.because or None,
        one.carried_from or None,
        one.note or None,
    )


def _log_rows(year: Year) -> Iterator[tuple[Value, ...]]:
    owners: dict[Event, list[str]] = {}
    for planting in year.plantings:
        for event in dict.fromkeys(planting.events):
            owners.setdefault(event, []).append(planting.key)
    told = (one for one in year.season.log or () if one.day <= year.holding.today)
    lines = (
        (entry, event) for entry in sorted(told, key=lambda one: (one.day, one.slug)) for event in entry.done
    )
    for number, (entry, event) in enumerate(lines, start=1):
        yield _log_row(year.garden, entry, event, number, owners.get(event, []))


def _log_row(garden: Garden, entry: Entry, event: Event, number: int, owners: list[str]) -> tuple[Value, ...]:
    readable = bool(entry.title)
    timed = event.minutes is not None
    return (
        number,
        event.day,
        f"{entry.day.isoformat()}-{entry.slug}" if readable else None,
        event.verb.value,
        event.subject,
        event.crop.slug if event.crop else None,
        names.named(garden, event.crop).text if event.crop else None,
        event.variety or None,
        _SEVERAL.join(owners) or None,
        in_words(event.squares) or None,
        in_words(event.to) or None,
        event.among or None,
        str(event.share) if event.share is not None else None,
        event.plants,
        event.leaving,
        event.seeds,
        event.amount or None,
        event.minutes,
        event.people if timed else None,
        event.minutes * event.people if event.minutes is not None else None,
        event.because or None,
        (event.note or None) if readable else None,
    )


def weight_in(weight: Weight, unit: Unit) -> Decimal:
    """Return a weight in grams or pounds, rounded to a milligram or finer."""
    return _plain(rounded(weight.within(unit), GRAM_PLACES if unit is GRAM else POUND_PLACES))


def _length(length: Length | None) -> Decimal | None:
    return None if length is None else _plain(rounded(length.within(MILLIMETRE), GRAM_PLACES))


def _plain(text: str) -> Decimal:
    """Return a number without zeros at its end: two texts of one number are one text."""
    return Decimal(text.rstrip("0").rstrip(".")) if "." in text else Decimal(text)
