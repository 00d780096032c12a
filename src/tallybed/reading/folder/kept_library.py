"""The library of the package as it was understood, kept beside its files: ``library/understood.json``.

Reading its files takes a quarter of a second, longer than most commands need for everything else. What is
kept bears a hash of the files it was made of and is passed over where they are others by now; a test
holds it against the files. It comes with the package and is never read from a garden's folder.
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import fields
from fractions import Fraction
from typing import Any

from tallybed.garden.crops import Beginning, Crop, Figure, Footing, Habit, NameElsewhere, Source
from tallybed.garden.units import Length

UNDERSTOOD = "understood.json"
_FIGURE = tuple(field.name for field in fields(Figure))
_NAME = tuple(field.name for field in fields(NameElsewhere))
_SOURCE = tuple(field.name for field in fields(Source))


def as_text(crops: Iterable[Crop], sources: Iterable[Source], made_of: str) -> str:
    """Return crops and sources as JSON, a line for each, with the hash of the files they were read from."""
    lines = [
        f'{{"made of": {json.dumps(made_of)},\n"sources": [',
        ",\n".join(_plain([getattr(one, name) for name in _SOURCE]) for one in sources),
        '],\n"crops": [',
        ",\n".join(_plain(_crop_notes(one)) for one in crops),
        "]}\n",
    ]
    return "".join(lines)


def from_text(text: str, made_of: str) -> tuple[tuple[Crop, ...], tuple[Source, ...]] | None:
    """Return the crops and sources ``as_text`` was given, or None where it was given those of other files.

    Raises KeyError, TypeError or ValueError where it is not such a text.
    """
    says = json.loads(text)
    if says["made of"] != made_of:
        return None
    sources = tuple(Source(**dict(zip(_SOURCE, one, strict=True))) for one in says["sources"])
    return tuple(map(_crop, says["crops"])), sources


def _crop_notes(crop: Crop) -> dict[str, Any]:
    """Return a crop as values that JSON can hold. Raises ValueError where the garden changed it."""
    if crop.varieties or crop.own:
        raise ValueError(f"{crop.slug} is not the library's alone")
    notes = {field.name: getattr(crop, field.name) for field in fields(Crop)}
    del notes["varieties"], notes["own"]
    notes["elsewhere"] = [[getattr(one, name) for name in _NAME] for one in crop.elsewhere]
    spacing = crop.spacing
    notes["spacing"] = None if spacing is None else _number(spacing.nanometres)
    for name in ("figures", "chosen"):
        notes[name] = [
            [_number(value) if isinstance(value, Fraction) else value for value in _values(figure)]
            for figure in notes[name]
        ]
    return notes


def _values(figure: Figure) -> list[Any]:
    """Return a figure's values in the order of its fields."""
    return [getattr(figure, name) for name in _FIGURE]


def _number(value: Fraction) -> int | list[int]:
    """Return an exact number as JSON can hold it: a whole one, or numerator and denominator."""
    return value.numerator if value.denominator == 1 else [value.numerator, value.denominator]


def _exact(says: int | list[int]) -> Fraction:
    """Return the number that ``_number`` was given."""
    return Fraction(says) if isinstance(says, int) else Fraction(*says)


def _crop(says: dict[str, Any]) -> Crop:
    """Return one crop."""
    return Crop(
        **{
            **says,
            "also": tuple(says["also"]),
            "general": tuple(says["general"]),
            "elsewhere": tuple(map(_name, says["elsewhere"])),
            "habit": None if says["habit"] is None else Habit(says["habit"]),
            "start": None if says["start"] is None else Beginning(says["start"]),
            "spacing": None if says["spacing"] is None else Length(_exact(says["spacing"])),
            "figures": tuple(map(_figure, says["figures"])),
            "chosen": tuple(map(_figure, says["chosen"])),
        }
    )


def _name(says: list[Any]) -> NameElsewhere:
    """Return one name elsewhere."""
    regions, name, plural, kind, letters, source = says
    return NameElsewhere(
        regions=tuple(regions), name=name, plural=plural, kind=kind, letters=letters, source=source
    )


def _figure(says: list[Any]) -> Figure:
    """Return one figure."""
    fact, low, high, unit, text, of, source, kind, note = says
    return Figure(
        fact=fact,
        low=None if low is None else _exact(low),
        high=None if high is None else _exact(high),
        unit=unit,
        text=text,
        of=of,
        source=source,
        kind=Footing(kind),
        note=note,
    )


def _plain(value: object) -> str:
    """Return a value as JSON, without spaces."""
    return json.dumps(value, ensure_ascii=False, separators=(",", ":"))
