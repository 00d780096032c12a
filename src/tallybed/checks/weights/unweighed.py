"""What was cleared and never weighed, of crops that are weighed when they are taken out."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from tallybed.checks.results import CheckResult, advice, called, gone_since
from tallybed.garden.days import without_year
from tallybed.garden.findings import joined
from tallybed.garden.records.log import Verb
from tallybed.garden.records.plan import PlanRow, Start
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.plantings.untold import may_be_of
from tallybed.reckoning.year import Year

TAKEN_OUT = frozenset(
    {"beet", "carrot", "celeriac", "garlic", "onion-bulb", "parsnip", "potato", "pumpkin", "rutabaga"}
    | {"shallot", "squash-winter", "sweet-potato"}
)
"""Crops of which all, or nearly all, is taken out and weighed at the end. Our choice."""
TO_CURE = timedelta(days=42)
"""Days after clearing within which it may still hang or lie to cure, unweighed. Our choice."""
NAMED = 3
"""Plantings that are named, at the most."""


def never_weighed(year: Year) -> Iterator[CheckResult]:
    """Find what the log has cleared of such crops with nothing of it in the ledger, not even ``not weighed``.

    All of a season in one finding, at the first row of the plan. Nothing is told where nobody weighs, of
    what was lost or cleared young, and where a picking that names no planting may be of it.
    """
    if not any(row.weight for row in year.season.ledger or ()):
        return
    found = [(row, planting, day) for planting, row in year.planned if (day := _gone(year, planting, row))]
    if not found:
        return
    found.sort(key=lambda one: one[0].place.line)
    named = [f"{called(year, planting)} on {without_year(day)}" for _row, planting, day in found[:NAMED]]
    if len(found) > NAMED:
        named.append(f"{len(found) - NAMED} more")
    first = found[0][0]
    what = f"{len(found)} plantings were" if len(found) > 1 else "a planting was"
    yield (
        first,
        advice(
            first.place,
            "never-weighed",
            f"{what} cleared, and the ledger has nothing of {'them' if len(found) > 1 else 'it'}:"
            f" {joined(named, 'and')}",
            expected="what it weighed, or “not weighed”",
            remedy="add it to the ledger; log `lost` where it came to nothing; or silence this on that row",
        ),
    )


def _gone(year: Year, planting: Planting, row: PlanRow) -> date | None:
    """Return the day on which a planting was cleared long enough ago, if nothing of it is in the ledger."""
    gone, crop = gone_since(year, planting), year.crop_of(planting)
    if gone is None or crop is None or crop.slug not in TAKEN_OUT or planting.weighings:
        return None
    if any(event.verb in (Verb.LOST, Verb.FAILED) for event, _squares in planting.lines):
        return None
    young = (gone - (planting.begun or row.begins)).days * 2 < (crop.days or 0)
    if (
        (young and row.start is not Start.CARRIED)
        or year.today - gone < TO_CURE
        or may_be_of(year.without_planting, planting.crop.slugs)
    ):
        return None
    return gone
