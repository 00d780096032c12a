"""The project's own pages of text, in parts, for tests that compare them with the program."""

from __future__ import annotations

import re

from tests.tools import ROOT

_FILES = [*ROOT.glob("docs/*.md"), ROOT / "README.md", ROOT / "DEVELOPERS.md"]
PAGES = {path.relative_to(ROOT).as_posix(): path.read_text(encoding="utf-8") for path in sorted(_FILES)}


def sections(page: str) -> dict[str, str]:
    """The parts of a page by their headings of the second level."""
    parts = re.split(r"^## ", PAGES[page], flags=re.MULTILINE)[1:]
    return {part.partition("\n")[0]: part.partition("\n")[2] for part in parts}


def blocks(text: str) -> list[str]:
    """The blocks between fences, in order."""
    return re.findall(r"^```\w+\n(.*?)^```$", text, flags=re.MULTILINE | re.DOTALL)


def anchors(text: str) -> set[str]:
    """The anchors that hosts of repositories give to headings."""
    heads = re.findall(r"^#+ (.*)$", text, flags=re.MULTILINE)
    return {re.sub(r"[^\w\- ]", "", head.casefold()).replace(" ", "-") for head in heads}
