"""A garden followed change by change, with work that only notes what it is asked."""

from __future__ import annotations

import queue
import threading
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path

import pytest
from werkzeug.test import Client

from tallybed.garden.findings import Finding, Place
from tallybed.server.answers import Serving
from tallybed.server.findings_panel import News
from tallybed.server.following import Following, Look

PATIENCE = 10.0
PLACES = {"content/": "index.html"}


@dataclass
class One:
    """A site of a single page that says which state of the garden it shows."""

    state: int
    looks: Mapping[str, bytes] = field(default_factory=dict)

    def data(self, path: str) -> bytes | None:
        return f"<body>state {self.state}</body>".encode() if path == "index.html" else None

    def lacks(self, path: str) -> bool:
        return path == "gone.html"


class Build:
    """A build that ends when the test says so."""

    def __init__(self, state: int) -> None:
        self.state = state
        self.ended = False
        self.tell: queue.SimpleQueue[News | None] = queue.SimpleQueue()

    def news(self) -> Iterator[News]:
        while (news := self.tell.get()) is not None:
            yield news

    def end(self) -> None:
        self.ended = True
        self.tell.put(None)


class Garden:
    """The work on a garden whose state is a number."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.state = 1
        self.builds: list[Build] = []
        self.fails: Exception | None = None

    def look(self) -> Look:
        if self.fails:
            raise self.fails
        return Look(news=News(places=PLACES), pages=One(self.state))

    def build(self, folder: Path) -> Build:
        assert folder == self.folder
        self.builds.append(Build(self.state))
        return self.builds[-1]

    def settle(self, news: News, look: Look) -> Look:
        return Look(news=news, pages=look.pages if news.trouble else None)

    def written(self) -> None:
        """Do what a build does that comes to its end."""
        build = self.builds[-1]
        self.folder.mkdir(exist_ok=True)
        (self.folder / "index.html").write_text(f"<body>state {build.state}, built</body>")
        build.tell.put(News(places=PLACES, ended=True))


class Ended(BaseException):
    """What ends the following thread of a test."""


@dataclass
class Scene:
    garden: Garden
    following: Following
    client: Client
    said: list[str]

    def page(self) -> str:
        return self.client.get("/").text

    def change(self) -> None:
        self.garden.state += 1
        self.following.changed()


@pytest.fixture
def scene(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Scene]:
    monkeypatch.setattr("tallybed.server.following.CALM", 0.05)
    garden, said = Garden(tmp_path / "site"), []
    serving = Serving(garden.folder)
    following = Following(garden, garden.folder, serving, said.append)
    thread = threading.Thread(target=_run, args=(following,))
    thread.start()
    try:
        yield Scene(garden, following, Client(serving), said)
    finally:
        garden.fails = Ended()  # type: ignore[assignment]
        following.changed()
        thread.join(timeout=PATIENCE)
        serving.end()
    assert not thread.is_alive()
    assert all(build.ended for build in garden.builds), "a build goes on after the end"


def _run(following: Following) -> None:
    try:
        following.run()
    except Ended:
        return


def until(true: Callable[[], object]) -> None:
    """Wait until something holds; fails after a while."""
    waited = threading.Event()
    for _ in range(int(PATIENCE / 0.01)):
        if true():
            return
        waited.wait(0.01)
    raise AssertionError("nothing came")


def test_a_change_is_shown_before_the_build_and_the_folder_after_it(scene: Scene) -> None:
    until(lambda: "state 1" in scene.page() and scene.garden.builds)
    assert "built" not in scene.page()
    scene.garden.written()
    until(lambda: "state 1, built" in scene.page())
    scene.change()
    until(lambda: "state 2" in scene.page())
    until(lambda: len(scene.garden.builds) == 2)
    scene.garden.written()
    until(lambda: "state 2, built" in scene.page())
    assert sum("Built in" in line for line in scene.said) == 2


def test_a_change_while_a_build_runs_ends_it_and_the_newest_state_is_built(scene: Scene) -> None:
    """Fails where an older build comes to its end over a newer state, or none is begun for that."""
    until(lambda: scene.garden.builds)
    scene.change()
    until(lambda: len(scene.garden.builds) == 2)
    first, second = scene.garden.builds
    assert (first.ended, second.ended, second.state) == (True, False, 2)
    first.tell.put(News(trouble="too late", ended=True))
    scene.garden.written()
    until(lambda: "state 2, built" in scene.page())
    assert "too late" not in " ".join(scene.said)


def test_findings_are_shown_as_soon_as_they_are_known_and_the_early_page_stays(scene: Scene) -> None:
    until(lambda: scene.garden.builds)
    finding = Finding(place=Place("content/garden.yaml"), code="x", found="far off")
    scene.garden.builds[-1].tell.put(News(findings=(finding,)))
    until(lambda: "Far off." in scene.page())
    assert "state 1" in scene.page()


@pytest.mark.parametrize("error", [OSError("the disk is full"), ValueError("a mistake of ours")])
def test_trouble_is_told_and_ends_nothing(scene: Scene, error: Exception) -> None:
    until(lambda: "state 1" in scene.page())
    scene.garden.fails = error
    scene.change()
    until(lambda: str(error) in scene.page())
    assert "state 1" in scene.page(), "what was shown is gone"
    scene.garden.fails = None
    scene.change()
    until(lambda: "state 3" in scene.page())


def test_a_build_that_dies_is_told(scene: Scene) -> None:
    until(lambda: scene.garden.builds)
    scene.garden.builds[-1].tell.put(None)
    until(lambda: "ended before the site was made" in scene.page())
    assert "state 1" in scene.page()
