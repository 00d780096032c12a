"""The ways to cut a tally, each folded under its answer in one line, with a drawing where one helps."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from typing import cast

from tallybed.garden.days import Month, Week
from tallybed.garden.records.ledger import one_place
from tallybed.garden.squares import Square, blocks
from tallybed.pages.drawings.charts import Chart, crops_chart, weeks_chart
from tallybed.pages.frame import addresses
from tallybed.pages.frame.page import Link
from tallybed.pages.tables.tables import Table
from tallybed.pages.tables.tally_tables import (
    Called,
    crop_month_table,
    cut_table,
    plain_name,
    square_table,
    week_table,
)
from tallybed.pages.tables.weighed import WeighedList, weighed_list
from tallybed.pages.wording import names, sums
from tallybed.pages.wording.dated import month_name
from tallybed.pages.wording.sentences import (
    DIVIDED_PIECES,
    MIXED_NOTE,
    NOT_TOLD,
    SHARED_SQUARES,
    counted,
    days_words,
    listed,
    sentence,
)
from tallybed.reckoning.harvest.tally import MIXED, Total, bowl, heaviest_first, is_untold
from tallybed.reckoning.waits.pickings import DISCARDED
from tallybed.reckoning.year import Year

_ALL_IN_ONE = frozenset({"bed", "state"})
"""Cuts that say nothing where all lies in one part: one bed, or all of it fresh."""
_NAMED = 3
"""Things that weigh the same are named up to so many; squares in so many blocks."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TallyCut:
    """One cut of the tally: what it is by, its answer in a line, and what stands under the fold."""

    ident: str
    title: str
    answer: str
    """``most weighed: July, ≥ 16.76 lb``; empty where nothing is known to be the most."""
    tables: tuple[Table, ...]
    chart: Chart | None = None
    bars: WeighedList | None = None
    notes: tuple[str, ...] = ()


def tally_cuts(year: Year) -> Iterator[TallyCut]:
    """Yield the cuts of a season's tally in order; where nothing was weighed, those that tell pieces."""
    if not year.total.unknown:
        yield from _of_weight(year)
    yield from _simple(year)


def _of_weight(year: Year) -> Iterator[TallyCut]:
    """Yield the cuts that tell weight alone: by crop and month, by week, by square."""
    mixed = any(line.crop.startswith(MIXED) for line in year.lines)
    alone = any(total.weight for key, total in year.sums("crop").items() if not bowl(str(key)))
    yield TallyCut(
        ident="crops",
        title="By crop and month",
        answer=_most(year, year.sums("month"), _by_name(partial(_month, year))),
        tables=(crop_month_table(year),),
        chart=crops_chart(year) if alone else None,
        notes=(MIXED_NOTE,) if mixed else (),
    )
    yield TallyCut(
        ident="weeks",
        title="By week",
        answer=_most(year, year.sums("week"), _by_name(_week)),
        tables=(week_table(year),),
        chart=weeks_chart(year),
    )
    if set(year.sums("square")) != {None}:
        yield _squares(year)


def _most(year: Year, totals: Mapping[Hashable, Total], words: Callable[[Sequence[Hashable]], str]) -> str:
    """Return what of a cut has most of the weight, in words; nothing where what was not told may.

    What weighs the same, as it is shown, is named together, by ``words``; nothing where that is all there is.
    """
    showing = year.garden.showing
    known = heaviest_first({key: total for key, total in totals.items() if total.weight})
    untold = max((total.weight.nanograms for key, total in known.items() if is_untold(key)), default=0)
    key, total = next(iter(known.items()), (None, Total()))
    if len(totals) < 2 or total.weight.nanograms <= untold or is_untold(key):
        return ""
    shown = sums.signed(showing, total)
    alike = [one for one, other in known.items() if sums.signed(showing, other) == shown]
    told = words(alike) if len(alike) < len(totals) else ""
    return told and f"most weighed: {told}, {shown} {showing.unit}{' each' if len(alike) > 1 else ''}"


def _by_name(called: Called) -> Callable[[Sequence[Hashable]], str]:
    """Return what names several things by what each is called; nothing for too many of them."""
    return lambda keys: listed(called(key).text for key in keys) if len(keys) <= _NAMED else ""


def _squares_words(year: Year, keys: Sequence[Hashable]) -> str:
    """Name several squares by the blocks they make; nothing for too many of those."""
    squares = [cast("Square", key) for key in keys]
    return names.place_words(year.garden, squares) if len([*blocks(squares)]) <= _NAMED else ""


def _bed_words(year: Year, key: Hashable) -> Link:
    """Call a bed as within a sentence."""
    return Link(year.garden.bed(str(key)).called, "")


def _month(year: Year, key: Hashable) -> Link:
    """Call a month by its name."""
    return Link(month_name(year, cast("Month", key)), "")


def _week(key: Hashable) -> Link:
    """Call a week by its days."""
    week = cast("Week", key)
    return Link(days_words(week.first, week.last), "")


def _squares(year: Year) -> TallyCut:
    """Return the cut by square, with what cannot be told square by square."""
    showing = year.garden.showing
    untold = year.sums("square").get(None)
    said = (
        f"{sums.in_words(showing, untold)} came with no square told, "
        f"in {counted(untold.pickings, 'picking')}; it stands in no square above."
        if untold
        else "Every picking names its squares, or a planting whose squares are known."
    )
    shared = SHARED_SQUARES.format(squares=_weighed_alone(year))
    return TallyCut(
        ident="squares",
        title="By square",
        answer=_most(year, year.sums("square"), partial(_squares_words, year)),
        tables=tuple(square_table(year, bed, ident=f"t-squares-{bed.name}") for bed in year.garden.beds),
        notes=(sentence(said), shared),
    )


def _weighed_alone(year: Year) -> str:
    """Return the squares of which something was weighed, and no weight is a share of a larger weighing."""
    totals = year.sums("square")
    alone = [
        key for key, total in totals.items() if isinstance(key, Square) and total.weight and not total.shared
    ]
    return names.place_words(year.garden, alone) or "none"


def _simple(year: Year) -> Iterator[TallyCut]:
    """Yield the cuts that are one table each: by bed, variety, planting, destination and state.

    Without those that tell nothing apart: whose every row is not told, or is the whole.
    """
    showing = year.garden.showing
    for cut, title, of, called, barred in (
        ("bed", "By bed", "Bed", partial(_bed, year), True),
        ("variety", "By variety", "Variety", partial(_variety, year), False),
        ("planting", "By planting", "Planting", partial(_planting, year), False),
        ("destination", "By where it went", "Went to", _place, True),
        ("state", "By state when weighed", "State", plain_name, False),
    ):
        totals = heaviest_first(year.sums(cut))
        untold = all(map(is_untold, totals)) and not (cut == "variety" and year.total.unknown)
        if untold or (cut in _ALL_IN_ONE and len(totals) < 2):
            continue
        table = cut_table(showing, totals, called, ident=f"t-{cut}", caption=f"{title}, {year.name}", of=of)
        divided = cut == "destination" and _pieces_divided(year)
        yield TallyCut(
            ident=cut,
            title=title,
            answer=_most(year, totals, _by_name(called if cut != "bed" else partial(_bed_words, year))),
            tables=(table,),
            bars=weighed_list(showing, totals, called) if barred and len(totals) > 1 else None,
            notes=(DIVIDED_PIECES,) if divided else (),
        )


def _bed(year: Year, key: Hashable) -> Link:
    """Call a bed by its title."""
    found = next((bed for bed in year.garden.beds if bed.name == key), None)
    return Link(found.title, addresses.bed(year, found)) if found else Link(NOT_TOLD, "")


def _variety(year: Year, key: Hashable) -> Link:
    """Call a variety by its crop and its name; a bowl, which has none, by its crops."""
    crop, name = cast("tuple[str, str]", key)
    base = names.listed_key(year.garden, crop)
    if crop.startswith(MIXED):
        return base
    known = names.crop(year.garden, crop)
    comma = "," if known and known.kind else ""
    return Link(f"{base.text}{comma} ‘{name}’" if name else f"{base.text}, variety {NOT_TOLD}", base.to)


def _planting(year: Year, key: Hashable) -> Link:
    """Call a planting as lists do."""
    _season, planting = cast("tuple[str, str]", key)
    if not planting:
        return Link(NOT_TOLD, "")
    return names.listed_planting(year.garden, year.holding.planting(planting))


def _place(key: Hashable) -> Link:
    """Call a destination by its name; what was discarded went to nobody."""
    return Link(f"{key}: given to nobody", "") if one_place(str(key)) == DISCARDED else plain_name(key)


def _pieces_divided(year: Year) -> bool:
    """Return whether pieces of one picking went to several places."""
    places: dict[int, set[str]] = {}
    for line in year.lines:
        if line.counts and line.count:
            places.setdefault(line.weighing, set()).add(line.destination)
    return any(len(told) > 1 for told in places.values())
