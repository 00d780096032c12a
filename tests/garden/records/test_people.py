"""A supporter's wording has its days, and nobody is shown who did not agree."""

from datetime import date

import pytest

from tallybed.garden.records.log import Photo
from tallybed.garden.records.people import Supporter, Withdrawn, WithdrawnKind, withdrawn_from

APRIL, OCTOBER = date(2026, 4, 1), date(2026, 10, 31)


@pytest.mark.parametrize(
    ("first", "last", "day", "shown"),
    [
        (APRIL, OCTOBER, APRIL, True),
        (APRIL, OCTOBER, OCTOBER, True),
        (APRIL, OCTOBER, date(2026, 3, 31), False),
        (APRIL, OCTOBER, date(2026, 11, 1), False),
        (None, OCTOBER, date(1999, 1, 1), True),
        (APRIL, None, date(2999, 1, 1), True),
        (APRIL, None, date(2026, 3, 31), False),
        (None, None, date(2026, 3, 31), True),
    ],
)
def test_a_wording_is_shown_between_its_days(
    first: date | None, last: date | None, day: date, shown: bool
) -> None:
    assert Supporter(words="Thanks", first=first, last=last).shown(day) is shown


@pytest.mark.parametrize(
    ("people", "consent", "shown"),
    [
        (False, None, True),
        (False, True, True),
        (False, False, False),
        (True, None, False),
        (True, False, False),
        (True, True, True),
    ],
)
def test_a_person_is_shown_only_with_consent(people: bool, consent: bool | None, shown: bool) -> None:
    assert Photo(file="a.jpg", alt="A", people=people, consent=consent).may_be_shown is shown


def test_a_season_knows_that_something_was_withdrawn_from_it() -> None:
    one = Withdrawn(kind=WithdrawnKind.NAME, day=APRIL, season="2025")
    other = Withdrawn(kind=WithdrawnKind.ENTRY, day=APRIL, season="2024")
    assert withdrawn_from("2025", [one])
    assert withdrawn_from("2025", [other, one])
    assert not withdrawn_from("2026", [one])
    assert not withdrawn_from("2025", [Withdrawn(kind=WithdrawnKind.NAME, day=APRIL)])
