"""What is taken out of a gardener's text is gone, and every other character is as it was."""

from __future__ import annotations

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from tallybed.reading.edit.header_edits import (
    UncutError,
    by_of,
    photos_named,
    replaced,
    with_by,
    without_photos,
)

BLOCK = """\
---
title: Peas are up    # a remark
by: M. and the Saturday table
photos:
  # the best one first
  - {file: peas.jpg, alt: "Peas, up"}
  - file: crew.jpg    # M. is on it
    alt: >
      Two people, bent over
      the bed
    shows people: yes

  - {file: beans.jpg, alt: Beans}
done:
  - {weed: bed, minutes: 12}
---
Prose - with a dash and a file: crew.jpg.
"""


def test_a_photograph_goes_with_its_lines_and_nothing_else_does() -> None:
    assert without_photos(BLOCK, {"peas.jpg"}) == BLOCK.replace('  - {file: peas.jpg, alt: "Peas, up"}\n', "")
    assert without_photos(BLOCK, {"crew.jpg"}) == BLOCK.replace(
        """\
  - file: crew.jpg    # M. is on it
    alt: >
      Two people, bent over
      the bed
    shows people: yes
""",
        "",
    )
    assert without_photos(BLOCK, {"none.jpg"}) == BLOCK


def test_the_last_photograph_takes_the_key_along() -> None:
    text = without_photos(BLOCK, {"peas.jpg", "crew.jpg", "beans.jpg"})
    assert "photos" not in text
    assert text.startswith("---\ntitle: Peas are up    # a remark\nby: M. and the Saturday table\n")
    assert text.endswith("done:\n  - {weed: bed, minutes: 12}\n---\n" + BLOCK.split("---\n")[2])


B_LEFT = "photos:\n  - {file: b.jpg, alt: B}"
FORMS = {
    "brackets, first": ("photos: [{file: a.jpg}, {file: b.jpg}]", "photos: [{file: b.jpg}]"),
    "brackets, last": ("photos: [{file: b.jpg}, {file: a.jpg}]", "photos: [{file: b.jpg}]"),
    "brackets, alone": ("photos: [{file: a.jpg, alt: A}]", ""),
    "braces, alone": ("photos: {file: a.jpg, alt: A}", ""),
    "keys, alone": ("photos:\n  file: a.jpg\n  alt: A", ""),
    "no indent": ("photos:\n- file: a.jpg\n  alt: A\n- file: b.jpg", "photos:\n- file: b.jpg"),
    "dash on its own line": (
        "photos:\n  -\n    file: a.jpg\n    alt: A\n  - {file: b.jpg, alt: B}",
        "photos:\n  - {file: b.jpg, alt: B}",
    ),
    "twice": ("photos:\n  - {file: a.jpg, alt: A}\n  - {file: a.jpg, alt: again}", ""),
    "an alt left empty": ("photos:\n  - file: a.jpg\n    alt:\n  - {file: b.jpg, alt: B}", B_LEFT),
    "several lines of braces": (
        "photos:\n  - {file: a.jpg,\n     alt: A}\n  - {file: b.jpg, alt: B}",
        "photos:\n  - {file: b.jpg, alt: B}",
    ),
}


@pytest.mark.parametrize("name", FORMS)
@pytest.mark.parametrize("end", ["\n", "\r\n"])
def test_every_way_to_write_photographs_can_be_cut(name: str, end: str) -> None:
    before, after = FORMS[name]
    text = f"---\ntitle: x\n{before}\nby: N.\n---\nProse.\n".replace("\n", end)
    rest = f"{after}\n" if after else ""
    assert without_photos(text, {"a.jpg"}) == f"---\ntitle: x\n{rest}by: N.\n---\nProse.\n".replace("\n", end)


def test_a_byte_order_mark_and_empty_lines_stay() -> None:
    text = "\ufeff\n\n---\nphotos: {file: a.jpg, alt: A}\n---\nProse.\n"
    assert without_photos(text, {"a.jpg"}) == "\ufeff\n\n---\n---\nProse.\n"


UNCUT = {
    "no header": "Prose.\n",
    "no end": "---\nphotos: {file: a.jpg}\n",
    "broken": "---\nphotos: [{file: a.jpg\n---\n",
    "something before it": "---\n? title\n: x\n? photos\n: {file: a.jpg, alt: A}\n---\n",
    "a bomb": "---\na: &a [x, x]\nb: &b [*a, *a]\nphotos: [*b, *b]\n---\n",
    "a list": "---\n- photos\n---\n",
}


@pytest.mark.parametrize("name", UNCUT)
def test_where_it_cannot_be_cut_safely_nothing_is(name: str) -> None:
    with pytest.raises(UncutError):
        without_photos(UNCUT[name], {"a.jpg"})


def test_photographs_named() -> None:
    assert photos_named(BLOCK) == ("peas.jpg", "crew.jpg", "beans.jpg")
    assert photos_named("---\ntitle: x\n---\n") == ()


@pytest.mark.parametrize(
    ("by", "line"),
    [
        ("the Saturday table", "by: the Saturday table"),
        ("N.", "by: N."),
        ("the crew's cook", "by: the crew's cook"),
        ("A, and: B # C", 'by: "A, and: B # C"'),
        ("no", 'by: "no"'),
        ("[us]", 'by: "[us]"'),
    ],
)
def test_another_by_is_written_so_that_it_reads_the_same(by: str, line: str) -> None:
    text = with_by(BLOCK, by)
    assert text == BLOCK.replace("by: M. and the Saturday table", line)
    assert by_of(text) == by


def test_a_by_that_goes_takes_its_line_along() -> None:
    assert with_by(BLOCK, "") == BLOCK.replace("by: M. and the Saturday table\n", "")
    assert with_by("---\n{title: x, by: M.}\n---\n", "") == "---\n{title: x}\n---\n"
    assert with_by("---\nby: M.\n---\nProse.\n", "") == "---\n---\nProse.\n"
    assert by_of("---\ntitle: x\n---\n") == ""


def test_words_are_changed_where_the_values_change_alike() -> None:
    def change(text: str) -> str:
        return text.replace("M.", "a visitor")

    assert replaced(BLOCK, change, header=True) == BLOCK.replace("M.", "a visitor")
    plan = "- {crop: spinach, note: M. sowed}\n"
    assert replaced(plan, change, header=False) == "- {crop: spinach, note: a visitor sowed}\n"
    shown = "---\nphotos: [{file: at M.'s.jpg, alt: M. and M.}, {file: M.png}]\n---\nM. took M.png.\n"
    told = "---\nphotos: [{file: at M.'s.jpg, alt: a visitor and a visitor}, {file: M.png}]\n---\n"
    assert replaced(shown, change, header=True) == f"{told}a visitor took M.png.\n", "files keep their names"
    with pytest.raises(UncutError):
        replaced("- {note: M., crop: x}\n", lambda text: text.replace("M.", "a: b"), header=False)


def test_days_and_months_stay_where_somebody_is_called_like_one() -> None:
    plan = "- {sow: May 12, on: 1 May, note: 'May, on May 12', leafless: Nov to May, by: May}\n"
    assert replaced(plan, lambda text: text.replace("May", "a friend"), header=False) == (
        "- {sow: May 12, on: 1 May, note: 'a friend, on May 12', leafless: Nov to May, by: a friend}\n"
    )


@pytest.mark.parametrize(
    ("before", "after"),
    [
        (
            "- {crop: Rosemary, note: Rosemary weighed}\n- {mixed: [kale, Rosemary], note: Rosemary}\n",
            "- {crop: Rosemary, note: a friend weighed}\n- {mixed: [kale, Rosemary], note: a friend}\n",
        ),
        (
            "- sow: 'Rosemary'\n  note: 'Rosemary: sowed'\n- {set out: Rosemary, because: Rosemary}\n",
            "- sow: 'Rosemary'\n  note: 'a friend: sowed'\n- {set out: Rosemary, because: a friend}\n",
        ),
        ("- {water: Rosemary's bed}\n", "- {water: a friend's bed}\n"),
    ],
)
def test_a_crop_stays_where_somebody_is_called_like_it(before: str, after: str) -> None:
    """Fails where the ledger can no longer be read: no crop is called "a friend"."""
    assert replaced(before, lambda text: text.replace("Rosemary", "a friend"), header=False) == after


NAMES = st.text("abcdefgh", min_size=1, max_size=6)
TEXTS = st.text(st.characters(codec="utf-8", exclude_categories=("C", "Z")), min_size=1, max_size=12)
SHOTS = st.lists(
    st.fixed_dictionaries({"file": NAMES}, optional={"alt": TEXTS, "credit": TEXTS}), min_size=1, max_size=5
)


@given(
    shots=SHOTS, others=st.dictionaries(NAMES, TEXTS, max_size=3), flow=st.sampled_from([True, False, None])
)
def test_however_it_is_written_the_photograph_goes_and_the_rest_stays(
    shots: list[dict[str, str]], others: dict[str, str], flow: bool | None
) -> None:
    told = {**others, "photos": shots, "title": "x"}
    header = yaml.safe_dump(told, default_flow_style=flow, allow_unicode=True, sort_keys=False)
    gone = shots[0]["file"]
    text = without_photos(f"---\n{header}---\nProse.\n", {gone})
    _empty, rest, prose = text.split("---\n")
    assert prose == "Prose.\n"
    left = [shot for shot in shots if shot["file"] != gone]
    wanted = {key: value for key, value in told.items() if key != "photos"} | (
        {"photos": left} if left else {}
    )
    assert yaml.load(rest, Loader=yaml.BaseLoader) == yaml.load(
        yaml.safe_dump(wanted), Loader=yaml.BaseLoader
    )
