"""Plants held against the time they spend indoors, and crops that want to go in as plants."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from tallybed.checks.growing.beginnings import Begun, beginnings
from tallybed.checks.results import CheckResult, advice
from tallybed.garden.crops import Beginning, Crop
from tallybed.garden.records.plan import Start
from tallybed.reckoning.year import Year

TAPROOTED = frozenset({"carrot", "parsnip", "radish"})
"""Crops whose root forks where it is moved (common practice, no source)."""
YOUNGEST = 10
"""Days indoors below which there is no plant to set out. Our choice, below all printed weeks."""
SPROUTING = 14
"""Days that seed takes to come up, at the most, added to weeks that a table counts from there (the chart
printed by the Monterey Bay Master Gardeners: 4 to 14 days; peppers 20)."""
KEEPS = frozenset({"leek", "onion-bulb", "onion-bunching", "shallot"})
"""Crops whose plants are never too old: leeks are sown in March and set out until the end of July (a page of
northern England), onions sown in January for June (Alaska) or in July for November (western Washington)."""
_INSTEAD = {
    Beginning.SET_OUT: "set out as a plant: it needs a long time to bear",
    Beginning.SETS: "set out as sets: no figure is known of how long it takes from seed",
}
OVER = 7
"""Days above the most weeks printed from which a plant is too old. Our choice."""


def seedlings(year: Year) -> Iterator[CheckResult]:
    """Find plants that are days or many weeks old when they are set out, and taprooted crops that were moved.

    Held against the least and the most weeks that any source of the crop prints; half of the
    least is told.
    """
    for one in beginnings(year):
        said = _seedling(one) if one.start is Start.SET_OUT else None
        if said is None or (one.logged and _told_of_the_plan(one, said[1])):
            continue
        yield (
            one.row,
            advice(
                one.place,
                "seedlings",
                said[0],
                expected=said[1],
                remedy="correct the day, or say in `silence:` why it works for you",
            ),
        )


def _told_of_the_plan(one: Begun, usual: str) -> bool:
    """Return whether the plan's own days are told of for the same: some days more are no other fault."""
    row = one.row
    if row is None or row.start is not Start.SET_OUT or row.sow_indoors is None:
        return False
    planned = _seedling(replace(one, day=row.begins, indoors=row.sow_indoors))
    return planned is not None and planned[1] == usual


def _seedling(one: Begun) -> tuple[str, str] | None:
    """Return what is wrong with the age of a plant that is set out, and what is usual; None if nothing."""
    if one.indoors is None or one.indoors > one.day:
        return None
    if one.crop.slug in TAPROOTED:
        return f"{one.called} is started indoors and moved", "sown where it is to stand"
    days = (one.day - one.indoors).days
    weeks = _weeks(one.crop)
    least = max(YOUNGEST, round(weeks[0] * 7 / 2)) if weeks else YOUNGEST
    found = f"{one.called} is set out {days} days after it is sown indoors"
    if days < least:
        usual = f"{weeks[0]:g} to {weeks[1]:g} weeks" if weeks else f"{YOUNGEST} days at the very least"
        return found, usual
    if weeks and days > weeks[1] * 7 + OVER and one.crop.slug not in KEEPS:
        return found, f"{weeks[0]:g} to {weeks[1]:g} weeks: older plants stop growing and crop less"
    return None


def _weeks(crop: Crop) -> tuple[float, float] | None:
    """Return the least and the most weeks indoors that any source of the crop prints, from sowing.

    Where a table counts from the sprouting, the days that seed takes for it come to the most.
    """
    told = [one for one in crop.all_of("weeks indoors") if one.low is not None and one.high is not None]
    if not told:
        return None
    most = (float(one.high or 0) + (SPROUTING / 7 if "sprouting" in one.of else 0) for one in told)
    return float(min(one.low or 0 for one in told)), max(most)


def sown_in_bed(year: Year) -> Iterator[CheckResult]:
    """Find crops sown in the bed that go in as plants or sets: no source counts their days from sowing."""
    for one in beginnings(year):
        crop = one.crop
        expected = _INSTEAD.get(crop.start) if crop.start else None
        if one.start is not Start.SOW or not expected or crop.own or crop.used("days from sowing"):
            continue
        if one.logged and one.row is not None and one.row.start is Start.SOW:
            continue
        yield (
            one.row,
            advice(
                one.place,
                "sown-in-bed",
                f"{one.called} is sown in the bed",
                expected=expected,
                remedy="sow it indoors, or say `set out:` if that is meant",
            ),
        )
