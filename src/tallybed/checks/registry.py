"""Every check, in the order in which they run.

To add one: a function in a module of this folder, and its row here. A test spells
the list out.
"""

from __future__ import annotations

from tallybed.checks import counts, ledger, log, picked, plan, rotation, sun, support, unpublished, waits
from tallybed.checks.growing import heat, idle, timing, transplants
from tallybed.checks.results import Check, advice
from tallybed.checks.weights import believed
from tallybed.garden.findings import Finding, sorted_findings
from tallybed.garden.records.ledger import Weighing
from tallybed.garden.records.plan import PlanRow
from tallybed.reckoning.year import Year

CHECKS: tuple[Check, ...] = (
    waits.picked_inside,
    waits.wait_not_written,
    waits.manure_not_told,
    waits.counts_as_raw,
    waits.outside_temperature,
    waits.manure_for_giving,
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
    transplants.seedlings,
    transplants.sown_in_bed,
    heat.sown_into_heat,
    heat.out_of_its_time,
    heat.bulbs_too_late,
    timing.too_early,
    timing.too_late,
    timing.not_ripe,
    idle.idle,
    rotation.rotation,
    rotation.out_of_reach,
    sun.too_little_sun,
    sun.shades_neighbours,
    log.late,
    log.never_planted,
    log.pulled_early,
    log.elsewhere,
    ledger.before_planting,
    ledger.after_clearing,
    believed.implausible,
    believed.piece_weight,
    ledger.one_place_twice,
    counts.lost_too_many,
    counts.no_room_for_count,
    counts.other_variety,
    counts.logged_twice,
    counts.tended_after_clearing,
    picked.never_stood,
    picked.picked_elsewhere,
    picked.too_soon,
    picked.too_many,
    picked.weighed_twice,
    picked.heavier_cured,
    unpublished.unfinished,
    unpublished.held,
)


def every_finding(year: Year) -> tuple[Finding, ...]:
    """Run every check on a season; what a record silences is left out, what it silences in vain is told."""
    found: list[Finding] = []
    used: set[tuple[int, str]] = set()
    for check in CHECKS:
        for record, finding in check(year):
            if record is not None and finding.code in dict(record.silence):
                used.add((id(record), finding.code))
            else:
                found.append(finding)
    records: list[PlanRow | Weighing] = [*(year.season.plan or ()), *(year.season.ledger or ())]
    for row in records:
        found += [_in_vain(row, code) for code, _why in row.silence if (id(row), code) not in used]
    return sorted_findings(found)


def _in_vain(record: PlanRow | Weighing, code: str) -> Finding:
    """Return the finding that a record silences a code which nothing raises for it."""
    return advice(
        record.place,
        "silence-not-needed",
        f"`silence: {code}` keeps nothing quiet here",
        remedy="take it out",
    )
