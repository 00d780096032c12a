"""What the preview answers to a browser, and to those who are none."""

import threading
from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from werkzeug.test import Client, TestResponse

from tallybed.publishing.serving import Serving

HERE = "http://127.0.0.1:8640"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    site = tmp_path / "site"
    (site / "2026").mkdir(parents=True)
    (site / "index.html").write_text("<!doctype html><html><body><h1>Beds</h1></body></html>\n")
    (site / "2026" / "index.html").write_text("<p>no body tag")
    (site / "style.css").write_text("p {}")
    (site / ".tallybed").write_text("{}")
    (tmp_path / "secret.txt").write_text("secret")
    return site


@pytest.fixture
def serving(folder: Path) -> Serving:
    made = Serving(folder, 8640)
    made.show(())
    return made


def ask(serving: Serving, path: str, method: str = "GET", base: str = HERE) -> TestResponse:
    return Client(serving).open(path, method=method, base_url=base)


def test_pages_are_served_with_the_script_and_files_as_they_are(serving: Serving) -> None:
    page = ask(serving, "/")
    assert page.status_code == 200
    assert page.content_type == "text/html; charset=utf-8"
    soup = BeautifulSoup(page.text, "html.parser")
    assert soup.h1 is not None
    assert [script["src"] for script in soup.body.find_all("script")] == ["/.tallybed/preview.js"]  # type: ignore[union-attr]
    assert "preview.js" in ask(serving, "/2026/").text
    style = ask(serving, "/style.css")
    assert (style.text, style.content_type) == ("p {}", "text/css; charset=utf-8")
    assert "fetch(" in ask(serving, "/.tallybed/preview.js").text


def test_nothing_is_kept_by_the_browser(serving: Serving) -> None:
    assert ask(serving, "/style.css").headers["Cache-Control"] == "no-store"


def test_a_folder_without_slash_leads_to_its_page(serving: Serving) -> None:
    answer = ask(serving, "/2026")
    assert answer.status_code == 302
    assert answer.headers["Location"] == "2026/"


@pytest.mark.parametrize("base", ["http://127.0.0.1:8640", "http://localhost:8640", "http://LOCALHOST:8640"])
def test_names_of_this_machine_are_answered(serving: Serving, base: str) -> None:
    assert ask(serving, "/", base=base).status_code == 200


@pytest.mark.parametrize(
    "base",
    ["http://beds.example", "http://beds.example:8640", "http://127.0.0.1", "http://127.0.0.1.example:8640"],
)
@pytest.mark.parametrize("path", ["/", "/style.css", "/.tallybed/changes"])
def test_any_other_name_is_refused(serving: Serving, base: str, path: str) -> None:
    answer = ask(serving, path, base=base)
    assert answer.status_code == 403
    assert "Beds" not in answer.text


@pytest.mark.parametrize("method", ["POST", "PUT", "DELETE", "OPTIONS", "TRACE", "PATCH"])
def test_only_reading_is_answered(serving: Serving, method: str) -> None:
    assert ask(serving, "/", method=method).status_code == 405


def test_head_gets_no_body(serving: Serving) -> None:
    answer = ask(serving, "/", method="HEAD")
    assert (answer.status_code, answer.data) == (200, b"")


@pytest.mark.parametrize(
    "path",
    [
        "/../secret.txt",
        "/%2e%2e/secret.txt",
        "/2026/../../secret.txt",
        "/..%2fsecret.txt",
        "/..%5csecret.txt",
        "//etc/passwd",
        "/%00",
        "/.tallybed",
        "/.tallybed/../../secret.txt",
        "/nothing.html",
        "/style.css/x",
    ],
)
def test_nothing_outside_the_site_is_served(serving: Serving, path: str) -> None:
    answer = ask(serving, path)
    assert answer.status_code == 404
    assert "secret\n" not in answer.text
    assert "root:" not in answer.text


def test_errors_stand_on_the_last_good_page_escaped(serving: Serving) -> None:
    serving.show(["plan.yaml:1:1: error: <script>alert(1)</script>"])
    page = BeautifulSoup(ask(serving, "/").text, "html.parser")
    assert page.h1 is not None
    banner = page.find(role="alert")
    assert banner is not None
    assert "<script>alert(1)</script>" in banner.get_text()
    assert banner.find("script") is None
    serving.show(())
    assert BeautifulSoup(ask(serving, "/").text, "html.parser").find(role="alert") is None


def test_errors_are_shown_where_there_is_no_site_yet(tmp_path: Path) -> None:
    serving = Serving(tmp_path / "none", 8640)
    assert "being built" in ask(serving, "/").text
    serving.show(["garden.yaml:1:1: error: no name"])
    answer = ask(serving, "/2026/")
    assert answer.status_code == 503
    assert "garden.yaml:1:1: error: no name" in answer.text


def test_a_waiting_page_is_told_of_a_change_at_once(serving: Serving) -> None:
    answers: list[str] = []
    waiting = threading.Thread(
        target=lambda: answers.append(ask(serving, "/.tallybed/changes?since=1").text), daemon=True
    )
    waiting.start()
    waiting.join(timeout=0.2)
    assert waiting.is_alive(), "it was answered before anything changed"
    serving.show(())
    waiting.join(timeout=5)
    assert answers == ["2"]


def test_the_end_lets_waiting_pages_go(serving: Serving) -> None:
    waiting = threading.Thread(target=ask, args=(serving, "/.tallybed/changes?since=1"), daemon=True)
    waiting.start()
    serving.end()
    waiting.join(timeout=5)
    assert not waiting.is_alive()
