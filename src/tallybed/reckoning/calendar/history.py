"""The history of a planting: what is known of it from sowing to clearing, and how long each part took."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from tallybed.garden.crops import Crop, Figure
from tallybed.garden.days import ONE_DAY, Span
from tallybed.garden.garden import Garden
from tallybed.garden.naming import variety_of
from tallybed.garden.records.ledger import Weighing
from tallybed.garden.records.log import Verb
from tallybed.garden.squares import Square
from tallybed.reckoning.calendar.bed_season import BedSeason
from tallybed.reckoning.calendar.milestones import (
    ENDS,
    FIRST_PICKED,
    GONE,
    LAST_PICKED,
    RESOWN,
    SET_OUT,
    SOWN,
    SOWN_INDOORS,
    UP,
    Milestone,
    in_order,
    indoor_work,
    of_changes,
    picking_days,
    touched,
)
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.plantings.untold import may_be_of
from tallybed.reckoning.room.plants import crop_of
from tallybed.reckoning.squares.occupancy import Grade, Hold, Holding
from tallybed.reckoning.squares.stays import Stay

TO_PICKINGS = ("to the first picking", "picking to the last")
"""How durations end that nobody can tell where another picking may have been the first, or the last."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Duration:
    """How long a part of a history took, beside what is known of how long it should."""

    of: str
    """``from sowing to the first picking``"""
    days: int
    grade: Grade
    """The lesser knowledge of its two ends."""
    ended: bool = True
    """False where it still goes on: the days are those so far."""
    variety: int | None = None
    """Days to maturity of its variety, where they are known and count from the same beginning."""
    figure: Figure | None = None
    """The figure used for the crop, for the same days."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlantingHistory:
    """What is known of one planting."""

    planting: Planting
    milestones: tuple[Milestone, ...]
    """By day; of one day in the order in which a planting goes through them."""
    durations: tuple[Duration, ...]
    holds: tuple[Hold, ...]
    """Its days in each square, by how well they are known."""
    began: date | None
    """Its first day in the bed this season, if that is past."""
    gone: date | None
    """The day its last square was free, if that is past and something says so."""
    gone_by: Grade | None = None
    """How well that day is known: supposed where the plan alone says so; None where ``gone`` is."""
    away: tuple[Span, ...] = ()
    """Days between those in which it had no square, as when all was lost and sown again later."""
    maybe: tuple[Weighing, ...] = ()
    """Pickings that may be of it: they name its crop, no planting is known for them, and it stood, or nobody
    wrote that it was gone."""


def histories(
    garden: Garden, holding: Holding, beds: Collection[BedSeason], untold: Iterable[Weighing] = ()
) -> Mapping[str, PlantingHistory]:
    """Return the history of every planting of a season by its key, as far as it is recorded and planned.

    ``beds``: the season of each of the garden's beds, under the same holding. ``untold``: the
    weighings that do not say which planting they came from.
    """
    own: dict[str, list[Stay]] = {planting.key: [] for planting in holding.plantings}
    for bed in beds:
        for stay in bed.stays:
            own[stay.planting].append(stay)
    milestones = of_changes(change for bed in beds for change in bed.changes)
    return {
        planting.key: _history(
            holding,
            planting,
            crop_of(garden, planting),
            own[planting.key],
            milestones.get(planting.key, ()),
            may_be_of(untold, planting.crop.slugs),
        )
        for planting in holding.plantings
    }


def _history(
    holding: Holding,
    planting: Planting,
    crop: Crop | None,
    own: Sequence[Stay],
    changed: Iterable[Milestone],
    untold: Iterable[Weighing],
) -> PlantingHistory:
    """Return one planting's history; ``changed``: its milestones from the changes of the beds."""
    today = holding.today
    found = [*changed, *indoor_work(planting, today), *touched(planting, Verb.UP), *picking_days(planting)]
    resown = frozenset(one.day for one in found if one.what == RESOWN)
    milestones = sorted(found, key=lambda one: in_order(one, again=one.day in resown))
    past = [milestone for milestone in milestones if milestone.day <= today]
    begun = [stay.first for stay in own if stay.first <= today]
    gone = _gone(own, today)
    gone_by = _gone_by(milestones, gone)
    until = gone if gone is not None and gone_by is not Grade.SUPPOSED else today
    away = tuple(_away(own, today))
    maybe = tuple(one for one in untold if begun and min(begun) <= one.day <= until)
    by = min(today, holding.span.last)  # nobody looked after it once its season was over
    growing = _growing(past, own, planting, crop, gone, by)
    picked = {one.day for one in past if one.what in (FIRST_PICKED, LAST_PICKED)}
    if any(not picked or not min(picked) <= one.day <= max(picked) for one in maybe):
        growing = (one for one in growing if not one.of.endswith(TO_PICKINGS))
    return PlantingHistory(
        planting=planting,
        milestones=tuple(milestones),
        durations=(*growing, *_in_bed(past, own, gone, by, away)),
        holds=holding.of_planting(planting.key),
        began=min(begun, default=None),
        gone=gone,
        gone_by=gone_by,
        away=away,
        maybe=maybe,
    )


def _gone_by(milestones: Iterable[Milestone], gone: date | None) -> Grade | None:
    """Return how well the day is known on which the last square was free."""
    ends = [one.grade for one in milestones if one.day == gone and one.what in ENDS]
    return max(ends, default=None if gone is None else Grade.SUPPOSED)


def _gone(own: Iterable[Stay], today: date) -> date | None:
    """Return the day the last of some stays was left, if all were by today."""
    left = [stay.left for stay in own]
    known = [day for day in left if day is not None and day <= today]
    return max(known) if known and len(known) == len(left) else None


def _away(own: Iterable[Stay], today: date) -> Iterator[Span]:
    """Yield the days up to today between some stays that lie in none of them."""
    last = None
    for stay in sorted((stay for stay in own if stay.first <= today), key=lambda stay: stay.first):
        if last is not None and stay.first > last + ONE_DAY:
            yield Span(first=last + ONE_DAY, last=stay.first - ONE_DAY)
        last = stay.last if last is None else max(last, stay.last)


def _growing(
    past: Sequence[Milestone],
    own: Sequence[Stay],
    planting: Planting,
    crop: Crop | None,
    gone: date | None,
    today: date,
) -> Iterator[Duration]:
    """Yield the durations from beginning to picking; that to the first picking goes on until it comes."""
    indoors, up, picked, last = (_first(past, what) for what in (SOWN_INDOORS, UP, FIRST_PICKED, LAST_PICKED))
    out = _set_out(past, own, picked)
    if indoors and out and indoors.day > out.day:
        indoors = None  # sown after the day the plan sets out by: other plants than those
    if indoors and out:
        yield _between("from sowing indoors to setting out", indoors, out)
    sown = None if out else _sown(past, up)
    if sown and up:
        yield _between("from sowing to the first shoots", sown, up)
    ready = picked or (None if gone else Milestone(day=today, what="", squares=(), grade=Grade.SEEN))
    sown = _sown(past, picked, _picked_from(planting, picked)) if picked else _sown(past, None)
    starts = [(indoors, "sowing", " indoors")] if out else [(sown, "sowing", "")]
    starts += [(out, "setting out", "")]
    for start, of, where in starts:
        if start and ready and start.day < ready.day:
            yield _between(
                f"from {of}{where} to the first picking",
                start,
                ready,
                ended=picked is not None,
                figure=crop.used(f"days from {of}") if crop else None,
                variety=_variety_days(crop, planting, of),
            )
    if picked and last:
        usual = crop.used("usable days after first harvest") if crop else None
        yield _between(
            "from the first picking to the last", picked, last, ended=gone is not None, figure=usual
        )


def _first(past: Iterable[Milestone], what: str) -> Milestone | None:
    """Return the first milestone of that name, or None."""
    return next((milestone for milestone in past if milestone.what == what), None)


def _sown(
    past: Iterable[Milestone], before: Milestone | None, squares: frozenset[Square] = frozenset()
) -> Milestone | None:
    """Return the sowing that a crop came from: the last one before it was up, or was picked.

    ``squares`` are those it was picked from, where they are told: a sowing of others alone is none of it.
    """
    sowings = [
        milestone
        for milestone in past
        if milestone.what in (SOWN, RESOWN)
        and (before is None or milestone.day < before.day)
        and (not squares or not milestone.squares or not squares.isdisjoint(milestone.squares))
    ]
    return max(sowings, key=lambda milestone: milestone.day, default=None)


def _picked_from(planting: Planting, picked: Milestone) -> frozenset[Square]:
    """Return the squares of the pickings of a day; none where one of them does not tell its own."""
    own = [
        squares
        for weighing, squares in zip(planting.weighings, planting.picked, strict=True)
        if weighing.day == picked.day
    ]
    return frozenset().union(*own) if all(own) else frozenset()


def _set_out(past: Iterable[Milestone], own: Iterable[Stay], picked: Milestone | None) -> Milestone | None:
    """Return the setting out that the picked plants came from: the first, or the next after all were gone."""
    found = None
    for one in (each for each in past if each.what == SET_OUT):
        before = [stay.last for stay in own if stay.first < one.day]
        anew = all(last < one.day for last in before) and (picked is None or one.day < picked.day)
        found = one if found is None or anew else found
    return found


def _between(
    of: str,
    start: Milestone,
    end: Milestone,
    *,
    ended: bool = True,
    figure: Figure | None = None,
    variety: int | None = None,
) -> Duration:
    """Return the duration from one milestone to another."""
    return Duration(
        of=of,
        days=(end.day - start.day).days,
        grade=max(start.grade, end.grade),
        ended=ended,
        figure=figure,
        variety=variety,
    )


def _variety_days(crop: Crop | None, planting: Planting, of: str) -> int | None:
    """Return the variety's days to maturity where they count from that beginning, or None."""
    variety = variety_of(crop, planting.variety) if crop else None
    return variety.days if variety and crop and crop.days_from == of else None


def _in_bed(
    past: Sequence[Milestone], own: Sequence[Stay], gone: date | None, today: date, away: Iterable[Span]
) -> Iterator[Duration]:
    """Yield how long it has had squares of the bed; nothing for one that stood there before the season.

    The days on which it had none, ``away``, do not count.
    """
    begun = next((milestone for milestone in past if milestone.what in (SOWN, SET_OUT)), None)
    if begun is None or any(stay.carried for stay in own):
        return
    left = [milestone for milestone in past if milestone.what in GONE and milestone.day == gone]
    grades = [begun.grade, *(milestone.grade for milestone in left)]
    days = ((gone or today) - begun.day).days - sum(span.days for span in away if span.first > begun.day)
    yield Duration(of="in the bed", days=days, grade=max(grades), ended=gone is not None)
