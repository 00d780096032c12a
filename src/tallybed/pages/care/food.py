"""Food: washing, keeping, parts that are not food, giving away. Facts with their sources, in our words."""

from __future__ import annotations

from tallybed.garden.crops import Source
from tallybed.pages.care.cautions import (
    CANNING_GUIDE,
    GREENING,
    HANDS_AND_WATER,
    IN_OIL,
    RAW_BEANS,
    Caution,
)

_COLD = Source(
    id="fda-2007", title="Produce safety", publisher="U.S. Food and Drug Administration", year="2007"
)
_PANTRY = Source(
    id="msue-pantry",
    title="Eight tips for donating garden produce",
    publisher="Michigan State University Extension",
    where="read in a copy",
)
_PANTRY_NH = Source(
    id="unh-pantry",
    title="Food pantry donations from home gardeners",
    publisher="University of New Hampshire Extension",
    where="https://extension.unh.edu/resource/food-pantry-donations-home-gardeners",
)

NOT_FOOD = Caution(
    title="Parts that are not food",
    words="Leaves and stems of potato and tomato, and the blades of rhubarb leaves.",
)
KEEPING = Caution(
    title="Keeping",
    words="What is cut or spoils fast is kept at 40 °F or colder.",
    sources=(_COLD,),
)
GIVING = Caution(
    title="Giving away",
    words="Ask the pantry first: some want produce rinsed, some only wiped. Nothing that still waits, "
    "nothing spoiled; clean containers, kinds apart, hands washed. In New Hampshire, beds for giving away "
    "get raw manure, or compost with anything of animals in it, only after the season before has ended.",
    sources=(_PANTRY, _PANTRY_NH),
)
PRESERVING = Caution(
    title="Preserving",
    words="Follow the current guide of the food authority where you live, amounts and times included; this "
    "site gives none.",
    sources=CANNING_GUIDE,
)
FOOD = (HANDS_AND_WATER, KEEPING, NOT_FOOD, GREENING, RAW_BEANS, IN_OIL, PRESERVING, GIVING)
"""What to mind with what is picked."""
