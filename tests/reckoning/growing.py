"""Short ways to write plantings, log lines and weighings of a small bed in tests.

Days are written ``Apr 5`` and lie in 2026, squares ``A1 B1`` in the bed ``b``.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date
from fractions import Fraction

from tallybed.garden.days import MONTHS, Span
from tallybed.garden.garden import Season
from tallybed.garden.naming import CropName
from tallybed.garden.records.ledger import Weighing
from tallybed.garden.records.log import Entry, Event, Verb
from tallybed.garden.records.plan import PlanRow, Start
from tallybed.garden.squares import Square, column_number
from tallybed.garden.units import OUNCE, Weight
from tallybed.reckoning.calendar.due import Due
from tallybed.reckoning.squares.occupancy import Hold

SPAN = Span(first=date(2026, 3, 1), last=date(2026, 11, 30))
MEANINGS = {"beans": ("bean-bush", "bean-pole"), "onions": ("onion-bulb", "onion-bunching")}
"""General names, and the crops they can mean."""


def day(words: str) -> date:
    """Read ``Apr 5``."""
    month, number = words.split()
    return date(2026, [name[:3] for name in MONTHS].index(month) + 1, int(number))


def days_between(first: date, last: date) -> Iterator[date]:
    """Yield each day from ``first`` to ``last``, both included."""
    for ordinal in range(first.toordinal(), last.toordinal() + 1):
        yield date.fromordinal(ordinal)


def squares(words: str) -> tuple[Square, ...]:
    """Read ``A1 B1``."""
    return tuple(Square("b", column_number(label[0]), int(label[1:]) - 1) for label in words.split())


def crop(typed: str) -> CropName:
    return CropName(typed=typed, slugs=MEANINGS.get(typed, (typed,)))


def plan_row(
    slug: str,
    where: str,
    begins: str,
    until: str = "",
    *,
    tag: str = "",
    start: Start = Start.SOW,
    share: str = "",
    dropped: str = "",
    indoors: str = "",
    pot_up: str = "",
    among: str = "",
    plants: int | None = None,
    variety: str = "",
) -> PlanRow:
    return PlanRow(
        crop=slug,
        squares=squares(where),
        start=start,
        begins=day(begins),
        until=day(until) if until else date(2026, 12, 1),
        until_told=bool(until),
        tag=tag,
        share=Fraction(share) if share else None,
        dropped=day(dropped) if dropped else None,
        sow_indoors=day(indoors) if indoors else None,
        pot_up=day(pot_up) if pot_up else None,
        among=among,
        plants=plants,
        variety=variety,
    )


def line(
    when: str,
    verb: str,
    what: str = "",
    where: str = "",
    *,
    tag: str = "",
    plants: int | None = None,
    leaving: int | None = None,
    to: str = "",
    among: str = "",
    share: str = "",
    variety: str = "",
) -> Event:
    """Write a log line; ``what`` is its crop, empty where none is told."""
    return Event(
        verb=Verb(verb),
        day=day(when),
        subject=what or "bed",
        crop=crop(what) if what else None,
        squares=squares(where),
        tag=tag,
        plants=plants,
        leaving=leaving,
        to=squares(to),
        among=among,
        share=Fraction(share) if share else None,
        variety=variety,
    )


def pick(when: str, what: str = "", where: str = "", *, tag: str = "", weighed: str = "") -> Weighing:
    """Write a weighing; crops joined by ``+`` are a mixed bowl."""
    crops = tuple(crop(name) for name in what.split("+") if name)
    return Weighing(
        day=day(when),
        crops=crops,
        mixed=len(crops) > 1,
        tag=tag,
        squares=squares(where),
        weight=Weight.of(5, OUNCE),
        weighed=day(weighed) if weighed else None,
    )


def entries(events: Iterable[Event]) -> tuple[Entry, ...]:
    """Put log lines into one entry a day, in the order given."""
    by_day: dict[date, list[Event]] = {}
    for event in events:
        by_day.setdefault(event.day, []).append(event)
    return tuple(
        Entry(slug=f"visit-{when}", day=when, title="A visit", done=tuple(done))
        for when, done in by_day.items()
    )


def season(
    plan: Iterable[PlanRow] | None = None,
    log: Iterable[Event] | None = None,
    ledger: Iterable[Weighing] | None = None,
    general: tuple[tuple[str, str], ...] = (),
) -> Season:
    return Season(
        name="2026",
        span=SPAN,
        plan=None if plan is None else tuple(plan),
        log=None if log is None else entries(log),
        ledger=None if ledger is None else tuple(ledger),
        general=general,
    )


def told(holds: Iterable[Hold]) -> list[str]:
    """Write holds as rows: ``A1 SP1 Apr 14 - Apr 23 implied``."""
    return [
        f"{hold.square.label} {hold.planting} {_short(hold.first)} - {_short(hold.last)} {hold.grade.word}"
        for hold in holds
    ]


def jobs(found: Iterable[Due]) -> list[str]:
    """Write jobs as ``May 9 harvest RA1 A1``, an overdue one with ``!`` at its end."""
    return [
        f"{one.day:%b} {one.day.day} {one.verb} {one.planting} "
        + " ".join(square.label for square in one.squares)
        + ("!" if one.overdue else "")
        for one in found
    ]


def table(rows: str) -> list[str]:
    """Read a table of rows like those of ``told``, whose columns are set apart by spaces."""
    return [" ".join(row.split()) for row in rows.strip().splitlines() if row.strip()]


def _short(when: date) -> str:
    return f"{MONTHS[when.month - 1][:3]} {when.day}"
