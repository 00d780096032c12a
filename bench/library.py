"""Renew what is kept of the crop library as it is understood, after one of its files or their reader changed.

Run from the repository:

    .venv/bin/python bench/library.py
"""

from __future__ import annotations

from pathlib import Path

import tallybed
from tallybed.reading.folder.kept_library import UNDERSTOOD, as_text
from tallybed.reading.folder.library import hash_of, read_library


def main() -> None:
    """Write ``library/understood.json`` from the files beside it."""
    folder = Path(tallybed.__file__).parent / "library"
    read = read_library(folder)
    text = as_text(read.crops.values(), read.sources.values(), hash_of(folder))
    (folder / UNDERSTOOD).write_text(text, encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main()
