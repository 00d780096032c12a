"""Names that people type find the crops they can mean."""

from __future__ import annotations

import random
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tallybed.garden.crops import Beginning, Crop, Habit, Variety
from tallybed.garden.naming import Names, folded, nearest, nearest_few, usual_kind, variety_of
from tallybed.garden.records.ledger import one_place
from tallybed.garden.units import INCH, Length
from tallybed.reading.folder.library import load_library

LIBRARY = load_library()
NAMES = Names.of(LIBRARY.crops.values())

# What a gardener types, and what it can mean. Common English names; botanical sense checked by hand.
TYPED = [
    ("arugula", "arugula"),
    ("Rocket", "arugula"),
    ("basil", "basil"),
    ("bush bean", "bean-bush"),
    ("Bush  Beans", "bean-bush"),
    ("bean-bush", "bean-bush"),
    ("bean bush", "bean-bush"),
    ("pole beans", "bean-pole"),
    ("beans", "bean-bush bean-lima bean-pole bean-runner"),
    ("bean", "bean-bush bean-lima bean-pole bean-runner"),
    ("green beans", "bean-bush bean-pole"),
    ("beetroot", "beet"),
    ("broccoli", "broccoli"),
    ("Brussels sprouts", "brussels-sprouts"),
    ("brussel sprouts", "brussels-sprouts"),
    ("cabbage", "cabbage"),
    ("cabbages", "cabbage"),
    ("napa cabbage", "chinese-cabbage"),
    ("muskmelon", "cantaloupe"),
    ("cantaloupes", "cantaloupe"),
    ("melon", "cantaloupe watermelon"),
    ("carrots", "carrot"),
    ("Swiss chard", "chard"),
    ("swiss-chard", "chard"),
    ("collard greens", "collards"),
    ("greens", "chard collards kale mustard-greens"),
    ("cukes", "cucumber"),
    ("aubergine", "eggplant"),
    ("garlic", "garlic"),
    ("kohlrabi", "kohlrabi"),
    ("leeks", "leek"),
    ("lettuce", "lettuce-head lettuce-leaf"),
    ("romaine", "lettuce-head"),
    ("leaf lettuce", "lettuce-leaf"),
    ("loose-leaf lettuce", "lettuce-leaf"),
    ("mustard", "mustard-greens"),
    ("lady’s fingers", "okra"),
    ("onions", "onion-bulb onion-bunching"),
    ("onion sets", "onion-bulb"),
    ("onion-green", "onion-bunching"),
    ("scallions", "onion-bunching"),
    ("spring onion", "onion-bunching"),
    ("peas", "pea-garden pea-snap pea-snow"),
    ("english peas", "pea-garden"),
    ("sugar snaps", "pea-snap"),
    ("bell peppers", "pepper-sweet"),
    ("pepper", "pepper-sweet"),
    ("potatoes", "potato"),
    ("radishes", "radish"),
    ("swede", "rutabaga"),
    ("squash", "squash-summer squash-winter"),
    ("zucchini", "squash-summer"),
    ("courgettes", "squash-summer"),
    ("butternut squash", "squash-winter"),
    ("corn", "sweet-corn"),
    ("sweetcorn", "sweet-corn"),
    ("sweet potatoes", "sweet-potato"),
    ("tomato", "tomato-determinate tomato-indeterminate"),
    ("bush tomatoes", "tomato-determinate"),
    ("cherry tomato", "tomato-determinate tomato-indeterminate"),
    ("watermelons", "watermelon"),
    ("quinoa", ""),
    ("", ""),
]


@pytest.mark.parametrize(("typed", "slugs"), TYPED)
def test_a_typed_name_finds_its_crops(typed: str, slugs: str) -> None:
    assert " ".join(NAMES.find(typed)) == slugs


@pytest.mark.parametrize(
    ("typed", "nearest"),
    [
        ("tomatos", "tomatoes"),
        ("brocolli", "broccoli"),
        ("spinnach", "spinach"),
        ("zuchini", "zucchini"),
        ("raddish", "radish"),
        ("Carot", "carrot"),
        ("califlower", "cauliflower"),
        ("kael", "kale"),
        ("leak", "leek"),
        ("letice", "lettuce"),
        ("xyzzy", ""),
        # other plants, and no slip of the pen
        ("hyacinths", ""),
        ("roselle", ""),
        ("currant", ""),
        ("tulip", ""),
        ("raspberry", ""),
        # other plants of as many words, of which but one is like
        *(
            (name, "")
            for name in ("yardlong beans", "velvet beans", "english spinach", "garlic chives", "green grass")
        ),
        ("brussel sprowts", "brussel sprouts"),
        # of a short word one letter is a third
        ("snow pee", "snow pea"),
        ("snap pee", "snap pea"),
        ("buternut squash", "butternut squash"),
    ],
)
def test_a_slip_of_the_pen_is_offered_the_nearest_name(typed: str, nearest: str) -> None:
    assert NAMES.nearest(typed) == nearest


def test_every_crop_is_found_by_name_plural_and_slug() -> None:
    for crop in LIBRARY.crops.values():
        for name in (crop.slug, crop.slug.replace("-", " "), crop.name, crop.plural):
            assert NAMES.find(name) == (crop.slug,), f"{name} must mean {crop.slug} and nothing else"


def test_a_name_given_as_one_crops_own_means_that_crop_alone() -> None:
    for crop in LIBRARY.crops.values():
        for name in crop.also:
            assert NAMES.find(name) == (crop.slug,), f"{name} is listed for {crop.slug}, but means more"


@pytest.mark.parametrize(
    ("names", "slugs"),
    [
        ("snow peas, mangetout, mange-tout, sugar peas", "pea-snow"),
        ("mielies, mealies, green mealies", "sweet-corn"),
        ("ladies fingers, lady's-fingers, ladyfingers, bhindi", "okra"),
        ("wombok, Chinese leaves", "chinese-cabbage"),
        ("patty pans, crooknecks", "squash-summer"),
        ("spaghetti squash, butternut squashes", "squash-winter"),
        ("spring-onions, salad onions", "onion-bunching"),
        ("red onions, brown onion", "onion-bulb"),
        ("kohl-rabi", "kohlrabi"),
        ("spinach beet, perpetual spinach", "chard"),
        ("cavolo nero", "kale"),
        ("savoys, spring cabbage", "cabbage"),
        ("tattie", "potato"),
        ("rock melon", "cantaloupe"),
        ("faba, broadbeans", "bean-broad"),
        ("haricot beans, haricots verts, roma beans", "bean-bush bean-pole"),
        ("plum tomatoes, cherry toms", "tomato-determinate tomato-indeterminate"),
    ],
)
def test_names_of_other_countries_and_of_the_market_are_known(names: str, slugs: str) -> None:
    """From memory, but mangetout, which the table of soil pH in the library has for snap peas."""
    assert {" ".join(NAMES.find(name)) for name in names.split(", ")} == {slugs}


@given(name=st.sampled_from(sorted(NAMES.meanings)), salt=st.integers(min_value=0))
def test_capitals_and_spaces_make_no_difference(name: str, salt: int) -> None:
    chance = random.Random(salt)
    typed = "".join(chance.choice((letter.upper(), letter)) for letter in name)
    typed = "  " + typed.replace(" ", "   ") + " "
    assert NAMES.find(typed) == NAMES.meanings[name]


@given(st.text(max_size=30))
def test_any_text_at_all_gets_an_answer_that_is_known(text: str) -> None:
    assert NAMES.nearest(text) in {"", *NAMES.meanings}
    assert set(NAMES.find(text)) <= set(LIBRARY.crops)


def _crop(slug: str, *, also: tuple[str, ...] = (), general: tuple[str, ...] = ()) -> Crop:
    return Crop(
        slug=slug,
        name=slug,
        plural=f"{slug}s",
        also=also,
        general=general,
        family="Apiaceae",
        habit=Habit.ROOT,
        start=Beginning.SOWN,
        letters="Xx",
        spacing=Length.of(1, INCH),
    )


def test_a_crops_own_name_wins_over_another_crops_other_name_and_that_over_a_general_one() -> None:
    crops = [
        _crop("skirret", also=("crummock",), general=("root",)),
        _crop("crummock", general=("root",)),
        _crop("scorzonera", also=("root",)),
    ]
    index = Names.of(crops)
    assert index.find("crummock") == ("crummock",)
    assert index.find("root") == ("scorzonera",)


def test_the_other_names_of_a_gardens_own_crop_have_plurals_too() -> None:
    """Each reads as the crop; where the plural is another crop's own name, it stays that one's."""
    cowpea = replace(_crop("cowpea", also=("field pea", "crowder"), general=("pea",)), own=True)
    index = Names.of([cowpea, _crop("crowders"), _crop("snap", general=("pea", "peas"))])
    assert index.find("field peas") == ("cowpea",)
    assert index.find("crowders") == ("crowders",)
    assert index.find("peas") == ("cowpea", "snap")


def test_the_index_does_not_depend_on_the_order_of_the_crops() -> None:
    crops = list(LIBRARY.crops.values())
    assert list(Names.of(crops).meanings.items()) == list(Names.of(crops[::-1]).meanings.items())


def test_names_are_indexed_without_capitals_and_with_single_spaces() -> None:
    assert all(name == folded(name) for name in NAMES.meanings)
    assert list(NAMES.meanings) == sorted(NAMES.meanings)


def test_the_nearest_names_are_told_as_they_are_written() -> None:
    known = ["Marigold", "marjoram", "Mint"]
    assert nearest("marigolds", known) == "Marigold"
    assert nearest("MINT", known) == "Mint"
    assert nearest("zzz", known) == ""
    assert nearest_few("marjorame", known, 2)[0] == "marjoram"
    assert nearest_few("m" * 100_000, known, 3) == ()


def test_a_variety_is_found_however_it_is_typed() -> None:
    amber = Variety(name="Amber Queen", spacing=Length.of(3, INCH))
    crop = replace(_crop("skirret"), varieties=(amber,))
    for typed in ("Amber Queen", "amber queen", " AMBER  queen"):
        assert variety_of(crop, typed) is amber
    assert variety_of(crop, "amber") is None
    assert variety_of(crop, "") is None


def test_every_crop_stands_in_lists_under_its_everyday_name_with_the_kind_after() -> None:
    # The library's short names say the everyday name first too: pea-snap, squash-winter. Corn is sweet corn
    # to whoever types it, and under C to whoever looks for it (common practice, no source).
    kinds = {slug: crop for slug, crop in LIBRARY.crops.items() if crop.kind}
    for slug, crop in kinds.items():
        assert crop.name == f"{crop.kind} {crop.listed_one.split(', ')[0]}", slug
        assert crop.plural == f"{crop.kind} {crop.everyday}", slug
        assert crop.listed == f"{crop.everyday}, {crop.kind}", slug
        word, _hyphen, kind = slug.partition("-")
        if slug != "sweet-corn":
            assert crop.everyday.startswith(word), f"{slug} must be looked for under {word}"
            assert crop.kind == kind, slug
    for slug, crop in LIBRARY.crops.items():
        if slug not in kinds:
            assert (crop.listed, crop.listed_one) == (crop.plural, crop.name), slug


def test_names_that_crops_share_are_told_apart_by_their_kinds() -> None:
    by_name: dict[str, list[Crop]] = {}
    for crop in LIBRARY.crops.values():
        by_name.setdefault(crop.everyday, []).append(crop)
    assert {name for name, own in by_name.items() if len(own) > 1} == {
        *("beans", "lettuce", "onions", "peas", "peppers", "squash", "tomatoes")
    }
    for own in by_name.values():
        assert len({crop.listed for crop in own}) == len(own)
        assert len(own) == 1 or all(crop.kind for crop in own)


@pytest.mark.parametrize(
    ("slug", "listed", "one"),
    [
        ("tomato-indeterminate", "tomatoes, indeterminate", "tomato, indeterminate"),
        ("bean-broad", "beans, broad", "bean, broad"),
        ("lettuce-leaf", "lettuce, leaf", "lettuce, leaf"),
        ("sweet-corn", "corn, sweet", "corn, sweet"),
        ("sweet-potato", "sweet potatoes", "sweet potato"),
        ("chinese-cabbage", "Chinese cabbages", "Chinese cabbage"),
        ("brussels-sprouts", "Brussels sprouts", "Brussels sprouts"),
    ],
)
def test_what_a_crop_is_called_in_lists(slug: str, listed: str, one: str) -> None:
    crop = LIBRARY.crops[slug]
    assert (crop.listed, crop.listed_one) == (listed, one)


@pytest.mark.parametrize(
    ("name", "plural", "kind"),
    [
        ("runner bean", "runner beans", "runner"),
        ("Lima bean", "Lima beans", "Lima"),
        ("hot pepper", "hot peppers", "hot"),
        ("Egyptian walking onion", "Egyptian walking onions", "Egyptian walking"),
        ("ground cherry", "ground cherries", ""),
        ("sea kale", "sea kale", ""),
        ("bean", "beans", ""),
        ("runner bean", "runners", ""),
        ("skirret", "skirrets", ""),
    ],
)
def test_a_crop_of_the_gardens_own_has_the_kind_that_its_name_says(name: str, plural: str, kind: str) -> None:
    assert usual_kind(name, plural, LIBRARY.crops.values()) == kind


def test_an_accent_is_part_of_its_letter_however_it_is_written() -> None:
    apart, together = "Pin\u0303a Bean", "Pi\u00f1a Bean"
    own = replace(LIBRARY.crops["bean-bush"], slug="pina-bean", name=apart, plural=f"{apart}s", own=True)
    assert Names.of([own]).find(together) == ("pina-bean",)
    assert one_place(f"the {apart}") == one_place(together)
