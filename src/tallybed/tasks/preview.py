"""The preview as a writing desk: what a build found beside its pages, and a form that weighs in.

Like ``building`` and ``weighing``, which it calls, it brings tiers together.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from contextlib import suppress
from datetime import date
from pathlib import Path

from tallybed.garden.squares import in_words
from tallybed.pages.frame.file_pages import newest_entry, whereabouts
from tallybed.publishing.assets import OWN, shipped_folder
from tallybed.publishing.swap.disk import BusyError
from tallybed.publishing.swap.handoff import repair
from tallybed.reading.base.problems import LeftOut, Misread
from tallybed.reading.scale.line import MOST
from tallybed.reading.scale.vocabulary import Vocabulary
from tallybed.reading.text import dates, measures, texts
from tallybed.server import loop as serving
from tallybed.server.findings_panel import News
from tallybed.server.lan import own_address
from tallybed.server.weigh_form import Asked, Heard, Typed, Wrong
from tallybed.tasks.build import CONTENT, GARDEN_FILE, SITE, BrokenError, UsageError, build, require_garden
from tallybed.tasks.weigh import MisheardError, Scale, Slip, scale


def preview(
    root: Path,
    port: int,
    say: Callable[[str], None],
    today: Callable[[], date],
    *,
    lan: bool = False,
    address: str = "",
) -> None:
    """Serve the garden's site with its desk until Ctrl-C, built anew at each change.

    Nothing is written to the garden but weighings that somebody agreed to. With ``lan``
    devices of the network can come in, at ``address`` or the one this machine has there.
    ``say`` gets each line for the terminal. Raises UsageError where root is no garden
    folder, OSError where the machine fails.
    """
    require_garden(root)
    with suppress(BusyError):
        repair(root / SITE)
    serving.preview(
        lambda folder: _news(root, folder),
        (root / CONTENT, root / OWN, shipped_folder()),
        port,
        say,
        scales=GardenScales(root, today),
        lan=own_address(address) if lan else "",
    )


def _news(root: Path, folder: Path) -> News:
    built = build(root, folder, drafts=True)
    if built.site is None:
        return News(findings=built.findings)
    return News(findings=built.findings, places=whereabouts(built.site), newest=newest_entry(built.site))


class GardenScales:
    """A garden's ledger as the form weighs into it, read anew each time: it may have changed meanwhile."""

    def __init__(self, root: Path, today: Callable[[], date]) -> None:
        self._root = root
        self._today = today

    def today(self) -> str:
        """See ``weighform.Scales``."""
        return self._today().isoformat()

    def ripe(self) -> tuple[tuple[str, str], ...]:
        """See ``weighform.Scales``."""
        try:
            at = scale(self._root, self._today())
        except (UsageError, OSError):
            return ()
        with_bed = len(at.garden.beds) > 1
        found = []
        for one in at.ripe():
            name = at.garden.crop(one.crop.slug).name if one.crop.slug else one.crop.typed
            parts = (name, one.variety, one.tag, f"in {in_words(one.squares, with_bed=with_bed)}")
            found.append((one.tag or name, " ".join(part for part in parts if part)))
        return tuple(dict(found).items())

    def hear(self, typed: Typed) -> Heard | Asked | Wrong:
        """See ``weighform.Scales``."""
        answer = self._heard(typed)
        if isinstance(answer, tuple):
            at, slip = answer
            return _heard(at, slip)
        return answer

    def write(self, typed: Typed, row: str) -> Heard | Wrong:
        """See ``weighform.Scales``."""
        answer = self._heard(typed)
        if not isinstance(answer, tuple) or answer[1].row != row:
            return Wrong(whole="The garden's files have changed since this was shown. Look at it again.")
        at, slip = answer
        heard = _heard(at, slip)
        try:
            at.write([slip])
        except MisheardError as error:
            return Wrong(whole=str(error))
        except OSError as error:
            return Wrong(whole=f"The ledger could not be written: {error.strerror or error}")
        return heard

    def _heard(self, typed: Typed) -> tuple[Scale, Slip] | Asked | Wrong:
        try:
            at = scale(self._root, dates.with_year(typed.day))
        except Misread as misread:
            return Wrong(by_field={"day": _sentence(misread.sentence)})
        except BrokenError:
            return Wrong(whole=f"{GARDEN_FILE} cannot be understood. Mend it first.")
        except UsageError:
            return Wrong(by_field={"day": "No season of this garden holds that day."})
        except OSError as error:
            return Wrong(whole=f"The garden could not be read: {error.strerror or error}")
        asked: list[Asked] = []

        def ask(question: str, choices: Sequence[str]) -> int | None:
            asked.append(Asked(words=question, choices=tuple(choices)))
            return choices.index(typed.choice) if typed.choice in choices else None

        try:
            return at, at.hear(_line(typed), ask)
        except MisheardError as error:
            return asked[0] if asked else _wrong(typed, at.vocabulary, str(error))


def _heard(at: Scale, slip: Slip) -> Heard:
    return Heard(
        words=slip.words,
        row=slip.row,
        ledger=at.ledger,
        doubt=slip.doubt,
        running=tuple((one.of, one.before, one.after) for one in at.running([slip])),
    )


def _line(typed: Typed) -> str:
    """Return the fields as one line said at the scale."""
    parts = [
        typed.what,
        f"count {typed.count}" if typed.count else "",
        typed.weight,
        typed.squares,
        f"to {typed.to}" if typed.to else "",
        f"note {typed.note}" if typed.note else "",
    ]
    return " ".join(part for part in parts if part)


def _wrong(typed: Typed, vocabulary: Vocabulary, whole: str) -> Wrong:
    """Return what is wrong with each field by itself; with none, what was said of the whole."""
    found = {}
    for name, scan in _SCANS.items():
        text = getattr(typed, name)
        if text:
            try:
                scan(text, vocabulary)
            except Misread as misread:
                found[name] = _sentence(misread.sentence)
            except LeftOut:
                continue
    if not typed.what:
        found["what"] = "Say what was picked."
    if not typed.weight and "no weight" in whole:
        found["weight"] = "Say what it weighed, or: not weighed."
    return Wrong(by_field=found) if found else Wrong(whole=_sentence(whole))


def _what(text: str, vocabulary: Vocabulary) -> object:
    return text.upper() in vocabulary.tags or "+" in text or vocabulary.what(text)


_SCANS: dict[str, Callable[[str, Vocabulary], object]] = {
    "what": _what,
    "weight": lambda text, _talk: measures.weighing(text),
    "squares": lambda text, vocabulary: vocabulary.places(text),
    "count": lambda text, _talk: measures.whole(1, MOST)(text),
    "to": lambda text, _talk: texts.line(text),
    "note": lambda text, _talk: texts.line(text),
}
"""How each field is read by itself."""


def _sentence(text: str) -> str:
    return f"{text[:1].upper()}{text[1:]}" + ("" if text.endswith((".", "?", ")")) else ".")
