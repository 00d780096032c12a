"""Characters that stand in a file without being seen, and have no place in a garden's records."""

from __future__ import annotations

import re

_CONTROL = "\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f"
_LINE_ENDS = "\u2028\u2029"
_TURNING = "\u202a-\u202e\u2066-\u2069"
"""Marks that turn the direction of writing: a text shown with them may read otherwise than it is kept."""
_NEVER = "\ud800-\udfff\ufeff\ufffe\uffff"

_HIDDEN = re.compile("[\u00ad\u034f\u061c\u180e\u200b\u200e\u200f\u2060-\u2064\U000e0000-\U000e007f]")
"""Signs that a text may hold, as a soft hyphen in prose, and that two words can differ by unseen."""

UNSEEN = re.compile(f"[{_CONTROL}{_LINE_ENDS}{_TURNING}{_NEVER}]")


def described(sign: str) -> str:
    """Return how a finding speaks of such a character."""
    return f"a character that cannot be seen stands here, U+{ord(sign):04X}"


def shown(text: str) -> str:
    """Return a text with the numbers of signs that would not be seen in it."""
    return _HIDDEN.sub(lambda sign: f"[U+{ord(sign.group()):04X}]", text)
