"""Every sentence that states an absence or a total, each with a garden in which it would be false.

``says`` is what must stand on the page instead. A sentence of ``wording/sentences.py`` that states
an absence and has no case here fails the last test.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path

import pytest

from tallybed.pages import catalogue
from tallybed.pages.wording import sentences as told
from tallybed.publishing.rendering import Rendering
from tests.pages.gardens import parsed, site_of, written

ONE = """\
name: One Plank
latitude: 41
longitude: -80
season: {start: Mar 1, end: Oct 31}
seasons: {2025: {closed: yes}}
beds: [{name: plank, title: The plank, length: 4 squares, width: 2 squares}]
"""
TWO = ONE.replace("beds: [", "beds: [{name: far, title: The far bed, length: 1 squares, width: 1 squares}, ")
NO_BED = ONE.partition("beds:")[0]
LOG = "---\ntitle: A look\ndate: {day}\n{more}done:\n{done}---\nMud.\n"


def visit(day: str, *done: str, more: str = "") -> dict[str, str]:
    """Return an entry with its lines of work."""
    lines = "".join(f"  - {one}\n" for one in done)
    return {f"2026/log/{day}-look.md": LOG.format(day=day, done=lines or "  []\n", more=more)}


def ledger(*rows: str, year: int = 2026) -> dict[str, str]:
    """Return a ledger."""
    return {f"{year}/harvest.yaml": "".join(f"- {{{row}}}\n" for row in rows) or "[]\n"}


def plan(*rows: str) -> dict[str, str]:
    """Return a plan."""
    return {"2026/plan.yaml": "".join(f"- {{{row}}}\n" for row in rows) or "[]\n"}


SPINACH = "crop: spinach, tag: SP1, squares: A1, sow: Apr 5, until: Jun 1"
SECOND = "crop: spinach, tag: SP2, squares: B1, sow: Apr 5, until: Jun 1"
LOOSE = "date: 2026-05-10, crop: spinach, weight: 1 lb"
BEANS = "date: 2026-07-10, crop: beans, weight: 1 lb"
HERB = "date: 2026-05-10, crop: basil, weight: not weighed"
CURED = "date: 2026-07-10, crop: garlic, state: cured, weighed: 2026-08-10, weight: 1 lb"
BOWL = "date: 2026-05-10, mixed: [spinach, radish], weight: 1 lb"


@dataclass(frozen=True, kw_only=True)
class Case:
    """A sentence, a garden in which it would be false, and where it would stand."""

    untrue: str
    """What the page must not say."""
    kind: str
    """The kind of page."""
    files: dict[str, str] = field(default_factory=dict)
    page: str = ""
    """A part of the page's path; empty for every page of the kind."""
    says: str = ""
    """What must be said instead, on one of them."""
    garden: str = ONE


CASES = {
    "no season: there is one, with nothing in it": Case(
        untrue=told.NO_SEASON, kind="home", files={"2026/names.yaml": "beans: bean-bush\n"}, says=told.NO_PLAN
    ),
    "no bed: there is one": Case(untrue=told.NO_BEDS, kind="home", files=plan(SPINACH)),
    "a bed: there is none": Case(
        untrue="The plank", kind="home", garden=NO_BED, files=ledger(LOOSE), says=told.NO_BEDS
    ),
    "no plan: there is one, without a planting": Case(
        untrue=told.NO_PLAN, kind="season", files=plan(), says=told.EMPTY_PLAN
    ),
    "an empty plan: a row was dropped": Case(
        untrue=told.EMPTY_PLAN, kind="season", files=plan(f"{SPINACH}, dropped: Apr 9, because: rain")
    ),
    "no log: there is one, and its entry waits": Case(
        untrue=told.NO_LOG,
        kind="season",
        files=visit("2026-05-01", "{weed: bed}", more="unfinished: yes\n"),
        says=told.EMPTY_LOG,
    ),
    "an empty log: an entry can be read": Case(
        untrue=told.EMPTY_LOG, kind="season", files=visit("2026-05-01", "{weed: bed}")
    ),
    "no ledger: there is one, without a weighing": Case(
        untrue=told.NO_LEDGER, kind="season", files=ledger(), says=told.EMPTY_LEDGER
    ),
    "no ledger: the season has not begun": Case(
        untrue=told.NO_LEDGER,
        kind="season",
        files=plan(SPINACH) | ledger("date: 2025-05-10, crop: spinach, weight: 1 lb", year=2025),
        page="/2026/",
        says="still to come",
    ),
    "no ledger of a crop: the season has not begun": Case(
        untrue=told.NO_LEDGER,
        kind="crop",
        files=plan(SPINACH) | ledger("date: 2025-05-10, crop: spinach, weight: 1 lb", year=2025),
        page="/spinach/",
        says=told.NOT_BEGUN,
    ),
    "no ledger of a planting: the season has not begun": Case(
        untrue=told.NO_LEDGER,
        kind="planting",
        files=plan(SPINACH) | ledger("date: 2025-05-10, crop: spinach, weight: 1 lb", year=2025),
        page="/SP1/",
        says=told.NOT_BEGUN,
    ),
    "an empty ledger: a picking nobody weighed is in it": Case(
        untrue=told.EMPTY_LEDGER, kind="season", files=ledger(HERB), says="One picking, not weighed."
    ),
    "nothing due: a job was due last week": Case(
        untrue=told.NOTHING_DUE,
        kind="home",
        files=plan("crop: carrot, tag: CA1, squares: A2, sow: Apr 28, until: Aug 1")
        | visit("2026-05-03", "{weed: bed}"),
        says="Late: no record says it was done 28 April sow carrot",
    ),
    "no record of growing it: beans may be of it": Case(
        untrue=told.NO_HISTORY,
        kind="crop",
        page="/bean-pole/",
        files=visit("2026-05-20", "{sow: beans, squares: plank/A1}"),
        says="what is on record as “beans” may be of it",
    ),
    "no picking of a crop: beans were picked": Case(
        untrue=told.NONE_PICKED,
        kind="crop",
        page="/bean-bush/",
        files=plan(
            "crop: bean-bush, tag: BB1, squares: A1, sow: May 20",
            "crop: bean-pole, tag: BP1, squares: B1, sow: May 20",
        )
        | ledger(BEANS),
        says="One picking of “beans” may be of it: which kind it was was not told.",
    ),
    "no picking of a crop: it is in a bowl": Case(
        untrue=told.NONE_PICKED,
        kind="crop",
        page="/spinach/",
        files=plan(SPINACH) | ledger(BOWL),
        says=f"{told.NONE_PICKED_ALONE} It was in one mixed bowl",
    ),
    "no picking of it alone: there is one, beside the bowl": Case(
        untrue=told.NONE_PICKED_ALONE,
        kind="crop",
        page="/spinach/",
        files=plan(SPINACH) | ledger(BOWL, f"{LOOSE}, tag: SP1"),
        says="It was also in one mixed bowl",
    ),
    "no picking of a planting: one names neither of two": Case(
        untrue=told.NONE_PICKED,
        kind="planting",
        page="/SP1/",
        files=plan(SPINACH, SECOND) | ledger(LOOSE),
        says="No picking names this planting. One picking that may be of it does not say which",
    ),
    "from one picking: another may be of it": Case(
        untrue="from one picking. That is",
        kind="planting",
        page="/SP1/",
        files=plan(SPINACH, SECOND) | ledger(LOOSE, f"{LOOSE}, tag: SP1"),
        says="from one picking. One more picking that may be of it does not say which planting it came from.",
    ),
    "days so far to the first picking: it may have been picked": Case(
        untrue="to the first picking",
        kind="planting",
        page="/SP1/",
        files=plan(SPINACH, SECOND)
        | ledger(LOOSE, "date: 2026-05-30, crop: radish, weight: 1 oz")
        | visit("2026-04-05", "{sow: spinach, tag: SP1, squares: plank/A1}"),
    ),
    "at least 0.0: nothing was weighed": Case(
        untrue="at least 0.0",
        kind="tally",
        files=ledger(HERB, HERB),
        says="Two pickings, none of them weighed.",
    ),
    "per square foot: nobody knows of which": Case(
        untrue="per sq ft", kind="season", files=ledger(LOOSE), says="1.0 lb"
    ),
    "every picking names its squares: one does not": Case(
        untrue="Every picking names its squares", kind="tally", files=ledger(LOOSE), says="no square told"
    ),
    "no square weighed apart: one was": Case(
        untrue="Weighed square by square: none.",
        kind="tally",
        files=ledger(f"{LOOSE}, squares: A1"),
        says="Weighed square by square: A1.",
    ),
    "kinds of produce: a bowl is not another": Case(
        untrue="three kinds",
        kind="tally",
        files=ledger(LOOSE, BOWL, "date: 2026-05-11, crop: radish, weight: 1 oz"),
    ),
    "weeks of the tally: one in between is silent": Case(
        untrue="11 to 17 May week 20 1.00",
        kind="tally",
        files=ledger(LOOSE, "date: 2026-05-27, crop: spinach, weight: 1 oz"),
        says="week 20, nothing on record",
    ),
    "no picking in these days: one was, not weighed": Case(
        untrue="No picking is on record for these days.", kind="week bulletin", files=ledger(HERB)
    ),
    "the ledger has no picking yet: one nobody weighed": Case(
        untrue="has no picking", kind="week bulletin", files=ledger(HERB), says="one picking, not weighed"
    ),
    "nothing stands: neither plan nor log says so": Case(
        untrue="nothing stands",
        kind="tally sheet",
        files=ledger(LOOSE),
        says="what stands in the beds is unknown",
    ),
    "nothing stands: its end is supposed": Case(
        untrue="nothing stands",
        kind="tally sheet",
        files=plan(SPINACH) | visit("2026-07-01", "{weed: bed}"),
        says=f"over, {told.END_SUPPOSED}",
    ),
    "nothing on record of a square: its end is supposed": Case(
        untrue="Bare: A1",
        kind="bed",
        page="/beds/",
        files=plan(SPINACH) | visit("2026-07-01", "{weed: bed}"),
        says="A1: over, supposed from the plan",
    ),
    "no picking names a bed: one does": Case(
        untrue="No picking on record names this bed.",
        kind="bed sign",
        page="/far/",
        garden=TWO,
        files=ledger(f"{LOOSE}, squares: far/A1"),
        says="1.0 lb",
    ),
    "the weight of a season is unknown: nothing was weighed": Case(
        untrue="at least 0.0", kind="seasons", files=ledger(HERB), says="not weighed"
    ),
    "not grown: without a log nobody knows": Case(
        untrue="not grown",
        kind="seasons",
        files=plan(SPINACH)
        | ledger("date: 2026-05-10, crop: radish, weight: 1 lb", LOOSE)
        | ledger("date: 2025-05-10, crop: radish, weight: 1 lb", year=2025)
        | ledger("date: 2024-05-10, crop: radish, weight: 1 lb", LOOSE.replace("2026", "2024"), year=2024),
    ),
    "none yet: which beans was not told": Case(
        untrue="none yet",
        kind="crops",
        files=plan(
            "crop: bean-bush, tag: BB1, squares: A1, sow: May 20",
            "crop: bean-pole, tag: BP1, squares: B1, sow: May 20",
        )
        | ledger(BEANS),
        says="kind not told",
    ),
    "still to come: its year is closed": Case(
        untrue="Season 2025 is still to come",
        kind="home",
        files={"2025/plan.yaml": f"- {{{SPINACH}}}\n"},
        says="Season 2025 is over",
    ),
    "a total that says nothing of cured weight: some is": Case(
        untrue="1.0 lb of it cured, 1.0",
        kind="season",
        files=ledger(
            "date: 2026-07-10, crop: garlic, state: cured, weighed: 2026-08-10, weight: 1 lb", LOOSE
        ),
        says="1.0 lb of it cured",
    ),
    "weighed again in no total: it is in one": Case(
        untrue="in no total",
        kind="tally",
        files=ledger(CURED),
        says="1.00 lb cured",
    ),
    "facts of an own crop: its days are known": Case(
        untrue=told.NO_FACTS,
        kind="crop",
        page="/skirret/",
        files=plan(SPINACH)
        | {
            "crops.yaml": "- {new: skirret, plural: skirrets, family: Apiaceae, habit: rosette, "
            "start: set out, letters: Sk, spacing: 12 in, days: 180}\n"
        },
    ),
}
STATED = {
    *(told.NO_SEASON, told.NO_BEDS, told.NO_PLAN, told.NO_LOG, told.NO_LEDGER),
    *(told.EMPTY_PLAN, told.EMPTY_LOG, told.EMPTY_LEDGER, told.NOTHING_DUE, told.NO_HISTORY),
    *(told.NONE_PICKED, told.NONE_PICKED_ALONE, told.NO_FACTS),
}
"""The sentences above, by name; ``NOTHING_ON_RECORD`` says no more than that."""


@pytest.mark.parametrize("name", CASES)
def test_no_sentence_is_said_where_it_is_false(name: str, tmp_path: Path, rendering: Rendering):
    case = CASES[name]
    years = site_of(written(tmp_path, {"garden.yaml": case.garden, **case.files}))
    kind = next(one for one in catalogue.KINDS if one.name == case.kind)
    texts = []
    for page in kind.every(years):
        if case.page in f"/{page.path}":
            markup = rendering.page(catalogue.framed(years, page)).decode("utf-8")
            texts.append(" ".join(parsed(markup).get_text(" ", strip=True).split()))
    assert texts
    assert not [text for text in texts if case.untrue in text]
    assert any(case.says in text for text in texts), texts[0][:1500]


def test_every_sentence_of_an_absence_has_a_case():
    named = {
        value
        for name, value in vars(told).items()
        if name.startswith(("NO_", "EMPTY_", "NONE_", "NOTHING_")) and isinstance(value, str)
    }
    assert named - {told.NOTHING_ON_RECORD} == STATED
    assert {case.untrue for case in CASES.values()} >= STATED
