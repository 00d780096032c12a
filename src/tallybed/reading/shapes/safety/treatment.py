"""What a line of ``done`` says of a treatment and its label, and of manure.

What of a label cannot be read is told as a warning and counts as not written: the line is
kept, for a notice that protects people must not be lost by a slip of the pen.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from typing import TypeVar

from tallybed.garden.findings import Severity
from tallybed.garden.records.log import SPREADING, WAITED_AFTER, Verb
from tallybed.garden.records.treatment import Manure, Treatment, TreatmentKind, names_manure
from tallybed.reading.base.choices import choice
from tallybed.reading.base.context import Context
from tallybed.reading.base.mappings import Key, KeyedValues
from tallybed.reading.base.problems import Misread, listed, quoted
from tallybed.reading.base.scanners import CURLY, QUOTES_OFF, is_empty, wrong_kind
from tallybed.reading.shapes.common import LINE
from tallybed.reading.text import labels, measures, texts
from tallybed.reading.yaml.nodes import Node, Text

T = TypeVar("T")
_OTHER_KINDS = {
    **dict.fromkeys(("hand", "picked off", "hand picking", "hand-picked", "squashed"), "by hand"),
    **dict.fromkeys(("net", "netting", "row cover", "fleece", "collar", "fence"), "barrier"),
    **dict.fromkeys(("hose", "spray of water", "jet of water", "rinsed", "washed"), "water"),
}
_OTHER_MANURE = {
    **dict.fromkeys(("fresh", "aged", "rotted", "well rotted", "well-rotted", "uncomposted"), "raw"),
    **dict.fromkeys(("no", "without"), "none"),
}
"""What only lay for a while is offered the longer wait."""


def _keys(names: Iterable[str]) -> re.Pattern[str]:
    """Return what finds one of these keys in a text, quoted or not."""
    return re.compile(rf"\b(?:{'|'.join(sorted(names))})[\"']?\s*:", re.IGNORECASE)


_WAITED_AFTER = _keys({*WAITED_AFTER, "manure"})
_SPREADING = _keys(SPREADING - WAITED_AFTER)


def may_tell_wait(text: str) -> bool:
    """Return whether an entry that cannot be read may hold a line that a wait can follow from."""
    return bool(_WAITED_AFTER.search(text) or (_SPREADING.search(text) and names_manure(text)))


def _lenient(scan: Callable[[str], T], expected: str) -> Callable[[Node, Context], T | None]:
    """Return a scanner that tells what it cannot read as a warning, and returns None for it."""

    def scanner(node: Node, context: Context) -> T | None:
        """Read one text; None where it cannot be read."""
        if not isinstance(node, Text) or is_empty(node):
            wrong_kind(node, expected, context)
        try:
            return scan(node.text)
        except Misread as misread:
            context.problems.add(
                node.place,
                misread.code,
                misread.found,
                expected=misread.expected,
                nearest=misread.nearest,
                remedy=f"{QUOTES_OFF}; until then it counts as not written"
                if node.text.strip().startswith(CURLY)
                else "correct it; until then it counts as not written",
                severity=Severity.WARNING,
            )
            return None

    return scanner


def _words(kinds: type[Manure] | type[TreatmentKind]) -> str:
    """Return the words that a key may have."""
    return listed(one.value for one in kinds)


def _kind(text: str) -> TreatmentKind:
    """Read what a treatment without a label is. Raises Misread."""
    return choice(text, {one.value: one for one in TreatmentKind}, "a kind of treatment", _OTHER_KINDS)


def _manure(text: str) -> Manure:
    """Read what of animals is in something; what is not one of the words counts as raw."""
    return choice(text, {one.value: one for one in Manure}, "none, raw or composted", _OTHER_MANURE)


def _product(text: str) -> str:
    """Read an active ingredient. Raises Misread."""
    return labels.refuse_brand(texts.line(text))


PRODUCT = Key("product", _lenient(_product, labels.PRODUCT), labels.PRODUCT)
KIND = Key("kind", _lenient(_kind, _words(TreatmentKind)), _words(TreatmentKind))
WAIT = Key("wait", _lenient(labels.wait, labels.WAIT), labels.WAIT)
NEXT_CROP = Key("next crop", _lenient(measures.yes_no, measures.YES_NO), measures.YES_NO)
RE_ENTRY = Key("re-entry", _lenient(labels.re_entry, labels.RE_ENTRY), labels.RE_ENTRY)
AT = Key("at", _lenient(labels.clock, labels.TIME), labels.TIME)
RATE = Key("rate", LINE, "the label’s rate, such as 2 fl oz per gal")
REGISTRATION = Key("registration", LINE, "the registration number on the label")
WIND = Key("wind", LINE, "the wind, in your words")
TEMPERATURE = Key("temperature", _lenient(labels.temperature, labels.TEMPERATURE), labels.TEMPERATURE)
OF_TREATMENT = (PRODUCT, KIND, WAIT, NEXT_CROP, RE_ENTRY, AT, RATE, REGISTRATION, WIND, TEMPERATURE)
MANURE = Key("manure", _lenient(_manure, _words(Manure)), _words(Manure))
HEAT = Key("heat", LINE, "how the compost’s heat was recorded, such as 15 days at 131 F, turned 5 times")
OF_MANURE = (MANURE, HEAT)


def treatment(row: KeyedValues, verb: Verb) -> Treatment | None:
    """Return what a line says of a treatment, or None where it does not treat; tells keys out of place."""
    if verb is not Verb.TREAT:
        _out_of_place(row, OF_TREATMENT, "a line of “treat”")
        return None
    product = row.get(PRODUCT)
    return Treatment(
        product=product or "",
        kind=row.get(KIND),
        wait=row.get(WAIT),
        next_crop=bool(row.get(NEXT_CROP)),
        reentry=row.get(RE_ENTRY),
        at=row.get(AT),
        rate=row.get(RATE) or "",
        registration=row.get(REGISTRATION) or "",
        wind=row.get(WIND) or "",
        temperature=row.get(TEMPERATURE),
    )


def manure(row: KeyedValues, verb: Verb) -> Manure | None:
    """Return what of animals was put down, or None where not told; tells keys out of place.

    A word that cannot be read counts as raw: the longer wait.
    """
    if verb not in SPREADING:
        _out_of_place(row, OF_MANURE, "a line of “amend”, “feed”, “water” or “cover”")
        return None
    told = row.get(MANURE)
    return Manure.RAW if told is None and row.has(MANURE) else told


def printed(subject: str, told: Treatment | None) -> str:
    """Return what a line is called on the site: its product where told, so that no brand is printed."""
    return told.product if told and told.product else subject


def _out_of_place(row: KeyedValues, keys: tuple[Key[object], ...], where: str) -> None:
    """Warn of keys that mean nothing beside a line's verb."""
    for key in keys:
        if row.has(key):
            row.context.problems.add(
                row.place_of(key),
                "key-of-another-verb",
                f"{quoted(key.name)} means nothing here",
                expected=where,
                severity=Severity.WARNING,
            )
