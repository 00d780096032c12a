"""The feed as an Atom file.

Source: RFC 4287, The Atom Syndication Format. A visit has a date and no hour, so its time
is noon of that date with the garden's own offset; an entry was last changed on the day
that its header says.
"""

from __future__ import annotations

from collections.abc import Iterable
from io import StringIO

from feedgenerator import Atom1Feed

from tallybed.pages.files.feed import Feed
from tallybed.publishing.files.noon import noon


def atom(feed: Feed, contents: Iterable[str]) -> bytes:
    """Return a feed as an Atom file; ``contents`` holds the markup of each item, in order."""
    told = Atom1Feed(
        title=feed.title,
        link=feed.address,
        description="",
        subtitle=feed.subtitle,
        language=feed.language,
        author_name=feed.author,
        author_link=feed.address,
        feed_url=feed.own_address,
        feed_guid=feed.ident,
        feed_copyright=feed.rights or None,
    )
    for item, content in zip(feed.items, contents, strict=True):
        told.add_item(
            title=item.title,
            link=item.address,
            description=item.summary,
            content=content,
            unique_id=item.ident,
            author_name=item.by or None,
            pubdate=noon(item.day, feed.time_zone),
            updateddate=noon(item.changed or item.day, feed.time_zone),
        )
    out = StringIO()
    told.write(out, "utf-8")
    return f"{out.getvalue()}\n".encode()
