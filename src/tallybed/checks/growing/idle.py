"""Squares that the plan leaves empty for long, with what would fit; beds that no record names."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from tallybed.checks.growing.heat import dislikes_heat, fails_in_heat, last_for_bulbs
from tallybed.checks.results import CheckResult, advice
from tallybed.checks.support import has_ground
from tallybed.checks.turns import out_of_turn
from tallybed.garden.crops import Crop
from tallybed.garden.days import Span, in_full, without_year
from tallybed.garden.records.plan import PlanRow, Start
from tallybed.garden.squares import Square, in_words
from tallybed.reckoning.calendar.windows.windows import days_to_harvest
from tallybed.reckoning.calendar.windows.winter import LASTING, planted_before_winter, winter_only
from tallybed.reckoning.growing_time import freezes_for, growing_times, window_for
from tallybed.reckoning.harvest.areas import in_no_record
from tallybed.reckoning.squares.occupancy import Hold
from tallybed.reckoning.sun.position import is_tropical
from tallybed.reckoning.year import Year

FOR_WINTER = timedelta(days=90)
"""Days before the first fall freeze from which a crop that grows all winter goes in for it. Our choice."""
WHOLE_YEAR = 365
"""Days of a season whose bounds nobody told."""
OFFERED = 4
"""How many crops a finding about an empty square names."""
FLOWERS = frozenset({"calendula", "marigold", "sunflower", "zinnia"})
"""Crops that most grow for their flowers: whoever wants them knows. Our choice."""


def idle(year: Year) -> Iterator[CheckResult]:
    """Find squares that the plan leaves empty for long in the season, with what would fit the gap."""
    if year.season.plan is None:
        return
    ends: set[Square] = set()
    for first, last, squares in _long_gaps(year):
        if _may_be_winter(year, first, last):
            ends.update(squares)
        else:
            yield _idle(year, squares, first, last)
    if ends:
        yield (
            None,
            advice(
                year.garden.beds[0].place,
                "idle",
                f"nothing is planned for more than {year.garden.idle} days at the beginning or the end of"
                f" {year.name} in {in_words(sorted(ends))}; when it freezes here is not told, so nobody can"
                " say what would fit",
                remedy="give freeze dates, or the start and end of the season, in content/garden.yaml",
            ),
        )


def _long_gaps(year: Year) -> Iterator[tuple[date, date, list[Square]]]:
    """Yield the first and last day of each gap that is too long, with the squares of one bed that have it.

    In order of days. Squares in which a record silences the finding are apart from the others.
    """
    gaps: dict[tuple[date, str, date, bool], list[Square]] = {}
    for bed in year.garden.beds:
        for square in bed.squares:
            for first, last in _gaps(year.plan_of.get(square, ()), growing_times(year)):
                if (last - first).days + 1 > year.garden.idle:
                    before = _row_before(year, square, first)
                    quiet = before is not None and "idle" in dict(before.silence)
                    gaps.setdefault((first, bed.name, last, quiet), []).append(square)
    for (first, _bed, last, _quiet), squares in sorted(gaps.items()):
        yield first, last, squares


def _idle(year: Year, squares: list[Square], first: date, last: date) -> CheckResult:
    """Return the finding about squares of one bed that share a gap."""
    fitting = _fitting(year, squares, first, last)
    would = f"; {', '.join(fitting)} would fit" if fitting else ""
    before = _row_before(year, squares[0], first)
    to = without_year(last) if before else in_full(last)  # a bed is the same one in every season
    rest = "silence this where the square rests on purpose" if before else "tell a longer `idle:`"
    return before, advice(
        before.place if before else year.garden.bed(squares[0].bed).place,
        "idle",
        f"nothing is planned in {in_words(squares)} from {without_year(first)}"
        f" to {to}, {(last - first).days + 1} days{would}",
        expected=f"no more than {year.garden.idle} days",
        remedy=f"plan a crop there, or {rest}",
    )


def bed_without_record(year: Year) -> Iterator[CheckResult]:
    """Find beds that no record of a season that is over names: they may not have been there, or no more.

    Their ground counts for the season all the same, unless they say in which seasons they are there.
    """
    beds = in_no_record(year.garden.beds, year.season) if year.is_over else ()
    if len(beds) == len(year.garden.beds):
        return  # a season of which no record names a place
    for bed in beds:
        yield (
            None,
            advice(
                bed.place,
                "bed-without-record",
                f"no record of {year.name} names {bed.called}, whose ground counts for it all the same",
                expected="a record of it, or the seasons that it is there",
                remedy="say since: or until: with the bed, such as `since: 2025`, also if it lay idle",
            ),
        )


def _may_be_winter(year: Year, first: date, last: date) -> bool:
    """Return whether a gap begins or ends with a year of which nobody told when anything grows.

    What is empty all year is told as any other, and between the tropics all grows all year.
    """
    span = year.season.span
    told = year.spring or year.fall or (span.last - span.first).days + 1 < WHOLE_YEAR
    return not (told or is_tropical(year.garden.latitude)) and (first == span.first) != (last == span.last)


def _gaps(holds: tuple[Hold, ...], spans: tuple[Span, ...]) -> Iterator[tuple[date, date]]:
    """Yield the first and last day of each stretch of some spans that no hold covers."""
    for span in spans:
        free = span.first
        for hold in holds:
            if hold.first > free and free <= span.last:
                yield free, min(hold.first - timedelta(days=1), span.last)
            free = max(free, hold.last + timedelta(days=1))
        if free <= span.last:
            yield free, span.last


def _fitting(year: Year, squares: list[Square], first: date, last: date) -> list[str]:
    """Return names of crops, those grown here first, that can go in and bear within the gap.

    None that another check would tell of there: one of a family that held the squares or is to, one
    whose seed lies in hot ground, a bulb out of its time, a tender one where nobody told when it freezes,
    one for which they are too narrow, a climber without a trellis; and none that lasts or is grown to be
    looked at. What cannot go in on the first day of the gap, but can soon after, is named with that day.
    """
    grown = {row.crop for season in year.garden.seasons for row in season.plan or ()}
    crops: list[tuple[bool, int, str, Crop]] = []
    for crop in year.garden.crops:
        days = days_to_harvest(crop, "", crop.usual_start)
        if crop.slug in LASTING | FLOWERS or days is None or days[1] or not has_ground(year, crop, squares):
            continue
        crops.append((crop.slug not in grown, days[0], crop.name, crop))
    names: list[str] = []
    for _new, days_long, name, crop in sorted(crops, key=lambda one: one[:3]):
        day = _first_day(year, crop, squares, first, last, days_long)
        if day is not None:
            names.append(f"{name} from {without_year(day)}" if day > first else name)
        if len(names) == OFFERED:
            break
    return names


def _first_day(
    year: Year, crop: Crop, squares: list[Square], first: date, last: date, days: int
) -> date | None:
    """Return the first day of a gap on which a crop can go in and bear within it; None for none.

    No later than a square may lie empty: what has to wait longer leaves a gap that is told again.
    """
    latest = min(last - timedelta(days=days), first + timedelta(days=year.garden.idle))
    every = map(date.fromordinal, range(first.toordinal(), latest.toordinal() + 1))
    return next((day for day in every if _can_go_in(year, crop, squares, day, last)), None)


def _can_go_in(year: Year, crop: Crop, squares: list[Square], day: date, last: date) -> bool:
    """Return whether a crop begun on a day bears by the last of a gap, and no other check tells of it."""
    start = crop.usual_start
    return (
        _in_season(year, crop, start, day, last)
        and not out_of_turn(year, squares, crop, day)
        and not (start is Start.SOW and fails_in_heat(year, crop, day))
        and not _is_out_of_its_time(year, crop, start, day)
    )


def _is_out_of_its_time(year: Year, crop: Crop, start: Start, first: date) -> bool:
    """Return whether a crop begun on a day would lack a winter to divide in, or time before its bulbs."""
    if winter_only(crop) and planted_before_winter(crop, year.garden.freezes, first) is None:
        return True
    return last_for_bulbs(year, crop, start, first) is not None


def _in_season(year: Year, crop: Crop, start: Start, first: date, last: date) -> bool:
    """Return whether a crop can go in on a day, the first here, and is ready by the last of a gap."""
    found = window_for(year, crop, first, start=start)
    _spring, fall = freezes_for(year, first)
    for_winter = found.all_winter and fall and first >= fall.middle - FOR_WINTER
    latest = found.last or (None if for_winter else found.spring_last)
    if (found.spring_safe and first < found.spring_safe) or (latest and first > latest):
        return False
    ready = year.expected(crop, first, start=start)
    if ready is None or ready.first > last or (found.fall_first and first < found.fall_first):
        return False
    if fall is None and is_tropical(year.garden.latitude):
        return not dislikes_heat(crop)  # nothing freezes between the tropics unless somebody says so
    return not crop.is_tender or (fall is not None and ready.first <= fall.middle)


def _row_before(year: Year, square: Square, day: date) -> PlanRow | None:
    """Return the planting that leaves the square before the gap, which can silence it."""
    before = [hold for hold in year.plan_of.get(square, ()) if hold.last < day]
    after = [hold for hold in year.plan_of.get(square, ()) if hold.first > day]
    nearest = before[-1:] or after[:1]
    return year.rows[nearest[0].planting] if nearest else None
