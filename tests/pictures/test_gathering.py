"""Photographs of a day: told by the camera's own note, copied whole, and nothing of the garden's touched."""

from __future__ import annotations

import struct
import subprocess
import sys
from datetime import date
from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image

from tallybed.pictures.gathering import copied, gathered, taken_at

DAY = date(2026, 4, 19)


def notes(tags: dict[int, bytes], *, outer: dict[int, bytes] | None = None) -> bytes:
    """An Exif block laid out by hand, from the tables of Exif 2.32 (4.6.2 and 4.6.3): no library wrote it."""

    def folder(entries: dict[int, bytes], at: int, pointer: int = 0) -> bytes:
        rows = [(tag, 2, len(text), text) for tag, text in entries.items()]
        number = len(rows) + (1 if pointer else 0)
        after = at + 2 + 12 * number + 4
        table, texts = b"", b""
        for tag, kind, length, text in sorted(rows):
            table += struct.pack("<HHII", tag, kind, length, after + len(texts))
            texts += text
        if pointer:
            table += struct.pack("<HHII", 0x8769, 4, 1, pointer)
        return struct.pack("<H", number) + table + struct.pack("<I", 0) + texts

    first = folder(outer or {}, 8, pointer=1)
    first = folder(outer or {}, 8, pointer=8 + len(first))
    return b"Exif\x00\x00II*\x00\x08\x00\x00\x00" + first + folder(tags, 8 + len(first))


def photograph(path: Path, exif: bytes = b"", colour: str = "green") -> Path:
    out = BytesIO()
    Image.new("RGB", (8, 6), colour).save(out, "JPEG")
    data = out.getvalue()
    if exif:  # APP1, right after the start of the image (ISO/IEC 10918-1, B.2.4.6)
        data = data[:2] + b"\xff\xe1" + struct.pack(">H", len(exif) + 2) + exif + data[2:]
    path.write_bytes(data)
    return path


def taken(when: str) -> bytes:
    return notes({0x9003: when.encode() + b"\x00"})


@pytest.mark.parametrize(
    ("exif", "when"),
    [
        (taken("2026:04:19 23:59:58"), "2026-04-19 23:59:58"),
        (notes({0x9004: b"2026:04:19 07:00:00\x00"}), "2026-04-19 07:00:00"),
        (
            notes({0x9003: b"2026:04:18 07:00:00\x00", 0x9004: b"2026:04:19 07:00:00\x00"}),
            "2026-04-18 07:00:00",
        ),
        (notes({}, outer={0x0132: b"2026:04:19 07:00:00\x00"}), None),
        (taken("    :  :     :  :  "), None),
        (taken("2026:13:45 00:00:00"), None),
        (taken("yesterday"), None),
        (b"", None),
        (b"Exif\x00\x00II*\x00\xff\xff\xff\xff", None),
        (b"Exif\x00\x00", None),
    ],
    ids=[
        "taken",
        "digitized",
        "taken before digitized",
        "only when the file was changed",
        "unknown, as the standard writes it",
        "no such day",
        "words",
        "no notes",
        "notes that lead nowhere",
        "cut short",
    ],
)
def test_a_camera_says_when(tmp_path: Path, exif: bytes, when: str | None) -> None:
    told = taken_at(photograph(tmp_path / "a.jpg", exif))
    assert (str(told) if told else None) == when


@pytest.mark.parametrize("data", [b"", b"no picture", b"\xff\xd8\xff\xe1", b"RIFF\x00\x00\x00\x00WEBP"])
def test_what_is_no_photograph_says_nothing(tmp_path: Path, data: bytes) -> None:
    (tmp_path / "a.jpg").write_bytes(data)
    assert taken_at(tmp_path / "a.jpg") is None


def test_the_photographs_of_a_day_come_in_the_order_they_were_taken(tmp_path: Path) -> None:
    late = photograph(tmp_path / "a.JPG", taken("2026:04:19 18:00:00"))
    early = photograph(tmp_path / "b.jpeg", taken("2026:04:19 06:00:00"))
    photograph(tmp_path / "c.jpg", taken("2026:04:20 00:00:00"))
    undated = photograph(tmp_path / "d.jpg")
    photograph(tmp_path / ".e.jpg", taken("2026:04:19 06:00:00"))
    (tmp_path / "notes.txt").write_text("2026:04:19 06:00:00")
    (tmp_path / "f.jpg").mkdir()
    phone = tmp_path / "IMG_3000.HEIC"
    phone.write_bytes(b"no form that is read")
    found = gathered(tmp_path, DAY)
    assert (found.taken, found.undated, found.unread) == ((early, late), (undated,), (phone,))


def test_copies_are_whole_and_never_take_anothers_place(tmp_path: Path) -> None:
    camera, other, photos = tmp_path / "camera", tmp_path / "other", tmp_path / "garden" / "photos"
    camera.mkdir()
    other.mkdir()
    one = photograph(camera / "IMG_0001.JPG", colour="red")
    two = photograph(other / "IMG_0001.JPG", colour="blue")
    odd = photograph(camera / "…é’.jpg", colour="white")
    assert copied([one, two, odd], photos) == ("img-0001.jpg", "img-0001-2.jpg", "e.jpg")
    assert copied([two, one], photos) == ("img-0001-2.jpg", "img-0001.jpg"), "copied a second time"
    assert {path.name: path.read_bytes() for path in photos.iterdir()} == {
        "img-0001.jpg": one.read_bytes(),
        "img-0001-2.jpg": two.read_bytes(),
        "e.jpg": odd.read_bytes(),
    }


def test_without_photographs_no_folder_is_made(tmp_path: Path) -> None:
    assert copied([], tmp_path / "photos") == ()
    assert not (tmp_path / "photos").exists()


@pytest.mark.skipif(sys.platform == "win32", reason="no limit for the size of files there")
def test_a_full_disk_leaves_no_half_photograph(tmp_path: Path) -> None:
    """It lay there under the photograph's name, and the next copy took another one."""
    shot = tmp_path / "a.jpg"
    shot.write_bytes(photograph(tmp_path / "b.jpg").read_bytes() + bytes(50_000))
    program = (
        "import resource, signal, sys; from pathlib import Path; "
        "from tallybed.pictures.gathering import copied; "
        "signal.signal(signal.SIGXFSZ, signal.SIG_IGN); "
        "resource.setrlimit(resource.RLIMIT_FSIZE, (20_000, 20_000)); "
        "copied([Path(sys.argv[1])], Path(sys.argv[2]))"
    )
    run = [sys.executable, "-B", "-c", program, str(shot), str(tmp_path / "photos")]
    done = subprocess.run(run, capture_output=True, text=True, check=False)
    assert "File too large" in done.stderr
    assert list((tmp_path / "photos").iterdir()) == []
