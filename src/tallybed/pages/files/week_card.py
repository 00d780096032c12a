"""The picture that goes with a week's bulletin: the season's own as of that week, with the week's figures."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from tallybed.garden.plurals import figured
from tallybed.pages.files.bulletin_text import heaviest_words
from tallybed.pages.files.card import Card
from tallybed.pages.files.season_card import season_card
from tallybed.pages.frame import addresses
from tallybed.pages.wording import sums
from tallybed.pages.wording.sentences import days_words
from tallybed.reckoning.harvest.week import Bulletin
from tallybed.reckoning.year import Year


def week_card(year: Year, facts: Bulletin) -> Card | None:
    """Return a week's picture, or None where nothing was weighed in the season by then.

    A week in which nothing was weighed shows the season so far instead.
    """
    lines = tuple(line for line in year.lines if line.day <= facts.last)
    if not facts.so_far.weight or not any(line.counts for line in lines):
        return None
    card = season_card(year, lines, facts.last)
    named = replace(card, season=f"Week {facts.week.number} of {facts.week.year}")
    if not facts.picked.weight:
        return named
    showing = year.garden.showing
    head = sums.summed(showing, facts.picked)
    days = days_words(facts.first, facts.last)
    return replace(
        named,
        before=head.before,
        number=head.number,
        unit=head.unit,
        lines=(
            f"in {figured(facts.picked.pickings, 'picking')}, {days}",
            *filter(None, [head.cured]),
            *filter(None, [heaviest_words(year.garden, facts)]),
            *_season_so_far(year, facts),
        ),
    )


def shared_card(year: Year, facts: Bulletin) -> Card | None:
    """Return the picture to show with the address of a week's bulletin, or None where there is none.

    There is one for each week of each season, so it is small. It stays as it was for a
    week that is past, whatever is weighed later.
    """
    card = week_card(year, facts) if year.garden.address else None
    if card is None:
        return None
    sum_of_it = " ".join(part for part in (card.before, card.number, card.unit, card.lines[0]) if part)
    return replace(
        card,
        path=addresses.bulletin_card(year, facts.week),
        alt=f"{year.garden.name}, {card.season}: {sum_of_it}",
        halved=True,
    )


def _season_so_far(year: Year, facts: Bulletin) -> Iterator[str]:
    """Yield what the season gave up to the week's end, as short phrases."""
    showing = year.garden.showing
    yield f"season so far {sums.in_words(showing, facts.so_far)}"
    for ground in year.grounds[:1]:
        if ground.square_feet:
            yield sums.per_ground(showing, facts.so_far, ground).in_words
