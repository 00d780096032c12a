"""Which planting a picking came from, by who stood where on the day it was picked.

A tag says it. Else the squares do: the planting of the crop that stood there, or was
cleared on that very day. A general name without squares goes to the one crop it can
mean. Whatever is left open is a question with its possible answers, never a guess.
"""

from __future__ import annotations

import difflib
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from tallybed.garden.days import ONE_DAY, without_year
from tallybed.garden.naming import folded
from tallybed.garden.pickings import Picking, Source
from tallybed.garden.squares import Square, in_words
from tallybed.reckoning.plantings.plantings import Stand
from tallybed.reckoning.squares.occupancy import Holding


class Asking(StrEnum):
    """What a question is about."""

    CROP = "crop"
    BED = "bed"
    PLANTING = "planting"


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """What a picking came from."""

    source: Source
    doubt: str = ""
    """What speaks against it, as a sentence without a full stop."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """What cannot be told without asking."""

    about: Asking
    words: str
    """The question's reason, as a sentence without a full stop."""
    choices: tuple[Source, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Refused:
    """Why a picking cannot be what it says."""

    words: str


Answer = Found | Question | Refused


def whose(holding: Holding, picking: Picking, *, looking_around: bool = True) -> Answer:
    """Return what a picking came from, or the question that is open.

    ``holding`` is that of the picking's season, as of its day or later. With
    ``looking_around``, a general name told without squares goes to the only crop of that
    name that stands anywhere that day, and where several do, that is asked; without it
    the season's recorded answer alone says what it means.
    """
    there = _Ground(holding, picking)
    if picking.mixed:
        return _mixed(there, picking, looking_around=looking_around)
    if picking.tag:
        return _tagged(there, picking)
    if picking.places:
        return _in_squares(there, picking)
    if picking.bed:
        return _in_bed(there, picking)
    meanings = picking.meanings
    if len(meanings) == 1:
        day = without_year(picking.day)
        doubt = "" if there.stood else f"nothing says that {_name(picking)} stood anywhere on {day}"
        return Found(source=Source(crop=meanings[0]), doubt=doubt)
    if looking_around:
        return _anywhere(there, picking)
    if picking.answer:
        return Found(source=Source(crop=picking.answer))
    return _which_crop(picking, "and neither squares nor an answer of this season say which")


class _Ground:
    """The stands that a picking can come from, and where each stood that day."""

    def __init__(self, holding: Holding, picking: Picking) -> None:
        self.holding = holding
        meanings = frozenset(picking.meanings)
        self.stood: list[tuple[Stand, frozenset[Square]]] = []
        for stand in holding.stands:
            if not meanings.isdisjoint(stand.crop.slugs):
                squares = stood_in(holding, stand, picking.day)
                if squares:
                    self.stood.append((stand, squares))

    def of_variety(self, variety: str) -> list[tuple[Stand, frozenset[Square]]]:
        """Return those of a variety; all of them where none is known to be of it."""
        same = [one for one in self.stood if folded(one[0].variety) == folded(variety)]
        return same if variety and same else self.stood

    def within(self, squares: Iterable[Square]) -> list[tuple[Stand, frozenset[Square]]]:
        """Return those that stood in some of the squares, with those of the squares."""
        wanted = frozenset(squares)
        met = ((stand, stood & wanted) for stand, stood in self.stood)
        return [(stand, where) for stand, where in met if where]


def stood_in(holding: Holding, stand: Stand, day: date) -> frozenset[Square]:
    """Return the squares that a stand held on a day, or had held up to the day before."""
    holds = holding.of_stand(stand.key)
    return frozenset(hold.square for hold in holds if hold.first <= day <= hold.last + ONE_DAY)


def _mixed(there: _Ground, picking: Picking, *, looking_around: bool) -> Answer:
    squares = picking.places[0] if picking.places else ()
    if len(picking.places) > 1:
        return Refused(words=f"the squares of a mixed bowl need their bed, as in {in_words(squares)}")
    stood = there.within(squares) if squares else there.stood if looking_around else []
    bowl = []
    for name, answer in zip(picking.crops, picking.answers, strict=True):
        met = sorted({slug for stand, _where in stood for slug in stand.crop.slugs if slug in name.slugs})
        known = name.slug or (met[0] if len(met) == 1 else answer)
        if not known:
            return Refused(words=f"“{name.typed}” may be several crops ({_listed(name.slugs)}); name one")
        bowl.append(known)
    if len(set(bowl)) < 2:
        return Refused(words=f"all of the bowl would be {bowl[0]}; name its crops in full")
    return Found(source=Source(crop="", bowl=tuple(bowl), squares=squares, tag=picking.tag))


def _tagged(there: _Ground, picking: Picking) -> Answer:
    known = {folded(stand.tag): stand for stand in there.holding.stands if stand.tag}
    stand = known.get(folded(picking.tag))
    if stand is None:
        close = difflib.get_close_matches(folded(picking.tag), sorted(known), n=1)
        meant = f"; did you mean {known[close[0]].tag}?" if close else ""
        return Refused(words=f"no planting of {there.holding.season} has the tag {picking.tag}{meant}")
    slugs = sorted(set(stand.crop.slugs).intersection(picking.meanings or stand.crop.slugs))
    if not slugs:
        return Refused(words=f"{stand.tag} is {stand.crop.typed}, not {picking.crops[0].typed}")
    stood = stood_in(there.holding, stand, picking.day)
    fitting = [squares for squares in picking.places if not stood.isdisjoint(squares)]
    squares = (fitting or picking.places or [()])[0]
    if len(picking.places) > 1 and len(fitting) != 1:
        return Refused(
            words=f"{stand.tag} stood in {_where(stood)} on {without_year(picking.day)}: name the bed"
        )
    doubt = ""
    if squares and not fitting:
        doubt = f"nothing says that {stand.tag} stood in {in_words(squares)} on {without_year(picking.day)}"
    elif not stood:
        doubt = f"nothing says that {stand.tag} stood anywhere on {without_year(picking.day)}"
    crop = slugs[0] if len(slugs) == 1 else ""
    return Found(source=Source(crop=crop, squares=squares, tag=stand.tag, stand=stand.key), doubt=doubt)


def _in_squares(there: _Ground, picking: Picking) -> Answer:
    sources: dict[Source, None] = {}
    for squares in picking.places:
        for stand, _where_it_stood in there.within(squares):
            for slug in _slugs(stand, picking):
                key = stand.key if len(there.within(squares)) == 1 else ""
                sources.setdefault(Source(crop=slug, squares=squares, stand=key))
    found = _apart(sources)
    answered = [source for source in found if source.crop == picking.answer]
    if len(answered) == 1 and len(picking.places) == 1:
        found = tuple(answered)
    if len(found) == 1:
        return Found(source=found[0])
    day = without_year(picking.day)
    if found:
        words = f"“{_name(picking)}” can be any of these on {day}"
        about = Asking.BED if len({source.crop for source in found}) == 1 else Asking.CROP
        return Question(about=about, words=words, choices=found)
    meanings = picking.meanings
    crops = (picking.answer,) if len(meanings) > 1 and picking.answer else meanings
    choices = tuple(Source(crop=slug, squares=squares) for slug in crops for squares in picking.places)
    doubt = f"nothing says that {_name(picking)} stood in {_any_of(picking.places)} on {day}"
    if len(choices) == 1:
        return Found(source=choices[0], doubt=doubt)
    about = Asking.BED if len(crops) == 1 else Asking.CROP
    # The squares may be what is wrong: those that did stand come first.
    stood = tuple(_source(stand, where, picking) for stand, where in there.of_variety(picking.variety))
    return Question(about=about, words=doubt, choices=(*stood, *choices))


def _in_bed(there: _Ground, picking: Picking) -> Answer:
    day = without_year(picking.day)
    found = [
        (stand, frozenset(square for square in squares if square.bed == picking.bed))
        for stand, squares in there.of_variety(picking.variety)
    ]
    sources = [_source(stand, squares, picking) for stand, squares in found if squares]
    if len(sources) == 1:
        return Found(source=sources[0])
    if not sources:
        return Refused(words=f"nothing says that {_name(picking)} stood in the bed {picking.bed} on {day}")
    words = f"several plantings of {_name(picking)} stood in the bed {picking.bed} on {day}"
    return Question(about=Asking.PLANTING, words=words, choices=tuple(sources))


def _anywhere(there: _Ground, picking: Picking) -> Answer:
    stood = there.of_variety(picking.variety)
    crops = sorted({slug for stand, _squares in stood for slug in _slugs(stand, picking)})
    if len(crops) == 1:
        return Found(source=Source(crop=crops[0]))
    if not crops:
        if picking.answer:
            return Found(source=Source(crop=picking.answer))
        return _which_crop(picking, f"and none of them stood here on {without_year(picking.day)}")
    sources = tuple(_source(stand, squares, picking) for stand, squares in stood)
    words = f"“{_name(picking)}” can be any of these on {without_year(picking.day)}"
    return Question(about=Asking.PLANTING, words=words, choices=sources)


def _which_crop(picking: Picking, why: str) -> Question:
    choices = tuple(Source(crop=slug) for slug in picking.meanings)
    words = f"“{_name(picking)}” may be {_listed(picking.meanings)}, {why}"
    return Question(about=Asking.CROP, words=words, choices=choices)


def _source(stand: Stand, squares: frozenset[Square], picking: Picking) -> Source:
    """Return a stand as what a picking came from: by its tag, else by the squares it stood in."""
    slugs = _slugs(stand, picking)
    in_order = tuple(sorted(squares, key=lambda square: (square.bed, square.column, square.row)))
    return Source(
        crop=slugs[0] if len(slugs) == 1 else picking.answer,
        squares=() if stand.tag else in_order,
        tag=stand.tag,
        stand=stand.key,
    )


def _slugs(stand: Stand, picking: Picking) -> list[str]:
    return sorted(set(stand.crop.slugs).intersection(picking.meanings))


def _apart(sources: Iterable[Source]) -> tuple[Source, ...]:
    """Return sources that differ in crop or squares, sorted; of those that do not, the first."""
    kept: dict[tuple[str, tuple[Square, ...]], Source] = {}
    for source in sources:
        kept.setdefault((source.crop, source.squares), source)
    return tuple(kept[key] for key in sorted(kept))


def _name(picking: Picking) -> str:
    return picking.crops[0].typed if picking.crops else picking.variety or picking.typed


def _where(squares: Iterable[Square]) -> str:
    return in_words(squares) or "no square"


def _any_of(places: Sequence[tuple[Square, ...]]) -> str:
    return " or ".join(in_words(squares) for squares in places)


def _listed(words: Sequence[str]) -> str:
    return f"{', '.join(words[:-1])} or {words[-1]}" if len(words) > 1 else "".join(words)
