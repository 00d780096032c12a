"""The letters that stand for a planting where a drawing has no room for its name."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from itertools import count, takewhile

from tallybed.garden.garden import Garden
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.room.plants import crop_of

MOST = 3
"""Letters of a tag that a drawing shows at the most; the tag has its number besides."""


def map_letters(garden: Garden, plantings: Iterable[Planting]) -> Mapping[str, str]:
    """Return each planting's letters by its key: those of its tag, else those of its crop.

    No two crops have the same, whatever the case: where the letters are another crop's
    already, a planting has its whole tag, or other letters of its crop's name.
    """
    taken: dict[str, str] = {}
    found: dict[str, str] = {}
    for planting in sorted(plantings, key=lambda each: (not each.tag, each.key)):
        crop = crop_of(garden, planting)
        own = crop.slug if crop else planting.crop.typed
        known = (crop.letters, crop.name) if crop else ("", planting.crop.typed)
        wanted = _tagged(planting.tag) if planting.tag else _lettered(*known)
        letters = next(each for each in wanted if taken.get(each.casefold(), own) == own)
        taken[letters.casefold()] = own
        found[planting.key] = letters
    return found


def _tagged(tag: str) -> Iterator[str]:
    """Yield what may stand for a planting with a tag: its letters, the whole of it, the whole numbered."""
    letters = "".join(takewhile(str.isalpha, tag))
    yield letters[:MOST] or tag
    yield tag
    yield from (f"{tag}-{number}" for number in count(2))


def _lettered(letters: str, name: str) -> Iterator[str]:
    """Yield what may stand for a crop: its own letters, then its first with each other of its name."""
    signs = [sign for sign in name if sign.isalnum()] or ["?"]
    yield letters or "".join(signs[:2]).capitalize()
    yield from (f"{signs[0].upper()}{sign.lower()}" for sign in signs[1:])
    yield from (f"{signs[0].upper()}{number}" for number in count(2))
