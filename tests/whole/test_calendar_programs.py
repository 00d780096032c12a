"""The calendars in programs that nobody here wrote: one that imports files, and one that subscribes.

khal keeps events by their UID; vdirsyncer fetches an address and keeps a folder like it. Both are Debian's.
"""

from __future__ import annotations

import os
import subprocess
import threading
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

import pytest

from tallybed.publishing.files.calendars import calendar_files
from tests.pages.gardens import site_of, written
from tests.tools import program

GARDEN = """\
name: Plank End
time zone: America/Los_Angeles
season: {start: Mar 1, end: Oct 31}
address: https://plank.example/beds/
beds:
  - {name: plank, length: 4 squares, width: 2 squares}
"""
PLAN = """\
- {{crop: carrot, tag: CA1, squares: plank/A1, sow: {sow}, until: Aug 1}}
- {{crop: kale, tag: KA1, squares: plank/B1, set out: Jul 20, until: Oct 1}}
"""
VISIT = "---\ntitle: {title}\ndate: {day}\ndone: [{{weed: bed}}]\n---\nWords.\n"
KHAL = """\
[calendars]
[[garden]]
path = {folder}/events
[locale]
timeformat = %H:%M
dateformat = %Y-%m-%d
longdateformat = %Y-%m-%d
datetimeformat = %Y-%m-%d %H:%M
longdatetimeformat = %Y-%m-%d %H:%M
local_timezone = America/Los_Angeles
default_timezone = America/Los_Angeles
[sqlite]
path = {folder}/khal.db
"""
VDIRSYNCER = """\
[general]
status_path = "{folder}/status/"
[pair garden]
a = "site"
b = "mine"
collections = null
[storage site]
type = "http"
url = "{address}/calendar.ics"
[storage mine]
type = "filesystem"
path = "{folder}/events/"
fileext = ".ics"
"""


@pytest.fixture(scope="module")
def calendars(tmp_path_factory: pytest.TempPathFactory) -> tuple[bytes, bytes]:
    """The calendar of jobs on 10 May, and on 11 May when a sowing was put off by a week."""
    found = []
    for sow, days in (("May 12", ("2026-05-10",)), ("May 19", ("2026-05-10", "2026-05-11"))):
        log = {f"2026/log/{day}-x.md": VISIT.format(title=f"On {day}", day=day) for day in days}
        files = {"garden.yaml": GARDEN, "2026/plan.yaml": PLAN.format(sow=sow), **log}
        years = site_of(written(tmp_path_factory.mktemp("garden"), files))
        found.append(calendar_files(years)["calendar.ics"])
    return found[0], found[1]


BEFORE = Counter(
    {
        "2026-03-01 Season 2026 begins": 1,
        "2026-05-12 Sow carrots (CA1)": 1,
        "2026-07-20 Set out kale (KA1)": 1,
        "2026-08-01 Clear carrots (CA1)": 1,
        "2026-10-01 Clear kale (KA1)": 1,
        "2026-10-31 Season 2026 ends": 1,
    }
)
AFTER = BEFORE - Counter({"2026-05-12 Sow carrots (CA1)"}) + Counter({"2026-05-19 Sow carrots (CA1)"})


def test_a_calendar_imported_again_holds_each_event_once(
    calendars: tuple[bytes, bytes], tmp_path: Path
) -> None:
    khal = program("khal", remedy="apt-get install khal")
    (tmp_path / "events").mkdir()
    settings = tmp_path / "khal.conf"
    settings.write_text(KHAL.format(folder=tmp_path), encoding="utf-8")

    def held(data: bytes) -> Counter[str]:
        file = tmp_path / "calendar.ics"
        file.write_bytes(data)
        run([khal, "-c", str(settings), "import", "--batch", str(file)], tmp_path)
        listed = ["list", "--once", "--day-format", "", "--format", "{start-date} {title}"]
        return Counter(run([khal, "-c", str(settings), *listed, "2026-01-01", "365d"], tmp_path).splitlines())

    before, after = calendars
    assert held(before) == BEFORE
    assert held(before) == BEFORE
    assert held(after) == AFTER, "the later file moves an event; it adds none"


def test_a_calendar_subscribed_to_holds_each_event_once(
    calendars: tuple[bytes, bytes], tmp_path: Path
) -> None:
    vdirsyncer = program("vdirsyncer", remedy="apt-get install vdirsyncer")
    site = tmp_path / "site"
    site.mkdir()
    (tmp_path / "events").mkdir()
    settings = tmp_path / "vdirsyncer.conf"

    def held(data: bytes) -> Counter[str]:
        (site / "calendar.ics").write_bytes(data)
        run([vdirsyncer, "-c", str(settings), "sync"], tmp_path)
        return Counter(map(told, (tmp_path / "events").glob("*.ics")))

    before, after = calendars
    with serving(site) as address:
        settings.write_text(VDIRSYNCER.format(folder=tmp_path, address=address), encoding="utf-8")
        run([vdirsyncer, "-c", str(settings), "discover"], tmp_path)
        assert held(before) == BEFORE
        assert held(before) == BEFORE
        assert held(after) == AFTER


def test_a_later_file_is_the_newer_one_for_programs_that_compare(calendars: tuple[bytes, bytes]) -> None:
    """RFC 5546, section 2.1.5: the greater SEQUENCE is newer; of two that are equal the later DTSTAMP."""
    before, after = (data.decode().replace("\r\n ", "") for data in calendars)
    # 1 March to 10 May are 70 days. Noon in Los Angeles is 19:00 in universal time then.
    assert before.count("SEQUENCE:70\r\n") == before.count("DTSTAMP:20260510T190000Z") == len(BEFORE)
    assert after.count("SEQUENCE:71\r\n") == after.count("DTSTAMP:20260511T190000Z") == len(BEFORE)


def told(file: Path) -> str:
    """An event's day and summary, off its file."""
    lines = dict(line.split(":", 1) for line in file.read_text(encoding="utf-8").splitlines() if ":" in line)
    day = lines["DTSTART;VALUE=DATE"]
    return f"{day[:4]}-{day[4:6]}-{day[6:]} {lines['SUMMARY']}"


def run(command: list[str], home: Path) -> str:
    """Return what a program says, which must end well; it has no settings but those it is given."""
    env = {"PATH": os.environ["PATH"], "HOME": str(home), "LC_ALL": "C.UTF-8"}
    done = subprocess.run(command, env=env, input="y\n" * 9, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


@contextmanager
def serving(folder: Path) -> Iterator[str]:
    """A folder at an address of this machine, for as long as it is needed."""
    with ThreadingHTTPServer(("127.0.0.1", 0), partial(_Silent, directory=str(folder))) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        yield f"http://127.0.0.1:{server.server_port}"
        server.shutdown()


class _Silent(SimpleHTTPRequestHandler):
    def log_message(self, *_words: object) -> None:
        """Tell nobody of a request."""
