"""What somebody needs who wants to do the same: ground, sun, time, money, water, marking out and advice."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from tallybed.garden.days import Week, hours_words, without_year
from tallybed.garden.plurals import figured
from tallybed.garden.squares import Bed
from tallybed.garden.units import GALLON, LITRE, Length, Showing, rounded
from tallybed.pages.frame import addresses
from tallybed.pages.frame.page import Link
from tallybed.pages.wording import sums
from tallybed.pages.wording.money import money
from tallybed.pages.wording.sentences import listed, sentence
from tallybed.reckoning.calendar.windows.freeze import Freeze
from tallybed.reckoning.effort.season import season_costs, season_value, season_water, season_work
from tallybed.reckoning.harvest.areas import Ground, grounds
from tallybed.reckoning.marking_out import marks
from tallybed.reckoning.sun.hours import season_sun
from tallybed.reckoning.year import Year, Years

ADVICE = (
    "Freezes, soil and pests differ where you are. Ask those who know your place: in the United States "
    "the cooperative extension office of your county; elsewhere the agricultural advisory service of your "
    "region, a botanical garden or a gardeners’ society. They also say where soil is tested, and which "
    "rules hold for what is sprayed."
)
"""Where local advice is found. Common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaceFigure:
    """One figure of this garden, set large, with what is to be said beside it."""

    number: str
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacePart:
    """One thing that somebody needs who wants to do the same."""

    title: str
    ident: str
    figures: tuple[PlaceFigure, ...]
    said: tuple[str, ...] = ()
    links: tuple[Link, ...] = ()


def of_season(year: Year) -> Iterator[PlacePart]:
    """Yield what a season tells, as far as it is on record."""
    for part in (_sun(year), _time(year), _money(year), _water(year), _gave(year)):
        if part:
            yield part


def ground(years: Years, figured: Year | None) -> PlacePart:
    """Return how much ground there is, in the season that figures are taken from."""
    garden, showing = figured.garden if figured else years.present, years.garden.showing
    year = years.foremost if garden.beds == years.present.beds else figured
    every = (
        grounds(garden.beds, year.season)
        if year
        else (Ground(of="the squares", square_feet=garden.square_feet),)
    )
    shown = (every[0], every[-1]) if len(every) > 1 else every
    return PlacePart(
        title="Ground",
        ident="ground",
        figures=tuple(
            PlaceFigure(
                number=showing.area(one.square_feet).removesuffix(f" {showing.area_unit}"),
                words=f"{showing.area_unit}: {one.of}",
            )
            for one in shown
        ),
        said=tuple(_size(showing, bed) for bed in garden.beds),
    )


def _size(showing: Showing, bed: Bed) -> str:
    """Return how long and wide a bed is, and how many squares of that are not there."""
    sides = f"{showing.length(bed.side * bed.columns)} by {showing.length(bed.side * bed.rows)}"
    without = f", with {figured(len(bed.omitted), 'square')} left out" if bed.omitted else ""
    return f"{bed.title}: {sides}{without}."


def _sun(year: Year) -> PlacePart | None:
    """Return the hours of sun over the season's squares; None where the garden's latitude is not told."""
    found = [sun for bed in year.garden.beds if (sun := season_sun(year, bed))]
    hours = sorted(
        light.sun / light.days for sun in found for light in sun.whole.squares.values() if light.days
    )
    if not hours:
        return None
    middle = hours[len(hours) // 2]
    least, most = hours_words(hours[0]), hours_words(hours[-1])
    how = "under a clear sky, reckoned from the sun’s path and what stands before it."
    return PlacePart(
        title="Sun",
        ident="sun",
        figures=(
            PlaceFigure(
                number=f"{middle:.1f}",
                words="hours a day of direct sun: half of the squares get that or more"
                if least != most
                else "hours a day of direct sun in every square",
            ),
        ),
        said=(
            f"{least} in the darkest square, {most} in the brightest: means of the season {how}"
            if least != most
            else f"The mean of the season {how}",
        ),
        links=tuple(
            Link(f"{bed.title}, month by month", addresses.bed(year, bed)) for bed in year.garden.beds
        ),
    )


def _time(year: Year) -> PlacePart | None:
    """Return the minutes that were timed; None where none were."""
    worked = season_work(year, year.today)
    if worked is None or not worked.timed:
        return None
    weeks = len(
        {Week.of(entry.day) for entry in year.season.log or () if entry.done and entry.day <= year.today}
    )
    a_week = round(worked.minutes / weeks)
    only = "Only " if worked.timed < worked.lines else ""
    weeding = f", {worked.weeding:,} of them weeding" if worked.weeding else ""
    return PlacePart(
        title="Time",
        ident="time",
        figures=(
            PlaceFigure(
                number=f"{a_week:,}",
                words=f"{'minute' if a_week == 1 else 'minutes'} a week with a visit, at least",
            ),
        ),
        said=(
            f"{figured(worked.minutes, 'minute')} in {figured(weeks, 'week')} with a visit, minutes times "
            f"people{weeding}. {only}{worked.timed:,} of {figured(worked.lines, 'line')} of "
            f"the log {'was' if worked.timed == 1 else 'were'} timed.",
        ),
        links=(Link("Work by kind and month", f"{addresses.rows(year)}#work"),)
        if year.season.ledger is not None
        else (),
    )


def _money(year: Year) -> PlacePart | None:
    """Return what the season cost; None where no cost is on record."""
    costs = season_costs(year, year.today)
    if costs is None or not costs.shares:
        return None
    worth = season_value(year, year.today)
    purposes = [
        f"{purpose.value} {money(year.garden, amount)}" for purpose, amount in costs.by_purpose.items()
    ]
    said = [sentence(listed(purposes)), "No wage is put on anybody’s time."]
    if worth is not None and worth.crops:
        said.append(
            f"What was weighed would have cost {money(year.garden, worth.amount)}, as far as it has a price."
        )
    return PlacePart(
        title="Money",
        ident="money",
        figures=(
            PlaceFigure(
                number=money(year.garden, costs.whole), words="with its part of what lasts for years"
            ),
        ),
        said=tuple(said),
        links=(Link("Every cost", f"{addresses.rows(year)}#money"),)
        if year.season.ledger is not None
        else (),
    )


def _water(year: Year) -> PlacePart | None:
    """Return the water that was measured; None where none was."""
    watered = season_water(year, year.today)
    if watered is None or not watered.measured:
        return None
    unit = LITRE if year.garden.showing.metric else GALLON
    amount = watered.litres * LITRE.size / unit.size
    return PlacePart(
        title="Water",
        ident="water",
        figures=(
            PlaceFigure(
                number=rounded(amount, 0),
                words=f"{unit.symbol} by can or hose, at least; rain not counted",
            ),
        ),
        said=(f"Measured: {watered.measured:,} of {figured(watered.lines, 'watering')}.",),
    )


def _gave(year: Year) -> PlacePart | None:
    """Return what the beds gave for it; None where nothing was weighed."""
    if not year.total.weight:
        return None
    showing = year.garden.showing
    total = sums.summed(showing, year.total)
    over = [sums.per_ground(showing, year.total, ground) for ground in year.grounds if ground.square_feet]
    said = [
        sentence(" ".join(filter(None, (one.before, one.words, "of", one.of))))
        for one in (*over[:1], *over[1:][-1:])
    ]
    return PlacePart(
        title="What it gave",
        ident="gave",
        figures=(
            PlaceFigure(
                number=total.number, words=", ".join(filter(None, (f"{total.unit} picked", total.before)))
            ),
        ),
        said=tuple(said),
        links=(
            Link(f"Tally of {year.name}", addresses.tally(year)),
            Link("Was that better than ordinary rows?", addresses.rows(year)),
        ),
    )


def marking(years: Years, figured: Year | None) -> PlacePart:
    """Return what marking out the beds of that season takes; the links lead to the beds there now."""
    showing = years.garden.showing
    found = [marks(bed) for bed in (figured.garden if figured else years.present).beds]
    twine = sum((one.twine for one in found), Length())
    return PlacePart(
        title="Marking it out",
        ident="marking",
        figures=(
            PlaceFigure(number=showing.length(twine), words="of twine, with what its knots take"),
            PlaceFigure(number=f"{sum(one.staples for one in found):,}", words="staples or nails"),
        ),
        said=("Stakes at the corners, a mark for each square on every side, twine from mark to mark.",),
        links=tuple(
            Link(f"Marking out {bed.called}, step by step", addresses.marking(bed))
            for bed in years.present.beds
        ),
    )


def advice(years: Years, year: Year | None) -> PlacePart:
    """Return where local advice is found, and this garden's own freeze dates."""
    said = [ADVICE]
    if year and year.spring and year.fall:
        said.insert(
            0,
            f"Here the last freeze of spring comes {_freeze(year.spring)}; "
            f"the first of fall {_freeze(year.fall)}.",
        )
    return PlacePart(
        title="Where you are",
        ident="advice",
        figures=(),
        said=tuple(said),
        links=(
            Link("What to take care of: treatments, boards, soil, food", addresses.CAUTIONS),
            *((Link("What others asked", addresses.QUESTIONS),) if years.garden.questions else ()),
        ),
    )


def _freeze(freeze: Freeze) -> str:
    """Return a freeze's middle date, with the risky date of one year in ten where that is told."""
    risky = freeze.late if freeze.spring else freeze.early
    when = "later than" if freeze.spring else "before"
    more = f", in one year of ten {when} {without_year(risky)}" if risky else ""
    return f"about {without_year(freeze.middle)}{more}"
