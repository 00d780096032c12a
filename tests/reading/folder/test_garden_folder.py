"""A garden folder becomes records: every key of every file, read into its field."""

from __future__ import annotations

from datetime import date
from fractions import Fraction
from pathlib import Path

import pytest

from tallybed.garden.crops import Beginning, Crop, Figure, Footing, Habit, Variety
from tallybed.garden.days import Span
from tallybed.garden.findings import Place
from tallybed.garden.garden import FreezeDates, Garden, Question, Season
from tallybed.garden.naming import CropName
from tallybed.garden.records.ledger import Destination, State, Weighing
from tallybed.garden.records.log import Event, FurtherReading, Photo, Verb
from tallybed.garden.records.people import Withdrawn, WithdrawnKind
from tallybed.garden.records.plan import LedOut, PlanRow, Start
from tallybed.garden.squares import BedPath, RunOut, Square, Trellis
from tallybed.garden.units import CENTIMETRE, FOOT, GRAM, INCH, OUNCE, POUND, Length, Weight
from tallybed.reading.folder.garden_folder import read
from tests.reading.bad_cases import lay_out
from tests.reading.whole_garden import FILES, GARDEN
from tests.small_garden import read_garden


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
BEANS = CropName(typed="beans", slugs=("bean-bush", "bean-lima", "bean-pole", "bean-runner"))


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


def test_supporters_and_what_was_withdrawn(garden: Garden) -> None:
    mill, always = garden.supporters
    assert (mill.words, mill.address) == ("Seed: the <mill>", "https://mill.example/")
    assert (mill.first, mill.last) == (date(2026, 4, 1), date(2026, 10, 31))
    assert (always.words, always.first, always.last, always.address) == ("Always", None, None, "")
    assert garden.withdrawn == (Withdrawn(kind=WithdrawnKind.PICTURE, season="2025", day=date(2026, 8, 2)),)


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
    for fact, value, unit in (
        ("spacing", 2, "in"),
        (f"days from {carrot.days_from}", 61, "days"),
        ("seed germination min", 64, "%"),
    ):
        used = carrot.used(fact)
        assert used is not None
        assert (used.low, used.high, used.unit, used.kind) == (
            Fraction(value),
            Fraction(value),
            unit,
            Footing.GARDEN,
        )
        assert used.note == "our own rows, 2024"
        assert carrot.all_of(fact)[0] == used
        assert sum(figure.fact == fact for figure in carrot.chosen) == 1
    assert carrot.varieties == (
        Variety(
            name="Amber Spike",
            days=68,
            spacing=Length.of(3, INCH),
            germination=Fraction(81, 100),
            source="seed packet",
            note="sweet",
        ),
    )
    assert carrot.plural == "carrots", "the rest stays the library's"


def test_a_crop_of_ones_own(garden: Garden) -> None:
    skirret: Crop = garden.crop("skirret")
    assert (skirret.name, skirret.plural, skirret.also) == ("Skirret", "skirrets", ("crummock", "sugar root"))
    assert (skirret.botanical_name, skirret.family) == ("Sium sisarum", "Apiaceae")
    assert (skirret.habit, skirret.start, skirret.letters) == (Habit.ROSETTE, Beginning.SET_OUT, "Sk")
    assert (skirret.spacing, skirret.days, skirret.days_from) == (Length.of(12, INCH), 180, "setting out")
    rate = skirret.used("seed germination min")
    assert rate is not None
    assert (rate.low, rate.unit) == (Fraction(40), "%")
    cold = skirret.used("hardiness")
    assert cold == Figure(
        fact="hardiness", text="very hardy", kind=Footing.GARDEN, note="seed exchange leaflet"
    )
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
    assert spinach == PlanRow(
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
    (photo,) = entry.photos
    assert photo == Photo(
        file="peas.jpg",
        alt="Pea seedlings",
        caption="Up",
        credit="N.",
        licence="CC BY 4.0",
        source="https://example.org/peas",
        people=True,
        consent=True,
    )
    assert entry.further == (FurtherReading(title="On peas", address="https://example.org/peas?a=b#c"),)
    assert entry.place == Place("content/2026/log/2026-04-19-Peas are up.md", 2, 1)
    assert entry.done[0].place == Place("content/2026/log/2026-04-19-Peas are up.md", 9, 5)
    assert (entry.unfinished, entry.hold_until) == (False, date(2026, 5, 1))
    assert (entry.changed, entry.identity) == (date(2026, 6, 3), "2026-04-18-peas")


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


@pytest.mark.parametrize("rest", ["the rest", "The  Rest", "rest"])
def test_the_rest_of_a_picking_has_no_weight_of_its_own(tmp_path: Path, rest: str) -> None:
    row = f"- {{date: Jun 10, crop: kale, weight: 11 oz, to: {{kitchen: 4 oz, pantry: {rest}}}}}\n"
    lay_out(tmp_path, {"content/garden.yaml": GARDEN, "content/2026/harvest.yaml": row})
    done = read(tmp_path)
    assert done.garden is not None
    (weighing,) = done.garden.seasons[-1].ledger or ()
    assert weighing.to == (
        Destination(name="kitchen", weight=Weight(4 * OUNCE.size)),
        Destination(name="pantry", weight=None),
    )


def test_questions_and_pages(garden: Garden) -> None:
    (question,) = garden.questions
    assert question == Question(
        slug="how-much",
        question="How much does one tomato plant give?",
        asked=date(2026, 7, 14),
        by="a visitor at the fence",
        about=("tomato-determinate", "tomato-indeterminate", "kale"),
        answer="About *this* much.",
        hold_until=date(2026, 7, 20),
    )
    (leaf,) = garden.leaves
    assert (leaf.slug, leaf.title, leaf.order, leaf.prose) == ("about", "About us", 2, "We dig.")


ALIKE = "name: Twins\nbeds:\n" + "".join(
    f"""\
  - name: {name}
    length: 4 squares
    width: 2 squares
    omitted: D2
    trellis: {{side: 1, height: 5 ft, squares: A1:C1}}
    run-out: {{side: 1, reach: 4 ft, squares: A1:B1}}
"""
    for name in ("left", "right")
)


def test_beds_told_in_the_same_words_have_each_their_own_squares(tmp_path: Path) -> None:
    """Fails where what was read of one bed is taken for another's."""
    lay_out(tmp_path, {"content/garden.yaml": ALIKE})
    garden = read_garden(tmp_path)
    assert [bed.name for bed in garden.beds] == ["left", "right"]
    for bed in garden.beds:
        told = (*bed.omitted, *bed.trellises[0].squares, *bed.run_outs[0].squares)
        assert {square.bed for square in told} == {bed.name}
        assert len(told) == 1 + 3 + 2


def test_another_name_that_is_a_general_one_joins_the_kinds_of_the_library(tmp_path: Path) -> None:
    own = "- {new: cape tomato, family: Solanaceae, also: [tomato, poha]}\n"
    ledger = "".join(
        f"- {{date: Aug 1, crop: {name}, weight: 1 lb}}\n" for name in ("tomato", "poha", "squash")
    )
    files = {
        "content/garden.yaml": GARDEN,
        "content/crops.yaml": own,
        "content/2026/names.yaml": "squash: squash-winter\n",
    }
    files["content/2026/harvest.yaml"] = ledger
    lay_out(tmp_path, files)
    found = read(tmp_path).garden
    assert found is not None
    (year,) = (one for one in found.seasons if one.name == "2026")
    tomato, poha, squash = ((row.crops[0].slug, set(row.crops[0].slugs)) for row in year.ledger or ())
    assert tomato == (None, {"cape-tomato", "tomato-determinate", "tomato-indeterminate"})
    assert (poha[0], squash[0]) == ("cape-tomato", "squash-winter")
    chosen = {"content/2026/names.yaml": "tomato: tomato-determinate\n"}
    lay_out(tmp_path, chosen)
    assert [one for one in read(tmp_path).findings if one.code == "not-its-meaning"] == []
