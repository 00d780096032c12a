"""The picture shown with a season's address: what is on it, whatever the garden is called."""

from __future__ import annotations

import calendar
import os
import subprocess
import sys
from dataclasses import replace
from datetime import date, timedelta
from fractions import Fraction
from hashlib import sha256
from io import BytesIO
from itertools import pairwise
from pathlib import Path

import pytest
from PIL import Image

from tallybed.pages.files.card import Card
from tallybed.pages.files.season_card import cards
from tallybed.pictures.share_cards import can_show, drawn
from tests.pages.gardens import folder, site_of
from tests.tools import ROOT

PAPER = (245, 248, 250)
TWINE = (165, 135, 90)
CARD = Card(
    path="2026/card.png",
    garden="Two Plank Garden",
    place="Harrowgate Lane",
    season="Season 2026",
    before="at least",
    number="42.4",
    unit="lb",
    lines=(
        "picked in all",
        "at least 1.40 lb per sq ft of the squares",
        "40 pickings of 12 kinds of produce",
    ),
    bars=(Fraction(1), Fraction(1, 2), Fraction(0), None),
    months=(("Mar", 0), ("Apr", 2)),
)

HALVED = replace(CARD, halved=True)


def opened(card: Card) -> Image.Image:
    return Image.open(BytesIO(drawn(card))).convert("RGB")


def test_the_card_tells_the_ledger(tmp_path: Path) -> None:
    (card,) = cards(site_of(folder(tmp_path)).own[0])
    # 1 lb 8 oz, about 8 oz, 6 oz: 38 oz; one picking not weighed; 8 + 8 squares of one foot.
    assert (card.before, card.number, card.unit) == ("at least", "2.4", "lb")
    assert card.lines == (
        "picked as of 20 May 2026",
        "at least 0.15 lb per sq ft of the squares",
        "4 pickings of 2 kinds of produce",  # radish and spinach; a mixed bowl is no kind of its own
    )
    # ISO weeks from that of 1 March (a Sunday: week 9) to that of 31 October (week 44).
    assert len(card.bars) == 36
    monday = date.fromisocalendar(2026, 9, 1)
    shown = {monday + timedelta(weeks=place): part for place, part in enumerate(card.bars) if part}
    # 10 May lies in the week from 4 May (24 oz), 16 and 20 May in those from 11 (8 oz) and 18 May (6 oz).
    assert shown == {
        date(2026, 5, 4): Fraction(1),
        date(2026, 5, 11): Fraction(1, 3),
        date(2026, 5, 18): Fraction(1, 4),
    }
    assert [place for place, part in enumerate(card.bars) if part is None] == list(range(13, 36)), (
        "20 May lies in week 21"
    )
    assert card.months[0] == ("Mar", 0)
    assert card.months[-1] == ("Oct", 31), "1 October 2026 lies in week 40"


def test_bars_stand_as_high_as_their_weeks() -> None:
    image = opened(CARD)
    step = (1200 - 2 * 72) / 4
    heights = []
    for number in range(4):
        x = round(72 + (number + 0.5) * step)
        heights.append(sum(image.getpixel((x, y)) == TWINE for y in range(430, 560)))
    assert heights[0] == pytest.approx(2 * heights[1], abs=3)
    assert heights[0] > 80
    assert heights[2:] == [0, 0]


@pytest.mark.parametrize(
    "name",
    [
        "",
        "G",
        "Ω Кузня Ñandú",
        "W" * 200,
        "The Quite Long Name of a Garden behind the Old Hall " * 4,
        "花園",
        "a\u200d",
    ],
)
def test_any_name_leaves_the_edge_of_the_picture_clear(name: str) -> None:
    image = opened(replace(CARD, garden=name, place=name, number="12345.6"))
    for x in (0, 20, 40, 1160, 1180, 1199):
        assert {image.getpixel((x, y)) for y in range(630)} == {PAPER}, f"something stands at {x}"


def test_a_script_without_letters_here_leaves_its_place_empty() -> None:
    assert can_show("Two Plank Garden, Nº 5 – Ağaç Кузня")
    assert not can_show("花園")
    assert drawn(replace(CARD, garden="花園")) == drawn(replace(CARD, garden=""))


@pytest.mark.parametrize("halved", [False, True])
def test_the_same_card_is_the_same_file_in_another_process(halved: bool) -> None:
    code = (
        "from hashlib import sha256; from tests.pictures.test_share_cards import CARD, HALVED;"
        "from tallybed.pictures.share_cards import drawn;"
        f"print(sha256(drawn({'HALVED' if halved else 'CARD'})).hexdigest())"
    )
    done = subprocess.run(
        [sys.executable, "-c", code],
        env={**os.environ, "PYTHONHASHSEED": "7", "TZ": "Asia/Tokyo", "LC_ALL": "C"},
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=True,
    )
    assert done.stdout.strip() == sha256(drawn(HALVED if halved else CARD)).hexdigest()


def test_pictures_stay_small() -> None:
    assert len(drawn(CARD)) < 60_000
    assert all(later[1] > earlier[1] for earlier, later in pairwise(CARD.months))


def test_a_halved_picture_shows_the_same_at_half_the_size() -> None:
    whole, half = opened(CARD), opened(HALVED)
    assert (whole.size, half.size) == ((1200, 630), (600, 315))
    small = whole.reduce(2)
    apart = [
        max(abs(one - other) for one, other in zip(small.getpixel(at), half.getpixel(at), strict=True))
        for at in ((x, y) for x in range(0, 600, 3) for y in range(0, 315, 3))
    ]
    # Nearest of five shades from paper to ink: at most an eighth of the way off, of some 225 steps.
    assert max(apart) <= 60
    assert sum(apart) / len(apart) < 3


def test_a_halved_picture_is_a_small_file_with_nothing_else_in_it() -> None:
    """There is one a week. Chunks: W3C, Portable Network Graphics, third edition, 5.6."""
    longest = replace(
        HALVED,
        garden="The Demonstration Gardens of Wexcombe Quay",
        place="Behind the Old Waterworks, Wexcombe Quay",
        season="Week 31 of 2026",
        number="1234.5",
        lines=(
            "in 49 pickings, 28 September to 4 October",
            "most indeterminate tomatoes, 123.4 lb",
            "season so far at least 2345.6 lb",
            "at least 12.34 lb per sq ft of the squares",
        ),
        bars=tuple(Fraction(week * 37 % 53, 53) for week in range(52)),
        months=tuple((calendar.month_abbr[month], round((month - 1) * 4.3)) for month in range(1, 13)),
    )
    data = drawn(longest)
    assert len(data) < 12_000
    with Image.open(BytesIO(data)) as image:
        assert image.mode == "P"
        assert len(image.convert("RGB").getcolors(256) or []) <= 16
    chunks, at = [], 8
    while at < len(data):
        chunks.append(data[at + 4 : at + 8])
        at += 12 + int.from_bytes(data[at : at + 4], "big")
    assert dict.fromkeys(chunks) == dict.fromkeys([b"IHDR", b"PLTE", b"IDAT", b"IEND"])
