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
from tallybed.pages.frame.site import SeasonView, Site
from tallybed.pages.lasting.own_pages import ordered, question_item
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
from tallybed.reckoning.room.plants import crop_of
from tallybed.reckoning.squares.occupancy import Grade, Hold


@dataclass(frozen=True, slots=True, kw_only=True)
class History:
    """A crop's season in these beds."""

    season: Link
    total: sums.Sum | None
    said: str
    """How many pickings, and what they leave out; or why there is no weight."""
    plantings: Table | None
    mixed: str


def pages(site: Site) -> Iterator[Page]:
    """Yield the list of crops and each crop's page."""
    grown = {crop.slug: _histories(site, crop) for crop in site.garden.crops}
    yield _list(site, grown)
    for crop in site.garden.crops:
        yield _crop(site, crop, grown[crop.slug])


def _list(site: Site, grown: dict[str, tuple[History, ...]]) -> Page:
    here = [crop for crop in site.garden.crops if grown[crop.slug]]
    others = [crop for crop in site.garden.crops if not grown[crop.slug]]
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
            "grown": _grown_table(site, here) if here else None,
            "others": tuple(Link(crop.plural, addresses.crop(crop)) for crop in _by_name(others)),
        },
    )


def _by_name(crops: list[Crop]) -> list[Crop]:
    return sorted(crops, key=lambda crop: (crop.plural.casefold(), crop.slug))


def _grown_table(site: Site, crops: list[Crop]) -> Table:
    views = tuple(view for view in reversed(site.seasons) if _any(view))
    rows = []
    for crop in _by_name(crops):
        cells = [_season_weight(site, view, crop) for view in views]
        rows.append(Row(cells=(link(Link(crop.plural, addresses.crop(crop)), crop.family), *cells)))
    return Table(
        ident="grown",
        caption=f"Crops on record in these beds: weight in each season, in {site.garden.showing.unit}",
        heads=(
            ColumnHead(text="Crop"),
            *(ColumnHead(text=view.name, number=True) for view in views),
        ),
        rows=tuple(rows),
    )


def _any(view: SeasonView) -> bool:
    return bool(view.holding.plantings or view.lines)


def _season_weight(site: Site, view: SeasonView, crop: Crop) -> Cell:
    lines = _lines(view, crop)
    if lines:
        return weight(site.garden.showing, added(lines))
    return Cell(number=True, note=_nothing(view, crop) if _stands(site, view, crop) else "")


def _stands(site: Site, view: SeasonView, crop: Crop) -> list[Planting]:
    return [planting for planting in view.holding.plantings if crop_of(site.garden, planting) is crop]


def _lines(view: SeasonView, crop: Crop) -> list[TallyLine]:
    return [line for line in view.lines if line.crop == crop.slug and line.counts]


def _histories(site: Site, crop: Crop) -> tuple[History, ...]:
    found = (_history(site, view, crop) for view in reversed(site.seasons))
    return tuple(history for history in found if history)


def _history(site: Site, view: SeasonView, crop: Crop) -> History | None:
    plantings, lines = _stands(site, view, crop), _lines(view, crop)
    bowls = {line.weighing for line in view.lines if crop.slug in bowl(line.crop)}
    if not (plantings or lines or bowls):
        return None
    return History(
        season=Link(f"Season {view.name}", addresses.season(view)),
        total=sums.summed(site.garden.showing, added(lines)) if lines else None,
        said=_said(site, view, lines),
        plantings=_plantings(site, view, crop, plantings) if plantings else None,
        mixed=_mixed_words(len(bowls)),
    )


def _said(site: Site, view: SeasonView, lines: list[TallyLine]) -> str:
    if lines:
        total = added(lines)
        words = [f"from {counted(total.pickings, 'picking')}.", *sums.caveats(site.garden.showing, total)]
        return " ".join(words)
    return NO_LEDGER if view.season.ledger is None else NONE_PICKED


def _mixed_words(number: int) -> str:
    if not number:
        return ""
    return f"It was also in {counted(number, 'mixed bowl')}, whose weight nobody split."


def _nothing(view: SeasonView, crop: Crop) -> str:
    if view.season.ledger is None:
        return "weight unknown"
    if any(crop.slug in bowl(line.crop) for line in view.lines):
        return "in mixed bowls"
    return "none picked" if view.season.closed else "none yet"


def _plantings(site: Site, view: SeasonView, crop: Crop, plantings: list[Planting]) -> Table:
    showing = site.garden.showing
    columns = (f"Weight, {showing.unit}", f"Over its squares, {showing.per_area_unit}")
    rows = tuple(_planting_row(site, view, planting) for planting in plantings)
    return without_empty_columns(
        Table(
            ident=f"h-{view.name}",
            caption=f"Plantings of {crop.plural} in {view.name}",
            heads=heads("Planting", "In the bed", *columns, numbers=columns),
            rows=rows,
        )
    )


def _planting_row(site: Site, view: SeasonView, planting: Planting) -> Row:
    showing = site.garden.showing
    holds = [hold for hold in view.holding.holds if hold.planting == planting.key]
    squares = sorted({hold.square for hold in holds})
    lines = [line for line in view.lines if line.planting == planting.key and line.counts]
    total = added(lines)
    over = over_squares(site, total, squares)
    return Row(
        cells=(
            Cell(
                text=names.full_name("", planting.variety, planting.tag).strip() or planting.key,
                to=addresses.planting(planting),
                note=names.place_words(site.garden, squares),
            ),
            _days_held(site, holds),
            weight(showing, total) if lines else figure(""),
            Cell(text=over, number=True, note="at least" if over and total.at_least else ""),
        )
    )


def _days_held(site: Site, holds: list[Hold]) -> Cell:
    """Return the days a planting had its squares, what of them is still to come, and how that is known."""
    if not holds:
        return Cell()
    first, last = min(hold.first for hold in holds), max(hold.last for hold in holds)
    words = days_words(first, last)
    if first <= site.today < last:
        words = f"from {without_year(first)}, as planned to {without_year(last)}"
    best = min(hold.grade for hold in holds)
    return Cell(text=words, note="" if best is Grade.SEEN else best.word)


def _crop(site: Site, crop: Crop, histories: tuple[History, ...]) -> Page:
    questions = [one for one in ordered(site.garden.questions) if crop.slug in one.about]
    name = crop.plural[0].upper() + crop.plural[1:]
    known = care(site.garden, crop)
    return Page(
        path=addresses.crop(crop),
        template="crop.html",
        title=name,
        description=f"{name} in {site.garden.name}: what each season gave, and care, with sources.",
        kind="crop",
        data={
            "trail": (Link("Crops", addresses.CROPS), Link(name, "")),
            "botanical": crop.botanical_name,
            "family": crop.family,
            "also": tuple(name for name in crop.also if not _plural_of_another(name, crop.also)),
            "own": crop.own,
            "histories": histories,
            "no_history": NO_HISTORY,
            "no_facts": NO_FACTS,
            "windows": windows_table(site, crop),
            "care": known,
            "keeping": keeping(crop, known.sources),
            "cautions": of_crop(crop),
            "questions": tuple(question_item(site, one) for one in questions),
            "varieties": _varieties(site, crop),
        },
    )


def _plural_of_another(name: str, names_: tuple[str, ...]) -> bool:
    return any(name != other and name in (f"{other}s", f"{other}es") for other in names_)


def _varieties(site: Site, crop: Crop) -> Table | None:
    if not crop.varieties:
        return None
    rows = tuple(
        Row(
            cells=(
                text(one.name),
                figure(f"{one.days:,}" if one.days is not None else ""),
                text(site.garden.showing.length(one.spacing) if one.spacing else ""),
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
