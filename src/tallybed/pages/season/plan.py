"""The plan of a season: what is meant to stand where, and when."""

from __future__ import annotations

from collections.abc import Iterator

from tallybed.garden.days import short, without_year
from tallybed.garden.garden import Garden
from tallybed.garden.records.plan import PlanRow, Start
from tallybed.pages.care.outlook import outlook
from tallybed.pages.care.plan_notes import plan_notes
from tallybed.pages.drawings.strips import plan_strips
from tallybed.pages.frame import addresses
from tallybed.pages.frame.other_seasons import seasons_beside
from tallybed.pages.frame.page import Link, Page
from tallybed.pages.season.plantings import plantings_link
from tallybed.pages.tables.tables import Cell, Row, Table, figure, heads, text, without_empty_columns
from tallybed.pages.wording import names
from tallybed.pages.wording.sentences import EMPTY_PLAN, counted, number_word, sentence
from tallybed.reckoning.year import Year, Years

LEAD = (
    "The plan stays as it was written; the log says what came of it. Each row is one planting: one crop "
    "in some squares over one span of days. A square is free again on the day it is cleared."
)
_BEGINS = {Start.SOW: "sow", Start.SET_OUT: "set out"}


def paths(years: Years) -> Iterator[str]:
    """Yield where the plan of each season lies that has one."""
    return (addresses.plan(year) for year in years.all if year.season.plan is not None)


def pages(years: Years) -> Iterator[Page]:
    """Yield the plan of each season that has one."""
    for year in years.own:
        if year.season.plan is not None:
            yield _page(year, year.season.plan)


def summary(plan: tuple[PlanRow, ...]) -> str:
    """Return ``Twenty-seven plantings of 19 crops are planned`` and what was dropped, as one sentence."""
    if not plan:
        return EMPTY_PLAN
    crops = len({plan_row.crop for plan_row in plan})
    dropped = sum(plan_row.dropped is not None for plan_row in plan)
    planned = f"{counted(len(plan), 'planting')} of {counted(crops, 'crop')}"
    left = f"{number_word(dropped)} of them dropped since" if dropped else ""
    return sentence(planned, left)


def plan_table(year: Year, *, ident: str, caption: str) -> Table:
    """Return the plan's plantings as a table, by the day they come into the bed."""
    garden, plan = year.garden, year.season.plan or ()
    own = {
        id(planting.planned): addresses.planting(planting) for planting in year.plantings if planting.planned
    }
    ordered = sorted(plan, key=lambda plan_row: (plan_row.begins, plan_row.crop, plan_row.squares))
    return without_empty_columns(
        Table(
            ident=ident,
            caption=caption,
            heads=heads(
                *("Planting", "In the bed", "Clear", "Indoors", "Plants", "Notes"),
                numbers=("Plants",),
            ),
            rows=tuple(_row(garden, plan_row, own.get(id(plan_row), "")) for plan_row in ordered),
        )
    )


def _row(garden: Garden, plan_row: PlanRow, to: str) -> Row:
    """Return one planting of the plan."""
    base = names.crop_link(garden, plan_row.crop, many=False)
    return Row(
        cells=(
            Cell(
                text=names.full_name(base.text, plan_row.variety, plan_row.tag),
                to=to or base.to,
                note=names.place_words(garden, plan_row.squares),
            ),
            text(_begins(plan_row)),
            text(without_year(plan_row.until) if plan_row.until_told else "at the season’s end"),
            text(_indoors(plan_row)),
            figure(f"{plan_row.plants:,}" if plan_row.plants is not None else ""),
            text(_notes(garden, plan_row)),
        ),
        mark="dropped" if plan_row.dropped else "",
    )


def _link(year: Year) -> Link | None:
    """Return the link to a season's plan; None where it has none."""
    return Link(f"Plan for {year.name}", addresses.plan(year)) if year.season.plan is not None else None


def _begins(plan_row: PlanRow) -> str:
    """Return how and when a planting comes into the bed."""
    if plan_row.start is Start.CARRIED:
        return f"stands from {plan_row.carried_from}"
    return f"{_BEGINS[plan_row.start]} {without_year(plan_row.begins)}"


def _indoors(plan_row: PlanRow) -> str:
    """Return what is done for it indoors, and when."""
    parts = []
    if plan_row.sow_indoors:
        parts.append(f"sow {short(plan_row.sow_indoors)}")
    if plan_row.pot_up:
        parts.append(f"pot up {short(plan_row.pot_up)}")
    return ", ".join(parts)


def _notes(garden: Garden, plan_row: PlanRow) -> str:
    """Return what else the plan tells of a planting."""
    parts = []
    if plan_row.dropped:
        why = f": {plan_row.because}" if plan_row.because else ""
        parts.append(f"dropped {without_year(plan_row.dropped)}{why}")
    if plan_row.among:
        parts.append(f"among {names.crop_link(garden, plan_row.among).text}")
    if plan_row.share is not None:
        parts.append(f"takes {plan_row.share} of each square")
    if plan_row.spacing:
        parts.append(f"spaced {garden.showing.length(plan_row.spacing)}")
    if plan_row.led_out:
        reach = garden.showing.length(plan_row.led_out.reach)
        parts.append(f"led out {reach} over side {plan_row.led_out.side}")
    if plan_row.note:
        parts.append(plan_row.note)
    return "; ".join(parts)


def _page(year: Year, plan: tuple[PlanRow, ...]) -> Page:
    """Return a season's plan as a page."""
    table = plan_table(year, ident="plan", caption=f"Plantings of {year.name}")
    return Page(
        path=addresses.plan(year),
        template="plan.html",
        title=f"Plan for {year.name}",
        description=f"What is meant to stand in each square in {year.name}, from when until when.",
        kind="plan",
        data={
            "trail": (Link(f"Season {year.name}", addresses.season(year)), Link("Plan", "")),
            "lead": LEAD,
            "summary": summary(plan),
            "table": table if plan else None,
            "strips": plan_strips(year, addresses.plan(year)),
            "plantings": plantings_link(year),
            "seeds_to": addresses.seeds(year) if plan else "",
            "outlook": outlook(year),
            "told": plan_notes(year),
            **seasons_beside(year, _link),
        },
    )
