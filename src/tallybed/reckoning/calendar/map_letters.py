"""The letters that stand for a planting where a drawing has no room for its name.

A crop of the garden's own whose letters nobody told has the first of its name that no crop of the library
has. Which other crops the garden has makes no difference to them, so a map drawn once stays as it was when
one is added; only crops that stand in one season together give way to each other.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from itertools import count, takewhile

from tallybed.garden.garden import Garden
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.room.plants import crop_of

MOST = 3
"""Letters of a tag that a drawing shows at the most; the tag has its number besides."""


def map_letters(garden: Garden, plantings: Collection[Planting]) -> Mapping[str, str]:
    """Return each planting's letters by its key: those of its tag, else those of its crop.

    No two crops have the same, whatever the case: where the letters are another crop's
    already, a planting has its whole tag, or other letters of its crop's name. Letters that nobody told
    give way to those that were.
    """
    taken: dict[str, str] = {}
    found: dict[str, str] = {}
    of_library = frozenset(crop.letters for crop in garden.crops if not crop.own)
    crops = {planting.key: crop_of(garden, planting) for planting in plantings}

    def in_turn(planting: Planting) -> tuple[bool, bool, str]:
        crop = crops[planting.key]
        return not planting.tag, crop is not None and not crop.letters, planting.key

    for planting in sorted(plantings, key=in_turn):
        crop = crops[planting.key]
        own = crop.slug if crop else planting.crop.typed
        if planting.tag:
            wanted = _tagged(planting.tag)
        elif crop is None:
            wanted = _lettered("", planting.crop.typed)
        else:
            wanted = _lettered(crop.letters, crop.name, of_library)
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


def _lettered(letters: str, name: str, of_others: Collection[str] = ()) -> Iterator[str]:
    """Yield what may stand for a crop: its own letters, then its first with each other of its name.

    ``of_others``: letters that are never derived from a name, as they are other crops'.
    """
    signs = [sign for sign in name if sign.isalnum()] or ["?"]
    if letters:
        yield letters
    derived = ["".join(signs[:2]).capitalize(), *(f"{signs[0].upper()}{sign.lower()}" for sign in signs[1:])]
    yield from (one for one in derived if letters or one not in of_others)
    yield from (f"{signs[0].upper()}{number}" for number in count(2))
