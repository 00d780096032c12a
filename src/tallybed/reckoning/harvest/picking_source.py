"""Which planting a picking came from, by who stood where on the day it was picked.

A tag says it. Else the squares do: the planting of the crop that stood there, or was
cleared on that very day. A general name without squares goes to the one crop it can
mean, and of several that stood to the one that the season's answer names. Whatever is
left open is a question with its possible answers, never a guess.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

from tallybed.garden.days import without_year
from tallybed.garden.findings import joined, sentence
from tallybed.garden.naming import Names, folded, nearest
from tallybed.garden.records.pickings import Picking, PickingSource
from tallybed.garden.squares import Square, in_words
from tallybed.reckoning.harvest.stood import stood_in, stood_nowhere
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.squares.occupancy import Holding


class Asking(StrEnum):
    """What a question is about."""

    CROP = "crop"
    BED = "bed"
    PLAN_ROW = "planting"


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """What a picking came from."""

    source: PickingSource
    doubt: str = ""
    """What speaks against it, as a sentence without a full stop."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SourceQuestion:
    """What cannot be told without asking."""

    about: Asking
    words: str
    """The question's reason, as a sentence without a full stop."""
    choices: tuple[PickingSource, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Refused:
    """Why a picking cannot be what it says."""

    words: str


Squares = frozenset[Square]
Answer = Found | SourceQuestion | Refused


NO_NAMES = Names({}, {})


def whose(
    holding: Holding, picking: Picking, names: Names = NO_NAMES, *, looking_around: bool = True
) -> Answer:
    """Return what a picking came from, or the question that is open.

    ``names`` say how crops are written in that question; by their slugs where none are given.
    ``holding`` is that of the picking's season, as of its day or later. With
    ``looking_around``, a general name told without squares goes to the only crop of that
    name that stands anywhere that day, and where several do, to that of the season's
    recorded answer; without it that answer alone says what it means.
    """
    if picking.row is not None:
        places = _in_row(holding, picking)
        if not places:
            day = without_year(picking.day)
            return Refused(words=f"nothing says that {_name(picking)} stood in row {picking.row} on {day}")
        picking = replace(picking, row=None, bed="", places=places)
    there = _Ground(holding, picking, names)
    if not picking.crops and not picking.tag:
        return _what_stood(holding, picking)
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
        return _of_crop(there, picking, meanings[0])
    if looking_around:
        return _anywhere(there, picking)
    if picking.answer:
        return Found(source=PickingSource(crop=picking.answer))
    return _which_crop(there, picking, "and neither squares nor an answer of this season say which")


def _of_crop(there: _Ground, picking: Picking, slug: str) -> Found:
    """Answer for a picking that names a crop and neither tag nor place."""
    own = [one for one in there.holding.plantings if slug in one.crop.slugs]
    doubt = "" if there.stood else stood_nowhere(_name(picking), own, picking.day)
    return Found(source=PickingSource(crop=slug), doubt=doubt)


def only_one(holding: Holding, picking: Picking, source: PickingSource) -> tuple[Planting, Squares] | None:
    """Return the one planting, with its squares of the day, that a picking may be of and does not name.

    None where the picking says what it came from, is a mixed bowl, or may be of none or of several.
    """
    if source.bowl or source.squares or source.tag or source.planting:
        return None
    stood = _Ground(holding, picking).of_variety(picking.variety)
    own = [(planting, where) for planting, where in stood if source.crop in planting.crop.slugs]
    return own[0] if len(own) == 1 else None


class _Ground:
    """The plantings that a picking can come from, and where each stood that day."""

    def __init__(self, holding: Holding, picking: Picking, names: Names = NO_NAMES) -> None:
        """Find the plantings of the named crops that stood on the day of the picking."""
        self.holding = holding
        self._names = names
        meanings = frozenset(picking.meanings)
        self.stood: list[tuple[Planting, frozenset[Square]]] = []
        for planting in holding.plantings:
            if not meanings.isdisjoint(planting.crop.slugs):
                squares = stood_in(holding, planting, picking.day)
                if squares:
                    self.stood.append((planting, squares))

    def one_of(self, slugs: Iterable[str]) -> str:
        """Return crops by their names, as the choices are told beside it, joined with “or”."""
        return joined((self._names.called.get(slug, slug) for slug in slugs), "or")

    def of_variety(self, variety: str) -> list[tuple[Planting, frozenset[Square]]]:
        """Return those of a variety; all of them where none is known to be of it."""
        same = [one for one in self.stood if folded(one[0].variety) == folded(variety)]
        return same if variety and same else self.stood

    def within(self, squares: Iterable[Square]) -> list[tuple[Planting, frozenset[Square]]]:
        """Return those that stood in some of the squares, with those of the squares."""
        wanted = frozenset(squares)
        met = ((planting, stood & wanted) for planting, stood in self.stood)
        return [(planting, where) for planting, where in met if where]


def _in_row(holding: Holding, picking: Picking) -> tuple[tuple[Square, ...], ...]:
    """Return the squares of the row in which a picking's crop stood, those of each planting apart."""
    meanings = frozenset(picking.meanings)
    found = []
    for planting in holding.plantings:
        named = folded(planting.tag) == folded(picking.tag) if picking.tag else False
        if not named and (picking.tag or meanings.isdisjoint(planting.crop.slugs)):
            continue
        stood = stood_in(holding, planting, picking.day)
        squares = (one for one in stood if picking.row == one.row + 1 and picking.bed in ("", one.bed))
        found.append(tuple(sorted(squares)))
    return tuple(dict.fromkeys(squares for squares in found if squares))


def _what_stood(holding: Holding, picking: Picking) -> Answer:
    """Ask which crop is meant where squares alone were told."""
    choices: dict[PickingSource, None] = {}
    for squares in picking.places:
        for planting in holding.plantings:
            if not stood_in(holding, planting, picking.day).isdisjoint(squares):
                for slug in planting.crop.slugs:
                    choices.setdefault(PickingSource(crop=slug, squares=squares, planting=planting.key))
    where, day = _any_of(picking.places), without_year(picking.day)
    if not choices:
        return Refused(words=f"no crop is named, and nothing says that any stood in {where} on {day}")
    words = f"no crop is named; these stood in {where} on {day}"
    return SourceQuestion(about=Asking.CROP, words=words, choices=_apart(choices))


def _mixed(there: _Ground, picking: Picking, *, looking_around: bool) -> Answer:
    """Answer for a mixed bowl: each crop is made out by what stood there."""
    squares = picking.places[0] if picking.places else ()
    if len(picking.places) > 1:
        return Refused(words=f"the squares of a mixed bowl need their bed, as in {in_words(squares)}")
    stood = there.within(squares) if squares else there.stood if looking_around else []
    bowl = []
    for name, answer in zip(picking.crops, picking.answers, strict=True):
        met = sorted(
            {slug for planting, _where in stood for slug in planting.crop.slugs if slug in name.slugs}
        )
        known = name.slug or (met[0] if len(met) == 1 else answer)
        if not known:
            return Refused(
                words=f"“{name.typed}” may be several crops ({there.one_of(name.slugs)}); name one"
            )
        bowl.append(known)
    if len(set(bowl)) < 2:
        return Refused(words=f"all of the bowl would be {there.one_of(bowl[:1])}; name its crops in full")
    return Found(source=PickingSource(crop="", bowl=tuple(bowl), squares=squares, tag=picking.tag))


def _tagged(there: _Ground, picking: Picking) -> Answer:
    """Answer for a picking that names a tag."""
    known = {folded(planting.tag): planting for planting in there.holding.plantings if planting.tag}
    planting = known.get(folded(picking.tag))
    if planting is None:
        close = nearest(picking.tag, [one.tag for one in known.values()])
        found = f"no planting of {there.holding.season} has the tag {picking.tag}"
        return Refused(words=sentence(found, nearest=close))
    slugs = sorted(set(planting.crop.slugs).intersection(picking.meanings or planting.crop.slugs))
    if not slugs:
        return Refused(words=f"{planting.tag} is {planting.crop.typed}, not {picking.crops[0].typed}")
    stood = stood_in(there.holding, planting, picking.day)
    if picking.bed and stood and picking.bed not in {square.bed for square in stood}:
        where, day = _where(stood), without_year(picking.day)
        return Refused(words=f"{planting.tag} stood in {where} on {day}, not in the bed {picking.bed}")
    fitting = [squares for squares in picking.places if not stood.isdisjoint(squares)]
    squares = (fitting or picking.places or [()])[0]
    if len(picking.places) > 1 and len(fitting) != 1:
        return Refused(
            words=f"{planting.tag} stood in {_where(stood)} on {without_year(picking.day)}: name the bed"
        )
    doubt = ""
    if squares and not fitting:
        doubt = (
            f"nothing says that {planting.tag} stood in {in_words(squares)} on {without_year(picking.day)}"
        )
    elif not stood:
        doubt = stood_nowhere(planting.tag, (planting,), picking.day)
    crop = slugs[0] if len(slugs) == 1 else ""
    return Found(
        source=PickingSource(crop=crop, squares=squares, tag=planting.tag, planting=planting.key), doubt=doubt
    )


def _in_squares(there: _Ground, picking: Picking) -> Answer:
    """Answer for a picking that names squares, perhaps of several beds."""
    sources: dict[PickingSource, None] = {}
    for squares in picking.places:
        for planting, _where_it_stood in there.within(squares):
            for slug in _slugs(planting, picking):
                key = planting.key if len(there.within(squares)) == 1 else ""
                sources.setdefault(PickingSource(crop=slug, squares=squares, planting=key))
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
        return SourceQuestion(about=about, words=words, choices=found)
    meanings = picking.meanings
    crops = (picking.answer,) if len(meanings) > 1 and picking.answer else meanings
    choices = tuple(PickingSource(crop=slug, squares=squares) for slug in crops for squares in picking.places)
    doubt = f"nothing says that {_name(picking)} stood in {_any_of(picking.places)} on {day}"
    if len(choices) == 1:
        return Found(source=choices[0], doubt=doubt)
    about = Asking.BED if len(crops) == 1 else Asking.CROP
    # The squares may be what is wrong: those that did stand come first.
    stood = tuple(_source(planting, where, picking) for planting, where in there.of_variety(picking.variety))
    return SourceQuestion(about=about, words=doubt, choices=(*stood, *choices))


def _in_bed(there: _Ground, picking: Picking) -> Answer:
    """Answer for a picking that names a bed and no squares."""
    day = without_year(picking.day)
    found = [
        (planting, frozenset(square for square in squares if square.bed == picking.bed))
        for planting, squares in there.of_variety(picking.variety)
    ]
    sources = [_source(planting, squares, picking) for planting, squares in found if squares]
    sources = [source for source in sources if source.crop == picking.answer] or sources
    if len(sources) == 1:
        return Found(source=sources[0])
    if not sources:
        return Refused(words=f"nothing says that {_name(picking)} stood in the bed {picking.bed} on {day}")
    words = f"several plantings of {_name(picking)} stood in the bed {picking.bed} on {day}"
    return SourceQuestion(about=Asking.PLAN_ROW, words=words, choices=tuple(sources))


def _anywhere(there: _Ground, picking: Picking) -> Answer:
    """Answer for a picking that names neither tag nor place."""
    stood = there.of_variety(picking.variety)
    crops = sorted({slug for planting, _squares in stood for slug in _slugs(planting, picking)})
    if len(crops) == 1:
        return Found(source=PickingSource(crop=crops[0]))
    if picking.answer and (not crops or picking.answer in crops):
        return _of_crop(there, picking, picking.answer)
    if not crops:
        return _which_crop(there, picking, f"and none of them stood here on {without_year(picking.day)}")
    sources = tuple(_source(planting, squares, picking) for planting, squares in stood)
    words = f"“{_name(picking)}” can be any of these on {without_year(picking.day)}"
    return SourceQuestion(about=Asking.PLAN_ROW, words=words, choices=sources)


def _which_crop(there: _Ground, picking: Picking, why: str) -> SourceQuestion:
    """Ask which crop a general name means; those that the season has come first."""
    has = {slug for planting in there.holding.plantings for slug in planting.crop.slugs}
    meanings = sorted(picking.meanings, key=lambda slug: slug not in has)
    choices = tuple(PickingSource(crop=slug) for slug in meanings)
    words = f"“{_name(picking)}” may be {there.one_of(meanings)}, {why}"
    return SourceQuestion(about=Asking.CROP, words=words, choices=choices)


def _source(planting: Planting, squares: frozenset[Square], picking: Picking) -> PickingSource:
    """Return a planting as what a picking came from: by its tag, else by the squares it stood in."""
    slugs = _slugs(planting, picking)
    in_order = tuple(sorted(squares))
    return PickingSource(
        crop=slugs[0] if len(slugs) == 1 else picking.answer,
        squares=() if planting.tag else in_order,
        tag=planting.tag,
        planting=planting.key,
    )


def _slugs(planting: Planting, picking: Picking) -> list[str]:
    """Return the crops that both a planting and a picking can be, sorted."""
    return sorted(set(planting.crop.slugs).intersection(picking.meanings))


def _apart(sources: Iterable[PickingSource]) -> tuple[PickingSource, ...]:
    """Return sources that differ in crop or squares, sorted; of those that do not, the first."""
    kept: dict[tuple[str, tuple[Square, ...]], PickingSource] = {}
    for source in sources:
        kept.setdefault((source.crop, source.squares), source)
    return tuple(kept[key] for key in sorted(kept))


def _name(picking: Picking) -> str:
    """Return how the gardener named what was picked."""
    return picking.crops[0].typed if picking.crops else picking.variety or picking.typed


def _where(squares: Iterable[Square]) -> str:
    """Return squares in words."""
    return in_words(squares) or "no square"


def _any_of(places: Sequence[tuple[Square, ...]]) -> str:
    """Return the places that squares can be in, in words."""
    return " or ".join(in_words(squares) for squares in places)
