"""Plants per square and per block, and their places."""

from __future__ import annotations

import subprocess
import sys
from collections import Counter
from collections.abc import Iterable
from fractions import Fraction
from itertools import combinations
from math import dist

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from tallybed.garden.squares import Bed, Square
from tallybed.garden.units import CENTIMETRE, INCH, Length
from tallybed.reckoning.room.spacing import Spot, beside, kept_in, most, pack, place, too_narrow
from tests.reckoning.room.test_packing import turned

FOOT_SIDE = Length.of(12, INCH)
SLACK = 0.0004
"""Inches: places are given out rounded to 0.0001."""


def inches(amount: float | Fraction) -> Length:
    return Length.of(Fraction(amount), INCH)


def a_bed(columns: int = 10, rows: int = 4, side: Length = FOOT_SIDE) -> Bed:
    return Bed(name="long", title="The long bed", columns=columns, rows=rows, side=side)


def block(columns: int, rows: int, at: tuple[int, int] = (0, 0)) -> tuple[Square, ...]:
    return tuple(Square("long", at[0] + c, at[1] + r) for r in range(rows) for c in range(columns))


def per_square(spacing: Length, side: Length) -> int:
    """How many plants keep the spacing in one square by itself; 0 where not one does."""
    one = Bed(name="", title="", columns=1, rows=1, side=side)
    packing = pack(one, one.squares, spacing)
    return len(packing.spots) if packing.spacing == kept_in(one, spacing) else 0


def square(label: str) -> Square:
    return Square("long", ord(label[0]) - ord("A"), int(label[1:]) - 1)


def closest(spots: Iterable[Spot]) -> float:
    pairs = combinations(spots, 2)
    return min((dist((one.x, one.y), (other.x, other.y)) for one, other in pairs), default=float("inf"))


def room_at_edge(spots: Iterable[Spot], squares: Iterable[Square], side: float) -> float:
    """Inches from the spot nearest the block's edge to that edge, reckoned square by square."""
    inside = {(square.column, square.row) for square in squares}
    nearest = float("inf")
    for spot in spots:
        for column in range(-1, max(c for c, _ in inside) + 2):
            for row in range(-1, max(r for _, r in inside) + 2):
                if (column, row) not in inside:
                    dx = max(column * side - spot.x, 0, spot.x - (column + 1) * side)
                    dy = max(row * side - spot.y, 0, spot.y - (row + 1) * side)
                    nearest = min(nearest, (dx * dx + dy * dy) ** 0.5)
    return nearest


KANSAS = "Plant spacing guide for intensive vegetable gardening, K-State Master Gardeners"
ARIZONA = (
    "Intensive gardening methods, spacing table, University of Arizona Cooperative Extension, "
    "Master Gardener Manual, ch. 10, pp. 39-46"
)
PRINTED = [
    # crop, inches printed (least, most), plants in a one-foot square (fewest, most), publication.
    # The publications print the spacing; the count is the square grid of that spacing in 12 in.
    ("basil", (12, 12), (1, 1), KANSAS),
    ("bean, snap", (4, 4), (9, 9), KANSAS),
    ("beet", (3, 3), (16, 16), KANSAS),
    ("carrot", (3, 3), (16, 16), KANSAS),
    ("Chinese cabbage", (6, 6), (4, 4), KANSAS),
    ("garlic", (3, 3), (16, 16), KANSAS),
    ("kale", (6, 6), (4, 4), KANSAS),
    ("kohlrabi", (3, 6), (4, 16), KANSAS),
    ("lettuce, leaf", (6, 6), (4, 4), KANSAS),
    ("okra", (12, 12), (1, 1), KANSAS),
    ("parsley", (6, 6), (4, 4), KANSAS),
    ("pea", (2, 2), (36, 36), KANSAS),
    ("pepper", (12, 12), (1, 1), KANSAS),
    ("spinach", (4, 4), (9, 9), KANSAS),
    ("turnip", (3, 3), (16, 16), KANSAS),
    ("bean, lima", (4, 6), (4, 9), ARIZONA),
    ("bean, pole", (6, 12), (1, 4), ARIZONA),
    ("beet", (2, 4), (9, 36), ARIZONA),
    ("carrot", (2, 3), (16, 36), ARIZONA),
    ("leek", (3, 6), (4, 16), ARIZONA),
    ("lettuce, head", (10, 12), (1, 1), ARIZONA),
    ("mustard greens", (6, 9), (1, 4), ARIZONA),
    ("southern pea", (3, 4), (9, 16), ARIZONA),
    ("Swiss chard", (6, 9), (1, 4), ARIZONA),
]


@pytest.mark.parametrize(("crop", "spacing", "plants", "source"), PRINTED)
def test_a_foot_holds_what_published_spacings_give(
    crop: str, spacing: tuple[int, int], plants: tuple[int, int], source: str
) -> None:
    found = (per_square(inches(spacing[1]), FOOT_SIDE), per_square(inches(spacing[0]), FOOT_SIDE))
    assert found == plants, f"{crop}, {source}"


@pytest.mark.parametrize(
    ("spacing", "size", "plants"),
    [
        # Crops wider than a square, in plants for so many squares: the same two tables print 15–18 in for
        # broccoli and cabbage, 18–24 in for tomato and eggplant, 24–36 in for winter squash and pumpkin.
        # 12 / 18 squared: 4 plants in 9 squares; 12 / 24 squared: 1 in 4; 12 / 36 squared: 1 in 9.
        (18, (3, 3), 4),
        (24, (2, 2), 1),
        (36, (3, 3), 1),
        (15, (5, 5), 16),
        (24, (4, 4), 4),
    ],
)
def test_a_crop_wider_than_a_square_takes_a_block(spacing: int, size: tuple[int, int], plants: int) -> None:
    found = (
        pack(a_bed(), block(*size), inches(spacing))
        if max(size) < 5
        else pack(a_bed(5, 5), block(*size), inches(spacing))
    )
    assert (len(found.spots), found.spacing) == (plants, inches(spacing))


GRID_OVER_A_BED = [
    # Plain arithmetic, floor(length / spacing) × floor(width / spacing), for whole beds.
    ((4, 4), 6, 64),
    ((8, 4), 4, 288),
    ((4, 4), 3, 256),
    ((6, 3), 18, 8),
    ((8, 4), 12, 32),
]


@pytest.mark.parametrize(("size", "spacing", "grid"), GRID_OVER_A_BED)
def test_a_whole_bed_holds_at_least_the_square_grid(size: tuple[int, int], spacing: int, grid: int) -> None:
    found = most(a_bed(*size), block(*size), inches(spacing))
    hexagonal = size[0] * size[1] * 144 / (3**0.5 / 2 * spacing**2)
    assert grid <= len(found) <= hexagonal


BEST_KNOWN_RADII = {
    # Radius of n equal circles in a unit square: E. Specht, "The best known packings of equal circles in a
    # square"; proven best for n ≤ 30 (M. C. Markót, T. Csendes, SIAM J. Optim. 16, 2005). From memory.
    1: 0.5,
    2: 0.292893,
    3: 0.254333,
    4: 0.25,
    5: 0.207107,
    6: 0.187681,
    7: 0.174458,
    8: 0.170541,
    9: 0.166667,
    10: 0.148204,
    11: 0.142399,
    12: 0.139959,
    13: 0.133994,
    14: 0.129332,
    15: 0.127167,
    16: 0.125,
    17: 0.117197,
    18: 0.115521,
    19: 0.112265,
    20: 0.111382,
}


@pytest.mark.parametrize("quarters", range(11, 49))
def test_no_square_holds_more_than_the_best_packing_known(quarters: int) -> None:
    spacing = Fraction(quarters, 4)
    allowed = max(
        (n for n, radius in BEST_KNOWN_RADII.items() if 24 * radius >= float(spacing) - 1e-4), default=0
    )
    assert per_square(inches(spacing), FOOT_SIDE) <= allowed


@pytest.mark.parametrize("number", [1, 2, 4, 5, 6, 9, 16])
def test_lattices_reach_the_best_packing_known_where_that_is_a_lattice(number: int) -> None:
    just_below = Fraction(int(24 * BEST_KNOWN_RADII[number] * 1000), 1000)
    assert per_square(inches(just_below), FOOT_SIDE) == number


def test_staggered_rows_win_in_a_large_block() -> None:
    # A triangular layout gains 2/√3 − 1 = 15.5 % over a square grid on a large area.
    wide = a_bed(30, 30)
    grid = (30 * 12 // 4) ** 2
    assert len(most(wide, block(30, 30), inches(4))) / grid == pytest.approx(2 / 3**0.5, rel=0.015)


def test_a_single_plant_of_a_wide_crop_stands_in_the_middle_of_its_block() -> None:
    (spot,) = most(a_bed(), block(2, 2), inches(24))
    assert (spot.x, spot.y, spot.square) == (12, 12, square("A1"))


def test_one_plant_stands_where_the_block_is_too_small_for_it() -> None:
    found = pack(a_bed(), block(2, 1), inches(24))
    assert [(spot.x, spot.y) for spot in found.spots] == [(12, 6)], "middle of the block"
    assert found.spacing == inches(12), "the room there really is"
    assert per_square(inches(24), FOOT_SIDE) == 0


def test_plants_stand_in_real_squares_of_an_l_shape() -> None:
    squares = [*block(3, 1), *block(1, 2, at=(0, 1))]
    found = most(a_bed(), squares, inches(4))
    assert len(found) >= 45
    assert {spot.square for spot in found} == set(squares)


def test_squares_apart_are_filled_each_by_itself() -> None:
    squares = [square("A1"), square("C3"), square("B2")]
    assert Counter(spot.square for spot in most(a_bed(), squares, inches(3))) == dict.fromkeys(squares, 16)


def test_metric_squares_hold_exact_divisions() -> None:
    thirty = Length.of(30, CENTIMETRE)
    counts = [per_square(Length.of(Fraction(cm), CENTIMETRE), thirty) for cm in (30, 15, 10, "7.5", 5)]
    assert counts == [1, 4, 9, 16, 36]


def test_thirds_of_an_inch_are_exact() -> None:
    assert per_square(inches(Fraction(4, 3)), FOOT_SIDE) >= 81
    assert per_square(inches(Fraction(12, 5)), FOOT_SIDE) == 25


@pytest.mark.parametrize("nothing", [0, -3])
def test_a_spacing_is_more_than_nothing(nothing: int) -> None:
    with pytest.raises(ValueError, match="spacing"):
        most(a_bed(), block(1, 1), inches(nothing))


def test_no_squares_hold_nothing() -> None:
    assert most(a_bed(), [], inches(4)) == ()
    assert most(a_bed(), [Square("elbow", 0, 0)], inches(4)) == ()
    assert place(a_bed(), [], inches(4), 3).spots == ()
    assert place(a_bed(), block(2, 2), inches(4), 0).spots == ()


# Half the spacing stays clear at the block's edge, but never more than half the block's extent: the middles
# of a line of squares, one plant of a wide crop in a square (common practice, no source).
STRIPS = [
    ("tomato", (8, 1), 18, 5),
    ("tomato", (6, 1), 18, 4),
    ("tomato", (1, 8), 18, 5),
    ("kale", (4, 1), 18, 2),
    ("broccoli", (1, 1), 18, 1),
    ("cabbage", (2, 2), 24, 1),
    ("cabbage", (4, 2), 24, 2),
]


@pytest.mark.parametrize(("crop", "size", "spacing", "plants"), STRIPS)
def test_a_strip_narrower_than_the_spacing_holds_one_line(
    crop: str, size: tuple[int, int], spacing: int, plants: int
) -> None:
    found = pack(a_bed(8, 8), block(*size), inches(spacing))
    assert (len(found.spots), found.spacing) == (plants, inches(spacing)), crop
    assert closest(found.spots) >= spacing - SLACK
    if 12 * min(size) < spacing:
        assert {spot.y if size[1] == 1 else spot.x for spot in found.spots} == {6}, "in the middle"


@pytest.mark.parametrize(
    ("size", "spacing", "width"),
    [((7, 1), 24, 12), ((1, 1), 24, 12), ((1, 7), 24, 12), ((2, 2), 24, None), ((7, 1), 18, None)],
)
def test_a_block_under_two_thirds_of_the_spacing_is_too_narrow(
    size: tuple[int, int], spacing: int, width: int | None
) -> None:
    bed = a_bed(8, 8)
    assert too_narrow(bed, block(*size), inches(spacing)) == (None if width is None else inches(width))
    assert (pack(bed, block(*size), inches(spacing)).spacing < inches(spacing)) == (width is not None)


def test_of_squares_apart_the_widest_piece_says_whether_they_are_too_narrow() -> None:
    both = (*block(1, 1), *block(2, 2, at=(3, 0)))
    assert too_narrow(a_bed(), both, inches(36)) is None
    assert too_narrow(a_bed(), both, inches(37)) == inches(24)


@pytest.mark.parametrize(("spacing", "plants"), [(3, 16), (4, 9), (6, 4), (12, 1), (2, 36)])
def test_thirty_centimetres_are_a_foot_to_spacings_in_inches(spacing: int, plants: int) -> None:
    # 30 cm is 1.6 % less than a foot: within the 2 % allowed.
    assert per_square(inches(spacing), Length.of(30, CENTIMETRE)) == plants
    if spacing < 12:
        assert per_square(inches(spacing), Length.of(29, CENTIMETRE)) < plants, "29 cm is 4.9 % less"
        assert per_square(inches(spacing + Fraction(1, 10**6)), FOOT_SIDE) < plants, "a foot is exact"


def test_tomatoes_along_metric_squares() -> None:
    bed = a_bed(8, 1, Length.of(30, CENTIMETRE))
    found = pack(bed, block(8, 1), inches(18))
    assert (len(found.spots), found.spacing) == (5, kept_in(bed, inches(18)))


shapes = st.sets(st.tuples(st.integers(0, 3), st.integers(0, 3)), min_size=1, max_size=12).map(
    lambda cells: [Square("long", *cell) for cell in sorted(cells)]
)
spacings = st.integers(6, 160).map(lambda eighths: Fraction(eighths, 4))
L_SHAPE = [square(label) for label in ("A1", "A2", "B1")]


@given(shapes, spacings)
@example(L_SHAPE, Fraction(7))
@example(L_SHAPE, Fraction(20))
def test_law_spacing_and_edge_are_kept(squares: list[Square], spacing: Fraction) -> None:
    found = pack(a_bed(), squares, inches(spacing))
    assert found.spots
    assert found.spacing == (too_narrow(a_bed(), squares, inches(spacing)) or inches(spacing))
    kept = float(found.spacing.within(INCH))
    assert closest(found.spots) >= kept - SLACK
    assert room_at_edge(found.spots, squares, 12) >= min(kept, 12) / 2 - SLACK
    assert {spot.square for spot in found.spots} <= set(squares)


@given(st.integers(1, 6), st.integers(1, 6), spacings)
def test_law_the_edge_keeps_half_the_spacing_or_half_the_extent(
    columns: int, rows: int, spacing: Fraction
) -> None:
    for spot in most(a_bed(6, 6), block(columns, rows), inches(spacing)):
        for at, extent in ((spot.x, 12 * columns), (spot.y, 12 * rows)):
            clear = min(float(spacing), extent) / 2
            assert clear - SLACK <= at <= extent - clear + SLACK


def lying(cells: Iterable[tuple[int, int]], turn: int) -> list[Square]:
    """The squares of cells within three by three, mirrored and turned in one of eight ways."""
    return [Square("long", *turned(cell, turn)) for cell in cells]


ODD = {
    "L": ((0, 0), (0, 1), (1, 1)),
    "J": ((0, 0), (0, 1), (1, 1), (2, 1)),
    "stairs": ((2, 0), (1, 1), (2, 1), (0, 2), (1, 2)),
    "S": ((1, 0), (0, 1), (1, 1), (2, 1), (2, 2)),
}


@pytest.mark.parametrize("spacing", [13, 14, 24])
@pytest.mark.parametrize("cells", ODD.values(), ids=ODD)
def test_an_odd_shape_holds_as_many_whichever_way_it_lies(
    cells: tuple[tuple[int, int], ...], spacing: int
) -> None:
    """Else the same bed, described from another corner, is said to hold another number."""
    assert len({len(most(a_bed(), lying(cells, turn), inches(spacing))) for turn in range(8)}) == 1


@pytest.mark.parametrize("turn", range(8))
@pytest.mark.parametrize("spacing", [5, 7, 8, 13, 14])
@pytest.mark.parametrize("cells", ODD.values(), ids=ODD)
def test_odd_shapes_keep_spacing_and_edge_whichever_way_they_lie(
    cells: tuple[tuple[int, int], ...], spacing: int, turn: int
) -> None:
    """Else plants are drawn outside their squares, in the beds whose shape chance did not try."""
    squares = lying(cells, turn)
    found = pack(a_bed(), squares, inches(spacing))
    assert closest(found.spots) >= float(found.spacing.within(INCH)) - SLACK
    assert room_at_edge(found.spots, squares, 12) >= min(float(found.spacing.within(INCH)), 12) / 2 - SLACK
    assert {spot.square for spot in found.spots} <= set(squares)


@given(shapes, spacings)
def test_law_never_worse_than_a_square_grid(squares: list[Square], spacing: Fraction) -> None:
    each = int(12 // spacing) ** 2
    assert len(most(a_bed(), squares, inches(spacing))) >= each * len(squares)


@given(st.integers(1, 6), st.integers(1, 6), spacings)
def test_law_never_worse_than_a_grid_over_the_block(columns: int, rows: int, spacing: Fraction) -> None:
    grid = int(12 * columns // spacing) * int(12 * rows // spacing)
    assert len(most(a_bed(6, 6), block(columns, rows), inches(spacing))) >= grid


@given(shapes, spacings)
def test_law_never_denser_than_the_hexagonal_packing(squares: list[Square], spacing: Fraction) -> None:
    # A. Thue 1910; L. Fejes Tóth 1953: plants × √3/2 × spacing² ≤ area. Squared, so that it is exact.
    # A square narrower than the spacing counts for the one plant in its middle.
    found = most(a_bed(), squares, inches(spacing))
    if spacing <= 12:
        assert 3 * (len(found) * spacing**2) ** 2 <= 4 * (144 * len(squares)) ** 2
    assert spacing <= 12 or len(found) <= len(squares)


@given(shapes, spacings, st.integers(1, 11))
def test_law_the_order_of_squares_never_matters(squares: list[Square], spacing: Fraction, turn: int) -> None:
    mixed = [*reversed(squares[turn:]), *squares[: turn + 1]]
    assert most(a_bed(), mixed, inches(spacing)) == most(a_bed(), squares, inches(spacing))
    assert (
        place(a_bed(), mixed, inches(spacing), 5).spots == place(a_bed(), squares, inches(spacing), 5).spots
    )


told = st.dictionaries(
    st.tuples(st.integers(0, 3), st.integers(0, 2)).map(lambda cell: Square("long", *cell)),
    st.integers(0, 20),
    min_size=1,
    max_size=7,
)


@given(told, spacings)
@example({square("A1"): 9, square("B1"): 9}, Fraction(4))
@example({square("A1"): 1, square("B2"): 1}, Fraction(24))
def test_law_as_many_stand_as_were_told(plants: dict[Square, int], spacing: Fraction) -> None:
    found = place(a_bed(), plants, inches(spacing), plants)
    kept = float(found.spacing.within(INCH))
    assert len(found.spots) == sum(plants.values())
    assert closest(found.spots) >= kept - SLACK
    assert {spot.square for spot in found.spots} <= set(plants)
    if spacing > 12 or found.spacing < inches(spacing):
        assert Counter(spot.square for spot in found.spots) == Counter(plants)


@given(shapes, spacings, st.integers(0, 40))
def test_law_a_total_stands_in_all(squares: list[Square], spacing: Fraction, plants: int) -> None:
    found = place(a_bed(), squares, inches(spacing), plants)
    assert len(found.spots) == plants
    assert closest(found.spots) >= float(found.spacing.within(INCH)) - SLACK
    if spacing <= 12 and plants <= len(squares) * per_square(inches(spacing), FOOT_SIDE):
        assert found.spacing == inches(spacing)
        even = Counter(spot.square for spot in found.spots)
        assert max(even.values(), default=0) - min(even[square] for square in squares) <= 1


@given(shapes, spacings, st.integers(1, 12), st.integers(0, 12))
def test_law_what_is_left_stays_where_it_stood(
    squares: list[Square], spacing: Fraction, before: int, gone: int
) -> None:
    bed = a_bed()
    first = place(bed, squares, inches(spacing), before)
    counts = Counter(spot.square for spot in first.spots)
    for _ in range(min(gone, before)):
        fullest = max(sorted(counts), key=lambda square: counts[square])
        counts[fullest] -= 1
    left = place(bed, squares, inches(spacing), counts, of=before)
    assert set(left.spots) <= set(first.spots)
    assert len(left.spots) == before - min(gone, before)


def test_more_than_fit_stand_on_the_widest_straight_lattice() -> None:
    found = place(a_bed(), [square("A1")], inches(3), {square("A1"): 25})
    assert found.spacing == inches(Fraction(12, 5))
    assert sorted({spot.x for spot in found.spots}) == [1.2, 3.6, 6.0, 8.4, 10.8]
    pair = place(a_bed(), block(2, 2), inches(24), 2)
    assert pair.spacing == inches(12)


def test_what_is_left_over_of_a_total_stands_in_the_first_squares_of_the_first_rows() -> None:
    found = place(a_bed(), block(2, 2), inches(4), 6)
    assert Counter(spot.square for spot in found.spots) == {
        square(label): count for label, count in (("A1", 2), ("B1", 2), ("A2", 1), ("B2", 1))
    }


def test_few_plants_stand_wide_apart() -> None:
    (one,) = place(a_bed(), [square("B1")], inches(4), 1).spots
    assert (one.x, one.y) == (18, 6), "a single plant in the middle of its square"
    two = place(a_bed(), [square("B1")], inches(4), 2).spots
    assert closest(two) > 6.9
    (mid,) = place(a_bed(), block(3, 2), inches(24), 1).spots
    assert (mid.x, mid.y) == (18, 12), "a single wide plant in the middle of its block"


def test_a_second_crop_stands_between_the_first() -> None:
    bed, squares = a_bed(), block(2, 1)
    carrots = place(bed, squares, inches(3), {square("A1"): 16, square("B1"): 16}).spots
    radishes = beside(bed, squares, inches(3), {square("A1"): 5, square("B1"): 5}, carrots)
    assert Counter(spot.square for spot in radishes.spots) == {square("A1"): 5, square("B1"): 5}
    assert closest(radishes.spots) >= 3 - SLACK
    assert room_at_edge(radishes.spots, squares, 12) >= 1.5 - SLACK
    between = min(dist((r.x, r.y), (c.x, c.y)) for r in radishes.spots for c in carrots)
    assert between == pytest.approx(1.5 * 2**0.5, abs=0.001), "the middle of four carrots"
    assert radishes == beside(bed, reversed(squares), inches(3), dict.fromkeys(squares, 5), reversed(carrots))


def test_a_second_crop_takes_the_free_corners_up_to_the_edge() -> None:
    bed, one = a_bed(), [square("A1")]
    diagonal = place(bed, one, inches(6), 2).spots
    guest = beside(bed, one, inches(6), 2, diagonal)
    assert [(spot.x, spot.y) for spot in guest.spots] == [(9, 3), (3, 9)]


def test_places_do_not_hang_on_the_hash_seed() -> None:
    code = (
        "from tallybed.garden.squares import Bed, Square\n"
        "from tallybed.garden.units import INCH, Length\n"
        "from tallybed.reckoning.room.spacing import most, place\n"
        "bed = Bed(name='long', title='', columns=10, rows=4, side=Length.of(12, INCH))\n"
        "shape = [Square('long', 0, 0), Square('long', 0, 1), Square('long', 1, 0)]\n"
        "print(most(bed, shape, Length.of(3, INCH)), place(bed, set(shape), Length.of(5, INCH), 7))"
    )
    out = {
        subprocess.run(
            [sys.executable, "-c", code],
            env={"PYTHONHASHSEED": seed, "PYTHONPATH": ":".join(sys.path)},
            capture_output=True,
            check=True,
            text=True,
        ).stdout
        for seed in ("0", "1", "77")
    }
    assert len(out) == 1
    assert "Spot(" in out.pop()
