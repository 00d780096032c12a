"""The names of months along an axis, for seasons of any bounds."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tallybed.drawing.base import look
from tallybed.drawing.base.axes import named_months
from tallybed.drawing.base.lettering import width_of
from tallybed.garden.days import Span

SIZE = 11.0


@given(
    first=st.dates(date(2024, 1, 1), date(2028, 12, 31)),
    days=st.integers(0, 400),
    width=st.floats(120, 900),
)
def test_names_of_months_stay_in_the_drawing_and_apart(first: date, days: int, width: float) -> None:
    """Fails where a season's last few days have a month's name cut off at the edge, or two names meet."""
    left = 40.0
    span = Span(first=first, last=first + timedelta(days=days))
    found = list(named_months(span, left, width, SIZE))
    ends = [(middle - width_of(name, SIZE) / 2, middle + width_of(name, SIZE) / 2) for middle, name in found]
    assert all(end <= left + width + look.PAD for _begin, end in ends)
    assert all(end <= begin for (_first, end), (begin, _last) in pairwise(ends))


@pytest.mark.parametrize(
    ("first", "last", "width", "named"),
    [
        (date(2026, 3, 1), date(2026, 11, 30), 600, "Mar Apr May Jun Jul Aug Sep Oct Nov"),
        (date(2026, 2, 15), date(2026, 12, 1), 283, "Feb Apr Jun Aug Oct"),
        (date(2026, 2, 26), date(2026, 12, 1), 600, "Mar Apr May Jun Jul Aug Sep Oct Nov"),
        (date(2026, 7, 1), date(2027, 6, 30), 600, "Jul Aug Sep Oct Nov Dec Jan Feb Mar Apr May Jun"),
    ],
)
def test_a_month_of_a_few_days_has_no_name(first: date, last: date, width: float, named: str) -> None:
    found = named_months(Span(first=first, last=last), 0, width, SIZE)
    assert " ".join(name for _middle, name in found) == named
