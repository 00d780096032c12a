"""Pages of the garden's own: about the place, how to find it, whatever else it writes."""

from __future__ import annotations

from collections.abc import Iterator

from tallybed.garden.garden import Leaf
from tallybed.pages.frame import addresses
from tallybed.pages.frame.links import resolver
from tallybed.pages.frame.page import Page
from tallybed.pages.lasting.spoken_of import spoken_of
from tallybed.pages.wording.prose import first_paragraph, prose
from tallybed.pages.wording.sentences import first_words
from tallybed.reckoning.year import Years


def pages(years: Years, only: str | None = None) -> Iterator[Page]:
    """Yield each of the garden's own pages, or the one at ``only``."""
    return (_page(years, leaf) for leaf in years.garden.leaves if only in (None, addresses.leaf(years, leaf)))


def _page(years: Years, leaf: Leaf) -> Page:
    """Return one of the garden's own pages."""
    path = addresses.leaf(years, leaf)
    words = first_paragraph(leaf.prose, ident="first").striptags()
    spoken = spoken_of(years, leaf.prose)
    return Page(
        path=path,
        template="leaf.html",
        title=leaf.title,
        description=first_words(f"{leaf.title}: {words or f'a page of {years.garden.name}'}"),
        kind="leaf",
        data={
            "trail": (),
            "prose": prose(leaf.prose, ident="prose", resolve=resolver(years, path)),
            "spoken": spoken,
            "leads": tuple(link.to for kind in spoken for link in kind.links),
        },
    )
