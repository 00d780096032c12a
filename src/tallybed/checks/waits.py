"""Treatments and manure: pickings from inside a wait, and what the label says that nobody wrote down.

No row of plan or ledger silences these: they protect people.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from tallybed.checks.results import CheckResult, advice, warning
from tallybed.garden.days import without_year
from tallybed.garden.records.ledger import Weighing, one_place
from tallybed.garden.records.log import SPREADING, WAITED_AFTER, Event, Verb
from tallybed.garden.records.treatment import Manure
from tallybed.reckoning.waits.manure import is_raw, is_unsaid
from tallybed.reckoning.waits.pickings import DISCARDED, is_discarded
from tallybed.reckoning.waits.season import UNTOLD
from tallybed.reckoning.waits.temperatures import outside_limits
from tallybed.reckoning.waits.words import may_be_from, safe_words
from tallybed.reckoning.year import Year


def picked_inside_wait(year: Year) -> Iterator[CheckResult]:
    """Find pickings that may come from inside a wait and were not discarded: told before all else."""
    ledger = year.season.ledger or ()
    for place, waits in year.waiting.inside.items():
        row = ledger[place]
        if is_discarded(row) or row.told_on > year.today:
            continue
        finding = warning(
            row.place,
            "picked-inside-wait",
            f"this was picked on {without_year(row.day)}, and may come from {may_be_from(waits)}",
            expected=safe_words(waits),
            remedy="see that nobody eats it and write `to: discarded`; or correct day, squares or wait",
        )
        yield None, replace(finding, first=True)


def label_not_written_down(year: Year) -> Iterator[CheckResult]:
    """Find treatments with a label of which the wait or the re-entry is not written down."""
    for event in year.waiting.ground.events:
        told = event.treatment or UNTOLD
        if event.verb is not Verb.TREAT or not told.has_label:
            continue
        keys = (("wait", told.wait, "do not pick"), ("re-entry", told.reentry, "keep off"))
        missing = [name for name, value, _words in keys if value is None]
        if missing:
            words = ", ".join(words for _name, value, words in keys if value is None)
            yield (
                None,
                warning(
                    event.place,
                    "label-not-written-down",
                    f"the label’s {' and '.join(missing)} {'is' if len(missing) == 1 else 'are'} not written"
                    f" down, so the site says: not known, {words}",
                    expected="wait: and re-entry: as on the label; or kind: by hand, barrier or water",
                    remedy="read the label of that very product and write it in",
                ),
            )


def manure_not_told(year: Year) -> Iterator[CheckResult]:
    """Find compost of which nobody says what of animals is in it.

    Where the garden is written in another language than English, find whatever was dug in or fed: its words
    for manure may not be known, and silence would be a guess.
    """
    english = year.garden.language.casefold().split("-")[0] == "en"
    for event in year.waiting.ground.events:
        told = event.manure is not None or is_raw(event)
        if is_unsaid(event) or not (told or english or event.verb not in WAITED_AFTER & SPREADING):
            what = "in the compost" if is_unsaid(event) else f"in “{event.subject}”"
            yield (
                None,
                advice(
                    event.place,
                    "manure-not-told",
                    f"the line does not say whether anything of animals is {what}; no wait begins",
                    expected="manure: none, raw or composted",
                    remedy="ask whoever made it" if is_unsaid(event) else "write it in",
                ),
            )


def counts_as_raw(year: Year) -> Iterator[CheckResult]:
    """Find composted manure that counts as raw, because its heat was not recorded, or was too little."""
    for event in year.waiting.ground.events:
        if event.manure is Manure.COMPOSTED and is_raw(event):
            yield (
                None,
                advice(
                    event.place,
                    "counts-as-raw",
                    f"compost with manure whose heat {_heat_words(event)} counts as raw manure",
                    expected="heat: in words, at 131 to 170 °F (55 to 77 °C) for 3 days in a vessel or "
                    "static pile, or for 15 days with five turnings in a windrow (7 CFR 205.203(c)(2))",
                    remedy="write its heat in if somebody recorded it; else wait",
                ),
            )


def _heat_words(event: Event) -> str:
    """Return why the heat of a line does not count."""
    figured = any(sign.isdigit() for sign in event.heat)
    return "is not told as within the rule" if figured else "was not recorded"


def outside_temperature(year: Year) -> Iterator[CheckResult]:
    """Find treatments at a temperature outside what is printed for their kind."""
    for event in year.waiting.ground.events:
        sky = year.season.weather_on(event.day)
        words = outside_limits(event, sky) if event.verb is Verb.TREAT else ""
        if words:
            yield (
                None,
                advice(
                    event.place,
                    "outside-temperature",
                    words,
                    expected="what the label says",
                    remedy="look at the leaves for damage, and read the label before the next time",
                ),
            )


OWN = frozenset(
    f"{whose}{place}"
    for whose in ("", "own ", "my ", "our ")
    for place in ("kitchen", "home", "house", "compost")
) | {"us", "ourselves", "self", "me", "myself", DISCARDED}
"""Destinations, as people write them, that are nobody else: what went there was not given away."""


def _is_given(row: Weighing) -> bool:
    """Return whether any of a picking went to others."""
    return any(one_place(part.name) not in OWN for part in row.to)


def manure_and_giving(year: Year) -> Iterator[CheckResult]:
    """Find manure of this season under produce that was given away."""
    given = [row for row in year.season.ledger or () if _is_given(row)]
    for event in year.waiting.ground.events:
        animals = is_raw(event) or event.manure is Manure.COMPOSTED
        if not animals or not any(row.day >= event.day for row in given):
            continue
        yield (
            None,
            advice(
                event.place,
                "manure-and-giving",
                "manure, or compost with something of animals in it, was put down in a season whose produce "
                "goes to others",
                expected="only after the season before has ended, for produce to be given away (University "
                "of New Hampshire Extension)",
                remedy="ask the pantry before you bring anything from there",
            ),
        )
