"""No word, picture or address of what waits reaches any file of the site; its work does."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from PIL import Image

from tallybed.tasks.build import build, make, rendered
from tallybed.tasks.check import check
from tallybed.tasks.site.laid_out import laid_out
from tests.pages.gardens import LOG, folder, written

pytestmark = pytest.mark.usefixtures("few_crops")

SECRETS = ("Hush", "whisper", "nobody-yet", "Mumbler", "murmur.example", "secretly")
WAITING = """\
---
title: Hush, a title
date: 2026-05-18
by: Mumbler
{wait}
done:
  - {{sow: radish, tag: RA7, squares: back/A2, note: seen by all}}
photos:
  - {{file: nobody-yet.png, alt: A whisper of a picture}}
further reading:
  - {{title: Hush again, address: https://murmur.example/}}
---
Written secretly.
"""
QUESTION = "---\nquestion: Why the Hush?\nasked: 2026-05-01\nabout: [carrot]\n{wait}\n---\nSecretly.\n"


def garden(root: Path, wait: str) -> Path:
    folder(root)
    written(
        root,
        {
            "2026/log/2026-05-18-whisper.md": WAITING.format(wait=wait),
            "questions/nobody-yet.md": QUESTION.format(wait=wait),
        },
    )
    (root / "content/2026/photos").mkdir()
    Image.new("RGB", (9, 7), "#123456").save(root / "content/2026/photos/nobody-yet.png")
    return root


@pytest.mark.parametrize("wait", ["unfinished: yes", "hold until: 2026-05-21"])
def test_no_file_of_the_site_knows_a_word_of_what_waits(tmp_path: Path, wait: str) -> None:
    made = make(garden(tmp_path, wait))
    assert made.files
    for path, data in made.files.items():
        for secret in SECRETS:
            assert secret not in path, f"{path} is the page of something that waits"
            assert secret.casefold().encode() not in data.lower(), f"{path} tells what waits: {secret}"
    assert not [path for path in made.files if path.endswith(".jpg")], "its photograph was put out"
    log = BeautifulSoup(made.files["2026/log/index.html"], "lxml")
    assert "Two visits" in log.get_text(), "it is counted among the visits"
    month = BeautifulSoup(made.files["2026/beds/back/index.html"], "lxml")
    assert "seen by all" in month.get_text() or "radish" in month.get_text().casefold(), "its work is lost"
    codes = [(one.place.file, one.code) for one in made.findings if one.code in ("unfinished", "held")]
    code = "unfinished" if "unfinished" in wait else "held"
    assert codes == [
        ("content/2026/log/2026-05-18-whisper.md", code),
        ("content/questions/nobody-yet.md", code),
    ]


@pytest.mark.parametrize("wait", ["unfinished: no", "hold until: 2026-05-20", ""])
def test_it_is_published_once_it_need_not_wait(tmp_path: Path, wait: str) -> None:
    made = make(garden(tmp_path, wait))
    assert not [one for one in made.findings if one.code in ("unfinished", "held")]
    page = made.files["2026/log/05-18-whisper/index.html"].decode()
    assert "Hush, a title" in page
    assert "A whisper of a picture" in page
    assert "questions/nobody-yet/index.html" in made.files


def test_a_held_page_waits_again_where_the_site_is_seen_from_an_earlier_day(tmp_path: Path) -> None:
    root = garden(tmp_path, "hold until: 2026-05-20")
    assert "2026/log/05-18-whisper/index.html" in make(root).files
    assert "2026/log/05-18-whisper/index.html" not in rendered(laid_out(root, as_of=date(2026, 5, 19))).files


def test_the_gardeners_own_eyes_see_what_waits(tmp_path: Path) -> None:
    made = make(garden(tmp_path, "unfinished: yes"), drafts=True)
    assert "Hush, a title" in made.files["2026/log/05-18-whisper/index.html"].decode()
    assert [path for path in made.files if path.endswith(".jpg")]
    assert {"unfinished"} <= {one.code for one in made.findings}


def test_a_photograph_that_cannot_be_opened_keeps_no_site_back_while_its_entry_waits(tmp_path: Path) -> None:
    root = garden(tmp_path, "unfinished: yes")
    (root / "content/2026/photos/nobody-yet.png").write_bytes(b"none")
    assert [(one.code, str(one.severity)) for one in check(root) if one.code == "photo-unfit"] == [
        ("photo-unfit", "warning")
    ]
    assert build(root).good


def test_a_link_to_what_waits_leads_nowhere_and_breaks_nothing(tmp_path: Path) -> None:
    root = garden(tmp_path, "unfinished: yes")
    name, text = "2026-04-21-carrots-in.md", LOG["2026-04-21-carrots-in.md"]
    written(root, {f"2026/log/{name}": f"{text}\nSoon [more](entry:2026-05-18-whisper).\n"})
    page = BeautifulSoup(make(root).files["2026/log/04-21-carrots-in/index.html"], "lxml")
    assert "Soon more" in " ".join(page.get_text().split())
    assert not page.select('a[href*="05-18"]')


def test_a_draft_in_which_nothing_was_done_changes_no_byte_of_the_site(tmp_path: Path) -> None:
    root = folder(tmp_path)
    before = make(root).files
    draft = "---\ntitle: Later\ndate: 2026-04-15\nunfinished: yes\n---\nTo be written.\n"
    written(root, {"2026/log/2026-04-15-later.md": draft})
    after = make(root).files
    assert [path for path in {**before, **after} if before.get(path) != after.get(path)] == []
