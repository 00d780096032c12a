"""What the year allows each planting of a plan: when it can go in, what frost may do, when it should bear."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date

from tallybed.garden.crops import Crop
from tallybed.garden.days import in_full
from tallybed.garden.records.plan import PlanRow, Start
from tallybed.pages.care.bulbs import latest
from tallybed.pages.frame.page import Link
from tallybed.pages.tables.tables import Row, Table, heads, link, text, without_empty_columns
from tallybed.pages.wording import names
from tallybed.pages.wording.dated import short_day_name
from tallybed.pages.wording.sentences import chance_words, listed
from tallybed.reckoning.calendar.windows.freeze import Freeze
from tallybed.reckoning.calendar.windows.windows import Expected, before_winter
from tallybed.reckoning.growing_time import freezes_for, window_for
from tallybed.reckoning.year import Year

WEEKS = (
    "The first and the latest day are the crop library’s weeks, laid on this garden’s dates: {dates}. The "
    "latest is the later of those weeks and of a count back by the days to harvest, with two weeks for slow "
    "growth and two more for a crop that a freeze kills (Virginia Cooperative Extension, 426-334). "
    "A crop that a freeze kills has as its first day the one after which one year in ten still freezes; bulb "
    "onions have as their latest the one on which the types that bulb last here begin to."
)
CHANCES = (
    "Chances follow from the days after which one, five and nine years in ten have their freeze, as the "
    "National Centers for Environmental Information (NOAA) table them. Between those days a normal curve is "
    "laid, which freeze dates come near (Thom and Shaw, Monthly Weather Review, 1958; from memory)."
)
NO_CHANCES = "The garden tells the average freeze dates alone, and no chance follows from an average."
HARVESTS = (
    "Harvests are counted from the planned day: by the days to harvest of the variety or the crop, with "
    "two weeks more where they fall in the shortening days, and then by the usual length of picking, which "
    "for most crops is from memory."
)


def outlook(year: Year) -> Table | None:
    """Return, planting by planting, what the year allows; None where nothing is known of any."""
    season = year.season
    plan = [one for one in season.plan or () if one.dropped is None and one.start is not Start.CARRIED]
    ordered = sorted(plan, key=lambda one: (one.begins, one.crop, one.squares))
    called = {
        planting.planned: names.listed_planting(year.garden, planting)
        for planting in year.plantings
        if planting.planned
    }
    own = [freezes_for(year, one.begins) for one in ordered] or [(year.spring, year.fall)]
    table = without_empty_columns(
        Table(
            ident="outlook",
            caption=f"What {year.name} allows each planting",
            heads=heads(
                *("Planting", "Goes in", "First day", "Latest day", "Freeze after it goes in"),
                *("First harvest", "Freeze by then", "Last harvest"),
            ),
            rows=tuple(_row(year, one, called[one], *freezes_for(year, one.begins)) for one in ordered),
            notes=_notes(own),
        )
    )
    return table if len(table.heads) > 2 else None


def _row(year: Year, one: PlanRow, called: Link, spring: Freeze | None, fall: Freeze | None) -> Row:
    """Return one planting's planned day beside the days that suit its crop."""
    crop = year.garden.crop(one.crop)
    found = window_for(year, crop, one.begins, variety=one.variety, start=one.start, indoors=one.sow_indoors)
    ready = year.expected(crop, one.begins, variety=one.variety, start=one.start, indoors=one.sow_indoors)
    last = latest(found.last or (None if found.all_winter else found.spring_last), year, crop)
    first = found.spring_safe or found.fall_first
    first = None if found.all_winter else first
    if ready and ready.over_winter:
        winter = before_winter(crop, year.garden.freezes, one.begins)
        first, last = winter.winter_first, winter.winter_last
    return Row(
        cells=(
            link(called),
            text(short_day_name(year, one.begins)),
            text(short_day_name(year, first)),
            text(short_day_name(year, last)),
            text(_chance(spring, one.begins, spring, fall)),
            text(short_day_name(year, ready.first if ready else None), _counted_from(crop, one, ready)),
            text(_chance(fall, ready.first, spring, fall) if ready and not ready.over_winter else ""),
            text(short_day_name(year, ready.last if ready else None)),
        )
    )


def _counted_from(crop: Crop, one: PlanRow, ready: Expected | None) -> str:
    """Return from which day the days to harvest are counted, where it is not the day of its own start."""
    if ready is not None and ready.over_winter:
        return "after winter"
    if ready is None or not ready.other_start or not crop.days:
        return ""
    if one.start is Start.SOW:
        return "by days from setting out and the usual weeks indoors"
    return (
        "by days from its sowing indoors"
        if one.sow_indoors
        else "by days from sowing, less the usual weeks indoors"
    )


def _chance(freeze: Freeze | None, day: date, spring: Freeze | None, fall: Freeze | None) -> str:
    """Return the chance of a freeze around a day, where the day lies in that freeze's half of the year."""
    if freeze is None:
        return ""
    if spring and fall:
        middle = spring.middle + (fall.middle - spring.middle) / 2
        if (day < middle) is not freeze.spring:
            return ""
    chance = freeze.chance(day)
    return "" if chance is None else chance_words(chance)


def _notes(own: Iterable[tuple[Freeze | None, Freeze | None]]) -> tuple[str, ...]:
    """Return what the table is reckoned from, as sentences; ``own``: the freezes of each planting's time."""
    springs, falls = (list(dict.fromkeys(one for one in side if one)) for side in zip(*own, strict=True))
    dates = [*_about("last spring freeze", springs), *_about("first fall freeze", falls)]
    found = [WEEKS.format(dates=" and ".join(dates))] if dates else []
    known = [*springs, *falls]
    if any(one.early and one.late for one in known):
        found.append(CHANCES)
    elif known:
        found.append(NO_CHANCES)
    return (*found, HARVESTS)


def _about(name: str, told: list[Freeze]) -> Iterator[str]:
    """Yield ``last spring freeze about 1 May 2026``: of several, those of each planting's growing time."""
    if told:
        days = listed(in_full(day) for day in sorted(one.middle for one in told))
        yield f"{name if len(told) == 1 else f'{name}s'} about {days}"
