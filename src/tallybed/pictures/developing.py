"""Photographs developed: opened with care, turned upright, made small, and stripped to the bare picture.

What comes out depends on the bytes that go in and on the settings below alone.
"""

from __future__ import annotations

import warnings
from collections.abc import Iterator
from dataclasses import dataclass
from io import BytesIO

from PIL import Image, ImageCms, UnidentifiedImageError, features
from PIL import __version__ as pillow

from tallybed.pictures.stripped import JPEG, WEBP, bare

SETTINGS = 1
"""Raise this whenever a change here changes what comes out."""
WIDTHS = (480, 960, 1600)
"""Pixels across of what is put out: a phone, a page, a page on a screen of twice the dots. Our choice."""
TALLEST = 2
"""A picture is at most this many times as tall as the width it is made for."""
MOST_BYTES = 30_000_000
MOST_PIXELS = 60_000_000
MOST_SCANS = 100
"""Passes of a progressive JPEG; encoders make about ten, and each costs the time of the whole picture."""
FORMATS = ("JPEG", "PNG", "WEBP", "TIFF")
"""Formats that are opened; Pillow's rarer ones are left shut."""
EXPECTED = "a photograph as JPEG, PNG, WebP or TIFF"

_FEWER = f"at most {MOST_PIXELS // 1_000_000} million"
_TURNS = {
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_270,
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_90,
}
"""What turns a picture upright, by the orientation a camera noted (Exif 2.32, tag 0x0112)."""
_ORIENTATION = 0x0112
_SIXTEEN = frozenset({"I;16", "I;16B", "I;16L", "I;16N"})
_SHOWN = frozenset({"1", "L", "LA", "P", "PA", "RGB", "RGBA", "RGBX", "CMYK", "YCbCr"})
_SPACES = {"RGB": "RGB ", "L": "GRAY", "CMYK": "CMYK"}
"""Colour space that a profile must be of, by the picture's mode (ICC.1:2022, table 19)."""

_FOREIGN = (
    (b"GIF8", "a GIF picture"),
    (b"BM", "a BMP picture"),
    (b"%PDF", "a PDF document"),
    (b"%!PS", "a PostScript document"),
    (b"8BPS", "a Photoshop document"),
)
_BOXED = {b"heic", b"heix", b"mif1", b"msf1", b"hevc", b"avif", b"avis"}
"""Brands of pictures in the ISO base media file format (HEIC and AVIF), at the file's fifth byte."""


class Unfit(Exception):  # noqa: N818 - a photograph that cannot be shown, not a failure of ours
    """A photograph that cannot be shown; the parts of a finding."""

    def __init__(self, found: str, expected: str = EXPECTED) -> None:
        super().__init__(found)
        self.found = found
        self.expected = expected


@dataclass(frozen=True, slots=True, kw_only=True)
class Print:
    """One file made from a photograph."""

    kind: str
    """``jpeg`` or ``webp``."""
    width: int
    height: int
    data: bytes


@dataclass(frozen=True, slots=True, kw_only=True)
class Developed:
    """A photograph made ready: each width in each kind, narrowest first."""

    prints: tuple[Print, ...]
    told: tuple[str, ...] = ()
    """What is shown otherwise than the file holds it, each as a clause about the file."""


def stamp() -> str:
    """Return what, besides a photograph's own bytes, decides what comes out: settings and libraries."""
    libraries = ("libjpeg_turbo", "jpg", "webp", "littlecms2")
    return " ".join([str(SETTINGS), pillow, *(str(features.version(name)) for name in libraries)])


def developed(data: bytes) -> Developed:
    """Return a photograph's bytes as bare JPEG and WebP files, upright, in sRGB, never enlarged.

    Place, time, camera, thumbnails, remarks and colour profiles do not go along.
    Raises Unfit.
    """
    if kind := _foreign(data):
        raise Unfit(f"is {kind}")
    if data.startswith(b"\xff\xd8") and data.count(b"\xff\xda") > MOST_SCANS:
        raise Unfit(f"is a JPEG of more than {MOST_SCANS} layers", "a photograph as a camera makes it")
    told: list[str] = []
    try:
        with warnings.catch_warnings():
            # Pillow warns of damaged notes and of large pictures; both are judged here.
            warnings.simplefilter("ignore")
            with Image.open(BytesIO(data), formats=FORMATS) as image:
                _require_few_pixels(image)
                told += _frames(image)
                image.load()
                told += _deep(image, data)
                upright = _upright(image)
                flat = _flat(upright, told)
                full = _srgb(_scaled(flat, WIDTHS[-1]), image.info.get("icc_profile"), told)
    except UnidentifiedImageError:
        raise Unfit("is not a photograph that can be opened") from None
    except Image.DecompressionBombError:
        raise Unfit("has far too many pixels", _FEWER) from None
    except (Unfit, MemoryError):
        raise
    except Exception as error:
        # Pillow's decoders let errors of every kind through on damaged files (a TIFF without a width
        # raises TypeError); the bytes are in memory, so no disk is involved.
        raise Unfit("is damaged", "a photograph that can be opened") from error
    widths = [width for width in WIDTHS if width < full.width]
    sizes = [*(_scaled(full, width) for width in widths), full]
    return Developed(prints=tuple(made for one in sizes for made in _prints(one)), told=tuple(told))


def _foreign(data: bytes) -> str:
    """Return what a file is, where it is of a kind people take for a photograph and is none."""
    for sign, kind in _FOREIGN:
        if data.startswith(sign):
            return kind
    if data[4:8] == b"ftyp" and data[8:12] in _BOXED:
        return "a picture of a telephone's own kind (HEIC or AVIF)"
    if b"<svg" in data[:1000].lower():
        return "a drawing (SVG)"
    return ""


def _require_few_pixels(image: Image.Image) -> None:
    """Raise Unfit where an image has more pixels than are shown."""
    if image.width * image.height > MOST_PIXELS:
        raise Unfit(f"has {image.width:,} × {image.height:,} pixels", _FEWER)


def _frames(image: Image.Image) -> Iterator[str]:
    """Tell of several pictures in one file. A camera's preview beside a JPEG is none of them."""
    if image.format == "TIFF":
        try:
            image.seek(1)
        except EOFError:
            return
        image.seek(0)
    elif image.format not in {"PNG", "WEBP"} or getattr(image, "n_frames", 1) == 1:
        return
    yield "moves or holds several pictures; the first alone is shown"


def _deep(image: Image.Image, data: bytes) -> Iterator[str]:
    """Tell of colours finer than a page can show. Pillow may have made them coarser on opening."""
    png = image.format == "PNG" and data[24] == 16  # bit depth, PNG third edition, section 11.2.1
    tiff = image.format == "TIFF" and max(_numbers(getattr(image, "tag_v2", {}).get(258))) > 8
    if png or tiff or image.mode in _SIXTEEN:
        yield "has 16 bits a colour; it is shown with 8"


def _numbers(value: object) -> tuple[int, ...]:
    """Return the whole numbers of a TIFF's tag, or one 8 where it has none."""
    numbers = value if isinstance(value, tuple) else (value,)
    return tuple(one for one in numbers if isinstance(one, int)) or (8,)


def _upright(image: Image.Image) -> Image.Image:
    """Return an image turned as its camera was held; as it is where the camera's notes are damaged."""
    try:
        turn = _TURNS.get(image.getexif().get(_ORIENTATION, 1))
    except Exception:
        # A camera's notes can be damaged in any way, and nothing but them is read here.
        turn = None
    return image.transpose(turn) if turn is not None else image


def _flat(image: Image.Image, told: list[str]) -> Image.Image:
    """Return the picture without see-through parts, in a mode that can be scaled: L, RGB or CMYK."""
    if image.mode in _SIXTEEN or image.mode == "I":
        return _eight(image)
    if image.mode not in _SHOWN:
        raise Unfit(f"holds colours that no page can show ({image.mode})")
    if image.has_transparency_data:
        layered = image.convert("RGBA")
        if layered.getchannel("A").getextrema() != (255, 255):
            told.append("is see-through in part; those parts are shown white")
        white = Image.new("RGBA", layered.size, "white")
        return Image.alpha_composite(white, layered).convert("RGB")
    if image.mode == "CMYK":
        told.append("holds the colours of print (CMYK); on screens they look otherwise")
        return image
    return image.convert("L" if image.mode in {"1", "L"} else "RGB")


def _eight(image: Image.Image) -> Image.Image:
    """Return a grey picture of 16 bits with 8."""
    whole = image.convert("I")
    lowest, highest = whole.getextrema()
    if not isinstance(lowest, int | float) or not isinstance(highest, int | float):  # one band has one pair
        raise TypeError(image.mode)
    if lowest < 0 or highest > 65_535:
        raise Unfit("holds measured numbers instead of colours")
    return whole.point(lambda value: value * (1 / 256)).convert("L")


def _scaled(image: Image.Image, width: int) -> Image.Image:
    """Return the picture fitted into a width and a height, unchanged where it fits."""
    share = min(1.0, width / image.width, TALLEST * width / image.height)
    if share == 1:
        return image
    size = max(1, round(image.width * share)), max(1, round(image.height * share))
    return image.resize(size, Image.Resampling.LANCZOS)


def _srgb(image: Image.Image, profile: object, told: list[str]) -> Image.Image:
    """Return the picture in the colours that every screen takes a picture without a profile to have."""
    if isinstance(profile, bytes) and profile:
        try:
            source = ImageCms.ImageCmsProfile(BytesIO(profile))
            fits = source.profile.xcolor_space == _SPACES.get(image.mode)
            if fits and "srgb" not in ImageCms.getProfileDescription(source).casefold():
                target = ImageCms.createProfile("sRGB")
                intent = ImageCms.Intent.RELATIVE_COLORIMETRIC
                made = ImageCms.profileToProfile(image, source, target, intent, outputMode="RGB")
                return made if made is not None else image.convert("RGB")
        except (ImageCms.PyCMSError, OSError):
            told.append("has a damaged colour profile; it is shown without it")
    return image.convert("RGB")


def _prints(image: Image.Image) -> Iterator[Print]:
    """Yield an image as a JPEG and as a WebP that hold the picture and nothing else.

    Raises RuntimeError where one holds more.
    """
    # A new picture, since Pillow writes out some of what a picture it opened came with.
    clean = Image.new("RGB", image.size)
    clean.paste(image)
    for kind, data in ((JPEG, _jpeg(clean)), (WEBP, _webp(clean))):
        if bare(data) is None:
            raise RuntimeError(f"the {kind} that was made holds more than the picture")
        yield Print(kind=kind, width=clean.width, height=clean.height, data=data)


def _jpeg(image: Image.Image) -> bytes:
    """Return an image as a JPEG file."""
    out = BytesIO()
    image.save(out, "JPEG", quality=80, subsampling="4:2:0", optimize=True, progressive=True)
    return out.getvalue()


def _webp(image: Image.Image) -> bytes:
    """Return an image as a WebP file."""
    out = BytesIO()
    image.save(out, "WEBP", quality=76, method=4, lossless=False, exact=False)
    return out.getvalue()
