"""A thin helper over svgwrite: plain shapes in, markup for inside an HTML page out.

Ids are always given, never counted, so the same drawing is the same bytes.
The root carries no version, profile or foreign namespace: they have no place
inside HTML. Numbers are written with at most two decimals.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache
from xml.sax.saxutils import escape

from svgwrite.base import BaseElement

from tallybed.drawing.base import look

_SETTINGS = BaseElement(debug=False)._parameter
"""What every element shares: without it each would check its attributes anew."""
_NO_CHAR = dict.fromkeys([*range(9), 11, 12, *range(14, 32), 0xFFFE, 0xFFFF])
_ON_LINES_OF_THEIR_OWN = frozenset({"svg", "defs", "g", "a", "pattern"})


class Element(BaseElement):  # type: ignore[misc] # the library ships no types
    """An element of a drawing, made whole: the library's classes each begin with defaults and checks."""

    def __init__(
        self, name: str, attributes: dict[str, str], children: Iterable[Element] = (), words: str = ""
    ) -> None:
        """Make an element of attributes that are text already."""
        self._parameter = _SETTINGS
        self.elementname = name
        self.attribs = attributes
        self.elements = list(children)
        self.text = words


@lru_cache(maxsize=10_000)
def num(value: float, places: int = 2) -> str:
    """Return a number as markup: ``places`` decimals at most, no trailing noise, never ``-0``."""
    text = f"{float(value):.{places}f}"
    if places:
        text = text.rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def points(corners: Iterable[tuple[float, float]], *, closed: bool = True) -> str:
    """Return path data of straight lines through ``corners``."""
    places = "L".join([f"{num(x)} {num(y)}" for x, y in corners])
    if not places:
        return ""
    return f"M{places}Z" if closed else f"M{places}"


def group(*children: Element, **attributes: object) -> Element:
    """Return a group of ``children``."""
    return _element("g", {}, attributes, children)


def defs(*children: Element) -> Element:
    """Return definitions that ``use`` and patterns point to."""
    return Element("defs", {}, children)


def link(href: str, words: str, *children: Element, **attributes: object) -> Element:
    """Return ``children`` as a link to ``href``, named ``words`` for those who do not see it."""
    return _element("a", {}, {"href": href, "aria_label": words, **attributes}, children)


def path(data: str, **attributes: object) -> Element:
    """Return a path."""
    return _element("path", {"d": data}, attributes)


def circle(x: float, y: float, radius: float, **attributes: object) -> Element:
    """Return a circle. Raises ValueError for a negative radius."""
    _not_negative(radius)
    return _element("circle", {"cx": num(x), "cy": num(y), "r": num(radius)}, attributes)


def rect(x: float, y: float, width: float, height: float, **attributes: object) -> Element:
    """Return a rectangle. Raises ValueError for a negative side."""
    _not_negative(width, height)
    box = {"x": num(x), "y": num(y), "width": num(width), "height": num(height)}
    return _element("rect", box, attributes)


def line(x1: float, y1: float, x2: float, y2: float, **attributes: object) -> Element:
    """Return a straight line."""
    return _element("line", {"x1": num(x1), "y1": num(y1), "x2": num(x2), "y2": num(y2)}, attributes)


def text(
    x: float, y: float, words: str, size: float, *, turn: float = 0, halo: float = 0, **attributes: object
) -> Element:
    """Return one line of text with its baseline at ``y``; ``turn`` in degrees about that point.

    ``halo``: width of a rim in the paper's colour that keeps it readable over lines.
    """
    place = {"x": num(x), "y": num(y), "font-size": num(size), "fill": "currentColor", "stroke": "none"}
    if turn:
        place["transform"] = f"rotate({num(turn)} {num(x)} {num(y)})"
    if halo:
        place |= {"stroke-width": num(halo), "paint-order": "stroke"}
        attributes["class_"] = f"{attributes.get('class_', '')} d-halo".strip()
    return _element("text", place, attributes, words=words)


def runs(x: float, y: float, *parts: tuple[str, float, str]) -> Element:
    """Return one line of text in parts of (words, size, class), a space between each two.

    The space is a character, not a move: so the parts are apart for those who hear or copy them too.
    """
    element = text(x, y, "", parts[0][1])
    for index, (words, size, name) in enumerate(parts):
        spoken = f" {words}" if index else words
        element.elements.append(_element("tspan", {"font-size": num(size)}, {"class_": name}, words=spoken))
    return element


def use(ident: str, x: float, y: float, turn: float = 0, **attributes: object) -> Element:
    """Return a use of a definition, its origin at ``x``, ``y``, turned ``turn`` degrees."""
    move = f"translate({num(x)} {num(y)})" + (f"rotate({num(turn)})" if turn else "")
    return _element("use", {"href": f"#{ident}", "transform": move}, attributes)


def pattern(ident: str, width: float, height: float, *children: Element, **attributes: object) -> Element:
    """Return a pattern of tiles, in the drawing's own units."""
    _not_negative(width, height)
    tile = {"id": ident, "width": num(width), "height": num(height), "patternUnits": "userSpaceOnUse"}
    return _element("pattern", tile, attributes, children)


def sheet(
    ident: str,
    width: float,
    height: float,
    *children: Element,
    title: str,
    desc: str = "",
    linked: bool = False,
    **attributes: object,
) -> str:
    """Return the markup of a whole drawing.

    Without links it is one image, named by ``title`` and told by ``desc``; with
    links it is a group, so that they can be reached.
    """
    _not_negative(width, height)
    names: dict[str, object] = {
        "id": ident,
        "role": "group" if linked else "img",
        "aria_labelledby": f"{ident}-title",
        "aria_describedby": f"{ident}-desc" if desc else None,
        "width": round(width * look.GROWS),
    }
    root = _root(width, height, children, names | attributes)
    root.elements.insert(0, _words("title", f"{ident}-title", title))
    if desc:
        root.elements.insert(1, _words("desc", f"{ident}-desc", desc))
    return _markup(root)


def swatch(width: float, height: float, *children: Element, **attributes: object) -> str:
    """Return the markup of a small drawing beside words that say the same: hidden from readers aloud."""
    size = {"width": num(width), "height": num(height), "aria_hidden": "true"}
    return _markup(_root(width, height, children, size | attributes))


def _root(width: float, height: float, children: Iterable[Element], attributes: dict[str, object]) -> Element:
    """Return the element of a whole drawing of that size in units."""
    plain = {
        "xmlns": "http://www.w3.org/2000/svg",
        "viewBox": f"0 0 {num(width)} {num(height)}",
        "fill": "none",
        "stroke": "currentColor",
    }
    return _element("svg", plain, attributes, children)


def _words(name: str, ident: str, words: str) -> Element:
    """Return a title or description."""
    return _element(name, {"id": ident}, {}, words=words)


def _element(
    name: str,
    own: dict[str, str],
    attributes: dict[str, object],
    children: Iterable[Element] = (),
    words: str = "",
) -> Element:
    """Return an element of its own and other attributes: ``class_`` is ``class``, ``data_x`` ``data-x``."""
    for key, value in attributes.items():
        if isinstance(value, str):
            own[_key(key)] = value if value.isprintable() else _printable(value)
        elif value is not None:
            own[_key(key)] = num(value) if isinstance(value, float | int) else _printable(str(value))
    return Element(name, own, children, words if words.isprintable() else _printable(words))


@lru_cache(maxsize=1000)
def _key(name: str) -> str:
    """Return the name of an attribute as markup has it."""
    return name.rstrip("_").replace("_", "-")


def _markup(root: Element) -> str:
    """Return a drawing as text. Each passes here once: bench/floor.py takes note of it.

    The library's own way leads through a second tree, which costs half of all drawing.
    """
    return _written(root)


def _written(element: Element) -> str:
    """Return an element as text: empty attributes left out, children of groups on lines of their own."""
    name, words, children = element.elementname, element.text, element.elements
    attributes = "".join(map(_attribute, element.attribs.items()))
    if not children:
        return f"<{name}{attributes}>{_escaped(words)}</{name}>" if words else f"<{name}{attributes} />"
    inner = list(map(_written, children))
    if name in _ON_LINES_OF_THEIR_OWN:
        lines = "\n".join(inner)
        return f"<{name}{attributes}>\n{lines}\n</{name}>"
    return f"<{name}{attributes}>{_escaped(words)}{''.join(inner)}</{name}>"


@lru_cache(maxsize=5_000)
def _escaped(words: str) -> str:
    """Return words as they stand between tags."""
    return escape(words)


@lru_cache(maxsize=10_000)
def _attribute(named: tuple[str, str]) -> str:
    """Return an attribute as it stands in a tag, with a space before it; nothing for an empty one."""
    name, value = named
    if not value:
        return ""
    inside = escape(value, {'"': "&quot;", "\r": "&#13;", "\n": "&#10;", "\t": "&#09;"})
    return f' {name}="{inside}"'


def _printable(words: str) -> str:
    """Drop characters that XML 1.0 (5th edition, production 2, Char) does not allow."""
    return words if words.isprintable() else words.translate(_NO_CHAR)


def _not_negative(*sizes: float) -> None:
    """Raise ValueError where a size is below nothing."""
    if any(size < 0 for size in sizes):
        raise ValueError(f"a size below nothing: {sizes}")
