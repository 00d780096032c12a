"""``tallybed marks``: how to mark out a bed, and what fills it."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from pathlib import Path
from typing import TypeVar

from tallybed.garden.findings import has_errors, sorted_findings
from tallybed.pages.paper import marking_out
from tallybed.pages.tables.plain_text import plain
from tallybed.reading.base.problems import Misread
from tallybed.reading.folder.garden_folder import read
from tallybed.reading.text import measures
from tallybed.tasks.base.errors import UsageError
from tallybed.tasks.base.garden import Answer, bed_called, require_garden
from tallybed.tasks.site.shelf import SeasonShelf

_Measured = TypeVar("_Measured")


def marking_sheet(root: Path, bed: str, *, depth: str = "", bags: Iterable[str] = ()) -> Answer:
    """Return how to mark out a bed and what fills it, as tables.

    ``depth``: of the one layer to reckon, such as ``6 in``; ``bags``: sizes such as
    ``1.5 cu ft``. Raises UsageError where root is not a garden folder, it has no such bed,
    or a size cannot be read; OSError.
    """
    require_garden(root)
    deep = _size(measures.length, depth) if depth else None
    sizes = [marking_out.Bag(words=bag, cubic_feet=_size(measures.volume, bag)) for bag in bags]
    found = read(root, shelf=SeasonShelf(root))
    if found.garden is None:
        return Answer(findings=sorted_findings(found.findings))
    garden = found.garden
    try:
        chosen = bed_called(garden, bed)
    except UsageError:
        if has_errors(found.findings):
            return Answer(findings=sorted_findings(found.findings))
        raise
    filled = (marking_out.FillLayer(name="Fill", depth=deep),) if deep else marking_out.layers(garden.showing)
    shown = marking_out.tables(garden.showing, chosen, filled, sizes)
    return Answer(text="\n\n".join([chosen.title, *map(plain, shown)]) + "\n")


def _size(scan: Callable[[str], _Measured], typed: str) -> _Measured:
    """Return a length or volume as a scanner reads it. Raises UsageError where it cannot be read."""
    try:
        return scan(typed)
    except Misread as misread:
        raise UsageError(misread.sentence) from None
