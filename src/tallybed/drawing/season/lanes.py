"""Bars in lines: what shares a square on some day lies beside each other, what is alike in one block."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import date

from tallybed.drawing.bedmap.view import letters_of
from tallybed.garden.crops import everyday
from tallybed.garden.grouping import grouped
from tallybed.garden.squares import Bed, Square
from tallybed.reckoning.calendar.phases import Phase
from tallybed.reckoning.calendar.strips import PlantingStrip


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """Days of a planting in squares that follow each other in bed order."""

    planting: str
    name: str
    letters: str
    top: int
    bottom: int
    """First and last line."""
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
    lines: tuple[tuple[Square, ...], ...]
    """The squares of each line, in bed order: those that follow each other and have the same story."""
    depths: tuple[int, ...]
    """For each line how many bars lie beside each other at the most, at least 1."""

    def depth(self, index: int) -> int:
        """Return how many bars lie beside each other in a line."""
        return self.depths[index]

    def squares(self, block: Block) -> tuple[Square, ...]:
        """Return the squares of a block."""
        return tuple(square for line in self.lines[block.top : block.bottom + 1] for square in line)

    def after(self, bar: Block) -> date | None:
        """Return the first day after a bar on which its squares are taken again."""
        return min(
            (each.first for each in self.bars if each.overlaps(bar) and each.first > bar.last), default=None
        )


def lanes(bed: Bed, planting_strips: Iterable[PlantingStrip]) -> Lanes:
    """Return the bars of a bed's season, and the plan's, in their places."""
    every = tuple(planting_strips)
    lines = _lines(bed, every)
    firsts = {line[0]: place for place, line in enumerate(lines)}
    bars: list[Block] = []
    meant: list[Block] = []
    for each in every:
        for course in each.courses:
            if course.square in firsts:
                block = _block(each, firsts[course.square], course.first, course.last)
                bars.append(replace(block, phases=course.phases, lost=course.lost))
        there = (one for one in each.meant if one.square in firsts)
        meant += [_block(each, firsts[one.square], one.first, one.last) for one in there]
    laid, behind = _laid(bars), _laid(meant)
    depths = [1] * len(lines)
    for bar in laid:
        depths[bar.top] = max(depths[bar.top], bar.of)
    return Lanes(bars=tuple(_joined(laid)), meant=tuple(_joined(behind)), lines=lines, depths=tuple(depths))


def _block(of: PlantingStrip, line: int, first: date, last: date) -> Block:
    """Return days of a planting in one line."""
    return Block(
        planting=of.planting,
        name=everyday(of.name, of.kind),
        letters=letters_of(of),
        top=line,
        bottom=line,
        first=first,
        last=last,
    )


def _lines(bed: Bed, planting_strips: Iterable[PlantingStrip]) -> tuple[tuple[Square, ...], ...]:
    """Return the bed's squares, those together that follow each other in a row and have the same story.

    So plantings that share several squares are drawn in them once.
    """
    stories: dict[Square, list[tuple[object, ...]]] = {square: [] for square in bed.squares}
    for each in planting_strips:
        for course in each.courses:
            stories.setdefault(course.square, []).append((each.planting, course.phases, course.lost))
        for one in each.meant:
            stories.setdefault(one.square, []).append((each.planting, one.first, one.last))
    lines: list[list[Square]] = []
    for square in bed.squares:
        last = lines[-1][-1] if lines else None
        if last and last.row == square.row and stories[last] == stories[square]:
            lines[-1].append(square)
        else:
            lines.append([square])
    return tuple(map(tuple, lines))


def _laid(blocks: Iterable[Block]) -> list[Block]:
    """Give each block its lane: the first that is free, in order of their days; alone it takes the line."""
    found = []
    by_square = grouped(blocks, lambda block: block.top)
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
