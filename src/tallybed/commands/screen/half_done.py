"""What a command that was stopped left half done, finished and told before the next one begins."""

from __future__ import annotations

from pathlib import Path

from tallybed.commands.screen.terminal import say
from tallybed.tasks import weigh as weighing


def tell_what_stands(folder: Path) -> None:
    """Finish what a command that was stopped left half done, and say what stands."""
    words = weighing.recovered(folder)
    if words:
        say(f"{words[:1].upper()}{words[1:]}.")
