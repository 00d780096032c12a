"""Photographs: opened with care, turned upright, made small, and stripped of all that a camera writes in."""

from __future__ import annotations

import warnings
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from hashlib import sha256
from io import BytesIO
from pathlib import Path

from PIL import Image, ImageOps, UnidentifiedImageError

from tallybed.garden.findings import Finding, Place, Severity
from tallybed.garden.records import Entry, Garden, Photo

WIDEST = 1600
"""Pixels across that a page can use on a large screen; common practice, no source."""
MOST_BYTES = 30_000_000
MOST_PIXELS = 60_000_000
_FEWER = f"at most {MOST_PIXELS // 1_000_000} million"
FORMATS = ("JPEG", "PNG", "WEBP", "TIFF")
"""Formats that are opened; Pillow's rarer ones are left shut."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """A photograph as the site shows it."""

    path: str
    """Path within the site, named by what it holds."""
    width: int
    height: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Pictures:
    """Every photograph of a garden, by ``season/file`` as its entry names it."""

    by_name: Mapping[str, Picture] = field(default_factory=dict)
    files: Mapping[str, bytes] = field(default_factory=dict)
    """Bytes to put out, by path within the site."""
    findings: tuple[Finding, ...] = ()


class _Unfit(Exception):  # noqa: N818 - never leaves this module
    def __init__(self, found: str, expected: str) -> None:
        super().__init__(found)
        self.found = found
        self.expected = expected


def pictures(
    root: Path, garden: Garden, waits: Callable[[Entry], bool] = lambda _entry: False, *, drafts: bool = False
) -> Pictures:
    """Return the photographs that log entries name, made ready.

    Those of an entry that waits are looked at, and put out only with ``drafts``; one of
    them that cannot be shown is a warning, since nobody is to see it yet.

    Raises OSError where the machine cannot read a file that is there.
    """
    by_name: dict[str, Picture] = {}
    files: dict[str, bytes] = {}
    findings: list[Finding] = []
    for season in garden.seasons:
        named = ((photo, waits(entry)) for entry in season.log or () for photo in entry.photos)
        for photo, waiting in named:
            name = f"{season.name}/{photo.file}"
            if name in by_name:
                continue
            try:
                data, width, height = _made(root / "content" / season.name / "photos", photo.file)
            except _Unfit as unfit:
                findings.append(_finding(photo, unfit, Severity.WARNING if waiting else Severity.ERROR))
                continue
            if waiting and not drafts:
                continue
            path = f"{season.name}/photos/{sha256(data).hexdigest()[:16]}.jpg"
            files[path] = data
            by_name[name] = Picture(path=path, width=width, height=height)
    return Pictures(by_name=by_name, files=files, findings=tuple(findings))


def _made(folder: Path, file: str) -> tuple[bytes, int, int]:
    path = folder / file
    if path.parent != folder or not path.resolve().is_relative_to(folder.resolve()):
        raise _Unfit(f"{file} lies outside the season's photos folder", "the name of a file in that folder")
    if not path.is_file():
        raise _Unfit(f"there is no photograph {file}", f"a file of that name in {folder.name}/")
    if (size := path.stat().st_size) > MOST_BYTES:
        raise _Unfit(f"{file} has {size:,} bytes", f"at most {MOST_BYTES:,}")
    return encoded(path.read_bytes(), file)


def encoded(data: bytes, file: str) -> tuple[bytes, int, int]:
    """Return a photograph's bytes as a plain JPEG of at most 1,600 pixels across, its width and height.

    Place, time, camera, thumbnails and colour profiles do not go along; the
    orientation a camera noted is applied first.
    """
    try:
        with warnings.catch_warnings():
            # Pillow warns of damaged notes and of large pictures; both are judged here.
            warnings.simplefilter("ignore")
            with Image.open(BytesIO(data), formats=FORMATS) as image:
                if image.width * image.height > MOST_PIXELS:
                    raise _Unfit(
                        f"{file} has {image.width:,} × {image.height:,} pixels",
                        _FEWER,
                    )
                upright = ImageOps.exif_transpose(image).convert("RGB")
    except UnidentifiedImageError:
        raise _Unfit(
            f"{file} is not a photograph that can be opened", "JPEG, PNG, WebP, GIF or TIFF"
        ) from None
    except Image.DecompressionBombError:
        raise _Unfit(f"{file} has far too many pixels", _FEWER) from None
    except (OSError, SyntaxError, ValueError, EOFError, OverflowError) as error:
        # What Pillow's decoders raise on damaged files; the bytes are in memory, so no disk is involved.
        raise _Unfit(f"{file} is damaged", "a photograph that can be opened") from error
    if upright.width > WIDEST:
        height = max(1, round(upright.height * WIDEST / upright.width))
        upright = upright.resize((WIDEST, height), Image.Resampling.LANCZOS)
    bare = Image.new("RGB", upright.size)
    bare.paste(upright)
    out = BytesIO()
    bare.save(out, "JPEG", quality=82, optimize=True, progressive=True)
    return out.getvalue(), bare.width, bare.height


def _finding(photo: Photo, unfit: _Unfit, severity: Severity) -> Finding:
    return Finding(
        place=photo.place if photo.place.file else Place("content"),
        code="photo-unfit",
        severity=severity,
        found=unfit.found,
        expected=unfit.expected,
        remedy="put another file in its place, or take the line out",
    )
