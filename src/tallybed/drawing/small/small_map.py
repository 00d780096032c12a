"""A small map of a bed: which squares were touched on a visit, or what stood in them in a month."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from tallybed.drawing.base import look
from tallybed.drawing.base.lettering import clipped
from tallybed.drawing.base.svg import Element, group, num, rect, sheet, text
from tallybed.drawing.small.frame import SmallFrame
from tallybed.garden.squares import Bed, Square, in_words


def month_map(
    beds: Sequence[Bed], held: Mapping[Square, str], stages: Mapping[Square, str], ident: str, *, title: str
) -> str:
    """Return the SVG markup of one small drawing of all beds, lying flat and to one scale.

    ``held``: the letters of each square's crops, apart by spaces; ``stages``: the stage
    of each, as the style sheet colours it.
    """
    places, (width, height) = _side_by_side([SmallFrame(bed=bed, upright=False).size for bed in beds])
    return sheet(
        ident,
        width,
        height,
        *(
            group(*_held(bed, held, stages), transform=f"translate({num(x)} {num(y)})")
            for bed, (x, y) in zip(beds, places, strict=True)
        ),
        title=title,
        desc="; ".join(f"{bed.title}: {_described(_within(bed, held)) or 'nothing'}" for bed in beds),
        class_="smallmap",
        preserveAspectRatio="xMinYMin meet",
    )


def _side_by_side(
    sizes: Sequence[tuple[float, float]],
) -> tuple[list[tuple[float, float]], tuple[float, float]]:
    """Return the places of boxes put beside each other in rows, and the size of the whole."""
    area = sum(width * height for width, height in sizes)
    widest = max([area**0.5, *(width for width, _height in sizes)], default=0.0)
    places: list[tuple[float, float]] = []
    x = y = deep = reached = 0.0
    for width, height in sizes:
        if x and x + width > widest:
            x, y, deep = 0.0, y + deep, 0.0
        places.append((x, y))
        x, deep = x + width, max(deep, height)
        reached = max(reached, x)
    return places, (reached, y + deep)


def _within(bed: Bed, held: Mapping[Square, str]) -> dict[Square, str]:
    """Return what is held of one bed's squares, in their order."""
    return {square: held[square] for square in bed.squares if square in held}


def _held(bed: Bed, held: Mapping[Square, str], stages: Mapping[Square, str]) -> Iterator[Element]:
    """Yield the shapes of one bed's map."""
    shown, frame = _within(bed, held), SmallFrame(bed=bed, upright=False)
    yield frame.boards()
    yield group(
        *(_touched(frame, square, shown[square], stages.get(square, "")) for square in shown),
        class_="d-marked",
    )
    yield frame.strings()
    yield frame.names()


def small_map(bed: Bed, touched: Mapping[Square, str], ident: str) -> str:
    """Return the SVG markup of a small map with the squares of a visit marked.

    ``touched``: squares with the letters to write in each, several crops' letters
    apart by spaces; squares of other beds are left out. A bed longer than a narrow
    page has room for is turned a quarter to the right, as the large map is.
    """
    marked = _within(bed, touched)
    flat = SmallFrame(bed=bed, upright=False)
    upright = bed.columns > bed.rows and flat.size[0] > look.UPRIGHT_PAGE
    frame = SmallFrame(bed=bed, upright=upright)
    return sheet(
        ident,
        *frame.size,
        frame.boards(),
        group(*(_touched(frame, square, marked[square]) for square in marked), class_="d-marked"),
        frame.strings(),
        frame.names(),
        title=f"{bed.title}: {_summed(marked)}",
        desc=_described(marked),
        class_="smallmap",
    )


def _touched(frame: SmallFrame, square: Square, letters: str, stage: str = "") -> Element:
    """Draw one touched square with the letters in it, two lines at the most."""
    (left, top), side = frame.box(square), frame.side
    words = letters.split()
    lines = words if len(words) <= 2 else [words[0], f"+ {len(words) - 1}"]
    size = look.SMALL_TEXT
    base = top + side / 2 + size * (look.MIDDLE - 0.52 * (len(lines) - 1))
    return group(
        rect(left + 1.5, top + 1.5, side - 3, side - 3, **_outline(stage)),
        *(
            text(
                left + side / 2,
                base + index * size * 1.04,
                clipped(line, size, side - 1, bold=True),
                size,
                class_="d-letters",
                text_anchor="middle",
            )
            for index, line in enumerate(lines)
        ),
        data_square=square.label,
    )


def _outline(stage: str) -> dict[str, object]:
    """Return how a square is outlined: heavy where it bears, dashed where it was just sown."""
    return {
        "class_": f"d-touched stage-{stage}" if stage else "d-touched",
        "stroke_width": look.HEAVY if stage == "bearing" else look.INK,
        "stroke_dasharray": "3 2.5" if stage == "sown" else None,
    }


def _summed(marked: Mapping[Square, str]) -> str:
    """Return the touched squares in words."""
    return f"touched {in_words(marked, with_bed=False)}" if marked else "no square touched"


def _described(marked: Mapping[Square, str]) -> str:
    """Return which squares were touched, crop by crop, or nothing where none was."""
    by_letters: dict[str, list[Square]] = {}
    for square, letters in marked.items():
        by_letters.setdefault(letters, []).append(square)
    parts = [
        f"{letters or 'the bed'} in {in_words(squares, with_bed=False)}"
        for letters, squares in by_letters.items()
    ]
    return "; ".join(parts)
