"""Bars in lines: what shares a square on some day lies beside each other, what is alike in one block."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import date

from tallybed.drawing.season.description import letters_of
from tallybed.garden.squares import Bed
from tallybed.reckoning.calendar.phases import Phase
from tallybed.reckoning.calendar.strips import PlantingStrip


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """Days of a planting in squares that follow each other in bed order."""

    planting: str
    letters: str
    top: int
    bottom: int
    """First and last square, by place in bed order."""
    first: date
    last: date
    lane: int = 0
    of: int = 1
    """Which part of the line it takes, from above, of how many."""
    phases: tuple[Phase, ...] = ()
    lost: bool = False

    def overlaps(self, other: Block) -> bool:
        """Return whether two blocks have a square in common."""
        return self.top <= other.bottom and other.top <= self.bottom


@dataclass(frozen=True, slots=True, kw_only=True)
class Lanes:
    """Every bar of a bed's season in its place."""

    bars: tuple[Block, ...]
    meant: tuple[Block, ...]
    depths: tuple[int, ...]
    """For each square in bed order how many bars lie beside each other at the most, at least 1."""

    def depth(self, index: int) -> int:
        """Return how many bars lie beside each other in a square's line."""
        return self.depths[index]

    def after(self, bar: Block) -> date | None:
        """Return the first day after a bar on which its squares are taken again."""
        return min(
            (each.first for each in self.bars if each.overlaps(bar) and each.first > bar.last), default=None
        )


def lanes(bed: Bed, planting_strips: Iterable[PlantingStrip]) -> Lanes:
    """Return the bars of a bed's season, and the plan's, in their places."""
    places = {square: place for place, square in enumerate(bed.squares)}
    bars: list[Block] = []
    meant: list[Block] = []
    for each in planting_strips:
        letters = letters_of(each)
        for course in each.courses:
            at = places[course.square]
            bars.append(
                Block(
                    planting=each.planting,
                    letters=letters,
                    top=at,
                    bottom=at,
                    first=course.first,
                    last=course.last,
                    phases=course.phases,
                    lost=course.lost,
                )
            )
        for one in each.meant:
            at = places[one.square]
            meant.append(
                Block(
                    planting=each.planting, letters=letters, top=at, bottom=at, first=one.first, last=one.last
                )
            )
    laid, behind = _laid(bars), _laid(meant)
    depths = [1] * len(places)
    for bar in laid:
        depths[bar.top] = max(depths[bar.top], bar.of)
    return Lanes(bars=tuple(_joined(laid)), meant=tuple(_joined(behind)), depths=tuple(depths))


def _laid(blocks: Iterable[Block]) -> list[Block]:
    """Give each block its lane: the first that is free, in order of their days; alone it takes the line."""
    found = []
    by_square: dict[int, list[Block]] = {}
    for block in blocks:
        by_square.setdefault(block.top, []).append(block)
    for here in by_square.values():
        for cluster in _clusters(here):
            ends: list[date] = []
            given = []
            for block in cluster:
                lane = next((lane for lane, end in enumerate(ends) if end < block.first), len(ends))
                ends[lane : lane + 1] = [block.last]
                given.append((block, lane))
            found += [replace(block, lane=lane, of=len(ends)) for block, lane in given]
    return found


def _clusters(blocks: Iterable[Block]) -> Iterator[list[Block]]:
    """Yield the blocks of one square that hang together by their days, in order."""
    cluster: list[Block] = []
    end: date | None = None
    for block in sorted(blocks, key=lambda block: (block.first, block.last, block.planting)):
        if end is not None and block.first > end:
            yield cluster
            cluster, end = [], None
        cluster.append(block)
        end = block.last if end is None else max(end, block.last)
    if cluster:
        yield cluster


def _joined(blocks: Iterable[Block]) -> list[Block]:
    """Join what is alike in squares that follow each other.

    Not what shares its squares: in lanes across them all each planting would seem to
    have squares of its own.
    """
    waiting: dict[tuple[object, ...], Block] = {}
    found: list[Block] = []
    for block in sorted(blocks, key=_order):
        key = (block.planting, block.first, block.last, block.phases, block.lost)
        before = waiting.get(key)
        if before and before.of == block.of == 1 and before.bottom == block.top - 1:
            waiting[key] = replace(before, bottom=block.top)
            continue
        if before:
            found.append(before)
        waiting[key] = block
    found += waiting.values()
    return sorted(found, key=_order)


def _order(block: Block) -> tuple[int, date, str]:
    """Order bars by their upper line, then by day."""
    return block.top, block.first, block.planting
