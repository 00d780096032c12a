"""The log's counts held against the plan and the room there is, and lines that stand twice."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from tallybed.checks.results import CheckResult, advice, called, gone_since, warning
from tallybed.garden.days import without_year
from tallybed.garden.naming import folded
from tallybed.garden.records.log import ENDING, STARTING, Entry, Event, Verb
from tallybed.garden.records.plan import PlanRow, Start
from tallybed.garden.squares import Square
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.room.counting import part_of
from tallybed.reckoning.room.plants import room_for, spacing_of
from tallybed.reckoning.year import Year


def lost_too_many(year: Year) -> Iterator[CheckResult]:
    """Find lines of the log by which more plants are gone than were ever planned or planted.

    What a line counts in squares beyond a planting's own is of others too, and is held against it alone.
    Seed that nobody counted lies thick: more of it may come up, and be lost, than are meant to stay.
    """
    for planting, row in year.planned:
        starts = [event for event, _squares in planting.lines if event.verb in STARTING]
        sown = any(event.seeds or (event.verb is Verb.SOW and event.plants is None) for event in starts)
        if row.plants is None or sown or (not starts and row.start is Start.SOW):
            continue
        stood, home, gone = _put_in(year, planting, row, row.plants), _home_of(planting), 0
        for event, _squares in planting.lines:
            if event.verb not in ENDING or not event.plants:
                continue
            own = home.issuperset(event.squares)
            whole = event.plants + (gone if own else 0)
            gone += event.plants if own else 0
            if whole <= stood:
                continue
            name, past = called(year, planting), event.verb.meaning.past
            yield (
                row,
                warning(
                    event.place,
                    "lost-too-many",
                    f"{whole} plants of {name} are {past}"
                    if whole == event.plants
                    else f"{whole} plants of {name} are gone, with the {event.plants} {past} here",
                    expected=f"{stood} at most, as many as were planted",
                    remedy="correct the count or the tag, or log how many were planted",
                ),
            )
            break


def _put_in(year: Year, planting: Planting, row: PlanRow, planned: int) -> int:
    """Return how many plants were put in at the most, in all its lines: by the plan where none is counted.

    Where lines leave their count out, a square that is begun again gets as many as were planned anew.
    """
    begun = set(row.squares) if row.start is Start.CARRIED else set[Square]()
    fresh, again, counted = 0, 0, not begun
    for event, squares in planting.lines:
        if event.verb in STARTING:
            number = part_of(year.garden, event.plants, event, squares)
            here = set(squares) or planting.squares
            counted = counted and number is not None
            if begun.isdisjoint(here):
                fresh += number or 0
            else:
                again += planned if number is None else number
            begun |= here
    return max(planned, fresh + again) if counted else max(planned, fresh) + again


def _home_of(planting: Planting) -> frozenset[Square]:
    """Return the squares that plan, sowing, setting out and moving gave a planting."""
    put = (squares for event, squares in planting.lines if event.verb in STARTING)
    return planting.home.union(*put, *(event.to for event, _squares in planting.lines))


def no_room_for_count(year: Year) -> Iterator[CheckResult]:
    """Find counts of the log that are above the plan's and above what the spacing has room for.

    Those sown are told only where nothing was thinned or lost afterwards; of a count in squares of two
    plantings each has its part.
    """
    for planting, row in year.planned:
        for event, squares in planting.lines:
            number = part_of(year.garden, _left(planting, event), event, squares)
            if number is None or row.plants is None or number <= row.plants:
                continue
            fit = _fit(year, planting, row, squares or row.squares)
            if fit is not None and number > fit:
                yield (
                    row,
                    advice(
                        event.place,
                        "no-room-for-count",
                        f"{called(year, planting)} stands with {number} plants by this line",
                        expected=f"{_apart(year, planting)} apart, {fit} at most; {row.plants} by the plan",
                        remedy="correct the count, say `seeds:` if it is seed, or log the thinning",
                    ),
                )


def _apart(year: Year, planting: Planting) -> str:
    """Return the spacing of a planting in words."""
    spacing = spacing_of(year.garden, planting)
    return year.garden.showing.length(spacing) if spacing else ""


def _left(planting: Planting, event: Event) -> int | None:
    """Return how many plants a line leaves standing for good, where it says so."""
    if event.verb is Verb.THIN:
        return event.leaving
    fewer = any(
        later.verb in (Verb.THIN, *ENDING) and later.day >= event.day for later, _squares in planting.lines
    )
    return event.plants if event.verb in STARTING and not fewer else None


def _fit(year: Year, planting: Planting, row: PlanRow, squares: tuple[Square, ...]) -> int | None:
    """Return how many plants keep the spacing in some squares; None where it is not known."""
    spacing = spacing_of(year.garden, planting)
    if spacing is None or not row.squares:
        return None
    return room_for(year.garden, squares, spacing)


def other_variety(year: Year) -> Iterator[CheckResult]:
    """Find plantings of which the log says another variety than the plan."""
    for planting, row in year.planned:
        if not row.variety:
            continue
        for event, _squares in planting.lines:
            if event.verb not in STARTING or not event.variety:
                continue
            if folded(event.variety) != folded(row.variety):
                yield (
                    row,
                    advice(
                        event.place,
                        "other-variety",
                        f"{called(year, planting)} was {event.verb.meaning.past} as {event.variety}",
                        expected=f"{row.variety} by the plan",
                        remedy="nothing, if it is so; the log outranks the plan for what is past",
                    ),
                )


def logged_twice(year: Year) -> Iterator[CheckResult]:
    """Find sowings and settings out that stand twice in the log of one day, in the same squares.

    Those of an entry and its copy are told once, with the entry.
    """
    copied = {frozenset((entry.place.file, other.place.file)) for entry, other in _copies(year)}
    for planting in year.plantings:
        seen: dict[tuple[object, ...], str] = {}
        for event, squares in planting.lines:
            if event.verb not in STARTING or not squares or event.note:
                continue
            key = (event.verb, event.day, frozenset(squares), event.plants, event.seeds, event.variety)
            file = event.place.file
            if key in seen and frozenset((file, seen[key])) not in copied:
                yield (
                    planting.planned,
                    advice(
                        event.place,
                        "logged-twice",
                        f"{called(year, planting)} is {event.verb.meaning.past} twice on one day"
                        " in the same squares",
                        remedy="take one line out, or say in a note what tells them apart",
                    ),
                )
            seen[key] = file


def written_twice(year: Year) -> Iterator[CheckResult]:
    """Find entries of one day and title of which one holds all that the other tells, as copies of a file do.

    Water, work and losses in both count twice; two visits of one day differ in their titles.
    """
    told = set[str]()
    for entry, other in _copies(year):
        if entry.place.file in told:
            continue
        told.add(entry.place.file)
        file = other.place.file.rpartition("/")[2]
        yield (
            None,
            warning(
                entry.place,
                "written-twice",
                f"this entry tells what {file} tells too, and what both tell counts twice",
                expected="one entry for each visit",
                remedy="delete the copy, or give two visits of one day titles of their own",
            ),
        )


def _copies(year: Year) -> Iterator[tuple[Entry, Entry]]:
    """Yield entries with an earlier one of their day and title where one holds all that the other tells."""
    seen: dict[tuple[date, str], list[Entry]] = {}
    for entry in year.season.log or ():
        earlier = seen.setdefault((entry.day, folded(entry.title)), [])
        yield from ((entry, one) for one in earlier if _is_copy(entry, one) or _is_copy(one, entry))
        earlier.append(entry)


def _is_copy(one: Entry, other: Entry) -> bool:
    """Return whether an entry tells nothing but what another does."""
    if not one.done:
        return not other.done and one.prose.split() == other.prose.split()
    return all(event in other.done for event in one.done)


def tended_after_clearing(year: Year) -> Iterator[CheckResult]:
    """Find lines that tend a crop after the log has cleared all of it, and not begun it again."""
    for planting in year.plantings:
        gone = gone_since(year, planting)
        if gone is None:
            continue
        for event, _squares in planting.lines:
            if event.verb.meaning.shows_growth and event.day > gone:
                yield (
                    planting.planned,
                    warning(
                        event.place,
                        "tended-after-clearing",
                        f"the log says `{event.verb}` of {called(year, planting)}"
                        f" on {without_year(event.day)}",
                        expected=f"a day no later than its end, {without_year(gone)}",
                        remedy="correct the date or the tag",
                    ),
                )
