"""A crop's care in a screenful: a few lines made from the figures used, each told what it rests on below."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

from tallybed.drawing.crops.printed_days import PrintedDays
from tallybed.garden.crops import Crop, Figure, Footing
from tallybed.garden.garden import Garden
from tallybed.garden.units import INCH, Length, Showing
from tallybed.pages.care.figures import origin_words, value_words
from tallybed.pages.care.keeping import keeping
from tallybed.pages.care.metric import as_read
from tallybed.pages.wording.apart import apart, square_sides
from tallybed.pages.wording.sentences import listed, sentence
from tallybed.reckoning.calendar.plant_size import VINE_RUN


@dataclass(frozen=True, slots=True, kw_only=True)
class CareLine:
    """One line of care."""

    title: str
    words: str
    origins: tuple[str, ...]
    """``from memory`` and the like, where a figure of the line has no source in print."""


def care_in_short(garden: Garden, crop: Crop, advised: Iterable[PrintedDays]) -> tuple[CareLine, ...]:
    """Return what a gardener asks first of a crop: when, how far apart, how long, and how it keeps."""
    read = as_read(garden.showing, crop)
    made = (
        ("When", ", ".join(one.told for one in advised), ()),
        *(_line(read, title, make) for title, make in _LINES),
    )
    spaced = _spaced(garden, crop, read)
    lines = [made[0], spaced, *made[1:]]
    found = [
        CareLine(title=title, words=sentence(words), origins=_origins(used))
        for title, words, used in lines
        if words
    ]
    kept = keeping(read)
    if kept:
        origins = dict.fromkeys(
            origin for one in kept for origin in one.origins if origin != Footing.DERIVED.value
        )
        found.append(
            CareLine(
                title="Picking, keeping", words=" ".join(one.words for one in kept), origins=tuple(origins)
            )
        )
    return tuple(found)


_Made = tuple[str, str, tuple[Figure, ...]]


def _spaced(garden: Garden, crop: Crop, read: Crop) -> _Made:
    """Return depth and spacing, the distance before the count."""
    depth, spacing = read.used("planting depth"), read.used("spacing")
    words = [apart(garden.showing, crop.spacing, square_sides(garden))] if crop.spacing else []
    if depth:
        words.append(f"{'seed ' if depth.of == 'seed' else ''}{value_words(depth)} deep")
    return "Spacing", "; ".join(words), tuple(one for one in (depth, spacing) if one)


def _line(crop: Crop, title: str, make: Callable[[Crop], Iterator[tuple[str, Figure]]]) -> _Made:
    """Return one line from the parts that are known."""
    parts = list(make(crop))
    return title, ", ".join(words for words, _figure in parts), tuple(figure for _words, figure in parts)


def _how_long(crop: Crop) -> Iterator[tuple[str, Figure]]:
    """Yield the days to the first picking, and how long it is picked.

    Figures of two sources that have a plant take no less time than its seed are not told together.
    """
    sown, out = (crop.used(f"days from {since}") for since in ("sowing", "setting out"))
    both = sown and out and sown.low is not None and out.low is not None and out.low < sown.low
    for since, days in (("sowing", sown), ("setting out", out)):
        if days and (both or since == crop.days_from or not (sown and out)):
            yield f"about {value_words(days)} from {since}", days
    span = crop.used("usable days after first harvest")
    if span:
        yield f"then picked for {value_words(span)}", span


def _room(crop: Crop) -> Iterator[tuple[str, Figure]]:
    """Yield how high and wide it grows."""
    height = crop.used("height on support") or crop.used("mature height")
    spread = crop.used("spread")
    if height:
        led_up = " on a support" if height.fact == "height on support" else ""
        yield f"{_measured(height)} high{led_up}", height
    if spread:
        runs = VINE_RUN in spread.of
        yield f"{'vines of ' if runs else ''}{_measured(spread)}{'' if runs else ' wide'}", spread


def _measured(size: Figure) -> str:
    """Return a height or width as the maps tell it: ``6 ft``, not ``72 in``."""
    if size.unit != "in" or size.low is None or size.low != size.high:
        return value_words(size)
    return Showing().length(Length.of(size.low, INCH))


def _light(crop: Crop) -> Iterator[tuple[str, Figure]]:
    """Yield what it asks of light, soil and warmth."""
    sun, ph, warm = (crop.used(fact) for fact in ("sun hours", "soil ph", "soil temp germ min"))
    if sun:
        # A single printed figure is the least: “as little as 2 hours”, “6 hours at least”, “full sun”.
        least = "at least " if sun.low == sun.high else ""
        yield f"{least}{value_words(sun)} of sun a day", sun
    if ph:
        yield f"soil of pH {value_words(ph)}", ph
    if warm:
        yield f"{value_words(warm)} or more in the soil to come up", warm


def _cold(crop: Crop) -> Iterator[tuple[str, Figure]]:
    """Yield how it stands cold."""
    figure = crop.used("hardiness")
    if figure:
        yield f"{figure.text}{': a freeze kills it' if crop.is_tender else ''}", figure


def _troubles(crop: Crop) -> Iterator[tuple[str, Figure]]:
    found = [one for fact in ("pest", "disease", "disorder") for one in crop.all_of(fact)]
    if found:
        yield listed(dict.fromkeys(one.text for one in found)), found[0]


_LINES = (
    ("How long", _how_long),
    ("How large", _room),
    ("Light and soil", _light),
    ("Cold", _cold),
    ("Troubles", _troubles),
)


def _origins(used: Iterable[Figure]) -> tuple[str, ...]:
    """Return what figures without a source in print rest on."""
    told = (origin_words(one) for one in used if not one.source and one.kind is not Footing.DERIVED)
    return tuple(dict.fromkeys(origin for origin in told if origin))
