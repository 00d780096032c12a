"""Sheets for marking out each bed: stakes, marks, lines, twine, and what fills it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from markupsafe import Markup

from tallybed.drawing.base.twice import passed_over
from tallybed.drawing.marking_plan import layout_plan
from tallybed.garden.plurals import figured
from tallybed.garden.squares import Bed
from tallybed.garden.units import CENTIMETRE, CUBIC_FOOT, INCH, LITRE, METRE, Length, Showing, rounded
from tallybed.pages.care.cautions import BUILDING
from tallybed.pages.frame import addresses
from tallybed.pages.frame.page import Page
from tallybed.pages.frame.trails import below_sheets
from tallybed.pages.frame.which_pages import marked_beds
from tallybed.pages.tables.tables import Row, Table, figure, heads, text
from tallybed.pages.wording.sentences import listed
from tallybed.reckoning.marking_out import TIE, Marks, Stakes, TwineLine, fill, marks, stakes
from tallybed.reckoning.squaring import CornerCheck, Tie, corner_checks, ties, triple
from tallybed.reckoning.year import Years

COMPOST = {False: Length.of(1, INCH), True: Length.of(3, CENTIMETRE)}
"""Depth of a dressing of compost that is reckoned, in inches or centimetres. Our choice, as an example."""
SOIL = {False: Length.of(6, INCH), True: Length.of(15, CENTIMETRE)}
"""Depth of new soil that is reckoned. Our choice, as an example."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bag:
    """A size of bag."""

    words: str
    """As shops have it: ``1.5 cu ft``, ``40 L``."""
    cubic_feet: Fraction


BAGS = {
    False: tuple(Bag(words=f"{size} cu ft", cubic_feet=Fraction(size)) for size in ("1", "1.5", "2")),
    True: tuple(
        Bag(words=f"{size} L", cubic_feet=size * LITRE.size / CUBIC_FOOT.size) for size in (25, 40, 50)
    ),
}
"""Common sizes in shops (common practice, no source)."""
RECTANGLE = 4
"""Corners of a bed that its two diagonals square."""
SETTLES = (
    "Volumes are for the bed’s own squares, filled level. Loose soil settles, so keep some by "
    "(common practice, no source)."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class FillLayer:
    """A layer to fill a bed with."""

    name: str
    depth: Length


def pages(years: Years) -> Iterator[Page]:
    """Yield a sheet for marking out each bed, those too that are still to come or are gone."""
    return (_page(years, bed) for bed in marked_beds(years))


def layers(showing: Showing) -> tuple[FillLayer, ...]:
    """Return the layers that a sheet reckons as examples."""
    metric = showing.metric
    return (
        FillLayer(name="Compost on top", depth=COMPOST[metric]),
        FillLayer(name="New soil", depth=SOIL[metric]),
    )


def tables(
    showing: Showing, bed: Bed, filled: Iterable[FillLayer], bags: Iterable[Bag] = ()
) -> tuple[Table, ...]:
    """Return what a bed's sheet says: the sides with their marks, what is needed, what fills it."""
    found, staked = marks(bed), stakes(bed)
    return (
        _sides(showing, bed, staked),
        *_corners(showing, bed, staked),
        _needed(showing, found, staked),
        _fill(showing, bed, tuple(filled), tuple(bags) or BAGS[showing.metric]),
    )


def _page(years: Years, bed: Bed) -> Page:
    """Return one bed's sheet as a page."""
    showing = years.garden.showing
    found, staked = marks(bed), stakes(bed)
    size = f"{showing.taped(found.length)} by {showing.taped(found.width)}"
    plan, narrow = (
        layout_plan(bed, found, staked, ident=f"plan-{word}", showing=showing, narrow=word == "narrow")
        for word in ("wide", "narrow")
    )
    return Page(
        path=addresses.marking(bed),
        template="marking_out.html",
        title=f"Marking out {bed.called}",
        description=f"Stakes, marks, lines and twine to mark out {bed.called}, and what fills it.",
        kind="marking out",
        data={
            "trail": below_sheets(f"Marking out {bed.called}") if years.present.beds else (),
            "lead": f"{size}, in {figured(len(bed.squares), 'square')} of {showing.taped(bed.side)}; "
            f"{showing.area(bed.square_feet)} in all.",
            "plans": tuple(Markup(one) for one in (plan, passed_over(narrow))),  # noqa: S704 - drawings escape their own texts
            "steps": _steps(showing, bed, found, staked),
            "tables": tables(showing, bed, layers(showing)),
            "cautions": BUILDING,
        },
    )


def _steps(showing: Showing, bed: Bed, found: Marks, staked: Stakes) -> tuple[str, ...]:
    """Return what to do with stakes and lines, step by step."""
    first = staked.corners[0].name
    steps = (
        f"Drive a stake at {first}, and one at each other corner, as far apart as the sides are long.",
        _square_words(showing, staked),
        _triple_words(showing, bed, staked),
        "Mark each side from the stake that is named first, and drive a staple or a nail at each mark.",
        _string_words(found),
    )
    return tuple(step for step in steps if step)


def _string_words(found: Marks) -> str:
    """Return in which order to string the lines; a bed one square wide or long has them one way alone."""
    if not found.lines:
        return "One square needs no line."
    across = sum(map(_is_across, found.lines))
    if across in (0, len(found.lines)):
        return f"String the {figured(len(found.lines), 'line')} {'across' if across else 'along'}."
    return f"String the {figured(len(found.lines), 'line')}, first those across, then those along."


def _is_across(one: TwineLine) -> bool:
    """Return whether a line runs across the bed."""
    return one.start[0] == one.end[0]


def _triple_words(showing: Showing, bed: Bed, staked: Stakes) -> str:
    """Return the triangle of three, four and five that fits every corner; empty where sides are too short."""
    part = triple(bed, staked, metric=showing.metric)
    if part is None:
        return ""
    three, four, five = (showing.taped(part * number) for number in (3, 4, 5))
    sides = f"{three} along one side and {four} along the other"
    return f"At any corner: {sides} are {five} apart where it is square."


def _square_words(showing: Showing, staked: Stakes) -> str:
    """Return how to see from its diagonals that the bed is square."""
    if len(staked.corners) != RECTANGLE:
        return (
            "Measure between the two stakes beside each corner, as the table of corners has it: "
            "where every distance is right, every corner is square, and so is the whole."
        )
    pairs = [f"{one.start.name} to {one.end.name}" for one in staked.diagonals]
    length = showing.taped(staked.diagonals[0].length)
    return f"Measure {' and '.join(pairs)}: both are {length} where the corners are square."


def _corners(showing: Showing, bed: Bed, staked: Stakes) -> Iterator[Table]:
    """Yield, for a bed that is not a rectangle, the distances that show that each corner is square."""
    if len(staked.corners) == RECTANGLE:
        return
    rows = [
        Row(cells=(text(one.corner.name), text(_pair(one)), text(showing.taped(one.length))))
        for one in corner_checks(bed, staked)
    ]
    rows += [
        Row(cells=(text("Where it lies"), text(_pair(one)), text(showing.taped(one.length))))
        for one in ties(bed, staked)
    ]
    yield Table(
        ident="corners",
        caption="Each corner is square where the stakes beside it are this far apart",
        heads=heads("Corner", "Measure", "Apart"),
        rows=tuple(rows),
    )


def _pair(one: CornerCheck | Tie) -> str:
    return f"{one.start.name} to {one.end.name}"


def _sides(showing: Showing, bed: Bed, staked: Stakes) -> Table:
    """Return the marks along each side as a table."""
    rows = tuple(
        Row(
            cells=(
                text(f"{edge.start.name} to {edge.end.name}", _side_name(bed, edge.start.at, edge.end.at)),
                text(showing.taped(edge.length)),
                text(", ".join(showing.taped(mark) for mark in edge.marks) or "none"),
            )
        )
        for edge in staked.edges
    )
    tied = listed(corner.name for corner in staked.tied)
    near = "" if showing.metric else " Lengths are to the nearest 1/8 in."
    notes = [f"{_marked(staked)} is the marked corner, from which the squares are named.{near}"]
    if tied:
        notes.append(
            f"Lines also end at the stake {tied}."
            if len(staked.tied) == 1
            else f"Lines also end at the stakes {tied}."
        )
    return Table(
        ident="sides",
        caption="Marks along each side, measured from the stake named first",
        heads=heads("Side", "Length", "Marks"),
        rows=rows,
        notes=tuple(notes),
    )


def _marked(staked: Stakes) -> str:
    """Return the name of the stake at the marked corner."""
    return next((corner.name for corner in staked.corners if corner.at == (0, 0)), staked.corners[0].name)


def _side_name(bed: Bed, start: tuple[int, int], end: tuple[int, int]) -> str:
    """Return the name that the garden's files have for a whole outer side: ``side 1``.

    Of two sides with one name, in a bed that is one square wide, the name means the first.
    """
    first, last, left, right = bed.sides
    places = {
        ((0, 0), (bed.columns, 0)): first,
        ((0, bed.rows), (bed.columns, bed.rows)): last if last != first else "",
        ((0, 0), (0, bed.rows)): left,
        ((bed.columns, 0), (bed.columns, bed.rows)): right if right != left else "",
    }
    name = places.get((start, end))
    return f"side {name}" if name else ""


def _needed(showing: Showing, found: Marks, staked: Stakes) -> Table:
    """Return stakes, lines, nails and twine as a table."""
    across = [one for one in found.lines if _is_across(one)]
    along = [one for one in found.lines if not _is_across(one)]
    corners = "; ".join(
        f"{one.start.name} to {one.end.name}, {showing.taped(one.length)}" for one in staked.diagonals
    )
    rows = [
        ("Stakes", figured(len(staked.corners), "stake")),
        ("Corner to corner", corners),
        ("Lines across", _lines_words(showing, across)),
        ("Lines along", _lines_words(showing, along)),
        ("Staples or nails", f"{found.staples:,}" if found.staples else ""),
        ("Twine in all", _twine(showing, found)),
    ]
    return Table(
        ident="needed",
        caption="What is needed",
        heads=heads("What", "How much"),
        rows=tuple(Row(cells=(text(what), text(words))) for what, words in rows if words),
    )


def _twine(showing: Showing, found: Marks) -> str:
    """Return the length of all twine in words; empty where no line is strung."""
    if not found.lines:
        return ""
    whole = showing.length(found.twine) if showing.metric else showing.taped(found.twine)
    return f"{whole}, with {showing.taped(TIE)} a line for its two knots"


def _lines_words(showing: Showing, lines: list[TwineLine]) -> str:
    """Return ``9 of 3 ft``, or ``3 of 2 ft, 2 of 5 ft`` where they differ."""
    by_length: dict[Length, int] = {}
    for one in lines:
        by_length[one.length] = by_length.get(one.length, 0) + 1
    return ", ".join(f"{number:,} of {showing.taped(length)}" for length, number in sorted(by_length.items()))


def _fill(showing: Showing, bed: Bed, filled: tuple[FillLayer, ...], bags: tuple[Bag, ...]) -> Table:
    """Return what fills the bed, layer by layer, in volumes and bags."""
    sizes = tuple(f"Bags of {bag.words}" for bag in bags)
    volumes = ("Litres", "Cubic metres") if showing.metric else ("Cubic feet", "Cubic yards")
    rows = []
    for layer in filled:
        found = fill(bed, layer.depth)
        cubic_metres = found.litres / 1000
        pair = (found.litres, cubic_metres) if showing.metric else (found.cubic_feet, found.cubic_yards)
        places = (0, 2) if showing.metric else (1, 2)
        cells = [figure(_number(value, place)) for value, place in zip(pair, places, strict=True)]
        counts = [figure(f"{found.bags(bag.cubic_feet):,}") for bag in bags]
        rows.append(Row(cells=(text(layer.name), text(_depth(showing, layer.depth)), *cells, *counts)))
    return Table(
        ident="fill",
        caption="What fills it",
        heads=heads("Layer", "Depth", *volumes, *sizes, numbers=(*volumes, *sizes)),
        rows=tuple(rows),
        notes=(SETTLES,),
    )


def _depth(showing: Showing, depth: Length) -> str:
    """Return a depth as it is read off a tape."""
    return (
        showing.taped(depth) if not showing.metric or depth < Length.of(1, METRE) else showing.length(depth)
    )


def _number(value: Fraction, places: int) -> str:
    """Return a volume; digits that say nothing are left out, and what would round to nothing is kept."""
    words = rounded(value, places)
    if value and not Fraction(words):
        return f"under {'0.' + '1'.rjust(places, '0') if places else 1}"
    whole, _point, part = words.partition(".")
    part = part.rstrip("0")
    return f"{int(whole):,}.{part}" if part else f"{int(whole):,}"
