"""What the bed gave: every weighing split into exact shares, and summed by any cut.

A weighing becomes one or more lines, one for each square and destination it
was shared between. Each line knows its crop, variety, planting, bed, square,
day, destination and state, or that it was not told; so every cut of the same
lines has the same sum, to the nanogram.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from fractions import Fraction

from tallybed.garden.days import Month, Week
from tallybed.garden.garden import Season
from tallybed.garden.grouping import grouped
from tallybed.garden.plurals import in_plural
from tallybed.garden.records.ledger import State, Weighing, places_of
from tallybed.garden.squares import Square, by_row
from tallybed.garden.units import Weight, total
from tallybed.reckoning.harvest.pickings import PickedRow, uncounted
from tallybed.reckoning.plantings.plantings import Planting, plantings_picked
from tallybed.reckoning.squares.occupancy import Holding

NOT_TOLD = ""
"""The key of what nobody told: the crop's planting, its square, where it went."""
MIXED = "mixed: "
"""How the crop key of a mixed bowl begins; the crops follow, joined by `` + ``."""
GENERAL = "general: "
"""How the crop key of a general name begins that nothing resolves; the name follows, in its plural."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TallyLine:
    """One share of one weighing."""

    weighing: int
    """Position in the season's ledger."""
    season: str
    day: date
    crop: str
    """Slug; or ``mixed: …`` or ``general: …``."""
    variety: str = NOT_TOLD
    planting: str = NOT_TOLD
    bed: str = NOT_TOLD
    square: Square | None = None
    destination: str = NOT_TOLD
    state: State = State.FRESH
    weight: Weight = field(default=Weight())
    """This line's share; nothing where the picking was not weighed."""
    weighed: bool = True
    estimated: bool = False
    count: int = 0
    """This line's pieces, whole: those of a picking are dealt out to its lines as evenly as can be."""
    shared: bool = False
    """Whether the weight was divided equally between squares nobody weighed apart."""
    counts: bool = True
    """False where the picking counts by another weight of it, as by its fresh one: this joins no total."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Total:
    """A sum of lines."""

    weight: Weight = field(default=Weight())
    estimated: Weight = field(default=Weight())
    """The part of ``weight`` that was estimated, not weighed."""
    cured: Weight = field(default=Weight())
    """The part of it that was weighed cured."""
    dried: Weight = field(default=Weight())
    """The part of it that was weighed dried."""
    pickings: int = 0
    """Pickings that have a share in it."""
    unweighed: int = 0
    """Those of them that nobody weighed."""
    count: int = 0
    shared: bool = False

    @property
    def at_least(self) -> bool:
        """Whether the true weight is more, because something was not weighed."""
        return self.unweighed > 0

    @property
    def unknown(self) -> bool:
        """Whether nothing of it was weighed, so that its weight is no figure at all."""
        return self.pickings == self.unweighed > 0


Cut = Callable[[TallyLine], Hashable]

BY: Mapping[str, Cut] = {
    "crop": lambda line: line.crop,
    "variety": lambda line: (line.crop, line.variety),
    "planting": lambda line: (line.season, line.planting),
    "bed": lambda line: line.bed,
    "square": lambda line: line.square,
    "day": lambda line: line.day,
    "week": lambda line: Week.of(line.day),
    "month": lambda line: Month.of(line.day),
    "season": lambda line: line.season,
    "destination": lambda line: line.destination,
    "state": lambda line: line.state,
}
"""The cuts of a tally. Add one here: a name, and the key a line has under it."""


def added(lines: Iterable[TallyLine]) -> Total:
    """Return the total of lines; those that do not count are passed over."""
    counted = [line for line in lines if line.counts]
    return Total(
        weight=total([line.weight for line in counted]),
        estimated=total([line.weight for line in counted if line.estimated]),
        pickings=len({(line.season, line.weighing) for line in counted}),
        unweighed=len({(line.season, line.weighing) for line in counted if not line.weighed}),
        cured=total([line.weight for line in counted if line.state is State.CURED]),
        dried=total([line.weight for line in counted if line.state is State.DRIED]),
        count=sum([line.count for line in counted]),
        shared=any(line.shared for line in counted),
    )


def counted_by(cut: Cut, lines: Iterable[TallyLine]) -> dict[Hashable, list[TallyLine]]:
    """Return the lines that count, by their key under a cut."""
    return grouped((line for line in lines if line.counts), cut)


def tally(lines: Iterable[TallyLine], cut: Cut) -> dict[Hashable, Total]:
    """Return the totals by a cut, in the order of its keys; what was not told comes last."""
    groups = counted_by(cut, lines)
    return {key: added(groups[key]) for key in sorted(groups, key=_in_order)}


def heaviest_first(totals: Mapping[Hashable, Total]) -> dict[Hashable, Total]:
    """Return totals by their weight, the heaviest first; what was not told comes last.

    Of equal weights the order is that of their keys.
    """
    keys = sorted(totals, key=lambda key: (is_untold(key), -totals[key].weight.nanograms, _in_order(key)))
    return {key: totals[key] for key in keys}


def is_untold(key: Hashable) -> bool:
    """Return whether a key lacks what its cut tells apart: the square, the variety of a crop."""
    return (key[-1] if type(key) is tuple else key) in (NOT_TOLD, None)


def _in_order(key: Hashable) -> tuple[tuple[bool, str], ...]:
    """Sort keys of one cut alike: text by its letters, days by date, nothing last."""
    parts = key if type(key) is tuple else (key,)  # a square is a tuple too, and one part
    return tuple((part in (NOT_TOLD, None), _text(part)) for part in parts)


def _text(part: object) -> str:
    """Return a part of a cut's key as text that sorts as the part does."""
    if isinstance(part, Square):
        return f"{part.bed} {part.row:05d} {part.column:05d}"
    if isinstance(part, Week):
        return f"{part.year:05d} {part.number:02d}"
    if isinstance(part, Month):
        return f"{part.year:05d} {part.month:02d}"
    return part.isoformat() if isinstance(part, date) else str(part)


def running(lines: Iterable[TallyLine], cut: Cut, at: Iterable[Hashable] = ()) -> dict[Hashable, Total]:
    """Return, for each key of a cut in time (day, week, month), the total up to and with it.

    ``at``: further keys to tell it at, whether or not a line has them. Lines that do not
    count make no key.
    """
    groups = counted_by(cut, lines)
    so_far = Total()
    result: dict[Hashable, Total] = {}
    for key in sorted({*groups, *at}, key=_in_order):
        so_far = _together(so_far, added(groups.get(key, ())))
        result[key] = so_far
    return result


def _together(one: Total, other: Total) -> Total:
    """Return the total of two that have no picking in common, as those of different days have none."""
    return Total(
        weight=one.weight + other.weight,
        estimated=one.estimated + other.estimated,
        cured=one.cured + other.cured,
        dried=one.dried + other.dried,
        pickings=one.pickings + other.pickings,
        unweighed=one.unweighed + other.unweighed,
        count=one.count + other.count,
        shared=one.shared or other.shared,
    )


def lines(season: Season, holding: Holding, until: date | None = None) -> tuple[TallyLine, ...]:
    """Return the lines of a season's ledger, those picked up to and with ``until``.

    The order is the ledger's; within a weighing by square, then destination.
    """
    ledger = season.ledger or ()
    found: list[TallyLine] = []
    owners = plantings_picked(season, holding.plantings)
    held = [_squares_of(planting, holding, one.day) for one, planting in zip(ledger, owners, strict=True)]
    without = uncounted(map(_row, ledger, owners, held))
    places = places_of(ledger)
    for number, (weighing, planting) in enumerate(zip(ledger, owners, strict=True)):
        if until is not None and weighing.day > until:
            continue
        squares = weighing.squares or held[number]
        parts = _destinations(weighing, places)
        split = _split(number, season.name, weighing, planting, squares, parts)
        found += split if number not in without else (replace(line, counts=False) for line in split)
    return tuple(found)


def _row(weighing: Weighing, planting: Planting | None, held: tuple[Square, ...]) -> PickedRow:
    return PickedRow(
        weighing=weighing,
        crop=crop_key(weighing, planting),
        planting=planting.key if planting else "",
        whole=frozenset(held),
    )


def _split(
    number: int,
    season: str,
    weighing: Weighing,
    planting: Planting | None,
    squares: Sequence[Square],
    parts: Sequence[tuple[str, Weight, Fraction]],
) -> Iterable[TallyLine]:
    """Yield the lines of one weighing: its weight in equal parts over squares, and over where it went."""
    places: list[Square | None] = list(squares) or [None]
    beds = {square.bed for square in squares}
    elsewhere = next(iter(beds)) if len(beds) == 1 else NOT_TOLD
    crop = crop_key(weighing, planting)
    variety = weighing.variety or (planting.variety if planting else NOT_TOLD)
    key = planting.key if planting else NOT_TOLD
    weighed, shared = weighing.weight is not None, len(places) > 1
    portions = [(destination, _portion(weight, places)) for destination, weight, _part in parts]
    pieces = _pieces(weighing.count or 0, [part for _name, _weight, part in parts], len(places))
    for place, square in enumerate(places):
        for part, (destination, weight) in enumerate(portions):
            yield TallyLine(
                weighing=number,
                season=season,
                day=weighing.day,
                crop=crop,
                variety=variety,
                planting=key,
                bed=square.bed if square else elsewhere,
                square=square,
                destination=destination,
                state=weighing.state,
                weight=weight,
                weighed=weighed,
                estimated=weighing.estimated,
                count=pieces[part][place],
                shared=shared,
            )


def _portion(weight: Weight, places: Sequence[object]) -> Weight:
    """Return what each place gave of a weight."""
    return weight * Fraction(1, len(places)) if len(places) > 1 else weight


def _pieces(count: int, parts: Sequence[Fraction], places: int) -> list[list[int]]:
    """Return pieces dealt out over parts, and each part's over places."""
    if not count:
        return [[0] * places] * len(parts)
    return [dealt(each, [Fraction(1)] * places) for each in dealt(count, parts)]


def dealt(pieces: int, shares: Sequence[Fraction]) -> list[int]:
    """Return pieces dealt out whole by shares, which are not all nothing.

    Each gets what its share comes to without the fraction; what is left goes one by one to the
    largest fractions, the first of equal ones (the method of largest remainders).
    """
    whole = sum(shares, Fraction(0))
    exact = [pieces * share / whole for share in shares]
    found = [int(one) for one in exact]
    order = sorted(range(len(shares)), key=lambda place: (found[place] - exact[place], place))
    for place in order[: pieces - sum(found)]:
        found[place] += 1
    return found


def _destinations(weighing: Weighing, places: Mapping[str, str]) -> list[tuple[str, Weight, Fraction]]:
    """Split a weighing by where it went: (name, weight, portion of the picking)."""
    whole = weighing.weight or Weight()
    if not weighing.to:
        return [(NOT_TOLD, whole, Fraction(1))]
    told = total(part.weight for part in weighing.to if part.weight is not None)
    rest = whole - told
    takers = sum(part.weight is None for part in weighing.to)
    parts = [
        (places[part.name], rest * Fraction(1, takers) if part.weight is None else part.weight)
        for part in weighing.to
    ]
    if rest and not takers:
        parts.append((NOT_TOLD, rest))
    if not whole:
        return [(name, Weight(), Fraction(1, len(parts))) for name, _weight in parts]
    return [(name, weight, weight.nanograms / whole.nanograms) for name, weight in parts]


def crop_key(weighing: Weighing, planting: Planting | None) -> str:
    """Return the key under which a weighing's crop is tallied."""
    if weighing.mixed:
        return MIXED + " + ".join(sorted(crop.slug or crop.typed for crop in weighing.crops))
    told = weighing.crops[0] if weighing.crops else None
    if told and told.slug:
        return told.slug
    known = planting.crop if planting else told
    if known is None:
        return NOT_TOLD
    return known.slug or GENERAL + in_plural(known.typed.casefold())


def kinds(keys: Iterable[Hashable]) -> int:
    """Return how many kinds of produce crop keys name: neither a bowl nor what nobody named is one."""
    return sum(key != NOT_TOLD and not str(key).startswith(MIXED) for key in keys)


def bowl(key: str) -> tuple[str, ...]:
    """Return the crops of a mixed bowl by its crop key; none for any other key."""
    return tuple(key.removeprefix(MIXED).split(" + ")) if key.startswith(MIXED) else ()


def _squares_of(planting: Planting | None, holding: Holding, day: date) -> tuple[Square, ...]:
    """Return the squares a planting held on the day, else on the last day before it that it held any.

    The day of clearing is no longer held, yet that is when much is picked.
    """
    if planting is None:
        return ()
    holds = [hold for hold in holding.of_planting(planting.key) if hold.first <= day]
    last = min(day, max((hold.last for hold in holds), default=day))
    return tuple(sorted({hold.square for hold in holds if hold.last >= last}, key=by_row))
