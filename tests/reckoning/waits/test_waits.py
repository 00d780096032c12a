"""Every wait at its boundary: the last day inside, the first safe day, and the day after.

Each row of the tables names the regulation or the line of a label that it stands for. A wait
counts from the day of the treatment: earliest harvest is that day and the label's days added
(rule of calculation: common practice, no source; the label's own words govern). The names,
labels and dates are invented.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta
from pathlib import Path

import pytest

from tallybed.garden.squares import in_words
from tallybed.reading.folder.garden_folder import read
from tallybed.reckoning.unpublished import readable
from tallybed.reckoning.waits.spans import first_safe
from tallybed.reckoning.waits.words import may_be_from
from tallybed.reckoning.year import Year, Years
from tests.small_garden import read_garden, written

GARDEN = """\
name: Test
season: {start: Mar 1, end: Nov 30}
seasons: {2023: {}, 2024: {}}
beds:
  - {name: b, length: 6 squares, width: 2 squares}
"""
ONE_DAY = timedelta(days=1)


@dataclass(frozen=True, kw_only=True)
class Story:
    """A tiny garden with one wait, and the first safe day of one planting in it."""

    name: str
    rule: str
    """The regulation, or the label's line."""
    plan: str
    log: dict[str, str]
    """Lines of ``done`` by day."""
    planting: str
    square: str = "A1"
    safe: date | None
    inside_from: date
    cleared: date | None = None
    season: str = "2024"
    earlier: dict[str, str] = field(default_factory=dict)
    """Plans of earlier seasons."""


SPINACH = "- {crop: spinach, tag: SP1, squares: A1:B2, sow: Apr 1, until: Aug 1}\n"
TOMATO = "- {crop: tomato-indeterminate, tag: TO1, squares: A1:B2, set out: May 10, until: Oct 1}\n"
SOWN = "- {sow: spinach, tag: SP1, squares: A1:B2}"
LABEL = "label: days between the last application and harvest"
RAW_120 = "7 CFR 205.203(c)(1)(ii): 120 days where the edible part touches soil"
RAW_90 = "7 CFR 205.203(c)(1)(iii): 90 days where it does not"
NOT_WRITTEN = "label not written down: not known, never zero (common practice, no source)"


def day(text: str) -> date:
    return date.fromisoformat(text)


STORIES = (
    Story(
        name="seven days",
        rule=LABEL,
        plan=SPINACH,
        log={"2024-04-01": SOWN, "2024-06-10": "- {treat: soap, squares: A1:B2, wait: 7 days}"},
        planting="SP1",
        inside_from=day("2024-06-10"),
        safe=day("2024-06-17"),
    ),
    Story(
        name="zero days",
        rule="label: may be used up to the day of harvest",
        plan=SPINACH,
        log={"2024-06-10": "- {treat: soap, squares: A1:B2, wait: 0 days}"},
        planting="SP1",
        inside_from=day("2024-06-10"),
        safe=day("2024-06-10"),
    ),
    Story(
        name="a wait that is told of what has no label",
        rule="the gardener's own word",
        plan=SPINACH,
        log={"2024-06-10": "- {treat: jet of water, squares: A1:B2, kind: water, wait: 2 days}"},
        planting="SP1",
        inside_from=day("2024-06-10"),
        safe=day("2024-06-12"),
    ),
    Story(
        name="one week is seven days",
        rule=LABEL,
        plan=SPINACH,
        log={"2024-06-10": "- {treat: soap, crop: spinach, wait: 1 week}"},
        planting="SP1",
        inside_from=day("2024-06-10"),
        safe=day("2024-06-17"),
    ),
    Story(
        name="the later of several",
        rule=f"{LABEL}; of several products the latest day",
        plan=SPINACH,
        log={
            "2024-06-10": "- {treat: oil, squares: A1:B2, wait: 7 days}",
            "2024-06-12": "- {treat: soap, squares: A1:B2, wait: 1 day}",
        },
        planting="SP1",
        inside_from=day("2024-06-10"),
        safe=day("2024-06-17"),
    ),
    Story(
        name="over 29 February",
        rule=LABEL,
        plan="- {crop: kale, tag: KA1, squares: A1, carried from: 2022}\n",
        log={"2023-11-30": "- {treat: oil, squares: A1, wait: 100 days}"},
        season="2023",
        planting="KA1",
        inside_from=day("2023-11-30"),
        safe=day("2024-03-09"),
    ),
    Story(
        name="a line without squares reaches its crop's",
        rule=LABEL,
        plan=SPINACH,
        log={"2024-06-10": "- {treat: soap, crop: spinach, wait: 3 days}"},
        planting="SP1",
        square="B2",
        inside_from=day("2024-06-10"),
        safe=day("2024-06-13"),
    ),
    Story(
        name="a line without squares and crop reaches all",
        rule=LABEL,
        plan=SPINACH + "- {crop: kale, tag: KA1, squares: F1, set out: Apr 1}\n",
        log={"2024-06-10": "- {treat: oil, wait: 3 days}"},
        planting="KA1",
        square="F1",
        inside_from=day("2024-06-10"),
        safe=day("2024-06-13"),
    ),
    Story(
        name="who shares the square",
        rule=LABEL,
        plan=TOMATO + "- {crop: basil, tag: BA1, squares: A1, set out: May 20, until: Oct 1, among: TO1}\n",
        log={"2024-06-10": "- {treat: soap, crop: tomato-indeterminate, squares: A1:B2, wait: 5 days}"},
        planting="BA1",
        inside_from=day("2024-06-10"),
        safe=day("2024-06-15"),
    ),
    Story(
        name="moved after it",
        rule=LABEL,
        plan=SPINACH,
        log={
            "2024-04-01": SOWN,
            "2024-06-10": "- {treat: soap, squares: A1, wait: 7 days}",
            "2024-06-12": "- {move: spinach, tag: SP1, squares: A1, to: D1}",
        },
        planting="SP1",
        square="D1",
        inside_from=day("2024-06-12"),
        safe=day("2024-06-17"),
    ),
    Story(
        name="the plan's end is not the end",
        rule=f"{LABEL}; a plan's end is no record of clearing",
        plan="- {crop: spinach, tag: SP1, squares: A1:B2, sow: Apr 1, until: Jun 11}\n",
        log={"2024-06-10": "- {treat: soap, squares: A1:B2, wait: 7 days}"},
        planting="SP1",
        inside_from=day("2024-06-10"),
        safe=day("2024-06-17"),
    ),
    Story(
        name="treated after the plan's end",
        rule=f"{LABEL}; nobody recorded that it had gone",
        plan="- {crop: spinach, tag: SP1, squares: A1:B2, sow: Apr 1, until: Jun 1}\n",
        log={"2024-06-10": "- {treat: soap, squares: A1:B2, wait: 7 days}"},
        planting="SP1",
        inside_from=day("2024-06-10"),
        safe=day("2024-06-17"),
    ),
    Story(
        name="not written",
        rule=NOT_WRITTEN,
        plan=SPINACH,
        log={"2024-06-10": "- {treat: soap, squares: A1:B2}"},
        planting="SP1",
        inside_from=day("2024-06-10"),
        safe=None,
    ),
    Story(
        name="not written and cleared",
        rule=f"{NOT_WRITTEN}; pickings up to the recorded clearing are inside",
        plan=SPINACH,
        log={
            "2024-04-01": SOWN,
            "2024-06-10": "- {treat: soap, squares: A1:B2}",
            "2024-06-20": "- {clear: spinach, tag: SP1, squares: A1:B2}",
        },
        planting="SP1",
        inside_from=day("2024-06-10"),
        safe=None,
        cleared=day("2024-06-20"),
    ),
    Story(
        name="of two the one not known",
        rule=NOT_WRITTEN,
        plan=SPINACH,
        log={
            "2024-06-10": "- {treat: soap, squares: A1:B2, wait: 1 day}",
            "2024-06-11": "- {treat: oil, squares: A1:B2}",
        },
        planting="SP1",
        inside_from=day("2024-06-10"),
        safe=None,
    ),
    Story(
        name="the next crop, where the label says so",
        rule="label: do not harvest crops planted here within 30 days (words recorded)",
        plan=SPINACH + "- {crop: radish, tag: RA1, squares: A1, sow: Jun 20, until: Aug 1}\n",
        log={
            "2024-04-01": SOWN,
            "2024-06-10": "- {treat: soap, squares: A1:B2, wait: 30 days, next crop: yes}",
            "2024-06-18": "- {clear: spinach, tag: SP1, squares: A1:B2}",
            "2024-06-20": "- {sow: radish, tag: RA1, squares: A1}",
        },
        planting="RA1",
        inside_from=day("2024-06-20"),
        safe=day("2024-07-10"),
    ),
    Story(
        name="the next crop in the next season, over 29 February",
        rule="label: do not harvest crops planted here within 150 days (words recorded)",
        plan="",
        earlier={
            "2023": "- {crop: kale, tag: KA1, squares: A1, set out: May 1, until: Nov 1}\n",
            "2024": "- {crop: spinach, tag: SP1, squares: A1, sow: Mar 20, until: Jun 1}\n",
        },
        log={"2023-11-20": "- {treat: soap, squares: A1, wait: 150 days, next crop: yes}"},
        season="2024",
        planting="SP1",
        inside_from=day("2024-03-20"),
        safe=day("2024-04-18"),
    ),
    Story(
        name="raw manure under leaves",
        rule=RAW_120,
        plan=SPINACH,
        log={"2024-03-05": "- {amend: manure, squares: A1:B2, manure: raw}"},
        planting="SP1",
        inside_from=day("2024-04-01"),
        safe=day("2024-07-03"),
    ),
    Story(
        name="raw manure under fruit held off the soil",
        rule=RAW_90,
        plan=TOMATO,
        log={"2024-03-05": "- {amend: manure, squares: A1:B2, manure: raw}"},
        planting="TO1",
        inside_from=day("2024-05-10"),
        safe=day("2024-06-03"),
    ),
    Story(
        name="aged manure without a word of it",
        rule=f"{RAW_120}; manure that met no compost rule is raw",
        plan=SPINACH,
        log={"2024-04-05": "- {feed: aged cow manure, squares: A1:B2}"},
        planting="SP1",
        inside_from=day("2024-04-05"),
        safe=day("2024-08-03"),
    ),
    Story(
        name="manure told in the amount",
        rule=f"{RAW_120}; what was fed is named there",
        plan=SPINACH,
        log={"2024-04-05": "- {feed: spinach, squares: A1:B2, amount: a can of manure tea}"},
        planting="SP1",
        inside_from=day("2024-04-05"),
        safe=day("2024-08-03"),
    ),
    Story(
        name="litter of hens and leaves",
        rule=f"{RAW_120}; bedding of livestock is manure (7 CFR 205.2, from memory)",
        plan=SPINACH,
        log={"2024-04-05": "- {amend: poultry litter and leaf litter, squares: A1:B2}"},
        planting="SP1",
        inside_from=day("2024-04-05"),
        safe=day("2024-08-03"),
    ),
    Story(
        name="muck, as manure is called in Britain",
        rule=f"{RAW_120}; the word is from memory",
        plan=SPINACH,
        log={"2024-04-05": "- {amend: well-rotted muck, squares: A1:B2}"},
        planting="SP1",
        inside_from=day("2024-04-05"),
        safe=day("2024-08-03"),
    ),
    Story(
        name="compost with manure of unrecorded heat",
        rule="7 CFR 205.203(c)(2): 131 to 170 degrees F, or it is raw",
        plan=SPINACH,
        log={"2024-04-05": "- {amend: compost, squares: A1:B2, manure: composted}"},
        planting="SP1",
        inside_from=day("2024-04-05"),
        safe=day("2024-08-03"),
    ),
    Story(
        name="compost with manure of which the heat is told to be unknown",
        rule="7 CFR 205.203(c)(2): 131 to 170 degrees F, or it is raw",
        plan=SPINACH,
        log={"2024-04-05": "- {amend: compost, squares: A1:B2, manure: composted, heat: not recorded}"},
        planting="SP1",
        inside_from=day("2024-04-05"),
        safe=day("2024-08-03"),
    ),
    Story(
        name="manure tea that was watered with",
        rule=f"{RAW_120}; by manure put on land, not by the word for it",
        plan=SPINACH,
        log={"2024-04-05": "- {water: manure tea, squares: A1:B2}"},
        planting="SP1",
        inside_from=day("2024-04-05"),
        safe=day("2024-08-03"),
    ),
    Story(
        name="manure of the year before, over 29 February",
        rule=RAW_120,
        plan="",
        earlier={"2024": "- {crop: spinach, tag: SP1, squares: A1, sow: Mar 1, until: Jun 1}\n"},
        log={"2023-11-20": "- {amend: manure, squares: A1:B2, manure: raw}"},
        season="2024",
        planting="SP1",
        inside_from=day("2024-03-01"),
        safe=day("2024-03-19"),
    ),
    Story(
        name="carried over with its wait",
        rule=f"{LABEL}; across years",
        plan="",
        earlier={
            "2023": "- {crop: garlic, tag: GA1, squares: A1, sow: Oct 10}\n",
            "2024": "- {crop: garlic, tag: GA9, squares: A1, carried from: 2023, until: Jul 1}\n",
        },
        log={
            "2023-10-10": "- {sow: garlic, tag: GA1, squares: A1}",
            "2023-11-28": "- {treat: oil, squares: A1, wait: 120 days}",
        },
        planting="GA9",
        inside_from=day("2023-11-28"),
        safe=day("2024-03-27"),
    ),
    Story(
        name="carried over and not known",
        rule=NOT_WRITTEN,
        plan="",
        earlier={
            "2023": "- {crop: garlic, tag: GA1, squares: A1, sow: Oct 10}\n",
            "2024": "- {crop: garlic, tag: GA9, squares: A1, carried from: 2023, until: Jul 1}\n",
        },
        log={"2023-11-28": "- {treat: oil, squares: A1}"},
        planting="GA9",
        inside_from=day("2023-11-28"),
        safe=None,
    ),
)


def laid(story: Story, folder: Path) -> Year:
    """The year of a story, seen from its season's last day."""
    plans = story.earlier or {story.season: story.plan}
    for season in ("2023", "2024"):
        (folder / "content" / season).mkdir(parents=True, exist_ok=True)
    files = {f"{season}/plan.yaml": plan or "[]\n" for season, plan in plans.items()}
    for on, lines in story.log.items():
        files[f"{on[:4]}/log/{on}-visit.md"] = f"---\ntitle: T\ndone:\n  {lines}\n---\n"
    found = read(written(folder, {"garden.yaml": GARDEN, **files}))
    assert found.garden is not None
    assert [one for one in found.findings if one.severity == "error"] == []
    years = Years(garden=found.garden, today=date(2024, 11, 30))
    year = years.named(story.season)
    assert year is not None
    return year


@pytest.mark.parametrize("story", STORIES, ids=lambda story: story.name)
def test_each_wait_at_its_boundary(story: Story, tmp_path: Path):
    year = laid(story, tmp_path)
    own = [
        one
        for one in year.waiting.waits
        if one.planting == story.planting and one.square.label == story.square
    ]
    assert own, [(one.planting, in_words([one.square])) for one in year.waiting.waits]
    first = min(one.begins for one in own)
    assert first == story.inside_from

    def inside(on: date) -> bool:
        return any(one.is_inside(on) for one in own)

    assert not inside(first - ONE_DAY)
    if story.safe is not None:
        assert inside(story.safe - ONE_DAY) == (story.safe > first)
        assert not inside(story.safe)
        assert not inside(story.safe + ONE_DAY)
    elif story.cleared:
        assert inside(story.cleared - ONE_DAY)
        assert inside(story.cleared)
        assert not inside(story.cleared + ONE_DAY)
        assert any(one.is_open(story.cleared - ONE_DAY) for one in own)
        assert not any(one.is_open(story.cleared) for one in own)
    else:
        assert inside(first + timedelta(days=300))


NOT_REACHED = (
    ("by hand has no label", "- {treat: picking, squares: A1:B2, kind: by hand}"),
    ("nor has a barrier", "- {treat: cloth, squares: A1:B2, kind: barrier}"),
    ("nor a jet of water", "- {treat: hose, squares: A1:B2, kind: water}"),
    ("other squares", "- {treat: soap, squares: D1, wait: 7 days}"),
    ("no manure in it", "- {amend: leaf compost, squares: A1:B2, manure: none}"),
    ("compost of which nobody said", "- {amend: compost, squares: A1:B2}"),
    ("a green manure is plants dug in", "- {amend: green manure of clover, squares: A1:B2}"),
    ("so is one told with a hyphen", "- {feed: spinach, squares: A1:B2, amount: a green-manure crop}"),
    ("leaf litter is leaves", "- {amend: leaf litter, squares: A1:B2}"),
    (
        "7 CFR 205.203(c)(2): heat recorded",
        "- {amend: compost, squares: A1:B2, manure: composted, heat: 15 days at 135 F with 5 turnings}",
    ),
)


@pytest.mark.parametrize("line", [row[1] for row in NOT_REACHED], ids=[row[0] for row in NOT_REACHED])
def test_what_starts_no_wait(line: str, tmp_path: Path):
    story = Story(
        name="-",
        rule="-",
        plan=SPINACH,
        log={"2024-06-10": line},
        planting="SP1",
        safe=None,
        inside_from=day("2024-06-10"),
    )
    year = laid(story, tmp_path)
    assert [one for one in year.waiting.waits if one.planting == "SP1"] == []


RE_ENTRY = (
    # rule, keys of the line on 9 May, first whole day, hour it ends
    ("4 hours without a time: from the end of the day, to whole days", "re-entry: 4 hours", "2024-05-11", ""),
    ("24 hours without a time", "re-entry: 24 hours", "2024-05-11", ""),
    ("25 hours without a time", "re-entry: 25 hours", "2024-05-12", ""),
    ("1 day without a time", "re-entry: 1 day", "2024-05-11", ""),
    ("0 hours: the day itself", "re-entry: 0 hours", "2024-05-10", ""),
    ("from the time noted", "re-entry: 4 hours, at: 7:30 pm", "2024-05-10", "2024-05-09T23:30"),
    ("over midnight", "re-entry: 12 hours, at: 7:30 pm", "2024-05-11", "2024-05-10T07:30"),
    ("to midnight", "re-entry: 4 hours, at: 20:00", "2024-05-10", "2024-05-10T00:00"),
    ("until dry, without hours", "re-entry: until dry", "2024-05-11", ""),
)


@pytest.mark.parametrize(("rule", "keys", "first", "ends"), RE_ENTRY, ids=[row[0] for row in RE_ENTRY])
def test_re_entry_at_its_boundary(rule: str, keys: str, first: str, ends: str, tmp_path: Path):
    """Label: stay out until the hours have passed. The count in whole days is our own, the later way."""
    del rule
    story = _one_line(f"- {{treat: soap, squares: A1, wait: 0 days, {keys}}}")
    (kept,) = laid(story, tmp_path).waiting.keep_offs
    assert kept.rule.first_day == day(first)
    assert kept.rule.until == (datetime.fromisoformat(ends) if ends else None)
    assert kept.rule.until_dry is ("until dry" in keys)
    assert not kept.is_open(date(2024, 5, 8))
    assert kept.is_open(date(2024, 5, 9))
    assert kept.is_open(day(first) - ONE_DAY)
    assert not kept.is_open(day(first))
    assert not kept.is_open(day(first) + ONE_DAY)


@pytest.mark.parametrize(
    ("lines", "told"),
    [
        ((), (False, None)),
        (("wait: 7 days", "wait: 3 days"), (True, day("2024-05-16"))),
        (("wait: 3 days", "wait: 7 days"), (True, day("2024-05-16"))),
        (("wait: 7 days", "because: aphids"), (True, None)),
    ],
)
def test_of_several_waits_the_latest_counts_and_one_not_known_before_all(
    lines: tuple[str, ...], told: tuple[bool, date | None], tmp_path: Path
) -> None:
    said = "\n  ".join(f"- {{treat: soap, squares: A1, {keys}}}" for keys in lines) or "[]"
    assert first_safe(laid(_one_line(said), tmp_path).waiting.waits) == told


def _one_line(line: str, **more: str) -> Story:
    return Story(
        name="-",
        rule="-",
        plan=SPINACH,
        log={"2024-05-09": line, **more},
        planting="SP1",
        safe=None,
        inside_from=day("2024-05-09"),
    )


def test_re_entry_that_is_not_written_lasts_until_the_plants_are_recorded_as_cleared(tmp_path: Path):
    story = _one_line(
        "- {treat: soap, squares: A1, wait: 0 days}",
        **{"2024-06-20": "- {clear: spinach, tag: SP1, squares: A1:B2}"},
    )
    (kept,) = laid(story, tmp_path).waiting.keep_offs
    assert kept.rule.first_day is None
    assert kept.is_open(date(2024, 6, 19))
    assert not kept.is_open(date(2024, 6, 20))


def test_nobody_keeps_off_after_what_has_no_label(tmp_path: Path):
    assert laid(_one_line("- {treat: hose, squares: A1, kind: water}"), tmp_path).waiting.keep_offs == ()


PICKINGS = (
    ("a square inside", "{date: 2024-06-12, crop: spinach, squares: A1, weight: 1 oz}", True),
    ("another square", "{date: 2024-06-12, crop: spinach, squares: B1, weight: 1 oz}", False),
    ("no square told", "{date: 2024-06-12, crop: spinach, weight: 1 oz}", True),
    ("its tag", "{date: 2024-06-12, tag: SP1, weight: 1 oz}", True),
    ("another planting's tag", "{date: 2024-06-12, tag: SP2, weight: 1 oz}", False),
    ("another crop", "{date: 2024-06-12, crop: kale, weight: 1 oz}", False),
    ("a mixed bowl with it", "{date: 2024-06-12, mixed: [kale, spinach], weight: 1 oz}", True),
    ("the last day inside", "{date: 2024-06-16, crop: spinach, weight: 1 oz}", True),
    ("the first safe day", "{date: 2024-06-17, crop: spinach, weight: 1 oz}", False),
    ("the day of the treatment", "{date: 2024-06-10, crop: spinach, weight: 1 oz}", True),
    ("the day before", "{date: 2024-06-09, crop: spinach, weight: 1 oz}", False),
)


@pytest.mark.parametrize(("row", "told"), [row[1:] for row in PICKINGS], ids=[row[0] for row in PICKINGS])
def test_a_picking_that_may_come_from_inside_counts_as_inside(row: str, told: bool, tmp_path: Path):
    more = "- {crop: spinach, tag: SP2, squares: E1, sow: Apr 1, until: Aug 1}\n"
    story = Story(
        name="-",
        rule=LABEL,
        plan=SPINACH + more,
        log={"2024-06-10": "- {treat: soap, squares: A1, wait: 7 days}"},
        planting="SP1",
        safe=day("2024-06-17"),
        inside_from=day("2024-06-10"),
    )
    (tmp_path / "content" / "2024").mkdir(parents=True)
    (tmp_path / "content" / "2024" / "harvest.yaml").write_text(f"- {row}\n")
    assert bool(laid(story, tmp_path).waiting.inside) is told


def test_a_picking_from_inside_two_waits_is_told_with_what_each_was_and_when(tmp_path: Path):
    """The year too: a wait may be of a season before."""
    sprays = "- {treat: soap, squares: A1, wait: 7 days}\n  - {treat: oil, squares: A1, wait: 9 days}"
    (tmp_path / "content" / "2024").mkdir(parents=True)
    row = "- {date: 2024-05-10, tag: SP1, weight: 1 oz}\n"
    (tmp_path / "content" / "2024" / "harvest.yaml").write_text(row)
    (waits,) = laid(_one_line(sprays), tmp_path).waiting.inside.values()
    said = "SP1 in b/A1, treated with {} on 9 May 2024"
    assert may_be_from(waits) == " and ".join(said.format(one) for one in ("soap", "oil"))


def test_an_entry_that_waits_keeps_its_treatment(tmp_path: Path) -> None:
    story = _one_line("- {treat: soap, squares: A1, wait: 7 days}")
    laid(story, tmp_path)
    path = tmp_path / "content" / "2024" / "log" / "2024-05-09-visit.md"
    path.write_text(path.read_text().replace("title: T\n", "title: T\nunfinished: yes\n"))
    assert list(_open(tmp_path, date(2024, 5, 15)))
    assert not list(_open(tmp_path, date(2024, 5, 16)))


def _open(folder: Path, on: date) -> Iterator[str]:
    """The plantings that wait on a day, as the public sees the garden."""
    garden = read_garden(folder)
    years = Years(garden=readable(garden, date(2024, 11, 30)), today=date(2024, 11, 30))
    year = years.named("2024")
    assert year is not None
    return (one.planting for one in year.waiting.waits if one.is_open(on))
