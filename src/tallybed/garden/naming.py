"""Names that people type for crops, and the crops they can mean.

A crop's own name, plural and slug count before the other names people give it,
and those before the general names it shares with its kin: ``onion`` may mean
three crops, ``scallion`` only one.
"""

from __future__ import annotations

import difflib
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, field, replace
from itertools import chain, combinations, product
from string import ascii_lowercase
from unicodedata import normalize

from tallybed.garden.crops import Crop, Variety, everyday
from tallybed.garden.plurals import in_plural

_ALIKE = str.maketrans({"-": " ", "_": " ", "‐": " ", "–": " ", "'": None, "’": None, ".": None})
"""Signs that make no difference between two ways of writing a crop's name."""
_NEAR_ENOUGH = 0.6
"""How alike a name must be to be offered (difflib's own default; 1 is equal)."""
SAME_CROP = 0.75
"""How alike a crop's name must be: most that are less so are other plants. Our choice."""
FEW = 3
"""Crops that share a general name, at the most, for it to call them near kinds. Our choice."""
_SHORT = 3
"""Letters of a word in which one slip is much."""
_TRIED = 8
"""The likest names that are held against a text word by word."""
_LONGEST = 200
"""Characters of a text that are compared; more takes long, and is like nothing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CropName:
    """A crop as typed, and the crops it can mean (one, or several for a general name)."""

    typed: str
    slugs: tuple[str, ...]

    @property
    def slug(self) -> str | None:
        """The one crop it means, or None where the name is general."""
        return self.slugs[0] if len(self.slugs) == 1 else None

    def may_be(self, other: CropName) -> bool:
        """Return whether both names can mean the same crop."""
        return any(slug in other.slugs for slug in self.slugs)


def folded(text: str) -> str:
    """Return ``text`` without capitals and with single spaces, each letter with its accents as one sign.

    Some keyboards and files write an accent as a sign of its own, which nobody can see (Unicode Standard
    Annex 15, form NFC).
    """
    plain = text if text.isascii() else normalize("NFC", text)
    return " ".join(plain.casefold().split())


def nearest(text: str, known: Iterable[str], near: float = _NEAR_ENOUGH) -> str:
    """Return the known word most like ``text`` (capitals aside), or an empty text where none is near.

    ``near``: how alike they must be; 1 is equal.
    """
    return next(iter(nearest_few(text, known, 1, near)), "")


def nearest_few(text: str, known: Iterable[str], most: int, near: float = _NEAR_ENOUGH) -> tuple[str, ...]:
    """Return up to ``most`` known words that are like ``text`` (capitals aside), the likest first."""
    by_folded = {folded(word): word for word in sorted(known)}
    close = difflib.get_close_matches(folded(text)[:_LONGEST], by_folded, n=most, cutoff=near)
    return tuple(by_folded[word] for word in close)


def nearest_name(text: str, known: Iterable[str]) -> str:
    """Return the known name of a plant most like ``text``, or an empty text where none is that of the same.

    Of names of as many words, each word is held against its own: velvet beans are no slip of wax beans.
    """
    close = nearest_few(text, known, _TRIED, SAME_CROP)
    return next((name for name in close if like_word_by_word(text, name)), "")


def like_word_by_word(one: str, other: str) -> bool:
    """Return whether two names have not as many words, or each word of one is like that of the other."""
    words, others = folded(one[:_LONGEST]).split(), folded(other).split()
    if len(words) != len(others):
        return True
    for pair in zip(others, words, strict=True):
        # One letter of three is a third: pee is a slip of pea.
        enough = _NEAR_ENOUGH if max(map(len, pair)) <= _SHORT else SAME_CROP
        if difflib.SequenceMatcher(None, *pair).ratio() < enough:
            return False
    return True


def variety_of(crop: Crop, typed: str) -> Variety | None:
    """Return what the garden knows of a variety of a crop, however its capitals are typed, or None."""
    name = folded(typed)
    return next((variety for variety in crop.varieties if folded(variety.name) == name), None)


def named_by(kind: str, *names_: str) -> bool:
    """Return whether a kind is the first words of each of some names, or there is no kind."""
    return all(name.startswith(f"{kind} ") for name in names_) if kind else True


def renamed(crop: Crop, name: str, plural: str, kind: str, letters: str) -> Crop:
    """Return a crop under another name; the one it had is one of its other names from now on."""
    now = {folded(name), folded(plural)}
    before = dict.fromkeys((crop.name, crop.plural, *crop.also))
    return replace(
        crop,
        name=name,
        plural=plural,
        kind=kind,
        letters=letters,
        also=tuple(each for each in before if folded(each) not in now),
    )


def as_called_in(crop: Crop, region: str) -> Crop:
    """Return a crop under the name it has in a country, which is told by its code (``NZ``)."""
    for one in crop.elsewhere:
        if region in one.regions:
            return renamed(crop, one.name, one.plural, one.kind, one.letters)
    return crop


def usual_kind(name: str, plural: str, crops: Iterable[Crop]) -> str:
    """Return the kind of a crop nobody told one of: what stands before the everyday name of crops with kinds.

    ``runner bean`` is a bean of the kind ``runner``, as there are bush beans and pole beans; a
    ``ground cherry`` has no kind.
    """
    ends = {(folded(everyday(one.name, one.kind)), folded(one.everyday)) for one in crops if one.kind}
    words = name.split(" ")
    for count in range(1, len(words)):
        kind, rest = " ".join(words[:count]), folded(" ".join(words[count:]))
        if named_by(kind, name, plural) and (rest, folded(everyday(plural, kind))) in ends:
            return kind
    return ""


def near_kinds(crops: Iterable[Crop], crop: Crop) -> tuple[Crop, ...]:
    """Return the crops that somebody may have meant instead: those of the same everyday or general name.

    A general name of more crops than ``FEW`` (herbs, greens) says little of how near they are.
    """
    every = tuple(crops)
    near = {one.slug for one in every if one.everyday == crop.everyday}
    for name in crop.general:
        sharing = [one.slug for one in every if name in one.general]
        near.update(sharing if len(sharing) <= FEW else ())
    return tuple(one for one in sorted(every, key=lambda one: one.listed) if one.slug in near - {crop.slug})


@dataclass(frozen=True, slots=True)
class Names:
    """An index of crop names."""

    meanings: Mapping[str, tuple[str, ...]]
    """Folded name to slugs; names and slugs in sorted order."""
    alike: Mapping[str, tuple[str, ...]]
    """The same without the signs that make no difference; of names that come to one, the first counts."""
    written: Mapping[str, str] = field(default_factory=dict)
    """What stands in the garden's files for a crop, by slug, where that is not the slug."""
    called: Mapping[str, str] = field(default_factory=dict)
    """The crops' own names, by slug."""

    @classmethod
    def of(cls, crops: Iterable[Crop]) -> Names:
        """Index the names of ``crops``: library and own ones together."""
        every = tuple(crops)
        ranks: tuple[dict[str, set[str]], ...] = ({}, {}, {})
        for crop in every:
            own = (crop.slug, crop.slug.replace("-", " "), crop.name, crop.plural)
            other = (*crop.also, *(name for one in crop.elsewhere for name in (one.name, one.plural)))
            general: tuple[str, ...] = crop.general
            if crop.own:  # the library's files spell out the plurals of their other names
                other, general = _with_plurals(other), _with_plurals(general)
            for rank, texts in zip(ranks, (own, other, general), strict=True):
                for text in texts:
                    rank.setdefault(folded(text), set()).add(crop.slug)
        merged = ranks[2] | ranks[1] | ranks[0]
        meanings = {name: tuple(sorted(merged[name])) for name in sorted(merged)}
        alike = {_alike(name): meanings[name] for name in reversed(meanings)}
        return cls(meanings, alike, written(every), called(every))

    def as_written(self, slugs: Iterable[str]) -> tuple[str, ...]:
        """Return what stands in the garden's files for each of some crops."""
        return tuple(self.written.get(slug, slug) for slug in slugs)

    def offered(self, slugs: Iterable[str]) -> tuple[str, ...]:
        """Return how each of some crops is named to choose one: all as they are written, or all by name."""
        every = tuple(slugs)
        by_name = any(slug in self.written for slug in every)
        return tuple(self.called.get(slug, slug) for slug in every) if by_name else self.as_written(every)

    def find(self, text: str) -> tuple[str, ...]:
        """Return the slugs that ``text`` can mean: one, several for a general name, none if unknown."""
        plain = folded(text)
        return self.meanings.get(plain) or self.alike.get(_alike(plain), ())

    def nearest(self, text: str) -> str:
        """Return the known name most like ``text``, or an empty text where none is near."""
        return nearest_name(text, self.meanings)


def written(crops: Iterable[Crop]) -> dict[str, str]:
    """Return what stands in a garden's files for those crops that are not written by their slug."""
    return {crop.slug: crop.written for crop in crops if crop.written != crop.slug}


def called(crops: Iterable[Crop]) -> dict[str, str]:
    """Return the names of crops, by slug."""
    return {crop.slug: crop.name for crop in crops}


def _with_plurals(names: Iterable[str]) -> tuple[str, ...]:
    """Return names with the usual plural of each that is none by its last letter."""
    return tuple(each for name in names for each in dict.fromkeys((name, in_plural(name))))


def _alike(name: str) -> str:
    """Return a name folded, without the signs that make no difference between two ways of writing it."""
    return folded(name.translate(_ALIKE))


def free_letters(name: str, taken: Collection[str]) -> str:
    """Return two letters that no crop has, of the name if they can be; empty where all are taken."""
    own = [letter for letter in folded(name) if letter in ascii_lowercase]
    pairs = chain(combinations(own, 2), product(ascii_lowercase, repeat=2))
    return next((pair for pair in map("".join, pairs) if pair.capitalize() not in taken), "").capitalize()
