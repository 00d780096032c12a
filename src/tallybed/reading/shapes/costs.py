"""``costs.yaml`` and ``prices.yaml``: what was spent, and what the produce would have cost."""

from __future__ import annotations

from tallybed.garden.money import Cost, Price, Purpose
from tallybed.reading.base.context import CROP, Context
from tallybed.reading.base.mappings import Key, Shape, take
from tallybed.reading.base.problems import listed, quoted
from tallybed.reading.base.scanners import chosen, said, spoken
from tallybed.reading.shapes.common import CROP_NAME, LINE, NOTE_KEY
from tallybed.reading.text import dates, measures, money, texts
from tallybed.reading.yaml.nodes import Node

MOST_YEARS = 50
"""Seasons that one cost may be spread over. Our choice: longer than any bed lasts."""
_YEARS = "a number of years such as 5 years"

DATE = Key("date", said(dates.with_year, dates.WITH_YEAR), dates.WITH_YEAR, required=True)
WHAT = Key("what", LINE, texts.LINE, required=True)
_AMOUNT = spoken(lambda text, context: money.amount(text, context.currency), money.AMOUNT)
COST = Key("cost", _AMOUNT, money.AMOUNT, required=True)
_OTHERS = {
    **dict.fromkeys(("bulbs", "sets", "tubers", "packets"), "seed"),
    **dict.fromkeys(("seedlings", "transplants", "starts", "plugs"), "plants"),
    **dict.fromkeys(("compost", "mulch", "topsoil", "peat"), "soil"),
    **dict.fromkeys(("fertilizer", "fertiliser", "manure", "lime"), "feed"),
    **dict.fromkeys(("hose", "irrigation"), "water"),
    **dict.fromkeys(("netting", "fence", "spray", "row cover", "fleece"), "protection"),
    **dict.fromkeys(("tool", "gloves", "scale"), "tools"),
    **dict.fromkeys(("boards", "lumber", "timber", "wood", "frame"), "bed"),
    **dict.fromkeys(("misc", "miscellaneous", "fee", "fees", "rent"), "other"),
}
FOR = Key("for", chosen({one.value: one for one in Purpose}, "a purpose", _OTHERS), listed(Purpose))
SPREAD = Key("spread", said(measures.counted("years", 1, MOST_YEARS), _YEARS), _YEARS)
COSTS = Shape("a cost", (DATE, WHAT, COST, FOR, SPREAD, NOTE_KEY))

CROP_KEY = Key("crop", CROP_NAME, CROP, required=True)
PRICE = Key("price", _AMOUNT, money.AMOUNT, required=True)
PER = Key("per", said(money.per, money.PER), money.PER, required=True)
SEEN_AT = Key("seen at", LINE, texts.LINE)
PRICES = Shape("a price", (CROP_KEY, PRICE, PER, DATE, SEEN_AT, NOTE_KEY))


def cost(node: Node, context: Context) -> Cost:
    """Read one row of ``costs.yaml``; things are bought before a season too, so any day may stand there.

    Raises LeftOut.
    """
    row = take(node, COSTS, context)
    row.finish()
    return Cost(
        day=row[DATE],
        what=row[WHAT],
        amount=row[COST],
        purpose=row.get(FOR) or Purpose.OTHER,
        years=row.get(SPREAD) or 1,
        note=row.get(NOTE_KEY) or "",
    )


def price(node: Node, context: Context) -> Price:
    """Read one row of ``prices.yaml``. Raises LeftOut."""
    row = take(node, PRICES, context)
    crop = row.get(CROP_KEY)
    if crop is not None and not crop.slug:
        row.wrong(
            CROP_KEY,
            "general-crop",
            f"{quoted(crop.typed)} may be several crops, and a price is for one",
            expected=f"one of {context.one_of(crop.slugs)}",
        )
    row.finish()
    slug = row[CROP_KEY].slug
    assert slug is not None  # with several the row is broken
    return Price(
        day=row[DATE],
        crop=slug,
        amount=row[PRICE],
        per=row[PER],
        seen_at=row.get(SEEN_AT) or "",
        note=row.get(NOTE_KEY) or "",
        place=row.place,
    )
