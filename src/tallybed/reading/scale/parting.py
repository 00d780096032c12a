"""Where one picking of a line ends and the next begins: at a mark whose sides each name a crop."""

from __future__ import annotations

import re
from itertools import pairwise

from tallybed.reading.base.problems import Misread, quoted
from tallybed.reading.scale.claims import Claim, Kind, Line
from tallybed.reading.scale.names import BETWEEN_CROPS, PARTING, groups
from tallybed.reading.scale.questions import WEIGHT, Answers, Choice, LineQuestion, answered

BOWL, APART = "bowl", "apart"


def parted(line: Line, answers: Answers) -> list[Line]:
    """Return the pickings of a line, each as a line of its own. Raises Misread; LineQuestion."""
    names = groups(line)
    if len(names) < 2 or is_bowl(line, names, answers):
        return [line]
    parts: list[Line] = []
    start = 0
    for before, after in pairwise(names):
        mark = _mark(line, start, before[-1].end, after[0].start)
        parts.append(line.part(start, mark.start()))
        start = mark.end()
    parts.append(line.part(start, len(line.text)))
    return parts


def _mark(line: Line, start: int, low: int, high: int) -> re.Match[str]:
    marks = [one for one in PARTING.finditer(line.text, low, high) if line.is_free(one.start(), one.end())]
    weighed = [one for one in marks if line.part(start, one.start()).of(Kind.WEIGHT, Kind.UNWEIGHED)]
    if not marks:
        found = f"{quoted(line.text[start:].strip())} names several crops, and no mark parts them"
        raise Misread("line", found, "a comma or a line’s end between pickings")
    return (weighed or marks)[-1]


def is_bowl(line: Line, names: list[list[Claim]], answers: Answers) -> bool:
    """Return whether the crops of a line lay in one bowl. Raises LineQuestion where they may have."""
    if len(names) < 2 or any(one.kind is Kind.TAG for group in names for one in group):
        return False
    between = [line.text[before[-1].end : after[0].start] for before, after in pairwise(names)]
    if not all(BETWEEN_CROPS.fullmatch(text) for text in between):
        return False
    if line.of(Kind.BOWL) or all("+" in text for text in between):
        return True
    weights = line.of(Kind.WEIGHT)
    if len(weights) != 1:
        return False
    whole = weights[0].value.text
    last = names[-1][0].value.typed
    question = LineQuestion(
        WEIGHT,
        f"{quoted(line.text.strip())} has one weight for several crops",
        (
            Choice(f"a mixed bowl of {whole}", BOWL),
            Choice(f"{whole} of {last}, the others not weighed", APART),
        ),
        key=f"{WEIGHT} {line.text}",
    )
    return answered(answers, question) == BOWL
