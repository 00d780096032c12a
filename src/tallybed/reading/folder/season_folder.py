"""One season's folder, read: plan, log, ledger, costs and prices, held against each other."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from typing import TypeVar

from tallybed.garden.days import Span
from tallybed.garden.findings import Place, Severity
from tallybed.garden.garden import Season
from tallybed.garden.records.log import Entry
from tallybed.garden.records.plan import PlanRow
from tallybed.garden.records.weather import Weather
from tallybed.reading.base.context import Context
from tallybed.reading.base.problems import LeftOut, quoted
from tallybed.reading.base.scanners import kept
from tallybed.reading.folder.known_files import COSTS, LEDGER, NAMES, PLAN, PRICES, WEATHER, SeasonFiles
from tallybed.reading.folder.remembered import Sources
from tallybed.reading.folder.season_links import SeasonNames, logged, planned, weighed
from tallybed.reading.shapes.costs import cost, price
from tallybed.reading.shapes.garden import GardenFile
from tallybed.reading.shapes.ledger import weighing
from tallybed.reading.shapes.log import entry
from tallybed.reading.shapes.names import general_names
from tallybed.reading.shapes.plan import plan_row
from tallybed.reading.text.file_names import entry_name, no_day
from tallybed.reading.weather.columns import EXPECTED
from tallybed.reading.weather.days import weather
from tallybed.reading.yaml.nodes import Items, Node, Pairs

T = TypeVar("T")


class SeasonFolder:
    """The folder of one season in one run of reading."""

    def __init__(self, sources: Sources, files: SeasonFiles) -> None:
        self._sources = sources
        self._files = files

    def season(self, base: GardenFile | None, context: Context) -> Season:
        """Return a season with its plan, log and ledger; each is None where there is no such file."""
        year = self._files.year
        span = base.span(year) if base else Span(first=date(int(year), 1, 1), last=date(int(year), 12, 31))
        context = replace(
            context,
            season=year,
            beds=context.beds.in_season(year),
            span=span,
            bounded=base is not None and base.is_bounded(year),
        )
        general, whole = self._general(context)
        context = replace(context, general=general, general_whole=whole)
        known = SeasonNames()
        plan = self._plan(known, context)
        log = self._log(known, context)
        ledger = self._rows(LEDGER, "a list of weighings", weighing, context)[1]
        costs = self._rows(COSTS, "a list of costs", cost, context)[1]
        prices = self._rows(PRICES, "a list of prices", price, context)[1]
        if base is not None:
            self._tell_no_currency(base, context)
        given = base.seasons.get(year) if base else None
        return Season(
            name=year,
            span=span,
            closed=given.closed if given else False,
            note=given.note if given else "",
            plan=None if plan is None else planned(plan, known, context),
            log=None if log is None else logged(log, known, context),
            ledger=None if ledger is None else weighed(ledger, known, context),
            costs=costs,
            prices=prices,
            general=tuple(general.items()),
            weather=self._weather(context),
        )

    def _tell_no_currency(self, base: GardenFile, context: Context) -> None:
        """Tell that there are costs or prices and no currency."""
        paid = [name for name in (COSTS, PRICES) if name in self._files.files]
        if paid and base.currency_unknown:
            context.problems.add(
                Place(self._files.path(paid[0])),
                "no-currency",
                "the garden does not say which currency this is",
                expected="currency: with three letters such as USD, in content/garden.yaml",
                severity=Severity.WARNING,
            )

    def _general(self, context: Context) -> tuple[dict[str, str], bool]:
        """Return what general names mean in the season, and whether all of it could be read."""
        if NAMES not in self._files.files:
            return {}, True
        file = self._files.path(NAMES)
        try:
            node = self._sources.nodes(file)
            if node is not None:
                return general_names(node, context)
        except LeftOut:
            return {}, False
        self._sources.tell_empty(file, "general names with their crop, as in beans: bean-bush")
        return {}, True

    def _rows(
        self,
        name: str,
        expected: str,
        build: Callable[[Node, Context], T],
        context: Context,
    ) -> tuple[tuple[Node, ...] | None, tuple[T, ...] | None]:
        """Return a file's rows as nodes and as records; no records where there is no file."""
        if name not in self._files.files:
            return (), None
        items = self._sources.items(self._files.path(name), expected)
        return items, kept(build, items or (), context)

    def _weather(self, context: Context) -> Weather | None:
        """Return the season's weather; None where there is no file, or none that can be understood."""
        if WEATHER not in self._files.files:
            return None
        file = self._files.path(WEATHER)
        try:
            text = self._sources.text(file)
        except LeftOut:
            return None
        if text.strip():
            return weather(text, file, context)
        self._sources.tell_empty(file, EXPECTED)
        return None

    def _plan(self, known: SeasonNames, context: Context) -> tuple[PlanRow, ...] | None:
        """Return the rows of a season's plan, and take note of its tags; None where there is no plan."""
        items, plan = self._rows(PLAN, "a list of plantings", plan_row, context)
        known.whole = items is not None
        if items and plan is not None:
            broken = len(plan) < len(items)
            known.add_plan(Items(items, Place(self._files.path(PLAN))), context, broken=broken)
        return plan

    def _log(self, known: SeasonNames, context: Context) -> list[Entry] | None:
        """Return the entries that could be read, and take note of their tags; None where there is no log."""
        if self._files.entries is None:
            return None
        entries: list[Entry] = []
        for file in self._files.entries:
            try:
                page = self._sources.page(file)
            except LeftOut:
                known.whole = False
                continue
            before = len(context.problems)
            try:
                day, slug = _entry_name(file, context)
                entries.append(entry(page, context, day, slug))
            except LeftOut:
                continue
            finally:
                if isinstance(page.header, Pairs):
                    known.add_done(page.header.get("done"), context, broken=len(context.problems) > before)
        return entries


def _entry_name(file: str, context: Context) -> tuple[date | None, str]:
    """Return the date a file's name begins with, and the rest of it as a slug."""
    stem = file.rpartition("/")[2].removesuffix(".md")
    day, slug = entry_name(stem)
    if day is None:
        found = f"the file’s name {quoted(stem + '.md')} {no_day(stem)}"
        context.problems.add(
            Place(file), "entry-name", found, expected="a name such as 2026-04-19-peas-are-up.md"
        )
    return day, slug
