"""Kept photographs save work and are never taken on trust."""

from dataclasses import replace
from hashlib import sha256
from pathlib import Path

import pytest

from tallybed.pictures import developing
from tallybed.pictures.cache import Cache, CardCache, forget, forget_words, packed, unpacked
from tallybed.pictures.developing import Developed, Print, developed
from tallybed.pictures.share_cards import drawn
from tests.pictures.shots import exif, photograph
from tests.pictures.test_share_cards import CARD

DATA = photograph(600, 300)
SOURCE = sha256(DATA).hexdigest()
MADE = developed(DATA)


def kept(folder: Path) -> list[Path]:
    return sorted(folder.glob("photo/*.photo"))


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    Cache(tmp_path / "cache").put(SOURCE, MADE)
    return tmp_path / "cache"


def test_what_was_kept_comes_back_as_it_was(folder: Path) -> None:
    assert Cache(folder).get(SOURCE) == MADE
    assert Cache(folder).get("0" * 64) is None


def test_what_was_told_is_kept_too() -> None:
    made = Developed(prints=MADE.prints, told=("is see-through in part; those parts are shown white",))
    assert unpacked(packed(made)) == made


def test_the_folder_keeps_out_of_version_control_and_backups(folder: Path) -> None:
    assert (folder / ".gitignore").read_text(encoding="utf-8") == "*\n"
    assert (
        (folder / "CACHEDIR.TAG")
        .read_text(encoding="utf-8")
        .startswith("Signature: 8a477f597d28d172789f0688")
    )


@pytest.mark.parametrize("at", [0, 40, 66, 200, -1])
def test_a_changed_byte_is_noticed(folder: Path, at: int) -> None:
    (path,) = kept(folder)
    data = bytearray(path.read_bytes())
    data[at] ^= 1
    path.write_bytes(data)
    assert Cache(folder).get(SOURCE) is None


@pytest.mark.parametrize("length", [0, 10, 65, 300])
def test_a_file_cut_short_is_noticed(folder: Path, length: int) -> None:
    (path,) = kept(folder)
    path.write_bytes(path.read_bytes()[:length])
    assert Cache(folder).get(SOURCE) is None


def forged(*prints: Print) -> Developed:
    return Developed(prints=prints)


FORGED = {
    "with a place": photograph(exif=exif()),
    "no picture": b"<script>",
    "of another size": photograph(41, 20),
}


@pytest.mark.parametrize("name", FORGED)
def test_a_kept_file_with_a_right_hash_and_a_wrong_picture_is_not_used(folder: Path, name: str) -> None:
    (path,) = kept(folder)
    path.write_bytes(packed(forged(Print(kind="jpeg", width=40, height=20, data=FORGED[name]))))
    assert Cache(folder).get(SOURCE) is None


@pytest.mark.parametrize(
    "line", [b"[]", b"{}", b'{"prints": [], "told": []}', b'{"prints": [1], "told": []}', b"null", b"{"]
)
def test_a_kept_file_of_another_form_is_not_used(line: bytes) -> None:
    body = line + b"\n"
    with pytest.raises(ValueError, match=r".*"):
        unpacked(sha256(body).hexdigest().encode() + b"\n" + body)


def test_other_settings_or_libraries_find_nothing(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(developing, "SETTINGS", developing.SETTINGS + 1)
    assert Cache(folder).get(SOURCE) is None


def test_what_a_build_did_not_use_goes(folder: Path) -> None:
    cache = Cache(folder)
    cache.put("1" * 64, MADE)
    (folder / "mine.txt").write_text("not ours", encoding="utf-8")
    (folder / f"{SOURCE}-0123456789abcdef.photo.x_1.new").write_bytes(b"left by a build that was ended")
    cache.get(SOURCE)
    cache.tidy()
    assert [path.name[:64] for path in kept(folder)] == [SOURCE]
    assert {path.name for path in folder.iterdir()} == {"mine.txt", ".gitignore", "CACHEDIR.TAG", "photo"}


def test_a_photograph_is_forgotten_under_every_setting(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(developing, "SETTINGS", developing.SETTINGS + 1)
    other = Cache(folder)
    other.put(SOURCE, MADE)
    other.put("1" * 64, MADE)
    assert len(kept(folder)) == 3
    assert forget(folder, SOURCE) == 2
    assert [path.name[:64] for path in kept(folder)] == ["1" * 64]
    assert forget(folder / "none", SOURCE) == 0


def test_a_link_to_elsewhere_is_neither_read_nor_written_nor_emptied(folder: Path, tmp_path: Path) -> None:
    link = tmp_path / "link"
    link.symlink_to(folder)
    cache = Cache(link)
    assert cache.get(SOURCE) is None
    cache.put("1" * 64, MADE)
    cache.tidy()
    assert forget(link, SOURCE) == 0
    assert len(kept(folder)) == 1


def test_a_folder_that_cannot_be_written_to_keeps_nothing_and_stops_nothing(tmp_path: Path) -> None:
    (tmp_path / "cache").write_bytes(b"a file stands in the way")
    cache = Cache(tmp_path / "cache")
    cache.put(SOURCE, MADE)
    cache.tidy()
    assert cache.get(SOURCE) is None
    assert Cache(None).get(SOURCE) is None


def test_a_write_that_fails_leaves_nothing_behind(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    before = sorted(folder.iterdir())
    monkeypatch.setattr(Path, "replace", full)
    Cache(folder).put("1" * 64, MADE)
    assert sorted(folder.iterdir()) == before


@pytest.fixture
def cards_of(folder: Path) -> Path:
    CardCache(folder).drawn(CARD)
    return folder


@pytest.mark.parametrize("at", [0, 64, 65, 200, -1])
def test_a_damaged_picture_of_figures_is_drawn_anew(cards_of: Path, at: int) -> None:
    (path,) = cards_of.glob("card/*.card")
    data = bytearray(path.read_bytes())
    data[at] ^= 1
    path.write_bytes(data)
    assert CardCache(cards_of).drawn(CARD) == drawn(CARD)


def test_each_kind_is_tidied_by_itself(cards_of: Path) -> None:
    Cache(cards_of).tidy()
    assert (len(kept(cards_of)), len(list(cards_of.glob("card/*.card")))) == (0, 1)
    Cache(cards_of).put(SOURCE, MADE)
    CardCache(cards_of).tidy()
    assert (len(kept(cards_of)), len(list(cards_of.glob("card/*.card")))) == (1, 0)


def test_pictures_of_figures_are_all_forgotten_at_once(cards_of: Path) -> None:
    CardCache(cards_of).drawn(replace(CARD, garden="Another"))
    forget_words(cards_of)
    assert (len(kept(cards_of)), len(list(cards_of.glob("card/*.card")))) == (1, 0)
