"""Calendars as files (RFC 5545).

DTSTAMP tells when the information was last put right (section 3.8.7.2, for a file that
asks nobody to anything). That is noon of the newest day on record, since the clock would
make each build another file, and would claim news where there is none. SEQUENCE grows with
that day, so that who imports a file again keeps the later one of each event.
"""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import icalendar

from tallybed.garden.days import ONE_DAY
from tallybed.pages.files.calendars import Calendar, Occasion, calendars
from tallybed.publishing.files.noon import noon
from tallybed.reckoning.year import Years

PRODUCT = "-//Tallybed//Tallybed//EN"
_EVERY_DAY = "TRANSPARENT"
"""A job takes no hour of anybody's day."""
_ASKED_ANEW = timedelta(days=1)


def calendar_files(years: Years) -> dict[str, bytes]:
    """Return path and bytes of each calendar."""
    return {one.path: written(one) for one in calendars(years)}


def written(calendar: Calendar) -> bytes:
    """Return a calendar as a file; its lines are ended and folded as section 3.1 asks."""
    file = icalendar.Calendar()
    file.add("version", "2.0")
    file.add("prodid", PRODUCT)
    # The name that RFC 7986 gives a calendar, and the older one that more programs know. The
    # library does not know their type, and would leave the signs that part values as they are.
    file.add("name", icalendar.vText(calendar.name))
    file.add("x-wr-calname", icalendar.vText(calendar.name))
    # How often those who subscribe may ask anew (RFC 7986, section 5.7); it is of use only with its type.
    file.add("refresh-interval", _ASKED_ANEW, parameters={"VALUE": "DURATION"})
    stamp = noon(calendar.stamped, calendar.time_zone).astimezone(UTC)
    for one in calendar.occasions:
        file.add_component(_event(one, stamp))
    return bytes(file.to_ical())


def _event(one: Occasion, stamp: datetime) -> icalendar.Event:
    """Return an occasion as an event of one whole day."""
    event = icalendar.Event()
    event.add("uid", one.uid)
    event.add("dtstamp", stamp)
    event.add("sequence", one.sequence)
    # A date alone lies in no time zone; the end is the day after (section 3.6.1).
    event.add("dtstart", one.day)
    event.add("dtend", one.day + ONE_DAY)
    event.add("summary", one.summary)
    for name, text in (("description", one.description), ("location", one.where), ("url", one.link)):
        if text:
            event.add(name, text)
    event.add("transp", _EVERY_DAY)
    return event
