"""A crop: its care, its history in these beds, and the questions about it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from tallybed.garden.crops import Crop
from tallybed.garden.days import without_year
from tallybed.pages.care.cautions import cautions_read, crop_cautions
from tallybed.pages.care.figures import care
from tallybed.pages.care.growing import windows_table
from tallybed.pages.care.keeping import keeping
from tallybed.pages.care.metric import as_read
from tallybed.pages.frame import addresses
from tallybed.pages.frame.page import Link, Page
from tallybed.pages.lasting.crops import bowls_of, general_names, lines_of, on_record, plantings_of
from tallybed.pages.lasting.questions import ordered, question_item
from tallybed.pages.rows.crops import crop_line
from tallybed.pages.season.plantings import over_squares
from tallybed.pages.tables.tables import Cell, Row, Table, figure, heads, text, without_empty_columns
from tallybed.pages.tables.tally_tables import OF_IT, cured, weight
from tallybed.pages.wording import names, sums
from tallybed.pages.wording.sentences import (
    END_SUPPOSED,
    NO_FACTS,
    NO_HISTORY,
    NO_LEDGER,
    NONE_PICKED,
    NONE_PICKED_ALONE,
    counted,
    days_words,
    listed,
)
from tallybed.reckoning.harvest.tally import TallyLine, added
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.squares.occupancy import Grade, Hold
from tallybed.reckoning.year import Year, Years

_UNTOLD = {"habit": "how it grows", "start": "what it begins from", "spacing": "its spacing"}
"""What nobody told of a crop that is only weighed; its letters are for the garden's own drawings."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CropSeason:
    """A crop's season in these beds."""

    season: Link
    total: sums.Sum | None
    said: str
    """How many pickings, and what they leave out; or why there is no weight."""
    plantings: Table | None
    mixed: str


def paths(years: Years) -> Iterator[str]:
    """Yield where each crop lies, of the library and of the garden's own."""
    return (addresses.crop(crop) for crop in years.garden.crops)


def pages(years: Years) -> Iterator[Page]:
    """Yield each crop's page."""
    return (_page(years, crop) for crop in years.garden.crops)


def _histories(years: Years, crop: Crop) -> tuple[CropSeason, ...]:
    """Return a crop's seasons in these beds, newest first."""
    found = (_history(year, crop) for year in reversed(years.all))
    return tuple(history for history in found if history)


def _history(year: Year, crop: Crop) -> CropSeason | None:
    """Return a crop's season in these beds; None where it was neither planted nor picked."""
    plantings, lines = plantings_of(year, crop), lines_of(year, crop)
    if not on_record(year, crop):
        return None
    return CropSeason(
        season=Link(f"Season {year.name}", addresses.season(year)),
        total=sums.summed(year.garden.showing, added(lines)) if lines and not added(lines).unknown else None,
        said=_picked_words(year, crop, lines),
        plantings=_plantings(year, crop, plantings) if plantings else None,
        mixed=_mixed_words(len(bowls_of(year, crop)), also=bool(lines)),
    )


def _picked_words(year: Year, crop: Crop, lines: list[TallyLine]) -> str:
    """Return how many pickings there were and what they leave out, or why there is no weight."""
    if lines:
        total = added(lines)
        if total.unknown:
            return sums.unweighed(total)
        words = [f"from {counted(total.pickings, 'picking')}.", *sums.caveats(year.garden.showing, total)]
        return " ".join(words)
    if year.season.ledger is None:
        return NO_LEDGER
    general = general_names(year, crop)
    if general:
        they = "it was" if len(general) == 1 else "they were"
        pickings = counted(len(general), "picking").capitalize()
        return f"{pickings} of “{general[0]}” may be of it: which kind {they} was not told."
    return NONE_PICKED_ALONE if bowls_of(year, crop) else NONE_PICKED


def _mixed_words(number: int, *, also: bool) -> str:
    """Return in how many mixed bowls it was, as a sentence; empty for none."""
    if not number:
        return ""
    was = "was also" if also else "was"
    return f"It {was} in {counted(number, 'mixed bowl')}, whose weight nobody split."


def _plantings(year: Year, crop: Crop, plantings: list[Planting]) -> Table:
    """Return a season's plantings of a crop as a table."""
    showing = year.garden.showing
    columns = (f"Weight, {showing.unit}", f"Over its squares, {showing.per_area_unit}")
    rows = tuple(_planting_row(year, planting) for planting in plantings)
    return without_empty_columns(
        Table(
            ident=f"h-{year.name}",
            caption=f"Plantings of {crop.plural} in {year.name}",
            heads=heads("Planting", "In the bed", columns[0], OF_IT, columns[1], numbers=columns),
            rows=rows,
        )
    )


def _planting_row(year: Year, planting: Planting) -> Row:
    """Return one planting: where and when it stood, and what it gave."""
    showing = year.garden.showing
    holds = [hold for hold in year.holding.holds if hold.planting == planting.key]
    squares = sorted({hold.square for hold in holds})
    lines = [line for line in year.lines if line.planting == planting.key and line.counts]
    total = added(lines)
    over = over_squares(year.years, total, squares)
    return Row(
        cells=(
            Cell(
                text=names.full_name("", planting.variety, planting.tag).strip() or planting.key,
                to=addresses.planting(planting),
                note=names.place_words(year.garden, squares),
            ),
            _days_held(year, planting, holds),
            weight(showing, total) if lines else figure(""),
            cured(showing, total),
            Cell(text=over, number=True, note="at least" if over and total.at_least else ""),
        )
    )


def _days_held(year: Year, planting: Planting, holds: list[Hold]) -> Cell:
    """Return the days a planting had its squares, what of them is still to come, and how that is known."""
    if not holds:
        return Cell()
    first, last = min(hold.first for hold in holds), max(hold.last for hold in holds)
    words = days_words(first, last)
    if first <= year.today < last:
        words = f"from {without_year(first)}, as planned to {without_year(last)}"
    best = min(hold.grade for hold in holds)
    told = ["" if best is Grade.SEEN else best.word]
    if year.histories[planting.key].gone_by is Grade.SUPPOSED and best < Grade.SUPPOSED:
        told.append(END_SUPPOSED)
    return Cell(text=words, note="; ".join(word for word in told if word))


def _page(years: Years, crop: Crop) -> Page:
    """Return the page of one crop."""
    questions = [one for one in ordered(years.garden.questions) if crop.slug in one.about]
    name = crop.listed[0].upper() + crop.listed[1:]
    known = care(years.garden, crop)
    return Page(
        path=addresses.crop(crop),
        template="crop.html",
        title=name,
        description=f"{name} in {years.garden.name}: what each season gave, and care, with sources.",
        kind="crop",
        data={
            "trail": (Link("Crops", addresses.CROPS), Link(name, "")),
            "botanical": crop.botanical_name,
            "family": crop.family,
            "also": tuple(name for name in crop.also if not _plural_of_another(name, crop.also)),
            "own": crop.own,
            "untold": listed(_UNTOLD[key] for key in crop.untold if key in _UNTOLD),
            "histories": _histories(years, crop),
            "beside": crop_line(years, crop.slug),
            "no_history": _no_history(years, crop),
            "no_facts": NO_FACTS,
            "windows": windows_table(years, crop),
            "care": known,
            "keeping": keeping(as_read(years.garden.showing, crop), known.sources),
            "cautions": cautions_read(years.garden.showing, crop_cautions(crop)),
            "questions": tuple(question_item(years, one) for one in questions),
            "varieties": _varieties(years, crop),
        },
    )


def _no_history(years: Years, crop: Crop) -> str:
    """Return what is said of a crop that no record names: records of a general name may be of it."""
    typed = {
        planting.crop.typed
        for year in years.all
        for planting in year.plantings
        if planting.crop.slug is None and crop.slug in planting.crop.slugs
    }
    typed.update(name for year in years.all for name in general_names(year, crop))
    if not typed:
        return NO_HISTORY
    quoted = listed(f"“{name}”" for name in sorted(typed))
    return f"No record names it; what is on record as {quoted} may be of it."


def _plural_of_another(name: str, names_: tuple[str, ...]) -> bool:
    """Return whether a name is only the plural of another in the list."""
    return any(name != other and name in (f"{other}s", f"{other}es") for other in names_)


def _varieties(years: Years, crop: Crop) -> Table | None:
    """Return the varieties the garden knows of a crop as a table; None where it knows none."""
    if not crop.varieties:
        return None
    rows = tuple(
        Row(
            cells=(
                text(one.name),
                figure(f"{one.days:,}" if one.days is not None else ""),
                text(years.garden.showing.length(one.spacing) if one.spacing else ""),
                text(one.source),
                text(one.note),
            )
        )
        for one in crop.varieties
    )
    table = Table(
        ident="varieties",
        caption=f"Varieties of {crop.plural} this garden knows",
        heads=heads("Variety", "Days", "Spacing", "Source", "Note", numbers=("Days",)),
        rows=rows,
    )
    return without_empty_columns(table)
