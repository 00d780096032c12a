"""What protects people: the usual cautions for building a bed and for eating what it gives.

Facts are from the publications named beside them, in words of our own. None of it
stands above a label, a local rule or the advice of those who know the place.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType

from tallybed.garden.crops import Beginning, Crop, Habit, Source
from tallybed.garden.plurals import plural_of
from tallybed.garden.units import Showing
from tallybed.pages.care.metric import in_metric


@dataclass(frozen=True, slots=True, kw_only=True)
class Caution:
    """One thing to take care of."""

    title: str
    words: str
    sources: tuple[Source, ...] = ()
    """Empty: common practice, no source; the page says so."""


def cautions_read(showing: Showing, cautions: Iterable[Caution]) -> tuple[Caution, ...]:
    """Return cautions in the units their garden reads."""
    if not showing.metric:
        return tuple(cautions)
    return tuple(replace(one, words=in_metric(one.words)) for one in cautions)


_MANURE = Source(
    id="ams-manure",
    title="Soil building: manures and composts",
    publisher="USDA Agricultural Marketing Service, National Organic Program",
    number="7 CFR 205.203(c)",
    where="https://www.ams.usda.gov/grades-standards/soil-building-manures-composts",
)
_CCA = Source(
    id="epa-cca",
    title="Questions and answers on the CCA transition",
    publisher="U.S. Environmental Protection Agency",
    where="read in copies",
)
_BOXES = Source(
    id="isu-boxes",
    title="Toxicity concerns about raised bed construction materials",
    publisher="Iowa State University Extension, Small Farms",
    where="https://www.extension.iastate.edu/smallfarms",
)
_COPPER = Source(
    id="uky-lumber",
    title="Treated lumber for raised beds",
    publisher="University of Kentucky Cooperative Extension",
    year="2021",
    where="read in a newspaper column",
)
_LINING = Source(
    id="al-lumber",
    title="Treated lumber in gardens",
    publisher="Alabama Cooperative Extension System",
    where="read in a newspaper column",
)
_LEAD = Source(
    id="epa-lead",
    title="Residential soil lead directive for CERCLA sites and RCRA facilities",
    publisher="U.S. Environmental Protection Agency",
    year="2025",
    where="read in summaries",
)
_LEAD_GARDEN = Source(
    id="umd-lead",
    title="Lead in garden soils",
    publisher="University of Maryland Extension",
    year="2023",
    where="https://extension.umd.edu/resource/lead-garden-soils",
)
_LEAD_BANDS = Source(
    id="osu-lead",
    title="Interpreting heavy metal test results",
    publisher="The Ohio State University",
    where="https://dirt.osu.edu/testing/interpreting-heavy-metal-test-results",
)
_WASH = Source(
    id="fda-wash",
    title="Seven tips for cleaning fruits and vegetables",
    publisher="U.S. Food and Drug Administration",
    year="2011",
    where="read in copies",
)
_NO_BLEACH = Source(
    id="ndsu-wash",
    title="Fight BAC: produce washing",
    publisher="North Dakota State University Extension",
)
_GREEN = Source(
    id="msue-green",
    title="Green-surfaced potatoes",
    publisher="Michigan State University Extension",
    number="01600814",
    year="1997",
    where="read in a copy",
)
_CANNING = Source(
    id="usda-canning",
    title="Complete Guide to Home Canning",
    publisher="U.S. Department of Agriculture",
    number="AIB-539",
    year="1994",
    where="https://docslib.org/doc/1788830",
)
_JARS = Source(
    id="rutgers-jars",
    title="Canning in jars",
    publisher="Rutgers New Jersey Agricultural Experiment Station",
    where="https://njaes.rutgers.edu/food-safety/home-food-preservation/canning-in-jars.php",
)
_MELONS = Source(id="floyd-melons", title="Cut melon handling", publisher="Floyd County Health Department")

CANNING_GUIDE = (_CANNING,)

TIMBER = Caution(
    title="Treated timber",
    words="Old treated boards may hold arsenic (CCA), and are not for beds that grow food. In the United "
    "States wood for homes has been treated with copper instead since the end of 2003; elsewhere later wood "
    "may hold arsenic too (from memory), so ask who sold it. Ask your extension "
    "service what it advises near food; a lining keeps soil off the boards. Leave railway ties alone, and "
    "never burn treated wood.",
    sources=(_CCA, _BOXES, _COPPER, _LINING),
)
LEAD = Caution(
    title="Lead in the soil",
    words="Have the soil tested before you grow food in it, and ask your health department or extension "
    "service what the figure means where you live; services draw the line at different levels. The 200 "
    "parts in a million of the Environmental Protection Agency (October 2025) are for judging polluted "
    "sites, not a limit for gardens. Swallowed soil and dust do most of the harm, above all to children.",
    sources=(_LEAD_GARDEN, _LEAD_BANDS, _LEAD),
)
MANURE = Caution(
    title="Raw manure",
    words="Raw manure carries germs. Organic rules in the United States ask for 120 days between digging it "
    "in and picking where the part that is eaten touches soil or splashes of it, and 90 days where it does "
    "not. Local rules may ask for more.",
    sources=(_MANURE,),
)
STAKING = Caution(
    title="Pipes and cables",
    words="Ask where pipes and cables lie before you drive a stake or dig.",
)
BUILDING = (TIMBER, LEAD, MANURE, STAKING)
"""What to take care of when a bed is marked out, boarded and filled."""

HANDS_AND_WATER = Caution(
    title="Washing",
    words="Wash your hands for 20 seconds first. Rinse what you eat under running water, before you peel or "
    "cut it, without soap or bleach; brush what is firm, and cut away what is bruised.",
    sources=(_WASH, _NO_BLEACH),
)
_LEAVES = Caution(
    title="Washing",
    words="Wash your hands for 20 seconds first. Take off the outer leaves of heads, and rinse every leaf "
    "under running water, without soap or bleach.",
    sources=(_WASH, _NO_BLEACH),
)
_LOW = Caution(
    title="Raw manure",
    words="The part that is eaten grows in soil or close above it. Organic rules in the United States ask "
    "for 120 days between digging in raw manure and picking. Local rules may ask for more.",
    sources=(_MANURE,),
)
_TAKES_UP = Caution(
    title="Lead in the soil",
    words="Where a test shows much lead in the soil, roots and leaves are the first crops not to be grown "
    "in it. Ask your health department or extension service; peel roots, and drop outer leaves.",
    sources=(_LEAD_BANDS, _LEAD_GARDEN),
)
GREENING = Caution(
    title="Green potatoes",
    words="Light turns potatoes green and raises their solanine, a poison. Keep them in the dark, cut green "
    "skin away thickly, and eat no sprouts or eyes. Leaves and stems are not food.",
    sources=(_GREEN,),
)
_GARLIC = Source(
    id="nchfp-garlic-2015",
    title="Freezing garlic-in-oil",
    publisher="National Center for Home Food Preservation, University of Georgia",
    year="reviewed 16 February 2015",
    where="http://nchfp.uga.edu/how/freeze/garlic_oil.html",
)
_GARDEN_POISONS = Source(
    id="alberta-poisons",
    title="Poisonous outdoor plants: vegetables",
    publisher="Alberta Agriculture",
    number="Agdex 13349",
    where="https://www1.agric.gov.ab.ca/$department/deptdocs.nsf/all/agdex13349",
)
_BEANS = Source(
    id="ksu-kidney",
    title="Dry kidney beans: the advice of the Food and Drug Administration",
    publisher="Kansas State University",
)
IN_OIL = Caution(
    title="Garlic or herbs in oil",
    words="Made at home they can grow botulism without a sign of it. Fresh, at 40 °F or colder, and for four "
    "days at most: older pages say seven and ten. Never in a warm room.",
    sources=(_GARLIC,),
)
RAW_BEANS = Caution(
    title="Raw beans",
    words="Ripe beans, red kidney beans above all, make ill when raw or warmed gently: soak dry ones for "
    "five hours, pour that water off, and boil in fresh water for 30 minutes. A slow cooker may not get hot "
    "enough.",
    sources=(_BEANS,),
)
_RHUBARB = Caution(
    title="Rhubarb leaves",
    words="The stalks alone are food: the blades of the leaves are poisonous, raw or cooked.",
)
_TOMATO_JARS = Caution(
    title="Canning",
    words="Tomatoes need acid added before they are canned, and those of dead or frost-killed vines are not "
    "for canning. Follow a tested recipe of the Department of Agriculture’s guide, amounts and times "
    "included; this page gives none. Leaves and stems are not food.",
    sources=(_CANNING,),
)
_OTHER_JARS = Caution(
    title="Canning",
    words="Plain vegetables have little acid and are canned under pressure only, by a tested recipe; this "
    "page gives none.",
    sources=(_JARS, _CANNING),
)
_GROUND_CHERRIES = Caution(
    title="Unripe ground cherries",
    words="Only fruit that is ripe and has lost its green is food, out of its husk; one public list counts "
    "all raw fruit among what is poisonous. Husks, leaves and stems are not food.",
    sources=(_GARDEN_POISONS,),
)
_PEANUTS = Caution(
    title="Peanuts and people",
    words="Some people must not touch a peanut: say so where one grows or is handed out. Dry the pods well, "
    "and throw away what is mouldy.",
)
_TO_LOOK_AT = Caution(
    title="A flower to look at",
    words="It stands in the bed for its flowers. Nothing here says that any part of it is food.",
)
_CUT_MELON = Caution(
    title="Cut melon",
    words="Rinse the rind before you cut it. Keep cut melon cold, for a week at the most, and throw away "
    "what has stood in a warm room for more than four hours.",
    sources=(_MELONS, _WASH),
)

LEAFY = frozenset(
    {
        *("amaranth", "arugula", "basil", "bok-choy", "brussels-sprouts", "cabbage"),
        *("celery", "chard", "chinese-cabbage", "collards", "corn-salad", "dill", "endive", "fennel", "kale"),
        *("lettuce-head", "lettuce-leaf", "marjoram", "mizuna", "mustard-greens", "nasturtium"),
        *("new-zealand-spinach", "parsley", "radicchio", "rapini", "savory", "spinach", "tarragon"),
    }
)
"""Crops of which leaves or stalks are eaten."""
NOT_CANNED = frozenset(
    {
        *("arugula", "basil", "bok-choy", "calendula", "cantaloupe", "corn-salad", "cucumber", "daikon"),
        *("dill", "endive", "fennel", "leek", "lettuce-head", "lettuce-leaf", "marjoram", "mizuna"),
        *("onion-bunching", "parsley", "radicchio", "radish", "savory", "strawberry", "sunflower"),
        *("tarragon", "watermelon", "ground-cherry", "marigold", "nasturtium", "peanut", "zinnia"),
    }
)
"""Library crops that are seldom put into jars plain, or are fruits: nothing is said of canning."""
OF_CROP: Mapping[str, tuple[Caution, ...]] = MappingProxyType(
    {
        "potato": (GREENING,),
        "tomato-determinate": (_TOMATO_JARS,),
        "tomato-indeterminate": (_TOMATO_JARS,),
        "cantaloupe": (_CUT_MELON,),
        "watermelon": (_CUT_MELON,),
        "bean-broad": (RAW_BEANS,),
        "bean-bush": (RAW_BEANS,),
        "bean-lima": (RAW_BEANS,),
        "bean-pole": (RAW_BEANS,),
        "bean-runner": (RAW_BEANS,),
        "cowpea": (RAW_BEANS,),
        "edamame": (RAW_BEANS,),
        "garlic": (IN_OIL,),
        "ground-cherry": (_GROUND_CHERRIES,),
        "peanut": (_PEANUTS,),
        "marigold": (_TO_LOOK_AT,),
        "zinnia": (_TO_LOOK_AT,),
    }
)
"""Cautions that belong to one crop alone. Add one here: a row."""
OF_NAME: Mapping[str, tuple[Caution, ...]] = MappingProxyType(
    {
        "rhubarb": (_RHUBARB,),
        "bean": (RAW_BEANS,),
        "garlic": (IN_OIL,),
        "potato": (GREENING,),
        "tomato": (_TOMATO_JARS,),
    }
)
"""The same for a garden's own crops, by a word of their name or its plural."""
_LOW_HABITS = frozenset({Habit.ROOT, Habit.ROSETTE, Habit.RUNNING})
_IN_SOIL = frozenset({Beginning.SETS, Beginning.TUBERS, Beginning.SLIPS, Beginning.CLOVES})


def crop_cautions(crop: Crop) -> tuple[Caution, ...]:
    """Return the cautions for a crop, what belongs to it alone before what belongs to many."""
    own = OF_CROP.get(crop.slug) or (_of_name(crop) if crop.own else ())
    leafy = crop.slug in LEAFY
    in_soil = crop.habit is Habit.ROOT or crop.start in _IN_SOIL
    found = [*own, _LEAVES if leafy else HANDS_AND_WATER]
    found.append(_LOW if leafy or in_soil or crop.habit in _LOW_HABITS else MANURE)
    if leafy or in_soil:
        found.append(_TAKES_UP)
    titles = {one.title for one in own}
    if "Canning" not in titles and not crop.own and crop.slug not in NOT_CANNED:
        found.append(_OTHER_JARS)
    return tuple(found)


def _of_name(crop: Crop) -> tuple[Caution, ...]:
    """Return what the name of a garden's own crop calls for; a sweet potato is not a potato."""
    words = set(re.findall(r"\w+", crop.name.casefold()))
    if "sweet" in words:
        words -= {"potato", plural_of("potato")}
    return tuple(one for word, ones in OF_NAME.items() if {word, plural_of(word)} & words for one in ones)
