"""Files for programs that walk the web: what pages there are, and that they may be read."""

from __future__ import annotations

from collections.abc import Iterable
from xml.etree.ElementTree import Element, SubElement, indent, tostring

from tallybed.pages.frame import addresses

_SITEMAPS = "http://www.sitemaps.org/schemas/sitemap/0.9"


def sitemap(base: str, paths: Iterable[str]) -> bytes:
    """Return the list of a site's pages as absolute addresses.

    Source: sitemaps.org, protocol 0.9. The dates of change that it allows are left
    out: a page knows the day it speaks as of, not the day its words last changed.
    """
    root = Element("urlset", {"xmlns": _SITEMAPS})
    for path in sorted(paths):
        SubElement(SubElement(root, "url"), "loc").text = addresses.absolute(base, path)
    indent(root)
    whole: bytes = tostring(root, encoding="utf-8", xml_declaration=True)
    return (
        whole.replace(b"<?xml version='1.0' encoding='utf-8'?>", b'<?xml version="1.0" encoding="UTF-8"?>')
        + b"\n"
    )


def robots(base: str) -> bytes:
    """Return ``robots.txt``: everything may be read.

    Source: RFC 9309. Programs look for it at the top of a host only, so it has no
    effect where a garden's site lies in a folder below another's.
    """
    lines = ["User-agent: *", "Allow: /"]
    if base:
        lines += ["", f"Sitemap: {addresses.absolute(base, addresses.SITEMAP)}"]
    return "\n".join([*lines, ""]).encode()
