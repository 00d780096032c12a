"""Which plantings are meant to share squares, as plan or log declare it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

from tallybed.garden.naming import folded
from tallybed.reckoning.plantings.plantings import Planting


class Sharing:
    """Answers whether two plantings of a season share squares by declaration.

    They do where one names the other in ``among`` (by tag, key or crop), where both
    name the same third, and where one has a share or an ``among`` told that names no
    other planting of the season: it shares with whatever stands there.
    """

    def __init__(self, plantings: Iterable[Planting]) -> None:
        """Take the names of every planting, and what each says it shares with."""
        every = tuple(plantings)
        self._names = {planting.key: _names(planting) for planting in every}
        self._among = {planting.key: _among(planting) for planting in every}
        bearers = Counter(name for names in self._names.values() for name in names)
        self._open: set[str] = set()
        for planting in every:
            among, own = self._among[planting.key], self._names[planting.key]
            names_another = any(bearers[name] > (name in own) for name in among)
            if not names_another and (among or _tells_share(planting)):
                self._open.add(planting.key)

    def declared(self, one: str, other: str) -> bool:
        """Return whether the plantings of two keys share by declaration."""
        if one in self._open or other in self._open:
            return True
        first, second = self._among[one], self._among[other]
        return bool(first & self._names[other] or second & self._names[one] or first & second)


def _names(planting: Planting) -> frozenset[str]:
    """Return the names another planting can call this one by: tag, key, its crop's names."""
    slugs = planting.crop.slugs
    own = {
        planting.tag,
        planting.key,
        planting.crop.typed,
        *slugs,
        *(slug.replace("-", " ") for slug in slugs),
    }
    return frozenset(folded(name) for name in own if name)


def _among(planting: Planting) -> frozenset[str]:
    """Return the names of what log or plan puts it among."""
    told = [event.among for event, _squares in planting.lines]
    if planting.planned is not None:
        told.append(planting.planned.among)
    return frozenset(folded(name) for name in told if name)


def _tells_share(planting: Planting) -> bool:
    """Return whether log or plan tells a share for it."""
    planned = planting.planned is not None and planting.planned.share is not None
    return planned or any(event.share is not None for event, _squares in planting.lines)
