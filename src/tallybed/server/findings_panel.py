"""What the preview puts beside a page: the findings of the files it was made from, and ways to work on."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from tallybed.garden.findings import Finding, Severity, capital
from tallybed.pages.frame.file_pages import page_of
from tallybed.server.own_pages import written


@dataclass(frozen=True, slots=True, kw_only=True)
class News:
    """What is known after a build."""

    findings: tuple[Finding, ...] = ()
    places: Mapping[str, str] = field(default_factory=dict)
    """The page of each file, of the site that is shown."""
    newest: str = ""
    """The page of the newest entry."""
    trouble: str = ""
    """Why no site could be made, where it was not the content's fault."""
    looking: bool = False
    """Whether doubts are still looked for, so that finding none says nothing yet."""
    ended: bool = False
    """Whether the build that tells it has ended."""

    @property
    def open(self) -> bool:
        """Whether it is open what there is to correct: still looked for, or never looked at."""
        return self.looking or bool(self.trouble)

    @property
    def errors(self) -> tuple[Finding, ...]:
        """The findings that keep a new site from being shown."""
        return tuple(one for one in self.findings if one.severity is Severity.ERROR)


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelFinding:
    """A finding as the panel shows it."""

    severity: str
    where: str
    """``content/2026/plan.yaml, line 34``"""
    found: str
    more: str
    """What was expected, and what to do."""
    page: str
    """The page it concerns."""


def told(finding: Finding, places: Mapping[str, str]) -> PanelFinding:
    """Return a finding in words, with its page."""
    more = [f"Expected: {finding.expected}." if finding.expected else ""]
    more.append(f"Did you mean {finding.nearest}?" if finding.nearest else "")
    more.append(f"{capital(finding.remedy)}." if finding.remedy else "")
    place = finding.place
    return PanelFinding(
        severity=str(finding.severity),
        where=f"{place.file}, line {place.line}" if place.file else "",
        found=f"{capital(finding.found)}.",
        more=" ".join(part for part in more if part),
        page=page_of(place.file, places),
    )


def beside(path: str, news: News, version: str, *, weighing: bool) -> str:
    """Return the markup that goes before the end of a page, which lies at ``path`` of the site."""
    every = [told(one, news.places) for one in news.findings]
    errors = [told(one, news.places) for one in news.errors]
    return written(
        "beside.html",
        version=version,
        here=[one for one in every if one.page == path and one.severity != Severity.ERROR],
        errors=errors,
        trouble=news.trouble,
        number=len(every),
        open=news.open,
        newest=news.newest,
        weighing=weighing,
        path=path,
    )


def by_page(news: News) -> Iterable[tuple[str, tuple[PanelFinding, ...]]]:
    """Return every finding under its page, pages in order of their first finding."""
    found: dict[str, list[PanelFinding]] = {}
    for one in news.findings:
        words = told(one, news.places)
        found.setdefault(words.page, []).append(words)
    return [(page, tuple(every)) for page, every in found.items()]
