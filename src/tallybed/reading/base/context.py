"""What a scanner may need to know beside the text itself: season, beds, crops."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, field, replace
from datetime import date

from tallybed.garden.days import Span
from tallybed.garden.findings import Place
from tallybed.garden.naming import CropName, Names, folded
from tallybed.garden.units import Length
from tallybed.reading.base.problems import LeftOut, Misread, Problems, listed, quoted
from tallybed.reading.text.squares import Beds

CROP = "the name of a crop"
ADD_CROP = "a crop that is not known yet is added in content/crops.yaml, with `new:`"
_NO_SEASON = Span(first=date.min, last=date.max)


@dataclass(frozen=True, slots=True, kw_only=True)
class Context:
    """The surroundings in which a file is read."""

    problems: Problems
    metric: bool = False
    """Whether the garden measures in kilograms and metres."""
    currency: str = ""
    """The garden's currency by its three letters; empty where it names none."""
    beds: Beds = field(default_factory=lambda: Beds({}))
    names: Names = field(default_factory=lambda: Names({}, {}))
    crops_whole: bool = True
    """False where some crop of the garden's own could not be read: an unknown name may be that."""
    unplannable: Mapping[str, tuple[Place, tuple[str, ...]]] = field(default_factory=dict)
    """Crops that tell too little for a plan: by slug where they stand, and the keys not told."""
    spacings: Mapping[str, Length] = field(default_factory=dict)
    """The narrowest spacing of each crop and its varieties, by slug."""
    season: str = ""
    span: Span = _NO_SEASON
    bounded: bool = True
    """False where the season's bounds could not be read."""
    general: Mapping[str, str] = field(default_factory=dict)
    """What general names mean this season: folded name to slug."""
    general_whole: bool = True
    """False where some of that could not be read: a name without an answer may have one."""
    sources: Collection[str] = ()
    """Ids of the publications that figures of the crop library may name."""

    found: dict[str, tuple[str, ...]] = field(default_factory=dict)
    """Names looked up before, with the slugs they can mean."""
    near: dict[str, str] = field(default_factory=dict)
    """Names looked up before that mean nothing, with the known one most like each."""
    crops: dict[tuple[str, tuple[str, ...]], CropName] = field(default_factory=dict)
    """Crops that records named before, so that those that name the same share one."""

    def slugs(self, text: str) -> tuple[str, ...]:
        """Return the slugs that a name can mean: one, several, or none if it is unknown."""
        if text not in self.found:
            self.found[text] = self.names.find(text)
        return self.found[text]

    def crop(self, text: str, *, general: bool = False) -> CropName:
        """Return the crop a name means; a general name answered for this season means that one.

        ``general``: a name of several crops is looked for, and offered where this one is unknown.
        """
        slugs = self.slugs(text)
        if not slugs:
            if not self.crops_whole:
                raise LeftOut
            if text not in self.near:
                self.near[text] = self.names.nearest(text)
            near = self.near[text] if general else self.offered(self.near[text])
            found = f"no crop is called {quoted(text)}"
            raise Misread("unknown-crop", found, CROP, near, remedy=ADD_CROP)
        if len(slugs) > 1:
            slugs = self._answered(text, slugs)
        if (text, slugs) not in self.crops:
            self.crops[text, slugs] = CropName(typed=" ".join(text.split()), slugs=slugs)
        return self.crops[text, slugs]

    def offered(self, name: str) -> str:
        """Return a known name, or an empty text, as it may be offered: each crop, where it is of several."""
        slugs = self.slugs(name)
        several = len(slugs) > 1 and len(self._answered(name, slugs)) > 1
        return self.one_of(slugs) if several else name

    def one_of(self, slugs: Iterable[str]) -> str:
        """Return crops as they may stand in the garden's files, joined with “or”."""
        return listed(self.names.offered(slugs))

    def _answered(self, text: str, slugs: tuple[str, ...]) -> tuple[str, ...]:
        """Return the one crop that a general name means this season, else all that it can mean."""
        own = self.general.get(folded(text))
        if own is not None:
            return (own,)
        for name, slug in self.general.items():
            if self.slugs(name) == slugs:  # `bean` is answered by `beans`
                return (slug,)
        return slugs


def quiet(context: Context) -> Context:
    """Return the same surroundings, in which nobody is told what is wrong."""
    return replace(context, problems=Problems())
