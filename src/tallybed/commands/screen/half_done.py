"""What a command that was stopped left half done, finished and told before the next one begins."""

from __future__ import annotations

from pathlib import Path

from tallybed.commands.screen.terminal import as_sentence, say
from tallybed.commands.screen.waiting import tell_of_waits
from tallybed.tasks import weigh as weighing


def tell_what_stands(folder: Path) -> None:
    """Finish what a command that was stopped left half done, and say what stands."""
    tell_of_waits()
    words = weighing.recovered(folder)
    if words:
        say(as_sentence(words))
