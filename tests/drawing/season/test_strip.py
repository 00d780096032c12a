"""A bed's season as a strip: every bar at its days and squares, readable at any width."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from itertools import combinations, pairwise
from xml.etree import ElementTree as Tree

import pytest

from tallybed.drawing.base.lettering import width_of
from tallybed.drawing.season.key import season_key
from tallybed.drawing.season.strip import season_strip
from tallybed.garden.days import Span
from tallybed.garden.squares import Bed, in_words
from tallybed.reckoning.calendar.strips import PlantingStrip
from tallybed.reckoning.squares.occupancy import Grade
from tests.drawing import months
from tests.drawing.markup import SVG, corners, of_class, parsed, words
from tests.drawing.seasons import GROWING, SOWN, SPAN, TODAY, crowded, day, planting_strip, usual

Box = tuple[float, float, float, float]


def drawn(
    planting_strips: tuple[PlantingStrip, ...] | None = None,
    *,
    narrow: bool = False,
    today: date | None = TODAY,
    span: Span = SPAN,
    bed: Bed = months.LONG,
    links: dict[str, str] | None = None,
) -> Tree.Element:
    markup = season_strip(
        bed,
        span,
        usual() if planting_strips is None else planting_strips,
        ident="s",
        title="The long bed in 2026",
        links=links or {},
        today=today,
        narrow=narrow,
    )
    return parsed(markup)


def rects(element: Tree.Element, name: str) -> list[Box]:
    """Return the boxes of a class, but not those of the ground after a bar."""
    after = {id(each) for one in of_class(element, "d-after") for each in one.iter()}
    return [place(each) for each in of_class(element, name) if id(each) not in after]


def place(rect: Tree.Element) -> Box:
    x, y, width, height = (float(rect.get(name, "")) for name in ("x", "y", "width", "height"))
    return x, y, width, height


def courses(root: Tree.Element) -> dict[tuple[str, str], Tree.Element]:
    """Return the bars by planting and squares."""
    return {
        (planting_strip.get("data-planting") or "", course.get("data-squares") or ""): course
        for planting_strip in of_class(root, "d-planting-strip")
        for course in of_class(planting_strip, "d-spell")
    }


def plot(root: Tree.Element) -> Box:
    """Return the ruled frame."""
    (frame,) = [each for each in of_class(root, "d-ruled")[0] if each.tag == f"{SVG}rect"]
    return place(frame)


@pytest.mark.parametrize("narrow", [False, True])
def test_a_bar_runs_from_its_first_day_to_the_end_of_its_last(narrow: bool) -> None:
    root = drawn(narrow=narrow)
    left, _top, width, _height = plot(root)
    for strip_ in usual():
        for (planting, _where), course in courses(root).items():
            if planting == strip_.planting:
                grounds = rects(course, "d-ground")
                first, last = strip_.courses[0].first, strip_.courses[0].last
                start = left + width * (first - SPAN.first).days / SPAN.days
                end = left + width * ((last - SPAN.first).days + 1) / SPAN.days
                assert grounds[0][0] == pytest.approx(start, abs=0.02), planting
                assert grounds[-1][0] + grounds[-1][2] == pytest.approx(end, abs=0.02), planting


def test_a_bar_lies_in_the_lines_of_its_squares() -> None:
    root = drawn()
    names = {
        "".join(each.itertext()): float(each.get("y", ""))
        for each in of_class(of_class(root, "d-ruled")[0], "d-name")
    }
    rows = {square.label: y for name, y in names.items() for square in months.squares(name)}
    assert set(rows) == {square.label for square in months.LONG.squares}
    for (planting, where), course in courses(root).items():
        (_x, top, _w, height), *_rest = rects(course, "d-ground")
        for square in months.squares(where):
            assert top - 1 < rows[square.label] - 4 < top + height + 1 or planting in ("PE1", "LE1")
        others = set(rows) - {square.label for square in months.squares(where)}
        assert not [label for label in others if top < rows[label] - 4 < top + height]


def test_every_bar_says_its_squares_and_days() -> None:
    found = {
        (planting, where, course.get("data-first"), course.get("data-last"))
        for (planting, where), course in courses(drawn()).items()
    }
    expected = set()
    for one in usual():
        days = one.courses[0].first.isoformat(), one.courses[0].last.isoformat()
        where = in_words((course.square for course in one.courses), with_bed=False)
        expected.add((one.planting, where, *days))
    assert found == expected


def test_no_bar_covers_another() -> None:
    for planting_strips in (usual(), crowded(40)):
        boxes = [
            (x, y, sum(width for _x, _y, width, _h in grounds), height)
            for course in courses(drawn(planting_strips)).values()
            for grounds in [rects(course, "d-ground")]
            for x, y, _width, height in grounds[:1]
        ]
        for one, other in combinations(boxes, 2):
            assert not overlap(one, other, by=0.05)


def overlap(one: Box, other: Box, by: float) -> bool:
    return (
        one[0] + by < other[0] + other[2]
        and other[0] + by < one[0] + one[2]
        and one[1] + by < other[1] + other[3]
        and other[1] + by < one[1] + one[3]
    )


def test_the_plan_lies_behind_pale_and_dotted() -> None:
    root = drawn()
    groups = [each.get("class") for each in root if each.tag == f"{SVG}g"]
    assert groups.index("d-meant-all") < groups.index("d-bars"), "what happened covers the plan"
    (band,) = of_class(root, "d-meant")
    assert band.get("stroke-dasharray") == "0.1 3.2"
    (bar,) = [course for (planting, _where), course in courses(root).items() if planting == "CA1"]
    (x, y, _width, height) = rects(root, "d-meant")[0]
    (bar_x, bar_y, _w, bar_height) = rects(bar, "d-ground")[0]
    assert x < bar_x, "meant on 1 April, sown on the 14th"
    assert y < bar_y < bar_y + bar_height < y + height, "the band shows above and below the bar"


def test_a_planting_that_never_came_has_its_letters_on_the_band() -> None:
    never = planting_strip(
        "OK1", "A1", day(5, 1), day(6, 1), letters="Ok", meant=("A1", day(5, 1), day(7, 1))
    )
    root = drawn((replace(never, courses=()),))
    assert words(of_class(root, "d-meant-all")[0]) == ["Ok"]
    assert not of_class(root, "d-spell")


@pytest.mark.parametrize(
    ("grade", "dash"), [(Grade.IMPLIED, None), (Grade.SUPPOSED, "4 2.5"), (Grade.PLANNED, "0.1 3.2")]
)
def test_the_line_tells_how_well_it_is_known(grade: Grade, dash: str | None) -> None:
    root = drawn((planting_strip("CA1", "A1", day(4, 1), day(6, 1), grade=grade),))
    (outline,) = of_class(root, "d-outline")
    assert outline.get("stroke-dasharray") == dash
    across = [x for x, _y in corners(outline.get("d", ""))]
    grounds = rects(root, "d-ground")
    assert min(across) == pytest.approx(grounds[0][0], abs=0.02)
    assert max(across) == pytest.approx(grounds[-1][0] + grounds[-1][2], abs=0.02)


def test_no_stage_rests_on_colour_alone() -> None:
    """Seeds lie in drills, plants widen as they grow, and what bears has its fruit on it."""
    root = drawn((planting_strip("CA1", "A1", day(4, 1), day(9, 1)),))
    (bar,) = of_class(root, "d-spell")
    assert [each.get("fill") for each in of_class(bar, "d-woven")] == ["url(#s-stubble)", "url(#s-drills)"]
    grown = [each.get("href") for each in of_class(bar, "d-grown")]
    assert grown == sorted(grown, key=lambda one: ("bearing" in str(one), str(one)))
    assert len(set(grown)) == 4, "three sizes that grow, and one that bears"
    bearing = next(each for each in root.iter() if f"#{each.get('id')}" == grown[-1])
    assert of_class(bearing, "d-fruit")


def test_what_is_over_or_lost_has_its_ground_up_to_what_follows_or_the_end_of_the_month() -> None:
    one = planting_strip("CA1", "A1", day(4, 1), day(5, 10))
    lost = planting_strip("CA2", "C1", day(4, 1), day(5, 10), lost=True)
    for following, last in (
        ((), day(5, 31)),
        ((planting_strip("BB1", "A1", day(5, 20), day(7, 1)),), day(5, 19)),
    ):
        root = drawn((one, lost, *following))
        left, _top, width, _height = plot(root)
        after = of_class(courses(root)["CA1", "A1"], "d-after")[0]
        x, _y, wide, _h = place(of_class(after, "d-ground")[0])
        assert x == pytest.approx(left + width * 71 / SPAN.days, abs=0.02), "from 11 May"
        ends = left + width * ((last - SPAN.first).days + 1) / SPAN.days
        assert x + wide == pytest.approx(ends, abs=0.02)
        grounds = {
            which: [each.get("fill") for each in of_class(of_class(bar, "d-after")[0], "d-woven")]
            for (which, _where), bar in courses(root).items()
            if which != "BB1"
        }
        assert grounds == {"CA1": ["url(#s-stubble)"], "CA2": ["url(#s-lattice)"]}


@pytest.mark.parametrize("narrow", [False, True])
def test_a_loss_is_crossed_also_where_the_bar_is_short(narrow: bool) -> None:
    lost = {one.planting for one in usual() if one.courses[0].lost}
    crossed = {
        planting_strip.get("data-planting")
        for planting_strip in of_class(drawn(narrow=narrow), "d-planting-strip")
        if of_class(planting_strip, "d-end-lost")
    }
    assert crossed == lost == {"LH1", "OK1"}


@pytest.mark.parametrize("narrow", [False, True])
@pytest.mark.parametrize("count", [1, 40])
def test_letters_stand_clear_of_each_other_and_on_the_sheet(narrow: bool, count: int) -> None:
    root = drawn(crowded(count), narrow=narrow)
    width, height = (float(each) for each in root.get("viewBox", "").split()[2:])
    boxes = []
    for each in root.iter(f"{SVG}text"):
        size = float(each.get("font-size", ""))
        wide = width_of("".join(each.itertext()), size)
        shift = {"middle": wide / 2, "end": wide}.get(each.get("text-anchor", ""), 0)
        box = (float(each.get("x", "")) - shift, float(each.get("y", "")) - size * 0.75, wide, size * 0.75)
        assert box[0] >= 0
        assert box[0] + box[2] <= width + 0.1
        assert 0 <= box[1] <= box[1] + box[3] <= height
        boxes.append(box)
    for one, other in combinations(boxes, 2):
        assert not overlap(one, other, by=1.0)


@pytest.mark.parametrize("narrow", [False, True])
def test_the_name_of_a_link_begins_with_its_crop_and_holds_what_it_shows(narrow: bool) -> None:
    """WCAG 2.2, 2.5.3 (label in name): a planting of several bars shows its name once within its link."""
    links = {each.planting: f"plants/{each.planting}/" for each in usual()}
    root = drawn(narrow=narrow, links=links)
    found = list(root.iter(f"{SVG}a"))
    assert found
    for each in found:
        assert (each.get("aria-label") or "").startswith("carrot")
        assert " ".join(words(each)) in (each.get("aria-label") or "")
    assert sorted(words(root)) == sorted(words(drawn(narrow=narrow))), "and no letters are lost"


@pytest.mark.parametrize(("narrow", "least"), [(True, 328), (False, 677)])
def test_text_is_readable_on_the_narrowest_page_a_strip_is_shown_on(narrow: bool, least: float) -> None:
    """A page of 360 pixels leaves 328 to a drawing; one of 46 rem (736 pixels), with margins of 4 %, 677."""
    root = drawn(narrow=narrow)
    scale = min(1, least / float(root.get("viewBox", "").split()[2]))
    assert scale == 1 or not narrow
    assert min(float(each.get("font-size", "")) for each in root.iter(f"{SVG}text")) * scale >= 11


@pytest.mark.parametrize("narrow", [False, True])
def test_months_are_named_above_and_below(narrow: bool) -> None:
    (names,) = of_class(drawn(narrow=narrow), "d-months")
    every = ["Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov"]
    assert words(names) == [name for name in every for _side in range(2)]


@pytest.mark.parametrize(
    "span",
    [
        Span(first=date(2026, 5, 4), last=date(2026, 5, 4)),
        Span(first=date(2026, 9, 1), last=date(2027, 8, 31)),
        Span(first=date(2026, 3, 30), last=date(2026, 6, 2)),
        Span(first=date(2026, 1, 1), last=date(2028, 12, 31)),
    ],
    ids=["one day", "over the new year", "odd ends", "three years"],
)
@pytest.mark.parametrize("narrow", [False, True])
def test_any_season_has_a_strip(span: Span, narrow: bool) -> None:
    one = planting_strip("CA1", "A1", span.first, span.last, stages=[GROWING])
    root = drawn((one,), span=span, narrow=narrow, today=span.last)
    left, _top, width, _height = plot(root)
    ((x, _y, wide, _h),) = rects(root, "d-ground")
    assert x == pytest.approx(left, abs=0.02)
    assert wide == pytest.approx(width, abs=0.02)
    for one_, other in pairwise(list(of_class(root, "d-months")[0])[::2]):
        room = (width_of("".join(one_.itertext()), 11) + width_of("".join(other.itertext()), 11)) / 2
        assert float(other.get("x", "")) - float(one_.get("x", "")) >= room


def test_the_day_of_the_records_is_marked_in_its_season_only() -> None:
    root = drawn()
    (line,) = of_class(root, "d-today")
    left, _top, width, _height = plot(root)
    after = (TODAY - SPAN.first).days + 1
    assert float(line.get("x1", "")) == pytest.approx(left + width * after / SPAN.days, abs=0.02)
    assert words(of_class(root, "d-now")[0]) == ["14 Sep"]
    for other in (None, SPAN.first - timedelta(days=1), SPAN.last + timedelta(days=1)):
        assert not of_class(drawn(today=other), "d-today")


@pytest.mark.parametrize(
    ("today", "said"),
    [
        (TODAY, "Recorded to 14 September 2026; later days are planned."),
        (SPAN.last, "The season is over."),
        (None, "All of it is planned."),
    ],
)
def test_title_and_description_say_what_it_is(today: date | None, said: str) -> None:
    root = drawn(today=today)
    assert root[0].text == "The long bed in 2026"
    assert root[1].text == (
        "30 squares, those alike in one line, and 7 plantings, each a bar from its first day "
        f"to its last. {said} The table says the same."
    )
    assert (root.get("aria-labelledby"), root.get("aria-describedby")) == ("s-title", "s-desc")


def test_of_one_square_and_one_planting_no_each_and_no_those_is_said() -> None:
    pot = Bed(name="long", title="The pot", columns=1, rows=1)
    told = drawn(usual()[:1], bed=pot)[1].text
    assert told
    assert told.startswith("1 square and 1 planting, a bar from its first day to its last. ")


def test_bars_lead_to_their_plantings() -> None:
    root = drawn(links={"CA1": "plants/CA1/index.html", "LH1": "plants/LH1/index.html"})
    links = {each.get("href"): each.get("aria-label") for each in root.iter(f"{SVG}a")}
    assert links == {
        "plants/CA1/index.html": "carrot (CA1), A1:B1, 14 Apr to 20 Jul",
        "plants/LH1/index.html": "carrot Lh (LH1), C1, 11 Apr to 24 Apr, lost",
    }
    assert root.get("role") == "group", "an image would hide its links"
    assert drawn().get("role") == "img"


def test_an_empty_season_is_a_ruled_sheet() -> None:
    root = drawn((), today=None)
    assert not of_class(root, "d-spell")
    assert "0 plantings" in (root[1].text or "")
    assert words(of_class(root, "d-ruled")[0]) == ["A1:J1", "A2:J2", "A3:J3"]


def test_squares_that_are_not_there_have_no_line() -> None:
    root = drawn((), bed=months.ELBOW)
    names = words(of_class(root, "d-ruled")[0])
    assert names == ["A1:F1", "A2:F2", "A3:C3", "A4:C4", "A5:C5"]


def test_a_bar_shows_its_name_where_it_has_room_else_its_letters() -> None:
    for last, shown in (day(6, 1), "beans"), (day(4, 12), "Be"):
        root = drawn((planting_strip("X", "A1", day(4, 1), last, letters="", name="beans"),))
        assert words(of_class(root, "d-bars")[0]) == [shown]


def test_the_same_season_is_the_same_drawing() -> None:
    both = [
        season_strip(months.LONG, SPAN, planting_strips, ident="s", title="t", links={}, today=TODAY)
        for planting_strips in (usual(), usual())
    ]
    assert both[0] == both[1]
    root = parsed(both[0])
    ids = [each.get("id", "") for each in root.iter() if each.get("id")]
    assert len(ids) == len(set(ids))
    assert all(each.startswith("s") for each in ids)


def test_the_key_tells_what_is_shown_and_nothing_else() -> None:
    key = [(item.kind, item.words, item.detail) for item in season_key(usual(), ident="k")]
    assert [words_ for kind, words_, _detail in key if kind == "stage"] == [
        "sown",
        "growing",
        "bearing",
        "over",
        "lost",
    ]
    assert [words_ for kind, words_, _detail in key if kind == "grade"] == [
        "seen or implied by other records",
        "supposed from the plan",
        "planned",
    ]
    assert [words_ for kind, words_, _detail in key if kind == "mark"] == [
        "what the plan meant, behind what came of it",
        "at the end of a bar: lost, or failed",
    ]
    plain = season_key((planting_strip("CA1", "A1", day(4, 1), day(6, 1), stages=[SOWN]),), ident="k")
    assert [(item.kind, item.words) for item in plain] == [
        ("stage", "sown"),
        ("stage", "over"),
        ("grade", "seen or implied by other records"),
    ]
