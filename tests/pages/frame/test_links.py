"""Links typed in prose lead to pages of the site, or nowhere."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest

from tallybed.garden.findings import Severity
from tallybed.pages.frame.links import resolver
from tallybed.reckoning.year import Years
from tallybed.tasks.build import build, make
from tallybed.tasks.check import check
from tests.pages.gardens import folder, parsed, site_of, written

pytestmark = pytest.mark.usefixtures("few_crops")

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
        ("../../beds/front/04/", "../../beds/front/04/index.html"),
        ("../../beds/front/05/", "../../beds/front/index.html"),
        ("/2026/plan/", "../../plants/index.html"),
        ("../04-21-carrots-in", "../04-21-carrots-in/index.html"),
        ("/2026/tally/#t-crops", "../../tally/index.html#t-crops"),
        ("crop:carrot#care", "../../../crops/carrot/index.html#care"),
        ("#done", "index.html#done"),
        ("/2026/tally/?month=5", None),
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


LINKED = """\
---
title: About the hall
---
We [began](entry:2026-04-06-spinach-in), [went on](entry:2026-04-21-carrots-in)
and are [picking](/2026/bulletins/2026-w21/). [Why?](/questions/why-so-few/)
"""


def test_a_link_that_leads_nowhere_keeps_the_site_from_being_built(tmp_path: Path) -> None:
    """Fails where the text is put out with the words of the link and nothing behind them."""
    root = folder(tmp_path)
    written(root, {"about.md": LINKED.replace("w21", "w12")})
    for findings in (check(root), build(root, tmp_path / "site").findings):
        (found,) = [one for one in findings if one.severity is Severity.ERROR]
        assert (found.code, str(found.place)) == ("link-nowhere", "content/about.md:5:19")
        assert found.nearest == "/2026/bulletins/2026-w21/"
    assert not (tmp_path / "site").exists()


def test_a_link_to_what_is_not_there_yet_is_silent(tmp_path: Path) -> None:
    """Fails where an entry that waits, or a site as of an earlier day, makes an error of a good link."""
    root = written(folder(tmp_path), {"about.md": LINKED})
    assert not _nowhere(root)
    assert not _nowhere(root, as_of=date(2026, 4, 10))
    for name in ("2026/log/2026-04-21-carrots-in.md", "questions/why-so-few.md"):
        text = (root / "content" / name).read_text(encoding="utf-8")
        written(root, {name: text.replace("---\n", "---\nunfinished: yes\n", 1)})
    assert not _nowhere(root)
    page = parsed(make(root).files["about/index.html"].decode())
    assert [link.get_text() for link in page.select(".prose a")] == ["began", "picking"]
    for name in ("2026/log/2026-04-21-carrots-in.md", "questions/why-so-few.md"):
        (root / "content" / name).unlink()
    assert _nowhere(root) == ["content/about.md:4:52", "content/about.md:5:54"]


def test_a_draft_may_still_lead_nowhere(tmp_path: Path) -> None:
    draft = LINKED.replace("---\n", "---\ndate: 2026-05-01\nunfinished: yes\n", 1).replace("w21", "w12")
    root = written(folder(tmp_path), {"2026/log/2026-05-01-draft.md": draft})
    assert not _nowhere(root)


def _nowhere(root: Path, as_of: date | None = None) -> list[str]:
    found = [one for one in check(root, as_of=as_of) if one.severity is Severity.ERROR]
    assert {one.code for one in found} <= {"link-nowhere"}
    return [str(one.place) for one in found]


def test_years_that_do_not_know_their_pages_say_so(tmp_path: Path) -> None:
    """Fails where every link of a site vanishes because nobody said what pages it has."""
    years = site_of(folder(tmp_path))
    with pytest.raises(LookupError, match="pages=every_path"):
        resolver(Years(garden=years.garden, today=years.today), HERE)
