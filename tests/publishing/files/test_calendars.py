"""Calendars against RFC 5545: by two libraries that read them, and by what neither of them looks at."""

from __future__ import annotations

import warnings
from datetime import date, datetime, timedelta
from pathlib import Path

import icalendar
import pytest

from tallybed.pages.files.calendars import Calendar, Occasion
from tallybed.publishing.files.calendars import calendar_files, written
from tallybed.reckoning.year import Years
from tests.pages.gardens import site_of
from tests.pages.gardens import written as put

with warnings.catch_warnings():
    warnings.simplefilter("ignore")  # the library's own imports are old
    import vobject

GARDEN = """\
name: "Plank, End; and a half ½"
latitude: 41
longitude: -80
season: {{start: Mar 1, end: Oct 31}}
seasons: {{{seasons}}}
address: {address}
beds:
  - {{name: plank, length: 4 squares, width: 2 squares}}
  - {{name: short, length: 2 squares, width: 2 squares}}
"""
PLAN = """\
- {{crop: carrot, tag: CA1, squares: plank/A1, sow: {sow}, until: Aug 1, note: "Thin; early, twice"}}
- {{crop: kale, squares: short/A1:B1, sow indoors: May 1, pot up: May 20, set out: Jul 20}}
- {{crop: kale, squares: short/A2, set out: Jul 22}}
- {{crop: okra, tag: OK1, squares: plank/C1, sow: Jun 3, until: Sep 1, dropped: May 2, because: cold}}
"""
LOG = """\
---
title: Carrots, at last
date: 2026-05-10
by: the Monday pair
done:
  - {sow indoors: kale, squares: short/A1:B1}
  - {weed: bed, squares: plank}
---
Cold.
"""


def site(
    root: Path, *, sow: str = "May 12", seasons: str = "", address: str = "https://plank.example/beds/"
) -> Years:
    files = {
        "garden.yaml": GARDEN.format(seasons=seasons, address=address),
        "2026/plan.yaml": PLAN.format(sow=sow),
        "2026/log/2026-05-10-carrots-at-last.md": LOG,
    }
    return site_of(put(root, files))


def test_noon_is_the_gardens_own(tmp_path: Path) -> None:
    """Stamps are in universal time; Pacific time is eight hours behind it in winter, seven in summer."""
    zoned = GARDEN.replace("latitude: 41", "time zone: America/Los_Angeles\nlatitude: 41")
    for newest, stamp in (("2026-03-02", "20260302T200000Z"), ("2026-05-10", "20260510T190000Z")):
        files = {
            "garden.yaml": zoned.format(seasons="", address="https://plank.example/"),
            f"2026/log/{newest}-in.md": "---\ntitle: In\n---\nIn.\n",
        }
        found = calendar_files(site_of(put(tmp_path / newest, files)))
        assert f"DTSTAMP:{stamp}" in found["done.ics"].decode()


@pytest.fixture(scope="module")
def small(tmp_path_factory: pytest.TempPathFactory) -> Years:
    return site(tmp_path_factory.mktemp("garden"))


@pytest.fixture(scope="module", params=["small", "the_demo"])
def files(request: pytest.FixtureRequest) -> dict[str, bytes]:
    found = calendar_files(request.getfixturevalue(request.param))
    assert sorted(found) == ["calendar.ics", "done.ics"]
    return found


def events(data: bytes) -> list[icalendar.Event]:
    read_back = icalendar.Calendar.from_ical(data)
    assert isinstance(read_back, icalendar.Calendar)
    return [one for one in read_back.walk("VEVENT") if isinstance(one, icalendar.Event)]


def text_of(event: icalendar.Event, name: str) -> str:
    return str(event.get(name, ""))


def test_icalendar_reads_every_component_without_an_error(files: dict[str, bytes]) -> None:
    for path, data in files.items():
        for component in icalendar.Calendar.from_ical(data).walk():
            assert component.errors == [], path


def test_vobject_finds_it_valid(files: dict[str, bytes]) -> None:
    for data in files.values():
        assert vobject.readOne(data.decode()).validate(raiseException=True)


def test_vobject_would_find_a_calendar_invalid(files: dict[str, bytes]) -> None:
    broken = files["calendar.ics"].decode().replace("DTSTAMP", "X-STAMP", 1)
    with pytest.raises(vobject.base.ValidateError):
        vobject.readOne(broken).validate(raiseException=True)


def test_what_no_reader_looks_at(files: dict[str, bytes]) -> None:
    # RFC 5545: version 3.7.4, line ends and folding 3.1, end after start 3.8.2.2, unique names 3.8.4.7.
    for path, data in files.items():
        text = data.decode("utf-8")
        assert text.startswith("BEGIN:VCALENDAR\r\n"), path
        assert text.endswith("END:VCALENDAR\r\n"), path
        assert "\r\nVERSION:2.0\r\n" in text
        assert "\r\nPRODID:-//Tallybed//" in text
        assert text.count("\n") == text.count("\r") == text.count("\r\n"), f"{path}: a bare line end"
        assert max(map(len, data.split(b"\r\n"))) <= 75, f"{path}: a line of more than 75 octets"
        found = events(data)
        assert found
        names = [text_of(one, "uid") for one in found]
        assert len(names) == len(set(names)), f"{path}: two events of one name"
        for one in found:
            assert one.decoded("dtend") - one.decoded("dtstart") == timedelta(days=1)


def test_those_who_subscribe_are_told_to_ask_once_a_day(files: dict[str, bytes]) -> None:
    """RFC 7986, section 5.7: a duration, with its type said."""
    for text in files.values():
        assert icalendar.Calendar.from_ical(text)["refresh-interval"].dt == timedelta(days=1)
        assert b"\r\nREFRESH-INTERVAL;VALUE=DURATION:P1D\r\n" in text


def test_every_day_is_whole_and_in_no_time_zone(files: dict[str, bytes]) -> None:
    for data in files.values():
        text = data.decode()
        assert "TZID" not in text
        assert "VTIMEZONE" not in text
        starts = [line for line in text.split("\r\n") if line.startswith(("DTSTART", "DTEND"))]
        assert starts
        assert all(line.partition(":")[0].endswith(";VALUE=DATE") for line in starts)
        for one in events(data):
            assert not isinstance(one.decoded("dtstart"), datetime)


def test_it_tells_each_job_to_come_that_the_log_does_not_say_was_done(small: Years) -> None:
    told = [
        (str(one.decoded("dtstart")), text_of(one, "summary"), text_of(one, "location"))
        for one in events(calendar_files(small)["calendar.ics"])
    ]
    # As of 10 May: the kale of the first planting is sown indoors; the okra is dropped.
    assert told == [
        ("2026-03-01", "Season 2026 begins", ""),
        ("2026-10-31", "Season 2026 ends", ""),
        ("2026-05-12", "Sow carrots (CA1)", "A1 of bed plank"),
        ("2026-05-20", "Pot up kale", "A1:B1 of bed short"),
        ("2026-07-20", "Set out kale", "A1:B1 of bed short"),
        ("2026-07-22", "Set out kale", "A2 of bed short"),
        ("2026-08-01", "Clear carrots (CA1)", "A1 of bed plank"),
    ]


def test_an_event_says_by_what_it_is_due_and_leads_to_its_page(small: Years) -> None:
    found = {text_of(one, "uid"): one for one in events(calendar_files(small)["calendar.ics"])}
    one = found["2026-CA1-sow@plank.example/beds"]
    assert text_of(one, "description") == "By the plan of 2026, not yet done by the log.\nThin; early, twice"
    assert text_of(one, "url") == "https://plank.example/beds/2026/plants/CA1/"
    # The newest day on record at noon, never the clock; 1 March to 10 May are 70 days.
    assert one.to_ical().decode().count("DTSTAMP:20260510T120000Z") == 1
    assert one.decoded("sequence") == 70
    assert {"2026-kale-set-out@plank.example/beds", "2026-kale-2-set-out@plank.example/beds"} <= set(found)


def test_the_visits_are_told_with_what_was_done(small: Years) -> None:
    (one,) = events(calendar_files(small)["done.ics"])
    assert text_of(one, "uid") == "2026-visit-2026-05-10-carrots-at-last@plank.example/beds"
    assert text_of(one, "summary") == "Carrots, at last"
    assert text_of(one, "description") == "kale sown indoors; bed weeded\nBy the Monday pair"
    assert text_of(one, "url") == "https://plank.example/beds/2026/log/05-10-carrots-at-last/"


def test_an_event_keeps_its_name_when_its_day_moves(tmp_path: Path) -> None:
    def by_name(root: Path, sow: str) -> dict[str, date]:
        data = calendar_files(site(root, sow=sow))["calendar.ics"]
        return {text_of(one, "uid"): one.decoded("dtstart") for one in events(data)}

    before, after = by_name(tmp_path / "a", "May 12"), by_name(tmp_path / "b", "May 19")
    assert set(before) == set(after)
    moved = {name for name in before if before[name] != after[name]}
    assert moved == {"2026-CA1-sow@plank.example/beds"}


def test_a_visit_keeps_its_name_when_its_file_is_renamed(tmp_path: Path) -> None:
    def visits(root: Path, name: str, told: str = "") -> list[str]:
        text = LOG.replace("date:", f"{told}date:")
        files = {"garden.yaml": GARDEN.format(seasons="", address="https://plank.example/")}
        found = calendar_files(site_of(put(root, files | {f"2026/log/{name}.md": text})))
        return [text_of(one, "uid") for one in events(found["done.ics"])]

    before = visits(tmp_path / "a", "2026-05-10-carrots-at-last")
    identity = "identity: 2026-05-10-carrots-at-last\n"
    assert visits(tmp_path / "b", "2026-05-10-carrots", identity) == before
    assert visits(tmp_path / "c", "2026-05-10-carrots") != before


def test_the_same_records_give_the_same_bytes(tmp_path: Path) -> None:
    assert calendar_files(site(tmp_path / "a")) == calendar_files(site(tmp_path / "b"))


def test_a_garden_without_an_address_names_no_page_and_keeps_to_a_domain_nobody_owns(tmp_path: Path) -> None:
    text = calendar_files(site(tmp_path, address='""'))["calendar.ics"].decode()
    assert "URL" not in text
    # RFC 2606, section 2: .invalid is nobody's.
    assert "UID:2026-CA1-sow@plank\\,-end\\;-and-a-half-½.invalid" in text.replace("\r\n ", "")


def test_a_closed_season_has_no_job_left(tmp_path: Path) -> None:
    past = site(tmp_path, seasons="2026: {closed: yes}")
    assert [text_of(one, "summary") for one in events(calendar_files(past)["calendar.ics"])] == [
        "Season 2026 begins",
        "Season 2026 ends",
    ]


NEXT = """\
- {crop: kale, tag: KA1, squares: short/A1:B1, carried from: 2026, until: May 1}
- {crop: carrot, tag: CA2, squares: plank/C1:D1, sow: Apr 10, until: Aug 1}
"""
LAST_VISIT = """\
---
title: A spray and some manure
date: 2026-10-20
done:
  - {set out: kale, tag: KA1, squares: short/A1:B1}
  - {treat: oil, product: mineral oil, tag: KA1, squares: short/A1:B1, wait: 60 days, re-entry: 12 hours}
  - {amend: horse manure, manure: raw, squares: plank/C1:D1}
---
"""


def over_winter(root: Path, *, closed: bool, **more: str) -> dict[str, bytes]:
    seasons = "2026: {closed: yes}" if closed else ""
    files = {
        "garden.yaml": GARDEN.format(seasons=seasons, address="https://plank.example/beds/"),
        "2026/plan.yaml": "- {crop: kale, tag: KA1, squares: short/A1:B1, set out: Jul 20}\n",
        "2026/log/2026-10-20-last.md": LAST_VISIT,
        "2027/plan.yaml": NEXT,
    }
    return calendar_files(site_of(put(root, files | more)))


@pytest.mark.parametrize("closed", [True, False])
def test_what_waits_between_two_seasons_is_told_once(tmp_path: Path, closed: bool) -> None:
    told = [
        (text_of(one, "summary"), str(one.decoded("dtstart")), text_of(one, "uid").partition("@")[0])
        for one in events(over_winter(tmp_path, closed=closed)["calendar.ics"])
        if "-Do-not-pick-" in one["uid"] or "-Pick-nothing-" in one["uid"]
    ]
    # 120 days from 20 October by 7 CFR 205.203(c), and 60.
    assert told == [
        (
            "First day in C1:D1 of bed plank",
            "2027-02-17",
            "2026-Pick-nothing-that-touches-soil-in-C1:D1-of-bed-plank-2026-10-20",
        ),
        ("First day to pick kale (KA1)", "2026-12-19", "2026-Do-not-pick-KA1-2026-10-20"),
    ]


def test_a_wait_that_reaches_into_the_next_season_stays_the_same_event(tmp_path: Path) -> None:
    long = {"2026/log/2026-10-20-last.md": LAST_VISIT.replace("60 days", "150 days")}
    begun = "---\ntitle: Spring\ndate: 2027-03-05\ndone: [{weed: bed, squares: plank}]\n---\n"
    before = over_winter(tmp_path / "before", closed=True, **long)
    after = over_winter(tmp_path / "after", closed=True, **long, **{"2027/log/2027-03-05-spring.md": begun})

    def kale(found: dict[str, bytes]) -> list[icalendar.Event]:
        return [one for one in events(found["calendar.ics"]) if "pick kale" in text_of(one, "summary")]

    (one,), (other,) = kale(before), kale(after)
    assert one["uid"] == other["uid"]
    assert int(one["sequence"]) < int(other["sequence"]), "a later file wins"


def test_what_was_left_standing_untold_still_waits(tmp_path: Path) -> None:
    """Fails where a wait is told no more once the next season begins and says nothing of the plants."""
    more = {
        "2026/log/2026-10-20-last.md": LAST_VISIT.replace("60 days", "150 days"),
        "2027/plan.yaml": "- {crop: carrot, tag: CA2, squares: plank/C1:D1, sow: Apr 10}\n",
        "2027/log/2027-03-05-spring.md": "---\ntitle: Spring\ndate: 2027-03-05\n---\nCold.\n",
    }
    told = [
        (text_of(one, "summary"), text_of(one, "description").partition(" (")[0])
        for one in events(over_winter(tmp_path, closed=True, **more)["calendar.ics"])
        if str(one.decoded("dtstart")) == "2027-03-19"
    ]
    words = "Pick nothing left of the season before in A1:B1 of bed short before 19 March 2027"
    assert told == [("First day in A1:B1 of bed short", words)]


def test_visits_keep_their_address_until_the_next_season_has_one(tmp_path: Path) -> None:
    weighed = {"2027/harvest.yaml": "- {date: 2027-03-03, crop: kale, weight: 3 oz}\n"}
    for name, more in (("to come", {}), ("begun", weighed)):
        found = over_winter(tmp_path / name, closed=True, **more)
        assert [text_of(one, "summary") for one in events(found["done.ics"])] == ["A spray and some manure"]


def test_without_a_season_there_is_no_calendar(tmp_path: Path) -> None:
    bare = GARDEN.format(seasons="", address="https://plank.example/")
    assert calendar_files(site_of(put(tmp_path, {"garden.yaml": bare}))) == {}


def test_words_that_mean_something_to_a_calendar_come_back_as_they_were() -> None:
    odd = "a;b,c\\d\ne: “½” " + "long " * 30
    day = date(2026, 5, 1)
    one = Occasion(uid="u@x.invalid", day=day, sequence=0, summary=odd, description=odd)
    calendar = Calendar(path="x.ics", name=odd, stamped=day, time_zone="", seasons=(), occasions=(one,))
    data = written(calendar)
    (found,) = events(data)
    assert text_of(found, "summary") == odd
    assert text_of(found, "description") == odd
    # RFC 5545, section 3.3.11: semicolon, comma, backslash and line end of a text are escaped.
    unfolded = data.decode().replace("\r\n ", "")
    assert unfolded.count("a\\;b\\,c\\\\d\\ne: “½”") == 4
