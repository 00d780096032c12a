"""Plantings that stand on into a later season, as plan or log of that season tell."""

from __future__ import annotations

from collections.abc import Hashable, Iterator

from tallybed.garden.days import ONE_DAY
from tallybed.garden.squares import Square
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.year import Year, Years


def goes_on(year: Year, planting: Planting, later_year: Year, later: Planting) -> bool:
    """Return whether a planting of a later season is one of ``year`` that stood on.

    The plan says so: carried from that season, or from the one that both were carried from, or one before
    that of which ``year`` met what it did not plan; the same crop in one of its squares, and of several
    that had those the one that stood there as the season ended. Or, where no plan has it, the log or the
    ledger of the next season names the tag, with the same crop, and nothing that began there anew, and
    what bore the tag was still there when the season ended.
    """
    if planting.crop.slug is None or later.crop.slug != planting.crop.slug:
        return False
    if later.planned is not None:
        here = frozenset(later.planned.squares)
        if planting.squares.isdisjoint(here) or not _may_be_since(year, planting, later.planned.carried_from):
            return False
        alike = (one for one in year.plantings if one.crop.slug == planting.crop.slug)
        last = {one.key for one in alike if not here.isdisjoint(stood_at_end(year, one))}
        return not last or planting.key in last
    before = later_year.beside(-1)
    if not _only_named(later) or later.tag != planting.tag or before is None or before.name != year.name:
        return False
    stood = stood_at_end(year, planting)
    return bool(stood) and (not later.squares or not stood.isdisjoint(later.squares))


def _may_be_since(year: Year, planting: Planting, since: str) -> bool:
    """Return whether a planting of a year may be of the season that a later plan has it carried from."""
    if planting.planned is not None:
        return bool(since) and since in (year.name, planting.planned.carried_from)
    return bool(since) and (since == year.name or (planting.begun is None and since < year.name))


def stood_at_end(year: Year, planting: Planting) -> frozenset[Square]:
    """Return the squares in which a planting still stood as its season ended, by plan and log.

    A row that has it cleared on the season's last day says no more than that the season ends; a record does.
    """
    last, holding = year.season.span.last - ONE_DAY, year.holding
    own = (hold for hold in holding.of_planting(planting.key) if hold.last >= last)
    return frozenset(hold.square for hold in own if hold not in holding.departures)


def later_plantings(year: Year) -> Iterator[tuple[Year, Planting]]:
    """Yield the plantings of all later seasons, each with its year; of open seasons for closed ones too."""
    whole = year.years.whole or year.years
    for later in whole.all[whole.index(year.name) + 1 :]:
        for one in later.plantings:
            yield later, one


def _only_named(planting: Planting) -> bool:
    """Return whether records of a season name a planting by its tag, and none has it planned or begun."""
    return bool(planting.tag) and planting.planned is None and planting.begun is None


def told_of_earlier(years: Years) -> Iterator[Hashable]:
    """Yield all that the open seasons tell of plantings of closed ones: what ``goes_on`` asks of them."""
    closed = years.closed.all if years.closed else ()
    for year in years.all[len(closed) :]:
        for one in year.plantings:
            carried = one.planned is not None and one.planned.carried_from
            if carried or _only_named(one):
                yield year.name, one.key, one.tag, one.crop, carried, tuple(sorted(one.squares))
