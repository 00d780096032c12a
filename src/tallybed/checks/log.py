"""The log held against the plan: late, never planted, pulled early, planted elsewhere or not at all."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from datetime import date, timedelta

from tallybed.checks.results import MISSED, CheckResult, advice, as_said, called, is_overdue, warning
from tallybed.garden.days import without_year
from tallybed.garden.findings import Finding
from tallybed.garden.records.log import ENDING, STARTING, Event, Verb
from tallybed.garden.records.plan import PlanRow, Start
from tallybed.garden.squares import Square, in_words
from tallybed.reckoning.growing_time import window_for
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.year import Year

LATE = 10
"""Days behind the plan from which a planting is late: more than a week between visits. Our choice."""
EARLY = 10
"""Days before its planned end from which a planting was pulled early. Our choice."""


def late(year: Year) -> Iterator[CheckResult]:
    """Find plantings begun late, naming each later planting that the slip pushes out of its window."""
    for planting, row in year.planned:
        if row.start is Start.CARRIED or planting.begun is None:
            continue
        days = (planting.begun - row.begins).days
        if days < LATE:
            continue
        pushed = tuple(_pushed(year, planting, row, timedelta(days=days)))
        names = "; ".join(
            f"{name} would then go in on {day}, after its last day {last}" for name, day, last in pushed
        )
        yield (
            row,
            advice(
                row.place,
                "late",
                f"{called(year, planting)} went in on {without_year(planting.begun)}, {days} days late"
                + (f": {names}" if names else ""),
                expected=f"{without_year(row.begins)} by the plan",
                remedy="nothing, if it still fits; the plan is kept as it was meant",
            ),
        )


def _pushed(year: Year, planting: Planting, row: PlanRow, slip: timedelta) -> Iterator[tuple[str, str, str]]:
    """Yield plantings that follow in these squares and can no longer go in by their last day.

    Each follower waits for the one before it as long as that one needs the square.
    """
    free = dict.fromkeys(row.squares, row.until + slip)
    for other, other_row in sorted(year.planned, key=lambda pair: (pair[1].begins, pair[0].key)):
        if other.key == planting.key or other_row.begins < row.until or other.begun is not None:
            continue
        waits = [free[square] for square in other_row.squares if square in free]
        if not waits or max(waits) <= other_row.begins:
            continue
        begins = max(waits)
        for square in other_row.squares:
            free[square] = other_row.until + (begins - other_row.begins)
        crop = year.crop_of(other)
        start, day = other_row.start, other_row.begins
        last = crop and window_for(year, crop, day, variety=other.variety, start=start).last
        if last and begins > last:
            yield called(year, other), without_year(begins), without_year(last)


def never_planted(year: Year) -> Iterator[CheckResult]:
    """Find plantings whose day is long past and of which neither log nor ledger has a word."""
    for planting, row in year.planned:
        if is_overdue(year, planting):
            yield (
                row,
                advice(
                    row.place,
                    "never-planted",
                    f"{called(year, planting)} was to go in on {without_year(row.begins)}, "
                    "and no record speaks of it",
                    remedy="log it, or say `dropped:` and `because:`",
                ),
            )


def pulled_early(year: Year) -> Iterator[CheckResult]:
    """Find plantings that were cleared well before the plan meant them to be."""
    for planting, row in year.planned:
        ends = [event for event, _squares in planting.lines if event.verb in ENDING and event.plants is None]
        holds = year.holding.of_planting(planting.key)
        gone = max((hold.last for hold in holds), default=None)
        if not ends or gone is None or not row.until_told:
            continue
        last = ends[-1]
        if last.day < gone or any(
            event.verb in STARTING and event.day > last.day for event in planting.events
        ):
            continue
        days = (row.until - last.day).days
        if days >= EARLY:
            why = f" ({last.because})" if last.because else ""
            yield (
                row,
                advice(
                    row.place,
                    "pulled-early",
                    f"{called(year, planting)} ended on {without_year(last.day)}{why}, {days} days early",
                    expected=f"{without_year(row.until)} by the plan",
                    remedy="plan something for the days gained",
                ),
            )


def elsewhere(year: Year) -> Iterator[CheckResult]:
    """Find plantings that went into squares the plan did not give them."""
    for planting, row in year.planned:
        planted = {
            square for event, squares in planting.lines if event.verb in STARTING for square in squares
        }
        strange = planted.difference(row.squares)
        if strange:
            yield (
                row,
                advice(
                    row.place,
                    "elsewhere",
                    f"{called(year, planting)} was planted in {in_words(strange)}",
                    expected=f"{in_words(row.squares)} by the plan",
                    remedy="nothing; the log outranks the plan for what is past",
                ),
            )


def nothing_there(year: Year) -> Iterator[CheckResult]:
    """Find lines of the log that tend, move or end a crop where neither plan nor log put it by then.

    What came up or was seen by itself is none. Where there is no plan, the log may have begun late.
    """
    if year.season.plan is None:
        return
    for planting in year.plantings:
        tended = [pair for pair in planting.lines if pair[0].verb not in (Verb.OBSERVE, Verb.UP)]
        if planting.begun is not None or not tended:
            continue
        event, squares = tended[0]
        row = planting.planned
        if row is not None:
            if (row.begins - event.day).days > MISSED:
                yield row, _long_before(year, planting, row, event)
            continue
        if event.tag:
            continue  # a tag that nothing else bears is told where it is read
        known = [
            square
            for other in year.plantings
            if other.planned is not None or other.begun is not None
            if other.crop.may_be(planting.crop)
            for square in other.squares
        ]
        where = f" in {in_words(squares)}" if squares else ""
        yield (
            None,
            warning(
                event.place,
                "nothing-there",
                f"the log says `{event.verb}` of {called(year, planting)}{where}, and neither plan nor log"
                " ever put it there",
                expected=f"squares of {in_words(known)}" if known else "a crop that was planted this season",
                remedy="correct the crop, the squares or the tag, log when it was planted,"
                " or plan it as `carried from` an earlier season",
            ),
        )


def failed_after_up(year: Year) -> Iterator[CheckResult]:
    """Find lines that say that nothing came of what the log had come up, or the ledger picked, before."""
    for planting in year.plantings:
        for event, own in planting.lines:
            if event.verb is not Verb.FAILED or event.plants is not None:
                continue
            shown = _shown_before(planting, event, set(own))
            if shown is None:
                continue
            day, what = shown
            yield (
                planting.planned,
                advice(
                    event.place,
                    "failed-after-up",
                    f"the log says `failed` of {called(year, planting)} on {without_year(event.day)},"
                    f" which {what} on {without_year(day)}",
                    expected="`failed` of what never came up",
                    remedy="say `lost`, with `because:`, or `clear`; or correct the squares or the tag",
                ),
            )


def _shown_before(planting: Planting, failed: Event, own: set[Square]) -> tuple[date, str] | None:
    """Return the last day on which what failed was shown to grow since it was sown, and by what; else None.

    What failed in some squares may have come up in the others: a record of no squares shows nothing then.
    """
    part = bool(planting.squares - own) if own else False

    def here(squares: Collection[Square]) -> bool:
        return not own.isdisjoint(squares) if part else True

    begun = [one.day for one, there in planting.lines if one.verb in STARTING and one.day < failed.day]
    since = max(begun, default=date.min)
    found = [
        (one.day, one.verb.meaning.past if one.verb is Verb.UP else f"was {one.verb.meaning.past}")
        for one, _there in planting.lines
        if one.verb.meaning.shows_growth and since <= one.day <= failed.day and here(one.squares)
    ]
    found += [
        (one.day, "was picked")
        for one in planting.weighings
        if since <= one.day <= failed.day and here(one.squares)
    ]
    return max(found, default=None)


def told_nowhere(year: Year) -> Iterator[CheckResult]:
    """Find lines of the log that change what stands and name neither squares nor a tag: nothing follows."""
    for event in (event for entry in year.season.log or () for event in entry.done):
        if event.crop is None or event.tag or event.squares or not event.verb.meaning.change:
            continue
        stood = [
            hold.square
            for planting in year.plantings
            if planting.crop.may_be(event.crop)
            for hold in year.holding.of_planting(planting.key)
            if hold.first <= event.day <= hold.last and event.verb not in STARTING
        ]
        yield (
            None,
            warning(
                event.place,
                "told-nowhere",
                f"the log says `{event.verb}` of {as_said(year, event.crop)}"
                f" on {without_year(event.day)}, and not where: nothing follows from it for any square",
                expected=f"`squares:`, such as {in_words(stood)}, or a tag"
                if stood
                else "`squares:`, or a tag",
                remedy="say where, or which planting it was",
            ),
        )


def _long_before(year: Year, planting: Planting, row: PlanRow, event: Event) -> Finding:
    """Return the finding that a line of the log tends what by the plan goes in weeks later."""
    return warning(
        event.place,
        "nothing-there",
        f"the log says `{event.verb}` of {called(year, planting)} on {without_year(event.day)}, and by the"
        f" plan it goes in on {without_year(row.begins)}",
        expected="a planting that stood there",
        remedy="correct the tag or the squares, or log when it was planted",
    )
