"""Rows of a spreadsheet held against those taken from it before: what is new, known, or corrected since.

Two equal rows are two weighings, so rows are counted: three of a kind where two were
taken are one new one. A row that was taken and is no longer there, where another much
like it is, was corrected; it is never taken for a new one.
"""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from difflib import SequenceMatcher

from tallybed.garden.pickings import SheetRow
from tallybed.garden.records import Weighing

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


def compared(rows: Sequence[SheetRow], taken: Sequence[SheetRow], *, part: bool = False) -> Compared:
    """Hold a file's rows against those taken from it.

    ``part``: the file holds some of the rows alone, so that a missing one says nothing.
    """
    left: dict[tuple[tuple[str, str], ...], list[int]] = {}
    for place, row in enumerate(taken):
        left.setdefault(row.told, []).append(place)
    known, open_rows = [], []
    for place, row in enumerate(rows):
        if left.get(row.told):
            left[row.told].pop(0)
            known.append(place)
        else:
            open_rows.append(place)
    gone = sorted(place for places in left.values() for place in places)
    changed = {} if part else _changed(rows, taken, open_rows, gone)
    return Compared(
        new=tuple(place for place in open_rows if place not in changed),
        known=tuple(known),
        changed=changed,
    )


def _changed(
    rows: Sequence[SheetRow], taken: Sequence[SheetRow], open_rows: Sequence[int], gone: Sequence[int]
) -> dict[int, SheetRow]:
    """Pair rows that are not known with taken ones that are gone, the most alike first."""
    if not open_rows or not gone:
        return {}
    kept_up = 2 * (len(taken) - len(gone)) >= len(taken)
    # A file with little left of what was taken from it was begun anew: places in it mean nothing.
    instead = _in_place_of(rows, taken) if kept_up else set()
    pairs = []
    for place in open_rows:
        for old in gone:
            beside = (place, old) in instead
            alike = _alike(rows[place], taken[old], in_its_place=beside)
            if alike:
                pairs.append((-alike, not beside, abs(place - old), place, old))
    found: dict[int, SheetRow] = {}
    used: set[int] = set()
    for _alikeness, _beside, _off, place, old in sorted(pairs):
        if place not in found and old not in used:
            found[place] = taken[old]
            used.add(old)
    return found


def _in_place_of(rows: Sequence[SheetRow], taken: Sequence[SheetRow]) -> set[tuple[int, int]]:
    """Return the pairs of a row and a taken one that stand between the same neighbours."""
    matcher = SequenceMatcher(None, [row.told for row in taken], [row.told for row in rows], autojunk=False)
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
    rest = dict(row.told).items() ^ dict(old.told).items()
    apart = len({key for key, _text in rest})
    enough = same >= (1 if in_its_place else 2)
    if one["date"] != other["date"] and not in_its_place:
        enough = apart == 1  # the same crop and weight on another day are mostly another picking
    return 10 * same + max(0, 9 - apart) if enough else 0


def _main(row: SheetRow) -> dict[str, str]:
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
    left = [row.told for row in taken]
    count = 0
    for row in rows:
        if row.told in left:
            left.remove(row.told)
            count += 1
    return count


def likeness(weighing: Weighing) -> Hashable:
    """Return what two weighings share that may be one: day, crops and weight."""
    slugs = tuple(sorted(slug for crop in weighing.crops for slug in crop.slugs))
    return (weighing.day, slugs, weighing.weight)
