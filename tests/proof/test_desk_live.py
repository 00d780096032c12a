"""The desk as people have it: started by the command, asked over HTTP, used in a browser and from a phone.

One preview serves every test here; it listens twice on this machine, once as itself and
once as if it were its address in a network.
"""

from __future__ import annotations

import http.client
import re
from collections.abc import Iterator
from pathlib import Path
from urllib.parse import urlencode

import pytest
from bs4 import BeautifulSoup, Tag
from playwright.sync_api import Browser, Error, Page

from tests.pages.gardens import LEDGER, folder, written
from tests.server.running import PATIENCE, Running

WEIGH = "/.tallybed/weigh"
DRAFT = """\
---
title: A secret so far
date: 2026-05-21
unfinished: yes
---
Half a sentence.
"""


class Desk(Running):
    """A preview that also answers in a network."""

    def __init__(self, garden: Path) -> None:
        super().__init__(garden, "--lan", "--address", "127.0.0.1")
        self.until(lambda: any("type the code" in line for line in self.lines))
        said = "".join(self.lines)
        self.port, self.lan = (int(port) for port in re.findall(r"http://127\.0\.0\.1:(\d+)/", said))

    @property
    def code(self) -> str:
        """The newest code on the terminal."""
        return str(re.findall(r"\b\d{4} \d{4}$", "".join(self.lines), re.MULTILINE)[-1])

    @property
    def ledger(self) -> str:
        return (self.garden / "content/2026/harvest.yaml").read_text(encoding="utf-8")


class Visitor:
    """A browser of the simplest kind: it keeps cookies and sends what it is told."""

    def __init__(self, port: int) -> None:
        self.port = port
        self.cookie = ""

    def ask(
        self, path: str, form: dict[str, str] | None = None, **headers: str
    ) -> tuple[int, str, http.client.HTTPMessage]:
        connection = http.client.HTTPConnection("127.0.0.1", self.port, timeout=PATIENCE)
        told = {"Cookie": self.cookie} if self.cookie else {}
        if form is not None:
            told |= {
                "Content-Type": "application/x-www-form-urlencoded",
                "Origin": f"http://127.0.0.1:{self.port}",
            }
        told |= {name.replace("_", "-"): value for name, value in headers.items()}
        try:
            body = urlencode(form) if form is not None else None
            connection.request("GET" if form is None else "POST", path, body, told)
            answer = connection.getresponse()
            if answer.headers["Set-Cookie"]:
                self.cookie = answer.headers["Set-Cookie"].split(";")[0]
            return answer.status, answer.read().decode(), answer.headers
        finally:
            connection.close()

    def form(self) -> dict[str, str]:
        return _fields(self.ask(WEIGH)[1])


def _fields(text: str) -> dict[str, str]:
    form = BeautifulSoup(text, "html.parser").find("form")
    assert isinstance(form, Tag)
    return {str(tag["name"]): str(tag.get("value", "")) for tag in form.find_all("input")}


PICKED = {"what": "radish", "weight": "10 oz", "day": "2026-05-20"}


@pytest.fixture(scope="module")
def running(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Desk]:
    garden = folder(tmp_path_factory.mktemp("desk"))
    written(garden, {"2026/log/2026-05-21-secret.md": DRAFT})
    made = Desk(garden)
    try:
        made.until(lambda: any("Built in" in line for line in made.lines))
        yield made
    finally:
        made.end()


@pytest.fixture
def ledger(running: Desk) -> Iterator[str]:
    """The ledger as it was before the test; it is the same again after it."""
    yield running.ledger
    (running.garden / "content/2026/harvest.yaml").write_text(LEDGER, encoding="utf-8")


@pytest.fixture
def here(running: Desk) -> Visitor:
    return Visitor(running.port)


def test_the_preview_shows_what_waits_beside_its_finding(here: Visitor) -> None:
    page = BeautifulSoup(here.ask("/2026/log/05-21-secret/")[1], "html.parser")
    assert "Half a sentence." in page.get_text()
    desk = page.select_one("#tallybed-desk")
    assert desk is not None
    assert "The entry is unfinished" in desk.get_text()
    home = BeautifulSoup(here.ask("/")[1], "html.parser")
    assert "unfinished" not in home.select_one("#tallybed-desk").get_text()  # type: ignore[union-attr]
    ways = {link.get_text(): link["href"] for link in home.select("#tallybed-desk a")}
    assert ways["Newest entry"] == "/2026/log/05-21-secret/index.html"


def test_a_picking_is_written_after_it_was_shown(running: Desk, here: Visitor, ledger: str) -> None:
    status, shown, _ = here.ask(WEIGH, here.form() | PICKED)
    assert status == 200
    assert "at least 3.0 lb" in shown, "the new total is not shown before writing"
    assert running.ledger == ledger
    status, _, headers = here.ask(WEIGH, _fields(shown))
    assert status == 303
    assert running.ledger == ledger + "- {date: 2026-05-20, crop: radish, weight: 10 oz}\n"
    assert "Written:" in here.ask(headers["Location"])[1]
    running.until(lambda: "3.0" in here.ask("/2026/tally/")[1])


def test_a_form_from_another_place_writes_nothing(running: Desk, here: Visitor, ledger: str) -> None:
    shown = _fields(here.ask(WEIGH, here.form() | PICKED)[1])
    for origin in ("http://evil.example", "null", f"http://localhost:{running.port}", ""):
        assert here.ask(WEIGH, shown, Origin=origin)[0] == 403
    assert here.ask(WEIGH, shown, Host=f"evil.example:{running.port}", Origin="http://evil.example")[0] == 403
    assert here.ask(WEIGH, shown | {"token": "0" * 64})[0] == 403
    assert here.ask(WEIGH, {name: text for name, text in shown.items() if name != "token"})[0] == 403
    stranger = Visitor(running.port)
    assert stranger.ask(WEIGH, shown)[0] == 403, "a form was taken without its cookie"
    assert running.ledger == ledger
    assert here.ask(WEIGH, shown)[0] == 303, "the same form is good from its own page"


@pytest.mark.parametrize("host", ["evil.example", "evil.example:{port}", "127.0.0.1", "127.0.0.1:{lan}", ""])
def test_another_name_for_this_machine_is_refused(running: Desk, here: Visitor, host: str) -> None:
    told = host.format(port=running.port, lan=running.lan)
    for path in ("/", WEIGH, "/.tallybed/findings", "/style.css"):
        assert here.ask(path, Host=told)[0] in (400, 403)


def test_a_phone_comes_in_by_the_code_and_weighs(running: Desk, ledger: str) -> None:
    phone = Visitor(running.lan)
    status, text, _ = phone.ask("/")
    assert status == 403
    assert "Two Plank Garden" not in text
    assert phone.ask(WEIGH, PICKED)[0] == 403
    wrong = "".join(str((int(sign) + 1) % 10) for sign in running.code if sign.isdigit())
    assert phone.ask("/.tallybed/come-in", {"code": wrong})[0] == 403
    code = running.code
    assert phone.ask("/.tallybed/come-in", {"code": code}, Origin="http://evil.example")[0] == 403
    assert phone.ask("/.tallybed/come-in", {"code": code})[0] == 303
    assert "Two Plank Garden" in phone.ask("/")[1]
    running.until(lambda: running.code != code)
    assert Visitor(running.lan).ask("/.tallybed/come-in", {"code": code})[0] == 403, "the code was good twice"
    shown = _fields(phone.ask(WEIGH, phone.form() | PICKED)[1])
    assert phone.ask(WEIGH, shown, Origin=f"http://127.0.0.1:{running.port}")[0] == 403
    assert phone.ask(WEIGH, shown)[0] == 303
    assert running.ledger != ledger


def _opened(tab: Page, address: str) -> None:
    """Open a page; a reload of the one before, for something that changed just now, may come between."""
    for last in (False, False, True):
        try:
            tab.goto(address)
        except Error:
            if last:
                raise
        else:
            return


def _require_fit(tab: Page) -> None:
    """Fail where the page is wider than its window, also after it loaded again."""
    tab.wait_for_function("document.documentElement.scrollWidth <= document.documentElement.clientWidth")


def test_in_a_narrow_browser_without_scripts_a_picking_is_weighed(
    running: Desk, chromium: Browser, ledger: str
) -> None:
    context = chromium.new_context(viewport={"width": 360, "height": 640}, java_script_enabled=False)
    tab = context.new_page()
    tab.goto(f"http://127.0.0.1:{running.port}/")
    tab.get_by_role("link", name="Weigh", exact=True).click()
    tab.get_by_label("What was picked").fill("radish")
    tab.get_by_label("Weight").fill("ten")
    tab.get_by_label("Day picked").fill("2026-05-20")
    tab.get_by_role("button", name="Look at it first").click()
    tab.wait_for_load_state()  # with its style: places are measured next
    box = tab.get_by_label("Weight")
    assert box.get_attribute("aria-invalid") == "true"
    assert box.input_value() == "ten"
    wrong = tab.locator("#weight-wrong")
    assert "ten" in wrong.inner_text()
    below = wrong.bounding_box(), box.bounding_box()
    assert below[0] is not None
    assert below[1] is not None
    assert 0 <= below[0]["y"] - (below[1]["y"] + below[1]["height"]) < 20, "the fault is not at its field"
    box.fill("10 oz")
    tab.get_by_role("button", name="Look at it first").click()
    tab.wait_for_load_state()  # with its style: places are measured next
    assert tab.get_by_text("at least 3.0 lb").is_visible()
    for button in tab.get_by_role("button").all():
        size = button.bounding_box()
        assert size is not None
        assert size["height"] >= 44, "a finger misses it (WCAG 2.2, 2.5.5: 44 pixels)"
    tab.get_by_role("button", name="Write it down").click()
    assert "radish" in tab.get_by_role("status").inner_text()
    assert running.ledger == ledger + "- {date: 2026-05-20, crop: radish, weight: 10 oz}\n"
    context.close()


@pytest.mark.usefixtures("ledger")
def test_an_open_page_follows_and_nothing_runs_off(running: Desk, chromium: Browser) -> None:
    context = chromium.new_context(viewport={"width": 360, "height": 640})
    complaints: list[str] = []
    context.on("weberror", lambda error: complaints.append(str(error.error)))
    tab = context.new_page()
    tab.on(
        "console",
        lambda said: complaints.append(f"{said.text} {said.location}") if said.type == "error" else None,
    )
    for path in ("/.tallybed/findings", WEIGH, "/2026/plants/"):
        _opened(tab, f"http://127.0.0.1:{running.port}{path}")
        _require_fit(tab)
    plan = running.garden / "content/2026/plan.yaml"
    text = plan.read_text(encoding="utf-8")
    plan.write_text(text + "- {crop: carrrot, squares: front/A1, sow: Apr 5}\n", encoding="utf-8")
    tab.get_by_text("last good site").wait_for(timeout=PATIENCE * 1000)
    assert "carrrot" in tab.locator("#tallybed-desk").inner_text()
    plan.write_text(text, encoding="utf-8")
    tab.get_by_role("alert").wait_for(state="detached", timeout=PATIENCE * 1000)
    tab.set_viewport_size({"width": 1280, "height": 800})
    _require_fit(tab)
    in_sight = "document.querySelector('#tallybed-desk').getBoundingClientRect().bottom <= 800"
    tab.wait_for_function(in_sight)
    context.close()
    assert complaints == []
