"""A season's papers as they were at the end of a day."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from tallybed.garden.garden import Season


def season_seen_from(season: Season, day: date) -> Season:
    """Return a season without what was recorded later than a day."""
    plan, log, ledger = season.plan, season.log, season.ledger
    if plan is not None:
        plan = tuple(
            replace(one, dropped=None, because="") if one.dropped is not None and one.dropped > day else one
            for one in plan
        )
    if log is not None:
        log = tuple(entry for entry in log if entry.day <= day)
    if ledger is not None:
        ledger = tuple(one for one in ledger if one.told_on <= day)
    costs, prices = season.costs, season.prices
    if costs is not None:
        costs = tuple(one for one in costs if one.day <= day)
    if prices is not None:
        prices = tuple(one for one in prices if one.day <= day)
    closed = season.closed and season.span.last <= day
    return replace(season, plan=plan, log=log, ledger=ledger, costs=costs, prices=prices, closed=closed)
