"""Paths within a site, and links between them."""

from urllib.parse import unquote, urljoin

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from tallybed.publishing.paths import checked, claimed_twice, from_top, relative


@pytest.mark.parametrize(
    "path",
    ["index.html", "2026/log/04-19-peas-are-up/index.html", "style.css", "a b/c.jpg", "über/index.html"],
)
def test_plain_paths_are_let_through(path: str) -> None:
    assert checked(path) == path


@pytest.mark.parametrize(
    "path",
    [
        "",
        "/etc/passwd",
        "../index.html",
        "2026/../../index.html",
        "./index.html",
        "a//b",
        "a/",
        "a\\b",
        "c:/x",
        "con/index.html",
        "2026/NUL.txt",
        "com1",
        "a./b",
        "a /b",
        ".tallybed",
        "a/.hidden",
        "a\nb",
        "what?.html",
    ],
)
def test_paths_that_leave_the_site_or_no_system_can_hold_are_stopped(path: str) -> None:
    with pytest.raises(ValueError, match="no path within a site"):
        checked(path)


@pytest.mark.parametrize(
    ("paths", "twice"),
    [
        (["index.html", "a/index.html"], ()),
        (["a.html", "a.html"], ("a.html",)),
        (["Peas/index.html", "peas/index.html"], ("peas/index.html",)),
        (["a", "a/b"], ("a",)),
        (["A", "a/b/c"], ("A",)),
    ],
)
def test_two_files_never_share_a_path(paths: list[str], twice: tuple[str, ...]) -> None:
    assert claimed_twice(paths) == twice


@pytest.mark.parametrize(
    ("source", "target", "link"),
    [
        ("index.html", "2026/index.html", "2026/index.html"),
        ("index.html", "2026/", "2026/index.html"),
        ("2026/index.html", "", "../index.html"),
        ("2026/log/a/index.html", "style.css", "../../../style.css"),
        ("2026/tally/index.html", "2026/tally/#week", "index.html#week"),
        ("2026/index.html", "#week", "#week"),
        ("2026/index.html", "/crops/carrot/", "../crops/carrot/index.html"),
        ("index.html", "a b/über.jpg", "a%20b/%C3%BCber.jpg"),
        ("index.html", "https://example.org/", "https://example.org/"),
        ("index.html", "mailto:a@example.org", "mailto:a@example.org"),
    ],
)
def test_links_lead_from_page_to_file(source: str, target: str, link: str) -> None:
    assert relative(source, target) == link


_PART = st.text(alphabet="abcé 1-_", min_size=1, max_size=6).map(lambda text: text.strip() or "x")
_PATHS = st.lists(_PART, min_size=1, max_size=4).map("/".join)


@given(source=_PATHS, target=_PATHS)
def test_a_browser_resolves_each_link_to_its_target(source: str, target: str) -> None:
    assume(source == target or not claimed_twice([source, target]))
    # urllib's urljoin resolves relative references by RFC 3986, section 5.2, as browsers do.
    base = "http://site.example/" + source.replace(" ", "%20")
    assert unquote(urljoin(base, relative(source, target))) == f"http://site.example/{target}"


def test_a_link_out_of_the_site_is_our_mistake_and_said_at_once() -> None:
    with pytest.raises(ValueError, match="no path within a site"):
        relative("index.html", "../secret.html")


@pytest.mark.parametrize(
    ("target", "link"),
    [
        ("2026/", "/garden/2026/index.html"),
        ("#content", "#content"),
        ("mailto:a@b.example", "mailto:a@b.example"),
    ],
)
def test_a_link_of_a_page_shown_anywhere_begins_at_the_top(target: str, link: str) -> None:
    assert from_top("/garden/", target) == link
