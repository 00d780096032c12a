"""The demonstration garden as it is read and reckoned: once in a process, since nothing of it can change."""

from __future__ import annotations

from functools import cache

from tallybed.garden.garden import Garden, Season
from tallybed.reading.folder.garden_folder import FolderRead, read
from tallybed.reading.folder.remembered import Memory
from tallybed.reading.scale.vocabulary import Vocabulary
from tallybed.reckoning.year import Years
from tallybed.tasks.site.reckoned import reckoned
from tests.tools import ROOT


@cache
def demo_read() -> FolderRead:
    """What reading ``content/`` gives, and leaves to another reading."""
    return read(ROOT, Memory())


def demo_garden() -> Garden:
    """The garden of ``content/``."""
    garden = demo_read().garden
    assert garden is not None
    return garden


@cache
def demo_years() -> Years:
    """What follows from it."""
    return reckoned(demo_garden())


def demo_season(name: str) -> Season:
    """One of its seasons."""
    return next(season for season in demo_garden().seasons if season.name == name)


@cache
def demo_vocabulary() -> Vocabulary:
    """What people may speak of at the scale in its season of 2026."""
    return Vocabulary.of(demo_garden(), demo_season("2026"))
