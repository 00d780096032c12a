"""Crops: a list of all, and for each its care, its history in these beds, and the questions about it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from tallybed.garden.crops import Crop
from tallybed.garden.days import without_year
from tallybed.pages.care.cautions import of_crop
from tallybed.pages.care.figures import care
from tallybed.pages.care.growing import windows_table
from tallybed.pages.care.keeping import keeping
from tallybed.pages.frame import addresses
from tallybed.pages.frame.page import Link, Page
from tallybed.pages.lasting.own_pages import ordered, question_item
from tallybed.pages.rows.crops import crop_line
from tallybed.pages.season.plantings import over_squares
from tallybed.pages.tables.tables import (
    Cell,
    ColumnHead,
    Row,
    Table,
    figure,
    heads,
    link,
    text,
    without_empty_columns,
)
from tallybed.pages.tables.tally_tables import weight
from tallybed.pages.wording import names, sums
from tallybed.pages.wording.sentences import NO_FACTS, NO_HISTORY, NO_LEDGER, NONE_PICKED, counted, days_words
from tallybed.reckoning.harvest.tally import TallyLine, added, bowl
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.squares.occupancy import Grade, Hold
from tallybed.reckoning.year import Year, Years


@dataclass(frozen=True, slots=True, kw_only=True)
class History:
    """A crop's season in these beds."""

    season: Link
    total: sums.Sum | None
    said: str
    """How many pickings, and what they leave out; or why there is no weight."""
    plantings: Table | None
    mixed: str


def pages(years: Years) -> Iterator[Page]:
    """Yield the list of crops and each crop's page."""
    grown = {crop.slug: _histories(years, crop) for crop in years.garden.crops}
    yield _list(years, grown)
    for crop in years.garden.crops:
        yield _crop(years, crop, grown[crop.slug])


def _list(years: Years, grown: dict[str, tuple[History, ...]]) -> Page:
    here = [crop for crop in years.garden.crops if grown[crop.slug]]
    others = [crop for crop in years.garden.crops if not grown[crop.slug]]
    return Page(
        path=addresses.CROPS,
        template="crops.html",
        title="Crops",
        description="Every crop of the beds and of the library: care with sources, and what it gave here.",
        kind="crops",
        data={
            "trail": (),
            "lead": f"{counted(len(here), 'crop').capitalize()} on record in these beds, "
            f"{counted(len(others), 'more', 'more')} known with care notes.",
            "grown": _grown_table(years, here) if here else None,
            "others": tuple(Link(crop.plural, addresses.crop(crop)) for crop in _by_name(others)),
        },
    )


def _by_name(crops: list[Crop]) -> list[Crop]:
    return sorted(crops, key=lambda crop: (crop.plural.casefold(), crop.slug))


def _grown_table(years: Years, crops: list[Crop]) -> Table:
    views = tuple(year for year in reversed(years.all) if _any(year))
    rows = []
    for crop in _by_name(crops):
        cells = [_season_weight(year, crop) for year in views]
        rows.append(Row(cells=(link(Link(crop.plural, addresses.crop(crop)), crop.family), *cells)))
    return Table(
        ident="grown",
        caption=f"Crops on record in these beds: weight in each season, in {years.garden.showing.unit}",
        heads=(
            ColumnHead(text="Crop"),
            *(ColumnHead(text=year.name, number=True) for year in views),
        ),
        rows=tuple(rows),
    )


def _any(year: Year) -> bool:
    return bool(year.plantings or year.lines)


def _season_weight(year: Year, crop: Crop) -> Cell:
    lines = _lines(year, crop)
    if lines:
        return weight(year.garden.showing, added(lines))
    return Cell(number=True, note=_nothing(year, crop) if _stands(year, crop) else "")


def _stands(year: Year, crop: Crop) -> list[Planting]:
    return [planting for planting in year.plantings if year.crop_of(planting) is crop]


def _lines(year: Year, crop: Crop) -> list[TallyLine]:
    return [line for line in year.lines if line.crop == crop.slug and line.counts]


def _histories(years: Years, crop: Crop) -> tuple[History, ...]:
    found = (_history(year, crop) for year in reversed(years.all))
    return tuple(history for history in found if history)


def _history(year: Year, crop: Crop) -> History | None:
    plantings, lines = _stands(year, crop), _lines(year, crop)
    bowls = {line.weighing for line in year.lines if crop.slug in bowl(line.crop)}
    if not (plantings or lines or bowls):
        return None
    return History(
        season=Link(f"Season {year.name}", addresses.season(year)),
        total=sums.summed(year.garden.showing, added(lines)) if lines else None,
        said=_said(year, lines),
        plantings=_plantings(year, crop, plantings) if plantings else None,
        mixed=_mixed_words(len(bowls)),
    )


def _said(year: Year, lines: list[TallyLine]) -> str:
    if lines:
        total = added(lines)
        words = [f"from {counted(total.pickings, 'picking')}.", *sums.caveats(year.garden.showing, total)]
        return " ".join(words)
    return NO_LEDGER if year.season.ledger is None else NONE_PICKED


def _mixed_words(number: int) -> str:
    if not number:
        return ""
    return f"It was also in {counted(number, 'mixed bowl')}, whose weight nobody split."


def _nothing(year: Year, crop: Crop) -> str:
    if year.season.ledger is None:
        return "weight unknown"
    if any(crop.slug in bowl(line.crop) for line in year.lines):
        return "in mixed bowls"
    return "none picked" if year.season.closed else "none yet"


def _plantings(year: Year, crop: Crop, plantings: list[Planting]) -> Table:
    showing = year.garden.showing
    columns = (f"Weight, {showing.unit}", f"Over its squares, {showing.per_area_unit}")
    rows = tuple(_planting_row(year, planting) for planting in plantings)
    return without_empty_columns(
        Table(
            ident=f"h-{year.name}",
            caption=f"Plantings of {crop.plural} in {year.name}",
            heads=heads("Planting", "In the bed", *columns, numbers=columns),
            rows=rows,
        )
    )


def _planting_row(year: Year, planting: Planting) -> Row:
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
            _days_held(year.years, holds),
            weight(showing, total) if lines else figure(""),
            Cell(text=over, number=True, note="at least" if over and total.at_least else ""),
        )
    )


def _days_held(years: Years, holds: list[Hold]) -> Cell:
    """Return the days a planting had its squares, what of them is still to come, and how that is known."""
    if not holds:
        return Cell()
    first, last = min(hold.first for hold in holds), max(hold.last for hold in holds)
    words = days_words(first, last)
    if first <= years.today < last:
        words = f"from {without_year(first)}, as planned to {without_year(last)}"
    best = min(hold.grade for hold in holds)
    return Cell(text=words, note="" if best is Grade.SEEN else best.word)


def _crop(years: Years, crop: Crop, histories: tuple[History, ...]) -> Page:
    questions = [one for one in ordered(years.garden.questions) if crop.slug in one.about]
    name = crop.plural[0].upper() + crop.plural[1:]
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
            "histories": histories,
            "beside": crop_line(years, crop.slug),
            "no_history": NO_HISTORY,
            "no_facts": NO_FACTS,
            "windows": windows_table(years, crop),
            "care": known,
            "keeping": keeping(crop, known.sources),
            "cautions": of_crop(crop),
            "questions": tuple(question_item(years, one) for one in questions),
            "varieties": _varieties(years, crop),
        },
    )


def _plural_of_another(name: str, names_: tuple[str, ...]) -> bool:
    return any(name != other and name in (f"{other}s", f"{other}es") for other in names_)


def _varieties(years: Years, crop: Crop) -> Table | None:
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
