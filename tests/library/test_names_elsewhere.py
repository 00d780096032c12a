"""What crops are called in other countries: each name means one crop, wherever the garden is."""

from __future__ import annotations

import re

import pytest

from tallybed.garden.crops import Crop
from tallybed.garden.naming import Names, as_called_in
from tallybed.reading.folder.library import load_library
from tests.tools import ROOT

LIBRARY = load_library()
REGIONS = sorted(
    {region for crop in LIBRARY.crops.values() for one in crop.elsewhere for region in one.regions}
)
RENAMED = [crop for crop in LIBRARY.crops.values() if crop.elsewhere]

each_region = pytest.mark.parametrize("region", REGIONS)
each_renamed = pytest.mark.parametrize("crop", RENAMED, ids=lambda crop: crop.slug)


def called_in(region: str) -> list[Crop]:
    return [as_called_in(crop, region) for crop in LIBRARY.crops.values()]


def test_the_guide_names_every_country_that_has_its_own_names() -> None:
    text = (ROOT / "docs" / "files.md").read_text(encoding="utf-8")
    told = text.partition("### What a crop is called")[2].partition("###")[0]
    assert sorted(re.findall(r"`en-([A-Z]{2})`", told)) == REGIONS


@each_region
def test_a_name_means_the_same_crops_in_every_country(region: str) -> None:
    """Fails where a country's name is a general name, or one that another crop has."""
    assert Names.of(called_in(region)).meanings == LIBRARY.names.meanings


@each_region
def test_no_two_crops_of_a_country_are_shown_alike(region: str) -> None:
    crops = called_in(region)
    for shown in ("letters", "name", "plural", "listed", "listed_one"):
        assert len({getattr(crop, shown).casefold() for crop in crops}) == len(crops), shown


@each_region
def test_a_crop_keeps_all_but_its_name(region: str) -> None:
    for crop, before in zip(called_in(region), LIBRARY.crops.values(), strict=True):
        names = {before.name, before.plural, crop.name, crop.plural, *before.also}
        kept = {name.casefold() for name in (crop.name, crop.plural, *crop.also)}
        assert kept == {name.casefold() for name in names}
        assert (crop.slug, crop.family, crop.figures) == (before.slug, before.family, before.figures)


@each_renamed
def test_a_country_has_one_name_and_another_one_than_the_librarys_own(crop: Crop) -> None:
    regions = [region for one in crop.elsewhere for region in one.regions]
    assert len(set(regions)) == len(regions)
    assert all(re.fullmatch("[A-Z]{2}", region) for region in regions)
    assert all(list(one.regions) == sorted(one.regions) for one in crop.elsewhere)
    assert crop.name not in {one.name for one in crop.elsewhere}


@each_renamed
def test_what_is_written_for_a_crop_means_it_alone_in_every_garden(crop: Crop) -> None:
    assert crop.written == crop.slug
    for one in crop.elsewhere:
        there = as_called_in(crop, one.regions[0])
        assert (there.name, there.written) == (one.name, one.name)
        assert LIBRARY.names.find(there.written) == LIBRARY.names.find(there.plural) == (crop.slug,)
