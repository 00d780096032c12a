"""Markdown from the gardener, as markup that is safe to stand on a page.

HTML typed among the Markdown is shown as typed; pictures become their
descriptions; headings move below the page's own, without gaps; links of the
site's own kinds (``crop:carrot``, ``entry:2026-04-19-peas-are-up``,
``/crops/carrot/``) are turned into relative ones; straight quotes become curly, as all
of the site has them. What comes out is cleaned
once more, so that nothing but plain text elements can reach a page.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from functools import lru_cache
from threading import get_ident
from xml.etree.ElementTree import Element

import nh3
from markdown import Markdown
from markdown.extensions.footnotes import FootnoteExtension
from markdown.extensions.sane_lists import SaneListExtension
from markdown.extensions.smarty import SmartyExtension
from markdown.extensions.tables import TableExtension
from markdown.inlinepatterns import AUTOMAIL_RE, InlineProcessor
from markdown.treeprocessors import Treeprocessor
from markdown.util import AtomicString
from markupsafe import Markup

from tallybed.garden.invisible import UNSEEN

Resolve = Callable[[str], str | None]
"""From a link as typed to the link as written; None where it leads nowhere."""

_TAGS = {
    *("p", "h2", "h3", "h4", "h5", "h6", "ul", "ol", "li", "strong", "em", "code", "pre", "blockquote", "a"),
    *("table", "thead", "tbody", "tr", "th", "td", "sup", "hr", "br", "div"),
}
_ATTRIBUTES = {
    "a": {"href", "title", "class"},
    "li": {"id"},
    "sup": {"id"},
    "ol": {"start"},
    "th": {"scope", "class"},
    "td": {"class"},
    "div": {"class", "tabindex", "role", "aria-label"},
}
_CLASSES = {
    "a": {"footnote-ref", "footnote-backref"},
    "th": {"number", "middle"},
    "td": {"number", "middle"},
    "div": {"footnote", "frame"},
}
_ALIGNED = {"text-align: right;": "number", "text-align: center;": "middle"}
_OUTSIDE = re.compile(r"(?:https?://|mailto:)\S+\Z", re.IGNORECASE)
_DEEPEST = 6
_KEPT_SIGN = re.compile("\x02([0-9]+)\x03")
"""How the library writes a sign that a backslash stands before, while it works."""


def no_link(_link: str) -> str | None:
    """Resolve no link of the site's own."""
    return None


def outside(link: str) -> bool:
    """Return whether a link leads out of the site by a scheme that is let through."""
    return bool(_OUTSIDE.match(link.strip()))


def prose(text: str, *, ident: str, below: int = 1, resolve: Resolve = no_link) -> Markup:
    """Return Markdown as clean markup.

    ``ident`` begins every id, so that two texts can stand on one page; ``below``
    is the level of the heading the text stands under (1 to 5).
    """
    if not text.strip():
        return Markup("")
    try:
        markup = _converted(text, below, resolve)
    except RecursionError:  # reading refuses such a text at its place; this keeps every caller whole
        return _plain(text)
    return _cleaned(markup, f"{ident}-")


@lru_cache(maxsize=4096)
def typed_links(text: str) -> tuple[str, ...]:
    """Return the links of the site's own kinds that stand in a text, as typed and in order."""
    if "[" not in text and "<" not in text:  # one of them begins each kind of link
        return ()
    found: list[str] = []

    def take_down(link: str) -> None:
        found.append(link)

    try:
        _converted(text, 1, take_down)
    except RecursionError:  # a text that reading refuses at its place
        return ()
    return tuple(found)


def _converted(text: str, below: int, resolve: Resolve) -> str:
    """Return Markdown as HTML that is still to be cleaned. Raises RecursionError."""
    maker, housework = _maker(get_ident())
    housework.below, housework.resolve = below, resolve
    try:
        return maker.reset().convert(text)
    except RecursionError:
        _maker.cache_clear()  # it was left in the middle of its work
        raise


@lru_cache(maxsize=4)
def _maker(thread: int) -> tuple[Markdown, _Housework]:
    """Return what makes Markdown into HTML in a thread, and its part that is told where a text stands.

    It takes longer to make than most texts take to convert. Extensions are given as such: by a name they
    would be looked for among all that is installed.
    """
    del thread
    maker = Markdown(
        extensions=[
            TableExtension(),
            SaneListExtension(),
            SmartyExtension(smart_dashes=False, smart_ellipses=False),
            FootnoteExtension(BACKLINK_TEXT="back", BACKLINK_TITLE="Back to where note {} is cited"),
        ],
        output_format="html",
    )
    maker.preprocessors.deregister("html_block")
    maker.inlinePatterns.deregister("html")
    maker.inlinePatterns.register(_Mail(AUTOMAIL_RE, maker), "automail", 110)
    housework = _Housework(maker)
    maker.treeprocessors.register(housework, "housework", 1)
    return maker, housework


def _plain(text: str) -> Markup:
    """Return a text as paragraphs of what was typed."""
    parts = (" ".join(UNSEEN.sub("", part).split()) for part in text.split("\n\n"))
    return Markup("\n").join(Markup("<p>{}</p>").format(part) for part in parts if part)


def _with_signs(text: str) -> str:
    """Return a text with the signs that were typed with a backslash for the marks the library puts there."""
    return _KEPT_SIGN.sub(lambda mark: chr(int(mark[1])), text)


class _Mail(InlineProcessor):
    """A mail address in angle brackets, its signs with a backslash taken as they are meant."""

    def handleMatch(  # type: ignore[override]  # noqa: N802 - as the library's own of this kind
        self, m: re.Match[str], data: str
    ) -> tuple[Element, int, int]:
        del data
        typed = _with_signs(self.unescape(m[1]))
        address = UNSEEN.sub("", typed).removeprefix("mailto:")
        link = Element("a", {"href": f"mailto:{address}"})
        link.text = AtomicString(address)
        return link, m.start(0), m.end(0)


class _Housework(Treeprocessor):
    """Changes the tree of a text to suit the page it stands on."""

    def __init__(self, maker: Markdown) -> None:
        super().__init__(maker)
        self.below = 1
        """The level of the heading that the text stands under."""
        self.resolve: Resolve = no_link

    def run(self, root: Element) -> None:
        """Change the tree in place."""
        _demote(root, self.below)
        for element in list(root.iter()):
            if element.tag == "img":
                _describe(element)
            elif element.tag == "a":
                self._link(element)
            elif element.tag in ("th", "td"):
                _align(element)
        _frame_tables(root)

    def _link(self, element: Element) -> None:
        """Turn one link into a relative one, or into plain words where it leads nowhere."""
        href = _with_signs(element.get("href", ""))
        if element.get("class") in _CLASSES["a"] or outside(href):
            return
        found = self.resolve(href)
        if found is None:
            element.tag = "span"
            element.attrib.clear()
        else:
            element.set("href", found)


def _demote(root: Element, below: int) -> None:
    """Put headings below the level given, keeping their order and leaving no gap."""
    open_levels: list[int] = []
    for element in root.iter():
        if not re.fullmatch("h[1-6]", str(element.tag)):
            continue
        level = int(element.tag[1])
        while open_levels and open_levels[-1] >= level:
            open_levels.pop()
        open_levels.append(level)
        element.tag = f"h{min(below + len(open_levels), _DEEPEST)}"


def _describe(image: Element) -> None:
    """Turn a picture into its description."""
    image.tag, image.text = "em", image.get("alt", "")
    image.attrib.clear()


def _align(cell: Element) -> None:
    """Turn a cell's alignment into a class, and say that a heading is a column's."""
    style = cell.attrib.pop("style", "")
    if style in _ALIGNED:
        cell.set("class", _ALIGNED[style])
    if cell.tag == "th":
        cell.set("scope", "col")


def _frame_tables(root: Element) -> None:
    """Put each table into a frame that scrolls by itself."""
    for parent, place, table in list(_tables(root)):
        frame = Element(
            "div", {"class": "frame", "tabindex": "0", "role": "group", "aria-label": "Table in the text"}
        )
        frame.append(table)
        frame.tail, table.tail = table.tail, None
        parent[place] = frame


def _tables(root: Element) -> Iterator[tuple[Element, int, Element]]:
    """Yield each table with what it stands in and at which place."""
    for parent in root.iter():
        for place, child in enumerate(parent):
            if child.tag == "table":
                yield parent, place, child


def _cleaned(markup: str, prefix: str) -> Markup:
    """Return markup without all that may not stand on a page; ``prefix`` begins its ids."""

    def kept(tag: str, name: str, value: str) -> str | None:
        if name == "href" and value.startswith("#"):
            return f"#{prefix}{value[1:]}" if value.startswith("#fn") else None
        if name == "id":
            return f"{prefix}{value}" if value.startswith("fn") else None
        if name == "class":
            allowed = _CLASSES.get(tag, set())
            return value if value in allowed else None
        return value

    clean = nh3.clean(
        markup,
        tags=_TAGS,
        attributes=_ATTRIBUTES,
        attribute_filter=kept,
        url_schemes={"http", "https", "mailto"},
        link_rel=None,
    )
    # What a reference such as &#2; stands for is a sign by now.
    return Markup(UNSEEN.sub("", clean))  # noqa: S704 - made safe on the line before


_PARAGRAPH = re.compile(r"<p>(.*?)</p>", re.DOTALL)
_NOTE_MARK = re.compile(r"<sup .*?</sup>", re.DOTALL)


def first_paragraph(text: str, *, ident: str, resolve: Resolve = no_link) -> Markup:
    """Return the first paragraph of a text as clean markup, without the marks of its footnotes.

    The markup searched is the cleaned one, in which a paragraph holds no paragraph.
    """
    found = _PARAGRAPH.search(prose(text, ident=ident, resolve=resolve))
    return Markup(_NOTE_MARK.sub("", found[0])) if found else Markup("")  # noqa: S704 - part of clean markup
