"""The states in which a harvest is weighed, as people type them."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from tallybed.garden.records.ledger import State
from tallybed.reading.base.choices import choice

STATES: Mapping[str, State] = MappingProxyType({state.value: state for state in State})
_OTHERS = {
    **dict.fromkeys(("raw", "green", "wet", "just picked"), State.FRESH.value),
    **dict.fromkeys(("dry", "dehydrated"), State.DRIED.value),
    **dict.fromkeys(("stored", "hung"), State.CURED.value),
}


def state(text: str) -> State:
    """Read a state. Raises Misread."""
    return choice(text, STATES, "a state", _OTHERS)
