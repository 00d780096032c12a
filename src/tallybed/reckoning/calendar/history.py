"""The life of a planting: what is known of it from sowing to clearing, and how long each part took."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from tallybed.garden.crops import Crop, Figure
from tallybed.garden.garden import Garden
from tallybed.garden.log import Verb
from tallybed.garden.squares import Square
from tallybed.reckoning.calendar.changes import FIRST_RECORDED, changes
from tallybed.reckoning.plantings.plantings import Stand
from tallybed.reckoning.room.plants import crop_of, variety_of
from tallybed.reckoning.squares.occupancy import Grade, Hold, Holding
from tallybed.reckoning.squares.stays import Stay, stays

SOWN_INDOORS, POTTED_UP = "sown indoors", "potted up"
SOWN, RESOWN, SET_OUT, UP = "sown", "resown", "set out", "came up"
FIRST_PICKED, LAST_PICKED = "first picked", "last picked"
GONE = frozenset({"failed", "lost", "cleared"})
"""What takes a planting out of squares for good."""
_TOUCHED = {Verb.SOW_INDOORS: SOWN_INDOORS, Verb.POT_UP: POTTED_UP, Verb.UP: UP}
_RANK = (
    *(SOWN_INDOORS, POTTED_UP, SOWN, SET_OUT, FIRST_RECORDED, UP, RESOWN, "thinned"),
    *(FIRST_PICKED, LAST_PICKED, "moved"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Moment:
    """One thing that happened to a planting, or was meant to."""

    day: date
    what: str
    """As the constants here name it, or as ``changes`` does: ``thinned``, ``cleared``, ``lost in part``."""
    squares: tuple[Square, ...]
    """None where it touched no square, or all of them."""
    grade: Grade
    plants: int | None = None
    why: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """How long a part of a life took, beside what is known of how long it should."""

    of: str
    """``from sowing to the first picking``"""
    days: int
    grade: Grade
    """The lesser knowledge of its two ends."""
    ended: bool = True
    """False where it still runs: the days are those so far."""
    variety: int | None = None
    """Days to maturity of its variety, where they are known and count from the same beginning."""
    figure: Figure | None = None
    """The figure used for the crop, for the same stretch."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Life:
    """What is known of one planting."""

    stand: Stand
    moments: tuple[Moment, ...]
    """By day; of one day in the order of a life."""
    stretches: tuple[Stretch, ...]
    holds: tuple[Hold, ...]
    """Its days in each square, by how well they are known."""
    began: date | None
    """Its first day in the bed this season, if that is past."""
    gone: date | None
    """The day its last square was free, if that is past and something says so."""


def lives(garden: Garden, holding: Holding) -> Mapping[str, Life]:
    """Return the life of every planting of a season by its key, as far as it is recorded and planned."""
    own: dict[str, list[Stay]] = {stand.key: [] for stand in holding.stands}
    moments: dict[str, list[Moment]] = {stand.key: [] for stand in holding.stands}
    for bed in garden.beds:
        here = stays(holding, bed.name)
        for stay in here:
            own[stay.stand].append(stay)
        for change in changes(holding, bed, here, holding.span.first, holding.span.last):
            moments[change.stand].append(
                Moment(
                    day=change.day,
                    what=change.what,
                    squares=change.squares,
                    grade=change.grade,
                    plants=change.plants,
                    why=change.why,
                )
            )
    return {
        stand.key: _life(holding, stand, crop_of(garden, stand), own[stand.key], moments[stand.key])
        for stand in holding.stands
    }


def _life(
    holding: Holding, stand: Stand, crop: Crop | None, own: Sequence[Stay], changed: Iterable[Moment]
) -> Life:
    today = holding.today
    found = [*changed, *_indoors(stand, today), *_touched(stand, Verb.UP), *_picked(stand)]
    moments = sorted(found, key=_order)
    past = [moment for moment in moments if moment.day <= today]
    begun = [stay.first for stay in own if stay.first <= today]
    gone = _gone(own, today)
    stretches = [*_growing(past, stand, crop, gone, today), *_in_bed(past, own, gone, today)]
    return Life(
        stand=stand,
        moments=tuple(moments),
        stretches=tuple(stretches),
        holds=holding.of_stand(stand.key),
        began=min(begun, default=None),
        gone=gone,
    )


def _gone(own: Iterable[Stay], today: date) -> date | None:
    left = [stay.left for stay in own]
    known = [day for day in left if day is not None and day <= today]
    return max(known) if known and len(known) == len(left) else None


def _order(moment: Moment) -> tuple[date, int, str, tuple[Square, ...]]:
    rank = _RANK.index(moment.what) if moment.what in _RANK else len(_RANK)
    return moment.day, rank, moment.what, moment.squares


def _indoors(stand: Stand, today: date) -> Iterator[Moment]:
    planned = stand.planned
    meant = {
        Verb.SOW_INDOORS: planned.sow_indoors if planned else None,
        Verb.POT_UP: planned.pot_up if planned else None,
    }
    for verb, day in meant.items():
        told = list(_touched(stand, verb))
        yield from told
        kept = planned is None or planned.dropped is None or (day or today) < planned.dropped
        if day is not None and not told and kept:
            grade = Grade.SUPPOSED if day <= today else Grade.PLANNED
            yield Moment(day=day, what=_TOUCHED[verb], squares=(), grade=grade)


def _touched(stand: Stand, verb: Verb) -> Iterator[Moment]:
    for event, own in zip(stand.events, stand.own, strict=True):
        if event.verb is verb:
            yield Moment(
                day=event.day,
                what=_TOUCHED[verb],
                squares=own,
                grade=Grade.SEEN,
                plants=event.plants,
                why=event.because,
            )


def _picked(stand: Stand) -> Iterator[Moment]:
    days = sorted({weighing.day for weighing in stand.weighings})
    for day, what in zip([*days[:1], *days[1:][-1:]], (FIRST_PICKED, LAST_PICKED), strict=False):
        yield Moment(day=day, what=what, squares=(), grade=Grade.SEEN)


def _growing(
    past: Sequence[Moment], stand: Stand, crop: Crop | None, gone: date | None, today: date
) -> Iterator[Stretch]:
    """Yield the stretches from beginning to picking; that to the first picking runs on until it comes."""
    indoors, out, up, picked, last = (
        _first(past, what) for what in (SOWN_INDOORS, SET_OUT, UP, FIRST_PICKED, LAST_PICKED)
    )
    if indoors and out:
        yield _between("from sowing indoors to setting out", indoors, out)
    sown = None if out else _sown(past, up)
    if sown and up:
        yield _between("from sowing to the first shoots", sown, up)
    ready = picked or (None if gone else Moment(day=today, what="", squares=(), grade=Grade.SEEN))
    starts = [(indoors, "sowing", " indoors")] if out else [(_sown(past, picked), "sowing", "")]
    starts += [(out, "setting out", "")]
    for start, of, where in starts:
        if start and ready and start.day < ready.day:
            yield _between(
                f"from {of}{where} to the first picking",
                start,
                ready,
                ended=picked is not None,
                figure=crop.used(f"days from {of}") if crop else None,
                variety=_variety_days(crop, stand, of),
            )
    if picked and last:
        usual = crop.used("usable days after first harvest") if crop else None
        yield _between(
            "from the first picking to the last", picked, last, ended=gone is not None, figure=usual
        )


def _first(past: Iterable[Moment], what: str) -> Moment | None:
    return next((moment for moment in past if moment.what == what), None)


def _sown(past: Iterable[Moment], before: Moment | None) -> Moment | None:
    """Return the sowing that a crop came from: the last one before it was up, or was picked."""
    sowings = [
        moment
        for moment in past
        if moment.what in (SOWN, RESOWN) and (before is None or moment.day < before.day)
    ]
    return max(sowings, key=lambda moment: moment.day, default=None)


def _between(
    of: str,
    start: Moment,
    end: Moment,
    *,
    ended: bool = True,
    figure: Figure | None = None,
    variety: int | None = None,
) -> Stretch:
    return Stretch(
        of=of,
        days=(end.day - start.day).days,
        grade=max(start.grade, end.grade),
        ended=ended,
        figure=figure,
        variety=variety,
    )


def _variety_days(crop: Crop | None, stand: Stand, of: str) -> int | None:
    variety = variety_of(crop, stand) if crop else None
    return variety.days if variety and crop and crop.days_from == of else None


def _in_bed(past: Sequence[Moment], own: Sequence[Stay], gone: date | None, today: date) -> Iterator[Stretch]:
    """Yield how long it has had squares of the bed; nothing for one that stood there before the season."""
    begun = next((moment for moment in past if moment.what in (SOWN, SET_OUT)), None)
    if begun is None or any(stay.carried for stay in own):
        return
    left = [moment for moment in past if moment.what in GONE and moment.day == gone]
    grades = [begun.grade, *(moment.grade for moment in left)]
    days = ((gone or today) - begun.day).days
    yield Stretch(of="in the bed", days=days, grade=max(grades), ended=gone is not None)
