"""Two drawings of the same thing on one page, for programs that follow no style sheet."""

from __future__ import annotations

BEGINS, ENDS = '<style media="all"/>', "<style></style>"
"""Two elements without a word in them. An element of SVG may close itself, one of HTML may not (HTML Living
Standard, 13.1.2.1). To text browsers ``svg`` is a tag like any other: for them a style sheet begins with the
first and goes on to the end of the second."""


def passed_over(drawing: str) -> str:
    """Return the one of two drawings that text browsers leave out, with its words and links.

    A style sheet shows one of the two at a time, and screen readers meet that one; w3m and lynx follow none.
    """
    head, mark, rest = drawing.partition(">")
    return f"{head}{mark}{BEGINS}{rest.removesuffix('</svg>')}{ENDS}</svg>"
