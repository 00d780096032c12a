"""Signs for the fence: one sheet a bed, with its map, what it gave so far, and who had it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from tallybed.garden.days import in_full
from tallybed.garden.squares import Bed
from tallybed.pages.drawings.maps import month_maps
from tallybed.pages.drawings.months import shown_month
from tallybed.pages.frame import addresses
from tallybed.pages.frame.page import Link, Page
from tallybed.pages.frame.site import SeasonView, Site
from tallybed.pages.paper.scancodes import code
from tallybed.pages.paper.sheets import signs
from tallybed.pages.wording import sums
from tallybed.pages.wording.sentences import EMPTY_LEDGER, NO_LEDGER, NOT_TOLD, counted, full_day
from tallybed.reckoning.calendar.month import bed_month
from tallybed.reckoning.harvest.areas import grounds
from tallybed.reckoning.harvest.tally import BY, TallyLine, Total, added, tally

MOST_SHARING = 4
"""Takers named on a sign; the others are summed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Share:
    """What one taker had of a bed's produce."""

    who: str
    weight: str


def pages(site: Site) -> Iterator[Page]:
    """Yield a sign for each bed in the season that a visitor means; none without one."""
    view = site.foremost
    if view:
        for bed in site.garden.beds:
            yield _sign(site, view, bed)


def _sign(site: Site, view: SeasonView, bed: Bed) -> Page:
    path = addresses.sign(bed)
    month = bed_month(site.garden, view.season, view.holding, bed, shown_month(site, view))
    lines = [line for line in view.lines if line.bed == bed.name and line.counts]
    live = addresses.bed(view, bed)
    over = site.is_over(view)
    return Page(
        path=path,
        template="sign.html",
        title=f"Sign for {_lowered(bed.title)}",
        description=f"{bed.title} on a sheet for the fence: map, what it gave in {view.name}, who had it.",
        kind="bed sign",
        data={
            "trail": (Link("Sheets to print", addresses.SHEETS), Link(f"Sign: {bed.title}", "")),
            "bed": bed.title,
            "season": f"Season {view.name}",
            "map_of": f"The bed on {in_full(month.as_of)}, in {site.garden.showing.length(bed.side)} squares",
            "letters": signs(month.drawn),
            "planned": month.kind == "planned",
            "maps": month_maps(site.garden, month, path, ident="map"),
            "total": sums.summed(site.garden.showing, added(lines)) if lines else None,
            "said": "" if lines else _nothing(view),
            "words": f"picked from this bed in {view.name}, in all"
            if over
            else f"picked from this bed so far in {view.name}",
            "over": _over(site, view, bed, lines),
            "notes": tuple(_notes(site, view, lines)),
            "shares": tuple(_shares(site, lines)),
            "code": code(site, live, ident="code", title=f"Code to scan: {bed.title} today", sturdy=True),
            "as_of": full_day(site.today),
        },
    )


def _lowered(title: str) -> str:
    return f"{title[0].lower()}{title[1:]}" if title else "the bed"


def _nothing(view: SeasonView) -> str:
    if view.season.ledger is None:
        return NO_LEDGER
    return "Nothing picked from this bed is written down yet." if view.season.ledger else EMPTY_LEDGER


def _over(site: Site, view: SeasonView, bed: Bed, lines: list[TallyLine]) -> sums.PerGround | None:
    ground, *_ = grounds((bed,), view.season)
    if not lines or not ground.square_feet:
        return None
    return sums.per_ground(site.garden.showing, added(lines), ground)


def _notes(site: Site, view: SeasonView, lines: list[TallyLine]) -> Iterator[str]:
    """Yield what the figure leaves out."""
    yield from sums.caveats(site.garden.showing, added(lines)) if lines else ()
    untold = added(line for line in view.lines if not line.bed)
    if untold.pickings and len(site.garden.beds) > 1:
        yield (
            f"{counted(untold.pickings, 'picking').capitalize()} of the garden, "
            f"{sums.in_words(site.garden.showing, untold)}, came with no bed told and "
            f"{'is' if untold.pickings == 1 else 'are'} not in it."
        )


def _shares(site: Site, lines: list[TallyLine]) -> Iterator[Share]:
    """Yield who had most of it, most first; what went nowhere that was told comes last."""
    showing = site.garden.showing
    totals = tally(lines, BY["destination"])
    told = sorted(((str(who), total) for who, total in totals.items() if who), key=_by_weight)
    for who, total in told[:MOST_SHARING]:
        yield Share(who=who, weight=sums.in_words(showing, total))
    rest = [line for line in lines if line.destination in {who for who, _total in told[MOST_SHARING:]}]
    if rest:
        yield Share(who="others", weight=sums.in_words(showing, added(rest)))
    if told and "" in totals:
        yield Share(who=NOT_TOLD, weight=sums.in_words(showing, totals[""]))


def _by_weight(item: tuple[str, Total]) -> tuple[Fraction, str]:
    who, total = item
    return (-total.weight.nanograms, who.casefold())
