"""Photographs on a page: their words, their credit, and which is seen first."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from tallybed.garden.records.log import Entry, Photo
from tallybed.pages.frame.page import Link

_CC0 = re.compile(r"CC0(?: (\d\.\d))?\b")
_CC = re.compile(r"CC (BY(?:-NC)?(?:-SA|-ND)?) (\d\.\d)\b")
_DEEDS = "https://creativecommons.org"


@dataclass(frozen=True, slots=True, kw_only=True)
class PhotoItem:
    """A photograph by the name that publishing knows it by, and its words."""

    name: str
    alt: str
    caption: str
    credit: str
    licence: Link | None
    source: Link | None
    first: bool
    """Whether it is the entry's first, which is looked at before any other."""
    waits: tuple[str, ...] = ()
    """``Do not pick kale (KA1) before 17 June 2026.``: of what it may show, what waits on the site's day."""

    @property
    def told(self) -> str:
        """What it shows, in words, and what of it is not to be picked."""
        stop = "" if self.alt.endswith((".", "!", "?", "…")) or not self.waits else "."
        return " ".join((f"{self.alt}{stop}", *self.waits))

    @property
    def credited(self) -> bool:
        """Whether anything is to be said of where it comes from."""
        return bool(self.credit or self.licence or self.source)


def every_one(_photo: Photo) -> bool:
    """Let every photograph through."""
    return True


def photo_items(
    season: str,
    entry: Entry,
    waits: tuple[str, ...] = (),
    wanted: Callable[[Photo], bool] = every_one,
) -> tuple[PhotoItem, ...]:
    """Return an entry's photographs that are wanted, and on which nobody is shown who did not agree.

    ``waits``: what must be said with each, of plantings that wait.
    """
    return tuple(_items(season, entry, waits, wanted))


def _items(
    season: str, entry: Entry, waits: tuple[str, ...], wanted: Callable[[Photo], bool]
) -> Iterator[PhotoItem]:
    """Yield an entry's photographs that may be shown."""
    found = (photo for photo in entry.photos if photo.may_be_shown and wanted(photo))
    for number, photo in enumerate(found):
        yield PhotoItem(
            name=f"{season}/{photo.file}",
            alt=photo.alt,
            caption=photo.caption,
            credit=photo.credit,
            licence=_licence(photo),
            source=Link("source", photo.source) if photo.source else None,
            first=number == 0,
            waits=waits,
        )


def _licence(photo: Photo) -> Link | None:
    """Return a photograph's terms, leading to their text where that is known."""
    return Link(photo.licence, deed(photo.licence)) if photo.licence else None


def deed(licence: str) -> str:
    """Return the address of a Creative Commons licence named in its usual short form, else an empty text.

    The addresses are those of creativecommons.org, "List of licenses".
    """
    if match := _CC0.match(licence):
        return f"{_DEEDS}/publicdomain/zero/{match[1] or '1.0'}/"
    if match := _CC.match(licence):
        return f"{_DEEDS}/licenses/{match[1].lower()}/{match[2]}/"
    return ""
