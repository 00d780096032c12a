"""The pictures shown with the addresses of seasons and bulletins, drawn: the same bytes each time.

Letters come from a font of our own, so no machine's fonts matter; the file is packed by
runs alone, which leaves a packer no choice to make. A halved one is drawn at the whole
size and made smaller, with fewer shades: half a byte a pixel.
"""

from __future__ import annotations

import zlib
from functools import cache
from hashlib import sha256
from io import BytesIO
from itertools import pairwise
from pathlib import Path

import PIL
from PIL import Image, ImageDraw, ImageFont

from tallybed.pages.files.card import HEIGHT, WIDTH, Card

_EDGE = 72
_PAPER, _INK, _SOFT, _LINE = (245, 248, 250), (19, 32, 58), (68, 82, 107), (188, 199, 212)
_TWINE, _TWIST = (165, 135, 90), (111, 87, 49)
_GREYS = 16
"""Steps of colour between paper and each ink at the edges of letters."""
_FEW_GREYS = 5
"""The same in a halved picture: sixteen colours in all, so that two pixels share a byte."""
_BARS = (442, 548)
"""Top and foot of the bars."""
_SUM_ENDS = 590
"""Where a long number is made smaller, so that the lines beside it keep their room."""
_Colour = tuple[int, int, int]


def drawn(card: Card) -> bytes:
    """Return a picture as a PNG file."""
    image = Image.new("RGB", (WIDTH, HEIGHT), _PAPER)
    draw = ImageDraw.Draw(image)
    _twine(draw)
    _heading(draw, card)
    _sum(draw, card)
    _bars(draw, card)
    if card.halved:
        return _packed(image.reduce(2), _FEW_GREYS)
    return _packed(image, _GREYS)


@cache
def stamp() -> str:
    """Return what, besides a card, decides which bytes come out: this drawing, its letters, the library."""
    made_of = (Path(__file__).read_bytes(), _font_data(), PIL.__version__.encode())
    return sha256(b"".join(sha256(part).digest() for part in made_of)).hexdigest()


def _packed(image: Image.Image, greys: int) -> bytes:
    """Return the image with few colours and packed by runs, which leaves nothing to a packer's skill."""
    out = BytesIO()
    palette = Image.new("P", (1, 1))
    palette.putpalette([part for colour in _colours(greys) for part in colour])
    few = image.quantize(palette=palette, dither=Image.Dither.NONE)
    few.save(out, "PNG", compress_level=9, compress_type=zlib.Z_RLE)
    return out.getvalue()


@cache
def _colours(greys: int) -> tuple[_Colour, ...]:
    """Return the palette: ``greys`` steps from paper to each ink, and the colours of lines."""
    shades = (_between(step, greys, ink) for ink in (_INK, _SOFT, _TWINE) for step in range(greys))
    return (*dict.fromkeys(shades), _LINE, _TWIST)


def _between(step: int, greys: int, ink: _Colour) -> _Colour:
    """Return the colour ``step`` steps from paper (0) towards the ink (``greys`` - 1)."""
    red, green, blue = (
        round(paper + (dark - paper) * step / (greys - 1)) for paper, dark in zip(_PAPER, ink, strict=True)
    )
    return red, green, blue


@cache
def _font_data() -> bytes:
    """Return the bytes of the font's file."""
    return (Path(__file__).parent / "fonts" / "Literata-Regular.ttf").read_bytes()


@cache
def _font(size: int) -> ImageFont.FreeTypeFont:
    """Return the font in a size in pixels."""
    return ImageFont.truetype(BytesIO(_font_data()), size, layout_engine=ImageFont.Layout.BASIC)


def can_show(text: str) -> bool:
    """Return whether the font has every sign of a text."""
    font = _font(40)
    unknown = bytes(font.getmask("\uffff"))
    return not any(bytes(font.getmask(sign)) == unknown for sign in set(text) if not sign.isspace())


def _twine(draw: ImageDraw.ImageDraw) -> None:
    """Draw the twine that every page of the site hangs from."""
    top, deep = 40, 8
    draw.rectangle((_EDGE, top, WIDTH - _EDGE, top + deep - 1), fill=_TWINE)
    for x in range(_EDGE, WIDTH - _EDGE, 14):
        draw.line((x, top + deep - 1, x + 5, top), fill=_TWIST, width=2)


def _heading(draw: ImageDraw.ImageDraw, card: Card) -> None:
    """Draw the garden's name and place on the left, and the season on the right."""
    right = _fitted(draw, WIDTH - _EDGE, 78, card.season, 44, 300, fill=_SOFT, anchor="ra")
    room = right - _EDGE - 40
    named = card.garden if can_show(card.garden) else ""
    _fitted(draw, _EDGE, 72, named, 54, room, fill=_INK)
    if card.place and can_show(card.place):
        _fitted(draw, _EDGE, 142, card.place, 32, room, fill=_SOFT)


def _sum(draw: ImageDraw.ImageDraw, card: Card) -> None:
    """Draw the large number with its unit, what stands before it, and the lines beside it."""
    base = 352
    x = _EDGE
    if card.before:
        draw.text((x, base), card.before, font=_font(40), fill=_SOFT, anchor="ls")
        x += round(_font(40).getlength(card.before)) + 22
    size = 190
    while size > 90 and x + _font(size).getlength(f"{card.number} ") > _SUM_ENDS:
        size -= 5
    draw.text((x - 8, base), card.number, font=_font(size), fill=_INK, anchor="ls")
    x += round(_font(size).getlength(card.number)) + 12
    draw.text((x, base), card.unit, font=_font(64), fill=_INK, anchor="ls")
    x += round(_font(64).getlength(card.unit)) + 56
    size = 34
    while size > 18 and max(_font(size).getlength(line) for line in card.lines) > WIDTH - _EDGE - x:
        size -= 1
    for number, line in enumerate(reversed(card.lines)):
        draw.text((x, base - number * 48), line, font=_font(size), fill=_SOFT, anchor="ls")


def _bars(draw: ImageDraw.ImageDraw, card: Card) -> None:
    """Draw a bar for each week's weight, a thin line for each week to come, and the months' letters below."""
    top, foot = _BARS
    step = (WIDTH - 2 * _EDGE) / len(card.bars)
    draw.text((_EDGE, top - 12), "Weight by week", font=_font(24), fill=_SOFT, anchor="ls")
    for number, part in enumerate(card.bars):
        left, right = round(_EDGE + number * step) + 3, round(_EDGE + (number + 1) * step) - 3
        if part:
            draw.rectangle((left, foot - max(2, round(part * (foot - top))), right, foot), fill=_TWINE)
        elif part is None:
            draw.line((left, foot - 1, right, foot - 1), fill=_LINE, width=1)
    now = sum(part is not None for part in card.bars)
    draw.line((_EDGE, foot, round(_EDGE + now * step), foot), fill=_INK, width=2)
    for (name, week), (_next, until) in pairwise((*card.months, ("", len(card.bars)))):
        x = round(_EDGE + week * step) + 3
        draw.line((x - 3, foot, x - 3, foot + 10), fill=_INK, width=2)
        if (until - week) * step > _font(24).getlength(name):
            draw.text((x + 2, foot + 12), name, font=_font(24), fill=_SOFT)


def _fitted(
    draw: ImageDraw.ImageDraw,
    x: float,
    y: float,
    text: str,
    size: int,
    room: float,
    *,
    fill: _Colour,
    anchor: str = "la",
) -> float:
    """Write a text in the largest type up to ``size`` that fits ``room``; return its other end."""
    while size > 18 and _font(size).getlength(text) > room:
        size -= 2
    while text and _font(size).getlength(text) > room:
        text = f"{text[:-2]}…" if len(text) > 2 else ""
    draw.text((x, y), text, font=_font(size), fill=fill, anchor=anchor)
    length = _font(size).getlength(text)
    return x - length if anchor.startswith("r") else x + length
