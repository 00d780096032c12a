"""Work: minutes times people, by kind and by month, of the lines of the log that tell them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date

from tallybed.garden.days import Month
from tallybed.garden.records.log import Entry, Event, Verb


@dataclass(frozen=True, slots=True, kw_only=True)
class Work:
    """The work of a season, as far as it was timed. A line without minutes is not a line of none."""

    lines: int
    """Lines of the log that tell what was done or seen, timed or not."""
    timed: int
    """Those of them with their minutes."""
    by_verb: Mapping[Verb, int]
    """Person-minutes of the timed lines, in the order of the verbs."""
    by_month: Mapping[Month, int]
    """The same by month, in order."""

    @property
    def minutes(self) -> int:
        """Person-minutes of all timed lines."""
        return sum(self.by_verb.values())

    @property
    def weeding(self) -> int:
        """Person-minutes of weeding alone."""
        return self.by_verb.get(Verb.WEED, 0)


def person_minutes(event: Event) -> int | None:
    """Return minutes times people of a line, or None where nobody timed it."""
    return None if event.minutes is None else event.minutes * event.people


def work(log: Iterable[Entry], until: date) -> Work:
    """Return the work of a season's log up to and with a day."""
    done = [event for entry in log for event in entry.done if event.day <= until]
    timed = [(event, minutes) for event in done if (minutes := person_minutes(event)) is not None]
    by_verb: dict[Verb, int] = {}
    by_month: dict[Month, int] = {}
    for event, minutes in timed:
        by_verb[event.verb] = by_verb.get(event.verb, 0) + minutes
        by_month[Month.of(event.day)] = by_month.get(Month.of(event.day), 0) + minutes
    return Work(
        lines=len(done),
        timed=len(timed),
        by_verb={verb: by_verb[verb] for verb in Verb if verb in by_verb},
        by_month={month: by_month[month] for month in sorted(by_month)},
    )
