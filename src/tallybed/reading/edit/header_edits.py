"""Cuts in the gardener's own text: a photograph or a name taken out, every other character left as it is.

What a cut should leave is worked out from the values as well, and the text is read
again after it; where the two disagree nothing is cut and whoever asked is told.
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Collection, Iterator, Sequence
from contextlib import suppress
from dataclasses import dataclass
from typing import cast

import yaml

from tallybed.garden.records.log import CROP_VERBS
from tallybed.reading.base.problems import Misread
from tallybed.reading.text.dates import day_name, months

Plain = str | list["Plain"] | dict[str, "Plain"]
"""YAML as nothing but texts, lists and mappings."""
_HEADER = re.compile(
    r"\A\ufeff?(?:[ \t]*\r?\n)*---[ \t]*\r?\n(?P<yaml>.*?)^---[ \t]*\r?$", re.DOTALL | re.MULTILINE
)
CROP_KEYS = frozenset({"crop", *(verb.value for verb in CROP_VERBS)})
"""Keys that hold the name of a crop."""
_BOWL = "mixed"
_PLAIN_TEXT = re.compile(r"[^\W\d_](?:[\w .’'-]*[\w.])?")
"""A text that needs no quotes wherever it stands."""
_EMPTY = frozenset({"", "yes", "no", "true", "false", "null", "on", "off"})


class UncutError(Exception):
    """A text in which the cut cannot be made safely."""


@dataclass(frozen=True, slots=True)
class _Piece:
    """The YAML within a file's text."""

    before: str
    text: str
    after: str

    def whole(self, text: str) -> str:
        """Return the file's text with another YAML in its place."""
        return self.before + text + self.after


def header_values(text: str) -> dict[str, Plain]:
    """Return what a header holds, every value as it was typed. Raises UncutError where it cannot be read."""
    return _mapping(_plain(_composed(_piece(text).text)))


def photos_named(text: str) -> tuple[str, ...]:
    """Return the files an entry's header names as photographs. Raises UncutError where it cannot be read."""
    photos = _mapping(_plain(_composed(_piece(text).text))).get("photos")
    rows = photos if isinstance(photos, list) else [photos]
    return tuple(str(row["file"]) for row in rows if isinstance(row, dict) and "file" in row)


def without_photos(text: str, files: Collection[str]) -> str:
    """Return an entry's text without the photographs of these files. Raises UncutError."""
    piece = _piece(text)
    while True:
        root = _composed(piece.text)
        wanted = _mapping(_plain(root))
        photos = wanted.get("photos")
        rows = photos if isinstance(photos, list) else [photos]
        number = next(
            (n for n, row in enumerate(rows) if isinstance(row, dict) and row.get("file") in files), None
        )
        if number is None:
            return piece.whole(piece.text)
        if isinstance(photos, list) and len(photos) > 1:
            del photos[number]
            cut = _without_item(piece.text, _value(root, "photos"), number)
        else:
            del wanted["photos"]
            cut = _without_key(piece.text, root, "photos")
        piece = _Piece(piece.before, _checked(cut, wanted), piece.after)
        if not wanted:
            return piece.whole(piece.text)


def by_of(text: str) -> str:
    """Return the ``by`` of a header, empty where there is none. Raises UncutError."""
    given = _mapping(_plain(_composed(_piece(text).text))).get("by", "")
    return given if isinstance(given, str) else ""


def with_by(text: str, by: str) -> str:
    """Return a file's text with another ``by`` in its header, or none if it is empty. Raises UncutError."""
    piece = _piece(text)
    root = _composed(piece.text)
    wanted = _mapping(_plain(root))
    if by:
        wanted["by"] = by
        node = _value(root, "by")
        cut = piece.text[: node.start_mark.index] + _scalar(by) + piece.text[_end(node, piece.text) :]
    else:
        del wanted["by"]
        cut = _without_key(piece.text, root, "by")
    return piece.whole(_checked(cut, wanted))


def replaced(
    text: str, change: Callable[[str], str], *, header: bool, prose: Callable[[str], str] | None = None
) -> str:
    """Return a file's text, and every value in it, changed alike. Raises UncutError.

    ``header``: whether the file is YAML between two lines of hyphens and then prose,
    or YAML as a whole. ``change`` is given texts and returns them changed, ``prose`` what stands
    below a header, where that is to be changed otherwise. The names of photographs stay, since under
    another one they would not be found, and so do days and months, and crops where a key names them:
    people are called May and June too, and Rosemary.
    """
    piece = _piece(text) if header else _Piece("", text, "")
    below = prose or change
    if change(piece.text) == piece.text:
        return piece.before + piece.text + below(piece.after)
    plain = _plain(_composed(piece.text))
    stay = {*_days(plain), *(photos_named(text) if header else ())}
    spared = [re.escape(one) for one in sorted(stay, key=len, reverse=True) if change(one) != one]
    crops = {one for one in _crops(plain) if change(one) != one}
    wanted = _changed(plain, _sparing(spared, change), crops)
    whole = _sparing([*_crop_patterns(crops), *spared], change)
    return piece.before + _checked(whole(piece.text), wanted) + _sparing(spared, below)(piece.after)


def _crop_patterns(crops: Collection[str]) -> tuple[str, ...]:
    """Return patterns of keys with one of some crops, and of bowls; none for no crop."""
    if not crops:
        return ()
    keys = "|".join(sorted(CROP_KEYS, key=len, reverse=True))
    named = "|".join(map(re.escape, sorted(crops, key=len, reverse=True)))
    key = r"(?<![\w-]){}[\"']?\s*:\s*{}"
    return key.format(f"(?:{keys})", rf"[\"']?(?:{named})(?!\w)"), key.format(_BOWL, r"\[[^\]]*\]")


def _crops(value: Plain) -> Iterator[str]:
    """Yield each text that a key names as a crop."""
    if isinstance(value, list):
        for one in value:
            yield from _crops(one)
    elif isinstance(value, dict):
        for key, one in value.items():
            if key in CROP_KEYS and isinstance(one, str):
                yield one
            elif key == _BOWL and isinstance(one, list):
                yield from (each for each in one if isinstance(each, str))
            else:
                yield from _crops(one)


def _days(value: Plain) -> Iterator[str]:
    """Yield each text that is a day, or some months, as it is written; one word alone may be a person."""
    if isinstance(value, str):
        for read in (day_name, months) if len(value.split()) > 1 else ():
            with suppress(Misread):
                read(value)
                yield value.strip()
    else:
        for one in value if isinstance(value, list) else value.values():
            yield from _days(one)


def _sparing(kept: Sequence[str], change: Callable[[str], str]) -> Callable[[str], str]:
    """Return a change that leaves what matches some patterns as it is, wherever it stands in a text."""
    if not kept:
        return change
    apart = re.compile("(" + "|".join(kept) + ")")
    return lambda text: "".join(one if n % 2 else change(one) for n, one in enumerate(apart.split(text)))


def _changed(value: Plain, change: Callable[[str], str], crops: Collection[str]) -> Plain:
    """Return a value with every text and key in it changed, but for crops where a key names them."""
    if isinstance(value, str):
        return change(value)
    if isinstance(value, list):
        return [_changed(one, change, crops) for one in value]
    return {
        change(key): one if _names_crop(key, one, crops) else _changed(one, change, crops)
        for key, one in value.items()
    }


def _names_crop(key: str, value: Plain, crops: Collection[str]) -> bool:
    """Return whether a key names a crop by its value, or the crops of a bowl."""
    return (key in CROP_KEYS and value in crops) or (key == _BOWL and isinstance(value, list))


def _piece(text: str) -> _Piece:
    """Return the header of a file's text, with what stands around it. Raises UncutError where it has none."""
    match = _HEADER.match(text)
    if match is None:
        raise UncutError("no header")
    return _Piece(text[: match.start("yaml")], match["yaml"], text[match.end("yaml") :])


def _composed(text: str) -> yaml.Node:
    """Return a text as nodes with places. Raises UncutError where it is broken, empty or has aliases."""
    try:
        if any(isinstance(token, yaml.AliasToken) for token in yaml.scan(text, Loader=yaml.SafeLoader)):
            raise UncutError("a text that stands for another")
        # The pure loader, whose marks count characters.
        node = yaml.compose(text, Loader=yaml.SafeLoader)
    except (yaml.YAMLError, RecursionError) as error:
        raise UncutError("broken YAML") from error
    if node is None:
        raise UncutError("nothing there")
    return node


def _plain(node: yaml.Node) -> Plain:
    """Return a node as texts, lists and mappings."""
    if isinstance(node, yaml.SequenceNode):
        return [_plain(one) for one in node.value]
    if isinstance(node, yaml.MappingNode):
        return {str(key.value): _plain(value) for key, value in node.value}
    return str(node.value)


def _mapping(plain: Plain) -> dict[str, Plain]:
    """Return the value if it is a mapping. Raises UncutError."""
    if not isinstance(plain, dict):
        raise UncutError("no keys")
    return plain


def _checked(text: str, wanted: Plain) -> str:
    """Return the text if it reads as wanted. Raises UncutError."""
    if wanted == {} and not _spoken(text):
        return text
    if _plain(_composed(text)) != wanted:
        raise UncutError("the cut would change something else")
    return text


def _spoken(text: str) -> bool:
    """Return whether a text has a line that is neither blank nor a comment."""
    return any(line.strip() and not line.lstrip().startswith("#") for line in text.splitlines())


def _value(root: yaml.Node, name: str) -> yaml.Node:
    """Return the value of a key. Raises UncutError where it is not there."""
    pairs = root.value if isinstance(root, yaml.MappingNode) else []
    for key, value in pairs:
        if key.value == name:
            return cast("yaml.Node", value)
    raise UncutError(f"no key {name}")


def _end(node: yaml.Node, text: str) -> int:
    """Return where a node's own characters end; PyYAML ends a block where the next thing begins."""
    if isinstance(node, yaml.CollectionNode) and not node.flow_style and node.value:
        last = node.value[-1]
        inner = [one for one in (last if isinstance(last, tuple) else (last,)) if _is_there(one)]
        return _end(inner[-1], text) if inner else node.start_mark.index
    start = node.start_mark.index
    return int(start + len(text[start : node.end_mark.index].rstrip()))


def _is_there(node: yaml.Node) -> bool:
    """Return whether a node has characters of its own."""
    return bool(node.end_mark.index > node.start_mark.index)


def _without_item(text: str, holder: yaml.Node, number: int) -> str:
    """Return a text without one item, counted from 0, of a list in it. Raises UncutError."""
    if not isinstance(holder, yaml.SequenceNode):
        raise UncutError("no list")
    item = holder.value[number]
    start, end = item.start_mark.index, _end(item, text)
    if holder.flow_style:
        return _without_part(text, start, end)
    return _without_lines(text, text.rfind("-", 0, start), end)


def _without_key(text: str, root: yaml.Node, name: str) -> str:
    """Return a text without a key and its value. Raises UncutError."""
    key, value = next((key, value) for key, value in root.value if key.value == name)
    start = key.start_mark.index
    end = max(_end(value, text), _end(key, text))
    if isinstance(root, yaml.MappingNode) and root.flow_style:
        return _without_part(text, start, end)
    return _without_lines(text, start, end)


def _without_part(text: str, start: int, end: int) -> str:
    """Return a text in braces or brackets without one part and the comma that set it apart."""
    after = re.compile(r"\s*,\s*").match(text, end)
    if after:
        return text[:start] + text[after.end() :]
    before = re.search(r"\s*,\s*\Z", text[:start])
    return (text[: before.start()] if before else text[:start]) + text[end:]


def _without_lines(text: str, start: int, end: int) -> str:
    """Return a text without the lines from one character to another."""
    first = text.rfind("\n", 0, max(start, 0)) + 1
    last = text.find("\n", end)
    if text[first:start].strip():
        raise UncutError("something else stands on the line")
    return text[:first] + (text[last + 1 :] if last >= 0 else "")


def _scalar(text: str) -> str:
    """Return a text as YAML, in double quotes where it could be read as something else."""
    if _PLAIN_TEXT.fullmatch(text) and text.casefold() not in _EMPTY:
        return text
    return json.dumps(text, ensure_ascii=False)
