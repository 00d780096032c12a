"""A garden's years: each season with all that follows from its records.

Whoever needs something of a season asks its ``Year``; what is asked for is worked out
once, when it is first asked for, and kept. ``Years`` are all of a garden's, seen from
one day; those whose books are closed are seen as they were then, and know nothing of
later ones. A new thing that follows from a season's records has its place here, and its
reckoning in a module of this package. What few commands ask for is a function of a year
instead and lies beside its reckoning, so that the others do not load it: the months of
beds in ``beds.py``, the sun in ``sun/hours.py``.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Hashable, Iterable, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from functools import cached_property, partial

from tallybed.garden.crops import Crop
from tallybed.garden.days import Month, Week
from tallybed.garden.findings import Finding
from tallybed.garden.garden import Garden, Season
from tallybed.garden.records.ledger import Weighing
from tallybed.garden.records.log import Entry, Event
from tallybed.garden.records.plan import PlanRow, Start
from tallybed.garden.squares import Square
from tallybed.reckoning.calendar.windows.freeze import Freeze, first_fall, last_spring
from tallybed.reckoning.calendar.windows.windows import Expected, Window, expected, window
from tallybed.reckoning.closed import closed_garden, closing_day, seen_from
from tallybed.reckoning.harvest.areas import Ground, grounds, is_known
from tallybed.reckoning.harvest.tally import BY, TallyLine, Total, added, lines, tally
from tallybed.reckoning.harvest.week import weeks
from tallybed.reckoning.memory import Keep, Remembering, at_once
from tallybed.reckoning.plantings.plantings import Planting, by_event, plantings_picked
from tallybed.reckoning.plantings.untold import without_planting
from tallybed.reckoning.room.plants import crop_of
from tallybed.reckoning.squares.occupancy import Hold, Holding, hold
from tallybed.reckoning.unpublished import readable_entries
from tallybed.reckoning.waits.of_season import SeasonWaits


def _no_paths(_years: Years) -> Iterable[str]:
    raise LookupError("these years were not told what pages they have: give them pages=every_path")


@dataclass(frozen=True, kw_only=True, eq=False)
class Years(Remembering):
    """All of a garden's years, as seen from one day. Compared by identity."""

    garden: Garden
    """With the beds of every season."""
    today: date
    """The day they are seen from: later days are to come."""
    check: Callable[[Year, Collection[str] | None], tuple[Finding, ...]] = field(
        default=lambda _year, _codes: (), repr=False
    )
    """What says of a year what plan, log and ledger disagree about, if asked with some codes alone
    (checks are a later room)."""
    pages: Callable[[Years], Iterable[str]] = field(default=_no_paths, repr=False)
    """What tells the path of each page of the site (pages are a later room)."""
    keep: Keep = field(default=at_once, repr=False)
    """What keeps the longest reckonings from one run to the next (files are a later room)."""
    whole: Years | None = field(default=None, repr=False)
    """For years whose books are closed: all years of the garden, which only links and ``onward`` may ask."""

    @cached_property
    def paths(self) -> frozenset[str]:
        """The path of each page of the site. Raises LookupError where nobody said what pages there are."""
        return frozenset(self.pages(self))

    @cached_property
    def closed(self) -> Years | None:
        """The years whose books are closed, up to the first that is not; None for those and without any."""
        garden = None if self.whole else closed_garden(self.garden)
        if garden is None:
            return None
        day = min(self.today, max(map(seen_from, garden.seasons)))
        return replace(self, garden=garden, today=day, whole=self)

    @cached_property
    def all(self) -> tuple[Year, ...]:
        """Every season that has a folder, oldest first."""
        before = self.closed.all if self.closed else ()
        later = self.garden.seasons[len(before) :]
        return (*before, *(Year(years=self, season=season) for season in later))

    @cached_property
    def own(self) -> tuple[Year, ...]:
        """Its seasons but those of ``closed``: those whose pages are made of this value."""
        return tuple(year for year in self.all if year.years is self)

    @cached_property
    def running(self) -> Year | None:
        """The season that ``today`` lies in and that is not closed; the latest one where two overlap."""
        open_ones = (year for year in reversed(self.all) if not year.season.closed)
        return next((year for year in open_ones if self.today in year.season.span), None)

    @property
    def present(self) -> Garden:
        """The garden as it is in the season a visitor means: what pages of no season show."""
        return self.foremost.garden if self.foremost else self.garden

    @cached_property
    def ended(self) -> Year | None:
        """The latest season that is over: closed, or past its last day."""
        return next((year for year in reversed(self.all) if year.is_over), None)

    @cached_property
    def coming(self) -> Year | None:
        """The first season that is still to begin."""
        return next((year for year in self.all if year.season.span.first > self.today), None)

    @cached_property
    def foremost(self) -> Year | None:
        """The season a visitor means: the running one, else the last that is over, else the coming."""
        return self.running or self.ended or self.coming

    def index(self, name: str) -> int:
        """Return where the season of that name stands among them."""
        return [one.name for one in self.all].index(name)

    def named(self, name: str) -> Year | None:
        """Return the season of that name, or None."""
        return next((year for year in self.all if year.name == name), None)


@dataclass(frozen=True, kw_only=True, eq=False)
class Year(Remembering):
    """One season of a garden, and all that follows from its records. Compared by identity."""

    years: Years = field(repr=False)
    season: Season

    @cached_property
    def garden(self) -> Garden:
        """The garden as it was in this season, with the beds that were there."""
        return self.years.garden.in_season(self.name)

    @cached_property
    def today(self) -> date:
        """The day it is seen from."""
        return min(self.years.today, seen_from(self.season)) if self.years.whole else self.years.today

    @cached_property
    def as_of(self) -> date:
        """The day its pages speak as of: the last in its books once they are closed, else today."""
        return min(self.years.today, closing_day(self.season)) if self.years.whole else self.today

    @property
    def name(self) -> str:
        """The season's name: ``2026``."""
        return self.season.name

    @property
    def is_ahead(self) -> bool:
        """Whether an earlier season's records say that its first day has not come.

        In a garden's first season nothing says what day it is before there is a record.
        """
        return self.season.span.first > self.today and any(
            one.season.ledger or one.season.log for one in self.earlier
        )

    @cached_property
    def is_over(self) -> bool:
        """Whether it has begun and is closed or past."""
        return self.was_over(self.today)

    def was_over(self, day: date) -> bool:
        """Return whether it had begun by a day and was over: past its last day, or closed."""
        return self.season.span.first <= day and (self.season.closed or self.season.span.last < day)

    @property
    def chief_month(self) -> Month:
        """The month that stands for the season: the present one while it runs, else the middle one."""
        span = self.season.span
        running = self.today in span and not self.season.closed
        return Month.of(self.today) if running else span.months[len(span.months) // 2]

    @cached_property
    def earlier(self) -> tuple[Year, ...]:
        """The seasons before it, oldest first."""
        return self.years.all[: self.years.index(self.name)]

    def beside(self, step: int) -> Year | None:
        """Return the season ``step`` places later (earlier, if negative), or None where there is none."""
        at = self.years.index(self.name) + step
        return self.years.all[at] if 0 <= at < len(self.years.all) else None

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        """What plan, log and ledger disagree about, in the order of the files."""
        return self.years.check(self, None)

    def findings_of(self, codes: Collection[str]) -> tuple[Finding, ...]:
        """Return those of some codes, for which no other check is run."""
        return self.years.check(self, codes)

    # --- who holds the squares -------------------------------------------------------------------

    @cached_property
    def holding(self) -> Holding:
        """Who holds which square on which day."""
        return hold(self.season, self.today)

    @property
    def plantings(self) -> tuple[Planting, ...]:
        """Every planting, by key."""
        return self.holding.plantings

    def crop_of(self, planting: Planting) -> Crop | None:
        """Return the crop a planting is of, or None where its name is general."""
        return crop_of(self.garden, planting)

    @cached_property
    def planned(self) -> tuple[tuple[Planting, PlanRow], ...]:
        """The plantings that the plan knows and has not dropped, each with its row of the plan."""
        return tuple((one, row) for one in self.plantings if (row := one.planned) and row.dropped is None)

    @cached_property
    def rows(self) -> Mapping[str, PlanRow]:
        """The row of the plan for each planting that has one, dropped ones too, by key."""
        return {planting.key: planting.planned for planting in self.plantings if planting.planned}

    @cached_property
    def plan_of(self) -> Mapping[Square, tuple[Hold, ...]]:
        """What the plan alone gives each square, in order of days."""
        return self.holding.plan_of

    # --- what the year brings --------------------------------------------------------------------

    @cached_property
    def spring(self) -> Freeze | None:
        """The last spring freeze, at 32 °F."""
        return last_spring(self.garden.freezes, self.season.span)

    @cached_property
    def fall(self) -> Freeze | None:
        """The first fall freeze, at 32 °F."""
        return first_fall(self.garden.freezes, self.season.span)

    def window(self, crop: Crop) -> Window:
        """Return when a crop can go in, as it usually does."""
        return self.kept(("window", crop.slug), partial(window, crop, self.garden.freezes, self.season.span))

    def expected(
        self, crop: Crop, begins: date, *, variety: str = "", start: Start, indoors: date | None = None
    ) -> Expected | None:
        """Return when what begins on a day should bear, or None where its days are not known."""
        dates, span = self.garden.freezes, self.season.span
        return expected(crop, dates, span, begins, variety=variety, start=start, indoors=indoors)

    # --- what was done and written ---------------------------------------------------------------

    @cached_property
    def entries(self) -> tuple[Entry, ...]:
        """The log's entries that may be read on the day it is seen from, oldest first."""
        return readable_entries(self.season, self.today)

    @property
    def is_only_weighed(self) -> bool:
        """Whether it has neither plan nor log, and no picking tells a square: its maps would be bare."""
        return self.season.plan is None and self.season.log is None and not self.holding.holds

    @cached_property
    def plantings_of(self) -> Mapping[Event, tuple[Planting, ...]]:
        """For each line of the log the plantings it is about, by key."""
        return by_event(self.plantings)

    @cached_property
    def waiting(self) -> SeasonWaits:
        """What waits after treatments and manure, and where people keep off."""
        earlier = [one.waiting for one in self.earlier]
        return SeasonWaits.of(self.garden, self.season, self.today, lambda: self.holding, earlier)

    # --- what it gave ----------------------------------------------------------------------------

    @cached_property
    def owners(self) -> tuple[Planting | None, ...]:
        """The planting each row of the ledger came from, where that was told."""
        return plantings_picked(self.season, self.plantings)

    @cached_property
    def weighings(self) -> tuple[tuple[Weighing, Planting | None], ...]:
        """Every row of the ledger, with the planting it came from where that was told."""
        return tuple(zip(self.season.ledger or (), self.owners, strict=True))

    @cached_property
    def owned(self) -> tuple[tuple[Weighing, Planting], ...]:
        """The rows of the ledger whose planting is known, each with it, in the ledger's order."""
        return tuple((row, own) for row, own in self.weighings if own)

    @cached_property
    def without_planting(self) -> tuple[Weighing, ...]:
        """The rows of the ledger that do not say which planting they came from, mixed bowls among them."""
        return without_planting(self.season.ledger or (), self.owners, self.today)

    @cached_property
    def lines(self) -> tuple[TallyLine, ...]:
        """The tally's lines, up to the day it is seen from."""
        return lines(self.season, self.holding, self.today)

    @cached_property
    def grounds(self) -> tuple[Ground, ...]:
        """The areas that the yield of all beds may be told over, the squares first; none where not known."""
        return grounds(self.garden.beds, self.season) if is_known(self.season, self.lines) else ()

    @cached_property
    def total(self) -> Total:
        """Everything the season gave so far."""
        return added(self.lines)

    def sums(self, cut: str) -> Mapping[Hashable, Total]:
        """Return what it gave by a cut of ``tally.BY``, such as ``crop``. Raises KeyError."""
        return self.kept(("sums", cut), lambda: tally(self.lines, BY[cut]))

    @cached_property
    def weeks(self) -> tuple[Week, ...]:
        """The ISO weeks in which a visit or a picking is on record, in order."""
        return weeks(self.season, self.today)
