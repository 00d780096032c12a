"""The layouts: templates, style sheets and signs, Tallybed's own and a garden's in their place.

A garden's own ``layouts/`` folder overrides file by file. It is taken in whole and
bounded in size before a page is made, so that a change under way cannot mix two states.
"""

from __future__ import annotations

import os
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from tallybed.garden.findings import Finding, Place, Severity

OWN = "layouts"
"""Name of the folder in a garden."""
TEMPLATES = frozenset({".html", ".xml", ".ics", ".txt"})
ASSETS = frozenset(
    {".css", ".svg", ".png", ".jpg", ".jpeg", ".gif", ".webp", ".ico", ".woff", ".woff2", ".js"}
)
MOST = 5_000_000
"""Most bytes a file of a garden's own layouts may have."""
JOINED = ("style.css", "map.css")
"""Style sheets that go out as one file, the first of these, in this order; sheets to print have one more."""
_COMMENT_OR_MARGIN = re.compile(rb"/\*.*?\*/\n?|(?<=\n)\s+", re.DOTALL)
"""What a style sheet says to its editors alone: comments, indents, empty lines."""
_LINE_END = re.compile(rb" ?([;{}])\n(?!\Z)")
"""A line's end that a style sheet can do without: any but its last."""

_LEFT_ALONE = frozenset({"Thumbs.db", "desktop.ini"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Template:
    """A template's text and the name that a message calls it by."""

    text: str
    file: str
    own: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Layouts:
    """Templates and assets by name (a path below the layouts folder)."""

    templates: Mapping[str, Template]
    shipped: Mapping[str, Template]
    """Tallybed's templates alone, as they were before a garden's own took their place."""
    assets: Mapping[str, bytes]
    findings: tuple[Finding, ...] = ()


def shipped_folder() -> Path:
    """Return the folder of Tallybed's layouts: in the installed package, else next to ``src``."""
    package = Path(__file__).resolve().parent.parent
    inside = package / "layouts"
    return inside if inside.is_dir() else package.parent.parent / "layouts"


def layouts(root: Path) -> Layouts:
    """Return the layouts for the garden at ``root``. Raises OSError where a file cannot be read."""
    shipped, assets, _ = _taken(shipped_folder(), own=False)
    lean = {name: _lean(data) for name, data in assets.items() if name.endswith(".css")}
    unfit = _unfit_folder(root)
    taken, own_assets, findings = ({}, {}, [unfit]) if unfit else _taken(root / OWN, own=True)
    theirs = {name: data for name, data in own_assets.items() if data != assets.get(name)}
    templates = {name: one for name, one in taken.items() if not _as_shipped(one, shipped.get(name))}
    return Layouts(
        templates={**shipped, **templates},
        shipped=shipped,
        assets=_joined({**assets, **lean, **theirs}),
        findings=tuple(findings),
    )


def _unfit_folder(root: Path) -> Finding | None:
    """Return a finding that says why a garden's folder of layouts cannot be one, or None."""
    folder = root / OWN
    if os.path.lexists(folder) and not folder.is_dir():
        return Finding(
            place=Place(OWN),
            code="not-a-folder",
            found="this is not a folder",
            expected="a folder of that name",
            remedy="put a folder in its place, correct the link, or take it away",
        )
    if folder.is_dir() and not folder.resolve().is_relative_to(root.resolve()):
        return Finding(
            place=Place(OWN),
            code="layout-link",
            found="this link leads out of the garden folder",
            expected="a folder inside it",
            remedy="put a copy in its place",
        )
    return None


def _as_shipped(own: Template, shipped: Template | None) -> bool:
    """Return whether a garden's template is a copy of Tallybed's, which has no mistake to look for."""
    return shipped is not None and own.text == shipped.text


def _lean(sheet: bytes) -> bytes:
    """Return a style sheet of ours as readers fetch it: without comments, indents and most line ends."""
    plain = _COMMENT_OR_MARGIN.sub(b"", b"\n" + sheet.replace(b"\r\n", b"\n")).lstrip()
    return _LINE_END.sub(rb"\1", plain)


def _joined(assets: dict[str, bytes]) -> dict[str, bytes]:
    """Return assets in order of name, the style sheets of ``JOINED`` put together as one."""
    sheets = [assets.pop(name) for name in JOINED if name in assets]
    if sheets:
        assets[JOINED[0]] = b"\n".join(sheet.replace(b"\r\n", b"\n") for sheet in sheets)
    return dict(sorted(assets.items()))


def _taken(folder: Path, *, own: bool) -> tuple[dict[str, Template], dict[str, bytes], list[Finding]]:
    """Return a layouts folder's templates and assets by name, and what is wrong with its other files."""
    templates: dict[str, Template] = {}
    assets: dict[str, bytes] = {}
    findings: list[Finding] = []
    for name, path in _files(folder):
        file = f"{OWN}/{name}"
        if (finding := _unfit(path, file)) is not None:
            findings.append(finding)
        elif path.suffix.lower() in ASSETS:
            assets[name] = path.read_bytes()
        else:
            try:
                text = path.read_bytes().decode("utf-8-sig")
            except UnicodeDecodeError as error:
                findings.append(_not_text(file, error))
            else:
                templates[name] = Template(text=text, file=file if own else f"tallybed/{file}", own=own)
    return templates, assets, findings


def _files(folder: Path) -> Iterator[tuple[str, Path]]:
    """Yield name and path of each file below the folder, by name; hidden ones are left alone."""
    found = []
    for here, folders, files in os.walk(folder):
        folders[:] = [name for name in folders if not name.startswith(".") and name != "__pycache__"]
        for name in files:
            if not name.startswith(".") and not name.endswith("~") and name not in _LEFT_ALONE:
                path = Path(here, name)
                found.append((path.relative_to(folder).as_posix(), path))
    return iter(sorted(found))


def _unfit(path: Path, file: str) -> Finding | None:
    """Return a finding that says why a file of a layouts folder is not taken, or None."""
    if path.is_symlink():
        return Finding(
            place=Place(file),
            code="layout-link",
            found=f"{path.name} is a link to another file",
            expected="a file of its own",
            remedy="put a copy in its place",
        )
    if not path.is_file():
        return Finding(
            place=Place(file),
            code="not-a-file",
            found=f"{path.name} is not an ordinary file",
            expected="a template or a file for the site",
            remedy="take it out",
        )
    if path.suffix.lower() not in TEMPLATES | ASSETS:
        return Finding(
            place=Place(file),
            code="layout-unused",
            severity=Severity.ADVICE,
            found=f"{path.name} is neither a template nor a file for the site, so it is not used",
        )
    if (size := path.stat().st_size) > MOST:
        return Finding(
            place=Place(file),
            code="layout-too-large",
            found=f"{path.name} has {size:,} bytes",
            expected=f"at most {MOST:,}",
        )
    return None


def _not_text(file: str, error: UnicodeDecodeError) -> Finding:
    """Return a finding that a template is not UTF-8, at the line of the first byte that is not."""
    line = error.object[: error.start].count(b"\n") + 1
    return Finding(
        place=Place(file, line),
        code="not-utf-8",
        found=f"byte {error.object[error.start]:#04x} is not text in UTF-8",
        remedy="save the file as UTF-8",
    )
