"""Drawings as pages hold them: markup, with the ids and links of the page they stand on."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from markupsafe import Markup

from tallybed.drawing.base import look
from tallybed.drawing.base.twice import passed_over
from tallybed.drawing.bedmap.legend import LegendItem, grade_items, legend, stage_items, waiting_items
from tallybed.drawing.bedmap.map import bed_maps
from tallybed.drawing.bedmap.view import grades_of, letters_of, stages_of, viewed
from tallybed.drawing.small.month_map import sheet_map as drawn_sheet
from tallybed.drawing.small.small_map import small_map
from tallybed.garden.crops import kind_after
from tallybed.garden.garden import Garden
from tallybed.garden.squares import Bed, Square
from tallybed.garden.units import Showing
from tallybed.pages.drawings.kept import kept_drawing
from tallybed.pages.frame import addresses
from tallybed.pages.frame.relative import relative
from tallybed.pages.wording import names
from tallybed.reckoning.calendar.month import BedMonth, DrawnPlanting
from tallybed.reckoning.squares.occupancy import Grade
from tallybed.reckoning.year import Years

_BETWEEN = "\0"
"""Between two drawings in one text: a sign that markup cannot hold."""
_LEGEND_TITLES = {
    "crop": "Crops",
    "ground": "Ground",
    "mark": "Marks",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class LegendRow:
    """One line of a legend: a swatch and what it stands for."""

    swatch: Markup
    sign: str
    words: str
    detail: str
    to: str


@dataclass(frozen=True, slots=True, kw_only=True)
class MapKey:
    """The short key at a drawing."""

    stages: tuple[LegendRow, ...]
    """Stages of plantings, as far as they are shown."""
    known: frozenset[Grade]
    """How well the plantings are known."""
    letters: tuple[tuple[str, str], ...]
    """Letters that stand where a name has no room, each with the crop's name."""
    waiting: tuple[LegendRow, ...] = ()
    """The mark of squares that wait, where it is shown."""

    @property
    def grades(self) -> tuple[LegendRow, ...]:
        """The lines round plantings; one may stand for several ways to be known."""
        return tuple(map(legend_row, grade_items(self.known)))


@dataclass(frozen=True, slots=True, kw_only=True)
class BedMaps:
    """One map twice: lying flat for wide pages and paper, standing upright for narrow ones."""

    flat: Markup
    upright: Markup
    key: MapKey | None = None

    @classmethod
    def drawn(cls, flat: str, upright: str, key: MapKey | None = None) -> BedMaps:
        """Return two drawings, which escape their own texts, as one map."""
        return cls(flat=Markup(flat), upright=Markup(passed_over(upright)), key=key)  # noqa: S704


def month_maps(
    years: Years, month: BedMonth, here: str, *, ident: str, smallest: float = look.SMALLEST_TEXT
) -> BedMaps:
    """Return the map of a bed's month for the page ``here``; ``ident`` begins its ids.

    ``smallest``: pixels its text has on the narrowest page it lies flat on, more on a sign.
    """
    links, showing = _links(month, here), years.garden.showing
    both = kept_drawing(years, _both, month, ident=ident, links=links, showing=showing, smallest=smallest)
    flat, _, upright = both.partition(_BETWEEN)
    return BedMaps.drawn(flat, upright, _key(month, ident))


def _both(month: BedMonth, *, ident: str, links: Mapping[str, str], showing: Showing, smallest: float) -> str:
    """Return the two drawings of a month's map as one text."""
    return _BETWEEN.join(bed_maps(month, ident=ident, links=links, showing=showing, smallest=smallest))


def _lettered(drawn: DrawnPlanting) -> tuple[str, str]:
    """Return what stands for a planting on the map, and its name as lists have it."""
    return letters_of(drawn), kind_after(drawn.name, drawn.kind)


def _key(month: BedMonth, ident: str) -> MapKey:
    """Return what the map of a month shows in a few words; the legend has it at length."""
    view = viewed(month)
    return MapKey(
        stages=tuple(map(legend_row, stage_items(stages_of(view), f"{ident}-key"))),
        known=grades_of(view),
        letters=tuple(sorted({_lettered(each.drawn) for each in view.groups})),
        waiting=waiting_key([month]),
    )


def joint_key(keys: Iterable[MapKey | None]) -> MapKey | None:
    """Return one short key for several maps, each sign once; None for no map."""
    found = [key for key in keys if key]
    if not found:
        return None
    return MapKey(
        stages=_each_once(row for key in found for row in key.stages),
        known=frozenset[Grade]().union(*(key.known for key in found)),
        letters=tuple(sorted({pair for key in found for pair in key.letters})),
        waiting=_each_once(row for key in found for row in key.waiting),
    )


def _each_once(rows: Iterable[LegendRow]) -> tuple[LegendRow, ...]:
    """Return the lines of a legend without those whose words stood before."""
    return tuple({row.words: row for row in rows}.values())


def _links(month: BedMonth, here: str) -> Mapping[str, str]:
    """Return where each planting of a month leads."""
    return {
        drawn.planting: relative(here, addresses.planting_of(month.season, drawn.planting))
        for drawn in month.drawn
    }


@dataclass(frozen=True, slots=True, kw_only=True)
class LegendPart:
    """The lines of a legend that are of one kind."""

    title: str
    rows: tuple[LegendRow, ...]


def legend_parts(garden: Garden, month: BedMonth) -> tuple[LegendPart, ...]:
    """Return what the map of a month shows, kind by kind, and nothing else; names lead to their pages."""
    parts: dict[str, list[LegendRow]] = {}
    for item in legend(month, showing=garden.showing):
        parts.setdefault(item.kind, []).append(legend_row(item, to=_leads(garden, item, month.season)))
    return tuple(LegendPart(title=_LEGEND_TITLES[kind], rows=tuple(rows)) for kind, rows in parts.items())


def legend_row(item: LegendItem, *, to: str = "") -> LegendRow:
    """Return one line of a legend."""
    return LegendRow(
        swatch=Markup(item.swatch),  # noqa: S704 - drawings escape their own texts
        sign=item.sign,
        words=item.words,
        detail=item.detail,
        to=to,
    )


def waiting_key(months: Iterable[BedMonth]) -> tuple[LegendRow, ...]:
    """Return what the mark of squares that wait means, for small maps without a legend; none without one."""
    return tuple(legend_row(item) for item in waiting_items(months))


def _leads(garden: Garden, item: LegendItem, season: str) -> str:
    """Return the page a line of a legend leads to: its planting's, else its crop's; empty for neither."""
    if item.planting:
        return addresses.planting_of(season, item.planting)
    return names.crop_link(garden, item.crop).to if item.crop else ""


def touched_maps(years: Years, bed: Bed, letters: Mapping[Square, str], *, when: str, ident: str) -> BedMaps:
    """Return a bed's small map of the squares touched on a day, each with the letters of its plantings."""
    flat, upright = (
        kept_drawing(years, small_map, bed, letters, f"{ident}-{name}", when=when, upright=turned)
        for name, turned in (("flat", False), ("upright", True))
    )
    return BedMaps.drawn(flat, upright)


def sheet_maps(years: Years, month: BedMonth, *, ident: str) -> BedMaps:
    """Return a month's small map for a contact sheet."""
    flat, upright = (
        kept_drawing(years, drawn_sheet, month, ident=f"{ident}-{name}", upright=turned)
        for name, turned in (("flat", False), ("upright", True))
    )
    return BedMaps.drawn(flat, upright)
