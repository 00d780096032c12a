"""Facts of care read as printed, each with what it rests on."""

from fractions import Fraction

import pytest

from tallybed.garden.crops import Beginning, Crop, Figure, Footing, Habit, Source
from tallybed.garden.garden import Garden
from tallybed.garden.units import INCH, Length
from tallybed.pages.care.figures import care, value_words


def of(low: str, high: str = "", unit: str = "in", fact: str = "spread", text: str = "") -> Figure:
    return Figure(fact=fact, low=Fraction(low), high=Fraction(high or low), unit=unit, text=text, source="a")


SPRING, FALL = "spring planting offset", "fall planting offset"


@pytest.mark.parametrize(
    ("figure", "words"),
    [
        (of("3"), "3 in"),
        (of("2", "3"), "2 to 3 in"),
        (of("1/4", "1/2"), "1/4 to 1/2 in"),
        (of("5/2"), "2 1/2 in"),
        (of("0.1"), "0.1 in"),
        (of("1", unit="days"), "1 day"),
        (of("60", "75", unit="days"), "60 to 75 days"),
        (of("80", unit="%"), "80%"),
        (of("5.5", "7", unit="pH"), "5.5 to 7"),
        (of("45", "85", unit="degF"), "45 to 85 °F"),
        (of("2000", unit="lb/acre"), "2,000 lb per acre"),
        (of("-4", "-2", "weeks", SPRING), "4 to 2 weeks before the last spring freeze"),
        (of("-4", "-4", "weeks", SPRING), "4 weeks before the last spring freeze"),
        (of("-2", "3", "weeks", SPRING), "2 weeks before to 3 weeks after the last spring freeze"),
        (of("1", "3", "weeks", SPRING), "1 to 3 weeks after the last spring freeze"),
        (of("0", "3", "weeks", SPRING), "from the last spring freeze to 3 weeks after"),
        (of("-3", "0", "weeks", FALL), "3 weeks before the first fall freeze until it"),
        (of("0", "0", "weeks", FALL), "at the first fall freeze"),
        (of("-1", "5", "weeks", FALL), "1 week before to 5 weeks after the first fall freeze"),
        (of("0", "1", "weeks", FALL), "from the first fall freeze to 1 week after"),
        (of("-1/2", "0", "weeks", FALL), "1/2 week before the first fall freeze until it"),
        (of("6", "8", "months", text="if dry"), "6 to 8 months, if dry"),
        (Figure(fact="hardiness", text="half-hardy"), "half-hardy"),
    ],
)
def test_figures_are_worded(figure: Figure, words: str) -> None:
    assert value_words(figure) == words


def test_sources_are_numbered_as_they_are_cited_and_kinds_are_said() -> None:
    crop = Crop(
        slug="x",
        name="x",
        plural="xs",
        family="F",
        habit=Habit.ROOT,
        start=Beginning.SOWN,
        letters="Xx",
        spacing=Length.of(3, INCH),
        figures=(
            Figure(fact="spread", low=Fraction(8), high=Fraction(8), unit="in", source="second"),
            Figure(fact="intensive spacing", low=Fraction(3), high=Fraction(3), unit="in", source="first"),
            Figure(fact="storage life", text="long", kind=Footing.MEMORY),
            Figure(fact="odd new fact", text="odd", kind=Footing.COMMON),
        ),
        chosen=(
            Figure(fact="spacing", low=Fraction(3), high=Fraction(3), unit="in", source="first", note="why"),
            Figure(fact="spread", low=Fraction(8), high=Fraction(8), unit="in", kind=Footing.DERIVED),
        ),
    )
    garden = Garden(
        name="g",
        crops=(crop,),
        sources=(
            Source(
                id="first", title="First book", publisher="Press", year="1999", where="https://example.org/1"
            ),
            Source(id="second", title="Second", where="a shelf"),
        ),
    )
    shown = care(garden, crop)
    assert [group.title for group in shown.groups] == [
        "Sowing and planting",
        "Size",
        "Curing and keeping",
        "More",
    ]
    spacing, spread, storage, odd = (group.facts[0] for group in shown.groups)
    assert spacing.used is not None
    assert (spacing.used.words, spacing.used.source, spacing.used.note) == ("3 in", 1, "why")
    assert [one.source for one in spacing.seen] == [1]
    assert spread.used is not None
    assert (spread.used.origin, spread.seen[0].source) == ("derived", 2)
    assert (storage.seen[0].origin, storage.seen[0].source) == ("from memory", None)
    assert (odd.name, odd.seen[0].origin) == ("Odd new fact", "common practice, no source")
    assert [(one.number, one.words, one.link) for one in shown.sources] == [
        (1, "First book. Press, 1999.", True),
        (2, "Second.", False),
    ]
