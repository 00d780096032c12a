"""A log entry: its header, and the lines of ``done``."""

from __future__ import annotations

from datetime import date

from tallybed.garden.days import in_full
from tallybed.garden.naming import CropName
from tallybed.garden.records.log import CROP_VERBS, Entry, Event, FurtherReading, Photo, Shown, Verb
from tallybed.reading.base.context import CROP, Context
from tallybed.reading.base.mappings import Key, KeyedValues, Shape, take
from tallybed.reading.base.problems import quoted
from tallybed.reading.base.scanners import as_it_stands, every, rows, said, spoken
from tallybed.reading.shapes.common import (
    CROP_NAME,
    DAY,
    HOLD_UNTIL,
    LINE,
    MOST_PLANTS,
    NOTE_KEY,
    SHARE,
    SILENCE,
    TAG,
    TITLE_LINE,
    UNFINISHED,
    count,
    held_until,
    refuse_crowd,
    room,
    some_squares,
)
from tallybed.reading.shapes.safety.treatment import HEAT, OF_MANURE, OF_TREATMENT, manure, printed, treatment
from tallybed.reading.text import dates, measures, texts
from tallybed.reading.text.file_names import IDENTITY as ENTRY_IDENTITY
from tallybed.reading.text.file_names import entry_identity
from tallybed.reading.text.squares import SQUARES, wanted
from tallybed.reading.text.water import water
from tallybed.reading.yaml.headers import HeadedFile
from tallybed.reading.yaml.nodes import Node

SQUARES_KEY = Key("squares", some_squares, SQUARES)
TAG_KEY = Key("tag", TAG, texts.TAG)
CROP_KEY = Key("crop", CROP_NAME, CROP)
VARIETY = Key("variety", LINE, "the variety’s name")
PLANTS = Key("plants", count(1, MOST_PLANTS), measures.WHOLE)
LEAVING = Key("leaving", count(0, MOST_PLANTS), measures.WHOLE)
SEEDS = Key("seeds", count(), measures.WHOLE)
AMONG = Key("among", LINE, "a tag or a crop")
SHARE_KEY = Key("share", SHARE, measures.SHARE)
TO = Key("to", some_squares, SQUARES)
AMOUNT = Key("amount", LINE, "an amount such as 10 gal, 1/2 in or two buckets")
MINUTES = Key("minutes", count(), measures.WHOLE)
PEOPLE = Key("people", count(), measures.WHOLE)
BECAUSE = Key("because", TITLE_LINE, texts.LINE)
DETAILS = (
    SQUARES_KEY,
    TAG_KEY,
    CROP_KEY,
    VARIETY,
    PLANTS,
    LEAVING,
    SEEDS,
    AMONG,
    SHARE_KEY,
    TO,
    AMOUNT,
    MINUTES,
    PEOPLE,
    BECAUSE,
    *OF_TREATMENT,
    *OF_MANURE,
    NOTE_KEY,
    SILENCE,
)
CROP_VERB = {verb: Key(verb.value, CROP_NAME, CROP, never_empty=True) for verb in CROP_VERBS}
OTHER_VERB = {
    verb: Key(verb.value, LINE, "what it was done to or with", never_empty=True)
    for verb in set(Verb) - CROP_VERBS
}
_VERBS = "a verb such as sow, thin or clear"
_INSTEAD = {
    **dict.fromkeys(
        ("harvest", "harvested", "pick", "picked"), "what was picked is a weighing in harvest.yaml"
    ),
    **dict.fromkeys(
        ("plant", "planted", "transplant", "transplanted"), "write sow for seed, set out for young plants"
    ),
    **dict.fromkeys(("spray", "sprayed"), "write treat"),
    **dict.fromkeys(("fertilize", "fertilized", "fertilise", "fertilised", "fertilizer"), "write feed"),
}
EVENT = Shape(
    "a line of “done”",
    (*(CROP_VERB.get(verb) or OTHER_VERB[verb] for verb in Verb), *DETAILS),
    hint=f"{_VERBS}, or a detail such as squares, tag, plants or note",
    instead=_INSTEAD,
)

TITLE = Key("title", TITLE_LINE, texts.LINE, required=True)
DATE = Key("date", DAY, dates.DATE)
BY = Key("by", LINE, "who was there")
FILE = Key("file", LINE, "a file’s name in the season’s photos folder", required=True)
ALT = Key("alt", LINE, "what the photograph shows, in words", required=True)
CAPTION = Key("caption", TITLE_LINE, "what stands below it")
CREDIT = Key("credit", LINE, "who took it")
LICENCE = Key("licence", LINE, "terms by name, such as CC BY 4.0")
SOURCE = Key("source", said(texts.address, texts.ADDRESS), texts.ADDRESS)
SHOWN = "a tag or a crop"


def _shown(text: str, context: Context) -> Shown:
    """Read what a photograph shows: a tag, which has a digit, or a crop’s name. Raises Misread."""
    known = context.slugs(text)
    if not known and texts.is_tag(text):
        return Shown(tag=texts.tag(text))
    return Shown(crop=context.crop(text))


SHOWS = Key("shows", every(spoken(_shown, SHOWN), SHOWN), "a list of tags and crops")
SHOWS_PEOPLE = Key("shows people", said(measures.yes_no, measures.YES_NO), measures.YES_NO)
CONSENT = Key("consent", said(measures.yes_no, measures.YES_NO), measures.YES_NO)
ABOUT_IT = (CAPTION, CREDIT, LICENCE, SOURCE, SHOWS, SHOWS_PEOPLE, CONSENT)
PHOTO = Shape("a photograph", (FILE, ALT, *ABOUT_IT))
ALT_LATER = Key("alt", LINE, ALT.expected)
DRAFT_PHOTO = Shape(PHOTO.what, (FILE, ALT_LATER, *ABOUT_IT))
"""In an entry that is still being written the words may be missing yet."""
READING_TITLE = Key("title", TITLE_LINE, texts.LINE, required=True)
ADDRESS = Key("address", said(texts.address, texts.ADDRESS), texts.ADDRESS, required=True)
READING = Shape("a thing to read", (READING_TITLE, ADDRESS))


def _photo(node: Node, context: Context, *, draft: bool) -> Photo:
    """Read what an entry says of a photograph; a draft's may lack some of it. Raises LeftOut."""
    row = take(node, DRAFT_PHOTO if draft else PHOTO, context)
    row.finish()
    name = row[FILE]
    if "/" in name or "\\" in name or name.startswith("."):
        found = f"{quoted(name)} is not the bare name of a file"
        expected = f"a name such as peas.jpg, in content/{context.season}/photos/"
        row.wrong(FILE, "photo-name", found, expected=expected)
    row.finish()
    return Photo(
        file=name,
        alt=row.get(ALT) or "",
        caption=row.get(CAPTION) or "",
        credit=row.get(CREDIT) or "",
        licence=row.get(LICENCE) or "",
        source=row.get(SOURCE) or "",
        shows=row.get(SHOWS) or (),
        people=row.get(SHOWS_PEOPLE) or False,
        consent=row.get(CONSENT),
        place=row.place,
    )


def _reading(node: Node, context: Context) -> FurtherReading:
    """Read a title with its address, for further reading. Raises LeftOut."""
    row = take(node, READING, context)
    row.finish()
    return FurtherReading(title=row[READING_TITLE], address=row[ADDRESS])


DONE = Key("done", as_it_stands, "a list of what was done")
PHOTOS = Key("photos", as_it_stands, "a list of photographs")
FURTHER = Key("further reading", rows(_reading), "a list of titles with their addresses")
CHANGED = Key("changed", said(dates.with_year, dates.WITH_YEAR), dates.WITH_YEAR)
IDENTITY = Key("identity", said(entry_identity, ENTRY_IDENTITY), ENTRY_IDENTITY)
ENTRY = Shape(
    "an entry’s header",
    (TITLE, DATE, BY, UNFINISHED, HOLD_UNTIL, CHANGED, IDENTITY, DONE, PHOTOS, FURTHER),
)

_VERB_NAMES = frozenset(verb.value for verb in Verb)


def _verb(row: KeyedValues) -> Verb | None:
    """Return the line's one verb; tells where none or several stand there."""
    found = [Verb(name.text) for name, _value in row.node.pairs if name.text in _VERB_NAMES]
    if not found and not row.broken:
        row.wrong(
            row.place,
            "no-verb",
            "the line does not say what was done",
            expected=_VERBS,
        )
    for verb in found[1:]:
        place = next(name.place for name, _value in row.node.pairs if name.text == verb)
        text = f"the line has two verbs, {quoted(found[0])} and {quoted(verb)}"
        row.wrong(place, "two-verbs", text, remedy="write two lines")
    return found[0] if found else None


def event(node: Node, context: Context, day: date) -> Event:
    """Read one line of ``done``. ``among`` stays as typed until the season is known. Raises LeftOut."""
    row = take(node, EVENT, context)
    verb = _verb(row)
    row.finish()
    assert verb is not None  # without a verb the row is broken
    crop, subject = _object(row, verb)
    if verb.meaning.moves and not row.has(TO):
        found = "the line does not say where the plants were moved to"
        row.wrong(row.place, "missing-key", found, expected=f"to: {wanted(row.context.beds)}")
    if crop is not None:
        ground = (*(row.get(SQUARES_KEY) or ()), *(row.get(TO) or ()))
        refuse_crowd(row, SQUARES_KEY, room(context, ground, context.spacings.get(crop.slug or "")))
    row.finish()
    treated = treatment(row, verb)
    return Event(
        verb=verb,
        day=day,
        subject=printed(subject, treated),
        crop=crop,
        squares=row.get(SQUARES_KEY) or (),
        tag=row.get(TAG_KEY) or "",
        variety=row.get(VARIETY) or "",
        plants=row.get(PLANTS),
        leaving=row.get(LEAVING),
        seeds=row.get(SEEDS),
        to=row.get(TO) or (),
        among=row.get(AMONG) or "",
        share=row.get(SHARE_KEY),
        amount=row.get(AMOUNT) or "",
        water=water(row.get(AMOUNT) or "") if verb is Verb.WATER else None,
        treatment=treated,
        manure=manure(row, verb),
        heat=row.get(HEAT) or "",
        minutes=row.get(MINUTES),
        people=row.get(PEOPLE) or 1,
        because=row.get(BECAUSE) or "",
        note=row.get(NOTE_KEY) or "",
        silence=row.get(SILENCE) or (),
        place=row.place,
    )


def _object(row: KeyedValues, verb: Verb) -> tuple[CropName | None, str]:
    """Return the crop a line speaks of, if any, and the verb's object as typed."""
    given = row.get(CROP_KEY)
    if verb not in CROP_VERB:
        subject = row.get(OTHER_VERB[verb]) or ""
        slugs = row.context.slugs(subject)
        return given or (row.context.crop(subject) if slugs else None), subject
    crop = row.get(CROP_VERB[verb])
    if crop and given and not given.may_be(crop):
        found = f"the line names two crops, {quoted(crop.typed)} and {quoted(given.typed)}"
        row.wrong(CROP_KEY, "two-crops", found, remedy="keep one of them")
    return crop, crop.typed if crop else ""


def entry(page: HeadedFile, context: Context, day: date | None, slug: str) -> Entry:
    """Read an entry. ``day`` is the date its file name begins with, if it does. Raises LeftOut.

    A broken line of ``done`` is left out; the rest of the entry is kept.
    """
    row = take(page.header, ENTRY, context)
    given = row.get(DATE)
    if given and day and given != day:
        found = f"the header’s date {given} is not that of the file’s name, {day}"
        row.wrong(DATE, "date-not-file-name", found, remedy="correct one of them")
    if not row.has(DATE) and day and context.bounded and day not in context.span:
        found = f"the date {day} of the file’s name lies outside the season"
        expected = f"a day from {in_full(context.span.first)} to {in_full(context.span.last)}"
        row.wrong(row.place, "date-outside-season", found, expected=expected)
    if not row.has(DATE) and day is None:
        row.broken = True  # the file's name has been told
    when = given or day or context.span.first
    lines = row.get(DONE)
    done = () if lines is None else rows(lambda node, here: event(node, here, when))(lines, context)
    shots, draft = row.get(PHOTOS), row.get(UNFINISHED) or False
    photos = () if shots is None else rows(lambda node, here: _photo(node, here, draft=draft))(shots, context)
    hold_until = held_until(row, given or day)
    changed = _changed(row, given or day)
    row.finish()
    return Entry(
        slug=slug,
        day=when,
        title=row[TITLE],
        by=row.get(BY) or "",
        done=done,
        photos=photos,
        further=row.get(FURTHER) or (),
        prose=page.prose,
        prose_begins=page.begins,
        unfinished=draft,
        hold_until=hold_until,
        changed=changed,
        identity=row.get(IDENTITY) or "",
        place=row.place,
    )


def _changed(row: KeyedValues, day: date | None) -> date | None:
    """Return the day on which an entry was last changed; tells where that is before the visit."""
    changed = row.get(CHANGED)
    if changed is not None and day is not None and changed < day:
        row.wrong(
            CHANGED,
            "changed-before",
            f"it was changed on {changed}, before its own day, {day}",
            expected="that day or a later one, or no such key",
        )
    return changed
