"""Photographs of one day, found in a folder by what the camera noted, and copied into the garden's."""

from __future__ import annotations

import re
import warnings
from collections.abc import Iterable
from contextlib import suppress
from dataclasses import dataclass
from datetime import date, datetime
from itertools import count
from pathlib import Path
from unicodedata import normalize

from PIL import Image

from tallybed.pictures.developing import FORMATS, MOST_BYTES

ENDINGS = frozenset({".jpg", ".jpeg", ".png", ".webp", ".tif", ".tiff"})
UNREAD = frozenset(
    {".heic", ".heif", ".hif", ".avif", ".dng", ".raw", ".cr2", ".cr3", ".nef", ".arw", ".orf"}
)
"""Endings of photographs, as phones and cameras write them, that no page can show (from memory)."""
_EXIF = 0x8769
"""Where a camera's own notes begin (Exif 2.32, 4.6.3)."""
_TAKEN = 0x9003
_DIGITIZED = 0x9004
"""When the picture was taken, and when it became a file: the same day for a camera that writes only this
(Exif 2.32, 4.6.5, tags DateTimeOriginal and DateTimeDigitized). The day a file was changed says nothing."""
_DAMAGED = (OSError, SyntaxError, ValueError, KeyError, TypeError, EOFError, Image.DecompressionBombError)
"""What Pillow raises on bytes that are no photograph, or a damaged one."""
_FORM = "%Y:%m:%d %H:%M:%S"


@dataclass(frozen=True, slots=True, kw_only=True)
class Gathered:
    """What a folder holds for one day."""

    taken: tuple[Path, ...] = ()
    """Photographs of that day, in the order in which they were taken."""
    undated: tuple[Path, ...] = ()
    """Files that look like photographs and do not say when they were taken."""
    unread: tuple[Path, ...] = ()
    """Photographs of any day in a form that is not read."""


def gathered(folder: Path, day: date) -> Gathered:
    """Return the photographs of a day that lie in a folder itself. Raises OSError."""
    taken: list[tuple[datetime, str, Path]] = []
    undated: list[Path] = []
    unread: list[Path] = []
    for path in sorted(folder.iterdir()):
        ending = path.suffix.lower()
        if ending not in ENDINGS | UNREAD or path.name.startswith(".") or not path.is_file():
            continue
        if ending in UNREAD:
            unread.append(path)
            continue
        when = taken_at(path)
        if when is None:
            undated.append(path)
        elif when.date() == day:
            taken.append((when, path.name, path))
    return Gathered(
        taken=tuple(path for _when, _name, path in sorted(taken)),
        undated=tuple(undated),
        unread=tuple(unread),
    )


def taken_at(path: Path) -> datetime | None:
    """Return when a photograph was taken, by its camera's clock; None where it does not say or is none.

    A file that would be too large to show is none. Raises OSError where the machine cannot read it.
    """
    if path.stat().st_size > MOST_BYTES:
        return None
    with path.open("rb") as stream, warnings.catch_warnings():
        warnings.simplefilter("ignore")  # Pillow warns of damaged notes; they count as none
        try:
            with Image.open(stream, formats=FORMATS) as image:
                notes = image.getexif().get_ifd(_EXIF)
        except _DAMAGED:
            return None
    for tag in (_TAKEN, _DIGITIZED):
        told = str(notes.get(tag, "")).strip("\x00 ")
        with suppress(ValueError):
            # A camera's clock has no zone: the day it shows is the day the gardener means.
            return datetime.strptime(told, _FORM)  # noqa: DTZ007
    return None


def copied(photographs: Iterable[Path], folder: Path) -> tuple[str, ...]:
    """Copy photographs into a folder and return their names there; what lies there is never touched.

    One that lies there already, byte for byte, under its name is not copied again. Raises OSError.
    """
    names = []
    for path in photographs:
        folder.mkdir(parents=True, exist_ok=True)
        names.append(_copied(path.read_bytes(), path, folder))
    return tuple(names)


def _copied(data: bytes, path: Path, folder: Path) -> str:
    """Copy a photograph into a folder under a free name, and return the name.

    The same bytes under that name are not copied again.
    """
    plain = normalize("NFKD", path.stem.casefold()).encode("ascii", "ignore").decode("ascii")
    stem = "-".join(re.findall(r"[a-z0-9]+", plain)) or "photograph"
    for number in count(1):
        name = f"{stem}{'' if number == 1 else f'-{number}'}{path.suffix.lower()}"
        target = folder / name
        try:
            out = target.open("xb")
        except FileExistsError:
            if not target.is_file() or target.read_bytes() != data:
                continue
            return name
        try:
            with out:
                out.write(data)
        except BaseException:
            target.unlink()  # half a photograph would look like one
            raise
        return name
    raise AssertionError("numbers end nowhere")
