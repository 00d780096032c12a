"""The garden, read and reckoned: what every page is a function of."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from functools import cached_property

from tallybed.garden.days import Month
from tallybed.garden.findings import Finding
from tallybed.garden.garden import Garden, Season
from tallybed.garden.log import Entry, Event
from tallybed.reckoning.harvest.tally import TallyLine, Total, added
from tallybed.reckoning.plantings.plantings import Planting, plantings_picked
from tallybed.reckoning.squares.occupancy import Holding
from tallybed.reckoning.unpublished import waits


@dataclass(frozen=True, kw_only=True, eq=False)
class SeasonView:
    """A season with what was reckoned from it, up to the site's day. Compared by identity."""

    season: Season
    holding: Holding
    lines: tuple[TallyLine, ...]
    findings: tuple[Finding, ...] = ()
    """What plan, log and ledger disagree about, in the order of the files."""

    @property
    def name(self) -> str:
        """The season's name: ``2026``."""
        return self.season.name

    @cached_property
    def entries(self) -> tuple[Entry, ...]:
        """The log's entries that may be read on the site's day, oldest first.

        One that waits has no title, unless the site is for the gardener's own eyes; its day
        may then lie ahead.
        """
        today = self.holding.today
        told = (one for one in self.season.log or () if one.day <= today or waits(one, today))
        return tuple(sorted((one for one in told if one.title), key=lambda one: (one.day, one.slug)))

    @cached_property
    def owners(self) -> tuple[Planting | None, ...]:
        """The planting each row of the ledger came from, where that was told."""
        return plantings_picked(self.season, self.holding.plantings)

    @cached_property
    def plantings_of(self) -> Mapping[Event, tuple[Planting, ...]]:
        """For each line of the log the plantings it is about, by key."""
        found: dict[Event, tuple[Planting, ...]] = {}
        for planting in self.holding.plantings:
            for event in dict.fromkeys(planting.events):
                found[event] = (*found.get(event, ()), planting)
        return found

    @cached_property
    def total(self) -> Total:
        """Everything the season gave so far."""
        return added(self.lines)

    def month_word(self, month: Month) -> str:
        """Return how a month is named in addresses: ``05``, or ``2027-01`` in a later year than the first."""
        if month.year == self.season.span.first.year:
            return f"{month.month:02d}"
        return f"{month.year}-{month.month:02d}"


@dataclass(frozen=True, kw_only=True, eq=False)
class Site:
    """Everything the pages are made of, compared by identity. ``today`` is the day the site speaks as of."""

    garden: Garden
    today: date
    seasons: tuple[SeasonView, ...]
    """Oldest first."""

    @cached_property
    def running(self) -> SeasonView | None:
        """The season that ``today`` lies in and that is not closed; the latest one where two overlap."""
        found = (view for view in reversed(self.seasons) if self.today in view.season.span)
        return next((view for view in found if not view.season.closed), None)

    @cached_property
    def ended(self) -> SeasonView | None:
        """The latest season that is over: closed, or past its last day."""
        return next((view for view in reversed(self.seasons) if self.is_over(view)), None)

    @cached_property
    def coming(self) -> SeasonView | None:
        """The first season that is still to begin."""
        return next((view for view in self.seasons if view.season.span.first > self.today), None)

    @cached_property
    def foremost(self) -> SeasonView | None:
        """The season a visitor means: the running one, else the last that is over, else the coming."""
        return self.running or self.ended or self.coming

    def beside(self, view: SeasonView, step: int) -> SeasonView | None:
        """Return the season ``step`` places later (earlier, if negative), or None where there is none."""
        place = [one.name for one in self.seasons].index(view.name) + step
        return self.seasons[place] if 0 <= place < len(self.seasons) else None

    def is_over(self, view: SeasonView) -> bool:
        """Return whether a season is closed or past."""
        begun = view.season.span.first <= self.today
        return begun and (view.season.closed or view.season.span.last < self.today)
