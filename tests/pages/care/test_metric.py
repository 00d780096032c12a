"""A garden in kilograms reads every figure of a crop in metric units.

Conversions are NIST SP 811 (2008), appendix B.8, and NIST Handbook 44, appendix C: 1 in = 2.54 cm,
t/°C = (t/°F − 32)/1.8, 1 lb = 0.453 592 37 kg, 1 ft² = 0.092 903 04 m², 1 acre = 4046.87 m².
"""

from __future__ import annotations

import re
from fractions import Fraction

import pytest

from tallybed.garden.crops import Crop, Figure
from tallybed.garden.facts import FACTS
from tallybed.garden.units import Showing
from tallybed.pages.care.cautions import Caution, cautions_read
from tallybed.pages.care.figures import care, value_words
from tallybed.pages.care.keeping import keeping
from tallybed.pages.care.metric import as_read, in_metric
from tallybed.reading.folder.library import load_library
from tests.pages.gardens import GARDEN, html_of, site_of, written

METRIC, FEET = Showing(metric=True), Showing()
PRINTED = re.compile(
    r"\b\d[\d./]*( to [\d./]+)?[ -](in|inch|inches|ft|feet|foot|lb|oz|°F|sq ft|quarts?|acres?)\b|°F"
)


def read(unit: str, low: str, high: str = "", text: str = "") -> str:
    one = Figure(fact="x", low=Fraction(low), high=Fraction(high or low), unit=unit, text=text)
    crop = next(iter(load_library().crops.values()))
    found = as_read(METRIC, Crop(**{**_fields(crop), "figures": (one,), "chosen": ()}))
    return value_words(found.figures[0])


def _fields(crop: Crop) -> dict[str, object]:
    return {name: getattr(crop, name) for name in Crop.__dataclass_fields__}


@pytest.mark.parametrize(
    ("unit", "low", "high", "words"),
    [
        ("in", "2", "3", "5 to 7.5 cm"),  # 5.08 and 7.62
        ("in", "1/4", "", "0.5 cm"),  # 0.635
        ("in", "18", "", "46 cm"),  # 45.72
        ("degF", "32", "", "0 °C"),
        ("degF", "50", "85", "10 to 29 °C"),  # 10 and 29.4
        ("degF", "28", "", "-2 °C"),  # -2.2
        ("sqft", "4", "", "0.37 m²"),  # 0.3716
        ("plants/sqft", "9", "", "97 plants per m²"),  # 96.88
        ("lb/sqft", "1", "", "4.88 kg per m²"),  # 4.8824
        ("lb/acre", "1000", "", "1,121 kg per hectare"),  # 1120.85
        ("lb/100ft", "100", "", "14.9 kg from 10 m of row"),  # 45.359 kg over 30.48 m
        ("lb/10ft", "10", "", "14.9 kg from 10 m of row"),
        ("ears/10ft", "10", "", "33 ears from 10 m of row"),  # 10 over 3.048 m
        ("lb/plant", "2", "", "0.91 kg a plant"),
        ("days", "60", "70", "60 to 70 days"),
        ("%", "75", "", "75%"),
    ],
)
def test_figures(unit: str, low: str, high: str, words: str):
    assert read(unit, low, high) == words


def test_words_with_a_length_or_a_temperature_in_them():
    assert read("days", "60", text="pods 3 to 4 inches long").endswith("pods 7.5 to 10 cm long")
    assert read("days", "60", text="below 50 °F").endswith("below 10 °C")
    assert read("days", "60", text="a vine of 10 feet").endswith("a vine of 3 m")


@pytest.mark.parametrize(
    ("printed", "shown"),
    [
        ("the low end of 1/4 to 1/2 in", "the low end of 0.5 to 1.5 cm"),  # 0.635 and 1.27
        ("seed goes 1/4 inch deep", "seed goes 0.5 cm deep"),
        ("1 1/2 to 2 in apart", "4 to 5 cm apart"),  # 3.81 and 5.08
        ("a 1/2-inch mesh", "a 1.5-cm mesh"),
        ("1/2 lb", "0.23 kg"),
    ],
)
def test_a_fraction_is_one_number(printed: str, shown: str):
    assert in_metric(printed) == shown


def test_a_range_at_the_head_of_a_note_is_in_the_unit_of_its_figure():
    tomato = as_read(METRIC, load_library().crops["tomato-indeterminate"])
    note = next(one.note for one in tomato.chosen if one.fact == "yield per sqft")
    assert note.startswith("Middle of 3.27 to 13.04 kg per m², the only garden figure")  # 0.67, 2.67 lb/sq ft


def test_every_unit_of_the_library_is_read_in_metric_units():
    printed = {"in", "degF", "sqft", "plants/sqft"} | {
        unit for units in FACTS.values() for unit in units if "/" in unit
    }
    for unit in printed - {"fruit/plant"}:
        assert not PRINTED.search(read(unit, "7")), unit


def test_no_crop_of_the_library_speaks_of_inches_to_a_metric_garden():
    for crop in load_library().crops.values():
        shown = as_read(METRIC, crop)
        for one in (*shown.figures, *shown.chosen):
            assert not PRINTED.search(f"{value_words(one)} {one.note}"), (crop.slug, one)
            assert " inch" not in one.note.replace("a whole inch, 2.54 cm", "").replace("an inch, 1.3 cm", "")
            assert not re.search(r"says [0-9.]+[.,;](?![0-9])", one.note), one.note
        assert as_read(FEET, crop) is crop
        for said in keeping(shown):
            assert not PRINTED.search(said.words), said


def test_the_page_of_a_crop(tmp_path_factory: pytest.TempPathFactory):
    root = written(tmp_path_factory.mktemp("metric"), {"garden.yaml": GARDEN.replace("pounds", "kilograms")})
    years = site_of(root)
    groups = care(years.garden, years.garden.crop("carrot")).groups
    names = {fact.name for group in groups for fact in group.facts}
    assert "Plants per square foot" not in names
    text = html_of(root)["crops/carrot/index.html"].get_text(" ", strip=True)
    assert not PRINTED.search(text.partition("Sources")[0]), PRINTED.search(text.partition("Sources")[0])


def test_a_metric_garden_reads_its_cautions_in_its_own_units() -> None:
    told = cautions_read(Showing(metric=True), (Caution(title="Oils", words="Not above 100 °F."),))
    assert [one.words for one in told] == ["Not above 38 °C."]
    assert cautions_read(Showing(metric=False), told) == told
