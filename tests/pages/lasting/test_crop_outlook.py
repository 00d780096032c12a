"""A crop's page: days to plant in this garden, harvest and keeping in sentences, cautions."""

from __future__ import annotations

from fractions import Fraction

import pytest
from bs4 import BeautifulSoup

from tallybed.garden.crops import Beginning, Crop, Figure, Footing, Habit
from tallybed.garden.units import INCH, Length
from tallybed.pages.care.keeping import keeping
from tests.pages.gardens import Parsed, folder, html_of, only, rows, said, written

CROPS = """\
- {new: greenleaf, family: Leafaceae, habit: rosette, start: sown, letters: Gl, spacing: 6 in, days: 40}
- {new: slowhead, family: Headaceae, habit: rosette, start: set out, letters: Sh, spacing: 12 in, days: 270}
"""


@pytest.fixture(scope="module")
def full(tmp_path_factory: pytest.TempPathFactory) -> Parsed:
    root = folder(tmp_path_factory.mktemp("garden"), plan=False, ledger=False)
    return html_of(written(root, {"crops.yaml": CROPS}))


def windows(page: BeautifulSoup) -> dict[str, str]:
    return {row[0]: row[1] for row in rows(page, "windows")}


def test_windows_lie_on_this_gardens_dates(full: Parsed) -> None:
    # Freezes about 1 May and 10 October. Broccoli of the library: 5 to 6.5 weeks indoors, out 4 to 2 weeks
    # before the one and 8.9 weeks (62 days) before the other, 65 days to harvest. Counted on a calendar.
    assert windows(full["crops/broccoli/index.html"]) == {
        "Sow indoors": "16 February to 13 March",
        "Plant in spring": "3 April to 17 April",
        "Plant for fall, at the latest": "9 August",
        "The same, counted back": "23 July",  # 65 and 14 days
        "First harvest if planted in spring": "7 June to 21 June",
        "First harvest if planted on the last of these days": "27 October",  # 65 and 14 days from 9 August
    }


def test_a_latest_day_by_days_alone_says_how_it_was_come_by(full: Parsed) -> None:
    # 10 October less 40 and 14 days is 17 August; sown then it takes 54 days, to 10 October
    assert windows(full["crops/greenleaf/index.html"]) == {
        "Sow at the latest, counted back": "17 August",
        "First harvest if sown on the last of these days": "10 October",
    }


def test_a_crop_that_stands_over_winter_has_no_count_back(full: Parsed) -> None:
    # 270 and 14 days before 10 October lie in the year before
    assert not full["crops/slowhead/index.html"].select("table#windows")


def in_short(page: BeautifulSoup) -> dict[str, str]:
    told = only(page, "dl.in-short")
    return {said(term): said(words) for term, words in zip(told.select("dt"), told.select("dd"), strict=True)}


def test_picking_and_keeping_in_sentences(full: Parsed) -> None:
    words = in_short(full["crops/potato/index.html"])["Picking, keeping"]
    assert "Signs that it is ready: vines dead, and a thumb no longer rubs the skin off." in words
    assert "Cure it for 2 weeks at 50 to 60 °F in air of 85 to 90% humidity." in words
    assert "It keeps for 5 to 8 months at 38 to 40 °F in air of 90% humidity." in words
    assert "Keep it in the dark: light turns tubers green" in words


def test_a_crop_of_which_nothing_is_known_says_nothing_of_keeping(full: Parsed) -> None:
    assert "Picking, keeping" not in in_short(full["crops/greenleaf/index.html"])


def test_every_figure_stands_folded_with_a_source_that_is_told(full: Parsed) -> None:
    page = full["crops/potato/index.html"]
    folded = only(page, "details:has(table.care)")
    assert "open" not in folded.attrs
    cited = {str(link["href"]) for link in folded.select("sup a")}
    assert cited == {f"#{item['id']}" for item in folded.select(".sources li")}
    assert not page.select("main sup a:not(details sup a)"), "nothing leads into what is folded away"


def cautions(page: BeautifulSoup) -> dict[str, str]:
    told = only(page, "section[aria-labelledby=eating] dl")
    return {said(term): said(words) for term, words in zip(told.select("dt"), told.select("dd"), strict=True)}


def test_cautions_stand_where_they_belong(full: Parsed) -> None:
    potato = cautions(full["crops/potato/index.html"])
    assert "solanine" in potato["Green potatoes"]
    assert "Michigan State University Extension" in potato["Green potatoes"]
    # Alberta Agriculture, Agdex 13349: raw ground cherries; peanuts and flowers: common practice, no source.
    ground_cherry = cautions(full["crops/ground-cherry/index.html"])
    assert "Alberta Agriculture" in ground_cherry["Unripe ground cherries"]
    assert "must not touch a peanut" in cautions(full["crops/peanut/index.html"])["Peanuts and people"]
    for flower in ("marigold", "zinnia"):
        assert "food" in cautions(full[f"crops/{flower}/index.html"])["A flower to look at"]
    tomato = cautions(full["crops/tomato-determinate/index.html"])
    assert "acid" in tomato["Canning"]
    assert "frost-killed" in tomato["Canning"]
    assert "AIB-539" in tomato["Canning"]
    lettuce = cautions(full["crops/lettuce-leaf/index.html"])
    assert "outer leaves" in lettuce["Washing"]
    assert "Canning" not in lettuce
    assert "Cut melon" in cautions(full["crops/watermelon/index.html"])
    assert "pressure" in cautions(full["crops/bean-bush/index.html"])["Canning"]
    assert list(cautions(full["crops/greenleaf/index.html"])) == ["Washing", "Raw manure"]


def test_the_wait_after_raw_manure_is_the_longer_one_for_what_grows_low(
    full: Parsed,
) -> None:
    for slug in ("carrot", "lettuce-leaf", "strawberry", "onion-bulb", "squash-winter", "radish"):
        manure = cautions(full[f"crops/{slug}/index.html"])["Raw manure"]
        assert "120 days" in manure, slug
        assert "90" not in manure, slug
    for slug in ("tomato-indeterminate", "sweet-corn", "pea-garden"):
        manure = cautions(full[f"crops/{slug}/index.html"])["Raw manure"]
        assert "120 days" in manure, slug
        assert "90 days" in manure, slug


def crop(*chosen: Figure, figures: tuple[Figure, ...] = ()) -> Crop:
    return Crop(
        slug="x",
        name="x",
        plural="xs",
        family="Xaceae",
        habit=Habit.ROOT,
        start=Beginning.SOWN,
        letters="Xx",
        spacing=Length.of(3, INCH),
        chosen=chosen,
        figures=figures,
    )


def figure(
    fact: str, low: int, high: int, unit: str, source: str = "", kind: Footing = Footing.PUBLISHED
) -> Figure:
    return Figure(fact=fact, low=Fraction(low), high=Fraction(high), unit=unit, source=source, kind=kind)


@pytest.mark.parametrize(
    ("one", "words", "origins"),
    [
        (crop(figure("storage temp", 32, 32, "degF", "a")), "Keep it at 32 °F.", ()),
        (
            crop(
                figure("storage life", 1, 1, "weeks", "a"),
                figure("storage rh", 90, 95, "%", "b"),
            ),
            "It keeps for 1 week in air of 90 to 95% humidity.",
            (),
        ),
        (
            crop(figure("curing time", 1, 2, "weeks", kind=Footing.MEMORY)),
            "Cure it for 1 to 2 weeks.",
            ("from memory",),
        ),
        (
            crop(figures=(Figure(fact="storage note", text="never chilled", kind=Footing.COMMON),)),
            "Never chilled.",
            ("common practice, no source",),
        ),
    ],
)
def test_sentences_are_made_from_what_is_known(one: Crop, words: str, origins: tuple[str, ...]) -> None:
    (made,) = keeping(one)
    assert (made.words, made.origins) == (words, origins)


def test_time_indoors_is_told_in_plain_words(full: Parsed) -> None:
    care = said(only(full["crops/broccoli/index.html"], "section[aria-labelledby=figures]"))
    assert "Time indoors before it is set out" in care
    assert "8 to 9 weeks" in care
    units = said(only(full["crops/sweet-corn/index.html"], "section[aria-labelledby=figures]"))
    assert "ears from 10 ft of row" in units
    assert "/10ft" not in units
    assert "/100ft" not in units
