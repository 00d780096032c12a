"""What reading a garden gave before, for a process that reads it again and again.

A file whose text is as it was gives what it gave. So does a part of the garden all of whose files are as
they were: its own file, its crops, a season below the same garden and the same crops. Of each file and
part the newest alone is kept, so that the garden itself bounds it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from typing import Any, TypeVar

from tallybed.garden.findings import Finding, Place, Severity
from tallybed.reading.base.problems import LeftOut, Problems
from tallybed.reading.folder.disk import FolderOnDisk
from tallybed.reading.yaml.headers import HeadedFile, split
from tallybed.reading.yaml.nodes import Items, Node, Pairs, parse

T = TypeVar("T")
Texts = tuple[tuple[str, str], ...]
"""Files, each with its text."""


@dataclass(slots=True)
class Memory:
    """What one reading leaves to the next."""

    nodes: dict[str, tuple[str, Node | None]] = field(default_factory=dict)
    """Of each file of YAML its text and what that gave, where there was nothing to tell of it."""
    pages: dict[str, tuple[str, HeadedFile]] = field(default_factory=dict)
    """Of each file of prose likewise."""
    parts: dict[str, tuple[Texts, Any, tuple[Finding, ...]]] = field(default_factory=dict)
    """Of each part all texts it was read from, what they gave, and what was told of them."""


class Sources:
    """A garden folder in one run of reading: each file is opened once, and read unless that is known."""

    def __init__(self, disk: FolderOnDisk, problems: Problems, before: Memory | None) -> None:
        """Take what was read ``before``; ``now`` holds what this run leaves.

        Where that is None nobody will read again, and nothing is left: nodes take half of the memory
        that a large garden needs.
        """
        self.disk = disk
        self.now = Memory()
        self._leaves = before is not None
        self._before = before or Memory()
        self.problems = problems
        self._texts: dict[str, str | None] = {}

    def text(self, file: str) -> str:
        """Return a file's text. Raises LeftOut after telling, once, why it cannot be; OSError."""
        if file not in self._texts:
            self._texts[file] = None
            self._texts[file] = self.disk.text(file)
        text = self._texts[file]
        if text is None:
            raise LeftOut
        return text

    def forget_texts(self, files: Iterable[str]) -> None:
        """Let go of the texts of files that have been read; nobody may ask for them again in this run."""
        for file in files:
            self._texts.pop(file, None)

    def nodes(self, file: str) -> Node | None:
        """Return what a file of YAML holds; see ``parse``."""
        text = self.text(file)
        told, node = self._before.nodes.get(file, (None, None))
        if told != text:
            number = len(self.problems)
            node = parse(text, file, self.problems)
            if len(self.problems) > number:
                return node
        if self._leaves:
            self.now.nodes[file] = (text, node)
        return node

    def items(self, file: str, expected: str) -> tuple[Node, ...] | None:
        """Return the rows of a file that is a list; None where it could not be read."""
        try:
            node = self.nodes(file)
        except LeftOut:
            return None
        if node is None:
            self.tell_empty(file, expected)
            return ()
        if not isinstance(node, Items):
            kind = "a group of keys" if isinstance(node, Pairs) else "a plain text"
            remedy = "begin each record with a hyphen" if isinstance(node, Pairs) else ""
            self.problems.add(
                node.place, "wrong-kind", f"{kind} stands here", expected=expected, remedy=remedy
            )
            return None
        return node.items

    def tell_empty(self, file: str, expected: str) -> None:
        """Warn that a file holds nothing."""
        found = "the file holds nothing"
        self.problems.add(Place(file), "empty-file", found, expected=expected, severity=Severity.WARNING)

    def page(self, file: str) -> HeadedFile:
        """Return a file of prose with its header; see ``split``."""
        text = self.text(file)
        known = self._before.pages.get(file)
        if known is None or known[0] != text:
            number = len(self.problems)
            known = (text, split(text, file, self.problems))
            if len(self.problems) > number:
                return known[1]
        if self._leaves:
            self.now.pages[file] = known
        return known[1]

    def part(self, name: str, files: Iterable[str], read: Callable[[], T]) -> T:
        """Return a part: as it was read before, if each of ``files`` has the text it had, else by ``read``.

        ``files``: all that it is read from, those for the whole garden among them. Nobody changes what
        ``read`` gave; a part has always the same kind of value, so what is kept under its name is a T.
        """
        try:
            texts = tuple((file, self.text(file)) for file in files)
        except LeftOut:
            return read()
        known = self._before.parts.get(name)
        if known is None or known[0] != texts:
            number = len(self.problems)
            known = (texts, read(), self.problems.since(number))
        else:
            self.problems.again(known[2])
            for file, _ in texts:
                self._keep(file)
        if self._leaves:
            self.now.parts[name] = known
        given: T = known[1]
        return given

    def _keep(self, file: str) -> None:
        """Leave what was read of a file before to the next run as well."""
        if file in self._before.nodes:
            self.now.nodes[file] = self._before.nodes[file]
        if file in self._before.pages:
            self.now.pages[file] = self._before.pages[file]
