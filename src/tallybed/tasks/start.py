"""``tallybed start``: a new garden folder, with examples to write over."""

from __future__ import annotations

from tallybed.writing.starter_garden import start as start
