"""What must hold of every file of the crop library, whoever writes it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path

import pytest

import tallybed
from tallybed.garden.crops import Crop, Figure, Footing
from tallybed.garden.facts import FACTS, TEXT
from tallybed.reading.folder.library import kinds, load_library

LIBRARY = load_library()
CROPS = list(LIBRARY.crops.values())
FOLDER = Path(tallybed.__file__).parent / "library"
HARDINESS = {"very hardy", "hardy", "half-hardy", "tender", "very tender"}
DRAWN_FROM = {
    "spacing": ("intensive spacing", "block spacing in row", "row spacing in row"),
    "days from sowing": ("days to maturity",),
    "days from setting out": ("days to maturity",),
    "height on support": ("mature height",),
}
"""Facts that are used under another name than the figures they are chosen from."""
MEMORY_THOUGH_PRINTED = {
    ("arugula", "mature height"): "printed for the plant in flower",
    ("mustard-greens", "mature height"): "printed for the plant in flower",
    ("radish", "mature height"): "printed for the plant in flower",
    ("cantaloupe", "mature height"): "printed on support only",
    ("cantaloupe", "spread"): "printed on support only",
    ("squash-summer", "spread"): "printed for vines only",
    ("basil", "days from setting out"): "printed from sowing only",
}
KEYS = (
    *("slug", "name", "plural", "kind", "also", "general", "botanical name", "family", "habit", "start"),
    *("letters", "elsewhere", "used", "facts"),
)
RANGES: dict[str, tuple[Fraction | int, Fraction | int]] = {
    "in": (0, 300),
    "days": (1, 300),
    "weeks": (-30, 30),
    "months": (1, 12),
    "degF": (0, 110),
    "%": (30, 100),
    "pH": (4, 9),
    "lb/sqft": (Fraction(1, 10), 3),
}
"""Bounds outside which a figure is a slip of typing, by unit."""

each_crop = pytest.mark.parametrize("crop", CROPS, ids=lambda crop: crop.slug)


def _published(crop: Crop, fact: str) -> list[Figure]:
    figures = [figure for name in DRAWN_FROM.get(fact, (fact,)) for figure in crop.all_of(name)]
    return [figure for figure in figures if figure.source and figure.low is not None]


def _ordered(names: list[str]) -> list[str]:
    return sorted(names, key=list(FACTS).index)


def test_the_library_holds_a_garden_full_of_crops_and_no_stray_file() -> None:
    assert len(CROPS) >= 47
    assert {path.name for path in (FOLDER / "crops").iterdir()} == {f"{slug}.yaml" for slug in LIBRARY.crops}
    assert {path.name for path in FOLDER.iterdir()} == {
        "README.md",
        "benchmarks.yaml",
        "crops",
        "sources.yaml",
        "understood.json",
    }


def test_every_source_is_used_and_every_source_used_is_listed() -> None:
    used = {figure.source for crop in CROPS for figure in (*crop.figures, *crop.chosen)}
    used |= {one.source for crop in CROPS for one in crop.elsewhere}
    assert used - {""} == set(LIBRARY.sources)


def test_letters_are_unique_and_start_with_a_capital() -> None:
    letters = [crop.letters for crop in CROPS]
    assert len(set(letters)) == len(letters)
    assert all(re.fullmatch(r"[A-Z][a-z]", pair) for pair in letters)


def test_plants_of_one_genus_are_of_one_family() -> None:
    families: dict[str, str] = {}
    for crop in CROPS:
        genus = crop.botanical_name.split()[0]
        assert families.setdefault(genus, crop.family) == crop.family, f"{crop.slug} is out of its family"


@each_crop
def test_a_crop_has_what_maps_and_rotation_need(crop: Crop) -> None:
    assert re.fullmatch(r"[a-z]+(-[a-z]+)*", crop.slug)
    assert crop.spacing
    assert crop.used("spacing") is not None
    assert re.fullmatch(r"[A-Z][a-z]+aceae", crop.family)
    assert re.match(r"[A-Z][a-z]+ (× )?[a-z]+", crop.botanical_name)
    assert crop.days
    assert crop.days_from in {"sowing", "setting out"}
    assert not crop.own


@each_crop
def test_names_are_written_as_running_text_and_not_twice(crop: Crop) -> None:
    names = [crop.name, *crop.also, *crop.general]
    assert len({name.casefold() for name in names}) == len(names)
    assert not {name for name in (*crop.also, *crop.general) if name != name.casefold().strip()}


@each_crop
def test_figures_are_within_reason_and_run_upward(crop: Crop) -> None:
    for figure in (*crop.figures, *crop.chosen):
        if figure.low is None or figure.high is None:
            assert figure.text, figure
            assert figure.fact == "seed germination min" or FACTS[figure.fact] == TEXT, figure
            continue
        assert not figure.text, figure
        assert figure.low <= figure.high, figure
        low, high = map(Fraction, RANGES.get(figure.unit, (0, 10**5)))
        assert low <= figure.low <= figure.high <= high, figure


@each_crop
def test_what_a_figure_stands_on_is_said(crop: Crop) -> None:
    for figure in (*crop.figures, *crop.chosen):
        if figure.kind is Footing.PUBLISHED:
            assert figure.source in LIBRARY.sources, figure
        elif figure.kind is Footing.DERIVED:
            assert figure.note, figure
        else:
            assert figure.kind in (Footing.MEMORY, Footing.COMMON), figure
            assert not figure.source, figure
    assert all(figure.note.endswith(".") for figure in crop.chosen), "a rule is a sentence"


@each_crop
def test_a_used_value_lies_within_what_was_seen(crop: Crop) -> None:
    for used in crop.chosen:
        if used.low is None or used.high is None:
            continue
        seen = [f for name in DRAWN_FROM.get(used.fact, (used.fact,)) for f in crop.all_of(name)]
        if used.fact == "spacing":
            seen += [figure for figure in crop.all_of("plants per sqft") if used.source == figure.source]
        names = " or ".join(DRAWN_FROM.get(used.fact, (used.fact,)))
        assert seen, f"{used.fact} is used, but {names} is not among the facts of {crop.slug}"
        if used.fact == "spacing" and any(figure.unit == "plants/sqft" for figure in seen):
            continue
        lows = [figure.low for figure in seen if figure.low is not None and figure.unit == used.unit]
        highs = [figure.high for figure in seen if figure.high is not None and figure.unit == used.unit]
        slack = Fraction(5, 2) if used.fact.startswith("days from") else Fraction(0)
        assert min(lows) - slack <= used.low, used
        assert used.high <= max(highs) + slack, used


@each_crop
def test_print_goes_before_memory(crop: Crop) -> None:
    for used in crop.chosen:
        if used.kind is Footing.MEMORY and (crop.slug, used.fact) not in MEMORY_THOUGH_PRINTED:
            assert not _published(crop, used.fact), f"{used.fact} is in print"


def test_the_exceptions_to_print_before_memory_are_still_needed() -> None:
    for slug, fact in MEMORY_THOUGH_PRINTED:
        used = LIBRARY.crops[slug].used(fact)
        assert used is not None, f"{slug} no longer uses {fact}"
        assert used.kind is Footing.MEMORY, f"{fact} of {slug} is no longer from memory"
        assert _published(LIBRARY.crops[slug], fact)


@each_crop
def test_a_number_said_to_be_printed_is_printed(crop: Crop) -> None:
    for used in crop.chosen:
        if used.kind is not Footing.PUBLISHED or used.low is None or used.fact == "spring planting offset":
            continue
        printed = {
            (figure.low, figure.high)
            for figure in _published(crop, used.fact)
            if figure.source == used.source and figure.low is not None and figure.high is not None
        }
        assert any(low <= used.low <= high for low, high in printed), (
            f"{used.fact} of {crop.slug}: its facts have no such figure of {used.source}"
        )


@each_crop
def test_hardiness_is_one_of_five_words(crop: Crop) -> None:
    assert {figure.text for figure in crop.all_of("hardiness")} <= HARDINESS
    used = crop.used("hardiness")
    assert used is not None, f"{crop.slug} has no hardiness among its used values"
    assert used.text in HARDINESS


@each_crop
def test_seed_comes_up_best_between_the_coolest_and_the_warmest_soil(crop: Crop) -> None:
    coolest, best, warmest = (crop.used(f"soil temp germ {end}") for end in ("min", "opt", "max"))
    if coolest and best and warmest:
        assert coolest.low is not None
        assert best.low is not None
        assert best.high is not None
        assert warmest.high is not None
        assert coolest.low < best.low <= best.high <= warmest.high


def _worked_out() -> Iterator[tuple[str, Figure]]:
    for crop in CROPS:
        for figure in crop.all_of("yield per sqft"):
            if figure.of == "row garden":
                yield crop.slug, figure


@pytest.mark.parametrize(("slug", "figure"), list(_worked_out()), ids=lambda value: str(value)[:20])
def test_a_yield_per_square_foot_can_be_worked_out_again_from_its_note(slug: str, figure: Figure) -> None:
    # Weight ÷ ground: 10 ft of row × the distance of rows, or distance in the row × distance of rows.
    number = r"(\d+(?:\.\d+)?)(?: to (\d+(?:\.\d+)?))?"
    found = re.match(rf"{number} lb from 10 ft of row\b.*?, rows {number} in apart", figure.note)
    along = (Fraction(120), Fraction(120))
    if not found:
        found = re.match(
            rf"{number} lb from a plant, rows {number} in apart, plants {number} in", figure.note
        )
        assert found, f"{slug}: {figure.note} does not say how it was worked out"
        along = (Fraction(found[5]), Fraction(found[6] or found[5]))
    lightest, heaviest = Fraction(found[1]), Fraction(found[2] or found[1])
    narrow, wide = Fraction(found[3]), Fraction(found[4] or found[3])
    cent = Fraction(1, 200)
    assert figure.low is not None
    assert figure.high is not None
    assert abs(figure.low - lightest * 144 / (wide * along[1])) <= cent
    assert abs(figure.high - heaviest * 144 / (narrow * along[0])) <= cent
    rows = [row for row in LIBRARY.crops[slug].all_of("yield") if row.source == figure.source]
    assert rows, "the row it was worked out from is missing"


def test_figures_are_counted_by_kind() -> None:
    counted = kinds(LIBRARY)
    assert sum(counted.values()) == sum(len(crop.figures) for crop in CROPS)
    assert counted[Footing.GARDEN] == 0
    assert counted[Footing.PUBLISHED] > 10 * counted[Footing.MEMORY], (
        "most of the library must stand in print"
    )


@each_crop
def test_a_file_is_laid_out_as_its_guide_says(crop: Crop) -> None:
    text = (FOLDER / "crops" / f"{crop.slug}.yaml").read_text(encoding="utf-8")
    keys = re.findall(r"^([a-z][a-z ]*):", text, flags=re.MULTILINE)
    assert keys == [key for key in KEYS if key in keys]
    for part in (re.split(r"^used:$|^facts:$", text, flags=re.MULTILINE))[1:]:
        facts = re.findall(r"^  ([a-z][a-z ]*):", part, flags=re.MULTILINE)
        assert facts == _ordered(facts)
    assert text.endswith("\n")
    assert max(map(len, text.splitlines())) <= 110


def test_fruit_is_picked_of_these_and_of_no_others() -> None:
    """What a map draws on a bearing plant: fruit, pods or ears. From memory."""
    found = {crop.slug for crop in CROPS if crop.has_fruit}
    begin = ("bean-", "pea-", "tomato-", "squash-", "pepper-")
    also = {"cantaloupe", "cucumber", "eggplant", "okra", "pumpkin", "strawberry", "sweet-corn", "watermelon"}
    also |= {"cowpea", "edamame", "tomatillo", "ground-cherry"}
    assert {slug for slug in found if not slug.startswith(begin)} == also & {crop.slug for crop in CROPS}
    assert {crop.slug for crop in CROPS if crop.slug.startswith(begin)} <= found
