"""Doubts about the plan: the findings about a plan that is still ahead or under way, in calm words.

Pages get findings as values. Those that concern the public are the ones named here;
the rest are between the gardener and the command.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType

from tallybed.garden.findings import Severity
from tallybed.garden.garden import Garden
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
    """Empty where the next note has the same."""


CALM: Mapping[str, Calm] = MappingProxyType(
    {
        "too-early": Calm(usual="usual here", remedy="Warmer days would suit, or a cover."),
        "too-late": Calm(usual="usual here", remedy="A quicker variety would suit, or a cover at the end."),
        "not-ripe": Calm(usual="it needs", remedy="Give it longer, start it sooner, or expect less."),
        "too-dense": Calm(usual="usual", remedy="Plant fewer, or thin them early."),
        "too-narrow": Calm(usual="", remedy="Squares side by side would suit, or a smaller kind."),
        "crowded": Calm(usual="", remedy="Fewer of each, or one of them pulled while it is young."),
        "seedlings": Calm(usual="usual", remedy="The days indoors may be moved."),
        "sown-in-bed": Calm(usual="usual", remedy="A start indoors would suit."),
        "sown-into-heat": Calm(usual="better", remedy="Cooler days would suit, or shade."),
        "out-of-its-time": Calm(usual="usual here", remedy="Sow for the fall, or for the greens."),
        "bulbs-too-late": Calm(usual="better", remedy="It may be pulled green."),
        "one-row": Calm(usual="better", remedy="A block of it would be pollinated better."),
        "idle": Calm(usual="", remedy="Something may still go in there, or the ground rests."),
        "same-family": Calm(
            usual="better",
            remedy="Other squares would suit; else watch for what troubles the family.",
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
_ORDER = [(weight, calm.remedy) for weight in _WEIGHTS.values() for calm in CALM.values()]
_RUN = r"[A-Z]{1,2}\d+(?::[A-Z]{1,2}\d+)?"
"""One square, or a run or block of them."""


def plan_notes(year: Year) -> tuple[PlanNote, ...]:
    """Return what a season's plan was told, the weightier first; nothing once the season is over.

    Findings of one kind stand together, and what may be done about them stands once, after the last.
    """
    if year.is_over:
        return ()
    found = sorted(_notes(year), key=lambda one: _ORDER.index((one.weight, one.remedy)))
    following = (*(one.remedy for one in found[1:]), "")
    return tuple(
        replace(one, remedy="" if one.remedy == after else one.remedy)
        for one, after in zip(found, following, strict=False)  # of none there is one too many
    )


def _notes(year: Year) -> Iterator[PlanNote]:
    """Yield the findings the public may read, in its words."""
    for finding in year.findings_of(CALM):
        calm = CALM.get(finding.code)
        if calm and finding.severity in _WEIGHTS:
            yield PlanNote(
                weight=_WEIGHTS[finding.severity],
                found=sentence(_placed(year.garden, finding.found)),
                usual=sentence(f"{calm.usual}: {finding.expected}")
                if calm.usual and finding.expected
                else "",
                remedy=calm.remedy,
            )


def _placed(garden: Garden, found: str) -> str:
    """Return a finding with its squares as pages name them: ``A1:B2 of the long bed`` for ``long/A1:B2``."""
    beds = (*garden.beds, *garden.elsewhen)
    called = {bed.name: f" of {bed.called}" if len(beds) > 1 else "" for bed in beds}
    if not called:
        return found
    names = "|".join(map(re.escape, called))
    return re.sub(
        rf"(?<!\w)({names})/({_RUN}(?:, {_RUN})*)", lambda told: f"{told[2]}{called[told[1]]}", found
    )
