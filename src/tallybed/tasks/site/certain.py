"""What is told because no record speaks of it, as far as every record could be understood."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from tallybed.garden.findings import Finding, Severity

_PLAN, _LOG, _LEDGER = "plan.yaml", "log/", "harvest.yaml"
_UNDER_ALL: Final = ("crops.yaml", "names.yaml", "garden.yaml")
"""The files that give crops their names, and the garden its beds and the bounds of its seasons.

Without a crop, a name or a bed no record of it is understood, and without its season a day such as
"Feb 1" may be put into the wrong year.
"""
_RESTS_ON: Final = {
    "bed-without-record": (_PLAN, _LOG, _LEDGER),
    "idle": (_PLAN,),
    "never-planted": (_LOG, _LEDGER),
    "never-stood": (_PLAN, _LOG),
    "not-carried-on": (_PLAN, _LOG),
    "not-there-before": (_PLAN, _LOG),
    "nothing-there": (_PLAN, _LOG),
    "picked-elsewhere": (_PLAN, _LOG),
    "silence-not-needed": (_PLAN, _LOG, _LEDGER),
    **dict.fromkeys(("bulbs-too-late", "double-held", "not-ripe", "out-of-its-time"), _UNDER_ALL),
    **dict.fromkeys(("sown-into-heat", "too-early", "too-late"), _UNDER_ALL),
}
"""Codes that say of something that it is not there, and the files of its season that it may be in; and those
that hold a plan's days against each other and the year's, which rest on the files under all alone."""
_OF_EARLIER: Final = frozenset({"not-carried-on", "not-there-before"})
"""Codes among them that are told in a season and say it of one before."""


def certain(doubts: Iterable[Finding], read: Iterable[Finding]) -> tuple[Finding, ...]:
    """Return the doubts that hold whatever the records say that could not be understood.

    ``read``: what was found in reading. The rest is told once its errors are mended.
    """
    broken = {one.place.file for one in read if one.severity is Severity.ERROR}
    return tuple(one for one in doubts if not any(_rests_on(one, file) for file in broken))


def _rests_on(doubt: Finding, file: str) -> bool:
    """Return whether a doubt may be of something that a file says.

    One told at a bed is of any season, and a crop is of every season.
    """
    season, name = _season_and_name(file)
    own, _name = _season_and_name(doubt.place.file)
    rests_on = _RESTS_ON.get(doubt.code, ())
    alike = not season or own in ("", season) or doubt.code in _OF_EARLIER
    return bool(rests_on) and alike and name.startswith((*rests_on, *_UNDER_ALL))


def _season_and_name(file: str) -> tuple[str, str]:
    """Return the season of a file, empty where it is of none, and its name in its folder."""
    above, season, name = ("", "", *file.split("/", 2))[-3:]
    return (season, name) if above else ("", name)
