"""``names.yaml``: what a season's general names mean, such as beans."""

from __future__ import annotations

from tallybed.garden.naming import folded
from tallybed.reading.base.context import Context
from tallybed.reading.base.problems import LeftOut, quoted
from tallybed.reading.base.scanners import said, wrong_kind
from tallybed.reading.shapes.common import CROP_NAME
from tallybed.reading.yaml.nodes import Node, Pairs


def general_names(node: Node, context: Context) -> tuple[dict[str, str], bool]:
    """Read what general names mean this season, by folded name; and whether that is all."""
    if not isinstance(node, Pairs):
        wrong_kind(node, "general names with their crop, as in beans: bean-bush", context)
    answers: dict[str, str] = {}
    for name, value in node.pairs:
        try:
            asked = said(lambda text: context.crop(text, general=True), "a general name such as beans")
            slugs = asked(name, context).slugs
            meant = CROP_NAME(value, context)
        except LeftOut:
            continue
        if meant.slug is None:
            found = f"{quoted(meant.typed)} may mean several crops"
            expected = context.one_of(meant.slugs)
            context.problems.add(value.place, "general-crop", found, expected=expected)
        elif meant.slug not in slugs:
            found = f"{quoted(name.text)} does not mean {context.one_of(meant.slugs)}"
            context.problems.add(value.place, "not-its-meaning", found, expected=context.one_of(slugs))
        else:
            answers[folded(name.text)] = meant.slug
    return dict(sorted(answers.items())), len(answers) == len(node.pairs)
