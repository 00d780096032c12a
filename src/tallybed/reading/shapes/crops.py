"""``crops.yaml``: the garden's own crops, and its own figures for crops of the library."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import cast

from tallybed.garden.crops import Beginning, Crop, Habit, Hardiness, Variety
from tallybed.garden.findings import Place, Severity
from tallybed.garden.naming import (
    Names,
    as_called_in,
    called,
    folded,
    free_letters,
    named_by,
    renamed,
    usual_kind,
    written,
)
from tallybed.garden.plurals import plural_of
from tallybed.reading.base.context import CROP, Context
from tallybed.reading.base.mappings import Key, KeyedValues, Shape, take
from tallybed.reading.base.problems import LeftOut, Misread, listed, quoted
from tallybed.reading.base.scanners import chosen, every, rows, said
from tallybed.reading.shapes.common import CROP_NAME, LINE, NOTE_KEY, SPACING_LENGTH, SPACING_TEXT, count
from tallybed.reading.text import measures, texts
from tallybed.reading.yaml.nodes import Items, Node, Pairs, Text

NO_KIND = "none"
_DAYS = "a whole number of days"


def _letters(text: str) -> str:
    """Read a crop's two letters; the first becomes a capital. Raises Misread."""
    letters = text.strip()
    if not re.fullmatch(r"[A-Za-z]{2}", letters):
        raise Misread("letters", f"{quoted(text)} are not two letters", "two letters from A to Z, such as Sk")
    return letters[0].upper() + letters[1].lower()


def _crop_word(text: str) -> str:
    """Read a new crop's name, which must hold a letter or digit. Raises Misread."""
    word = texts.line(text)
    if not slugged(word):
        raise Misread("crop-name", f"{quoted(text)} cannot be a crop’s name", "a name with letters in it")
    return word


def slugged(text: str) -> str:
    """Return a crop's name as its short name: small letters and digits, joined by hyphens."""
    return "-".join(re.findall(r"[^\W_]+", folded(text)))


def _germination(text: str) -> Fraction:
    """Read the share of seed that comes up: a percentage, and all of it too."""
    return Fraction(100 if text.replace(" ", "") == "100%" else measures.percentage(text), 100)


VARIETY_NAME = Key("name", LINE, "the variety’s name", required=True)
DAYS = Key("days", count(1), _DAYS)
SPACING = Key("spacing", SPACING_LENGTH, SPACING_TEXT)
GERMINATION = Key("germination", said(_germination, measures.PERCENT), measures.PERCENT)
SOURCE = Key("source", LINE, "where the figures come from")
VARIETY = Shape("a variety", (VARIETY_NAME, DAYS, SPACING, GERMINATION, SOURCE, NOTE_KEY))


def _variety(node: Node, context: Context) -> Variety:
    """Read a variety. Raises LeftOut."""
    row = take(node, VARIETY, context)
    row.finish()
    return Variety(
        name=row[VARIETY_NAME],
        days=row.get(DAYS),
        spacing=row.get(SPACING),
        germination=row.get(GERMINATION),
        source=row.get(SOURCE) or "",
        note=row.get(NOTE_KEY) or "",
    )


VARIETIES = Key("varieties", rows(_variety), "a list of varieties")
KNOWN = Key("crop", CROP_NAME, CROP, required=True)
CALLED = Key("name", said(_crop_word, "a name"), "what this garden calls it")
NEW = Key("new", said(_crop_word, CROP), CROP, required=True)
PLURAL = Key("plural", LINE, "the name for several")
KIND = Key("kind", LINE, "the first words of its name, said after the rest in lists, or none")
ALSO = Key("also", every(LINE, "other names"), "a list of other names")
BOTANICAL = Key("botanical name", LINE, "the botanical name")
FAMILY = Key("family", LINE, "the botanical family, such as Apiaceae", required=True)
OTHER_HABITS = {
    **dict.fromkeys(("bush", "bushy", "erect", "tall", "clump", "clumping"), "upright"),
    **dict.fromkeys(("climber", "twining", "twiner"), "climbing"),
    **dict.fromkeys(("vine", "vining", "trailing", "sprawling", "creeping", "spreading"), "running"),
    **dict.fromkeys(("leafy", "flat", "low", "head"), "rosette"),
    **dict.fromkeys(("bulb", "tuber", "underground"), "root"),
}
OTHER_STARTS = {
    **dict.fromkeys(("seed", "seeds", "direct", "direct sown", "from seed"), "sown"),
    **dict.fromkeys(("plant", "plants", "planted", "transplant", "transplants", "transplanted"), "set out"),
    **dict.fromkeys(("seedlings", "starts", "crowns", "indoors", "started indoors"), "set out"),
    **dict.fromkeys(("bulb", "bulbs"), "sets"),
    **dict.fromkeys(("seed potatoes", "eyes"), "tubers"),
    **dict.fromkeys(("cutting", "cuttings", "runners"), "slips"),
}
HABIT = Key("habit", chosen({habit.value: habit for habit in Habit}, "a habit", OTHER_HABITS), listed(Habit))
START = Key(
    "start", chosen({way.value: way for way in Beginning}, "a start", OTHER_STARTS), listed(Beginning)
)
OTHER_HARDINESS = {
    **dict.fromkeys(("fully hardy", "frost hardy", "stands frost"), "hardy"),
    **dict.fromkeys(("half hardy", "semi-hardy", "semi hardy"), "half-hardy"),
    **dict.fromkeys(("not hardy", "frost-tender", "frost tender", "warm-season", "warm season"), "tender"),
}
HARDY = Key(
    "hardiness",
    chosen({word.value: word.value for word in Hardiness}, "how hardy a crop is", OTHER_HARDINESS),
    listed(Hardiness),
)
LETTERS = Key("letters", said(_letters, "two letters"), "two letters for the maps")
NAMES = (PLURAL, KIND, LETTERS)
FIGURES = (SPACING, DAYS, GERMINATION, HARDY, SOURCE, VARIETIES, NOTE_KEY)
_OF_ITS_OWN = (ALSO, BOTANICAL, FAMILY, HABIT, START)
_BEGIN_NEW = "an entry for a crop that is not known yet begins with `new:` and its name, in place of `crop:`"
OVERRIDE = Shape(
    "a crop",
    (KNOWN, CALLED, *NAMES, *FIGURES),
    instead=dict.fromkeys((key.name for key in _OF_ITS_OWN), _BEGIN_NEW),
)
OWN = Shape(
    "a crop of your own",
    (NEW, PLURAL, KIND, *_OF_ITS_OWN, LETTERS, *FIGURES),
    instead=dict.fromkeys(("crop", "name"), "the name of the crop stands after `new:`"),
)


@dataclass
class CropList:
    """The crops known so far: the library's, then the garden's changes to them."""

    crops: dict[str, Crop]
    names: Names
    places: dict[str, Place] = field(default_factory=dict)
    """Where the garden spoke of a crop before."""
    whole: bool = True
    """False once a crop of the garden's own could not be read."""
    given: list[tuple[Text, str]] = field(default_factory=list)
    """Other names that the garden gave its own crops, as typed, each with the crop's slug."""

    @classmethod
    def of(cls, library: Mapping[str, Crop], names: Names, region: str = "") -> CropList:
        """Begin with the library: its crops by slug, under their names in a country, and all their names."""
        if not region:
            return cls(dict(library), names)
        crops = {slug: as_called_in(crop, region) for slug, crop in library.items()}
        return cls(crops, replace(names, written=written(crops.values()), called=called(crops.values())))

    def add(self, node: Node, context: Context) -> None:
        """Take in one entry of ``crops.yaml``; what is wrong with it has been told."""
        try:
            if isinstance(node, Pairs) and node.get("new") is not None:
                self._add_new(take(node, OWN, context))
            else:
                self._override(
                    take(node, OVERRIDE, replace(context, names=self.names, crops_whole=self.whole, found={}))
                )
        except LeftOut:
            # A name that stood in it may be one that the garden's records call a crop by.
            naming = (NEW, CALLED, PLURAL)
            named = not isinstance(node, Pairs) or any(node.get(key.name) is not None for key in naming)
            self.whole = self.whole and not named

    def tell_taken(self, context: Context) -> None:
        """Tell of each other name that means another crop alone, once all crops are known."""
        for node, slug in self.given:
            means = self.names.find(node.text)
            if means and slug not in means:
                name, others = self.crops[slug].name, listed([self.crops[one].name for one in means], "and")
                context.problems.add(
                    node.place,
                    "also-taken",
                    f"{quoted(node.text)} is no name of {name}: it goes on meaning {others} alone",
                    remedy="give another name, or leave this one out",
                    severity=Severity.WARNING,
                )

    def unplannable(self) -> dict[str, tuple[Place, tuple[str, ...]]]:
        """Return the crops that tell too little for a plan: by slug their place and the keys not told."""
        return {slug: (self.places[slug], crop.untold) for slug, crop in self.crops.items() if crop.untold}

    def _override(self, row: KeyedValues) -> None:
        """Change a known crop's figures, and add varieties to it. Raises LeftOut."""
        row.finish()
        name = row[KNOWN]
        if name.slug is None:
            found = f"{quoted(name.typed)} may mean several crops"
            row.wrong(KNOWN, "general-crop", found, expected=row.context.one_of(name.slugs))
        else:
            self._once(name.slug, row, KNOWN)
        row.finish()
        crop = self._called(self.crops[cast("str", name.slug)], row)
        crop = replace(crop, varieties=(*crop.varieties, *(row.get(VARIETIES) or ())))
        self.crops[crop.slug] = _with_figures(crop, row)

    def _called(self, crop: Crop, row: KeyedValues) -> Crop:
        """Return a known crop under the name that the garden gives it, if it gives one. Raises LeftOut."""
        if not any(row.has(key) for key in (CALLED, *NAMES)):
            return crop
        given = row.get(CALLED)
        name, kind = given or crop.name, crop.kind
        plural = row.get(PLURAL) or (plural_of(name) if given else crop.plural)
        if given or row.has(KIND) or not named_by(kind, name, plural):
            kind = _kind(row, name, plural, self.crops.values())
        for key, text in ((CALLED, name), (PLURAL, plural)):
            means = self.names.find(text)
            if means and crop.slug not in means:
                others = listed([self.crops[one].name for one in means], "and")
                found = f"{quoted(text)} cannot be a name of {crop.name}: it means {others}"
                at = key if row.has(key) else CALLED
                row.wrong(at, "name-taken", found, expected="a name that no other crop has")
                break
        letters = self._letters(row, name, crop.slug) or crop.letters
        row.finish()
        self.crops[crop.slug] = crop = renamed(crop, name, plural, kind, letters)
        self.names = Names.of(self.crops.values())
        return crop

    def _letters(self, row: KeyedValues, name: str, slug: str) -> str:
        """Return the letters told for a crop, if any; tells where another crop has them."""
        letters = row.get(LETTERS) or ""
        others = [crop for crop in self.crops.values() if crop.slug != slug]
        holder = next((crop for crop in others if letters and crop.letters == letters), None)
        if holder is not None:
            found = f"the letters {letters} stand for {holder.name} already"
            free = free_letters(name, {crop.letters for crop in others})
            expected = f"two letters that no other crop has{', such as ' if free else ''}{free}"
            row.wrong(LETTERS, "letters-taken", found, expected=expected)
        return letters

    def _add_new(self, row: KeyedValues) -> None:
        """Add a crop of the garden's own. Raises LeftOut where its name or letters are taken."""
        row.finish()
        name = row[NEW]
        slug = slugged(name)
        self._once(slug, row, NEW)
        self._make_way(name, slug, row)
        letters = self._letters(row, name, slug)
        plural = row.get(PLURAL) or plural_of(name)
        shared = {folded(each) for crop in self.crops.values() for each in crop.general}
        also = row.get(ALSO) or ()
        kind = _kind(row, name, plural, self.crops.values())
        _days_can_be_counted(row)
        row.finish()
        crop = Crop(
            slug=slug,
            name=name,
            plural=plural,
            kind=kind,
            also=tuple(each for each in also if folded(each) not in shared),
            general=tuple(each for each in also if folded(each) in shared),
            botanical_name=row.get(BOTANICAL) or "",
            family=row[FAMILY],
            habit=row.get(HABIT),
            start=row.get(START),
            letters=letters,
            spacing=row.get(SPACING),
            varieties=row.get(VARIETIES) or (),
            own=True,
        )
        self.crops[slug] = _with_figures(crop, row)
        self.names = Names.of(self.crops.values())
        told = row.node.get(ALSO.name)
        texts_told = told.items if isinstance(told, Items) else (told,)
        self.given += [(each, slug) for each in texts_told if isinstance(each, Text)]

    def _make_way(self, name: str, slug: str, row: KeyedValues) -> None:
        """Let a crop of the garden's own have its name: a library that gets to know it breaks no garden.

        Raises LeftOut where another crop in the garden's list has the name.
        """
        for crop in list(self.crops.values()):
            own = {crop.slug, *map(folded, (crop.name, crop.plural))} & {slug, folded(name)}
            also = tuple(each for each in crop.also if folded(each) != folded(name))
            if (own or also != crop.also) and crop.slug in self.places and crop.slug != slug:
                found = f"{quoted(name)} is a name of {crop.name}, which is in this list"
                row.wrong(NEW, "known-crop", found, remedy="put both in one entry")
            elif own:
                del self.crops[crop.slug]
                row.context.problems.add(
                    row.place_of(NEW),
                    "known-crop",
                    f"{quoted(name)} is a known crop; yours takes its place, with your figures alone",
                    remedy="to keep what is known of it, write crop: in place of new:",
                    severity=Severity.WARNING,
                )
            else:
                self.crops[crop.slug] = replace(crop, also=also) if also != crop.also else crop

    def _once(self, slug: str, row: KeyedValues, key: Key[object]) -> None:
        """Tell that a crop stands in the list for a second time, if it does."""
        first = self.places.setdefault(slug, row.place)
        if first is not row.place:
            row.wrong(
                key,
                "duplicate-crop",
                f"the crop {slug} stands here a second time; the first is on line {first.line}",
                remedy="put both in one entry",
            )


def _kind(row: KeyedValues, name: str, plural: str, known: Iterable[Crop]) -> str:
    """Return the words of a crop's name that lists say after the rest: as told, else as usual."""
    told = row.get(KIND)
    if told is None:
        return usual_kind(name, plural, known)
    if folded(told) == NO_KIND:
        return ""
    if not named_by(told, name, plural):
        found = f"{quoted(told)} does not begin both {quoted(name)} and {quoted(plural)}"
        row.wrong(KIND, "crop-kind", found, expected=f"the first words of both, or {NO_KIND}")
    return told


def _days_can_be_counted(row: KeyedValues) -> None:
    """Tell where days to maturity are told, and not what they are counted from."""
    if row.has(START) or not (row.has(DAYS) or any(one.days for one in row.get(VARIETIES) or ())):
        return
    row.wrong(
        DAYS if row.has(DAYS) else VARIETIES,
        "crop-keys",
        "days to maturity count from sowing or from setting out, and its start is not told",
        expected=f"the key start: {listed(Beginning)}",
    )


def _with_figures(crop: Crop, row: KeyedValues) -> Crop:
    """Return the crop with the garden's own figures, which stand before any published one."""
    hardy = row.get(HARDY)
    return crop.with_figures(
        spacing=row.get(SPACING),
        days=row.get(DAYS),
        germination=row.get(GERMINATION),
        hardiness=Hardiness(hardy) if hardy else None,
        source=row.get(SOURCE) or "",
    )
