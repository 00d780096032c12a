"""What keeps a command from writing over something that is not Tallybed's."""

from __future__ import annotations


class RefusedError(Exception):
    """The folder holds something that is not ours to overwrite; the message says what to do."""
