"""All beds in one month as one small picture, as a season's home and its poster show them."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from tallybed.drawing.small.month_map import months_together
from tallybed.garden.days import Month, in_full, without_year
from tallybed.pages.drawings.kept import kept_drawing
from tallybed.reckoning.beds import month_of
from tallybed.reckoning.calendar.month_state import MonthState, month_state
from tallybed.reckoning.year import Year


@dataclass(frozen=True, slots=True, kw_only=True)
class MonthPicture:
    """The beds in one month."""

    day: str
    """The day they show: ``31 March``."""
    state: MonthState
    picture: Markup
    """Empty where no record of the season tells of any square."""

    @property
    def planned(self) -> bool:
        """Whether nothing of it has happened yet."""
        return self.state is MonthState.PLANNED


def month_picture(year: Year, month: Month) -> MonthPicture:
    """Return the beds on a month's last day, or today; two pages show it, so it is drawn once.

    Raises IndexError for a garden without a bed.
    """
    return year.kept(("picture", month), lambda: _month_picture(year, month))


def _month_picture(year: Year, month: Month) -> MonthPicture:
    """Draw the beds in one month."""
    months = [month_of(year, bed, month) for bed in year.garden.beds]
    ident = f"map-{month.year}-{month.month:02d}"
    state = month_state(year.season.span, month, year.today)
    title = f"The beds on {in_full(months[0].as_of)}{', as planned' if state is MonthState.PLANNED else ''}"
    bare = year.is_only_weighed
    picture = "" if bare else kept_drawing(year.years, months_together, months, ident, title=title)
    return MonthPicture(
        day=without_year(months[0].as_of),
        state=state,
        picture=Markup(picture),  # noqa: S704 - drawings escape their own texts
    )
