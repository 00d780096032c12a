from __future__ import annotations

from dataclasses import fields, replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tallybed.garden.days import Month
from tallybed.garden.surroundings import Thing
from tallybed.garden.units import Length
from tallybed.reckoning.calendar.stages import Growth
from tallybed.reckoning.sun.bodies import Body, Spot, Standing
from tallybed.reckoning.sun.growth import Rise
from tallybed.reckoning.sun.scene import Light, Scene, Site
from tallybed.reckoning.sun.sums_text import as_text, from_text
from tests.reckoning.sun.beds import bed_of, body, scene, spot

HOURS = st.floats(min_value=0, max_value=400, allow_nan=False)
TO = st.dictionaries(st.sampled_from(["TO1", "chard 2", "the “old” ash"]), HOURS, max_size=2)
LIGHTS = st.builds(Light, HOURS | st.integers(0, 31), HOURS, HOURS, HOURS, TO, TO)
MONTHS = st.builds(Month, st.integers(1, 9999), st.integers(1, 12))
SUMS = st.dictionaries(
    st.integers(0, 99), st.dictionaries(st.tuples(MONTHS, st.booleans()), LIGHTS, max_size=3), max_size=3
)


@given(SUMS)
def test_sums_are_what_they_were_to_the_last_digit_and_in_order(
    sums: dict[int, dict[tuple[Month, bool], Light]],
):
    """Fails where a site made with what was kept differs in a byte from one made without."""
    again = from_text(as_text(sums))
    assert repr(again) == repr(sums)


@pytest.mark.parametrize("kind", [Site, Thing, Length, Standing, Body, Spot, Rise, Growth])
def test_a_scene_tells_all_that_its_light_follows_from(kind: type):
    """Fails where a thing that light depends on is left out of the text under which its sums are kept."""
    assert [one.name for one in fields(kind) if one.compare and not one.repr] == []


def test_scenes_that_differ_are_told_apart():
    bed = bed_of(2, 1)
    bodies, spots = [body("a", (0, 12, 0, 12), 40)], [spot(1, 0)]
    one = scene(bed, 45.0, bodies, spots)
    others: list[Scene] = [
        scene(bed, 46.0, bodies, spots),
        scene(bed, 45.0, bodies, spots, longitude=1),
        scene(bed_of(2, 1, 100), 45.0, bodies, spots),
        scene(bed, 45.0, [body("a", (0, 12, 0, 12), 41)], spots),
        scene(bed, 45.0, bodies, [replace(spots[0], planting="b")]),
    ]
    assert scene(bed, 45.0, bodies, spots).told == one.told
    assert len({one.told, *(other.told for other in others)}) == 1 + len(others)
