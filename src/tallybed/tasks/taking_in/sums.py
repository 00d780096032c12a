"""What a spreadsheet adds up to: by crop and month for what is new, and as a whole."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from tallybed.garden.days import MONTHS
from tallybed.garden.plurals import figured
from tallybed.garden.records.ledger import Weighing
from tallybed.garden.units import Showing, Weight, total
from tallybed.reading.base.problems import Misread
from tallybed.reading.text import measures
from tallybed.tasks.taking_in.intake import Books, Fate, Intake

NAMED = 3
"""Letters of a month's name in the table's head."""


@dataclass
class _Cell:
    """What one crop gave in one month."""

    weights: list[Weight] = field(default_factory=list)
    rows: int = 0

    def add(self, one: Weighing) -> None:
        """Add a row."""
        self.rows += 1
        if one.weight is not None:
            self.weights.append(one.weight)

    def words(self, showing: Showing) -> str:
        """Return the sum in words, with a plus where a row of it was not weighed."""
        if not self.rows:
            return ""
        if not self.weights:
            return "not weighed"
        whole = showing.number(total(self.weights), 2)
        return whole if len(self.weights) == self.rows else f"{whole}+"


def by_crop_and_month(books: Books, intakes: Iterable[Intake]) -> list[tuple[str, ...]]:
    """Return the new rows' sums as rows of a table, headings first; none where nothing is new."""
    found: dict[tuple[str, str], _Cell] = {}
    months: set[tuple[int, int]] = set()
    rows = [line.slip.weighing for intake in intakes for line in intake.of(Fate.NEW) if line.slip]
    names = {crop.slug: crop.name for crop in books.garden.crops}
    for one in rows:
        crop = " + ".join(names.get(crop.slug or "", crop.typed) for crop in one.crops) or one.tag
        month = (one.day.year, one.day.month)
        months.add(month)
        for key in ((crop, f"{month}"), (crop, ""), ("", f"{month}"), ("", "")):
            found.setdefault(key, _Cell()).add(one)
    if not rows:
        return []
    showing = books.garden.showing
    order = sorted(months)
    years = {year for year, _month in order}
    heads = [MONTHS[month - 1][:NAMED] + (f" {year}" if len(years) > 1 else "") for year, month in order]
    table = [("crop", "rows", *heads, f"all ({showing.unit})")]
    for crop in [*sorted({crop for crop, _month in found if crop}), ""]:
        cells = [found.get((crop, f"{month}"), _Cell()).words(showing) for month in order]
        whole = found[crop, ""]
        table.append((crop or "all", str(whole.rows), *cells, whole.words(showing)))
    return table


def as_the_sheet_adds_up(books: Books, intakes: Sequence[Intake]) -> str:
    """Return in words what all rows of a file weigh that tell a weight, whatever becomes of them.

    Empty where that may be one of two sums, which are told with the question which one it is.
    """
    if any(intake.open_numbers is not None for intake in intakes):
        return ""
    weights = []
    for intake in intakes:
        for line in intake.lines:
            try:
                read = measures.weighing(line.row.get("weight"))
            except Misread:
                continue
            if read.weight is not None:
                weights.append(read.weight)
    if not weights:
        return ""
    whole = books.garden.showing.summed(total(weights))
    return f"The weights of the file add up to {whole} in {figured(len(weights), 'row')}."
