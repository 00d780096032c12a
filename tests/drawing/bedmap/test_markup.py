"""The map of a bed's month: sound markup, words for those who hear it, any shape of bed."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from html import escape
from xml.etree import ElementTree as Tree

import pytest
from bs4 import BeautifulSoup

from tallybed.garden.squares import Bed, Square
from tallybed.garden.units import CENTIMETRE, Length
from tallybed.reckoning.calendar.month import BedMonth
from tests.drawing import months
from tests.drawing.bedmaps import EVERY, LINKS, TURNS, bed_map, drawn, plants, standing
from tests.drawing.markup import SVG, of_class, parsed, words

# --- markup -----------------------------------------------------------------------------------------------


@TURNS
@EVERY
def test_title_comes_first_and_then_the_description(month: BedMonth, upright: bool) -> None:
    root = drawn(month, upright=upright)
    assert [each.tag.removeprefix(SVG) for each in root[:2]] == ["title", "desc"]
    assert root.get("aria-labelledby") == root[0].get("id")
    assert root.get("aria-describedby") == root[1].get("id")
    assert root[0].text
    assert root[1].text


def test_the_description_tells_who_stands_where_in_words() -> None:
    told = parsed(bed_map(months.may(), ident="map", links={}))[1].text or ""
    assert "30 squares of a bed 10 by 3" in told
    assert "10 plantings in 26 squares" in told
    empty = parsed(bed_map(months.month_of(months.LONG, ()), ident="map", links={}))[1].text or ""
    assert "2026, nothing stands in it." in empty
    assert "A1:F1: pea (PE1), 96 plants, bearing, seen." in told
    assert "H1: broccoli (BR2), lost since 12 May, seen, cutworm." in told
    assert "B2:B3: spinach (SP2), over since 27 May, implied by other records." in told
    assert "Bare: F3." in told
    assert "Changed in A2:A3: spinach until 22 May, then bush bean from 24 May." in told
    assert "led out over side J" in told


def test_plants_that_nobody_counted_are_not_given_a_number() -> None:
    bean, holders = months.plan_row(months.LONG, "BB1", "A1", crop="bean-bush", spacing=4)
    uncounted = tuple(replace(each, plants=None) for each in holders)
    told = drawn(months.month_of(months.LONG, ((bean, uncounted),)))[1].text or ""
    assert "A1: bush bean (BB1), plants not counted, drawn at their spacing, growing, seen." in told


@pytest.mark.parametrize(("links", "role"), [(LINKS, "group"), ({}, "img"), ({"okra": "x"}, "img")])
def test_links_can_be_reached(links: dict[str, str], role: str) -> None:
    root = parsed(bed_map(months.may(), ident="map", links=links))
    assert root.get("role") == role, "an image hides the links within it"
    found = {each.get("href"): each.get("aria-label") for each in root.iter(f"{SVG}a")}
    assert set(found) == (set(LINKS.values()) if links is LINKS else set())
    assert all(found.values()), "a link must have a name"


@TURNS
@pytest.mark.parametrize("month", [months.may(), months.shared(), months.crowded(holders=2)])
def test_the_name_of_a_link_begins_with_its_crop_and_holds_what_its_tag_shows(
    month: BedMonth, upright: bool
) -> None:
    """WCAG 2.2, 2.5.3 (label in name)."""
    links = {each.crop: f"../crops/{each.crop}/" for each in month.drawn if each.crop}
    found = list(parsed(bed_map(month, ident="map", links=links, upright=upright)).iter(f"{SVG}a"))
    assert found
    crops = {each.planting: each.name for each in month.drawn}
    for each in found:
        shown, name = " ".join(words(each)), each.get("aria-label") or ""
        assert shown in name
        assert name.startswith(crops[each.get("data-planting") or ""])
        assert re.search(r", [A-Z]+\d", name), "the squares follow"


def test_the_name_of_a_link_says_crop_tag_squares_and_stage_once() -> None:
    found = parsed(bed_map(months.may(), ident="map", links=LINKS)).iter(f"{SVG}a")
    names = [each.get("aria-label") or "" for each in found]
    assert "pea PE1, A1:F1, bearing" in names


def test_what_links_say_the_description_does_not_say_again() -> None:
    told = drawn(months.may())[1].text or ""
    assert "A1:F1: pea" not in told, "its link says it"
    assert "G1: broccoli (BR1), 1 plant, growing, seen." in told, "it has no link"


def test_links_follow_each_other_square_by_square() -> None:
    month = months.may()
    links = {each.crop: f"../crops/{each.crop}/" for each in month.drawn if each.crop}
    for upright in (False, True):
        found = parsed(bed_map(month, ident="map", links=links, upright=upright)).iter(f"{SVG}a")
        names = [each.get("aria-label") or "" for each in found]
        firsts = [re.findall(r", ([A-J])(\d)", name)[0] for name in names]
        assert firsts == sorted(firsts, key=lambda place: (place[1], place[0]))
        assert len(names) > 8


def test_a_general_name_has_no_link() -> None:
    bean, holders = months.plan_row(months.LONG, "beans", "A1", crop="bean-bush", spacing=4)
    month = months.month_of(months.LONG, ((replace(bean, crop="", letters="", name="beans"), holders),))
    root = parsed(bed_map(month, ident="map", links={"": "nowhere/"}))
    assert not list(root.iter(f"{SVG}a"))
    assert "beans" in words(root)


@TURNS
@EVERY
def test_ids_are_unique_begin_with_the_ident_and_every_use_has_its_target(
    month: BedMonth, upright: bool
) -> None:
    root = drawn(month, upright=upright)
    ids = [each.get("id") for each in root.iter() if each.get("id")]
    assert len(set(ids)) == len(ids)
    assert all(str(each) == "map" or str(each).startswith("map-") for each in ids)
    targets = {each.get("href", "")[1:] for each in root.iter(f"{SVG}use")}
    targets |= {
        found for each in root.iter() for found in re.findall(r"url\(#(.+?)\)", each.get("fill") or "")
    }
    beside = {each.get("id") for each in drawn(month).iter()} if upright else set()
    assert targets <= {*ids, *beside}, "a page holds both maps, and plants are drawn in the flat one"


@TURNS
@EVERY
def test_sizes_are_sound_and_nothing_comes_from_outside(month: BedMonth, upright: bool) -> None:
    markup = bed_map(month, ident="map", links=LINKS, upright=upright)
    root = parsed(markup)
    assert len([float(each) for each in root.get("viewBox", "").split()]) == 4
    for each in root.iter():
        for name in ("width", "height", "r", "stroke-width", "font-size"):
            assert float(each.get(name, "0")) >= 0, Tree.tostring(each)
        assert each.tag.removeprefix(SVG) not in ("script", "image", "foreignObject", "style")
        assert not [name for name in each.attrib if name.startswith("on") or name == "style"]
    assert markup.startswith("<svg ")
    for forbidden in ("<?xml", "xmlns:", "xlink", "baseProfile", "version=", "http://www.w3.org/1999"):
        assert forbidden not in markup
    assert markup.count("http") == 1, "the only address is the name of SVG itself"


@TURNS
def test_the_same_month_is_the_same_bytes_again_and_in_any_order(upright: bool) -> None:
    once = bed_map(months.may(), ident="map", links=LINKS, upright=upright)
    assert bed_map(months.may(), ident="map", links=LINKS, upright=upright) == once
    shuffled = months.turned_about(months.may())
    assert bed_map(shuffled, ident="map", links=dict(reversed(LINKS.items())), upright=upright) == once


def test_the_markup_survives_inside_a_page() -> None:
    markup = bed_map(months.may(), ident="map", links=LINKS)
    soup = BeautifulSoup(f"<!DOCTYPE html><title>x</title><body>{markup}</body>", "html5lib")
    svg = soup.find("svg")
    assert svg is not None
    assert svg.get("viewBox")
    assert len(soup.select("use.plant")) == sum(standing(months.may()).values())
    assert len(soup.select("pattern")) == markup.count("<pattern ")


@pytest.mark.parametrize("name", ['Tom & "Jerry" <b>', "Ünïcödé 豆", "bell\x07ring", "x" * 200])
def test_what_people_type_cannot_break_the_markup(name: str) -> None:
    bed = replace(months.LONG, title=name)
    bean, holders = months.plan_row(months.LONG, "B", "A1", crop="bean-bush", spacing=4)
    hostile = replace(bean, name=name, variety=name, letters=name, tag=name[:9])
    root = drawn(months.month_of(bed, ((hostile, holders),)))
    assert name.replace("\x07", "") in (root[1].text or "")
    assert escape(name)


SHAPES: dict[str, Callable[[], Bed]] = {
    "one square": lambda: Bed(name="one", title="One", columns=1, rows=1),
    "one row": lambda: Bed(name="row", title="Row", columns=30, rows=1),
    "one column": lambda: Bed(name="column", title="Column", columns=1, rows=12),
    "very large": lambda: Bed(name="large", title="Large", columns=28, rows=9),
    "tiny squares": lambda: Bed(name="tiny", title="Tiny", columns=4, rows=4, side=Length.of(20, CENTIMETRE)),
    "a hole": lambda: Bed(
        name="hole", title="Hole", columns=3, rows=3, omitted=frozenset({Square("hole", 1, 1)})
    ),
    "no corner": lambda: Bed(
        name="none", title="None", columns=2, rows=2, omitted=frozenset({Square("none", 0, 0)})
    ),
}


@TURNS
@pytest.mark.parametrize("bed", [make() for make in SHAPES.values()], ids=list(SHAPES))
def test_beds_of_any_shape_are_drawn(bed: Bed, upright: bool) -> None:
    last = bed.squares[-1].label
    one = months.plan_row(bed, "SP1", last, crop="spinach", spacing=4)
    month = months.month_of(bed, (one,))
    root = drawn(month, upright=upright)
    assert len(plants(month, upright=upright)) == len(one[0].spots)
    (names,) = of_class(root, "d-names")
    assert len(names) == len({s.column for s in bed.squares}) + len({s.row for s in bed.squares})
