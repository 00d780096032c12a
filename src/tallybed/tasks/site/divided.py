"""A site's files, made by several processes where the machine has processors for them."""

from __future__ import annotations

from collections.abc import Iterable

from tallybed.pages.frame.links import links_asked
from tallybed.publishing.swap.handoff import NewSite
from tallybed.reckoning.year import Years
from tallybed.tasks.site.beside import Beside, Turns, processes_beside
from tallybed.tasks.site.kept import Kept
from tallybed.tasks.site.laid_out import LaidOut
from tallybed.tasks.site.making import Made, Put, make_closed, make_rest


def make_divided(new: NewSite, laid: LaidOut, years: Years, put: Put) -> tuple[Made, Kept]:
    """Give a new site all its files, through ``put`` where this process makes them. Raises OSError.

    Closed seasons know nothing of one another's pages, so each goes to whichever process is free next;
    this one makes all other files first. Returns also what is to be kept of the closed seasons.
    """
    many = len(years.closed.own) if years.closed else 0
    turns = Turns(many)
    others: list[Beside[tuple[Made, Kept]]] = []
    try:
        others.extend(
            Beside(lambda: _closed_files(new, laid, years, new.put, turns))
            for _one in range(min(many, processes_beside()))
        )
        rest = make_rest(laid, years, put)
        for year in years.own:
            year.forget()  # beside closed seasons it would be too much of a large garden
        shares = [_closed_files(new, laid, years, put, turns)]
        for one in others:
            shares.append(one.result())
            new.add(shares[-1][1].files)
    finally:
        for one in others:
            one.end()
        turns.end()
    made = [*(made for made, _kept in shares), rest]
    found = Made(
        findings=[finding for one in made for finding in one.findings],
        cards=frozenset().union(*(one.cards for one in made)),
    )
    return found, Kept(
        files={path: digest for _made, kept in shares for path, digest in kept.files.items()},
        links={asked: target for _made, kept in shares for asked, target in kept.links.items()},
    )


def _closed_files(
    new: NewSite, laid: LaidOut, years: Years, put: Put, turns: Iterable[int]
) -> tuple[Made, Kept]:
    """Make the files of closed seasons whose turn it is here; return what is to be kept of them too."""
    before = set(new.hashes)
    made = make_closed(laid, years, put, turns)
    files = {path: digest for path, digest in new.hashes.items() if path not in before}
    return made, Kept(files=files, links=links_asked(years.closed or years))
