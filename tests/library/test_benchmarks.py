"""Figures of other gardens: each is there with its unit and source, and comes to what was reckoned apart."""

from __future__ import annotations

from pathlib import Path

import pytest

from tallybed.garden.benchmarks import Topic
from tallybed.pages.rows.gardens import pounds
from tallybed.reading.folder.benchmarks import load_benchmarks, read_benchmarks
from tallybed.reading.folder.library import LibraryError

KNOWN = load_benchmarks()
POUNDS = {
    # Pounds per square foot, worked out apart from the product with 1 kg/m2 = 0.204816 lb/ft2
    # (NIST SP 811: 1 lb = 0.45359237 kg, 1 ft = 0.3048 m).
    "Newark, Ohio": (1.24, 1.24),
    "San Jose, California": (0.75, 0.75),
    "Minnesota": (0.89, 0.89),
    "Sydney, Australia": (1.217, 1.217),
    "Guelph, Ontario": (0.293, 0.293),
    "Laramie, Wyoming, at about 7,200 ft": (0.51, 0.51),
    "Rhode Island": (0.455, 0.606),
    "New York City": (1.188, 1.188),
    "Brighton and Hove, England": (0.205, 0.205),
    "Leicester, England": (0.295, 0.295),
    "Harlow Carr, England": (0.533, 0.533),
    "United Kingdom": (0.635, 0.819),
}


def test_every_figure_of_a_yield_in_pounds_per_square_foot():
    found = [one for one in KNOWN.figures if one.topic is Topic.YIELD]
    for one in found:
        if one.where == "Tucson, Arizona":
            continue
        low, high = (float(each) for each in pounds(one))
        assert (low, high) == pytest.approx(POUNDS[one.where], abs=0.0011), one.where
    tucson = sorted(float(pounds(one)[0]) for one in found if one.where == "Tucson, Arizona")
    assert tucson == pytest.approx([0.254, 0.473], abs=0.001)
    assert len(found) == len(POUNDS) + 2


def test_second_hand_figures_are_marked():
    marked = {one.where for one in KNOWN.figures if one.topic is Topic.YIELD and one.second_hand}
    assert marked == {
        "Newark, Ohio",
        "New York City",
        "Brighton and Hove, England",
        "Harlow Carr, England",
        "United Kingdom",
    }


def test_every_source_is_used_and_none_is_a_crop_source():
    assert {one.source for one in KNOWN.figures} == {source.id for source in KNOWN.sources}


def _file(folder: Path, figure: str) -> Path:
    path = folder / "benchmarks.yaml"
    rest = "".join(
        f"{topic}: [{{what: x, where: y, source: a, value: 1 {unit}}}]\n"
        for topic, unit in (("work", "min/sqft"), ("water", "L/kg"), ("money", "USD/sqft"))
    )
    text = f"sources: [{{id: a, title: A}}]\nyield: [{figure}]\n{rest}"
    path.write_text(text, encoding="utf-8")
    return path


@pytest.mark.parametrize(
    ("figure", "wrong"),
    [
        ("{what: x, where: y, source: b, value: 1 lb/sqft}", "no source has the id b"),
        ("{what: x, where: y, source: a, value: 1 lb}", "lb is not a unit"),
        ("{what: x, where: y, source: a, value: 2 to 1 lb/sqft}", "more than"),
        ("{what: x, where: y, source: a, value: 1 lb/sqft, seen: twice}", "is not how a source was seen"),
        ("{what: x, where: y, source: a}", "has no key “value”"),
    ],
)
def test_a_figure_that_does_not_fit_ends_the_reading(tmp_path: Path, figure: str, wrong: str):
    with pytest.raises(LibraryError, match=wrong):
        read_benchmarks(_file(tmp_path, figure))
