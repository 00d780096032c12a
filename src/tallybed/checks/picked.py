"""The ledger held against what stood: pickings of what never grew, too soon, too many, or twice."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from tallybed.checks.results import AFTER, CheckResult, advice, as_said, called, gone_since, warning
from tallybed.garden.days import without_year
from tallybed.garden.grouping import grouped
from tallybed.garden.records.ledger import State, Weighing
from tallybed.garden.records.log import STARTING
from tallybed.garden.squares import Square, in_words
from tallybed.garden.units import Weight, total
from tallybed.reckoning.onward import stood_at_end
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.room.counting import part_of
from tallybed.reckoning.too_soon import too_soon
from tallybed.reckoning.year import Year

ONE_EACH = frozenset(
    {"beet", "carrot", "radish", "turnip", "rutabaga", "parsnip", "garlic", "onion-bulb", "leek", "kohlrabi"}
    | {"cabbage", "cauliflower", "lettuce-head", "fennel", "shallot", "celeriac", "daikon", "radicchio"}
)
"""Crops of which a plant gives one piece (common practice, no source)."""
TOO_MANY = 2
"""How many pieces a plant must pass: seed lies double, and nobody counts every carrot. Our choice."""


def never_stood(year: Year) -> Iterator[CheckResult]:
    """Find weighings of a crop that neither plan nor log knows, or of a planting after it was given up."""
    if year.season.plan is None and year.season.log is None:
        return
    known = [planting for planting in year.plantings if planting.planned or planting.lines]
    stood = {slug for planting in known for slug in planting.crop.slugs}
    before = year.beside(-1)
    last = [one for one in before.plantings if stood_at_end(before, one)] if before else []
    left = {slug for planting in last for slug in planting.crop.slugs}
    for weighing, planting in year.weighings:
        if len(weighing.crops) == 1 and not weighing.mixed and stood.isdisjoint(weighing.crops[0].slugs):
            found = f"{as_said(year, weighing.crops[0])} was weighed, and neither plan nor log has it"
            remedy = "correct the crop or the tag, or log when it was planted"
            if not left.isdisjoint(weighing.crops[0].slugs):
                remedy += ", or plan what stood over winter as `carried from` its season"
        elif planting and (dropped := _dropped(year, planting)) and (weighing.day - dropped).days > AFTER:
            day = without_year(dropped)
            found = f"{called(year, planting)} was weighed, and the plan has it dropped on {day}"
            remedy = "correct the crop or the tag; or take `dropped:` out, or log when it was planted again"
        else:
            continue
        yield (
            weighing,
            warning(
                weighing.place,
                "never-stood",
                found,
                expected="a crop that stood here this season",
                remedy=remedy,
            ),
        )


def _dropped(year: Year, planting: Planting) -> date | None:
    """Return the day on which the plan dropped a planting for good: it was not begun after that.

    None too where the log has it end: what is weighed after that is told as such.
    """
    dropped = planting.planned.dropped if planting.planned else None
    if dropped is None or gone_since(year, planting):
        return None
    begun = (event.day for event, _squares in planting.lines if event.verb in STARTING)
    return dropped if all(day <= dropped for day in begun) else None


def picked_elsewhere(year: Year) -> Iterator[CheckResult]:
    """Find weighings from squares that neither plan nor log ever gave their planting.

    Those of no planting that either knows are held against the squares of their crop, where there is a plan:
    without one the log may have begun late.
    """
    for planting in year.plantings:
        own = [planting]
        if planting.planned is None and not planting.lines:
            own = [one for one in year.plantings if year.season.plan and one.crop.may_be(planting.crop)]
        elif planting.planned is None and planting.begun is None:
            continue
        stood = {square for one in own for square in _told_squares(one)}
        for weighing, squares in zip(planting.weighings, planting.picked, strict=True):
            strange = set(squares) - stood
            if stood and strange:
                yield (
                    weighing,
                    warning(
                        weighing.place,
                        "picked-elsewhere",
                        f"{called(year, planting)} was picked in {in_words(strange)}, where it never stood",
                        expected=f"squares of {in_words(stood)}",
                        remedy="correct the squares or the tag, or log that it was moved or planted there",
                    ),
                )


def _told_squares(planting: Planting) -> Iterator[Square]:
    """Yield the squares that plan and log gave a planting."""
    yield from planting.planned.squares if planting.planned else ()
    for event, squares in planting.lines:
        yield from (*squares, *event.to)


def picked_too_soon(year: Year) -> Iterator[CheckResult]:
    """Find pickings so soon after planting that nothing can have grown."""
    for weighing, planting in year.weighings:
        found = too_soon(year, weighing, planting)
        if found is None:
            continue
        said = as_said(year, weighing.crops[0]) if weighing.crops else ""
        name, passed = called(year, found.planting), f"{found.passed} days after"
        yield (
            weighing,
            warning(
                weighing.place,
                "picked-too-soon",
                f"{name} was picked {passed} it went in"
                if planting
                else f"{said} was picked {passed} {name} went in, the first of it here",
                expected=f"{found.least} days at the very least",
                remedy="correct the date, the tag, or the log",
            ),
        )


def more_than_planted(year: Year) -> Iterator[CheckResult]:
    """Find plantings of which far more pieces were counted than plants were planned and logged."""
    for planting, row in year.planned:
        if planting.crop.slug not in ONE_EACH or row.plants is None:
            continue
        put = sum(
            part_of(year.garden, max(event.plants or 0, event.seeds or 0), event, squares) or 0
            for event, squares in planting.lines
            if event.verb in STARTING
        )
        counted = [one for one in planting.weighings if one.count and one.state is State.FRESH]
        pulled = sum(one.count or 0 for one in counted)
        most = max(row.plants, put)
        if pulled > TOO_MANY * most:
            largest = max(counted, key=lambda one: one.count or 0)
            yield (
                largest,
                warning(
                    largest.place,
                    "more-than-planted",
                    f"{pulled} pieces of {called(year, planting)} are counted",
                    expected=f"{most}, as many as were planted",
                    remedy="correct the count, or log how many were sown",
                ),
            )


def weighed_twice(year: Year) -> Iterator[CheckResult]:
    """Find weighings that say the same as an earlier one of that day, but for the unit.

    What only one of the two tells, its tag or its squares, tells them not apart; two plantings do.
    """
    seen: dict[tuple[date, Weight], list[tuple[Planting | None, Weighing]]] = {}
    for one, planting in year.weighings:
        if one.weight is None or one.mixed:
            continue
        before = seen.setdefault((one.day, one.weight), [])
        alike = (
            other
            for source, other in before
            if _may_be_one(planting, one, source, other) and one.says_the_same(other)
        )
        earlier = next(alike, None)
        if earlier is not None:
            yield (
                one,
                advice(
                    one.place,
                    "weighed-twice",
                    f"this weighing says the same as that of line {earlier.place.line}, of the same day",
                    remedy="take one out, or say in a note what tells them apart",
                ),
            )
        before.append((planting, one))


def _may_be_one(planting: Planting | None, one: Weighing, source: Planting | None, other: Weighing) -> bool:
    """Return whether two weighings, each with the planting it is from, may be of one planting."""
    if planting and source:
        return planting.key == source.key
    names = (planting.crop,) if planting else one.crops
    others = (source.crop,) if source else other.crops
    return any(name.may_be(another) for name in names for another in others)


def heavier_cured(year: Year) -> Iterator[CheckResult]:
    """Find pickings that weigh more cured or dried than they did fresh: water only goes."""
    for planting in year.plantings:
        own = dict.fromkeys(planting.weighings)
        weighed = (one for one in own if one.weight and one.state is State.FRESH)
        fresh = grouped(weighed, lambda one: one.day)
        for one in own:
            before = fresh.get(one.day)
            if one.state is State.FRESH or one.weight is None or not before:
                continue
            whole = total(other.weight for other in before if other.weight)
            same = one.count is None or one.count == sum(other.count or 0 for other in before)
            if same and one.weight > whole:
                showing = year.garden.showing
                yield (
                    one,
                    warning(
                        one.place,
                        "heavier-cured",
                        f"{called(year, planting)} weighs {showing.picked(one.weight)} {one.state}",
                        expected=f"less than the {showing.picked(whole)} it weighed fresh",
                        remedy="check the unit and the decimal point",
                    ),
                )
