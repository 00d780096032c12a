"""Every check, in the order in which they run.

To add one: a function in a module of this folder, called as the code of its findings, and
its row here. A test spells the list out.
"""

from __future__ import annotations

from collections.abc import Collection
from functools import partial

from tallybed.checks import (
    counts,
    ledger,
    log,
    picked,
    plan,
    prices,
    rotation,
    sun,
    support,
    tags,
    unpublished,
    untold,
    waits,
)
from tallybed.checks.growing import frozen, heat, idle, left_standing, timing, transplants
from tallybed.checks.results import Check, CheckResult, advice
from tallybed.checks.weights import believed, unweighed
from tallybed.garden.findings import Finding, sorted_findings
from tallybed.garden.records.ledger import Weighing
from tallybed.garden.records.plan import PlanRow
from tallybed.reckoning.year import Year

CHECKS: tuple[Check, ...] = (
    waits.picked_inside_wait,
    waits.label_not_written_down,
    waits.manure_not_told,
    waits.counts_as_raw,
    waits.outside_temperature,
    waits.manure_and_giving,
    plan.double_held,
    plan.shares_above_one,
    plan.too_dense,
    plan.crowded,
    plan.too_narrow,
    support.no_run_out,
    support.no_support,
    support.low_support,
    support.run_out_elsewhere,
    support.run_out_short,
    plan.one_row,
    plan.no_such_season,
    plan.not_there_before,
    left_standing.not_carried_on,
    transplants.seedlings,
    transplants.sown_in_bed,
    heat.sown_into_heat,
    heat.out_of_its_time,
    heat.bulbs_too_late,
    timing.too_early,
    timing.too_late,
    timing.not_ripe,
    frozen.stood_through_freeze,
    idle.idle,
    idle.bed_without_record,
    rotation.same_family,
    rotation.out_of_reach,
    sun.too_little_sun,
    sun.shades_neighbours,
    log.late,
    log.never_planted,
    log.pulled_early,
    log.elsewhere,
    log.nothing_there,
    log.failed_after_up,
    log.told_nowhere,
    tags.tag_of_another_crop,
    ledger.weighed_before_planting,
    ledger.weighed_after_clearing,
    believed.implausible_weight,
    believed.piece_weight,
    ledger.one_place_two_names,
    counts.lost_too_many,
    counts.no_room_for_count,
    counts.other_variety,
    counts.logged_twice,
    counts.written_twice,
    counts.tended_after_clearing,
    picked.never_stood,
    picked.picked_elsewhere,
    picked.picked_too_soon,
    picked.more_than_planted,
    picked.weighed_twice,
    picked.heavier_cured,
    untold.none_stood,
    untold.planting_not_told,
    untold.kind_not_told,
    untold.counted_twice,
    unweighed.never_weighed,
    prices.price_far_off,
    unpublished.unfinished,
    unpublished.held,
)


def code_of(check: Check) -> str:
    """Return the code that a check's findings bear: its own name."""
    return check.__name__.replace("_", "-")


def every_finding(year: Year, codes: Collection[str] | None = None) -> tuple[Finding, ...]:
    """Run every check on a season; what a record silences is left out, what it silences in vain is told.

    ``codes``: run those checks alone. None is run twice on a year.
    """
    found: list[Finding] = []
    used: set[tuple[int, str]] = set()
    for check in CHECKS:
        code = code_of(check)
        if codes is None or code in codes:
            for record, finding in year.kept(("check", code), partial(_results, check, year)):
                if record is not None and finding.code in dict(record.silence):
                    used.add((id(record), finding.code))
                else:
                    found.append(finding)
    if codes is None:
        records: list[PlanRow | Weighing] = [*(year.season.plan or ()), *(year.season.ledger or ())]
        for row in records:
            found += [_in_vain(row, code) for code, _why in row.silence if (id(row), code) not in used]
    return sorted_findings(found)


def _results(check: Check, year: Year) -> tuple[CheckResult, ...]:
    return tuple(check(year))


def _in_vain(record: PlanRow | Weighing, code: str) -> Finding:
    """Return the finding that a record silences a code which nothing raises for it."""
    return advice(
        record.place,
        "silence-not-needed",
        f"`silence: {code}` keeps nothing quiet here",
        remedy="take it out",
    )
