"""A finding in words."""

from dataclasses import replace
from pathlib import Path

import pytest

from tallybed.garden.findings import Finding, Place, Severity, capital, sorted_findings, worded
from tests.reading.bad_cases import lay_out, told


def test_a_finding_is_one_line_whatever_a_file_is_called() -> None:
    """Editors jump from each line; a file's name must not be able to make up a finding of its own."""
    name = "content/2026/log/2026-05-12-a\ncontent/garden.yaml:1:1: error: x\r.md"
    said = worded(Finding(place=Place(name, 2, 3), code="unknown-key", found="one\ntwo"))
    assert said.splitlines() == [
        "content/2026/log/2026-05-12-a\\ncontent/garden.yaml:1:1: error: x\\r.md:2:3: error: "
        "one\\ntwo [unknown-key]"
    ]


def test_what_was_typed_is_not_offered_put_right_where_nobody_reads_to_its_end(tmp_path: Path) -> None:
    """A number of sixty thousand digits with a comma came back as long, in one line of the terminal."""
    digits = "1" * 60_000
    garden = f"""\
name: Tiny
latitude: {digits},5
beds:
  - {{name: long, length: 2 squares, width: 2 squares, path: {{side: 1, width: 3 ft, share: "{digits},5"}}}}
currency: USD
"""
    costs = f'- {{date: 2026-03-02, what: seed, cost: "{digits},5"}}\n'
    lay_out(tmp_path, {"content/garden.yaml": garden, "content/2026/costs.yaml": costs})
    lines = told(tmp_path)
    assert len([line for line in lines if "decimal-comma" in line]) == 3, lines
    assert max(map(len, lines)) < 400


def test_what_holds_of_an_open_season_is_not_told_of_a_closed_one_again() -> None:
    now = Finding(place=Place("content/garden.yaml", 4, 5), code="out-of-reach", found="B2 is far")
    once, alone = replace(now, settled=True), replace(now, settled=True, found="C3 is far")
    assert sorted_findings([once, now, alone, now]) == (now, alone)


def test_what_protects_people_is_told_first_then_by_place_and_an_error_before_advice() -> None:
    """Else a wait that somebody picked inside of stands below a page of advice."""
    here, below = Place("content/garden.yaml", 4, 5), Place("content/garden.yaml", 9, 1)
    wait = Finding(
        place=below, code="picked-in-wait", severity=Severity.ADVICE, found="too early", first=True
    )
    error = Finding(place=here, code="unknown-crop", found="spinich")
    advice = Finding(place=here, code="close-together", severity=Severity.ADVICE, found="close")
    last = Finding(place=below, code="unknown-crop", found="spinich")
    assert sorted_findings([last, advice, error, wait]) == (wait, error, advice, last)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ("the entry is unfinished", "The entry is unfinished"),
        ("crew.jpg shows people", "crew.jpg shows people"),
        ("long/A1:D1 is told twice", "long/A1:D1 is told twice"),
        ("north/south", "North/south"),
        ("ölwurz is no crop", "Ölwurz is no crop"),
        ("", ""),
    ],
)
def test_a_file_or_a_square_at_the_beginning_of_a_sentence_keeps_its_name(words: str, said: str) -> None:
    """Fails where the panel of the preview speaks of a photograph ``Crew.jpg`` that nobody has."""
    assert capital(words) == said
