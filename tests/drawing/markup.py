"""Ways for tests to look into a drawing."""

from __future__ import annotations

import re
from itertools import combinations, pairwise
from xml.etree import ElementTree as Tree

from tallybed.drawing.base.lettering import width_of

SVG = "{http://www.w3.org/2000/svg}"
_NUMBER = re.compile(r"-?\d+(?:\.\d+)?")
Box = tuple[float, float, float, float]
"""Left, top, right, bottom."""
_MOVE = re.compile(r"translate\((\S+) (\S+?)\)")


def parsed(markup: str) -> Tree.Element:
    """Return the drawing's root, read as strict XML."""
    return Tree.fromstring(markup)  # noqa: S314 - our own markup


def of_class(root: Tree.Element, name: str) -> list[Tree.Element]:
    """Return the elements of a class, in order."""
    return [each for each in root.iter() if name in (each.get("class") or "").split()]


def words(element: Tree.Element) -> list[str]:
    """Return the texts drawn within an element, in order."""
    return ["".join(each.itertext()).strip() for each in element.iter(f"{SVG}text")]


def corners(data: str) -> list[tuple[float, float]]:
    """Return the places named in path data of M, L, Q and Z alone."""
    if re.search(r"[^MLQZ\d\s.\-]", data):
        raise ValueError(f"other commands in {data[:60]}")
    numbers = [float(each) for each in _NUMBER.findall(data)]
    return list(zip(numbers[::2], numbers[1::2], strict=True))


def area(ring: list[tuple[float, float]]) -> float:
    """Return the signed area of an outline (the shoelace formula)."""
    return sum(ax * by - bx * ay for (ax, ay), (bx, by) in pairwise([*ring, ring[0]])) / 2


def place(plant: Tree.Element) -> tuple[float, float]:
    """Return where a plant is drawn."""
    found = _MOVE.match(plant.get("transform") or "")
    if found is None:
        raise ValueError("a plant without a place")
    return float(found[1]), float(found[2])


def text_box(element: Tree.Element) -> Box:
    """Return what a text takes up: its capitals, from the line it stands on."""
    size = float(element.get("font-size", ""))
    wide = width_of("".join(element.itertext()), size, bold="d-title" in (element.get("class") or ""))
    shift = {"middle": wide / 2, "end": wide}.get(element.get("text-anchor", ""), 0)
    left, base = float(element.get("x", "")) - shift, float(element.get("y", ""))
    return left, base - size * 0.7, left + wide, base


def apart(one: Box, other: Box) -> bool:
    """Return whether two boxes lie clear of each other."""
    return one[2] <= other[0] or other[2] <= one[0] or one[3] <= other[1] or other[3] <= one[1]


def check_texts(root: Tree.Element) -> None:
    """Fail where a text is smaller than 11 units, runs off the sheet or over another text."""
    width, height = (float(each) for each in root.get("viewBox", "").split()[2:])
    found = []
    for each in root.iter(f"{SVG}text"):
        assert float(each.get("font-size", "")) >= 11
        said, box = "".join(each.itertext()), text_box(each)
        assert -0.1 <= box[0] <= box[2] <= width + 0.1, said
        assert 0 <= box[1] <= box[3] <= height, said
        found.append((box, said))
    for (one, said), (other, also) in combinations(found, 2):
        assert apart(one, other), (said, also)
