"""From a garden folder to its site: whole, the same each time, and never at the text's cost."""

import os
import random
import signal
import subprocess
import sys
import time
from dataclasses import replace
from datetime import date
from pathlib import Path
from urllib.parse import unquote, urljoin, urlsplit

import pytest
from bs4 import BeautifulSoup
from lxml.html import document_fromstring
from PIL import Image

from tallybed.garden.days import Span
from tallybed.garden.garden import Garden, Question, Season
from tallybed.garden.records.ledger import Weighing
from tallybed.garden.records.log import Entry
from tallybed.garden.records.plan import PlanRow, Start
from tallybed.pictures.rooms import FOLDER
from tallybed.publishing.swap.handoff import repair
from tallybed.publishing.swap.marker import Difference, compared
from tallybed.publishing.swap.refused import RefusedError
from tallybed.tasks.base.errors import UsageError
from tallybed.tasks.base.garden import day_of, seen_from
from tallybed.tasks.build import build, make
from tallybed.tasks.check import check
from tallybed.tasks.site import fingerprint
from tallybed.tasks.start import start
from tests.folders import tree

pytestmark = pytest.mark.usefixtures("few_crops")

COMMAND = [sys.executable, "-c", "from tallybed.cli import main; main()"]


def text_of(garden: Path, page: str) -> str:
    return BeautifulSoup((garden / "site" / page).read_text(encoding="utf-8"), "html.parser").get_text(" ")


def test_a_new_garden_builds_at_once_without_a_finding(garden: Path) -> None:
    built = build(garden)
    assert built.findings == ()
    assert built.good
    assert built.changed
    assert built.today == date(2026, 5, 10)
    assert "The Bed by the Gate" in text_of(garden, "index.html")


@pytest.mark.parametrize("year", [1900, 1999, 2024, 2999])
def test_a_new_garden_of_any_year_has_no_finding(tmp_path: Path, year: int) -> None:
    start(tmp_path / "g", year)
    assert [one.code for one in check(tmp_path / "g")] == ["no-address"], "advice for a garden not yet online"


def test_a_garden_that_tells_its_address_is_not_asked_for_it(garden: Path) -> None:
    with (garden / "content" / "garden.yaml").open("a", encoding="utf-8") as file:
        file.write("address: https://beds.example/\n")
    assert check(garden) == ()


def test_every_link_of_the_site_leads_to_a_file_of_it(garden: Path) -> None:
    made = make(garden)
    assert "index.html" in made.files
    for path, data in made.files.items():
        if not path.endswith(".html"):
            continue
        page = document_fromstring(data.decode("utf-8"))
        idents = set(page.xpath("//@id"))
        for tag in page.iter("a", "link", "img", "script"):
            link = str(tag.get("href") or tag.get("src"))
            if urlsplit(link).scheme or tag.get("type") == "application/ld+json":
                continue
            target = urlsplit(urljoin(f"http://site.example/{path}", link))
            assert unquote(target.path)[1:] in made.files, f"{path} leads to {link}"
            if link.startswith("#"):
                assert target.fragment in idents, f"{path} has no {link}"


def test_pages_are_utf_8_with_plain_line_ends(garden: Path) -> None:
    files = make(garden).files
    assert {"index.html", "style.css"} <= set(files)
    for path, data in files.items():
        if path.endswith((".html", ".css")):
            assert data.decode("utf-8").endswith("\n"), path
            assert b"\r" not in data, path


def test_a_second_build_changes_nothing(garden: Path) -> None:
    assert build(garden).changed
    before = tree(garden)
    assert not build(garden).changed
    assert tree(garden) == before


def test_content_with_errors_leaves_the_site_as_it_was(garden: Path) -> None:
    build(garden)
    before = tree(garden / "site")
    with (garden / "content" / "2026" / "plan.yaml").open("a", encoding="utf-8") as file:
        file.write("- {crop: carrrot, squares: A1, sow: Apr 5}\n")
    built = build(garden)
    assert not built.good
    assert built.today is None
    assert any(
        one.place.file == "content/2026/plan.yaml" and one.nearest == "carrot" for one in built.findings
    )
    assert tree(garden / "site") == before


def test_a_garden_file_that_says_nothing_is_a_finding(garden: Path) -> None:
    (garden / "content" / "garden.yaml").write_text("")
    assert not build(garden).good
    assert not (garden / "site").exists()


def test_what_papers_disagree_about_is_told_and_blocks_nothing(garden: Path) -> None:
    ledger = garden / "content" / "2026" / "harvest.yaml"
    ledger.write_text("- {date: 2026-04-01, tag: RA1, weight: 7 oz}\n", encoding="utf-8")
    built = build(garden)
    assert built.findings
    assert built.good


@pytest.mark.parametrize("target", [".", "content", "content/site", "layouts", "layouts/x", ".."])
def test_a_site_is_never_written_over_its_own_text(garden: Path, target: str) -> None:
    (garden / "layouts").mkdir()
    before = tree(garden)
    with pytest.raises(UsageError, match="overwrite the garden's own text"):
        build(garden, garden / target, replace=True)
    assert tree(garden) == before


def test_a_folder_without_garden_is_said(tmp_path: Path) -> None:
    for work in (build, check):
        with pytest.raises(UsageError, match=r"content/garden\.yaml"):
            work(tmp_path)
    assert list(tmp_path.iterdir()) == []


def test_a_foreign_site_folder_is_refused(garden: Path) -> None:
    (garden / "site").mkdir()
    (garden / "site" / "letters.txt").write_text("dear aunt")
    with pytest.raises(RefusedError, match="did not write it"):
        build(garden)
    assert tree(garden / "site") == {"letters.txt": b"dear aunt"}
    assert build(garden, replace=True).changed
    assert "letters.txt" not in tree(garden / "site")


def test_own_layouts_override_file_by_file(garden: Path) -> None:
    plain = make(garden).files
    (garden / "layouts").mkdir()
    (garden / "layouts" / "leaf.html").write_text(
        '{% extends "tallybed/leaf.html" %}{% block content %}Ours: {{ super() }}{% endblock %}'
    )
    (garden / "layouts" / "map.css").write_text("/* ours */")
    own = make(garden).files
    assert b"Ours:" in own["about/index.html"]
    assert own["style.css"].endswith(b"/* ours */")
    changed = {path for path in plain if plain[path] != own[path]}
    assert changed == {"about/index.html", "style.css"}


def test_a_broken_own_template_is_a_finding_at_file_and_line(garden: Path) -> None:
    build(garden)
    before = tree(garden / "site")
    (garden / "layouts").mkdir()
    (garden / "layouts" / "home.html").write_text("<h1>\n{{ page.titel }}\n")
    built = build(garden)
    assert [(one.place.file, one.place.line) for one in built.findings] == [("layouts/home.html", 2)]
    assert not built.good
    assert tree(garden / "site") == before


def test_a_photograph_of_an_entry_is_shown_on_its_page(garden: Path) -> None:
    entry = garden / "content/2026/log/2026-04-05-the-first-sowing.md"
    text = entry.read_text(encoding="utf-8")
    entry.write_text(
        text.replace("done:", "photos: [{file: soil.png, alt: Dark soil}]\ndone:"), encoding="utf-8"
    )
    (garden / "content/2026/photos").mkdir()
    Image.new("RGB", (30, 20), "brown").save(garden / "content/2026/photos/soil.png")
    made = make(garden)
    assert made.findings == ()
    page = "2026/log/04-05-the-first-sowing/index.html"
    image = BeautifulSoup(made.files[page], "html.parser").img
    assert image is not None
    assert (image["alt"], image["width"], image["height"]) == ("Dark soil", "30", "20")
    shown = urlsplit(urljoin(f"http://site.example/{page}", str(image["src"]))).path[1:]
    assert made.files[shown].startswith(b"\xff\xd8\xff"), "no JPEG (ISO/IEC 10918-1: SOI, then a marker)"

    (garden / "content/2026/photos/soil.png").write_bytes(b"no picture")
    built = build(garden)
    assert [one.place.file for one in built.findings] == ["content/2026/log/2026-04-05-the-first-sowing.md"]
    assert not built.good


SPAN = Span(first=date(2026, 3, 1), last=date(2026, 11, 30))
EARLIER = Span(first=date(2025, 3, 1), last=date(2025, 11, 30))


def entry(day: date) -> Entry:
    return Entry(slug="x", day=day, title="X")


def season(span: Span = SPAN, log: tuple[Entry, ...] = (), ledger: tuple[Weighing, ...] = ()) -> Season:
    return Season(name=str(span.first.year), span=span, log=log, ledger=ledger)


@pytest.mark.parametrize(
    ("seasons", "today"),
    [
        (
            (season(log=(entry(date(2026, 4, 1)),), ledger=(Weighing(day=date(2026, 5, 2)),)),),
            date(2026, 5, 2),
        ),
        (
            (season(log=(entry(date(2026, 6, 1)),), ledger=(Weighing(day=date(2026, 5, 2)),)),),
            date(2026, 6, 1),
        ),
        (
            (season(ledger=(Weighing(day=date(2026, 7, 2), weighed=date(2026, 8, 14)),)),),
            date(2026, 8, 14),
        ),
        ((season(EARLIER, log=(entry(date(2025, 11, 2)),)), season()), date(2025, 11, 2)),
        ((season(),), date(2026, 2, 28)),
        ((season(EARLIER), season()), date(2026, 2, 28)),  # the earlier one must be over
    ],
    ids=[
        "ledger newest",
        "log newest",
        "day of weighing",
        "latest season without records",
        "no record at all",
        "no record in either of two",
    ],
)
def test_today_is_the_newest_record_of_the_latest_season_that_has_one(
    seasons: tuple[Season, ...], today: date
) -> None:
    assert day_of(Garden(name="G", seasons=seasons)) == today


@pytest.mark.parametrize(
    ("latest", "today"),
    [
        (date(2024, 12, 31), date(2025, 2, 28)),
        (date(2025, 3, 15), date(2025, 2, 28)),
        (date(2026, 3, 1), date(2026, 2, 28)),
    ],
)
def test_seen_from_before_its_first_record_a_season_is_not_over_because_a_later_one_is_planned(
    latest: date, today: date
) -> None:
    """Fails where ``--as-of`` in a spring that has no record yet gives a site of the year after."""
    assert day_of(Garden(name="G", seasons=(season(EARLIER), season())), latest) == today


def test_a_site_seen_from_before_its_first_record_is_not_one_of_the_year_after(garden: Path) -> None:
    (garden / "content" / "2027").mkdir()
    (garden / "content" / "2027" / "plan.yaml").write_text("[]\n", encoding="utf-8")
    assert build(garden, as_of=date(2026, 4, 1)).today == date(2026, 3, 31)


def test_seen_from_a_day_later_records_are_not_there() -> None:
    day = date(2026, 6, 1)
    plan_row = PlanRow(
        crop="okra",
        squares=(),
        start=Start.SOW,
        begins=date(2026, 5, 20),
        until=date(2026, 9, 30),
        dropped=date(2026, 6, 2),
        because="cold",
    )
    full = Garden(
        name="G",
        seasons=(
            replace(
                season(
                    log=(entry(day), entry(date(2026, 6, 2))),
                    ledger=(
                        Weighing(day=day),
                        Weighing(day=date(2026, 6, 2)),
                        Weighing(day=day, weighed=date(2026, 7, 1)),
                    ),
                ),
                plan=(plan_row, replace(plan_row, dropped=day)),
                closed=True,
            ),
        ),
        questions=(
            Question(slug="a", question="A?", asked=day),
            Question(slug="b", question="B?", asked=date(2026, 6, 2)),
            Question(slug="c", question="C?"),
        ),
    )
    (seen,) = seen_from(full, day).seasons
    assert seen.log == (entry(day),)
    assert seen.ledger == (Weighing(day=day),)
    assert seen.plan == (replace(plan_row, dropped=None, because=""), replace(plan_row, dropped=day))
    assert not seen.closed
    assert [one.slug for one in seen_from(full, day).questions] == ["a", "c"]
    assert seen_from(full, date(2026, 11, 30)) == full


def test_papers_that_are_not_there_stay_so_when_seen_from_a_day() -> None:
    bare = Garden(name="G", seasons=(Season(name="2026", span=SPAN),))
    assert seen_from(bare, date(2026, 1, 1)) == bare


def test_a_site_seen_from_a_day_knows_nothing_later(garden: Path) -> None:
    built = build(garden, as_of=date(2026, 5, 6))
    assert built.today == date(2026, 5, 6)
    assert "10 May 2026" not in "".join(
        text_of(garden, page) for page in ("index.html", "2026/tally/index.html")
    )
    before_all = build(garden, as_of=date(2026, 1, 1))
    assert before_all.good
    assert before_all.today == date(2026, 3, 31)


@pytest.mark.skipif(not hasattr(signal, "SIGKILL"), reason="no such signal there")
def test_the_command_killed_at_random_moments_leaves_a_whole_site(garden: Path) -> None:
    site = garden / "site"
    build(garden)
    file = garden / "content" / "garden.yaml"
    text = file.read_text(encoding="utf-8")
    moments = random.Random(20260510)
    for number in range(8):
        file.write_text(text.replace("by the Gate", f"number {number}"), encoding="utf-8")
        with subprocess.Popen([*COMMAND, "build", str(garden), "--quiet"]) as child:
            time.sleep(moments.uniform(0.2, 0.9))
            child.kill()
            child.wait(timeout=30)
        repair(site)
        both = compared(site)
        assert both is not None
        assert both[1] == Difference()
        there = {path.name for path in garden.iterdir()} - {FOLDER}
        assert there == {"README.txt", "content", "site"}
    assert build(garden).good
    assert f"number {number}" in text_of(garden, "index.html")


def test_a_file_in_the_place_of_the_layouts_is_told_as_the_contents_fault(garden: Path) -> None:
    without = fingerprint.of_folder(garden / "layouts")
    (garden / "layouts").write_text("x")
    assert fingerprint.of_folder(garden / "layouts") != without
    built = build(garden)
    assert not built.good
    assert ("layouts:1:1", "not-a-folder") in [(str(one.place), one.code) for one in built.findings]


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="this system has no named pipes")
def test_a_pipe_in_the_garden_holds_nobody_up(garden: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    before = fingerprint.of_folder(garden)
    (garden / "content" / "2026" / "photos").mkdir()
    pipe = garden / "content" / "2026" / "photos" / "peas.jpg"
    os.mkfifo(pipe)
    opened = list[str]()
    read = fingerprint.bytes_of

    def noting(path: str) -> bytes:
        opened.append(path)
        return b"" if path == str(pipe) else read(path)

    monkeypatch.setattr(fingerprint, "bytes_of", noting)
    assert fingerprint.of_folder(garden) != before
    assert str(pipe) not in opened
