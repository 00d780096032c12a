"""Plant tags to cut out: one for each planting, with its days so far and a code to its page."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from tallybed.garden.days import in_full, short
from tallybed.garden.plurals import figured
from tallybed.garden.records.log import Verb
from tallybed.garden.records.plan import Start
from tallybed.pages.frame import addresses
from tallybed.pages.frame.page import Page
from tallybed.pages.frame.trails import below_sheets
from tallybed.pages.frame.which_pages import tagged_seasons
from tallybed.pages.paper.papers import tags_title
from tallybed.pages.paper.scancodes import NO_ADDRESS, ScanCode, page_code
from tallybed.pages.wording import names
from tallybed.pages.wording.dated import in_season
from tallybed.pages.wording.sentences import counted
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.waits.spans import first_safe
from tallybed.reckoning.year import Year, Years

ON_A_SHEET = 10
"""Two across and five down, 93 by 51 mm each: what Letter and A4 both have between narrow margins."""
INDOORS, SOWN, POTTED, SET_OUT = "sown indoors", "sown", "potted up", "set out"


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """A day in a planting's life."""

    what: str
    day: str
    iso: str
    planned: bool
    """Whether the plan says so and no log does."""
    since: str
    """``21 days on``: days since the step before; nothing for the first."""
    reckoned: bool
    """Whether a planned day is part of that count."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlantTag:
    """One plant tag."""

    name: str
    botanical: str
    variety: str
    tag: str
    where: str
    """Squares and season."""
    steps: tuple[Step, ...]
    said: str
    """What stands in the place of days that nobody told."""
    waits: str
    """Until when it is not to be picked; empty where it does not wait."""
    code: ScanCode


def pages(years: Years) -> Iterator[Page]:
    """Yield the tags of the season that a visitor means and of the one to come; none without a bed."""
    seasons = tagged_seasons(years)
    if seasons:
        yield _page(seasons)


def _page(seasons: tuple[Year, ...]) -> Page:
    """Return the tags of some seasons, ten on a sheet and each season's on its own, as a page."""
    wanted = [(year, planting) for year in seasons for planting in _wanted(year)]
    tags = [(year, _tag(year, planting, number)) for number, (year, planting) in enumerate(wanted)]
    sheets: list[tuple[PlantTag, ...]] = []
    for year in seasons:
        own = tuple(tag for its, tag in tags if its is year)
        sheets += [own[first : first + ON_A_SHEET] for first in range(0, len(own), ON_A_SHEET)]
    told = tags_title(seasons).removeprefix("Plant tags for ")
    return Page(
        path=addresses.PLANT_TAGS,
        template="plant_tags.html",
        title=tags_title(seasons),
        description=f"Tags to cut out for the plantings of {told}: names, days so far, a code to scan.",
        kind="plant tags",
        data={
            "trail": below_sheets("Plant tags"),
            "lead": _lead(len(tags), len(sheets)),
            "sheets": tuple(sheets),
            "said": "" if seasons[0].garden.address or not tags else NO_ADDRESS,
            "garden": seasons[0].garden.name,
        },
    )


def _lead(tags: int, sheets: int) -> str:
    """Return how many tags and sheets there are, and what to do with them."""
    if not tags:
        return "No planting is on record for this season yet, so there is nothing to tag."
    count = counted(tags, "tag").capitalize()
    return f"{count} on {counted(sheets, 'sheet')}. Cut along the dashed lines. Days in italics are planned."


def _wanted(year: Year) -> list[Planting]:
    """Return the plantings to tag, in the order they begin; one dropped before it began needs none."""
    found = [planting for planting in year.plantings if not _dropped(planting)]
    return sorted(
        found, key=lambda planting: (next((day for _, day, _ in _days(planting)), date.min), planting.key)
    )


def _dropped(planting: Planting) -> bool:
    """Return whether a planting was dropped before anything was done for it."""
    return bool(planting.planned and planting.planned.dropped and not planting.events)


def _tag(year: Year, planting: Planting, number: int) -> PlantTag:
    """Return one planting's tag."""
    crop = year.crop_of(planting)
    name = crop.listed_one if crop else planting.crop.typed
    steps = tuple(_steps(planting))
    carried = planting.planned.carried_from if planting.planned else ""
    return PlantTag(
        name=name,
        botanical=crop.botanical_name if crop else "",
        variety=planting.variety,
        tag=planting.tag,
        where=_where(year, planting),
        steps=steps,
        said="" if steps or not carried else f"from {carried}",
        waits=_waits(year, planting),
        code=page_code(
            year.years,
            addresses.planting(planting),
            ident=f"code-{number + 1}",
            title=f"Code to scan: {name}",
        ),
    )


def _waits(year: Year, planting: Planting) -> str:
    """Return until when a planting is not to be picked."""
    found = year.waiting.of_planting(planting.key, year.today)
    any_, safe = first_safe(found)
    if not any_:
        return ""
    return f"before {in_full(safe)}" if safe else "not known: read the label"


def _where(year: Year, planting: Planting) -> str:
    """Return the squares it holds by log and plan together, and the season."""
    held = {hold.square for hold in year.holding.of_planting(planting.key)}
    return (
        f"{names.place_words(year.garden, held or planting.squares)}, {in_season(year).removeprefix('in ')}"
    )


def _steps(planting: Planting) -> Iterator[Step]:
    """Yield the days in a planting's life, each with the days since the one before."""
    before: date | None = None
    guessed = False
    for what, day, planned in _days(planting):
        since = f"{figured((day - before).days, 'day')} on" if before else ""
        guessed, reckoned = planned, planned or guessed
        yield Step(
            what=what,
            day=short(day),
            iso=day.isoformat(),
            planned=planned,
            since=since,
            reckoned=reckoned,
        )
        before = day


def _days(planting: Planting) -> list[tuple[str, date, bool]]:
    """Return (what, day, planned) of sowing, potting up and setting out: the log's day, else the plan's."""
    plan = planting.planned
    begins = {plan.start: plan.begins} if plan else {}
    found = []
    for what, verbs, meant in (
        (INDOORS, (Verb.SOW_INDOORS,), plan.sow_indoors if plan else None),
        (SOWN, (Verb.SOW,), begins.get(Start.SOW)),
        (POTTED, (Verb.POT_UP,), plan.pot_up if plan else None),
        (SET_OUT, (Verb.SET_OUT,), begins.get(Start.SET_OUT)),
    ):
        told = min((event.day for event in planting.events if event.verb in verbs), default=None)
        day = told or meant
        if day:
            found.append((what, day, told is None))
    return sorted(found, key=lambda step: step[1])
