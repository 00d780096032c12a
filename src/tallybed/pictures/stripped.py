"""Whether a picture's file holds the picture and nothing else: no place, no camera, no thumbnail, no remark.

The files are walked by their specifications, so that nothing a library left in by
mistake, and nothing that was put into a stored file later, can reach a site.
"""

from __future__ import annotations

from dataclasses import dataclass

JPEG, WEBP = "jpeg", "webp"

_SOI, _EOI = b"\xff\xd8", b"\xff\xd9"
_SOF = frozenset({0xC0, 0xC2})
_SOS = 0xDA
_APP0 = 0xE0
_TABLES = frozenset({0xC4, 0xDB, 0xDD})
"""DHT, DQT, DRI: tables the picture is decoded by."""
_JFIF = b"JFIF\0"


@dataclass(frozen=True, slots=True)
class Bare:
    """What a bare picture is: its kind, and its size in pixels."""

    kind: str
    width: int
    height: int


def bare(data: bytes) -> Bare | None:
    """Return what the picture is, or None where the file is broken or holds anything besides the picture."""
    try:
        return _jpeg(data) if data.startswith(_SOI) else _webp(data)
    except IndexError:
        return None


def _jpeg(data: bytes) -> Bare | None:
    """Walk the segments of a JPEG file (ITU-T T.81, annex B) with no more than an empty JFIF header.

    The JFIF header (ITU-T T.871, section 10.1) may hold a thumbnail; it must not here.
    """
    at, size = 2, None
    while data[at : at + 2] != _EOI:
        if data[at] != 0xFF:
            return None
        kind, length = data[at + 1], int.from_bytes(data[at + 2 : at + 4], "big")
        body = data[at + 4 : at + 2 + length]
        if length < 2 or len(body) != length - 2:
            return None
        if kind in _SOF:
            size = int.from_bytes(body[3:5], "big"), int.from_bytes(body[1:3], "big")
        elif kind == _APP0:
            if at != len(_SOI) or len(body) != 14 or not body.startswith(_JFIF) or body[12:] != b"\0\0":
                return None
        elif kind not in _TABLES and kind != _SOS:
            return None
        at += 2 + length
        if kind == _SOS:
            at = _after_scan(data, at)
    whole = at + len(_EOI) == len(data)
    return Bare(JPEG, *size) if whole and size else None


def _after_scan(data: bytes, at: int) -> int:
    """Return where the coded picture ends: the first FF that neither a zero nor a restart number follows."""
    while True:
        at = data.find(b"\xff", at)
        if at < 0:
            raise IndexError
        if data[at + 1] != 0 and not 0xD0 <= data[at + 1] <= 0xD7:
            return at
        at += 2


def _webp(data: bytes) -> Bare | None:
    """Look at a WebP file of the simple lossy form (RFC 9649, section 2.5): one chunk, the picture.

    The size stands in the key frame's header (RFC 6386, section 9.1).
    """
    length = int.from_bytes(data[16:20], "little")
    padded = length + length % 2
    simple = data[:4] == b"RIFF" and data[8:16] == b"WEBPVP8 "
    whole = len(data) == 20 + padded and int.from_bytes(data[4:8], "little") == len(data) - 8
    if not simple or not whole or data[23:26] != b"\x9d\x01\x2a":
        return None
    width, height = (int.from_bytes(data[at : at + 2], "little") & 0x3FFF for at in (26, 28))
    return Bare(WEBP, width, height)
