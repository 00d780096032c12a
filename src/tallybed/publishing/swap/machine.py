"""How trouble with the machine is told: the file it concerns, what the machine says, and what would help."""

from __future__ import annotations

import errno

_REMEDIES = {
    errno.ENOSPC: "make room on that disk, then try again",
    errno.EDQUOT: "make room in your share of that disk, then try again",
    errno.EACCES: "see that you may read and write there, then try again",
    errno.EPERM: "see that you may read and write there, then try again",
    errno.EROFS: "put the folder on a disk that can be written to",
}
"""What helps, by the number of the error (POSIX.1-2017, errno.h)."""


def machine_words(error: OSError) -> str:
    """Return what the machine says of an error, with the file it concerns and what to do, as a clause."""
    said = error.strerror or str(error)
    told = f"{error.filename}: {said}" if error.filename else said
    remedy = _REMEDIES.get(error.errno or 0)
    return f"{told} ({remedy})" if remedy else told
