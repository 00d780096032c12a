"""A season's waits: every line of the log that begins one, and every planting and square it reaches.

The first safe day is the day of the line and the wait added to it: seven days from 10 June
is 17 June. What the label does not say is not known, and never zero. Waits of earlier
seasons go on in plants that were carried over, or that may have been left standing; in the ground go on
those of manure, and of labels that speak of the next crop.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field, replace
from datetime import date
from functools import cached_property

from tallybed.garden.crops import Crop
from tallybed.garden.days import Span
from tallybed.garden.garden import Garden
from tallybed.garden.records.log import Event, Verb
from tallybed.garden.records.plan import Start
from tallybed.garden.records.treatment import Treatment
from tallybed.garden.squares import Square
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.room.plants import crop_of
from tallybed.reckoning.squares.occupancy import Holding
from tallybed.reckoning.waits.manure import TOUCHES_SOIL, is_raw, manure_wait
from tallybed.reckoning.waits.reach import PlantedSquare, cleared_by, led_on, reached_squares, standings
from tallybed.reckoning.waits.reentry import keep_off
from tallybed.reckoning.waits.spans import SquareKeptOff, Wait, WaitKind

UNTOLD = Treatment()
"""A line of ``treat`` that says nothing of its product: a label nobody wrote down."""


@dataclass(frozen=True, kw_only=True, eq=False)
class SeasonGround:
    """What of one season its waits follow from. Compared by identity."""

    garden: Garden
    span: Span
    events: tuple[Event, ...]
    """The lines of its log up to the day it is seen from, in any order."""
    hold: Callable[[], Holding] = field(repr=False, compare=False)
    """What says who holds its squares, asked only of a season with something that may wait."""

    @cached_property
    def holding(self) -> Holding:
        """Who holds which square on which day."""
        return self.hold()

    @cached_property
    def standings(self) -> tuple[PlantedSquare, ...]:
        """What stood in each square."""
        return standings(self.holding)

    def planting(self, key: str) -> Planting:
        """Return the planting of that key. Raises KeyError."""
        return self.holding.planting(key)

    def crop(self, key: str) -> Crop | None:
        """Return the crop of a planting, or None where its name is general."""
        return crop_of(self.garden, self.planting(key))

    def squares(self, event: Event) -> frozenset[Square]:
        """Return the squares that a line reaches."""
        return reached_squares(event, self.garden.beds, self.holding.plantings, self.standings)


def season_waits(
    ground: SeasonGround, earlier: Iterable[tuple[SeasonGround, Callable[[], Iterable[Wait]]]]
) -> tuple[Wait, ...]:
    """Return every wait of a season's plantings, by day, planting and square.

    ``earlier``: the seasons before it, each with what tells its own waits; it is asked only where a
    label or manure of theirs may reach into the season.
    """
    before = tuple(earlier)
    reaching = any(_reaches(event, ground.span.first) for one, _waits in before for event in one.events)
    spread = [
        (one, event)
        for one in (*(one for one, _waits in before), ground)
        for event in one.events
        if is_raw(event)
    ]
    candidates = [
        *_by_label(ground),
        *(wait for one, event in spread for wait in _in_ground(ground, one.squares(event), event)),
        *(wait for one, waits in before if reaching for wait in _carried(ground, one, waits())),
        *(wait for one, _waits in before for wait in _left_behind(ground, one)),
    ]
    found: dict[tuple[str, Square, Event, WaitKind], list[Wait]] = {}
    for wait in sorted(candidates, key=_order):
        own = found.setdefault((wait.planting, wait.square, wait.event, wait.kind), [])
        if not own or _again(wait, own[-1]):
            own.append(wait)
    return tuple(sorted((wait for own in found.values() for wait in own), key=_order))


def _again(wait: Wait, before: Wait) -> bool:
    """Return whether a wait is of a planting that came back to a square after it was out of it.

    It may have come back on the very day: then the two begin together, and the later end tells them apart.
    """
    if before.cleared is None or wait.begins < before.cleared:
        return False
    return before.begins < wait.begins or before.cleared != wait.cleared


def _order(wait: Wait) -> tuple[object, ...]:
    """Return what waits are put in order by."""
    end = wait.cleared or date.max
    return (wait.event.day, wait.planting, wait.square, wait.event.place, wait.begins, end)


def _by_label(ground: SeasonGround) -> Iterator[Wait]:
    """Yield the waits of a season's own treatments."""
    for event in ground.events:
        told = _label(event)
        if told is None:
            continue
        squares = ground.squares(event)
        safe = told.safe_from(event.day)
        there: dict[tuple[str, bool], list[Square]] = {}
        gone = {(one.planting, one.square) for one in ground.standings if one.cleared == event.day}
        for one in ground.standings:
            if one.square in squares and one.on(event.day):
                anew = one.first == event.day and (one.planting, one.square) in gone
                there.setdefault((one.planting, anew), []).append(one.square)
        for (key, anew), own in there.items():
            planting = ground.planting(key)
            for square, begins in led_on(planting, own, event.day):
                yield _plant_wait(ground, planting, square, event, begins, safe, anew=anew)
        if told.next_crop:
            yield from _following(ground, squares, event, safe)


def _label(event: Event) -> Treatment | None:
    """Return a treatment that something waits after; None where a line is of none, or of one by hand."""
    if event.verb is not Verb.TREAT:
        return None
    told = event.treatment or UNTOLD
    return told if told.has_label or told.wait is not None else None


def _reaches(event: Event, first: date) -> bool:
    """Return whether a plant may still wait after a line of the log on a season's first day."""
    if is_raw(event):
        return event.day + TOUCHES_SOIL > first
    told = _label(event)
    if told is None:
        return False
    safe = told.safe_from(event.day)
    return safe is None or safe > first


def _plant_wait(
    ground: SeasonGround,
    planting: Planting,
    square: Square,
    event: Event,
    begins: date,
    safe: date | None,
    *,
    kind: WaitKind = WaitKind.LABEL,
    anew: bool = False,
) -> Wait:
    """Return one planting's wait in one square; ``anew``: of plants begun on its first day."""
    return Wait(
        season=ground.holding.season,
        planting=planting.key,
        square=square,
        kind=kind,
        event=event,
        begins=begins,
        first_safe=safe,
        cleared=cleared_by(planting, square, begins, anew=anew),
    )


def _following(
    ground: SeasonGround, squares: frozenset[Square], event: Event, safe: date | None
) -> Iterator[Wait]:
    """Yield the waits of what comes into treated squares before the label's wait is over."""
    for one in ground.standings:
        if one.square in squares and one.first > event.day and (safe is None or one.first < safe):
            yield _plant_wait(ground, ground.planting(one.planting), one.square, event, one.first, safe)


def _left_behind(ground: SeasonGround, before: SeasonGround) -> Iterator[Wait]:
    """Yield the waits of what comes into squares of an earlier season whose label speaks of the next crop."""
    for event in before.events:
        told = _label(event)
        if told is not None and told.next_crop:
            yield from _following(ground, before.squares(event), event, told.safe_from(event.day))


def _in_ground(ground: SeasonGround, squares: frozenset[Square], event: Event) -> Iterator[Wait]:
    """Yield the waits of whatever stands in manured squares, or comes into them, before they are over.

    What is moved out of them takes along what clings to it.
    """
    held: set[Square] = set()
    for one in ground.standings:
        safe = event.day + manure_wait(ground.crop(one.planting))
        over = one.gone is not None and one.gone < event.day
        if one.square not in squares or over or one.first >= safe:
            continue
        held.add(one.square)
        own = Wait(
            season=ground.holding.season,
            planting=one.planting,
            square=one.square,
            kind=WaitKind.MANURE,
            event=event,
            begins=max(one.first, event.day),
            first_safe=safe,
            cleared=one.cleared,
        )
        yield own
        planting = ground.planting(one.planting)
        for square, begins in led_on(planting, [one.square], own.begins):
            if square not in squares and begins < safe:
                yield _plant_wait(ground, planting, square, event, begins, safe, kind=WaitKind.MANURE)
    safe = event.day + TOUCHES_SOIL
    if safe > ground.span.first:
        for square in squares - held:
            yield Wait(
                season=ground.holding.season,
                planting="",
                square=square,
                kind=WaitKind.MANURE,
                event=event,
                begins=event.day,
                first_safe=safe,
            )


def _carried(ground: SeasonGround, before: SeasonGround, waits: Iterable[Wait]) -> Iterator[Wait]:
    """Yield the waits that plants of an earlier season bring along, where they may still stand.

    Manured squares make what stands in them wait by themselves; here it is what was moved out of them.
    """
    for wait in waits:
        past = wait.first_safe is not None and wait.first_safe <= ground.span.first
        if not wait.planting or wait.cleared is not None or past:
            continue
        if wait.kind is WaitKind.MANURE and wait.square in before.squares(wait.event):
            continue
        old = before.planting(wait.planting)
        same = tuple(_same_plants(ground, old, wait.square))
        if not same:
            yield _unspoken(ground, old, wait)
        for planting in same:
            for square, begins in led_on(planting, [wait.square], wait.begins):
                yield _plant_wait(
                    ground, planting, square, wait.event, begins, wait.first_safe, kind=wait.kind
                )


def _unspoken(ground: SeasonGround, old: Planting, wait: Wait) -> Wait:
    """Return the wait of plants that nobody wrote were gone, and of which the new season tells nothing.

    They may stand until something else comes into their square, by log or plan.
    """
    others = (one.first for one in ground.standings if one.square == wait.square)
    return replace(
        wait,
        season=ground.holding.season,
        planting="",
        left=frozenset(old.crop.slugs),
        begins=ground.span.first,
        cleared=min(others, default=None),
    )


def _same_plants(ground: SeasonGround, old: Planting, square: Square) -> Iterator[Planting]:
    """Yield the plantings that may be an earlier season's plants: carried over, or never planted anew."""
    for one in ground.holding.plantings:
        if not one.crop.may_be(old.crop) or square not in one.squares:
            continue
        planned = one.planned
        anew = one.begun is not None or (planned is not None and planned.start is not Start.CARRIED)
        if not anew:
            yield one


def season_keep_offs(
    ground: SeasonGround, waits: Iterable[Wait], earlier: Iterable[SquareKeptOff]
) -> tuple[SquareKeptOff, ...]:
    """Return how long people keep off each square, by day and square; what was left open goes on."""
    reached: dict[tuple[Event, Square], list[date | None]] = {}
    for wait in waits:
        reached.setdefault((wait.event, wait.square), []).append(wait.cleared)
    found = [one for one in earlier if _goes_on(one, ground)]
    for event in ground.events:
        rule = keep_off(event.day, event.treatment or UNTOLD) if event.verb is Verb.TREAT else None
        if rule is None:
            continue
        found += [
            SquareKeptOff(
                square=square, event=event, rule=rule, cleared=_all_out(reached.get((event, square)))
            )
            for square in ground.squares(event)
        ]
    return tuple(sorted(found, key=lambda one: (one.event.day, one.square, one.event.place)))


def _goes_on(one: SquareKeptOff, ground: SeasonGround) -> bool:
    """Return whether an earlier season's rule reaches into a season."""
    first = ground.span.first
    if one.rule.first_day is not None:
        return one.rule.first_day > first
    return one.cleared is None


def _all_out(cleared: list[date | None] | None) -> date | None:
    """Return the day by which all treated plants are out of a square; None where some may stand."""
    if not cleared:
        return None
    known = [day for day in cleared if day is not None]
    return max(known) if len(known) == len(cleared) else None
