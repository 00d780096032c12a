"""Sentences that stand on more than one page, and how counts, lists and days are worded."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from tallybed.garden.days import in_full, without_year
from tallybed.garden.findings import capital, joined
from tallybed.garden.garden import Season

NO_SEASON = "No season is on record yet, so there is nothing to show of the beds."
NO_PLAN = "No plan is on record for this season, so what was meant to stand where is unknown."
NO_LOG = "No log is on record for this season, so nothing shown here was seen on a visit."
NOT_BEGUN = "The season is still to come."
TO_COME = "to come"
"""Of a season ahead, in a cell or beside a bar."""
NO_LEDGER = "No ledger is on record for this season, so what was picked is unknown."
ONLY_PLAN = "Of this season only the plan is on record: nobody wrote down what was done or picked."
"""Instead of both of the others, which would call unknown what may not have begun."""
EMPTY_PLAN = "The plan holds no planting."
EMPTY_LOG = "The log holds no entry to be read here."
WITHDRAWN = "Something was withdrawn from this season."
EMPTY_LEDGER = "The ledger holds no weighing."
NOTHING_DUE = "By the plan, nothing falls due in these days."
NO_HISTORY = "This garden has no record of growing it."
DIVIDED_PIECES = (
    "The pieces of a picking that went to several places are divided as its weight was, in whole pieces."
)
NONE_PICKED = "The ledger of this season has no picking of it."
NONE_PICKED_ALONE = "The ledger of this season has no picking of it alone."
NO_FACTS = "Nothing is known of its care here yet."
NO_BEDS = "No bed is described yet."
END_SUPPOSED = "its end supposed"
"""Of a planting that is over by the plan alone: nobody wrote that it was cleared."""
END_NOTE = "That it is over is supposed from the plan: nobody wrote down that it was cleared."
END_COUNTED = (
    "Over, end supposed: by the plan what stood there is over; nobody wrote down that it was cleared."
)
NOTHING_ON_RECORD = "nothing on record"
PLANNED_MONTH = "Nothing of this month has happened yet: it shows what is planned."
UNPLANNED_MONTH = "This month is still to come, and no plan tells of it."
RUNNING_MONTH = "Days after {day} are shown as planned."
AT_LEAST = "≥ before a figure: some of it was picked and not weighed, so the true figure is more."
MIXED_NOTE = "A mixed bowl stays one row until someone splits it."
NOT_TOLD = "not told"
SHARED_SQUARES = (
    "A weighing of several squares, or of a planting as a whole, is shared equally between its squares. "
    "Weighed square by square: {squares}."
)

GRADES = (
    ("seen", "a log line names it"),
    ("implied", "records before and after, or a weighing, say that it stood there"),
    ("supposed", "the plan says so and the day is past; nobody wrote it down"),
    ("planned", "the plan says so and the day is still to come"),
)
"""How sure the site is of what stands in a square, from the surest down."""

_SMALL = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")


def missing_of_beds(season: Season) -> tuple[str, ...]:
    """Return what cannot be said of the beds for want of a plan or a log, one sentence for each."""
    return tuple(said for paper, said in ((season.plan, NO_PLAN), (season.log, NO_LOG)) if paper is None)


def no_ledger(season: Season, *, ahead: bool) -> str:
    """Return why nobody can say what a season without a ledger gave."""
    return NOT_BEGUN if ahead else ONLY_PLAN if _only_planned(season) else NO_LEDGER


def _only_planned(season: Season) -> bool:
    """Return whether of a season's papers there is the plan alone."""
    return season.plan is not None and season.log is None and season.ledger is None


def missing_papers(season: Season, *, ahead: bool) -> tuple[str, ...]:
    """Return one sentence for each of plan, log and ledger that is not there; of one ahead, of its plan."""
    if ahead:
        return (NO_PLAN,) if season.plan is None else ()
    if _only_planned(season):
        return (ONLY_PLAN,)
    return (*missing_of_beds(season), *((NO_LEDGER,) if season.ledger is None else ()))


def empty_ledger(season: Season) -> str:
    """Return what is said of a ledger without a weighing; nothing of another, or where there is none."""
    return EMPTY_LEDGER if season.ledger == () else ""


@dataclass(frozen=True, slots=True)
class Day:
    """A day as machines and as people read it."""

    iso: str
    text: str


def full_day(day: date) -> Day:
    """Return a day as ``14 September 2026``."""
    return Day(day.isoformat(), in_full(day))


def plain_day(day: date) -> Day:
    """Return a day as ``14 September``."""
    return Day(day.isoformat(), without_year(day))


def days_words(first: date, last: date) -> str:
    """Return days from first to last, both included: ``3 to 9 May``, ``28 April to 4 May``."""
    if first == last:
        return without_year(first)
    if (first.year, first.month) == (last.year, last.month):
        return f"{first.day} to {without_year(last)}"
    if first.year == last.year:
        return f"{without_year(first)} to {without_year(last)}"
    return f"{in_full(first)} to {in_full(last)}"


def span_words(first: date, last: date) -> str:
    """Return days with their year: ``1 March to 30 November 2026``."""
    if first.year == last.year:
        return f"{without_year(first)} to {in_full(last)}"
    return f"{in_full(first)} to {in_full(last)}"


def chance_words(chance: float) -> str:
    """Return a chance from 0 to 1 in whole percent, never rounded to none or to certainty."""
    if chance < 0.01:
        return "under 1%"
    return "over 99%" if chance > 0.99 else f"{chance * 100:.0f}%"


def counted(number: int, one: str, many: str = "") -> str:
    """Return ``one weighing``, ``12 weighings``, ``no weighing``: words up to ten, then figures."""
    return f"{number_word(number)} {one if number < 2 else many or one + 's'}"


def number_word(number: int) -> str:
    """Return ``no``, ``one`` … ``ten``, then figures."""
    return _SMALL[number] if 0 <= number < len(_SMALL) else f"{number:,}"


def listed(items: Iterable[str], last: str = "and") -> str:
    """Return ``a``, ``a and b``, ``a, b and c``."""
    return joined(items, last)


def sentence(*clauses: str) -> str:
    """Return clauses as one sentence with a capital and a full stop; nothing for nothing."""
    text = ", ".join(clause for clause in clauses if clause)
    if not text:
        return ""
    stop = "" if text[-1] in ".!?…" else "."
    return capital(text) + stop


def first_words(text: str, limit: int = 155) -> str:
    """Return ``text`` cut after a whole word where it is longer than ``limit`` characters."""
    plain = " ".join(text.split())
    if len(plain) <= limit:
        return plain
    return plain[: plain.rfind(" ", 0, limit)].rstrip(",;:. ") + " …"
