"""``soil.yaml``, and the boards of a bed in ``garden.yaml``."""

from __future__ import annotations

import re
from fractions import Fraction

from tallybed.garden.naming import nearest
from tallybed.garden.records.soil import Boards, SoilTest
from tallybed.reading.base.context import Context
from tallybed.reading.base.mappings import Key, Shape, take
from tallybed.reading.base.problems import LeftOut, Misread, listed, quoted
from tallybed.reading.base.scanners import said
from tallybed.reading.shapes.common import LINE, NOTE_KEY
from tallybed.reading.text import dates, measures, texts
from tallybed.reading.yaml.nodes import Node

PH = "a pH from 2 to 12, such as 6.4"
LEAD = "milligrams in a kilogram such as 35 mg/kg, 35 ppm or <5 mg/kg"
YEAR = "a year such as 2024"
_LEAD = re.compile(r"(<|less than|below)?\s*([0-9]{1,6}(?:\.[0-9]{1,2})?)\s*(?:mg/kg|ppm)", re.IGNORECASE)
"""Three decimals may be thousands: 1.200 mg/kg is 1200 to those who write a comma before decimals."""


def _ph(text: str) -> Fraction:
    """Read a pH. Raises Misread."""
    words = text.strip()
    if not re.fullmatch(r"[0-9]{1,2}(\.[0-9]{1,2})?", words) or not 2 <= Fraction(words) <= 12:
        raise Misread("ph", f"the pH {quoted(text)} cannot be read or is out of bounds", PH)
    return Fraction(words)


def _lead(text: str) -> tuple[Fraction, bool]:
    """Read lead in soil, and whether it is less than that. Raises Misread."""
    match = _LEAD.fullmatch(text.strip())
    if match is None:
        raise Misread("lead", f"the lead {quoted(text)} cannot be read", LEAD)
    return Fraction(match.group(2)), match.group(1) is not None


MATERIAL = Key("material", LINE, "what they are of, such as larch", required=True)
TREATED = Key("treated", said(measures.yes_no, measures.YES_NO), measures.YES_NO)
MADE = Key("year", said(measures.whole(1800, 2999), YEAR), YEAR)
LINING = Key("lining", LINE, "what lies between boards and soil, or none")
BOARDS = Shape("a bed’s boards", (MATERIAL, TREATED, MADE, LINING))

DATE = Key("date", said(dates.with_year, dates.WITH_YEAR), dates.WITH_YEAR, required=True)
BED = Key("bed", LINE, "the short name of a bed", required=True)
PH_KEY = Key("ph", said(_ph, PH), PH)
LEAD_KEY = Key("lead", said(_lead, LEAD), LEAD)
LABORATORY = Key("laboratory", LINE, texts.LINE)
DOCUMENT = Key("document", LINE, "where the report can be read")
SOIL_TEST = Shape("a soil test", (DATE, BED, PH_KEY, LEAD_KEY, LABORATORY, DOCUMENT, NOTE_KEY))


def boards(node: Node, context: Context) -> Boards:
    """Read what a bed's boards are. Raises LeftOut."""
    row = take(node, BOARDS, context)
    row.finish()
    return Boards(
        material=row[MATERIAL],
        treated=row.get(TREATED),
        year=row.get(MADE),
        lining=row.get(LINING) or "",
    )


def soil_test(node: Node, context: Context) -> SoilTest:
    """Read one row of ``soil.yaml``. Raises LeftOut."""
    row = take(node, SOIL_TEST, context)
    told = row.get(BED) or ""
    bed = context.beds.by_name.get(told.casefold())
    if told and bed is None:
        if not context.beds.whole:
            raise LeftOut
        known = context.beds.names
        expected = listed(known) if known else "a garden with a bed"
        found = f"there is no bed {quoted(told)}"
        row.wrong(BED, "unknown-bed", found, expected=expected, nearest=nearest(told, known))
    row.finish()
    lead, below = row.get(LEAD_KEY) or (None, False)
    return SoilTest(
        day=row[DATE],
        bed=bed.name if bed else "",
        ph=row.get(PH_KEY),
        lead=lead,
        lead_below=below,
        laboratory=row.get(LABORATORY) or "",
        document=row.get(DOCUMENT) or "",
        note=row.get(NOTE_KEY) or "",
    )
