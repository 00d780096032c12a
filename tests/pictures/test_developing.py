"""Photographs come out upright, small, in every screen's colours, and bare; bad ones say what is wrong."""

import random
from io import BytesIO

import pytest
from coloraide import Color
from PIL import Image, ImageCms, PngImagePlugin
from PIL import __version__ as pillow

from tallybed.pictures import developing
from tallybed.pictures.developing import Developed, Print, Unfit, developed
from tallybed.pictures.stripped import Bare, bare
from tests.pictures.shots import (
    PLANTED,
    adobe_rgb,
    bomb,
    exif,
    file_of,
    photograph,
    png,
    two_colours,
    with_segment,
)

Colour = tuple[int, ...]


def opened(one: Print) -> Image.Image:
    image = Image.open(BytesIO(one.data))
    image.load()
    return image


def colour(one: Print, x: float = 0.5, y: float = 0.5) -> Colour:
    image = opened(one)
    found = image.getpixel((int(x * image.width), int(y * image.height)))
    assert isinstance(found, tuple)
    return found


def near(found: Colour, wanted: Colour, by: int = 6) -> bool:
    return all(abs(one - other) <= by for one, other in zip(found, wanted, strict=True))


def sizes(made: Developed) -> list[tuple[str, int, int]]:
    return [(one.kind, one.width, one.height) for one in made.prints]


def test_a_wide_photograph_is_made_in_three_widths_and_two_kinds() -> None:
    made = developed(photograph(3200, 1600))
    assert sizes(made) == [
        ("jpeg", 480, 240),
        ("webp", 480, 240),
        ("jpeg", 960, 480),
        ("webp", 960, 480),
        ("jpeg", 1600, 800),
        ("webp", 1600, 800),
    ]
    assert made.told == ()
    for one in made.prints:
        assert bare(one.data) == Bare(one.kind, one.width, one.height)
        assert opened(one).format == one.kind.upper()
        assert opened(one).size == (one.width, one.height)


@pytest.mark.parametrize(
    ("width", "widths"), [(1, [1]), (479, [479]), (480, [480]), (481, [480, 481]), (1000, [480, 960, 1000])]
)
def test_nothing_is_made_larger_than_it_was(width: int, widths: list[int]) -> None:
    assert [one.width for one in developed(photograph(width, 40)).prints][::2] == widths


def test_a_very_tall_picture_is_fitted_by_its_height() -> None:
    tallest = developed(photograph(1000, 20_000)).prints[-1]
    assert (tallest.width, tallest.height) == (160, 3200)


# Exif 2.32 (CIPA DC-008-2019), tag Orientation (0x0112): where row 0 and column 0 of the stored picture lie.
# Value → where the stored left (red) half belongs.
ORIENTATIONS = {1: "left", 2: "right", 3: "right", 4: "left", 5: "top", 6: "top", 7: "bottom", 8: "bottom"}
SIDES = {"left": (0.1, 0.5), "right": (0.9, 0.5), "top": (0.5, 0.1), "bottom": (0.5, 0.9)}


@pytest.mark.parametrize(("orientation", "side"), ORIENTATIONS.items())
@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_the_orientation_a_camera_noted_is_applied(orientation: int, side: str, kind: str) -> None:
    for one in developed(photograph(64, 32, kind, exif=exif(orientation))).prints:
        red, _, blue = colour(one, *SIDES[side])
        assert red > 180 > 70 > blue


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP", "TIFF"])
def test_nothing_a_camera_or_program_noted_goes_along(kind: str) -> None:
    image = two_colours()
    notes: dict[str, object] = {"exif": exif(), "icc_profile": adobe_rgb()}
    if kind in {"JPEG", "WEBP"}:
        notes["xmp"] = f"<x:xmpmeta>{PLANTED}</x:xmpmeta>".encode()
    if kind == "JPEG":
        notes["comment"] = f"{PLANTED} remark"
    if kind == "PNG":
        notes["pnginfo"] = text = PngImagePlugin.PngInfo()
        text.add_text("Author", f"{PLANTED} author")
        text.add_itxt("XML:com.adobe.xmp", f"<x:xmpmeta>{PLANTED}</x:xmpmeta>")
    data = file_of(image, kind, **notes)
    if kind == "JPEG":
        data = with_segment(data, 0xED, b"Photoshop 3.0\x008BIM" + PLANTED.encode())
        data = with_segment(data, 0xE7, PLANTED.encode()) + f"a short film: {PLANTED}".encode()
    assert data.count(PLANTED.encode()) >= 3, "the test itself plants nothing"
    for one in developed(data).prints:
        assert PLANTED.encode() not in one.data
        assert bare(one.data), "something besides the picture is in it"
        assert not opened(one).getexif()
        kept = {"icc_profile", "exif", "xmp", "comment", "photoshop"} & set(opened(one).info)
        assert not kept


@pytest.mark.parametrize("seed", range(60))
def test_damaged_notes_of_a_camera_keep_no_photograph_from_being_shown(seed: int) -> None:
    chance = random.Random(seed)
    data = bytearray(photograph(exif=exif(6)))
    start = data.index(b"Exif\0\0") + 6
    length = int.from_bytes(data[start - 8 : start - 6], "big") - 8
    for _ in range(chance.randint(1, 40)):
        data[start + chance.randrange(length)] = chance.randrange(256)
    assert len(developed(bytes(data)).prints) == 2


# What Adobe RGB's numbers are in sRGB, by another library's arithmetic.
@pytest.mark.parametrize("numbers", [(128, 128, 128), (120, 180, 90), (200, 120, 110), (90, 110, 190)])
def test_colours_of_a_profile_are_turned_into_the_screens(numbers: tuple[int, int, int]) -> None:
    wide = Color("a98-rgb", [one / 255 for one in numbers])
    wanted = tuple(round(one * 255) for one in wide.convert("srgb").coords())
    data = file_of(Image.new("RGB", (32, 32), numbers), "PNG", icc_profile=adobe_rgb())
    for one in developed(data).prints:
        assert near(colour(one), wanted, 4), (one.kind, wanted)
    bare_numbers = developed(file_of(Image.new("RGB", (32, 32), numbers), "PNG")).prints[0]
    assert near(colour(bare_numbers), numbers, 4), "without a profile numbers are taken as they are"


def test_a_profile_of_the_screens_own_colours_changes_nothing() -> None:
    plain = developed(photograph(kind="PNG"))
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    assert developed(photograph(kind="PNG", icc_profile=profile)) == plain


def test_a_damaged_profile_is_told_and_left_aside() -> None:
    made = developed(photograph(kind="PNG", icc_profile=b"no profile at all" * 20))
    assert [clause for clause in made.told if "colour profile" in clause]
    assert near(colour(made.prints[0], 0.1), (254, 0, 0))


TOLD = {
    "print": (file_of(Image.new("CMYK", (8, 8), (0, 255, 255, 0)), "TIFF"), "CMYK", (255, 0, 0)),
    "deep grey": (png(8, 8, 16, 0, (b"\0" + b"\x80\x00" * 8) * 8), "16 bits", (128, 128, 128)),
    "deep colour": (png(8, 8, 16, 2, (b"\0" + b"\x80\0\x40\0\xc0\0" * 8) * 8), "16 bits", (128, 64, 192)),
    "see-through": (file_of(Image.new("RGBA", (8, 8), (255, 0, 0, 0))), "see-through", (255, 255, 255)),
    "grey, see-through": (file_of(Image.new("LA", (8, 8), (0, 0))), "see-through", (255, 255, 255)),
}


@pytest.mark.parametrize("name", TOLD)
def test_what_is_shown_otherwise_is_shown_and_told(name: str) -> None:
    data, words, wanted = TOLD[name]
    made = developed(data)
    (clause,) = made.told
    assert words in clause
    assert near(colour(made.prints[0]), wanted)


def test_a_palette_with_a_see_through_colour_is_shown_on_white() -> None:
    image = Image.new("P", (16, 16), 0)
    image.putpalette([255, 0, 0, 0, 0, 255])
    image.paste(1, (8, 0, 16, 16))
    made = developed(file_of(image, transparency=0))
    assert "see-through" in made.told[0]
    assert near(colour(made.prints[0], 0.1), (255, 255, 255))
    assert near(colour(made.prints[0], 0.9), (0, 0, 254))


def test_a_palette_that_is_not_see_through_is_nothing_to_tell() -> None:
    assert developed(file_of(two_colours().quantize(4))).told == ()


@pytest.mark.parametrize("kind", ["PNG", "WEBP", "TIFF"])
def test_of_a_moving_picture_the_first_is_shown(kind: str) -> None:
    second = Image.new("RGB", (40, 20), "lime")
    made = developed(photograph(kind=kind, save_all=True, append_images=[second]))
    assert made.told == ("moves or holds several pictures; the first alone is shown",)
    assert near(colour(made.prints[0], 0.1), (254, 0, 0))


def test_a_telephones_preview_beside_the_photograph_is_nothing_to_tell() -> None:
    second = Image.new("RGB", (40, 20), "lime")
    data = photograph(kind="MPO", save_all=True, append_images=[second])
    assert Image.open(BytesIO(data)).format == "MPO", "the test itself makes a plain JPEG"
    assert developed(data).told == ()


def two_in_one_tiff() -> bytes:
    """A TIFF of two pictures, the second with a list of no tags (TIFF 6.0, section 2)."""
    data = file_of(two_colours(), "TIFF")
    first = int.from_bytes(data[4:8], "little")
    last = first + 2 + 12 * int.from_bytes(data[first : first + 2], "little")
    return data[:last] + len(data).to_bytes(4, "little") + data[last + 4 :] + bytes(6)


UNFIT = {
    "nothing": (b"", "is not a photograph"),
    "text": (b"Dear diary, today the peas came up.", "is not a photograph"),
    "gif": (file_of(Image.new("P", (2, 2)), "GIF"), "is a GIF picture"),
    "bmp": (file_of(Image.new("RGB", (2, 2)), "BMP"), "is a BMP picture"),
    "pdf": (b"%PDF-1.7\n", "is a PDF document"),
    "heic": (b"\0\0\0\x18ftypheic\0\0\0\0mif1heic", "HEIC"),
    "svg": (b"<?xml version='1.0'?>\n<svg xmlns='http://www.w3.org/2000/svg'/>", "is a drawing (SVG)"),
    "postscript": (b"%!PS-Adobe-3.0 EPSF-3.0\n%%BoundingBox: 0 0 9 9\n", "is a PostScript document"),
    "cut jpeg": (photograph()[:300], "is damaged"),
    "cut later": (photograph(400, 400)[:-40], "is damaged"),
    "cut png": (photograph(kind="PNG")[:60], "is damaged"),
    "cut webp": (photograph(kind="WEBP")[:60], "is damaged"),
    "cut tiff": (photograph(kind="TIFF")[:200], "is "),
    "tiff whose second picture has no size": (two_in_one_tiff(), "is damaged"),
    "bomb": (bomb(20_000, 20_000), "has far too many pixels"),
    "large": (bomb(8_000, 8_000), "has 8,000 × 8,000 pixels"),
    "short png": (bomb(100, 100), "is damaged"),
    "measured": (file_of(Image.new("F", (4, 4)), "TIFF"), "holds colours that no page can show"),
    "numbers": (file_of(Image.new("I", (4, 4), 1_000_000), "TIFF"), "holds measured numbers"),
    "layers": (photograph() + b"\xff\xda" * 200, "is a JPEG of more than 100 layers"),
}


@pytest.mark.parametrize("name", UNFIT)
def test_what_cannot_be_shown_says_why(name: str) -> None:
    data, words = UNFIT[name]
    with pytest.raises(Unfit) as caught:
        developed(data)
    assert words in caught.value.found
    assert caught.value.expected


@pytest.mark.parametrize("seed", range(80))
def test_damage_anywhere_is_told_and_never_ends_the_command(seed: int) -> None:
    chance = random.Random(seed)
    kind = ("JPEG", "PNG", "WEBP", "TIFF")[seed % 4]
    data = bytearray(photograph(60, 40, kind))
    for _ in range(chance.randint(1, 30)):
        data[chance.randrange(len(data))] = chance.randrange(256)
    try:
        made = developed(bytes(data))
    except Unfit:
        return
    assert all(bare(one.data) for one in made.prints)


def test_the_same_photograph_gives_the_same_bytes() -> None:
    data = photograph(700, 400, exif=exif(3))
    assert developed(data) == developed(data)


def test_what_decides_the_bytes_is_named(monkeypatch: pytest.MonkeyPatch) -> None:
    before = developing.stamp()
    assert pillow in before
    monkeypatch.setattr(developing, "SETTINGS", developing.SETTINGS + 1)
    assert developing.stamp() != before
