"""Drawings kept from one run to the next, each under all that it is drawn from."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import ParamSpec

from tallybed.reckoning.year import Years

P = ParamSpec("P")
_NAMELESS = " object at 0x"
"""Stands in the text of a value that does not say what it holds."""
_INNER = "<"
"""Stands in the name of a function within another, which may know more than it is given."""


def kept_drawing(years: Years, draw: Callable[P, str], *given: P.args, **named: P.kwargs) -> str:
    """Return what ``draw`` gives for some values, now or in a run before.

    A value's own text stands for it: garden, reckoning and drawing have values alone that tell all by which
    they are compared. Of closed seasons nothing is kept here: their pages are, whole.
    """
    work = partial(draw, *given, **named)
    if years.whole is not None:
        return work()
    of = f"drawing {draw.__module__}.{draw.__qualname__} of {given!r} {named!r}"
    return work() if _NAMELESS in of or _INNER in draw.__qualname__ else years.keep(of, work)
