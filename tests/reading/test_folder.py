"""A garden folder becomes records: every key of every file, read into its field."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from datetime import date
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tallybed.garden.crops import Beginning, Crop, Habit, Kind, Variety
from tallybed.garden.days import Span
from tallybed.garden.findings import Place, Severity, worded
from tallybed.garden.records import (
    CropName,
    Destination,
    Entry,
    Event,
    FreezeDates,
    Garden,
    LedOut,
    Photo,
    Planting,
    Question,
    Reading,
    Season,
    Start,
    State,
    Verb,
    Weighing,
)
from tallybed.garden.squares import Path as BedPath
from tallybed.garden.squares import RunOut, Square, Trellis
from tallybed.garden.units import CENTIMETRE, FOOT, GRAM, INCH, POUND, Length, Weight
from tallybed.reading.folder import read
from tests.reading.bad_cases import lay_out

DEMO = Path(__file__).parents[2] / "content"

GARDEN = """\
name: Wrenfold Library Beds
place: Wrenfold
latitude: 39.6
longitude: -83.1
time zone: America/New_York
language: en
units: pounds
address: https://beds.wrenfold.example
about: One sentence that says what this garden is.
season: {start: Mar 1, end: Nov 30}
seasons:
  2026: {start: Mar 10, end: Nov 24, closed: yes, note: First season.}
freeze dates:
  last spring: {10%: May 8, 50%: Apr 22, 90%: Apr 7}
  first fall: Oct 14
  first fall 28: Oct 26
beds:
  - name: long
    title: The long bed
    length: 10 squares
    width: 3 ft
    bearing: 75.5
    trellis: {side: 1, squares: A1:F1, height: 6 ft}
    path:
      - {side: 3, width: 3 ft}
      - {side: A, width: 30 in, share: 1/3}
    run-out:
      - {side: j, reach: 5 ft}
    note: Beside the ramp.
  - {name: elbow, length: 6 squares, width: 5 squares, square: 30 cm, omitted: [D3:F5]}
"""
PLAN = """\
- crop: Spinach
  tag: sp1
  variety: Bloomsdale
  squares: long/A1:A3
  sow: Apr 12
  until: Jun 5
  per square: 6
  spacing: 4 in
  note: A note.
  silence: {early: it was a mild March}
- {crop: tomato-indeterminate, tag: TO1, squares: long/B1:C2, sow indoors: Mar 20, pot up: Apr 10,
   set out: May 12, until: Oct 10, plants: 1}
- {crop: radish, squares: long/A1, sow: Apr 5, until: May 8, among: sp1, share: 1/3}
- {crop: lettuce-leaf, squares: long/A2, sow: Apr 5, among: tomatoes}
- {crop: squash-winter, squares: long/J1:J2, set out: May 20, run-out: J}
- {crop: squash-winter, squares: long/J3, set out: May 20, run-out: {side: J, reach: 6 ft}}
- {crop: okra, squares: long/H1:H2, sow: May 20, until: Sep 30, dropped: May 28, because: seed rotted}
- {crop: garlic, squares: elbow/A1:A4, carried from: 2025, until: Jul 10}
"""
LOG = """\
---
title: Peas are up
by: the Tuesday crew
done:
  - {sow: carrot, squares: long/C1:C2, tag: CA1, variety: Amber Spike, seeds: 40, among: TO1, share: 1/4}
  - {thin: carrots, tag: CA1, squares: long/C1:C2, leaving: 32}
  - {lost: spinach, tag: SP1, squares: long/A1, plants: 3, because: slugs}
  - {move: leek, squares: elbow/A1, to: elbow/B1:B2, plants: 3}
  - {weed: bed, squares: long, minutes: 12, people: 2}
  - {treat: soap spray, crop: beans, tag: SP1, amount: half a bottle, note: on the undersides}
  - {feed: tomatoes}
photos:
  - {file: peas.jpg, alt: Pea seedlings, credit: N.}
further reading:
  - {title: On peas, address: https://example.org/peas?a=b#c}
---

Markdown *prose*.

---

More.
"""
LEDGER = """\
- {date: 2026-06-02, crop: spinach, squares: long/A1:A2, weight: 1 lb 6 oz}
- {date: Jun 2, crop: radish, count: 16, weight: about 255 g, to: food pantry}
- {date: 2026-06-09, crop: basil, weight: not weighed, note: a handful}
- {date: 2026-06-10, mixed: [lettuce-leaf, arugula], weight: 11 oz}
- {date: 2026-07-02, crop: carrot, variety: Amber Spike, weight: 3 lb,
   to: {food pantry: 2 lb, kitchen: the rest}}
- {date: 2026-07-20, tag: ca1, as: dry, state: cured, weighed: 2026-08-14, weight: 6 lb}
- {date: 2026-07-20, crop: beans, weight: 1 lb}
"""
QUESTION = """\
---
question: How much does one tomato plant give?
asked: 2026-07-14
by: a visitor at the fence
about: [tomatoes, kale]
---
About *this* much.
"""
CROPS = """\
- crop: carrot
  spacing: 2 in
  days: 61
  source: our own rows, 2024
  varieties:
    - {name: Amber Spike, days: 68, spacing: 3 in, source: seed packet, note: sweet}
- new: Skirret
  plural: skirrets
  also: [crummock, sugar root]
  botanical name: Sium sisarum
  family: Apiaceae
  habit: rosette
  start: set out
  letters: SK
  spacing: 12 in
  days: 180
  source: seed exchange leaflet
"""
FILES = {
    "content/garden.yaml": GARDEN,
    "content/crops.yaml": CROPS,
    "content/about.md": "---\ntitle: About us\norder: 2\n---\nWe dig.\n",
    "content/questions/How much?.md": QUESTION,
    "content/2026/names.yaml": "Tomatoes: tomato-indeterminate\n",
    "content/2026/plan.yaml": PLAN,
    "content/2026/log/2026-04-19-Peas are up.md": LOG,
    "content/2026/harvest.yaml": LEDGER,
    "content/2025/harvest.yaml": "",
}


@pytest.fixture(scope="module")
def garden(tmp_path_factory: pytest.TempPathFactory) -> Garden:
    root = tmp_path_factory.mktemp("garden")
    lay_out(root, FILES)
    done = read(root)
    assert [(finding.place.file, finding.code) for finding in done.findings] == [
        ("content/2025/harvest.yaml", "empty-file")
    ]
    assert done.garden is not None
    return done.garden


@pytest.fixture(scope="module")
def season(garden: Garden) -> Season:
    return garden.seasons[1]


def _squares(bed: str, *labels: str) -> tuple[Square, ...]:
    return tuple(Square(bed, ord(label[0]) - ord("A"), int(label[1:]) - 1) for label in labels)


SPINACH = CropName(typed="spinach", slugs=("spinach",))
CARROT = CropName(typed="carrot", slugs=("carrot",))
BEANS = CropName(typed="beans", slugs=("bean-bush", "bean-pole"))


def test_the_garden_itself(garden: Garden) -> None:
    assert (garden.name, garden.where, garden.language) == ("Wrenfold Library Beds", "Wrenfold", "en")
    assert (garden.latitude, garden.longitude) == (Fraction("39.6"), Fraction("-83.1"))
    assert (garden.time_zone, garden.showing.metric) == ("America/New_York", False)
    assert garden.address == "https://beds.wrenfold.example/", "a closing slash is put on"
    assert garden.about == "One sentence that says what this garden is."
    assert garden.freezes == FreezeDates(
        spring=((32, ((10, (5, 8)), (50, (4, 22)), (90, (4, 7)))),),
        fall=((32, ((50, (10, 14)),)), (28, ((50, (10, 26)),))),
    )


def test_beds(garden: Garden) -> None:
    long, elbow = garden.beds
    assert (long.name, long.title, long.columns, long.rows) == ("long", "The long bed", 10, 3)
    assert (long.side, long.bearing, long.note) == (Length.of(1, FOOT), Fraction("75.5"), "Beside the ramp.")
    row = tuple(Square("long", column, 0) for column in range(6))
    assert long.trellises == (Trellis(side="1", squares=row, height=Length.of(6, FOOT)),)
    assert long.paths == (
        BedPath(side="3", width=Length.of(3, FOOT), share=Fraction(1, 2)),
        BedPath(side="A", width=Length.of(30, INCH), share=Fraction(1, 3)),
    )
    assert long.run_outs == (RunOut(side="J", squares=long.along("J"), reach=Length.of(5, FOOT)),)
    assert (elbow.title, elbow.side) == ("elbow", Length.of(30, CENTIMETRE))
    assert elbow.bearing == 90
    assert len(elbow.squares) == 21
    assert long.place == Place("content/garden.yaml", 18, 5)


def test_a_square_is_thirty_centimetres_where_the_garden_measures_so(tmp_path: Path) -> None:
    lay_out(
        tmp_path,
        {"content/garden.yaml": GARDEN.replace("pounds", "kilograms").replace("3 ft\n", "90 cm\n", 1)},
    )
    done = read(tmp_path).garden
    assert done is not None
    assert done.showing.metric
    assert (done.beds[0].rows, done.beds[0].side) == (3, Length.of(30, CENTIMETRE))


def test_own_figures_stand_before_published_ones(garden: Garden) -> None:
    carrot = garden.crop("carrot")
    assert (carrot.spacing, carrot.days) == (Length.of(2, INCH), 61)
    for fact, value, unit in (("spacing", 2, "in"), (f"days from {carrot.days_from}", 61, "days")):
        used = carrot.used(fact)
        assert used is not None
        assert (used.low, used.high, used.unit, used.kind) == (
            Fraction(value),
            Fraction(value),
            unit,
            Kind.GARDEN,
        )
        assert used.note == "our own rows, 2024"
        assert carrot.all_of(fact)[0] == used
        assert sum(figure.fact == fact for figure in carrot.chosen) == 1
    assert carrot.varieties == (
        Variety(name="Amber Spike", days=68, spacing=Length.of(3, INCH), source="seed packet", note="sweet"),
    )
    assert carrot.plural == "carrots", "the rest stays the library's"


def test_a_crop_of_ones_own(garden: Garden) -> None:
    skirret: Crop = garden.crop("skirret")
    assert (skirret.name, skirret.plural, skirret.also) == ("Skirret", "skirrets", ("crummock", "sugar root"))
    assert (skirret.botanical_name, skirret.family) == ("Sium sisarum", "Apiaceae")
    assert (skirret.habit, skirret.start, skirret.letters) == (Habit.ROSETTE, Beginning.SET_OUT, "Sk")
    assert (skirret.spacing, skirret.days, skirret.days_from) == (Length.of(12, INCH), 180, "setting out")
    assert skirret.own
    assert [crop.slug for crop in garden.crops] == sorted(crop.slug for crop in garden.crops)
    assert len(garden.sources) > 20


def test_seasons(garden: Garden) -> None:
    older, season = garden.seasons
    assert (older.name, older.span) == ("2025", Span(first=date(2025, 3, 1), last=date(2025, 11, 30)))
    assert (older.plan, older.log, older.ledger) == (None, None, ()), "an empty file is an empty list"
    assert (season.name, season.closed, season.note) == ("2026", True, "First season.")
    assert season.span == Span(first=date(2026, 3, 10), last=date(2026, 11, 24))
    assert season.general == (("tomatoes", "tomato-indeterminate"),)


@pytest.mark.parametrize(
    ("bounds", "first", "last"),
    [
        ("", date(2026, 1, 1), date(2026, 12, 31)),
        ("season: {start: Sep 1, end: May 31}\n", date(2026, 9, 1), date(2027, 5, 31)),
        ("season: {end: Nov 30}\n", date(2026, 1, 1), date(2026, 11, 30)),
        (
            "season: {start: Mar 1, end: Nov 30}\nseasons: {2026: {end: Jan 9}}\n",
            date(2026, 3, 1),
            date(2027, 1, 9),
        ),
    ],
)
def test_a_season_ends_in_the_next_year_where_its_end_is_before_its_start(
    tmp_path: Path, bounds: str, first: date, last: date
) -> None:
    ledger = f"- {{date: {last.isoformat()}, crop: kale, weight: 1 lb}}\n"
    lay_out(tmp_path, {"content/garden.yaml": f"name: x\n{bounds}", "content/2026/harvest.yaml": ledger})
    done = read(tmp_path)
    assert not done.findings
    assert done.garden is not None
    (season,) = done.garden.seasons
    assert season.span == Span(first=first, last=last)
    assert season.newest == last


def test_the_plan(season: Season) -> None:
    assert season.plan is not None
    spinach, tomato, radish, lettuce, squash, led, okra, garlic = season.plan
    assert spinach == Planting(
        crop="spinach",
        squares=_squares("long", "A1", "A2", "A3"),
        start=Start.SOW,
        begins=date(2026, 4, 12),
        until=date(2026, 6, 5),
        tag="SP1",
        variety="Bloomsdale",
        plants=18,
        spacing=Length.of(4, INCH),
        note="A note.",
        silence=(("early", "it was a mild March"),),
    )
    assert (tomato.start, tomato.begins, tomato.plants) == (Start.SET_OUT, date(2026, 5, 12), 1)
    assert (tomato.sow_indoors, tomato.pot_up) == (date(2026, 3, 20), date(2026, 4, 10))
    assert (radish.among, radish.share) == ("SP1", Fraction(1, 3))
    assert lettuce.among == "tomato-indeterminate", "the one crop of the plan that the name can mean"
    assert (lettuce.until, lettuce.until_told) == (date(2026, 11, 25), False)
    assert squash.led_out == LedOut(side="J", reach=Length.of(5, FOOT)), "the reach is the ground's"
    assert led.led_out == LedOut(side="J", reach=Length.of(6, FOOT))
    assert (okra.dropped, okra.because) == (date(2026, 5, 28), "seed rotted")
    assert (garlic.start, garlic.carried_from) == (Start.CARRIED, "2025")
    assert (garlic.begins, garlic.until) == (date(2026, 3, 10), date(2026, 7, 10))
    assert tomato.place == Place("content/2026/plan.yaml", 11, 3)


def test_the_log(season: Season) -> None:
    assert season.log is not None
    (entry,) = season.log
    assert (entry.slug, entry.day, entry.title) == ("peas-are-up", date(2026, 4, 19), "Peas are up")
    assert (entry.by, entry.prose) == ("the Tuesday crew", "Markdown *prose*.\n\n---\n\nMore.")
    assert entry.photos == (Photo(file="peas.jpg", alt="Pea seedlings", credit="N."),)
    assert entry.further == (Reading(title="On peas", address="https://example.org/peas?a=b#c"),)
    assert entry.place == Place("content/2026/log/2026-04-19-Peas are up.md", 2, 1)
    assert entry.done[0].place == Place("content/2026/log/2026-04-19-Peas are up.md", 5, 5)


def test_lines_of_done(season: Season) -> None:
    assert season.log is not None
    sow, thin, lost, move, weed, treat, feed = season.log[0].done
    day = date(2026, 4, 19)
    both = _squares("long", "C1", "C2")
    assert sow == Event(
        verb=Verb.SOW,
        day=day,
        subject="carrot",
        crop=CARROT,
        squares=both,
        tag="CA1",
        variety="Amber Spike",
        seeds=40,
        among="TO1",
        share=Fraction(1, 4),
    )
    assert thin == Event(
        verb=Verb.THIN,
        day=day,
        subject="carrots",
        crop=CropName(typed="carrots", slugs=("carrot",)),
        squares=both,
        tag="CA1",
        leaving=32,
    )
    assert (lost.verb, lost.plants, lost.because) == (Verb.LOST, 3, "slugs")
    assert (move.squares, move.to) == (_squares("elbow", "A1"), _squares("elbow", "B1", "B2"))
    assert (weed.subject, weed.crop, weed.minutes, weed.people) == ("bed", None, 12, 2)
    assert len(weed.squares) == 30
    assert (treat.subject, treat.crop, treat.amount) == ("soap spray", BEANS, "half a bottle")
    assert treat.note == "on the undersides"
    assert feed.crop == CropName(typed="tomatoes", slugs=("tomato-indeterminate",)), "as names.yaml answers"


def test_the_ledger(season: Season) -> None:
    assert season.ledger is not None
    spinach, radish, basil, bowl, carrot, onions, beans = season.ledger
    assert spinach == Weighing(
        day=date(2026, 6, 2),
        crops=(SPINACH,),
        squares=_squares("long", "A1", "A2"),
        weight=Weight.of(Fraction(11, 8), POUND),
    )
    assert (radish.weight, radish.estimated, radish.count) == (Weight.of(255, GRAM), True, 16)
    assert radish.to == (Destination(name="food pantry"),)
    assert (basil.weight, basil.note) == (None, "a handful")
    assert bowl.mixed
    assert [name.slug for name in bowl.crops] == ["lettuce-leaf", "arugula"]
    assert carrot.variety == "Amber Spike"
    assert carrot.to == (
        Destination(name="food pantry", weight=Weight.of(2, POUND)),
        Destination(name="kitchen"),
    )
    assert (onions.crops, onions.tag, onions.form, onions.state) == ((), "CA1", "dry", State.CURED)
    assert onions.weighed == date(2026, 8, 14)
    assert beans.crops == (BEANS,), "a general name stays general where nobody answers"


def test_questions_and_pages(garden: Garden) -> None:
    (question,) = garden.questions
    assert question == Question(
        slug="how-much",
        question="How much does one tomato plant give?",
        asked=date(2026, 7, 14),
        by="a visitor at the fence",
        about=("tomato-determinate", "tomato-indeterminate", "kale"),
        answer="About *this* much.",
    )
    (leaf,) = garden.leaves
    assert (leaf.slug, leaf.title, leaf.order, leaf.prose) == ("about", "About us", 2, "We dig.")


def _with(tmp_path: Path, **files: str) -> tuple[Garden, list[str]]:
    lay_out(tmp_path, FILES | {f"content/{name}": text for name, text in files.items()})
    done = read(tmp_path)
    assert done.garden is not None
    return done.garden, [finding.code for finding in done.findings if finding.severity is Severity.ERROR]


def test_a_broken_record_is_left_out_and_the_rest_kept(tmp_path: Path) -> None:
    plan = PLAN.replace("squares: long/A1:A3", "squares: long/Z9")
    ledger = LEDGER.replace("weight: 11 oz", "weight: lots")
    log = LOG.replace("minutes: 12", "minutes: some").replace("alt: Pea seedlings, ", "")
    garden, errors = _with(
        tmp_path,
        **{"2026/plan.yaml": plan, "2026/harvest.yaml": ledger, "2026/log/2026-04-19-Peas are up.md": log},
    )
    assert sorted(errors) == ["missing-key", "square-outside", "weight", "whole-number"]
    season = garden.seasons[1]
    assert season.plan is not None
    assert season.log is not None
    assert season.ledger is not None
    assert (len(season.plan), len(season.ledger), len(season.log[0].done)) == (7, 6, 6)
    assert season.log[0].photos == ()
    assert season.plan[1].among == "SP1", "the tag of a broken planting still counts as given"


@pytest.mark.parametrize(
    ("file", "old", "new", "errors"),
    [
        ("garden.yaml", "latitude: 39.6", "latitude: north", ["degrees"]),
        ("garden.yaml", "start: Mar 1,", "start: March,", ["date"]),
        ("garden.yaml", "start: Mar 10", "start: 3/10", ["ambiguous-date"]),
        ("garden.yaml", "omitted: [D3:F5]", "omitted: [D3:F9]", ["square-outside"]),
        ("garden.yaml", "name: long", "name: A1", ["bed-name"]),
        ("garden.yaml", "height: 6 ft", "height: tall", ["length"]),
        ("garden.yaml", "name: Wrenfold Library Beds\n", "", ["missing-key"]),
        ("crops.yaml", "letters: SK", "letters: S", ["letters"]),
        ("crops.yaml", "days: 61", "days: soon", ["whole-number"]),
        ("2026/names.yaml", "tomato-indeterminate", "tomato", ["general-crop"]),
        ("2026/plan.yaml", "crop: Spinach", "crop: Spinich", ["unknown-crop"]),
    ],
)
def test_one_mistake_is_told_once(tmp_path: Path, file: str, old: str, new: str, errors: list[str]) -> None:
    text = FILES[f"content/{file}"]
    assert old in text
    _garden, found = _with(tmp_path, **{file: text.replace(old, new, 1)})
    assert found == errors


def test_without_a_readable_garden_file_the_rest_is_still_looked_at(tmp_path: Path) -> None:
    lay_out(
        tmp_path,
        FILES | {"content/garden.yaml": "name: [\n", "content/2026/plan.yaml": "- {crop: spinich}\n"},
    )
    done = read(tmp_path)
    assert done.garden is None
    found = {finding.code for finding in done.findings}
    assert {"broken-yaml", "unknown-crop"} <= found
    assert not found & {"unknown-bed", "bed-not-told", "no-bed", "date-outside-season", "square-outside"}


def test_the_order_of_log_files_and_their_dates_is_the_logs_order(tmp_path: Path) -> None:
    head = "---\ntitle: x\n{}---\n"
    garden, errors = _with(
        tmp_path,
        **{
            "2026/log/2026-05-02-b.md": head.format(""),
            "2026/log/2026-05-02-a.md": head.format("date: 2 May\n"),
            "2026/log/2026-04-01.md": head.format(""),
        },
    )
    assert not errors
    log: tuple[Entry, ...] = garden.seasons[1].log or ()
    assert [(entry.day.isoformat(), entry.slug) for entry in log] == [
        ("2026-04-01", "visit"),
        ("2026-04-19", "peas-are-up"),
        ("2026-05-02", "a"),
        ("2026-05-02", "b"),
    ]


def test_a_folder_that_is_not_there_has_no_garden(tmp_path: Path) -> None:
    done = read(tmp_path / "nowhere")
    assert done.garden is None
    assert [finding.code for finding in done.findings] == ["no-garden"]


def test_the_demonstration_garden_is_read_without_an_error() -> None:
    done = read(DEMO.parent)
    assert [worded(finding) for finding in done.findings if finding.severity is Severity.ERROR] == []
    assert done.garden is not None
    assert len(done.garden.seasons) >= 2


MARKS = st.sampled_from(
    ["", ":", "- ", "{", "}", "[", "]", "'", '"', ",", "\n", "  ", "\t", "#", "x", "é", "0", "%"]
)


@st.composite
def spoilt(draw: st.DrawFn) -> tuple[str, str]:
    """Return a file's name and its text with a few places overwritten."""
    name = draw(st.sampled_from(sorted(FILES)))
    text = FILES[name]
    for _ in range(draw(st.integers(1, 4))):
        at = draw(st.integers(0, len(text)))
        text = text[:at] + draw(MARKS) + text[at + draw(st.integers(0, 3)) :]
    return name, text


@settings(max_examples=150)
@given(spoilt())
def test_a_spoilt_file_never_ends_the_reading(
    tmp_path_factory: pytest.TempPathFactory, case: tuple[str, str]
) -> None:
    root = tmp_path_factory.mktemp("spoilt", numbered=True)
    try:
        lay_out(root, FILES | {case[0]: case[1]})
        done = read(root)
        for finding in done.findings:
            where = root / finding.place.file
            assert where.exists() or finding.code == "no-garden"
            if where.is_file():
                lines = where.read_text(encoding="utf-8").split("\n")
                assert 1 <= finding.place.line <= len(lines)
                assert 1 <= finding.place.column <= len(lines[finding.place.line - 1]) + 1
    finally:
        shutil.rmtree(root)


def test_hash_seed_time_zone_and_locale_change_no_word(tmp_path: Path) -> None:
    spoilt_files = {
        name: text.replace("long/", "lung/").replace("carrot", "carot") for name, text in FILES.items()
    }
    lay_out(tmp_path, spoilt_files)
    code = (
        "import sys; from pathlib import Path; from tallybed.reading.folder import read\n"
        "from tallybed.garden.findings import worded\n"
        "done = read(Path(sys.argv[1]))\n"
        "print(*map(worded, done.findings), done.garden.seasons, done.garden.crops, sep='\\n')"
    )
    told = []
    for seed, zone, language in (("1", "UTC", "C.UTF-8"), ("2", "Pacific/Auckland", "tr_TR.UTF-8")):
        env = os.environ | {"PYTHONHASHSEED": seed, "TZ": zone, "LC_ALL": language, "PYTHONUTF8": "1"}
        done = subprocess.run(
            [sys.executable, "-c", code, str(tmp_path)], env=env, capture_output=True, text=True, check=True
        )
        told.append(done.stdout)
    assert told[0].count("[unknown-bed]") > 5
    assert told[0] == told[1]
