"""Oils, soaps, copper and biologicals: what to mind when they are used. No product is recommended.

Figures are from the publications named; none of them stands above the label.
"""

from __future__ import annotations

from tallybed.garden.crops import Source
from tallybed.pages.care.cautions import Caution

_UD_OIL = Source(
    id="ud-oil",
    title="More on horticultural oils",
    publisher="University of Delaware Cooperative Extension, Kent County",
    year="2008",
    where="https://kentcoopextension.blogspot.com/2008/06",
)
_USU_OIL = Source(
    id="usu-oil-2021",
    title="Fruit IPM Advisory: dormant sprays",
    publisher="Utah State University Extension",
    year="2021",
    where="https://pestadvisories.usu.edu/2021/03/30/dormant2021/",
)
_RUTGERS_OIL = Source(
    id="rutgers-oil",
    title="Plant and Pest Advisory: dormant oil burn",
    publisher="Rutgers New Jersey Agricultural Experiment Station",
    where="https://plant-pest-advisory.rutgers.edu/dont-burn-baby-burn",
)
_UIUC_OIL = Source(
    id="uiuc-dormant",
    title="Dormant oil",
    publisher="University of Illinois",
    year="1995",
    where="read in a copy",
)
_NEEM = Source(
    id="epa-neem-2001",
    title="Neem oil and azadirachtin: label precautions",
    publisher="U.S. Environmental Protection Agency",
    year="2001",
)
_MISUSE = Source(
    id="cornell-nrcca-po39",
    title="Competency area 5, PO 39: use inconsistent with labeling",
    publisher="Cornell University, Northeast Region Certified Crop Adviser",
    where="https://nrcca.cals.cornell.edu/pest/CA5/CA0539.php",
)
_LABEL_TERMS = Source(
    id="uwyo-label",
    title="Pesticide label abbreviations",
    publisher="University of Wyoming Extension",
    where="read in a copy",
)

LABEL = Caution(
    title="The label",
    words="A label’s directions bind whoever uses the product; a crop that it does not name may not be "
    "treated with it. The days to wait before picking and the hours to keep off stand on the label of that "
    "very product. Where nobody wrote them down, they are not known, and nothing is picked.",
    sources=(_MISUSE, _LABEL_TERMS),
)
OIL = Caution(
    title="Oils",
    words="Not above 100 °F, not near freezing, not on wet or thirsty plants, nor with rain or close, humid "
    "air to come. Keep oil and sulfur 30 days apart, either way round.",
    sources=(_UD_OIL, _RUTGERS_OIL),
)
DORMANT = Caution(
    title="Dormant oil",
    words="Late in winter, before leaves open, and only where it stays above freezing, better above 40 °F, "
    "for 24 hours after.",
    sources=(_USU_OIL, _UIUC_OIL),
)
SOAP = Caution(
    title="Soaps",
    words="Not on leaves above 90 °F (from memory; no extension page was seen with this figure), and not on "
    "plants that want water.",
)
COPPER = Caution(
    title="Copper",
    words="Copper stays in the soil and adds up; soil near pH 6.5 holds it tightly.",
)
NEEM = Caution(
    title="Neem",
    words="Keep it off open flowers that bees visit, and out of water; otherwise mind what oils need.",
    sources=(_NEEM,),
)
BIOLOGICAL = Caution(
    title="Biologicals",
    words="What lives in them dies of heat, age and strong sun; a label of theirs binds like any other.",
)
ALL = (LABEL, OIL, DORMANT, SOAP, COPPER, NEEM, BIOLOGICAL)
