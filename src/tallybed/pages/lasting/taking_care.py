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
from tallybed.pages.wording.sentences import counted, listed, number_word
from tallybed.reckoning.year import Year, Years

NOTHING_WAITS = "By the log, nothing waits on {day}. A label that nobody wrote down is not in it."


@dataclass(frozen=True, slots=True, kw_only=True)
class Compared:
    """A figure of a soil test beside printed ones: the answer, and the table that it comes from."""

    answer: str
    table: Table
    fold: str
    """What the folded table is called; empty where it stands open, because somebody has to act on it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BedGround:
    """What a bed is made of, and what was found in its soil."""

    ident: str
    title: str
    boards: str
    cautions: tuple[Caution, ...]
    test: str
    document: str
    lead: Compared | None
    ph: Compared | None


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


def _lead(bed: Bed, test: SoilTest) -> Compared:
    """Return a test's lead beside published levels, folded only where it is below all of them."""
    lead = ground.lead_figure(test)
    words = [ground.lead_words(test, level) for level in ground.LEAD_LEVELS]
    table = Table(
        ident=f"lead-{bed.name}",
        caption=f"{bed.title}: lead of {lead} beside published levels, each for its own purpose",
        heads=heads("Level", "The test is", "Whose", "What for", numbers=("Level",)),
        rows=tuple(
            Row(cells=(figure(f"{level.level} mg/kg"), text(word), text(level.whose), text(level.what_for)))
            for level, word in zip(ground.LEAD_LEVELS, words, strict=True)
        ),
    )
    published = f"{number_word(len(words))} published levels"
    if "not known" in words:
        return Compared(answer="", table=table, fold="")
    if reached := len(words) - words.count("below"):
        answer = f"Lead of {lead} reaches {number_word(reached)} of {published}."
        return Compared(answer=answer, table=table, fold="")
    lowest = min(level.level for level in ground.LEAD_LEVELS)
    return Compared(
        answer=f"Lead of {lead} is below each of {published}, the lowest of them {lowest} mg/kg.",
        table=table,
        fold=f"{bed.title}: whose levels, and what they are for",
    )


def _ph(year: Year, bed: Bed, test: SoilTest) -> Compared | None:
    """Return a test's pH beside the range printed for each crop of the bed's season."""
    assert test.ph is not None  # asked for only then
    garden = year.garden
    sources = {one.id: one for one in garden.sources}
    found = tuple(ground.ph_beside_crops(year, bed, test.ph))
    if not found:
        return None
    rows, outside = [], []
    within = 0
    for crop, printed, word in found:
        name = names.listed_crop(garden, crop.slug, many=False)
        span = f"{float(printed.low or 0):g} to {float(printed.high or 0):g}"
        source = sources.get(printed.source)
        rows.append(
            Row(
                cells=(
                    link(name),
                    figure(span),
                    text(word),
                    text(source.publisher if source else printed.kind.value),
                )
            )
        )
        if word == "within":
            within += 1
        else:
            outside.append(f"{word} that for {name.text} ({span})")
    ph = f"pH {float(test.ph):g}"
    parts = [f"within the range printed for {counted(within, 'crop')} of {year.name}"] if within else []
    table = Table(
        ident=f"ph-{bed.name}",
        caption=f"{bed.title}: {ph} beside the range printed for each crop of {year.name}",
        heads=heads("Crop", "Range", "The test is", "Printed by", numbers=("Range",)),
        rows=tuple(rows),
    )
    return Compared(
        answer=f"{ph} is {listed([*parts, *outside], 'and')}.",
        table=table,
        fold=f"{bed.title}: pH crop by crop",
    )
