from __future__ import annotations

from pathlib import Path

import pytest

from tallybed.garden.records.ledger import Weighing
from tallybed.garden.units import POUND, Weight
from tallybed.reading.folder.garden_folder import read
from tallybed.reckoning.harvest.belief import Belief
from tallybed.reckoning.squares.occupancy import hold
from tests.reckoning.growing import crop
from tests.small_garden import GARDEN, folder


@pytest.mark.parametrize(("beds", "doubted"), [(GARDEN, True), (GARDEN.partition("beds:")[0], False)])
def test_no_weight_is_beyond_belief_where_no_bed_could_be_read(
    tmp_path: Path, beds: str, doubted: bool
) -> None:
    """Fails where a weight is held against what nought square feet give."""
    root = folder(tmp_path / "garden")
    (root / "content/garden.yaml").write_text(beds, encoding="utf-8")
    garden = read(root).garden
    assert garden is not None
    (season,) = garden.seasons
    belief = Belief(garden, hold(season, season.span.last))
    picked = Weighing(day=season.span.last, crops=(crop("carrot"),), weight=Weight.of(4000, POUND))
    assert bool(belief.beyond(picked)) == doubted
