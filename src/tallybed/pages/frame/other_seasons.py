"""The seasons before and after, from any page of a season."""

from __future__ import annotations

from collections.abc import Callable

from tallybed.pages.frame.page import Link
from tallybed.pages.frame.site import SeasonView, Site

Same = Callable[[SeasonView], Link | None]
"""The page of another season that matches the one at hand, or None where that season has none."""


def seasons_beside(site: Site, view: SeasonView, same: Same) -> dict[str, Link | None]:
    """Return the links to the matching pages of the seasons before and after, as templates name them."""
    before, after = site.beside(view, -1), site.beside(view, 1)
    return {"before": same(before) if before else None, "after": same(after) if after else None}
