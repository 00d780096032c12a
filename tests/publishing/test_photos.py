"""Photographs come out upright, small and bare; bad ones are told at their line."""

import struct
import zlib
from dataclasses import replace
from datetime import date
from io import BytesIO
from pathlib import Path

import pytest
from PIL import ExifTags, Image, PngImagePlugin

from tallybed.garden.days import Span
from tallybed.garden.findings import Place
from tallybed.garden.records import Entry, Garden, Photo, Season
from tallybed.publishing import photos
from tallybed.publishing.photos import Pictures, pictures

PLACE = Place("content/2026/log/2026-04-19-peas.md", 9, 5)


def garden(*files: str) -> Garden:
    shots = tuple(Photo(file=file, alt="Peas", place=PLACE) for file in files)
    entry = Entry(slug="peas", day=date(2026, 4, 19), title="Peas", photos=shots)
    span = Span(first=date(2026, 3, 1), last=date(2026, 11, 30))
    return Garden(name="G", seasons=(Season(name="2026", span=span, log=(entry,)),))


def written(root: Path, data: bytes, file: str = "peas.jpg") -> Pictures:
    folder = root / "content" / "2026" / "photos"
    folder.mkdir(parents=True, exist_ok=True)
    (folder / file).write_bytes(data)
    return pictures(root, garden(file))


def photograph(width: int = 40, height: int = 20, kind: str = "JPEG", **save: object) -> bytes:
    """Return a picture whose left half is red and right half is blue."""
    image = Image.new("RGB", (width, height), "red")
    image.paste("blue", (width // 2, 0, width, height))
    out = BytesIO()
    image.save(out, kind, **save)
    return out.getvalue()


def opened(made: Pictures) -> Image.Image:
    assert made.findings == ()
    (data,) = made.files.values()
    return Image.open(BytesIO(data))


def test_a_photograph_comes_out_as_jpeg_named_by_what_it_holds(tmp_path: Path) -> None:
    made = written(tmp_path, photograph())
    picture = made.by_name["2026/peas.jpg"]
    assert list(made.files) == [picture.path]
    assert picture.path.startswith("2026/photos/")
    assert (picture.width, picture.height) == (40, 20)
    assert opened(made).format == "JPEG"
    again = written(tmp_path, photograph(), "copy.jpg")
    assert again.files == made.files, "the same picture got another name or other bytes"


@pytest.mark.parametrize("kind", ["PNG", "WEBP", "TIFF"])
def test_other_common_formats_are_taken(tmp_path: Path, kind: str) -> None:
    assert opened(written(tmp_path, photograph(kind=kind))).format == "JPEG"


@pytest.mark.parametrize("mode", ["RGBA", "P", "L", "CMYK", "1", "I;16", "LA"])
def test_any_kind_of_colour_is_taken(tmp_path: Path, mode: str) -> None:
    out = BytesIO()
    Image.new(mode, (4, 4)).save(out, "TIFF" if mode in {"CMYK", "I;16"} else "PNG")
    assert opened(written(tmp_path, out.getvalue())).mode == "RGB"


def test_a_wide_photograph_is_made_1600_across(tmp_path: Path) -> None:
    made = written(tmp_path, photograph(3200, 1000))
    assert opened(made).size == (1600, 500)


# Exif 2.32 (CIPA DC-008-2019), tag Orientation (0x0112): where row 0 and column 0 of the stored picture lie.
# Value → where the stored left (red) half belongs.
ORIENTATIONS = {1: "left", 2: "right", 3: "right", 4: "left", 5: "top", 6: "top", 7: "bottom", 8: "bottom"}


@pytest.mark.parametrize(("orientation", "side"), ORIENTATIONS.items())
def test_the_orientation_a_camera_noted_is_applied(tmp_path: Path, orientation: int, side: str) -> None:
    exif = Image.Exif()
    exif[ExifTags.Base.Orientation] = orientation
    image = opened(written(tmp_path, photograph(64, 32, exif=exif)))
    width, height = image.size
    points = {
        "left": (width // 8, height // 2),
        "right": (width * 7 // 8, height // 2),
        "top": (width // 2, height // 8),
        "bottom": (width // 2, height * 7 // 8),
    }
    pixel = image.getpixel(points[side])
    assert isinstance(pixel, tuple)
    red, _, blue = pixel
    assert red > 200 > 60 > blue


def test_nothing_a_camera_or_program_noted_goes_along(tmp_path: Path) -> None:
    exif = Image.Exif()
    exif[ExifTags.Base.Model] = "SECRET camera"
    exif[ExifTags.Base.Orientation] = 6
    exif.get_ifd(ExifTags.IFD.GPSInfo)[ExifTags.GPS.GPSLatitudeRef] = "SECRET north"
    data = photograph(exif=exif, comment=b"SECRET comment", icc_profile=b"SECRET profile")
    assert b"SECRET north" in data
    assert b"SECRET camera" in data
    made = written(tmp_path, data)
    (out,) = made.files.values()
    assert b"SECRET" not in out
    assert not opened(made).getexif()
    assert set(opened(made).info) <= {
        "jfif",
        "jfif_version",
        "jfif_unit",
        "jfif_density",
        "progressive",
        "progression",
    }

    text = PngImagePlugin.PngInfo()
    text.add_text("Author", "SECRET author")
    made = written(tmp_path, photograph(kind="PNG", pnginfo=text), "peas.png")
    assert b"SECRET" not in next(iter(made.files.values()))


def bomb(width: int, height: int) -> bytes:
    """Return a PNG that says it is huge (PNG specification, third edition, section 11.2.1)."""

    def chunk(name: bytes, body: bytes) -> bytes:
        return struct.pack(">I", len(body)) + name + body + struct.pack(">I", zlib.crc32(name + body))

    header = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    body = zlib.compress(b"\0" * 1000)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", header) + chunk(b"IDAT", body) + chunk(b"IEND", b"")


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"", "not a photograph"),
        (b"GIF89a", "not a photograph"),
        (b"<svg xmlns='http://www.w3.org/2000/svg'/>", "not a photograph"),
        (b"%!PS-Adobe-3.0 EPSF-3.0\n%%BoundingBox: 0 0 9 9\n", "not a photograph"),
        (photograph()[:300], "damaged"),
        (photograph(kind="PNG")[:60], "damaged"),
        (bomb(20_000, 20_000), "far too many pixels"),
        (bomb(8_000, 8_000), "8,000 × 8,000 pixels"),
        (bomb(100, 100), "damaged"),
    ],
    ids=["empty", "gif", "svg", "postscript", "cut jpeg", "cut png", "bomb", "large", "short png"],
)
def test_a_broken_or_hostile_photograph_is_told_at_its_line(tmp_path: Path, data: bytes, words: str) -> None:
    made = written(tmp_path, data)
    assert made.files == {}
    (finding,) = made.findings
    assert finding.place == PLACE
    assert words in finding.found


def test_a_file_of_too_many_bytes_is_not_even_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(photos, "MOST_BYTES", 10)
    (finding,) = written(tmp_path, photograph()).findings
    assert "bytes" in finding.found


@pytest.mark.parametrize("file", ["../garden.yaml", "/etc/passwd", "a/../../x.jpg", "missing.jpg", "..", "."])
def test_only_a_file_in_the_seasons_folder_is_opened(tmp_path: Path, file: str) -> None:
    (tmp_path / "content" / "2026" / "photos").mkdir(parents=True)
    (tmp_path / "content" / "2026" / "garden.yaml").write_bytes(photograph())
    made = pictures(tmp_path, garden(file))
    assert made.files == {}
    assert [one.code for one in made.findings] == ["photo-unfit"]


def test_a_link_out_of_the_folder_is_not_followed(tmp_path: Path) -> None:
    folder = tmp_path / "content" / "2026" / "photos"
    folder.mkdir(parents=True)
    (tmp_path / "private.jpg").write_bytes(photograph())
    (folder / "peas.jpg").symlink_to(tmp_path / "private.jpg")
    assert pictures(tmp_path, garden("peas.jpg")).files == {}


def test_a_photograph_named_twice_is_put_out_once(tmp_path: Path) -> None:
    written(tmp_path, photograph())
    twice = pictures(tmp_path, garden("peas.jpg", "peas.jpg"))
    assert len(twice.files) == 1
    season = garden("peas.jpg").seasons[0]
    assert pictures(tmp_path, replace(garden(), seasons=(season, season))).files == twice.files
