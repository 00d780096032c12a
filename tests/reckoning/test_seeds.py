"""What a plan needs before it begins: worked values, the published rates, and laws of the reckoning."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tallybed.garden.crops import Footing, Variety
from tallybed.garden.garden import Garden
from tallybed.garden.records.plan import PlanRow, Start
from tallybed.garden.squares import Bed, Square, Trellis
from tallybed.garden.units import FOOT, INCH, Length
from tallybed.reading.folder.library import load_library
from tallybed.reckoning.seeds import ALLOWANCE, Need, by_crop, needs, seeds_for
from tests.reckoning.growing import plan_row, season, squares

LIBRARY = load_library()


def garden(**varieties: Variety) -> Garden:
    crops = dict(LIBRARY.crops)
    for slug, variety in varieties.items():
        crops[slug] = replace(crops[slug], varieties=(variety,))
    trellis = Trellis(side="1", squares=squares("A1 B1"), height=Length.of(6, FOOT))
    bed = Bed(name="b", title="b", columns=6, rows=4, trellises=(trellis,))
    return Garden(name="g", beds=(bed,), crops=tuple(crops.values()))


def needed(*plan: PlanRow, allowance: Fraction = Fraction(0), **varieties: Variety) -> tuple[Need, ...]:
    return needs(garden(**varieties), season(list(plan)), allowance)


@pytest.mark.parametrize(
    ("plants", "percent", "seeds"),
    [
        # Ceiling of plants over rate in exact fractions; the rates are minimums of 7 CFR 201.31.
        (16, 55, 30),  # carrot
        (9, 70, 13),  # bean
        (4, 80, 5),  # lettuce
        (1, 75, 2),  # tomato
        (16, 75, 22),  # radish
        (9, 65, 14),  # beet
    ],
)
def test_seeds_to_sow(plants: int, percent: int, seeds: int) -> None:
    assert seeds_for(plants, Fraction(percent, 100)) == seeds


@pytest.mark.parametrize(
    ("crop", "percent"),
    [
        # 7 CFR 201.31, "Germination standards for vegetable seeds in interstate commerce".
        *(("bean-bush", 70), ("beet", 65), ("broccoli", 75), ("cabbage", 75), ("carrot", 55), ("chard", 65)),
        *(("sweet-corn", 75), ("cucumber", 80), ("eggplant", 60), ("kale", 75), ("leek", 60), ("okra", 50)),
        *(("lettuce-leaf", 80), ("cantaloupe", 75), ("onion-bunching", 70), ("parsley", 60)),
        *(("parsnip", 60), ("pea-garden", 80), ("pepper-sweet", 55), ("pumpkin", 75), ("radish", 75)),
        *(("spinach", 60), ("squash-winter", 75), ("tomato-determinate", 75), ("turnip", 80)),
    ],
)
def test_the_rates_are_those_of_the_federal_standard(crop: str, percent: int) -> None:
    (need,) = needed(plan_row(crop, "A1", "May 1", plants=100, start=Start.SET_OUT, indoors="Mar 1"))
    assert need.germination is not None
    assert (need.germination.low, need.germination.source) == (Fraction(percent), "cfr7-201-31")
    assert need.seeds == -(-100 * 100 // percent)


@given(
    plants=st.integers(1, 10_000),
    rate=st.fractions(Fraction(1, 100), 1),
    allowance=st.fractions(0, 1),
)
def test_seeds_times_rate_are_plants_enough_and_one_seed_less_is_not(
    plants: int, rate: Fraction, allowance: Fraction
) -> None:
    seeds = seeds_for(plants, rate, allowance)
    assert seeds * rate >= plants * (1 + allowance)
    assert (seeds - 1) * rate < plants * (1 + allowance)


@pytest.mark.parametrize("rate", [Fraction(0), Fraction(-1, 2), Fraction(101, 100)])
def test_a_rate_that_cannot_be_is_refused(rate: Fraction) -> None:
    with pytest.raises(ValueError, match="germination"):
        seeds_for(9, rate)


def test_the_allowance_is_a_tenth_over() -> None:
    # 16 carrots at 55 %: 29.09 seeds; a tenth more 32.0 exactly, so 32 and not 33.
    assert seeds_for(16, Fraction(55, 100), ALLOWANCE) == 32
    assert seeds_for(100, Fraction(1), ALLOWANCE) == 110


def test_the_packets_own_rate_stands_before_the_library() -> None:
    plan = plan_row("carrot", "A2", "Apr 5", variety="Own", plants=16)
    own = Variety(name="Own", germination=Fraction(80, 100), source="the packet, 2026")
    (need,) = needed(plan, carrot=own)
    assert need.seeds == 20
    assert need.germination is not None
    assert (need.germination.kind, need.germination.note) == (Footing.GARDEN, "the packet, 2026")
    (other,) = needed(replace(plan, variety="Another"), carrot=own)
    assert other.seeds == 30


def test_without_a_count_as_many_as_keep_the_spacing_and_a_share_of_them() -> None:
    (whole,) = needed(plan_row("bean-bush", "A2", "May 20"))
    assert (whole.told, whole.plants) == (False, 9)  # 4 in apart: nine in a one-foot square
    (third,) = needed(plan_row("bean-bush", "A2", "May 20", share="1/3"))
    assert third.plants == 3
    (least,) = needed(plan_row("bean-bush", "A2", "May 20", share="1/20"))
    assert least.plants == 1


def test_what_does_not_begin_as_seed_needs_none() -> None:
    found = needed(
        plan_row("garlic", "A2", "Oct 10", plants=9),
        plan_row("potato", "B2", "Apr 11", start=Start.SET_OUT, plants=1),
        plan_row("onion-bulb", "C2", "Apr 4", start=Start.SET_OUT, plants=9),
        plan_row("lettuce-leaf", "D2", "Apr 20", start=Start.SET_OUT, plants=4),
        plan_row("lettuce-leaf", "E2", "Apr 25", start=Start.SET_OUT, indoors="Mar 20", plants=4),
    )
    assert [(need.crop, need.begins_as, need.seeds) for need in found] == [
        ("lettuce-leaf", "seed", 5),  # sown indoors on 20 March: the first job of all
        ("onion-bulb", "sets", None),
        ("potato", "tubers", None),
        ("lettuce-leaf", "plants", None),
        ("garlic", "cloves", None),
    ]
    assert all(need.germination is None for need in found if need.begins_as != "seed")


def test_onions_that_are_sown_begin_as_seed_and_those_set_out_as_sets() -> None:
    """Else a bag of sets is bought for a row that is to be sown (7 CFR 201.31: 70 % of seed comes up)."""
    found = needed(
        plan_row("onion-bulb", "A2", "Apr 1", start=Start.SOW, plants=70),
        plan_row("shallot", "B2", "Apr 2", start=Start.SOW, plants=4),
        plan_row("shallot", "C2", "Apr 3", start=Start.SET_OUT, plants=4),
        plan_row("sweet-potato", "D2", "May 20", start=Start.SOW, plants=1),
    )
    assert [(need.begins_as, need.seeds) for need in found] == [
        ("seed", 100),
        ("seed", None),  # no rate is known of shallots
        ("sets", None),
        ("slips", None),
    ]


def test_dropped_and_carried_plantings_need_nothing() -> None:
    assert (
        needed(
            plan_row("okra", "A2", "May 20", dropped="May 28"),
            plan_row("garlic", "B2", "Mar 1", start=Start.CARRIED),
        )
        == ()
    )


def test_climbers_take_trellis_and_tall_plants_without_one_a_stake() -> None:
    peas, at_trellis, apart = needed(
        plan_row("pea-snap", "A1 B1 C1", "Mar 24", plants=27),
        plan_row("tomato-indeterminate", "A1 A2", "May 12", start=Start.SET_OUT, plants=1),
        plan_row("tomato-indeterminate", "E3 E4", "May 13", start=Start.SET_OUT, plants=2),
    )
    assert (peas.trellis, peas.stakes) == (Length.of(2, FOOT), 0), "C1 has no trellis"
    assert (at_trellis.trellis, at_trellis.stakes) == (Length.of(1, FOOT), 0)
    assert (apart.trellis, apart.stakes) == (Length(), 2)


def test_a_planting_in_two_beds_needs_what_each_of_them_holds() -> None:
    """Fails where the bed of its first square stands for all: 36 carrots, and 3 ft of trellis."""
    other = Bed(name="o", title="o", columns=2, rows=2, side=Length.of(18, INCH))
    trellis = Trellis(side="1", squares=other.along("1"), height=Length.of(6, FOOT))
    both = garden()
    both = replace(both, beds=(*both.beds, replace(other, trellises=(trellis,))))
    carrot = plan_row("carrot", "D1", "May 20")
    bean = plan_row("bean-pole", "A1", "May 20")
    plan = [
        replace(carrot, squares=(Square("o", 0, 1), *carrot.squares)),
        replace(bean, squares=(*other.along("1"), *bean.squares)),
    ]
    beans, carrots = needs(both, season(plan), Fraction(0))
    assert carrots.plants == 36 + 16, "3 in apart: six rows of six in 18 in, four of four in 12 in"
    assert beans.trellis == Length.of(4, FOOT)


def test_the_sum_of_a_crop_is_the_sum_of_its_plantings() -> None:
    found = needed(
        plan_row("lettuce-leaf", "A2", "Apr 7", plants=4),
        plan_row("lettuce-leaf", "B2", "Aug 8", plants=9),
        plan_row("lettuce-leaf", "C2", "Apr 14", start=Start.SET_OUT, plants=4),
    )
    (lettuce,) = by_crop(found)
    # 4 at 80 % are 5 seeds, 9 are 12 (11.25); each is sown by itself, so 17
    assert (lettuce.plantings, lettuce.plants, lettuce.seeds) == (3, 17, 17)
    assert lettuce.others == (("plants", 4),)
    assert (lettuce.first.month, lettuce.first.day) == (4, 7)


def test_a_crop_of_which_no_rate_is_known_says_so() -> None:
    crops = dict(LIBRARY.crops)
    bare = replace(crops["carrot"], chosen=())
    own = Garden(name="g", beds=(Bed(name="b", title="b", columns=2, rows=2),), crops=(bare,))
    (need,) = needs(own, season([plan_row("carrot", "A1", "Apr 5", plants=16)]))
    assert (need.seeds, need.germination, need.begins_as) == (None, None, "seed")
    (together,) = by_crop([need])
    assert (together.seeds, together.unknown) == (0, 16)


@given(st.lists(st.tuples(st.sampled_from(["carrot", "beet", "garlic"]), st.integers(1, 40)), max_size=8))
def test_nothing_is_lost_in_the_sums(rows: list[tuple[str, int]]) -> None:
    found = needed(*(plan_row(crop, "A2", "May 5", plants=plants) for crop, plants in rows))
    together = by_crop(found)
    assert [one.crop for one in together] == sorted({crop for crop, _plants in rows})
    assert sum(one.plants for one in together) == sum(plants for _crop, plants in rows)
    assert sum(one.seeds for one in together) == sum(need.seeds or 0 for need in found)
    assert sum(one.plantings for one in together) == len(rows)


def test_inches_keep_their_size_in_the_sums() -> None:
    found = needed(
        plan_row("pea-snap", "A1", "Mar 24", plants=9), plan_row("cucumber", "B1", "May 20", plants=1)
    )
    assert [one.trellis for one in by_crop(found)] == [Length.of(12, INCH), Length.of(12, INCH)]
