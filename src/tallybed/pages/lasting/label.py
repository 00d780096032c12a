"""What the first page says is new: what was picked, what was planted, what comes next, by rules."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from tallybed.garden.days import in_full, without_year
from tallybed.garden.naming import CropName
from tallybed.garden.records.ledger import one_place
from tallybed.garden.records.log import STARTING
from tallybed.pages.wording import names
from tallybed.pages.wording.sentences import counted, listed
from tallybed.reckoning.calendar.ahead import HARVEST, ahead
from tallybed.reckoning.harvest.tally import GENERAL, bowl
from tallybed.reckoning.waits.pickings import DISCARDED
from tallybed.reckoning.year import Year

_MOST_NAMED = 3
"""Crops that are named in one breath; more are counted."""


def label(year: Year) -> str:
    """Return the gardener's note on a season and what its records tell; empty without either."""
    return " ".join(filter(None, (year.season.note.strip(), _ended(year) if year.is_over else _told(year))))


def _told(year: Year) -> str:
    """Return the last picking, the last sowing or planting and the next first harvest, a sentence each.

    Each begins with its day, so that no verb need agree with crops of which some have a plural.
    """
    picked, went = _picked(year), _went_in(year)
    if picked and went and went[0] == picked[0] and went[1] < picked[1]:
        went = None  # what is picked went in before that
    told = (
        f"Picked on {without_year(picked[1])}: {_named(picked[0])}." if picked else "",
        f"Planted on {without_year(went[1])}: {_named(went[0])}." if went else "",
        _next(year),
    )
    return " ".join(filter(None, told))


def _ended(year: Year) -> str:
    """Return what was picked last in a season that is over."""
    found = _picked(year)
    return f"Picked last, on {in_full(found[1])}: {_named(found[0])}." if found else ""


def _picked(year: Year) -> tuple[set[str], date] | None:
    """Return what was picked on the newest day with a picking, and that day; None before the first.

    What nobody was to eat does not count.
    """
    lines = [
        line for line in year.lines if line.counts and line.crop and one_place(line.destination) != DISCARDED
    ]
    if not lines:
        return None
    day = max(line.day for line in lines)
    keys = {line.crop for line in lines if line.day == day}
    slugs = {part for key in keys for part in (bowl(key) or (key,))}
    general = {slug for slug in slugs if slug.startswith(GENERAL)}  # which kind it was says the tally
    known = {names.key_link(year.garden, slug).text for slug in slugs - general}
    return known | {name.removeprefix(GENERAL) for name in general}, day


def _went_in(year: Year) -> tuple[set[str], date] | None:
    """Return what was last sown or set out in the beds, and that day; None where nothing was."""
    entries = year.season.log or ()
    events = [one for entry in entries for one in entry.done if one.verb in STARTING and one.crop]
    done = [one for one in events if one.day <= year.today]
    if not done:
        return None
    day = max(one.day for one in done)
    return {_crop(year, one.crop) for one in done if one.day == day}, day


def _next(year: Year) -> str:
    """Return the next first harvest to expect; where there is none, what is planted next by the plan."""
    coming = ahead(year.garden, year.season, year.holding, year.today, year.season.span.last)
    later = [one for one in coming if not one.overdue]
    harvests = [one for one in later if one.verb == HARVEST]
    if harvests:
        day = harvests[0].day
        due = [one.crop for one in harvests if one.day == day]
        crops = _named(_crop(year, one) for one in due)
        return f"Perhaps ready from {without_year(day)} on: {_before(year, due)}{crops}."
    starts = [one for one in later if one.verb in STARTING]
    if not starts:
        return ""
    day = starts[0].day
    crops = _named(_crop(year, one.crop) for one in starts if one.day == day)
    return f"To be planted on {without_year(day)}: {crops}."


def _before(year: Year, due: Iterable[CropName]) -> str:
    """Return what is said before crops to come: an earlier planting of them may have been picked."""
    picked = {part for line in year.lines if line.counts for part in (bowl(line.crop) or (line.crop,))}
    known = {one.slug in picked for one in due}
    return "more " if known == {True} else "the first " if known == {False} else ""


def _crop(year: Year, name: CropName | None) -> str:
    """Return what a crop of the records is called in a sentence."""
    return names.named(year.garden, name, many=True).text if name else ""


def _named(crops: Iterable[str]) -> str:
    """Return crops by name, in the order of the alphabet; how many they are where that is many."""
    found = sorted(set(crops), key=str.casefold)
    return listed(found) if len(found) <= _MOST_NAMED else counted(len(found), "crop")
