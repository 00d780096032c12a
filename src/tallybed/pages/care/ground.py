"""What a bed is made of and what was found in its soil: the cautions for it, each with its source."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from tallybed.garden.crops import Crop, Figure, Source
from tallybed.garden.days import in_full
from tallybed.garden.records.soil import Boards, SoilTest
from tallybed.garden.squares import Bed
from tallybed.pages.care.cautions import TIMBER, Caution
from tallybed.pages.wording import names
from tallybed.pages.wording.sentences import listed
from tallybed.reckoning.year import Year

LAST_ARSENIC = 2003
"""In the United States wood for homes was no longer treated with arsenic (CCA) after this year: EPA."""
_TREATED = TIMBER.sources
_ROOTS = Source(
    id="ask-ext-126540",
    title="Answer on CCA lumber and vegetables",
    publisher="eXtension, Ask Extension",
    number="126540",
    where="https://ask.extension.org/questions/126540",
)
_TIES = Source(
    id="mu-raised-copy",
    title="Raised-bed gardening",
    publisher="University of Missouri Extension",
    where="read in a second-hand copy",
)

ARSENIC = Caution(
    title="Wood treated before 2004",
    words="It may hold arsenic (CCA), and is not for beds that grow food. Line it, keep root crops 12 inches "
    "from it, never burn it, and ask your extension service whether it should stay.",
    sources=(*_TREATED, _ROOTS),
)
COPPER_WOOD = Caution(
    title="Wood treated since 2004",
    words="In the United States wood for homes has been treated with copper since the end of 2003, though "
    "old stock could still be sold. Elsewhere later wood may hold arsenic (CCA) too (from memory): ask who "
    "sold it, and take it for that until you know. Metals move a few centimetres from the board; a lining "
    "keeps soil off it. Never burn it.",
    sources=_TREATED,
)
UNTOLD_WOOD = Caution(
    title="Wood of which it is not told whether it was treated",
    words="Take it for treated until somebody knows: before 2004 that could mean arsenic, and outside the "
    "United States later too (from memory).",
    sources=_TREATED,
)
SLEEPERS = Caution(
    title="Railway sleepers",
    words="Creosote hurts plants that touch it, and people. They are not for beds that grow food.",
    sources=(_TIES,),
)
MAYBE_OLD = Caution(
    title="Sleepers",
    words="Old ones from a railway hold creosote, which hurts plants that touch it, and people: they are not "
    "for beds that grow food. In several countries new ones are sold for gardens, and are wood like other "
    "boards (from memory).",
    sources=(_TIES,),
)
TYRES = Caution(
    title="Tyres",
    words="They give off metals as they wear; no measured figure was found that would say how much. Leave "
    "them out of beds that grow food.",
)
BLOCKS = Caution(
    title="Blocks",
    words="Old cinder blocks can be of ash with metals in it; no measured figure was found. Ask what they "
    "are of.",
)
UNTREATED = Caution(
    title="Untreated wood",
    words="Nothing was added to it, so it rots: look at the boards each spring.",
)
_WORDS = (
    (re.compile(r"sleepers?\b|\brail(?:way|road)|creosot|(?<!cable )(?<!zip )\b(?:cross)?ties?\b"), SLEEPERS),
    (re.compile(r"\b(?:tyre|tire)s?\b"), TYRES),
    (re.compile(r"blocks?\b|\bcinder|\bbreeze"), BLOCKS),
)
_OF_A_RAILWAY = re.compile(r"\brail(?:way|road|\s+(?:tie|sleeper))|creosot")
"""What tells old sleepers from those that may be new (common practice, no source)."""
_NAMED_BY_SHAPE = re.compile(
    r"\b(plastic|concrete|steel|metal|alumini?um|rubber)\s+"
    r"(?:boards?|planks?|beams?|logs?|sleepers?|timbers?|lumber)\b"
)
"""What has the shape of boards, and its name from that, and is no wood."""
_NO_WOOD = re.compile(
    r"\b(?:steel|metal|iron|tin|zinc|alumini?um|concrete|plastic|rubber|fib(?:re|er)glass|fabric|felt|clay"
    r"|rocks?|slates?|slabs?|paving|pavers?|tiles?|turf|straw)\b|stones?\b|\bbrick"
)
_WOOD = re.compile(
    r"wood|timber|board|plank|pallet|sleeper|\b(?:log|beam)s?\b|\b(?:pine|oak|fir|larch|cedar|spruce)"
    r"|chestnut|cypress|hemlock|robinia|acacia|\b(?:willow|hazel|locust)\b"
)
NO_TEST = (
    "No test of this bed’s soil is on record, so what lead is in it is not known. Have it tested before "
    "food is grown in it."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class LeadLevel:
    """A published level of lead in soil, and what it is for. Levels differ by more than ten times."""

    level: int
    """Parts in a million, which is mg/kg."""
    whose: str
    what_for: str


LEAD_LEVELS = (
    LeadLevel(level=80, whose="California, project table", what_for="lowest band of its table"),
    LeadLevel(
        level=100,
        whose="University of Minnesota Extension",
        what_for="no food to be grown above it where children are exposed",
    ),
    LeadLevel(level=150, whose="The Ohio State University", what_for="end of its low band for garden soil"),
    LeadLevel(
        level=200,
        whose="U.S. EPA, 17 January 2024 and October 2025",
        what_for="screening of polluted sites where people live; not a limit for gardens",
    ),
    LeadLevel(
        level=300,
        whose="University of Minnesota Extension; The Ohio State University",
        what_for="no food to be grown above it; end of the moderate band",
    ),
    LeadLevel(
        level=400,
        whose="U.S. EPA, until January 2024",
        what_for="the older screening level, and bare soil where children play (2001)",
    ),
)


def boards_words(boards: Boards | None) -> str:
    """Return what a bed's boards are, in a sentence."""
    if boards is None:
        return "What its boards are of is not told."
    parts = [boards.material]
    if boards.treated is not None:
        parts.append("treated" if boards.treated else "not treated")
    if boards.year:
        parts.append(f"of {boards.year}")
    if boards.lining:
        parts.append("no lining" if boards.lining.casefold() == "none" else f"lined with {boards.lining}")
    return f"Boards: {', '.join(parts)}."


def board_cautions(boards: Boards | None) -> tuple[Caution, ...]:
    """Return the cautions for what a bed's boards are, by material and year."""
    if boards is None:
        return (TIMBER,)
    words = _NAMED_BY_SHAPE.sub(r"\1", boards.material.casefold())
    found = tuple(caution for pattern, caution in _WORDS if pattern.search(words))
    wooden = bool(_WOOD.search(words)) or not (found or _NO_WOOD.search(words))
    if SLEEPERS in found:
        wooden = not _OF_A_RAILWAY.search(words)
        found = tuple(MAYBE_OLD if wooden and one is SLEEPERS else one for one in found)
    return (*found, *_wood_cautions(boards)) if wooden or boards.treated else found


def _wood_cautions(boards: Boards) -> tuple[Caution, ...]:
    """Return the cautions for boards of wood, by whether and when they were treated."""
    if boards.treated is False:
        return (UNTREATED,)
    if boards.treated is None:
        return (UNTOLD_WOOD,)
    if boards.year is None:
        return (ARSENIC, COPPER_WOOD)
    return (ARSENIC,) if boards.year <= LAST_ARSENIC else (COPPER_WOOD,)


def latest_test(year: Year, bed: Bed) -> SoilTest | None:
    """Return a bed's newest soil test up to the day its site speaks as of."""
    own = [one for one in year.garden.soil_tests if one.bed == bed.name and one.day <= year.today]
    return max(own, key=lambda one: one.day, default=None)


def test_words(test: SoilTest) -> str:
    """Return what a test found, in a sentence."""
    parts = []
    if test.ph is not None:
        parts.append(f"pH {float(test.ph):g}")
    if test.lead is not None:
        parts.append(f"lead {lead_figure(test)}")
    found = listed(parts, "and") if parts else "no figure noted"
    by = f", by {test.laboratory}" if test.laboratory else ""
    return f"Tested on {in_full(test.day)}{by}: {found}."


def lead_figure(test: SoilTest) -> str:
    """Return a test's lead with its unit, ``35 mg/kg`` or ``less than 5 mg/kg``; 0 where none is told."""
    return f"{'less than ' if test.lead_below else ''}{float(test.lead or 0):g} mg/kg"


def lead_words(test: SoilTest, level: LeadLevel) -> str:
    """Return how a test's lead stands to a published level."""
    lead = test.lead or Fraction(0)
    if test.lead_below:
        return "below" if lead <= level.level else "not known"
    return "above" if lead > level.level else "at" if lead == level.level else "below"


def ph_beside_crops(year: Year, bed: Bed, ph: Fraction) -> Iterator[tuple[Crop, Figure, str]]:
    """Yield the crops meant for a bed whose printed range of pH is known, and how the test stands to it.

    In the order of the names that lists have.
    """
    slugs = {
        slug
        for one in year.plantings
        if any(square.bed == bed.name for square in one.squares)
        for slug in one.crop.slugs
    }
    for crop in sorted(year.garden.crops, key=lambda crop: names.filed(year.garden, crop.slug)):
        figure = crop.used("soil ph") if crop.slug in slugs else None
        if figure is None or figure.low is None or figure.high is None:
            continue
        word = "below" if ph < figure.low else "above" if ph > figure.high else "within"
        yield crop, figure, word
