"""Rows put into ledgers of every form: byte for byte, and nothing that stood there is touched."""

from __future__ import annotations

import re

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from tallybed.writing.ledger_insert import UnfitError, with_rows

NEW = "{date: 2026-06-02, crop: kale, weight: 3 oz}"
A = "{date: 2026-05-01, crop: radish, weight: 1 oz}"
B = "{date: 2026-05-02, crop: radish, weight: 2 oz}"

FORMS = {
    "an empty file": ("", f"- {NEW}\n"),
    "blank lines alone": ("\n\n", f"\n\n- {NEW}\n"),
    "a comment alone": ("# The ledger.\n", f"# The ledger.\n- {NEW}\n"),
    "a comment without a line end": ("# The ledger.", f"# The ledger.\n- {NEW}\n"),
    "an empty list in brackets": ("[]\n", f"- {NEW}\n"),
    "an empty list, no line end": ("[]", f"- {NEW}\n"),
    "an empty list with room in it": ("[ ]\n", f"- {NEW}\n"),
    "an empty list between comments": ("# a\n[]  # none yet\n# b\n", f"# a\n# none yet\n# b\n- {NEW}\n"),
    "an empty list on Windows": ("# a\r\n[]\r\n", f"# a\r\n- {NEW}\r\n"),
    "an empty list behind three hyphens": ("--- []\n", f"--- [{NEW}]\n"),
    "an empty list over lines": ("[\n]\n", f"[\n  {NEW}\n]\n"),
    "an empty list with a comment": ("[ # none yet\n]\n", f"[ # none yet\n  {NEW}\n]\n"),
    "a list of hyphens": (f"- {A}\n", f"- {A}\n- {NEW}\n"),
    "no line end at the end": (f"- {A}", f"- {A}\n- {NEW}\n"),
    "indented hyphens": (f"  - {A}\n", f"  - {A}\n  - {NEW}\n"),
    "a comment behind the last row": (f"- {A}  # wet\n", f"- {A}  # wet\n- {NEW}\n"),
    "the same, no line end": (f"- {A}  # wet", f"- {A}  # wet\n- {NEW}\n"),
    "a comment below the last row": (f"- {A}\n# to do\n", f"- {A}\n# to do\n- {NEW}\n"),
    "blank lines below": (f"- {A}\n\n\n", f"- {A}\n\n\n- {NEW}\n"),
    "spaces without a line end": (f"- {A}\n   ", f"- {A}\n   \n- {NEW}\n"),
    "rows over several lines": (
        "- date: 2026-05-01\n  crop: radish\n  weight: 1 oz",
        f"- date: 2026-05-01\n  crop: radish\n  weight: 1 oz\n- {NEW}\n",
    ),
    "a note over several lines": (
        "- date: 2026-05-01\n  crop: radish\n  weight: 1 oz\n  note: |\n    one\n    two\n",
        f"- date: 2026-05-01\n  crop: radish\n  weight: 1 oz\n  note: |\n    one\n    two\n- {NEW}\n",
    ),
    "lines that end as on Windows": (f"# x\r\n- {A}\r\n", f"# x\r\n- {A}\r\n- {NEW}\r\n"),
    "the same, the last without": (f"- {A}\r\n- {B}", f"- {A}\r\n- {B}\r\n- {NEW}\r\n"),
    "lines that end as on old Macs": (f"- {A}\r", f"- {A}\r- {NEW}\r"),
    "a mixture: as most lines end": (f"- {A}\r\n- {B}\r\n# x\n", f"- {A}\r\n- {B}\r\n# x\n- {NEW}\r\n"),
    "a byte order mark": (f"\ufeff- {A}\n", f"\ufeff- {A}\n- {NEW}\n"),
    "a byte order mark alone": ("\ufeff", f"\ufeff- {NEW}\n"),
    "letters of many bytes": ("- {note: été – ½}", f"- {{note: été – ½}}\n- {NEW}\n"),
    "a list in brackets": (f"[{A}]\n", f"- {A}\n- {NEW}\n"),
    "two rows, no line end": (f"[{A},{B}]", f"- {A}\n- {B}\n- {NEW}\n"),
    "with a comma at its end": (f"[{A},]\n", f"- {A}\n- {NEW}\n"),
    "with room before the bracket": (f"[ {A} ]\n", f"- {A}\n- {NEW}\n"),
    "with comments around": (f"# a\n [{A}] # b\n# c\n", f"# a\n - {A} # b\n# c\n - {NEW}\n"),
    "behind three hyphens": (f"--- [{A}]\n", f"--- [{A}, {NEW}]\n"),
    "over lines": (f"[\n  {A},\n  {B}\n]\n", f"[\n  {A},\n  {B},\n  {NEW}\n]\n"),
    "over lines with a comma": (f"[\n  {A},\n]\n", f"[\n  {A},\n  {NEW},\n]\n"),
    "over lines with comments": (
        f"[\n    {A}, # one, first\n    {B}  # two\n    # end\n]  # all\n",
        f"[\n    {A}, # one, first\n    {B},  # two\n    # end\n    {NEW}\n]  # all\n",
    ),
    "the bracket behind a row": (f"[{A},\n {B}]\n", f"[{A},\n {B},\n {NEW}]\n"),
    "a row below the bracket’s": (f"[{A}\n]", f"[{A},\n  {NEW}\n]"),
    "three hyphens above": (f"---\n- {A}\n", f"---\n- {A}\n- {NEW}\n"),
    "three hyphens alone": ("---\n", f"---\n- {NEW}\n"),
    "three hyphens, no line end": ("---", f"---\n- {NEW}\n"),
    "three dots below": (f"- {A}\n...\n", f"- {A}\n- {NEW}\n...\n"),
}  # fmt: skip


@pytest.mark.parametrize("form", FORMS)
def test_a_row_joins_a_ledger_of_this_form(form: str) -> None:
    before, after = FORMS[form]
    assert with_rows(before.encode(), [NEW]).decode() == after


@pytest.mark.parametrize("form", FORMS)
def test_what_stood_there_is_all_there_in_its_order(form: str) -> None:
    before = FORMS[form][0].encode()
    after = with_rows(before, [NEW, NEW])
    rest = iter(after)
    if b"[" in before and b"[" not in after:  # a list on one line became one of hyphens
        inside = [_stripped(row) for row in yaml.load(before, Loader=yaml.BaseLoader)]
        assert [_stripped(row) for row in yaml.load(after, Loader=yaml.BaseLoader)][:-2] == inside
        before = re.sub(rb"\[ *|(?<=\}), ?(?=[{\]])|(?<=\}) *(?=\])|\] *(?=#)|\]\s*", b"", before)
    assert all(byte in rest for byte in before), "a byte is gone, or stands in another place"


@pytest.mark.parametrize("form", FORMS)
def test_yaml_reads_the_old_rows_and_then_the_new_ones(form: str) -> None:
    before = FORMS[form][0].encode()
    old = [_stripped(row) for row in yaml.load(before, Loader=yaml.BaseLoader) or []]
    new = yaml.load(NEW, Loader=yaml.BaseLoader)
    for count in (1, 2, 3):
        after = yaml.load(with_rows(before, [NEW] * count), Loader=yaml.BaseLoader)
        assert [_stripped(row) for row in after] == [*old, *[new] * count]


def _stripped(row: dict[str, str]) -> dict[str, str]:
    return {key: value.strip() for key, value in row.items()}


@pytest.mark.parametrize("form", FORMS)
def test_two_rows_at_once_are_the_same_as_one_after_the_other_to_a_reader(form: str) -> None:
    before = FORMS[form][0].encode()
    other = NEW.replace("kale", "leek")
    at_once = with_rows(before, [NEW, other])
    in_turn = with_rows(with_rows(before, [NEW]), [other])
    assert yaml.load(at_once, Loader=yaml.BaseLoader) == yaml.load(in_turn, Loader=yaml.BaseLoader)
    assert at_once == in_turn


@pytest.mark.parametrize(
    ("data", "why"),
    [
        (b"crop: radish\n", "not a list"),
        (b"radish\n", "not a list"),
        (b"''\n", "not a list"),
        (b"[{a: b}\n", "cannot be read"),
        (b"- {a: b\n", "cannot be read"),
        (b"- a: b\n c: d\n", "cannot be read"),
        (b"\xff\xfe- a\n", "UTF-8"),
        ("- a: b\u2028\n".encode(), "cannot be seen"),
    ],
)
def test_what_is_not_a_list_takes_no_row(data: bytes, why: str) -> None:
    with pytest.raises(UnfitError, match=re.escape(why)):
        with_rows(data, [NEW])


_GAP = st.sampled_from(["", " ", "\n", "# a, comment ]\n", "\n\n", "  # {x}\n", "\r\n"])


@given(st.lists(st.sampled_from([A, B]), max_size=4), st.lists(_GAP, min_size=12, max_size=12), st.booleans())
def test_any_list_in_brackets_takes_rows(rows: list[str], gaps: list[str], comma: bool) -> None:
    text = f"[{gaps[0]}"
    for number, row in enumerate(rows):
        last = number == len(rows) - 1
        text += f"{gaps[2 * number + 1]}\n {row}{'' if last and not comma else ','} {gaps[2 * number + 2]}"
    text += f"\n{gaps[10]}\n ]\n{gaps[11]}"
    old = yaml.load(text, Loader=yaml.BaseLoader)
    assert len(old) == len(rows)
    after = with_rows(text.encode(), [NEW])
    assert yaml.load(after, Loader=yaml.BaseLoader) == [*old, yaml.load(NEW, Loader=yaml.BaseLoader)]
    rest = iter(after)
    assert all(byte in rest for byte in text.encode())
