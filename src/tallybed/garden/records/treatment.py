"""What a line of the log says of a treatment and its label, or of manure that was put down.

The label governs. A wait or a re-entry that the gardener did not write stays not known:
none is supplied.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date, time, timedelta
from enum import StrEnum
from fractions import Fraction
from unicodedata import normalize

_BEASTS = "chicken|chook|hen|poultry|duck|cow|cattle|horse|sheep|goat|pig|rabbit"
_OF_THEM = r"(?:pellets?|straw|compost|shavings|sweepings|cleanings)"
_ANIMALS = re.compile(
    r"manure|dung|muck|litter|slurry|guano|droppings|farmyard|excrement|fa?eces|night ?soil"
    r"|\bpoo(?:p|s|ps|h)?\b|\bbedding\b(?! plants?\b)|\bcow ?pats?\b|sewage|biosolid"
    rf"|\b(?:{_BEASTS})s?\b\W(?:s )?(?:[\w-]+ ){{0,2}}{_OF_THEM}|\bpelleted (?:{_BEASTS})"
    rf"|{_OF_THEM} (?:of|from) (?:\w+ ){{0,2}}(?:{_BEASTS})s?\b"
    # German, French and Spanish, as far as the word means nothing else in English.
    r"|(?:pferde|kuh|rinder|h[uü]hner|schaf|stall|hasen|ziegen|schweine)mist|g[uü]lle"
    r"|fumier|lisier|crottin|\bfientes?\b|esti[eé]rcol|gallinaza"
)
_OF_PLANTS = re.compile(
    r"\bgreen[- ]?manur|\b(?:leaf|leaves|pine|needle)[- ]litter|\bwool[- ]pellets?"
    r"|\b(?:horse chestnut|cow parsley|cow pea|horse bean|(?:chicken|rabbit) (?:wire|netting|food|feed))\b"
)
"""What has such a word in its name and nothing in it that animals left. Both are common use of the words, no
source; 7 CFR 205.2 has manure as what livestock leave, with their bedding (from memory)."""


def names_manure(text: str) -> bool:
    """Return whether a text names manure by one of its words."""
    return bool(_ANIMALS.search(_OF_PLANTS.sub("", normalize("NFC", text).casefold())))


class TreatmentKind(StrEnum):
    """What a treatment is that has no label."""

    BY_HAND = "by hand"
    BARRIER = "barrier"
    WATER = "water"


class Manure(StrEnum):
    """What of animals is in something that was dug in, fed, watered with or laid on as a cover."""

    NONE = "none"
    RAW = "raw"
    COMPOSTED = "composted"
    """It counts as raw unless its heat was recorded."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ReEntry:
    """How long people keep off after a treatment, by the label: hours, or until it has dried."""

    hours: Fraction | None = None
    """None: until it has dried."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Treatment:
    """What a line of ``treat`` says of the product and its label."""

    product: str = ""
    """The active ingredient as on the label."""
    kind: TreatmentKind | None = None
    """None: a product with a label."""
    wait: int | None = None
    """Days of the label between the treatment and picking; None where not written, which is never zero."""
    next_crop: bool = False
    """Whether the label's wait holds for what is planted in the squares afterwards as well."""
    reentry: ReEntry | None = None
    """None where not written."""
    at: time | None = None
    """When it was done with."""
    rate: str = ""
    registration: str = ""
    wind: str = ""
    temperature: Fraction | None = None
    """Air temperature noted, in degrees Fahrenheit."""

    @property
    def has_label(self) -> bool:
        """Whether it is a product whose label governs."""
        return self.kind is None

    def safe_from(self, day: date) -> date | None:
        """Return the first day to pick after a treatment on a day; None where its wait is not written."""
        return None if self.wait is None else day + timedelta(days=self.wait)
