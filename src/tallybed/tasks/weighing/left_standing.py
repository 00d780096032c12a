"""What is said at the scale of a tag that the season before had, and this season's plan has not."""

from __future__ import annotations

from tallybed.garden.naming import folded
from tallybed.reckoning.onward import stood_at_end
from tallybed.reckoning.year import Year


def tags_left(year: Year, text: str) -> tuple[str, ...]:
    """Return how what stood over winter is weighed, for each word of a text that is its tag alone."""
    before = year.beside(-1)
    if before is None:
        return ()
    own = {folded(one.tag) for one in year.plantings if one.planned or one.begun}
    words = {folded(word.strip(".,;:")) for word in text.split()} - own
    found = []
    for one in before.plantings:
        if one.tag and folded(one.tag) in words and stood_at_end(before, one):
            crop = before.crop_of(one)
            found.append(
                f"{one.tag} is the {crop.name if crop else one.crop.typed} that still stood as {before.name}"
                f" ended: give it a row in the plan of {year.name}, with `carried from:`"
            )
    return tuple(found)
