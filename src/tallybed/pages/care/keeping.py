"""Harvest and keeping in a few sentences, made from the figures used for a crop."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from tallybed.garden.crops import Crop, Figure
from tallybed.pages.care.figures import origin_words, value_words
from tallybed.pages.wording.sentences import sentence


@dataclass(frozen=True, slots=True, kw_only=True)
class KeepingSentence:
    """A sentence, and what it rests on."""

    words: str
    origins: tuple[str, ...]
    """``from memory`` and the like, where a part has no source."""


def keeping(crop: Crop) -> tuple[KeepingSentence, ...]:
    """Return how a crop is picked, cured and kept; nothing where nothing is known."""
    return tuple(_said(words, figures) for words, figures in _sentences(crop))


def _said(words: str, figures: tuple[Figure, ...]) -> KeepingSentence:
    """Return a sentence, with what its figures without a source rest on."""
    # What is derived has its source as well; the table of figures says how it was derived.
    origins = dict.fromkeys(origin_words(figure) for figure in figures if not figure.source)
    return KeepingSentence(words=sentence(words), origins=tuple(origin for origin in origins if origin))


def _sentences(crop: Crop) -> Iterator[tuple[str, tuple[Figure, ...]]]:
    """Yield each sentence about harvest and keeping with the figures it is made of."""
    signs = crop.all_of("harvest sign")
    if signs:
        yield f"Signs that it is ready: {'; '.join(figure.text for figure in signs)}", signs
    size = crop.used("harvest size") or next(iter(crop.all_of("harvest size")), None)
    if size:
        yield f"A good size is {value_words(size)}", (size,)
    yield from _cured(crop)
    yield from _kept(crop)
    for note in crop.all_of("storage note"):
        yield f"Keep it {note.text}" if note.text.startswith("in the ") else note.text, (note,)


def _cured(crop: Crop) -> Iterator[tuple[str, tuple[Figure, ...]]]:
    """Yield the sentences about curing."""
    time, warmth, damp = (crop.used(f"curing {what}") for what in ("time", "temp", "rh"))
    used = tuple(figure for figure in (time, warmth, damp) if figure)
    if used:
        how = f" for {value_words(time)}" if time else ""
        yield f"Cure it{how}{_air(warmth, damp)}", used
    for note in crop.all_of("curing note"):
        yield note.text, (note,)


def _kept(crop: Crop) -> Iterator[tuple[str, tuple[Figure, ...]]]:
    """Yield the sentence about how long it keeps, and in what air."""
    life, warmth, damp = (crop.used(f"storage {what}") for what in ("life", "temp", "rh"))
    used = tuple(figure for figure in (life, warmth, damp) if figure)
    if life:
        yield f"It keeps for {value_words(life)}{_air(warmth, damp)}", used
    elif used:
        yield f"Keep it{_air(warmth, damp)}", used


def _air(warmth: Figure | None, damp: Figure | None) -> str:
    """Return the warmth and the humidity it wants, as the end of a sentence."""
    at = f" at {value_words(warmth)}" if warmth else ""
    return at + (f" in air of {value_words(damp)} humidity" if damp else "")
