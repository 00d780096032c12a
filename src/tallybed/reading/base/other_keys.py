"""Words that people write for the keys of a file, each with the keys it may stand for."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from types import MappingProxyType

from tallybed.garden.naming import folded

_BY_KEY = {
    "name": ("garden", "garden name", "title"),
    "title": ("name", "heading", "headline", "subject", "called"),
    "date": ("day", "on", "when", "picked on", "harvested", "harvested on"),
    "note": ("comment", "comments", "remark", "remarks", "memo"),
    "source": ("reference", "taken from", "according to", "url", "link"),
    # The garden and its beds.
    "place": ("town", "city", "location", "where", "village"),
    "latitude": ("lat", "northing"),
    "longitude": ("lon", "long", "lng"),
    "time zone": ("tz",),
    "units": ("measures", "measurement", "measurements", "system", "weights"),
    "currency": ("money",),
    "address": ("url", "web", "website", "web site", "site", "homepage", "link"),
    "about": ("description", "introduction"),
    "freeze dates": ("frost", "frosts", "frost dates", "last frost", "first frost", "freezes"),
    "supporters": ("sponsors", "sponsor", "thanks", "donors", "funders"),
    "beds": ("plot", "plots", "boxes"),
    "surroundings": ("shade", "around", "obstacles", "buildings", "trees"),
    "last spring": ("last frost", "last freeze", "spring"),
    "first fall": ("first frost", "first freeze", "fall", "autumn", "first autumn"),
    "start": ("begin", "begins", "first", "first day", "opens", "sown as", "from"),
    "end": ("last", "last day", "ends", "until", "closes"),
    "length": ("long", "columns", "cols"),
    "width": ("breadth", "wide", "rows"),
    "square": ("side", "sides", "cell", "cells", "grid", "square side", "square size", "each square"),
    "bearing": ("orientation", "direction", "facing", "faces", "compass", "azimuth"),
    "omitted": ("gap", "gaps", "holes", "missing", "left out", "without", "cut out"),
    "trellis": ("support", "supports", "net", "netting", "wire", "poles"),
    "path": ("walk", "walkway", "aisle", "alley"),
    "boards": ("wood", "timber", "frame", "lumber", "material"),
    "height": ("tall", "high"),
    "since": ("from", "built", "added", "first season", "first year"),
    "distance": ("away", "how far"),
    # The plan.
    "crop": ("plant", "plants", "vegetable", "veg", "species", "of"),
    "tag": ("label", "id", "code"),
    "variety": ("cultivar", "sort"),
    "squares": ("location", "where", "position", "cells", "spot", "spots", "bed", "in", "place"),
    "sow": ("sown", "seeded", "direct sow", "sow outdoors", "sowing date"),
    "set out": ("transplant", "transplanted", "planted", "plant out", "planted out", "planting date"),
    "sow indoors": ("start indoors", "started indoors", "indoors", "started"),
    "until": ("end", "ends", "clear", "cleared", "remove", "removed", "finish", "out", "to"),
    "spacing": ("distance", "apart"),
    "per square": ("density", "each square"),
    "plants": ("number", "quantity", "qty", "count", "how many"),
    # The log.
    "by": ("author", "who", "written by", "people", "with"),
    "done": ("work", "tasks", "jobs", "events", "activities"),
    "photos": ("photo", "pictures", "images", "photographs"),
    "minutes": ("time", "duration", "time spent", "hours"),
    "people": ("helpers", "persons", "hands", "workers", "volunteers"),
    "because": ("reason", "why", "cause"),
    "file": ("filename", "file name", "picture", "image", "photo", "path"),
    "alt": ("description", "alt text", "text", "shown"),
    "credit": ("photographer", "author", "by", "photo by", "taken by"),
    # The ledger, costs and prices.
    "weight": ("weighs", "amount", "lb", "lbs", "oz", "pounds", "ounces", "kg", "g", "grams", "yield"),
    "count": ("number", "quantity", "qty", "pieces", "how many"),
    "to": ("destination", "recipient", "given to", "went to", "for", "who had it"),
    "what": ("item", "thing", "description", "bought"),
    "cost": ("price", "amount", "paid", "sum", "total"),
    "price": ("cost", "amount"),
    "per": ("unit", "for each", "each"),
    "seen at": ("shop", "store", "market", "where", "source", "seen"),
    # Crops of the garden's own, soil.
    "days": ("maturity", "days to maturity", "days to harvest"),
    "also": ("aliases", "alias", "other names", "synonyms", "also called"),
    "botanical name": ("latin", "latin name", "scientific name", "species", "botanical"),
    "letters": ("abbreviation", "short", "initials"),
    "ph": ("acidity",),
    "lead": ("pb",),
    "laboratory": ("lab", "tested by"),
}
"""Each key with what people write for it: our own list. A word may stand below several."""


def _turned() -> Mapping[str, tuple[str, ...]]:
    """Return each word with its keys, in the order of the list."""
    found: dict[str, tuple[str, ...]] = {}
    for key, words in _BY_KEY.items():
        for word in words:
            found[word] = (*found.get(word, ()), key)
    return MappingProxyType(found)


OTHER_KEYS = _turned()
"""Words in small letters, each with the keys it may stand for."""


def key_meant(text: str, free: Collection[str]) -> str:
    """Return the first of the keys still ``free`` that a word is or may stand for, or an empty text.

    Capitals make no difference, nor do hyphens and underscores between words.
    """
    word = _plain(text)
    itself = next((key for key in free if _plain(key) == word), "")
    return itself or next((key for key in OTHER_KEYS.get(word, ()) if key in free), "")


def _plain(text: str) -> str:
    """Return a word without what makes no difference."""
    return folded(text.replace("_", " ").replace("-", " "))
