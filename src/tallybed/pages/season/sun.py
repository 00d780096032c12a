"""The sun over a bed in one month: hours in each square, what they are lost to, and how that is reckoned."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

from tallybed.drawing.sun.sun_map import WORTH_TELLING, SquareHours
from tallybed.garden.crops import everyday
from tallybed.garden.days import Month, hours_words, without_year
from tallybed.garden.garden import Garden
from tallybed.garden.plurals import figured
from tallybed.garden.squares import Bed, Square
from tallybed.pages.drawings.sun_maps import sun_legend, sun_maps
from tallybed.pages.frame import addresses
from tallybed.pages.frame.other_seasons import months_beside
from tallybed.pages.frame.page import DataFile, Link, Page
from tallybed.pages.frame.trails import below_season
from tallybed.pages.tables.tables import Cell, Row, Table, figure, heads, text, without_empty_columns
from tallybed.pages.wording import names
from tallybed.pages.wording.dated import month_name
from tallybed.pages.wording.lying import direction_taken
from tallybed.pages.wording.sentences import listed, sentence
from tallybed.reckoning.calendar.month_state import MonthState, days_within, month_state
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.sun.bodies import height_of
from tallybed.reckoning.sun.hours import BedSun, SeasonSun, SpotSun, season_sun
from tallybed.reckoning.sun.needs import sun_of
from tallybed.reckoning.sun.scene import Light
from tallybed.reckoning.year import Year

RECKONED = (
    "Hours count while the middle of the sun stands above a level horizon, without the bending of its "
    "light by the air, under a clear sky: real days have less. A month is the mean of its days.",
    "A square is measured over its middle, at the height of the tallest crop it has that day, or on the "
    "ground where it is bare. Every planting stands as a solid body over its squares, and grows to its "
    "printed height in its days to maturity; what climbs a trellis is a screen along it. A planting takes "
    "no sun from itself, nor from those that share a square with it.",
    "Things around the bed are upright faces on level ground. Trees without leaves shade nothing, and "
    "beds do not shade one another.",
)
_BARE = "bare"
NAMED = 3
"""How many neighbours are named that take sun from one square."""
_NUMBERS = ("Sun", "Lost to neighbours", "To things around")
_TAKEN = "Taken by"


def pages(year: Year, only: str | None = None) -> Iterator[Page]:
    """Yield a page for each bed's month of a season, or the one at ``only``.

    None where the garden's latitude is not told.
    """
    for bed in year.garden.beds:
        months = year.season.span.months
        wanted = [one for one in months if only in (None, addresses.sun(year, bed, one))]
        sun = season_sun(year, bed) if wanted else None
        for month in wanted:
            if sun and month in sun.months:
                yield _page(year, sun, month)


def sun_link(year: Year, bed: Bed, month: Month) -> Link | None:
    """Return the link to the sun over a bed in a month; None where it is not reckoned."""
    if year.garden.latitude is None:
        return None
    return Link(f"Hours of sun in {month.name}", addresses.sun(year, bed, month))


def planting_sun(year: Year, planting: Planting) -> str:
    """Return how much sun a planting gets a day, and what takes it, as a sentence; empty where not known."""
    light = sun_of(year).get(planting.key)
    if light is None or not light.days:
        return ""
    told = f"while it stands it gets {hours_words(light.sun / light.days)} of direct sun a day"
    taken = _most(year, light)
    at_once = (sum(light.to.values()) - light.lost) / light.days >= WORTH_TELLING
    both = ", several at once" if at_once else ""
    whole = hours_words(light.lost / light.days)
    lost = f" Its neighbours take {whole} from it{both}: {taken}." if taken else ""
    if taken and len(light.to) == 1:
        lost = f" Its neighbour {_planting(year, *light.to)} takes {whole} from it."
    low = height_of(year, planting.key, supported=False) is None
    ground = " Its own height is not known, so this is measured on the ground." if low else ""
    return f"{sentence(f'{told}, under a clear sky')}{lost}{ground}"


def _most(year: Year, light: Light) -> str:
    """Return which neighbours take most of the sun from a planting, and how much each."""
    told = [
        f"{_planting(year, key)} ({hours_words(hours / light.days)})"
        for key, hours in _ordered(light.to)
        if hours / light.days >= WORTH_TELLING
    ][:NAMED]
    return f"above all {listed(told)}" if told else ""


def _planting(year: Year, key: str) -> str:
    """Return a planting in words."""
    return names.planting_words(year.garden, year.holding.planting(key))


def _ordered(hours: Mapping[str, float]) -> list[tuple[str, float]]:
    return sorted(hours.items(), key=lambda one: (-one[1], one[0]))


def _page(year: Year, sun: SeasonSun, month: Month) -> Page:
    """Return the sun over a bed in one month as a page."""
    bed, found = sun.bed, sun.months[month]
    title = f"Sun over {bed.called} in {month}"
    here = month_name(year, month)
    kind = month_state(year.season.span, month, year.today)
    squares = _squares(year, found)
    maps = sun_maps(year, bed, squares, month, kind)
    return Page(
        path=addresses.sun(year, bed, month),
        template="sun.html",
        title=title,
        description=f"{title}: hours of direct sun a day in each square, and what they are lost to.",
        kind="sun",
        data={
            "trail": below_season(
                year,
                Link(bed.title, addresses.bed(year, bed)),
                Link(here, addresses.bed_month(year, bed, month)),
                here="Sun",
            ),
            "kind": kind,
            "lead": _lead(year, found, month, kind),
            "maps": maps,
            "back": Link(
                f"What stands in {bed.called} in {month.name}", addresses.bed_month(year, bed, month)
            ),
            "legend": sun_legend(year, bed, squares, maps),
            "table": sun_table(year, found, f"in {month}"),
            "reckoned": (*RECKONED, *_around(year.garden, bed), *unknown_heights(year, found)),
            **months_beside(year, bed, month, addresses.sun),
        },
    )


def _lead(year: Year, found: BedSun, month: Month, kind: MonthState) -> str:
    first, last = days_within(year.season.span, month)
    lights = list(found.squares.values())
    hours = sorted(light.sun / light.days for light in lights if light.days)
    span = f"{without_year(first)} to {without_year(last)}"
    told = f"Hours of direct sun a day, the mean of {span}: {_span(hours)}."
    ahead = {
        MonthState.PLANNED: " All of it is as planned.",
        MonthState.RUNNING: f" Days after {without_year(year.today)} are as planned.",
    }
    return told + _taken(found) + ahead.get(kind, "")


def _taken(found: BedSun) -> str:
    """Return what plantings take from each other a day, as a sentence; empty where there is none.

    What shares a square takes none, so in a bed of one square there is no neighbour.
    """
    if len(found.squares) == 1:
        return ""
    planted = [spot.light for spot in found.spots if spot.planting and spot.light.days]
    if not planted:
        return ""
    mean = sum(light.lost for light in planted) / sum(light.days for light in planted)
    if mean < WORTH_TELLING:
        return " Plantings take next to none of it from each other."
    return f" Neighbours take {hours_words(mean)} a day from a planted square, on average."


def _span(hours: list[float]) -> str:
    """Return the least and the most of some hours, as words."""
    least, most = hours_words(hours[0]), hours_words(hours[-1])
    if len(hours) == 1:
        return least
    return f"{least} in every square" if least == most else f"from {least} to {most}, square by square"


def _squares(year: Year, found: BedSun) -> dict[Square, SquareHours]:
    """Return what each square of the map says."""
    main = _main(found)
    return {
        square: SquareHours(
            hours=light.sun / light.days,
            lost=light.lost / light.days,
            name=_short(year, main.get(square, "")),
            tag=_tag(year, main.get(square, "")),
        )
        for square, light in found.squares.items()
        if light.days
    }


def _main(found: BedSun) -> Mapping[Square, str]:
    """Return what has each square for most of the days, as its tallest."""
    best: dict[Square, SpotSun] = {}
    for spot in found.spots:
        if spot.foremost.days > (best[spot.square].foremost.days if spot.square in best else 0):
            best[spot.square] = spot
    return {square: spot.planting for square, spot in best.items()}


def _short(year: Year, key: str) -> str:
    """Return a planting's crop, for the map."""
    if not key:
        return ""
    planting = year.holding.planting(key)
    crop = year.crop_of(planting)
    return everyday(crop.name, crop.kind) if crop else planting.crop.typed


def _tag(year: Year, key: str) -> str:
    return year.holding.planting(key).tag if key else ""


def sun_table(year: Year, found: BedSun, when: str) -> Table:
    """Return a row for each square and planting with its hours a day, and what they are lost to.

    ``when``: over which days, such as ``in June 2026``.
    """
    table = Table(
        ident="sun",
        caption=f"Hours of direct sun a day over {found.bed.called} {when}",
        heads=heads("Square", "Crop", *_NUMBERS, _TAKEN, numbers=_NUMBERS),
        rows=tuple(_row(year, spot) for spot in found.spots if spot.light.days > 0),
        notes=(
            "A loss to several neighbours, or several things around, at once counts once; beside each stand "
            "all the hours for which it is before the sun, of a neighbour without those that things take.",
        ),
    )
    kept = without_empty_columns(table)
    lost = any(head.text in (*_NUMBERS[1:], _TAKEN) for head in kept.heads)
    return kept if lost else replace(kept, notes=())


def sun_file(found: BedSun, when: str) -> DataFile:
    """Return a row for each square: its hours a day, those lost to neighbours, and to which."""
    return DataFile(
        path=f"sun-{found.bed.name}-{when.replace(' ', '-').lower()}.csv",
        heads=("square", "hours", "lost", "to"),
        rows=tuple(
            (
                str(square),
                f"{light.sun / light.days:.2f}",
                f"{light.lost / light.days:.2f}",
                "; ".join(
                    f"{key} {hours / light.days:.2f}"
                    for key, hours in _ordered(light.to)
                    if hours / light.days >= WORTH_TELLING
                ),
            )
            for square, light in found.squares.items()
            if light.days > 0
        ),
    )


def planting_place(year: Year, key: str) -> str:
    """Return a planting with its squares in words."""
    planting = year.holding.planting(key)
    squares = {hold.square for hold in year.holding.of_planting(key)}
    place = names.place_words(year.garden, sorted(squares))
    return f"{names.planting_words(year.garden, planting)} in {place}"


def _row(year: Year, spot: SpotSun) -> Row:
    light, days = spot.light, spot.light.days
    crop = text(_BARE)
    if spot.planting:
        link = names.listed_planting(year.garden, year.holding.planting(spot.planting))
        crop = Cell(text=link.text, to=link.to)
    return Row(
        cells=(
            text(spot.square.label, note=figured(round(days), "day")),
            crop,
            figure(f"{light.sun / days:.1f}"),
            figure(_told(light.lost / days)),
            figure(_told(light.around / days)),
            Cell(links=tuple(_lost_to(year, light))),
        )
    )


def _lost_to(year: Year, light: Light) -> Iterator[Link]:
    """Yield the neighbours that take most of a spot's sun, each with its hours a day; then things around."""
    told = [(key, hours / light.days) for key, hours in _ordered(light.to)]
    told = [one for one in told if one[1] >= WORTH_TELLING]
    for key, hours in told[:NAMED]:
        planting = year.holding.planting(key)
        yield Link(f"{planting.tag or _short(year, key)} {hours:.1f}", addresses.planting(planting))
    if len(told) > NAMED:
        yield Link(f"{len(told) - NAMED} more", "")
    for name, hours in _ordered(light.to_things):
        if hours / light.days >= WORTH_TELLING:
            yield Link(f"{name} {hours / light.days:.1f}", "")


def _told(hours: float) -> str:
    return f"{hours:.1f}" if hours >= WORTH_TELLING else ""


def _around(garden: Garden, bed: Bed) -> Iterator[str]:
    """Yield a sentence on what stands around a bed, where anything does."""
    yield from direction_taken(bed)
    told = [one.name for one in garden.surroundings if one.bed in ("", bed.name)]
    if told:
        yield sentence(f"around this bed there {'stand' if len(told) > 1 else 'is'} {listed(told)}")


def unknown_heights(year: Year, found: BedSun) -> Iterator[str]:
    """Yield a sentence on the plantings whose height nobody knows, where there are any."""
    if found.unknown:
        told = [names.planting_words(year.garden, year.holding.planting(key)) for key in found.unknown]
        yield f"No height is known of {listed(told)}: measured on the ground, and taken to shade nothing."
