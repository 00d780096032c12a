"""Templates: links, escaping, and mistakes in a garden's own told at their line."""

from collections.abc import Mapping

import pytest
from jinja2 import UndefinedError
from jinja2.exceptions import TemplateSyntaxError

from tallybed.garden.findings import Finding, Place
from tallybed.pages.frame.page import Page
from tallybed.pictures.photos import Picture
from tallybed.publishing.assets import Layouts, Template
from tallybed.publishing.rendering import Rendering, TemplateMistakeError, render


def laid(shipped: Mapping[str, str], own: Mapping[str, str] | None = None) -> Layouts:
    ours = {
        name: Template(text=text, file=f"tallybed/layouts/{name}", own=False)
        for name, text in shipped.items()
    }
    theirs = {
        name: Template(text=text, file=f"layouts/{name}", own=True) for name, text in (own or {}).items()
    }
    return Layouts(templates={**ours, **theirs}, shipped=ours, assets={})


def page(
    path: str = "2026/index.html", template: str = "one.html", data: Mapping[str, object] | None = None
) -> Page:
    return Page(path=path, template=template, title="One", description="", data=data or {}, kind="one")


def rendered(text: str, own: Mapping[str, str] | None = None, **data: object) -> str:
    return Rendering(laid({"one.html": text}, own)).page(page(data=data)).decode()


def mistake(text: str, own: Mapping[str, str], **data: object) -> Finding:
    with pytest.raises(TemplateMistakeError) as caught:
        rendered(text, own, **data)
    return caught.value.finding


def test_data_is_named_plainly_and_escaped() -> None:
    assert rendered("{{ page.title }}: {{ words }}", words="<b>&") == "One: &lt;b&gt;&amp;\n"


def test_links_lead_from_the_page_being_made_also_inside_macros() -> None:
    layouts = laid(
        {"one.html": '{% import "bits.html" as bits %}{{ bits.link("") }}', "bits.html": LINK_MACRO}
    )
    rendering = Rendering(layouts)
    assert rendering.page(page("2026/tally/index.html")) == b"../../index.html\n"
    assert rendering.page(page("index.html")) == b"index.html\n"


def test_a_template_is_made_anew_once_its_text_is_another() -> None:
    """What a template was compiled to is kept from one site to the next; an old text must not come back."""
    assert rendered("old {{ page.title }}") == "old One\n"
    assert rendered("new {{ page.title }}") == "new One\n"
    assert rendered("old {{ page.title }}") == "old One\n"
    assert rendered("shipped", {"one.html": "own {% include 'tallybed/one.html' %}"}) == "own shipped\n"
    assert rendered("shipped", {"one.html": "other {% include 'tallybed/one.html' %}"}) == "other shipped\n"


LINK_MACRO = "{% macro link(to) %}{{ href(to) }}{% endmacro %}"


def test_lines_end_in_a_line_feed_whatever_the_content_had() -> None:
    assert rendered("a\r\n{{ words }}\n\n", words="b\r\nc\rd") == "a\nb\nc\nd\n"


def test_photographs_are_found_by_season_and_file() -> None:
    picture = Picture(path="2026/photos/ab.jpg", width=8, height=6)
    rendering = Rendering(
        laid({"one.html": "{% set it = photo('2026/peas.jpg') %}{{ href(it.path) }}{{ photo('none') }}"}),
        {"2026/peas.jpg": picture},
    )
    assert rendering.page(page()) == b"photos/ab.jpgNone\n"


def test_a_mistake_in_our_own_template_is_never_blamed_on_the_garden() -> None:
    with pytest.raises(UndefinedError):
        rendered("{{ nothing_of_the_kind }}")
    with pytest.raises(TemplateSyntaxError):
        rendered("{% if %}")
    with pytest.raises(UndefinedError):
        rendered("{{ nothing_of_the_kind }}", {"other.html": "fine"})


def test_an_own_template_takes_the_place_of_ours_and_can_extend_it() -> None:
    ours = "<h1>{% block name %}ours{% endblock %}</h1>"
    assert rendered(ours, {"one.html": "theirs"}) == "theirs\n"
    extending = '{% extends "tallybed/one.html" %}{% block name %}theirs{% endblock %}'
    assert rendered(ours, {"one.html": extending}) == "<h1>theirs</h1>\n"


@pytest.mark.parametrize(
    ("own", "line", "words"),
    [
        ("fine\n{{ nothing_of_the_kind }}", 2, "nothing_of_the_kind"),
        ("fine\n\n{% if %}", 3, "Expected"),
        ("{% block a %}", 1, "block"),
        ("{{ 1 / 0 }}", 1, "division by zero"),
        ("a\n{% include 'nowhere.html' %}", 2, "nowhere.html"),
        ("a\n{{ href('../../etc/passwd') }}", 2, "no path within a site"),
        ("a\n{% include 'one.html' %}", 2, "without end"),
        ("a\nb\n{{ ''.__class__.__mro__ }}", 3, "unsafe"),
        ("a\n{{ page.title.nothing }}", 2, "nothing"),
        ("a\n{% for x in range(99999999) %}{% endfor %}", 2, "Range too big"),
    ],
)
def test_a_mistake_in_an_own_template_is_a_finding_at_its_line(own: str, line: int, words: str) -> None:
    found = mistake("ours", {"one.html": own})
    assert found.place.file == "layouts/one.html"
    assert found.place.line == line
    assert words in found.found
    assert "2026/index.html" in found.found


def test_a_mistake_below_an_own_template_is_told_at_the_own_line() -> None:
    layouts = laid(
        {"one.html": "ours", "bits.html": "{% macro twice(of) %}{{ of.count }}{% endmacro %}"},
        {"one.html": '\n{% import "bits.html" as bits %}\n{{ bits.twice() }}'},
    )
    with pytest.raises(TemplateMistakeError) as caught:
        Rendering(layouts).page(page())
    assert caught.value.finding.place == Place("layouts/one.html", 3)


def test_an_own_piece_that_lacks_what_ours_needs_is_told() -> None:
    layouts = laid(
        {
            "one.html": '{% import "bits.html" as bits %}{{ bits.name() }}',
            "bits.html": "{% macro name() %}x{% endmacro %}",
        },
        {"bits.html": "nothing here"},
    )
    with pytest.raises(TemplateMistakeError) as caught:
        Rendering(layouts).page(page())
    assert caught.value.finding.place.file == "layouts"


def test_one_bad_page_keeps_no_other_from_being_made_or_told() -> None:
    told: list[Finding] = []
    layouts = laid({"one.html": "", "two.html": "two"}, {"one.html": "{{ missing }}"})
    pages = [page("a/index.html"), page("b/index.html", "two.html"), page("c/index.html")]
    made = dict(render(pages, Rendering(layouts), told.append))
    assert made == {"b/index.html": b"two\n"}
    assert len(told) == 2


def test_a_page_outside_the_site_is_our_mistake() -> None:
    with pytest.raises(ValueError, match="no path within a site"):
        Rendering(laid({"one.html": ""})).page(page("../index.html"))
