"""A site in a folder below another one, as nginx serves it with the settings that the guide shows."""

from __future__ import annotations

import re
import socket
import subprocess
import time
from collections.abc import Iterator
from http.client import HTTPConnection
from pathlib import Path
from urllib.parse import urldefrag, urljoin, urlsplit

import pytest
from bs4 import BeautifulSoup

from tallybed.tasks.build import build
from tests import tools
from tests.documents import blocks, sections
from tests.pages.gardens import GARDEN, folder, written

TOP = "/beds/"
GUIDE = sections("docs/publishing.md")["What the host has to know"]
TYPES = {
    ending: re.findall(r"`(\w+/[\w+]+)`", told)
    for ending, told in re.findall(r"^\| `(\.\w+)` \| (.+?) \|", GUIDE, flags=re.MULTILINE)
}
"""The guide's types of files, by ending."""
AROUND = """
daemon off; master_process off; pid {own}/pid; error_log {own}/errors; events {{ }}
http {{
    access_log off;
    client_body_temp_path {own}; proxy_temp_path {own}; fastcgi_temp_path {own};
    uwsgi_temp_path {own}; scgi_temp_path {own};
    {server}
}}
"""


class Host:
    """A server that answers one request after the other."""

    def __init__(self, port: int) -> None:
        self._line = HTTPConnection("127.0.0.1", port, timeout=20)

    def ask(self, path: str) -> tuple[int, str, bytes]:
        """Return status, type and bytes of what lies at a path."""
        self._line.request("GET", path)
        answer = self._line.getresponse()
        return answer.status, answer.headers.get("Content-Type", ""), answer.read()

    def close(self) -> None:
        self._line.close()


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    root = folder(tmp_path_factory.mktemp("hosted"))
    written(root, {"garden.yaml": f"address: https://host.example{TOP}\n{GARDEN}"})
    assert build(root, root / "out").good
    return root / "out"


@pytest.fixture(scope="module")
def host(site: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Host]:
    program = tools.nginx()
    own = tmp_path_factory.mktemp("nginx")
    with socket.socket() as found:
        found.bind(("127.0.0.1", 0))
        port = found.getsockname()[1]
    (server,) = (block for block in blocks(GUIDE) if block.startswith("server {"))
    server = server.replace("listen 80", f"listen 127.0.0.1:{port}").replace("/srv/beds/", f"{site}/")
    (own / "conf").write_text(AROUND.format(own=own, server=server), encoding="utf-8")
    with subprocess.Popen([program, "-c", str(own / "conf"), "-e", str(own / "errors")]) as process:
        try:
            for _try in range(100):
                with socket.socket() as line:
                    if line.connect_ex(("127.0.0.1", port)) == 0:
                        break
                time.sleep(0.1)
            served = Host(port)
            yield served
            served.close()
        finally:
            process.kill()


def addresses(page: bytes, here: str) -> set[str]:
    """Return the addresses of this host that a page leads to or fetches, without anchors."""
    found = BeautifulSoup(page, "lxml").find_all(lambda tag: tag.has_attr("href") or tag.has_attr("src"))
    every = {
        urldefrag(urljoin(f"http://x{here}", str(tag.get("href") or tag.get("src")))).url for tag in found
    }
    return {urlsplit(one).path for one in every if urlsplit(one).netloc == "x"}


def test_every_page_and_every_link_of_it_is_served(host: Host, site: Path) -> None:
    asked: dict[str, int] = {}
    for page in sorted(site.rglob("*.html")):
        here = TOP + page.relative_to(site).as_posix()
        status, kind, data = host.ask(here)
        assert (status, kind, data) == (200, "text/html; charset=utf-8", page.read_bytes()), here
        for path in addresses(data, here):
            assert path.startswith(TOP), f"{here} leads out of the site, to {path}"
            if path not in asked:
                asked[path] = host.ask(path)[0]
    assert len(asked) > 100
    assert {path for path, status in asked.items() if status != 200} == set()


@pytest.mark.parametrize("path", ["nothing", "2026/plants/XX9/", "2026/a/b/c/d.html", "2027/index.html"])
def test_where_nothing_lies_the_site_says_so_at_every_depth(host: Host, path: str) -> None:
    status, kind, data = host.ask(TOP + path)
    assert (status, kind) == (404, "text/html; charset=utf-8")
    page = BeautifulSoup(data, "lxml")
    assert page.h1 is not None
    assert page.h1.get_text() == "No page here"
    assert page.select('meta[name="robots"][content="noindex"]')
    assert page.select("script, link[rel=canonical]") == []
    told = addresses(data, TOP + path) - {TOP + path}
    assert {f"{TOP}style.css", f"{TOP}index.html", f"{TOP}2026/plants/index.html"} <= told
    assert {one for one in told if host.ask(one)[0] != 200} == set()


def test_the_page_for_nothing_is_in_no_list(site: Path) -> None:
    assert "404" not in (site / "sitemap.xml").read_text(encoding="utf-8")
    assert "404.html" not in (site / "index.html").read_text(encoding="utf-8")


def test_files_have_the_types_of_the_guide(host: Host, site: Path) -> None:
    endings = {path.suffix: path for path in sorted(site.rglob("*")) if path.suffix in TYPES}
    assert {".css", ".csv", ".ics", ".json", ".svg", ".txt", ".xml"} <= set(endings)
    assert set(TYPES) >= {".md", ".zip"}
    for ending, path in endings.items():
        _status, kind, _data = host.ask(TOP + path.relative_to(site).as_posix())
        assert kind.partition(";")[0] in TYPES[ending], path
        assert kind.endswith("charset=utf-8") or ending == ".svg", kind
    assert host.ask(f"{TOP}feed.xml")[1].partition(";")[0] == "application/atom+xml"


def test_what_the_next_build_goes_by_names_no_file(site: Path) -> None:
    text = (site / ".tallybed").read_text(encoding="utf-8")
    assert len(text) > 10_000
    for path in site.rglob("*.html"):
        assert path.relative_to(site).as_posix() not in text
    assert "html" not in text
