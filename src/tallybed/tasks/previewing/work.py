"""What a preview does at a change: it reads the garden, shows pages made of that at once, and builds."""

from __future__ import annotations

from pathlib import Path

from tallybed.garden.findings import Finding, Severity, has_errors, sorted_findings
from tallybed.server.findings_panel import News
from tallybed.server.following import Building, Look
from tallybed.tasks.base.errors import UsageError
from tallybed.tasks.base.garden import require_garden
from tallybed.tasks.previewing.apart import Apart
from tallybed.tasks.previewing.early import EarlySite
from tallybed.tasks.site.laid_out import Before, LaidOut, laid_out


class GardenWork:
    """The work on one garden folder, change after change."""

    def __init__(self, root: Path) -> None:
        self._root = root
        self._before = Before()
        self._told: tuple[Finding, ...] = ()
        """What the last build told."""
        self._good: EarlySite | None = None
        """The last site without errors, until a build has written it or a newer one."""
        self._earlier: EarlySite | None = None
        """The one before it, should a template turn out to be at fault when all its pages are made."""

    def look(self) -> Look:
        """Read the garden and return what can be shown of it now. Raises OSError."""
        try:
            require_garden(self._root)
        except UsageError as error:
            raise FileNotFoundError(str(error)) from error
        laid = laid_out(self._root, drafts=True, before=self._before, doubts=False)
        self._before = Before(reading=laid.reading, years=laid.years or self._before.years)
        if laid.years is None:
            if self._good is not None and laid.understood is not None:
                self._good.warn(laid.understood)
            return Look(news=News(findings=self._known(laid), looking=True), pages=self._good)
        if self._good is not None and not self._good.flawed:
            self._earlier = self._good
        self._good = EarlySite(laid, laid.years)
        return Look(
            news=News(
                findings=self._known(laid),
                places=self._good.places,
                newest=self._good.newest,
                looking=True,
            ),
            pages=self._good,
        )

    def build(self, folder: Path) -> Building:
        """Begin to build the site into a folder. Raises OSError."""
        return Apart(self._root, folder)

    def settle(self, news: News, look: Look) -> Look:
        """Return what is to be shown once a build of what ``look`` saw has ended with ``news``."""
        if news.trouble:
            return Look(news=news, pages=look.pages)
        self._told = news.findings
        if news.errors and look.news.errors:
            return Look(news=news, pages=look.pages)
        self._good, self._earlier = (self._earlier, None) if news.errors else (None, None)
        return Look(news=news, pages=self._good)

    def _known(self, laid: LaidOut) -> tuple[Finding, ...]:
        """Return what is known to be wrong until doubts are looked for again: those of before still stand."""
        now = [one for one in laid.findings if not one.settled]
        before = [one for one in self._told if one.severity is not Severity.ERROR]
        return sorted_findings(now if has_errors(now) else [*now, *before])
