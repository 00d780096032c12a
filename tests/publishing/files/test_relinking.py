"""Links of a finished page: found wherever a page can have them, changed alone."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tallybed.publishing.files.relinking import relinked, target


@pytest.mark.parametrize(
    ("here", "address", "found"),
    [
        ("2026/index.html", "../index.html", ("index.html", "")),
        ("2026/index.html", "log/index.html#a%20b", ("2026/log/index.html", "a b")),
        ("2026/index.html", "#top", ("2026/index.html", "top")),
        ("index.html", "x%20y.html?q=1", ("x y.html", "")),
        ("index.html", "https://example.org/x", ("", "")),
        ("index.html", "//example.org/x", ("", "")),
        ("index.html", "mailto:a@example.org", ("", "")),
    ],
)
def test_where_an_address_leads(here: str, address: str, found: tuple[str, str]) -> None:
    assert target(here, address) == found


PAGE = """\
<!DOCTYPE html>
<title>a href="old" &amp; b</title>
<link rel="stylesheet" href="old"><!-- <a href="old"> -->
<p title='href="old"'>½ href="old" <A class="x"
   HREF='old'>one</A> <a href=old>two</a> <a href="other">three</a>
<svg><a xlink:href="old" href="old"><text>é</text></a></svg><img src="old" alt="old"/>
<a href="q?a=1&amp;b=2">four</a>
<script type="application/ld+json">{"href": "<a href=\\"old\\">"}</script>
"""


def test_every_address_of_an_element_is_changed_and_nothing_else() -> None:
    seen: list[tuple[str, str]] = []

    def change(tag: str, address: str) -> str | None:
        seen.append((tag, address))
        return {"old": "n&w", "q?a=1&b=2": "q"}.get(address)

    changed = relinked(PAGE, change)
    assert sorted(set(seen)) == [
        ("a", "old"),
        ("a", "other"),
        ("a", "q?a=1&b=2"),
        ("img", "old"),
        ("link", "old"),
    ]
    assert changed == (
        PAGE.replace('stylesheet" href="old"', 'stylesheet" href="n&amp;w"')
        .replace("HREF='old'", 'HREF="n&amp;w"')
        .replace("<a href=old>", '<a href="n&amp;w">')
        .replace('<a xlink:href="old" href="old">', '<a xlink:href="n&amp;w" href="n&amp;w">')
        .replace('src="old"', 'src="n&amp;w"')
        .replace('href="q?a=1&amp;b=2"', 'href="q"')
    )


@given(st.text(st.sampled_from('<>a/"= \n\rhref&#;!-½'), max_size=60))
def test_a_text_is_left_as_it_is_where_nothing_is_to_change(text: str) -> None:
    assert relinked(text, lambda _tag, _address: None) == text
