"""What stands in a bed before the sun: climbers as a screen over their trellis, all else as a box."""

from __future__ import annotations

from pathlib import Path

import pytest

from tallybed.reckoning.sun.bodies import Standing, standing
from tests.pages.gardens import site_of, written

GARDEN = """\
name: Tiny
latitude: 45
season: {start: Mar 1, end: Oct 31}
beds:
  - {name: b, length: 3 squares, width: 2 squares, bearing: 90, trellis: [TRELLIS]}
"""


def stood(root: Path, trellis: str, plan: str, crops: str = "") -> Standing:
    files = {"garden.yaml": GARDEN.replace("TRELLIS", trellis), "2026/plan.yaml": plan}
    if crops:
        files["crops.yaml"] = crops
    (year,) = site_of(written(root, files)).all
    return standing(year, year.garden.bed("b"))


@pytest.mark.parametrize(
    ("side", "box", "lean"),
    [
        # Three squares by two of a foot each; x runs along the letters and y along the numbers. By hand:
        # half a foot over five feet of height is a tenth, and inwards is away from the side.
        ("1", (0, 36, 0, 0), (0, 0.1)),
        ("2", (0, 36, 24, 24), (0, -0.1)),
        ("A", (0, 0, 0, 24), (0.1, 0)),
        ("C", (36, 36, 0, 24), (-0.1, 0)),
    ],
)
def test_a_climber_is_a_screen_over_the_side_of_its_trellis(
    side: str, box: tuple[float, ...], lean: tuple[float, float], tmp_path: Path
) -> None:
    """Fails where a bed shades itself from the wrong side, or a trellis shades nothing."""
    plan = "- {crop: bean-pole, tag: BP1, squares: 'A1:C2', sow: May 10}\n"
    found = stood(tmp_path, f"{{side: {side}, height: 5 ft, lean: 6 in}}", plan)
    (screen,) = found.bodies
    assert screen.boxes == (box,)
    assert screen.lean == pytest.approx(lean)
    assert screen.most == 60


def test_of_a_crop_of_no_known_height_nothing_is_said_to_shade(tmp_path: Path) -> None:
    own = "- {new: oca, family: Oxalidaceae, habit: upright, start: tubers, letters: Oc, spacing: 12 in}\n"
    plan = "- {crop: oca, tag: OC1, squares: A2, set out: May 10}\n"
    plan += "- {crop: carrot, tag: CA1, squares: B2, sow: May 1}\n"
    found = stood(tmp_path, "{side: 1, height: 5 ft}", plan, own)
    assert found.unknown == ("OC1",)
    assert [one.planting for one in found.bodies] == ["CA1"]
