"""The reader of the crop library: what it makes of a good file, and how it refuses a bad one."""

from __future__ import annotations

import re
from fractions import Fraction
from pathlib import Path

import pytest

from tallybed.garden.crops import Beginning, Footing, Habit, Source
from tallybed.garden.units import INCH, Length
from tallybed.reading.folder.library import LibraryError, kinds, load_library, read_library

SOURCES = """
- {id: leaflet, title: Roots, publisher: A press, number: 12, year: 1999, where: in print}
- {id: slide, title: More roots}
"""
CROP = """
slug: skirret
name: skirret
plural: skirrets
also: [crummock]
general: [root, roots]
botanical name: Sium sisarum
family: Apiaceae
habit: root
start: set out
letters: Sk
elsewhere:
  - {in: [GB, IE], name: crummock root, plural: crummock roots, kind: crummock, letters: Cr, source: slide}
  - {in: [NZ], name: sweet root, plural: sweet root, letters: Sr, source: from memory}

used:
  spacing: {value: 12 in, source: leaflet, note: The only figure.}
  days from sowing: {value: 200 days, source: leaflet, note: The only figure.}

facts:
  intensive spacing:
    - {value: 10 to 12 in, of: good soil, source: leaflet, note: printed so}
    - {value: 9.5 in, kind: from memory}
  planting depth:
    - {value: 1/4 in, source: slide}
  spring planting offset:
    - {value: -4 to -2.5 weeks, source: slide}
  storage life:
    - {value: 1 month, kind: derived, source: slide, note: 30 days}
  harvest sign:
    - {text: when it is fat, kind: common practice}
"""


def _folder(at: Path, crop: str = CROP, sources: str = SOURCES) -> Path:
    (at / "crops").mkdir()
    (at / "crops" / "skirret.yaml").write_text(crop, encoding="utf-8")
    (at / "sources.yaml").write_text(sources, encoding="utf-8")
    return at


def test_a_file_becomes_a_crop_with_exact_numbers(tmp_path: Path) -> None:
    library = read_library(_folder(tmp_path))
    crop = library.crops["skirret"]
    assert (crop.name, crop.plural) == ("skirret", "skirrets")
    assert (crop.also, crop.general) == (("crummock",), ("root", "roots"))
    assert (crop.family, crop.letters) == ("Apiaceae", "Sk")
    assert (crop.habit, crop.start) == (Habit.ROOT, Beginning.SET_OUT)
    assert crop.spacing == Length.of(12, INCH)
    assert not crop.own
    britain, zealand = crop.elsewhere
    assert (britain.regions, britain.name, britain.plural) == (
        ("GB", "IE"),
        "crummock root",
        "crummock roots",
    )
    assert (britain.kind, britain.letters, britain.source) == ("crummock", "Cr", "slide")
    assert (zealand.regions, zealand.kind, zealand.source) == (("NZ",), "", "")
    wide, close = crop.all_of("intensive spacing")
    assert (wide.low, wide.high, wide.unit, wide.of) == (Fraction(10), Fraction(12), "in", "good soil")
    assert (wide.source, wide.kind, wide.note) == ("leaflet", Footing.PUBLISHED, "printed so")
    assert (close.low, close.kind, close.source) == (Fraction(19, 2), Footing.MEMORY, "")
    (depth,) = crop.all_of("planting depth")
    assert depth.low == depth.high == Fraction(1, 4)
    (offset,) = crop.all_of("spring planting offset")
    assert (offset.low, offset.high, offset.unit) == (Fraction(-4), Fraction(-5, 2), "weeks")
    (life,) = crop.all_of("storage life")
    assert (life.low, life.unit, life.kind) == (Fraction(1), "months", Footing.DERIVED)
    (sign,) = crop.all_of("harvest sign")
    assert (sign.low, sign.high, sign.text, sign.kind) == (None, None, "when it is fat", Footing.COMMON)


def test_days_count_from_the_crops_own_start_or_else_from_the_other(tmp_path: Path) -> None:
    text = CROP.replace(
        "\nfacts:", "  days from setting out: {value: 150 days, source: slide, note: x}\nfacts:"
    )
    for name, crop, days in [
        ("other", CROP, (200, "sowing")),
        ("own", text, (150, "setting out")),
        ("sown", text.replace("start: set out", "start: sown"), (200, "sowing")),
    ]:
        at = tmp_path / name
        at.mkdir()
        known = read_library(_folder(at, crop)).crops["skirret"]
        assert (known.days, known.days_from) == days


def test_sources_keep_what_was_seen_and_leave_the_rest_empty(tmp_path: Path) -> None:
    library = read_library(_folder(tmp_path))
    assert library.sources["leaflet"] == Source(
        id="leaflet", title="Roots", publisher="A press", number="12", year="1999", where="in print"
    )
    assert library.sources["slide"] == Source(id="slide", title="More roots")


def test_figures_are_counted_by_what_they_stand_on(tmp_path: Path) -> None:
    assert kinds(read_library(_folder(tmp_path))) == {
        Footing.PUBLISHED: 3,
        Footing.DERIVED: 1,
        Footing.COMMON: 1,
        Footing.MEMORY: 1,
        Footing.GARDEN: 0,
    }


BAD = [
    ("slug: skirret", "slug: parsnip", "2:7: error: parsnip is not the name of its file"),
    ("family: Apiaceae\n", "", "a crop of the library has no key “family”"),
    ("family: Apiaceae", "family: Apiaceae\nfamly: Apiaceae", "no place for the key “famly”"),
    ("family: Apiaceae", "family: Apiaceae\nfamily: Apiaceae", "“family” stands here a second time"),
    ("family: Apiaceae", "family: ''", "8:9: error: nothing follows “family”"),
    ("also: [crummock]", "also: ''", "nothing follows “also”"),
    ("habit: root", "habit: rooty", "“rooty” is not a habit; expected rosette, "),
    ("start: set out", "start: seed", "“seed” is not a start; expected sown, "),
    ("letters: Sk", "letters: SK", "“SK” are not a capital and a small letter"),
    ("  spacing: {value: 12 in", "  spread: {value: 12 in", "spacing is not one number"),
    ("{value: 12 in,", "{value: 10 to 12 in,", "spacing is not one number"),
    ("{value: 200 days,", "{value: 200.5 days,", "days from sowing are not whole days"),
    (", note: The only figure.}\n  days", "}\n  days", "a figure that is used has no key “note”"),
    ("intensive spacing:", "intense spacing:", "no place for the key “intense spacing”"),
    ("10 to 12 in", "12 to 10 in", "12 is more than 10"),
    ("10 to 12 in", "10-12 in", "“10-12 in” cannot be read; expected a number"),
    ("10 to 12 in", "10 to 12 ft", "error: ft is not a unit of intensive spacing; expected in"),
    ("value: 10 to 12 in, of", "value: 10 to 12 in, text: wide, of", "either a value or a text"),
    ("text: when it is fat, ", "", "either a value or a text"),
    ("good soil, source: leaflet", "good soil, source: leaflt", "no source has the id leaflt"),
    ("good soil, source: leaflet", "good soil", "the figure has no source, and no kind that needs none"),
    ("good soil, source: leaflet", "good soil, source: ''", "nothing follows “source”"),
    ("kind: from memory", "kind: memory", "“memory” is not a kind of figure; expected derived, "),
    (
        "kind: from memory",
        "kind: from memory, source: slide",
        "a figure from memory has no source, but slide is named",
    ),
    ("source: slide, note: 30 days", "of: 30 days", "the figure has no source, and no kind that needs none"),
    ("- {text: when it is fat, kind: common practice}", "when it is fat", "the plain text “when it is fat”"),
    ("also: [crummock]", "also: [crummock", "5:7: error: the bracket [ is not closed"),
    ("in: [GB, IE]", "in: [GB, Ireland]", "“Ireland” is not two capitals, such as NZ"),
    ("in: [GB, IE], ", "", "a name elsewhere has no key “in”"),
    ("kind: crummock", "kind: sweet", "sweet does not begin name and plural"),
    (", source: slide}\n  - {in", ", source: slid}\n  - {in", "no source has the id slid"),
    (", source: from memory}", "}", "a name elsewhere has no key “source”"),
]


@pytest.mark.parametrize(("good", "bad", "told"), BAD, ids=[told for _, _, told in BAD])
def test_a_malformed_file_is_refused_with_its_name_and_key(
    good: str, bad: str, told: str, tmp_path: Path
) -> None:
    assert good in CROP, "the case no longer changes anything"
    with pytest.raises(LibraryError) as caught:
        read_library(_folder(tmp_path, CROP.replace(good, bad, 1)))
    assert re.match(r"skirret\.yaml:[0-9]+:[0-9]+: ", str(caught.value))
    assert told in str(caught.value)


@pytest.mark.parametrize(
    ("sources", "told"),
    [
        (SOURCES.replace("id: slide", "id: leaflet"), ": the id leaflet stands there twice"),
        (
            SOURCES.replace("title: More roots", "shelf: More roots"),
            ":3:3: error: a source has no key “title”",
        ),
        (
            SOURCES.replace("title: More roots", "title: More roots, pages: 12"),
            "no place for the key “pages”",
        ),
        ("", ": the file holds nothing"),
    ],
)
def test_a_malformed_list_of_sources_is_refused(sources: str, told: str, tmp_path: Path) -> None:
    with pytest.raises(LibraryError) as caught:
        read_library(_folder(tmp_path, sources=sources))
    assert str(caught.value).startswith("sources.yaml:")
    assert told in str(caught.value)


def test_two_crops_cannot_have_the_same_letters(tmp_path: Path) -> None:
    folder = _folder(tmp_path)
    other = CROP.replace("slug: skirret", "slug: zkirret")
    (folder / "crops" / "zkirret.yaml").write_text(other, encoding="utf-8")
    with pytest.raises(
        LibraryError, match=r"zkirret\.yaml: the letters Sk stand for skirret already; Si are free"
    ):
        read_library(folder)


def test_the_packages_own_library_is_read_once_and_sorted() -> None:
    library = load_library()
    assert load_library() is library
    assert list(library.crops) == sorted(library.crops)
    assert list(library.sources) == sorted(library.sources)
    assert all(slug == crop.slug for slug, crop in library.crops.items())
