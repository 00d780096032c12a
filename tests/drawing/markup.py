"""Ways for tests to look into a drawing."""

from __future__ import annotations

import re
from itertools import pairwise
from xml.etree import ElementTree as Tree

SVG = "{http://www.w3.org/2000/svg}"
_NUMBER = re.compile(r"-?\d+(?:\.\d+)?")
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


def rings(data: str) -> list[list[tuple[float, float]]]:
    """Return the closed outlines in path data of straight lines."""
    return [corners(part) for part in data.split("Z") if part]


def area(ring: list[tuple[float, float]]) -> float:
    """Return the signed area of an outline (the shoelace formula)."""
    return sum(ax * by - bx * ay for (ax, ay), (bx, by) in pairwise([*ring, ring[0]])) / 2


def place(plant: Tree.Element) -> tuple[float, float]:
    """Return where a plant is drawn."""
    found = _MOVE.match(plant.get("transform") or "")
    if found is None:
        raise ValueError("a plant without a place")
    return float(found[1]), float(found[2])
