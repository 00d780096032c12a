"""Photographs say who took them and on what terms, and show nobody who did not agree."""

from datetime import date

import pytest

from tallybed.garden.records.log import Entry, Photo
from tallybed.pages.drawings.photographs import deed, photo_items
from tallybed.pages.frame.page import Link


# creativecommons.org, "List of licenses" (from memory): the short names and their addresses.
@pytest.mark.parametrize(
    ("licence", "address"),
    [
        ("CC BY 4.0", "https://creativecommons.org/licenses/by/4.0/"),
        ("CC BY 2.0", "https://creativecommons.org/licenses/by/2.0/"),
        ("CC BY-SA 4.0", "https://creativecommons.org/licenses/by-sa/4.0/"),
        ("CC BY-NC-ND 3.0", "https://creativecommons.org/licenses/by-nc-nd/3.0/"),
        ("CC0 1.0", "https://creativecommons.org/publicdomain/zero/1.0/"),
        ("CC0", "https://creativecommons.org/publicdomain/zero/1.0/"),
        ("CC BY", ""),
        ("CC BY-ND-SA 4.0", ""),
        ("All rights reserved", ""),
        ("by permission", ""),
        ("", ""),
    ],
)
def test_a_licence_leads_to_its_own_words(licence: str, address: str) -> None:
    assert deed(licence) == address


def test_whoever_did_not_agree_is_no_item_and_the_next_comes_first() -> None:
    entry = Entry(
        slug="peas",
        day=date(2026, 4, 19),
        title="Peas",
        photos=(
            Photo(file="crew.jpg", alt="The crew", people=True),
            Photo(file="peas.jpg", alt="Peas", credit="N.", licence="CC BY 4.0", source="https://x.example/"),
            Photo(file="beans.jpg", alt="Beans"),
        ),
    )
    peas, beans = photo_items("2026", entry)
    assert (peas.name, peas.alt, peas.first, peas.credited) == ("2026/peas.jpg", "Peas", True, True)
    assert peas.licence == Link("CC BY 4.0", "https://creativecommons.org/licenses/by/4.0/")
    assert peas.source == Link("source", "https://x.example/")
    assert (beans.name, beans.first, beans.credited) == ("2026/beans.jpg", False, False)
