"""Every check fires where it should, and is silent one day or one inch inside the limit.

The crops are the tests' own, with round figures: what is checked is the check.
"""

from dataclasses import dataclass, field
from datetime import date
from importlib import import_module
from inspect import isfunction
from pathlib import Path
from pkgutil import walk_packages

import pytest

from tallybed import checks
from tallybed.checks.registry import CHECKS, every_finding
from tallybed.garden.findings import Finding, Severity, worded
from tallybed.reading.folder.garden_folder import read
from tallybed.reckoning.year import Years
from tests.small_garden import read_garden, written

GARDEN = """
name: Test
season: {start: Mar 1, end: Nov 30}
freeze dates:
  last spring: {10%: May 10, 50%: Apr 20, 90%: Mar 31}
  first fall: {10%: Oct 1, 50%: Oct 15, 90%: Oct 29}
beds:
  - name: b
    length: 6 squares
    width: 2 squares
    trellis:
      - {side: 1, squares: A1:C1, height: 6 ft}
    path:
      - {side: 2, width: 2 ft}
    run-out:
      - {side: F, reach: 4 ft}
"""
CROPS = """
- {new: greenleaf, family: Leafaceae, habit: rosette, start: sown, letters: Gl, spacing: 6 in, days: 40}
- {new: redroot, family: Rootaceae, habit: root, start: sown, letters: Rr, spacing: 3 in, days: 60}
- {new: twiner, family: Twineaceae, habit: climbing, start: sown, letters: Tw, spacing: 4 in, days: 60}
- {new: rambler, family: Rambaceae, habit: running, start: sown, letters: Rm, spacing: 24 in, days: 80}
- new: finehead
  family: Leafaceae
  habit: rosette
  start: sown
  letters: Fh
  spacing: 6 in
  days: 40
  varieties: [{name: Amber, spacing: 3 in}]
- {new: slowhead, family: Headaceae, habit: rosette, start: set out, letters: Sh, spacing: 12 in, days: 90}
"""

TWO_BEDS = """
name: Test
season: {start: Mar 1, end: Nov 30}
beds:
  - {name: b, length: 2 squares, width: 3 squares, trellis: [{side: 3, height: 1 ft}]}
  - {name: c, length: 4 squares, width: 2 squares, trellis: [{side: 1, height: 2 ft}]}
"""

OF_THE_SUN = ("too-little-sun", "shades-neighbours")
"""Codes whose stories are told in ``test_sun.py``: they need a garden with a latitude."""

HIGH_AND_LOW = """
name: Test
season: {start: Mar 1, end: Nov 30}
beds:
  - {name: b, length: 2 squares, width: 3 squares, square: 8 in, trellis: [{side: 1, height: 6 ft}]}
  - name: c
    length: 4 squares
    width: 2 squares
    trellis: [{side: 1, squares: A1:B1, height: 2 ft}]
  - {name: d, length: 4 squares, width: 2 squares, run-out: [{side: D, reach: 4 ft}]}
"""


@dataclass
class Story:
    """A tiny garden, the finding it should give, and its place."""

    name: str
    plan: str
    code: str = ""
    line: int = 1
    ledger: str = ""
    log: dict[str, str] = field(default_factory=dict)
    before: str = ""
    garden: str = ""
    says: str = ""
    given: str = ""
    """A ledger of which no finding is expected."""
    weather: str = ""
    file: str = ""
    """Where the finding stands, if not in the ledger or the plan of the story."""


QUIET = "silence: {planting-not-told: nobody knows}"
WHOLE = "idle"
"""A plan of one row leaves most squares idle; every story but those of ``idle`` passes over it."""

FIRES = [
    Story(
        "two plantings in one square on the same days",
        "- {crop: greenleaf, squares: A1:B1, sow: May 1, until: Jun 20}\n"
        "- {crop: redroot, squares: B1:C1, sow: Jun 19, until: Aug 30}\n",
        "double-held",
        2,
        says="in b/B1 from 19 June to 19 June",
    ),
    Story(
        "a share told with another planting is no share with a third",
        "- {crop: greenleaf, squares: A1, sow: May 1, until: Jun 20}\n"
        "- {crop: redroot, squares: A1, sow: May 1, until: Jul 20, share: 1/2, among: greenleaf}\n"
        "- {crop: twiner, squares: A1, sow: Jun 25, until: Aug 30}\n",
        "double-held",
        3,
        says="twiner and redroot",
    ),
    Story(
        "shares above the whole square",
        "- {crop: greenleaf, squares: A1:B1, sow: May 1, until: Jun 20, share: 1/2}\n"
        "- {crop: redroot, squares: A1:B1, sow: May 1, until: Jul 20, share: 3/5}\n",
        "shares-above-one",
        2,
        says="11/10",
    ),
    Story(
        "one plant more than keeps the spacing",
        "- {crop: greenleaf, squares: A1:B1, sow: May 1, until: Jun 20, plants: 9}\n",
        "too-dense",
        says="9 plants",
    ),
    Story(
        "a strip under two thirds of the spacing",
        "- {crop: greenleaf, squares: D2:F2, sow: May 1, until: Jun 20, spacing: 19 in}\n",
        "too-narrow",
        says="b/D2:F2 is 1 ft wide",
    ),
    Story(
        "a runner with no run-out",
        "- {crop: rambler, squares: E1:F2, sow: May 20, until: Sep 20}\n",
        "no-run-out",
    ),
    Story(
        "a climber away from the trellis",
        "- {crop: twiner, squares: D1:E1, sow: May 20, until: Sep 20}\n",
        "no-support",
    ),
    Story(
        "a tender crop a day before the window",
        "- {crop: tomato-indeterminate, squares: A1, set out: May 9, until: Oct 1}\n",
        "too-early",
        says="11% chance of a freeze after it",
    ),
    Story(
        "a sowing that the fall freeze overtakes",
        "- {crop: greenleaf, squares: A1, sow: Aug 23, until: Nov 20}\n",
        "too-late",
        says="22 August or earlier",
    ),
    Story(
        "cleared a day before it can bear",
        "- {crop: greenleaf, squares: A1, sow: May 1, until: Jun 9}\n"
        "- {crop: redroot, squares: A1, sow: Jun 9, until: Sep 30}\n",
        "not-ripe",
        says="for redroot",
    ),
    Story(
        "a square idle a day too long",
        "- {crop: greenleaf, squares: A1:F2, sow: Apr 1, until: Jun 1}\n"
        "- {crop: redroot, squares: A1:F2, sow: Jun 30, until: Oct 20}\n",
        "idle",
        says="29 days",
    ),
    Story(
        "a family back in its square after two years",
        "- {crop: greenleaf, squares: A1, sow: May 1, until: Jun 20}\n",
        "same-family",
        before="- {crop: greenleaf, squares: A1:A2, sow: May 1, until: Jun 20}\n",
        says="of 2024",
    ),
    Story(
        "a family back more than two months short of its years",
        "- {crop: greenleaf, squares: A1, sow: Apr 9, until: Jun 20}\n",
        "same-family",
        before="- {crop: greenleaf, squares: A1, sow: Jun 10, until: Aug 1}\n",
        garden=GARDEN + "rotation: 2 years\n",
    ),
    Story(
        "a family that followed itself twice, of which the later time is told",
        "- {crop: greenleaf, squares: A1, sow: May 1, until: Jun 20}\n"
        "- {crop: finehead, squares: A1:B1, sow: Jun 20, until: Aug 20}\n",
        "same-family",
        2,
        before="- {crop: greenleaf, squares: B1, sow: May 1, until: Jun 20}\n",
        says="in the same season in b/A1",
    ),
    Story(
        "another crop of the family within the season",
        "- {crop: greenleaf, squares: A1, sow: May 1, until: Jun 20}\n"
        "- {crop: finehead, squares: A1, sow: Jun 20, until: Aug 20}\n",
        "same-family",
        2,
    ),
    Story(
        "a row of squares beyond the reach",
        "",
        "out-of-reach",
        8,
        garden=GARDEN.replace("width: 2 squares", "width: 3 squares").replace("side: 2,", "side: 3,"),
    ),
    Story(
        "sown ten days late, and the next cannot follow",
        "- {crop: slowhead, squares: A1, set out: Apr 25, until: Aug 10}\n"
        "- {crop: greenleaf, squares: A1, sow: Aug 16, until: Oct 20}\n",
        "late",
        log={"2026-05-12-x": "- {set out: slowhead, squares: A1}"},
        says="greenleaf would then go in on 27 August, after its last day 22 August",
    ),
    Story(
        "a planting nobody has heard of for three weeks",
        "- {crop: greenleaf, squares: A1, sow: Apr 25, until: Aug 10}\n",
        "never-planted",
        log={"2026-05-16-x": "- {weed: bed, squares: b}"},
    ),
    Story(
        "cleared ten days early",
        "- {crop: greenleaf, squares: A1, sow: Apr 25, until: Jul 10}\n",
        "pulled-early",
        log={
            "2026-04-25-x": "- {sow: greenleaf, squares: A1}",
            "2026-06-30-x": "- {clear: greenleaf, squares: A1, because: bolted}",
        },
        says="(bolted), 10 days early",
    ),
    Story(
        "planted in another square",
        "- {crop: greenleaf, tag: GL1, squares: A1, sow: Apr 25, until: Jul 10}\n",
        "elsewhere",
        log={"2026-04-25-x": "- {sow: greenleaf, tag: GL1, squares: B2}"},
        says="b/B2",
    ),
    Story(
        "thinned where nothing was ever put",
        "",
        "nothing-there",
        line=5,
        log={"2026-05-25-x": "- {thin: greenleaf, squares: B2, leaving: 4}"},
        says="b/B2",
    ),
    Story(
        "a short name of a crop, and the tag of another",
        "- {crop: bean-pole, tag: PB1, squares: B1, sow: May 15, until: Sep 10}\n"
        "- {crop: bean-bush, squares: A1, sow: May 15, until: Sep 10}\n",
        "tag-of-another-crop",
        log={"2026-05-15-x": "- {sow: bean-pole, tag: PB1, squares: B1}\n  - {sow: bean-bush, squares: A1}"},
        ledger="- {date: 2026-08-01, crop: bean-bush, tag: PB1, weight: 4 oz}\n",
        says="this says bush bean, and its tag is that of PB1 (pole bean)",
    ),
    Story(
        "cleared, and not told where",
        "",
        "told-nowhere",
        line=6,
        log={"2026-05-25-x": "- {sow: greenleaf, squares: B2}\n  - {clear: greenleaf}"},
        says="such as b/B2, or a tag",
    ),
    Story(
        "picked before it was sown",
        "- {crop: greenleaf, tag: GL1, squares: A1, sow: Apr 25, until: Jul 10}\n",
        "weighed-before-planting",
        log={"2026-04-25-x": "- {sow: greenleaf, tag: GL1, squares: A1}"},
        ledger="- {date: 2026-04-24, tag: GL1, weight: 4 oz}\n",
    ),
    Story(
        "picked where nothing of the crop ever stood",
        "- {crop: greenleaf, tag: GL1, squares: A1, sow: Apr 25, until: Jul 10}\n"
        "- {crop: greenleaf, tag: GL2, squares: B1, sow: Apr 25, until: Jul 10}\n",
        "picked-elsewhere",
        log={"2026-04-25-x": "- {sow: greenleaf, squares: A1:B1}"},
        ledger="- {date: 2026-06-24, crop: greenleaf, squares: C1, weight: 4 oz}\n",
        says="greenleaf was picked in b/C1, where it never stood; expected squares of b/A1:B1",
    ),
    Story(
        "picked where it never stood by the log, which alone knows it",
        "- {crop: redroot, squares: A2, sow: Jun 25, until: Sep 1}\n",
        "picked-elsewhere",
        log={"2026-04-25-x": "- {sow: greenleaf, tag: GL1, squares: A1}"},
        ledger="- {date: 2026-06-24, tag: GL1, squares: C1, weight: 4 oz}\n",
    ),
    Story(
        "weighed under the tag of another crop",
        "- {crop: greenleaf, tag: GL1, squares: A1, sow: Apr 25, until: Jul 10}\n"
        "- {crop: redroot, tag: RR1, squares: B1, sow: Apr 25, until: Aug 10}\n",
        "tag-of-another-crop",
        log={"2026-04-25-x": "- {sow: greenleaf, tag: GL1}\n  - {sow: redroot, tag: RR1}"},
        ledger="- {date: 2026-06-24, crop: redroot, tag: GL1, weight: 4 oz}\n",
        says="tag is that of GL1 (greenleaf); expected the tag of a planting of it: RR1",
    ),
    Story(
        "logged under the tag of another crop",
        "",
        "tag-of-another-crop",
        line=6,
        log={
            "2026-04-25-x": "- {sow: greenleaf, tag: GL1, squares: A1}\n"
            "  - {sow: redroot, tag: GL1, squares: B1}"
        },
    ),
    Story(
        "picked so soon that nothing can have grown",
        "- {crop: greenleaf, tag: GL1, squares: A1, sow: Apr 25, until: Jul 10}\n",
        "picked-too-soon",
        log={"2026-04-25-x": "- {sow: greenleaf, tag: GL1, squares: A1}"},
        ledger="- {date: 2026-05-07, tag: GL1, weight: 4 oz}\n",
        says="was picked 12 days after it went in; expected 13 days at the very least",
    ),
    Story(
        "cobs before corn can have flowered",
        "- {crop: sweet corn, tag: SC1, squares: A1:B2, sow: May 10, until: Sep 1}\n",
        "picked-too-soon",
        log={"2026-05-10-x": "- {sow: sweet corn, tag: SC1, squares: A1:B2}"},
        ledger="- {date: 2026-06-23, tag: SC1, weight: 4 lb}\n",
        says="SC1 (sweet corn) was picked 44 days after it went in; expected 45 days at the very least",
    ),
    Story(
        "cobs of no planting before any of the corn can have flowered",
        "- {crop: sweet corn, tag: SC1, squares: A1:B2, sow: May 10, until: Sep 1}\n"
        "- {crop: sweet corn, tag: SC2, squares: C1:D2, sow: May 20, until: Sep 1}\n",
        "picked-too-soon",
        log={
            "2026-05-10-x": "- {sow: sweet corn, tag: SC1, squares: A1:B2}",
            "2026-05-20-x": "- {sow: sweet corn, tag: SC2, squares: C1:D2}",
        },
        ledger="- {date: 2026-06-12, crop: sweet corn, weight: 4 lb}\n",
        says="sweet corn was picked 33 days after SC1 (sweet corn) went in, the first of it here",
    ),
    Story(
        "more than twice as many pieces as plants",
        "- {crop: carrot, tag: CA1, squares: A1, sow: Apr 25, until: Sep 10, plants: 8}\n",
        "more-than-planted",
        2,
        ledger="- {date: 2026-08-10, tag: CA1, weight: 6 oz, count: 8}\n"
        "- {date: 2026-08-14, tag: CA1, weight: 8 oz, count: 9}\n",
        says="17 pieces of CA1 (carrot) are counted; expected 8",
    ),
    Story(
        "one more than both its beds have room for",
        "- {crop: redroot, squares: 'b/A1:B1, c/A1', sow: May 1, until: Jul 20, plants: 49}\n",
        "too-dense",
        garden=TWO_BEDS,
        says="3 in apart, 48 at most",
    ),
    Story(
        "wide enough in one bed, a strip in the other",
        "- {crop: redroot, squares: 'b/A1:B2, c/A2:D2', sow: May 1, until: Jul 20, spacing: 2 ft}\n",
        "too-narrow",
        garden=TWO_BEDS,
        says="and c/A2:D2 is 1 ft wide",
    ),
    Story(
        "a low trellis in the second of its beds",
        "- {crop: bean-pole, squares: 'b/A1, c/A1:B1', sow: May 1, until: Sep 20}\n",
        "low-support",
        garden=HIGH_AND_LOW,
        says="its trellis is 2 ft high",
    ),
    Story(
        "a climber at the trellis in one bed, away from it in the other",
        "- {crop: twiner, squares: 'b/A1:A2, c/A2', sow: May 1, until: Sep 20}\n",
        "no-support",
        garden=HIGH_AND_LOW,
        says="and c/A2 has no trellis",
    ),
    Story(
        "wider than the squares of one bed, and not of the other",
        "- {crop: twiner, squares: 'b/A1:A2, c/B1:D1', sow: May 1, until: Sep 20, spacing: 10 in}\n",
        "no-support",
        garden=HIGH_AND_LOW,
        says="twiner climbs, and c/D1 has no trellis",
    ),
    Story(
        "led out of one of its beds, which the other has no side for",
        "- {crop: rambler, squares: 'b/A1:B3, d/D1:D2', sow: May 20, until: Sep 20, run-out: D}\n",
        "no-run-out",
        garden=HIGH_AND_LOW.replace("{side: 1, height: 6 ft}", ""),
        says="no run-out is told for it in b/A1:B3",
    ),
    Story(
        "at the side it is led out over in one bed, away from it in the other",
        "- {crop: rambler, squares: 'c/D1:D2, d/A1:A2', sow: May 20, until: Sep 20, run-out: D}\n",
        "run-out-elsewhere",
        garden=HIGH_AND_LOW,
        says="and stands in d/A1:A2; expected a square at that side: d/D1:D2",
    ),
    Story(
        "corn in a row in each of two beds, whose rows have other numbers",
        "- {crop: sweet-corn, squares: 'c/A1:C1, d/B2:D2', sow: May 10, until: Aug 20}\n",
        "one-row",
        garden=HIGH_AND_LOW,
        says="in a single row, c/A1:C1, d/B2:D2",
    ),
    Story(
        "empty squares of which one only was to rest",
        "- {crop: greenleaf, squares: A1:A2, sow: Apr 1, until: Oct 20}\n"
        "- {crop: greenleaf, squares: B1:F1, sow: Apr 1, until: Jun 1, silence: {idle: it rests}}\n"
        "- {crop: redroot, squares: B2:F2, sow: Apr 1, until: Jun 1}\n",
        "idle",
        says="b/B2:F2",
        line=3,
    ),
    Story(
        "vines that run at a trellis of two feet",
        "- {crop: pumpkin, squares: 'c/A1:B1', sow: May 25, until: Oct 10, spacing: 12 in, plants: 1}\n",
        "low-support",
        garden=TWO_BEDS,
        says="runs, and its trellis is 2 ft high; expected about 19 ft 8 in, as far as its vines run",
    ),
    Story(
        "picked before it was to be sown, and no log",
        "- {crop: greenleaf, tag: GL1, squares: A1, sow: Apr 25, until: Jul 10}\n",
        "weighed-before-planting",
        ledger="- {date: 2026-04-24, tag: GL1, weight: 4 oz}\n",
        says="a day after it goes in by the plan, 25 April",
    ),
    Story(
        "picked four days after clearing",
        "- {crop: greenleaf, tag: GL1, squares: A1, sow: Apr 25, until: Jun 10}\n",
        "weighed-after-clearing",
        log={
            "2026-04-25-x": "- {sow: greenleaf, tag: GL1, squares: A1}",
            "2026-06-10-x": "- {clear: greenleaf, tag: GL1, squares: A1}",
        },
        ledger="- {date: 2026-06-14, tag: GL1, weight: 4 oz}\n",
        says="correct the date",
    ),
    Story(
        "weighed after it was cleared square by square",
        "- {crop: greenleaf, tag: GL1, squares: A1:B1, sow: Apr 25, until: Jun 10}\n",
        "weighed-after-clearing",
        log={
            "2026-04-25-x": "- {sow: greenleaf, tag: GL1, squares: A1:B1}",
            "2026-06-08-x": "- {clear: greenleaf, tag: GL1, squares: A1}",
            "2026-06-10-x": "- {lost: greenleaf, tag: GL1, squares: B1}",
        },
        ledger="- {date: 2026-06-14, tag: GL1, weight: 4 oz}\n",
        says="no later than its end, 10 June",
    ),
    Story(
        "picked in a square that was cleared before, while the rest of the planting stands",
        "- {crop: greenleaf, tag: GL1, squares: A1:B1, sow: Apr 25, until: Jul 10}\n",
        "weighed-after-clearing",
        log={
            "2026-04-25-x": "- {sow: greenleaf, tag: GL1, squares: A1:B1}",
            "2026-06-08-x": "- {lost: greenleaf, tag: GL1, squares: A1}",
        },
        ledger="- {date: 2026-06-14, tag: GL1, squares: A1, weight: 4 oz}\n",
        says="picked in b/A1 on 14 June; expected no later than its end there, 8 June (correct the date, the",
    ),
    Story(
        "weighed after it was moved, and cleared where it stood then",
        "- {crop: greenleaf, tag: GL1, squares: A1, sow: Apr 25, until: Jun 10}\n",
        "weighed-after-clearing",
        log={
            "2026-04-25-x": "- {sow: greenleaf, tag: GL1, squares: A1}",
            "2026-05-08-x": "- {move: greenleaf, tag: GL1, squares: A1, to: B1}",
            "2026-06-10-x": "- {clear: greenleaf, tag: GL1, squares: B1}",
        },
        ledger="- {date: 2026-06-14, tag: GL1, weight: 4 oz}\n",
    ),
    Story(
        "weighed after it was sown and given up",
        "- {crop: greenleaf, tag: GL1, squares: A1, sow: Apr 25, until: Jul 10, dropped: May 20}\n",
        "never-stood",
        log={"2026-04-25-x": "- {sow: greenleaf, tag: GL1, squares: A1}"},
        ledger="- {date: 2026-06-14, tag: GL1, weight: 4 oz}\n",
        says="the plan has it dropped on 20 May",
    ),
    Story(
        "weighed cured, weeks after clearing, under the day of weighing",
        "- {crop: greenleaf, tag: GL1, squares: A1, sow: Apr 25, until: Jun 10}\n",
        "weighed-after-clearing",
        log={
            "2026-04-25-x": "- {sow: greenleaf, tag: GL1, squares: A1}",
            "2026-06-10-x": "- {clear: greenleaf, tag: GL1, squares: A1}",
        },
        ledger="- {date: 2026-06-30, tag: GL1, weight: 4 oz, state: cured}\n",
        says="a later one on which it was weighed is `weighed:`",
    ),
    Story(
        "pounds typed for ounces",
        "- {crop: carrot, tag: CA1, squares: A1, sow: Apr 25, until: Sep 10}\n",
        "implausible-weight",
        ledger="- {date: 2026-08-14, tag: CA1, weight: 16 lb}\n",
        says="times the usual",
    ),
    Story(
        "pounds typed for ounces in one of several",
        "- {crop: carrot, tag: CA1, squares: A1, sow: Apr 25, until: Sep 10}\n",
        "implausible-weight",
        2,
        ledger="- {date: 2026-08-10, tag: CA1, weight: 1 lb}\n"
        "- {date: 2026-08-14, tag: CA1, weight: 16 lb}\n"
        "- {date: 2026-08-15, tag: CA1, weight: 2 lb}\n",
        says="with this 16 lb",
    ),
    Story(
        "more than the plant of a vine gives",
        # Rows that stand seven feet apart tell nothing of its ground: its one plant is what counts.
        "- {crop: squash-winter, tag: SQ1, squares: D1, sow: May 20, until: Oct 10, run-out: F,"
        " silence: {run-out-elsewhere: over E1}}\n",
        "implausible-weight",
        ledger="- {date: 2026-09-14, tag: SQ1, weight: 90 lb}\n",
        says="66 lb 2.2 oz at most of 1 plant",
    ),
    Story(
        "one picking that may be of one planting alone, and does not say so",
        "- {crop: greenleaf, tag: GL1, squares: A1, sow: Apr 25, until: Jul 10}\n"
        "- {crop: greenleaf, tag: GL2, squares: B1, sow: Jul 20, until: Sep 30}\n",
        "planting-not-told",
        2,
        ledger="- {date: 2026-06-19, tag: GL1, weight: 1 oz}\n"
        "- {date: 2026-06-20, crop: greenleaf, weight: 1 oz}\n",
        says="a picking without tag and squares counts for no planting",
    ),
    Story(
        "several, told once, and at the first",
        "- {crop: greenleaf, tag: GL1, squares: A1, sow: Apr 25, until: Jul 10}\n",
        "planting-not-told",
        2,
        ledger="- {date: 2026-06-15, tag: GL1, weight: 1 oz}\n"
        + "".join(f"- {{date: 2026-06-{day}, crop: greenleaf, weight: 1 oz}}\n" for day in range(16, 21)),
        says="line 3 from GL1 (greenleaf), line 4 from GL1 (greenleaf) and 2 more",
    ),
    Story(
        "picked of no planting, after all of the crop were cleared",
        "- {crop: greenleaf, tag: GL1, squares: A1, sow: Apr 25, until: Jun 10}\n"
        "- {crop: greenleaf, tag: GL2, squares: B1, sow: Aug 1, until: Sep 30}\n",
        "none-stood",
        log={"2026-06-10-x": "- {clear: greenleaf, tag: GL1, squares: A1}"},
        ledger="- {date: 2026-06-14, crop: greenleaf, weight: 4 oz}\n",
        says="a picking of greenleafs on 14 June, when none stood here; expected no later than the end of GL1"
        " (greenleaf), 10 June (correct the date, the crop, or the log)",
    ),
    Story(
        "picked of no planting, before any of the crop went in",
        "- {crop: greenleaf, tag: GL1, squares: A1, sow: Apr 25, until: Jun 10}\n"
        "- {crop: greenleaf, tag: GL2, squares: B1, sow: Aug 1, until: Sep 30}\n",
        "none-stood",
        ledger="- {date: 2026-04-24, crop: greenleaf, weight: 4 oz}\n",
        says="expected a day after GL1 (greenleaf) goes in by the plan, 25 April",
    ),
    Story(
        "weighed dry of no planting, under the day of weighing",
        "- {crop: greenleaf, tag: GL1, squares: A1, sow: Apr 25, until: Jun 10}\n",
        "none-stood",
        log={"2026-06-10-x": "- {clear: greenleaf, tag: GL1, squares: A1}"},
        ledger="- {date: 2026-06-30, crop: greenleaf, weight: 4 oz, state: dried}\n",
        says="a later one on which it was weighed is `weighed:`",
    ),
    Story(
        "a general name of two crops that both may be, told once",
        "- {crop: bean-bush, tag: BB1, squares: A1, sow: May 15, until: Aug 10}\n"
        "- {crop: bean-pole, tag: PB1, squares: B1, sow: May 15, until: Sep 10}\n",
        "kind-not-told",
        log={
            "2026-05-15-x": "- {sow: bean-bush, tag: BB1, squares: A1}\n"
            "  - {sow: bean-pole, tag: PB1, squares: B1}"
        },
        ledger="- {date: 2026-08-01, crop: beans, weight: 4 oz}\n"
        "- {date: 2026-08-04, crop: bean, weight: 3 oz}\n",
        says="2 pickings of beans may be of several crops, and count for none of them; expected bush bean or"
        " pole bean (name the crop or the tag; or say in names.yaml",
    ),
    Story(
        "a general name of two crops of which one stood",
        "- {crop: bean-bush, tag: BB1, squares: A1, sow: May 15, until: Aug 10}\n",
        "kind-not-told",
        log={"2026-05-15-x": "- {sow: bean-bush, tag: BB1, squares: A1}"},
        ledger="- {date: 2026-08-01, crop: beans, weight: 4 oz}\n",
        says="a picking of beans may be of several crops, and counts for none of them; expected bush bean,"
        " which alone of them stood here",
    ),
    *(
        Story(
            f"said to have failed though it was up, by {by}",
            "- {crop: carrot, tag: CA1, squares: A1:B1, sow: May 1, until: Jul 5}\n",
            "failed-after-up",
            5,
            log={"2026-05-01-x": "- {sow: carrot, tag: CA1, squares: A1:B1}", **seen, "2026-07-02-z": failed},
            ledger=ledger,
            file="content/2026/log/2026-07-02-z.md",
            says=f"the log says `failed` of CA1 (carrot) on 2 July, which {what}; expected",
        )
        for by, seen, failed, ledger, what in (
            (
                "a line that says so",
                {"2026-05-20-y": "- {up: carrot, tag: CA1}"},
                "- {failed: carrot, tag: CA1}",
                "",
                "came up on 20 May",
            ),
            (
                "one that thinned it in the square",
                {"2026-06-01-y": "- {thin: carrot, tag: CA1, squares: B1}"},
                "- {failed: carrot, tag: CA1, squares: B1}",
                "",
                "was thinned on 1 June",
            ),
            (
                "the ledger",
                {},
                "- {failed: carrot, tag: CA1}",
                "- {date: 2026-07-01, tag: CA1, weight: 4 oz}\n",
                "was picked on 1 July",
            ),
        )
    ),
    *(
        Story(
            f"weighed fresh and again cured, {where}",
            "- {crop: onion-bulb, tag: ON1, squares: A1, set out: Apr 10, until: Aug 10}\n",
            "counted-twice",
            2,
            ledger=f"- {{date: 2026-08-10, {fresh}, weight: 2 lb}}\n"
            f"- {{date: 2026-08-10, {cured}, weight: 1 lb 12 oz, state: cured, weighed: 2026-08-30}}\n",
            says="this cured weight counts, and so does the fresh one of line 1, of the same crop and day",
        )
        for where, fresh, cured in (
            ("the first of them without tag and squares", f"crop: onion-bulb, {QUIET}", "tag: ON1"),
            ("the second of them without", "tag: ON1", f"crop: onion-bulb, {QUIET}"),
        )
    ),
    *(
        Story(
            f"{crop} weighed when lifted, and again {state} under the day of weighing{where}",
            f"- {{crop: {crop}, tag: ON1, squares: A1:B1, set out: Apr 10, until: Sep 30}}\n",
            "counted-twice",
            3,
            ledger=f"- {{date: 2026-07-20, tag: ON1, weight: 3 oz}}\n"
            f"- {{date: 2026-08-10, {first}, weight: 2 lb}}\n"
            f"- {{date: 2026-09-02, {second}, weight: 1 lb 12 oz, state: {state}}}\n",
            says=f"this {state} weight counts, and so does the fresh one of line 2, of 10 August; expected"
            " `date: 10 August` and `weighed: 2 September` on this one, if they are one picking",
        )
        for crop, state, where, first, second in (
            ("onion-bulb", "cured", "", "tag: ON1", "tag: ON1"),
            ("shallot", "cured", ", its squares told but once", "crop: shallot, squares: A1", "tag: ON1"),
            ("potato", "cured", ", without a tag", "tag: ON1", f"crop: potato, {QUIET}"),
            ("oregano", "dried", "", "crop: oregano, squares: A1", "crop: oregano, squares: A1:B1"),
        )
    ),
    Story(
        "one place written in two ways",
        "- {crop: carrot, tag: CA1, squares: A1, sow: Apr 25, until: Sep 10}\n",
        "one-place-two-names",
        3,
        ledger="- {date: 2026-08-10, tag: CA1, weight: 1 lb, to: food pantry}\n"
        "- {date: 2026-08-11, tag: CA1, weight: 1 lb, to: food pantry}\n"
        "- {date: 2026-08-12, tag: CA1, weight: 1 lb, to: The Food Pantry}\n",
        says="same place as “food pantry”",
    ),
    Story(
        "an entry still being written",
        "",
        "unfinished",
        2,
        log={"2026-05-01-x": "- {weed: bed, squares: A1}\nunfinished: yes"},
        says="lines of `done` count",
    ),
    Story(
        "an entry held until the day after the newest record",
        "",
        "held",
        2,
        log={"2026-05-01-x": "- {weed: bed, squares: A1}\nhold until: 2026-05-02"},
        says="2 May 2026",
    ),
    Story(
        "picked one day too soon after a treatment",
        "- {crop: greenleaf, squares: A1, sow: May 1, until: Aug 20}\n",
        "picked-inside-wait",
        ledger="- {date: 2026-06-16, crop: greenleaf, squares: A1, weight: 1 oz}\n",
        log={
            "2026-05-01-in": "- {sow: greenleaf, squares: A1}",
            "2026-06-10-x": "- {treat: soap, squares: A1, wait: 7 days, re-entry: 0 hours}",
        },
        says="nothing to be picked there before 17 June 2026",
    ),
    Story(
        "a label of which nobody wrote the wait down",
        "",
        "label-not-written-down",
        line=5,
        log={"2026-06-10-x": "- {treat: soap, squares: A1, re-entry: until dry}"},
        says="the label’s wait is not written down",
    ),
    Story(
        "compost of which nobody says what is in it",
        "",
        "manure-not-told",
        line=5,
        log={"2026-06-10-x": "- {amend: compost, squares: A1}"},
    ),
    Story(
        "what was dug in, told in a language whose words for manure may not be known",
        "",
        "manure-not-told",
        line=5,
        garden=f"{GARDEN}language: fi\n",
        log={"2026-06-10-x": "- {amend: lantaa, squares: A1}"},
        says="whether anything of animals is in “lantaa”",
    ),
    Story(
        "composted manure that was never hot enough",
        "",
        "counts-as-raw",
        line=5,
        log={"2026-06-10-x": "- {amend: compost, squares: A1, manure: composted, heat: 15 days at 100 F}"},
        says="heat is not told as within the rule",
    ),
    Story(
        "composted manure of unrecorded heat",
        "",
        "counts-as-raw",
        line=5,
        log={"2026-06-10-x": "- {amend: compost, squares: A1, manure: composted}"},
        says="7 CFR 205.203(c)(2)",
    ),
    Story(
        "oil above the temperature printed",
        "",
        "outside-temperature",
        line=5,
        log={
            "2026-06-10-x": "- {treat: horticultural oil, squares: A1, wait: 0 days, re-entry: until dry, "
            "temperature: 101 F}"
        },
        says="101 °F (38 °C) was noted, above the 100 °F (38 °C) printed",
    ),
    Story(
        "manure in a season whose produce is given away",
        "",
        "manure-and-giving",
        line=5,
        log={
            "2026-04-10-x": "- {amend: cow manure, squares: F2, manure: raw}\n  - {sow: redroot, squares: A1}"
        },
        says="New Hampshire",
        given="- {date: 2026-06-12, crop: redroot, squares: A1, weight: 1 oz, to: pantry}\n",
    ),
    Story(
        "manure in a season of whose produce some is given away",
        "",
        "manure-and-giving",
        line=5,
        log={
            "2026-04-10-x": "- {amend: cow manure, squares: F2, manure: raw}\n  - {sow: redroot, squares: A1}"
        },
        says="New Hampshire",
        given="- {date: 2026-06-12, crop: redroot, squares: A1, weight: 2 oz, "
        "to: {kitchen: 1 oz, pantry: the rest}}\n",
    ),
    Story(
        "a freeze, and a week in which nothing is told of what it kills",
        "- {crop: basil, tag: X1, squares: A1, set out: May 20, until: Oct 20}\n",
        "stood-through-freeze",
        2,
        log={
            "2026-05-20-x": "- {set out: basil, tag: X1, squares: A1}",
            "2026-10-20-z": "- {weed: bed, squares: F2}",
        },
        weather="date,low F\n2026-10-06,32\n",
        file="content/2026/weather.csv",
        says="basil) stood through 32 °F on 6 October",
    ),
    Story(
        "dug and never weighed, six weeks ago",
        "- {crop: carrot, tag: CA1, squares: A1, sow: Apr 5, until: Jul 20}\n"
        "- {crop: beet, tag: BE1, squares: B1, sow: Apr 5, until: Jul 20}\n"
        "- {crop: greenleaf, tag: GL1, squares: C1, sow: May 1, until: Sep 10}\n",
        "never-weighed",
        log={"2026-07-20-x": "- {clear: carrot, tag: CA1}\n  - {clear: beet, tag: BE1}"},
        given="- {date: 2026-08-31, tag: GL1, weight: 1 oz}\n",
        says="2 plantings were cleared, and the ledger has nothing of them: CA1 (carrot) on 20 July and BE1"
        " (beet) on 20 July; expected what it weighed, or “not weighed”",
    ),
]

SILENT = [
    Story(
        "a freeze over what the plan alone has",
        "- {crop: basil, tag: X1, squares: A1, set out: May 20, until: Oct 20}\n",
        "stood-through-freeze",
        log={"2026-10-20-z": "- {weed: bed, squares: F2}"},
        weather="date,low F\n2026-10-06,30\n",
    ),
    Story(
        "a night just above freezing",
        "- {crop: basil, tag: X1, squares: A1, set out: May 20, until: Oct 20}\n",
        "stood-through-freeze",
        log={
            "2026-05-20-x": "- {set out: basil, tag: X1, squares: A1}",
            "2026-10-20-z": "- {weed: bed, squares: F2}",
        },
        weather="date,low F\n2026-10-06,33\n",
    ),
    Story(
        "a freeze over what stands it",
        "- {crop: kale, tag: X1, squares: A1, set out: May 20, until: Oct 20}\n",
        "stood-through-freeze",
        log={
            "2026-05-20-x": "- {set out: kale, tag: X1, squares: A1}",
            "2026-10-20-z": "- {weed: bed, squares: F2}",
        },
        weather="date,low F\n2026-10-06,28\n",
    ),
    Story(
        "a freeze told of a week later",
        "- {crop: basil, tag: X1, squares: A1, set out: May 20, until: Oct 20}\n",
        "stood-through-freeze",
        log={
            "2026-05-20-x": "- {set out: basil, tag: X1, squares: A1}",
            "2026-10-13-y": "- {observe: black leaves, tag: X1, squares: A1}",
            "2026-10-20-z": "- {weed: bed, squares: F2}",
        },
        weather="date,low F\n2026-10-06,30\n",
    ),
    Story(
        "a freeze under a cover",
        "- {crop: basil, tag: X1, squares: A1, set out: May 20, until: Oct 20}\n",
        "stood-through-freeze",
        log={
            "2026-05-20-x": "- {set out: basil, tag: X1, squares: A1}",
            "2026-10-01-y": "- {cover: row cloth, squares: 'A1:B1'}",
            "2026-10-20-z": "- {weed: bed, squares: F2}",
        },
        weather="date,low F\n2026-10-06,30\n",
    ),
    Story(
        "at the closest in print in the narrow squares of its second bed",
        "- {crop: cabbage, squares: 'b/A1:A2, c/A1:B2', set out: May 1, until: Aug 20, plants: 6}\n",
        "too-dense",
        garden=HIGH_AND_LOW.replace("square: 8 in", "square: 2 ft"),
    ),
    Story(
        "at the side it is led out over in its second bed, which alone has one of that name",
        "- {crop: rambler, squares: 'b/A1:A2, d/D1:D2', sow: May 20, until: Sep 20, run-out: D}\n",
        "run-out-elsewhere",
        garden=HIGH_AND_LOW,
    ),
    Story(
        "corn in a block in each of two beds",
        "- {crop: sweet-corn, squares: 'c/A1:B2, d/C1:D2', sow: May 10, until: Aug 20}\n",
        "one-row",
        garden=HIGH_AND_LOW,
    ),
    Story(
        "picked on the first safe day",
        "",
        "picked-inside-wait",
        ledger="- {date: 2026-06-17, crop: greenleaf, squares: A1, weight: 1 oz}\n",
        log={
            "2026-05-01-in": "- {sow: greenleaf, squares: A1}",
            "2026-06-10-x": "- {treat: soap, squares: A1, wait: 7 days, re-entry: 0 hours}",
        },
    ),
    Story(
        "picked inside and discarded",
        "",
        "picked-inside-wait",
        ledger="- {date: 2026-06-16, crop: greenleaf, squares: A1, weight: 1 oz, to: discarded}\n",
        log={
            "2026-05-01-in": "- {sow: greenleaf, squares: A1}",
            "2026-06-10-x": "- {treat: soap, squares: A1, wait: 7 days, re-entry: 0 hours}",
        },
    ),
    Story(
        "what is done by hand has no label",
        "",
        "label-not-written-down",
        log={"2026-06-10-x": "- {treat: picking, squares: A1, kind: by hand}"},
    ),
    Story(
        "lime, in a garden written in English",
        "",
        "manure-not-told",
        garden=f"{GARDEN}language: en-GB\n",
        log={"2026-06-10-x": "- {amend: lime, squares: A1}"},
    ),
    Story(
        "what was dug in, in another language, with what of animals is in it",
        "",
        "manure-not-told",
        garden=f"{GARDEN}language: fi\n",
        log={"2026-06-10-x": "- {amend: kalkkia, squares: A1, manure: none}"},
    ),
    Story(
        "compost without anything of animals",
        "",
        "manure-not-told",
        log={"2026-06-10-x": "- {amend: compost, squares: A1, manure: none}"},
    ),
    Story(
        "composted manure with its heat",
        "",
        "counts-as-raw",
        log={"2026-06-10-x": "- {amend: compost, squares: A1, manure: composted, heat: 15 days at 135 F}"},
    ),
    Story(
        "oil at the temperature printed",
        "",
        "outside-temperature",
        log={"2026-06-10-x": "- {treat: horticultural oil, squares: A1, temperature: 100 F}"},
    ),
    *(
        Story(
            f"manure in a season whose produce goes to {to}",
            "",
            "manure-and-giving",
            log={"2026-04-10-x": "- {amend: cow manure, squares: F2, manure: raw}"},
            given=f"- {{date: 2026-06-12, crop: redroot, weight: 1 oz, to: {to}}}\n",
        )
        for to in ("kitchen", "The Kitchen", "our kitchen", "home", "discarded")
    ),
    Story(
        "manure after the last of it was given away",
        "",
        "manure-and-giving",
        log={"2026-06-13-x": "- {amend: cow manure, squares: F2, manure: raw}"},
        given="- {date: 2026-06-12, crop: redroot, weight: 1 oz, to: pantry}\n",
    ),
    Story(
        "the same crop sown again as the first is pulled",
        "- {crop: greenleaf, squares: A1, sow: May 1, until: Jun 20}\n"
        "- {crop: greenleaf, squares: A1, sow: Jun 20, until: Aug 20}\n",
        "same-family",
    ),
    Story(
        "a family back two months short of its years",
        "- {crop: greenleaf, squares: A1, sow: Apr 22, until: Jun 20}\n",
        "same-family",
        before="- {crop: greenleaf, squares: A1, sow: Jun 10, until: Aug 1}\n",
        garden=GARDEN + "rotation: 2 years\n",
    ),
    Story(
        "one ends the day the other begins",
        "- {crop: greenleaf, squares: A1:B1, sow: May 1, until: Jun 19}\n"
        "- {crop: redroot, squares: B1:C1, sow: Jun 19, until: Aug 30}\n",
        "double-held",
    ),
    Story(
        "they say that they share",
        "- {crop: greenleaf, squares: A1:B1, sow: May 1, until: Jun 20}\n"
        "- {crop: redroot, squares: B1:C1, sow: Jun 1, until: Aug 30, among: greenleaf}\n",
        "double-held",
    ),
    Story(
        "the log says that they share",
        "- {crop: greenleaf, squares: A1, sow: May 1, until: Jun 20}\n"
        "- {crop: redroot, squares: A1, sow: May 2, until: Aug 30}\n",
        "double-held",
        log={
            "2026-05-01-x": "- {sow: greenleaf, squares: A1}",
            "2026-05-02-x": "- {sow: redroot, squares: A1, among: Greenleaf}",
        },
    ),
    Story(
        "shares that fill the square",
        "- {crop: greenleaf, squares: A1, sow: May 1, until: Jun 20, share: 2/5}\n"
        "- {crop: redroot, squares: A1, sow: May 1, until: Jul 20, share: 3/5}\n",
        "shares-above-one",
    ),
    Story(
        "as many as keep the spacing",
        "- {crop: greenleaf, squares: A1:B1, sow: May 1, until: Jun 20, plants: 8}\n",
        "too-dense",
    ),
    Story(
        "as many as keep the spacing of the variety, typed without its capital",
        "- {crop: finehead, variety: amber, squares: A1:B1, sow: May 1, until: Jun 20, plants: 32}\n",
        "too-dense",
    ),
    Story(
        "a strip two thirds of the spacing wide",
        "- {crop: greenleaf, squares: D2:F2, sow: May 1, until: Jun 20, spacing: 18 in}\n",
        "too-narrow",
    ),
    Story(
        "led out",
        "- {crop: rambler, squares: E1:F2, sow: May 20, until: Sep 20, run-out: F}\n",
        "no-run-out",
    ),
    Story(
        "at the trellis",
        "- {crop: twiner, squares: C1:D1, sow: May 20, until: Sep 20}\n",
        "no-support",
    ),
    Story(
        "on the first day of the window",
        "- {crop: tomato-indeterminate, squares: A1, set out: May 10, until: Oct 1}\n",
        "too-early",
    ),
    Story(
        "on the last day",
        "- {crop: greenleaf, squares: A1, sow: Aug 22, until: Nov 20}\n",
        "too-late",
    ),
    Story(
        "cleared the day it can bear",
        "- {crop: greenleaf, squares: A1, sow: May 1, until: Jun 10}\n",
        "not-ripe",
    ),
    Story(
        "idle as long as is allowed",
        "- {crop: greenleaf, squares: A1:F2, sow: Apr 1, until: Jun 1}\n"
        "- {crop: redroot, squares: A1:F2, sow: Jun 29, until: Oct 20}\n",
        "idle",
    ),
    Story(
        "a family back in its square after the garden's years",
        "- {crop: greenleaf, squares: A1, sow: May 1, until: Jun 20}\n",
        "same-family",
        before="- {crop: greenleaf, squares: A1:A2, sow: May 1, until: Jun 20}\n",
        garden=GARDEN + "rotation: 2 years\n",
    ),
    Story("every square within reach", "", "out-of-reach"),
    Story(
        "a tender crop before the window, and dropped",
        "- {crop: tomato-indeterminate, squares: A1, set out: Apr 19, until: Oct 1, dropped: Apr 10}\n",
        "too-early",
    ),
    Story(
        "nine days late",
        "- {crop: slowhead, squares: A1, set out: Apr 25, until: Aug 10}\n",
        "late",
        log={"2026-05-04-x": "- {set out: slowhead, squares: A1}"},
    ),
    Story(
        "twenty days without a word",
        "- {crop: greenleaf, squares: A1, sow: Apr 25, until: Aug 10}\n",
        "never-planted",
        log={"2026-05-15-x": "- {weed: bed, squares: b}"},
    ),
    Story(
        "cleared nine days early",
        "- {crop: greenleaf, squares: A1, sow: Apr 25, until: Jul 10}\n",
        "pulled-early",
        log={
            "2026-04-25-x": "- {sow: greenleaf, squares: A1}",
            "2026-07-01-x": "- {clear: greenleaf, squares: A1}",
        },
    ),
    Story(
        "planted where it was planned",
        "- {crop: greenleaf, tag: GL1, squares: A1:B1, sow: Apr 25, until: Jul 10}\n",
        "elsewhere",
        log={"2026-04-25-x": "- {sow: greenleaf, tag: GL1, squares: B1}"},
    ),
    Story(
        "seen and up where nothing was ever put, and cleared where the plan has it",
        "- {crop: greenleaf, squares: A1, sow: Apr 25, until: Jul 10}\n",
        "nothing-there",
        log={
            "2026-05-25-x": "- {observe: greenleaf, squares: B2}",
            "2026-05-26-y": "- {up: greenleaf, squares: C2}",
            "2026-07-10-z": "- {clear: greenleaf, squares: A1}",
        },
    ),
    Story(
        "cleared by its tag, seen and sown indoors nowhere in the bed",
        "- {crop: greenleaf, tag: GL1, squares: A1, sow: Apr 25, until: Jul 10}\n",
        "told-nowhere",
        log={
            "2026-05-25-x": "- {observe: greenleaf}\n  - {sow indoors: greenleaf}\n  - {up: greenleaf}",
            "2026-07-10-z": "- {clear: greenleaf, tag: GL1}",
        },
    ),
    Story(
        "picked the day it went in",
        "- {crop: greenleaf, tag: GL1, squares: A1, sow: Apr 25, until: Jul 10}\n",
        "weighed-before-planting",
        log={"2026-04-25-x": "- {sow: greenleaf, tag: GL1, squares: A1}"},
        ledger="- {date: 2026-04-25, tag: GL1, weight: 4 oz}\n",
    ),
    Story(
        "picked where it had come up by itself",
        "- {crop: greenleaf, tag: GL1, squares: A1, sow: Apr 25, until: Jul 10}\n",
        "picked-elsewhere",
        log={"2026-04-25-x": "- {up: greenleaf, squares: C1}"},
        ledger="- {date: 2026-06-24, crop: greenleaf, squares: C1, weight: 4 oz}\n",
    ),
    Story(
        "picked where no line put it, of a log that may have begun late",
        "",
        "picked-elsewhere",
        log={"2026-04-25-x": "- {sow: greenleaf, squares: A1}"},
        ledger="- {date: 2026-06-24, crop: greenleaf, squares: C1, weight: 4 oz}\n",
    ),
    Story(
        "tags with their own crop, with a bowl, and with none",
        "- {crop: greenleaf, tag: GL1, squares: A1, sow: Apr 25, until: Jul 10}\n",
        "tag-of-another-crop",
        log={"2026-04-25-x": "- {sow: greenleaf, tag: gl1}\n  - {water: bed, tag: GL1}"},
        ledger="- {date: 2026-06-24, crop: greenleaf, tag: GL1, weight: 4 oz}\n"
        "- {date: 2026-06-25, tag: GL1, weight: 4 oz}\n"
        "- {date: 2026-06-25, tag: GL1, mixed: [redroot, greenleaf], weight: 4 oz}\n",
    ),
    Story(
        "picked as soon as something can have grown",
        "- {crop: greenleaf, tag: GL1, squares: A1, sow: Apr 25, until: Jul 10}\n",
        "picked-too-soon",
        log={"2026-04-25-x": "- {sow: greenleaf, tag: GL1, squares: A1}"},
        ledger="- {date: 2026-05-08, tag: GL1, weight: 4 oz}\n",
    ),
    Story(
        "cobs of no planting, of which the older corn may have given them",
        "- {crop: sweet corn, tag: SC1, squares: A1:D1, sow: May 10, until: Jun 24}\n"
        "- {crop: sweet corn, tag: SC2, squares: A2:D2, sow: May 20, until: Sep 1}\n",
        "picked-too-soon",
        log={"2026-05-10-x": "- {sow: sweet corn, tag: SC1, squares: A1:D1}"},
        ledger="- {date: 2026-06-28, crop: sweet corn, weight: 4 lb}\n",
    ),
    Story(
        "thinnings, weighed as they were pulled",
        "- {crop: greenleaf, tag: GL1, squares: A1, sow: Apr 25, until: Jul 10}\n",
        "picked-too-soon",
        log={"2026-04-25-x": "- {sow: greenleaf, tag: GL1, squares: A1}"},
        ledger="- {date: 2026-05-02, tag: GL1, weight: 4 oz, as: thinnings}\n",
    ),
    Story(
        "pieces counted fresh, and again as they were cured",
        "- {crop: carrot, tag: CA1, squares: A1, sow: Apr 25, until: Sep 10, plants: 8}\n",
        "more-than-planted",
        ledger="- {date: 2026-08-10, tag: CA1, weight: 1 lb, count: 16}\n"
        "- {date: 2026-08-10, tag: CA1, weight: 12 oz, count: 16, state: cured, weighed: 2026-08-30}\n",
    ),
    Story(
        "more pieces than planned, and as many plants by the log",
        "- {crop: carrot, tag: CA1, squares: A1, sow: Apr 25, until: Sep 10, plants: 8}\n",
        "more-than-planted",
        log={
            "2026-04-25-x": "- {sow: carrot, tag: CA1, seeds: 20}",
            "2026-05-25-x": "- {clear: carrot, tag: CA1, squares: A1, plants: 2}",
        },
        ledger="- {date: 2026-08-14, tag: CA1, weight: 2 lb, count: 40}\n",
    ),
    Story(
        "cleared long before the season ends, and no day of it planned",
        "- {crop: greenleaf, tag: GL1, squares: A1, sow: Apr 25}\n",
        "pulled-early",
        log={
            "2026-04-25-x": "- {sow: greenleaf, tag: GL1, squares: A1}",
            "2026-06-20-x": "- {clear: greenleaf, tag: GL1, squares: A1}",
        },
    ),
    Story(
        "as many as both its beds have room for",
        "- {crop: redroot, squares: 'b/A1:B1, c/A1', sow: May 1, until: Jul 20, plants: 48}\n",
        "too-dense",
        garden=TWO_BEDS,
    ),
    *(
        Story(
            f"{crop} at a trellis of six feet",
            f"- {{crop: {crop}, squares: A1, sow: May 25, until: Sep 20}}\n",
            "low-support",
        )
        for crop in ("bean-pole", "pumpkin")
    ),
    Story(
        "vines led out past a trellis of two feet",
        "- {crop: pumpkin, squares: c/A1, sow: May 25, until: Sep 20, run-out: {side: 1, reach: 6 ft}}\n",
        "low-support",
        garden=TWO_BEDS,
    ),
    Story(
        "picked the day it was to go in, and no log",
        "- {crop: greenleaf, tag: GL1, squares: A1, sow: Apr 25, until: Jul 10}\n",
        "weighed-before-planting",
        ledger="- {date: 2026-04-25, tag: GL1, weight: 4 oz}\n",
    ),
    Story(
        "picked after it went in, which was sooner than planned",
        "- {crop: greenleaf, tag: GL1, squares: A1, sow: Jun 25, until: Aug 10}\n",
        "weighed-before-planting",
        log={"2026-04-25-x": "- {sow: greenleaf, tag: GL1, squares: A1}"},
        ledger="- {date: 2026-06-20, tag: GL1, weight: 4 oz}\n",
    ),
    Story(
        "picked before gaps in what stood over winter were filled",
        "- {crop: greenleaf, tag: GL1, squares: A1, carried from: 2025, until: Jul 10}\n",
        "weighed-before-planting",
        log={"2026-05-10-x": "- {set out: greenleaf, tag: GL1, squares: A1}"},
        ledger="- {date: 2026-04-24, tag: GL1, weight: 4 oz}\n",
    ),
    Story(
        "picked before it was sown again, the first sowing not logged",
        "- {crop: greenleaf, tag: GL1, squares: A1, sow: Apr 1, until: Aug 10}\n",
        "weighed-before-planting",
        log={"2026-05-25-x": "- {resow: greenleaf, tag: GL1, squares: A1}"},
        ledger="- {date: 2026-05-20, tag: GL1, weight: 4 oz}\n",
    ),
    Story(
        "weighed three days after clearing",
        "- {crop: greenleaf, tag: GL1, squares: A1, sow: Apr 25, until: Jun 10}\n",
        "weighed-after-clearing",
        log={
            "2026-04-25-x": "- {sow: greenleaf, tag: GL1, squares: A1}",
            "2026-06-10-x": "- {clear: greenleaf, tag: GL1, squares: A1}",
        },
        ledger="- {date: 2026-06-13, tag: GL1, weight: 4 oz}\n",
    ),
    Story(
        "picked in two squares of which one was cleared",
        "- {crop: greenleaf, tag: GL1, squares: A1:B1, sow: Apr 25, until: Jul 10}\n",
        "weighed-after-clearing",
        log={
            "2026-04-25-x": "- {sow: greenleaf, tag: GL1, squares: A1:B1}",
            "2026-06-08-x": "- {lost: greenleaf, tag: GL1, squares: A1}",
        },
        ledger="- {date: 2026-06-14, tag: GL1, squares: A1:B1, weight: 4 oz}\n",
    ),
    Story(
        "weighed after one of its squares was cleared",
        "- {crop: greenleaf, tag: GL1, squares: A1:B1, sow: Apr 25, until: Jun 10}\n",
        "weighed-after-clearing",
        log={
            "2026-04-25-x": "- {sow: greenleaf, tag: GL1, squares: A1:B1}",
            "2026-06-10-x": "- {clear: greenleaf, tag: GL1, squares: A1}",
        },
        ledger="- {date: 2026-06-14, tag: GL1, weight: 4 oz}\n",
    ),
    Story(
        "weighed after it was cleared square by square, and one was sown again that day",
        "- {crop: greenleaf, tag: GL1, squares: A1:B1, sow: Apr 25, until: Jul 10}\n",
        "weighed-after-clearing",
        log={
            "2026-04-25-x": "- {sow: greenleaf, tag: GL1, squares: A1:B1}",
            "2026-05-08-x": "- {clear: greenleaf, tag: GL1, squares: A1}\n"
            "  - {resow: greenleaf, tag: GL1, squares: A1}",
            "2026-06-10-x": "- {clear: greenleaf, tag: GL1, squares: B1}",
        },
        ledger="- {date: 2026-06-14, tag: GL1, weight: 4 oz}\n",
    ),
    Story(
        "weighed as it was given up, and again once it was sown after all",
        "- {crop: greenleaf, tag: GL1, squares: A1, sow: Apr 25, until: Jul 10, dropped: May 20}\n",
        "never-stood",
        log={
            "2026-04-25-x": "- {sow: greenleaf, tag: GL1, squares: A1}",
            "2026-05-24-x": "- {resow: greenleaf, tag: GL1, squares: A1}",
        },
        ledger="- {date: 2026-05-23, tag: GL1, weight: 4 oz}\n- {date: 2026-07-04, tag: GL1, weight: 4 oz}\n",
    ),
    Story(
        "given up, cleared, and told as weighed after clearing",
        "- {crop: greenleaf, tag: GL1, squares: A1, sow: Apr 25, until: Jul 10, dropped: May 20}\n",
        "never-stood",
        log={
            "2026-04-25-x": "- {sow: greenleaf, tag: GL1, squares: A1}",
            "2026-05-20-x": "- {clear: greenleaf, tag: GL1, squares: A1}",
        },
        ledger="- {date: 2026-06-14, tag: GL1, weight: 4 oz}\n",
    ),
    Story(
        "a good square of carrots",
        "- {crop: carrot, tag: CA1, squares: A1, sow: Apr 25, until: Sep 10}\n",
        "implausible-weight",
        ledger="- {date: 2026-08-14, tag: CA1, weight: 3 lb}\n",
    ),
    Story(
        "a good picking of no told planting, and a bowl",
        "- {crop: carrot, tag: CA1, squares: A1, sow: Apr 25, until: Sep 10}\n",
        "implausible-weight",
        ledger="- {date: 2026-08-14, crop: carrot, weight: 3 lb}\n"
        "- {date: 2026-08-15, mixed: [carrot, kale], weight: 3 lb}\n",
    ),
    Story(
        "a picking that may be of two plantings, one of a bowl, and one of which the squares are told",
        "- {crop: greenleaf, tag: GL1, squares: A1, sow: Apr 25, until: Jul 10}\n"
        "- {crop: greenleaf, tag: GL2, squares: B1, sow: Apr 25, until: Jul 10}\n"
        "- {crop: redroot, tag: RR1, squares: C1, sow: Apr 25, until: Aug 10}\n",
        "planting-not-told",
        ledger="- {date: 2026-06-20, crop: greenleaf, weight: 1 oz}\n"
        "- {date: 2026-07-04, crop: redroot, squares: C1, weight: 1 oz}\n"
        "- {date: 2026-07-05, mixed: [greenleaf, redroot], weight: 1 oz}\n",
    ),
    Story(
        "picked of no planting: three days after the end, of what stood over winter, and where one may stand",
        "- {crop: greenleaf, tag: GL1, squares: A1, sow: Apr 25, until: Jun 10}\n"
        "- {crop: redroot, tag: RR1, squares: B1, carried from: 2025, until: Jul 10}\n"
        "- {crop: twiner, tag: TW1, squares: C1, sow: Apr 25, until: Jun 10}\n"
        "- {crop: twiner, tag: TW2, squares: D1, sow: May 10, until: Jun 10}\n",
        "none-stood",
        log={
            "2026-06-10-x": "- {clear: greenleaf, tag: GL1, squares: A1}\n"
            "  - {clear: twiner, tag: TW1, squares: C1}"
        },
        ledger="- {date: 2026-06-13, crop: greenleaf, weight: 4 oz}\n"
        "- {date: 2026-04-01, crop: redroot, weight: 4 oz}\n"
        "- {date: 2026-06-20, crop: twiner, weight: 4 oz}\n"
        "- {date: 2026-03-20, crop: finehead, weight: 4 oz}\n",
    ),
    Story(
        "a general name in the squares of a planting",
        "- {crop: bean-bush, tag: BB1, squares: A1, sow: May 15, until: Aug 10}\n",
        "kind-not-told",
        ledger="- {date: 2026-08-01, crop: beans, squares: A1, weight: 4 oz}\n",
    ),
    Story(
        "nothing came, in one of its squares, of some plants, and before it was sown again and came up",
        "- {crop: carrot, tag: CA1, squares: A1:B1, sow: May 1, until: Aug 20}\n"
        "- {crop: redroot, tag: RR1, squares: C1:D1, sow: May 1, until: Aug 20}\n",
        "failed-after-up",
        log={
            "2026-05-01-x": "- {sow: carrot, tag: CA1, squares: A1:B1}\n"
            "  - {sow: redroot, tag: RR1, squares: C1:D1}",
            "2026-05-20-x": "- {up: carrot, tag: CA1}\n  - {failed: redroot, tag: RR1}",
            "2026-05-25-x": "- {failed: carrot, tag: CA1, squares: B1}\n  - {resow: redroot, tag: RR1}\n"
            "  - {failed: carrot, tag: CA1, plants: 2}",
            "2026-06-10-x": "- {up: redroot, tag: RR1}",
        },
    ),
    Story(
        "weighed fresh and cured under one tag, cured alone, and another produce of it fresh",
        "- {crop: onion-bulb, tag: ON1, squares: A1, set out: Apr 10, until: Aug 10}\n",
        "counted-twice",
        ledger="- {date: 2026-08-10, tag: ON1, weight: 2 lb}\n"
        "- {date: 2026-08-10, tag: ON1, weight: 1 lb 12 oz, state: cured, weighed: 2026-08-30}\n"
        "- {date: 2026-08-11, tag: ON1, weight: 1 lb, as: greens}\n"
        "- {date: 2026-08-11, crop: onion-bulb, weight: 1 lb 1 oz, state: cured, weighed: 2026-08-30}\n",
    ),
    Story(
        "a cured weight beside pickings of that day that were not weighed, or were of a mixed bowl",
        "- {crop: onion-bulb, tag: ON1, squares: A1, set out: Apr 10, until: Aug 10}\n",
        "counted-twice",
        ledger=f"- {{date: 2026-08-10, crop: onion-bulb, weight: not weighed, {QUIET}}}\n"
        "- {date: 2026-08-10, mixed: [onion-bulb, carrot], weight: 2 lb}\n"
        "- {date: 2026-08-10, tag: ON1, weight: 1 lb 12 oz, state: cured, weighed: 2026-08-30}\n",
    ),
    Story(
        "cured weights of later liftings: heavier, with a day of weighing, of other squares, long after",
        "- {crop: onion-bulb, tag: ON1, squares: A1:B1, set out: Apr 10, until: Sep 30}\n",
        "counted-twice",
        ledger="- {date: 2026-07-10, squares: A1, weight: 12 oz, tag: ON1}\n"
        "- {date: 2026-07-20, tag: ON1, weight: 12.1 oz, state: cured}\n"
        "- {date: 2026-07-21, tag: ON1, weight: 11 oz, state: cured, weighed: 2026-08-20}\n"
        "- {date: 2026-07-22, tag: ON1, squares: B1, weight: 11 oz, state: cured}\n"
        "- {date: 2026-10-09, tag: ON1, weight: 11 oz, state: cured}\n",
    ),
    Story(
        "two places",
        "- {crop: carrot, tag: CA1, squares: A1, sow: Apr 25, until: Sep 10}\n",
        "one-place-two-names",
        ledger="- {date: 2026-08-10, tag: CA1, weight: 1 lb, to: food pantry}\n"
        "- {date: 2026-08-12, tag: CA1, weight: 1 lb, to: kitchen}\n",
    ),
    Story(
        "an entry said to be finished",
        "",
        "unfinished",
        log={"2026-05-01-x": "- {weed: bed, squares: A1}\nunfinished: no"},
    ),
    Story(
        "an entry held until the day of the newest record",
        "",
        "held",
        log={
            "2026-05-01-x": "- {weed: bed, squares: A1}\nhold until: 2026-05-02",
            "2026-05-02-y": "- {weed: bed, squares: A1}",
        },
    ),
    Story(
        "dug, and still curing; weighed, or said not to be; of a picking that names none; lost; dug young",
        "- {crop: carrot, tag: CA1, squares: A1, sow: Apr 5, until: Jul 20}\n"
        "- {crop: beet, tag: BE1, squares: B1, sow: Apr 5, until: Jul 1}\n"
        "- {crop: parsnip, tag: PN1, squares: C1, sow: Apr 5, until: Jul 1}\n"
        "- {crop: potato, tag: PO1, squares: D1, set out: Apr 5, until: Jul 1}\n"
        "- {crop: rutabaga, tag: RU1, squares: E1, sow: Apr 5, until: Jul 1}\n",
        "never-weighed",
        log={
            "2026-04-30-x": "- {clear: rutabaga, tag: RU1}",
            "2026-07-19-x": "- {clear: beet, tag: BE1}\n  - {clear: parsnip, tag: PN1}\n"
            "  - {lost: potato, tag: PO1, plants: 1}\n  - {clear: potato, tag: PO1}",
            "2026-07-20-x": "- {clear: carrot, tag: CA1}",
        },
        ledger="- {date: 2026-08-30, crop: beet, tag: BE1, weight: not weighed}\n"
        "- {date: 2026-08-30, mixed: [parsnip, radish], weight: 1 lb}\n",
    ),
    Story(
        "dug where nobody weighs, and what is never weighed whole",
        "- {crop: carrot, tag: CA1, squares: A1, sow: Apr 5, until: Jul 20}\n"
        "- {crop: basil, tag: BA1, squares: B1, sow: May 15, until: Jul 20}\n",
        "never-weighed",
        log={"2026-07-20-x": "- {clear: carrot, tag: CA1}\n  - {clear: basil, tag: BA1}"},
        ledger="- {date: 2026-09-30, crop: radish, weight: not weighed}\n",
    ),
]


def found_in(story: Story, folder: Path, codes: set[str] | None = None) -> list[Finding]:
    """Return what is found in a story, or by the checks of some codes alone."""
    (folder / "content/2026/log").mkdir(parents=True)  # a log is kept, if nothing stands in it
    files = {
        "garden.yaml": story.garden or GARDEN,
        "crops.yaml": CROPS,
        "2026/plan.yaml": story.plan or "[]\n",
        "2026/harvest.yaml": story.ledger or story.given,
        "2024/plan.yaml": story.before,
        "2026/weather.csv": story.weather,
    }
    for name, done in story.log.items():
        text = f"---\ntitle: {name}\ndate: {name[:10]}\ndone:\n  {done}\n---\nText.\n"
        files[f"2026/log/{name}.md"] = text
    got = read(written(folder, {name: text for name, text in files.items() if text}))
    assert got.garden is not None, [worded(one) for one in got.findings]
    errors = [worded(one) for one in got.findings if one.severity is Severity.ERROR]
    assert not errors
    seasons = got.garden.seasons
    newest = [one.newest for one in seasons if one.newest]
    today = newest[-1] if newest else seasons[-1].span.first
    return list(every_finding(Years(garden=got.garden, today=today).all[-1], codes))


@pytest.mark.parametrize("story", FIRES, ids=lambda story: story.name)
def test_fires(story: Story, tmp_path: Path):
    # A check is called as its findings are: a page that asks for some codes runs no other check.
    found = [one for one in found_in(story, tmp_path, {story.code}) if one.code == story.code]
    assert len(found) == 1, [worded(one) for one in found]
    file = "content/garden.yaml" if story.code == "out-of-reach" else "content/2026/plan.yaml"
    if story.ledger:
        file = "content/2026/harvest.yaml"
    if story.log and not story.plan:
        file = f"content/2026/log/{min(story.log)}.md"
    assert (found[0].place.file, found[0].place.line) == (story.file or file, story.line), worded(found[0])
    assert story.says in worded(found[0])
    assert found[0].remedy, "a finding says what to do"


@pytest.mark.parametrize(("sown", "told"), [("Jul 10", True), ("Jun 15", False)])
def test_what_is_tended_weeks_before_it_goes_in_is_told_at_its_line(sown: str, told: bool, tmp_path: Path):
    plan = f"- {{crop: greenleaf, tag: GL1, squares: A1, sow: {sown}, until: Sep 10}}\n"
    log = {"2026-05-25-x": "- {thin: greenleaf, tag: GL1, leaving: 4}"}
    found = [
        one for one in found_in(Story("x", plan, log=log), tmp_path, {"nothing-there"}) if one.place.line == 5
    ]
    assert [one.place.file for one in found] == (["content/2026/log/2026-05-25-x.md"] if told else [])
    assert all("by the plan it goes in on 10 July" in one.found for one in found)


@pytest.mark.parametrize(
    ("garden", "lines"),
    [
        ("", 1),
        ("freeze dates: {last spring: Apr 25, first fall: Oct 5}\n", 4),
        ("season: {start: Mar 1, end: Nov 30}\n", 4),
        ("latitude: -12\n", 4),
    ],
)
def test_ends_of_a_year_are_told_once_where_nobody_said_when_it_freezes(
    garden: str, lines: int, tmp_path: Path
) -> None:
    """Fails where radish is said to fit from January on, of each run of squares, in a place nobody knows."""
    place = f"name: Test\n{garden}beds: [{{name: b, length: 4 squares, width: 2 squares}}]\n"
    plan = (
        "- {crop: greenleaf, squares: A1:D1, sow: Jun 10, until: Aug 1}\n"
        "- {crop: greenleaf, squares: A2:D2, sow: Jul 1, until: Aug 20}\n"
    )
    told = [one for one in found_in(Story("ends", plan, garden=place), tmp_path) if one.code == "idle"]
    assert len(told) == lines, [worded(one) for one in told]
    assert ("when it freezes here is not told" in worded(told[0])) is (not garden)


def test_squares_idle_all_season_are_told_at_their_bed_with_the_year(tmp_path: Path):
    story = Story("half a bed", "- {crop: greenleaf, squares: A1:F1, sow: Apr 1, until: Oct 20}\n", "idle")
    (told,) = [one for one in found_in(story, tmp_path) if one.code == "idle"]
    assert told.place.file == "content/garden.yaml"
    assert " 2026, " in told.found, "a bed is the same one in every season"
    assert "tell a longer `idle:`" in worded(told), "no row of the plan could silence it"


@pytest.mark.parametrize("story", SILENT, ids=lambda story: story.name)
def test_silent_just_inside_the_limit(story: Story, tmp_path: Path):
    assert [worded(one) for one in found_in(story, tmp_path) if one.code == story.code] == []


@pytest.mark.parametrize("story", FIRES, ids=lambda story: story.name)
def test_tells_nothing_else(story: Story, tmp_path: Path):
    others = {one.code for one in found_in(story, tmp_path)} - {story.code, WHOLE}
    assert others == set(), "a story shows one finding, so that a check that fires too often is seen"


@pytest.mark.parametrize(
    ("sown", "follower", "told"),
    [
        # Greenleaf sown on 22 August is ready before the fall freeze, as "too-late" has it: not a day later.
        ("2026-05-07", "sow: Aug 16, until: Oct 20", False),
        ("2026-05-08", "sow: Aug 16, until: Oct 20", True),
        # What goes in beside it, before it is to leave, waits for nothing.
        ("2026-05-12", "sow: May 20, until: Oct 20, among: slowhead", False),
    ],
)
def test_what_a_late_planting_pushes_out_is_told(sown: str, follower: str, told: bool, tmp_path: Path):
    """Else a gardener is told to give up a planting that still fits, or is not told in time."""
    plan = (
        "- {crop: slowhead, squares: A1, set out: Apr 25, until: Aug 10}\n"
        f"- {{crop: greenleaf, squares: A1, {follower}}}\n"
    )
    log = {f"{sown}-x": "- {set out: slowhead, squares: A1}"}
    (late,) = [one for one in found_in(Story("x", plan, log=log), tmp_path) if one.code == "late"]
    assert ("greenleaf would then go in on" in late.found) is told


def out_of_reach(garden: str, folder: Path) -> list[str]:
    """Return the squares whose middles are told to be out of reach."""
    found = [one for one in found_in(Story("x", "", garden=garden), folder) if one.code == "out-of-reach"]
    return [one.found.removeprefix("the middle of ").partition(" is more than 2")[0] for one in found]


@pytest.mark.parametrize(
    ("side", "far"),
    # From a path, the middle of the third row or column is 2 ft 6 in away, that of the second 1 ft 6 in.
    [
        ("1", "b/A3:F3"),
        ("3", "b/A1:F1"),
        ("A", "b/C1:F3"),
        ("F", "b/A1:D3"),
        ("1, width: 2 ft}, {side: 3", ""),
    ],
)
def test_reach_is_measured_from_the_side_of_the_path(side: str, far: str, tmp_path: Path):
    """Else a gardener is told to step where they need not, or not told where they must."""
    beds, _path, _rest = GARDEN.partition("    trellis:")
    garden = (
        beds.replace("width: 2 squares", "width: 3 squares") + f"    path: [{{side: {side}, width: 2 ft}}]\n"
    )
    assert out_of_reach(garden, tmp_path) == ([far] if far else [])


@pytest.mark.parametrize(
    ("omitted", "side", "far"),
    # Of six columns and four rows C2:F4 are left out. From the omitted square C2 the middle of A1 is 1.58 ft
    # away (1 1/2 ft along, half a foot across); without a path at it nobody stands there.
    # From E2:E4 the middles of C2:C4 are 1 1/2 ft away, those of B2:B4 2 1/2.
    [
        ("C2:F4", "4", ""),
        ("C2:F4", "F", ""),
        ("C2:F4", "1", "b/A3:B4"),
        ("C2:F4", "A", "b/C1:F1"),
        ("E2:F4", "F", "b/A1:B4"),
    ],
)
def test_what_an_l_leaves_out_is_ground_to_stand_on_where_a_path_leads_to_it(
    omitted: str, side: str, far: str, tmp_path: Path
):
    beds, _path, _rest = GARDEN.partition("    trellis:")
    bed = beds.replace("width: 2 squares", "width: 4 squares") + f"    omitted: [{omitted}]\n"
    garden = f"{bed}    path: [{{side: {side}, width: 2 ft}}]\n"
    assert out_of_reach(garden, tmp_path) == ([far] if far else [])


def test_what_was_weighed_twice_is_told_with_the_line_of_the_first(tmp_path: Path) -> None:
    row = "- {date: 2026-06-10, crop: spinach, weight: 3 oz}"
    ledger = "\n".join((row, row.replace("spinach", "kale"), row.replace("3 oz", "85.0486 g"), row, ""))
    found = [one for one in found_in(Story("x", "", ledger=ledger), tmp_path) if one.code == "weighed-twice"]
    assert [(one.place.line, one.found) for one in found] == [
        (4, "this weighing says the same as that of line 1, of the same day")
    ]


@pytest.mark.parametrize(
    ("first", "second", "told"),
    [
        ("tag: CA1", "crop: carrot", True),
        ("crop: carrot", "tag: CA1", True),
        ("crop: carrot", "crop: carrot, squares: B1", True),
        ("tag: CA1", "crop: carrot, squares: A1", True),
        ("tag: CA1", "tag: CA2", False),
        ("tag: CA1", "tag: CA1, as: bunched", False),
        ("tag: CA1", "tag: CA1, count: 4", False),
        ("tag: CA1", "crop: carrot, squares: B1", False),
        ("tag: CA1", "crop: beet", False),
    ],
)
def test_a_row_that_tells_less_of_a_weighing_says_the_same(
    first: str, second: str, told: bool, tmp_path: Path
) -> None:
    """The scale asks about such a row; written by hand, one with a tag and one without were told nowhere."""
    plan = "".join(
        f"- {{crop: carrot, tag: {tag}, squares: {square}, sow: Apr 5, until: Sep 1}}\n"
        for tag, square in (("CA1", "A1"), ("CA2", "B1"))
    )
    ledger = "".join(f"- {{date: 2026-07-20, {row}, weight: 1 lb}}\n" for row in (first, second))
    found = found_in(Story("x", plan, ledger=ledger), tmp_path, {"weighed-twice"})
    assert [one.place.line for one in found] == [2] * told


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("thin: redroot, squares: A1:B1, leaving: 32", []),
        ("thin: redroot, squares: A1:B1, leaving: 33", ["RR1 (redroot) stands with 17 plants by this line"]),
        ("thin: redroot, squares: B1, leaving: 32", ["RR2 (redroot) stands with 32 plants by this line"]),
        ("sow: redroot, squares: A1:B1, plants: 32", []),
    ],
)
def test_of_a_count_in_squares_of_two_plantings_each_has_its_part(
    line: str, told: list[str], tmp_path: Path
) -> None:
    """Each was told of the whole number, as if all of it stood in its own square."""
    plan = "".join(
        f"- {{crop: redroot, tag: {tag}, squares: {square}, sow: Apr 25, until: Sep 1, plants: 16}}\n"
        for tag, square in (("RR1", "A1"), ("RR2", "B1"))
    )
    log = {"2026-05-25-x": f"- {{{line}}}"}
    found = found_in(Story("x", plan, log=log), tmp_path, {"no-room-for-count"})
    assert [one.found for one in found] == told


@pytest.mark.parametrize(
    ("lost", "counted", "codes"),
    [(17, 33, {"lost-too-many", "more-than-planted"}), (16, 32, set())],
)
def test_a_planting_has_its_part_of_what_one_line_put_into_two(
    lost: int, counted: int, codes: set[str], tmp_path: Path
) -> None:
    """All of it counted as put into each, so that twice as much could be lost or pulled unasked."""
    plan = "".join(
        f"- {{crop: carrot, tag: {tag}, squares: {square}, sow: Apr 25, until: Sep 1, plants: 16}}\n"
        for tag, square in (("CA1", "A1"), ("CA2", "B1"))
    )
    log = {
        "2026-04-25-x": "- {sow: carrot, squares: A1:B1, plants: 32}",
        "2026-05-25-x": f"- {{lost: carrot, tag: CA1, plants: {lost}}}",
    }
    ledger = f"- {{date: 2026-07-20, tag: CA2, weight: 2 lb, count: {counted}}}\n"
    asked = {"lost-too-many", "more-than-planted"}
    found = found_in(Story("x", plan, log=log, ledger=ledger), tmp_path, asked)
    assert {one.code for one in found} == codes


@pytest.mark.parametrize(
    ("put", "weight", "told"), [("plants", 4, True), ("seeds", 4, True), ("plants", 3, False)]
)
def test_a_weight_is_held_against_a_plantings_part_of_what_one_line_put_into_two(
    put: str, weight: int, told: bool, tmp_path: Path
) -> None:
    """All eight carrots of the line counted for each, so that four of them might weigh what eight can."""
    plan = "".join(
        f"- {{crop: carrot, tag: {tag}, squares: {square}, sow: Apr 25, until: Sep 1, plants: 4}}\n"
        for tag, square in (("CA1", "A1"), ("CA2", "B1"))
    )
    log = {"2026-04-25-x": f"- {{sow: carrot, squares: A1:B1, {put}: 8}}"}
    ledger = f"- {{date: 2026-08-20, tag: CA1, weight: {weight} lb}}\n"
    found = found_in(Story("x", plan, log=log, ledger=ledger), tmp_path, {"implausible-weight"})
    assert [one.expected for one in found] == ["3 lb 1.4 oz at most of 4 plants"] * told


LOST = "lost: kale, tag: KA1, squares: A1, plants: 2"
SET_OUT = "set out: kale, tag: KA1, squares: A1"


@pytest.mark.parametrize(
    ("lines", "row", "told"),
    [
        # Two were planted, two were lost, and two again.
        ((SET_OUT, LOST, LOST), "", ["4 plants of KA1 (kale) are gone, with the 2 lost here"]),
        (
            (f"{SET_OUT}, plants: 2", LOST, LOST.replace("2", "1")),
            "",
            ["3 plants of KA1 (kale) are gone, with"],
        ),
        ((SET_OUT, LOST.replace("2", "1"), LOST.replace("2", "1")), "", []),
        ((SET_OUT, LOST.replace("2", "3"), LOST), "", ["3 plants of KA1 (kale) are lost"]),
        (
            (SET_OUT, LOST, LOST.replace("lost", "clear")),
            "",
            ["4 plants of KA1 (kale) are gone, with the 2 cle"],
        ),
        # Put in again, counted or not, once.
        ((SET_OUT, LOST, SET_OUT, LOST), "", []),
        ((SET_OUT, LOST, f"{SET_OUT}, plants: 2", LOST), "", []),
        ((f"{SET_OUT}, plants: 2", LOST, f"{SET_OUT}, plants: 2", LOST), "", []),
        ((SET_OUT, LOST, f"{SET_OUT}, plants: 1", LOST), "", ["4 plants of KA1 (kale) are gone"]),
        ((*2 * (f"{SET_OUT}, plants: 1",), LOST.replace("2", "3")), "", ["3 plants of KA1 (kale) are lost"]),
        # Half of them in one square and half in the other.
        (
            (SET_OUT, SET_OUT.replace(": A1", ": B1"), LOST, LOST.replace(": A1", ": B1").replace("2", "1")),
            "",
            ["3 plants of KA1 (kale) are gone"],
        ),
        # Of the four that stood there before, and two more.
        ((f"{SET_OUT}, plants: 2", LOST, LOST), "carried", []),
        ((f"{SET_OUT}, plants: 1", LOST, LOST), "carried", ["4 plants of KA1 (kale) are gone"]),
        # Of which planting the second two were nobody knows.
        ((SET_OUT, LOST, "lost: kale, squares: A1:C1, plants: 2"), "", []),
    ],
)
def test_more_plants_are_not_lost_in_all_lines_than_were_put_in(
    lines: tuple[str, ...], row: str, told: list[str], tmp_path: Path
) -> None:
    """Each line was held against the plants by itself, so that all of them could be lost twice."""
    begun = "carried from: 2025" if row else "set out: Apr 25"
    plan = (
        f"- {{crop: kale, tag: KA1, squares: A1:B1, {begun}, until: Sep 1, plants: 2}}\n"
        "- {crop: kale, tag: KA2, squares: C1, set out: Apr 25, until: Sep 1, plants: 1}\n"
    )
    log = {f"2026-0{5 + number}-25-x": f"- {{{line}}}" for number, line in enumerate(lines)}
    found = found_in(Story("x", plan, log=log), tmp_path, {"lost-too-many"})
    assert len(found) == len(told), found
    assert all(one.found.startswith(start) for one, start in zip(found, told, strict=True))


@pytest.mark.parametrize(
    ("sown", "said"),
    [("sow: carrot, tag: CA1", False), ("sow: carrot, tag: CA1, plants: 16", True), ("weed: bed", False)],
)
def test_seedlings_of_seed_that_nobody_counted_may_be_more_than_the_plan_keeps(
    sown: str, said: bool, tmp_path: Path
) -> None:
    """Fails where slugs may eat no more seedlings than there was to be room for."""
    plan = "- {crop: carrot, tag: CA1, squares: A1, sow: Apr 25, until: Sep 1, plants: 16}\n"
    log = {"2026-04-25-x": f"- {{{sown}}}", "2026-05-25-x": "- {lost: carrot, tag: CA1, plants: 40}"}
    found = found_in(Story("x", plan, log=log), tmp_path, {"lost-too-many"})
    assert bool(found) is said


@pytest.mark.parametrize("what", ["crop: carrot", "mixed: [carrot, kale]"])
def test_a_picking_of_no_told_planting_is_held_against_what_the_scale_believes(
    what: str, tmp_path: Path
) -> None:
    """Written by hand it was told nowhere, where the scale would have asked."""
    plan = "- {crop: carrot, tag: CA1, squares: A1, sow: Apr 25, until: Sep 10}\n"
    ledger = f"- {{date: 2026-08-14, {what}, weight: 12 lb}}\n"
    found = found_in(Story("x", plan, ledger=ledger), tmp_path, {"implausible-weight"})
    assert [(one.place.line, one.found.partition(":")[0]) for one in found] == [
        (1, "12.0 lb at once is beyond belief")
    ]


@pytest.mark.parametrize(
    ("name", "title", "done", "told"),
    [
        ("05-25-x (1)", "Dry", "- {water: bed, amount: 5 gal}\n  - {weed: bed, minutes: 10}", True),
        ("05-25-x copy", " dry", "- {weed: bed, minutes: 10}", True),
        ("05-25-x (1)", "Dry", "- {water: bed, amount: 6 gal}", False),
        ("05-25-evening", "Dry still", "- {water: bed, amount: 5 gal}", False),
        ("05-26-x", "Dry", "- {water: bed, amount: 5 gal}", False),
    ],
)
def test_a_copy_of_an_entry_is_told_as_a_shared_folder_leaves_it(
    name: str, title: str, done: str, told: bool, tmp_path: Path
) -> None:
    """Its water, work and losses counted twice, and nobody was told."""
    log = {"05-25-x": ("Dry", "- {water: bed, amount: 5 gal}\n  - {weed: bed, minutes: 10}")}
    log[name] = (title, done)
    entries = {
        f"2026/log/2026-{file}.md": f"---\ntitle: {called}\ndone:\n  {lines}\n---\nText.\n"
        for file, (called, lines) in log.items()
    }
    garden = read_garden(written(tmp_path, {"garden.yaml": GARDEN, **entries}))
    year = Years(garden=garden, today=date(2026, 5, 26)).all[-1]
    found = [(one.place.file, one.found) for one in every_finding(year, {"written-twice"})]
    words = "this entry tells what 2026-05-25-x.md tells too, and what both tell counts twice"
    assert found == ([(f"content/2026/log/2026-{name}.md", words)] if told else [])


def test_a_copied_entry_that_sows_is_told_once(tmp_path: Path) -> None:
    """Its lines were told one by one as well; a line that stands twice in one entry still is."""
    lines = "- {sow: carrot, squares: A1}\n  - {sow: carrot, squares: B1}\n  - {sow: radish, squares: C1}"
    once = f"---\ntitle: Dry\ndone:\n  {lines}\n---\nText.\n"
    twice = "- {sow: beet, squares: D1}\n  - {sow: beet, squares: D1}"
    files = {
        "garden.yaml": GARDEN,
        "2026/log/2026-05-25-x.md": once,
        "2026/log/2026-05-25-x copy.md": once,
        "2026/log/2026-05-26-y.md": f"---\ntitle: Wet\ndone:\n  {twice}\n---\n",
    }
    year = Years(garden=read_garden(written(tmp_path, files)), today=date(2026, 5, 26)).all[-1]
    found = every_finding(year, {"written-twice", "logged-twice"})
    assert [(one.code, one.place.file.rpartition("/")[2]) for one in found] == [
        ("written-twice", "2026-05-25-x copy.md"),
        ("logged-twice", "2026-05-26-y.md"),
    ]


IN_GARDENS = {
    *("run-out-elsewhere", "run-out-short", "one-row", "no-such-season", "seedlings"),
    *("lost-too-many", "no-room-for-count", "other-variety", "logged-twice", "tended-after-clearing"),
    *("weighed-twice", "heavier-cured", "piece-weight"),
    *("crowded", "low-support", "sown-in-bed", "sown-into-heat", "out-of-its-time"),
}
"""Codes whose faults and near misses stand in the three invented gardens of ``test_growers_eye``."""
ELSEWHERE = {
    *("bed-without-record", "bulbs-too-late", "not-carried-on", "not-there-before", "price-far-off"),
    "written-twice",
}
"""Codes whose stories are told in ``test_growing``, ``test_over_seasons`` and ``test_prices``, and above."""


def test_every_check_has_a_story_on_which_it_fires_and_one_on_which_it_is_silent():
    fires, silent = {story.code for story in FIRES}, {story.code for story in SILENT}
    assert fires == silent, "a story in FIRES has its near miss in SILENT, and the other way round"
    told = fires | IN_GARDENS | ELSEWHERE
    codes = {check.__name__.replace("_", "-") for check in CHECKS} - set(OF_THE_SUN)
    assert told == codes, "a check without a story in FIRES, or in a set that says where it is told"


def test_every_function_that_gives_findings_has_its_row():
    """Else a check is written and nobody runs it."""
    rooms = [import_module(room.name) for room in walk_packages(checks.__path__, "tallybed.checks.")]
    written = {
        one
        for room in rooms
        for one in vars(room).values()
        if isfunction(one)
        and not one.__name__.startswith("_")
        and one.__annotations__.get("return") == "Iterator[CheckResult]"
    }
    assert {one.__name__ for one in written - set(CHECKS)} == set(), "no row in checks/registry.py"


def test_the_list_of_checks_is_this_one():
    assert [check.__name__ for check in CHECKS] == [
        "picked_inside_wait",
        "label_not_written_down",
        "manure_not_told",
        "counts_as_raw",
        "outside_temperature",
        "manure_and_giving",
        "double_held",
        "shares_above_one",
        "too_dense",
        "crowded",
        "too_narrow",
        "no_run_out",
        "no_support",
        "low_support",
        "run_out_elsewhere",
        "run_out_short",
        "one_row",
        "no_such_season",
        "not_there_before",
        "not_carried_on",
        "seedlings",
        "sown_in_bed",
        "sown_into_heat",
        "out_of_its_time",
        "bulbs_too_late",
        "too_early",
        "too_late",
        "not_ripe",
        "stood_through_freeze",
        "idle",
        "bed_without_record",
        "same_family",
        "out_of_reach",
        "too_little_sun",
        "shades_neighbours",
        "late",
        "never_planted",
        "pulled_early",
        "elsewhere",
        "nothing_there",
        "failed_after_up",
        "told_nowhere",
        "tag_of_another_crop",
        "weighed_before_planting",
        "weighed_after_clearing",
        "implausible_weight",
        "piece_weight",
        "one_place_two_names",
        "lost_too_many",
        "no_room_for_count",
        "other_variety",
        "logged_twice",
        "written_twice",
        "tended_after_clearing",
        "never_stood",
        "picked_elsewhere",
        "picked_too_soon",
        "more_than_planted",
        "weighed_twice",
        "heavier_cured",
        "none_stood",
        "planting_not_told",
        "kind_not_told",
        "counted_twice",
        "never_weighed",
        "price_far_off",
        "unfinished",
        "held",
    ]


DENSE = (
    "- {{crop: greenleaf, squares: A1:B1, sow: May 1, until: Jun 20, plants: {},"
    " silence: {{too-dense: cut young}}}}\n"
)


def test_a_row_silences_its_finding_with_a_reason(tmp_path: Path):
    found = found_in(Story("x", DENSE.format(9)), tmp_path)
    assert {one.code for one in found} - {WHOLE} == set()


def test_a_silence_that_silences_nothing_is_told(tmp_path: Path):
    found = found_in(Story("x", DENSE.format(8)), tmp_path)
    assert {one.code for one in found} - {WHOLE} == {"silence-not-needed"}


@pytest.mark.parametrize("order", [(1, 2), (2, 1)])
def test_of_two_plantings_picked_the_one_that_was_cleared_is_told(
    order: tuple[int, int], tmp_path: Path
) -> None:
    """Whichever was asked for first."""
    plan = "".join(
        f"- {{crop: greenleaf, tag: GL{number}, squares: {square}, sow: Apr 25, until: Jul 10}}\n"
        for number, square in ((1, "A1"), (2, "B1"))
    )
    log = {
        "2026-04-25-x": "- {sow: greenleaf, tag: GL1, squares: A1}",
        "2026-04-25-y": "- {sow: greenleaf, tag: GL2, squares: B1}",
        "2026-06-08-x": "- {clear: greenleaf, tag: GL1}",
    }
    ledger = "".join(f"- {{date: 2026-06-14, tag: GL{number}, weight: 4 oz}}\n" for number in order)
    found = found_in(Story("x", plan, log=log, ledger=ledger), tmp_path, {"weighed-after-clearing"})
    assert [one.place.line for one in found] == [order.index(1) + 1]


@pytest.mark.parametrize(("rows", "told"), [(2, []), (3, ["9 lb"])])
def test_pickings_of_no_told_planting_are_held_together_against_all_the_plants(
    rows: int, told: list[str], tmp_path: Path
) -> None:
    """Eight carrots of 350 g at the most (the table's own figure) are 6.2 lb; each row alone can be."""
    plan = "".join(
        f"- {{crop: carrot, tag: {tag}, squares: {square}, sow: Apr 25, until: Sep 10, plants: 4}}\n"
        for tag, square in (("CA1", "A1"), ("CA2", "B1"))
    )
    ledger = "".join(
        f"- {{date: 2026-08-{day}, crop: carrot, weight: 3 lb}}\n" for day in range(14, 14 + rows)
    )
    found = found_in(Story("x", plan, ledger=ledger), tmp_path, {"implausible-weight"})
    assert [one.found.partition(" come to ")[2].partition(" with ")[0] for one in found] == told
