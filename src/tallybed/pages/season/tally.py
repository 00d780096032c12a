"""The tally of a season: what the beds gave, cut every way that the ledger knows."""

from __future__ import annotations

from collections.abc import Hashable, Iterator
from dataclasses import dataclass
from typing import cast

from tallybed.garden.records.ledger import one_place
from tallybed.garden.squares import Square
from tallybed.pages.drawings.charts import Chart, crops_chart, weeks_chart, whole_chart
from tallybed.pages.frame import addresses, linked
from tallybed.pages.frame.other_seasons import seasons_beside
from tallybed.pages.frame.page import Link, Page
from tallybed.pages.tables.tables import Table
from tallybed.pages.tables.tally_tables import (
    again_weighed,
    crop_month_table,
    cut_table,
    plain_name,
    square_table,
    week_table,
)
from tallybed.pages.wording import names, sums
from tallybed.pages.wording.sentences import (
    DIVIDED_PIECES,
    EMPTY_LEDGER,
    MIXED_NOTE,
    NOT_TOLD,
    SHARED_SQUARES,
    counted,
    full_day,
    sentence,
)
from tallybed.reckoning.harvest.tally import MIXED
from tallybed.reckoning.waits.pickings import DISCARDED
from tallybed.reckoning.year import Year, Years


@dataclass(frozen=True, slots=True, kw_only=True)
class TallyPart:
    """A section of the page: its heading, tables, and what must be said of them."""

    ident: str
    title: str
    tables: tuple[Table, ...]
    chart: Chart | None = None
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class TallyHead:
    """The head of a tally, wherever it is shown."""

    total: sums.Sum
    over: tuple[sums.PerGround, ...]
    to: str


def tally_head(year: Year) -> TallyHead | None:
    """Return a season's total and what it comes to per square foot; None where nothing was written down."""
    if not year.season.ledger:
        return None
    total = year.total
    return TallyHead(
        total=sums.summed(year.garden.showing, total),
        over=tuple(
            sums.per_ground(year.garden.showing, total, ground)
            for ground in year.grounds
            if ground.square_feet and not total.unknown
        ),
        to=addresses.tally(year),
    )


def paths(years: Years) -> Iterator[str]:
    """Yield where the tally of each season lies that has a ledger."""
    return (addresses.tally(year) for year in years.all if year.season.ledger is not None)


def pages(years: Years) -> Iterator[Page]:
    """Yield the tally of each season that has a ledger."""
    for year in years.own:
        if year.season.ledger is not None:
            yield _page(year)


def _page(year: Year) -> Page:
    """Return a season's tally as a page."""
    counting = any(line.counts for line in year.lines)
    head = tally_head(year) if counting else None
    over = year.is_over
    day = min(year.today, year.season.span.last)
    return Page(
        path=addresses.tally(year),
        template="tally.html",
        title=f"Tally of {year.name}",
        description=f"What the beds gave in {year.name}: by crop, month, week, square, bed and destination.",
        kind="tally",
        linked=linked.ledger(year),
        data={
            "trail": (Link(f"Season {year.name}", addresses.season(year)), Link("Tally", "")),
            "said": "" if counting else EMPTY_LEDGER,
            "standing": head,
            "as_of": full_day(day),
            "words": f"picked in {year.name}, in all" if over else f"picked so far in {year.name}",
            "chart": whole_chart(year, ident="whole") if counting else None,
            "parts": tuple(_parts(year)) if counting else (),
            "again": _again(year),
            **seasons_beside(year, _link),
        },
    )


def _link(year: Year) -> Link | None:
    """Return the link to a season's tally; None where it has no ledger."""
    return Link(f"Tally of {year.name}", addresses.tally(year)) if year.season.ledger is not None else None


def _parts(year: Year) -> Iterator[TallyPart]:
    """Yield the sections of the page in their order."""
    mixed = any(line.crop.startswith(MIXED) for line in year.lines)
    notes = (MIXED_NOTE,) if mixed else ()
    yield TallyPart(
        ident="crops",
        title="By crop and month",
        tables=(crop_month_table(year, ident="t-crops"),),
        chart=crops_chart(year, ident="c-crops"),
        notes=notes,
    )
    yield TallyPart(
        ident="weeks",
        title="By week",
        tables=(week_table(year, ident="t-weeks"),),
        chart=weeks_chart(year, ident="c-weeks"),
    )
    yield _squares(year)
    yield from _simple_cuts(year)


def _squares(year: Year) -> TallyPart:
    """Return the section by square, with what cannot be told square by square."""
    showing = year.garden.showing
    tables = tuple(square_table(year, bed, ident=f"t-squares-{bed.name}") for bed in year.garden.beds)
    untold = year.sums("square").get(None)
    said = (
        f"{sums.in_words(showing, untold)} came with no square told, "
        f"in {counted(untold.pickings, 'picking')}; it stands in no square above."
        if untold
        else "Every picking names its squares, or a planting whose squares are known."
    )
    shared = SHARED_SQUARES.format(squares=_weighed_alone(year))
    return TallyPart(ident="squares", title="By square", tables=tables, notes=(sentence(said), shared))


def _weighed_alone(year: Year) -> str:
    """Return the squares of which no weight is a share of a larger weighing."""
    totals = year.sums("square")
    alone = [key for key, total in totals.items() if isinstance(key, Square) and not total.shared]
    return names.place_words(year.garden, alone) or "none"


def _simple_cuts(year: Year) -> Iterator[TallyPart]:
    """Yield the sections that are one table each: by bed, variety, planting, destination and state."""
    showing = year.garden.showing
    plantings = {planting.key: planting for planting in year.plantings}
    beds = {bed.name: bed for bed in year.garden.beds}

    def variety(key: Hashable) -> Link:
        crop, name = cast("tuple[str, str]", key)
        base = names.key_link(year.garden, crop)
        if crop.startswith(MIXED):
            return base
        return Link(f"{base.text} ‘{name}’" if name else f"{base.text}, variety {NOT_TOLD}", base.to)

    def planting(key: Hashable) -> Link:
        _season, planting = cast("tuple[str, str]", key)
        return names.planting_link(year.garden, plantings[planting]) if planting else Link(NOT_TOLD, "")

    def bed(key: Hashable) -> Link:
        found = beds.get(str(key))
        return Link(found.title, addresses.bed(year, found)) if found else Link(NOT_TOLD, "")

    for cut, title, of, called in (
        ("bed", "By bed", "Bed", bed),
        ("variety", "By variety", "Variety", variety),
        ("planting", "By planting", "Planting", planting),
        ("destination", "By where it went", "Went to", _place),
        ("state", "By state when weighed", "State", plain_name),
    ):
        totals = year.sums(cut)
        table = cut_table(showing, totals, called, ident=f"t-{cut}", caption=f"{title}, {year.name}", of=of)
        divided = cut == "destination" and _pieces_divided(year)
        yield TallyPart(ident=cut, title=title, tables=(table,), notes=(DIVIDED_PIECES,) if divided else ())


def _place(key: Hashable) -> Link:
    """Call a destination by its name; what was discarded went to nobody."""
    return Link(f"{key}: given to nobody", "") if one_place(str(key)) == DISCARDED else plain_name(key)


def _pieces_divided(year: Year) -> bool:
    """Return whether pieces of one picking went to several places."""
    places: dict[int, set[str]] = {}
    for line in year.lines:
        if line.counts and line.count:
            places.setdefault(line.weighing, set()).add(line.destination)
    return any(len(names) > 1 for names in places.values())


def _again(year: Year) -> str:
    """Return the sentence about produce weighed again when cured or dried; empty where there is none."""
    weight, number = again_weighed(year)
    if not number:
        return ""
    one = number == 1
    return (
        f"{counted(number, 'weighing').capitalize()} of cured or dried produce "
        f"({year.garden.showing.summed(weight)}) {'is' if one else 'are'} in the ledger but in no total, "
        f"because the same picking counts by another weight: fresh where it was weighed fresh, else cured."
    )
