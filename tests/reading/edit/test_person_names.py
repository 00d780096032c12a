"""A name is found where it stands for the person, and goes without taking the others along."""

import pytest

from tallybed.reading.edit.person_names import PersonName


@pytest.mark.parametrize(
    ("name", "text", "found"),
    [
        ("M.", "M. came by", True),
        ("M.", "said M.", True),
        ("M.", "seen by M., and fed", True),
        ("M.", "12 m. of twine", False),
        ("M.", "Marigold", False),
        ("Rose", "the Roses and rose", False),
        ("Rose", "Rose's hat", True),
        ("Ada Wren", "Ada\n  Wren", True),
        ("Ada Wren", "Ada Wrenfield", False),
        ("José", "Jose\u0301 came", True),
        ("Jose\u0301", "José came", True),
        ("A.B", "AxB", False),
    ],
)
def test_a_name_is_found_whole_and_as_it_is_written(name: str, text: str, found: bool) -> None:
    assert PersonName(name).within(text) is found
    assert PersonName(name).within(PersonName(name).replaced(text, "a visitor")) is False


@pytest.mark.parametrize(
    ("name", "text", "found"),
    [
        ("Pia", "PIA is back", True),
        ("Pia", "the pia mater", False),
        ("Ed", "said ED.", True),
        ("Ed", "EDEN", False),
        ("M.", "12 M of twine", False),
        ("Quill", "quill", True),
    ],
)
def test_a_short_name_is_found_in_capitals_too(name: str, text: str, found: bool) -> None:
    """Fails where a name of two or three letters in capitals stays on the site and nobody is told."""
    assert bool(list(PersonName(name).alike(text))) is found
    assert PersonName(name).held(text) is found


@pytest.mark.parametrize("name", ["", "  ", ".", "12"])
def test_a_name_has_a_letter(name: str) -> None:
    with pytest.raises(ValueError, match=r".*"):
        PersonName(name)


def test_places_are_those_an_editor_shows() -> None:
    assert list(PersonName("M.").lines("M. here\nand M.\n\n  M.")) == [(1, 1), (2, 5), (4, 3)]


@pytest.mark.parametrize(
    ("by", "rest"),
    [
        ("M.", ""),
        ("M. and the Saturday table", "the Saturday table"),
        ("the Saturday table and M.", "the Saturday table"),
        ("N., M. and the Saturday table", "N. and the Saturday table"),
        ("N., O., and M.", "N. and O."),
        ("N., O. and M.", "N. and O."),
        ("N., M. and O.", "N. and O."),
        ("M., N., and O.", "N. and O."),
        ("N., O., P. and M.", "N., O. and P."),
        ("N., O., P., and M.", "N., O., and P."),
        ("N., O., M.", "N., O."),
        ("M. & N.", "N."),
        ("M. and M.", ""),
        ("M., passing", "passing"),
        ("a friend of M. and the Saturday table", ""),
        ("a friend of M.", ""),
        ("the Saturday table", "the Saturday table"),
        ("Hand and Sand", "Hand and Sand"),
    ],
)
def test_the_others_in_a_by_stay(by: str, rest: str) -> None:
    assert PersonName("M.").out_of(by) == rest


@pytest.mark.parametrize(
    ("prose", "told"),
    [
        ("Rosemary came. Then Rosemary left.", "A friend came. Then a friend left."),
        (
            "It rained. Rosemary came! “Rosemary!” they said",
            "It rained. A friend came! “A friend!” they said",
        ),
        ("Up.\n\nRosemary came\nand Rosemary went", "Up.\n\nA friend came\nand a friend went"),
        ("## Rosemary\n\n- Rosemary dug\n- for Rosemary", "## A friend\n\n- A friend dug\n- for a friend"),
        ("With Mrs. Rosemary, and: Rosemary", "With Mrs. a friend, and: a friend"),
        ("**Rosemary** came", "**A friend** came"),
    ],
)
def test_a_sentence_that_began_with_the_name_begins_with_a_capital(prose: str, told: str) -> None:
    assert PersonName("Rosemary").replaced_in_prose(prose, "a friend") == told
