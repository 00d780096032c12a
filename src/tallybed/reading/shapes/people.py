"""``supporters`` of ``garden.yaml``, and ``withdrawn.yaml``: that something was withdrawn, and when."""

from __future__ import annotations

from tallybed.garden.records.people import Supporter, Withdrawn, WithdrawnKind
from tallybed.reading.base.context import Context
from tallybed.reading.base.mappings import Key, Shape, take
from tallybed.reading.base.scanners import chosen, said
from tallybed.reading.shapes.common import NOTE
from tallybed.reading.text import dates, texts
from tallybed.reading.yaml.nodes import Node

FULL_DAY = said(dates.with_year, dates.WITH_YEAR)

WORDS = Key("words", NOTE, "the supporter’s wording, to the letter", required=True)
FROM = Key("from", FULL_DAY, dates.WITH_YEAR)
UNTIL = Key("until", FULL_DAY, dates.WITH_YEAR)
ADDRESS = Key("address", said(texts.address, texts.ADDRESS), texts.ADDRESS)
SUPPORTER = Shape("a supporter", (WORDS, FROM, UNTIL, ADDRESS))


def supporter(node: Node, context: Context) -> Supporter:
    """Read a supporter's wording and the days on which it is shown. Raises LeftOut."""
    row = take(node, SUPPORTER, context)
    first, last = row.get(FROM), row.get(UNTIL)
    if first and last and last < first:
        found = f"the wording is shown until {last}, before its first day {first}"
        row.wrong(UNTIL, "until-before-from", found, remedy="correct one of them")
    row.finish()
    return Supporter(words=row[WORDS], first=first, last=last, address=row.get(ADDRESS) or "")


_OTHER_KINDS = {
    **dict.fromkeys(("photo", "photograph", "image"), "picture"),
    **dict.fromkeys(("log", "text", "note"), "entry"),
    **dict.fromkeys(("person", "someone"), "name"),
}
WHAT = Key(
    "withdrawn",
    chosen({kind.value: kind for kind in WithdrawnKind}, "a kind of thing", _OTHER_KINDS),
    "picture, entry or name",
    True,
)
ON = Key("on", FULL_DAY, dates.WITH_YEAR, required=True)
SEASON = Key("season", said(dates.year, "a year"), "a year such as 2026")
WITHDRAWN = Shape("a withdrawal", (WHAT, SEASON, ON))


def withdrawal(node: Node, context: Context) -> Withdrawn:
    """Read that something was withdrawn. Raises LeftOut."""
    row = take(node, WITHDRAWN, context)
    row.finish()
    return Withdrawn(kind=row[WHAT], day=row[ON], season=row.get(SEASON) or "")
