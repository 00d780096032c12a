"""A week's bulletin in words: short enough to read out, the same for the command and for the page."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import groupby

from tallybed.garden.days import in_full, without_year
from tallybed.garden.garden import Garden
from tallybed.garden.records.log import Verb
from tallybed.garden.units import Showing, rounded
from tallybed.pages.wording import names, spoken, sums
from tallybed.pages.wording.sentences import NO_LEDGER, counted, days_words, listed, number_word
from tallybed.reckoning.calendar.due import Due
from tallybed.reckoning.harvest.areas import Ground
from tallybed.reckoning.harvest.tally import Total
from tallybed.reckoning.harvest.week import Bulletin, Earlier
from tallybed.reckoning.rows.land import Range
from tallybed.reckoning.rows.verdicts import Verdict

MOST_WORDS = 119
"""A text is kept under 120 words: what a voice reads in about a minute (common practice, no source)."""
_MOST_TIED = 3
_MOST_JOBS = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class BulletinText:
    """A bulletin ready to be read: its heading, and paragraphs of whole sentences."""

    garden: str
    """The garden's name; empty where it is too long to be said with the rest."""
    week: str
    """``Week 31 of 2026``"""
    days: str
    """``27 July to 2 August``"""
    paragraphs: tuple[str, ...]

    @property
    def heading(self) -> str:
        """``Week 31 of 2026, 27 July to 2 August``."""
        return f"{self.week}, {self.days}"

    @property
    def text(self) -> str:
        """Return it as plain text, paragraph below paragraph, without a closing line end."""
        named = ((self.garden,) if self.garden else ()) + (self.heading,)
        return "\n\n".join(("\n".join(named), *self.paragraphs))


@dataclass(frozen=True, slots=True, kw_only=True)
class BesideRows:
    """What a whole season comes to beside ordinary rows; areas in square feet."""

    verdict: Verdict
    row_ground: Range
    ground: Ground
    """The ground of the beds that the verdict is about."""
    at_least: bool
    """Whether more was picked than was weighed."""


def bulletin_text(
    garden: Garden, facts: Bulletin, beside: BesideRows | None = None, waits: str = "", weather: str = ""
) -> BulletinText:
    """Return the facts in words, fewer than 120 of them; ``beside``: the season beside ordinary rows.

    ``waits``: what is not to be picked, as a sentence; it comes first and is never left out.
    ``weather``: that of the days, as a sentence. Where names of the garden's own are so long that
    they would not fit, whole sentences are left out: the weather first, then what is next, then the
    heaviest crop, then the season beside rows, then the garden's name.
    """
    week = list(_week(garden.showing, facts))
    season = [*_season(garden.showing, facts), _year(garden.showing, facts)]
    name, best, ahead = " ".join(garden.name.split()), _best(garden, facts), _ahead(garden, facts.ahead)
    rows = _beside(garden.showing, beside) if beside else ""
    choices = (
        (best, rows, ahead, weather),
        (best, rows, ahead, ""),
        (best, rows, "", ""),
        ("", rows, "", ""),
        ("", "", "", ""),
    )
    for kept_best, kept_rows, kept_ahead, kept_weather in choices:
        whole = BulletinText(
            garden=name,
            week=f"Week {facts.week.number} of {facts.week.year}",
            days=days_words(facts.first, facts.last),
            paragraphs=_paragraphs(
                [waits], [*week, kept_best], season, [kept_rows], [kept_weather], [kept_ahead]
            ),
        )
        if len(whole.text.split()) <= MOST_WORDS:
            return whole
    return replace(whole, garden="")


def _paragraphs(*groups: Sequence[str]) -> tuple[str, ...]:
    """Return groups of sentences as paragraphs; empty sentences and groups are left out."""
    joined = (" ".join(sentence for sentence in group if sentence) for group in groups)
    return tuple(paragraph for paragraph in joined if paragraph)


def _week(showing: Showing, facts: Bulletin) -> Iterator[str]:
    """Yield what the week gave."""
    if not facts.ledger:
        yield NO_LEDGER
        return
    total = facts.picked
    if not total.pickings:
        yield "No picking is on record for these days."
        return
    pickings = counted(total.pickings, "picking").capitalize()
    if total.unweighed == total.pickings:
        yield sums.unweighed(total)
        return
    rest = ""
    if total.unweighed:
        were = "was" if total.unweighed == 1 else "were"
        rest = f"; {number_word(total.unweighed)} of them {were} not weighed"
    weight = spoken.total(showing, total) + spoken.cured(showing, total)
    yield f"{pickings} gave {weight}{rest}."
    if total.estimated == total.weight:
        yield "The weight is an estimate."
    elif total.estimated:
        yield f"Of that, {spoken.weight(showing, total.estimated)} was estimated."


def _best(garden: Garden, facts: Bulletin) -> str:
    """Return the sentence about the week's heaviest crops; empty where none was weighed."""
    if not facts.best:
        return ""
    called = sorted(facts.best, key=str.casefold)
    if facts.alone:
        return f"It was all {called[0]}."
    among = "Heaviest of what was weighed" if facts.picked.at_least else "Heaviest of the week"
    aside = ", mixed bowls aside" if facts.bowls else ""
    weight = spoken.weight(garden.showing, facts.best_weight)
    if len(called) == 1:
        return f"{among}{aside}: {called[0]}, {weight}."
    if len(called) > _MOST_TIED:
        return f"{among}{aside}: {counted(len(called), 'crop')}, {weight} of each."
    return f"{among}{aside}: {listed(called)}, {weight} of each."


def heaviest_words(garden: Garden, facts: Bulletin) -> str:
    """Return ``most spinach, 1.3 lb`` for a picture; nothing where several tie or a bowl is in it."""
    if len(facts.best) != 1 or facts.bowls or facts.picked.at_least:
        return ""
    called = facts.best[0]
    return f"all {called}" if facts.alone else f"most {called}, {garden.showing.summed(facts.best_weight)}"


def _season(showing: Showing, facts: Bulletin) -> Iterator[str]:
    """Yield what the season gave so far."""
    if not facts.ledger:
        return
    total = facts.so_far
    when = "in all" if facts.whole else "so far"
    if not total.pickings:
        yet = "" if facts.whole else " yet"
        yield f"The ledger of {facts.season} has no picking{yet}."
        return
    pickings = counted(total.pickings, "picking")
    if total.unweighed == total.pickings:
        none = "not weighed" if total.pickings == 1 else "none of them weighed"
        yield f"Season {facts.season} {when}: {pickings}, {none}."
        return
    least = "at least " if total.at_least else ""
    words = f"{spoken.total(showing, total)} in {pickings}{spoken.cured(showing, total)}"
    over = spoken.per_area(showing, total.weight, facts.square_feet) if facts.square_feet else ""
    if over:
        words += f"; that is {least}{over} of the squares"
    yield f"Season {facts.season} {when}: {words}."


def _year(showing: Showing, facts: Bulletin) -> str:
    """Return how the season compares with the year before on the same day; empty where it cannot be told."""
    if not facts.ledger or facts.earlier is None:
        return ""
    before, now, day = facts.earlier, facts.so_far, in_full(facts.earlier.day)
    if not before.total.pickings:
        return f"By {day} the ledger of {before.season} had no picking."
    if not before.total.weight:
        return f"By {day} nothing had been weighed."
    if not now.weight:
        return f"By {day} it was {spoken.total(showing, before.total)}."
    far = ", as far as weighed" if before.total.at_least or now.at_least else ""
    return f"That is {_compared(showing, now, before)} by {day}{far}."


WHOLE_FROM = 10
"""Ground from which whole numbers tell it well enough."""


def _beside(showing: Showing, facts: BesideRows) -> str:
    """Return the season beside ordinary rows, in words to be said aloud."""
    rows = facts.row_ground
    areas = [showing.area_in(area) for area in (rows.low, rows.middle, rows.high, facts.ground.square_feet)]
    # Of little ground whole numbers would make a half more of it, or nothing.
    low, middle, high, ground = (rounded(area, int(areas[1] < WHOLE_FROM)) for area in areas)
    unit = "square metres" if showing.metric else "square feet"
    least = "at least" if facts.at_least else "about"
    return (
        f"Beside ordinary rows: {facts.verdict}. By printed yields, rows would have needed {least} {middle} "
        f"{unit} for it, from {low} to {high}; {facts.ground.of} take {ground}."
    )


def _compared(showing: Showing, now: Total, before: Earlier) -> str:
    """Return ``1.5 lb more than``, or ``about as much as``."""
    if spoken.alike(showing, now.weight, before.total.weight):
        return "about as much as"
    if now.weight > before.total.weight:
        return f"{spoken.weight(showing, now.weight - before.total.weight)} more than"
    return f"{spoken.weight(showing, before.total.weight - now.weight)} less than"


def _ahead(garden: Garden, ahead: Sequence[Due]) -> str:
    """Return the jobs as ``Next, by the plan: on 3 October sow garlic and clear basil``."""
    jobs = list(
        dict.fromkeys((one.day, one.verb, names.named(garden, one.crop, many=True).text) for one in ahead)
    )
    if not jobs:
        return ""
    days = []
    for day, of_day in groupby(jobs[:_MOST_JOBS], key=lambda job: job[0]):
        work = (
            job_words(verb, listed(crop for _day, _verb, crop in of_verb))
            for verb, of_verb in groupby(of_day, key=lambda job: job[1])
        )
        days.append(f"on {without_year(day)} {listed(work)}")
    more = len(jobs) - _MOST_JOBS
    rest = f"; and {counted(more, 'job')} more" if more > 0 else ""
    return f"Next, by the plan: {'; '.join(days)}{rest}."


def job_words(verb: str, crops: str) -> str:
    """Return a job of the plan in words: ``sow spinach``, ``sow tomatoes indoors``."""
    return f"sow {crops} indoors" if verb == Verb.SOW_INDOORS else f"{verb} {crops}"
