"""The key that several maps share."""

from __future__ import annotations

from tallybed.pages.drawings.maps import MapKey, joint_key
from tallybed.reckoning.squares.occupancy import Grade


def key(*known: Grade) -> MapKey:
    """Return the key of a map with plantings that are so well known."""
    return MapKey(stages=(), known=frozenset(known), letters=())


def test_each_line_stands_once_in_a_joint_key() -> None:
    """Fails where one line stands twice since one of the maps has fewer meanings of it."""
    joint = joint_key([key(Grade.SEEN, Grade.IMPLIED), None, key(Grade.SEEN, Grade.SUPPOSED)])
    assert joint is not None
    assert [row.words for row in joint.grades] == [
        "seen or implied by other records",
        "supposed from the plan",
    ]
    assert len({row.swatch for row in joint.grades}) == 2
    assert joint_key([None]) is None
