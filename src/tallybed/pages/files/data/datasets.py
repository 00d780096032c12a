"""Which tables for reuse a season has."""

from __future__ import annotations

from tallybed.pages.files.data.beds import beds
from tallybed.pages.files.data.effort import effort_datasets
from tallybed.pages.files.data.given import given
from tallybed.pages.files.data.ledger import ledger
from tallybed.pages.files.data.log import log
from tallybed.pages.files.data.plan import plan
from tallybed.pages.files.data.rows import row_datasets
from tallybed.pages.files.data.stood import stood_table
from tallybed.pages.files.data.tables import Dataset
from tallybed.pages.files.data.treatments import treatments
from tallybed.pages.files.data.weather import weather_datasets
from tallybed.reckoning.year import Year


def datasets(year: Year) -> tuple[Dataset, ...]:
    """Return the tables of a season's papers, of what stood, of that beside rows, and of what it took."""
    season = year.season
    return (
        *([ledger(year), given(year)] if season.ledger is not None else []),
        *([plan(year)] if season.plan is not None else []),
        stood_table(year),
        beds(year),
        *([log(year)] if season.log is not None else []),
        *([treatments(year)] if season.log is not None else []),
        *row_datasets(year),
        *effort_datasets(year),
        *weather_datasets(year),
    )
