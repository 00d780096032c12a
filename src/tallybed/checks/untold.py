"""Pickings that do not tell which planting they came from, held against what stood on their day."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from tallybed.checks.results import (
    AFTER,
    NAMES,
    PICKED_THEN,
    CheckResult,
    advice,
    called,
    gone_since,
    is_answered,
    stood_before,
    warning,
)
from tallybed.garden.days import without_year
from tallybed.garden.findings import joined
from tallybed.garden.naming import folded
from tallybed.garden.plurals import in_plural
from tallybed.garden.records.ledger import State, Weighing
from tallybed.garden.records.pickings import Picking, PickingSource
from tallybed.garden.records.plan import Start
from tallybed.reckoning.harvest.picking_source import only_one
from tallybed.reckoning.harvest.pickings import produce
from tallybed.reckoning.harvest.stood import stood_in
from tallybed.reckoning.onward import stood_at_end
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.year import Year

DRYING = timedelta(days=90)
"""How long after lifting a crop may be weighed cured or dried, at most. Common practice, no source."""
NAMED = 3
"""Pickings without a planting that are named, at the most."""


def none_stood(year: Year) -> Iterator[CheckResult]:
    """Find pickings of a crop on a day on which none of its plantings stood: all were gone, or to come.

    Those that tell a planting are told by what is wrong with it.
    """
    left = _left_over(year)
    for weighing in _untold(year):
        slugs = set(weighing.crops[0].slugs)
        every = [one for one in year.plantings if not slugs.isdisjoint(one.crop.slugs)]
        if not slugs.isdisjoint(left):
            continue
        limits = [limit for one in every if (limit := _limit(year, one, weighing.day))]
        if not every or len(limits) < len(every):
            continue
        gone = [limit for limit in limits if limit[0] < weighing.day]
        if gone:
            day, last = max(gone, key=lambda limit: limit[0])
            expected = f"no later than the end of {called(year, last)}, {without_year(day)}"
        else:
            day, first = min(limits, key=lambda limit: limit[0])
            when = "goes in by the plan" if first.begun is None else "went in"
            expected = f"a day after {called(year, first)} {when}, {without_year(day)}"
        remedy = "correct the date, the crop, or the log"
        if weighing.state is not State.FRESH and gone:
            remedy = PICKED_THEN
        elif is_answered(year, weighing.crops[0]):
            remedy = f"correct the date or the log, name the crop, or correct what the name means in {NAMES}"
        yield (
            weighing,
            warning(
                weighing.place,
                "none-stood",
                f"a picking of {_named(year, weighing)} on {without_year(weighing.day)},"
                " when none stood here",
                expected=expected,
                remedy=remedy,
            ),
        )


def _left_over(year: Year) -> frozenset[str]:
    """Return the crops that stood as the season before ended, and that nothing here carries on."""
    before = year.beside(-1)
    if before is None:
        return frozenset()
    last = {slug for one in before.plantings if stood_at_end(before, one) for slug in one.crop.slugs}
    carried = (one for one in year.plantings if one.planned and one.planned.start is Start.CARRIED)
    return frozenset(last.difference(*(one.crop.slugs for one in carried)))


def _named(year: Year, weighing: Weighing) -> str:
    """Return the plural of a picking's crop, behind the general name that it was called by, if any."""
    (name,) = weighing.crops
    if name.slug is None:
        return in_plural(name.typed)
    plural = year.garden.crop(name.slug).plural
    return f"{in_plural(name.typed)} ({plural})" if is_answered(year, name) else plural


def _untold(year: Year) -> Iterator[Weighing]:
    """Yield the pickings of one crop that name neither tag nor squares."""
    for weighing in year.without_planting:
        if len(weighing.crops) == 1 and not (weighing.mixed or weighing.tag or weighing.squares):
            yield weighing


def _limit(year: Year, planting: Planting, day: date) -> tuple[date, Planting] | None:
    """Return the day on which a planting had ended before a day, or begins after it; None where it may stand.

    A few days after the end of one, its last picking may still be meant.
    """
    row = planting.planned
    gone = gone_since(year, planting)
    if gone and (day - gone).days > AFTER:
        return gone, planting
    if stood_before(planting):
        return None
    begins = planting.begun or (row.begins if row else None)
    return (begins, planting) if begins and day < begins else None


def kind_not_told(year: Year) -> Iterator[CheckResult]:
    """Find general names that no planting and no answer of the season resolves: they have sums of their own.

    All rows of one name in one finding, at the first of them.
    """
    rows: dict[str, list[Weighing]] = {}
    for weighing in _untold(year):
        if weighing.crops[0].slug is None:
            rows.setdefault(in_plural(folded(weighing.crops[0].typed)), []).append(weighing)
    for name, own in rows.items():
        kinds = own[0].crops[0].slugs
        stood = {slug for row in own for slug in kinds if _stood(year, row, slug)}
        expected = joined((year.garden.crop(slug).name for slug in sorted(stood) or kinds), "or")
        if len(stood) == 1:
            expected += ", which alone of them stood here"
        many = len(own) > 1
        yield (
            own[0],
            advice(
                own[0].place,
                "kind-not-told",
                f"{f'{len(own)} pickings' if many else 'a picking'} of {name} may be of several crops, and"
                f" {'count' if many else 'counts'} for none of them",
                expected=expected,
                remedy=f"name the crop or the tag; or say in {NAMES} what the name means this season",
            ),
        )


def _stood(year: Year, row: Weighing, slug: str) -> bool:
    """Return whether a crop stood anywhere on the day of a picking."""
    squares = (stood_in(year.holding, one, row.day) for one in year.plantings if slug in one.crop.slugs)
    return any(squares)


def planting_not_told(year: Year) -> Iterator[CheckResult]:
    """Find pickings that name neither tag nor squares, where one planting alone stood that each may be of.

    All of a season in one finding, at the first of them: such rows are true as they are, and the gardener
    may not know more. They count for their crop, and for no planting.
    """
    open_rows = []
    for weighing in _untold(year):
        slug = weighing.crops[0].slug
        if slug is None:
            continue
        told = Picking(typed="", day=weighing.day, crops=weighing.crops, variety=weighing.variety)
        found = only_one(year.holding, told, PickingSource(crop=slug))
        if found:
            open_rows.append((weighing, called(year, found[0])))
    if not open_rows:
        return
    first = open_rows[0][0]
    many = len(open_rows) > 1
    named = [f"line {row.place.line} from {planting}" for row, planting in open_rows[:NAMED]]
    if len(open_rows) > NAMED:
        named.append(f"{len(open_rows) - NAMED} more")
    yield (
        first,
        advice(
            first.place,
            "planting-not-told",
            f"{len(open_rows) if many else 'a'} picking{'s' if many else ''} without tag and squares"
            f" count{'' if many else 's'} for no planting, where one alone stood that may have given"
            f" {'each' if many else 'it'}",
            expected=f"a tag or squares, if it is known: {joined(named, 'and')}",
            remedy="add them, or silence this on the first of these lines",
        ),
    )


def counted_twice(year: Year) -> Iterator[CheckResult]:
    """Find cured or dried weights that count beside a fresh one of the same picking.

    They would be one picking if both told the same day, and the same tag or squares. Here one of them
    tells neither tag nor squares; or the later one tells no day of weighing, so that its day may be that.
    """
    ledger = year.season.ledger or ()
    fresh: dict[tuple[str, str], list[int]] = {}
    later: dict[int, str] = {}
    for line in year.lines:
        row = ledger[line.weighing]
        if not line.counts or not line.weighed or row.mixed:
            continue
        if line.state is not State.FRESH:
            later[line.weighing] = line.crop
        elif line.weighing not in (told := fresh.setdefault((line.crop, produce(row)), [])):
            told.append(line.weighing)
    for number, crop in later.items():
        row = ledger[number]
        beside = fresh.get((crop, produce(row)), ())
        of_day = [ledger[one] for one in beside if ledger[one].day == row.day]
        other = next((one for one in of_day if not _is_placed(one) or not _is_placed(row)), None)
        if other is not None:
            found, expected = (
                "of the same crop and day",
                "the same tag or squares on both, if they are one picking",
            )
            remedy = "add them; or silence this where they are two"
        elif not of_day and (before := [one for one in beside if _may_have_dried(year, one, number)]):
            other = ledger[max(before, key=lambda one: ledger[one].day)]
            found = f"of {without_year(other.day)}"
            expected = (
                f"`date: {without_year(other.day)}` and `weighed: {without_year(row.day)}` on this one,"
                " if they are one picking"
            )
            remedy = "correct them; or silence this where they are two"
        if other is not None:
            yield (
                row,
                advice(
                    row.place,
                    "counted-twice",
                    f"this {row.state} weight counts, and so does the fresh one of line {other.place.line},"
                    f" {found}",
                    expected=expected,
                    remedy=remedy,
                ),
            )


def _may_have_dried(year: Year, fresh: int, later: int) -> bool:
    """Return whether the fresh weight of a row may be that of a later row, given under the day of weighing.

    Drying takes water only, and some weeks.
    """
    (one, source), (other, own) = year.weighings[fresh], year.weighings[later]
    if other.weighed not in (None, other.day) or one.weight is None or other.weight is None:
        return False
    same = source.key == own.key if source and own else not (_is_placed(one) and _is_placed(other))
    apart = one.squares and other.squares and set(one.squares).isdisjoint(other.squares)
    return (
        same
        and not apart
        and timedelta(0) < other.day - one.day <= DRYING
        and other.weight <= one.weight
        and (one.count is None or other.count is None or one.count == other.count)
    )


def _is_placed(row: Weighing) -> bool:
    return bool(row.tag or row.squares)
