"""The plural of a crop's name, where the gardener told none, and counts. English, from memory."""

from __future__ import annotations

import re
import unicodedata

MASS = frozenset(
    {"asparagus", "cilantro", "coriander", "basil", "dill", "fennel", "mint", "thyme", "sage", "oregano"}
    | {"rosemary", "tarragon", "marjoram", "lovage", "sorrel", "chervil", "savory", "lavender", "borage"}
    | {"rhubarb", "celery", "celeriac", "garlic", "ginger", "turmeric", "spinach", "kale", "chard", "cress"}
    | {"watercress", "lettuce", "arugula", "rocket", "purslane", "amaranth", "quinoa", "corn", "maize"}
    | {"okra", "parsley", "horseradish", "lemongrass", "mizuna", "tatsoi", "radicchio", "escarole"}
    | {"mustard", "flax", "cabbage lettuce", "wheat", "rye", "oats", "barley", "buckwheat", "clover"}
    | {"vetch", "stevia", "choi", "broccoli", "calabrese", "salsify", "kohlrabi", "hyssop", "comfrey"}
    | {"chamomile", "yarrow", "romanesco", "mache", "mâche", "epazote", "shiso", "perilla", "komatsuna"}
    | {"mitsuba", "squash", "bok choy", "choy", "edamame", "raab", "callaloo"}
)
"""Names that are said of any amount, by their last word."""
PLURAL_ALREADY = frozenset(
    {"collards", "greens", "chives", "sprouts", "peas", "beans", "beets", "herbs", "leaves", "salad"}
)
TELLS_MORE = re.compile(" (?:of|from|in|on|at|with|without|for) ")
"""The first of these words ends what a name is of, and begins what is told of it."""
IRREGULAR = {"leaf": "leaves", "radish": "radishes", "potato": "potatoes", "tomato": "tomatoes"}


def plural_of(name: str) -> str:
    """Return a crop's plural: ``carrots``, ``radishes``, ``cherries``, and ``asparagus`` as it is.

    What follows "of", "from" or the like stays as it is: ``cups of gold``. So does a name that does not
    end in a Latin letter: no English ending fits it.
    """
    if name and not unicodedata.name(name[-1], "").startswith("LATIN "):
        return name
    if told := TELLS_MORE.search(name):
        return plural_of(name[: told.start()]) + name[told.start() :]
    head, _space, last = name.rpartition(" ")
    word = last.casefold()
    if word in MASS or word in PLURAL_ALREADY or name.casefold() in MASS:
        return name
    lead = f"{head} " if head else ""
    if word in IRREGULAR:
        return lead + IRREGULAR[word]
    if word.endswith("ies"):
        return name  # berries
    if word.endswith(("s", "x", "z", "ch", "sh")):
        return f"{name}es"
    if word.endswith("y") and len(word) > 2 and word[-2] not in "aeiou":
        return f"{name[:-1]}ies"
    return f"{name}s"


def in_plural(name: str) -> str:
    """Return a name typed in singular or plural in its plural: ``tomatoes`` for both ``tomato`` and it.

    A name that ends in an s counts as a plural, unless it is that of one said of any amount: ``squashes``.
    """
    if not name.casefold().endswith("s"):
        return plural_of(name)
    stems = (name[:-1], name[:-2])
    return next((stem for stem in stems if stem and plural_of(stem) == stem), name)


def figured(number: int, one: str) -> str:
    """Return ``1 plant``, ``1,200 plants``: always in figures."""
    return f"{number:,} {one if number == 1 else one + 's'}"
