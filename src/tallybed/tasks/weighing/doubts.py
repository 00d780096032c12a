"""What speaks against a row that is about to be written: the ledger has it, or nothing can have grown."""

from __future__ import annotations

from collections.abc import Iterator

from tallybed.garden.days import without_year
from tallybed.garden.records.ledger import Weighing
from tallybed.reckoning.harvest.sheet_compare import Likenesses
from tallybed.reckoning.too_soon import too_soon
from tallybed.reckoning.year import Year


def doubts(longer: Year) -> Iterator[str]:
    """Yield in words what speaks against the last row of a season's ledger."""
    *owners, own = longer.owners
    *ledger, record = longer.season.ledger or ()
    # What only one of two rows tells, its tag or its squares, tells them not apart; two plantings do.
    pairs = zip(ledger, owners, strict=True)
    near = [one for one, its in pairs if not (own and its) or own.key == its.key]
    if record.weight is not None and not record.mixed:
        same = [one for one in near if one.says_the_same(record)]
        like = Likenesses(same, longer.holding.plantings).of(record)
        if like:
            yield f"line {like.place.line} of the ledger says the same, of the same day"
    yield from _too_soon(longer, record)


def _too_soon(longer: Year, record: Weighing) -> Iterator[str]:
    """Yield in words that nothing can have grown by then, where the planting went in so late."""
    found = too_soon(longer, record, longer.owners[-1])
    if found:
        crop = longer.crop_of(found.planting)
        name = found.planting.tag or (crop.name if crop else found.planting.crop.typed)
        yield (
            f"{name} went in {found.passed} days before {without_year(record.day)}, and takes {found.least}"
            " days to a first harvest at the very least"
        )
