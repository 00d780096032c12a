"""Rows of a spreadsheet held against those taken from it before: what is new, known, or corrected since.

Two equal rows are two weighings, so rows are counted: three of a kind where two were
taken are one new one. A row that was taken and is no longer there, where another much
like it is, was corrected; it is never taken for a new one. Where another is only a
little like it, nobody can tell a correction from a new row beside a deleted one: that
is for somebody to say.
"""

from __future__ import annotations

from bisect import bisect_left
from collections import Counter
from collections.abc import Collection, Hashable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from difflib import SequenceMatcher
from itertools import combinations

from tallybed.garden.grouping import grouped
from tallybed.garden.naming import folded
from tallybed.garden.records.ledger import Weighing
from tallybed.garden.records.pickings import SheetRow
from tallybed.reckoning.plantings.plantings import Planting

MAIN = ("date", "what", "weight")
"""What makes a weighing; of two of these alike, it is likely the same one."""
_WHAT = ("crop", "variety", "tag")
OVERLAP = 2
"""One row in so many that was taken under another name makes a file look like that one. Our choice."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Compared:
    """A spreadsheet's rows, by their places in it from 0, after they were held against those taken."""

    new: tuple[int, ...]
    known: tuple[int, ...]
    changed: Mapping[int, SheetRow]
    """Place of a corrected row, and the row as it was taken."""
    unsure: Mapping[int, SheetRow]
    """Place of a row that may be new or a taken one corrected, and the one it is most like; that is gone."""
    gone: tuple[SheetRow, ...]
    """Rows that were taken and are no longer in the file, in order; those that were corrected aside."""


def compared(
    rows: Sequence[SheetRow],
    taken: Sequence[SheetRow],
    *,
    part: bool = False,
    lost: Collection[str] = (),
) -> Compared:
    """Hold a file's rows against those taken from it.

    ``part``: the file holds some of the rows alone, so that a missing one says nothing.
    ``lost``: meanings of cells that the file has no column for any more; they make no difference.
    A file that holds none of the rows taken from it was begun anew: its rows are new
    unless much speaks for a correction.
    """
    before = taken
    rows, taken = [_by_value(row) for row in rows], [_by_value(row, lost) for row in taken]
    left: dict[tuple[tuple[str, str], ...], list[int]] = {}
    for place, row in enumerate(taken):
        left.setdefault(row.cells, []).append(place)
    known, open_rows = [], []
    for place, row in enumerate(rows):
        if left.get(row.cells):
            left[row.cells].pop(0)
            known.append(place)
        else:
            open_rows.append(place)
    missing = [] if part else sorted(place for places in left.values() for place in places)
    pairs = _changed(rows, taken, open_rows, missing)
    # In a file begun anew the same crop and weight on another day is as likely another picking.
    doubtful = (
        {} if known else {new: old for new, old in pairs.items() if _apart_in_day(rows[new], taken[old])}
    )
    pairs = {new: old for new, old in pairs.items() if new not in doubtful}
    paired = set(pairs.values())
    gone = [old for old in missing if old not in paired]
    open_rows = [place for place in open_rows if place not in pairs]
    unsure = _unsure(rows, taken, open_rows, gone) if known or pairs else doubtful
    return Compared(
        new=tuple(place for place in open_rows if place not in unsure),
        known=tuple(known),
        changed={place: before[old] for place, old in pairs.items()},
        unsure={place: before[old] for place, old in unsure.items()},
        gone=tuple(before[old] for old in gone),
    )


def _by_value(row: SheetRow, lost: Collection[str] = ()) -> SheetRow:
    """Return a row with the values of its cells in their place, however they were spelt; without the lost."""
    return SheetRow(number=row.number, cells=tuple(cell for cell in row.by_value if cell[0] not in lost))


def _apart_in_day(row: SheetRow, old: SheetRow) -> bool:
    """Return whether two rows are of different days."""
    return row.get("date") != old.get("date")


def _changed(
    rows: Sequence[SheetRow], taken: Sequence[SheetRow], open_rows: Sequence[int], gone: Sequence[int]
) -> dict[int, int]:
    """Pair rows that are not known with taken ones that are gone, the most alike first."""
    if not open_rows or not gone:
        return {}
    kept_up = 2 * (len(taken) - len(gone)) >= len(taken)
    # A file with little left of what was taken from it was begun anew: places in it mean nothing.
    instead = _in_place_of(rows, taken) if kept_up else set()
    pairs = []
    for place, old in _worth_a_look(rows, taken, open_rows, gone, instead):
        beside = (place, old) in instead
        alike = _alike(rows[place], taken[old], in_its_place=beside)
        if alike:
            pairs.append((-alike, not beside, abs(place - old), place, old))
    found: dict[int, int] = {}
    used: set[int] = set()
    for _alikeness, _beside, _off, place, old in sorted(pairs):
        if place not in found and old not in used:
            found[place] = old
            used.add(old)
    return found


def _worth_a_look(
    rows: Sequence[SheetRow],
    taken: Sequence[SheetRow],
    open_rows: Sequence[int],
    gone: Sequence[int],
    instead: Collection[tuple[int, int]],
) -> set[tuple[int, int]]:
    """Return the pairs that can be alike at all: holding every row against every other takes too long."""
    by_trait: dict[Hashable, list[int]] = {}
    for old in gone:
        for trait in _traits(taken[old]):
            by_trait.setdefault(trait, []).append(old)
    at, among = set(open_rows), set(gone)
    found = {(place, old) for place, old in instead if place in at and old in among}
    for place in open_rows:
        for trait in _traits(rows[place]):
            found.update((place, old) for old in by_trait.get(trait, ()))
    return found


def _traits(row: SheetRow) -> Iterator[Hashable]:
    """Yield what a row and its correction have in common, in each way that ``_alike`` knows: see there."""
    main = _main(row)
    if main["date"]:
        yield from ((main["date"], key, main[key]) for key in MAIN[1:] if main[key])
    yield tuple(pair for pair in row.cells if pair[0] != "date")


def _unsure(
    rows: Sequence[SheetRow], taken: Sequence[SheetRow], open_rows: Sequence[int], gone: Sequence[int]
) -> dict[int, int]:
    """Return for each row that shares anything of ``MAIN`` with one that is gone the one it is most like."""
    shares = [keys for number in (2, 1) for keys in combinations(MAIN, number)]
    by_share: dict[Hashable, list[int]] = {}
    for old in gone:
        main = _main(taken[old])
        for keys in shares:
            if all(main[key] for key in keys):
                by_share.setdefault((keys, *(main[key] for key in keys)), []).append(old)
    found = {}
    for place in open_rows:
        main = _main(rows[place])
        for keys in shares:
            like = by_share.get((keys, *(main[key] for key in keys)))
            if like:
                at = bisect_left(like, place)
                found[place] = min(like[max(0, at - 1) : at + 1], key=lambda old: abs(old - place))
                break
    return found


def _in_place_of(rows: Sequence[SheetRow], taken: Sequence[SheetRow]) -> set[tuple[int, int]]:
    """Return the pairs of a row and a taken one that stand between the same neighbours."""
    number: dict[tuple[tuple[str, str], ...], int] = {}  # numbers are compared sooner than rows
    before, now = ([number.setdefault(row.cells, len(number)) for row in side] for side in (taken, rows))
    matcher = SequenceMatcher(None, before, now, autojunk=False)
    found = set()
    for kind, first, last, new_first, new_last in matcher.get_opcodes():
        if kind == "replace":
            for step in range(max(last - first, new_last - new_first)):
                old = min(first + step, last - 1)
                found.add((min(new_first + step, new_last - 1), old))
    return found


def _alike(row: SheetRow, old: SheetRow, *, in_its_place: bool) -> int:
    """Return how much speaks for a row being a taken one, corrected; nothing where too little does."""
    one, other = _main(row), _main(old)
    same = sum(bool(one[key]) and one[key] == other[key] for key in MAIN)
    rest = dict(row.cells).items() ^ dict(old.cells).items()
    apart = len({key for key, _text in rest})
    enough = same >= (1 if in_its_place else 2)
    if _apart_in_day(row, old) and not in_its_place:
        enough = apart == 1  # the same crop and weight on another day are mostly another picking
    return 10 * same + max(0, 9 - apart) if enough else 0


def _main(row: SheetRow) -> dict[str, str]:
    """Return what tells a row apart: its day, what was picked, and the weight."""
    return {
        "date": row.get("date"),
        "what": " ".join(row.get(key) for key in _WHAT).strip(),
        "weight": row.get("weight"),
    }


def same_file(rows: Sequence[SheetRow], taken: Mapping[str, Sequence[SheetRow]]) -> str:
    """Return the other file from which most of these rows were taken, or an empty text.

    A renamed copy would else be taken in a second time.
    """
    best = ("", 0)
    for name in sorted(taken):
        common = _common(rows, taken[name])
        if common and common * OVERLAP >= min(len(rows), len(taken[name])) and common > best[1]:
            best = (name, common)
    return best[0]


def _common(rows: Iterable[SheetRow], taken: Iterable[SheetRow]) -> int:
    """Return how many rows both have, each counted as often as both have it."""
    both = Counter(row.by_value for row in rows) & Counter(row.by_value for row in taken)
    return both.total()


class Likenesses:
    """Weighings of a ledger, found by those that may be the same: of one day, weight and crop.

    A row that tells its planting by tag alone is of that planting's crop; one that tells a
    general name may be of any crop of that name.
    """

    def __init__(self, ledger: Iterable[Weighing], plantings: Iterable[Planting]) -> None:
        """Sort the ledger's rows by day and weight."""
        self._tagged = {folded(planting.tag): planting.crop.slugs for planting in plantings if planting.tag}
        self._found = grouped(ledger, lambda one: (one.day, one.weight))

    def of(self, weighing: Weighing) -> Weighing | None:
        """Return the first that may be the same one, or None."""
        crops = self._crops(weighing)
        near = self._found.get((weighing.day, weighing.weight), ())
        return next((one for one in near if not crops.isdisjoint(self._crops(one))), None)

    def _crops(self, weighing: Weighing) -> frozenset[str]:
        """Return the crops a row of the ledger can be of: as it says, else by its tag."""
        told = frozenset(slug for crop in weighing.crops for slug in crop.slugs)
        return told or frozenset(self._tagged.get(folded(weighing.tag), ()))
