"""The tally of a season: what the beds gave, cut every way that the ledger knows."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from tallybed.pages.drawings.charts import whole_chart
from tallybed.pages.drawings.earned_beds import earned_beds, no_square_told
from tallybed.pages.frame import addresses, linked
from tallybed.pages.frame.other_seasons import seasons_beside
from tallybed.pages.frame.page import Link, Page
from tallybed.pages.frame.trails import below_season
from tallybed.pages.frame.which_pages import has_ledger
from tallybed.pages.story.flags import flags_of
from tallybed.pages.tables.tally_cuts import tally_cuts
from tallybed.pages.tables.tally_tables import again_weighed
from tallybed.pages.tables.weighed import WeighedList, weighed_list
from tallybed.pages.wording import names, sums
from tallybed.pages.wording.dated import in_season
from tallybed.pages.wording.sentences import AT_LEAST, EMPTY_LEDGER, counted, full_day
from tallybed.reckoning.year import Year


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


def pages(year: Year) -> Iterator[Page]:
    """Yield the tally of a season that has a ledger."""
    if has_ledger(year):
        yield _page(year)


def _page(year: Year) -> Page:
    """Return a season's tally as a page."""
    counting = any(line.counts for line in year.lines)
    head = tally_head(year) if counting else None
    weighed = counting and not year.total.unknown
    over = year.is_over
    day = min(year.today, year.season.span.last)
    return Page(
        path=addresses.tally(year),
        template="tally.html",
        title=f"Tally of {year.name}",
        description=f"What the beds gave {in_season(year)}: by crop, month, week, square, bed and "
        "destination.",
        kind="tally",
        linked=linked.ledger(year),
        data={
            "trail": below_season(year, here="Tally"),
            "said": "" if counting else EMPTY_LEDGER,
            "standing": head,
            "as_of": full_day(day),
            "words": f"picked {in_season(year)}, in all" if over else f"picked so far {in_season(year)}",
            "chart": whole_chart(year, flags_of(year, addresses.tally(year))) if weighed else None,
            "at_least": AT_LEAST if weighed and year.total.at_least else "",
            "beds": earned_beds(year) if weighed else (),
            "no_square": no_square_told(year) if weighed else "",
            "crops": _crops(year) if counting else None,
            "unit": year.garden.showing.unit,
            "cuts": tuple(tally_cuts(year)) if counting else (),
            "again": _again(year),
            **seasons_beside(year, tally_link),
        },
    )


def tally_link(year: Year) -> Link | None:
    """Return the link to a season's tally; None where it has no ledger."""
    return Link(f"Tally of {year.name}", addresses.tally(year)) if has_ledger(year) else None


def _crops(year: Year) -> WeighedList:
    """Return what each crop gave, heaviest first."""
    return weighed_list(
        year.garden.showing, year.sums("crop"), lambda key: names.listed_key(year.garden, str(key))
    )


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
