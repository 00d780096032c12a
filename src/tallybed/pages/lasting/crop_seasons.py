"""What a crop gave in each season in these beds, in sentences and in one table of its plantings."""

from __future__ import annotations

from dataclasses import dataclass

from tallybed.garden.crops import Crop
from tallybed.pages.frame import addresses
from tallybed.pages.frame.page import Link
from tallybed.pages.frame.trails import season_link
from tallybed.pages.lasting.crops import bowls_of, general_names, lines_of, on_record, plantings_of
from tallybed.pages.season.plantings import in_bed, over_squares
from tallybed.pages.tables import picked
from tallybed.pages.tables.tables import Cell, Row, Table, figure, heads, text, without_empty_columns
from tallybed.pages.tables.tally_tables import OF_IT, cured, weight
from tallybed.pages.wording import names, sums
from tallybed.pages.wording.sentences import (
    NO_HISTORY,
    NONE_PICKED,
    NONE_PICKED_ALONE,
    counted,
    listed,
    no_ledger,
)
from tallybed.reckoning.beds import histories_of
from tallybed.reckoning.harvest.tally import TallyLine, added
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.squares.occupancy import Grade, Hold
from tallybed.reckoning.year import Year, Years


@dataclass(frozen=True, slots=True, kw_only=True)
class CropSeason:
    """A crop's season in these beds."""

    season: Link
    total: sums.Sum | None
    said: str
    """How many pickings, and what they leave out; or why there is no weight."""
    mixed: str


def histories(years: Years, crop: Crop) -> tuple[CropSeason, ...]:
    """Return a crop's seasons in these beds, newest first."""
    found = (_history(year, crop) for year in reversed(years.all))
    return tuple(history for history in found if history)


def _history(year: Year, crop: Crop) -> CropSeason | None:
    """Return a crop's season in these beds; None where it was neither planted nor picked."""
    lines = lines_of(year, crop)
    if not on_record(year, crop):
        return None
    return CropSeason(
        season=season_link(year),
        total=sums.summed(year.garden.showing, added(lines)) if lines and not added(lines).unknown else None,
        said=_picked_words(year, crop, lines),
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
        return no_ledger(year.season, ahead=year.is_ahead)
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


def plantings_table(years: Years, crop: Crop) -> Table | None:
    """Return a crop's plantings of all seasons as a table, the newest season first; None without any."""
    showing = years.garden.showing
    columns = (f"Weight, {showing.unit}", f"Over its squares, {showing.per_area_unit}")
    rows = tuple(
        _planting_row(year, planting) for year in reversed(years.all) for planting in plantings_of(year, crop)
    )
    if not rows:
        return None
    return without_empty_columns(
        Table(
            ident="plantings",
            caption=f"Every planting of {crop.plural} in these beds",
            heads=heads(
                *("Planting", "Season", "In the bed", columns[0], OF_IT, columns[1]), numbers=columns
            ),
            rows=rows,
        )
    )


def _planting_row(year: Year, planting: Planting) -> Row:
    """Return one planting: where and when it stood, and what it gave."""
    showing = year.garden.showing
    holds = list(year.holding.of_planting(planting.key))
    squares = sorted({hold.square for hold in holds})
    lines = picked.lines_of(year, planting.key)
    total = added(lines)
    over = over_squares(year.years, total, squares)
    return Row(
        cells=(
            Cell(
                text=(
                    names.full_name("", planting.variety, planting.tag).strip()
                    if planting.variety
                    else planting.tag
                )
                or names.short_name(year.garden, planting),
                to=addresses.planting(planting),
                note=names.place_words(year.garden, squares),
            ),
            text(year.name),
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
    words, still = in_bed(year, histories_of(year)[planting.key])
    best = min(hold.grade for hold in holds)
    told = "" if best in (Grade.SEEN, Grade.PLANNED) else best.word
    return Cell(text=words, note="; ".join(filter(None, (told, still))))


def no_history(years: Years, crop: Crop) -> str:
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
