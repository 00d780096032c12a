"""Each key of the demonstration garden, misspelt and taken away in turn.

One sample of every way to a key (``plan.yaml / [] / sow``) is taken from
``content/``. Misspelt, it must be told at its own place; taken away, either the
record says that something is missing or the key is one of those that may be
left out. Of a file that is a list the record alone is read, on the lines that it
has there: no other tells anything of its keys.
"""

from __future__ import annotations

import functools
import shutil
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest
import yaml

from tallybed.garden.findings import Place
from tallybed.garden.records.log import Verb
from tallybed.reading.folder.garden_folder import read
from tests.demonstration import demo_read
from tests.laws import tried
from tests.tools import ROOT

CONTENT = ROOT / "content"
LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
DUMPER = getattr(yaml, "CSafeDumper", yaml.SafeDumper)

FREE = {
    # Keys that are the gardener's own words.
    "garden.yaml / seasons / *",
    "garden.yaml / freeze dates / last spring / *",
    "garden.yaml / freeze dates / last spring 28 / *",
    "garden.yaml / freeze dates / first fall / *",
    "garden.yaml / freeze dates / first fall 28 / *",
    "names.yaml / *",
    "harvest.yaml / [] / to / *",
    "plan.yaml / [] / silence / *",
    "log / done / [] / silence / *",
    "harvest.yaml / [] / silence / *",
}
NEEDED = {
    "garden.yaml / name",
    "garden.yaml / beds / [] / name",
    "garden.yaml / beds / [] / length",
    "garden.yaml / beds / [] / width",
    "garden.yaml / beds / [] / boards / material",
    "soil.yaml / [] / date",
    "soil.yaml / [] / bed",
    "garden.yaml / beds / [] / trellis / [] / side",
    "garden.yaml / beds / [] / trellis / [] / height",
    "garden.yaml / beds / [] / path / [] / side",
    "garden.yaml / beds / [] / path / [] / width",
    "garden.yaml / beds / [] / run-out / [] / side",
    "garden.yaml / beds / [] / run-out / [] / reach",
    "garden.yaml / surroundings / [] / bearing",
    "garden.yaml / surroundings / [] / distance",
    "garden.yaml / surroundings / [] / width",
    "garden.yaml / surroundings / [] / height",
    "crops.yaml / [] / crop",
    "crops.yaml / [] / varieties / [] / name",
    "crops.yaml / [] / new",
    "crops.yaml / [] / family",
    "plan.yaml / [] / crop",
    "plan.yaml / [] / squares",
    "plan.yaml / [] / run-out / side",
    "harvest.yaml / [] / date",
    "harvest.yaml / [] / weight",
    "costs.yaml / [] / date",
    "costs.yaml / [] / what",
    "costs.yaml / [] / cost",
    "prices.yaml / [] / crop",
    "prices.yaml / [] / price",
    "prices.yaml / [] / per",
    "prices.yaml / [] / date",
    "log / title",
    "log / photos / [] / file",
    "log / photos / [] / alt",
    "garden.yaml / supporters / [] / words",
    "withdrawn.yaml / [] / withdrawn",
    "withdrawn.yaml / [] / on",
    "log / further reading / [] / title",
    "log / further reading / [] / address",
    "questions / question",
    "pages / title",
}
"""Ways to keys that may not be left out; every verb of ``done`` comes to these."""
VERBS = frozenset(Verb)
ONE_OF = {
    "garden.yaml / surroundings / []": {"wall", "fence", "hedge", "house", "tree"},
    "harvest.yaml / []": {"crop", "mixed", "tag"},
    "plan.yaml / []": {"sow", "set out", "carried from"},
}
"""Of these, one is needed."""
MISSING = {"missing-key", "no-start", "no-verb"}


@dataclass(frozen=True)
class Sample:
    """One key of the demonstration garden."""

    way: str
    file: str
    line: int
    """Of the key, from 1, in the file."""
    column: int
    name: str
    beside: frozenset[str]
    """The other keys of its record."""


def _kind(file: str) -> str:
    parts = file.split("/")
    if "log" in parts:
        return "log"
    if "questions" in parts:
        return "questions"
    return parts[-1] if parts[-1].endswith(".yaml") else "pages"


def _header(text: str, file: str) -> tuple[str, int]:
    """Return the YAML of a file and the number of lines before it."""
    if file.endswith(".yaml"):
        return text, 0
    return text.split("\n---", 1)[0].removeprefix("---\n"), 1


def _composed(text: str) -> yaml.Node:
    node = yaml.compose(text, Loader=LOADER)
    assert node is not None
    return node


def _keys(node: yaml.Node, way: str) -> Iterator[tuple[str, yaml.Node, frozenset[str]]]:
    if isinstance(node, yaml.SequenceNode):
        for item in node.value:
            yield from _keys(item, f"{way} / []")
    elif isinstance(node, yaml.MappingNode):
        names = [key.value for key, _value in node.value]
        if "new" in names and way.startswith("crops.yaml"):
            way = "crops.yaml / [new]"
        for key, value in node.value:
            here = f"{way} / {key.value}"
            yield here, key, frozenset(names) - {key.value}
            free = f"{way} / *" in FREE
            yield from _keys(value, f"{way} / *" if free else here)


@functools.cache
def _samples() -> tuple[Sample, ...]:
    found: dict[str, Sample] = {}
    for path in sorted(CONTENT.rglob("*")):
        if path.suffix not in (".yaml", ".md"):
            continue
        file = path.relative_to(ROOT).as_posix()
        text, before = _header(path.read_text(encoding="utf-8"), file)
        for way, key, beside in _keys(_composed(text), _kind(file)):
            if f"{way.rpartition(' / ')[0]} / *" in FREE:
                continue
            place = (key.start_mark.line + 1 + before, key.start_mark.column + 1)
            found.setdefault(way, Sample(way, file, *place, key.value, beside))
    return tuple(found[way] for way in sorted(found))


def _alone(sample: Sample) -> str:
    """Return the sample's file; of a list the record it stands in alone, every other line empty."""
    text = (ROOT / sample.file).read_text(encoding="utf-8")
    if not sample.file.endswith(".yaml") or not isinstance(root := _whole(sample.file), yaml.SequenceNode):
        return text
    starts = [item.start_mark.line for item in root.value]
    first = max(start for start in starts if start < sample.line)
    end = min((start for start in starts if start > first), default=len(text))
    lines = text.split("\n")
    return "\n".join(line if first <= number < end else "" for number, line in enumerate(lines))


@functools.cache
def _whole(file: str) -> yaml.Node:
    return _composed((ROOT / file).read_text(encoding="utf-8"))


@pytest.fixture(scope="module")
def roots(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder for gardens, one for each file that has samples: of the others it has but garden and crops."""
    roots = tmp_path_factory.mktemp("keys")
    for file in {sample.file for sample in _samples()}:
        root = _root(roots, file)
        (root / file).parent.mkdir(parents=True)
        for name in ("content/garden.yaml", "content/crops.yaml"):
            shutil.copyfile(ROOT / name, root / name)
    return roots


def _root(roots: Path, file: str) -> Path:
    return roots / file.replace("/", " ")


def _found(roots: Path, sample: Sample, text: str) -> dict[Place, set[str]]:
    """Return the codes of what is told of the sample's file with such a text, below its garden and crops."""
    root = _root(roots, sample.file)
    (root / sample.file).write_text(text, encoding="utf-8")
    found: dict[Place, set[str]] = {}
    for finding in read(root, demo_read().leaves).findings:
        if finding.place.file == sample.file:
            found.setdefault(finding.place, set()).add(finding.code)
    return found


def test_a_misspelt_key_is_told_at_its_place(roots: Path) -> None:
    assert [sample for sample in tried(_samples()) if not _is_told_misspelt(sample, roots)] == []


def _is_told_misspelt(sample: Sample, roots: Path) -> bool:
    lines = _alone(sample).split("\n")
    line, at = lines[sample.line - 1], sample.column - 1
    assert line[at:].startswith(sample.name)
    lines[sample.line - 1] = f"{line[:at]}{sample.name}q{line[at + len(sample.name) :]}"
    found = _found(roots, sample, "\n".join(lines))
    return "unknown-key" in found.get(Place(sample.file, sample.line, sample.column), set())


def _needed(sample: Sample) -> bool:
    record = sample.way.rpartition(" / ")[0]
    if sample.name in ONE_OF.get(record, ()):
        return not ONE_OF[record] & sample.beside
    if record == "log / done / []" and sample.name == "to":
        return "move" in sample.beside
    verb = record == "log / done / []" and sample.name in VERBS
    general = sample.way.replace("[new]", "[]")
    return verb or sample.way in NEEDED or general in NEEDED


def _without(sample: Sample) -> str:
    """Return the file's text with the sample's key and its value taken away."""
    text, before = _header(_alone(sample), sample.file)
    root = _composed(text)

    def cut(node: yaml.Node) -> None:
        if isinstance(node, yaml.MappingNode):
            place = (sample.line - 1 - before, sample.column - 1)
            node.value = [
                pair for pair in node.value if (pair[0].start_mark.line, pair[0].start_mark.column) != place
            ]
            for _key, value in node.value:
                cut(value)
        elif isinstance(node, yaml.SequenceNode):
            for item in node.value:
                cut(item)
        elif isinstance(node, yaml.ScalarNode):
            node.tag = "tag:yaml.org,2002:str"
            node.style = '"'

    cut(root)
    whole = yaml.serialize(root, Dumper=DUMPER, allow_unicode=True, width=10_000)
    return whole if sample.file.endswith(".yaml") else f"---\n{whole}---\nProse.\n"


def test_a_key_is_missed_unless_it_may_be_left_out(roots: Path) -> None:
    wrong = []
    for sample in tried(_samples()):
        found = _found(roots, sample, _without(sample))
        if any(codes & MISSING for codes in found.values()) != _needed(sample):
            wrong.append((sample, found))
    assert wrong == []


def test_most_documented_keys_are_in_the_demonstration_garden() -> None:
    ways = {sample.way for sample in _samples()}
    assert len(ways) > 60, "the walk over content/ finds hardly any keys"
    assert {"garden.yaml / name", "plan.yaml / [] / crop", "harvest.yaml / [] / weight"} <= ways
