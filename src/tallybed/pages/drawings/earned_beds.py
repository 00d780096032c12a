"""The beds drawn by what each of their squares gave in a season."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from tallybed.drawing.charts.figures import weight_figure
from tallybed.drawing.small.earned import UNKNOWN, Earned, earned_bed
from tallybed.garden.squares import Bed, Square
from tallybed.pages.drawings.charts import Chart, amount, both
from tallybed.pages.wording import sums
from tallybed.pages.wording.sentences import sentence
from tallybed.reckoning.year import Year


def earned_beds(year: Year) -> tuple[Chart, ...]:
    """Return each bed with what its squares gave; none where no picking is known to be from any square.

    Two pages show them, so they are drawn once.
    """
    if not _earned(year):
        return ()
    return year.kept(
        "beds by what they gave", lambda: tuple(_bed_chart(year, bed) for bed in year.garden.beds)
    )


def no_square_told(year: Year) -> str:
    """Return as a sentence what stands in no square; empty where nothing does."""
    total = year.sums("square").get(None)
    if total is None or not total.weight:
        return ""
    return sentence(
        f"{sums.in_words(year.garden.showing, total)} came with no square told, and stands in none"
    )


def _bed_chart(year: Year, bed: Bed) -> Chart:
    """Return a bed with what each square gave; the best square of the season is full in every bed."""
    earned = _earned(year)
    most = max((one.amount for one in earned.values()), default=Fraction(0))

    def drawn(narrow: bool, name: str) -> str:
        return earned_bed(
            bed,
            earned,
            most,
            ident=name,
            title=f"{bed.title}, {year.name}: {year.garden.showing.unit} from each square",
            short=f"{bed.title}, {year.garden.showing.unit}",
            across=max(one.columns for one in year.garden.beds),
            narrow=narrow,
        )

    return both(drawn, f"c-earned-{bed.name}")


def _earned(year: Year) -> Mapping[Square, Earned]:
    """Return what each square gave; one from which nothing was weighed has no figure."""
    showing = year.garden.showing
    return {
        square: Earned(
            amount=amount(showing, total.weight),
            words=UNKNOWN if total.unknown else weight_figure(amount(showing, total.weight)),
            at_least=total.at_least,
        )
        for square, total in year.sums("square").items()
        if isinstance(square, Square)
    }
