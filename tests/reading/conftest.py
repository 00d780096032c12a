"""Property tests here have no time limit: the machine that runs them may be busy."""

from __future__ import annotations

from hypothesis import settings

settings.register_profile("unhurried", deadline=None)
settings.load_profile("unhurried")
