"""A bare picture is told from one that carries anything along."""

from io import BytesIO

import pytest
from PIL import Image

from tallybed.pictures.stripped import Bare, bare
from tests.pictures.shots import adobe_rgb, exif, photograph, with_segment


def test_a_picture_alone_is_bare() -> None:
    assert bare(photograph(40, 20)) == Bare("jpeg", 40, 20)
    assert bare(photograph(41, 23, progressive=True)) == Bare("jpeg", 41, 23)
    assert bare(photograph(40, 20, "WEBP")) == Bare("webp", 40, 20)
    assert bare(photograph(41, 23, "WEBP", quality=3)) == Bare("webp", 41, 23)


def test_restart_marks_belong_to_the_picture() -> None:
    data = photograph(200, 100, restart_marker_rows=1)
    assert b"\xff\xd1" in data, "the test itself makes none"
    assert bare(data) == Bare("jpeg", 200, 100)


def thumbnail() -> bytes:
    """A JFIF header with a thumbnail of one pixel (ITU-T T.871, section 10.1)."""
    data = photograph()
    head = data[:20]
    return head[:4] + (19).to_bytes(2, "big")[-2:] + head[6:18] + b"\x01\x01" + b"\xff\0\0" + data[20:]


CARRYING = {
    "exif": photograph(exif=exif()),
    "profile": photograph(icc_profile=adobe_rgb()),
    "remark": photograph(comment="Good morning"),
    "xmp": photograph(xmp=b"<x/>"),
    "photoshop": with_segment(photograph(), 0xED, b"Photoshop 3.0\0"),
    "second header": with_segment(photograph(), 0xE0, photograph()[6:20]),
    "extension": photograph()[:20] + b"\xff\xe0\0\x08JFXX\0\x10" + photograph()[20:],
    "thumbnail": thumbnail(),
    "film behind": photograph() + b"film",
    "webp exif": photograph(kind="WEBP", exif=exif()),
    "webp profile": photograph(kind="WEBP", icc_profile=adobe_rgb()),
    "webp behind": photograph(kind="WEBP") + b"XMP \0\0\0\0",
    "webp lossless": photograph(kind="WEBP", lossless=True),
}


@pytest.mark.parametrize("name", CARRYING)
def test_a_picture_with_anything_besides_is_not(name: str) -> None:
    data = CARRYING[name]
    assert Image.open(BytesIO(data)).size == (40, 20), "the test itself makes no picture"
    assert bare(data) is None


@pytest.mark.parametrize("kind", ["JPEG", "WEBP"])
def test_a_picture_cut_short_is_not(kind: str) -> None:
    data = photograph(40, 20, kind)
    assert [cut for cut in range(len(data)) if bare(data[:cut])] == []


def test_what_is_no_picture_is_not() -> None:
    for data in (b"", b"\xff\xd8", b"\xff\xd8\xff\xd9", b"RIFF", photograph(kind="PNG")):
        assert bare(data) is None


def test_it_agrees_with_another_reader_on_the_size() -> None:
    for kind in ("JPEG", "WEBP"):
        for size in ((1, 1), (17, 300), (1600, 9)):
            data = photograph(*size, kind)
            found = bare(data)
            assert found is not None
            assert (found.width, found.height) == Image.open(BytesIO(data)).size
