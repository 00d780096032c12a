"""The plantings of a season: each planting as plan, log and ledger know it together."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date
from fractions import Fraction
from functools import cached_property

from tallybed.garden.garden import Season
from tallybed.garden.naming import CropName, folded
from tallybed.garden.records.ledger import Weighing
from tallybed.garden.records.log import INDOORS, STARTING, Event, Verb
from tallybed.garden.records.plan import PlanRow
from tallybed.garden.squares import Square
from tallybed.reckoning.plantings.drafts import PlantingDraft
from tallybed.reckoning.plantings.match import match
from tallybed.reckoning.plantings.order import RecordOrder


@dataclass(frozen=True, kw_only=True)
class Planting:
    """One planting as the plan and the records know it."""

    season: str
    key: str
    """Unique in the season: the tag, else the crop's slug, else slug-2, slug-3 by first day, then squares."""
    crop: CropName
    variety: str = ""
    """As last sown or set out; else as planned; else as any record names it."""
    tag: str = ""
    planned: PlanRow | None = None
    """None: the log or the ledger alone knows it."""
    events: tuple[Event, ...] = ()
    """Lines of the log that concern it, by day. A line over two plantings of the crop is in both."""
    weighings: tuple[Weighing, ...] = ()
    """Rows of the ledger that concern it, by day. One over two plantings of the crop is in both."""
    own: tuple[tuple[Square, ...], ...] = ()
    """For each of ``events``: the squares of the line that are this planting's; none where it names none."""
    picked: tuple[tuple[Square, ...], ...] = ()
    """For each of ``weighings``: the squares of it that are this planting's; none where it names none."""

    @cached_property
    def lines(self) -> tuple[tuple[Event, tuple[Square, ...]], ...]:
        """Each line of the log that touches the bed, with the squares of it that are this planting's."""
        pairs = zip(self.events, self.own, strict=True)
        return tuple((event, squares) for event, squares in pairs if event.verb not in INDOORS)

    @cached_property
    def home(self) -> frozenset[Square]:
        """Planned squares in which it may be supposed: none once it was planted in others only."""
        if self.planned is None:
            return frozenset()
        home = frozenset(self.planned.squares)
        starts = [squares for event, squares in self.lines if event.verb in STARTING]
        planted = frozenset(square for squares in starts for square in squares)
        known = home and starts and all(starts) and home.isdisjoint(planted)
        return frozenset() if known else home

    @cached_property
    def squares(self) -> frozenset[Square]:
        """Every square that it may be supposed in or that a record names for it."""
        told = [*self.own, *self.picked]
        told += [event.to for event, _squares in self.lines]
        return self.home.union(*told)

    @cached_property
    def begun(self) -> date | None:
        """The first day the log has it sown or set out in the bed."""
        return min((event.day for event, _squares in self.lines if event.verb in STARTING), default=None)

    def bears_from(self, day: date) -> Event | None:
        """Return the line of the log that its days to a harvest count from, as of a day; None for none.

        In each square that is its last resowing, else the first line that has it sown or set out there;
        of several squares the one that bears first tells.
        """
        found: dict[Square, Event] = {}
        for event, squares in self.lines:
            if event.verb in STARTING and event.day <= day:
                for square in squares or self.squares:
                    if event.verb is Verb.RESOW:
                        found[square] = event
                    else:
                        found.setdefault(square, event)
        return min(found.values(), key=lambda event: event.day, default=None)

    @cached_property
    def first_day(self) -> date:
        """The planned beginning, else the day of the first record."""
        if self.planned is not None:
            return self.planned.begins
        days = [event.day for event in self.events] + [weighing.day for weighing in self.weighings]
        return min(days)

    def share_in(self, square: Square) -> Fraction | None:
        """Return the share of a square told for it: by the latest log line, else by the plan."""
        told = [
            event.share
            for event, squares in self.lines
            if event.share is not None and (not squares or square in squares)
        ]
        return told[-1] if told else (self.planned.share if self.planned else None)


def plantings(season: Season, today: date, order: RecordOrder | None = None) -> tuple[Planting, ...]:
    """Return the plantings of a season, sorted by key.

    Records after ``today`` are left out, weighings by the day they were weighed. The
    order of records never matters; plan, log and ledger may each be missing. ``order`` is that
    of the season's records, where it is known already.
    """
    known = order or RecordOrder.of(season)
    found = [_planting(season.name, draft, known) for draft in match(season, today, known)]
    return tuple(sorted(_with_keys(found), key=lambda planting: planting.key))


def plantings_picked(season: Season, plantings: Iterable[Planting]) -> tuple[Planting | None, ...]:
    """Return for each row of the season's ledger the planting it came from, in the ledger's order.

    None where it was not told: a crop without squares and tag, a mixed bowl without a
    tag, squares of two plantings of that crop at once, a row after the day of ``stands``.
    """
    owners: dict[Weighing, list[Planting]] = {}
    for planting in plantings:
        for weighing in dict.fromkeys(planting.weighings):
            owners.setdefault(weighing, []).append(planting)
    found = (owners.get(weighing, []) for weighing in season.ledger or ())
    return tuple(one[0] if len(one) == 1 else None for one in found)


def by_event(plantings: Iterable[Planting]) -> dict[Event, tuple[Planting, ...]]:
    """Return for each line of the log the plantings it is about, in their order."""
    found: dict[Event, tuple[Planting, ...]] = {}
    for planting in plantings:
        for event in dict.fromkeys(planting.events):
            found[event] = (*found.get(event, ()), planting)
    return found


def _planting(season: str, draft: PlantingDraft, order: RecordOrder) -> Planting:
    """Return a draft as a planting, still without its key."""
    lines = sorted(draft.lines, key=lambda line: order.index(line[0]))
    picks = sorted(draft.picks, key=lambda pick: order.index(pick[0]))
    return Planting(
        season=season,
        key="",
        crop=_crop(draft),
        variety=_variety(draft.planned, [line[0] for line in lines], [pick[0] for pick in picks]),
        tag=draft.tag,
        planned=draft.planned,
        events=tuple(event for event, _squares in lines),
        weighings=tuple(weighing for weighing, _squares in picks),
        own=tuple(squares for _event, squares in lines),
        picked=tuple(squares for _weighing, squares in picks),
    )


def _crop(draft: PlantingDraft) -> CropName:
    """Return the crops a planting can be of, named as the narrowest record names them."""
    exact = [name for name in draft.names if frozenset(name.slugs) == draft.slugs]
    typed = (exact or list(draft.names))[0].typed
    return CropName(typed=typed, slugs=tuple(sorted(draft.slugs)))


def _variety(planned: PlanRow | None, events: list[Event], weighings: list[Weighing]) -> str:
    """Return the variety: of the last start, else of the plan, else of the first record that tells one."""
    starts = [event.variety for event in events if event.verb in STARTING and event.variety]
    if starts:
        return starts[-1]
    if planned is not None and planned.variety:
        return planned.variety
    told = [event.variety for event in events] + [weighing.variety for weighing in weighings]
    return next((variety for variety in told if variety), "")


class _BySquares:
    """A planting's squares, for sorting; put together only where all before them was the same."""

    __slots__ = ("_planting",)

    def __init__(self, planting: Planting) -> None:
        """Keep the planting to be compared."""
        self._planting = planting

    def __lt__(self, other: _BySquares) -> bool:
        """Order plantings by their squares."""
        return sorted(self._planting.squares) < sorted(other._planting.squares)


def _with_keys(found: Iterable[Planting]) -> Iterable[Planting]:
    """Yield the plantings with keys; tags are given first, so that no slug takes one."""
    used: set[str] = set()
    in_turn = sorted(found, key=lambda planting: (not planting.tag, planting.first_day, _BySquares(planting)))
    for planting in in_turn:
        base = planting.tag or planting.crop.slug or folded(planting.crop.typed).replace(" ", "-")
        key, number = base, 1
        while folded(key) in used:
            number += 1
            key = f"{base}-{number}"
        used.add(folded(key))
        yield replace(planting, key=key)
