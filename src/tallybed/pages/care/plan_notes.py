"""What the plan was told: the findings about a plan that is still ahead or under way, in calm words.

Pages get findings as values. Those that concern the public are the ones named here;
the rest are between the gardener and the command.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from tallybed.garden.findings import Severity
from tallybed.pages.wording.sentences import sentence
from tallybed.reckoning.year import Year


@dataclass(frozen=True, slots=True, kw_only=True)
class Calm:
    """How a finding is told on a page."""

    usual: str
    """What stands before the finding's expectation; empty where that is for the gardener alone."""
    remedy: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanNote:
    """One thing that the plan was told."""

    weight: str
    """``look again`` for what is likely a mistake or a loss, ``a thought`` for what is worth knowing."""
    found: str
    usual: str
    remedy: str


CALM: Mapping[str, Calm] = MappingProxyType(
    {
        "too-early": Calm(usual="usual here", remedy="It may wait for warmer days, or start under a cover."),
        "too-late": Calm(usual="usual here", remedy="It may want a quicker variety, or a cover at its end."),
        "not-ripe": Calm(usual="it needs", remedy="Give it longer, start it sooner, or expect less of it."),
        "too-dense": Calm(usual="usual", remedy="Plant fewer, or thin them early."),
        "too-narrow": Calm(usual="", remedy="It may want squares side by side, or a smaller kind."),
        "crowded": Calm(usual="", remedy="Fewer of each, or one of them pulled while it is young."),
        "seedlings": Calm(usual="usual", remedy="Its days indoors may be moved."),
        "sown-in-bed": Calm(usual="usual", remedy="It may want to be started indoors."),
        "sown-into-heat": Calm(usual="better", remedy="It may wait for cooler days, or stand in shade."),
        "out-of-its-time": Calm(usual="usual here", remedy="It may wait for the fall, or be for its greens."),
        "bulbs-too-late": Calm(usual="better", remedy="It may be pulled green."),
        "one-row": Calm(usual="better", remedy="A block of it would be pollinated better."),
        "idle": Calm(usual="", remedy="Something may still go in there, or the ground rests."),
        "same-family": Calm(
            usual="better",
            remedy="Other squares would suit it; if it stays, watch for what troubles its family.",
        ),
        "double-held": Calm(usual="", remedy="One of them moves, or they share the ground on purpose."),
        "shares-above-one": Calm(usual="", remedy="One of them gets less room than is planned."),
        "no-run-out": Calm(usual="", remedy="Lead the vines out over a side, or up a trellis."),
        "no-support": Calm(usual="", remedy="Give it strings, brush or a trellis."),
        "low-support": Calm(usual="it grows", remedy="Give it something higher to climb, or a low kind."),
        "run-out-elsewhere": Calm(usual="", remedy="Lead it out over the side that it stands at."),
        "run-out-short": Calm(usual="it runs", remedy="Turn the vines back as they grow."),
    }
)
"""Findings about the plan itself, by code. Add one here: a row."""
_WEIGHTS = {Severity.WARNING: "look again", Severity.ADVICE: "a thought"}


def plan_notes(year: Year) -> tuple[PlanNote, ...]:
    """Return what a season's plan was told, the weightier first; nothing once the season is over."""
    if year.is_over:
        return ()
    found = tuple(_notes(year))
    return tuple(sorted(found, key=lambda one: list(_WEIGHTS.values()).index(one.weight)))


def _notes(year: Year) -> Iterator[PlanNote]:
    """Yield the findings the public may read, in its words."""
    for finding in year.findings_of(CALM):
        calm = CALM.get(finding.code)
        if calm and finding.severity in _WEIGHTS:
            yield PlanNote(
                weight=_WEIGHTS[finding.severity],
                found=sentence(finding.found),
                usual=sentence(f"{calm.usual}: {finding.expected}")
                if calm.usual and finding.expected
                else "",
                remedy=calm.remedy,
            )
