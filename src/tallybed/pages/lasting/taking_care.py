"""What waits, what was used, what the beds are made of, and what to mind with soil and food."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from tallybed.garden.days import in_full
from tallybed.garden.records.soil import SoilTest
from tallybed.garden.squares import Bed
from tallybed.pages.care import ground, sprays
from tallybed.pages.care.cautions import LEAD, MANURE, Caution, cautions_read
from tallybed.pages.care.food import FOOD
from tallybed.pages.care.notices import DEFERS
from tallybed.pages.frame import addresses
from tallybed.pages.frame.page import Page
from tallybed.pages.frame.waits_shown import open_notices
from tallybed.pages.tables.tables import Row, Table, figure, heads, link, text
from tallybed.pages.tables.treatments_table import treatment_lines, treatments_table
from tallybed.pages.wording import names
from tallybed.reckoning.year import Year, Years

NOTHING_WAITS = "By the log, nothing waits on {day}. A label that nobody wrote down is not in it."


@dataclass(frozen=True, slots=True, kw_only=True)
class BedGround:
    """What a bed is made of, and what was found in its soil."""

    ident: str
    title: str
    boards: str
    cautions: tuple[Caution, ...]
    test: str
    document: str
    lead: Table | None
    ph: Table | None


def pages(years: Years) -> Iterator[Page]:
    """Yield the page of cautions."""
    year = years.foremost
    found = open_notices(years)
    showing = years.garden.showing
    yield Page(
        path=addresses.CAUTIONS,
        template="taking_care.html",
        title="What waits, and what to take care of",
        description="What is not to be picked or touched, treatments, boards, soil and food: cautions.",
        kind="taking care",
        data={
            "trail": (),
            "lead": DEFERS,
            "nothing": "" if found or not year else NOTHING_WAITS.format(day=in_full(years.today)),
            "treatments": tuple(_treatments(years)),
            "sprays": cautions_read(showing, (*sprays.ALL, MANURE)),
            "beds": tuple(_ground(year, bed) for bed in years.present.beds) if year else (),
            "lead_in_soil": cautions_read(showing, (LEAD,)),
            "food": cautions_read(showing, FOOD),
        },
    )


def _treatments(years: Years) -> Iterator[Table]:
    """Yield each season's treatments, the newest season first."""
    for year in reversed(years.all):
        lines = treatment_lines(year)
        if lines:
            yield treatments_table(year, lines, ident=f"treated-{year.name}")


def _ground(year: Year, bed: Bed) -> BedGround:
    """Return what one bed is made of."""
    test = ground.latest_test(year, bed)
    return BedGround(
        ident=f"ground-{bed.name}",
        title=bed.title,
        boards=ground.boards_words(bed.boards),
        cautions=cautions_read(year.garden.showing, ground.board_cautions(bed.boards)),
        test=ground.test_words(test) if test else ground.NO_TEST,
        document=test.document if test else "",
        lead=_lead(bed, test) if test and test.lead is not None else None,
        ph=_ph(year, bed, test) if test and test.ph is not None else None,
    )


def _lead(bed: Bed, test: SoilTest) -> Table:
    """Return a test's lead beside published levels."""
    return Table(
        ident=f"lead-{bed.name}",
        caption=f"{bed.title}: lead of {ground.lead_figure(test)} beside published levels, "
        "each for its own purpose",
        heads=heads("Level", "The test is", "Whose", "What for", numbers=("Level",)),
        rows=tuple(
            Row(
                cells=(
                    figure(f"{level.level} mg/kg"),
                    text(ground.lead_words(test, level)),
                    text(level.whose),
                    text(level.what_for),
                )
            )
            for level in ground.LEAD_LEVELS
        ),
    )


def _ph(year: Year, bed: Bed, test: SoilTest) -> Table | None:
    """Return a test's pH beside the range printed for each crop of the bed's season."""
    assert test.ph is not None  # asked for only then
    sources = {one.id: one for one in year.garden.sources}
    rows = tuple(
        Row(
            cells=(
                link(names.listed_crop(year.garden, crop.slug, many=False)),
                figure(f"{float(range_.low or 0):g} to {float(range_.high or 0):g}"),
                text(word),
                text(sources[range_.source].publisher if range_.source in sources else range_.kind.value),
            )
        )
        for crop, range_, word in ground.ph_beside_crops(year, bed, test.ph)
    )
    if not rows:
        return None
    return Table(
        ident=f"ph-{bed.name}",
        caption=f"{bed.title}: pH {float(test.ph):g} beside the range printed for each crop of {year.name}",
        heads=heads("Crop", "Range", "The test is", "Printed by", numbers=("Range",)),
        rows=rows,
    )
