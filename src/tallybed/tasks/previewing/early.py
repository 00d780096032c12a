"""A site whose pages are made one by one, as they are asked for, ahead of the build that writes them all."""

from __future__ import annotations

import threading
from collections import OrderedDict
from collections.abc import Mapping
from functools import cached_property

from tallybed.pages.catalogue import page_at
from tallybed.pages.frame import addresses
from tallybed.pages.frame.file_pages import newest_entry, pages_of_files
from tallybed.pages.frame.moved import moved
from tallybed.pages.frame.waits_shown import open_notices
from tallybed.publishing.rendering import Rendering, TemplateMistakeError
from tallybed.reckoning.year import Years
from tallybed.tasks.build import warned
from tallybed.tasks.site.laid_out import LaidOut

MOST_PAGES = 40
"""Pages that are kept once they are made: more than anybody has open."""


class EarlySite:
    """The pages of a site that is laid out, each as a build of the same garden makes it, to the byte.

    Several threads may ask; one at a time is answered, since years work out what they are asked.
    """

    def __init__(self, laid: LaidOut, years: Years) -> None:
        self.years = years
        self.flawed = False
        """Whether a garden's own template was found to be at fault."""
        self._laid = laid
        self._rendering = Rendering(laid.layouts, laid.photographs.by_name)
        self._lock = threading.Lock()
        self._pages: OrderedDict[str, bytes | None] = OrderedDict()
        self._warned_of: Years | None = None

    @cached_property
    def places(self) -> Mapping[str, str]:
        """The page of each of the garden's files."""
        with self._lock:
            return pages_of_files(self.years)

    @cached_property
    def newest(self) -> str:
        """The page of the newest entry."""
        with self._lock:
            return newest_entry(self.years)

    @property
    def looks(self) -> Mapping[str, bytes]:
        """The style sheets and signs that pages are shown with, by path."""
        return self._laid.layouts.assets

    def data(self, path: str) -> bytes | None:
        """Return a file's bytes, or None where they are not known before the build ends."""
        ready = self.looks.get(path) or self._laid.photographs.files.get(path)
        if ready is not None:
            return ready
        with self._lock:
            if path not in self.years.paths:
                return None
            return self._noticed(path) if self._warned_of else self._page(path)

    def lacks(self, path: str) -> bool:
        """Return whether the site has no page there, whatever an older one had."""
        return path.endswith(".html") and path not in self._every

    def warn(self, understood: Years) -> None:
        """Put notices that pages lack at their head, as a newer garden that has errors tells them."""
        with self._lock:
            self._warned_of = understood if open_notices(understood) else None

    @cached_property
    def _every(self) -> frozenset[str]:
        with self._lock:
            return self.years.paths.union(path for path, _ in moved(self.years))

    def _page(self, path: str) -> bytes | None:
        """Return a page; None where a garden's own template is at fault, which the build tells."""
        if path in self._pages:
            self._pages.move_to_end(path)
            return self._pages[path]
        page = page_at(self.years, path)
        try:
            made = self._rendering.page(page) if page else None
        except TemplateMistakeError:
            made, self.flawed = None, True
        self._pages[path] = made
        if len(self._pages) > MOST_PAGES:
            self._pages.popitem(last=False)
        return made

    def _noticed(self, path: str) -> bytes | None:
        """Return a page with the notices that it lacks."""
        wanted = {one: self._page(one) for one in (path, addresses.CAUTIONS)}
        known = {one: data for one, data in wanted.items() if data is not None}
        return warned(known, self._warned_of).get(path) if self._warned_of else known.get(path)
