"""Renew what is kept of the crop library as it is understood, after one of its files or their reader changed.

Run from the repository:

    .venv/bin/python bench/library.py
"""

from __future__ import annotations

import sys

from tallybed.reading.folder.kept_library import UNDERSTOOD, as_text
from tallybed.reading.folder.library import FOLDER, LibraryError, hash_of, read_library


def main() -> None:
    """Write ``library/understood.json`` from the files beside it, or end with what is wrong in them."""
    try:
        read = read_library(FOLDER)
    except LibraryError as error:
        sys.exit(f"nothing was written: {error}")
    text = as_text(read.crops.values(), read.sources.values(), hash_of(FOLDER))
    (FOLDER / UNDERSTOOD).write_text(text, encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main()
