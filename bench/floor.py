"""The fair floor of a build: what its libraries cost alone, for the very work that the build gives them.

``record`` builds a garden and notes what goes to each library; ``replay`` gives the same to the bare
libraries, in a fresh process: YAML through PyYAML's C loader, prose through Markdown and the cleaner,
drawings through svgwrite without its checks, codes, places of the sun, sums of money, calendars, the feed,
pages through the real templates in a plain environment (compiling included), and the same bytes hashed,
written and flushed. Photographs and pictures to share are ready before both.
"""

from __future__ import annotations

import json
import os
import pickle
import tempfile
import time
from collections.abc import Callable
from dataclasses import dataclass, field
from hashlib import sha256
from pathlib import Path
from typing import Any
from unittest.mock import patch

Tree = tuple[str, dict[str, str], str, tuple["Tree", ...]]
"""An element of a drawing: name, attributes, words, children."""
CLASSES = {
    "svg": "SVG",
    "g": "Group",
    "defs": "Defs",
    "pattern": "Pattern",
    "path": "Path",
    "circle": "Circle",
    "rect": "Rect",
    "line": "Line",
    "text": "Text",
    "tspan": "TSpan",
    "title": "Text",
    "desc": "Text",
}
"""The library's own class of each element; of others its base."""


@dataclass(frozen=True)
class Numbered:
    """A component of a calendar, or a feed."""

    number: int
    kind: str


@dataclass(kw_only=True)
class Record:
    """What one build gave to its libraries."""

    yaml: list[str] = field(default_factory=list)
    prose: list[str] = field(default_factory=list)
    cleaned: list[str] = field(default_factory=list)
    codes: list[tuple[tuple[Any, ...], dict[str, Any]]] = field(default_factory=list)
    suns: list[float] = field(default_factory=list)
    calls: dict[str, bytes] = field(default_factory=dict)
    """Of money, calendars and the feed: each call of a library, packed, so that it loads where it is used."""
    drawings: list[Tree] = field(default_factory=list)
    pages: list[tuple[str, dict[str, Any]]] = field(default_factory=list)
    """Template and data of each page."""
    links: dict[tuple[str, str], str] = field(default_factory=dict)
    templates: dict[str, str] = field(default_factory=dict)
    photographs: dict[str, Any] = field(default_factory=dict)
    files: dict[str, bytes] = field(default_factory=dict)


class _Calls:
    """Calls of libraries, noted by kind: name, what was given, a component or feed by its number."""

    def __init__(self) -> None:
        self.made: dict[str, list[tuple[str, tuple[Any, ...], dict[str, Any]]]] = {}
        self._numbers: dict[int, tuple[Numbered, Any]] = {}

    def noted(self, kind: str, owner: Any, name: str) -> Any:
        """Return what notes each call of an owner's function as long as it is in place."""
        own = getattr(owner, name)

        def both(*given: Any, **named: Any) -> Any:
            told = tuple(self._numbered(one) if isinstance(owner, type) else one for one in given)
            self.made.setdefault(kind, []).append((name, told, named))
            return own(*given, **named)

        return patch.object(owner, name, both)

    def _numbered(self, value: Any) -> Any:
        if type(value).__name__ not in ("Calendar", "Event", "Atom1Feed"):
            return value
        number = Numbered(len(self._numbers), type(value).__name__)
        return self._numbers.setdefault(id(value), (number, value))[0]


def record(garden: Path, site: Path) -> Record:
    """Build a garden into ``site``, and return what went to the libraries on the way."""
    import ephem
    import icalendar
    import markdown
    import nh3
    import segno
    from feedgenerator import Atom1Feed
    from gardens import forget

    from tallybed.drawing.base import svg
    from tallybed.pages.wording import money
    from tallybed.publishing import rendering
    from tallybed.publishing.assets import shipped_folder
    from tallybed.tasks import build as building
    from tallybed.tasks.site import divided

    forget(garden)
    found = Record()
    convert, clean, make, sun = markdown.Markdown.convert, nh3.clean, segno.make, ephem.Date
    markup, written, href = svg._markup, rendering.Rendering._written, rendering.Rendering._href

    def noted(notes: Callable[..., object], work: Callable[..., Any]) -> Callable[..., Any]:
        def both(*given: Any, **named: Any) -> Any:
            notes(*given, **named)
            return work(*given, **named)

        return both

    def day(moment: Any) -> Any:
        found.suns.append(float(sun(moment)))
        return sun(moment)

    def page(self: Any, environment: Any, one: Any) -> bytes:
        found.pages.append((one.template, {**one.data, "page": one}))
        found.photographs = self._pictures
        return written(self, environment, one)

    def linked(self: Any, target: str) -> str:
        found.links[self._here, target] = href(self, target)
        return found.links[self._here, target]

    calls = _Calls()
    texts = found.prose.append
    patches = (
        *(calls.noted("money", money, name) for name in ("format_currency", "format_decimal")),
        *(
            calls.noted("calendars", icalendar.Component, name)
            for name in ("add", "add_component", "to_ical")
        ),
        *(calls.noted("feed", Atom1Feed, name) for name in ("__init__", "add_item", "write")),
        patch.object(markdown.Markdown, "convert", noted(lambda _maker, text: texts(text), convert)),
        patch.object(nh3, "clean", noted(lambda text, **_rest: found.cleaned.append(text), clean)),
        patch.object(segno, "make", noted(lambda *given, **named: found.codes.append((given, named)), make)),
        patch.object(ephem, "Date", day),
        patch.object(svg, "_markup", noted(lambda root: found.drawings.append(_tree(root)), markup)),
        patch.object(rendering.Rendering, "_written", page),
        patch.object(rendering.Rendering, "_href", linked),
        patch.object(divided, "processes_beside", lambda: 0),  # nobody notes what another process does
    )
    for one in patches:
        one.start()
    try:
        built = building.build(garden, site)
    finally:
        for one in patches:
            one.stop()
    if not built.good:
        raise SystemExit(f"{garden} does not build: see tallybed check")
    _require_whole(found, site, built.pages)
    found.calls = {kind: pickle.dumps(made) for kind, made in calls.made.items()}
    library = Path(svg.__file__).parents[2] / "library"
    for path in sorted([*(garden / "content").rglob("*.yaml"), *library.rglob("*.yaml")]):
        found.yaml.append(path.read_text(encoding="utf-8"))
    for path in sorted((garden / "content").rglob("*.md")):
        found.yaml.append(path.read_text(encoding="utf-8").split("---\n", 2)[1])
    found.templates = {
        path.relative_to(shipped_folder()).as_posix(): path.read_text(encoding="utf-8")
        for path in shipped_folder().rglob("*.html")
    }
    found.files = {
        path.relative_to(site).as_posix(): path.read_bytes() for path in site.rglob("*") if path.is_file()
    }
    return found


def _require_whole(found: Record, site: Path, pages: int) -> None:
    """Stop where something went unnoted, or was noted twice."""
    drawn = sum(path.read_text(encoding="utf-8").count("<svg") for path in site.rglob("*.html"))
    if len(found.drawings) > drawn:
        raise SystemExit(f"{len(found.drawings)} drawings were noted of the {drawn} on the pages")
    if len(found.pages) < pages:
        raise SystemExit(f"{len(found.pages)} pages were noted of the {pages} that were made")


def _tree(element: Any) -> Tree:
    children = tuple(map(_tree, element.elements))
    return element.elementname, dict(element.attribs), element.text, children


def replay(found: Record) -> dict[str, float]:
    """Give a record to the bare libraries; return the CPU seconds of each."""
    spent: dict[str, float] = {}
    for name, work in (
        ("yaml", _yaml),
        ("prose", _prose),
        ("codes", _codes),
        ("sun", _suns),
        ("money", _money),
        ("calendars", _calendars),
        ("feed", _feed),
        ("drawings", _drawings),
        ("templates", _templates),
        ("files", _files),
    ):
        started = time.process_time()
        work(found)
        spent[name] = time.process_time() - started
    return spent


def _yaml(found: Record) -> None:
    import yaml

    loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
    for text in found.yaml:
        yaml.load(text, Loader=loader)  # noqa: S506 - a safe loader


def _prose(found: Record) -> None:
    import markdown
    import nh3

    for text in found.prose:
        markdown.markdown(text, extensions=["tables", "sane_lists", "footnotes"], output_format="html")
    for text in found.cleaned:
        nh3.clean(text)


def _codes(found: Record) -> None:
    import segno

    for given, named in found.codes:
        list(segno.make(*given, **named).matrix_iter(scale=1, border=0))


def _suns(found: Record) -> None:
    import ephem

    for day in found.suns:
        ephem.Sun(ephem.Date(day)).g_dec  # noqa: B018 - the library's bare call


def _told(found: Record, kind: str) -> list[tuple[str, tuple[Any, ...], dict[str, Any]]]:
    told: list[tuple[str, tuple[Any, ...], dict[str, Any]]] = pickle.loads(found.calls[kind])  # noqa: S301 - our own
    return told


def _money(found: Record) -> None:
    from babel import numbers

    for name, given, named in _told(found, "money"):
        getattr(numbers, name)(*given, **named)


def _calendars(found: Record) -> None:
    import icalendar

    components: dict[Numbered, Any] = {}

    def made(value: Any) -> Any:
        if not isinstance(value, Numbered):
            return value
        if value not in components:
            components[value] = getattr(icalendar, value.kind)()
        return components[value]

    for name, given, named in _told(found, "calendars"):
        one, *others = map(made, given)
        getattr(one, name)(*others, **named)


def _feed(found: Record) -> None:
    from io import StringIO

    from feedgenerator import Atom1Feed

    for name, (_feed, *given), named in _told(found, "feed"):
        if name == "__init__":
            feed = Atom1Feed(*given, **named)
        elif name == "add_item":
            feed.add_item(*given, **named)
        else:
            feed.write(StringIO(), "utf-8")


def _drawings(found: Record) -> None:
    from xml.etree.ElementTree import tostring

    from svgwrite import base, container, path, pattern, shapes, text

    quiet = base.BaseElement(debug=False)
    kinds = {
        kind.__name__: kind
        for room in (base, container, path, pattern, shapes, text)
        for kind in vars(room).values()
        if isinstance(kind, type)
    }

    def made(tree: Tree) -> Any:
        name, attributes, words, children = tree
        kind = CLASSES.get(name, "BaseElement")
        element = kinds[kind](*([words] if kind in ("Text", "TSpan") else ()), factory=quiet)
        element.elementname = name
        element.attribs = dict(attributes)
        if kind == "Path":
            element.commands = [attributes["d"]]
        if kind == "SVG":
            element.elements.clear()
        for child in children:
            element.add(made(child))
        return element

    for one in found.drawings:
        tostring(made(one).get_xml(), encoding="unicode")


def _templates(found: Record) -> None:
    from jinja2 import DictLoader, Environment, StrictUndefined

    environment = Environment(
        loader=DictLoader(found.templates),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        cache_size=-1,
        auto_reload=False,
    )
    here = [""]
    environment.globals.update(
        href=lambda to: found.links[here[0], to],
        photo=found.photographs.get,
        linked=lambda page, _base: json.dumps(page.linked, default=str),
    )
    for template, data in found.pages:
        here[0] = data["page"].path
        environment.get_template(template).render(data).encode()


def _files(found: Record) -> None:
    with tempfile.TemporaryDirectory() as folder:
        for name, data in found.files.items():
            path = Path(folder, name)
            path.parent.mkdir(parents=True, exist_ok=True)
            sha256(data).hexdigest()
            with path.open("wb") as file:
                file.write(data)
                file.flush()
                os.fsync(file.fileno())


def keep(found: Record, file: Path) -> None:
    """Write a record down for another process."""
    with file.open("wb") as out:
        pickle.dump(found, out)


def kept(file: Path) -> Record:
    """Return a record that was written down by a process of this very file."""
    with file.open("rb") as taken:
        found: Record = pickle.load(taken)  # noqa: S301 - our own, of a moment ago
    return found
