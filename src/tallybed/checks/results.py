"""What a check gives: findings, each with the record that may silence it, and how they name a planting."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator
from datetime import date

from tallybed.garden.findings import Finding, Place, Severity
from tallybed.garden.naming import CropName, folded
from tallybed.garden.plurals import in_plural
from tallybed.garden.records.ledger import Weighing
from tallybed.garden.records.log import STARTING, Verb
from tallybed.garden.records.plan import PlanRow, Start
from tallybed.garden.squares import Square
from tallybed.reckoning.plantings.drafts import takes_all
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.year import Year

SilencingRecord = PlanRow | Weighing
"""A record that can silence a finding."""
CheckResult = tuple[SilencingRecord | None, Finding]
"""A finding, and the record whose ``silence`` may keep it quiet."""


AFTER = 3
"""Days after clearing within which a weighing still belongs to the clearing (common practice, no source)."""

MISSED = 21
"""Days behind the plan from which a planting nobody recorded is taken for forgotten. Our choice."""

PICKED_THEN = "`date:` is the day it was picked; a later one on which it was weighed is `weighed:`"
"""What to do where a weight is not fresh, and its day is after the planting's end."""
NAMES = "names.yaml"
"""Where a season's answers stand for what general names mean."""

Check = Callable[[Year], Iterator[CheckResult]]
"""A check: looks at one thing in a year and yields what it finds."""


def called(year: Year, planting: Planting) -> str:
    """Return how a finding names a planting: its tag and the crop's everyday name."""
    slug = planting.crop.slug
    name = year.garden.crop(slug).name if slug else planting.crop.typed
    return f"{planting.tag} ({name})" if planting.tag else name


def as_said(year: Year, name: CropName) -> str:
    """Return how a finding repeats a record's name of a crop: as typed, a short name as the crop's own."""
    return year.garden.crop(name.slug).name if name.slug and name.typed == name.slug else name.typed


def is_answered(year: Year, name: CropName) -> bool:
    """Return whether an answer of the season says which crop a general name means."""
    answered = {in_plural(each) for each, _slug in year.season.general}
    return name.slug is not None and in_plural(folded(name.typed)) in answered


def stood_before(planting: Planting) -> bool:
    """Return whether something stood before the log's first start: carried over, or what was sown again."""
    if planting.planned is not None and planting.planned.start is Start.CARRIED:
        return True
    starts = [event.verb for event, _squares in planting.lines if event.verb in STARTING]
    return starts[:1] == [Verb.RESOW]


def gone_since(year: Year, planting: Planting, squares: tuple[Square, ...] = ()) -> date | None:
    """Return the day on which the log ended the last of a planting; None where some of it may stand.

    At once or square by square, also where it was moved before. What was begun again stands.
    ``squares``: what of it stood there alone; none of them is all of it. Several checks ask it of each
    weighing, so it is found once for a planting and squares.
    """
    return year.kept(("gone", planting.key, squares), lambda: _gone_since(planting, squares))


def _gone_since(planting: Planting, squares: Collection[Square]) -> date | None:
    """Work out what ``gone_since`` keeps."""
    begun: dict[Square, date] = {}
    ended: dict[Square, date] = {}
    for event, own in planting.lines:
        here = own or planting.squares
        if event.verb in STARTING:
            begun |= dict.fromkeys(here, event.day)
        elif takes_all(event):
            ended |= dict.fromkeys(here, event.day)
        begun |= dict.fromkeys(event.to, event.day)
    stood = squares or planting.home.union(begun)
    over = all(square in ended and begun.get(square, date.min) < ended[square] for square in stood)
    return max((ended[square] for square in stood), default=None) if over else None


def is_overdue(year: Year, planting: Planting) -> bool:
    """Return whether a planting's day is long past and no record speaks of it, though there is a log."""
    row = planting.planned
    if year.season.log is None or row is None or row.start is Start.CARRIED:
        return False
    return not (planting.events or planting.weighings) and (year.today - row.begins).days >= MISSED


def advice(place: Place, code: str, found: str, *, expected: str = "", remedy: str = "") -> Finding:
    """Return a finding worth knowing."""
    return Finding(
        place=place, code=code, severity=Severity.ADVICE, found=found, expected=expected, remedy=remedy
    )


def warning(place: Place, code: str, found: str, *, expected: str = "", remedy: str = "") -> Finding:
    """Return a finding that is likely a mistake or a loss."""
    return Finding(
        place=place, code=code, severity=Severity.WARNING, found=found, expected=expected, remedy=remedy
    )
