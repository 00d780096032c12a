"""Links typed in prose lead to pages of the site, or nowhere."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from tallybed.pages.frame.links import resolver
from tests.pages.gardens import folder, site_of

HERE = "2026/log/04-06-spinach-in/index.html"


@pytest.fixture(scope="module")
def resolve(tmp_path_factory: pytest.TempPathFactory) -> Callable[[str], str | None]:
    return resolver(site_of(folder(tmp_path_factory.mktemp("garden"))), HERE)


@pytest.mark.parametrize(
    ("typed", "link"),
    [
        ("crop:carrot", "../../../crops/carrot/index.html"),
        ("crop:Carrots", "../../../crops/carrot/index.html"),
        ("crop:snap%20pea", "../../../crops/pea-snap/index.html"),
        ("crop:tomato", None),
        ("crop:moonflower", None),
        ("entry:2026-04-21-carrots-in", "../04-21-carrots-in/index.html"),
        ("entry:2026-04-22-carrots-in", None),
        ("/", "../../../index.html"),
        ("/crops/carrot/", "../../../crops/carrot/index.html"),
        ("/2026/tally/index.html", "../../tally/index.html"),
        ("../../beds/front/05/", "../../beds/front/05/index.html"),
        ("../04-21-carrots-in", "../04-21-carrots-in/index.html"),
        ("../../../../../etc/passwd", None),
        ("/nowhere/", None),
        ("javascript:alert(1)", None),
        ("//example.org", None),
        ("", "index.html"),
    ],
)
def test_links_are_resolved(resolve: Callable[[str], str | None], typed: str, link: str | None) -> None:
    assert resolve(typed) == link


def test_an_entry_not_yet_written_is_no_target(tmp_path: Path) -> None:
    years = site_of(folder(tmp_path, log=False))
    assert resolver(years, "index.html")("entry:2026-04-21-carrots-in") is None
