"""A garden followed while it is written: what can be shown at once, then the site that is built apart."""

from __future__ import annotations

import queue
import threading
import time
import traceback
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Protocol

from tallybed.garden.findings import worded
from tallybed.publishing.swap.machine import machine_words
from tallybed.server.answers import Pages, Serving
from tallybed.server.findings_panel import News

CALM = 0.4
"""Seconds without another change before a build begins: who waits for a page goes first."""
_LOOK = 0.5
"""Seconds between looks at whether the preview was ended."""
CHANGED = None
"""The event that something in the garden has changed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """What is known of a garden right after a change, and what can be shown of it."""

    news: News
    pages: Pages | None = None
    """None where the folder is shown."""


class Building(Protocol):
    """A build that is going on."""

    def news(self) -> Iterator[News]:
        """Yield what is known, each time it is more; the last is marked as ended."""

    def end(self) -> None:
        """End it, done or not."""


class Work(Protocol):
    """What is done at a change."""

    def look(self) -> Look:
        """Read the garden and return what can be shown of it now."""

    def build(self, folder: Path) -> Building:
        """Begin to build the site into a folder; it is left alone on errors."""

    def settle(self, news: News, look: Look) -> Look:
        """Return what is to be shown once a build of what ``look`` saw has ended with ``news``."""


Event = tuple[Building, News] | None
"""News of a build, or ``CHANGED``."""


class Following:
    """Shows each change as soon as it can be shown, and the whole site when it is built."""

    def __init__(self, work: Work, folder: Path, serving: Serving, say: Callable[[str], None]) -> None:
        self._work = work
        self._folder = folder
        self._serving = serving
        self._say = say
        self._events: queue.SimpleQueue[Event] = queue.SimpleQueue()
        self._building: Building | None = None

    def changed(self) -> None:
        """Take note that something in the garden has changed; from any thread."""
        self._events.put(CHANGED)

    def run(self) -> None:
        """Follow the garden until KeyboardInterrupt."""
        calm = 0.0
        try:
            while True:
                began = time.perf_counter()
                look = self._look()
                if look is None or not self._next(calm):
                    self._wait_for_change(look, began)
                self._end_building()
                calm = CALM
        finally:
            self._end_building()

    def _look(self) -> Look | None:
        """Show what can be shown at once; return it, or None where the garden cannot be read."""
        while not self._events.empty():  # what has changed up to now is seen now
            self._events.get()
        try:
            look = self._work.look()
        except Exception as error:
            self._trouble(error)
            return None
        self._serving.show(look.news, look.pages)
        return look

    def _next(self, seconds: float) -> bool:
        """Return whether something changes within some seconds."""
        end = time.monotonic() + seconds
        while (left := end - time.monotonic()) > 0:
            try:
                if self._events.get(timeout=left) is CHANGED:
                    return True
            except queue.Empty:
                break
        return False

    def _wait_for_change(self, look: Look | None, began: float) -> None:
        """Build what was seen, and show what comes of it, until something changes."""
        if look is not None:
            self._begin_building()
        while True:
            try:
                event = self._events.get(timeout=_LOOK)
            except queue.Empty:
                continue
            if event is CHANGED:
                return
            of, news = event
            if of is self._building and look is not None:
                self._heard(news, look, began)

    def _begin_building(self) -> None:
        """Begin to build, and listen to it."""
        try:
            self._building = self._work.build(self._folder)
        except OSError as error:
            self._trouble(error)
            return
        threading.Thread(target=self._listen, args=(self._building,), daemon=True).start()

    def _listen(self, building: Building) -> None:
        """Hand on what a build tells."""
        news = News()
        for news in building.news():
            self._events.put((building, news))
        if not news.ended:
            self._events.put(
                (building, News(trouble="The build ended before the site was made.", ended=True))
            )

    def _heard(self, news: News, look: Look, began: float) -> None:
        """Show what a build tells."""
        if not news.ended:
            self._serving.show(news, look.pages)
            return
        for finding in news.findings:
            self._say(worded(finding))
        settled = self._work.settle(news, look)
        self._serving.show(settled.news, settled.pages)
        if news.trouble:
            self._say(news.trouble)
        elif news.errors:
            self._say("The content has errors; the page shows the last good site.")
        else:
            self._say(f"Built in {time.perf_counter() - began:.1f} seconds.")

    def _trouble(self, error: Exception) -> None:
        """Tell of trouble with a folder or disk, or of a mistake of the program's; neither ends anything."""
        if isinstance(error, OSError):
            self._say(machine_words(error))
            self._serving.trouble(machine_words(error))
        else:
            self._say("".join(traceback.format_exception(error)))
            self._serving.trouble(f"{type(error).__name__}: {error}")

    def _end_building(self) -> None:
        """End the build that is going on, if one is."""
        if self._building is not None:
            self._building.end()
            self._building = None
