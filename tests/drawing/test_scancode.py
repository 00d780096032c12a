"""Codes to scan: read back by another library, with the clear border that the standard asks for."""

from __future__ import annotations

import re

import pytest
import zxingcpp
from lxml import etree
from PIL import Image, ImageDraw

from tallybed.drawing.scancode import BORDER, scan_code

SVG = "{http://www.w3.org/2000/svg}"
ADDRESSES = (
    "https://beds.example/",
    "https://beds.wrenfold.example/2026/beds/long/",
    "https://xn--grten-gra.example/s%C3%BCd/crops/tomato-indeterminate/",
    f"https://beds.example/{'a' * 700}/",
)


def modules(markup: str) -> Image.Image:
    """Return the drawing as a picture of one pixel a module, from its path data alone."""
    root = etree.fromstring(markup)
    size = int(str(root.get("viewBox")).split()[2])
    image = Image.new("L", (size, size), 255)
    draw = ImageDraw.Draw(image)
    data = str(root.findall(f"{SVG}path")[0].get("d"))
    runs = re.findall(r"M(\d+) (\d+)h(\d+)v1h-\d+z", data)
    assert "".join(f"M{x} {y}h{n}v1h-{n}z" for x, y, n in runs) == data, "path data of another form"
    for x, y, length in runs:
        draw.rectangle((int(x), int(y), int(x) + int(length) - 1, int(y)), fill=0)
    return image


@pytest.mark.parametrize("sturdy", [False, True])
@pytest.mark.parametrize("address", ADDRESSES, ids=len)
def test_a_scanner_reads_the_address(address: str, sturdy: bool) -> None:
    image = modules(scan_code(address, ident="x", title="Code", sturdy=sturdy))
    read = zxingcpp.read_barcodes(image.resize((image.width * 4, image.height * 4), Image.Resampling.NEAREST))
    assert [one.text for one in read] == [address]
    assert read[0].format == zxingcpp.BarcodeFormat.QRCode


@pytest.mark.parametrize("address", ADDRESSES, ids=len)
def test_four_modules_around_it_are_clear(address: str) -> None:
    """ISO/IEC 18004: the quiet zone is 4 modules wide; a symbol has 21 + 4 n modules a side."""
    image = modules(scan_code(address, ident="x", title="Code"))
    box = image.point(lambda value: 255 - value).getbbox()
    assert BORDER == 4
    assert box == (4, 4, image.width - 4, image.height - 4)
    assert (image.width - 2 * BORDER - 21) % 4 == 0


def test_a_sturdy_code_survives_a_quarter_of_the_dirt() -> None:
    """Level Q restores about 25 % of the code words (ISO/IEC 18004): a blot on a twentieth is no trouble."""
    image = modules(scan_code(ADDRESSES[1], ident="x", title="Code", sturdy=True))
    image = image.resize((image.width * 8, image.height * 8), Image.Resampling.NEAREST)
    centre, reach = image.width // 2, image.width // 9
    blot = (centre - reach, centre - reach, centre + reach, centre + reach)
    ImageDraw.Draw(image).rectangle(blot, fill=0)
    assert [one.text for one in zxingcpp.read_barcodes(image)] == [ADDRESSES[1]]


def test_it_is_named_and_told_and_black_on_white_in_every_scheme() -> None:
    root = etree.fromstring(scan_code(ADDRESSES[0], ident="x", title="Code to scan"))
    assert [root.findtext(f"{SVG}{name}") for name in ("title", "desc")] == ["Code to scan", ADDRESSES[0]]
    assert [(one.tag.removeprefix(SVG), one.get("fill")) for one in root[2:]] == [
        ("rect", "#fff"),
        ("path", "#000"),
    ]


def test_an_address_too_long_for_a_code_gives_none() -> None:
    assert scan_code("https://beds.example/" + "a" * 3000, ident="x", title="Code") == ""


def test_the_same_address_is_the_same_drawing() -> None:
    assert scan_code(ADDRESSES[2], ident="x", title="C") == scan_code(ADDRESSES[2], ident="x", title="C")
