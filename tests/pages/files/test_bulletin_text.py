"""Bulletins in full, week by week: each text was put together by hand from the weighings above it."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date, timedelta
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tallybed.garden.crops import Beginning, Crop, Habit
from tallybed.garden.days import Week
from tallybed.garden.garden import Garden
from tallybed.garden.naming import CropName
from tallybed.garden.units import GRAM, INCH, OUNCE, Length, Showing, Weight
from tallybed.pages.files.bulletin_text import MOST_WORDS, BesideRows, bulletin_text
from tallybed.pages.season.bulletins import season_of, week_facts
from tallybed.pages.wording import spoken
from tallybed.reckoning.calendar.due import Due
from tallybed.reckoning.harvest.areas import Ground
from tallybed.reckoning.harvest.tally import Total
from tallybed.reckoning.harvest.week import Bulletin, Earlier, weeks
from tallybed.reckoning.rows.land import Range
from tallybed.reckoning.rows.verdicts import Verdict
from tallybed.reckoning.year import Years
from tests.laws import tries
from tests.pages.gardens import site_of, written

GARDEN = """\
name: Plank End
latitude: 41
longitude: -80
units: {units}
season: {season}
seasons: {seasons}
beds:
  - {{name: plank, title: The plank, length: 4 squares, width: 2 squares}}
"""
NAMED = "Plank End\n"


@dataclass(frozen=True, kw_only=True)
class Case:
    """A small garden's papers, and what its bulletin of one week says."""

    week: str
    text: str
    files: dict[str, str] = field(default_factory=dict)
    season: str = "{start: Mar 1, end: Oct 31}"
    seasons: str = "{}"
    units: str = "pounds"


CASES = {
    "nothing picked yet, and nothing planned": Case(
        files={"2026/harvest.yaml": "[]", "2026/log/2026-03-04-a-look.md": "---\ntitle: A look\n---\nMud.\n"},
        week="2026-W10",
        text="Week 10 of 2026, 2 to 4 March\n\n"
        "No picking is on record for these days.\n\n"
        "The ledger of 2026 has no picking yet.",
    ),
    "the first week is cut to the season's first day": Case(
        # 1 March 2026 is a Sunday, the last day of ISO week 9.
        files={"2026/harvest.yaml": "- {date: 2026-03-01, crop: kale, weight: 3 oz}"},
        week="2026-W09",
        text="Week 9 of 2026, 1 March\n\n"
        "One picking gave 3 ounces. It was all kale.\n\n"
        "Season 2026 so far: 3 ounces in one picking; that is 0.02 pounds per square foot of the squares.",
    ),
    "a picking that nobody weighed makes it at least": Case(
        files={
            "2026/harvest.yaml": "- {date: 2026-05-05, crop: spinach, weight: 1 lb}\n"
            "- {date: 2026-05-12, crop: spinach, weight: 1 lb 4 oz}\n"
            "- {date: 2026-05-13, crop: radish, weight: 12 oz}\n"
            "- {date: 2026-05-13, crop: basil, weight: not weighed}\n",
        },
        week="2026-W20",
        # This week 2 lb, in all 3 lb; over 8 squares 0.375 lb each, a half rounded up.
        text="Week 20 of 2026, 11 to 13 May\n\n"
        "Three pickings gave at least 2 pounds; one of them was not weighed. "
        "Heaviest of what was weighed: spinach, 1.3 pounds.\n\n"
        "Season 2026 so far: at least 3 pounds in four pickings; "
        "that is at least 0.38 pounds per square foot of the squares.",
    ),
    "none of them weighed": Case(
        files={
            "2026/harvest.yaml": "- {date: 2026-05-12, crop: basil, weight: not weighed}\n"
            "- {date: 2026-05-13, crop: kale, weight: not weighed}\n",
        },
        week="2026-W20",
        text="Week 20 of 2026, 11 to 13 May\n\n"
        "Two pickings, none of them weighed.\n\n"
        "Season 2026 so far: two pickings, none of them weighed.",
    ),
    "two crops tie": Case(
        files={
            "2026/harvest.yaml": "- {date: 2026-06-16, crop: kale, weight: 8 oz}\n"
            "- {date: 2026-06-17, crop: beet, weight: 1/2 lb}\n"
            "- {date: 2026-06-18, crop: radish, weight: 7 oz}\n",
        },
        week="2026-W25",
        text="Week 25 of 2026, 15 to 18 June\n\n"
        "Three pickings gave 1.4 pounds. Heaviest of the week: beets and kale, 8 ounces of each.\n\n"
        "Season 2026 so far: 1.4 pounds in three pickings; "
        "that is 0.18 pounds per square foot of the squares.",
    ),
    "four crops tie, a mixed bowl beside them, weights estimated": Case(
        files={
            "2026/harvest.yaml": "- {date: 2026-06-16, crop: kale, weight: about 1 oz}\n"
            "- {date: 2026-06-16, crop: beet, weight: 1 oz}\n"
            "- {date: 2026-06-16, crop: chard, weight: 1 oz}\n"
            "- {date: 2026-06-16, crop: radish, weight: 1 oz}\n"
            "- {date: 2026-06-17, mixed: [kale, chard], weight: about 2 lb}\n",
        },
        week="2026-W25",
        text="Week 25 of 2026, 15 to 17 June\n\n"
        "Five pickings gave 2.3 pounds. Of that, 2.1 pounds was estimated. "
        "Heaviest of the week, mixed bowls aside: four crops, 1 ounce of each.\n\n"
        "Season 2026 so far: 2.3 pounds in five pickings; "
        "that is 0.28 pounds per square foot of the squares.",
    ),
    "all of it estimated": Case(
        files={"2026/harvest.yaml": "- {date: 2026-06-16, crop: kale, weight: about 1 lb}\n"},
        week="2026-W25",
        text="Week 25 of 2026, 15 to 16 June\n\n"
        "One picking gave 1 pound. The weight is an estimate. It was all kale.\n\n"
        "Season 2026 so far: 1 pound in one picking; that is 0.13 pounds per square foot of the squares.",
    ),
    "a week across the new year": Case(
        # ISO 8601: 29 December 2025 to 4 January 2026 is week 1 of 2026, in the season of 2025.
        season="{start: Sep 1, end: Jun 30}",
        files={
            "2024/harvest.yaml": "- {date: 2024-12-30, crop: leek, weight: 3 lb}\n"
            "- {date: 2025-01-04, crop: leek, weight: 1 lb}\n"
            "- {date: 2025-01-05, crop: leek, weight: 9 lb}\n",
            "2025/harvest.yaml": "- {date: 2025-12-31, crop: leek, weight: 2 lb}\n"
            "- {date: 2026-01-01, crop: kale, weight: 8 oz}\n"
            "- {date: 2026-02-03, crop: kale, weight: 8 oz}\n",
        },
        week="2026-W01",
        text="Week 1 of 2026, 29 December 2025 to 4 January 2026\n\n"
        "Two pickings gave 2.5 pounds. Heaviest of the week: leeks, 2 pounds.\n\n"
        "Season 2025 so far: 2.5 pounds in two pickings; "
        "that is 0.31 pounds per square foot of the squares. "
        "That is 1.5 pounds less than by 4 January 2025.",
    ),
    "the last week of a closed season": Case(
        seasons="{2026: {closed: yes}}",
        files={
            "2025/harvest.yaml": "- {date: 2025-06-01, crop: kale, weight: 1 lb}\n"
            "- {date: 2025-10-30, crop: kale, weight: 9 lb}\n",
            "2026/harvest.yaml": "- {date: 2026-06-01, crop: kale, weight: 4 lb}\n"
            "- {date: 2026-10-27, crop: kale, weight: 2 lb}\n"
            "- {date: 2026-10-29, crop: kale, weight: not weighed}\n",
        },
        week="2026-W44",
        text="Week 44 of 2026, 26 to 31 October\n\n"
        "Two pickings gave at least 2 pounds; one of them was not weighed. It was all kale.\n\n"
        "Season 2026 in all: at least 6 pounds in three pickings; "
        "that is at least 0.75 pounds per square foot of the squares. "
        "That is 4 pounds less than by 31 October 2025, as far as weighed.",
    ),
    "nothing was picked by then the year before": Case(
        files={
            "2025/harvest.yaml": "- {date: 2025-06-20, crop: kale, weight: 1 lb}\n",
            "2026/harvest.yaml": "- {date: 2026-06-01, crop: kale, weight: 4 lb}\n",
        },
        week="2026-W23",
        text="Week 23 of 2026, 1 June\n\n"
        "One picking gave 4 pounds. It was all kale.\n\n"
        "Season 2026 so far: 4 pounds in one picking; that is 0.50 pounds per square foot of the squares. "
        "By 1 June 2025 the ledger of 2025 had no picking.",
    ),
    "much the same as the year before": Case(
        files={
            "2025/harvest.yaml": "- {date: 2025-06-01, crop: kale, weight: 4 lb}\n",
            "2026/harvest.yaml": "- {date: 2026-06-01, crop: kale, weight: 4.01 lb}\n",
        },
        week="2026-W23",
        text="Week 23 of 2026, 1 June\n\n"
        "One picking gave 4 pounds. It was all kale.\n\n"
        "Season 2026 so far: 4 pounds in one picking; that is 0.50 pounds per square foot of the squares. "
        "That is about as much as by 1 June 2025.",
    ),
    "nothing yet, where there was something the year before": Case(
        files={
            "2025/harvest.yaml": "- {date: 2025-06-01, crop: kale, weight: 4 lb}\n",
            "2026/harvest.yaml": "[]",
            "2026/log/2026-06-07-a-look.md": "---\ntitle: A look\n---\nMud.\n",
        },
        week="2026-W23",
        text="Week 23 of 2026, 1 to 7 June\n\n"
        "No picking is on record for these days.\n\n"
        "The ledger of 2026 has no picking yet. By 7 June 2025 it was 4 pounds.",
    ),
    "the year before last is not the year before": Case(
        files={
            "2024/harvest.yaml": "- {date: 2024-06-01, crop: kale, weight: 4 lb}\n",
            "2026/harvest.yaml": "- {date: 2026-06-01, crop: kale, weight: 1 lb}\n",
        },
        week="2026-W23",
        text="Week 23 of 2026, 1 June\n\n"
        "One picking gave 1 pound. It was all kale.\n\n"
        "Season 2026 so far: 1 pound in one picking; that is 0.13 pounds per square foot of the squares.",
    ),
    "no ledger": Case(
        files={"2026/log/2026-06-07-a-look.md": "---\ntitle: A look\n---\nMud.\n"},
        week="2026-W23",
        text="Week 23 of 2026, 1 to 7 June\n\n"
        "No ledger is on record for this season, so what was picked is unknown.",
    ),
    "what was next in a week long past, by the papers of that week": Case(
        files={
            # The beets were dropped, the kale set out and the carrots sown after the week was over.
            "2026/plan.yaml": "- {crop: beet, squares: A1, sow: Jun 12, dropped: Jun 10, because: wet}\n"
            "- {crop: kale, tag: KA1, squares: B1, set out: Jun 9}\n"
            "- {crop: carrot, tag: CA1, squares: C1, sow: Jun 6}\n"
            "- {crop: leek, tag: LE1, squares: D1, sow: Jun 20}\n",
            "2026/harvest.yaml": "- {date: 2026-06-03, crop: radish, weight: 1 lb}\n",
            "2026/log/2026-06-09-out.md": "---\ntitle: Out\ndone:\n"
            "  - {set out: kale, squares: B1}\n  - {sow: carrot, squares: C1}\n---\nDone.\n",
        },
        week="2026-W23",
        # The carrots were overdue by then, which a bulletin leaves out: they may have been sown.
        text="Week 23 of 2026, 1 to 7 June\n\n"
        "One picking gave 1 pound. It was all radishes.\n\n"
        "Season 2026 so far: 1 pound in one picking; that is 0.13 pounds per square foot of the squares.\n\n"
        "Next, by the plan: on 9 June set out kale; on 12 June sow beets.",
    ),
    "in kilograms, with what is next": Case(
        units="kilograms",
        files={
            "2026/plan.yaml": "- {crop: carrot, tag: CA1, squares: A1, sow: Jun 12, until: Sep 1}\n"
            "- {crop: beet, tag: BE1, squares: B1, sow: Jun 12, until: Sep 1}\n"
            "- {crop: kale, tag: KA1, squares: C1, sow indoors: Jun 14, set out: Jul 20}\n"
            "- {crop: radish, tag: RA1, squares: D1, sow: Jun 16, until: Jul 10}\n",
            "2026/harvest.yaml": "- {date: 2026-06-09, crop: radish, weight: 620 g}\n"
            "- {date: 2026-06-09, crop: spinach, weight: 1.2 kg}\n",
        },
        week="2026-W24",
        # A square is 30 cm (0.9 m² for ten); 1.82 kg over 8 × 0.09 m² = 2.53 kg per m².
        text="Week 24 of 2026, 8 to 9 June\n\n"
        "Two pickings gave 1.8 kilograms. Heaviest of the week: spinach, 1.2 kilograms.\n\n"
        "Season 2026 so far: 1.8 kilograms in two pickings; "
        "that is 2.53 kilograms per square metre of the squares.\n\n"
        "Next, by the plan: on 12 June sow beets and carrots; on 14 June sow kale indoors; "
        "on 16 June sow radishes.",
    ),
}


def test_over_what_ground_is_not_told_where_nobody_knows_it(tmp_path: Path) -> None:
    """Neither a plan nor squares: nobody can say that the weight came from these squares at all."""
    garden = GARDEN.format(units="kilograms", season="{start: Mar 1, end: Oct 31}", seasons="{}")
    ledger = "- {date: 2026-03-01, crop: kale, weight: 24 kg}"
    root = written(tmp_path, {"garden.yaml": garden, "2026/harvest.yaml": ledger})
    assert "per square metre" not in text_of(site_of(root), "2026-W09")
    assert not site_of(root).all[0].grounds


def text_of(years: Years, week: str) -> str:
    asked = Week.of(date.fromisoformat(week))
    year = season_of(years, asked)
    assert year is not None
    return bulletin_text(years.garden, week_facts(year, asked)).text


@pytest.mark.parametrize("case", CASES.values(), ids=CASES.keys())
def test_the_text_of_a_small_garden(tmp_path: Path, case: Case) -> None:
    garden = GARDEN.format(units=case.units, season=case.season, seasons=case.seasons)
    # Every row names its squares, so that it is known over what ground the weights are told.
    files = dict(case.files)
    if "2026/plan.yaml" not in files:
        told = (", weight:", ", squares: A1:D2, weight:")
        files = {name: text.replace(*told) for name, text in files.items()}
    root = written(tmp_path, {"garden.yaml": garden, **files})
    assert text_of(site_of(root), case.week) == NAMED + case.text


DEMO = {
    # The weighings of 27 July to 2 August 2026 in content/2026/harvest.yaml, added up by hand.
    "2026-W31": "Week 31 of 2026, 27 July to 2 August\n\n"
    "Seven pickings gave at least 7.1 pounds; one of them was not weighed. "
    "Heaviest of what was weighed: cucumbers, 3.6 pounds.\n\n"
    "Season 2026 so far: at least 42.2 pounds in 89 pickings, 5.2 pounds of it cured; "
    "that is at least 0.83 pounds per square foot of the squares. "
    "That is 1 pound less than by 2 August 2025, as far as weighed.\n\n"
    "Next, by the plan: on 4 August sow snap peas and set out kale; "
    "on 8 August sow leaf lettuce and set out broccoli.",
}


def test_a_week_of_the_demonstration_garden(the_demo: Years) -> None:
    assert text_of(the_demo, "2026-W31") == "Wrenfold Library Beds\n" + DEMO["2026-W31"]


WORD = st.text("abcdefg", min_size=1, max_size=8)
NAME = st.lists(WORD, min_size=1, max_size=70).map(" ".join)
SOME = st.fractions(0, 10**15, max_denominator=1000).map(Weight)


# Each strategy is made once: to make and check one anew for every value took most of the time.
NAMES = st.lists(NAME, min_size=1, max_size=6, unique=True)
MANY = st.integers(0, 10**6)
SHARE = st.sampled_from([Fraction(0), Fraction(1, 3), Fraction(1)])
LAST = st.dates(date(2001, 1, 1), date(2090, 1, 1))
YES_OR_NO = st.booleans()
AHEAD = st.lists(
    st.tuples(st.sampled_from(["sow", "sow indoors", "pot up", "set out", "clear"]), st.integers(0, 5)),
    max_size=8,
)
HOW_MANY_BEST = st.integers(0, 6)
SQUARE_FEET = st.sampled_from([Fraction(0), Fraction(30)])


@st.composite
def totals(draw: st.DrawFn) -> Total:
    pickings = draw(MANY)
    unweighed = min(draw(MANY), pickings)
    weight = draw(SOME) if unweighed < pickings else Weight()
    return Total(
        weight=weight,
        estimated=weight * draw(SHARE),
        pickings=pickings,
        unweighed=unweighed,
    )


TOTALS = totals()
BEFORE = st.none() | st.builds(Earlier, season=st.just("2025"), day=st.just(date(2025, 8, 2)), total=TOTALS)


@st.composite
def bulletins(draw: st.DrawFn) -> tuple[Garden, Bulletin]:
    names = draw(NAMES)
    crops = tuple(
        Crop(
            slug=f"crop-{number}",
            name=name,
            plural=name,
            letters="Cr",
            family="",
            habit=Habit.UPRIGHT,
            start=Beginning.SOWN,
            spacing=Length.of(4, INCH),
        )
        for number, name in enumerate(names)
    )
    last = draw(LAST)
    named = [CropName(typed=one.name, slugs=(one.slug,)) for one in crops]
    ahead = [
        Due(
            day=last + timedelta(days=3),
            verb=verb,
            planting="X",
            crop=named[which % len(named)],
            squares=(),
        )
        for verb, which in draw(AHEAD)
    ]
    best = tuple(one.slug for one in crops[: draw(HOW_MANY_BEST)])
    garden = Garden(name=draw(NAME), showing=Showing(metric=draw(YES_OR_NO)), crops=crops)
    facts = Bulletin(
        season="2026",
        week=Week.of(last),
        first=max(Week.of(last).first, date(2001, 1, 1)),
        last=last,
        ledger=draw(YES_OR_NO),
        picked=draw(TOTALS),
        best=best,
        best_weight=draw(SOME),
        alone=len(best) == 1 and draw(YES_OR_NO),
        bowls=draw(YES_OR_NO),
        so_far=draw(TOTALS),
        whole=draw(YES_OR_NO),
        square_feet=draw(SQUARE_FEET),
        earlier=draw(BEFORE),
        ahead=tuple(ahead),
    )
    return garden, facts


@settings(max_examples=tries(150))
@given(bulletins())
def test_a_bulletin_is_under_120_words_whatever_it_has_to_say(made: tuple[Garden, Bulletin]) -> None:
    garden, facts = made
    text = bulletin_text(garden, facts).text
    assert len(text.split()) <= MOST_WORDS < 120
    assert all(paragraph.endswith(".") for paragraph in bulletin_text(garden, facts).paragraphs)
    assert "  " not in text


@pytest.mark.parametrize(
    ("middle", "said"),
    [
        (
            Fraction("1.36"),
            "about 1.4 square feet for it, from 1.1 to 1.6; the squares and their share of path take 3.4.",
        ),
        (Fraction("9.95"), "about 10.0 square feet for it, from 8.0 to 11.9"),
        (
            Fraction("13.6"),
            "about 14 square feet for it, from 11 to 16; the squares and their share of path take 34.",
        ),
    ],
)
def test_little_ground_is_told_with_a_decimal(the_demo: Years, middle: Fraction, said: str) -> None:
    """In whole numbers 1.4 square metres were “about 1 square metres”, and 0.4 none.

    Fails too where a garden without a run-out is told what its run-outs take.
    """
    week = Week.of(date(2025, 8, 2))
    year = season_of(the_demo, week)
    assert year is not None
    facts = week_facts(year, week)
    ground = Range(low=middle * Fraction("0.8"), middle=middle, high=middle * Fraction("1.2"))
    here = Ground(of="the squares and their share of path", square_feet=middle * Fraction("2.5"))
    beside = BesideRows(verdict=Verdict.UNKNOWN, row_ground=ground, ground=here, at_least=False)
    assert said in bulletin_text(the_demo.garden, facts, beside).text


def test_every_week_of_the_demonstration_garden_is_under_120_words(the_demo: Years) -> None:
    told_of = 0
    for year in the_demo.all:
        for week in weeks(year.season, the_demo.today):
            words = bulletin_text(the_demo.garden, week_facts(year, week)).text.split()
            assert 15 < len(words) < 120, week
            told_of += 1
    assert told_of > 80


@pytest.mark.parametrize(
    ("amount", "unit", "metric", "words"),
    [
        (0, OUNCE, False, "no ounces"),
        (Fraction(1, 4), OUNCE, False, "less than an ounce"),
        (1, OUNCE, False, "1 ounce"),
        (Fraction(31, 2), OUNCE, False, "1 pound"),  # 15.5 oz rounds to 16, which is a pound
        (15, OUNCE, False, "15 ounces"),
        (16, OUNCE, False, "1 pound"),
        (102, OUNCE, False, "6.4 pounds"),
        (Fraction(1, 4), GRAM, True, "less than a gram"),
        (1, GRAM, True, "1 gram"),
        (999, GRAM, True, "999 grams"),
        (1000, GRAM, True, "1 kilogram"),
        (6449, GRAM, True, "6.4 kilograms"),
    ],
)
def test_weights_are_said_in_words(amount: Fraction, unit: object, metric: bool, words: str) -> None:
    assert spoken.weight(Showing(metric=metric), Weight.of(amount, unit)) == words  # type: ignore[arg-type]
