"""A small map of a bed: which squares were touched on a visit, or what stood in them in a month."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from tallybed.drawing import look
from tallybed.drawing.lettering import clipped
from tallybed.drawing.svg import Element, group, num, path, points, rect, sheet, text
from tallybed.garden.outline import inner_lines, outlines, shifted
from tallybed.garden.squares import Bed, Square, column_letters, in_words

_EDGE = look.SMALL_TEXT * 1.5
"""Margin with the names of columns and rows."""


def month_map(
    beds: Sequence[Bed], held: Mapping[Square, str], stages: Mapping[Square, str], ident: str, *, title: str
) -> str:
    """Return the SVG markup of one small drawing of all beds, lying flat and to one scale.

    ``held``: the letters of each square's crops, apart by spaces; ``stages``: the stage
    of each, as the style sheet colours it.
    """
    places, (width, height) = _side_by_side([_flat_size(bed) for bed in beds])
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


def _flat_size(bed: Bed) -> tuple[float, float]:
    around = _EDGE + look.PAD
    return bed.columns * look.SMALL_SQUARE + around, bed.rows * look.SMALL_SQUARE + around


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
    return {square: held[square] for square in bed.squares if square in held}


def _held(bed: Bed, held: Mapping[Square, str], stages: Mapping[Square, str]) -> Iterator[Element]:
    shown = _within(bed, held)
    yield _frame(bed, upright=False)
    yield group(
        *(_touched(bed, square, shown[square], False, stages.get(square, "")) for square in shown),
        class_="d-marked",
    )
    yield _strings(bed, upright=False)
    yield _names(bed, upright=False)


def small_map(bed: Bed, touched: Mapping[Square, str], ident: str) -> str:
    """Return the SVG markup of a small map with the squares of a visit marked.

    ``touched``: squares with the letters to write in each, several crops' letters
    apart by spaces; squares of other beds are left out. A bed longer than a narrow
    page has room for is turned a quarter to the right, as the large map is.
    """
    marked = {square: touched[square] for square in bed.squares if square in touched}
    upright = bed.columns > bed.rows and bed.columns * look.SMALL_SQUARE + 2 * _EDGE > look.UPRIGHT_PAGE
    columns, rows = (bed.rows, bed.columns) if upright else (bed.columns, bed.rows)
    width = columns * look.SMALL_SQUARE + _EDGE + look.PAD
    height = rows * look.SMALL_SQUARE + _EDGE + look.PAD
    return sheet(
        ident,
        width,
        height,
        _frame(bed, upright),
        group(*(_touched(bed, square, marked[square], upright) for square in marked), class_="d-marked"),
        _strings(bed, upright),
        _names(bed, upright),
        title=f"{bed.title}: {_summed(marked)}",
        desc=_described(marked),
        class_="smallmap",
    )


def _at(bed: Bed, x: float, y: float, upright: bool) -> tuple[float, float]:
    """Return the drawn place of a corner counted in squares; row numbers stand left, or right if turned."""
    if upright:
        return (look.PAD + (bed.rows - y) * look.SMALL_SQUARE, _EDGE + x * look.SMALL_SQUARE)
    return (_EDGE + x * look.SMALL_SQUARE, _EDGE + y * look.SMALL_SQUARE)


def _ring(bed: Bed, upright: bool, out: float) -> str:
    cells = [(square.column, square.row) for square in bed.squares]
    return "".join(
        points(_at(bed, x, y, upright) for x, y in shifted(outline, -out / look.SMALL_SQUARE))
        for outline in outlines(cells)
    )


def _frame(bed: Bed, upright: bool) -> Element:
    outer = _ring(bed, upright, look.SMALL_BOARD)
    half = look.SMALL_BOARD
    x, y = _at(bed, -half / 2 / look.SMALL_SQUARE, -half / 2 / look.SMALL_SQUARE, upright)
    return group(
        path(outer + _ring(bed, upright, 0), class_="d-board", fill_rule="evenodd", stroke="none"),
        path(outer, class_="d-frame", stroke_width=look.FINE * 1.3),
        rect(x - half, y - half, 2 * half, 2 * half, class_="d-corner", stroke="none"),
        class_="d-boards",
    )


def _strings(bed: Bed, upright: bool) -> Element:
    cells = [(square.column, square.row) for square in bed.squares]
    data = "".join(
        points((_at(bed, *start, upright), _at(bed, *end, upright)), closed=False)
        for start, end in inner_lines(cells)
    )
    return path(data, class_="d-twine", stroke_width=look.FINE)


def _touched(bed: Bed, square: Square, letters: str, upright: bool, stage: str = "") -> Element:
    ax, ay = _at(bed, square.column, square.row, upright)
    bx, by = _at(bed, square.column + 1, square.row + 1, upright)
    left, top, side = min(ax, bx), min(ay, by), look.SMALL_SQUARE
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


def _names(bed: Bed, upright: bool) -> Element:
    size = look.SMALL_TEXT
    names = []
    for column in sorted({square.column for square in bed.squares}):
        x, y = _at(bed, column + 0.5, 0, upright)
        dx, dy = (look.SMALL_BOARD + _EDGE / 2 - 1, size * look.MIDDLE) if upright else (0.0, -size * 0.45)
        names.append((x + dx, y + dy, column_letters(column)))
    for row in sorted({square.row for square in bed.squares}):
        x, y = _at(bed, 0, row + 0.5, upright)
        dx, dy = (0.0, -size * 0.45) if upright else (-_EDGE / 2 - 1, size * look.MIDDLE)
        names.append((x + dx, y + dy, str(row + 1)))
    return group(
        *(text(x, y, name, size, class_="d-name", text_anchor="middle") for x, y, name in names),
        class_="d-names",
    )


def _summed(marked: Mapping[Square, str]) -> str:
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
