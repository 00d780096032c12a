"""Log and ledger matched to the plan: which record concerns which planting.

The rules, in the order in which they are applied (records of one kind by day):

1. A record with a tag concerns the planting of that tag. A tag that the plan does not
   know goes to the planting without a tag that its first line fits, else to a new planting.
2. A sowing or setting out without a tag begins, square by square, the planting of that
   crop whose planned beginning (or recorded one, within two weeks) is nearest.
3. Where none has those squares, it begins a planting that nothing in the log has met
   yet, planned within 30 days of it: planted elsewhere. Else it is a new planting.
4. Other lines with a crop and squares concern, square by square, the planting that fits best
   (``scores.fit``), else a new one that the log alone knows.
5. So do weighings; those that fit none make plantings that the ledger alone knows.

A crop without squares and tag is not told, in log and ledger alike, even where there is
but one candidate; only sowing indoors and potting up, which touch no square, go to the
plantings whose planned day for it is nearest. The order of the files plays no part.
"""

from __future__ import annotations

from datetime import date

from tallybed.garden.garden import Season
from tallybed.garden.naming import folded
from tallybed.garden.records.ledger import Weighing
from tallybed.garden.records.log import CROP_VERBS, INDOORS, STARTING, TAKING_SOME, Event, Verb
from tallybed.garden.records.plan import PlanRow
from tallybed.reckoning.plantings.by_tag import place_tagged
from tallybed.reckoning.plantings.candidates import Claim, Field, InFull, PaperLine, weighing_order
from tallybed.reckoning.plantings.drafts import PlantingDraft, takes_all
from tallybed.reckoning.plantings.order import RecordOrder
from tallybed.reckoning.plantings.scores import (
    WIDENED,
    Level,
    fit,
    open_to_start,
    resow_reach,
    start_reach,
    varieties_clash,
)

ELSEWHERE = 30
"""Days between a sowing and the beginning planned in other squares within which it may be the one meant."""


def match(season: Season, today: date, order: RecordOrder) -> tuple[PlantingDraft, ...]:
    """Return the plantings of a season with the records up to and with ``today`` that concern each.

    ``order`` is that of the season's records.
    """
    ground = Field(general={folded(typed): slug for typed, slug in season.general})
    for plan_row in sorted(season.plan or (), key=_planting_order):
        ground.planned(plan_row)
    lines = (event for entry in season.log or () for event in entry.done if event.day <= today)
    events = sorted(lines, key=order.index)
    told = (one for one in season.ledger or () if max(one.day, one.weighed or one.day) <= today)
    weighings = sorted(told, key=order.index)
    place_tagged(ground, events, weighings)
    loose = [event for event in events if not event.tag and event.crop]
    picks = [
        one for one in weighings if not one.tag and one.squares and len(one.crops) == 1 and not one.mixed
    ]
    _indoors(ground, [event for event in loose if event.verb in INDOORS])
    placed = [event for event in loose if event.squares and event.verb not in INDOORS]
    rest = [event for event in placed if event.verb not in STARTING]
    _starts(ground, [event for event in placed if event.verb in STARTING], rest, picks)
    _others(ground, rest)
    _picked(ground, picks)
    return tuple(ground.drafts)


def _planting_order(plan_row: PlanRow) -> tuple[object, ...]:
    """Order rows of the plan by what they say, whatever their order in the file."""
    return (plan_row.begins, sorted(plan_row.squares), InFull(plan_row), plan_row.place)


def _slugs(event: Event) -> frozenset[str]:
    """Return the crops a line can be of; none where it names none."""
    return frozenset(event.crop.slugs) if event.crop else frozenset()


def _indoors(ground: Field, events: list[Event]) -> None:
    """Give each untagged indoor line to the plantings whose planned day for it is nearest.

    One tray may feed several plantings of one day, so all of them get it.
    """
    for event in events:
        near: dict[int, list[PlantingDraft]] = {}
        for draft in ground.drafts:
            planned = draft.planned
            if planned is None or not draft.slugs & _slugs(event):
                continue
            day = planned.sow_indoors if event.verb is Verb.SOW_INDOORS else planned.pot_up
            if day is not None:
                near.setdefault(abs((event.day - day).days), []).append(draft)
        if near and min(near) <= WIDENED:
            for draft in near[min(near)]:
                ground.add(draft, event, ())


def _starts(ground: Field, events: list[Event], others: list[Event], picks: list[Weighing]) -> None:
    """Give each line of sowing or setting out to the planting it begins; else it makes a new one."""
    left = [event for event in events if not _begin(ground, event)]
    placed = _elsewhere(ground, left, _met_at_home(ground, others, picks)) if left else frozenset()
    for number, event in enumerate(left):
        if number not in placed and not _begin(ground, event) and event.crop:
            ground.add(ground.unplanned([event.crop]), event, event.squares)


def _begin(ground: Field, event: Event) -> bool:
    """Let a starting line begin what it fits by its squares; return whether it fits anything."""
    reach = resow_reach if event.verb is Verb.RESOW else start_reach
    claims = ground.claims(_slugs(event), event.squares, lambda draft, square: reach(draft, square, event))
    _share_out(ground, event, claims)
    return bool(claims)


def _share_out(ground: Field, event: Event, claims: list[Claim]) -> None:
    """Give each draft its squares of a line; squares that fit none go to the best.

    A line that moves plants, or counts those lost or cleared, cannot be divided. One of
    care leaves squares out that fit none.
    """
    if not claims:
        return
    counted = event.verb in TAKING_SOME and not takes_all(event)
    if counted or event.verb.meaning.moves:
        best = min(claims, key=lambda claim: (-len(claim.squares), claim[:2]))
        ground.add(best.draft, event, event.squares)
        return
    known = {square for claim in claims for square in claim.squares}
    rest = [square for square in event.squares if square not in known and event.verb in CROP_VERBS]
    for number, claim in enumerate(claims):
        ground.add(claim.draft, event, claim.squares if number else [*claim.squares, *rest])


def _met_at_home(ground: Field, others: list[Event], picks: list[Weighing]) -> set[int]:
    """Return the ranks of planned plantings with no recorded start that records met in their own squares."""
    found = {draft.rank for draft in ground.drafts if draft.home.intersection(draft.met)}
    records: list[PaperLine] = [*others, *picks]
    for record in records:
        ending = isinstance(record, Event) and takes_all(record)
        for claim in _fitting(ground, record, ending=ending):
            if claim.fit[0] <= Level.MAY_STAND:
                found.add(claim.rank)
    return found


def _fitting(ground: Field, record: PaperLine, *, ending: bool = False) -> list[Claim]:
    """Return the drafts that a record without a tag fits, square by square."""
    crop = record.crop if isinstance(record, Event) else record.crops[0]
    slugs = frozenset(crop.slugs) if crop else frozenset()
    weighed = isinstance(record, Weighing)
    return ground.claims(
        slugs,
        record.squares,
        lambda draft, square: fit(
            draft, square, record.day, ground.by_square[square], ending=ending, weighed=weighed
        ),
    )


def _elsewhere(ground: Field, events: list[Event], met: set[int]) -> set[int]:
    """Let plantings that nothing has met begin in other squares; return the places of the lines so used.

    The nearest pair of line and planting first, so that an odd sowing weeks early does not take it.
    """
    pairs: list[tuple[int, bool, int, int]] = []
    for number, event in enumerate(events):
        for draft in ground.drafts:
            planned = draft.planned
            if planned is None or draft.rank in met or draft.starts or event.verb is Verb.RESOW:
                continue
            off = abs((planned.begins - event.day).days)
            if off <= ELSEWHERE and draft.slugs & _slugs(event) and open_to_start(draft, event.day):
                pairs.append((off, varieties_clash(draft, event), number, draft.rank))
    placed: set[int] = set()
    for _off, _clash, number, rank in sorted(pairs):
        if number not in placed and not ground.drafts[rank].starts:
            ground.add(ground.drafts[rank], events[number], events[number].squares)
            placed.add(number)
    return placed


def _others(ground: Field, events: list[Event]) -> None:
    """Give each other line of the log to the plantings it fits; one that fits none makes a new one."""
    for event in events:
        claims = _fitting(ground, event, ending=takes_all(event))
        _share_out(ground, event, claims)
        if not claims and event.crop:
            ground.add(ground.unplanned([event.crop]), event, event.squares)


def _picked(ground: Field, weighings: list[Weighing]) -> None:
    """Give weighings to the plantings that stood there on the day, else to the one nearest by day."""
    orphans = []
    for weighing in weighings:
        claims = _fitting(ground, weighing)
        there = [claim for claim in claims if claim.fit[0] <= Level.MAY_STAND]
        for claim in there or claims[:1]:
            ground.pick(claim.draft, weighing, claim.squares)
        if not claims:
            orphans.append(weighing)
    for group in _together(orphans):
        draft = ground.unplanned([weighing.crops[0] for weighing in group])
        for weighing in group:
            ground.pick(draft, weighing, weighing.squares)


def _together(weighings: list[Weighing]) -> list[list[Weighing]]:
    """Group weighings of one crop that share squares without a long gap: one planting each."""
    groups: list[list[Weighing]] = []
    for weighing in weighings:
        joined, apart = [weighing], []
        for group in groups:
            if _belongs(weighing, group):
                joined += group
            else:
                apart.append(group)
        groups = [*apart, sorted(joined, key=weighing_order)]
    return sorted(groups, key=lambda group: weighing_order(group[0]))


def _belongs(weighing: Weighing, group: list[Weighing]) -> bool:
    """Return whether a weighing joins a group: soon after it, in a square and of a crop in common."""
    squares = {square for one in group for square in one.squares}
    slugs = {slug for one in group for slug in one.crops[0].slugs}
    near = (weighing.day - max(one.day for one in group)).days <= WIDENED
    return near and not squares.isdisjoint(weighing.squares) and not slugs.isdisjoint(weighing.crops[0].slugs)
