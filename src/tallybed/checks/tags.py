"""Tags held against the crops that stand beside them, in log and ledger."""

from __future__ import annotations

from collections.abc import Iterator

from tallybed.checks.results import NAMES, CheckResult, SilencingRecord, as_said, called, is_answered, warning
from tallybed.garden.findings import Place, joined
from tallybed.garden.naming import CropName, folded
from tallybed.reckoning.year import Year


def tag_of_another_crop(year: Year) -> Iterator[CheckResult]:
    """Find lines of the log and rows of the ledger that name a crop, and the tag of a planting of another.

    Such a line is of that planting; such a weight counts for it, and in sums by crop for the crop named.
    """
    tagged = {folded(one.tag): one for one in year.plantings if one.tag}
    for place, tag, crop, row in _told(year):
        planting = tagged.get(folded(tag))
        if planting is None or planting.crop.may_be(crop):
            continue
        said = as_said(year, crop)
        if crop.slug and is_answered(year, crop):
            said += f" (in {NAMES}: {year.garden.crop(crop.slug).name})"
        others = sorted(one.tag for one in tagged.values() if one.crop.may_be(crop))
        yield (
            row or planting.planned,
            warning(
                place,
                "tag-of-another-crop",
                f"this says {said}, and its tag is that of {called(year, planting)}",
                expected=f"the tag of a planting of it: {joined(others, 'or')}" if others else "",
                remedy="correct the tag or the crop",
            ),
        )


def _told(year: Year) -> Iterator[tuple[Place, str, CropName, SilencingRecord | None]]:
    """Yield each record with a tag and one crop: its place, both, and what may silence a finding of it."""
    for event in (event for entry in year.season.log or () for event in entry.done):
        if event.tag and event.crop:
            yield event.place, event.tag, event.crop, None
    for weighing in year.season.ledger or ():
        if weighing.tag and len(weighing.crops) == 1 and not weighing.mixed:
            yield weighing.place, weighing.tag, weighing.crops[0], weighing
