"""Photographs made for tests: what cameras, telephones and editors write, and what nobody should."""

from __future__ import annotations

import struct
import zlib
from io import BytesIO

from PIL import ExifTags, Image

LATITUDE, LONGITUDE = ((39.0, 36.0, 44.53), (83.0, 6.0, 16.49))
PLANTED = "PLANTED"


def two_colours(width: int = 40, height: int = 20) -> Image.Image:
    """A picture whose left half is red and right half is blue."""
    image = Image.new("RGB", (width, height), "red")
    image.paste("blue", (width // 2, 0, width, height))
    return image


def photograph(width: int = 40, height: int = 20, kind: str = "JPEG", **save: object) -> bytes:
    """The same as a file."""
    return file_of(two_colours(width, height), kind, **save)


def file_of(image: Image.Image, kind: str = "PNG", **save: object) -> bytes:
    out = BytesIO()
    image.save(out, kind, **save)
    return out.getvalue()


def exif(orientation: int = 1) -> Image.Exif:
    """What a telephone notes: the place, the time, its own number."""
    notes = Image.Exif()
    notes[ExifTags.Base.Make] = f"{PLANTED} maker"
    notes[ExifTags.Base.Model] = f"{PLANTED} telephone"
    notes[ExifTags.Base.Artist] = f"{PLANTED} person"
    notes[ExifTags.Base.Orientation] = orientation
    notes.get_ifd(ExifTags.IFD.Exif)[ExifTags.Base.BodySerialNumber] = f"{PLANTED} number"
    place = notes.get_ifd(ExifTags.IFD.GPSInfo)
    place[ExifTags.GPS.GPSLatitudeRef], place[ExifTags.GPS.GPSLatitude] = "N", LATITUDE
    place[ExifTags.GPS.GPSLongitudeRef], place[ExifTags.GPS.GPSLongitude] = "W", LONGITUDE
    return notes


def chunk(name: bytes, body: bytes) -> bytes:
    """A chunk of a PNG file (PNG specification, third edition, section 5.3)."""
    return struct.pack(">I", len(body)) + name + body + struct.pack(">I", zlib.crc32(name + body))


def png(width: int, height: int, depth: int, colour: int, rows: bytes) -> bytes:
    """A PNG file of those rows, whatever its header says."""
    header = struct.pack(">IIBBBBB", width, height, depth, colour, 0, 0, 0)
    body = zlib.compress(rows)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", header) + chunk(b"IDAT", body) + chunk(b"IEND", b"")


def bomb(width: int, height: int) -> bytes:
    """A PNG of a few bytes that says it is huge."""
    return png(width, height, 8, 2, b"\0" * 1000)


def segment(kind: int, body: bytes) -> bytes:
    """A segment of a JPEG file (ITU-T T.81, B.1.1.4)."""
    return bytes((0xFF, kind)) + struct.pack(">H", len(body) + 2) + body


def with_segment(data: bytes, kind: int, body: bytes) -> bytes:
    """A JPEG file with one more segment, put in after its start."""
    return data[:2] + segment(kind, body) + data[2:]


def adobe_rgb() -> bytes:
    """A profile of Adobe RGB (1998), as small as ICC.1:2001-04 lets a display profile be.

    Primaries adapted to D50 and gamma 563/256: Adobe RGB (1998) Color Image
    Encoding, version 2005-05, section 4.3 and annex C.
    """

    def number(value: float) -> bytes:
        return struct.pack(">i", round(value * 65_536))

    def xyz(*values: float) -> bytes:
        return b"XYZ \0\0\0\0" + b"".join(number(value) for value in values)

    name = b"wide colours\0"
    curve = b"curv\0\0\0\0" + struct.pack(">IH", 1, 563) + b"\0\0"
    tags = {
        b"desc": b"desc\0\0\0\0" + struct.pack(">I", len(name)) + name + b"\0" * 78,
        b"cprt": b"text\0\0\0\0none\0",
        b"wtpt": xyz(0.9642, 1.0, 0.8249),
        b"rXYZ": xyz(0.60974, 0.31111, 0.01947),
        b"gXYZ": xyz(0.20528, 0.62567, 0.06087),
        b"bXYZ": xyz(0.14919, 0.06322, 0.74457),
        b"rTRC": curve,
        b"gTRC": curve,
        b"bTRC": curve,
    }
    table, body = b"", b""
    start = 128 + 4 + 12 * len(tags)
    for sign, data in tags.items():
        table += sign + struct.pack(">II", start + len(body), len(data))
        body += data + b"\0" * (-len(data) % 4)
    header = bytearray(128)
    header[0:4] = struct.pack(">I", start + len(body))
    header[8:12] = b"\x02\x10\0\0"
    header[12:24] = b"mntrRGB XYZ "
    header[36:40] = b"acsp"
    header[68:80] = number(0.9642) + number(1.0) + number(0.8249)
    return bytes(header) + struct.pack(">I", len(tags)) + table + body
