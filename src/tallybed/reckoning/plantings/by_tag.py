"""Records with a tag, matched to the planting of that tag."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from tallybed.garden.naming import folded
from tallybed.garden.records.ledger import Weighing
from tallybed.garden.records.log import CROP_VERBS, INDOORS, STARTING, Event
from tallybed.garden.squares import Square
from tallybed.reckoning.plantings.candidates import Field, PaperLine
from tallybed.reckoning.plantings.drafts import PlantingDraft
from tallybed.reckoning.plantings.scores import fit, start_reach


def place_tagged(ground: Field, events: list[Event], weighings: list[Weighing]) -> None:
    """Give every record that has a tag to the planting of that tag.

    A tag without a crop that neither the plan nor another record tells concerns none.
    """
    groups: dict[str, tuple[list[Event], list[Weighing]]] = {}
    for event in events:
        if event.tag:
            groups.setdefault(folded(event.tag), ([], []))[0].append(event)
    for weighing in weighings:
        if weighing.tag:
            groups.setdefault(folded(weighing.tag), ([], []))[1].append(weighing)

    def first_day(tag: str) -> tuple[date, str]:
        """Order tags by the day of their first record."""
        records: list[PaperLine] = [*groups[tag][0], *groups[tag][1]]
        return (min(record.day for record in records), tag)

    for tag in sorted(groups, key=first_day):
        lines, picks = groups[tag]
        draft = ground.by_tag.get(tag) or _known_by_tag(ground, lines, picks)
        if draft is None:
            continue
        for event in sorted(lines, key=lambda event: event.verb not in STARTING):
            ground.add(draft, event, _own(draft, event))
        for weighing in picks:
            ground.pick(draft, weighing, weighing.squares)


def _own(draft: PlantingDraft, event: Event) -> Iterable[Square]:
    """Return the squares of a tagged line that are the planting's.

    Care is often given to a whole bed at once; it does not put a planting where it is not.
    """
    if event.verb in CROP_VERBS:
        return event.squares
    return draft.squares.intersection(event.squares) or event.squares


def _known_by_tag(ground: Field, lines: list[Event], picks: list[Weighing]) -> PlantingDraft | None:
    """Return the draft for a tag the plan does not know: a planting without one that fits, or a new one."""
    names = [event.crop for event in lines if event.crop]
    names += [weighing.crops[0] for weighing in picks if len(weighing.crops) == 1]
    if not names:
        return None
    tag = (lines or picks)[0].tag
    draft = _without_tag(ground, ground.meaning(names), lines, picks)
    if draft is None:
        return ground.unplanned(names, tag)
    draft.tag = tag
    ground.by_tag[folded(tag)] = draft
    return draft


def _without_tag(
    ground: Field, slugs: frozenset[str], lines: list[Event], picks: list[Weighing]
) -> PlantingDraft | None:
    """Return the planned draft without a tag that the first record of an unknown tag fits best, or None."""
    free = {draft.rank for draft in ground.drafts if draft.planned and not draft.tag}
    starts = [event for event in lines if event.verb in STARTING and event.squares]
    records: list[PaperLine] = [*lines, *picks]
    others = [record for record in records if record.squares and not _indoor(record)]

    def fits(draft: PlantingDraft, square: Square) -> tuple[int, ...] | None:
        """Return how well an untagged draft fits in a square, the lowest best; None where it does not."""
        if draft.rank not in free:
            return None
        if starts:
            return start_reach(draft, square, starts[0])
        return fit(draft, square, others[0].day)

    squares = starts[0].squares if starts else others[0].squares if others else ()
    claims = ground.claims(slugs, squares, fits) if free else []
    return claims[0].draft if claims else None


def _indoor(record: PaperLine) -> bool:
    """Return whether a record is of work indoors."""
    return isinstance(record, Event) and record.verb in INDOORS
