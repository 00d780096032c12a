"""What a build tells of the pages that the public will find other than before."""

from __future__ import annotations

from collections.abc import Iterator

from tallybed.tasks.build import Changes

_MOST = 20
"""Pages that are named before the rest is counted."""


def changes_told(found: Changes | None) -> Iterator[str]:
    """Yield the lines: how many pages are new, changed and gone, and the names of the first twenty.

    Nothing where there was no site before, or nothing became of it.
    """
    if not found:
        return
    groups = (("new", found.new), ("changed", found.changed), ("gone", found.gone))
    counts = [_counted(word, pages) for word, pages in groups if pages]
    same = f"{_pages(len(found.dated))} with nothing new but the day" if found.dated else ""
    yield f"Since the site before: {', '.join([*counts, *([same] if same else [])])}."
    named = [(word, page) for word, pages in groups for page in pages]
    for word, page in named[:_MOST]:
        yield f"  {word:<8} {page}"
    if len(named) > _MOST:
        yield f"  and {_pages(len(named) - _MOST)} more"


def _counted(word: str, pages: tuple[str, ...]) -> str:
    return f"{_pages(len(pages))} {word}"


def _pages(number: int) -> str:
    return f"{number:,} page{'' if number == 1 else 's'}"
