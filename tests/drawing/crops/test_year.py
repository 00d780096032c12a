"""A crop's year, read back from its markup: what is advised, what was done, on one axis."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from xml.etree import ElementTree as Tree

import pytest

from tallybed.drawing.crops.printed_days import PrintedDays
from tallybed.drawing.crops.year import MARK, Did, PlantingLine, crop_year
from tallybed.garden.days import Span
from tallybed.reckoning.calendar.stages import Stage
from tests.drawing.markup import of_class, parsed, words

SPAN = Span(first=date(2026, 3, 1), last=date(2026, 11, 30))
PLANT = PrintedDays(
    words="plant",
    sign=Stage.GROWING,
    first=date(2026, 3, 18),
    last=date(2026, 4, 1),
    told="plant 18 March to 1 April",
)
PICK = PrintedDays(
    words="first picking",
    sign=Stage.BEARING,
    first=date(2026, 7, 6),
    last=date(2026, 7, 20),
    told="first picking 6 to 20 July",
)
ONION = PlantingLine(
    season="2026",
    name="ON1",
    indoors=None,
    first=date(2026, 4, 4),
    past=date(2026, 7, 18),
    last=date(2026, 7, 18),
    away=(),
    did=(
        Did(day=date(2026, 4, 4), sign=Stage.GROWING),
        Did(day=date(2026, 6, 27), sign=Stage.BEARING, weighty=1),
    ),
    picked=(date(2026, 6, 27), date(2026, 7, 4), date(2026, 7, 18)),
    gone=True,
    lost=False,
    told="2026, ON1: set out 4 Apr",
)


def drawn(
    *lines: PlantingLine, advised: tuple[PrintedDays, ...] = (PLANT, PICK), narrow: bool = False
) -> Tree.Element:
    return parsed(
        crop_year(
            lines, advised, SPAN, ident="y", title="The year", nothing="nothing on record", narrow=narrow
        )
    )


def axis(root: Tree.Element) -> tuple[float, float]:
    """Return where the axis begins and how many units a day has."""
    (base,) = (each for each in of_class(root, "d-axes")[0] if each.tag.endswith("line"))
    left, right = float(base.get("x1", "")), float(base.get("x2", ""))
    return left, (right - left) / SPAN.days


def at(root: Tree.Element, day: date) -> float:
    left, unit = axis(root)
    return left + unit * (day - SPAN.first).days


@pytest.mark.parametrize("narrow", [True, False])
def test_what_is_advised_and_what_was_done_lie_on_one_axis(narrow: bool) -> None:
    root = drawn(ONION, narrow=narrow)
    band = of_class(root, "d-advised")[0]
    assert float(band.get("x", "")) == pytest.approx(at(root, PLANT.first), abs=0.02)
    end = float(band.get("x", "")) + float(band.get("width", ""))
    assert end == pytest.approx(at(root, PLANT.last + timedelta(days=1)), abs=0.02), "the last day is whole"
    line = next(each for each in of_class(root, "d-planting")[0] if each.tag.endswith("line"))
    assert float(line.get("x1", "")) == pytest.approx(at(root, date(2026, 4, 4)), abs=0.02)
    assert float(line.get("x1", "")) > end, "set out three days after the last day advised"
    ripe = of_class(root, "d-ripe")[0]
    assert float(ripe.get("x", "")) == pytest.approx(at(root, date(2026, 6, 27)), abs=0.02)


def test_a_line_is_broken_where_it_had_no_square() -> None:
    """As where seed failed and was sown again: the bed held nothing of it in between."""
    gap = Span(first=date(2026, 5, 2), last=date(2026, 5, 4))
    root = drawn(replace(ONION, away=(gap,)))
    strokes = [
        (float(one.get("x1", "")), float(one.get("x2", "")))
        for one in of_class(root, "d-planting")[0]
        if one.tag.endswith("line") and one.get("x1") != one.get("x2")
    ]
    days = (date(2026, 4, 4), gap.first, date(2026, 5, 5), date(2026, 7, 19))
    assert [x for stroke in strokes for x in stroke] == pytest.approx(
        [at(root, day) for day in days], abs=0.02
    )


def test_bands_lie_behind_what_was_done() -> None:
    order = [each.get("class", "") for each in drawn(ONION)]
    assert order.index("d-advised-all") < order.index("d-planting")


@pytest.mark.parametrize("narrow", [True, False])
def test_days_are_written_where_they_have_room_and_never_over_each_other(narrow: bool) -> None:
    close = replace(
        ONION,
        indoors=date(2026, 3, 30),
        did=(Did(day=date(2026, 3, 30), sign=Stage.SOWN, weighty=2), *ONION.did),
    )
    (lane,) = of_class(drawn(close, narrow=narrow), "d-planting")
    written = ["".join(each.itertext()) for each in of_class(lane, "d-day")]
    assert "4 Apr" in written, "the day in the bed comes before the day indoors"
    assert ("30 Mar" in written) is False


def test_what_is_to_come_is_dotted_and_has_no_end() -> None:
    going = replace(ONION, past=date(2026, 6, 1), picked=(), gone=False, did=ONION.did[:1])
    (lane,) = of_class(drawn(going), "d-planting")
    dotted = [each for each in lane if each.get("stroke-dasharray")]
    assert len(dotted) == 1
    assert float(dotted[0].get("x1", "")) == pytest.approx(at(drawn(going), date(2026, 6, 2)), abs=0.02)


def test_a_loss_is_crossed_and_told() -> None:
    lost = replace(ONION, lost=True)
    plain, crossed = (len(list(drawn(one).iter())) for one in (ONION, lost))
    assert crossed > plain


def test_what_is_lost_at_once_is_crossed_beside_its_sowing() -> None:
    """Fails where the mark of the sowing covers the cross."""
    day = date(2026, 5, 26)
    lost = replace(
        ONION, first=day, past=day, last=day, did=(Did(day=day, sign=Stage.SOWN),), picked=(), lost=True
    )
    (lane,) = of_class(drawn(lost), "d-planting")
    found = [one.get("transform", "").removeprefix("translate(").split() for one in of_class(lane, "d-mark")]
    places = sorted(float(x) for x, _y in found)
    assert len(places) == 2
    assert places[1] - places[0] >= MARK


def test_each_band_is_named_and_the_names_keep_apart() -> None:
    near = replace(PLANT, words="plant at the latest", first=date(2026, 4, 5), last=date(2026, 4, 5))
    for narrow in (True, False):
        root = drawn(ONION, advised=(PLANT, near, PICK), narrow=narrow)
        heads = [words(each)[0] for each in of_class(root, "d-heads")[0] if words(each)]
        assert sorted(heads) == ["first picking", "plant", "plant at the latest"]


def test_a_crop_never_grown_says_so_and_shows_what_is_advised() -> None:
    root = drawn()
    assert "nothing on record" in words(root)
    assert len(of_class(root, "d-advised")) == 2
    told = root[1].text or ""
    assert "plant 18 March to 1 April" in told
