"""What the preview answers to a browser on the same machine, and to those who are none."""

import threading
from collections.abc import Callable
from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from werkzeug.test import Client, TestResponse

from tallybed.garden.findings import Finding, Place, Severity
from tallybed.server.answers import Serving
from tallybed.server.findings_panel import News
from tallybed.server.gate import Gate

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
    made = Serving(folder)
    made.show(News())
    return made


def ask(serving: Serving, path: str, method: str = "GET", base: str = HERE) -> TestResponse:
    return Client(Gate(serving, ("127.0.0.1", "localhost"), 8640)).open(path, method=method, base_url=base)


def error(found: str, file: str = "content/2026/plan.yaml") -> Finding:
    return Finding(place=Place(file, 1, 1), code="x", found=found)


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
    assert ask(serving, "/.tallybed/findings", method=method).status_code in (403, 405)


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
        pytest.param(f"/{'a' * 5000}", id="a name no file can have"),
    ],
)
def test_nothing_outside_the_site_is_served(serving: Serving, path: str) -> None:
    answer = ask(serving, path)
    assert answer.status_code == 404
    assert "secret\n" not in answer.text
    assert "root:" not in answer.text


def test_errors_stand_on_the_last_good_page_escaped(serving: Serving) -> None:
    serving.show(News(findings=(error("<script>alert(1)</script>"),)))
    page = BeautifulSoup(ask(serving, "/").text, "html.parser")
    assert page.h1 is not None
    banner = page.find(role="alert")
    assert banner is not None
    assert "<script>alert(1)</script>" in banner.get_text()
    assert banner.find("script") is None
    serving.show(News())
    assert BeautifulSoup(ask(serving, "/").text, "html.parser").find(role="alert") is None


def test_errors_are_shown_where_there_is_no_site_yet(tmp_path: Path) -> None:
    serving = Serving(tmp_path / "none")
    assert "being built" in ask(serving, "/").text
    serving.show(News(findings=(error("no name", "content/garden.yaml"),)))
    answer = ask(serving, "/2026/")
    assert answer.status_code == 503
    assert "No name." in answer.text
    assert "content/garden.yaml, line 1" in answer.text
    serving.show(News(trouble="disk full & <b>"))
    assert "disk full &amp; &lt;b&gt;" in ask(serving, "/").text


def test_nothing_is_said_to_be_right_before_it_was_looked_at(serving: Serving) -> None:
    for news, told in (
        (News(looking=True), False),
        (News(trouble="disk full"), False),
        (News(), True),
    ):
        serving.show(news)
        assert ("Nothing to correct" in ask(serving, "/.tallybed/findings").text) is told
        assert ("No findings" in ask(serving, "/").text) is told
        assert ("nothing to correct" in ask(serving, "/").text) is told


PLACES = {"content/": "index.html", "content/2026/": "2026/index.html", "content/2026/log/": "index.html"}


def advice(file: str, found: str) -> Finding:
    return Finding(place=Place(file, 7, 1), code="x", severity=Severity.ADVICE, found=found)


def test_findings_stand_beside_the_page_they_concern_and_all_on_one(serving: Serving) -> None:
    found = (advice("content/2026/plan.yaml", "late"), advice("content/garden.yaml", "far <i>off"))
    serving.show(News(findings=found, places=PLACES, newest="2026/index.html"))

    def beside(path: str) -> tuple[str, list[str]]:
        desk = BeautifulSoup(ask(serving, path).text, "html.parser").select_one("#tallybed-desk")
        assert desk is not None
        return desk.get_text(), [str(link["href"]) for link in desk.find_all("a")]

    words, ways = beside("/2026/")
    assert "Late." in words
    assert "content/2026/plan.yaml, line 7" in words
    assert "far" not in words
    assert ways == ["/.tallybed/findings"], "a page leads to itself as the newest entry"
    words, ways = beside("/")
    assert "Far <i>off." in words
    assert "Late" not in words
    assert ways == ["/2026/index.html", "/.tallybed/findings"]

    page = BeautifulSoup(ask(serving, "/.tallybed/findings").text, "html.parser")
    assert [head.get_text() for head in page.find_all("h2")] == ["2026/", "First page"]
    assert [link["href"] for link in page.select("h2 a")] == ["/2026/index.html", "/index.html"]
    assert page.find("i") is None

    serving.show(News(findings=(error("broken", "content/2026/log/x.md"),)))
    words, _ = beside("/2026/")
    assert "last good site" in words
    assert "Broken." in words
    page = BeautifulSoup(ask(serving, "/2026/").text, "html.parser")
    links = [str(link["href"]) for link in page.select("#tallybed-desk a")]
    assert "/index.html" in links, "an error no longer leads to the page of the last good site"


def test_pages_of_the_desk_may_load_nothing_of_others(serving: Serving) -> None:
    answer = ask(serving, "/.tallybed/findings")
    rules = answer.headers["Content-Security-Policy"]
    assert "default-src 'none'" in rules
    assert "frame-ancestors 'none'" in rules
    for page in ("/", "/.tallybed/findings", "/style.css", "/nothing"):
        headers = ask(serving, page).headers
        assert headers["X-Frame-Options"] == "DENY", page
        assert headers["Cross-Origin-Resource-Policy"] == "same-origin", page


def test_without_anybody_who_weighs_there_is_no_form(serving: Serving) -> None:
    assert ask(serving, "/.tallybed/weigh").status_code == 404
    assert "Weigh" not in ask(serving, "/").text


def test_a_waiting_page_is_told_of_a_change_at_once(serving: Serving) -> None:
    answers: list[str] = []
    waiting = threading.Thread(
        target=lambda: answers.append(ask(serving, "/.tallybed/changes?since=1").text), daemon=True
    )
    waiting.start()
    waiting.join(timeout=0.2)
    assert waiting.is_alive(), "it was answered before anything changed"
    serving.show(News())
    waiting.join(timeout=5)
    assert answers == ["2"]


def mark(serving: Serving, path: str) -> str:
    script = BeautifulSoup(ask(serving, path).text, "html.parser").find("script", {"data-version": True})
    assert script is not None
    return str(script["data-version"])


class Newer:
    """A site that is newer than the folder: another first page, a new one, and none at ``2026/``."""

    def __init__(self, style: bytes = b"") -> None:
        self.looks = {"style.css": style}

    def data(self, path: str) -> bytes | None:
        pages = {"index.html": b"<body>Newer</body>", "new/index.html": b"<body>New</body>"}
        return (pages | self.looks).get(path)

    def lacks(self, path: str) -> bool:
        return path == "2026/index.html"


def test_what_is_newer_than_the_folder_is_served_before_it(serving: Serving) -> None:
    serving.show(News(), Newer(b"i {}"))
    assert "Newer" in ask(serving, "/").text
    assert "New" in ask(serving, "/new/").text
    assert ask(serving, "/new").headers["Location"] == "new/"
    assert ask(serving, "/style.css").text == "i {}"
    assert ask(serving, "/2026/").status_code == 404, "a page that is gone is still shown"
    assert ask(serving, "/.tallybed").status_code == 404
    serving.show(News())
    assert "Beds" in ask(serving, "/").text


def test_an_open_page_loads_again_only_where_it_is_other(serving: Serving) -> None:
    """Fails where every open page blinks at each save, or one stays as it was though it has changed."""
    first, other = mark(serving, "/"), mark(serving, "/2026/")

    def answered(page: str, since: str, change: Callable[[], None]) -> bool:
        answers: list[str] = []
        path = f"/.tallybed/changes?page={page}&since={since}"
        waiting = threading.Thread(target=lambda: answers.append(ask(serving, path).text), daemon=True)
        waiting.start()
        waiting.join(timeout=0.1)
        assert waiting.is_alive(), "it was answered before anything changed"
        change()
        waiting.join(timeout=0.3)
        return not waiting.is_alive() and answers[0] != since

    found = (advice("content/2026/plan.yaml", "late"),)
    assert not answered("/", first, lambda: serving.show(News()))
    assert not answered("/2026/", other, lambda: serving.show(News(), OnlyFirst()))
    assert mark(serving, "/") != first
    assert answered("/", mark(serving, "/"), lambda: serving.show(News(), Newer(b"i {}")))
    assert answered("/", mark(serving, "/"), lambda: serving.show(News(), Newer(b"b {}"))), "another style"
    findings = mark(serving, "/.tallybed/findings")
    assert answered("/.tallybed/findings", findings, lambda: serving.show(News(findings=found)))
    serving.end()


class OnlyFirst(Newer):
    """A site that is newer in its first page alone."""

    def lacks(self, _path: str) -> bool:
        return False


def test_a_request_waits_while_one_site_takes_the_place_of_another(serving: Serving, folder: Path) -> None:
    serving.show(News(places={"content/": "index.html"}))
    aside = folder.rename(folder.with_name("aside"))
    answers: list[int] = []
    asking = threading.Thread(target=lambda: answers.append(ask(serving, "/").status_code), daemon=True)
    asking.start()
    asking.join(timeout=0.1)
    assert asking.is_alive(), "it was answered while no site was there"
    aside.rename(folder)
    asking.join(timeout=5)
    assert answers == [200]


def test_the_end_lets_waiting_pages_go(serving: Serving) -> None:
    waiting = threading.Thread(target=ask, args=(serving, "/.tallybed/changes?since=1"), daemon=True)
    waiting.start()
    serving.end()
    waiting.join(timeout=5)
    assert not waiting.is_alive()
