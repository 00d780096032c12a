"""A season's records held against each other while they are read: tags, and what shares squares."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field, replace

from tallybed.garden.findings import Place, Severity
from tallybed.garden.naming import nearest
from tallybed.garden.records.ledger import Weighing
from tallybed.garden.records.log import INDOORS, STARTING, Entry, Event, Verb
from tallybed.garden.records.plan import PlanRow
from tallybed.garden.squares import Square
from tallybed.reading.base.context import Context
from tallybed.reading.base.problems import LeftOut, quoted
from tallybed.reading.text.texts import is_tag
from tallybed.reading.yaml.nodes import Items, Node, Pairs, Text

MOST_IN_A_SQUARE = 50
"""Plantings that a plan may put into one square. Our choice: each is held against every other there."""
_OR_CARRIED = "correct it; or plan what stood over from an earlier season as `carried from` it"
_BEGINNING = STARTING | INDOORS
"""Verbs that begin a planting, in the bed or indoors, and so give it a tag."""


@dataclass
class SeasonNames:
    """The tags and crops a season speaks of, also in records that were left out."""

    tags: dict[str, Place] = field(default_factory=dict)
    planned: bool = False
    """Whether there is a plan to hold tags against."""
    crops: set[str] = field(default_factory=set)
    whole: bool = True
    """False where some of it could not be read: what is unknown may stand in that."""

    def add_plan(self, node: Node | None, context: Context, *, broken: bool = False) -> None:
        """Take note of tags and crops in the plan, and tell of a tag that stands there twice.

        ``broken``: whether any of its rows was left out.
        """
        self.planned = True
        self.whole = not broken or all(_is_named(row, ("crop",), context) for row in _rows(node))
        for pairs in _mappings(node):
            tag = pairs.get("tag")
            name = _tag(tag)
            if name and tag is not None:
                first = self.tags.setdefault(name, tag.place)
                if first is not tag.place:
                    context.problems.add(
                        tag.place,
                        "duplicate-tag",
                        f"the tag {name} stands here a second time; the first is on line {first.line}",
                        expected="a tag of its own for each planting",
                    )
            self._crop(pairs.get("crop"), context)

    def add_done(self, node: Node | None, context: Context, *, broken: bool = False) -> None:
        """Take note of tags and crops in an entry's ``done``; what starts a planting gives it a tag.

        ``broken``: whether anything in the entry could not be read.
        """
        if broken:
            self.whole = self.whole and all(_names_nothing_hidden(row, context) for row in _rows(node))
        for pairs in _mappings(node):
            starters = [name for name, _value in pairs.pairs if name.text in _BEGINNING]
            tag = pairs.get("tag")
            name = _tag(tag)
            if starters and name and tag is not None:
                self.tags.setdefault(name, tag.place)
            for verb in starters:
                self._crop(pairs.get(verb.text), context)

    def _crop(self, node: Node | None, context: Context) -> None:
        """Take note of every crop that a name can mean."""
        if isinstance(node, Text):
            self.crops.update(context.slugs(node.text))

    def near(self, text: str, context: Context) -> str:
        """Return the tag, or the crop's name, most like a text."""
        near = nearest(text, self.tags)
        if near:
            return near
        slugs = context.slugs(context.names.nearest(text))
        return next((slug for slug in slugs if slug in self.crops), "")


def _is_named(row: Node, keys: Iterable[str], context: Context) -> bool:
    """Return whether a row that was left out still tells its tag, and a known crop by one of the keys."""
    if not isinstance(row, Pairs):
        return False
    tag, told = row.get("tag"), map(row.get, keys)
    crops = (context.slugs(node.text) for node in told if isinstance(node, Text))
    return isinstance(tag, Text) and is_tag(tag.text) and any(crops)


def _names_nothing_hidden(row: Node, context: Context) -> bool:
    """Return whether a line of the log gives no name that others may use, or one that can be read."""
    if not isinstance(row, Pairs):
        return False
    verbs = [verb for verb in Verb if row.get(verb) is not None]
    return (bool(verbs) and _BEGINNING.isdisjoint(verbs)) or _is_named(row, verbs, context)


def _rows(node: Node | None) -> tuple[Node, ...]:
    """Return what stands in a list, or the one thing that stands alone."""
    return node.items if isinstance(node, Items) else (node,) if node is not None else ()


def _mappings(node: Node | None) -> Iterator[Pairs]:
    """Return the mappings of a list, or the one that stands alone."""
    return (each for each in _rows(node) if isinstance(each, Pairs))


def _tag(node: Node | None) -> str:
    """Return a tag in capitals, empty where there is none."""
    return node.text.strip().upper() if isinstance(node, Text) else ""


def planned(plan: Iterable[PlanRow], known: SeasonNames, context: Context) -> tuple[PlanRow, ...]:
    """Return the plan with ``among`` made out; a row whose partner cannot be found is told and left out."""
    found: list[PlanRow] = []
    tags: set[str] = set()
    held: Counter[Square] = Counter()
    for plan_row in plan:
        if plan_row.tag in tags:
            continue  # a second one of that tag, told already
        held.update(plan_row.squares)
        crowded = next((one for one in plan_row.squares if held[one] > MOST_IN_A_SQUARE), None)
        if crowded is not None:
            context.problems.add(
                context.problems.spot(plan_row.place, "squares"),
                "crowded-square",
                f"over {MOST_IN_A_SQUARE} plantings of this season’s plan are to stand in {crowded}",
                expected=f"{MOST_IN_A_SQUARE} at most",
                remedy="take out those that were never meant",
            )
            continue
        if plan_row.tag:
            tags.add(plan_row.tag)
        try:
            found.append(
                replace(plan_row, among=_among(plan_row.among, plan_row.tag, plan_row.place, known, context))
            )
        except LeftOut:
            continue
    return tuple(found)


def logged(entries: Iterable[Entry], known: SeasonNames, context: Context) -> tuple[Entry, ...]:
    """Return entries with ``among`` made out, in order of day and name; tells of tags that nobody gave."""
    by_name: dict[tuple[object, str], Entry] = {}
    for entry in sorted(entries, key=lambda each: (each.day, each.slug, each.place)):
        first = by_name.setdefault((entry.day, entry.slug), entry)
        if first is not entry:
            context.problems.add(
                entry.place,
                "duplicate-entry",
                f"a second entry of {entry.day} is called {quoted(entry.slug)}, after {first.place.file}",
                expected="a file name of its own for each entry, in letters a to z and digits",
            )
    _tell_identities(by_name.values(), context)
    for entry in by_name.values():
        for photo in entry.photos:
            for one in photo.shows:
                if one.tag and known.whole and one.tag not in known.tags:
                    _tell_tag(one.tag, photo.place, known, context, key="shows")
    return tuple(replace(entry, done=_events(entry.done, known, context)) for entry in by_name.values())


def _tell_identities(entries: Iterable[Entry], context: Context) -> None:
    """Tell of entries that feeds and calendars could not tell apart."""
    by_identity: dict[str, Entry] = {}
    for entry in entries:
        first = by_identity.setdefault(entry.known_as, entry)
        if first is not entry:
            one, other = (first, entry) if first.identity else (entry, first)
            context.problems.add(
                context.problems.spot(one.place, "identity"),
                "duplicate-identity",
                f"the entry is known as {quoted(one.known_as)}, and so is {other.place.file}",
                expected="an identity of its own for each entry",
            )


def _events(done: Iterable[Event], known: SeasonNames, context: Context) -> tuple[Event, ...]:
    """Return events with ``among`` made out; one whose partner cannot be found is told and left out."""
    found: list[Event] = []
    for event in done:
        if event.tag and known.whole and event.tag not in known.tags:
            _tell_tag(event.tag, event.place, known, context)
        try:
            found.append(replace(event, among=_among(event.among, event.tag, event.place, known, context)))
        except LeftOut:
            continue
    return tuple(found)


def weighed(ledger: Iterable[Weighing], known: SeasonNames, context: Context) -> tuple[Weighing, ...]:
    """Return the ledger without rows that say what was picked by a tag alone that nobody gave."""
    found: list[Weighing] = []
    for weighing in ledger:
        strange = weighing.tag and known.whole and weighing.tag not in known.tags
        if strange and not weighing.crops:
            context.problems.add(
                context.problems.spot(weighing.place, "tag"),
                "unknown-tag",
                f"no planting has the tag {weighing.tag}",
                expected="a tag of the season’s plan or log, or the key crop",
                nearest=nearest(weighing.tag, known.tags),
                remedy=_OR_CARRIED,
            )
            continue
        if strange:
            _tell_tag(weighing.tag, weighing.place, known, context)
        found.append(weighing)
    return tuple(found)


def _tell_tag(tag: str, place: Place, known: SeasonNames, context: Context, *, key: str = "tag") -> None:
    """Warn of a tag that no planting has."""
    where = "the plan or a sowing in the log" if known.planned else "a sowing in the log"
    context.problems.add(
        context.problems.spot(place, key),
        "tag-not-in-plan",
        f"no planting has the tag {tag}",
        expected=f"a tag of {where}",
        nearest=nearest(tag, known.tags),
        remedy=_OR_CARRIED,
        severity=Severity.WARNING,
    )


def _among(text: str, own: str, place: Place, known: SeasonNames, context: Context) -> str:
    """Return the tag or crop slug that a text names, among those the season speaks of. Raises LeftOut."""
    if not text:
        return ""
    if context.problems.full(place.file):  # nobody is told more, and each is held against all tags
        raise LeftOut
    place = context.problems.spot(place, "among")
    tag = text.upper()
    if tag in known.tags:
        if tag == own:
            context.problems.add(
                place, "among-itself", f"the planting {own} stands among itself", expected="another tag"
            )
            raise LeftOut
        return tag
    slugs = [slug for slug in context.slugs(text) if slug in known.crops]
    if len(slugs) == 1:
        return slugs[0]
    if slugs:
        found = f"{quoted(text)} may mean several crops of this season"
        context.problems.add(place, "general-crop", found, expected=context.one_of(slugs))
    elif known.whole and context.crops_whole:
        found = f"no tag or crop of this season is called {quoted(text)}, so nothing can stand among it"
        expected = "a tag, or a crop, of the season’s plan or log"
        context.problems.add(
            place, "among-unknown", found, expected=expected, nearest=known.near(text, context)
        )
    raise LeftOut
