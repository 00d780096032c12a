"""The library of the package as it was understood, kept beside its files: ``library/understood.json``.

Reading its files takes a quarter of a second, longer than most commands need for everything else. What is
kept bears a hash of the files it was made of and is passed over where they are others by now; a test
holds it against the files. It comes with the package and is never read from a garden's folder.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import msgspec

from tallybed.garden.crops import Crop, Source
from tallybed.reading.folder.exact_json import as_pair, from_pair

UNDERSTOOD = "understood.json"


@dataclass(frozen=True, slots=True, kw_only=True)
class _Understood:
    """What the file holds."""

    made_of: str
    sources: tuple[Source, ...]
    crops: tuple[Crop, ...]


def as_text(crops: Iterable[Crop], sources: Iterable[Source], made_of: str) -> str:
    """Return crops and sources as JSON, a line for each, with the hash of the files they were read from.

    Raises ValueError where the garden changed a crop.
    """
    every = tuple(crops)
    for crop in every:
        if crop.varieties or crop.own:
            raise ValueError(f"{crop.slug} is not the library's alone")
    return (
        f'{{"made_of": "{made_of}",\n"sources": [\n{_lines(sources)}\n],\n"crops": [\n{_lines(every)}\n]}}\n'
    )


def from_text(text: str, made_of: str) -> tuple[tuple[Crop, ...], tuple[Source, ...]] | None:
    """Return the crops and sources ``as_text`` was given, or None where it was given those of other files.

    Raises ValueError where it is not such a text.
    """
    says = msgspec.json.decode(text, type=_Understood, dec_hook=from_pair)
    return None if says.made_of != made_of else (says.crops, says.sources)


def _lines(values: Iterable[Crop | Source]) -> str:
    """Return values as JSON, each on a line of its own."""
    return ",\n".join(msgspec.json.encode(one, enc_hook=as_pair).decode() for one in values)
