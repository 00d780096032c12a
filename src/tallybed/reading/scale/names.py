"""What was picked, in a line: crops by any of their names, varieties, tags."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

from tallybed.garden.naming import CropName, folded
from tallybed.reading.base.problems import Misread, listed, quoted
from tallybed.reading.scale.claims import Claim, Kind, Line
from tallybed.reading.scale.destinations import LEADS_TO
from tallybed.reading.scale.vocabulary import KnownVariety, Vocabulary

GREENS = "greens"
TOPPED = frozenset({"beet", "turnip", "radish", "rutabaga", "kohlrabi", "carrot"})
"""Crops whose tops are eaten too: ``beet greens`` are of the beets. Common practice, no source."""
_TAG = re.compile(
    r"(?<![\w/:])(?P<given>tag\s+)?(?P<name>[A-Za-z][A-Za-z0-9]{1,11})(?![\w/:])", re.IGNORECASE
)
_JOINED = re.compile(r"[\s,]*(?:\bof\b)?[\s,(]*")
"""What may stand between the names of one picking, as in ``tomato, Library Red`` and ``toms TO1``."""
_APART = re.compile(r"[;/]|\band\b|&")
"""What parts a name from a tag, where it is no part of a day or a weight: ``okra 2 lb 8/29 OK1``."""
_BOWL = re.compile(
    r"\b(?:mixed\s+bowls?|salad\s+mix|mixed\s+salad|mix|(?:all\s+)?together(?:\s+(?:for|in)\s+(?:one|1|a)\s+bowl)?"
    r"|(?:for|in)\s+(?:one|1|a)\s+bowl|bowl)\b(?:\s+of\b)?",
    re.IGNORECASE,
)
BETWEEN_CROPS = re.compile(r"[\s(]*(?:[,+&/]|\band\b|\bwith\b)?(?:\s*\band\b)?\s*", re.IGNORECASE)
"""What may stand between the crops of one bowl."""
_NEAR = (
    r"(?:(?:right|just)\s+)?(?:next\s+to|near(?:\s+to)?|close\s+to|in\s+front\s+of|(?:left|right)\s+of"
    r"|beside|behind|opposite|alongside|around|between)"
)
_LEAD = re.compile(
    rf"(?<![\w-])(?:{_NEAR}|under(?:neath)?|below|beneath|above|over|by|among(?:st)?|along|past|after|before"
    r"|where|like|(?P<in>out\s+of|from|in))\s+(?:the\s+|our\s+)?$",
    re.IGNORECASE,
)
"""What stands before a crop of which a picking only grew somewhere near: ``beside the basil``."""
_GROUND = re.compile(r"\s+(?:beds?|patch|rows?)\b", re.IGNORECASE)
"""What says behind a crop that it is its ground that is spoken of: ``from the strawberry bed``."""
_SECOND = re.compile(r"\s*(?:\band\b|&)\s*(?:the\s+|our\s+)?", re.IGNORECASE)
"""What stands between the two crops of ``between the kale and the leeks``."""
_SQUARE = r"[A-Za-z]{1,2}[0-9]{1,2}"
_NEAR_SQUARES = re.compile(
    rf"(?<![\w-]){_NEAR}\s+(?:the\s+)?"
    rf"(?:(?:squares?\s+)?{_SQUARE}(?:\s*(?:and|&|[-–:])\s*{_SQUARE})?|[^\W\d_]+\s+bed)(?![\w/:])",
    re.IGNORECASE,
)
"""Squares or a bed that a picking did not grow in: ``next to C2``, ``in front of the long bed``."""
PARTING = re.compile(
    r"\s*[;/]\s*|\s*,\s*(?:and\b\s*)?|\s*\band\b\s*|\s*&\s*|\s*\+\s*|\.\s+|\s+[-–—|]\s+", re.IGNORECASE
)
"""What may part one picking of a line from the next."""


@dataclass(frozen=True, slots=True)
class Named:
    """One name in a line: a crop with what it may mean, or a variety and the crops that have it."""

    typed: str
    slugs: tuple[str, ...]
    variety: KnownVariety | None = None


@lru_cache(maxsize=8)
def _pattern(names: frozenset[str]) -> re.Pattern[str]:
    parts = (
        r"[\s-]+".join(map(re.escape, re.split(r"[\s-]+", name)))
        for name in sorted(names, key=len, reverse=True)
    )
    return re.compile(rf"(?<![\w'-])(?:{'|'.join(parts)})(?:'s)?(?![\w-]|'\w)", re.IGNORECASE)


def find_tags(line: Line, vocabulary: Vocabulary) -> None:
    """Claim the tags of a line. Raises Misread where one is the name of a square too."""
    for match in line.free(_TAG):
        given, name = match.group("given"), match.group("name").upper()
        if not given and name not in vocabulary.tags:
            continue
        if not given and vocabulary.is_somewhere(name):
            other = f"{vocabulary.context.beds.names[0]}/{name}"
            raise Misread("line", f"{name} is both a tag and a square", f"{quoted(f'tag {name}')} or {other}")
        line.claim(Kind.TAG, match.start(), match.end(), name)


def find_names(line: Line, vocabulary: Vocabulary) -> None:
    """Claim the names of crops and varieties, the longest first."""
    known = {*vocabulary.context.names.meanings, *vocabulary.answers, *vocabulary.varieties}
    # A pattern of all of them, some five hundred, takes longer to make than the rest of the line to read.
    whole = line.text.casefold()
    perhaps = frozenset(name for name in known if re.split(r"[\s-]", name, maxsplit=1)[0].casefold() in whole)
    if not perhaps:
        return
    for match in line.free(_pattern(perhaps)):
        if match.group()[0].isupper() and LEADS_TO.search(line.text, 0, match.start()):
            continue  # to Rosemary, to Sunflower Kindergarten
        typed = re.sub(r"'s$", "", match.group())
        slugs, variety = vocabulary.slugs(typed), vocabulary.variety(typed)
        if slugs or variety:
            named = Named(typed, variety[1] if variety else slugs, variety)
            line.claim(Kind.NAME, match.start(), match.end(), named)
    for one, two in pairwise(line.of(Kind.NAME)):
        beside = not line.text[one.end : two.start].strip()
        if beside and folded(two.value.typed) == GREENS and not TOPPED.isdisjoint(one.value.slugs):
            line.claims.remove(two)
            line.claim(Kind.FORM, two.start, two.end, GREENS)


def find_bowl_words(line: Line) -> None:
    """Claim the words that say that several crops lay in one bowl."""
    for match in line.free(_BOWL):
        line.claim(Kind.BOWL, match.start(), match.end())


def leave_neighbours(line: Line) -> None:
    """Leave to the note the crops and squares that only say near what the picked crop grew.

    Not the one crop of a line, and none that has a weight of its own behind it.
    """
    for match in line.free(_NEAR_SQUARES):
        line.claim(Kind.NOTE, match.start(), match.end(), match.group())
    told = line.of(Kind.NAME, Kind.TAG)
    seconds: list[Claim] = []
    led: list[tuple[int, int, Claim]] = []
    for one in told:
        lead = _LEAD.search(line.text, 0, one.start)
        ground = _GROUND.match(line.text, one.end)
        end = ground.end() if ground else one.end
        second = led and _SECOND.fullmatch(line.text, led[-1][1], one.start)
        if second and line.text[led[-1][0] :].casefold().startswith("between"):
            led[-1] = (led[-1][0], end, led[-1][2])
            seconds.append(one)
        elif lead is None or not line.is_free(*lead.span()) or _weighed_behind(line, one):
            continue
        elif ground or not lead["in"]:
            led.append((lead.start(), end, one))
    if len(led) + len(seconds) == len(told):
        return
    for one in seconds:
        line.claims.remove(one)
    for start, end, one in led:
        line.claims.remove(one)
        line.claim(Kind.NOTE, start, end, line.text[start:end].strip())


def _weighed_behind(line: Line, name: Claim) -> bool:
    """Return whether the next thing told behind a name is its weight, and another weight is told before."""
    weights = line.of(Kind.WEIGHT, Kind.UNWEIGHED)
    behind = [
        one for one in line.of(Kind.NAME, Kind.TAG, Kind.WEIGHT, Kind.UNWEIGHED) if one.start > name.start
    ]
    return len(weights) > 1 and bool(behind) and behind[0] in weights


def groups(line: Line) -> list[list[Claim]]:
    """Return the names and tags of a line, those of one and the same picking together."""
    found: list[list[Claim]] = []
    for claim in line.of(Kind.NAME, Kind.TAG):
        if found and _belongs(line, found[-1], claim):
            found[-1].append(claim)
        else:
            found.append([claim])
    return found


def _belongs(line: Line, group: list[Claim], claim: Claim) -> bool:
    """Return whether a name may be said of the same picking as those before it."""
    if _weighed_apart(line, group[-1], claim):
        return False
    if claim.kind is Kind.TAG or all(one.kind is Kind.TAG for one in group):
        tags = [one for one in (*group, claim) if one.kind is Kind.TAG]
        marks = _APART.finditer(line.text, group[-1].end, claim.start)
        return len({one.value for one in tags}) == 1 and not any(line.is_free(*one.span()) for one in marks)
    names: list[Named] = [one.value for one in group if one.kind is Kind.NAME]
    named: Named = claim.value
    if not set.intersection(*(set(one.slugs) for one in (*names, named))):
        return False
    if any((one.variety is None) != (named.variety is None) for one in names):
        between = line.text[group[-1].end : claim.start]
        return _JOINED.fullmatch(between) is not None
    return any(folded(one.typed) == folded(named.typed) for one in names)


def _weighed_apart(line: Line, before: Claim, after: Claim) -> bool:
    """Return whether a mark parts two names, each with a weight of its own: ``kale 6 oz, kale 9 oz``."""
    marks = [one.span() for one in PARTING.finditer(line.text) if line.is_free(*one.span())]
    first = max((end for _start, end in marks if end <= before.start), default=0)
    last = min((start for start, _end in marks if start >= after.end), default=len(line.text))
    return any(
        line.part(first, start).of(Kind.WEIGHT, Kind.UNWEIGHED)
        and line.part(end, last).of(Kind.WEIGHT, Kind.UNWEIGHED)
        for start, end in marks
        if before.end <= start and end <= after.start
    )


def what_told(group: list[Claim], vocabulary: Vocabulary) -> tuple[CropName | None, str, str, str]:
    """Return crop, variety, tag, and what a general name means this season. Raises Misread."""
    tags = sorted({one.value for one in group if one.kind is Kind.TAG})
    if len(tags) > 1:
        raise Misread("line", f"the line names {listed(tags, 'and')}", "one tag in a line")
    names: list[Named] = [one.value for one in group if one.kind is Kind.NAME]
    crops = [one for one in names if one.variety is None]
    varieties = [one for one in names if one.variety is not None]
    tag = "".join(tags)
    if not names:
        return None, "", tag, ""
    variety = varieties[0].variety if varieties else None
    if crops and variety:
        both = tuple(slug for slug in crops[0].slugs if slug in variety[1])
        return CropName(typed=crops[0].typed, slugs=both), variety[0], tag, ""
    if variety:
        return CropName(typed=variety[0], slugs=variety[1]), variety[0], tag, ""
    return CropName(typed=crops[0].typed, slugs=crops[0].slugs), "", tag, vocabulary.answer(crops[0].typed)
