"""No word of a line is lost: whatever is put into a line comes out in the row, or the line is not taken.

Lines are put together by chance from things a person may say (a crop, a weight, a day, squares, a count, a
place) and from words that mean nothing, in any order and with any marks between them. A row that is made
of such a line must hold every one of its facts, and each strange word must stand in its note or be shown as
passed over; else the line must be refused or asked about.
"""

from __future__ import annotations

import random
import re
from dataclasses import dataclass
from datetime import date

import pytest

from tallybed.garden.squares import in_words
from tallybed.reading.text import measures
from tallybed.tasks.weighing.scale import MisheardError, Slip
from tests.laws import tried
from tests.reading.scale.test_habits import _scale

TODAY = date(2026, 8, 20)
CROPS = {"kale": "kale", "KA1": "kale", "leeks": "leek", "eggplant": "eggplant", "cukes": "cucumber"}
WEIGHTS = (
    "1 lb 4 oz",
    "12oz",
    "2#3",
    "350 g",
    "0.5 kg",
    "1 lb and a half",
    "about 9 oz",
    "two pounds",
    "7 oz?",
)
MEANT = {
    "2#3": "2 lb 3 oz",
    "1 lb and a half": "1.5 lb",
    "two pounds": "2 lb",
    "7 oz?": "about 7 oz",
}
DAYS = {
    "8/15": "2026-08-15",
    "Aug 14": "2026-08-14",
    "yesterday": "2026-08-19",
    "13 August": "2026-08-13",
    "Monday": "2026-08-17",
    "2026-08-02": "2026-08-02",
}
PLACES = {
    "C2-D2": None,
    "long/A1": "long/A1",
    "elbow/A2": "elbow/A2",
    "D2": None,
    "C1, D1": None,
}
COUNTS = {"3 pcs": 3, "x4": 4, "(5)": 5, "six heads": 6}
WENT = ("pantry", "to the kitchen", "volunteers", "to Mrs. Alder", "compost", "to school fair")
STRANGE = (
    "zorpel",
    "glimmy",
    "fraddled",
    "quoxing",
    "vumps",
    "early",
    "wet",
    "slugs",
    "nice",
    "17",
    "88",
    "4711",
)
MARKS = (" ", " ", " ", ", ", " - ", "; ", " (", ") ", ": ", "  ", " / ", ". ")


@dataclass(frozen=True)
class Made:
    text: str
    facts: dict[str, str]
    strange: tuple[str, ...]


def made(chance: random.Random) -> Made:
    parts = {
        "crop": chance.choice(list(CROPS)),
        "weight": chance.choice(WEIGHTS),
    }
    for key, known in (("date", DAYS), ("squares", PLACES), ("count", COUNTS), ("to", WENT)):
        if chance.random() < 0.5:
            parts[key] = chance.choice(list(known))
    strange = tuple(chance.sample(STRANGE, chance.choice((0, 0, 1, 2))))
    words = [*parts.values(), *strange]
    chance.shuffle(words)
    text = words[0]
    for word in words[1:]:
        text += chance.choice(MARKS) + word
    return Made(text=text, facts=parts, strange=strange)


def lost(one: Made, slip: Slip) -> list[str]:
    """What of a line is neither in its row nor shown."""
    row, facts = slip.weighing, one.facts
    shown = {*re.findall(r"\w+", f"{row.note} {row.to}".casefold()), *map(str.casefold, slip.passed_over)}
    numbers = [word for word in one.strange if word.isdigit()]
    found = [word for word in one.strange if word not in shown and word != str(row.count)]
    # A bare number is a count where no other is told; an unknown place may have any words behind it.
    counts = [COUNTS[facts["count"]]] if "count" in facts else [None, *map(int, numbers)]
    went = "".join(part.name for part in row.to).casefold()
    place = facts.get("to", "").removeprefix("to ").removeprefix("the ").casefold()
    weight = facts["weight"]
    measured = measures.weighing(MEANT.get(weight, weight))
    crops = {crop.slug for crop in row.crops}
    wrong = {
        "crop": CROPS[facts["crop"]] not in crops and facts["crop"] != row.tag,
        "weight": row.weight != measured.weight or row.estimated != measured.estimated,
        "date": row.day.isoformat() != DAYS.get(facts.get("date", ""), TODAY.isoformat()),
        "count": row.count not in counts,
        "to": not went.startswith(place) or bool(went) != bool(place),
    }
    if "squares" in facts:
        told = PLACES[facts["squares"]]
        bare = re.sub(r"\s", "", facts["squares"].rpartition("/")[2]).replace("-", ":")
        bare = re.sub(r"\s", "", facts["squares"].rpartition("/")[2]).replace("-", ":").replace(",", ":")
        where = in_words(row.squares).replace(" ", "").replace(",", ":")
        wrong["squares"] = where != told if told else not where.endswith(f"/{bare}")
    return [*found, *(key for key, is_wrong in wrong.items() if is_wrong)]


@pytest.mark.parametrize("seed", tried(range(3)))
def test_every_fact_of_a_line_is_in_its_row_or_the_line_is_not_taken(seed: int) -> None:
    chance = random.Random(f"lines {seed}")
    scale = _scale({"today": TODAY.isoformat()})
    taken, wrong = 0, []
    refused: list[tuple[Made, str]] = []
    for _time in range(100):
        one = made(chance)
        try:
            slips = scale.hear(one.text).slips
        except MisheardError as error:
            refused.append((one, str(error)))
            continue
        taken += 1
        missing = lost(one, slips[0]) if len(slips) == 1 else ["several rows"]
        if missing:
            wrong.append((one.text, [slip.row for slip in slips], missing))
    assert all(word in words for one, words in refused for word in one.strange), "a refusal shows the line"
    assert not wrong, "\n".join(map(str, wrong))
    assert taken > 30, "most lines that can be understood are"
