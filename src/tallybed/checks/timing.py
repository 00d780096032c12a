"""The plan held against the year: freezes, ripening, and squares left empty."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date, timedelta
from types import MappingProxyType

from tallybed.checks.results import CheckResult, advice, called, warning
from tallybed.garden.crops import Crop
from tallybed.garden.days import Span, without_year
from tallybed.garden.findings import Place
from tallybed.garden.plan import PlanRow, Start
from tallybed.garden.squares import Square, in_words
from tallybed.reckoning.calendar.freeze import Freeze
from tallybed.reckoning.calendar.windows import days_to_harvest, tender
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.squares.occupancy import Hold
from tallybed.reckoning.year import Year

_LONG_AFTER = 90
"""Days after the average last freeze from which a planting is none of spring."""
_HARDY = frozenset({"hardy", "very hardy"})
_HARDY_BEFORE = 14
"""Days before the freezes begin to end that a hardy crop can still go in. Our choice."""
OFFERED = 4
"""How many crops a finding about an empty square names."""


def too_early(year: Year) -> Iterator[CheckResult]:
    """Find plantings before the first day the crop's weeks from the last spring freeze allow."""
    for planting, row in year.planned:
        crop = year.crop_of(planting)
        if crop is None or row.start is Start.CARRIED or year.spring is None:
            continue
        first = _first_safe(year, crop, row)
        if first is None or row.begins >= first:
            continue
        yield (
            row,
            warning(
                row.place,
                "too-early",
                f"{called(planting)} goes in on {without_year(row.begins)}{_chance(year.spring, row.begins)}",
                expected=f"{without_year(first)} or later",
                remedy="wait, or cover it and silence this with the reason",
            ),
        )


def _first_safe(year: Year, crop: Crop, row: PlanRow) -> date | None:
    """Return the first day for a crop: by its printed weeks, or once the freezes it does not stand are over.

    For a tender one that is the day after which one year in ten still freezes. One that is printed as
    hardy stands a light frost, whatever a table's weeks say: for it, the day one year in ten is past.
    """
    printed = year.window(crop, start=row.start).spring_first
    if year.spring is None or row.begins > year.spring.middle + timedelta(days=_LONG_AFTER):
        return printed
    if tender(crop):
        return max(filter(None, (printed, year.spring.late)), default=None)
    hardiness = crop.used("hardiness")
    if printed and year.spring.early and hardiness and hardiness.text in _HARDY:
        return min(printed, year.spring.early - timedelta(days=_HARDY_BEFORE))
    return printed


def too_late(year: Year) -> Iterator[CheckResult]:
    """Find plantings after the last day on which the crop still comes to something before the freeze."""
    for planting, row in year.planned:
        crop = year.crop_of(planting)
        if crop is None or row.start is Start.CARRIED or year.fall is None:
            continue
        found = year.window(crop, variety=planting.variety, start=row.start)
        last = found.last
        if stands_the_winter(year, crop, row):
            continue
        if last is None or row.begins <= last or row.until > year.season.span.last + timedelta(days=1):
            continue
        ready = year.expected(crop, row.begins, variety=planting.variety, start=row.start)
        by = (
            f", and is ready about {without_year(ready.first)}{_chance(year.fall, ready.first)}"
            if ready
            else ""
        )
        yield (
            row,
            warning(
                row.place,
                "too-late",
                f"{called(planting)} goes in on {without_year(row.begins)}{by}",
                expected=f"{without_year(last)} or earlier, counted back from the first fall freeze",
                remedy="plant it sooner, take a quicker variety, or plan a cover and silence this",
            ),
        )


def not_ripe(year: Year) -> Iterator[CheckResult]:
    """Find plantings that are to be cleared before they can be expected to bear."""
    for planting, row in year.planned:
        crop = year.crop_of(planting)
        if crop is None or row.start is Start.CARRIED or not row.until_told:
            continue
        ready = year.expected(crop, row.begins, variety=planting.variety, start=row.start)
        if (
            ready is None
            or ready.other_start
            or ready.first <= row.until
            or stands_the_winter(year, crop, row)
        ):
            continue
        follower = _next_in(year, planting, row)
        after = f" for {called(follower)}" if follower else ""
        yield (
            row,
            warning(
                row.place,
                "not-ripe",
                f"{called(planting)} is to be cleared on {without_year(row.until)}{after},"
                f" {(row.until - row.begins).days} days after it goes in",
                expected=f"{ready.days} days to a first harvest, about {without_year(ready.first)}",
                remedy="give it longer, start it sooner, or take a quicker variety",
            ),
        )


WINTERED: Mapping[str, tuple[int, int]] = MappingProxyType(
    {
        "garlic": (-9, 12),
        "onion-bulb": (-9, 4),
        "spinach": (-8, 0),
        "shallot": (-9, 12),
        "bean-broad": (-9, 8),
        "pea-garden": (-3, 4),
        "pea-snap": (-3, 4),
    }
)
"""Crops that go in before winter and bear in the next year: weeks from the average first fall freeze.

Spinach by Organic Gardening (six weeks before) and the Seattle region (September), onion sets
from England (25 August to 31 October) and western Washington (November), garlic by Minnesota and
Missouri extension, peas from England (November); widened to both sides by our choice.
"""
MILD = 215
"""Days between the average freezes from which a winter is mild enough for peas. Our choice."""
_MILD_ONLY = frozenset({"pea-garden", "pea-snap", "bean-broad"})


def stands_the_winter(year: Year, crop: Crop, row: PlanRow) -> bool:
    """Return whether a planting goes in before winter to be picked in the next year.

    It does where the plan does not clear it before the season's end.
    """
    weeks = WINTERED.get(crop.slug)
    if weeks is None or year.fall is None or row.until < year.season.span.last:
        return False
    if crop.slug in _MILD_ONLY and (
        year.spring is None or (year.fall.middle - year.spring.middle).days < MILD
    ):
        return False
    after = (row.begins - year.fall.middle).days
    return 7 * weeks[0] <= after <= 7 * weeks[1]


def idle(year: Year) -> Iterator[CheckResult]:
    """Find squares that the plan leaves empty for long in the season, with what would fit the gap."""
    if year.season.plan is None:
        return
    gaps: dict[tuple[str, date, date], list[Square]] = {}
    for bed in year.garden.beds:
        for square in bed.squares:
            for first, last in _gaps(year.plan_of.get(square, ()), _growing(year)):
                if (last - first).days + 1 > year.garden.idle:
                    gaps.setdefault((bed.name, first, last), []).append(square)
    for (bed_name, first, last), squares in sorted(gaps.items(), key=lambda item: (item[0][1], item[0])):
        fitting = _fitting(year, first, last)
        would = f"; {', '.join(fitting)} would fit" if fitting else ""
        yield (
            _row_before(year, squares[0], first),
            advice(
                _place_of(year, squares[0], first, bed_name),
                "idle",
                f"nothing is planned in {in_words(squares)} from {without_year(first)}"
                f" to {without_year(last)}, {(last - first).days + 1} days{would}",
                expected=f"no more than {year.garden.idle} days",
                remedy="plan a crop there, or silence this where the square rests on purpose",
            ),
        )


def _chance(freeze: Freeze, day: date) -> str:
    """Return how likely a freeze is after a day in spring, or by a day in fall, as a clause to append."""
    chance = freeze.chance(day)
    if chance is None:
        side = (
            "before the average last spring freeze"
            if freeze.spring
            else "after the average first fall freeze"
        )
        off = (day - freeze.middle).days
        return f", {abs(off)} days {side}" if (off < 0) is freeze.spring and off else ""
    when = "after it" if freeze.spring else "by then"
    return f", with {_percent(chance)} chance of a freeze {when}"


def _percent(chance: float) -> str:
    """Return a chance from 0 to 1 in percent; near the ends it says only less or more than."""
    if chance < 0.01:
        return "less than 1 %"
    return "more than 99 %" if chance > 0.99 else f"{round(chance * 100)} %"


def _next_in(year: Year, planting: Planting, row: PlanRow) -> Planting | None:
    """Return the planting that the plan gives one of these squares next."""
    later = [
        hold
        for square in row.squares
        for hold in year.plan_of.get(square, ())
        if hold.first >= row.until and hold.planting != planting.key
    ]
    return (
        year.holding.planting(min(later, key=lambda hold: (hold.first, hold.planting)).planting)
        if later
        else None
    )


def _growing(year: Year) -> Span:
    """Return the days between the freezes, or the season where they are not told."""
    first = max(year.season.span.first, year.spring.middle) if year.spring else year.season.span.first
    last = min(year.season.span.last, year.fall.middle) if year.fall else year.season.span.last
    return Span(first=first, last=max(first, last))


def _gaps(holds: tuple[Hold, ...], span: Span) -> Iterator[tuple[date, date]]:
    """Yield the first and last day of each stretch of a span that no hold covers."""
    free = span.first
    for hold in holds:
        if hold.first > free and free <= span.last:
            yield free, min(hold.first - timedelta(days=1), span.last)
        free = max(free, hold.last + timedelta(days=1))
    if free <= span.last:
        yield free, span.last


def _fitting(year: Year, first: date, last: date) -> list[str]:
    """Return names of crops, those grown here first, that can go in and bear within the gap."""
    grown = {row.crop for season in year.garden.seasons for row in season.plan or ()}
    names: list[tuple[bool, int, str]] = []
    for crop in year.garden.crops:
        start = Start.SOW if crop.start == "sown" else Start.SET_OUT
        days = days_to_harvest(crop, "", start)
        found = year.window(crop, start=start)
        if days is None or days[1] or first + timedelta(days=days[0]) > last:
            continue
        if (found.spring_first and first < found.spring_first) or (found.last and first > found.last):
            continue
        if tender(crop) and year.fall and first + timedelta(days=days[0]) > year.fall.middle:
            continue
        names.append((crop.slug not in grown, days[0], crop.name))
    return [name for _new, _days, name in sorted(names)[:OFFERED]]


def _row_before(year: Year, square: Square, day: date) -> PlanRow | None:
    """Return the planting that leaves the square before the gap, which can silence it."""
    before = [hold for hold in year.plan_of.get(square, ()) if hold.last < day]
    after = [hold for hold in year.plan_of.get(square, ()) if hold.first > day]
    nearest = before[-1:] or after[:1]
    return year.rows[nearest[0].planting] if nearest else None


def _place_of(year: Year, square: Square, day: date, bed_name: str) -> Place:
    """Return where a gap is told: at the row before it, else at the bed."""
    row = _row_before(year, square, day)
    return row.place if row else year.garden.bed(bed_name).place
