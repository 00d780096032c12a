"""Drafts found by square and by tag, and which of them a record without a tag can mean."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from typing import NamedTuple

from tallybed.garden.naming import CropName, folded
from tallybed.garden.records.ledger import Weighing
from tallybed.garden.records.log import Event, Verb
from tallybed.garden.records.plan import PlanRow
from tallybed.garden.squares import Square
from tallybed.reckoning.plantings.drafts import PlantingDraft

PaperLine = Event | Weighing
Fits = Callable[[PlantingDraft, Square], tuple[int, ...] | None]


class Claim(NamedTuple):
    """A draft that fits a record in some of its squares, and how well it does at best."""

    fit: tuple[int, ...]
    rank: int
    draft: PlantingDraft
    squares: list[Square]


@dataclass(kw_only=True)
class Field:
    """All drafts of a season, found by square and by tag."""

    general: dict[str, str]
    drafts: list[PlantingDraft] = field(default_factory=list)
    by_square: dict[Square, list[PlantingDraft]] = field(default_factory=dict)
    by_tag: dict[str, PlantingDraft] = field(default_factory=dict)

    def planned(self, plan_row: PlanRow) -> None:
        """Take a row of the plan."""
        name = CropName(typed=plan_row.crop, slugs=(plan_row.crop,))
        draft = self._new(names=(name,), slugs=frozenset(name.slugs), tag=plan_row.tag)
        draft.planned, draft.home = plan_row, frozenset(plan_row.squares)
        self.index(draft, draft.home)

    def unplanned(self, names: Iterable[CropName], tag: str = "") -> PlantingDraft:
        """Make a planting that the records alone know, of the crop they name most narrowly."""
        told = tuple(names)
        return self._new(names=told, slugs=self.meaning(told), tag=tag)

    def meaning(self, names: Iterable[CropName]) -> frozenset[str]:
        """Return the crops that several names of one planting can mean; a season's answer counts last."""
        slugs: frozenset[str] = frozenset()
        for name in names:
            slugs = slugs & frozenset(name.slugs) or slugs or frozenset(name.slugs)
        answers = {self.general.get(folded(name.typed), "") for name in names}
        return frozenset(slugs & answers) or slugs

    def index(self, draft: PlantingDraft, squares: Iterable[Square]) -> None:
        """Make a draft found by squares."""
        for square in squares:
            known = self.by_square.setdefault(square, [])
            if draft not in known:
                known.append(draft)

    def add(self, draft: PlantingDraft, event: Event, squares: Iterable[Square]) -> None:
        """Give a draft a log line with the squares of it that are its own."""
        told = tuple(squares)
        draft.add(event, told)
        self.index(draft, (*told, *event.to))

    def pick(self, draft: PlantingDraft, weighing: Weighing, squares: Iterable[Square]) -> None:
        """Give a draft a weighing with the squares of it that are its own."""
        told = tuple(squares)
        draft.pick(weighing, told)
        self.index(draft, told)

    def claims(self, slugs: frozenset[str], squares: Iterable[Square], fits: Fits) -> list[Claim]:
        """Return the drafts of a crop that fit best in some of the squares, the best first."""
        found: dict[int, Claim] = {}
        for square in sorted(set(squares)):
            best: tuple[tuple[int, ...], PlantingDraft] | None = None
            for draft in self.by_square.get(square, ()):
                if draft.slugs.isdisjoint(slugs):
                    continue
                how = fits(draft, square)
                if how is not None and (best is None or (how, draft.rank) < (best[0], best[1].rank)):
                    best = (how, draft)
            if best is not None:
                how, draft = best
                known = found.get(draft.rank)
                if known is None:
                    found[draft.rank] = Claim(how, draft.rank, draft, [square])
                else:
                    known.squares.append(square)
                    if how < known.fit:
                        found[draft.rank] = known._replace(fit=how)
        return sorted(found.values(), key=lambda claim: claim[:2])

    def _new(self, *, names: tuple[CropName, ...], slugs: frozenset[str], tag: str) -> PlantingDraft:
        """Add a draft to those of the season."""
        draft = PlantingDraft(rank=len(self.drafts), slugs=slugs, names=names, tag=tag)
        self.drafts.append(draft)
        if tag:
            self.by_tag.setdefault(folded(tag), draft)
        return draft


def event_order(event: Event) -> tuple[object, ...]:
    """Sort key of log lines: by day, verb, squares; then by all they say, so that files play no part."""
    return (event.day, _VERBS[event.verb], sorted(event.squares), InFull(event), event.place)


def weighing_order(weighing: Weighing) -> tuple[object, ...]:
    """Sort key of weighings: by day and squares; then by all they say."""
    return (weighing.day, sorted(weighing.squares), InFull(weighing), weighing.place)


class InFull:
    """All that a record says, for sorting; spelled out once, where all before it was the same."""

    __slots__ = ("_record", "_text")

    def __init__(self, record: PaperLine | PlanRow) -> None:
        """Keep the record to be compared."""
        self._record = record
        self._text = ""

    @property
    def text(self) -> str:
        """All fields of the record."""
        self._text = self._text or repr(self._record)
        return self._text

    def __eq__(self, other: object) -> bool:
        """Return whether two records say the same in every field."""
        return isinstance(other, InFull) and self.text == other.text

    def __lt__(self, other: InFull) -> bool:
        """Order records by all their fields."""
        return self.text < other.text

    __hash__ = None  # type: ignore[assignment]  # to sort by, never to find by


_VERBS = {verb: number for number, verb in enumerate(Verb)}
