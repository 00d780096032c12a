"""What is withdrawn is gone from the garden, from what is kept, and with the next build from the site."""

from __future__ import annotations

import shlex
import shutil
from collections.abc import Callable
from datetime import date
from hashlib import sha256
from pathlib import Path
from zipfile import ZIP_DEFLATED, ZipFile

import pytest
from bs4 import BeautifulSoup
from click.testing import CliRunner, Result

from tallybed.cli import main
from tallybed.garden.records.people import WithdrawnKind
from tallybed.tasks import withdraw
from tallybed.tasks.base.errors import UsageError
from tallybed.tasks.build import build
from tallybed.tasks.check import check
from tallybed.tasks.site.reckoned import reckoned
from tallybed.tasks.withdrawing import names
from tallybed.tasks.withdrawing.pictures import entry, picture
from tallybed.writing import atomic, ledger
from tests.pictures.shots import exif, photograph
from tests.small_garden import read_garden

pytestmark = pytest.mark.usefixtures("few_crops")

NAME = "Zephyrine Quill"
SENTENCE = "Something was withdrawn from this season."
HEDGE = photograph(500, 300, exif=exif())
CREW = photograph(501, 300, exif=exif())
FILES: dict[str, str | bytes] = {
    "content/garden.yaml": """\
name: Two Plank Garden
about: Kept by Zephyrine Quill and friends.
season: {start: Mar 1, end: Oct 31}
beds:
  - {name: front, length: 4 squares, width: 2 squares}
""",
    "content/about.md": "---\ntitle: About us\n---\nAsk Zephyrine\nQuill, or anybody.\n",
    "content/questions/why.md": "---\nquestion: Why?\nby: Zephyrine Quill\n---\nBecause.\n",
    "content/2026/plan.yaml": (
        "- {crop: spinach, tag: SP1, squares: A1:B1, sow: Apr 5, note: from Zephyrine Quill}\n"
    ),
    "content/2026/log/2026-04-06-hedge-day.md": """\
---
title: Wolverine socks
by: Zephyrine Quill and the Monday pair    # as they wanted
done:
  - {sow: spinach, tag: SP1, squares: A1:B1}
photos:
  - {file: hedge.jpg, alt: A quizzical hedge, credit: Zephyrine Quill}
  - {file: crew.jpg, alt: Spades}
---
Marmalade weather. Zephyrine Quill brought it.
""",
    "content/2026/log/2026-04-20-second-day.md": """\
---
title: A second day
by: the Monday pair
done: [{up: spinach, tag: SP1}]
photos: [{file: crew.jpg, alt: Spades}, {file: same-hedge.jpg, alt: A quizzical hedge}]
---
See [the first](entry:2026-04-06-hedge-day) and hedge.jpg.
""",
    "content/2026/photos/hedge.jpg": HEDGE,
    "content/2026/photos/same-hedge.jpg": HEDGE,
    "content/2026/photos/crew.jpg": CREW,
    "content/2025/log/2025-05-01-zephyrine-quill-helps.md": (
        "---\ntitle: Help\nphotos: [{file: hedge.jpg, alt: Old}]\n---\nYes.\n"
    ),
    "content/2025/photos/hedge.jpg": CREW,
}


@pytest.fixture(scope="module")
def model(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("model") / "garden"
    for name, content in FILES.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content.encode() if isinstance(content, str) else content)
    assert built(folder)
    return folder


@pytest.fixture
def root(model: Path, tmp_path: Path) -> Path:
    """A garden of one's own, built, with what is kept from that."""
    shutil.copytree(model, tmp_path / "garden")
    return tmp_path / "garden"


def built(root: Path) -> bool:
    return build(root, root / "site").good


def holding(root: Path, *words: str) -> list[str]:
    """Every file of the garden, its site and what is kept that holds any of the words."""
    signs = [word.encode() for word in words]
    return [
        path.relative_to(root).as_posix()
        for path in sorted(root.rglob("*"))
        if path.is_file()
        and (any(sign in path.read_bytes() for sign in signs) or any(w in str(path) for w in words))
    ]


def asked(root: Path, *words: str, answer: str | None = None) -> Result:
    arguments = ["withdraw", str(root), *words]
    return CliRunner().invoke(main, arguments, input=answer, catch_exceptions=False)


def test_a_picture_is_gone_for_good(root: Path) -> None:
    source = sha256(HEDGE).hexdigest()
    assert holding(root, source[:16]), "the test itself looks for the wrong thing"
    assert holding(root, "quizzical")
    files = {path.read_bytes() for path in (root / "site").rglob(f"{source[:16]}*")}
    assert len(files) == 4
    done = asked(root, "--picture", "2026/photos/hedge.jpg", "--on", "2026-08-02", "--yes")
    assert done.exit_code == 0, done.output
    assert not (root / "content/2026/photos/same-hedge.jpg").exists(), "a copy of the same bytes stays"
    assert [path for path in (root / ".tallybed-cache").rglob("*") if path.name.startswith(source)] == []
    assert built(root)
    assert holding(root, source[:16], "quizzical", "same-hedge") == []
    assert [path for path in root.rglob("*") if path.is_file() and path.read_bytes() in files] == []
    assert (root / "content/2025/photos/hedge.jpg").exists(), "another season's picture of that name is gone"
    assert holding(root / "site", sha256(CREW).hexdigest()[:16]), "another picture is gone from the site"


def test_what_speaks_of_a_picture_is_told_within_its_season(root: Path) -> None:
    (root / "content/2026/costs.yaml").write_text("# See hedge.jpg.\n", encoding="utf-8")
    (root / "content/2025/costs.yaml").write_text("# See hedge.jpg.\n", encoding="utf-8")
    found = [place.file for place in picture(root, "2026/photos/hedge.jpg").left]
    assert "content/2026/costs.yaml" in found
    assert "content/2025/costs.yaml" not in found, "that season has another picture of the name"


def test_only_that_something_went_is_kept(root: Path) -> None:
    asked(root, "--picture", "2026/photos/hedge.jpg", "--on", "2026-08-02", "--yes")
    asked(root, "--entry", "2026/2026-04-20-second-day", "--on", "2026-08-02", "--yes")
    asked(root, "--name", NAME, "--on", "2026-08-03", "--yes")
    text = (root / "content/withdrawn.yaml").read_text(encoding="utf-8")
    assert [line for line in text.splitlines() if not line.startswith("#")] == [
        "- {withdrawn: picture, season: 2026, on: 2026-08-02}",
        "- {withdrawn: entry, season: 2026, on: 2026-08-02}",
        "- {withdrawn: name, on: 2026-08-03}",
        "- {withdrawn: name, season: 2026, on: 2026-08-03}",
    ]
    assert not [one for one in check(root) if one.place.file == "content/withdrawn.yaml"]


def test_the_log_says_that_something_was_withdrawn(root: Path) -> None:
    assert SENTENCE not in (root / "site/2026/log/index.html").read_text(encoding="utf-8")
    asked(root, "--picture", "2026/photos/hedge.jpg", "--yes")
    assert built(root)
    page = BeautifulSoup((root / "site/2026/log/index.html").read_bytes(), "lxml")
    assert SENTENCE in page.get_text()
    assert SENTENCE not in (root / "site/2025/log/index.html").read_text(encoding="utf-8")


def test_an_entry_is_gone_with_the_pictures_that_no_other_shows(root: Path) -> None:
    done = asked(root, "--entry", "2026/2026-04-06-hedge-day.md", "--yes")
    assert done.exit_code == 0, done.output
    assert "content/2026/log/2026-04-20-second-day.md:7:23" in done.output, "a link to it is not told"
    assert "no site can be built while a link leads to it" in done.output
    assert not built(root), "a link that leads nowhere any more is an error until somebody takes it out"
    other = root / "content/2026/log/2026-04-20-second-day.md"
    text = other.read_text(encoding="utf-8")
    other.write_text(text.replace("[the first](entry:2026-04-06-hedge-day)", "the first"), encoding="utf-8")
    assert built(root)
    assert holding(root, "Wolverine", "Marmalade", "content/2026/photos/hedge.jpg") == []
    assert holding(root / "site", "hedge-day") == []
    assert (root / "content/2026/photos/crew.jpg").exists(), "the other entry still shows it"
    assert not list((root / "content/2026/log").glob("*treatment*")), "it told of none"


def test_a_name_is_gone_everywhere_where_words_are_given_for_it(root: Path) -> None:
    before = (root / "content/2026/log/2026-04-06-hedge-day.md").read_text(encoding="utf-8")
    done = asked(root, "--name", NAME, "--instead", "a neighbour", "--yes")
    assert done.exit_code == 1, "a file's own name still holds it"
    assert "content/2025/log/2025-05-01-zephyrine-quill-helps.md" in done.output
    (root / "content/2025/log/2025-05-01-zephyrine-quill-helps.md").rename(
        root / "content/2025/log/2025-05-01-x.md"
    )
    assert built(root)
    assert holding(root, "Zephyrine", "Quill", "zephyrine") == []
    after = (root / "content/2026/log/2026-04-06-hedge-day.md").read_text(encoding="utf-8")
    unnamed = before.replace(f"by: {NAME} and the Monday pair", "by: the Monday pair")
    begun = unnamed.replace(f"weather. {NAME}", "weather. A neighbour")
    assert begun != unnamed, "a sentence begins with a capital"
    assert after == begun.replace(NAME, "a neighbour")
    assert asked(root, "--name", NAME).output == "There is nothing to take out.\n"


def test_without_words_for_it_prose_is_told_and_left(root: Path) -> None:
    done = asked(root, "--name", NAME, "--yes")
    assert done.exit_code == 1
    assert [line.strip() for line in done.output.splitlines() if line.startswith("  content/")] == [
        "content/2026/log/2026-04-06-hedge-day.md: by: the Monday pair",
        "content/questions/why.md: no longer says by whom",
        "content/2025/log/2025-05-01-zephyrine-quill-helps.md",
        "content/2026/log/2026-04-06-hedge-day.md:7:55",
        "content/2026/log/2026-04-06-hedge-day.md:10:20",
        "content/2026/plan.yaml:1:68",
        "content/about.md:4:5",
        "content/garden.yaml:2:16",
    ]
    assert "Zephyrine" in (root / "content/about.md").read_text(encoding="utf-8")
    assert "by:" not in (root / "content/questions/why.md").read_text(encoding="utf-8")


def test_a_garden_own_layout_that_holds_the_name_is_told(root: Path) -> None:
    (root / "layouts").mkdir()
    (root / "layouts" / "leaf.html").write_text(f"<p>{NAME}</p>\n", encoding="utf-8")
    found = names.name(root, NAME, "a neighbour")
    assert "layouts/leaf.html" in [place.file for place in found.left]


def test_rows_of_the_ledger_that_could_be_taken_back_are_forgotten_with_a_name(root: Path) -> None:
    memory = root / "content" / ".tallybed-weighed"
    memory.write_text("a row that may hold the name", encoding="utf-8")
    asked(root, "--name", NAME, "--yes")
    assert not memory.exists(), "what cannot be read may hold it"


@pytest.mark.parametrize(
    ("row", "kept"),
    [
        ("{crop: spinach, squares: A1, weight: 1 lb}", True),
        ("{crop: spinach, squares: A1, weight: 1 lb, note: for Zoë Quill}", False),
        ("{crop: spinach, squares: A1, weight: 1 lb, note: for ZOË QUILL}", False),
    ],
)
def test_a_row_without_the_name_can_still_be_taken_back(root: Path, row: str, kept: bool) -> None:
    """Fails where every name that is withdrawn takes the memory of unrelated rows with it."""
    content = root / "content"
    about = content / "about.md"
    about.write_text(about.read_text(encoding="utf-8") + "Zoë Quill too.\n", encoding="utf-8")
    with ledger.turn(content):
        ledger.append(content, "2026/harvest.yaml", [row], lambda _old, _new: None)
    before = ledger.remembered(content)
    asked(root, "--name", "Zoë Quill", "--instead", "a neighbour", "--yes")
    assert ledger.remembered(content) == (before if kept else None)
    assert (content / ".tallybed-weighed").exists() is kept


@pytest.mark.parametrize("text", ["[]\n", "[", "nothing"])
def test_of_a_name_that_stands_nowhere_nothing_is_noted(root: Path, text: str) -> None:
    """Fails where a memory without rows is taken for one that holds the name."""
    memory = root / "content" / ".tallybed-weighed"
    memory.write_text(text, encoding="utf-8")
    assert asked(root, "--name", "Ottoline Brisk", "--yes").output == "There is nothing to take out.\n"
    assert memory.exists()
    assert not (root / "content/withdrawn.yaml").exists()


def test_a_broken_memory_that_holds_the_name_goes(root: Path) -> None:
    memory = root / "content" / ".tallybed-weighed"
    memory.write_text('[{"after": "weighed by Ottoline Brisk', encoding="utf-8")
    asked(root, "--name", "Ottoline Brisk", "--yes")
    assert not memory.exists()


def test_a_name_that_stands_in_the_memory_alone_is_forgotten(root: Path) -> None:
    content = root / "content"
    with ledger.turn(content):
        ledger.append(content, "2026/harvest.yaml", ["{note: Zoë Quill}"], lambda _old, _new: None)
    (content / "2026/harvest.yaml").unlink()
    asked(root, "--name", "Zoë Quill", "--yes")
    assert not (content / ".tallybed-weighed").exists()


@pytest.mark.parametrize(("answer", "code"), [("n\n", 0), ("", 2)])
def test_nothing_goes_unless_somebody_says_yes(root: Path, answer: str, code: int) -> None:
    before = {path: path.read_bytes() for path in root.rglob("*") if path.is_file()}
    done = asked(root, "--picture", "2026/photos/hedge.jpg", answer=answer)
    assert done.exit_code == code
    assert "content/2026/photos/hedge.jpg" in done.output
    assert "Nothing was taken out." in done.output
    assert {path: path.read_bytes() for path in root.rglob("*") if path.is_file()} == before


def test_an_archive_made_before_is_told(root: Path) -> None:
    assert "2026.zip" not in asked(root, "--entry", "2026/2026-04-20-second-day", "--yes").output
    (root / "2026.zip").write_bytes(b"PK")
    told = asked(root, "--picture", "2026/photos/hedge.jpg", "--yes").output
    assert "these may still hold it; delete them:\n  2026.zip\n" in told


def test_it_goes_when_somebody_says_yes(root: Path) -> None:
    assert asked(root, "--picture", "2026/photos/hedge.jpg", answer="y\n").exit_code == 0
    assert not (root / "content/2026/photos/hedge.jpg").exists()


WRONG = {
    "nothing": ([], "use one of"),
    "two things": (["--name", "M.", "--entry", "2026/2026-04-06-hedge-day"], "use one of"),
    "no picture": (["--picture", "2026/photos/hedges.jpg"], "did you mean 2026/photos/hedge.jpg?"),
    "a path": (["--picture", "../secret.jpg"], "is not a picture such as"),
    "a way out": (["--picture", "2026/photos/../../garden.yaml"], "is not a picture such as"),
    "a way out by its name": (["--picture", "2026/photos/.."], "there is no picture"),
    "no entry": (["--entry", "2026/2026-04-06-hedge-days"], "did you mean 2026/2026-04-06-hedge-day?"),
    "an entry's way out": (["--entry", "2026/../garden"], "is not an entry such as"),
    "no letter": (["--name", "."], "at least one letter"),
    "words with signs": (["--name", "M.", "--instead", "a: b"], "cannot take its place"),
    "words that hold it": (["--name", NAME, "--instead", f"not {NAME}"], "cannot take its place"),
    "words without a name": (["--entry", "2026/2026-04-06-hedge-day", "--instead", "x"], "goes with --name"),
    "no day": (["--name", "M.", "--on", "yesterday"], "is not a date"),
}


@pytest.mark.parametrize("name", WRONG)
def test_what_cannot_be_meant_is_told_and_changes_nothing(root: Path, name: str) -> None:
    words, told = WRONG[name]
    done = asked(root, *words, "--yes")
    assert done.exit_code == 2
    assert told in done.output
    assert not (root / "content/withdrawn.yaml").exists()


def test_an_entry_is_pointed_to_by_the_name_it_was_published_under(root: Path) -> None:
    """Fails where an entry of like length is offered, which is another."""
    entry = root / "content/2026/log/2026-04-20-second-day.md"
    text = entry.read_text(encoding="utf-8").replace(
        "title:", "identity: 2026-04-06-hedges  # keep it\ntitle:"
    )
    entry.write_text(text, encoding="utf-8")
    done = asked(root, "--entry", "2026/2026-04-06-hedges", "--yes")
    assert done.exit_code == 2
    assert "did you mean 2026/2026-04-20-second-day?" in done.output
    assert entry.exists()


def test_a_treatment_outlasts_the_entry_that_told_it(root: Path) -> None:
    """Nobody eats what should still wait because a visit's words were withdrawn."""
    entry = root / "content/2026/log/2026-04-20-second-day.md"
    line = "{treat: Marmalade spray, product: oil, squares: A1, wait: 90 days, note: by Zephyrine Quill}"
    line += "\n  - {water: manure tea, squares: A1}\n  - {water: second can, squares: A1}"
    entry.write_text(
        f"---\ntitle: A second day\ndone:\n  - {{up: spinach, tag: SP1}}\n  - {line}\n---\nSpoken words.\n",
        encoding="utf-8",
    )
    before = _waiting(root)
    assert before
    done = asked(root, "--entry", "2026/2026-04-20-second-day", "--yes")
    assert done.exit_code == 0, done.output
    assert not entry.exists()
    assert _waiting(root) == before
    kept = (root / "content/2026/log/2026-04-20-treatment.md").read_text(encoding="utf-8")
    for gone in ("Spoken", "Quill", "second", "spinach"):
        assert gone not in kept
    assert "unfinished: yes" in kept


@pytest.mark.parametrize("line", ["treat: oil", '"treat": oil', "Feed: fish", "water: hen muck"])
def test_a_header_that_cannot_be_read_and_may_tell_of_a_treatment_is_kept(root: Path, line: str) -> None:
    entry = root / "content/2026/log/2026-04-20-second-day.md"
    entry.write_text(f"---\ntitle: [A\ndone: [{{{line}, squares: A1}}]\n---\n", encoding="utf-8")
    done = asked(root, "--entry", "2026/2026-04-20-second-day", "--yes")
    assert "may tell of a treatment" in done.output
    assert entry.exists()


def _waiting(root: Path) -> set[tuple[str, str, date | None]]:
    """What waits by the log: planting, square and first safe day."""
    garden = read_garden(root)
    year = reckoned(garden).named("2026")
    assert year is not None
    return {(one.planting, one.square.label, one.first_safe) for one in year.waiting.waits}


def test_where_there_is_no_garden_nothing_is_withdrawn(tmp_path: Path) -> None:
    for find in (picture, entry, names.name):
        with pytest.raises(UsageError, match="not a garden folder"):
            find(tmp_path, "2026/x")


def test_an_entry_that_cannot_be_read_is_told_and_left(root: Path) -> None:
    broken = root / "content/2026/log/2026-04-20-second-day.md"
    broken.write_text("---\nphotos: [{file: hedge.jpg\n---\n", encoding="utf-8")
    found = picture(root, "2026/photos/hedge.jpg")
    assert "content/2026/log/2026-04-20-second-day.md:2:17" in map(str, found.left)


def test_a_withdrawal_that_was_ended_halfway_is_finished_by_the_next(
    root: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    found = picture(root, "2026/photos/hedge.jpg")
    with monkeypatch.context() as patch:
        patch.setattr(withdraw, "write_over", _failing_at(3))
        with pytest.raises(OSError, match="full"):
            withdraw.carry_out(found, date(2026, 8, 2))
    assert (root / "content/2026/photos/hedge.jpg").exists()
    withdraw.carry_out(picture(root, "2026/photos/hedge.jpg"), date(2026, 8, 2))
    assert not (root / "content/2026/photos/hedge.jpg").exists()
    text = (root / "content/withdrawn.yaml").read_text(encoding="utf-8")
    assert text.count("withdrawn: picture") == 1, "one withdrawal was noted twice"


def _failing_at(call: int) -> Callable[[Path, bytes], None]:
    calls: list[Path] = []

    def write(path: Path, data: bytes) -> None:
        calls.append(path)
        if len(calls) == call:
            raise OSError(28, "the disk is full")
        atomic.write_over(path, data)

    return write


def test_a_picture_whose_file_is_gone_already_still_leaves_the_entries(root: Path) -> None:
    (root / "content/2026/photos/crew.jpg").unlink()
    found = picture(root, "2026/photos/crew.jpg")
    assert found.gone == ()
    assert [edit.file for edit in found.edits] == [
        "content/2026/log/2026-04-06-hedge-day.md",
        "content/2026/log/2026-04-20-second-day.md",
    ]
    assert found.kind is WithdrawnKind.PICTURE


KEPT = (
    "kitchen.csv",
    "kitchen.csv.skipped.csv",
    "notes/mail.html",
    "book.xlsx",
    "content/2026/log/2026-04-06-hedge-day.md~",
    "content/2026/harvest.yaml.orig",
)
"""Files that hold the name, each of them left by an editor or a command, and read by no build."""


def _left_behind(root: Path) -> None:
    for file in KEPT:
        path = root / file
        path.parent.mkdir(exist_ok=True)
        path.write_text(f"brought by {NAME.upper() if 'mail' in file else NAME}\n", encoding="utf-8")
    with ZipFile(root / "book.xlsx", "w", ZIP_DEFLATED) as book:
        book.writestr("xl/sharedStrings.xml", f"<t>{NAME}</t>")
    (root / ".git").mkdir()
    (root / ".git" / "x").write_text(NAME, encoding="utf-8")


def test_files_that_no_build_reads_are_told_where_they_hold_the_name(root: Path) -> None:
    """Else a backup or the spreadsheet itself would bring the name back."""
    _left_behind(root)
    found = names.name(root, NAME, "a neighbour")
    assert sorted(found.unread) == sorted(KEPT)
    done = asked(root, "--name", NAME, "--instead", "a neighbour", "--yes")
    told = done.output.partition("delete or edit them:\n")[2]
    assert [line.strip() for line in told.splitlines()[: len(KEPT)]] == list(found.unread)
    assert done.exit_code == 1, "all is said to be gone while files still hold it"
    assert asked(root, "--name", NAME).exit_code == 1


def test_a_short_name_is_not_found_in_everything(root: Path) -> None:
    (root / "kitchen.csv").write_text("I'm here at 5 a.m.\n", encoding="utf-8")
    found = names.name(root, "M.", "a neighbour")
    assert (found.unread, found.alike, found.left) == ((), (), ())


def test_the_record_of_rows_taken_in_loses_the_name_and_knows_the_row(root: Path) -> None:
    """The record keeps cells in small letters; a row must not be taken twice because a name went."""
    sheet = root / "kitchen.csv"
    sheet.write_text(f"Date,Veg,Weight (oz),To\n2026-04-08,spinach,4,{NAME}\n", encoding="utf-8")
    taken = CliRunner().invoke(main, ["take-in", str(sheet), "--folder", str(root), "--yes"])
    assert taken.exit_code == 0, taken.output
    record = root / "content/2026/taken-in.yaml"
    assert NAME.casefold() in record.read_text(encoding="utf-8"), "the test itself looks for the wrong thing"
    asked(root, "--name", NAME, "--instead", "A Neighbour", "--yes")
    assert "to: a neighbour" in record.read_text(encoding="utf-8")
    assert "quill" not in record.read_text(encoding="utf-8")
    again = CliRunner().invoke(main, ["take-in", str(sheet), "--folder", str(root)])
    assert "1 changed since" in again.output


def test_what_may_be_the_name_written_otherwise_is_told(root: Path) -> None:
    (root / "content/about.md").write_text(
        "---\ntitle: About us\n---\n"
        "**Zephyrine** Quill, ZEPHYRINE QUILL, [hers](https://x.example/zephyrine-quill?by=Zephyrine%20Quill),\n"
        "Zephyrine&nbsp;Quill, Zephyrine Quill, Zephyrine Quillfeather, zephyrine_quill.\n",
        encoding="utf-8",
    )
    found = names.name(root, NAME, "a neighbour")
    here = [(place.line, place.column) for place in found.alike if place.file == "content/about.md"]
    assert here == [(4, 3), (4, 22), (4, 64), (4, 83), (5, 1), (5, 60)]
    found = names.name(root, NAME)
    assert (5, 64) in [(place.line, place.column) for place in found.alike], "behind the name as it is"
    assert (5, 23) not in [(place.line, place.column) for place in found.alike]
    done = asked(root, "--name", NAME, "--instead", "a neighbour", "--yes")
    assert "written otherwise; look at it:\n  content/about.md:4:3\n" in done.output


@pytest.mark.parametrize("copy", ["{}.md~", "{}.bak", "{}.md.bak", ".{}.md.swp", "#{}.md#", "{}.orig"])
def test_copies_that_an_editor_kept_of_an_entry_go_with_it(root: Path, copy: str) -> None:
    log = root / "content/2026/log"
    kept = log / copy.format("2026-04-06-hedge-day")
    kept.write_text("Marmalade weather.\n", encoding="utf-8")
    other = log / "2026-04-06-hedge-day-again.md~"
    other.write_text("Another one.\n", encoding="utf-8")
    done = asked(root, "--entry", "2026/2026-04-06-hedge-day", "--yes")
    assert f"  content/2026/log/{kept.name}\n" in done.output
    assert not kept.exists()
    assert other.exists(), "a copy of another entry is gone"


def test_the_same_picture_elsewhere_in_the_folder_is_told(root: Path) -> None:
    (root / "from-the-camera").mkdir()
    (root / "from-the-camera" / "0001.jpg").write_bytes(HEDGE)
    (root / "from-the-camera" / "0002.jpg").write_bytes(CREW)
    (root / "content/2026/photos/hedge.jpg.bak").write_bytes(b"edited")
    found = picture(root, "2026/photos/hedge.jpg")
    assert found.unread == ("from-the-camera/0001.jpg",)
    assert "content/2026/photos/hedge.jpg.bak" in found.gone


def test_pictures_drawn_before_are_forgotten(root: Path) -> None:
    """A garden's name may be a person's, and stands on the pictures kept for the next build."""
    garden = root / "content/garden.yaml"
    text = garden.read_text(encoding="utf-8").replace("Two Plank Garden", f"{NAME}’s beds")
    garden.write_text(f"{text}address: https://x.example/\n", encoding="utf-8")
    (root / "content/2026/harvest.yaml").write_text(
        "- {date: 2026-05-02, crop: spinach, weight: 1 lb}\n", encoding="utf-8"
    )
    assert built(root)
    assert list((root / ".tallybed-cache").glob("*/*.card"))
    asked(root, "--name", NAME, "--instead", "our", "--yes")
    kinds = {path.parent.name for path in (root / ".tallybed-cache").glob("*/*")}
    assert kinds <= {"photo"}, "what was reckoned and noted of a garden names its plantings"


def test_a_site_built_under_another_name_is_told(root: Path) -> None:
    assert build(root, root / "public").good
    told = asked(root, "--picture", "2026/photos/hedge.jpg", "--yes").output
    again = shlex.join(("tallybed", "build", str(root), "--to", str(root / "public")))
    assert f"build them again, or delete them:\n  {again}\n" in told
    assert f"Now run: {shlex.join(('tallybed', 'build', str(root)))}\n" in told


def test_archives_in_any_folder_are_told(root: Path) -> None:
    (root / "shelf").mkdir()
    (root / "shelf" / "2026.zip").write_bytes(b"PK broken")
    assert "  shelf/2026.zip\n" in asked(root, "--picture", "2026/photos/hedge.jpg", "--yes").output
