"""A picking as somebody told it: a line said at the scale, or a row of a spreadsheet.

What was told may mean several crops or squares; which planting it came from is reckoned
from who stood where on the day.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date

from tallybed.garden.naming import CropName, Names
from tallybed.garden.records.ledger import Destination, State, Weighing
from tallybed.garden.squares import Square
from tallybed.garden.units import Weight


@dataclass(frozen=True, slots=True, kw_only=True)
class Share:
    """A part of a picking that went somewhere; ``weight`` None means the rest, or all of it."""

    name: str
    weight: Weight | None = None
    text: str = ""
    """The weight in words, or ``the rest``."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Picking:
    """One picking as told."""

    typed: str
    """What was typed, for messages."""
    day: date
    """The day it was picked."""
    crops: tuple[CropName, ...] = ()
    """The crop with every meaning of its name; several for a mixed bowl; none where a tag alone was told."""
    answer: str = ""
    """The slug that a general name means this season, where the garden's files say so."""
    answers: tuple[str, ...] = ()
    """The same for each crop of a mixed bowl."""
    variety: str = ""
    tag: str = ""
    bed: str = ""
    """The bed, where no square in it was told."""
    places: tuple[tuple[Square, ...], ...] = ()
    """The squares told, once for each bed they can be in; empty where none were."""
    row: int | None = None
    """A row of squares, the first is 1, of which those are meant in which the crop stood."""
    weight: Weight | None = None
    weight_text: str = "not weighed"
    """The weight in words that read back as exactly that weight."""
    estimated: bool = False
    count: int | None = None
    to: str = ""
    shares: tuple[Share, ...] = ()
    """Where parts of it went, instead of ``to``."""
    form: str = ""
    state: State = State.FRESH
    weighed: date | None = None
    """The day of weighing where it is not the day of picking."""
    note: str = ""
    passed_over: tuple[str, ...] = ()
    """Words of the line that tell nothing, such as “we picked”."""

    @property
    def mixed(self) -> bool:
        """Whether it is a bowl of several crops."""
        return len(self.crops) > 1

    @property
    def meanings(self) -> tuple[str, ...]:
        """The slugs that the crop's name can mean, sorted; none where no crop was told."""
        return tuple(sorted({slug for name in self.crops for slug in name.slugs}))


@dataclass(frozen=True, slots=True, kw_only=True)
class PickingSource:
    """What a picking came from, so far as it is known: the crop, and squares or its planting's tag."""

    crop: str
    """Slug; empty for a mixed bowl."""
    bowl: tuple[str, ...] = ()
    """Slugs of a mixed bowl's crops, in the order they were told."""
    squares: tuple[Square, ...] = ()
    tag: str = ""
    planting: str = ""
    """The key of its planting, where one is known to have stood there; empty otherwise."""


def weighing(picking: Picking, source: PickingSource, names: Names) -> Weighing:
    """Return the row of the ledger that a picking becomes.

    Its crops are named as rows of the garden name them; what was typed may be any other name of theirs.
    """
    slugs = tuple(filter(None, source.bowl if picking.mixed else (source.crop,)))
    words = zip(slugs, names.as_written(slugs), strict=True)
    crops = tuple(CropName(typed=word, slugs=(slug,)) for slug, word in words)
    return Weighing(
        day=picking.day,
        crops=crops,
        mixed=picking.mixed,
        tag=source.tag,
        variety=picking.variety,
        squares=source.squares,
        weight=picking.weight,
        estimated=picking.estimated,
        count=picking.count,
        to=tuple(Destination(name=share.name, weight=share.weight) for share in picking.shares)
        or ((Destination(name=picking.to),) if picking.to else ()),
        form=picking.form,
        state=picking.state,
        weighed=picking.weighed,
        note=picking.note,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetRow:
    """A row of somebody's spreadsheet, as far as it tells of a picking."""

    number: int
    """As the spreadsheet counts it, the first is 1."""
    cells: tuple[tuple[str, str], ...]
    """What each column means, and the cell in one plain form; in a fixed order, empty cells left out."""
    values: tuple[tuple[str, str], ...] = field(default=(), compare=False)
    """The same cells by what they say, not how it is spelt; empty: as ``cells``."""

    @property
    def by_value(self) -> tuple[tuple[str, str], ...]:
        """What tells the row from others."""
        return self.values or self.cells

    def get(self, meaning: str) -> str:
        """Return a cell, or an empty text."""
        return next((text for name, text in self.cells if name == meaning), "")
