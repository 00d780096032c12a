"""Crops, and the figures known of them, each with where it comes from."""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum
from fractions import Fraction

from tallybed.garden.facts import RATE
from tallybed.garden.records.plan import Start
from tallybed.garden.units import INCH, Length

OF_FRUIT = frozenset({"Cucurbitaceae", "Fabaceae", "Malvaceae", "Poaceae", "Rosaceae", "Solanaceae"})
"""Families whose vegetables are grown for fruit, pods or ears; but for what is dug. From memory."""


class Footing(StrEnum):
    """What kind of ground a figure stands on."""

    PUBLISHED = "published"
    DERIVED = "derived"
    """Worked out from a published figure; the note says how."""
    COMMON = "common practice, no source"
    MEMORY = "from memory"
    GARDEN = "this garden's own"


class Habit(StrEnum):
    """How a plant grows, and so how a map draws it from above."""

    ROSETTE = "rosette"
    UPRIGHT = "upright"
    CLIMBING = "climbing"
    RUNNING = "running"
    ROOT = "root"


class Beginning(StrEnum):
    """What a planting of the crop usually begins from."""

    SOWN = "sown"
    SET_OUT = "set out"
    SETS = "sets"
    TUBERS = "tubers"
    SLIPS = "slips"
    CLOVES = "cloves"


class Hardiness(StrEnum):
    """How a crop stands cold, the hardiest first; the words are those of the library's tables."""

    VERY_HARDY = "very hardy"
    HARDY = "hardy"
    HALF_HARDY = "half-hardy"
    TENDER = "tender"
    VERY_TENDER = "very tender"


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """A publication that figures come from. Empty text: not seen, not guessed."""

    id: str
    title: str
    publisher: str = ""
    number: str = ""
    year: str = ""
    where: str = ""
    weight: str = ""
    """A: a page of extension, law or science itself; B: one quoted, or a named expert. Empty: not told."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """One statement of one fact: a number, a range or a text.

    ``low`` and ``high`` are in ``unit`` (``in``, ``days``, ``weeks``, ``degF``,
    ``lb/sqft`` …) and equal for a single number; both are None where the
    statement is ``text`` alone.
    """

    fact: str
    low: Fraction | None = None
    high: Fraction | None = None
    unit: str = ""
    text: str = ""
    of: str = ""
    """What the figure is counted from or holds for, e.g. ``from seed``."""
    source: str = ""
    """The source's id; empty for memory and common practice."""
    kind: Footing = Footing.PUBLISHED
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class NameElsewhere:
    """What a crop is called in some countries, where that is not the library's own name for it."""

    regions: tuple[str, ...]
    """Countries by their code of two capitals, as in ``en-NZ``."""
    name: str
    plural: str
    kind: str = ""
    letters: str
    source: str = ""
    """The source's id; empty for a name from memory."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Variety:
    """A variety the garden knows, with what it changes."""

    name: str
    days: int | None = None
    spacing: Length | None = None
    germination: Fraction | None = None
    """Share of its seed that comes up, as the packet says: above 0, at most 1."""
    source: str = ""
    note: str = ""


def everyday(name: str, kind: str) -> str:
    """Return a crop's everyday name: ``bean`` of ``bush bean``, whose kind is ``bush``."""
    return name.removeprefix(f"{kind} ") if kind else name


def kind_after(name: str, kind: str) -> str:
    """Return a crop's name as lists have it, the kind after: ``bean, bush``."""
    return f"{everyday(name, kind)}, {kind}" if kind else name


@dataclass(frozen=True, slots=True, kw_only=True)
class Crop:
    """A crop of the library or of the garden."""

    slug: str
    name: str
    plural: str
    kind: str = ""
    """The first words of its name where people ask for it by the others: ``bush`` of ``bush bean``."""
    also: tuple[str, ...] = ()
    """Other names people type, singular and plural."""
    general: tuple[str, ...] = ()
    """General names that this crop shares with others, e.g. ``bean``."""
    elsewhere: tuple[NameElsewhere, ...] = ()
    """Its names in other countries, of which a garden there has one for its ``name``."""
    botanical_name: str = ""
    family: str
    habit: Habit | None = None
    """None, as with the next three, where the garden has not told it: the crop is only weighed."""
    start: Beginning | None = None
    letters: str = ""
    """Two letters that stand for the crop on maps; unique in the library."""
    spacing: Length | None = None
    """The one spacing used, centre to centre, for close planting in a bed."""
    days: int | None = None
    """Days to maturity used, counted from ``days_from``."""
    days_from: str = ""
    """``sowing`` or ``setting out``."""
    figures: tuple[Figure, ...] = ()
    """Every figure with its source, in the library's order."""
    chosen: tuple[Figure, ...] = ()
    """For each fact of which one value is needed: the one used; its note gives the rule."""
    varieties: tuple[Variety, ...] = ()
    own: bool = False
    """Whether the garden added the crop itself."""

    @property
    def has_fruit(self) -> bool:
        """Whether what is picked of it is fruit, pods or ears; not leaves, stems or buds, nor what is dug."""
        below = self.start is Beginning.TUBERS or self.habit is Habit.ROOT
        return self.family in OF_FRUIT and not below

    @property
    def days_since(self) -> str:
        """What days to maturity count from, told or not: ``sowing`` or ``setting out``."""
        return self.days_from or ("sowing" if self.start is Beginning.SOWN else "setting out")

    @property
    def usual_start(self) -> Start:
        """How it comes into the bed as a rule: sown, or set out as a plant or what stands for its seed."""
        return Start.SOW if self.start is Beginning.SOWN else Start.SET_OUT

    @property
    def everyday(self) -> str:
        """Its everyday name, for several: ``beans``; crops that differ by their kind share it."""
        return everyday(self.plural, self.kind)

    @property
    def listed(self) -> str:
        """What it is called in lists, tables and titles: ``beans, bush``."""
        return kind_after(self.plural, self.kind)

    @property
    def listed_one(self) -> str:
        """The same of one: ``bean, bush``."""
        return kind_after(self.name, self.kind)

    @property
    def written(self) -> str:
        """What stands for it in the gardener's files: its slug, or the name it has in their country.

        Either is read in every garden, and means this crop alone; a name that the garden chose may not
        outlast the choice.
        """
        return self.name if any(one.name == self.name for one in self.elsewhere) else self.slug

    @property
    def untold(self) -> tuple[str, ...]:
        """Return the keys of crops.yaml that a plan needs and nobody told."""
        told = {"habit": self.habit, "start": self.start, "spacing": self.spacing}
        return tuple(key for key, value in told.items() if not value)

    def all_of(self, fact: str) -> tuple[Figure, ...]:
        """Return every figure of a fact."""
        return tuple(figure for figure in self.figures if figure.fact == fact)

    def used(self, fact: str) -> Figure | None:
        """Return the one figure used for a fact, or None where nothing is known."""
        return next((figure for figure in self.chosen if figure.fact == fact), None)

    @property
    def hardiness(self) -> Hardiness | None:
        """How it stands cold by the figure used; None where nothing is known."""
        figure = self.used("hardiness")
        return Hardiness(figure.text) if figure else None

    @property
    def is_tender(self) -> bool:
        """Whether a freeze kills it; False where nothing is known."""
        return self.hardiness in (Hardiness.TENDER, Hardiness.VERY_TENDER)

    @property
    def is_hardy(self) -> bool:
        """Whether it stands a light frost; False where nothing is known."""
        return self.hardiness in (Hardiness.HARDY, Hardiness.VERY_HARDY)

    def with_figures(
        self,
        *,
        spacing: Length | None,
        days: int | None,
        germination: Fraction | None,
        hardiness: Hardiness | None,
        source: str,
    ) -> Crop:
        """Return the crop with a garden's own figures before all others; None where it has none.

        ``germination``: a share, 1 at the most. ``source``: where the garden has them from.
        """
        told: dict[str, tuple[Fraction | None, str, str]] = {}
        if spacing is not None:
            told["spacing"] = spacing.within(INCH), "in", ""
        if days is not None:
            told[f"days from {self.days_since}"] = Fraction(days), "days", ""
        if germination is not None:
            told[RATE] = germination * 100, "%", ""
        if hardiness is not None:
            told["hardiness"] = None, "", hardiness
        figures = tuple(
            Figure(fact=fact, low=value, high=value, unit=unit, text=text, kind=Footing.GARDEN, note=source)
            for fact, (value, unit, text) in told.items()
        )
        return replace(
            self,
            spacing=spacing or self.spacing,
            days=self.days if days is None else days,
            days_from=self.days_from if days is None else self.days_since,
            figures=(*figures, *self.figures),
            chosen=(*figures, *(figure for figure in self.chosen if figure.fact not in told)),
        )
