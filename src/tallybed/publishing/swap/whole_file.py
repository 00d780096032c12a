"""A file's bytes, read with as little around them as there can be: a site has hundreds of files."""

from __future__ import annotations

import os

_PLAIN = os.O_RDONLY | getattr(os, "O_BINARY", 0) | getattr(os, "O_CLOEXEC", 0)


def bytes_of(path: str) -> bytes:
    """Return all that a file holds. Raises OSError."""
    file = os.open(path, _PLAIN)
    try:
        parts = [os.read(file, os.fstat(file).st_size + 1)]
        while parts[-1]:
            parts.append(os.read(file, 1 << 20))
        return parts[0] if len(parts) == 2 else b"".join(parts)
    finally:
        os.close(file)
