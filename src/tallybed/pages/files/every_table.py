"""Every table of a season for reuse: its papers, what they come to beside rows, and what it took."""

from __future__ import annotations

from tallybed.pages.files.data_rows import Dataset, datasets
from tallybed.pages.files.effort_data import effort_datasets
from tallybed.pages.files.rows_data import row_datasets
from tallybed.reckoning.year import Year


def every_table(year: Year) -> tuple[Dataset, ...]:
    """Return the tables of a season, in a settled order."""
    return (*datasets(year), *row_datasets(year), *effort_datasets(year))
