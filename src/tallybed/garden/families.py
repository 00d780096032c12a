"""Everyday names of plant families, as English-speaking gardeners say them. From memory."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

FAMILIES: Mapping[str, str] = MappingProxyType(
    {
        "Aizoaceae": "the ice plant family",
        "Amaranthaceae": "the beet family",
        "Amaryllidaceae": "the onion family",
        "Apiaceae": "the carrot family",
        "Asteraceae": "the lettuce family",
        "Brassicaceae": "the cabbage family",
        "Caprifoliaceae": "the honeysuckle family",
        "Convolvulaceae": "the sweet potato family",
        "Cucurbitaceae": "the squash family",
        "Fabaceae": "the bean family",
        "Lamiaceae": "the mint family",
        "Malvaceae": "the okra family",
        "Poaceae": "the grass family",
        "Rosaceae": "the rose family",
        "Solanaceae": "the tomato family",
    }
)


OF_FRUIT = frozenset({"Cucurbitaceae", "Fabaceae", "Malvaceae", "Poaceae", "Rosaceae", "Solanaceae"})
"""Families whose vegetables are grown for fruit, pods or ears; but for tubers. From memory."""


def everyday_family(family: str) -> str:
    """Return what a family is called: ``the cabbage family``; one that is not known by its own name."""
    return FAMILIES.get(family, f"the family {family}")
