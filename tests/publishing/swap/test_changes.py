"""What a build changed for the public, by the marker of the site before."""

from __future__ import annotations

from hashlib import sha256
from pathlib import Path

from tallybed.publishing.swap.changes import Changes, changes
from tallybed.publishing.swap.handoff import hand_over


def page(words: str, iso: str = "2026-09-14", day: str = "14 September 2026") -> bytes:
    return f'<p>{words}, as of {day}</p><time class="stamp" datetime="{iso}">{day}</time>'.encode()


def told(folder: Path, before: dict[str, bytes], after: dict[str, bytes]) -> Changes:
    return changes(laid(folder / "old", before), hashed(before), hashed(after), laid(folder / "new", after))


def laid(folder: Path, files: dict[str, bytes]) -> Path:
    for path, data in files.items():
        (folder / path).parent.mkdir(parents=True, exist_ok=True)
        (folder / path).write_bytes(data)
    return folder


def hashed(files: dict[str, bytes]) -> dict[str, str]:
    return {path: sha256(data).hexdigest() for path, data in files.items()}


def test_pages_new_changed_and_gone_are_told_apart_and_other_files_left_out(tmp_path: Path) -> None:
    before = {
        "index.html": page("one"),
        "a/index.html": page("a"),
        "b/index.html": page("b"),
        "style.css": b"x",
        "old.css": b"x",
    }
    after = {
        "index.html": page("two"),
        "a/index.html": page("a"),
        "c/index.html": page("c"),
        "style.css": b"y",
        "new.css": b"x",
    }
    assert told(tmp_path, before, after) == Changes(
        new=("c/index.html",), changed=("index.html",), gone=("b/index.html",)
    )


def test_a_page_with_nothing_new_but_the_day_it_speaks_as_of_is_told_apart(tmp_path: Path) -> None:
    before = {"a.html": page("same"), "b.html": page("was")}
    later = ("2026-09-19", "19 September 2026")
    after = {"a.html": page("same", *later), "b.html": page("is", *later)}
    assert told(tmp_path, before, after) == Changes(changed=("b.html",), framed=("a.html",))


def test_a_day_that_a_page_tells_of_is_no_stamp(tmp_path: Path) -> None:
    # The old day stays on the page as the day of a visit, and a day within another is kept whole.
    before = {"a.html": page("visit on 4 September 2026", "2026-09-04", "4 September 2026")}
    after = {"a.html": page("visit on 4 September 2026", "2026-09-14", "14 September 2026")}
    assert told(tmp_path / "1", before, after).framed == ("a.html",)
    other = {"a.html": page("visit on 5 September 2026", "2026-09-14", "14 September 2026")}
    assert told(tmp_path / "2", before, other).changed == ("a.html",)


def test_a_menu_with_another_season_changes_no_page_by_itself(tmp_path: Path) -> None:
    """Else all pages of a garden are named when a season is over, and the one that was mended is lost."""

    def under(menu: str, words: str) -> bytes:
        return f'<nav class="site">\n<ul>{menu}</ul>\n</nav>'.encode() + page(words)

    before = {"a.html": under("Season 2026", "same"), "b.html": under("Season 2026", "was")}
    after = {"a.html": under("Season 2027", "same"), "b.html": under("Season 2027", "is")}
    assert told(tmp_path, before, after) == Changes(changed=("b.html",), framed=("a.html",))


def test_the_menu_of_a_page_as_it_is_built_is_seen_as_one(demo: Path, tmp_path: Path) -> None:
    was = (demo / "about" / "index.html").read_bytes()
    assert was.count(b">Season 2026</a>") == 1
    comes = was.replace(b">Season 2026</a>", b">Season 2027</a>")
    assert told(tmp_path, {"a.html": was}, {"a.html": comes}) == Changes(framed=("a.html",))


def test_pages_without_a_stamp_are_changed_by_any_byte(tmp_path: Path) -> None:
    assert told(tmp_path, {"a.html": b"one"}, {"a.html": b"two"}) == Changes(changed=("a.html",))


def test_a_page_that_is_missing_on_the_disk_counts_as_changed(tmp_path: Path) -> None:
    before, after = {"a.html": page("a")}, {"a.html": page("a", "2026-09-19", "19 September 2026")}
    new = laid(tmp_path / "new", after)
    assert changes(tmp_path / "old", hashed(before), hashed(after), new) == Changes(changed=("a.html",))


def test_the_hand_over_tells_them_by_the_marker_it_finds(tmp_path: Path) -> None:
    target = tmp_path / "site"
    assert hand_over({"index.html": b"a"}, target).changes is None, "there was no site before"
    again = hand_over({"index.html": b"a"}, target).changes
    assert again == Changes()
    assert not again
    assert hand_over({"index.html": b"b", "x.html": b"x"}, target).changes == Changes(
        new=("x.html",), changed=("index.html",)
    )
    assert hand_over({"x.html": b"x"}, target).changes == Changes(gone=("index.html",))
