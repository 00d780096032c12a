"""What was weighed as a list, heaviest first: a figure, whose it is, and a bar as long as its weight."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Mapping
from dataclasses import dataclass

from tallybed.drawing.base.svg import num
from tallybed.garden.units import Showing
from tallybed.pages.frame.page import Link
from tallybed.pages.wording import sums
from tallybed.reckoning.harvest.tally import Total, heaviest_first


@dataclass(frozen=True, slots=True, kw_only=True)
class WeighedItem:
    """What one crop, bed or place has of the tally."""

    name: Link
    number: str
    """Without its unit; ``≥`` before it where more was picked than weighed."""
    share: str
    """Length of its bar in hundredths of the longest."""
    cured: str
    """``2.2 lb of it cured``; empty where all was weighed fresh."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WeighedList:
    """A cut of the tally as a list, and what of it nobody weighed."""

    lines: tuple[WeighedItem, ...]
    unweighed: tuple[Link, ...]
    """What was picked and never weighed, which has no figure."""


def weighed_list(
    showing: Showing, totals: Mapping[Hashable, Total], called: Callable[[Hashable], Link]
) -> WeighedList:
    """Return a cut of the tally, heaviest first; what was not told comes last."""
    ordered = heaviest_first(totals)
    known = {key: total for key, total in ordered.items() if not total.unknown}
    most = max((total.weight.nanograms for total in known.values()), default=0) or 1
    return WeighedList(
        lines=tuple(
            WeighedItem(
                name=called(key),
                number=sums.signed(showing, total),
                share=num(float(100 * total.weight.nanograms / most), 1),
                cured=sums.cured(showing, total),
            )
            for key, total in known.items()
        ),
        unweighed=tuple(called(key) for key in ordered if key not in known),
    )
