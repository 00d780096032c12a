"""Signs for the fence: one sheet a bed, with its map, what it gave so far, and who got it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from tallybed.drawing.base import look
from tallybed.drawing.base.lettering import width_of
from tallybed.garden.records.ledger import one_place
from tallybed.garden.squares import Bed
from tallybed.garden.units import Showing
from tallybed.pages.drawings.maps import MapKey, month_maps
from tallybed.pages.drawings.months import shown_month
from tallybed.pages.frame import addresses
from tallybed.pages.frame.page import Page
from tallybed.pages.frame.trails import below_sheets
from tallybed.pages.paper.scancodes import page_code
from tallybed.pages.wording import sums
from tallybed.pages.wording.dated import in_season
from tallybed.pages.wording.sentences import EMPTY_LEDGER, full_day, no_ledger
from tallybed.reckoning.beds import month_of
from tallybed.reckoning.harvest.areas import grounds
from tallybed.reckoning.harvest.tally import BY, TallyLine, Total, added, tally
from tallybed.reckoning.waits.pickings import DISCARDED
from tallybed.reckoning.year import Year, Years

MOST_SHARING = 4
"""Takers named on a sign; the others are summed."""
LOW = 6
"""How many times as long as broad a bed is whose map, as wide as the sheet, leaves its list room below."""
LIST_SIZES = (21, 18, 15, 13, 11, 9)
"""Sizes of a map's list in points, as in ``paper.css``; the first, the usual, is read from six feet."""
LIST_ROOM = {False: (305, 330), True: (720, 115)}
"""Points across and down that the list has beside a map, and below a low one, on A4 and on Letter alike."""
_APART = 0.8
"""Room after each name, as a multiple of the text's size."""
_LINE = 1.15
"""Height of a line, likewise."""
_SWATCH = 20
"""Points across that the sign before a stage takes."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TakerShare:
    """What one taker had of a bed's produce."""

    who: str
    weight: str
    """``at least 1.2 lb``"""
    cured: str
    """``0.5 lb of it cured``; empty where all was weighed fresh."""


def pages(years: Years) -> Iterator[Page]:
    """Yield a sign for each bed in the season that a visitor means; none without one."""
    year = years.foremost
    if year:
        for bed in year.garden.beds:
            yield _page(year, bed)


def _page(year: Year, bed: Bed) -> Page:
    """Return one bed's sign as a page."""
    path = addresses.sign(bed)
    month = month_of(year, bed, shown_month(year))
    lines = [line for line in year.lines if line.bed == bed.name and line.counts]
    over = year.is_over
    low = bed.columns >= LOW * bed.rows
    maps = month_maps(year.years, month, path, ident="map", smallest=look.SIGN_TEXT)
    return Page(
        path=path,
        template="bed_sign.html",
        title=f"Sign for {bed.called}",
        description=f"{bed.title} on a sheet for the fence: map, what it gave {in_season(year)}, who got it.",
        kind="bed sign",
        data={
            "trail": below_sheets(f"Sign for {bed.called}"),
            "bed": bed.title,
            "season": f"Season {year.name}",
            "low": low,
            "maps": maps,
            "list_size": _list_size(maps.key, low=low),
            "total": sums.summed(year.garden.showing, added(lines)) if lines else None,
            "said": "" if lines else _nothing(year),
            "words": f"picked from this bed {in_season(year)}, in all"
            if over
            else f"picked from this bed so far {in_season(year)}",
            "over": _over(year, bed, lines),
            "notes": tuple(_notes(year, lines)),
            "shares": tuple(_shares(year.years, lines)),
            "code": page_code(
                year.years,
                addresses.HOME,
                part=f"bed-{bed.name}",
                ident="code",
                title=f"Code to scan: {bed.title} today",
                sturdy=True,
            ),
            "as_of": full_day(year.today),
        },
    )


def _list_size(key: MapKey | None, *, low: bool) -> int:
    """Return the largest size at which the list of a map has room, in points; else the smallest."""
    across, down = LIST_ROOM[low]
    return next(
        (size for size in LIST_SIZES if _lines(key, size, across) * size * _LINE <= down), LIST_SIZES[-1]
    )


def _lines(key: MapKey | None, size: float, across: float) -> int:
    """Return how many lines the list of a map takes: names are set beside each other while there is room."""
    if key is None:
        return 0
    widths = [
        width_of(letters, size, bold=True) + width_of(f" {name}", size) for letters, name in key.letters
    ]
    widths += [width_of(one.words, size) + _SWATCH for one in key.stages + key.waiting]
    lines, used = 0, across
    for width in widths:
        if used + width > across:
            lines, used = lines + max(1, ceil(width / across)), 0
        used += width + _APART * size
    return lines


def _nothing(year: Year) -> str:
    """Return why there is no weight on the sign."""
    if year.season.ledger is None:
        return no_ledger(year.season, ahead=year.is_ahead)
    return "No picking on record names this bed." if year.season.ledger else EMPTY_LEDGER


def _over(year: Year, bed: Bed, lines: list[TallyLine]) -> sums.PerGround | None:
    """Return what the bed gave over its own ground; None where nothing was picked."""
    ground, *_ = grounds((bed,), year.season)
    if not lines or not ground.square_feet or added(lines).unknown:
        return None
    return sums.per_ground(year.garden.showing, added(lines), ground)


def _notes(year: Year, lines: list[TallyLine]) -> Iterator[str]:
    """Yield what the figure leaves out."""
    showing = year.garden.showing
    yield from sums.caveats(showing, added(lines)) if lines else ()
    elsewhere = added(line for line in year.lines if not line.bed)
    if elsewhere.weight:
        yield f"Besides, {sums.in_words(showing, elsewhere)} was weighed with no bed named."


def _shares(years: Years, lines: list[TallyLine]) -> Iterator[TakerShare]:
    """Yield who had most of it, most first; what was told of nobody is for the tally, not for a fence.

    What was discarded, nobody had.
    """
    showing = years.garden.showing
    lines = [line for line in lines if one_place(line.destination) != DISCARDED]
    totals = tally(lines, BY["destination"])
    told = sorted(((str(who), total) for who, total in totals.items() if who), key=_by_weight)
    for who, total in told[:MOST_SHARING]:
        yield _share(showing, who, total)
    rest = [line for line in lines if line.destination in {who for who, _total in told[MOST_SHARING:]}]
    if rest:
        yield _share(showing, "others", added(rest))


def _share(showing: Showing, who: str, total: Total) -> TakerShare:
    """Return what one taker had; what of it was cured stands apart."""
    part = sums.cured(showing, total)
    words = sums.in_words(showing, total)
    return TakerShare(who=who, weight=words.removesuffix(f", {part}") if part else words, cured=part)


def _by_weight(item: tuple[str, Total]) -> tuple[Fraction, str]:
    """Return what takers are put in order by: most weight first, then their name."""
    who, total = item
    return (-total.weight.nanograms, who.casefold())
