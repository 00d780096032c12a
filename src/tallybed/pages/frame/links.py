"""Links that gardeners type in prose, and the pages they lead to.

``crop:carrot`` and ``entry:2026-04-19-peas-are-up`` name what they lead to; ``/2026/plan/`` and
``../plan/`` name a page's folder. Each may go on with ``#`` and a place on the page.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from posixpath import dirname, join, normpath
from urllib.parse import unquote

from tallybed.garden.findings import Finding, Place, quoted
from tallybed.garden.naming import Names, nearest
from tallybed.pages.frame import addresses
from tallybed.pages.frame.moved import moved
from tallybed.pages.frame.relative import relative
from tallybed.pages.wording.prose import typed_links
from tallybed.reckoning.year import Years

CROP, ENTRY = "crop", "entry"
_EXPECTED = "a page such as /crops/, crop:carrot or entry:2026-04-19-peas-are-up"
_REMEDY = "correct it; an address elsewhere begins with https://"


Asked = dict[tuple[str, str], str | None]
"""For links as typed, each with the page it stands on: the page it leads to, None for nowhere."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Targets:
    """What a link can lead to."""

    paths: frozenset[str]
    entries: Mapping[str, str]
    """Where each entry lies, by its day and slug as they are now, and as they first were."""
    crops: Names
    moved: Mapping[str, str]
    """Addresses whose page has become part of another, each with that page."""


def resolver(years: Years, here: str) -> Callable[[str], str | None]:
    """Return what turns a link typed on the page ``here`` into a relative one, or into None.

    Links of closed seasons may lead to later ones: what they were told is noted.
    """
    targets, asked = _targets(years.whole or years), years.kept("links asked", _none_asked)

    def resolve(typed: str) -> str | None:
        words, sign, part = typed.strip().partition("#")
        target = asked[words, here] = _target(targets, words, here)
        return None if target is None else relative(here, target) + sign + part

    return resolve


def _none_asked() -> Asked:
    """Return an empty note."""
    return {}


def links_asked(years: Years) -> Asked:
    """Return where each link led that was resolved so far."""
    return years.kept("links asked", _none_asked)


def lead_the_same(years: Years, asked: Asked) -> bool:
    """Return whether links lead where they led before."""
    targets = _targets(years)
    return all(_target(targets, words, here) == target for (words, here), target in asked.items())


def nowhere_links(years: Years, whole: Years) -> Iterator[Finding]:
    """Find the links typed in prose that lead nowhere.

    ``whole`` holds all that the garden's files tell, also what waits or is left out of
    ``years``: a link to a page that is only not there yet stays plain text, and nobody is told.
    """
    for here, text, begins in _texts(years):
        met: dict[str, int] = {}
        for typed in typed_links(text):
            number = met.setdefault(typed, 0)
            met[typed] += 1
            if resolver(years, here)(typed) is None and resolver(whole, here)(typed) is None:
                yield _nowhere(_targets(years), typed, here, _place(text, typed, number, begins))


def _texts(years: Years) -> Iterator[tuple[str, str, Place]]:
    """Yield page, text and place of each text that links can stand in."""
    for leaf in years.garden.leaves:
        yield addresses.leaf(years, leaf), leaf.prose, leaf.prose_begins
    for question in years.garden.questions:
        yield addresses.question(question), question.answer, question.answer_begins
    for year in years.all:
        for entry in year.entries:
            yield addresses.entry(year, entry), entry.prose, entry.prose_begins


def _targets(years: Years) -> _Targets:
    """Return the site's pages, its entries by day and slug, and what crops are called: once for a site."""
    return years.kept("link targets", lambda: _gathered(years))


def _gathered(years: Years) -> _Targets:
    """Return what links can lead to, gathered from all seasons; a file's name now goes before a first one."""
    entries: dict[str, str] = {}
    for year in years.all:
        for one in year.entries:
            entries[f"{one.day.isoformat()}-{one.slug}"] = addresses.entry(year, one)
            entries.setdefault(one.known_as, addresses.entry(year, one))
    leads = {path: to.to for path, to in moved(years)}
    return _Targets(paths=years.paths, entries=entries, crops=Names.of(years.garden.crops), moved=leads)


def _target(targets: _Targets, typed: str, here: str) -> str | None:
    """Return the path of the page that a link names, or None where there is no such page."""
    kind, _, rest = typed.partition(":")
    target: str | None
    if kind == CROP:
        slugs = targets.crops.find(unquote(rest))
        target = addresses.crop_of(slugs[0]) if len(slugs) == 1 else None
    elif kind == ENTRY:
        target = targets.entries.get(unquote(rest))
    else:
        path = _page(typed, here)
        target = targets.moved.get(path, path)
    return target if target in targets.paths else None


def _page(typed: str, here: str) -> str:
    """Return the path that plain folders name: ``/crops/carrot/`` from the site's top, else from here."""
    path = unquote(typed)
    whole = path.lstrip("/") if path.startswith("/") else normpath(join(dirname(here), path))
    if whole.endswith("index.html"):
        return whole
    return join(whole, "index.html").removeprefix("./")


def _nowhere(targets: _Targets, typed: str, here: str, place: Place) -> Finding:
    """Return the finding for a link that leads nowhere."""
    kind, _, rest = typed.partition(":")
    slugs = targets.crops.find(unquote(rest)) if kind == CROP else ()
    if slugs:
        return Finding(
            place=place,
            code="link-nowhere",
            found=f"the link {quoted(typed)} may mean several crops",
            expected=" or ".join(f"{CROP}:{slug}" for slug in slugs),
            remedy="name one of them",
        )
    return Finding(
        place=place,
        code="link-nowhere",
        found=f"the link {quoted(typed)} leads to no page of this site",
        expected=_EXPECTED,
        nearest=_nearest(targets, typed, here),
        remedy=_REMEDY,
    )


def _nearest(targets: _Targets, typed: str, here: str) -> str:
    """Return the link most like one that leads nowhere, or an empty text where none is near."""
    kind, colon, rest = typed.partition(":")
    if kind == CROP:
        slugs = targets.crops.find(targets.crops.nearest(unquote(rest)))
        return f"{CROP}:{slugs[0]}" if slugs else ""
    if kind == ENTRY:
        near = nearest(unquote(rest), targets.entries)
        return f"{ENTRY}:{near}" if near else ""
    if colon:
        return ""
    folders = (f"/{path.removesuffix('index.html')}" for path in targets.paths)
    return nearest(f"/{_page(typed.partition('#')[0], here).removesuffix('index.html')}", folders)


def _place(text: str, typed: str, number: int, begins: Place) -> Place:
    """Return where a link stands: the one of that number among those typed alike, as far as can be seen."""
    found = [one.start() for one in re.finditer(rf"(?<=[(<\s]){re.escape(typed)}(?=[)>\s]|\Z)", text)]
    if not found:
        return begins
    start = found[min(number, len(found) - 1)]
    above = text.count("\n", 0, start)
    return Place(begins.file, begins.line + above, start - text.rfind("\n", 0, start))
