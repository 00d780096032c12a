"""The rules by which the page speaks, in plain words, and what it can never show."""

from __future__ import annotations

from tallybed.pages.rows.parts import RowsPart

RULES = (
    "Plots of one size in one field, treated alike, differ by 8 to 34 percent (coefficient of variation; "
    "plot data of nine crops, 1909 to 2006). So what lies within 1.34 times, up or down, is called about the "
    "same.",
    "A crop gives more only if the median of its plantings of all seasons is above 1.34 times the highest "
    "printed row yield; less only if it is below the lowest divided by 1.34; else about the same. Under "
    "three plantings there is too little to tell.",
    "Only plantings that have ended, with known squares, count, each on its like-for-like ground. Those that "
    "were lost before they gave anything count too; those of which nothing was weighed do not, for nobody "
    "knows what they gave. One with some pickings that nobody weighed may help to show more, never less.",
    "The season as a whole gives more only if even the low row ground is above 1.34 times the beds’ ground; "
    "less only if even the high row ground, times 1.34, is below it, the season is over and all that was "
    "picked was weighed, and there weight without a printed yield is taken to need as much ground as the "
    "rest; about the same if the middle row ground lies from the ground divided by 1.34 to the ground times "
    "1.34. Else, or where under half the weight has a printed yield, there is too little to tell.",
    "The ground is that of the squares, the run-outs and the share of path together, since the rows’ figures "
    "hold their own paths and vines. Over the squares alone the same weight looks better; that is said, and "
    "nothing is made of it.",
)
LIMITS = (
    "The printed rows are other gardens, with other soil, other years and other hands. This is not a trial, "
    "and nothing here says that closeness was the cause.",
    "A trial would grow the same crops on the same ground in the same year, half in rows and half in close "
    "squares, each on several plots drawn by lot, weighed alike, for several seasons. With one plot a side, "
    "a difference of 30 percent is ordinary chance; with fewer than six pairs no test of signs can be sure.",
    "Small beds give, and take, more by area than large gardens do, whatever their method.",
)


def rules_part() -> RowsPart:
    """Return the section with the rules and the limits."""
    return RowsPart(ident="rules", title="By what rules", rules=RULES, notes=LIMITS)
