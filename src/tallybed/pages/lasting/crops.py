"""The list of crops: those that were grown here with what each season gave, and all others."""

from __future__ import annotations

from collections.abc import Iterator

from tallybed.garden.crops import Crop
from tallybed.pages.frame import addresses
from tallybed.pages.frame.page import Link, Page
from tallybed.pages.tables.tables import Cell, ColumnHead, Row, Table, link
from tallybed.pages.tables.tally_tables import weight_and_cured
from tallybed.pages.wording.sentences import TO_COME, counted
from tallybed.reckoning.harvest.tally import BY, TallyLine, added, bowl, counted_by
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.plantings.untold import may_be_of
from tallybed.reckoning.year import Year, Years


def pages(years: Years) -> Iterator[Page]:
    """Yield the list of crops."""
    yield _page(years)


def on_record(year: Year, crop: Crop) -> bool:
    """Return whether a season planted or picked a crop, if only in a mixed bowl."""
    return bool(plantings_of(year, crop) or lines_of(year, crop) or bowls_of(year, crop))


def plantings_of(year: Year, crop: Crop) -> list[Planting]:
    """Return a season's plantings of a crop, by key."""
    return year.kept("plantings by crop", lambda: _plantings(year)).get(crop.slug, [])


def lines_of(year: Year, crop: Crop) -> list[TallyLine]:
    """Return the lines of a season's tally that count for a crop; mixed bowls do not."""
    return year.kept("lines by crop", lambda: counted_by(BY["crop"], year.lines)).get(crop.slug, [])


def bowls_of(year: Year, crop: Crop) -> set[int]:
    """Return the rows of a season's ledger that are mixed bowls with a crop in them."""
    return year.kept("bowls by crop", lambda: _bowls(year)).get(crop.slug, set())


def general_names(year: Year, crop: Crop) -> list[str]:
    """Return, as typed, the general names of a season's pickings that may be of a crop."""
    rows = may_be_of((row for row in year.without_planting if not row.mixed), (crop.slug,))
    return [row.crops[0].typed for row in rows if row.crops[0].slug is None]


def _plantings(year: Year) -> dict[str, list[Planting]]:
    """Return a season's plantings by crop."""
    found: dict[str, list[Planting]] = {}
    for planting in year.plantings:
        crop = year.crop_of(planting)
        if crop is not None:
            found.setdefault(crop.slug, []).append(planting)
    return found


def _bowls(year: Year) -> dict[str, set[int]]:
    """Return the rows of a season's ledger that are mixed bowls, by each crop in them."""
    found: dict[str, set[int]] = {}
    for line in year.lines:
        for slug in bowl(line.crop):
            found.setdefault(slug, set()).add(line.weighing)
    return found


def _page(years: Years) -> Page:
    """Return the list of crops as a page."""
    grown = {crop.slug for crop in years.garden.crops if any(on_record(year, crop) for year in years.all)}
    here = [crop for crop in years.garden.crops if crop.slug in grown]
    others = [crop for crop in years.garden.crops if crop.slug not in grown]
    return Page(
        path=addresses.CROPS,
        template="crops.html",
        title="Crops",
        description="Every crop of the beds and of the library: care with sources, and what it gave here.",
        kind="crops",
        data={
            "trail": (),
            "lead": f"{counted(len(here), 'crop').capitalize()} on record here, "
            f"{counted(len(others), 'more', 'more')} known with care notes."
            if here
            else f"No crop is on record here yet; {len(others)} are known with care notes.",
            "grown": _grown_table(years, here) if here else None,
            "others": tuple(Link(crop.listed, addresses.crop(crop)) for crop in _by_name(others)),
        },
    )


def _by_name(crops: list[Crop]) -> list[Crop]:
    """Return crops in the order of their names."""
    return sorted(crops, key=lambda crop: (crop.listed.casefold(), crop.slug))


def _grown_table(years: Years, crops: list[Crop]) -> Table:
    """Return what crops on record gave in each season, as a table."""
    views = tuple(year for year in reversed(years.all) if _any(year))
    rows = []
    for crop in _by_name(crops):
        cells = [_season_weight(year, crop) for year in views]
        rows.append(Row(cells=(link(Link(crop.listed, addresses.crop(crop))), *cells)))
    return Table(
        ident="grown",
        caption=f"Crops on record here: weight in each season, in {years.garden.showing.unit}",
        heads=(ColumnHead(text="Crop"), *(ColumnHead(text=year.name, number=True) for year in views)),
        rows=tuple(rows),
    )


def _any(year: Year) -> bool:
    """Return whether a season has anything planted or picked."""
    return bool(year.plantings or year.lines)


def _season_weight(year: Year, crop: Crop) -> Cell:
    """Return what a crop gave in a season, or why there is no weight; empty where it was not planted."""
    lines = lines_of(year, crop)
    if lines:
        return weight_and_cured(year.garden.showing, added(lines))
    return Cell(number=True, note=_nothing(year, crop) if plantings_of(year, crop) else "")


def _nothing(year: Year, crop: Crop) -> str:
    """Return why a crop that was planted has no weight."""
    if year.season.ledger is None:
        return TO_COME if year.is_ahead else "weight unknown"
    if bowls_of(year, crop):
        return "in mixed bowls"
    if general_names(year, crop):
        return "kind not told"
    return "none on record" if year.is_over else "none yet"
