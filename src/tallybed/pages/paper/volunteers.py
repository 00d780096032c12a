"""A sheet for volunteers: what not to pick or touch today and until when; tools, lifting, heat, hands."""

from __future__ import annotations

from collections.abc import Iterator

from tallybed.garden.days import in_full
from tallybed.pages.care.cautions import HANDS_AND_WATER, Caution, cautions_read
from tallybed.pages.care.food import GIVING
from tallybed.pages.frame import addresses
from tallybed.pages.frame.page import Page
from tallybed.pages.frame.trails import below_sheets
from tallybed.pages.frame.waits_shown import open_notices
from tallybed.pages.frame.which_pages import sheets_season
from tallybed.pages.wording.sentences import full_day
from tallybed.reckoning.year import Year, Years

SPRAYS = Caution(
    title="Sprays",
    words="Use none without whoever is in charge, and none without its label at hand. Note what, where and "
    "when, the label’s days to wait and its hours to keep off. If somebody feels ill after it, call the "
    "poison control line where you live; in the United States 800-222-1222.",
)
TOOLS = Caution(
    title="Tools",
    words="Lay rakes and forks with their teeth down, carry blades closed, wear shoes that cover the toes "
    "and gloves where there are thorns, wire or broken things.",
)
LIFTING = Caution(
    title="Lifting",
    words="Half bags and half cans, near the body, from the knees. Two people to anything that you would not "
    "lift twice.",
)
HEAT = Caution(
    title="Heat",
    words="Work early, in the shade where there is any, with water at hand and a hat on. Stop when somebody "
    "is dizzy, sick or confused, and get help.",
)
ILL = Caution(
    title="When you are ill",
    words="Stay away from the beds and from what was picked.",
)
WORK = (SPRAYS, TOOLS, LIFTING, HEAT, HANDS_AND_WATER, ILL, GIVING)
"""What to mind at work in the beds; those without a source are common practice."""


def pages(years: Years) -> Iterator[Page]:
    """Yield the volunteers' sheet; none without a bed or a season."""
    year = sheets_season(years)
    if year:
        yield _page(year)


def _page(year: Year) -> Page:
    """Return the volunteers' sheet as a page."""
    found = open_notices(year.years)
    return Page(
        path=addresses.VOLUNTEERS,
        template="volunteers.html",
        title=f"For volunteers, {in_full(year.today)}",
        description="What not to pick and not to touch today, and until when; tools, lifting, heat, hands.",
        kind="volunteers",
        data={
            "trail": below_sheets("For volunteers"),
            "lead": "Print a new one on every day that somebody works in the beds.",
            "notices": found,
            "nothing": "" if found else "By the log, nothing waits. Ask whoever is in charge all the same.",
            "cautions": cautions_read(year.garden.showing, WORK),
            "as_of": full_day(year.today),
        },
    )
