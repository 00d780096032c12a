"""What a page is about, for programs that read it: linked data in the vocabulary of schema.org.

Source of types and properties: schema.org, pages Organization, WebSite, BlogPosting,
ImageObject and Dataset. A place is told in the garden's own public words; latitude and longitude
stay out, since a garden may lie at somebody's home.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from tallybed.garden.garden import Garden
from tallybed.garden.records.log import Entry
from tallybed.pages.drawings.photographs import PhotoItem
from tallybed.pages.frame import addresses
from tallybed.pages.wording import sums
from tallybed.pages.wording.sentences import counted, sentence, span_words
from tallybed.reckoning.harvest.tally import kinds
from tallybed.reckoning.year import Year, Years

Linked = Mapping[str, object]
"""One thing in the vocabulary: property to value."""

_CONTEXT = "https://schema.org"
_KINDS = (("ledger.csv", "text/csv"), ("ledger.json", "application/json"))
"""The ledger's files for reuse, and their media types."""
_HIDDEN = {ord(sign): f"\\u{ord(sign):04x}" for sign in "<>&\u2028\u2029"}
"""Signs that could end a script element or a line of it, as JSON spells them out (RFC 8259, section 7)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LinkedPhoto:
    """A photograph as a part of a thing; the address of its file is known only once it is made ready."""

    name: str
    """What publishing knows it by: ``2026/peas.jpg``."""
    told: Linked


def script(things: Sequence[Linked], address_of: Callable[[str], str | None] = lambda _name: None) -> Markup:
    """Return things as JSON that is safe inside a script element; nothing for none.

    ``address_of`` tells the web address of a photograph by its name; one without is left out.
    """
    if not things:
        return Markup("")
    told = [{"@context": _CONTEXT, **_pictured(one, address_of)} for one in things]
    text = json.dumps(told[0] if len(told) == 1 else told, ensure_ascii=False, indent=1, allow_nan=False)
    return Markup(text.translate(_HIDDEN))  # noqa: S704 - no sign that acts is left


def _pictured(thing: Linked, address_of: Callable[[str], str | None]) -> Linked:
    """Return a thing with those of its photographs that have a web address."""
    photos = thing.get("image")
    if not isinstance(photos, tuple):
        return thing
    addressed = ((one.told, address_of(one.name)) for one in photos)
    images = [{**told, "contentUrl": address} for told, address in addressed if address]
    bare = {name: value for name, value in thing.items() if name != "image"}
    return {**bare, "image": images} if images else bare


def home(years: Years) -> tuple[Linked, ...]:
    """Return the garden and its site."""
    garden = years.garden
    keeper = dict(_keeper(garden))
    if garden.about:
        keeper["description"] = garden.about
    if garden.where:
        keeper["location"] = _place(garden)
    web: dict[str, object] = {"@type": "WebSite", "name": garden.name, "inLanguage": garden.language}
    return (keeper, {**web, **_address(garden, addresses.HOME), **_terms(garden)})


def entry(year: Year, one: Entry, description: str, photos: Sequence[PhotoItem] = ()) -> tuple[Linked, ...]:
    """Return a visit's entry in the log, with its photographs."""
    garden = year.garden
    found: dict[str, object] = {
        "@type": "BlogPosting",
        "headline": one.title,
        "description": description,
        "datePublished": one.day.isoformat(),
        "inLanguage": garden.language,
        "author": _keeper(garden),
        "publisher": _keeper(garden),
        "isPartOf": {
            "@type": "Blog",
            "name": f"Log of {year.name}, {garden.name}",
            **_address(garden, addresses.log(year)),
        },
    }
    if one.changed:
        found["dateModified"] = one.changed.isoformat()
    if photos:
        found["image"] = tuple(LinkedPhoto(name=each.name, told=_photo(each)) for each in photos)
    if one.by:
        # A crew is neither a person nor an organisation that could be named as the author.
        found["creditText"] = one.by
    return ({**found, **_address(garden, addresses.entry(year, one)), **_terms(garden)},)


def _photo(one: PhotoItem) -> Linked:
    """Return what is told of a photograph, its address left out."""
    found: dict[str, object] = {"@type": "ImageObject", "caption": one.caption or one.alt}
    if one.credit:
        found["creditText"] = one.credit
    if one.licence:
        told = {"name": one.licence.text, "url": one.licence.to}
        found["license"] = {"@type": "CreativeWork", **{key: value for key, value in told.items() if value}}
    return found


def ledger(year: Year) -> tuple[Linked, ...]:
    """Return a season's ledger as a set of data; nothing where nothing was weighed."""
    garden, season = year.garden, year.season
    if not any(line.counts for line in year.lines):
        return ()
    last = min(year.today, season.span.last)
    found: dict[str, object] = {
        "@type": "Dataset",
        "name": f"Tally of {year.name}, {garden.name}",
        "description": described(year),
        "temporalCoverage": f"{season.span.first.isoformat()}/{last.isoformat()}",
        "dateModified": last.isoformat(),
        "variableMeasured": [f"weight of produce, in {garden.showing.unit}", "number of pieces"],
        "inLanguage": garden.language,
        "creator": _keeper(garden),
        "isAccessibleForFree": True,
    }
    if garden.where:
        found["spatialCoverage"] = _place(garden)
    if garden.address:
        found["distribution"] = [_download(year, *kind) for kind in _KINDS]
    return ({**found, **_address(garden, addresses.tally(year)), **_terms(garden)},)


def _download(year: Year, name: str, kind: str) -> Linked:
    """Return one of the ledger's files as a thing to download."""
    where = addresses.absolute(year.garden.address, addresses.data_file(year, name))
    return {"@type": "DataDownload", "contentUrl": where, "encodingFormat": kind}


def described(year: Year) -> str:
    """Return in words what a season's ledger holds: 50 to 5,000 characters, whatever the garden is called."""
    garden, total = year.garden, year.total
    span = year.season.span
    crops = counted(kinds(year.sums("crop")), "kind of produce", "kinds of produce")
    first = sentence(
        f"What {garden.name} gave from {span_words(span.first, min(year.today, span.last))}",
        f"{sums.in_words(garden.showing, total)} of {crops} in {counted(total.pickings, 'picking')}",
        "each with its day and, where they were told, its squares, its planting and where it went",
    )
    return " ".join((first, *sums.caveats(garden.showing, total)))


def _keeper(garden: Garden) -> Linked:
    """Return the garden as the organization that keeps its books."""
    return {"@type": "Organization", "name": garden.name, **_address(garden, addresses.HOME)}


def _place(garden: Garden) -> Linked:
    """Return the place where the garden lies."""
    return {"@type": "Place", "name": garden.where}


def _address(garden: Garden, path: str) -> Linked:
    """Return a page's web address as a property; nothing where the garden's is not told."""
    return {"url": addresses.absolute(garden.address, path)} if garden.address else {}


def _terms(garden: Garden) -> Linked:
    """Return the licence: a work with a name and an address, as far as they are told."""
    told = {"name": garden.licence, "url": garden.licence_address}
    known = {name: value for name, value in told.items() if value}
    return {"license": {"@type": "CreativeWork", **known}} if known else {}
