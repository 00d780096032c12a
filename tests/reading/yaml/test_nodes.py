"""YAML nodes that know their places; plain scalars stay as typed."""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from tallybed.garden.findings import Place, worded
from tallybed.reading.base.problems import LeftOut, Problems
from tallybed.reading.folder.garden_folder import read
from tallybed.reading.yaml import nodes
from tallybed.reading.yaml.headers import split
from tallybed.reading.yaml.nodes import Items, Node, Pairs, Text, parse
from tests.reading.bad_cases import GARDEN, lay_out
from tests.tools import ROOT


def _parsed(text: str) -> Node | None:
    problems = Problems()
    node = parse(text, "f", problems)
    assert not problems.all()
    return node


def _texts(node: Node | None) -> list[Text]:
    match node:
        case Text():
            return [node]
        case Items():
            return [text for item in node.items for text in _texts(item)]
        case Pairs():
            return [text for key, value in node.pairs for text in (key, *_texts(value))]
    return []


@pytest.mark.parametrize(
    "typed", ["no", "on", "12:30", "010", "0x10", "1_000", "~", "null", "1e3", "2026-04-12", ".5", "=", "<<"]
)
def test_a_plain_scalar_stays_as_typed(typed: str) -> None:
    node = _parsed(f"a: {typed}\n")
    assert isinstance(node, Pairs)
    assert node.get("a") == Text(typed, Place("f", 1, 4), 0)


def test_every_key_and_value_knows_its_line_and_column() -> None:
    text = '- crop: é𝒳\n  note: "x y"\n- {a: 1, "b": [é, z]}\n'
    where = {(each.text, each.place.line, each.place.column) for each in _texts(_parsed(text))}
    assert where == {
        ("crop", 1, 3),
        ("é𝒳", 1, 9),
        ("note", 2, 3),
        ("x y", 2, 9),
        ("a", 3, 4),
        ("1", 3, 7),
        ("b", 3, 10),
        ("é", 3, 16),
        ("z", 3, 19),
    }


def test_a_header_counts_the_lines_before_it() -> None:
    problems = Problems()
    page = split("\n\n---\ntitle: x\nby: y\n---\n\nProse.\n---\nmore\n", "f", problems)
    assert [each.place.line for each in _texts(page.header)] == [4, 4, 5, 5]
    assert page.prose == "Prose.\n---\nmore"


def test_places_inside_a_text_are_told_where_they_can_be() -> None:
    plain, quoted, escaped, folded = _texts(_parsed("- abc\n- 'abc'\n- \"\\x61bc\"\n- >\n  abc\n"))
    assert plain.at(2) == Place("f", 1, 5)
    assert quoted.at(2) == Place("f", 2, 6)
    assert escaped.at(2) == escaped.place
    assert folded.at(2) == folded.place


def test_the_loader_in_python_says_the_same(monkeypatch: pytest.MonkeyPatch) -> None:
    text = "- {crop: spinach, squares: A1:B2}\n- crop: é\n  note: |\n    a\n    b\n"
    with_c = _parsed(text)
    monkeypatch.setattr(nodes, "_LOADER", yaml.SafeLoader)
    assert _parsed(text) == with_c


@pytest.mark.parametrize("start", ["\ufeff", ""])
@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_a_mark_before_the_text_and_any_line_end_shift_no_place(tmp_path: Path, start: str, end: str) -> None:
    plan = f"{start}- crop: spinach\n  squares: A1\n  sow: Feb 1\n".replace("\n", end)
    lay_out(tmp_path, {"content/garden.yaml": start + GARDEN, "content/2026/plan.yaml": plan})
    (found,) = read(tmp_path).findings
    assert found.place == Place("content/2026/plan.yaml", 3, 8)
    lay_out(tmp_path, {"content/2026/plan.yaml": f"{start}- {{crop: spinich}}{end}"})
    assert read(tmp_path).findings[0].place == Place("content/2026/plan.yaml", 1, 3)


@pytest.mark.parametrize(
    "hostile",
    [
        "a: &a [" + "x, " * 1000 + "]\n" + "b: [" + "*a, " * 1000 + "]\n",
        "[" * 10_000 + "]" * 10_000,
        "{a: " * 10_000,
        "- " * 10_000,
        "? " * 10_000,
        "%TAG !a! b\n" * 100_000,
        "'" * 10_001,
        "a: |" + "9" * 1000,
        "\\" * 10_000,
        "- !!python/object/apply:os.system [echo]\n",
        "a: !!binary aGk=\n",
        "<<: {a: 1}\na: 2\n",
        "a:\n" * 5_000,
    ],
    ids=lambda text: text[:12].replace("\n", " "),
)
def test_hostile_text_ends_in_findings(tmp_path: Path, hostile: str) -> None:
    for name in ("garden.yaml", "crops.yaml", "2026/plan.yaml", "2026/names.yaml"):
        lay_out(tmp_path, {f"content/{name}": hostile})
    told = [worded(finding) for finding in read(tmp_path).findings]
    assert told
    assert not any("Traceback" in line or "Error" in line or "<" in line.partition("“")[0] for line in told)


def test_the_first_value_too_many_ends_the_reading_each_time(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(nodes, "MOST_NODES", 4)
    assert [one.text for one in _texts(_parsed("[a, b, c]"))] == ["a", "b", "c"]
    for _time in ("first", "second"):
        problems = Problems()
        with pytest.raises(LeftOut):
            parse("[a, b, c, d, e]", "f", problems)
        assert [worded(one) for one in problems.all()] == [
            "f:1:11: error: the file holds over 4 values [too-many-values]"
        ]


@given(st.text(alphabet=st.sampled_from("-:#,[]{}'\"&*!|>%@` \nab1?~\t"), max_size=60))
def test_any_text_parses_or_is_refused_at_a_place_within_it(text: str) -> None:
    problems = Problems()
    try:
        parse(text, "f", problems)
    except LeftOut:
        assert problems.all()
    lines = text.split("\n")
    for finding in problems.all():
        assert 1 <= finding.place.line <= len(lines)
        assert 1 <= finding.place.column <= len(lines[finding.place.line - 1]) + 1


def test_without_the_parser_in_c_the_same_nodes_come_out(monkeypatch: pytest.MonkeyPatch) -> None:
    """PyYAML may have been built without libyaml; its own parser in Python gives the same events."""
    assert nodes._LOADER is yaml.CBaseLoader, "this machine's PyYAML has no libyaml: nothing is compared"
    # One file of each name: the parser in Python takes ten times as long.
    files = {path.name: path for path in sorted((ROOT / "content").rglob("*.yaml"))}
    texts = [path.read_text(encoding="utf-8") for path in files.values()]
    texts.append("- {a: 'x, y', \"b\": [é, \"z\"]}\n- k: |\n    two\n    lines\n- ''\n")
    assert len(texts) > 5
    quick = [_parsed(text) for text in texts]
    monkeypatch.setattr(nodes, "_LOADER", yaml.BaseLoader)
    assert [_parsed(text) for text in texts] == quick
