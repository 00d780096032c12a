"""What a season took, up to a day: everything of it that follows from a Year, kept with the Year."""

from __future__ import annotations

from datetime import date

from tallybed.reckoning.effort.money import Spending, Value, spending, value
from tallybed.reckoning.effort.watering import Watering, watering
from tallybed.reckoning.effort.work import Work, work
from tallybed.reckoning.harvest.tally import BY, added, tally
from tallybed.reckoning.year import Year


def season_work(year: Year, until: date) -> Work | None:
    """Return the work up to and with a day; None without a log."""
    log = year.season.log
    return None if log is None else year.kept(("work", until), lambda: work(log, until))


def season_water(year: Year, until: date) -> Watering | None:
    """Return the water up to and with a day; None without a log."""
    log = year.season.log
    return None if log is None else year.kept(("water", until), lambda: watering(year.garden, log, until))


def season_costs(year: Year, until: date) -> Spending | None:
    """Return what it cost, of what was paid up to and with a day; None where no costs are on record."""
    seasons = year.garden.seasons
    until = _bills_until(year, until)
    return year.kept(("costs", until), lambda: spending(year.season, seasons, until))


def season_value(year: Year, until: date) -> Value | None:
    """Return what its produce up to a day would have cost; None where no prices are on record."""
    prices = year.season.prices
    if prices is None:
        return None

    def found() -> Value:
        """Reckon the value."""
        kept = [line for line in year.lines if line.day <= until]
        totals = {str(key): total for key, total in tally(kept, BY["crop"]).items()}
        return value(prices, totals, added(kept).weight, _bills_until(year, until))

    return year.kept(("value", until), found)


def _bills_until(year: Year, until: date) -> date:
    """Return the day up to which costs and prices count for a season up to and with a day.

    Of a whole season all count: a bill may come after its last day, and after the last other record
    of one that is closed.
    """
    if until < year.season.span.last:
        return until
    return date.max if year.season.closed else max(until, year.today)


def bills_to_come(year: Year) -> int:
    """Return how many lines of a season's costs and prices are of days that are still to come."""
    until = _bills_until(year, year.today)
    days = [one.day for one in year.season.costs or ()] + [one.day for one in year.season.prices or ()]
    return sum(day > until for day in days)
