"""What gardeners write as Markdown comes out as plain, safe elements that suit the page."""

import re

import pytest
from bs4 import BeautifulSoup
from markupsafe import Markup

from tallybed.pages.wording.prose import Resolve, first_paragraph, no_link, outside, prose, typed_links
from tests.pages.gardens import only


def parsed(text: str, *, below: int = 1, resolve: Resolve = no_link) -> BeautifulSoup:
    return BeautifulSoup(prose(text, ident="t", below=below, resolve=resolve), "html5lib")


HOSTILE = {
    "a script inline": "Hello <script>alert(1)</script> there",
    "a script of its own": "Hello\n\n<script>\nalert(1)\n</script>\n",
    "an event handler": 'A <b onclick="alert(1)">word</b>',
    "a style sheet": "<style>body {display: none}</style>",
    "a frame": '<iframe src="https://example.org"></iframe>',
    "a form": '<form action="https://example.org"><input name="a"></form>',
    "an image with a handler": '<img src="x" onerror="alert(1)">',
    "a drawing": '<svg onload="alert(1)"><circle r="3"/></svg>',
    "a page's own element": "</main></body><main>",
    "a script link": "[press](javascript:alert(1))",
    "a script link in capitals": "[press](JaVaScRiPt:alert(1))",
    "a script link in codes": "[press](&#106;avascript:alert(1))",
    "a script reference": "[press][1]\n\n[1]: javascript:alert(1)",
    "a script autolink": "<javascript:alert(1)>",
    "a data link": "[press](data:text/html,<script>alert(1)</script>)",
    "a link title that breaks out": '[press](https://example.org "x\\" onclick=\\"alert(1)")',
    "a network path": "[press](//example.org/x)",
    "a script in a table": "| a | b |\n|---|---|\n| <script>alert(1)</script> | 2 |",
    "a script in code": "`<script>alert(1)</script>`",
    "a script in a footnote": "Word[^1]\n\n[^1]: <script>alert(1)</script>",
    "an image link": "![alt <script>](javascript:alert(1))",
    "an image in a link": "[![x](javascript:alert(1))](javascript:alert(2))",
}
ALLOWED = {
    *(
        "html",
        "head",
        "body",
        "p",
        "h2",
        "h3",
        "h4",
        "h5",
        "h6",
        "ul",
        "ol",
        "li",
        "strong",
        "em",
        "code",
        "pre",
    ),
    *("blockquote", "a", "table", "thead", "tbody", "tr", "th", "td", "sup", "hr", "br", "div"),
}


@pytest.mark.parametrize("text", HOSTILE.values(), ids=HOSTILE.keys())
def test_nothing_typed_becomes_markup_that_acts(text: str) -> None:
    tree = parsed(text)
    for element in tree.find_all(True):
        assert element.name in ALLOWED, f"<{element.name}> came through"
        assert not [name for name in element.attrs if name.startswith("on") or name == "style"]
        assert element.name != "a" or str(element["href"]).startswith(("https://", "#t-fn"))


def test_html_is_shown_as_typed() -> None:
    assert parsed("Rows <3 ft apart, <b>not</b> four").get_text() == "Rows <3 ft apart, <b>not</b> four"


HEADINGS = {
    "a heading of the first level lies below the page's": ("# A", ["h2"]),
    "levels keep their order": ("# A\n\n## B\n\n# C", ["h2", "h3", "h2"]),
    "a text that starts deep leaves no gap": ("### A\n\ntext\n\n### B", ["h2", "h2"]),
    "a skipped level is closed up": ("# A\n\n#### B\n\n##### C", ["h2", "h3", "h4"]),
    "nothing lies deeper than six": ("# A\n\n## B\n\n### C\n\n#### D\n\n##### E\n\n###### F", None),
}


@pytest.mark.parametrize(("text", "levels"), HEADINGS.values(), ids=HEADINGS.keys())
def test_headings_lie_below_the_pages_own(text: str, levels: list[str] | None) -> None:
    found = [element.name for element in parsed(text).find_all(["h1", "h2", "h3", "h4", "h5", "h6"])]
    assert found == (levels or ["h2", "h3", "h4", "h5", "h6", "h6"])


def test_headings_lie_below_the_level_asked_for() -> None:
    assert [one.name for one in parsed("# A\n\n## B", below=3).find_all(["h4", "h5"])] == ["h4", "h5"]


def test_a_picture_becomes_its_description() -> None:
    tree = parsed("See ![peas on a string](peas.jpg).")
    assert tree.img is None
    assert only(tree, "p").get_text() == "See peas on a string."


def test_links_of_the_site_are_resolved_and_others_dropped() -> None:
    known = {"crop:carrot": "../crops/carrot/index.html"}
    tree = parsed("[carrots](crop:carrot), [moon](crop:moon), [out](https://example.org/)", resolve=known.get)
    assert [(link["href"], link.get_text()) for link in tree.find_all("a")] == [
        ("../crops/carrot/index.html", "carrots"),
        ("https://example.org/", "out"),
    ]
    assert "moon" in tree.get_text()


def test_a_mail_address_stays_a_link() -> None:
    assert only(parsed("<beds@example.org>"), "a")["href"] == "mailto:beds@example.org"


def test_footnotes_of_two_texts_can_stand_on_one_page() -> None:
    text = "One[^1]\n\n[^1]: Two."
    page = BeautifulSoup(prose(text, ident="a") + prose(text, ident="b"), "html5lib")
    ids = [element["id"] for element in page.select("[id]")]
    assert len(ids) == len(set(ids)) == 4
    assert all(str(link["href"]).removeprefix("#") in ids for link in page.find_all("a"))


def test_a_table_scrolls_in_its_own_frame_and_names_its_columns() -> None:
    tree = parsed("| Crop | Weight |\n|---|---:|\n| peas | 3 |")
    assert only(tree, ".frame > table")
    assert only(tree, ".frame")["tabindex"] == "0"
    assert [head["scope"] for head in tree.find_all("th")] == ["col", "col"]
    assert tree.find_all("td")[1]["class"] == ["number"]


def test_the_first_paragraph_stands_alone() -> None:
    text = "## Peas\n\nThey are *up*[^1] at last.\n\nMore.\n\n[^1]: Nearly."
    assert first_paragraph(text, ident="x") == Markup("<p>They are <em>up</em> at last.</p>")
    assert first_paragraph("", ident="x") == ""
    assert first_paragraph("- only a list", ident="x") == ""


def test_the_same_text_gives_the_same_markup() -> None:
    text = "One[^1] and[^2]\n\n[^1]: a\n[^2]: b\n\n1. x\n2. y"
    assert prose(text, ident="a") == prose(text, ident="a")
    assert prose("  \n", ident="a") == ""


@pytest.mark.parametrize(
    ("link", "leads_out"),
    [
        ("https://example.org/a?b=c", True),
        ("HTTP://example.org", True),
        ("mailto:a@example.org", True),
        ("javascript:alert(1)", False),
        ("//example.org", False),
        ("https://", False),
        ("crops/carrot/", False),
        ("", False),
    ],
)
def test_only_plain_addresses_lead_out(link: str, leads_out: bool) -> None:
    assert outside(link) is leads_out


UNSEEN_SIGNS = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u202e\ufffe\uffff]")
"""Signs that XML 1.0 has no place for (section 2.2), or that HTML calls an error, and one that turns text."""


@pytest.mark.parametrize(
    "typed", ["a&#2;b", "a&#x1b;b", "a&#127;b", "a&#x9f;b", "a&#xFFFE;b", "a&#x202e;b", "a&#0x2;&#2;b"]
)
def test_references_to_signs_that_cannot_be_seen_are_cleaned_away(typed: str):
    text = prose(typed, ident="t")
    assert not UNSEEN_SIGNS.search(text)
    assert {"a", "b"} <= set(text)


@pytest.mark.parametrize("typed", ["<jo\\_smith@example.org>", "<jo_smith@example.org>"])
def test_a_mail_address_with_a_backslash_is_the_address_that_is_meant(typed: str):
    link = only(parsed(typed), "a")
    assert link["href"] == "mailto:jo_smith@example.org"
    assert link.get_text() == "jo_smith@example.org"


@pytest.mark.parametrize("sign", list("\\_#.!"))
def test_a_link_with_a_backslash_is_the_link_that_is_meant(sign: str):
    assert typed_links(f"[a](b\\{sign}c)") == (f"b{sign}c",)


@pytest.mark.parametrize("sign", list("\\`*_{}[]()#+-.!|"))
def test_no_mark_of_the_library_survives_a_backslash(sign: str):
    for typed in (
        f"a\\{sign}b",
        f"[a\\{sign}b](https://example.org/a\\{sign}b)",
        f"![a\\{sign}b](x)",
        f"<a\\{sign}b@example.org>",
        f"<https://example.org/a\\{sign}b>",
        f"a[^1]\n\n[^1]: n\\{sign}ote",
        f"| a | b |\n|---|---|\n| \\{sign} | c |",
        f"# a\\{sign}b",
    ):
        assert not UNSEEN_SIGNS.search(prose(typed, ident="t")), typed


def test_what_cannot_be_made_markup_of_is_shown_as_it_was_typed():
    deep = "- " * 2000 + "<x>"
    assert parsed(deep).get_text().endswith("<x>")


def test_quotes_are_curly_however_they_were_typed_and_code_is_left_alone() -> None:
    markup = str(prose("\"About\" means about, and it's the children's. Write `note: 'so'`.", ident="x"))
    assert "“About” means about, and it’s the children’s." in markup
    assert "<code>note: 'so'</code>" in markup
    assert "--" in str(prose("a -- b", ident="x")), "dashes stay as typed"
