"""What remembers: work done for a key once, and kept with the value it belongs to."""

from __future__ import annotations

from collections.abc import Callable, Hashable
from dataclasses import dataclass, field
from functools import cached_property
from typing import TypeVar, cast

_Kept = TypeVar("_Kept")

Keep = Callable[[str, Callable[[], str]], str]
"""Takes a text that says all that something follows from, and the work that gives it as text; returns
what the work gives, now or in a run before."""


def at_once(_of: str, work: Callable[[], str]) -> str:
    """Keep nothing: return what the work gives now."""
    return work()


@dataclass(frozen=True, kw_only=True, eq=False)
class Remembering:
    """A value that keeps what was worked out from it. Compared by identity."""

    _memory: dict[Hashable, object] = field(default_factory=dict, init=False, repr=False)

    def kept(self, key: Hashable, work: Callable[[], _Kept]) -> _Kept:
        """Return what was worked out for a key before; else work it out and keep it."""
        if key not in self._memory:
            self._memory[key] = work()
        return cast("_Kept", self._memory[key])

    def forget(self) -> None:
        """Let go of all that was worked out; what is asked for again is worked out again."""
        self._memory.clear()
        own = vars(self)
        for name in [name for name in own if isinstance(getattr(type(self), name, None), cached_property)]:
            del own[name]
