"""What a drawing shows, in words: for those who hear it, and for the names of its links."""

from __future__ import annotations

from collections.abc import Collection, Iterable

from tallybed.drawing.base import look
from tallybed.drawing.bedmap import changed_hands
from tallybed.drawing.bedmap.marks import shown
from tallybed.drawing.bedmap.view import Group, View, gone_since, since
from tallybed.garden.crops import everyday, kind_after
from tallybed.garden.days import in_full, short
from tallybed.garden.plurals import figured
from tallybed.garden.squares import in_words
from tallybed.garden.units import Showing
from tallybed.reckoning.calendar.month import DrawnPlanting
from tallybed.reckoning.calendar.plant_size import Size, Sizes
from tallybed.reckoning.squares.occupancy import Grade

_CORNER = {False: "top left", True: "top right"}


def title_of(view: View) -> str:
    """Return the drawing's name."""
    month = view.month
    manner = {"recorded": "as recorded", "running": "as of", "planned": "as planned"}[month.kind]
    day = (
        ""
        if month.kind == "planned"
        else f" {'to ' if month.kind == 'recorded' else ''}{in_full(month.as_of)}"
    )
    return f"{month.bed.title}, {month.month}, {manner}{day}"


def status_of(view: View) -> str:
    """Return what the drawing rests on, for under its title: ``May 2026, as of 14 May``."""
    month = view.month
    match month.kind:
        case "planned":
            return f"{month.month}, as planned"
        case "running":
            return f"{month.month}, as of {short(month.as_of)}"
        case _:
            return f"{month.month}, as recorded to {short(month.as_of)}"


def described(view: View, *, turned: bool, linked: Collection[str] = ()) -> str:
    """Return who stands where, in sentences; what plantings that are ``linked`` do, their links say."""
    bed = view.month.bed
    standing = view.standing
    held = {square for group in standing for square in group.squares}
    plantings = len({group.drawn.planting for group in standing})
    sentences = [
        f"{figured(len(bed.squares), 'square')} of a bed {bed.columns} by {bed.rows}, "
        f"the marked corner at the {_CORNER[turned]}.",
        f"On {in_full(view.month.as_of)}, {figured(plantings, 'planting')} in {figured(len(held), 'square')}."
        if plantings
        else f"On {in_full(view.month.as_of)}, nothing stands in it.",
    ]
    sentences += [f"{told(group)}." for group in view.groups if group.drawn.planting not in linked]
    sentences += [changed_hands.told(each) for each in view.changed]
    sentences += [sentence for mark in shown(view) for sentence in mark.told(view)]
    return " ".join(sentences)


def told(group: Group) -> str:
    """Return one group in words: ``A1:A4: spinach Bloomsdale (SP1), 24 plants, growing, seen``."""
    where = in_words(group.squares, with_bed=False)
    told_of = [named(group)]
    if not group.gone:
        told_of.append(plants_of(group))
    for grade, stage, squares in group.parts:
        place = f" in {in_words(squares, with_bed=False)}" if len(group.parts) > 1 else ""
        told_of.append(f"{look.STAGE_WORDS[stage]}{since(group)}{place}")
        told_of.append(look.GRADE_WORDS[grade])
    if group.gone:
        told_of += sorted({holder.why for holder in group.holders.values() if holder.why})
    if group.drawn.led_out and not group.gone:
        told_of.append(f"led out over side {group.drawn.led_out.side}")
    if group.shares and not group.gone:
        told_of.append("shares its squares")
    return f"{where}: {', '.join(told_of)}"


def link_name(group: Group, shown: Iterable[str]) -> str:
    """Return the name of a group's link: the crop first, then what its tag shows, its squares and stage.

    A name holds the words that are seen (WCAG 2.2, 2.5.3), so that people who
    speak to their machine can say what they see.
    """
    seen = " ".join(shown).replace("\t", " ")
    words = named(group)
    if not words.startswith(seen):
        drawn = group.drawn
        own = everyday(drawn.name, drawn.kind)
        words = f"{drawn.name}{seen.removeprefix(own)}" if seen.startswith(own) else f"{drawn.name} {seen}"
    told_of = [words, in_words(group.squares, with_bed=False)]
    if not (gone_since(group) and " since " in seen):
        told_of.append(f"{' and '.join(sorted(_stages(group)))}{since(group)}")
    grades = sorted({grade for grade, _stage, _squares in group.parts if grade >= Grade.SUPPOSED})
    return ", ".join([*told_of, *(look.GRADE_WORDS[grade] for grade in grades)])


def _stages(group: Group) -> set[str]:
    """Return the stages of a group in words."""
    return {look.STAGE_WORDS[stage] for _grade, stage, _squares in group.parts}


def named(group: Group) -> str:
    """Return crop and variety of a group, and its tag where it has one."""
    drawn = group.drawn
    words = f"{drawn.name} {drawn.variety}".strip()
    return f"{words} ({drawn.tag})" if drawn.tag else words


def listed_words(drawn: DrawnPlanting) -> str:
    """Return the same as a list has it: ``tomato, indeterminate, ‘Library Red’ (TO1)``."""
    name = kind_after(drawn.name, drawn.kind)
    words = f"{name}{',' if drawn.kind else ''} ‘{drawn.variety}’" if drawn.variety else name
    return f"{words} ({drawn.tag})" if drawn.tag else words


def plants_of(group: Group) -> str:
    """Return how many plants stand, or that nobody counted them."""
    if group.plants is None:
        return "plants not counted, drawn at their spacing" if group.spots else "plants not counted"
    return figured(group.plants, "plant")


def grown(sizes: Sizes, showing: Showing) -> str:
    """Return how large a crop grows: ``grows about 1 ft 9 in high and 1 ft wide``.

    ``about`` stands before what is not printed as it stands; vines are told by how far they run.
    """
    parts = []
    if sizes.height:
        parts.append(f"{_measured(sizes.height, showing)} high")
    if sizes.spread and not sizes.spread.of_vines:
        parts.append(f"{_measured(sizes.spread, showing)} wide")
    words = f"grows {' and '.join(parts)}" if parts else ""
    if sizes.spread and sizes.spread.of_vines:
        run = f"vines run {_measured(sizes.spread, showing)}"
        words = f"{words}, {run}" if words else run
    return words


def _measured(size: Size, showing: Showing) -> str:
    """Return a size in words, with ``about`` where it is not printed as it stands."""
    return f"{'about ' if size.about else ''}{showing.grown(size.length)}"
