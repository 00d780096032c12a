"""What a plan needs before it begins: seeds, plants, stakes, trellis; by planting and by crop."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction

from tallybed.garden.crops import Figure, Footing
from tallybed.garden.days import short
from tallybed.garden.garden import Garden
from tallybed.garden.plurals import figured
from tallybed.garden.records.plan import Start
from tallybed.garden.squares import in_words
from tallybed.garden.units import FOOT, METRE, Length, plain, rounded
from tallybed.pages.care.figures import Cited, cited, origin_words
from tallybed.pages.frame import addresses
from tallybed.pages.frame.other_seasons import seasons_beside
from tallybed.pages.frame.page import DataFile, Link, Page
from tallybed.pages.frame.trails import below_season
from tallybed.pages.season.plantings import plantings_link
from tallybed.pages.tables.tables import Cell, Row, Table, figure, heads, text
from tallybed.pages.wording import names
from tallybed.pages.wording.sentences import counted, listed
from tallybed.reckoning.seeds import ALLOWANCE, SEED, CropNeed, Need, by_crop, needs
from tallybed.reckoning.year import Year

LEAD = (
    "What the plan asks for before it begins. Dropped plantings, and those that stand from the season "
    "before, are left out."
)
RATES = (
    "Seeds are the plants divided by the share of seed that comes up, told below them, with {allowance}% "
    "more to thin from, rounded up planting by planting. That allowance is our choice, from no source."
)
LEAST = (
    "Where the garden gives no share of its own, it is the least that seed in trade must reach in the United "
    "States (7 CFR 201.31). A fresh packet often does better; the packet is right."
)
NOTHING = "Nothing in this plan needs seeds or plants."
BY_SPACING = "Where the plan tells no number, as many plants are counted as keep the spacing."


def pages(year: Year) -> Iterator[Page]:
    """Yield the list of a season that has a plan with plantings in it."""
    if year.season.plan:
        yield _page(year)


def files(year: Year) -> Iterator[DataFile]:
    """Yield each of these lists as a file."""
    if year.season.plan:
        yield seeds_file(year)


def tables(year: Year) -> tuple[Table, ...]:
    """Return the needs of a season's plan, by planting and by crop; none where it needs nothing."""
    found = _needs(year)
    return (_plantings(year, found), _crops(year, by_crop(found))) if found else ()


def seeds_file(year: Year) -> DataFile:
    """Return the list of a season as a file; lengths in feet, or metres."""
    unit = "m" if year.garden.showing.metric else "ft"
    return DataFile(
        path=addresses.seeds_file(year),
        heads=(
            *("tag", "crop", "variety", "squares", "begins as", "plants", "plants told by"),
            *("share that comes up, %", "share from", "seeds", "sow indoors", "in the bed", "how"),
            *("stakes", f"trellis, {unit}"),
        ),
        rows=tuple(_cells(year.garden, need) for need in _needs(year)),
    )


def _needs(year: Year) -> tuple[Need, ...]:
    """Return what each planting of a season's plan needs, once for a year."""
    return year.kept("needs", lambda: needs(year.garden, year.season))


def _page(year: Year) -> Page:
    """Return what a season's plan needs as a page."""
    found = _needs(year)
    rates = _rates(found)
    return Page(
        path=addresses.seeds(year),
        template="seeds.html",
        title=f"Seeds and plants for {year.name}",
        description=f"What the plan for {year.name} needs before it begins: seeds, plants, stakes, trellis.",
        kind="seeds",
        data={
            "trail": below_season(year, here="Seeds and plants"),
            "summary": _summary(found),
            "lead": LEAD,
            "tables": tables(year),
            "notes": notes(year),
            "file": Link("The list for a spreadsheet (CSV)", addresses.seeds_file(year)),
            "plantings": plantings_link(year),
            "sources": _sources(year.garden, rates),
            **seasons_beside(year, _link),
        },
    )


def _link(year: Year) -> Link | None:
    """Return the link to a season's seeds and plants; None where its plan is empty."""
    return Link(f"Seeds and plants for {year.name}", addresses.seeds(year)) if year.season.plan else None


def _summary(found: tuple[Need, ...]) -> str:
    """Return how many plantings need how many seeds."""
    if not found:
        return NOTHING
    seeds = sum(need.seeds or 0 for need in found)
    plantings = counted(len(found), "planting").capitalize()
    crops = counted(len({need.crop for need in found}), "crop")
    to_sow = f": {figured(seeds, 'seed')} to sow" if seeds else ""
    return f"{plantings} of {crops}{to_sow}."


def notes(year: Year) -> tuple[str, ...]:
    """Return what must be said beside the tables: how seeds are reckoned, and from what."""
    found = _needs(year)
    rates = _rates(found)
    said = [RATES.format(allowance=rounded(ALLOWANCE * 100, 0))] if rates else []
    if any(rate.source for rate in rates):
        said.append(LEAST)
    if not all(need.told for need in found):
        said.append(BY_SPACING)
    return tuple(said)


def _rates(found: Iterable[Need]) -> list[Figure]:
    """Return the shares of seed that come up, where they are known."""
    return [need.germination for need in found if need.germination]


def _sources(garden: Garden, rates: Iterable[Figure]) -> tuple[Cited, ...]:
    """Return the sources these shares come from, numbered as they are met."""
    numbers: dict[str, int] = {}
    for rate in rates:
        if rate.source:
            numbers.setdefault(rate.source, len(numbers) + 1)
    return tuple(cited(garden, numbers))


def _plantings(year: Year, found: tuple[Need, ...]) -> Table:
    return Table(
        ident="plantings",
        caption=f"What each planting of {year.name} needs, by its first job",
        heads=heads("Planting", "To get", "Plants", "In the bed", "Squares", numbers=("Plants",)),
        rows=tuple(_row(year.garden, need) for need in found),
    )


def _row(garden: Garden, need: Need) -> Row:
    """Return what one planting needs."""
    crop = garden.crop(need.crop)
    return Row(
        cells=(
            Cell(text=names.listed_name(crop, need.variety, need.tag), to=addresses.crop(crop)),
            _to_get(garden, need),
            Cell(text=f"{need.plants:,}", number=True, note="" if need.told else "by spacing"),
            text(short(need.begins), f"indoors {short(need.indoors)}" if need.indoors else ""),
            text(names.place_words(garden, need.squares)),
        )
    )


def _to_get(garden: Garden, need: Need) -> Cell:
    """Return ``32 seeds`` or ``4 tubers``; below, the share that comes up, and what holds the plants."""
    rate, support = need.germination, _support(garden, need)
    if need.begins_as != SEED:
        return text(_many(need.plants, need.begins_as), support)
    if need.seeds is None or rate is None:
        return text("seed", "; ".join(filter(None, ("share not known", support))))
    share = f"{_percent(rate)}%" if rate.source else f"{_percent(rate)}%, {rate_source(garden, rate)}"
    return text(figured(need.seeds, "seed"), "; ".join(filter(None, (share, support))))


def _support(garden: Garden, one: Need | CropNeed) -> str:
    """Return stakes and trellis in words; nothing for none."""
    trellis = f"{garden.showing.length(one.trellis)} of trellis" if one.trellis else ""
    return listed(filter(None, (figured(one.stakes, "stake") if one.stakes else "", trellis)))


def rate_source(garden: Garden, rate: Figure) -> str:
    """Return in a few words what a share of seed that comes up rests on."""
    if rate.source:
        known = next((source for source in garden.sources if source.id == rate.source), None)
        return (known.number or known.title) if known else rate.source
    if rate.kind is Footing.GARDEN and rate.note:
        return rate.note
    return origin_words(rate)


def _percent(rate: Figure) -> str:
    """Return a share in per cent; whole ones without a decimal."""
    return rounded(rate.low or Fraction(0), 1).removesuffix(".0")


def _crops(year: Year, found: tuple[CropNeed, ...]) -> Table:
    """Return what each crop needs in all, as a table."""
    by_name = sorted(found, key=lambda one: names.filed(year.garden, one.crop))
    return Table(
        ident="crops",
        caption=f"The same added up, crop by crop, for {year.name}",
        heads=heads("Crop", "To get", "Plants", "First needed", numbers=("Plants",)),
        rows=tuple(_crop_row(year.garden, one) for one in by_name),
    )


def _crop_row(garden: Garden, one: CropNeed) -> Row:
    """Return what one crop needs in all."""
    base = names.listed_crop(garden, one.crop)
    to_get = [figured(one.seeds, "seed")] if one.seeds else []
    to_get += [_many(number, kind) for kind, number in one.others]
    if one.unknown:
        to_get.append(f"seed for {figured(one.unknown, 'plant')}")
    return Row(
        cells=(
            Cell(text=base.text, to=base.to, note=_plantings_of(one)),
            text(listed(to_get), _support(garden, one)),
            figure(f"{one.plants:,}"),
            text(short(one.first)),
        )
    )


def _plantings_of(one: CropNeed) -> str:
    """Return of how many plantings a crop is, where it is of more than one."""
    return counted(one.plantings, "planting") if one.plantings > 1 else ""


def _many(number: int, kind: str) -> str:
    """Return ``18 cloves``, ``1 set``."""
    return figured(number, kind.removesuffix("s"))


def _cells(garden: Garden, need: Need) -> tuple[str | int, ...]:
    """Return what one planting needs, cell by cell, for a spreadsheet."""
    rate = need.germination
    return (
        need.tag,
        need.crop,
        need.variety,
        in_words(need.squares, with_bed=len(garden.beds) > 1),
        need.begins_as,
        need.plants,
        "the plan" if need.told else "spacing",
        _percent(rate) if rate else "",
        rate_source(garden, rate) if rate else "",
        "" if need.seeds is None else need.seeds,
        need.indoors.isoformat() if need.indoors else "",
        need.begins.isoformat(),
        "sow" if need.start is Start.SOW else "set out",
        need.stakes or "",
        _length(garden, need.trellis),
    )


def _length(garden: Garden, length: Length) -> str:
    """Return a length in feet or metres without its unit; empty for none."""
    unit = METRE if garden.showing.metric else FOOT
    return plain(length.within(unit), 2) if length else ""
