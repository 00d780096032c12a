"""What people may speak of when they tell a picking: crops, varieties, tags, beds, destinations."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field

from tallybed.garden.garden import Garden, Season
from tallybed.garden.naming import CropName, Names, folded, nearest, nearest_few, nearest_name
from tallybed.garden.squares import Square
from tallybed.reading.base.context import Context
from tallybed.reading.base.problems import Misread, Problems, quoted
from tallybed.reading.text.squares import SQUARES, Beds, squares

_MOST_BEGUN = 6
"""Names that are offered for a word that they begin with, at the most."""
_MOST_LIKE = 3
"""Crops that are offered where a name is of none."""
KnownVariety = tuple[str, tuple[str, ...]]
"""A variety's name as the garden writes it, and the slugs of the crops that have it."""


@dataclass(frozen=True, kw_only=True)
class Vocabulary:
    """The names that mean something in a garden's season."""

    context: Context
    tags: frozenset[str] = frozenset()
    """In capitals."""
    varieties: Mapping[str, KnownVariety] = field(default_factory=dict)
    """By folded name."""
    destinations: Mapping[str, str] = field(default_factory=dict)
    """Folded name to the name as a ledger of the garden writes it."""
    answers: Mapping[str, str] = field(default_factory=dict)
    """Folded name to slug: what names mean that no library knows."""
    forms: frozenset[str] = frozenset()
    """Forms in which the ledgers of the garden say that something was weighed, folded."""

    @classmethod
    def of(cls, garden: Garden, season: Season, answers: Mapping[str, str] | None = None) -> Vocabulary:
        """Return what can be spoken of in a season."""
        rows = [row for every in garden.seasons for row in every.ledger or ()]
        return cls(
            context=context_of(garden, season),
            tags=frozenset(_tags(season)),
            varieties=_varieties(garden, season),
            destinations={folded(part.name): part.name for row in rows for part in row.to},
            answers=answers or {},
            forms=frozenset(folded(row.form) for row in rows if row.form),
        )

    def destination(self, name: str) -> str:
        """Return a destination as the ledger writes it, else as it was told."""
        return self.destinations.get(folded(name), name)

    def slugs(self, name: str) -> tuple[str, ...]:
        """Return the crops that a name can mean."""
        own = self.answers.get(folded(name))
        return (own,) if own else self.context.slugs(name)

    def variety(self, name: str) -> KnownVariety | None:
        """Return the variety that a name means: one of the garden's, if not another crop is called so."""
        found = self.varieties.get(folded(name))
        slugs = self.slugs(name)
        return found if found and (not slugs or set(found[1]) <= set(slugs)) else None

    def answer(self, name: str) -> str:
        """Return the crop that a general name means this season, where the garden's files say so."""
        if len(self.slugs(name)) < 2:
            return ""
        return self.context.crop(name).slug or ""

    def what(self, name: str) -> NamedCrop:
        """Return the crop and variety that words name, in either order. Raises Misread."""
        variety = self.variety(name)
        if variety is not None:
            return NamedCrop(CropName(typed=variety[0], slugs=variety[1]), variety[0])
        slugs = self.slugs(name)
        if slugs:
            return NamedCrop(CropName(typed=name, slugs=slugs), "", self.answer(name))
        for crop, rest in _divided(name):
            given = self.varieties.get(folded(rest))
            both = tuple(slug for slug in self.slugs(crop) if given and slug in given[1])
            if given and both:
                return NamedCrop(CropName(typed=crop, slugs=both), given[0])
        raise Misread(
            "unknown-crop",
            f"no crop, variety or tag is called {quoted(name)}",
            nearest=self.near(name),
        )

    def tag_in(self, text: str) -> str:
        """Return what stands where a crop is told, if it is a tag of the season; else an empty text."""
        return text.strip() if text.strip().upper() in self.tags else ""

    def near(self, name: str) -> str:
        """Return the crop, variety or tag most like a name, or an empty text."""
        crop = next((part for part, _rest in _divided(name) if self.slugs(part)), "")
        if crop:
            return crop
        known = {
            *self.context.names.meanings,
            *self.answers,
            *(given for given, _slugs in self.varieties.values()),
        }
        letters = " ".join(word for word in name.split() if not any(sign.isdigit() for sign in word))
        return nearest_name(letters, known) or nearest(name, self.tags)

    def begun(self, word: str) -> list[str]:
        """Return the names of crops and varieties that a word is the beginning of: ``spin``, ``zucs``."""
        begins = folded(word).removesuffix("s")
        known = map(folded, {*self.context.names.meanings, *self.answers, *self.varieties})
        return sorted(name for name in known if len(begins) > 2 and name.startswith(begins))[:_MOST_BEGUN]

    def nearest_crops(self, name: str) -> tuple[str, ...]:
        """Return the slugs of a few crops whose names or varieties are most like a name, the likest first."""
        known = {*self.context.names.meanings, *self.answers, *self.varieties}
        close = nearest_few(name, known, _MOST_LIKE)
        # A crop's name with something unknown beside it is like that crop above all.
        close = (*(folded(part) for part, _rest in _divided(name) if self.slugs(part)), *close)
        slugs = (slug for one in close for slug in self.slugs(one) or self.varieties[one][1])
        return tuple(dict.fromkeys(slugs))[:_MOST_LIKE]

    def places(self, text: str) -> tuple[tuple[Square, ...], ...]:
        """Return the squares a text names, once for each bed they can be in. Raises Misread."""
        beds = self.context.beds
        try:
            return (squares((text,), beds),)
        except Misread as misread:
            if misread.code != "bed-not-told":
                raise
        found = tuple(squares((text,), bed) for bed in _each(beds) if _readable(text, bed))
        if not found:
            raise Misread("square-outside", f"no bed has the squares {quoted(text)}", SQUARES)
        return found

    def is_somewhere(self, text: str) -> bool:
        """Return whether a text names squares of some bed."""
        return any(_readable(text, bed) for bed in _each(self.context.beds))


@dataclass(frozen=True, slots=True)
class NamedCrop:
    """A crop as told, the variety, and the crop that a general name means this season."""

    crop: CropName
    variety: str
    answer: str = ""


def context_of(garden: Garden, season: Season) -> Context:
    """Return the surroundings in which a season's files are read."""
    return Context(
        problems=Problems(),
        metric=garden.showing.metric,
        beds=Beds.of((*garden.beds, *garden.elsewhen)).in_season(season.name),
        names=Names.of(garden.crops),
        season=season.name,
        span=season.span,
        general=dict(season.general),
    )


def _tags(season: Season) -> Iterator[str]:
    """Yield the tags of a season's plan and log, in capitals."""
    yield from (plan_row.tag.upper() for plan_row in season.plan or () if plan_row.tag)
    yield from (event.tag.upper() for entry in season.log or () for event in entry.done if event.tag)


def _varieties(garden: Garden, season: Season) -> dict[str, KnownVariety]:
    """Return the varieties of the garden's crops, and those that the season's records name."""
    found: dict[str, tuple[str, set[str]]] = {}

    def add(variety: str, slugs: Iterable[str]) -> None:
        """Add the crops that have a variety."""
        if variety:
            found.setdefault(folded(variety), (variety, set()))[1].update(slugs)

    for crop in garden.crops:
        for variety in crop.varieties:
            add(variety.name, (crop.slug,))
    for plan_row in season.plan or ():
        add(plan_row.variety, (plan_row.crop,))
    for entry in season.log or ():
        for event in entry.done:
            add(event.variety, event.crop.slugs if event.crop else ())
    return {name: (given, tuple(sorted(slugs))) for name, (given, slugs) in found.items() if slugs}


def _divided(name: str) -> Iterator[tuple[str, str]]:
    """Yield each way to read words as a crop and its variety, in either order."""
    parts = name.split()
    for cut in range(1, len(parts)):
        head, tail = " ".join(parts[:cut]).rstrip(","), " ".join(parts[cut:])
        yield head, tail
        yield tail, head


def _each(beds: Beds) -> Iterator[Beds]:
    """Yield each bed as the only one."""
    yield from (Beds.of([beds.by_name[name.casefold()]]) for name in beds.names)


def _readable(text: str, beds: Beds) -> bool:
    """Return whether a text names squares of these beds."""
    try:
        squares((text,), beds)
    except Misread:
        return False
    return True
