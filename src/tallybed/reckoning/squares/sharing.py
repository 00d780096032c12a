"""Which stands are meant to share squares, as plan or log declare it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

from tallybed.garden.naming import folded
from tallybed.reckoning.plantings.plantings import Stand


class Sharing:
    """Answers whether two stands of a season share squares by declaration.

    They do where one names the other in ``among`` (by tag, key or crop), where both
    name the same third, and where one has a share or an ``among`` told that names no
    other stand of the season: it shares with whatever stands there.
    """

    def __init__(self, stands: Iterable[Stand]) -> None:
        every = tuple(stands)
        self._names = {stand.key: _names(stand) for stand in every}
        self._among = {stand.key: _among(stand) for stand in every}
        bearers = Counter(name for names in self._names.values() for name in names)
        self._open: set[str] = set()
        for stand in every:
            among, own = self._among[stand.key], self._names[stand.key]
            names_another = any(bearers[name] > (name in own) for name in among)
            if not names_another and (among or _tells_share(stand)):
                self._open.add(stand.key)

    def declared(self, one: str, other: str) -> bool:
        """Return whether the stands of two keys share by declaration."""
        if one in self._open or other in self._open:
            return True
        first, second = self._among[one], self._among[other]
        return bool(first & self._names[other] or second & self._names[one] or first & second)


def _names(stand: Stand) -> frozenset[str]:
    slugs = [name for slug in stand.crop.slugs for name in (slug, slug.replace("-", " "))]
    return frozenset(folded(name) for name in (stand.tag, stand.key, stand.crop.typed, *slugs) if name)


def _among(stand: Stand) -> frozenset[str]:
    told = [event.among for event, _squares in stand.lines]
    if stand.planned is not None:
        told.append(stand.planned.among)
    return frozenset(folded(name) for name in told if name)


def _tells_share(stand: Stand) -> bool:
    planned = stand.planned is not None and stand.planned.share is not None
    return planned or any(event.share is not None for event, _squares in stand.lines)
