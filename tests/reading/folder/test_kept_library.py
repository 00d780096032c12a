"""What is kept of the library as it was understood: it is what its files say, or it is passed over."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from shutil import copytree

import pytest

from tallybed.garden.crops import Crop, Variety
from tallybed.reading.folder import library
from tallybed.reading.folder.kept_library import UNDERSTOOD, as_text, from_text
from tallybed.reading.folder.library import FOLDER, hash_of, load_library, read_library


def test_what_is_kept_is_what_the_files_say_figure_by_figure() -> None:
    read, made_of = read_library(FOLDER), hash_of(FOLDER)
    text = (FOLDER / UNDERSTOOD).read_text(encoding="utf-8")
    kept = from_text(text, made_of)
    assert kept is not None, "a file of the library was changed: run bench/library.py"
    crops, sources = kept
    assert crops == tuple(read.crops.values()), "run bench/library.py"
    assert sources == tuple(read.sources.values()), "run bench/library.py"
    assert repr(load_library()) == repr(read)
    assert text == as_text(read.crops.values(), read.sources.values(), made_of)


def test_a_change_of_one_sign_in_one_file_is_seen(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    folder = tmp_path / "library"
    copytree(FOLDER, folder)
    assert hash_of(folder) == hash_of(FOLDER)
    for page in (folder / "crops").iterdir():  # three crops are read sooner than all
        if page.name not in ("carrot.yaml", "kale.yaml", "leek.yaml"):
            page.unlink()
    three = read_library(folder)
    kept = as_text(three.crops.values(), three.sources.values(), hash_of(folder))
    (folder / UNDERSTOOD).write_text(kept.replace('"Ca"', '"Cx"'), encoding="utf-8")
    carrot = folder / "crops" / "carrot.yaml"
    before = carrot.read_text(encoding="utf-8")
    monkeypatch.setattr(library, "FOLDER", folder)
    assert load_library.__wrapped__().crops["carrot"].letters == "Cx", "what is kept was not taken"
    carrot.write_text(before.replace("letters: Ca", "letters: Cq"), encoding="utf-8")
    assert load_library.__wrapped__().crops["carrot"].letters == "Cq"
    carrot.rename(folder / "crops" / "carrot.txt")
    assert "carrot" not in load_library.__wrapped__().crops


def test_what_was_made_of_other_files_is_passed_over() -> None:
    assert from_text(as_text((), (), "one"), "one") == ((), ())
    assert from_text(as_text((), (), "one"), "another") is None


@pytest.mark.parametrize("changed", [{"own": True}, {"varieties": (Variety(name="Nantes"),)}])
def test_what_a_garden_adds_to_a_crop_is_never_kept(changed: dict[str, object]) -> None:
    crop: Crop = replace(load_library().crops["carrot"], **changed)  # type: ignore[arg-type]
    with pytest.raises(ValueError, match="carrot"):
        as_text([crop], (), "")
