"""Small whole gardens, invented by chance and the same for the same number.

Each is a folder of text in the format of ``docs/files.md``: one or two small beds, one to three
seasons, and of each season those papers that the number says. Nothing of Tallybed makes them, so
that what Tallybed says of them can be held against the text itself.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import date, timedelta
from pathlib import Path
from random import Random

from tests.small_garden import written

ONE_DAY = timedelta(days=1)
MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
CROPS = {
    "radish": ("sow", "RA"),
    "spinach": ("sow", "SP"),
    "carrot": ("sow", "CA"),
    "chard": ("sow", "CH"),
    "bean-bush": ("sow", "BB"),
    "garlic": ("sow", "GA"),
    "onion-bulb": ("set out", "ON"),
    "tomato-indeterminate": ("set out", "TO"),
    "squash-winter": ("set out", "WS"),
    "basil": ("set out", "BA"),
}
"""Crops of the library, how each comes into the bed, and how its tags begin."""
CURED = ("garlic", "onion-bulb")
SEASONS = (
    ("Mar 1", "Oct 31"),
    ("Apr 1", "Jun 30"),
    ("Sep 1", "Apr 30"),
    ("Oct 15", "Feb 10"),
    ("Sep 20", "Jan 15"),
    ("Jul 1", "Jun 30"),
    ("May 5", "Jul 20"),
)
PLACES = ("food pantry", "kitchen", "compost", "the Food Pantry", "visitors")
WORDS = ("Cold and wet.", "All is *well*.", "- one\n- two", "See [spinach](crop:spinach).", "")


@dataclass(frozen=True)
class Generated:
    """One garden: its number, its files below ``content``, and what is special about it."""

    seed: int
    files: dict[str, str]
    traits: frozenset[str]

    def write(self, root: Path) -> Path:
        """Write the folder and return it."""
        written(root, self.files)
        (root / "content").mkdir(parents=True, exist_ok=True)
        return root


def garden(seed: int) -> Generated:
    """Return the garden of a number."""
    maker = _Maker(seed=seed, chance=Random(seed))
    return maker.made()


@dataclass
class _Bed:
    name: str
    columns: int
    rows: int
    left_out: frozenset[str] = frozenset()

    @property
    def squares(self) -> list[str]:
        every = (f"{_letter(x)}{y + 1}" for y in range(self.rows) for x in range(self.columns))
        return [one for one in every if one not in self.left_out]


@dataclass
class _Stand:
    """A row of the plan, as the makers of log and ledger need it."""

    crop: str
    tag: str
    squares: list[str]
    """With their bed: ``long/A1``."""
    begins: date
    until: date
    planned: bool = True


@dataclass
class _Maker:
    seed: int
    chance: Random
    traits: set[str] = field(default_factory=set)
    files: dict[str, str] = field(default_factory=dict)
    beds: list[_Bed] = field(default_factory=list)
    metric: bool = False

    def made(self) -> Generated:
        self.metric = self._has("metric", 0.3)
        self.beds = list(self._beds())
        start, end = self.chance.choice(SEASONS)
        years = self._years()
        self.files["garden.yaml"] = self._ground(start, end, years)
        carried: list[_Stand] = []
        for year in years:
            first = _day(year, start)
            last = _day(year + (_day(year, end) < first), end)
            if last.year > first.year:
                self.traits.add("across the new year")
            carried = self._season(year, first, last, carried, alone=year != years[-1])
        return Generated(seed=self.seed, files=self.files, traits=frozenset(self.traits))

    def _has(self, trait: str, share: float) -> bool:
        found = self.chance.random() < share
        if found:
            self.traits.add(trait)
        return found

    def _beds(self) -> Iterator[_Bed]:
        kind = self.chance.choice(("one square", "strip", "plain", "plain", "plain", "L-shaped"))
        self.traits.add(kind)
        if kind == "one square":
            yield _Bed("dot", 1, 1)
        elif kind == "strip":
            length = self.chance.choice((9, 27))
            yield _Bed("strip", *((length, 1) if self.chance.random() < 0.5 else (1, length)))
        elif kind == "L-shaped":
            yield _Bed("elbow", 3, 3, frozenset(("C2", "B3", "C3")))
        else:
            yield _Bed("long", self.chance.randint(2, 4), self.chance.randint(1, 2))
        if self._has("two beds", 0.35):
            yield _Bed("back", 2, 1)

    def _years(self) -> list[int]:
        number = self.chance.choice((1, 1, 2, 3))
        if number > 1:
            self.traits.add("several seasons")
        return list(range(2026 - number, 2026))

    def _ground(self, start: str, end: str, years: list[int]) -> str:
        southern = self._has("southern", 0.3)
        lines = [f"name: Garden {self.seed}", f"latitude: {-37.5 if southern else 40.25}", "longitude: 20"]
        lines += [f"units: {'kilograms' if self.metric else 'pounds'}"]
        lines += [f"season: {{start: {start}, end: {end}}}"]
        if self._has("freeze dates", 0.4):
            spring, fall = ("Sep 20", "May 20") if southern else ("Apr 20", "Oct 12")
            lines += [f"freeze dates: {{last spring: {spring}, first fall: {fall}}}"]
        if self._has("address", 0.15):
            lines += ["address: https://beds.example/"]
        closed = [year for year in years[:-1] if self.chance.random() < 0.7]
        if closed:
            self.traits.add("closed")
            lines += ["seasons:", *(f"  {year}: {{closed: yes}}" for year in closed)]
        lines += ["beds:"]
        for bed in self.beds:
            square = ", square: 30 cm" if self.metric else ""
            gone = f", omitted: [{', '.join(sorted(bed.left_out))}]" if bed.left_out else ""
            size = f"length: {bed.columns} squares, width: {bed.rows} squares"
            lines += [f"  - {{name: {bed.name}, {size}{square}{gone}}}"]
        return "\n".join(lines) + "\n"

    def _season(
        self, year: int, first: date, last: date, carried: list[_Stand], *, alone: bool
    ) -> list[_Stand]:
        stands = self._stands(first, last, carried)
        rotation_alone = alone and self._has("rotation alone", 0.3)
        has_plan = rotation_alone or not self._has("no plan", 0.2)
        has_log = not rotation_alone and not self._has("no log", 0.25)
        has_ledger = not rotation_alone and not self._has("no ledger", 0.2)
        for stand in stands:
            stand.planned = has_plan
        folder = str(year)
        if has_plan:
            self.files[f"{folder}/plan.yaml"] = "".join(self._plan(stands, carried, year, last))
        if has_log:
            self._log(folder, stands, first, last)
        if has_ledger:
            self.files[f"{folder}/harvest.yaml"] = "".join(self._ledger(stands, first, last))
        if not (has_plan or has_log or has_ledger):
            self.files[f"{folder}/harvest.yaml"] = ""
        return [one for one in stands if one.until > last and has_plan]

    def _stands(self, first: date, last: date, carried: list[_Stand]) -> list[_Stand]:
        found = []
        for number, one in enumerate(carried):
            self.traits.add("carried")
            until = min(first + self._days(20, 120), last)
            found.append(_Stand(one.crop, f"{CROPS[one.crop][1]}9{number}", one.squares, first, until))
        if self._has("nothing planted", 0.06):
            return found
        taken = {square for one in found for square in one.squares}
        free = [f"{bed.name}/{one}" for bed in self.beds for one in bed.squares]
        free = [square for square in free if square not in taken]
        number = 1
        while free and len(found) < 6:
            crop = self.chance.choice(tuple(CROPS))
            many = min(len(free), self.chance.choice((1, 1, 2, 3)))
            own, free = free[:many], free[many:]
            begins = first + self._days(0, max((last - first).days // 2, 1))
            until = begins + self._days(20, 150)
            found.append(_Stand(crop, f"{CROPS[crop][1]}{number}", own, begins, until))
            number += 1
            if until < last and self.chance.random() < 0.4:  # another crop in the same squares later
                found.append(_Stand("radish", f"RA{number}", own, until, until + self._days(10, 40)))
                number += 1
        return found

    def _plan(self, stands: list[_Stand], carried: list[_Stand], year: int, last: date) -> Iterator[str]:
        before = {one.tag for one in stands[: len(carried)]}
        for one in stands:
            how, _tag = CROPS[one.crop]
            begins = f"{how}: {one.begins}" if one.tag not in before else f"carried from: {year - 1}"
            parts = [f"crop: {one.crop}", f"squares: [{', '.join(one.squares)}]", begins]
            if one.until <= last and self.chance.random() < 0.9:
                parts += [f"until: {one.until}"]
            if self.chance.random() < 0.9:
                parts += [f"tag: {one.tag}"]
            else:
                one.tag = ""
            if self.chance.random() < 0.3:
                parts += [f"plants: {self.chance.randint(1, 9)}"]
            if self.chance.random() < 0.1:
                self.traits.add("dropped")
                parts += [f"dropped: {min(one.begins + self._days(0, 30), last)}", "because: rain"]
            yield f"- {{{', '.join(parts)}}}\n"

    def _log(self, folder: str, stands: list[_Stand], first: date, last: date) -> None:
        done: dict[date, list[str]] = {}

        def tell(day: date, words: str) -> None:
            if first <= day <= last:
                done.setdefault(day, []).append(words)

        for one in stands:
            how, _tag = CROPS[one.crop]
            where = f"{one.crop}, squares: [{', '.join(one.squares)}]" + (
                f", tag: {one.tag}" if one.tag else ""
            )
            if self.chance.random() < 0.6:
                tell(one.begins, f"{how}: {where}")
            if self.chance.random() < 0.3:
                tell(one.begins + self._days(5, 30), f"thin: {where}")
            if self.chance.random() < 0.25:
                verb = self.chance.choice(("lost", "clear", "failed"))
                tell(one.begins + self._days(10, 90), f"{verb}: {where}")
        if self.chance.random() < 0.5:
            tell(first + self._days(0, 60), f"water: bed, squares: {self.beds[0].name}, amount: a can")
        if not done and self.chance.random() < 0.7:
            done[first] = []
        for day, lines in sorted(done.items()):
            work = "done:\n" + "".join(f"  - {{{words}}}\n" for words in lines) if lines else ""
            prose = self.chance.choice(WORDS)
            text = f"---\ntitle: Visit of {day}\ndate: {day}\n{work}---\n{prose}\n"
            self.files[f"{folder}/log/{day}-visit.md"] = text

    def _ledger(self, stands: list[_Stand], first: date, last: date) -> Iterator[str]:
        if self._has("empty ledger", 0.1):
            return
        unweighed = self._has("nothing weighed", 0.1)
        sparse = self._has("sparse months", 0.4)
        for one in stands:
            for day in self._picked(one, first, last, sparse=sparse):
                yield self._row(one, day, unweighed=unweighed)
            if one.crop in CURED and one.tag and one.until <= last and not unweighed:
                yield from self._cured(one, last)
        if stands and self._has("mixed bowl", 0.35):
            day = min(stands[0].begins + self._days(20, 60), last)
            weight = "not weighed" if unweighed else self._weight()
            yield f"- {{date: {day}, mixed: [spinach, radish, chard], weight: {weight}}}\n"
        if self._has("a crop that nobody planted", 0.15):
            yield f"- {{date: {first + self._days(0, 40)}, crop: kale, count: 3, weight: {self._weight()}}}\n"

    def _picked(self, one: _Stand, first: date, last: date, *, sparse: bool) -> Iterator[date]:
        if sparse:  # the days lie months apart, so that some month between two has none
            days = [one.begins + self._days(5, 20), one.begins + self._days(70, 150)]
        else:
            days = [one.begins + self._days(25, 80) for _ in range(self.chance.randint(0, 4))]
        yield from (day for day in days if first <= day <= last)

    def _row(self, one: _Stand, day: date, *, unweighed: bool) -> str:
        parts = [f"date: {day}"]
        if one.planned and one.tag and self.chance.random() < 0.6:
            parts += [f"tag: {one.tag}"]
        else:
            parts += [f"crop: {one.crop}"]
            if self.chance.random() < 0.6:
                parts += [f"squares: [{', '.join(one.squares)}]"]
        if unweighed or self.chance.random() < 0.15:
            parts += ["weight: not weighed"]
        else:
            parts += [f"weight: {'about ' if self.chance.random() < 0.1 else ''}{self._weight()}"]
            if self.chance.random() < 0.3:
                place = self.chance.choice(PLACES)
                parts += [f"to: {place}"]
            elif self.chance.random() < 0.15:
                parts += ["to: {kitchen: 1 g, food pantry: the rest}"]
        if self.chance.random() < 0.3:
            parts += [f"count: {self.chance.randint(1, 30)}"]
        return f"- {{{', '.join(parts)}}}\n"

    def _cured(self, one: _Stand, last: date) -> Iterator[str]:
        how = self.chance.choice(("cured alone", "both", "neither"))
        if how == "neither":
            return
        self.traits.add(how)
        day = one.until
        later = min(day + self._days(10, 30), last)
        if how == "both":
            yield f"- {{date: {day}, tag: {one.tag}, weight: {self._weight()}}}\n" if one.planned else ""
        if one.planned:
            row = f"date: {day}, tag: {one.tag}, state: cured, weighed: {later}, weight: {self._weight()}"
            yield f"- {{{row}}}\n"

    def _weight(self) -> str:
        grams = self.chance.randint(5, 3000)
        if self.metric:
            return self.chance.choice((f"{grams} g", f"{grams / 1000} kg"))
        pounds, ounces = divmod(max(grams // 28, 1), 16)
        if pounds and ounces:
            return f"{pounds} lb {ounces} oz"
        return f"{pounds} lb" if pounds else f"{ounces} oz"

    def _days(self, least: int, most: int) -> timedelta:
        return timedelta(days=self.chance.randint(least, max(most, least)))


def _letter(column: int) -> str:
    return chr(ord("A") + column) if column < 26 else f"A{chr(ord('A') + column - 26)}"


def _day(year: int, words: str) -> date:
    month, number = words.split()
    return date(year, MONTHS.index(month) + 1, int(number))
