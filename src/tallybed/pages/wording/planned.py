"""What the plan says of its plantings, in words: as a whole, and row by row."""

from __future__ import annotations

from tallybed.garden.days import short, without_year
from tallybed.garden.garden import Garden
from tallybed.garden.naming import variety_of
from tallybed.garden.plurals import figured
from tallybed.garden.records.plan import PlanRow, Start
from tallybed.pages.wording import names
from tallybed.pages.wording.apart import distance
from tallybed.pages.wording.sentences import EMPTY_PLAN, counted, number_word, sentence

BEGINS = {Start.SOW: "sow", Start.SET_OUT: "set out"}


def summary(plan: tuple[PlanRow, ...]) -> str:
    """Return ``Twenty-seven plantings of 19 crops are planned`` and what was dropped, as one sentence."""
    if not plan:
        return EMPTY_PLAN
    crops = len({plan_row.crop for plan_row in plan})
    dropped = sum(plan_row.dropped is not None for plan_row in plan)
    planned = f"{counted(len(plan), 'planting')} of {counted(crops, 'crop')}"
    left = f"{number_word(dropped)} of them dropped since" if dropped else ""
    return sentence(planned, left)


def meant(plan_row: PlanRow) -> str:
    """Return when a planting is meant to come into the bed, and when its squares are free again."""
    clear = f"clear {without_year(plan_row.until)}" if plan_row.until_told else "to the season’s end"
    return f"{_begins(plan_row)}, {clear}"


def besides(garden: Garden, plan_row: PlanRow) -> str:
    """Return what else the plan tells of a planting; empty where it tells no more."""
    return "; ".join(_besides(garden, plan_row))


def _begins(plan_row: PlanRow) -> str:
    """Return how and when a planting comes into the bed."""
    if plan_row.start is Start.CARRIED:
        return f"stands from {plan_row.carried_from}"
    return f"{BEGINS[plan_row.start]} {without_year(plan_row.begins)}"


def _spaced(garden: Garden, plan_row: PlanRow) -> str:
    """Return how far apart its plants are meant to stand, then their number: ``4 in apart, 36 plants``."""
    crop = garden.crop(plan_row.crop)
    variety = variety_of(crop, plan_row.variety)
    spacing = plan_row.spacing or (variety.spacing if variety else None) or crop.spacing
    parts = [f"{distance(garden.showing, spacing)} apart"] if spacing else []
    parts += [figured(plan_row.plants, "plant")] if plan_row.plants is not None else []
    return ", ".join(parts)


def _besides(garden: Garden, plan_row: PlanRow) -> list[str]:
    """Return the parts of what else the plan tells."""
    parts = []
    if plan_row.sow_indoors:
        parts.append(f"sow indoors {short(plan_row.sow_indoors)}")
    if plan_row.pot_up:
        parts.append(f"pot up {short(plan_row.pot_up)}")
    if spaced := _spaced(garden, plan_row):
        parts.append(spaced)
    if plan_row.dropped:
        why = f": {plan_row.because}" if plan_row.because else ""
        parts.append(f"dropped {without_year(plan_row.dropped)}{why}")
    if plan_row.among:
        parts.append(f"among {names.crop_link(garden, plan_row.among).text}")
    if plan_row.share is not None:
        parts.append(f"takes {plan_row.share} of each square")
    if plan_row.led_out:
        reach = garden.showing.length(plan_row.led_out.reach)
        parts.append(f"led out {reach} over side {plan_row.led_out.side}")
    if plan_row.note:
        parts.append(plan_row.note)
    return parts
