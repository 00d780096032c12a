"""Photographs of the demonstration garden: with their credit, and without what the camera wrote in."""

from __future__ import annotations

import re
from io import BytesIO
from pathlib import Path
from urllib.parse import urljoin

import pytest
from bs4 import BeautifulSoup
from bs4.element import Tag
from PIL import ExifTags, Image

from tallybed.pictures.photos import pictures
from tallybed.pictures.stripped import bare
from tallybed.tasks.build import build
from tests.demonstration import demo_garden
from tests.pages.gardens import parsed
from tests.small_garden import written
from tests.tools import ROOT

PHOTOS = sorted((ROOT / "content").glob("*/photos/*"))
PLANTED = (b"WL-0471-2203", b"desk telephone")
"""What the photographs' camera notes hold beside the place."""
GARDEN = """\
name: Two Plank Garden
place: Behind the mill
latitude: 41.273951
longitude: -80.518264
season: {start: Mar 1, end: Oct 31}
supporters:
  - {words: "Soil & <b>seed</b>: 100 % the mill's", from: 2026-04-01, until: 2026-04-30, address: "https://mill.example/a?b=c&d"}
  - {words: Over already, until: 2026-04-05}
  - {words: Not yet, from: 2026-04-07}
beds:
  - {name: front, length: 4 squares, width: 2 squares, bearing: 90}
"""
ENTRY = """\
---
title: Spinach in
done: [{sow: spinach, squares: A1:B1}]
photos:
  - {file: crew.jpg, alt: Three people with spades, credit: Nemo, shows people: yes}
  - {file: peas.jpg, alt: Peas}
---
Cold hands.
"""


def files(site: Path) -> dict[str, bytes]:
    return {
        path.relative_to(site).as_posix(): path.read_bytes() for path in site.rglob("*") if path.is_file()
    }


def opened(path: Path) -> Image.Image:
    return Image.open(BytesIO(path.read_bytes()))


TEXTS = (".css", ".csv", ".html", ".ics", ".json", ".svg", ".txt", ".xml")
DEGREES = r"39[.,]612|83[.,]104|39\s*°\s*36|83\s*°\s*0?6|36\s*['′]\s*44|0?6\s*['′]\s*16[.,]49"
"""The place noted in the photographs, in the ways people write it."""


def figures(page: BeautifulSoup) -> list[Tag]:
    return [one for one in page.select("figure") if one.find("img")]


def candidates(srcset: str) -> list[tuple[str, int]]:
    """Addresses and widths of a srcset (HTML standard, "srcset attributes")."""
    return [(one.split()[0], int(one.split()[1].removesuffix("w"))) for one in srcset.split(", ")]


def test_the_demonstration_has_photographs_of_other_peoples_with_a_place_noted_in_each() -> None:
    assert len(PHOTOS) >= 3
    for path in PHOTOS:
        assert path.stat().st_size <= 400_000, path.name
        exif = opened(path).getexif()
        place = exif.get_ifd(ExifTags.IFD.GPSInfo)
        assert place[ExifTags.GPS.GPSLatitude] == (39.0, 36.0, 44.53), path.name
        assert place[ExifTags.GPS.GPSLongitude] == (83.0, 6.0, 16.49), path.name
        for planted in PLANTED:
            assert planted in path.read_bytes(), path.name


def test_no_picture_of_the_site_holds_anything_but_itself(demo: Path) -> None:
    copies = [path for path in demo.rglob("*") if re.search(r"/photos/[^/]+\.(jpg|webp)$", path.as_posix())]
    assert len(copies) >= 2 * len(PHOTOS)
    for path in copies:
        assert bare(path.read_bytes()), path.name
        assert not opened(path).getexif()


def test_no_file_of_the_site_holds_what_a_camera_noted(demo: Path) -> None:
    for name, data in files(demo).items():
        for planted in PLANTED:
            assert planted not in data, name
        if name.endswith(TEXTS):
            assert not re.search(DEGREES, data.decode("utf-8")), name


@pytest.fixture(scope="module")
def pages(texts: dict[str, str]) -> dict[str, BeautifulSoup]:
    """The pages with a picture, by their path within the site: the figures of each."""
    return {path: parsed(text, "figure") for path, text in texts.items() if "<img" in text}


def test_every_photograph_is_on_its_page_with_words_and_credit(pages: dict[str, BeautifulSoup]) -> None:
    garden = demo_garden()
    shots = [photo for season in garden.seasons for entry in season.log or () for photo in entry.photos]
    assert len(shots) >= len(PHOTOS)
    shown = {str(one.img["alt"]): one for page in pages.values() for one in figures(page)}
    for shot in shots:
        caption = shown[shot.alt].figcaption
        assert caption is not None
        words = caption.get_text(" ", strip=True)
        assert f"Photograph: {shot.credit}" in words
        links = {link.get_text(): link["href"] for link in caption.find_all("a")}
        assert str(links[shot.licence]).startswith("https://creativecommons.org/")
        assert links["source"] == shot.source


def test_readers_choose_among_copies_that_are_there(demo: Path, pages: dict[str, BeautifulSoup]) -> None:
    there = files(demo)
    on_entries = 0
    for path, page in pages.items():
        for number, figure in enumerate(figures(page)):
            image, source = figure.find("img"), figure.find("source")
            assert isinstance(image, Tag)
            assert isinstance(source, Tag)
            assert source["type"] == "image/webp"
            if "/log/" in path:
                on_entries += 1
                assert image["loading"] == ("lazy" if number else "eager"), path
            assert image["sizes"] == source["sizes"]
            for kind, tag in (("JPEG", image), ("WEBP", source)):
                for address, width in candidates(str(tag["srcset"])):
                    copy = Image.open(BytesIO(there[urljoin(path, address)]))
                    assert (copy.format, copy.width) == (kind, width), path
                    shape = int(str(image["width"])) / int(str(image["height"]))
                    assert copy.width / copy.height == pytest.approx(shape, rel=0.01)
            assert urljoin(path, str(image["src"])) in there
    assert on_entries == len(PHOTOS)


def test_a_telephones_turned_photograph_stands_upright(demo: Path) -> None:
    stored = opened(ROOT / "content" / "2025" / "photos" / "dragonfly.jpg")
    assert stored.height > stored.width
    assert stored.getexif()[ExifTags.Base.Orientation] == 6
    copies = [opened(path) for path in (demo / "2025" / "photos").glob("*.jpg")]
    assert copies
    assert all(copy.width > copy.height for copy in copies)


def test_photographs_made_anew_are_those_of_the_site(demo: Path) -> None:
    garden = demo_garden()
    made = pictures(ROOT, garden).files
    assert made
    for name, data in made.items():
        assert (demo / name).read_bytes() == data, "a kept photograph is not what would be made today"


@pytest.fixture(scope="module")
def small(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The site of a garden with exact coordinates, supporters, and a photograph of people not asked."""
    root = tmp_path_factory.mktemp("small")
    written(root, {"garden.yaml": GARDEN, "2026/log/2026-04-06-spinach-in.md": ENTRY})
    photos = root / "content" / "2026" / "photos"
    photos.mkdir()
    for name, colour in (("crew.jpg", "red"), ("peas.jpg", "green")):
        Image.new("RGB", (20, 10), colour).save(photos / name)
    built = build(root, root / "site")
    assert built.good
    assert [one.code for one in built.findings if one.place.file.endswith("spinach-in.md")] == [
        "photo-consent"
    ]
    return root / "site"


def test_coordinates_are_nowhere_on_the_site(small: Path) -> None:
    exact = r"41[.,]27[34]|80[.,]518|273951|518264|41\s*°\s*16|80\s*°\s*31"
    for name, data in files(small).items():
        if name.endswith(TEXTS):
            text = data.decode("utf-8")
            assert not re.search(exact, text), name
            assert not re.search(r"(latitude|longitude)\W{0,5}-?\d", text, re.IGNORECASE), name
    assert "Behind the mill" in (small / "index.html").read_text(encoding="utf-8")


def test_people_who_were_not_asked_are_not_shown(small: Path) -> None:
    page = BeautifulSoup((small / "2026/log/04-06-spinach-in/index.html").read_bytes(), "lxml")
    (figure,) = figures(page)
    image = figure.find("img")
    assert isinstance(image, Tag)
    assert (image["alt"], image["loading"]) == ("Peas", "eager")
    for name, data in files(small).items():
        assert b"Three people" not in data, name
        assert b"Nemo" not in data, name
    assert len(list((small / "2026" / "photos").iterdir())) == 2, "one JPEG and one WebP, of the peas"


def test_a_supporters_wording_stands_to_the_letter_on_its_days(small: Path) -> None:
    for path in ("index.html", "crops/index.html", "2026/log/04-06-spinach-in/index.html"):
        page = BeautifulSoup((small / path).read_bytes(), "lxml")
        items = page.select("footer .supporters li")
        assert [item.get_text() for item in items] == ["Soil & <b>seed</b>: 100 % the mill's"], path
        assert items[0].a is not None
        assert items[0].a["href"] == "https://mill.example/a?b=c&d"
        assert items[0].find("b") is None
